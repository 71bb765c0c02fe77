"""Between which members each stretch of the deck boards lies, along the board.

Boards run across the joists. In the axes of a joist field (``s`` across the boards, ``t`` along them) every edge of
the deck and every member that the boards lie on is a straight line. Cut at the ends and crossings of these lines, the
deck falls into slabs in which they keep their order; in a slab the deck between two neighbouring members, or between
the last one and the edge, is a trapezoid. Who bears it is :mod:`bolewright.platform.layout.board_bearing`.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from shapely import Point, Polygon

from bolewright.platform.layout.board_bearing import Way, way_at
from bolewright.platform.layout.board_lines import Beside, Slope, field_members, slope_of
from bolewright.platform.layout.board_rule import LEVER
from bolewright.platform.layout.joist_lines import board_axes, field_region
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout, Member
from bolewright.platform.project import JoistField

_TINY = 1e-6  # in
_STRAIGHT = 1e-6  # rad: a corner that turns by less is none
ALONG = math.tan(math.radians(30))  # an edge within 30 degrees of the joists is one the boards run out over


@dataclass(frozen=True)
class Cell:
    """A trapezoid of deck, between two lines from ``low`` to ``high``, and how its boards are borne.

    ``bounds`` names the two lines; ``past`` which of them (0 or 1) lies past the last member.
    """

    way: Way
    low: float
    high: float
    below: tuple[float, float]
    above: tuple[float, float]
    bounds: tuple[str, str] = ("", "")
    past: int | None = None

    @property
    def members(self) -> tuple[Slope, ...]:
        """The members that bear its boards, the nearest first; none where no member lies under them."""
        return self.way.members

    @property
    def bearing(self) -> tuple[str, ...]:
        """How its boards are borne, by name."""
        return self.way.key

    @property
    def key(self) -> tuple[str, ...]:
        """What stays the same along the cell: a member that bears the boards at their end is another line there."""
        return (*self.bounds, *self.bearing, *(m.name for m in self.members if m.at_end))

    def side(self, s: float) -> tuple[float, float]:
        """The two bounding lines at ``s``."""
        f = (s - self.low) / (self.high - self.low)
        return (
            self.below[0] + f * (self.below[1] - self.below[0]),
            self.above[0] + f * (self.above[1] - self.above[0]),
        )

    @property
    def edge_rise(self) -> float:
        """Rise of ``t`` over ``s`` of the edge past the last member; 0 where it is between two."""
        if self.past is None:
            return 0.0
        first, second = (self.below, self.above)[self.past]
        return (second - first) / (self.high - self.low)

    @property
    def lever_rise(self) -> float:
        """By how much the reach past the last member grows over ``s``; 0 between two members, where no lever is."""
        if self.past is None or not self.members:
            return 0.0
        return self.edge_rise - self.members[0].k

    def width(self, s: float) -> float:
        """How deep it is along the boards at ``s``."""
        below, above = self.side(s)
        return above - below

    def off(self, s: float, t: float) -> float:
        """How far along the boards a place is outside of it."""
        below, above = self.side(s)
        return max(below - t, t - above, 0.0)

    def piece(self, low: float, high: float, one: float, other: float) -> Cell:
        """The part of the cell between two places along ``s`` and two parts of its depth."""
        sides = [self.side(s) for s in (low, high)]
        (low_b, low_a), (high_b, high_a) = sides
        below, above = (
            (low_b + part * (low_a - low_b), high_b + part * (high_a - high_b)) for part in (one, other)
        )
        return replace(self, low=low, high=high, below=below, above=above)


@dataclass(frozen=True)
class Slab:
    """The deck between two neighbouring places along ``s``, in trapezoids."""

    low: float
    high: float
    cells: tuple[Cell, ...]

    def off(self, s: float) -> float:
        """How far across the boards a place is outside of it."""
        return max(self.low - s, s - self.high, 0.0)

    def at(self, s: float, t: float) -> Cell:
        """The trapezoid at a place, or the nearest one along the board."""
        nearest, least = self.cells[0], math.inf
        for cell in self.cells:
            away = cell.off(s, t)
            if away == 0.0:
                return cell
            if away < least:
                nearest, least = cell, away
        return nearest

    def crossed(self, t: float, here: float, there: float) -> list[float]:
        """Where between two places across the boards a place along them passes from one trapezoid to another."""
        low, high = min(here, there), max(here, there)
        found = set()
        for cell in self.cells:
            for one, other in (cell.below, cell.above):
                if (one - t) * (other - t) < 0:
                    s = self.low + (t - one) / (other - one) * (self.high - self.low)
                    if low + _TINY < s < high - _TINY:
                        found.add(s)
        return sorted(found, reverse=bool(here > there))


@dataclass(frozen=True)
class BoardField:
    """A joist field seen along its boards: its axes, the edges of its region, and the members under the boards."""

    field: JoistField
    u: Vector
    n: Vector
    region: Polygon
    edges: tuple[Slope, ...]
    members: tuple[Slope, ...]
    beside: tuple[Beside, ...] = ()

    def plan(self, s: float, t: float) -> Vector:
        """Plan point of a place in the field's axes."""
        return (s * self.u[0] + t * self.n[0], s * self.u[1] + t * self.n[1])

    def place(self, point: Sequence[float]) -> Vector:
        """Place ``(s, t)`` of a plan point in the field's axes."""
        return (
            point[0] * self.u[0] + point[1] * self.u[1],
            point[0] * self.n[0] + point[1] * self.n[1],
        )

    @cached_property
    def _started(self) -> dict[str, tuple[float, float]]:
        return {}

    def started(self, member: Member) -> tuple[float, float]:
        """Where a member of the layout starts across the boards, and how fast it goes across them."""
        found = self._started.get(member.mark)
        if found is None:
            u = member.line.u
            found = (self.place(member.line.start)[0], u[0] * self.u[0] + u[1] * self.u[1])
            self._started[member.mark] = found
        return found

    @cached_property
    def slabs(self) -> tuple[Slab, ...]:
        """The region in slabs, those with deck in them."""
        found = (Slab(a, b, tuple(_slab(self, a, b))) for a, b in pairwise(_breaks(self)))
        return tuple(slab for slab in found if slab.cells)

    @cached_property
    def _lows(self) -> list[float]:
        return [slab.low for slab in self.slabs]

    def depth(self, cell: Cell, enough: float) -> tuple[float, float]:
        """From where to where across the boards the deck along an edge is borne as a cell is, or ``enough`` of it."""
        low = high = self._number((cell.low + cell.high) / 2)
        slabs, last = self.slabs, len(self.slabs) - 1
        while low > 0 and slabs[high].high - slabs[low].low < enough:
            if not (self._touch(low - 1) and self._goes_on(cell, low - 1)):
                break
            low -= 1
        while high < last and slabs[high].high - slabs[low].low < enough:
            if not (self._touch(high) and self._goes_on(cell, high + 1)):
                break
            high += 1
        return slabs[low].low, slabs[high].high

    def _goes_on(self, cell: Cell, i: int) -> bool:
        return any(_one_end(cell, other) for other in self.slabs[i].cells)

    def reach(self, border: float, t: float, way: int, enough: float) -> tuple[float, Cell] | None:
        """The deck that a place along the boards meets past a border, and how far across them it goes on alike.

        ``way`` 1 up, -1 down from the border; at most ``enough``. None where there is no deck.
        """
        i = self._number(border + way * _TINY)
        first = self.slabs[i]
        if not first.low <= border + way * _TINY <= first.high:
            return None
        s, limit, found = border, border + way * enough, None
        while 0 <= i < len(self.slabs):
            slab = self.slabs[i]
            end = min(slab.high, limit) if way > 0 else max(slab.low, limit)
            for here, there in pairwise((s, *slab.crossed(t, s, end), end)):
                cell = slab.at((here + there) / 2, t)
                if found is None:
                    found = cell
                elif not _alike(found, cell):
                    return abs(here - border), found
            s, i = end, i + way
            if s == limit or not 0 <= i < len(self.slabs) or not self._touch(min(i, i - way)):
                break
        return None if found is None else (abs(s - border), found)

    def _touch(self, i: int) -> bool:
        return self.slabs[i + 1].low - self.slabs[i].high < _TINY

    def slab(self, s: float) -> Slab:
        """The slab at a place, the nearest one outside the region."""
        return self.slabs[self._number(s)]

    def cells_at(self, s: float, t: float) -> list[Cell]:
        """The trapezoid that bears a load at a place, the nearest one outside the region.

        Both where it is right between two slabs and as near to a trapezoid of either: neither side is preferred.
        """
        i = self._number(s)
        near = [
            j for j in (i - 1, i, i + 1) if 0 <= j < len(self.slabs) and self.slabs[j].off(s) <= _TINY
        ] or [i]
        found = [(cell.off(s, t), cell) for cell in (self.slabs[j].at(s, t) for j in near)]
        least = min(off for off, _ in found)
        return [cell for off, cell in found if off <= least + _TINY]

    def _number(self, s: float) -> int:
        return max(0, bisect_right(self._lows, s) - 1)


