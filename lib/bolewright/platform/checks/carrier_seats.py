"""Seats of carriers under wind and sway: roll on what they sit on, bearing and hangers with overturning, fastening."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from bolewright.bracing.carrier import joist_couple_force, seat_force_along
from bolewright.bracing.plan import seat_level_force
from bolewright.bracing.standing import load_with_sway, roll_moment, roll_resistance
from bolewright.calculation import Calculation
from bolewright.platform.check import Check, Topic, demand_capacity_ratio, not_checked
from bolewright.platform.checks.carriers_sideways import from_overturning
from bolewright.platform.checks.level import Run, judge_level, start, worse
from bolewright.platform.checks.seats import WET_CONNECTION, hanger_capacity
from bolewright.platform.combine import Array
from bolewright.platform.level_supports import BoltFrame
from bolewright.platform.parts import Bearing, Member, Seat
from bolewright.platform.project import Connection
from bolewright.platform.sideways import Sideways, State, range_over
from bolewright.timber.adjusted_values import adjusted_bearing
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bearing import bearing_stress
from bolewright.units import POUND, POUND_INCH, PSI

RATED = "Rated load, entered by the user"
ROLL_NOTE = "The least weight on the seat holds against roll; a tie counts on the side that lifts; joists do not count."


FEW = 2  # joists that hold a carrier upright, at least
JOIST_EDGE = (
    100.0  # lb: one 10d nail through hanger or deck at the joist's edge carries more (NDS 2018, Table 12N)
)
JOIST_NOTE = (
    "The bracket on a tree bolt is a pin and holds nothing against roll; the joists in the carrier do, each with "
    "100 lb at its upper and lower edge, about one 10d nail (judgement, engineer to confirm)."
)


@dataclass(frozen=True)
class _Group:
    """The carriers that rest on one carrier, and the level force on its supports in every case (lb, lb·in)."""

    below: Member
    points: Array
    state: State
    H: Array
    T: Array

    def arguments(self, seat: Seat) -> dict[str, Any]:
        """Arguments of the formulas of one seat."""
        centre = self.points.mean(axis=0)
        x, y = np.array(seat.point) - centre
        J = float(np.sum((self.points - centre) ** 2))
        return {
            "H_x": self.H[0][None, :],
            "H_y": self.H[1][None, :],
            "n": float(len(self.points)),
            "T": self.T[None, :],
            "x": x,
            "y": y,
            "J": max(J, 1.0),
        }


def carrier_seat_checks(sideways: Sideways) -> list[Check]:
    """Checks of the seats of all carriers, and of the hung end that wind loads most."""
    if sideways.loose:
        return []
    checks: list[Check] = []
    for member in sideways.path.layout.carriers:
        for row, seat in enumerate(member.seats):
            if seat.bearing is not Bearing.RESTS:
                continue
            if seat.below not in sideways.path.reactions:
                checks += _on_carrier(sideways, member, row, seat)
            elif isinstance(sideways.frames[sideways.row(seat.below)], BoltFrame):
                checks += _on_bolt(sideways, member, row, seat)
    return [*checks, *_hung(sideways)]


def _groups(sideways: Sideways, below: Member) -> list[_Group]:
    """The carriers on a carrier with the level force that its supports take, one for each state of the feet."""
    rows = [sideways.row(s.below) for s in below.seats if s.below in sideways.path.reactions]
    points = np.array(
        [
            seat.point
            for m in sideways.path.layout.carriers
            for seat in m.seats
            if seat.below == below.mark and seat.bearing is Bearing.RESTS
        ]
    )
    centre = points.mean(axis=0)
    groups = []
    for state in sideways.states if rows else ():
        H, T = np.zeros((2, sideways.cases.count)), np.zeros(sideways.cases.count)
        for i in rows:
            F = state.springs[i].axes.T @ state.force[i]
            x, y = np.array(sideways.frames[i].support.at) - centre
            H, T = H + F, T + x * F[1] - y * F[0]
        groups.append(_Group(below, points, state, H, T))
    return groups


def _on_carrier(sideways: Sideways, member: Member, row: int, seat: Seat) -> list[Check]:
    groups = _groups(sideways, sideways.path.layout.member(seat.below))
    n = (-member.line.u[1], member.line.u[0])
    rolls = []
    for group in groups:
        calculation = start(sideways)
        V = calculation.run(seat_force_along, **group.arguments(seat), c=n[0], s=n[1])
        rolls.append((group.state, calculation, V))
    return [
        *_fastening(sideways, member, seat, groups),
        *_roll(sideways, member, row, seat, rolls),
        *worse(_bearing(sideways, state, member, row, seat) for state in sideways.states),
    ]


def _on_bolt(sideways: Sideways, member: Member, row: int, seat: Seat) -> list[Check]:
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
        return _roll(sideways, member, row, seat, rolls)
    found = []
    for state, calculation, V in rolls:
        count = float(len(depths))
        F_j = calculation.run(joist_couple_force, V=V, d=member.section.d, n=count, d_j=min(depths))
        calculation.run(demand_capacity_ratio, demand=F_j, capacity=JOIST_EDGE)
        found.append(
            judge_level(
                calculation,
                sideways,
                state,
                member.mark,
                topic=Topic.STABILITY,
                limit_state=f"roll on {seat.below}, held by joists",
                demand=F_j,
                capacity=JOIST_EDGE,
                unit=POUND,
                clause="Statics; judgement",
                says="the pull at the edges of its joists that keeps it upright",
                notes=(JOIST_NOTE,),
            )
        )
    return worse(found)


def _fastening(sideways: Sideways, member: Member, seat: Seat, groups: list[_Group]) -> list[Check]:
    """Level force through the seat of one carrier on another: all that the lower one's supports take."""
    tie = getattr(member.timber, "side_tie", None)
    limit_state = f"fastening on {seat.below} sideways"
    found = []
    for group in groups:
        calculation = start(sideways)
        V_s = calculation.run(seat_level_force, **group.arguments(seat))
        found.append((group.state, calculation, V_s))
    if not found:
        return []
    if tie is None:
        most = max(float(V.max()) for _, _, V in found)
        reason = (
            f"{member.mark} passes up to {most:,.0f} lb sideways to {seat.below}: enter the rated side load of what "
            "fastens it there as side_tie."
        )
        return [not_checked(member.mark, Topic.STABILITY, limit_state, reason, RATED)]
    for _, calculation, V_s in found:
        calculation.run(demand_capacity_ratio, demand=V_s, capacity=tie)
    return worse(
        judge_level(
            calculation,
            sideways,
            state,
            member.mark,
            topic=Topic.STABILITY,
            limit_state=limit_state,
            demand=V_s,
            capacity=tie,
            unit=POUND,
            clause=RATED,
            says=f"the level force on its fastening to {seat.below}",
        )
        for state, calculation, V_s in found
    )


