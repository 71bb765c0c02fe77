"""Lateral force that the knees of every post take, and what their brace reaction adds to the load of the supports."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.knee import brace_reaction, knee_lateral_force, knee_lateral_force_held
from bolewright.calculation import Calculation
from bolewright.platform.analysis.knees import BraceReactions, Knee
from bolewright.platform.analysis.lateral_stiffness import run_knee_ratio, run_post_modulus
from bolewright.platform.analysis.lateral_supports import Foot, LateralFrame, PostFrame, axes_of
from bolewright.platform.loads.combine import Array


def knee_forces(frame: LateralFrame, foot: Foot, V: Array) -> Array:
    """Lateral force of the knees of a post in its two directions; zero where there are none."""
    Q = np.zeros_like(V)
    if isinstance(frame, PostFrame):
        run = Calculation().run
        for which, axis in enumerate(frame.axes):
            if axis.n and foot is Foot.HELD and frame.post.base == "fixed":
                rho = run_knee_ratio(run, frame, axis, run_post_modulus(run, frame))
                Q[which] = knee_lateral_force_held(V=V[which], rho=rho)
            elif axis.n:
                Q[which] = knee_lateral_force(V=V[which], h=frame.h, a=axis.a)
    return Q


def knee_reaction(frames: tuple[LateralFrame, ...], Q: Array, knee: Knee, foot: Foot) -> Array:
    """Force down on the beam from a knee in each case (lb)."""
    i = next(i for i, f in enumerate(frames) if f.support.mark == knee.brace.support)
    frame = frames[i]
    assert isinstance(frame, PostFrame)
    which = next(w for w, axis in enumerate(frame.axes) if knee in axis.knees)
    axis = frame.axes[which]
    towards = 1.0 if which == 0 else float(np.sign(axes_of(frame)[1] @ np.array(knee.beam.line.u)))
    q = axis.when_moved(foot)[axis.knees.index(knee)].share
    return np.asarray(knee.side * towards * brace_reaction(Q=Q[i, which], q=q, a=axis.a, r=axis.r))


def brace_reaction_loads(
    frames: tuple[LateralFrame, ...], brace_reactions: dict[str, BraceReactions], Q: Array, foot: Foot
) -> tuple[Array, Array]:
    """What the knees add to the load of each support: at the foot of a post, and at its cap."""
    cap = np.zeros((len(frames), Q.shape[2]))
    own = np.zeros_like(cap)
    marks = [f.support.mark for f in frames]
    for found in brace_reactions.values():
        down = np.array([knee_reaction(frames, Q, knee, foot) for knee in found.knees])
        cap += found.supports @ down
        for knee, pull in zip(found.knees, down, strict=True):
            own[marks.index(knee.brace.support)] -= pull
    return cap + own, cap
