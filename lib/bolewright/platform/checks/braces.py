"""Knee braces: buckling under compression, and tension; their ends are :mod:`bolewright.platform.checks.brace_ends`."""

from __future__ import annotations

import math

from bolewright.bracing.knee import brace_compression, brace_length, brace_tension
from bolewright.platform.analysis.brace_wind import BraceTimber
from bolewright.platform.analysis.knee_weight import Way
from bolewright.platform.analysis.knees import Knee
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.checks.brace_distances import distance_checks
from bolewright.platform.checks.brace_ends import end_checks, run_brace_forces, weight_note
from bolewright.platform.checks.brace_wind import bent_by_wind, drawn_and_bent, run_buckling_edgewise
from bolewright.platform.checks.lateral import Run, judge_lateral, start, worse
from bolewright.platform.checks.posts import SAWN
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.timber.adjusted_values import (
    adjusted_bending,
    adjusted_compression,
    adjusted_minimum_modulus,
    adjusted_tension,
    compression_before_stability,
)
from bolewright.timber.columns import (
    column_stability_factor,
    compression_stress,
    critical_buckling_compression,
    effective_column_length,
)
from bolewright.timber.combined import eccentric_compression, tension_stress
from bolewright.timber.net_section import net_area
from bolewright.units import NONE, PSI

LAPPED_NOTE = (
    "One ply lapped on one face of post and beam is pushed at its face: half its thickness off its middle "
    "(NDS 2018, 15.4). A second ply on the other face takes that away."
)


