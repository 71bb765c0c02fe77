"""Seats of beams under wind and sway: fastening, bearing and hangers with overturning, and rotation."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from bolewright.bracing.beam import seat_force_along
from bolewright.bracing.plan import seat_lateral_force
from bolewright.fasteners.rated import hanger_capacity
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import BoltFrame
from bolewright.platform.checks.beam_added import seats_from_overturning
from bolewright.platform.checks.beam_rotation import (
    RotationCase,
    rotation_on_bolt,
    rotation_on_seat,
    run_seat_load,
)
from bolewright.platform.checks.lateral import judge_lateral, start, worse
from bolewright.platform.checks.seats import held_by_fasteners, wet_factor
from bolewright.platform.layout.contact import contact_at
from bolewright.platform.layout.parts import Bearing, Member, Seat
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.timber.adjusted_values import adjusted_bearing
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bearing import bearing_stress
from bolewright.units import POUND, PSI

RATED = "Rated load, entered by the user"


@dataclass(frozen=True)
class SeatGroup:
    """The beams that rest on one beam, and the lateral force on its supports in every case (lb, lb·in)."""

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


def beam_seat_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of the seats of all beams, and of the hung end that wind loads most."""
    if lateral.loose:
        return []
    checks: list[Check] = []
    for member in lateral.path.layout.beams:
        for row, seat in enumerate(member.seats):
            if seat.bearing is not Bearing.RESTS:
                continue
            if seat.below not in lateral.path.reactions:
                checks += _on_beam(lateral, member, row, seat)
            elif isinstance(lateral.frames[lateral.row(seat.below)], BoltFrame):
                checks += rotation_on_bolt(lateral, member, row, seat)
    return [*checks, *_hung(lateral)]


def groups_on(lateral: LateralAnalysis, below: Member) -> list[SeatGroup]:
    """The beams on a beam with the lateral force that its supports take, one for each state of the bases."""
    stands = any(s.below in lateral.path.reactions for s in below.seats)
    return [group_on(lateral, below, state, np.zeros_like(state.force)) for state in lateral.states if stands]


def group_on(lateral: LateralAnalysis, below: Member, state: State, more: Array) -> SeatGroup:
    """The beams on a beam with what they hand down to its supports; ``more`` on every support in its two directions."""
    rows = [lateral.row(s.below) for s in below.seats if s.below in lateral.path.reactions]
    points = np.array(
        [
            seat.point
            for m in lateral.path.layout.beams
            for seat in m.seats
            if seat.below == below.mark and seat.bearing is Bearing.RESTS
        ]
    )
    centre = points.mean(axis=0)
    parts = np.zeros((3, len(lateral.frames), 2))
    u_x, u_y = below.line.u  # along the beam below and across it: the same however the platform is drawn
    for i in rows:
        axes = state.springs[i].axes
        x, y = np.array(lateral.frames[i].support.at) - centre
        along, across = axes @ (u_x, u_y), axes @ (-u_y, u_x)
        parts[:, i] = [along, across, x * axes[:, 1] - y * axes[:, 0]]
    H_u, H_n, T = lateral.passed_down(state, parts) + np.einsum("msw,swc->mc", parts, more)
    return SeatGroup(below, points, state, np.stack([u_x * H_u - u_y * H_n, u_y * H_u + u_x * H_n]), T)


def _on_beam(lateral: LateralAnalysis, member: Member, row: int, seat: Seat) -> list[Check]:
    groups = groups_on(lateral, lateral.path.layout.member(seat.below))
    rotations = [force_across(lateral, group, member, seat) for group in groups]
    return [
        *_fastening(lateral, member, seat, groups),
        *rotation_on_seat(lateral, member, row, seat, rotations),
        *worse(_bearing(lateral, state, member, row, seat) for state in lateral.states),
    ]


def force_across(lateral: LateralAnalysis, group: SeatGroup, member: Member, seat: Seat) -> RotationCase:
    """Lateral force across a beam on its seat on another."""
    calculation = start(lateral)
    c, s = -member.line.u[1], member.line.u[0]
    return group.state, calculation, calculation.run(seat_force_along, **group.arguments(seat), c=c, s=s)


