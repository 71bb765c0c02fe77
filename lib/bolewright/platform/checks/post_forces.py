"""Forces and moments of one post under lateral load, its rods and the weight on its knees, step by step as printed."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.crossed import (
    foot_force_rods,
    post_moment_at_grade_rods,
    post_moment_at_lower_rod,
    post_moment_at_rod,
    post_moment_at_rods,
    rod_lateral_force,
)
from bolewright.bracing.knee import (
    cap_force_from_weight,
    cap_force_from_weight_held,
    cap_lateral_force,
    foot_force_from_weight,
    foot_force_from_weight_held,
    grade_moment_from_weight,
    knee_lateral_force,
    knee_lateral_force_held,
    lateral_force_sum,
    post_moment_at_grade,
    post_moment_at_knee,
    post_moment_at_knee_held,
    post_moment_cantilever,
    post_moment_from_weight,
    post_moment_from_weight_held,
    post_moment_sum,
)
from bolewright.bracing.tee import tee_cap_force, tee_cap_moment, tee_moment_sum, tee_post_moment
from bolewright.platform.analysis.knee_weight import Way
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_stiffness import run_knee_ratio, run_post_modulus, run_rod_share
from bolewright.platform.analysis.lateral_supports import Foot, PostAxis, PostFrame
from bolewright.platform.checks.lateral import Run, run_lateral_force, unprinted
from bolewright.platform.layout.tees import FIXITY
from bolewright.platform.loads.combine import Array


def run_ratio(frame: PostFrame, axis: PostAxis) -> float:
    """Force at the top over that at the knee, base fixed; printed with the stiffness of the post."""
    run = unprinted()
    return run_knee_ratio(run, frame, axis, run_post_modulus(run, frame))


def run_knee_force(run: Run, state: State, frame: PostFrame, which: int, V: Array) -> Array:
    """Lateral force of the knees of a post in one direction."""
    axis = frame.axes[which]
    if is_held(frame, state):
        return np.asarray(run(knee_lateral_force_held, V=V, rho=run_ratio(frame, axis)), dtype=float)
    return np.asarray(run(knee_lateral_force, V=V, h=frame.h, a=axis.a), dtype=float)


def is_held(frame: PostFrame, state: State) -> bool:
    """Whether the foot of a knee-braced post is held in this state."""
    return frame.post.base == "fixed" and state.foot is Foot.HELD


def run_weight(run: Run, lateral: LateralAnalysis, state: State, frame: PostFrame, which: int) -> Array:
    """Force that weight brings to the knee of a post in one direction, compression or tension.

    Of two knees at one height only the difference of their horizontal parts bends the post: it is given as the force
    of one knee.
    """
    axis = frame.axes[which]
    if axis.n == 1:
        return lateral.weight(state).force(run, axis.knees[0], Way.EITHER)
    level = lateral.weight(state).thrust[frame.support.mark, which][None, :]
    return np.asarray(level * np.hypot(axis.a, axis.r) / axis.r)


def run_rods(run: Run, state: State, i: int, frame: PostFrame, which: int, V: Array) -> tuple[Array, Array]:
    """Level part of the rod at a post's head, and of that at its foot, in one direction; how the first comes about.

    The rod at its foot pulls at the head of the other post: it is worked out there.
    """
    q, _ = run_rod_share(unprinted(), frame, which, state.foot, state.pulled[i, which][None, :])
    return np.asarray(run(rod_lateral_force, V=V, q=q), dtype=float), state.rod_feet[i, which][None, :]


def run_head_moment(run: Run, lateral: LateralAnalysis, state: State, frame: PostFrame) -> Array:
    """Moment of weight and overturning about the post of a T-frame, towards its beam's end."""
    i = lateral.row(frame.support.mark)
    M_w, M_h = lateral.on_tees.moment[i][None, :], state.head[i][None, :]
    return np.asarray(run(tee_moment_sum, M_w=M_w, M_o=M_h - M_w), dtype=float)


def run_cap_force(
    run: Run,
    lateral: LateralAnalysis,
    state: State,
    i: int,
    frame: PostFrame,
    which: int,
    *,
    slack: bool = False,
) -> Array:
    """Lateral force between a post's top and its beam in one direction; with ``slack`` weight brings its knees none."""
    V = run_lateral_force(run, lateral, state, i, which)
    axis = frame.axes[which]
    if frame.tee and which == 0:
        M_h = run_head_moment(run, lateral, state, frame)
        M_t = run(tee_cap_moment, M_h=M_h, V=V, d=frame.depth)
        return np.asarray(run(tee_cap_force, V=V, M_t=M_t, a=frame.tee.a), dtype=float)
    if not axis.n:
        return np.abs(V)
    T = run(cap_lateral_force, V=V, Q=run_knee_force(run, state, frame, which, V))
    if slack:
        return np.asarray(np.abs(T), dtype=float)
    F_w = run_weight(run, lateral, state, frame, which)
    if is_held(frame, state):
        T_w = run(cap_force_from_weight_held, F_w=F_w, l=frame.h + FIXITY, a=axis.a, r=axis.r)
    else:
        T_w = run(cap_force_from_weight, F_w=F_w, h=frame.h, a=axis.a, r=axis.r)
    return np.asarray(run(lateral_force_sum, V=T, V_w=T_w), dtype=float)


