"""Knee braces bent flatwise by the wind on themselves, with the force along them."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.rotation import eccentric_moment
from bolewright.bracing.wind import moment_by_wind
from bolewright.calculation import Calculation
from bolewright.platform.analysis.brace_wind import BraceTimber, run_wind_on
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.checks.lateral import Run, judge_lateral
from bolewright.platform.checks.posts import SAWN
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import Array
from bolewright.timber.adjusted_values import (
    adjusted_bending,
    adjusted_compression,
    adjusted_minimum_modulus,
    adjusted_tension,
    compression_before_stability,
)
from bolewright.timber.bending import (
    BendingCase,
    bending_stress,
    critical_buckling_bending,
    effective_length,
    effective_length_coefficients,
    slenderness_ratio,
)
from bolewright.timber.columns import (
    column_stability_factor,
    compression_stress,
    critical_buckling_compression,
    effective_column_length,
)
from bolewright.timber.combined import bending_and_tension, eccentric_compression, tension_stress
from bolewright.timber.deflection import moment_of_both
from bolewright.units import NONE

WIND_NOTE = (
    "Wind square to the brace's plane bears on its broad side, all of it on one ply where it has two, whatever way the "
    "platform's wind blows: on the safe side; no C_fu."
)

PULLED_NOTE = (
    "One ply lapped on one face of post and beam is pulled at its face, half its thickness off its middle: it bends by "
    "that all along (statics). A second ply on the other face takes that away."
)


def bent_by_wind(
    calculation: Calculation,
    lateral: LateralAnalysis,
    state: State,
    brace: BraceTimber,
    key: str,
    pushed: Array,
    *,
    notes: tuple[str, ...] = (),
) -> Check:
    """Compression (a row, lb) and bending by wind: NDS 2018, 3.9.2, a ply lapped on one face with 15.4."""
    run, cases, group = calculation.run, lateral.cases, brace.factors
    f_b2 = _run_bending(run, lateral, brace)
    l_e = run(effective_column_length, K_e=1.0, l=brace.length)
    E_min_p = run(adjusted_minimum_modulus, E_min=brace.values.E_min, **group.modulus)
    F_cE2 = run(critical_buckling_compression, E_min_p=E_min_p, l_e=l_e, d=brace.thin)
    F_cE1 = run(critical_buckling_compression, E_min_p=E_min_p, l_e=l_e, d=brace.wide)
    F_bE = run_buckling_edgewise(run, E_min_p, brace.length, brace.wide, brace.thin)
    F_c_star = run(compression_before_stability, F_c=brace.values.F_c, C_D=cases.C_D, **group.compression)
    C_P = run(column_stability_factor, F_cE=F_cE2, F_c_star=F_c_star, c=SAWN)
    F_c_p = run(adjusted_compression, F_c=brace.values.F_c, C_D=cases.C_D, C_P=C_P, **group.compression)
    F_b_p = run(adjusted_bending, F_b=brace.values.F_b, C_D=cases.C_D, C_L=1.0, **group.bending)
    ratio = run(
        eccentric_compression,
        f_c=run(compression_stress, P=pushed, A=brace.section.A * brace.plies),
        F_c_p=F_c_p,
        F_cE1=F_cE1,
        F_cE2=F_cE2,
        f_b1=0.0,
        F_b1_p=F_b_p,
        f_b2=f_b2,
        F_b2_p=F_b_p,
        F_bE=F_bE,
        e_1=0.0,
        d_1=brace.wide,
        e_2=brace.eccentricity,
        d_2=brace.thin,
    )
    return judge_lateral(
        calculation,
        lateral,
        state,
        brace.mark,
        key=key,
        demand=ratio,
        capacity=1.0,
        unit=NONE,
        clause="NDS 2018, 15.4.1" if brace.eccentricity else "NDS 2018, 3.9.2",
        says="compression with bending by wind",
        nothing="it buckles under its compression; a thicker or shorter brace, or two plies, are wanted",
        notes=(WIND_NOTE, *notes),
    )


def run_buckling_edgewise(run: Run, E_min_p: Array, l: float, wide: float, thin: float) -> Array:
    """Critical buckling stress F_bE (psi) of a brace edgewise, its ends held: NDS 2018, 3.3.3.8; asked by 15.4.1."""
    k_l, k_d = effective_length_coefficients(BendingCase.OTHER, l, wide)
    l_b = run(effective_length, l_u=l, d=wide, k_l=float(k_l), k_d=float(k_d))
    R_B = run(slenderness_ratio, l_e=l_b, d=wide, b=thin)
    return np.asarray(run(critical_buckling_bending, E_min_p=E_min_p, R_B=R_B), dtype=float)


def drawn_and_bent(
    calculation: Calculation,
    lateral: LateralAnalysis,
    state: State,
    brace: BraceTimber,
    key: str,
    pulled: Array,
    A_n: float,
    *,
    notes: tuple[str, ...] = (),
) -> Check:
    """Tension (a row, lb) and bending by wind, and by the pull itself on a ply lapped on one face: NDS 2018, 3.9.1."""
    run, cases, group = calculation.run, lateral.cases, brace.factors
    f_b = _run_bending(run, lateral, brace, pulled)
    ratio = run(
        bending_and_tension,
        f_t=run(tension_stress, T=pulled, A_n=A_n),
        F_t_p=run(adjusted_tension, F_t=brace.values.F_t, C_D=cases.C_D, **group.tension),
        f_b=f_b,
        F_b_star=run(adjusted_bending, F_b=brace.values.F_b, C_D=cases.C_D, C_L=1.0, **group.bending),
    )
    return judge_lateral(
        calculation,
        lateral,
        state,
        brace.mark,
        key=key,
        demand=ratio,
        capacity=1.0,
        unit=NONE,
        clause="NDS 2018, 3.9.1",
        says="tension with bending by wind",
        notes=(WIND_NOTE, *((PULLED_NOTE,) if brace.eccentricity else ()), *notes),
    )


def _run_bending(
    run: Run, lateral: LateralAnalysis, brace: BraceTimber, pulled: Array | None = None
) -> Array:
    """Stress by wind, and by a pull beside its middle, of one ply bent flatwise."""
    F = run_wind_on(run, lateral.path, lateral.winds, brace)
    M = run(moment_by_wind, w=lateral.cases.W[None, :], F=F, l=brace.length)
    if pulled is not None and brace.eccentricity:
        M = run(moment_of_both, M_w=M, M_P=run(eccentric_moment, R=pulled, e=brace.eccentricity))
    return np.asarray(run(bending_stress, M=M, S=brace.wide * brace.thin**2 / 6))