def _run_load(run: Run, sideways: Sideways, state: State, member: Member, row: int, *, most: bool) -> Array:
    """Greatest or least load on a seat in every case, with overturning."""
    effect = sideways.path.effects[member.mark].reactions[np.array([row])]
    R = range_over(sideways.path, effect, sideways.cases)[0 if most else 1]
    R_o = from_overturning(sideways, state, effect)
    return np.asarray(np.maximum(run(load_with_sway, R=R, R_o=R_o, R_k=0.0), 0.0))


def _roll(
    sideways: Sideways,
    member: Member,
    row: int,
    seat: Seat,
    rolls: list[tuple[State, Calculation, Array]],
) -> list[Check]:
    """Roll of a carrier on a seat: level force comes in at its top and goes out at its underside."""
    tie = getattr(member.timber, "roll_tie", None)
    limit_state = f"roll on {seat.below}"
    found = []
    for state, calculation, V in rolls:
        run = calculation.run
        M_r = run(roll_moment, V=V, d=member.section.d)
        R = _run_load(run, sideways, state, member, row, most=False)
        M_a = run(roll_resistance, R=R, b=member.width, T=tie or 0.0)
        capacity = np.maximum(M_a, 1e-6)
        run(demand_capacity_ratio, demand=M_r, capacity=capacity)
        found.append(
            judge_level(
                calculation,
                sideways,
                state,
                member.mark,
                topic=Topic.STABILITY,
                limit_state=limit_state,
                demand=M_r,
                capacity=capacity,
                unit=POUND_INCH,
                clause="Statics",
                says=f"the roll on {seat.below}",
                notes=(ROLL_NOTE,),
            )
        )
    checks = worse(found)
    if tie is None and checks and checks[0].ratio > 1:
        check = checks[0]
        reason = (
            f"{member.mark} is {member.section.d:g} in tall and {member.width:g} in wide and can roll over on "
            f"{seat.below}: its weight holds {check.capacity:,.0f} of {check.demand:,.0f} lb·in. Tie each side down "
            "with an angle or twisted strap and enter its rated load as roll_tie."
        )
        return [not_checked(member.mark, Topic.STABILITY, limit_state, reason, "Statics")]
    return checks


