"""Roll of a tall carrier on what it sits on: held by weight and ties on a carrier, by joists on a tree bolt."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.carrier import joist_couple_force, seat_force_along
from bolewright.bracing.standing import load_with_sway, roll_moment, roll_resistance
from bolewright.calculation import Calculation
from bolewright.platform.check import Check, not_checked
from bolewright.platform.checks.carrier_added import seats_from_overturning
from bolewright.platform.checks.level import Run, judge_level, start, worse
from bolewright.platform.combine import Array
from bolewright.platform.parts import Member, Seat
from bolewright.platform.sideways import Sideways, State, range_over
from bolewright.status import Status
from bolewright.units import POUND, POUND_INCH

ROLL_NOTE = "The least weight on the seat holds against roll; a tie counts on the side that lifts; joists do not count."
FEW = 2  # joists that hold a carrier upright, at least
JOIST_EDGE = 100.0  # lb: one 10d nail at the joist's edge carries more in wind (NDS 2018, Table 12N)
JOIST_NOTE = (
    "The bracket on a tree bolt is a pin and holds nothing against roll; the joists in the carrier do, each with "
    "100 lb at its upper and lower edge, about one 10d nail (judgement, engineer to confirm)."
)


def roll_on_bolt(sideways: Sideways, member: Member, row: int, seat: Seat) -> list[Check]:
    """Roll where a carrier sits on a tree bolt: its bracket is a pin, so joists hold it, or weight and ties."""
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
    depths = [
        m.section.d
        for m in sideways.path.layout.joists
        for s in m.seats
        if s.below == member.mark and m.section.d >= member.section.d / 2
    ]
    if len(depths) < FEW:
        return roll_on_seat(sideways, member, row, seat, rolls)
    found = []
    for state, calculation, V in rolls:
        count = float(len(depths))
        F_j = calculation.run(joist_couple_force, V=V, d=member.section.d, n=count, d_j=min(depths))
        found.append(
            judge_level(
                calculation,
                sideways,
                state,
                member.mark,
                key="beam.rotation_joists",
                at=seat.below,
                demand=F_j,
                capacity=JOIST_EDGE,
                unit=POUND,
                says="the pull at the edges of its joists that keeps it upright",
                notes=(JOIST_NOTE,),
            )
        )
    return worse(found)


def run_seat_load(
    run: Run, sideways: Sideways, state: State, member: Member, row: int, *, most: bool
) -> Array:
    """Greatest or least load on a seat in every case, with overturning."""
    effect = sideways.path.effects[member.mark].reactions[np.array([row])]
    R = range_over(sideways.path, effect, sideways.cases)[0 if most else 1]
    R_o = seats_from_overturning(sideways, state, member)[[row]]
    return np.asarray(np.maximum(run(load_with_sway, R=R, R_o=R_o, R_k=0.0), 0.0))


def roll_on_seat(
    sideways: Sideways,
    member: Member,
    row: int,
    seat: Seat,
    rolls: list[tuple[State, Calculation, Array]],
) -> list[Check]:
    """Roll of a carrier on a seat: level force comes in at its top and goes out at its underside."""
    tie = getattr(member.timber, "roll_tie", None)
    found = []
    for state, calculation, V in rolls:
        run = calculation.run
        M_r = run(roll_moment, V=V, d=member.section.d)
        R = run_seat_load(run, sideways, state, member, row, most=False)
        M_a = run(roll_resistance, R=R, b=member.width, T=tie or 0.0)
        found.append(
            judge_level(
                calculation,
                sideways,
                state,
                member.mark,
                key="beam.rotation",
                at=seat.below,
                demand=M_r,
                capacity=M_a,
                unit=POUND_INCH,
                says=f"the roll on {seat.below}",
                notes=(ROLL_NOTE,),
                nothing=f"nothing holds it against rolling over on {seat.below}: wind lifts the weight off",
            )
        )
    checks = worse(found)
    if tie is None and checks and checks[0].status is Status.FAILS:
        check = checks[0]
        reason = (
            f"{member.mark} is {member.section.d:g} in tall and {member.width:g} in wide and can roll over on "
            f"{seat.below}: its weight holds {check.capacity:,.0f} of {check.demand:,.0f} lb·in. Tie each side down "
            "with an angle or twisted strap and enter its rated load as roll_tie."
        )
        return [not_checked(member.mark, "beam.rotation", reason, at=seat.below)]
    return checks
