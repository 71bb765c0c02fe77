"""What a plane of pressure on a deck of any outline brings to its joists: boards by lever, joists by statics.

Imports nothing of the program. Boards lie square to the joists and are simple spans between what lies under them
(joists, and beams flush with them); past the last they act by lever over it, held down by the next inward, which counts
as 6 in. away where it is nearer, the rest by the one inward of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from shapely import Polygon, contains_xy

Line = tuple[tuple[float, float], tuple[float, float]]
STEP, NEAR = 1.5, 6.0  # in


def _held(distances: Sequence[float], past: float) -> list[float]:
    """What each member inward of the last holds down of a pound past it."""
    left, pulls = past, []
    for distance in distances:
        pulls.append(left / max(distance, NEAR))
        left *= max(0.0, 1 - distance / NEAR)
    return pulls


def on_board(at: Sequence[float], x: float) -> np.ndarray:
    """What each of the members at places ``at`` gets of a pound at ``x`` on a board."""
    n, found = len(at), np.zeros(len(at))
    if n == 1:
        found[0] = 1.0
    elif x < at[0]:
        pulls = _held([a - at[0] for a in at[1:]], at[0] - x)
        found[0], found[1:] = 1 + sum(pulls), [-p for p in pulls]
    elif x > at[-1]:
        pulls = _held([at[-1] - a for a in at[-2::-1]], x - at[-1])
        found[-1], found[-2::-1] = 1 + sum(pulls), [-p for p in pulls]
    else:
        i = min(max(int(np.searchsorted(at, x)) - 1, 0), n - 2)
        part = (x - at[i]) / (at[i + 1] - at[i])
        found[i], found[i + 1] = 1 - part, part
    return found


@dataclass(frozen=True)
class Boards:
    """A deck by its outline; ``members`` under the boards by their lines; joists run along ``axis`` (0 x, 1 y)."""

    outline: Sequence[tuple[float, float]]
    members: dict[str, Line]
    axis: int

    @cached_property
    def _cells(self) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        deck = Polygon(self.outline)
        x0, y0, x1, y1 = deck.bounds
        X, Y = np.arange(x0 + STEP / 2, x1, STEP), np.arange(y0 + STEP / 2, y1, STEP)
        x, y = np.meshgrid(X, Y, indexing="ij")
        return x, y, contains_xy(deck, x, y)

    @cached_property
    def planes(self) -> np.ndarray:
        """Load on every cell (lb) of 1 lb·in along x and along y, without a sum (2, x, y)."""
        x, y, inside = self._cells
        shape = np.stack([np.ones(int(inside.sum())), x[inside], y[inside]])
        found = np.zeros((2, *x.shape))
        for k in (0, 1):
            found[k][inside] = np.linalg.solve(shape @ shape.T, np.eye(3)[k + 1]) @ shape
        return found

    @cached_property
    def shares(self) -> dict[str, np.ndarray]:
        """What every member gets of a pound on each cell."""
        x, y, inside = self._cells
        k = self.axis
        found = {mark: np.zeros(x.shape) for mark in self.members}
        along, across = (x[:, 0], y[0]) if k == 0 else (y[0], x[:, 0])
        for n, t in enumerate(along):
            under = []
            for mark, (a, b) in self.members.items():
                if min(a[k], b[k]) <= t <= max(a[k], b[k]) and a[k] != b[k]:
                    part = (t - a[k]) / (b[k] - a[k])
                    under.append((a[1 - k] + part * (b[1 - k] - a[1 - k]), mark))
            under.sort()
            for c in np.flatnonzero(inside[n] if k == 0 else inside[:, n]) if under else ():
                parts = on_board([at for at, _ in under], float(across[c]))
                for (_, mark), part in zip(under, parts, strict=True):
                    found[mark][(n, c) if k == 0 else (c, n)] += part
        return found

    def along(self, mark: str) -> tuple[np.ndarray, np.ndarray]:
        """Places from the start of a joist and the load there (lb) of 1 lb·in along x and along y (2, places)."""
        x, y, _ = self._cells
        k = self.axis
        at = (x[:, 0] if k == 0 else y[0]) - self.members[mark][0][k]
        load = (self.planes * self.shares[mark]).sum(axis=2 - k)
        return at, load
