"""Lateral force that comes from the deck into the beams, at the ends of joists and of beams that hang on beams."""

from __future__ import annotations

from typing import Any

import numpy as np

from bolewright.bracing.beam import force_across_beam, force_at_end, force_at_end_with_push, share_along_beam
from bolewright.bracing.standing import resultant_lateral_force
from bolewright.calculation import Calculation
from bolewright.fasteners.rated import hanger_capacity
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.through_joists import DeckEnd, friction_on, through_ends, worst_ends
from bolewright.platform.checks.lateral import judge_lateral, start
from bolewright.platform.checks.seats import LIFTS, wet_factor
from bolewright.platform.layout.parts import Bearing, Kind
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.units import POUND

NOTE = (
    "Boards pass wind and sway to the joists, and their ends to the beam. What its supports take across it comes to "
    "the ends as to rigid supports of a continuous beam, as its lateral moment is found: no connection gives, which is "
    "on the safe side for the one nearest a support. What they take along it all ends share evenly (judgement: a beam "
    "is stiff along itself). Ends at one place each take all that comes there. Boards fastened to the beam itself, and "
    "wind on it, take nothing off, but where they lie across it on half of its length or more, as on a joist: such a "
    "beam is held by them. One rating counts, in any direction in plan."
)
_NOTHING = 1e-6  # of what comes to an end from a pound at a seat


def deck_end_checks(lateral: LateralAnalysis) -> list[Check]:
    """Of each field of joists, hung or resting, the end that the most comes to; each end of a beam hung on a beam."""
    if lateral.loose:
        return []
    found = ((end, state, *_run_force(lateral, end, state)) for end, state in worst_ends(lateral))
    return [_check(lateral, *one) for one in found if float(one[-1].max()) > LIFTS]


def key_and_place(end: DeckEnd) -> tuple[str, str]:
    """Key of an end's limit state, and the place that it is printed with."""
    if end.member.kind is not Kind.JOIST:
        return "beam.lateral", end.beam.mark
    seat = end.member.seats[end.row]
    return "joist.lateral", (seat.connection or "hung") if seat.bearing is Bearing.HANGS else "resting"


def _run_force(lateral: LateralAnalysis, end: DeckEnd, state: State) -> tuple[Calculation, Array]:
    """Lateral force in plan through an end in every case (1, cases), lb."""
    calculation = start(lateral)
    run = calculation.run
    across, along = through_ends(lateral, state, end.parts, friction_on(lateral))
    given = state.force - state.push
    level = np.einsum("psw,swc->pc", end.across, given)
    F: Any = 0.0
    for share, pull, V in zip(end.shares, end.across, level, strict=True):
        if abs(share) <= _NOTHING:
            continue
        of = np.flatnonzero(np.abs(pull).sum(axis=1))
        if len(of) == 1:  # a seat on a support
            (c_1, c_2), (V_1, V_2) = pull[of[0]], given[of[0]][:, None, :]
            V = run(force_across_beam, V_1=V_1, V_2=V_2, c_1=float(c_1), c_2=float(c_2))
        F = run(force_at_end, F_b=F, r=float(share), V=np.reshape(V, (1, -1)))
    T = (across - end.shares @ level)[None, :]
    if np.abs(T).max() > _NOTHING * max(np.abs(across).max(), 1.0):
        F = run(force_at_end_with_push, F_b=F, T=T)
    F_u = run(share_along_beam, H=along[None, :] * end.count, n=float(end.count))
    return calculation, np.asarray(run(resultant_lateral_force, V_1=F, V_2=F_u))


def _check(lateral: LateralAnalysis, end: DeckEnd, state: State, calculation: Calculation, F: Array) -> Check:
    seat, mark = end.member.seats[end.row], end.member.mark
    hung = seat.bearing is Bearing.HANGS
    key, at = key_and_place(end)
    hanger = lateral.path.layout.project.connections.get(seat.connection or "") if hung else None
    rated = getattr(end.member.timber, "lateral_tie", None)
    if hung:
        rated = None if hanger is None else hanger.rated_lateral
    if rated is None:
        what = "lateral_tie, the rated lateral load of what fastens it there"
        if hung:
            what = f"rated_lateral of its hanger{f' {seat.connection}' if hanger is not None else ''}"
        reason = (
            f"Up to {float(F.max()):,.0f} lb of lateral force from the deck goes through the end of {mark} into "
            f"{end.beam.mark}: enter {what}, in any direction in plan."
        )
        return not_checked(mark, key, reason, at=at)
    Z: Any = rated
    if hung:
        C_M = wet_factor(end.member, hanger)
        Z = calculation.run(hanger_capacity, Z_rated=rated, C_D=1.0, C_M=C_M)
    return judge_lateral(
        calculation,
        lateral,
        state,
        mark,
        key=key,
        at=at,
        demand=F,
        capacity=Z,
        unit=POUND,
        says=f"the lateral force from the deck through its end on {end.beam.mark}",
        notes=(NOTE,),
    )
