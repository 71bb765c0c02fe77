"""Which member each stretch of the deck boards comes down on: to the nearest one along the board.

Boards run across the joists. In the axes of a joist field (``s`` along the joists, ``t`` along the boards) every
edge of the deck and every member that the boards lie on is a straight line. Cut at the ends and crossings of
these lines, the deck falls into slabs in which they keep their order; in a slab each member gets the boards as
far as half-way to its neighbours, or to the edge. So each member's share is a row of trapezoids. What lies past
the last member, between it and the edge of the deck, goes to that member square, not along the boards; by the lever
of the board it loads it with more than its weight, and lifts the next member in.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from shapely import Polygon

from bolewright.platform.joists import field_axes, field_region
from bolewright.platform.lines import Vector
from bolewright.platform.parts import STEP, Bearing, Kind, Layout, Member
from bolewright.platform.project import JoistField

OUTSIDE = 3.0  # in: a member this far past the edge of the deck still has its boards on it
PAST = 3.0  # in: boards this far past the face of a carrier that runs along them are still held by it
LEVER = 5.9  # in: of two members nearer than this one alone does not hold a board down; the next one in does
_STEEP = 10.0  # rise of t over s above which a member runs along the boards
_TINY = 1e-6  # in
_SKEWED = 1e-6  # rise of t over s from which a member does not run along the joists
_ALONG = math.tan(math.radians(30))  # an edge within 30 degrees of the joists is one the boards run out over


@dataclass(frozen=True)
class Slope:
    """A straight line ``t = t_0 + k (s - low)`` over [low, high], along a member or an edge of the deck."""

    name: str
    low: float
    high: float
    t_0: float
    k: float

    def at(self, s: float) -> float:
        """Place of the line along the boards."""
        return self.t_0 + self.k * (s - self.low)

    def meets(self, other: Slope) -> float | None:
        """Where this line crosses another between the ends of both; None where it does not."""
        if abs(self.k - other.k) < 1e-9:
            return None
        low, high = max(self.low, other.low), min(self.high, other.high)
        if high - low < _TINY:
            return None
        s = low - (self.at(low) - other.at(low)) / (self.k - other.k)
        return s if low + _TINY < s < high - _TINY else None


@dataclass(frozen=True)
class Cell:
    """A trapezoid of deck, between two lines from ``low`` to ``high``, and the member it comes down on.

    ``member`` is empty where no member lies under the boards; ``key`` names it and the two lines. ``square``: the
    load goes to the member square to it. ``inside`` is the next member in from the last one under the boards, which
    what lies past the last one lifts by the lever; empty where there is none.
    """

    member: str
    low: float
    high: float
    below: tuple[float, float]
    above: tuple[float, float]
    key: tuple[str, str, str]
    square: bool = False
    inside: str = ""

    def side(self, s: float) -> tuple[float, float]:
        """The two bounding lines at ``s``."""
        f = (s - self.low) / (self.high - self.low)
        return (
            self.below[0] + f * (self.below[1] - self.below[0]),
            self.above[0] + f * (self.above[1] - self.above[0]),
        )


@dataclass(frozen=True)
class BoardField:
    """A joist field seen along its boards: its axes, the edges of its region, and the members under the boards."""

    field: JoistField
    u: Vector
    n: Vector
    edges: tuple[Slope, ...]
    members: tuple[Slope, ...]

    def plan(self, s: float, t: float) -> Vector:
        """Plan point of a place in the field's axes."""
        return (s * self.u[0] + t * self.n[0], s * self.u[1] + t * self.n[1])


def board_field(layout: Layout, field: JoistField) -> BoardField:
    """A joist field of a layout in the axes of its joists."""
    u, n = field_axes(field)
    region = field_region(field, layout.deck)
    flush = [m for m in layout.flush if m.field in ("", field.mark)]
    members = [slope for m in flush if (slope := _slope(m.mark, *_ends(layout, m, u), u, n))]
    return BoardField(field, u, n, tuple(_edges(region, u, n)), tuple(members))


def _ends(layout: Layout, member: Member, u: Vector) -> tuple[Vector, Vector]:
    """Ends of a member as the boards see it.

    Where a joist hangs from a carrier that runs along the boards, it counts to past that carrier's far face: what
    lies on the carrier comes to it at the joist's end.
    """
    start, end = 0.0, member.line.length
    for seat in (member.seats[0], member.seats[-1]):
        if member.kind is Kind.JOIST and seat.bearing is Bearing.HANGS:
            carrier = layout.member(seat.below)
            across = abs(carrier.line.u[0] * u[0] + carrier.line.u[1] * u[1])
            if across * _STEEP < 1 and abs(carrier.top - layout.under_deck) <= STEP:
                past = carrier.width / 2 + PAST
                start, end = (start - past, end) if seat is member.seats[0] else (start, end + past)
    return member.line.at(start), member.line.at(end)


