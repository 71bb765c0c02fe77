"""Posts under wind and sway: thrust with bending at the knee and in the ground, embedment, soil, uplift."""

from __future__ import annotations

import math
from functools import cache

import numpy as np

from bolewright.bracing.knee import (
    brace_force_from_weight,
    post_moment_at_grade,
    post_moment_at_knee,
    post_moment_at_knee_held,
    post_moment_cantilever,
    post_moment_from_weight,
    post_moment_sum,
    post_side_stiffness,
)
from bolewright.bracing.standing import (
    height_of_force,
    resultant_level_force,
)
from bolewright.bracing.stiffness import spring_of
from bolewright.ground.concrete import PLAIN_CONCRETE, weight_of_volume
from bolewright.ground.embedded_post import (
    effective_breadth,
    embedment_constrained,
    largest_post_moment_depth,
    lateral_capacity_nonconstrained,
    lateral_pressure_full_depth,
    lateral_pressure_third_depth,
    post_moment_below_grade,
)
from bolewright.ground.soil import round_footing_area, soil_class, soil_pressure_gross
from bolewright.ground.uplift import uplift_resistance_weight
from bolewright.platform.check import Check, Topic, demand_capacity_ratio, not_checked
from bolewright.platform.checks.footings import GROSS_NOTE, allowable_bearing, concrete_weight_volume
from bolewright.platform.checks.level import (
    Run,
    judge_level,
    run_level_force,
    run_load,
    start,
    unprinted,
    worse,
)
from bolewright.platform.checks.posts import FIXITY, SAWN, post_weight
from bolewright.platform.combine import Array
from bolewright.platform.knees import Knee, sag_under_weight
from bolewright.platform.level_stiffness import run_knee_ratio, run_knee_stiffness, run_post_modulus
from bolewright.platform.level_supports import Foot, PostAxis, PostFrame
from bolewright.platform.project import Footing
from bolewright.platform.sideways import Sideways, State
from bolewright.timber.adjusted_values import (
    adjusted_bending,
    adjusted_compression,
    adjusted_minimum_modulus,
    bending_before_stability,
    compression_before_stability,
)
from bolewright.timber.bending import (
    BendingCase,
    beam_stability_factor,
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
from bolewright.units import FOOT, NONE, POUND, PSF

STIFF = 1e9  # lb/in: two knees at one height hold the post between them
BOTH_NOTE = "A post in the ground is looked at with its foot held and with its foot hinged at grade; the worse counts."
SOIL_NOTE = (
    "Frozen ground in winter and thawed mud in spring are not the soil of the table: judgement on site."
)


def post_sideways_checks(sideways: Sideways) -> list[Check]:
    """Checks of every post and its footing under wind and sway."""
    checks: list[Check] = []
    for i, frame in enumerate(sideways.frames):
        if not isinstance(frame, PostFrame):
            continue
        if sideways.loose:
            checks.append(
                not_checked(
                    frame.support.mark,
                    Topic.POSTS,
                    "sway",
                    f"{frame.support.mark} is checked for weight alone: nothing holds the platform "
                    f"{sideways.loose}, so what sway asks of the post is not known.",
                    "NDS 2018, 3.9.2",
                )
            )
            continue
        found = [check for state in sideways.states for check in _post(sideways, state, i, frame)]
        checks += worse(found)
    return checks


def _post(sideways: Sideways, state: State, i: int, frame: PostFrame) -> list[Check]:
    checks = []
    if frame.braced:
        checks.append(_combined(sideways, state, i, frame, at_knee=True))
    if frame.post.foot == "held":
        checks.append(_combined(sideways, state, i, frame, at_knee=False))
    return [
        *checks,
        _embedment(sideways, state, i, frame),
        _soil(sideways, state, i, frame),
        _footing_uplift(sideways, state, i, frame),
    ]


def _ratio(frame: PostFrame, axis: PostAxis) -> float:
    """Force at the top over that at the knee; printed with the stiffness of the post."""
    run = unprinted()
    return run_knee_ratio(run, frame, axis, run_post_modulus(run, frame))


def _held(frame: PostFrame, state: State) -> bool:
    return frame.post.foot == "held" and state.foot is Foot.HELD


# ---------------------------------------------------------------------------------------------------------
# Thrust and bending


STIFFNESS_NOTE = "The stiffness of the post is worked out on the sheet of posts, under thrust and sway."


def run_weight_on_knee(run: Run, sideways: Sideways, frame: PostFrame, knee: Knee) -> Array:
    """Push in a knee because the carrier sags onto it, in every case."""
    cases = sideways.cases
    axis = next(axis for axis in frame.axes if knee in axis.knees)
    found = sideways.kicks[knee.carrier.mark]
    own = found.knees.index(knee)
    k_v = run(spring_of, P=1.0, delta=found.sag[own, own])
    k_p = STIFF
    if axis.n == 1:
        E = run_post_modulus(run, frame)
        k_p = run(post_side_stiffness, E=E, I=frame.I, h=frame.h, a=axis.a)
    k_b = run_knee_stiffness(run, knee)
    delta_v = sag_under_weight(sideways.path, knee, cases.D, cases.L, cases.S)[None, :]
    return np.asarray(
        run(brace_force_from_weight, delta_v=delta_v, a=axis.a, r=axis.r, k_v=k_v, k_p=k_p, k_b=k_b),
        dtype=float,
    )


def _moment_at_knee(
    run: Run, sideways: Sideways, state: State, frame: PostFrame, which: int, V: Array
) -> Array:
    axis = frame.axes[which]
    if not axis.n:
        other = frame.axes[1 - which]
        return np.asarray(run(post_moment_cantilever, V=V, l=other.a), dtype=float)
    if _held(frame, state):
        rho = _ratio(frame, axis)
        M_k = run(post_moment_at_knee_held, V=V, rho=rho, a=axis.a)
    else:
        M_k = run(post_moment_at_knee, V=V, h=frame.h, a=axis.a)
    F_w = run_weight_on_knee(unprinted(), sideways, frame, axis.knees[0])
    M_w = run(post_moment_from_weight, F_w=F_w, h=frame.h, a=axis.a, r=axis.r)
    return np.asarray(run(post_moment_sum, M_k=M_k, M_w=M_w), dtype=float)


def _moment_at_grade(run: Run, state: State, frame: PostFrame, which: int, V: Array) -> Array:
    axis = frame.axes[which]
    if frame.post.foot != "held" or (axis.n and not _held(frame, state)):
        return np.zeros_like(V)
    if not axis.n:
        return np.asarray(run(post_moment_cantilever, V=V, l=frame.h), dtype=float)
    rho = _ratio(frame, axis)
    return np.asarray(run(post_moment_at_grade, V=V, rho=rho, h=frame.h, a=axis.a), dtype=float)


def _moment_in_ground(
    run: Run, sideways: Sideways, state: State, frame: PostFrame, which: int, V: Array
) -> Array:
    """Largest moment in the post below grade, as a stiff pole in the soil (lb·in)."""
    M_g = _moment_at_grade(run, state, frame, which, V)
    P = np.maximum(np.abs(V), 1e-6)
    h = float(np.max(M_g / P)) / 12  # the moment goes with the force: one height for all cases
    d = _footing(sideways, frame).depth / 12
    x = _largest_depth(h, d)
    return np.asarray(12 * run(post_moment_below_grade, P=P, h=h, d=d, x=x), dtype=float)


@cache
def _largest_depth(h: float, d: float) -> float:
    return float(largest_post_moment_depth(h, d))


def _combined(sideways: Sideways, state: State, i: int, frame: PostFrame, *, at_knee: bool) -> Check:
    """Thrust, two-way bending and eccentricity, at the knee or where the moment in the ground is largest.

    Axis 1 of the NDS is bending in the plane across the carrier, with the eccentricity; axis 2 along it.
    """
    cases, mark = sideways.cases, frame.support.mark
    calculation = start(sideways)
    run = calculation.run
    moments = []
    for which in (0, 1):
        V = run_level_force(run, sideways, state, i, which, full=at_knee or not frame.braced)
        moments.append(
            _moment_at_knee(run, sideways, state, frame, which, V)
            if at_knee
            else _moment_in_ground(run, sideways, state, frame, which, V)
        )
    weight = np.maximum(sideways.most[i], 0.0) + post_weight(sideways.path, frame.support) * cases.D
    P = np.maximum(run_load(run, state, i, weight, foot=True), 0.0)
    d, b = max(frame.section.b, frame.section.d), min(frame.section.b, frame.section.d)
    l = frame.h + FIXITY
    E_min_p = run(adjusted_minimum_modulus, E_min=frame.values.E_min, **frame.factors.modulus)
    l_e = run(effective_column_length, K_e=frame.post.K_e, l=l)
    F_cE = run(critical_buckling_compression, E_min_p=E_min_p, l_e=l_e, d=b)
    F_c_star = run(
        compression_before_stability, F_c=frame.values.F_c, C_D=cases.C_D, **frame.factors.compression
    )
    C_P = run(column_stability_factor, F_cE=F_cE, F_c_star=F_c_star, c=SAWN)
    F_c_p = run(
        adjusted_compression, F_c=frame.values.F_c, C_D=cases.C_D, C_P=C_P, **frame.factors.compression
    )
    k_l, k_d = effective_length_coefficients(BendingCase.OTHER, l, d)
    l_b = run(effective_length, l_u=l, d=d, k_l=k_l, k_d=k_d)
    F_bE = run(critical_buckling_bending, E_min_p=E_min_p, R_B=run(slenderness_ratio, l_e=l_b, d=d, b=b))
    C_L: float | Array = 1.0
    if d > b:
        F_b_star = run(
            bending_before_stability, F_b=frame.values.F_b, C_D=cases.C_D, **frame.factors.bending_star
        )
        C_L = run(beam_stability_factor, F_bE=F_bE, F_b_star=F_b_star)
    F_b_p = run(adjusted_bending, F_b=frame.values.F_b, C_D=cases.C_D, C_L=C_L, **frame.factors.bending)
    f_c = run(compression_stress, P=P, A=frame.section.A)
    f_b2 = run(bending_stress, M=moments[0], S=frame.S)
    f_b1 = run(bending_stress, M=moments[1], S=frame.S)
    ratio = run(
        eccentric_compression,
        f_c=f_c,
        F_c_p=F_c_p,
        F_cE1=F_cE,
        F_cE2=F_cE,
        f_b1=f_b1,
        F_b1_p=F_b_p,
        f_b2=f_b2,
        F_b2_p=F_b_p,
        F_bE=F_bE,
        e_1=frame.post.eccentricity,
        d_1=b,
        e_2=0.0,
        d_2=b,
    )
    run(demand_capacity_ratio, demand=ratio, capacity=1.0)
    place = "at the knee" if at_knee else "in the ground"
    return judge_level(
        calculation,
        sideways,
        state,
        mark,
        topic=Topic.POSTS,
        limit_state=f"thrust and sway {place}",
        demand=ratio,
        capacity=1.0,
        unit=NONE,
        clause="NDS 2018, 15.4.1",
        says=f"thrust with bending both ways {place}",
        notes=(BOTH_NOTE,) if len(sideways.states) > 1 else (),
    )


# ---------------------------------------------------------------------------------------------------------
# Ground


def _footing(sideways: Sideways, frame: PostFrame) -> Footing:
    return sideways.path.layout.project.footings[frame.support.footing or ""]


def _breadth(footing: Footing, frame: PostFrame) -> float:
    """Breadth for the soil (ft): the hole in concrete, else the post's diagonal; a square counts by its diagonal."""
    hole = footing.width * (1.0 if footing.shape == "round" else math.sqrt(2))
    post = math.hypot(frame.section.b, frame.section.d)
    return effective_breadth(post, hole, footing.fill == "concrete") / 12


def _embedment(sideways: Sideways, state: State, i: int, frame: PostFrame) -> Check:
    footing, project = _footing(sideways, frame), sideways.path.layout.project
    calculation = start(sideways)
    run = calculation.run
    V = [run_level_force(run, sideways, state, i, which) for which in (0, 1)]
    M = [_moment_at_grade(run, state, frame, which, V[which]) for which in (0, 1)]
    P = np.maximum(run(resultant_level_force, V_1=V[0], V_2=V[1]), 1e-6)
    h = run(height_of_force, M_1=M[0], M_2=M[1], V=P) / 12
    S = soil_class(int(project.site.soil[-1])).lateral
    b, d, m = _breadth(footing, frame), footing.depth / 12, 2.0 if frame.post.doubled else 1.0
    notes = (SOIL_NOTE, STIFFNESS_NOTE, *((BOTH_NOTE,) if len(sideways.states) > 1 else ()))
    if frame.post.constrained:
        S_3 = run(lateral_pressure_full_depth, S=S, d=d, m=m)
        wanted = run(embedment_constrained, P=P, h=h, S_3=S_3, b=b)
        run(demand_capacity_ratio, demand=wanted, capacity=d)
        return judge_level(
            calculation,
            sideways,
            state,
            frame.support.mark,
            demand=wanted,
            capacity=d,
            unit=FOOT,
            says="the depth wanted, held at grade by a rigid surface,",
            notes=notes,
            topic=Topic.FOOTINGS,
            limit_state="embedment sideways",
            clause="IBC 2021, 1807.3",
        )
    S_1 = run(lateral_pressure_third_depth, S=S, d=d, m=m)
    P_a = run(lateral_capacity_nonconstrained, S_1=S_1, b=b, d=d, h=h)
    run(demand_capacity_ratio, demand=P, capacity=P_a)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        demand=P,
        capacity=P_a,
        unit=POUND,
        says="the level force on the soil",
        notes=notes,
        topic=Topic.FOOTINGS,
        limit_state="embedment sideways",
        clause="IBC 2021, 1807.3",
    )


