"""Seats of carriers under wind and sway: fastening, bearing and hangers with overturning, and roll."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from bolewright.bracing.carrier import seat_force_along
from bolewright.bracing.plan import seat_level_force
from bolewright.platform.check import Check, not_checked
from bolewright.platform.checks.carrier_added import seats_from_overturning
from bolewright.platform.checks.carrier_roll import Roll, roll_on_bolt, roll_on_seat, run_seat_load
from bolewright.platform.checks.level import judge_level, start, worse
from bolewright.platform.checks.seats import hanger_capacity, held_by_fasteners, wet_factor
from bolewright.platform.combine import Array
from bolewright.platform.contact import contact_at
from bolewright.platform.level_supports import BoltFrame
from bolewright.platform.parts import Bearing, Member, Seat
from bolewright.platform.sideways import Sideways, State, range_over
from bolewright.timber.adjusted_values import adjusted_bearing
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bearing import bearing_stress
from bolewright.units import POUND, PSI

RATED = "Rated load, entered by the user"


@dataclass(frozen=True)
class SeatGroup:
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
                checks += roll_on_bolt(sideways, member, row, seat)
    return [*checks, *_hung(sideways)]


def groups_on(sideways: Sideways, below: Member) -> list[SeatGroup]:
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
        groups.append(SeatGroup(below, points, state, H, T))
    return groups


def _on_carrier(sideways: Sideways, member: Member, row: int, seat: Seat) -> list[Check]:
    groups = groups_on(sideways, sideways.path.layout.member(seat.below))
    rolls = [force_across(sideways, group, member, seat) for group in groups]
    return [
        *_fastening(sideways, member, seat, groups),
        *roll_on_seat(sideways, member, row, seat, rolls),
        *worse(_bearing(sideways, state, member, row, seat) for state in sideways.states),
    ]


def force_across(sideways: Sideways, group: SeatGroup, member: Member, seat: Seat) -> Roll:
    """Level force across a carrier on its seat on another."""
    calculation = start(sideways)
    c, s = -member.line.u[1], member.line.u[0]
    return group.state, calculation, calculation.run(seat_force_along, **group.arguments(seat), c=c, s=s)


def _fastening(sideways: Sideways, member: Member, seat: Seat, groups: list[SeatGroup]) -> list[Check]:
    """Level force through the seat of one carrier on another: all that the lower one's supports take."""
    tie = getattr(member.timber, "side_tie", None)
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
        return [not_checked(member.mark, "beam.fastening_lateral", reason, at=seat.below)]
    return worse(
        judge_level(
            calculation,
            sideways,
            state,
            member.mark,
            key="beam.fastening_lateral",
            at=seat.below,
            demand=V_s,
            capacity=tie,
            unit=POUND,
            says=f"the level force on its fastening to {seat.below}",
        )
        for state, calculation, V_s in found
    )


def _bearing(sideways: Sideways, state: State, member: Member, row: int, seat: Seat) -> Check:
    """Bearing of one carrier on another with overturning, across the grain of the weaker; C_b not counted."""
    below = sideways.path.layout.member(seat.below)
    weaker = min((sideways.path.effects[m.mark] for m in (member, below)), key=lambda e: e.values.F_c_perp)
    timber = weaker.member.timber
    group = factors(weaker.values, Service(wet=timber.wet, incised=timber.counts_incised))
    calculation = start(sideways)
    run = calculation.run
    R = run_seat_load(run, sideways, state, member, row, most=True)
    b, l_b = contact_at(sideways.path.layout, member, seat).sides(member.line)
    f_c_perp = run(bearing_stress, R=R, b=b, l_b=l_b)
    F_c_perp_p = run(adjusted_bearing, F_c_perp=weaker.values.F_c_perp, C_b=1.0, **group.bearing)
    return judge_level(
        calculation,
        sideways,
        state,
        member.mark,
        key="beam.bearing_lateral",
        at=seat.below,
        demand=f_c_perp,
        capacity=F_c_perp_p,
        unit=PSI,
        says=f"bearing on {seat.below} with wind and sway",
    )


MORE = 1 + 1e-6  # of two hangers loaded alike the first is named, whatever rounding makes of them


def _hung(sideways: Sideways) -> list[Check]:
    """Of each kind of hanger the hung end that is loaded most with overturning, of joists and carriers."""
    connections = sideways.path.layout.project.connections
    worst: dict[str, tuple[float, State, Member, int]] = {}
    for member in sideways.path.layout.members:
        hung = [seat.bearing is Bearing.HANGS for seat in member.seats]
        if not any(hung) or held_by_fasteners(member):
            continue
        effect = sideways.path.effects[member.mark].reactions
        most, _ = range_over(sideways.path, effect, sideways.cases)
        for state in sideways.states:
            loads = most + seats_from_overturning(sideways, state, member)
            for row, seat in enumerate(member.seats):
                if not hung[row]:
                    continue
                kind = seat.connection or ""
                wet = wet_factor(member, connections.get(kind))
                load = float((loads[row] / np.minimum(sideways.cases.C_D, 1.0)).max()) / wet
                if kind not in worst or load > worst[kind][0] * MORE:
                    worst[kind] = load, state, member, row
    return [_hanger(sideways, *found[1:]) for found in worst.values()]


def _hanger(sideways: Sideways, state: State, member: Member, row: int) -> Check:
    seat = member.seats[row]
    connection = sideways.path.layout.project.connections.get(seat.connection or "")
    if connection is None or connection.rated_load is None:
        reason = f"{member.mark} hangs from {seat.below}, but no rated load is given for its hanger."
        return not_checked(member.mark, "hanger.rated_lateral", reason, at=seat.connection or "")
    calculation = start(sideways)
    run = calculation.run
    R = run_seat_load(run, sideways, state, member, row, most=True)
    C_D = np.minimum(sideways.cases.C_D, 1.0)
    Z_p = run(hanger_capacity, Z_rated=connection.rated_load, C_D=C_D, C_M=wet_factor(member, connection))
    return judge_level(
        calculation,
        sideways,
        state,
        member.mark,
        key="hanger.rated_lateral",
        at=seat.connection or "",
        demand=R,
        capacity=Z_p,
        unit=POUND,
        says=f"the load on its hanger at {seat.below} with wind and sway",
    )
