"""Forces and moments of one post under level load and the weight on its knees, step by step as they are printed."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.knee import (
    cap_force_from_weight,
    cap_level_force,
    foot_force_from_weight,
    level_force_sum,
    post_moment_at_grade,
    post_moment_at_knee,
    post_moment_at_knee_held,
    post_moment_cantilever,
    post_moment_from_weight,
    post_moment_sum,
)
from bolewright.bracing.tee import tee_cap_force, tee_cap_moment, tee_moment_sum, tee_post_moment
from bolewright.platform.checks.level import Run, run_level_force, unprinted
from bolewright.platform.combine import Array
from bolewright.platform.knee_weight import Way
from bolewright.platform.level_stiffness import run_knee_ratio, run_post_modulus
from bolewright.platform.level_supports import Foot, PostAxis, PostFrame
from bolewright.platform.sideways import Sideways, State


def run_ratio(frame: PostFrame, axis: PostAxis) -> float:
    """Force at the top over that at the knee, foot held; printed with the stiffness of the post."""
    run = unprinted()
    return run_knee_ratio(run, frame, axis, run_post_modulus(run, frame))


def is_held(frame: PostFrame, state: State) -> bool:
    """Whether the foot of a knee-braced post is held in this state."""
    return frame.post.foot == "held" and state.foot is Foot.HELD


def run_weight(run: Run, sideways: Sideways, state: State, frame: PostFrame, which: int) -> Array:
    """Force that weight brings to the knee of a post in one direction, push or pull.

    Of two knees at one height only the difference of their level parts bends the post: it is given as the force
    of one knee.
    """
    axis = frame.axes[which]
    if axis.n == 1:
        return sideways.weight(state).force(run, axis.knees[0], Way.EITHER)
    level = sideways.weight(state).thrust[frame.support.mark, which][None, :]
    return np.asarray(level * np.hypot(axis.a, axis.r) / axis.r)


def run_head_moment(run: Run, sideways: Sideways, state: State, frame: PostFrame) -> Array:
    """Moment of weight and overturning about the post of a T-frame, towards its carrier's end."""
    i = sideways.row(frame.support.mark)
    M_w, M_h = sideways.on_tees.moment[i][None, :], state.head[i][None, :]
    return np.asarray(run(tee_moment_sum, M_w=M_w, M_o=M_h - M_w), dtype=float)


def run_cap_force(run: Run, sideways: Sideways, state: State, i: int, frame: PostFrame, which: int) -> Array:
    """Level force between a post's top and its carrier in one direction."""
    V = run_level_force(run, sideways, state, i, which)
    axis = frame.axes[which]
    if frame.tee and which == 0:
        M_h = run_head_moment(run, sideways, state, frame)
        M_t = run(tee_cap_moment, M_h=M_h, V=V, d=frame.depth)
        return np.asarray(run(tee_cap_force, V=V, M_t=M_t, a=frame.tee.a), dtype=float)
    if not axis.n:
        return np.abs(V)
    T = run(cap_level_force, V=V, Q=state.Q[i, which][None, :])
    F_w = run_weight(run, sideways, state, frame, which)
    T_w = run(cap_force_from_weight, F_w=F_w, h=frame.h, a=axis.a, r=axis.r)
    return np.asarray(run(level_force_sum, V=T, V_w=T_w), dtype=float)


def run_foot_force(
    run: Run, sideways: Sideways, state: State, frame: PostFrame, which: int, V: Array
) -> Array:
    """Level force at a post's foot in one direction, from that at its top and the weight on its knees."""
    axis = frame.axes[which]
    if not axis.n:
        return np.abs(V)
    F_w = run_weight(run, sideways, state, frame, which)
    V_w = run(foot_force_from_weight, F_w=F_w, h=frame.h, a=axis.a, r=axis.r)
    return np.asarray(run(level_force_sum, V=V, V_w=V_w), dtype=float)


def run_moment_at_knee(
    run: Run, sideways: Sideways, state: State, frame: PostFrame, which: int, V: Array
) -> Array:
    """Moment in a post at its knee, in one direction."""
    axis = frame.axes[which]
    if not axis.n:
        l = (frame.tee.a if frame.tee else frame.axes[1 - which].a) + frame.arm(which)
        return _cantilever(run, sideways, state, frame, which, V, l)
    if is_held(frame, state):
        M_k = run(post_moment_at_knee_held, V=V, rho=run_ratio(frame, axis), a=axis.a)
    else:
        M_k = run(post_moment_at_knee, V=V, h=frame.h, a=axis.a)
    F_w = run_weight(run, sideways, state, frame, which)
    M_w = run(post_moment_from_weight, F_w=F_w, h=frame.h, a=axis.a, r=axis.r)
    return np.asarray(run(post_moment_sum, M_k=M_k, M_w=M_w), dtype=float)


def _cantilever(
    run: Run, sideways: Sideways, state: State, frame: PostFrame, which: int, V: Array, l: float
) -> Array:
    """Moment in a post that no knee stiffens in a direction, ``l`` below the level force."""
    if frame.tee and which == 0:
        M_h = run_head_moment(run, sideways, state, frame)
        return np.asarray(run(tee_post_moment, V=V, l=l, M_h=M_h), dtype=float)
    return np.asarray(run(post_moment_cantilever, V=V, l=l), dtype=float)


def run_moment_at_grade(
    run: Run, sideways: Sideways, state: State, frame: PostFrame, which: int, V: Array
) -> Array:
    """Moment in a post at grade, in one direction; none where its foot is hinged."""
    axis = frame.axes[which]
    if frame.post.foot != "held" or (axis.n and not is_held(frame, state)):
        return np.zeros_like(V)
    if not axis.n:
        return _cantilever(run, sideways, state, frame, which, V, frame.h + frame.arm(which))
    rho = run_ratio(frame, axis)
    return np.asarray(run(post_moment_at_grade, V=V, rho=rho, h=frame.h, a=axis.a), dtype=float)
