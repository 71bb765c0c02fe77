"""Rotation of a beam on what it sits on: held by weight and ties, or on a tree bolt by the joists' connections."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bolewright.bracing.rotation import joist_edge_force
from bolewright.bracing.standing import load_with_sway
from bolewright.calculation import Calculation
from bolewright.platform.analysis.eccentric import edge_load, off_centre
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.checks.beam_added import seats_from_overturning
from bolewright.platform.checks.lateral import Run, judge_lateral, worse
from bolewright.platform.checks.rotation import (
    ROTATION_NOTE,
    Together,
    bearing_of,
    patterns,
    run_rotation,
)
from bolewright.platform.checks.upright import (
    FEW,
    UPRIGHT_NOTE,
    Holding,
    Turned,
    bolts_under,
    joists_that_hold,
    run_torque,
    turned_on_bolts,
)
from bolewright.platform.layout.parts import Member, Seat
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.status import Status
from bolewright.units import POUND, POUND_INCH

RotationCase = tuple[State, Calculation, Array]
"""The state of the bases, a calculation, and the lateral force across a beam on its seat in every case."""


def rotation_on_bolt(lateral: LateralAnalysis, member: Member, row: int, seat: Seat) -> list[Check]:
    """Rotation where a beam sits on a tree bolt: its bracket is a pin, so joists hold it, or weight and ties."""
    joists = joists_that_hold(lateral, member)
    if len(joists) < FEW:
        return rotation_on_seat(lateral, member, row, seat, forces_on_bolt(lateral, member, seat))
    bolts = [seat, *(s for s in bolts_under(lateral, member) if s != seat)]
    return worse(
        _on_joists(lateral, member, seat, turned, joists)
        for turned in turned_on_bolts(lateral, member, bolts)
    )


def forces_on_bolt(lateral: LateralAnalysis, member: Member, seat: Seat) -> list[RotationCase]:
    """Lateral force across a beam on a tree bolt."""
    return [(t.state, t.calculation, t.forces[0][1]) for t in turned_on_bolts(lateral, member, [seat])]


def _on_joists(
    lateral: LateralAnalysis, member: Member, seat: Seat, turned: Turned, joists: Sequence[Holding]
) -> Check:
    """The joist whose connection is loaded most at its edges, of those that hold a beam upright."""
    rated = edge_load(joists[0][0])
    if rated is None:
        reason = (
            f"The connections of the joists are to keep {member.mark} upright on {seat.below}: enter edge_load, their "
            "rated load at the upper and lower edge."
        )
        return not_checked(member.mark, "beam.rotation_joists", reason, at=seat.below)
    apart = {(load.member.mark, load.row): abs(load.e) for load in off_centre(lateral.path.layout, member)}
    found = []
    for joist, i in joists:
        of_joist = turned.calculation.branch()
        F_j = of_joist.run(
            joist_edge_force,
            M_j=run_torque(of_joist.run, member, joists, (joist, i), turned),
            R=run_seat_load(of_joist.run, lateral, turned.state, joist, i, most=True),
            e=apart.get((joist.mark, i), 0.0),
            d_j=joist.section.d,
        )
        found.append(
            judge_lateral(
                of_joist,
                lateral,
                turned.state,
                member.mark,
                key="beam.rotation_joists",
                at=seat.below,
                demand=F_j,
                capacity=rated,
                unit=POUND,
                says=f"the force at the edges of {joist.mark}'s connection, which keeps it upright,",
                notes=(UPRIGHT_NOTE,),
            )
        )
    return max(found, key=lambda check: check.severity)


def run_seat_load(
    run: Run, lateral: LateralAnalysis, state: State, member: Member, row: int, *, most: bool
) -> Array:
    """Greatest or least load on a seat in every case, with overturning."""
    R = lateral.on_seats[member.mark][0 if most else 1][[row]]
    R_o = seats_from_overturning(lateral, state, member)[[row]]
    return np.asarray(np.maximum(run(load_with_sway, R=R, R_o=R_o, R_k=0.0), 0.0))


def least_on_seat(run: Run, lateral: LateralAnalysis, state: State, member: Member, row: int) -> Array:
    """Least load on a seat in every case, with overturning; below 0 it is lifted (a row, lb)."""
    least = lateral.on_seats[member.mark][1][[row]]
    R_o = seats_from_overturning(lateral, state, member)[[row]]
    return np.asarray(run(load_with_sway, R=least, R_o=R_o, R_k=0.0))


def run_seat_pattern(
    run: Run, lateral: LateralAnalysis, state: State, member: Member, row: int, pattern: Together
) -> Array:
    """Load on a seat in the pattern of weight that turns a beam, with overturning; 0 where it is lifted (lb)."""
    R_o = seats_from_overturning(lateral, state, member)[row]
    R = run(load_with_sway, R=pattern.R[None, :], R_o=R_o[None, :], R_k=0.0)
    return np.asarray(np.maximum(R, 0.0))


def rotation_on_seat(
    lateral: LateralAnalysis,
    member: Member,
    row: int,
    seat: Seat,
    rotations: list[RotationCase],
) -> list[Check]:
    """Rotation of a beam on a seat: lateral force comes in at its top and goes out at its underside."""
    tie = getattr(member.timber, "rotation_tie", None)
    at = bearing_of(lateral.path, member, seat)
    on_seat = lateral.path.effects[member.mark].reactions[row]
    turning = patterns(lateral, at, on_seat)
    found = []
    for state, calculation, V in rotations:
        for pattern in (one.under(state) for one in turning):
            turned = calculation.branch()
            R = run_seat_pattern(turned.run, lateral, state, member, row, pattern)
            M_r, M_a = run_rotation(turned, lateral.path, at, V, pattern, R, tie or 0.0)
            found.append(
                judge_lateral(
                    turned,
                    lateral,
                    state,
                    member.mark,
                    key="beam.rotation",
                    at=seat.below,
                    demand=M_r,
                    capacity=M_a,
                    unit=POUND_INCH,
                    says=f"the rotation on {seat.below}",
                    notes=(ROTATION_NOTE,),
                    nothing=f"nothing holds it against turning over on {seat.below}: wind lifts the weight off",
                )
            )
    checks = worse(found)
    if tie is None and checks and checks[0].status is Status.FAILS:
        check = checks[0]
        reason = (
            f"{member.mark} is {member.section.d:g} in tall and {member.width:g} in wide and can turn over on "
            f"{seat.below}: its weight holds {check.capacity:,.0f} of {check.demand:,.0f} lb·in. Tie each side down "
            "with an angle or twisted strap and enter its rated load as rotation_tie, or have the joists' connections "
            "hold it: restrains_beam, and edge_load, their rated load at the upper and lower edge."
        )
        return [not_checked(member.mark, "beam.rotation", reason, at=seat.below)]
    return checks
