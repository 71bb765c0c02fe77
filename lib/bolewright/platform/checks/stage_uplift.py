"""Uplift of seats of beams and joists while they are built: a worker past the last one, before anything lies there."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.building import uplift_by_worker
from bolewright.calculation import Calculation
from bolewright.fasteners.rated import hanger_capacity
from bolewright.platform.checks.seats import LIFTS, tie_of
from bolewright.platform.checks.worker import CASES, WORKER, Lifted, beams_alone, lifted_seats
from bolewright.platform.layout.parts import Kind, Member, Seat
from bolewright.platform.layout.tees import stands_alone
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.load_path import LoadPath
from bolewright.units import POUND

MORE = 1e-6  # lb: of two seats lifted alike the first is named, whatever rounding makes of them
NOTE = (
    "One worker of 300 lb with his tools stands at the end of the beam, and nothing but beams lies there yet. The tie "
    "on this seat counts as fastened before anyone stands on the beam. What keeps the beam upright is not counted: the "
    "same worker pulls on it. Else lay the joists next to the other end first, or keep off the end."
)
JOIST_NOTE = (
    "One worker of 300 lb with his tools stands at the tip of the joist before the boards lie there, and no other "
    "joist shares his weight. Its tie or hanger counts as fastened by then. Else lay the boards from the other end, or "
    "keep off the tips."
)


def stage_uplift_checks(path: LoadPath) -> list[Check]:
    """Every seat of a beam that a worker lifts before its joists are on, and of each field of joists, hung or resting,
    the one that he lifts most before the decking is on.

    A beam on one post its foot holds.
    """
    alone = beams_alone(path)
    worst: dict[tuple[str, str], tuple[Member, int, Lifted]] = {}
    for joist in path.layout.joists:
        for i, seat in enumerate(lifted_seats(path, joist, np.zeros_like(alone))):
            kind = joist.field or "", joist.seats[i].connection or ""
            if seat.lift > max(LIFTS, worst[kind][2].lift + MORE if kind in worst else 0.0):
                worst[kind] = joist, i, seat
    return [
        *(
            _check(path, beam, i, seat)
            for beam in path.layout.beams
            if not stands_alone(beam)
            for i, seat in enumerate(lifted_seats(path, beam, alone))
            if seat.lift > LIFTS
        ),
        *(_check(path, *found) for found in worst.values()),
    ]


def _tie(path: LoadPath, beam: Member, seat: Seat, calculation: Calculation) -> tuple[float | None, str]:
    """Rated uplift of what holds a beam down on a seat (lb), and where it is entered.

    What ties its sides against rotation is not counted: the same worker pulls on that (`beam.stage_rotation`).
    """
    support = next((s for s in path.layout.supports if s.mark == seat.below), None)
    if support is not None:
        return support.uplift_tie, f"uplift_tie of {support.mark}"
    tie, entered, C_M = tie_of(path.layout, beam, seat)
    if tie is None or C_M == 1:
        return tie, entered
    return float(calculation.run(hanger_capacity, Z_rated=tie, C_D=1.0, C_M=C_M)), entered


def _check(path: LoadPath, beam: Member, i: int, lifted: Lifted) -> Check:
    seat = beam.seats[i]
    joist = beam.kind is Kind.JOIST
    key = "joist.stage_uplift" if joist else "beam.stage_uplift"
    laid = "the decking is on" if joist else "its joists are on"
    calculation = Calculation((1, len(CASES)))
    tie, entered = _tie(path, beam, seat, calculation)
    if tie is None:
        reason = (
            f"Until {laid}, a worker at the end of {beam.mark} lifts it off {seat.below} by "
            f"{lifted.lift:,.0f} lb. Tie it down there before anyone stands on it and enter the tie's rated load as "
            f"{entered}, or move the supports so that less of it runs out past them."
        )
        return not_checked(beam.mark, key, reason, at=seat.below)
    k = np.array([list(CASES.values())])
    return judge(
        calculation,
        [beam.mark],
        list(CASES),
        key=key,
        at=seat.below,
        demand=calculation.run(uplift_by_worker, W=WORKER, r=lifted.share, k=k, R_D=lifted.weight),
        capacity=tie,
        unit=POUND,
        says=f"uplift on its tie at {seat.below} by a worker before {laid}",
        notes=(JOIST_NOTE if joist else NOTE,),
    )[0]
