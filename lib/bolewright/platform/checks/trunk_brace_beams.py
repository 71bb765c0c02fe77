"""Beams on knee braces from a trunk: drawn outwards between their heads and the tie, and bent by that off centre."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.trunk_brace import thrust_moment, trunk_brace_compression
from bolewright.calculation import Calculation
from bolewright.platform.checks.members import CASES, NAMES, largest_moment, look_of
from bolewright.platform.checks.plies import BENDING_NOTE, reaction_by_weight, run_moment_of_loaded_ply
from bolewright.platform.checks.posts import support_load
from bolewright.platform.layout.trunk_braces import TrunkBrace, trunk_braces
from bolewright.platform.limit_states.check import Check, judge
from bolewright.platform.loads.load_path import LoadPath
from bolewright.timber.adjusted_values import adjusted_bending, adjusted_tension
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bending import bending_stress
from bolewright.timber.combined import bending_and_tension, tension_stress
from bolewright.timber.net_section import net_area
from bolewright.units import NONE

HOLE = 1 / 16  # in, a bolt hole is wider than its bolt
NOTE = (
    "On the safe side: the whole lateral force of the brace, with the largest moment of the beam "
    "anywhere, and its pull taken at the beam's underside, half the depth off centre."
)


def brace_tension_checks(path: LoadPath) -> list[Check]:
    """Tension and bending of the beam that each knee brace from a trunk draws outwards."""
    return [
        max((_beam(path, brace, sagging=way) for way in (True, False)), key=lambda check: check.severity)
        for brace in trunk_braces(path.layout)
    ]


def _beam(path: LoadPath, brace: TrunkBrace, *, sagging: bool) -> Check:
    beam = brace.beam
    effects = path.effects[beam.mark]
    group = factors(effects.values, Service(beam.timber.wet, incised=beam.timber.counts_incised))
    C_D = np.array([c.C_D for c in CASES])
    look = look_of(path, beam)
    M = largest_moment(look, sagging=sagging)[0][None, :]
    calculation = Calculation((1, len(CASES)))
    run = calculation.run
    T = run(trunk_brace_compression, R=support_load(path, brace.mark)[None, :], a=brace.a, r=brace.r)
    M_T = run(thrust_moment, M=M, T_b=T, d=beam.section.d)
    D = brace.strut.bolt_diameter
    A_n = run(
        net_area,
        b=beam.width,
        d=beam.section.d,
        n=1.0 if D else 0.0,
        D_h=D + HOLE if D else 0.0,
    )
    f_t = run(tension_stress, T=T, A_n=A_n)
    F_t_p = run(adjusted_tension, F_t=effects.values.F_t, C_D=C_D, **group.tension)
    M_1, n, hung = run_moment_of_loaded_ply(run, look, reaction_by_weight(path), M_T, sagging=sagging)
    f_b = run(bending_stress, M=M_1, S=beam.section.S / n)
    F_b_star = run(adjusted_bending, F_b=effects.values.F_b, C_D=C_D, C_L=1.0, **group.bending)
    ratio = run(bending_and_tension, f_t=f_t, F_t_p=F_t_p, f_b=f_b, F_b_star=F_b_star)
    return judge(
        calculation,
        [brace.mark],
        NAMES,
        key="trunk_brace.beam_tension",
        at=beam.mark,
        demand=ratio,
        capacity=1.0,
        unit=NONE,
        says=f"tension and bending of {beam.mark}",
        notes=(NOTE, *((BENDING_NOTE,) if hung else ())),
    )[0]
