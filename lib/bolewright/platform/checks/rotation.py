"""Rotation (overturning) of a beam on its bearing by lateral force and loads off its middle line."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bolewright.bracing.rotation import (
    compression_block,
    eccentric_moment,
    rotation_moment,
    rotation_resistance,
    tie_pull_asked,
    tie_that_counts,
)
from bolewright.calculation import Calculation
from bolewright.platform.analysis.eccentric import off_centre, seat_torques
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.checks.members import breadth_against_buckling
from bolewright.platform.layout.contact import contact_at
from bolewright.platform.layout.parts import Member, Seat
from bolewright.platform.loads.combine import Array, dead_for, raising_loads, raising_push, snow_for
from bolewright.platform.loads.load_path import LoadPath
from bolewright.timber.adjusted_values import adjusted_bearing
from bolewright.timber.adjustment import Service, factors

LEAST_TORQUE = 1.0  # lb·in: less is rounding
ROTATION_NOTE = (
    "The pattern of weight that turns the beam most counts, with the load that it leaves on the bearing; a tie counts "
    "on the face that lifts. The far edge is pressed on a block of wood at F'_c,perp, C_b not counted."
)


@dataclass(frozen=True)
class Bearing:
    """A beam's bearing as rotation sees it (in).

    ``row`` of the seat; ``c`` from the beam's middle line to the nearer edge of the bearing; ``l_b`` its length along
    the beam; ``F_c_perp_p`` the lesser adjusted bearing value (psi).
    """

    beam: Member
    row: int
    c: float
    l_b: float
    F_c_perp_p: float


def bearing_of(path: LoadPath, beam: Member, seat: Seat) -> Bearing:
    """A beam's bearing on a beam, a post's cap or a bracket; the softer wood of two governs, C_b not counted."""
    contact = contact_at(path.layout, beam, seat)
    values = []
    for mark in (beam.mark, seat.below):
        if mark in path.effects:
            effects = path.effects[mark]
            timber = effects.member.timber
            group = factors(effects.values, Service(wet=timber.wet, incised=timber.counts_incised))
            values.append(float(adjusted_bearing(F_c_perp=effects.values.F_c_perp, C_b=1.0, **group.bearing)))
    c = max(contact.to_edge(beam.line), 0.0) if contact.touches else 0.0
    return Bearing(
        beam,
        beam.seats.index(seat),
        min(c, breadth_against_buckling(beam) / 2),  # plies that nothing joins turn over one by one
        contact.sides(beam.line)[1],
        min(values),
    )


@dataclass(frozen=True)
class Together:
    """Load off centre and load on the bearing in one pattern of weight, in every case (lb·in, lb)."""

    M_e: Array
    R: Array


@dataclass(frozen=True)
class Pattern:
    """Weight in the pattern that turns a beam most one way, in every case (lb·in, lb).

    ``M_e`` of loads off centre, that way; ``tilted`` what one lb·in of overturning along x and y adds to it; ``R`` load
    on the bearing.
    """

    M_e: Array
    tilted: Array
    R: Array

    def under(self, state: State) -> Together:
        """With the overturning of a state."""
        return Together(np.maximum(self.M_e + self.tilted @ state.turn, 0.0), self.R)


def patterns(lateral: LateralAnalysis, at: Bearing, on_seat: Array) -> tuple[Pattern, ...]:
    """Weight in the patterns that turn a beam most, to the left and to the right, the same in every state.

    ``on_seat`` is the influence of the sources on the load of the bearing. Found once for each.
    """
    key = ("patterns", at.beam.mark, at.row, at.c, on_seat.tobytes())
    if key not in lateral.kept:
        lateral.kept[key] = _patterns(lateral, at, on_seat)
    kept: tuple[Pattern, ...] = lateral.kept[key]
    return kept


def _patterns(lateral: LateralAnalysis, at: Bearing, on_seat: Array) -> tuple[Pattern, ...]:
    found = []
    path, cases = lateral.path, lateral.cases
    torque = seat_torques(path, at.beam)[at.row]
    tilted = torque @ lateral.tilt
    for sign in (1.0, -1.0) if np.any(torque) else (1.0,):
        worse = sign * torque - at.c * on_seat
        dead, live, snow, push = (
            dead_for(path, worse),
            raising_loads(path, worse, "live"),
            snow_for(path, worse),
            raising_push(path, worse),
        )

        def under(
            row: Array, dead: Array = dead, live: Array = live, snow: Array = snow, push: Array = push
        ) -> Array:
            steady = np.outer(row @ dead, cases.D) + np.outer(row @ snow, cases.S)
            return np.asarray(steady + np.outer(row @ live, cases.L) + np.outer(row @ push, cases.G))

        turned, pressed = under(np.stack([torque, on_seat]))
        found.append(Pattern(sign * turned, sign * tilted, pressed))
    return tuple(found)


def run_rotation(
    calculation: Calculation,
    path: LoadPath,
    at: Bearing,
    V: Array,
    found: Together,
    R: Array,
    T: float | Array,
) -> tuple[Array, Array]:
    """Moment that turns the beam, and the moment that holds it, in every case (a row)."""
    run = calculation.run
    M_r = _run_turning(calculation, path, at, V, found)
    b = breadth_against_buckling(at.beam)
    if np.any(at.F_c_perp_p * at.l_b * (b / 2 + at.c) < R + T):
        T = run(tie_that_counts, T=T, R=R, F_c_perp_p=at.F_c_perp_p, l_b=at.l_b, b=b, c=at.c)
    x = run(compression_block, R=R, T=T, F_c_perp_p=at.F_c_perp_p, l_b=at.l_b)
    M_a = run(rotation_resistance, R=R, c=at.c, T=T, b=b, x=x)
    return np.asarray(M_r), np.asarray(M_a)


def run_tie_pull(
    calculation: Calculation, path: LoadPath, at: Bearing, V: Array, found: Together, R: Array
) -> Array:
    """Pull asked of the tie on the face that lifts, in every case (a row, lb)."""
    M_r = _run_turning(calculation, path, at, V, found)
    b = breadth_against_buckling(at.beam)
    T_a = calculation.run(tie_pull_asked, M_r=M_r, R=R, F_c_perp_p=at.F_c_perp_p, l_b=at.l_b, b=b, c=at.c)
    return np.asarray(T_a)


def _run_turning(calculation: Calculation, path: LoadPath, at: Bearing, V: Array, found: Together) -> Array:
    """Moment of lateral force and of loads off its middle line that turns a beam, in every case (lb·in)."""
    M_e: float | Array = 0.0
    if found.M_e.max() > LEAST_TORQUE:
        e = max(abs(load.e) for load in off_centre(path.layout, at.beam) if not load.restrains)
        M_e = calculation.run(eccentric_moment, R=found.M_e[None, :] / e, e=e)
    return np.asarray(calculation.run(rotation_moment, V=V, d=at.beam.section.d, M_e=M_e))
