"""The grid of a cell of deck: cross-lines at the seats of its members and between them, lines along its members."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from bolewright.platform.layout.boards import BoardField, Cell
from bolewright.platform.layout.lines import Vector, evenly
from bolewright.platform.layout.parts import Layout, Member

_TINY = 1e-6  # in
_STEEP = (
    6.0  # in: in one piece the boards reach no further past the last member, at one end, than at the other
)
_ALONG = 6.0  # in: greatest length of a piece along a member that the boards lie along


@dataclass(frozen=True)
class Grid:
    """A cell, or the part of one between two seats: cross-lines at ``places``, lines at ``parts`` of its depth."""

    cell: Cell
    places: tuple[float, ...]
    parts: tuple[float, ...]

    def line(self, j: int, s: float) -> float:
        """Place along the boards of a line."""
        below, above = self.cell.side(s)
        return below + self.parts[j] * (above - below)

    def around(self, k: int, j: int) -> Iterator[Vector]:
        """Corners of the deck nearest to a corner of the grid, along its cross-lines and its lines."""
        last_k, last_j = len(self.places) - 1, len(self.parts) - 1
        s = [(self.places[k] + self.places[min(max(k + way, 0), last_k)]) / 2 for way in (-1, 1)]
        g = [(self.parts[j] + self.parts[min(max(j + way, 0), last_j)]) / 2 for way in (-1, 1)]
        for at, part in ((s[0], g[0]), (s[1], g[0]), (s[1], g[1]), (s[0], g[1])):
            below, above = self.cell.side(at)
            yield at, below + part * (above - below)


def grids(layout: Layout, boards: BoardField, cell: Cell, panel: float) -> Iterator[Grid]:
    """Grids of a cell, one between every two seats of its members; pieces no longer than ``panel`` along these."""
    members = [layout.member(m.name) for m in cell.members]
    ends = {cell.low, cell.high}
    looked_at: set[float] = set()
    stretch = 1.0
    for member in members:
        start, rate = boards.started(member)
        stretch = max(stretch, 1 / max(abs(rate), 0.05))
        for seat in member.seats:
            ends.add(start + seat.at * rate)
            looked_at |= {start + (seat.at + way * member.section.d) * rate for way in (-1, 1)}
    if not members:  # past a member's end all lies on its tip
        ends |= {s for line in boards.members for s in (line.low, line.high)}
    parts = _parts(boards, cell, members)
    inside = sorted(s for s in ends if cell.low <= s <= cell.high)
    for low, high in pairwise([inside[0], *(b for a, b in pairwise(inside) if b - a > _TINY)]):
        fixed = [low, *sorted(s for s in looked_at if low + _TINY < s < high - _TINY), high]
        places: list[float] = []
        for a, b in pairwise(fixed):
            if b - a > _TINY:
                count = max((b - a) * stretch / panel, (b - a) * abs(cell.lever_rise) / _STEEP)
                places += evenly(a, b, max(1, math.ceil(count - 1e-9)))[:-1]
        yield Grid(cell, (*places, high), parts)


def _parts(boards: BoardField, cell: Cell, members: list[Member]) -> tuple[float, ...]:
    """Lines of a cell along its members; more between them where the boards lie on one member, along it."""
    if len(members) > 1:
        return (0.0, 1.0)
    lies = 1.0
    for member in members:
        lies = abs(member.line.u[0] * boards.n[0] + member.line.u[1] * boards.n[1])
    deep = max(cell.width(cell.low), cell.width(cell.high)) * lies
    return tuple(evenly(0.0, 1.0, max(1, math.ceil(deep / _ALONG - 1e-9))))