def _alike(one: Cell, other: Cell) -> bool:
    """Whether one board lies on deck alike: how many members inward of the next one hold it down makes no difference.

    Which they are does.
    """
    if one.past != other.past:
        return False
    if one.bearing == other.bearing:  # the usual
        return True
    if not (_held(one) and _held(other)) or one.bearing[:3] != other.bearing[:3]:
        return False
    return all(a == b for a, b in zip(one.bearing[3:], other.bearing[3:], strict=False))


def _held(cell: Cell) -> bool:
    """Whether members inward of the last one hold its boards down."""
    return cell.way.past and not cell.way.lies_on


def _one_end(one: Cell, other: Cell) -> bool:
    """Whether one board's end lies on them: alike, and past the same straight edge.

    Where the edge turns a sliver of deck may run on past a member, for as long as the edge is.
    """
    return _alike(one, other) and (one.past is None or one.bounds[one.past] == other.bounds[one.past])


def board_field(layout: Layout, field: JoistField) -> BoardField:
    """A joist field of a layout in the axes of its boards."""
    u, n = board_axes(field, layout.project.decking)
    region = field_region(field, layout.deck)
    members, beside = field_members(layout, field, u, n)
    return BoardField(field, u, n, region, tuple(_edges(region, u, n)), members, beside)