def brace_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of every knee brace."""
    if lateral.loose:
        return [
            not_checked(
                knee.brace.mark,
                "brace.lateral",
                f"{knee.brace.mark} is not checked: nothing holds the platform {lateral.loose}.",
            )
            for knee in lateral.knees
        ]
    checks: list[Check] = []
    for knee in lateral.knees:
        checks += distance_checks(knee)
        checks += worse(check for state in lateral.states for check in _brace(lateral, state, knee))
    return checks


def _brace(lateral: LateralAnalysis, state: State, knee: Knee) -> list[Check]:
    return [
        _push(lateral, state, knee),
        _pull(lateral, state, knee),
        *_with_wind(lateral, state, knee),
        *([_pushed_at_holes(lateral, state, knee)] if knee.bolts else []),
        *end_checks(lateral, state, knee),
    ]


def _push(lateral: LateralAnalysis, state: State, knee: Knee) -> Check:
    """Buckling of a brace: each ply by itself over the whole length, about its thin way."""
    cases, group = lateral.cases, knee.factors
    calculation = start(lateral)
    run = calculation.run
    F_b, F_w = run_brace_forces(run, lateral, state, knee, Way.PUSH, full=True)
    F = run(brace_compression, F_b=F_b, F_w=F_w)
    l = run(brace_length, a=knee.brace.rise, r=knee.brace.run)
    l_e = run(effective_column_length, K_e=1.0, l=l)
    thin = min(knee.section.b, knee.section.d)
    E_min_p = run(adjusted_minimum_modulus, E_min=knee.values.E_min, **group.modulus)
    F_cE = run(critical_buckling_compression, E_min_p=E_min_p, l_e=l_e, d=thin)
    F_c_star = run(compression_before_stability, F_c=knee.values.F_c, C_D=cases.C_D, **group.compression)
    C_P = run(column_stability_factor, F_cE=F_cE, F_c_star=F_c_star, c=SAWN)
    F_c_p = run(adjusted_compression, F_c=knee.values.F_c, C_D=cases.C_D, C_P=C_P, **group.compression)
    f_c = run(compression_stress, P=F, A=knee.section.A * knee.brace.plies)
    if knee.brace.plies > 1:
        demand, capacity, unit, clause = f_c, F_c_p, PSI, "NDS 2018, 3.7"
    else:
        F_b_p = run(adjusted_bending, F_b=knee.values.F_b, C_D=cases.C_D, C_L=1.0, **group.bending)
        wide = max(knee.section.b, knee.section.d)
        ratio = run(
            eccentric_compression,
            f_c=f_c,
            F_c_p=F_c_p,
            F_cE1=run(critical_buckling_compression, E_min_p=E_min_p, l_e=l_e, d=wide),
            F_cE2=F_cE,
            f_b1=0.0,
            F_b1_p=F_b_p,
            f_b2=0.0,
            F_b2_p=F_b_p,
            F_bE=run_buckling_edgewise(run, E_min_p, float(l), wide, thin),
            e_1=0.0,
            d_1=wide,
            e_2=thin / 2,
            d_2=thin,
        )
        demand, capacity, unit, clause = ratio, 1.0, NONE, "NDS 2018, 15.4.1"
    return judge_lateral(
        calculation,
        lateral,
        state,
        knee.brace.mark,
        key="brace.buckling",
        demand=demand,
        capacity=capacity,
        unit=unit,
        clause=clause,
        says="compression against buckling",
        nothing="it buckles under its compression; a thicker or shorter brace, or two plies, are wanted",
        notes=(weight_note(knee),) if knee.brace.plies > 1 else (weight_note(knee), LAPPED_NOTE),
    )


def _with_wind(lateral: LateralAnalysis, state: State, knee: Knee) -> list[Check]:
    """Bending by wind with compression, and with tension."""
    brace, key = knee.brace, "brace.with_wind"
    thin = min(knee.section.b, knee.section.d)
    length = math.hypot(brace.rise, brace.run)
    lapped = thin / 2 if brace.plies == 1 else 0.0
    own = BraceTimber(brace.mark, knee.section, brace.plies, length, knee.values, knee.factors, lapped)
    pushed, drawn = start(lateral), start(lateral)
    F_b, F_w = run_brace_forces(pushed.run, lateral, state, knee, Way.PUSH, full=True)
    C = pushed.run(brace_compression, F_b=F_b, F_w=F_w)
    F_b, F_w = run_brace_forces(drawn.run, lateral, state, knee, Way.PULL, full=True)
    T = drawn.run(brace_tension, F_b=F_b, F_w=F_w)
    A_n = _run_net(drawn.run, knee)
    return [
        bent_by_wind(pushed, lateral, state, own, key, C, notes=(weight_note(knee),)),
        drawn_and_bent(drawn, lateral, state, own, key, T, A_n, notes=(weight_note(knee),)),
    ]


def _run_net(run: Run, knee: Knee) -> float:
    """Area that the holes leave of a brace."""
    n, D_h = (knee.bolts.together, knee.bolts.hole) if knee.bolts else (0, 0.0)
    return float(run(net_area, b=knee.brace.plies * knee.section.b, d=knee.section.d, n=float(n), D_h=D_h))


def _pushed_at_holes(lateral: LateralAnalysis, state: State, knee: Knee) -> Check:
    """Compression on the net section, at an end that does not buckle."""
    calculation = start(lateral)
    run = calculation.run
    F_b, F_w = run_brace_forces(run, lateral, state, knee, Way.PUSH, full=True)
    F = run(brace_compression, F_b=F_b, F_w=F_w)
    f_c = run(compression_stress, P=F, A=_run_net(run, knee))
    F_c_star = run(
        compression_before_stability, F_c=knee.values.F_c, C_D=lateral.cases.C_D, **knee.factors.compression
    )
    return judge_lateral(
        calculation,
        lateral,
        state,
        knee.brace.mark,
        key="brace.net_compression",
        demand=f_c,
        capacity=F_c_star,
        unit=PSI,
        says="compression on the net section",
        notes=(weight_note(knee),),
    )


def _pull(lateral: LateralAnalysis, state: State, knee: Knee) -> Check:
    cases, brace = lateral.cases, knee.brace
    calculation = start(lateral)
    run = calculation.run
    F_b, F_w = run_brace_forces(run, lateral, state, knee, Way.PULL, full=True)
    F = run(brace_tension, F_b=F_b, F_w=F_w)
    A_n = _run_net(run, knee)
    f_t = run(tension_stress, T=F, A_n=A_n)
    F_t_p = run(adjusted_tension, F_t=knee.values.F_t, C_D=cases.C_D, **knee.factors.tension)
    return judge_lateral(
        calculation,
        lateral,
        state,
        brace.mark,
        key="brace.tension",
        demand=f_t,
        capacity=F_t_p,
        unit=PSI,
        says="tension",
        notes=(weight_note(knee),),
    )