def _edges(region: Polygon, u: Vector, n: Vector) -> Iterator[Slope]:
    for ring in (region.exterior, *region.interiors):
        for i, (a, b) in enumerate(pairwise(ring.coords)):
            slope = _slope(f"edge {id(ring)} {i}", a, b, u, n, steepest=math.inf)
            if slope:
                yield slope


def _slope(
    name: str, a: Sequence[float], b: Sequence[float], u: Vector, n: Vector, steepest: float = _STEEP
) -> Slope | None:
    (s_a, t_a), (s_b, t_b) = ((p[0] * u[0] + p[1] * u[1], p[0] * n[0] + p[1] * n[1]) for p in (a, b))
    if abs(s_b - s_a) < _TINY or abs(t_b - t_a) > steepest * abs(s_b - s_a):
        return None
    k = (t_b - t_a) / (s_b - s_a)
    return Slope(name, s_a, s_b, t_a, k) if s_a < s_b else Slope(name, s_b, s_a, t_b, k)


def cells(boards: BoardField) -> Iterator[Cell]:
    """The whole region in trapezoids, each as long as its member and its two bounding lines stay the same."""
    open_cells: dict[tuple[str, str, str], Cell] = {}
    for a, b in _slabs(boards):
        found = {cell.key: cell for cell in _slab(boards, a, b)}
        for key in [key for key in open_cells if key not in found]:
            yield open_cells.pop(key)
        for key, cell in found.items():
            before = open_cells.get(key)
            if before is None:
                open_cells[key] = cell
            else:
                below, above = (before.below[0], cell.below[1]), (before.above[0], cell.above[1])
                open_cells[key] = replace(cell, low=before.low, below=below, above=above)
    yield from open_cells.values()


def _breaks(boards: BoardField) -> list[float]:
    """Places along the joists where a line ends, two lines cross, or a member gets too far past an edge."""
    least = min(edge.low for edge in boards.edges)
    most = max(edge.high for edge in boards.edges)
    margins = [replace(edge, t_0=edge.t_0 + side) for edge in boards.edges for side in (-OUTSIDE, OUTSIDE)]
    lines = (*boards.edges, *margins, *boards.members)
    places = {least, most}
    places.update(s for line in lines for s in (line.low, line.high) if least < s < most)
    sloping = [line for line in lines if abs(line.k) > 1e-9]
    for i, one in enumerate(sloping):
        for other in (*sloping[i + 1 :], *(line for line in lines if abs(line.k) <= 1e-9)):
            s = one.meets(other)
            if s is not None and least < s < most:
                places.add(s)
    ordered = sorted(places)
    return [ordered[0], *(b for a, b in pairwise(ordered) if b - a > _TINY)]


def _slabs(boards: BoardField) -> Iterator[tuple[float, float]]:
    """Slabs in which all lines, and those half-way between members, keep their order."""
    for a, b in pairwise(_breaks(boards)):
        cuts = {a, b}
        for lower, upper in _stretches(boards, (a + b) / 2):
            for one, two in pairwise(_under(boards, lower, upper, (a + b) / 2)):
                cuts.update(_half_way_meets(one, two, lower, upper, a, b))
        yield from pairwise(sorted(cuts))


def _slab(boards: BoardField, a: float, b: float) -> Iterator[Cell]:
    """Trapezoids between two neighbouring places."""
    middle = (a + b) / 2
    for lower, upper in _stretches(boards, middle):
        yield from _between(lower, upper, _under(boards, lower, upper, middle), a, b)


def _stretches(boards: BoardField, s: float) -> Iterator[tuple[Slope, Slope]]:
    """Pairs of edges between which there is deck, along the board at ``s``."""
    crossed = sorted((e for e in boards.edges if e.low < s < e.high), key=lambda e: e.at(s))
    yield from zip(crossed[::2], crossed[1::2], strict=True)


def _under(boards: BoardField, lower: Slope, upper: Slope, s: float) -> list[Slope]:
    """Members under a stretch of the board at ``s``, in order along it."""
    low, high = lower.at(s) - OUTSIDE, upper.at(s) + OUTSIDE
    return sorted(
        (m for m in boards.members if m.low < s < m.high and low <= m.at(s) <= high), key=lambda m: m.at(s)
    )


def _half_way_meets(
    one: Slope, two: Slope, lower: Slope, upper: Slope, a: float, b: float
) -> Iterator[float]:
    """Where in (a, b) the line half-way between two members meets an edge."""
    for edge in (lower, upper):
        at_a, at_b = ((one.at(s) + two.at(s)) / 2 - edge.at(s) for s in (a, b))
        if at_a * at_b < 0 and min(abs(at_a), abs(at_b)) > _TINY:
            yield a + (b - a) * at_a / (at_a - at_b)