def run_foot_force(
    run: Run,
    lateral: LateralAnalysis,
    state: State,
    frame: PostFrame,
    which: int,
    V: Array,
    *,
    slack: bool = False,
) -> Array:
    """Lateral force at a post's foot in one direction, from that at its top, its rods and the weight on its knees.

    With ``slack`` weight brings its knees none.
    """
    axis = frame.axes[which]
    if axis.rod is not None:
        H_r, H_o = run_rods(run, state, lateral.row(frame.support.mark), frame, which, V)
        return np.asarray(run(foot_force_rods, V=V, H_r=H_r, H_o=H_o), dtype=float)
    if not axis.n or slack:
        return np.abs(V)
    F_w = run_weight(run, lateral, state, frame, which)
    if is_held(frame, state):
        V_w = run(foot_force_from_weight_held, F_w=F_w, l=frame.h + FIXITY, a=axis.a, r=axis.r)
    else:
        V_w = run(foot_force_from_weight, F_w=F_w, h=frame.h, a=axis.a, r=axis.r)
    return np.asarray(run(lateral_force_sum, V=V, V_w=V_w), dtype=float)


def run_moment_at_knee(
    run: Run,
    lateral: LateralAnalysis,
    state: State,
    frame: PostFrame,
    which: int,
    V: Array,
    *,
    slack: bool = False,
) -> Array:
    """Moment in a post at its knee, in one direction; with ``slack`` weight brings its knees none."""
    axis = frame.axes[which]
    if not axis.n:
        l = (frame.tee.a if frame.tee else frame.axes[1 - which].a) + frame.arm(which)
        return _cantilever(run, lateral, state, frame, which, V, l)
    if is_held(frame, state):
        M_k = run(post_moment_at_knee_held, V=V, rho=run_ratio(frame, axis), a=axis.a)
    else:
        M_k = run(post_moment_at_knee, V=V, h=frame.h, a=axis.a)
    if slack:
        return np.asarray(np.abs(M_k), dtype=float)
    F_w = run_weight(run, lateral, state, frame, which)
    if is_held(frame, state):
        M_w = run(post_moment_from_weight_held, F_w=F_w, l=frame.h + FIXITY, a=axis.a, r=axis.r)
    else:
        M_w = run(post_moment_from_weight, F_w=F_w, h=frame.h, a=axis.a, r=axis.r)
    return np.asarray(run(post_moment_sum, M_k=M_k, M_w=M_w), dtype=float)


def run_moment_at_rods(
    run: Run,
    lateral: LateralAnalysis,
    state: State,
    frame: PostFrame,
    which: int,
    V: Array,
    *,
    slack: bool = False,
) -> Array:
    """Larger moment in a post where rods go through it, at its head and at its foot, in one direction.

    In a direction without a rod the larger of those at its knee and at grade, or where it has none that at the height
    of its lower rod: it grows downward.
    """
    axis = frame.axes[which]
    if axis.rod is not None:
        h, c, z = frame.h + frame.arm(which), axis.rod.c, axis.rod.z
        M_k = run(post_moment_at_rod, V=V, a=h - c)
        H_r, _ = run_rods(run, state, lateral.row(frame.support.mark), frame, which, V)
        M_z = run(post_moment_at_lower_rod, V=V, h=h, H_r=H_r, c=c, z=z)
        return np.asarray(run(post_moment_at_rods, M_k=M_k, M_z=M_z), dtype=float)
    if axis.n:
        M_k = run_moment_at_knee(run, lateral, state, frame, which, V, slack=slack)
        M_z = run_moment_at_grade(run, lateral, state, frame, which, V, slack=slack)
        return np.asarray(run(post_moment_at_rods, M_k=M_k, M_z=M_z), dtype=float)
    rod = frame.axes[1 - which].rod
    assert rod is not None
    return _cantilever(run, lateral, state, frame, which, V, frame.h + frame.arm(which) - rod.z)


def _cantilever(
    run: Run, lateral: LateralAnalysis, state: State, frame: PostFrame, which: int, V: Array, l: float
) -> Array:
    """Moment in a post that no knee stiffens in a direction, ``l`` below the lateral force."""
    if frame.tee and which == 0:
        M_h = run_head_moment(run, lateral, state, frame)
        return np.asarray(run(tee_post_moment, V=V, l=l, M_h=M_h), dtype=float)
    return np.asarray(run(post_moment_cantilever, V=V, l=l), dtype=float)


def run_moment_at_grade(
    run: Run,
    lateral: LateralAnalysis,
    state: State,
    frame: PostFrame,
    which: int,
    V: Array,
    *,
    slack: bool = False,
) -> Array:
    """Moment in a post at grade, in one direction; none where its foot is hinged. With ``slack`` weight brings none."""
    axis = frame.axes[which]
    if frame.post.base != "fixed" or (axis.n and not is_held(frame, state)):
        return np.zeros_like(V)
    if axis.rod is not None:
        h, c, z = frame.h + frame.arm(which), axis.rod.c, axis.rod.z
        H_r, H_o = run_rods(run, state, lateral.row(frame.support.mark), frame, which, V)
        return np.asarray(run(post_moment_at_grade_rods, V=V, h=h, H_r=H_r, c=c, H_o=H_o, z=z), dtype=float)
    if not axis.n:
        return _cantilever(run, lateral, state, frame, which, V, frame.h + frame.arm(which))
    rho = run_ratio(frame, axis)
    M_g = run(post_moment_at_grade, V=V, rho=rho, h=frame.h, a=axis.a)
    if slack:
        return np.asarray(M_g, dtype=float)
    F_w = run_weight(run, lateral, state, frame, which)
    M_w = run(grade_moment_from_weight, F_w=F_w, h=frame.h, l=frame.h + FIXITY, a=axis.a, r=axis.r)
    return np.asarray(run(post_moment_sum, M_k=M_g, M_w=M_w), dtype=float)
