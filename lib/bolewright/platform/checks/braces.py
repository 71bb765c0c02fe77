"""Knee braces: push and pull, the bolts or rated connection at their ends, and their kick in the carrier."""

from __future__ import annotations

import math

import numpy as np

from bolewright.bracing.knee import (
    brace_axial_force,
    brace_length,
    brace_thrust,
    knee_level_force,
    knee_level_force_held,
)
from bolewright.calculation import Calculation
from bolewright.fasteners.adjusted import adjusted_lateral_value, connection_value
from bolewright.fasteners.connectors import bolt
from bolewright.fasteners.dowel_bearing import wood_bearing_strength
from bolewright.fasteners.group_action import axial_stiffness, group_action_factor, slip_modulus_wood
from bolewright.fasteners.service import OUTDOORS, wet_service_factor
from bolewright.fasteners.yield_limit import double_shear, single_shear
from bolewright.platform.check import Check, Topic, demand_capacity_ratio, not_checked
from bolewright.platform.checks.level import Run, judge_level, run_level_force, start, unprinted, worse
from bolewright.platform.checks.members import at_depth, unbraced_length
from bolewright.platform.checks.posts import SAWN
from bolewright.platform.checks.posts_sideways import run_weight_on_knee
from bolewright.platform.combine import Array, envelope
from bolewright.platform.knees import Kicks, Knee
from bolewright.platform.level_stiffness import run_knee_ratio, run_post_modulus
from bolewright.platform.level_supports import Foot, PostFrame
from bolewright.platform.sideways import Sideways, State, knee_kick
from bolewright.timber.adjusted_values import (
    adjusted_bending,
    adjusted_compression,
    adjusted_minimum_modulus,
    adjusted_shear,
    adjusted_tension,
    bending_before_stability,
    compression_before_stability,
)
from bolewright.timber.adjustment import Service, factors, repetitive_use
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
from bolewright.timber.combined import bending_and_tension, tension_stress
from bolewright.timber.shear import shear_stress
from bolewright.units import NONE, POUND, PSI

HOLE = 1 / 16  # in, a bolt hole is wider than its bolt
SPACING = 4.0  # diameters between bolts in a row
END_NOTE = (
    "Ends by the full distances of NDS 2018 12.5: 7 D from a brace's end, 4 D between bolts and to the edge the load "
    "points at; C_Delta = 1. Fill between the plies where carrier and post differ in thickness."
)
RATED_NOTE = "The rated load counts as it was entered, without any increase for short loads."
FORCE_NOTE = "The push from weight is worked out under buckling."
WEIGHT_NOTE = "The brace is taken as fixed before the platform is loaded, so it picks up weight as well."


def brace_checks(sideways: Sideways) -> list[Check]:
    """Checks of every knee brace and of the carriers that they kick."""
    if sideways.loose:
        return [
            not_checked(
                knee.brace.mark,
                Topic.BRACES,
                "sway",
                f"{knee.brace.mark} is not checked: nothing holds the platform {sideways.loose}.",
            )
            for knee in sideways.knees
        ]
    checks: list[Check] = []
    for knee in sideways.knees:
        checks += worse(check for state in sideways.states for check in _brace(sideways, state, knee))
    for kicks in sideways.kicks.values():
        checks += worse(check for state in sideways.states for check in _carrier(sideways, state, kicks))
    return checks


def _frame(sideways: Sideways, knee: Knee) -> tuple[int, PostFrame, int]:
    i = sideways.row(knee.brace.support)
    frame = sideways.frames[i]
    assert isinstance(frame, PostFrame)
    return i, frame, next(w for w, axis in enumerate(frame.axes) if knee in axis.knees)


def _forces(
    run: Run, sideways: Sideways, state: State, knee: Knee, *, full: bool = False
) -> tuple[Array, Array]:
    """Force along a brace from level load (without sign) and its push from weight; ``full`` prints the latter too."""
    i, frame, which = _frame(sideways, knee)
    axis = frame.axes[which]
    V = run_level_force(run if full else unprinted(), sideways, state, i, which)
    if full and frame.post.foot == "held" and state.foot is Foot.HELD:
        rho = run_knee_ratio(unprinted(), frame, axis, run_post_modulus(unprinted(), frame))
        run(knee_level_force_held, V=V, rho=rho)
    elif full:
        run(knee_level_force, V=V, h=frame.h, a=axis.a)
    Q = np.abs(state.Q[i, which])[None, :]
    F_b = run(brace_axial_force, Q=Q, n=axis.n, a=axis.a, r=axis.r)
    return F_b, run_weight_on_knee(run if full else unprinted(), sideways, frame, knee)


