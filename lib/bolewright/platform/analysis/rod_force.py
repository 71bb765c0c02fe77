"""Tension of the crossed rods from the lateral force on the posts, and what it adds to the load of the supports."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bolewright.bracing.crossed import rod_lateral_force, rod_vertical_force
from bolewright.bracing.plan import PlanSpring
from bolewright.calculation import Calculation
from bolewright.platform.analysis.lateral_stiffness import run_rod_share
from bolewright.platform.analysis.lateral_supports import Foot, LateralFrame, PostFrame
from bolewright.platform.loads.combine import Array


def rod_forces(
    frames: tuple[LateralFrame, ...], springs: Sequence[PlanSpring], foot: Foot, force: Array, pulled: Array
) -> tuple[Array, Array, Array]:
    """Stiffness of the supports, level part of the rods at the heads of posts, and at their feet.

    Each for every case (supports, 2, cases).
    """
    k = np.array([np.broadcast_to(s.k[:, None], V.shape) for s, V in zip(springs, force, strict=True)])
    heads, feet = np.zeros_like(force), np.zeros_like(force)
    run = Calculation().run
    rows = {frame.support.mark: i for i, frame in enumerate(frames)}
    for i, frame in enumerate(frames):
        for which, axis in enumerate(frame.axes if isinstance(frame, PostFrame) else ()):
            if axis.rod is None or not isinstance(frame, PostFrame):
                continue
            q, k[i, which] = run_rod_share(run, frame, which, foot, pulled[i, which])
            heads[i, which] = rod_lateral_force(V=force[i, which], q=q)
            j = rows[axis.rod.other.mark]
            other = frames[j]
            assert isinstance(other, PostFrame)
            feet[j, [a.rod is not None and a.rod.rods is axis.rod.rods for a in other.axes]] += heads[
                i, which
            ]
    return k, heads, feet


def rod_loads(frames: tuple[LateralFrame, ...], heads: Array) -> Array:
    """What the rods add to the load of each support: down at their heads, up at their feet (supports, cases)."""
    found = np.zeros((len(frames), heads.shape[2]))
    rows = {frame.support.mark: i for i, frame in enumerate(frames)}
    for i, frame in enumerate(frames):
        for which, axis in enumerate(frame.axes if isinstance(frame, PostFrame) else ()):
            if axis.rod is None:
                continue
            down = rod_vertical_force(H_r=heads[i, which], L=axis.rod.L, b=axis.rod.b)
            found[i] += down
            found[rows[axis.rod.other.mark]] -= down
    return found