def find_board_fields(layout: Layout) -> tuple[BoardField, ...]:
    """All joist fields of a layout in the axes of their boards; a layout keeps them as ``board_fields``."""
    return tuple(board_field(layout, field) for field in layout.project.joists)


def fields_at(fields: Sequence[BoardField], point: Vector) -> list[BoardField]:
    """The field nearest to a place in plan; all that are as near."""
    if len(fields) == 1:
        return list(fields)
    away = [boards.region.distance(Point(point)) for boards in fields]
    return [boards for boards, far in zip(fields, away, strict=True) if far <= min(away) + _TINY]


def deck_at(fields: Sequence[BoardField], point: Vector) -> list[tuple[BoardField, Cell]]:
    """The deck that bears a load at a place in plan: of the nearest field, the trapezoid there; all as near."""
    near = fields_at(fields, point)
    return [(boards, cell) for boards in near for cell in boards.cells_at(*boards.place(point))]


def _edges(region: Polygon, u: Vector, n: Vector) -> Iterator[Slope]:
    """Sides of the region; of one name where a corner lies on a straight line."""
    for ring, line in enumerate((region.exterior, *region.interiors)):
        sides = list(pairwise(line.coords))
        straight = [_straight_on(sides[i - 1], side) for i, side in enumerate(sides)]
        first = next((i for i, on in enumerate(straight) if not on), 0)
        name = first
        for i in (*range(first, len(sides)), *range(first)):
            name = name if straight[i] else i
            a, b = sides[i]
            slope = slope_of(f"edge {ring} {name}", a, b, u, n)
            if slope:
                yield slope