def _brace(sideways: Sideways, state: State, knee: Knee) -> list[Check]:
    return [
        _push(sideways, state, knee),
        _pull(sideways, state, knee),
        *_ends(sideways, state, knee),
    ]


def _push(sideways: Sideways, state: State, knee: Knee) -> Check:
    """Buckling of a brace: each ply by itself over the whole length, about its thin way."""
    cases, group = sideways.cases, knee.factors
    calculation = start(sideways)
    run = calculation.run
    F_b, F_w = _forces(run, sideways, state, knee, full=True)
    F = run(brace_thrust, F_b=F_b, F_w=F_w)
    l = run(brace_length, a=knee.brace.rise, r=knee.brace.run)
    l_e = run(effective_column_length, K_e=1.0, l=l)
    thin = min(knee.section.b, knee.section.d)
    E_min_p = run(adjusted_minimum_modulus, E_min=knee.values.E_min, **group.modulus)
    F_cE = run(critical_buckling_compression, E_min_p=E_min_p, l_e=l_e, d=thin)
    F_c_star = run(compression_before_stability, F_c=knee.values.F_c, C_D=cases.C_D, **group.compression)
    C_P = run(column_stability_factor, F_cE=F_cE, F_c_star=F_c_star, c=SAWN)
    F_c_p = run(adjusted_compression, F_c=knee.values.F_c, C_D=cases.C_D, C_P=C_P, **group.compression)
    f_c = run(compression_stress, P=F, A=knee.section.A * knee.brace.plies)
    run(demand_capacity_ratio, demand=f_c, capacity=F_c_p)
    return judge_level(
        calculation,
        sideways,
        state,
        knee.brace.mark,
        topic=Topic.BRACES,
        limit_state="buckling",
        demand=f_c,
        capacity=F_c_p,
        unit=PSI,
        clause="NDS 2018, 3.7",
        says="push against buckling",
        notes=(WEIGHT_NOTE,),
    )


def _pull(sideways: Sideways, state: State, knee: Knee) -> Check:
    cases, brace = sideways.cases, knee.brace
    calculation = start(sideways)
    run = calculation.run
    F_b, _ = _forces(run, sideways, state, knee)
    hole = (brace.bolt_diameter or 0.0) + (HOLE if brace.bolts else 0.0)
    A_n = brace.plies * knee.section.b * (knee.section.d - hole)
    f_t = run(tension_stress, T=F_b, A_n=A_n)
    F_t_p = run(adjusted_tension, F_t=knee.values.F_t, C_D=cases.C_D, **knee.factors.tension)
    run(demand_capacity_ratio, demand=f_t, capacity=F_t_p)
    return judge_level(
        calculation,
        sideways,
        state,
        brace.mark,
        topic=Topic.BRACES,
        limit_state="pull",
        demand=f_t,
        capacity=F_t_p,
        unit=PSI,
        clause="NDS 2018, 3.8",
        says="pull",
        notes=("The relief by weight is not counted.",),
    )


# ---------------------------------------------------------------------------------------------------------
# Ends


def _ends(sideways: Sideways, state: State, knee: Knee) -> list[Check]:
    brace = knee.brace
    if brace.rated_load is not None:
        return [_rated_end(sideways, state, knee, brace.rated_load)]
    if brace.bolts is None or brace.bolt_diameter is None:
        return [
            not_checked(
                brace.mark,
                Topic.BRACES,
                "ends",
                f"{brace.mark} has no end connection: enter bolts and bolt_diameter, or a rated_load.",
                "NDS 2018, 12.3",
            )
        ]
    _, frame, _ = _frame(sideways, knee)
    a, r = brace.rise, brace.run
    carrier = knee.carrier
    to_post, to_carrier = math.degrees(math.atan2(r, a)), math.degrees(math.atan2(a, r))
    values = sideways.path.effects[carrier.mark].values
    thick = min(frame.section.b, frame.section.d)
    return [
        _bolted_end(
            sideways,
            state,
            knee,
            brace.support,
            thick,
            frame.values.G,
            to_post,
            frame.values.E * frame.section.A,
        ),
        _bolted_end(
            sideways,
            state,
            knee,
            carrier.mark,
            carrier.width,
            values.G,
            to_carrier,
            values.E * carrier.section.A,
        ),
    ]