def _bearing(sideways: Sideways, state: State, member: Member, row: int, seat: Seat) -> Check:
    """Bearing of one carrier on another with overturning, across the grain of the weaker; C_b not counted."""
    below = sideways.path.layout.member(seat.below)
    weaker = min((sideways.path.effects[m.mark] for m in (member, below)), key=lambda e: e.values.F_c_perp)
    timber = weaker.member.timber
    group = factors(weaker.values, Service(wet=timber.wet, incised=timber.incised))
    calculation = start(sideways)
    run = calculation.run
    R = _run_load(run, sideways, state, member, row, most=True)
    f_c_perp = run(bearing_stress, R=R, b=member.width, l_b=below.width)
    F_c_perp_p = run(adjusted_bearing, F_c_perp=weaker.values.F_c_perp, C_b=1.0, **group.bearing)
    run(demand_capacity_ratio, demand=f_c_perp, capacity=F_c_perp_p)
    return judge_level(
        calculation,
        sideways,
        state,
        member.mark,
        topic=Topic.CARRIERS,
        limit_state=f"bearing on {seat.below} with wind and sway",
        demand=f_c_perp,
        capacity=F_c_perp_p,
        unit=PSI,
        clause="NDS 2018, 3.10.2",
        says=f"bearing on {seat.below} with wind and sway",
    )


def _hung(sideways: Sideways) -> list[Check]:
    """The hung end whose hanger is loaded most with overturning, of joists and carriers."""
    connections = sideways.path.layout.project.connections
    worst: tuple[float, State, Member, int] | None = None
    for member in sideways.path.layout.members:
        rated = [_rating(member, seat, connections) for seat in member.seats]
        if not any(rated):
            continue
        effect = sideways.path.effects[member.mark].reactions
        most, _ = range_over(sideways.path, effect, sideways.cases)
        for state in sideways.states:
            loads = most + from_overturning(sideways, state, effect)
            for row, capacity in enumerate(rated):
                if capacity is not None:
                    ratio = float((loads[row] / np.minimum(sideways.cases.C_D, 1.0)).max()) / capacity
                    if worst is None or ratio > worst[0]:
                        worst = ratio, state, member, row
    return [_hanger(sideways, *worst[1:])] if worst else []


def _rating(member: Member, seat: Seat, connections: Mapping[str, Connection]) -> float | None:
    connection = connections.get(seat.connection or "")
    if seat.bearing is not Bearing.HANGS or connection is None or connection.rated_load is None:
        return None
    return connection.rated_load * _wet(member, connection)


def _wet(member: Member, connection: Connection) -> float:
    return WET_CONNECTION if member.timber.wet and not connection.wet_included else 1.0


def _hanger(sideways: Sideways, state: State, member: Member, row: int) -> Check:
    seat = member.seats[row]
    connection = sideways.path.layout.project.connections[seat.connection or ""]
    calculation = start(sideways)
    run = calculation.run
    R = _run_load(run, sideways, state, member, row, most=True)
    C_D = np.minimum(sideways.cases.C_D, 1.0)
    Z_p = run(hanger_capacity, Z_rated=connection.rated_load, C_D=C_D, C_M=_wet(member, connection))
    run(demand_capacity_ratio, demand=R, capacity=Z_p)
    return judge_level(
        calculation,
        sideways,
        state,
        member.mark,
        topic=Topic.HANGERS,
        limit_state="worst hanger with wind and sway",
        demand=R,
        capacity=Z_p,
        unit=POUND,
        clause=RATED,
        says=f"the load on its hanger at {seat.below} with wind and sway",
    )