def _straight_on(before: tuple[Vector, Vector], side: tuple[Vector, Vector]) -> bool:
    """Whether a side goes on in the direction of the one before it."""
    (a, b), (_, c) = before, side
    turned = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
    return abs(turned) < _STRAIGHT * math.dist(a, b) * math.dist(b, c)


def cells(boards: BoardField) -> Iterator[Cell]:
    """The whole region in trapezoids, each as long as its members and its two bounding lines stay the same."""
    open_cells: dict[tuple[str, ...], Cell] = {}
    for slab in boards.slabs:
        found = {cell.key: cell for cell in slab.cells}
        for key in [key for key in open_cells if key not in found or slab.low - open_cells[key].high > _TINY]:
            yield open_cells.pop(key)
        for key, cell in found.items():
            before = open_cells.get(key)
            if before is None:
                open_cells[key] = cell
            else:
                below, above = (before.below[0], cell.below[1]), (before.above[0], cell.above[1])
                open_cells[key] = Cell(cell.way, before.low, cell.high, below, above, cell.bounds, cell.past)
    yield from open_cells.values()


def _breaks(boards: BoardField) -> list[float]:
    """Places along ``s`` where a line ends, two cross, a member leaves the deck, or comes near to another."""
    least = min(edge.low for edge in boards.edges)
    most = max(edge.high for edge in boards.edges)
    lines = (*boards.edges, *boards.members)
    places = {least, most}
    places.update(s for line in lines for s in (line.low, line.high))
    places.update(s for member in boards.beside for s in (member.low, member.high))
    for i, one in enumerate(lines):
        edge = i < len(boards.edges)
        for j, other in enumerate(lines[i + 1 :], start=i + 1):
            if abs(one.k - other.k) > 1e-9:
                apart = {0.0}
                if not edge:
                    apart |= {LEVER / line.sine for line in (one, other)}
                elif j >= len(boards.edges):
                    apart.add(other.reach)
                found = (one.meets(other, sign * above) for above in apart for sign in (1, -1))
                places.update(s for s in found if s is not None)
    ordered = sorted(s for s in places if least <= s <= most)
    return [ordered[0], *(b for a, b in pairwise(ordered) if b - a > _TINY)]


def _slab(boards: BoardField, a: float, b: float) -> Iterator[Cell]:
    """Trapezoids between two neighbouring places."""
    for lower, upper in _stretches(boards, (a + b) / 2):
        yield from _between(boards, lower, upper, a, b)


def _stretches(boards: BoardField, s: float) -> Iterator[tuple[Slope, Slope]]:
    """Pairs of edges between which there is deck, along the board at ``s``."""
    crossed = sorted((e for e in boards.edges if e.low < s < e.high), key=lambda e: e.at(s))
    yield from zip(crossed[::2], crossed[1::2], strict=True)


def _under(boards: BoardField, lower: Slope, upper: Slope, s: float) -> list[Slope]:
    """Members under a stretch of the board at ``s``, in order along it, those partly past its ends too."""
    low, high = lower.at(s), upper.at(s)
    found = (m for m in boards.members if m.low < s < m.high)
    return sorted((m for m in found if low - m.reach < m.at(s) < high + m.reach), key=lambda m: m.at(s))