def _rated_end(sideways: Sideways, state: State, knee: Knee, rated: float) -> Check:
    calculation = start(sideways)
    run = calculation.run
    F_b, F_w = _forces(run, sideways, state, knee)
    F = run(brace_thrust, F_b=F_b, F_w=F_w)
    run(demand_capacity_ratio, demand=F, capacity=rated)
    return judge_level(
        calculation,
        sideways,
        state,
        knee.brace.mark,
        topic=Topic.BRACES,
        limit_state="ends",
        demand=F,
        capacity=rated,
        unit=POUND,
        clause="Maker's rated load, entered by the user",
        says="the force on its ends",
        notes=(RATED_NOTE, WEIGHT_NOTE),
    )


def _bolted_end(
    sideways: Sideways,
    state: State,
    knee: Knee,
    onto: str,
    thickness: float,
    G: float,
    theta: float,
    EA: float,
) -> Check:
    """Bolts of a brace on a post or carrier: yield limit at the angle to its grain, wet, as a row."""
    brace, cases = knee.brace, sideways.cases
    count, D = float(brace.bolts or 0), float(brace.bolt_diameter or 0.0)
    calculation = start(sideways)
    run = calculation.run
    F_b, F_w = _forces(run, sideways, state, knee)
    F = run(brace_thrust, F_b=F_b, F_w=F_w)
    fastener = bolt(D, thickness + knee.section.b * brace.plies)
    F_em = wood_bearing_strength(G, D, theta, run)
    F_es = wood_bearing_strength(knee.values.G, D, 0.0, run)
    shear = double_shear if brace.plies == 2 else single_shear
    Z = shear(
        D=D,
        l_m=thickness,
        l_s=knee.section.b,
        F_em=F_em,
        F_es=F_es,
        F_yb=fastener.F_yb,
        theta=theta,
        calculation=calculation,
    ).Z
    C_g = _group(run, knee, count, D, EA) if count > 1 else 1.0
    wet = wet_service_factor(fastener, OUTDOORS) if brace.wet else 1.0
    Z_p = run(
        adjusted_lateral_value,
        Z=Z,
        C_D=cases.C_D,
        C_M=wet,
        C_t=1.0,
        C_g=C_g,
        C_Delta=1.0,
        C_eg=1.0,
        C_di=1.0,
        C_tn=1.0,
    )
    total = run(connection_value, n=count, Z_p=Z_p)
    run(demand_capacity_ratio, demand=F, capacity=total)
    return judge_level(
        calculation,
        sideways,
        state,
        brace.mark,
        topic=Topic.BRACES,
        limit_state="end on the post" if onto == brace.support else "end on the carrier",
        demand=F,
        capacity=total,
        unit=POUND,
        clause="NDS 2018, 12.3",
        says=f"the force on its bolts at {onto}",
        notes=(END_NOTE, FORCE_NOTE, WEIGHT_NOTE, *fastener.notes),
    )


def _group(run: Run, knee: Knee, count: float, D: float, EA: float) -> float:
    gamma = run(slip_modulus_wood, D=D)
    EA_s = run(axial_stiffness, E=knee.values.E, A=knee.section.A * knee.brace.plies)
    return float(run(group_action_factor, n=count, gamma=gamma, s=SPACING * D, EA_m=EA, EA_s=EA_s))


# ---------------------------------------------------------------------------------------------------------
# What the kick does to the carrier


def _carrier(sideways: Sideways, state: State, kicks: Kicks) -> list[Check]:
    down = np.array([knee_kick(sideways.frames, state.Q, knee) for knee in kicks.knees])
    return [_bending(sideways, state, kicks, down), _shear(sideways, state, kicks, down)]


def _axial(sideways: Sideways, state: State, kicks: Kicks) -> Array:
    """Level force along the carrier: at most the sum of what its knees and posts pass (lb)."""
    posts = dict.fromkeys(knee.brace.support for knee in kicks.knees)
    total = np.zeros(sideways.cases.count)
    for mark in posts:
        knee = next(k for k in kicks.knees if k.brace.support == mark)
        i, _, which = _frame(sideways, knee)
        total += np.maximum(np.abs(state.force[i, which]), np.abs(state.Q[i, which]))
    return total[None, :]


