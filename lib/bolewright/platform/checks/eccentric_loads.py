"""What loads off a beam's middle line ask: of its plies, of its shear, of hangers and of the joists' connections."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bolewright.bracing.rotation import eccentric_moment, joist_edge_force, shear_with_torsion, torsion_stress
from bolewright.calculation import Calculation
from bolewright.platform.analysis.eccentric import (
    OffCentre,
    edge_load,
    off_centre,
    seat_torques,
    seat_torques_by_side,
)
from bolewright.platform.checks.members import C_D, CASES, NAMES, Look, largest_shear, prefix
from bolewright.platform.checks.plies import most_reaction, ply_checks
from bolewright.platform.layout.layout import Bearing
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.combine import Array, envelope
from bolewright.timber.adjusted_values import adjusted_shear
from bolewright.timber.shear import shear_stress
from bolewright.units import POUND, PSI

EDGE_NOTE = (
    "Its connection takes the moment of its own load about the beam's middle line, as a couple on its depth."
)
TORSION_NOTE = (
    "The NDS gives no rule for torsion: each ply is twisted by itself, and the sum of both shear stresses is held to "
    "F'_v (common practice). Members hung on one face are taken as hinged there, unless restrains_beam is set."
)
LEAST_TORQUE = 1.0  # lb·in: less is rounding


def eccentric_checks(beams: Sequence[Look], members: Sequence[Look]) -> list[Check]:
    """Checks of all that loads off the middle line of beams ask; ``members`` are all joists and beams."""
    looks = {look.member.mark: look for look in members}
    checks: list[Check] = []
    for beam in beams:
        loads = off_centre(beam.path.layout, beam.member)
        hung = [load for load in loads if load.hung]
        if hung and beam.member.section.plies > 1:
            checks += ply_checks(beam, hung, looks)
        checks += _edges(beam, [load for load in loads if load.restrains], looks)
        checks += [*_torsion(beam), *_hangers(beam)]
    return checks


def _edges(beam: Look, loads: Sequence[OffCentre], looks: dict[str, Look]) -> list[Check]:
    """Connections that are rated to hold a beam, with the moment of their own load."""
    checks = []
    for load in loads:
        key = f"{prefix(load.member)}.edge_load"
        if load.edge_load is None:
            reason = (
                f"The connection of {load.member.mark} is to keep {beam.member.mark} from turning: enter edge_load, "
                "its rated load at the upper and lower edge."
            )
            checks.append(not_checked(load.member.mark, key, reason, at=beam.member.mark))
            continue
        calculation = Calculation((1, len(CASES)))
        F_j = calculation.run(
            joist_edge_force,
            M_j=0.0,
            R=most_reaction(looks[load.member.mark], load),
            e=abs(load.e),
            d_j=load.member.section.d,
        )
        checks += judge(
            calculation,
            [load.member.mark],
            NAMES,
            key=key,
            at=beam.member.mark,
            demand=F_j,
            capacity=load.edge_load,
            unit=POUND,
            says=f"the force at the edges of its connection to {beam.member.mark}",
            notes=(EDGE_NOTE,),
        )
    return checks


def _greatest(beam: Look, rows: Array) -> Array:
    """Greatest torque of rows, either way, in every case."""
    env = envelope(beam.path, rows)
    return np.asarray(np.maximum(env.most(CASES), -env.least(CASES)).max(axis=1))[None, :]


def _torsion(beam: Look) -> list[Check]:
    """Shear with the torque that members on one face leave to the beam."""
    member = beam.member
    T = _greatest(beam, seat_torques_by_side(beam.path, member).reshape(-1, beam.path.dead.size))
    if T.max() < LEAST_TORQUE:
        return []
    calculation = Calculation((1, len(CASES)))
    run = calculation.run
    f_v = run(shear_stress, V=largest_shear(beam)[None, :], b=member.width, d=member.section.d)
    f_vt = run(
        torsion_stress,
        T=T,
        n=float(member.section.plies),
        d=member.section.d,
        t=member.section.ply_thickness,
    )
    f = run(shear_with_torsion, f_v=f_v, f_vt=f_vt)
    F_v_p = run(adjusted_shear, F_v=beam.effects.values.F_v, C_D=C_D, **beam.factors.shear)
    return judge(
        calculation,
        [member.mark],
        NAMES,
        key="beam.torsion",
        demand=f,
        capacity=F_v_p,
        unit=PSI,
        says="shear with torsion",
        notes=(TORSION_NOTE,),
    )


def _hangers(beam: Look) -> list[Check]:
    """Hung ends of a beam that members on one face turn: held at the edges of its own hangers."""
    member = beam.member
    torques = seat_torques(beam.path, member)
    rated = edge_load(member)
    checks = []
    for row, seat in enumerate(member.seats):
        if seat.bearing is not Bearing.HANGS:
            continue
        T = _greatest(beam, torques[[row]])
        if T.max() < LEAST_TORQUE:
            continue
        if rated is None:
            reason = (
                f"What hangs on one face of {member.mark} turns it in its hanger at {seat.below} by up to "
                f"{T.max():,.0f} lb·in: enter edge_load, the rated load of its hanger's upper and lower edge, or of "
                "the connections of what hangs on it."
            )
            checks.append(not_checked(member.mark, "beam.rotation_hanger", reason, at=seat.below))
            continue
        e = max(abs(load.e) for load in off_centre(beam.path.layout, member))
        calculation = Calculation((1, len(CASES)))
        calculation.run(eccentric_moment, R=T / e, e=e)
        F_j = calculation.run(joist_edge_force, M_j=0.0, R=T / e, e=e, d_j=member.section.d)
        checks += judge(
            calculation,
            [member.mark],
            NAMES,
            key="beam.rotation_hanger",
            at=seat.below,
            demand=F_j,
            capacity=rated,
            unit=POUND,
            says=f"the force at the edges of its hanger at {seat.below}",
        )
    return checks
