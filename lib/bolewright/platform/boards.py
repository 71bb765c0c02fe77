"""Between which members each stretch of the deck boards lies, along the board.

Boards run across the joists. In the axes of a joist field (``s`` along the joists, ``t`` along the boards) every
edge of the deck and every member that the boards lie on is a straight line. Cut at the ends and crossings of
these lines, the deck falls into slabs in which they keep their order; in a slab the deck between two neighbouring
members, or between the last one and the edge, is a trapezoid. A board is a simple beam on the two members next to its
load: by the lever, what lies past the last one loads it with more than its weight, and lifts the next one in.
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
SLANT = 4.0  # rise of t over s from which a board lies on a member for so long that no lever lifts the next
_STEEP = 10.0  # rise of t over s above which a member runs along the boards
_TINY = 1e-6  # in
ALONG = math.tan(math.radians(30))  # an edge within 30 degrees of the joists is one the boards run out over


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

    def meets(self, other: Slope, above: float = 0.0) -> float | None:
        """Where between the ends of both this line crosses another, or one so far above that; None where nowhere."""
        if abs(self.k - other.k) < 1e-9:
            return None
        low, high = max(self.low, other.low), min(self.high, other.high)
        if high - low < _TINY:
            return None
        s = low - (self.at(low) - other.at(low) - above) / (self.k - other.k)
        return s if low + _TINY < s < high - _TINY else None


@dataclass(frozen=True)
class Cell:
    """A trapezoid of deck, between two lines from ``low`` to ``high``, and the members its boards rest on.

    ``members`` are the two that bear its boards, the nearest first: those that it lies between, or, where it lies
    ``past`` the last one, that one and the next in; one where no other holds these boards down, none where no member
    lies under them. ``bounds`` names the two lines.
    """

    members: tuple[Slope, ...]
    low: float
    high: float
    below: tuple[float, float]
    above: tuple[float, float]
    bounds: tuple[str, str] = ("", "")
    past: bool = False

    @property
    def outer(self) -> int:
        """Which of the two bounding lines lies on the far side of the last member: 0 below, 1 above."""
        last, inside = ((sum(m.at(s) for s in (self.low, self.high))) for m in self.members)
        return 0 if last < inside else 1

    @property
    def key(self) -> tuple[str, ...]:
        """What stays the same along the cell."""
        return (*self.bounds, *(m.name for m in self.members))

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
    """The whole region in trapezoids, each as long as its members and its two bounding lines stay the same."""
    open_cells: dict[tuple[str, ...], Cell] = {}
    for a, b in pairwise(_breaks(boards)):
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
    """Places along the joists where a line ends, two cross, or a member gets too far past an edge or near another."""
    least = min(edge.low for edge in boards.edges)
    most = max(edge.high for edge in boards.edges)
    lines = (*boards.edges, *boards.members)
    places = {least, most}
    places.update(s for line in lines for s in (line.low, line.high))
    for i, one in enumerate(lines):
        edge = i < len(boards.edges)
        for j, other in enumerate(lines[i + 1 :], start=i + 1):
            if abs(one.k - other.k) > 1e-9:
                apart = LEVER if not edge else OUTSIDE if j >= len(boards.edges) else 0.0
                found = (one.meets(other, above) for above in {0.0, apart, -apart})
                places.update(s for s in found if s is not None)
    ordered = sorted(s for s in places if least <= s <= most)
    return [ordered[0], *(b for a, b in pairwise(ordered) if b - a > _TINY)]


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


def _between(lower: Slope, upper: Slope, under: Sequence[Slope], a: float, b: float) -> Iterator[Cell]:
    """Trapezoids of one stretch of deck, from one edge over the members under it to the other edge."""
    middle = (a + b) / 2

    def clipped(member: Slope) -> Slope:
        """The member, or the edge where the member lies past it."""
        if member.at(middle) <= lower.at(middle):
            return lower
        return upper if member.at(middle) >= upper.at(middle) else member

    bounds = [lower, *map(clipped, under), upper]
    between = [_past(under, middle), *pairwise(under), _past(under[::-1], middle)] if under else [()]
    for i, (members, (below, above)) in enumerate(zip(between, pairwise(bounds), strict=True)):
        low, high = ((line.at(a), line.at(b)) for line in (below, above))
        if sum(high) - sum(low) > _TINY:
            past = bool(under) and i in (0, len(under))
            yield Cell(members, a, b, low, high, (below.name, above.name), past)


def _past(row: Sequence[Slope], s: float) -> tuple[Slope, ...]:
    """The last member under a board, and the next one in that holds the board down past it."""
    last, *inside = row
    if abs(last.k) > SLANT:
        return (last,)
    return (last, *[m for m in inside if abs(m.at(s) - last.at(s)) >= LEVER][:1])


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
                    if abs(edge.k) <= ALONG:
                        square = 1 / math.hypot(1, member.k)
                        past = [abs(edge.at(s) - member.at(s)) * square - faces[member.name] for s in (a, b)]
                        overhang = max(overhang, *past)
    return span, overhang


def pieces(
    cell: Cell, members: Sequence[Member], boards: BoardField, panel: float
) -> Iterator[tuple[float, float]]:
    """Stretches of a cell no longer than ``panel`` along its members, cut at their seats.

    Past the last member at the middles of its spans too, where a person at the tip of a board is at the worst.
    """
    places, stretch = {cell.low, cell.high}, 1.0
    for member in members:
        along = member.line.u[0] * boards.u[0] + member.line.u[1] * boards.u[1]
        stretch = max(stretch, 1 / max(abs(along), 0.05))
        seats = [seat.at for seat in member.seats]
        middles = [(a + b) / 2 for a, b in pairwise(seats) if cell.past and member is members[0]]
        for at in (*seats, *middles):
            x, y = member.line.at(at)
            s = x * boards.u[0] + y * boards.u[1]
            if cell.low + _TINY < s < cell.high - _TINY:
                places.add(s)
    for a, b in pairwise(sorted(places)):
        count = max(1, math.ceil((b - a) * stretch / panel - 1e-9))
        yield from pairwise(np.linspace(a, b, count + 1).tolist())
