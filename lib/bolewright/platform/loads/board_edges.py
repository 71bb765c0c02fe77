"""Edges of the deck cut where the bearing of the boards at them changes."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from bolewright.platform.layout.boards import BoardField, Cell, Slab
from bolewright.platform.layout.lines import Vector

_TINY = 1e-6  # in
_INSIDE = 1e-3  # in: so far in from the edge lies the deck that bears it


@dataclass(frozen=True)
class EdgeRun:
    """A stretch of an edge of the deck, from ``start`` to ``end`` in plan, and the deck along it."""

    boards: BoardField
    cell: Cell
    start: Vector
    end: Vector

    @property
    def length(self) -> float:
        """Length (in)."""
        return math.dist(self.start, self.end)

    def at(self, f: float) -> Vector:
        """Plan point at a share of the length."""
        return (
            self.start[0] + f * (self.end[0] - self.start[0]),
            self.start[1] + f * (self.end[1] - self.start[1]),
        )


def edge_runs(boards: BoardField, start: Sequence[float], end: Sequence[float]) -> Iterator[EdgeRun]:
    """A side of a field's region, from corner to corner, in runs along which its bearing does not change."""
    a, b = boards.place(start), boards.place(end)
    side = _Side(boards, a, b)
    for f, g in pairwise(side.cuts()):
        cell = side.beside((f + g) / 2)
        if cell is not None:
            yield EdgeRun(boards, cell, boards.plan(*side.at(f)), boards.plan(*side.at(g)))


@dataclass(frozen=True)
class _Side:
    boards: BoardField
    a: Vector
    b: Vector

    def at(self, f: float) -> Vector:
        return (self.a[0] + f * (self.b[0] - self.a[0]), self.a[1] + f * (self.b[1] - self.a[1]))

    @property
    def length(self) -> float:
        return math.dist(self.a, self.b)

    @property
    def across(self) -> Vector:
        return ((self.a[1] - self.b[1]) / self.length, (self.b[0] - self.a[0]) / self.length)

    def cuts(self) -> list[float]:
        """Shares of the length where the bearing may change, with both ends."""
        rise = self.b[0] - self.a[0]
        run = self.b[1] - self.a[1]
        if self.length < 10 * _TINY:
            return [0.0]
        if abs(rise) > _TINY:
            low, high = sorted((self.a[0], self.b[0]))
            found = [(s - self.a[0]) / rise for slab in self._slabs(low, high) for s in (slab.low, slab.high)]
        else:
            found = [
                (t - self.a[1]) / run
                for slab in self._beside_slabs()
                for cell in slab.cells
                for t in cell.side(self.a[0])
            ]
        kept = [0.0]
        for f in sorted(f for f in found if 0 < f < 1):
            if (f - kept[-1]) * self.length > _TINY and (1 - f) * self.length > _TINY:
                kept.append(f)
        return [*kept, 1.0]

    def _slabs(self, low: float, high: float) -> Sequence[Slab]:
        lows = [slab.low for slab in self.boards.slabs]
        return self.boards.slabs[max(0, bisect_right(lows, low) - 1) : bisect_left(lows, high) + 1]

    def _beside_slabs(self) -> list[Slab]:
        return [self.boards.slab(self.a[0] + way * _INSIDE) for way in (-1, 1)]

    def beside(self, f: float) -> Cell | None:
        """The deck just inside the side at a share of its length; None where there is none."""
        s, t = self.at(f)
        for way in (_INSIDE, -_INSIDE):
            near = (s + way * self.across[0], t + way * self.across[1])
            slab = self.boards.slab(near[0])
            if not slab.low - _TINY <= near[0] <= slab.high + _TINY:
                continue
            cell = slab.at(*near)
            below, above = cell.side(near[0])
            if below <= near[1] <= above:
                return cell
        return None
