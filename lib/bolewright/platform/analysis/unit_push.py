"""The deck under a lateral force of 1,000 lb at one place: how soft the platform is there, for checks and sheets."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from bolewright.bracing.plan import LOOSE, plan_force, plan_stiffness, support_movement
from bolewright.platform.analysis.held_ways import held_ways
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import BoltFrame
from bolewright.platform.layout.lines import Vector
from bolewright.platform.loads.combine import Array

REFERENCE = 1000.0  # lb
_FLOATING = 1e-9  # lb/in: so little holds a plate that nothing else does


@dataclass(frozen=True)
class UnitPush:
    """1,000 lb on the deck at a place in plan (in), towards a unit direction, and what it does.

    ``held`` are the rows of the supports that hold it; ``movement`` u_x, u_y (in) and turn about the origin; ``delta``
    movement of the place along the force (in); ``force`` on each of these supports in its two directions (lb), ``lag``
    how much less they move than the deck (in).
    """

    state: State
    held: tuple[int, ...]
    at: Vector
    way: Vector
    movement: tuple[float, float, float]
    delta: float
    force: Array
    lag: Array

    @property
    def is_held(self) -> bool:
        """Whether anything holds the deck there in that direction."""
        return self.delta * LOOSE < REFERENCE

    def run(self, run: Callable[..., Any]) -> float:
        """Movement of the place, by the printed formula (in)."""
        (u_x, u_y, theta), (x, y), (c, s) = self.movement, self.at, self.way
        return float(run(support_movement, u_x=u_x, u_y=u_y, theta=theta, x=x, y=y, c=c, s=s))


def push_on(state: State, held: Sequence[int], at: Vector, way: Vector) -> UnitPush:
    """1,000 lb on the deck as some of its supports hold it, the trunks at rest."""
    springs = [state.springs[i] for i in held]
    rows = [row for i in held for row in (2 * i, 2 * i + 1)]
    give = state.give[np.ix_(rows, rows)]
    (x, y), (c, s) = at, way
    load = REFERENCE * np.array([[c], [s], [x * s - y * c]])
    still = np.zeros((len(springs), 2, 1))
    u = np.asarray(np.linalg.solve(plan_stiffness(springs, give) + _FLOATING * np.eye(3), load), dtype=float)
    force = plan_force(springs, u, still, give)[..., 0] if springs else still[..., 0]
    lag = (give @ force.ravel()).reshape(force.shape)
    u_x, u_y, theta = (float(v) for v in u[:, 0])
    delta = (u_x - theta * y) * c + (u_y + theta * x) * s
    return UnitPush(state, tuple(held), at, way, (u_x, u_y, theta), delta, force, lag)


def softest_push(lateral: LateralAnalysis, state: State, on: Sequence[int]) -> UnitPush:
    """1,000 lb at the middle of the greatest weight on some supports, in the direction in which it moves most."""
    at = np.array([lateral.frames[i].support.at for i in on])
    weight = np.maximum(lateral.most[list(on)].max(axis=1), 1e-6)
    x, y = (float(v) for v in weight @ at / weight.sum())
    rows = np.array([[1.0, 0.0, -y], [0.0, 1.0, x]])
    give = rows @ np.linalg.solve(plan_stiffness(state.springs, state.give), rows.T)
    c, s = (float(v) for v in np.linalg.eigh(give)[1][:, -1])
    if c < 0 or (c == 0 and s < 0):
        c, s = -c, -s
    return push_on(state, range(len(lateral.frames)), (x, y), (c, s))


def restraint_push(lateral: LateralAnalysis, tied: Sequence[BoltFrame]) -> UnitPush:
    """1,000 lb at the middle of the bolts that tie a trunk, as the rest of the supports hold it, in its stiffest way.

    Looked at along and across the first bolt, where that is held, with bases and joints taken each way.
    """
    own = {lateral.row(f.support.mark) for f in tied}
    rest = [i for i in range(len(lateral.frames)) if i not in own]
    x, y = (float(v) for v in np.mean([f.support.at for f in tied], axis=0))
    first = lateral.row(tied[0].support.mark)
    found = []
    for state in lateral.states:
        for which, axis in enumerate(state.springs[first].axes):
            if held_ways(tied[0].support.lateral)[which]:
                found.append(push_on(state, rest, (x, y), (float(axis[0]), float(axis[1]))))
    return min(found, key=lambda push: push.delta)
