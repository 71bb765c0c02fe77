"""What fastens a beam to its bracket on a tree bolt: within the bracket's ratings, or bolts through the beam."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from bolewright.bracing.standing import resultant_lateral_force
from bolewright.bracing.tie import LEAST_HOLD_DOWN, hold_down_force
from bolewright.calculation import Calculation
from bolewright.fasteners.bearing_lengths import Shear
from bolewright.fasteners.connectors import bolt
from bolewright.fasteners.errors import FastenerError
from bolewright.fasteners.geometry import Distances, Geometry, Pattern
from bolewright.fasteners.lateral import lateral_design_value
from bolewright.fasteners.members import Steel, Wood
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import BoltFrame
from bolewright.platform.checks.bracket_bolts import BracketBolts, bracket_bolts
from bolewright.platform.checks.lateral import (
    judge_lateral,
    open_while_loose,
    run_lateral_force,
    run_load,
    start,
    under_weight,
    weight_on,
    worse,
)
from bolewright.platform.layout.parts import Member, Seat
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.limit_states.state import RATED
from bolewright.platform.loads.combine import Array
from bolewright.platform.project import Bolt
from bolewright.tree.bolt import load_angle, resultant_load
from bolewright.units import POUND, feet_inches

KEY = "tree_bolt.fastening"
COVERED_NOTE = (
    "By rated_with_fastening the bracket's side rating, and the rated uplift of its clip, hold with what fastens the "
    "beam to it, as its maker's sheet names it: screws, bolts or nails in every hole."
)
BOLTS_NOTE = (
    "Bolts in a row along the beam through both side plates of the bracket, 4 diameters apart and {height} above the "
    "beam's lower edge, with nuts and washers; they take lateral force across the beam too, which presses on a plate, "
    "or uplift alone: the worse counts. Up they are asked for 200 lb at least (common practice). The plates are the "
    "bracket maker's."
)


def bracket_fastening_checks(lateral: LateralAnalysis) -> list[Check]:
    """The joint of every beam to the steel bracket that it rests on."""
    return [
        check
        for i, frame in enumerate(lateral.frames)
        if isinstance(frame, BoltFrame) and frame.placed.bolt.seat == "steel bracket"
        for member, seat in lateral.path.layout.on_support(frame.support.mark)[:1]
        for check in _fastened(lateral, i, frame, member, seat)
    ]


def _fastened(
    lateral: LateralAnalysis, i: int, frame: BoltFrame, member: Member, seat: Seat
) -> Iterator[Check]:
    kind, mark = frame.placed.bolt, frame.support.mark
    bolts = bracket_bolts(kind, member, seat)
    if lateral.loose:
        yield open_while_loose(lateral, mark, KEY, "")
    elif bolts is not None:
        found = [
            _bolted(lateral, state, i, frame, (member, bolts), weight, slack=slack, pushed=pushed)
            for state in lateral.states
            for weight, slack in weight_on(lateral, i, most=False, foot=False)
            for pushed in (True, False)
        ]
        yield from worse([*found, _bolted_by_weight(lateral, i, frame, (member, bolts))])
    elif kind.rated_with_fastening and kind.rated_lateral is not None:
        yield from worse(_rated(lateral, state, i, frame, kind.rated_lateral) for state in lateral.states)
    else:
        most = max(float(_lateral(start(lateral), lateral, s, i).max()) for s in lateral.states)
        yield not_checked(
            mark,
            KEY,
            f"{member.mark} passes up to {most:,.0f} lb lateral to its bracket on {mark} and is held down there: "
            "enter rated_with_fastening = true where rated_lateral and uplift_tie hold with the maker's fastening of "
            "the beam to the bracket, or the bolts through both as beam_bolts and beam_bolt_diameter.",
        )


def _lateral(calculation: Calculation, lateral: LateralAnalysis, state: State, i: int) -> Array:
    V = [run_lateral_force(calculation.run, lateral, state, i, which) for which in (0, 1)]
    return np.asarray(calculation.run(resultant_lateral_force, V_1=V[0], V_2=V[1]), dtype=float)


def _rated(lateral: LateralAnalysis, state: State, i: int, frame: BoltFrame, rated: float) -> Check:
    calculation = start(lateral)
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        key=KEY,
        demand=_lateral(calculation, lateral, state, i),
        capacity=rated,
        unit=POUND,
        clause=RATED,
        says="the lateral force on what fastens its beam",
        notes=(COVERED_NOTE,),
    )


def _bolted(
    lateral: LateralAnalysis,
    state: State,
    i: int,
    frame: BoltFrame,
    held: tuple[Member, BracketBolts],
    weight: Array,
    *,
    slack: bool,
    pushed: bool,
) -> Check:
    """Lateral force and uplift of one case on bolts in double shear, at the angle of both to the beam's grain.

    Not ``pushed``: uplift alone, square to the grain. A force across the beam bears on a plate and turns no load along
    the grain, where the bolts take more.
    """
    calculation = start(lateral)
    run = calculation.run
    R = run_load(run, state, i, weight, foot=False, slack=slack)
    H = _lateral(calculation, lateral, state, i) if pushed else np.zeros_like(R)
    P, capacity, said = _on_bolts(lateral, frame.placed.bolt, held, calculation, R, H, lateral.cases.C_D)
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        demand=P,
        capacity=capacity,
        slack=slack,
        **_SAID,
        **said,
    )


_SAID: dict[str, Any] = {"key": KEY, "unit": POUND, "clause": "NDS 2018, 12.3"}


def _bolted_by_weight(
    lateral: LateralAnalysis, i: int, frame: BoltFrame, held: tuple[Member, BracketBolts]
) -> Check:
    """What weight alone lifts, one person on an overhang too, on the same bolts."""
    lifted = under_weight(lateral, i, frame.support.mark)
    own, R, none = lifted.calculation, lifted.R, np.zeros_like(lifted.R)
    P, capacity, said = _on_bolts(lateral, frame.placed.bolt, held, own, R, none, lifted.C_D)
    return lifted.judged(own, demand=P, capacity=capacity, **_SAID, **said)


def _on_bolts(
    lateral: LateralAnalysis,
    kind: Bolt,
    held: tuple[Member, BracketBolts],
    calculation: Calculation,
    R: Array,
    H: Array,
    C_D: Array,
) -> tuple[Array, Array, dict[str, Any]]:
    """Force on the bolts, what they take at its angle to the grain (lb), and what the row says of it."""
    member, bolts = held
    run, D = calculation.run, bolts.diameter
    U = run(hold_down_force, R=R, U_0=LEAST_HOLD_DOWN)
    P = run(resultant_load, P_v=U, P_h=H)
    theta = 90.0 - np.asarray(load_angle(U, H))  # type: ignore[arg-type]  # elementwise by numpy
    values = lateral.path.effects[member.mark].values
    wood = Wood(
        member.width, values.G, theta=theta, E=values.E, width=member.section.d, name=f"beam {member.mark}"
    )
    plate = Steel(kind.bracket_plate, width=3 * D, name="side plate")
    edges = Distances(bolts.end, True, bolts.height, member.section.d - bolts.height)
    pattern = Pattern(in_row=bolts.count, spacing=bolts.spacing)
    notes: tuple[str, ...] = (BOLTS_NOTE.format(height=feet_inches(bolts.height)),)
    capacity, nothing = np.zeros(1), ""
    try:
        found = lateral_design_value(
            bolt(D, member.width + 2 * kind.bracket_plate),
            plate,
            wood,
            shear=Shear.DOUBLE,
            C_D=C_D,
            geometry=Geometry(pattern, main=edges),
            calculation=calculation,
        )
        capacity, notes = found.Z_total, (*notes, *found.notes)
    except FastenerError as error:
        nothing = f"{error}"
    said = {
        "says": f"the force on the bolts of {member.mark} in its bracket",
        "notes": notes,
        "nothing": nothing,
    }
    return np.asarray(P, dtype=float), capacity, said
