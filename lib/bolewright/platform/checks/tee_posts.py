"""Posts of T-frames under weight alone: what weight on one arm of the beam brings into the post and the ground.

Nothing level is counted on to help; with wind and sway they are in :mod:`bolewright.platform.checks.posts_lateral`.
"""

from __future__ import annotations

import numpy as np

from bolewright.bracing.tee import tee_post_moment
from bolewright.calculation import Calculation
from bolewright.ground.embedded_post import (
    lateral_pressure_full_depth,
    lateral_pressure_third_depth,
    moment_capacity_constrained,
    moment_capacity_nonconstrained,
)
from bolewright.platform.analysis.embedded import embedded_depth
from bolewright.platform.analysis.post_values import post_timber, post_weight
from bolewright.platform.checks.footings_lateral import SOIL_NOTE, soil_breadth
from bolewright.platform.checks.members import CASES, NAMES
from bolewright.platform.checks.posts import SAWN, support_load
from bolewright.platform.layout.tees import FIXITY, LEAN_NOTE, TEE_NOTE, Tee, find_tees, run_turn
from bolewright.platform.limit_states.check import Check, Effect, judge
from bolewright.platform.loads.combine import Array, envelope
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Support
from bolewright.timber.adjusted_values import (
    adjusted_bending,
    adjusted_compression,
    adjusted_minimum_modulus,
    compression_before_stability,
)
from bolewright.timber.adjustment import Service, factors
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
from bolewright.timber.combined import eccentric_compression
from bolewright.units import NONE, POUND_FOOT

WORST_NOTE = (
    "The greatest thrust and the greatest moment count together, though of two patterns of live load."
)


def tee_post_checks(path: LoadPath) -> list[Check]:
    """Checks of the post and the foot of every T-frame under weight alone."""
    return [
        check
        for tee in find_tees(path.layout)
        for support in path.layout.supports
        if support.mark == tee.mark
        for check in (_post(path, tee, support), _foot(path, tee, support))
    ]


def _moment(path: LoadPath, tee: Tee) -> tuple[Array, Array]:
    """Greatest moment of the weight about the post in each strength case, and its sign."""
    head = path.effects[tee.beam.mark].head
    assert head is not None
    env = envelope(path, head)
    most, least = env.most(CASES)[:, 0], env.least(CASES)[:, 0]
    sign = np.where(most >= -least, 1, -1)
    return np.where(sign > 0, most, least), sign


def _post(path: LoadPath, tee: Tee, support: Support) -> Check:
    """Thrust with bending in the plane of the frame (axis 2 of the NDS), the load off centre across it."""
    post, (section, values) = tee.post, post_timber(path, support)
    group = factors(values, Service(wet=post.wet, incised=post.counts_incised))
    C_D = np.array([c.C_D for c in CASES])
    P = support_load(path, tee.mark) + post_weight(path, support) * np.array([c.D for c in CASES])
    M_h, sign = _moment(path, tee)
    b, d = sorted((section.b, section.d))
    l = tee.h + FIXITY
    calculation = Calculation((1, len(CASES)))
    run = calculation.run
    run_turn(run, tee, M_h[None, :])
    M = run(tee_post_moment, V=0.0, l=l, M_h=M_h[None, :])
    E_min_p = run(adjusted_minimum_modulus, E_min=values.E_min, **group.modulus)
    l_e = run(effective_column_length, K_e=post.K_e, l=l)
    F_cE = run(critical_buckling_compression, E_min_p=E_min_p, l_e=l_e, d=b)
    F_c_star = run(compression_before_stability, F_c=values.F_c, C_D=C_D, **group.compression)
    C_P = run(column_stability_factor, F_cE=F_cE, F_c_star=F_c_star, c=SAWN)
    F_c_p = run(adjusted_compression, F_c=values.F_c, C_D=C_D, C_P=C_P, **group.compression)
    k_l, k_d = effective_length_coefficients(BendingCase.OTHER, l, d)
    l_b = run(effective_length, l_u=l, d=d, k_l=k_l, k_d=k_d)
    F_bE = run(critical_buckling_bending, E_min_p=E_min_p, R_B=run(slenderness_ratio, l_e=l_b, d=d, b=b))
    F_b_p = run(adjusted_bending, F_b=values.F_b, C_D=C_D, C_L=1.0, **group.bending)
    f_c = run(compression_stress, P=P[None, :], A=section.A)
    f_b2 = run(bending_stress, M=M, S=d * b**2 / 6)
    ratio = run(
        eccentric_compression,
        f_c=f_c,
        F_c_p=F_c_p,
        F_cE1=F_cE,
        F_cE2=F_cE,
        f_b1=0.0,
        F_b1_p=F_b_p,
        f_b2=f_b2,
        F_b2_p=F_b_p,
        F_bE=F_bE,
        e_1=post.eccentricity,
        d_1=b,
        e_2=0.0,
        d_2=b,
    )
    return judge(
        calculation,
        [tee.mark],
        NAMES,
        key="post.one_arm",
        demand=ratio,
        capacity=1.0,
        unit=NONE,
        says=f"unbalanced load on {tee.beam.mark}",
        effect=lambda row, column: Effect("head moment", tee.beam.mark, 0, int(sign[column])),
        notes=(TEE_NOTE, WORST_NOTE, LEAN_NOTE),
        nothing="it buckles under the weight on it alone; a thicker or shorter post is wanted",
    )[0]


def _foot(path: LoadPath, tee: Tee, support: Support) -> Check:
    """Moment of the weight at grade on the soil."""
    project = path.layout.project
    footing = project.footings[support.footing or ""]
    M_h, sign = _moment(path, tee)
    S = project.site.soil.values.lateral
    section, _ = post_timber(path, support)
    b, d = soil_breadth(footing, section), embedded_depth(footing) / 12
    m = 2.0 if tee.post.doubled else 1.0
    calculation = Calculation((1, len(CASES)))
    run = calculation.run
    M = run(tee_post_moment, V=0.0, l=tee.h, M_h=M_h[None, :]) / 12
    if tee.post.constrained:
        M_a = run(moment_capacity_constrained, S_3=run(lateral_pressure_full_depth, S=S, d=d, m=m), b=b, d=d)
    else:
        S_1 = run(lateral_pressure_third_depth, S=S, d=d, m=m)
        M_a = run(moment_capacity_nonconstrained, S_1=S_1, b=b, d=d)
    return judge(
        calculation,
        [tee.mark],
        NAMES,
        key="footing.embedment_one_arm",
        demand=M,
        capacity=M_a,
        unit=POUND_FOOT,
        says=f"the moment in the soil from unbalanced load on {tee.beam.mark}",
        effect=lambda row, column: Effect("head moment", tee.beam.mark, 0, int(sign[column])),
        notes=(TEE_NOTE, SOIL_NOTE),
    )[0]