def _fastening(lateral: LateralAnalysis, member: Member, seat: Seat, groups: list[SeatGroup]) -> list[Check]:
    """Lateral force through the seat of one beam on another: all that the lower one's supports take."""
    tie = getattr(member.timber, "lateral_tie", None)
    found = []
    for group in groups:
        calculation = start(lateral)
        V_s = calculation.run(seat_lateral_force, **group.arguments(seat))
        found.append((group.state, calculation, V_s))
    if not found:
        return []
    if tie is None:
        most = max(float(V.max()) for _, _, V in found)
        reason = (
            f"{member.mark} passes up to {most:,.0f} lb lateral to {seat.below}: enter the rated side load of what "
            "fastens it there as lateral_tie."
        )
        return [not_checked(member.mark, "beam.fastening_lateral", reason, at=seat.below)]
    return worse(
        judge_lateral(
            calculation,
            lateral,
            state,
            member.mark,
            key="beam.fastening_lateral",
            at=seat.below,
            demand=V_s,
            capacity=tie,
            unit=POUND,
            says=f"the lateral force on its fastening to {seat.below}",
        )
        for state, calculation, V_s in found
    )


def _bearing(lateral: LateralAnalysis, state: State, member: Member, row: int, seat: Seat) -> Check:
    """Bearing of one beam on another with overturning, across the grain of the weaker; C_b not counted."""
    below = lateral.path.layout.member(seat.below)
    weaker = min((lateral.path.effects[m.mark] for m in (member, below)), key=lambda e: e.values.F_c_perp)
    timber = weaker.member.timber
    group = factors(weaker.values, Service(wet=timber.wet, incised=timber.counts_incised))
    calculation = start(lateral)
    run = calculation.run
    R = run_seat_load(run, lateral, state, member, row, most=True)
    b, l_b = contact_at(lateral.path.layout, member, seat).sides(member.line)
    f_c_perp = run(bearing_stress, R=R, b=b, l_b=l_b)
    F_c_perp_p = run(adjusted_bearing, F_c_perp=weaker.values.F_c_perp, C_b=1.0, **group.bearing)
    return judge_lateral(
        calculation,
        lateral,
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


def _hung(lateral: LateralAnalysis) -> list[Check]:
    """Of each kind of hanger the hung end that is loaded most with overturning, of joists and beams."""
    connections = lateral.path.layout.project.connections
    worst: dict[str, tuple[float, State, Member, int]] = {}
    for member in lateral.path.layout.members:
        hung = [seat.bearing is Bearing.HANGS for seat in member.seats]
        if not any(hung) or held_by_fasteners(member):
            continue
        most, _ = lateral.on_seats[member.mark]
        for state in lateral.states:
            loads = most + seats_from_overturning(lateral, state, member)
            for row, seat in enumerate(member.seats):
                if not hung[row]:
                    continue
                kind = seat.connection or ""
                wet = wet_factor(member, connections.get(kind))
                load = float((loads[row] / np.minimum(lateral.cases.C_D, 1.0)).max()) / wet
                if kind not in worst or load > worst[kind][0] * MORE:
                    worst[kind] = load, state, member, row
    return [_hanger(lateral, *found[1:]) for found in worst.values()]


def _hanger(lateral: LateralAnalysis, state: State, member: Member, row: int) -> Check:
    seat = member.seats[row]
    connection = lateral.path.layout.project.connections.get(seat.connection or "")
    if connection is None or connection.rated_load is None:
        reason = f"{member.mark} hangs from {seat.below}, but no rated load is given for its hanger."
        return not_checked(member.mark, "hanger.rated_lateral", reason, at=seat.connection or "")
    calculation = start(lateral)
    run = calculation.run
    R = run_seat_load(run, lateral, state, member, row, most=True)
    C_D = np.minimum(lateral.cases.C_D, 1.0)
    Z_p = run(hanger_capacity, Z_rated=connection.rated_load, C_D=C_D, C_M=wet_factor(member, connection))
    return judge_lateral(
        calculation,
        lateral,
        state,
        member.mark,
        key="hanger.rated_lateral",
        at=seat.connection or "",
        demand=R,
        capacity=Z_p,
        unit=POUND,
        says=f"the load on its hanger at {seat.below} with wind and sway",
    )