def _between(lower: Slope, upper: Slope, under: Sequence[Slope], a: float, b: float) -> Iterator[Cell]:
    """Trapezoids of one stretch of deck, from one edge over the members under it to the other edge."""
    middle = (a + b) / 2

    def clipped(name: str, *of: Slope) -> tuple[str, float, float]:
        """A bound half-way between members, or on one, or the edge where that lies past it."""
        for edge, past in ((lower, 1), (upper, -1)):
            if past * (sum(m.at(middle) for m in of) / len(of) - edge.at(middle)) <= 0:
                return edge.name, edge.at(a), edge.at(b)
        at_a, at_b = (sum(m.at(s) for m in of) / len(of) for s in (a, b))
        return name, at_a, at_b

    names = [m.name for m in under] or [""]
    bounds = [clipped(f"{one.name}|{two.name}", one, two) for one, two in pairwise(under)]
    bounds = [(lower.name, lower.at(a), lower.at(b)), *bounds, (upper.name, upper.at(a), upper.at(b))]
    square = [False] * len(names)
    inside = _next_inside(lower, upper, under, middle)
    for first in (True, False):
        if under and abs(under[0 if first else -1].k) > _SKEWED:
            member = under[0 if first else -1]
            bounds.insert(1 if first else -1, clipped(member.name, member))
            names.insert(0 if first else len(names), member.name)
            square.insert(0 if first else len(square), True)
            inside.insert(0 if first else len(inside), inside[0 if first else -1])
    for name, past, within, ((below, b_a, b_b), (above, a_a, a_b)) in zip(
        names, square, inside, pairwise(bounds), strict=True
    ):
        if (a_a - b_a) + (a_b - b_b) > _TINY:
            key = (name, below, f"{above} {within}")
            yield Cell(name, a, b, (b_a, b_b), (a_a, a_b), key, past, within)


def _next_inside(lower: Slope, upper: Slope, under: Sequence[Slope], s: float) -> list[str]:
    """For the first and the last member under a board the next one in from it; empty for the others.

    Empty too at an edge that cuts across the joists: what is there holds the ends of the boards.
    """
    inside = [""] * max(1, len(under))
    for end, edge, row in ((0, lower, list(under)), (-1, upper, list(reversed(under)))):
        far = [m.name for m in row[1:] if abs(m.at(s) - row[0].at(s)) >= LEVER]
        if far and abs(edge.k) <= _ALONG:
            inside[end] = far[0]
    return inside


def board_spans(layout: Layout, *, clear: bool = False) -> tuple[float, float]:
    """Greatest span of the boards between members, and how far they run out past the last one (in).

    From centre line to centre line; ``clear`` from face to face, along the board.

    Counted past an edge that runs along the joists, square to the member that carries the boards there. Where an
    edge cuts across the joists, their ends, a rim or the carrier along it hold the ends of the boards.
    """
    span, overhang = 0.0, 0.0
    faces = {member.mark: member.width / 2 if clear else 0.0 for member in layout.flush}
    for field in layout.project.joists:
        boards = board_field(layout, field)
        for a, b in pairwise(_breaks(boards)):
            for lower, upper in _stretches(boards, (a + b) / 2):
                under = _under(boards, lower, upper, (a + b) / 2)
                for one, two in pairwise(under):
                    inside = sum(faces[m.name] * math.hypot(1, m.k) for m in (one, two))
                    span = max(span, *(two.at(s) - one.at(s) - inside for s in (a, b)))
                for edge, member in ((lower, under[0]), (upper, under[-1])) if under else ():
                    if abs(edge.k) <= _ALONG:
                        square = 1 / math.hypot(1, member.k)
                        past = [abs(edge.at(s) - member.at(s)) * square - faces[member.name] for s in (a, b)]
                        overhang = max(overhang, *past)
    return span, overhang


def pieces(
    cell: Cell, member: Member | None, boards: BoardField, panel: float
) -> Iterator[tuple[float, float]]:
    """Stretches of a cell no longer than ``panel`` along its member, cut at the member's seats."""
    places, stretch = {cell.low, cell.high}, 1.0
    if member is not None:
        along = member.line.u[0] * boards.u[0] + member.line.u[1] * boards.u[1]
        stretch = 1 / max(abs(along), 0.05)
        for seat in member.seats:
            x, y = member.line.at(seat.at)
            s = x * boards.u[0] + y * boards.u[1]
            if cell.low + _TINY < s < cell.high - _TINY:
                places.add(s)
    for a, b in pairwise(sorted(places)):
        count = max(1, math.ceil((b - a) * stretch / panel - 1e-9))
        yield from pairwise(np.linspace(a, b, count + 1).tolist())