def _between(boards: BoardField, lower: Slope, upper: Slope, a: float, b: float) -> Iterator[Cell]:
    """Trapezoids of one stretch of deck, from one edge over the members under it to the other edge."""
    middle = (a + b) / 2
    low, high = lower.at(middle), upper.at(middle)
    under = _under(boards, lower, upper, middle)
    inside = [m for m in under if low - _TINY <= m.at(middle) <= high + _TINY]
    ends = (
        [m for m in under if m.at(middle) < low - _TINY][-1:],
        [m for m in under if m.at(middle) > high + _TINY][:1],
    )
    before, after = (
        [_at_end(m, edge) for m in some] for some, edge in zip(ends, (lower, upper), strict=True)
    )
    row = [*before, *inside, *after]
    bounds = [lower, *inside, upper]
    for i, (below, above) in enumerate(pairwise(bounds)):
        way = way_at(row, i + len(before), (a, b))
        past = None if not way.past or not row else 0 if i + len(before) == 0 else 1
        cut, lies = _cut_beside(boards, below, above, inside, a, b)
        for (one, other), wood in zip(pairwise(cut), lies, strict=True):
            if one.at(a) + one.at(b) < other.at(a) + other.at(b) - _TINY:
                yield Cell(
                    Way((), past=True, lies_on=wood) if wood else way,
                    a,
                    b,
                    (one.at(a), one.at(b)),
                    (other.at(a), other.at(b)),
                    (one.name, other.name),
                    None if wood else past,
                )


def _at_end(member: Slope, edge: Slope) -> Slope:
    """A member whose centre line is past the boards' end, as it bears them there."""
    return replace(edge, name=member.name, half=member.half, hangs_from=member.hangs_from, at_end=True)


def _cut_beside(
    boards: BoardField, below: Slope, above: Slope, inside: Sequence[Slope], a: float, b: float
) -> tuple[list[Slope], list[str]]:
    """The deck between two lines cut at the ends of members that it lies along, and on whose wood each part lies.

    Where members cross the boards between the ends of such a one, the boards lie on these.
    """
    s = (a + b) / 2
    here = [
        m
        for m in boards.beside
        if m.low < s < m.high and not any(m.start + _TINY < c.at(s) < m.end - _TINY for c in inside)
    ]
    low, high = max(below.at(a), below.at(b)), min(above.at(a), above.at(b))
    ends = sorted({t for m in here for t in (m.start, m.end) if low + _TINY < t < high - _TINY})
    lines = [below, *(Slope(f"end {t:.6f}", a, b, t, 0.0) for t in ends), above]
    middles = [(one.at(s) + other.at(s)) / 2 for one, other in pairwise(lines)]
    return lines, [next((m.name for m in here if m.start < t < m.end), "") for t in middles]


def board_spans(layout: Layout, *, clear: bool = False) -> tuple[float, float]:
    """Greatest span of the boards between members, and how far they run out past the last one (in).

    From centre line to centre line; ``clear`` from face to face, along the board.

    Counted past an edge that runs along the joists, square to the member that carries the boards there. Where an
    edge cuts across the joists, their ends, a rim or the beam along it hold the ends of the boards. Boards aslant to
    the joists end at every edge, and are counted along themselves at each.
    """
    aslant = layout.project.decking.direction != "square"
    span, overhang = 0.0, 0.0
    faces = {member.mark: member.width / 2 if clear else 0.0 for member in layout.flush}
    for boards in layout.board_fields:
        for cell in (cell for slab in boards.slabs for cell in slab.cells):
            ends = (cell.low, cell.high)
            way = cell.way
            if way.members:
                last, *inward = way.members
                if not way.past:
                    two = inward[0]
                    inside = sum(faces[m.name] * math.hypot(1, m.k) for m in (last, two))
                    span = max(span, *(abs(two.at(s) - last.at(s)) - inside for s in ends))
                elif last.at_end:  # on its wood, which the boards run along: past no member
                    continue
                elif cell.past is not None and (aslant or abs(cell.edge_rise) <= ALONG):
                    along = 1.0 if aslant else last.sine
                    past = [abs(cell.side(s)[cell.past] - last.at(s)) * along for s in ends]
                    overhang = max(overhang, max(past) - faces[last.name] / last.sine * along)
    return span, overhang
