"""Boards that lie along a member at the edge of the deck: what is on them comes straight onto it.

The outer half of a beam at the edge, and the deck that reaches a little past it, have no joist under them: they end at
the beam. Boards there lie on the beam itself all along.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely import Polygon

from bolewright.platform.board_lines import along_boards
from bolewright.platform.joists import field_axes
from bolewright.platform.lines import Line, Vector
from bolewright.platform.parts import Layout, Member
from bolewright.platform.project import JoistField

_REACH = (
    6.0,
    9.0,
)  # in: deck that ends nearer than the first past a beam lies on it, further than the other not
_TINY = 1e-6

Side = tuple[Sequence[float], Sequence[float]]


@dataclass(frozen=True)
class AlongMember:
    """A member under the boards that runs along them, ``part`` of the way at least (1: within 6 degrees).

    ``sides`` of the region of deck, in plan; ``low`` to ``high`` across the boards lies the deck between it and edges
    near by.
    """

    mark: str
    line: Line
    part: float
    sides: tuple[Side, ...]
    low: float
    high: float

    @property
    def ends(self) -> tuple[Vector, Vector]:
        """Both ends in plan."""
        return self.line.start, self.line.end

    def weight(self, point: Vector) -> float:
        """Part of a load at a place that comes straight onto the member: all of it between it and an edge near by."""
        if not 0.0 <= self.line.along(point) <= self.line.length:
            return 0.0
        u = self.line.u
        across = (u[1], -u[0])
        start = self.line.at(self.line.along(point))
        off = (point[0] - start[0]) * across[0] + (point[1] - start[1]) * across[1]
        if abs(off) < _TINY or abs(off) >= _REACH[1]:  # on the line itself the field's own boards count
            return 0.0
        way = (across[0], across[1]) if off > 0 else (-across[0], -across[1])
        edge = abs(off) + _edge_ahead(point, way, self.sides)
        return self.part * min(max((_REACH[1] - edge) / (_REACH[1] - _REACH[0]), 0.0), 1.0)


def along_members(layout: Layout, field: JoistField, region: Polygon) -> tuple[AlongMember, ...]:
    """Members of a field that its boards lie along."""
    u, n = field_axes(field)
    sides = tuple(side for ring in (region.exterior, *region.interiors) for side in pairwise(ring.coords))
    flush = [m for m in layout.flush if m.field in ("", field.mark)]
    found = []
    for member in flush:
        part = _part(member, u, n)
        strip = _strip(member.line, u, sides) if part > 0 else None
        if strip:
            found.append(AlongMember(member.mark, member.line, part, sides, *strip))
    return tuple(found)


def _strip(line: Line, u: Vector, sides: Sequence[Side]) -> tuple[float, float] | None:
    """From where to where across the boards deck may lie between a line and an edge near by; None where none does."""
    out = (line.u[1], -line.u[0])
    near = set()
    for a, b in sides:
        off = [(p[0] - line.start[0]) * out[0] + (p[1] - line.start[1]) * out[1] for p in (a, b)]
        if min(off) < _REACH[1] and max(off) > _TINY:
            near.add(1.0)
        if max(off) > -_REACH[1] and min(off) < -_TINY:
            near.add(-1.0)
    if not near:
        return None
    lines = [line.start, line.end]
    lines += [
        (x + way * _REACH[1] * out[0], y + way * _REACH[1] * out[1]) for x, y in lines[:2] for way in near
    ]
    across = [x * u[0] + y * u[1] for x, y in lines]
    return min(across), max(across)


def shares_along(members: Sequence[AlongMember], point: Vector) -> list[tuple[str, float]]:
    """Members that a load at a place comes straight onto, and the part of it that each gets."""
    found = [(m.mark, weight) for m in members if (weight := m.weight(point)) > 0]
    whole = max(1.0, sum(weight for _, weight in found))
    return [(mark, weight / whole) for mark, weight in found]


def _part(member: Member, u: Vector, n: Vector) -> float:
    ds, dt = (abs(member.line.u[0] * axis[0] + member.line.u[1] * axis[1]) for axis in (u, n))
    return along_boards(dt / max(ds, 1e-12))


def _edge_ahead(point: Vector, way: Vector, sides: Sequence[Side]) -> float:
    """Distance to the edge ahead of a point."""
    nearest = math.inf
    for a, b in sides:
        x, y = b[0] - a[0], b[1] - a[1]
        cross = way[0] * y - way[1] * x
        if abs(cross) < _TINY:
            continue
        dx, dy = a[0] - point[0], a[1] - point[1]
        ahead = (dx * y - dy * x) / cross
        f = (dx * way[1] - dy * way[0]) / cross
        if -_TINY <= f <= 1 + _TINY and ahead >= -_TINY:
            nearest = min(nearest, ahead)
    return max(nearest, 0.0)
