"""Rotation of a beam on what it sits on: held by weight and ties, or on a tree bolt by the joists' connections."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.carrier import seat_force_along
from bolewright.bracing.rotation import joist_edge_force
from bolewright.bracing.standing import load_with_sway
from bolewright.calculation import Calculation
from bolewright.platform.check import Check, not_checked
from bolewright.platform.checks.carrier_added import seats_from_overturning
from bolewright.platform.checks.level import Run, judge_level, start, worse
from bolewright.platform.checks.rotation import (
    ROTATION_NOTE,
    Together,
    bearing_of,
    patterns,
    run_rotation,
)
from bolewright.platform.combine import Array
from bolewright.platform.eccentric import edge_load, off_centre, restrains
from bolewright.platform.parts import Member, Seat
from bolewright.platform.sideways import Sideways, State, range_over
from bolewright.status import Status
from bolewright.units import POUND, POUND_INCH

FEW = 2  # joists that hold a carrier upright, at least
JOIST_NOTE = (
    "The bracket on a tree bolt holds nothing against rotation here; the connections of the joists do, each with the "
    "moment of its own load and a like share of the level force (alike by judgement)."
)

Roll = tuple[State, Calculation, Array]
"""The state of the feet, a calculation, and the level force across a beam on its seat in every case."""


def roll_on_bolt(sideways: Sideways, member: Member, row: int, seat: Seat) -> list[Check]:
    """Roll where a carrier sits on a tree bolt: its bracket is a pin, so joists hold it, or weight and ties."""
    rolls = forces_on_bolt(sideways, member, seat)
    joists = joists_that_hold(sideways, member)
    if len(joists) < FEW:
        return roll_on_seat(sideways, member, row, seat, rolls)
    return worse(_on_joists(sideways, member, seat, roll, joists) for roll in rolls)


def forces_on_bolt(sideways: Sideways, member: Member, seat: Seat) -> list[Roll]:
    """Level force across a carrier on a tree bolt."""
    i = sideways.row(seat.below)
    rolls = []
    for state in sideways.states:
        force = state.springs[i].axes.T @ state.force[i]
        alone = {"n": 1.0, "T": 0.0, "x": 0.0, "y": 0.0, "J": 1.0}
        calculation = start(sideways)
        V = calculation.run(
            seat_force_along,
            H_x=force[0][None, :],
            H_y=force[1][None, :],
            c=-member.line.u[1],
            s=member.line.u[0],
            **alone,
        )
        rolls.append((state, calculation, V))
    return rolls


def joists_that_hold(sideways: Sideways, member: Member) -> list[tuple[Member, int]]:
    """Joists, each with its seat on a carrier, whose connections keep that carrier upright; no fewer than FEW do."""
    return [
        (m, i)
        for m in sideways.path.layout.joists
        for i, own in enumerate(m.seats)
        if own.below == member.mark and m.section.d >= member.section.d / 2 and restrains(m)
    ]


def _on_joists(
    sideways: Sideways,
    member: Member,
    seat: Seat,
    roll: Roll,
    joists: list[tuple[Member, int]],
) -> Check:
    """The joist whose connection is loaded most at its edges, of those that hold a beam upright."""
    rated = edge_load(joists[0][0])
    if rated is None:
        reason = (
            f"The connections of the joists are to keep {member.mark} upright on {seat.below}: enter edge_load, their "
            "rated load at the upper and lower edge."
        )
        return not_checked(member.mark, "beam.rotation_joists", reason, at=seat.below)
    state, calculation, V = roll
    apart = {(load.member.mark, load.row): abs(load.e) for load in off_centre(sideways.path.layout, member)}
    found = []
    for joist, i in joists:
        of_joist = calculation.branch()
        F_j = of_joist.run(
            joist_edge_force,
            V=V,
            d=member.section.d,
            n=float(len(joists)),
            R=run_seat_load(of_joist.run, sideways, state, joist, i, most=True),
            e=apart.get((joist.mark, i), 0.0),
            d_j=joist.section.d,
        )
        found.append(
            judge_level(
                of_joist,
                sideways,
                state,
                member.mark,
                key="beam.rotation_joists",
                at=seat.below,
                demand=F_j,
                capacity=rated,
                unit=POUND,
                says=f"the force at the edges of {joist.mark}'s connection, which keeps it upright,",
                notes=(JOIST_NOTE,),
            )
        )
    return max(found, key=lambda check: check.severity)


def run_seat_load(
    run: Run, sideways: Sideways, state: State, member: Member, row: int, *, most: bool
) -> Array:
    """Greatest or least load on a seat in every case, with overturning."""
    effect = sideways.path.effects[member.mark].reactions[np.array([row])]
    R = range_over(sideways.path, effect, sideways.cases)[0 if most else 1]
    R_o = seats_from_overturning(sideways, state, member)[[row]]
    return np.asarray(np.maximum(run(load_with_sway, R=R, R_o=R_o, R_k=0.0), 0.0))


def least_on_seat(run: Run, sideways: Sideways, state: State, member: Member, row: int) -> Array:
    """Least load on a seat in every case, with overturning; below 0 it is lifted (a row, lb)."""
    effect = sideways.path.effects[member.mark].reactions[np.array([row])]
    _, least = range_over(sideways.path, effect, sideways.cases)
    R_o = seats_from_overturning(sideways, state, member)[[row]]
    return np.asarray(run(load_with_sway, R=least, R_o=R_o, R_k=0.0))


def run_seat_pattern(
    run: Run, sideways: Sideways, state: State, member: Member, row: int, pattern: Together
) -> Array:
    """Load on a seat in the pattern of weight that turns a beam, with overturning; 0 where it is lifted (lb)."""
    R_o = seats_from_overturning(sideways, state, member)[row]
    R = run(load_with_sway, R=pattern.R[None, :], R_o=R_o[None, :], R_k=0.0)
    return np.asarray(np.maximum(R, 0.0))


def roll_on_seat(
    sideways: Sideways,
    member: Member,
    row: int,
    seat: Seat,
    rolls: list[Roll],
) -> list[Check]:
    """Rotation of a beam on a seat: level force comes in at its top and goes out at its underside."""
    tie = getattr(member.timber, "roll_tie", None)
    at = bearing_of(sideways.path, member, seat)
    on_seat = sideways.path.effects[member.mark].reactions[row]
    found = []
    for state, calculation, V in rolls:
        for pattern in patterns(sideways, state, at, on_seat):
            turned = calculation.branch()
            R = run_seat_pattern(turned.run, sideways, state, member, row, pattern)
            M_r, M_a = run_rotation(turned, sideways.path, at, V, pattern, R, tie or 0.0)
            found.append(
                judge_level(
                    turned,
                    sideways,
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
            "with an angle or twisted strap and enter its rated load as roll_tie, or have the joists' connections "
            "hold it: restrains_beam, and edge_load, their rated load at the upper and lower edge."
        )
        return [not_checked(member.mark, "beam.rotation", reason, at=seat.below)]
    return checks