def _soil(sideways: Sideways, state: State, i: int, frame: PostFrame) -> Check:
    footing = _footing(sideways, frame)
    calculation = start(sideways)
    run = calculation.run
    weight = np.maximum(sideways.most[i], 0.0)
    weight = weight + post_weight(sideways.path, frame.support) * sideways.cases.D
    P = run_load(run, state, i, weight, foot=True)
    W_f = run(weight_of_volume, V=concrete_weight_volume(footing), gamma=PLAIN_CONCRETE)
    side = footing.width / 12
    A = run(round_footing_area, d_f=side) if footing.shape == "round" else side**2
    q = run(soil_pressure_gross, P=np.maximum(P, 0.0), W_f=W_f, A=A)
    allowed = allowable_bearing(sideways.path)
    run(demand_capacity_ratio, demand=q, capacity=allowed)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        topic=Topic.FOOTINGS,
        limit_state="soil pressure with wind and sway",
        demand=q,
        capacity=allowed,
        unit=PSF,
        clause="IBC 2021, Table 1806.2",
        says="pressure on the soil with wind and sway",
        notes=(GROSS_NOTE,),
    )


def _footing_uplift(sideways: Sideways, state: State, i: int, frame: PostFrame) -> Check:
    """Uplift of the post's foot against six tenths of the concrete's weight."""
    footing = _footing(sideways, frame)
    calculation = start(sideways)
    run = calculation.run
    P = run_load(run, state, i, sideways.least[i], foot=True)
    lift = np.maximum(-P, 0.0)
    W_f = run(weight_of_volume, V=concrete_weight_volume(footing), gamma=PLAIN_CONCRETE)
    R_w = run(uplift_resistance_weight, W=W_f)
    run(demand_capacity_ratio, demand=lift, capacity=R_w)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        topic=Topic.FOOTINGS,
        limit_state="uplift of the footing",
        demand=lift,
        capacity=R_w,
        unit=POUND,
        clause="ASCE 7-16, 2.4.1 (0.6D + 0.6W)",
        says="uplift of the footing",
        notes=("The post must be held in the concrete: notches, bolts or an anchor through its foot.",),
    )