def _bending(sideways: Sideways, state: State, kicks: Kicks, down: Array) -> Check:
    cases, path, carrier = sideways.cases, sideways.path, kicks.carrier
    effects = path.effects[carrier.mark]
    env = envelope(path, effects.moment)
    kick = kicks.moment @ down
    most = np.outer(env.D, cases.D) + np.outer(env.L_most, cases.L) + np.outer(env.S, cases.S) + kick
    least = np.outer(env.D, cases.D) + np.outer(env.L_least, cases.L) + np.outer(env.S, cases.S) + kick
    M = np.maximum(most.max(axis=0), -least.min(axis=0))[None, :]
    group = factors(
        effects.values,
        Service(wet=carrier.timber.wet, incised=carrier.timber.incised),
        repetitive=repetitive_use(plies=carrier.section.plies),
    )
    calculation = start(sideways)
    run = calculation.run
    l_u = unbraced_length(carrier, path, sagging=False)
    d, b = carrier.section.d, carrier.width
    E_min_p = run(adjusted_minimum_modulus, E_min=effects.values.E_min, **group.modulus)
    k_l, k_d = effective_length_coefficients(BendingCase.OTHER, l_u, d)
    l_e = run(effective_length, l_u=l_u, d=d, k_l=k_l, k_d=k_d)
    F_bE = run(critical_buckling_bending, E_min_p=E_min_p, R_B=run(slenderness_ratio, l_e=l_e, d=d, b=b))
    F_b_star = run(bending_before_stability, F_b=effects.values.F_b, C_D=cases.C_D, **group.bending_star)
    C_L = run(beam_stability_factor, F_bE=F_bE, F_b_star=F_b_star)
    F_b_p = run(adjusted_bending, F_b=effects.values.F_b, C_D=cases.C_D, C_L=C_L, **group.bending)
    F_t_p = run(adjusted_tension, F_t=effects.values.F_t, C_D=cases.C_D, **group.tension)
    f_b = run(bending_stress, M=M, S=carrier.section.S)
    f_t = run(tension_stress, T=_axial(sideways, state, kicks), A_n=carrier.section.A)
    ratio = run(bending_and_tension, f_t=f_t, F_t_p=F_t_p, f_b=f_b, F_b_star=F_b_p)
    run(demand_capacity_ratio, demand=ratio, capacity=1.0)
    return judge_level(
        calculation,
        sideways,
        state,
        carrier.mark,
        topic=Topic.BRACES,
        limit_state="bending with the kick of knees",
        demand=ratio,
        capacity=1.0,
        unit=NONE,
        clause="NDS 2018, 3.9.1",
        says="bending with the kick of its knees",
        notes=(
            "The lower edge is taken as held at the supports only, for both signs of moment, and F_b' stands for F_b*.",
        ),
    )


def _shear(sideways: Sideways, state: State, kicks: Kicks, down: Array) -> Check:
    cases, path, carrier = sideways.cases, sideways.path, kicks.carrier
    effects = path.effects[carrier.mark]
    counted = np.ones(effects.stations.size, dtype=bool)
    if at_depth(carrier):
        for seat in carrier.seats:
            counted &= np.abs(effects.stations - seat.at) >= carrier.section.d - 1e-6
    kept = np.nonzero(counted)[0]
    V = np.zeros(cases.count)
    for whole, kick in ((effects.shear_left, kicks.shear_left), (effects.shear_right, kicks.shear_right)):
        env = envelope(path, whole[kept])
        own = kick[kept] @ down
        most = np.outer(env.D, cases.D) + np.outer(env.L_most, cases.L) + np.outer(env.S, cases.S) + own
        least = np.outer(env.D, cases.D) + np.outer(env.L_least, cases.L) + np.outer(env.S, cases.S) + own
        V = np.maximum(V, np.maximum(most.max(axis=0), -least.min(axis=0)))
    group = factors(effects.values, Service(wet=carrier.timber.wet, incised=carrier.timber.incised))
    calculation: Calculation = start(sideways)
    run = calculation.run
    f_v = run(shear_stress, V=V[None, :], b=carrier.width, d=carrier.section.d)
    F_v_p = run(adjusted_shear, F_v=effects.values.F_v, C_D=cases.C_D, **group.shear)
    run(demand_capacity_ratio, demand=f_v, capacity=F_v_p)
    return judge_level(
        calculation,
        sideways,
        state,
        carrier.mark,
        topic=Topic.BRACES,
        limit_state="shear with the kick of knees",
        demand=f_v,
        capacity=F_v_p,
        unit=PSI,
        clause="NDS 2018, 3.4",
        says="shear with the kick of its knees",
    )
