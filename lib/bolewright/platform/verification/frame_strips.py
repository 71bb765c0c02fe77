"""The deck in strips of board for the frame model: pieces, board ends where one person stands, guards on edges.

A piece of strip is kept by its two ends: what a pound there brings to the members. In between it is in proportion, so
the loaded part of the worst pattern ends where the influence passes through zero.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt
import shapely
from shapely import Point, Polygon

from bolewright.platform.layout.influence import Array, Integers
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Bearing, Layout
from bolewright.platform.project import JoistField
from bolewright.platform.verification.frame_boards import INSIDE, Boards, Parts, Under
from bolewright.timber.sections import parse_section

Shapes = npt.NDArray[np.object_]
STRIP = 4.0  # in: greatest width of a strip
EDGE = 1e-6  # in: on an edge, whatever rounding makes of it
BESIDE = 0.05  # in: just beside a seat
NEXT = 1.0  # in: past a member's depth from a seat, where the frame's next node is
PIECE = 12.0  # in: greatest length of a piece that lies on the nearest member


@dataclass(frozen=True)
class Strips:
    """Pieces of board by their ends: ``ends`` two :data:`Parts` each; ``area`` of each (sq in), and their corners."""

    ends: tuple[tuple[Parts, Parts], ...]
    area: Array
    corners: Array

    @property
    def shapes(self) -> Shapes:
        """The pieces in plan."""
        return np.asarray(shapely.polygons(self.corners))


@dataclass(frozen=True)
class _Strip:
    """One stretch of one strip: where it is and how wide, its ends along the board, and the members under it."""

    s: float
    width: float
    low: float
    high: float
    under: list[Under]

    @property
    def ends(self) -> tuple[float, float]:
        """Both ends along the board."""
        return self.low, self.high

    @property
    def bearers(self) -> list[int]:
        """The members under it."""
        return [m[1] for m in self.under]


class Field:
    """The strips of one joist field in order along the joists."""

    def __init__(self, layout: Layout, field: JoistField) -> None:
        """All strips of a field."""
        self.boards = boards = Boards(layout, field)
        self.board = parse_section(layout.project.decking.section).d
        marks = {s for ring in boards.rings for s, _ in ring} | {
            s for c in boards.crossed for s in (c.low, c.high)
        }
        for _, m in boards.along:
            middle, _ = boards.place(m.line.start)
            marks |= {middle - m.width / 2, middle + m.width / 2}
        least, most = (f(s for ring in boards.rings for s, _ in ring) for f in (min, max))
        self.rows: list[list[_Strip]] = []
        for a, b in pairwise(sorted(s for s in marks if least <= s <= most)):
            count = math.ceil((b - a) / STRIP - EDGE)  # none of a hair, which rounding makes
            for k in range(count):
                s = a + (b - a) * (k + 0.5) / count
                row = [_Strip(s, (b - a) / count, *found) for found in boards.stretches(s)]
                if row:
                    self.rows.append(row)
        self.places = [row[0].s for row in self.rows]
        places = {
            boards.place(m.line.at(seat.at + way * off))[0]
            for m in layout.joists
            for seat in m.seats
            if seat.bearing is Bearing.RESTS  # a hung end has no depth off its seat
            for off in (BESIDE, m.section.d + BESIDE, m.section.d + NEXT)
            for way in (-1, 1)
        }
        self.beside = sorted(s for s in places if least < s < most)

    def at_edge(self, row: int, strip: _Strip, t: float) -> list[Parts]:
        """Shares of a pound at the end of a board as wide as it is; of each way where it may lie either way.

        Where the deck that is borne alike is less deep than a board is wide, the board lies on what bears the next too;
        right over the wood of a member along it, it lies on that alone.
        """
        parts = self.boards.share(strip.s, t, strip.under)
        if self.boards.wood(strip.s, t, strip.under) is not None:
            return [parts]
        own, beside, on_edge = strip.width, [], self._edge_of(row, strip, t)
        for way in (-1, 1):
            k = row + way
            while 0 <= k < len(self.rows) and own < self.board:
                same = next((r for r in self.rows[k] if r.bearers == strip.bearers), None)
                if same is None or not on_edge(same):
                    beside.append((k, way))
                    break
                own, k = own + same.width, k + way
        rests = [self._rest(k, way, t, self.board - own) for k, way in beside] if own < self.board else []
        rests = [(lacking, pieces) for lacking, pieces in rests if pieces]
        if not rests:
            return [parts]
        least = min(lacking for lacking, _ in rests)
        ways = []
        for lacking, pieces in rests:
            if lacking < least + EDGE:
                shared = [(n, x, share * own / self.board) for n, x, share in parts]
                for r, wide in pieces:
                    at = self.boards.share(r.s, t, r.under)
                    shared += [(n, x, share * wide / self.board) for n, x, share in at]
                ways.append(tuple(shared))
        return ways

    def _edge_of(self, row: int, strip: _Strip, t: float) -> Callable[[_Strip], bool]:
        """Whether other strips end on the straight edge that this one ends on at ``t``; all do, away from its ends."""
        end = min((0, 1), key=lambda i: abs(strip.ends[i] - t))
        if abs(strip.ends[end] - t) > INSIDE:
            return lambda other: True
        # About the middle of the row, wherever in it the strip is: past its sides the deck may be borne otherwise.
        places = [self.places[row] + way * strip.width / 4 for way in (-1, 1)]
        low, high = (
            next((f[:2][end] for f in self.boards.stretches(s) if [m[1] for m in f[2]] == strip.bearers), t)
            for s in places
        )
        rise = (high - low) / (strip.width / 2)
        return lambda other: bool(
            abs(other.ends[end] - strip.ends[end] - rise * (other.s - strip.s))
            < INSIDE * (1 + abs(rise) * abs(other.s - strip.s))
        )

    def _rest(self, k: int, way: int, t: float, left: float) -> tuple[float, list[tuple[_Strip, float]]]:
        """Strips to one side under what is left of a board, each the first of those borne alike, and how wide.

        And how much of the board has no deck there; it lies with the last.
        """
        pieces: list[tuple[_Strip, float]] = []
        while left > EDGE and 0 <= k < len(self.rows):
            away, r = min(
                ((max(r.low - t, t - r.high, 0.0), r) for r in self.rows[k]), key=lambda found: found[0]
            )
            if away > INSIDE:
                break
            deep = min(r.width, left)
            if pieces and pieces[-1][0].bearers == r.bearers:
                pieces[-1] = (pieces[-1][0], pieces[-1][1] + deep)
            else:
                pieces.append((r, deep))
            left, k = left - deep, k + way
        if pieces and left > EDGE:
            pieces[-1] = (pieces[-1][0], pieces[-1][1] + left)
        return max(left, 0.0), pieces

    def outermost(self, row: int) -> Iterator[_Strip]:
        """The stretches of a strip along its middle, and along its side where the next is borne otherwise."""
        yield from self.rows[row]
        for way in (-1, 1):
            k = row + way
            others = [r.bearers for r in self.rows[k]] if 0 <= k < len(self.rows) else []
            for strip in self.rows[row]:
                if strip.bearers not in others:
                    s = strip.s + way * (strip.width / 2 - min(INSIDE, strip.width / 4))
                    yield from (
                        _Strip(s, strip.width, *found)
                        for found in self.boards.stretches(s)
                        if [m[1] for m in found[2]] == strip.bearers
                    )

    def at_seats(self) -> Iterator[tuple[int, _Strip]]:
        """Boards beside where members bear and a depth from there, each with its row: shear is greatest there."""
        for s in self.beside:
            k = min(range(len(self.places)), key=lambda k: abs(self.places[k] - s), default=-1)
            if k >= 0:
                width = self.rows[k][0].width
                yield from ((k, _Strip(s, width, *found)) for found in self.boards.stretches(s))

    def near(self, s: float, t: float) -> Parts:
        """Shares of a pound at a place on an edge."""

        def off(found: tuple[int, _Strip]) -> tuple[float, float]:
            strip = found[1]
            return max(abs(strip.s - s) - strip.width / 2, 0.0), max(strip.low - t, t - strip.high, 0.0)

        at = bisect_left(self.places, s)
        close = range(max(at - 3, 0), min(at + 3, len(self.rows)))
        found = [(off((k, strip)), (k, strip)) for k in close for strip in self.rows[k]]
        # On the line between two strips each takes half, whichever rounding puts it in.
        for i in range(2):
            least = min(away[i] for away, _ in found)
            found = [(away, one) for away, one in found if away[i] < least + EDGE]
        parts = [self._near(row, strip, s, t) for _, (row, strip) in found]
        return tuple((n, x, share / len(parts)) for some in parts for n, x, share in some)

    def _near(self, row: int, strip: _Strip, s: float, t: float) -> Parts:
        here = next((f for f in self.boards.stretches(s) if [m[1] for m in f[2]] == strip.bearers), None)
        if here is not None:
            strip = _Strip(s, strip.width, *here)
        ways = self.at_edge(row, strip, min(max(t, strip.low), strip.high))
        return tuple((n, x, share / len(ways)) for way in ways for n, x, share in way)


def fields_of(layout: Layout) -> list[Field]:
    """All joist fields in strips."""
    return [Field(layout, field) for field in layout.project.joists]


def strips_of(fields: Sequence[Field]) -> Strips:
    """All boards in pieces of strip."""
    ends: list[tuple[Parts, Parts]] = []
    area: list[float] = []
    corners: list[list[Vector]] = []
    for field in fields:
        for strip in (strip for row in field.rows for strip in row):
            for one, other in _pieces(strip.low, strip.high, [m[0] for m in strip.under]):
                boards = field.boards
                ends.append(boards.shares(strip.s, (one, other), strip.under))
                area.append((other - one) * strip.width)
                a, b = (strip.s + way * strip.width / 2 for way in (-1, 1))
                corners.append([boards.plan(*p) for p in ((a, one), (b, one), (b, other), (a, other))])
    return Strips(tuple(ends), np.array(area), np.array(corners).reshape(-1, 4, 2))


def board_ends(fields: Sequence[Field]) -> list[Parts]:
    """What the members get of a pound at the ends of boards past the last member."""
    found = []
    for field in fields:
        rows = ((k, strip) for k in range(len(field.rows)) for strip in field.outermost(k))
        for k, strip in (*rows, *field.at_seats()):
            if not strip.under or strip.low < strip.under[0][0]:
                found += field.at_edge(k, strip, strip.low)
            if not strip.under or strip.high > strip.under[-1][0]:
                found += field.at_edge(k, strip, strip.high)
    return found


def _pieces(low: float, high: float, at: list[float]) -> Iterator[tuple[float, float]]:
    """A stretch of board cut at the members; where it bears on none or one, cut short."""
    places = sorted({low, high, *(t for t in at if low + EDGE < t < high - EDGE)})
    for a, b in pairwise(places):
        count = 1 if len(at) > 1 else max(1, math.ceil((b - a) / PIECE - EDGE))
        for k in range(count):
            yield a + (b - a) * k / count, a + (b - a) * (k + 1) / count


def guard_points(layout: Layout, fields: Sequence[Field]) -> Iterator[tuple[Parts, float]]:
    """Guards as a line load on their edges: what the members get of each short piece, and its weight (lb)."""
    outline, loads = layout.project.platform.outline, layout.project.loads
    for edge in loads.guard_edges:
        start, end = outline[edge - 1], outline[edge % len(outline)]
        length = math.dist(start, end)
        count = max(1, math.ceil(length / STRIP - EDGE))
        inward = _inward(layout.deck, start, end)
        for k in range(count):
            f = (k + 0.5) / count
            point = (
                start[0] + f * (end[0] - start[0]) + inward[0],
                start[1] + f * (end[1] - start[1]) + inward[1],
            )
            own = fields[0]
            if len(fields) > 1:
                own = min(fields, key=lambda f: f.boards.region.distance(Point(point)))
            yield own.near(*own.boards.place(point)), loads.guard / 12 * length / count


def _inward(deck: Polygon, start: Vector, end: Vector) -> Vector:
    """A hair's breadth from the middle of an edge into the deck."""
    length = math.dist(start, end)
    x, y = (start[1] - end[1]) * INSIDE / length, (end[0] - start[0]) * INSIDE / length
    middle = Point((start[0] + end[0]) / 2 + x, (start[1] + end[1]) / 2 + y)
    return (x, y) if deck.contains(middle) else (-x, -y)


def load_on(strips: Strips, layout: Layout, kind: str) -> Array:
    """Load of a kind that the user's areas add to each piece, spread over it (psf)."""
    added = np.zeros(len(strips.area))
    for area in layout.project.load_areas:
        if area.kind == kind:
            added += (
                area.load
                * shapely.area(shapely.intersection(strips.shapes, Polygon(area.corners)))
                / strips.area
            )
    return added


def rows_of(
    parts: Sequence[Parts], place: dict[int, Array], first: dict[int, int]
) -> tuple[Integers, Integers, Array]:
    """Column (which of the parts), row (node of the frame) and share of each part, between two nodes of its member."""
    columns, rows, shares = [], [], []
    listed = {
        number: at.tolist() for number, at in place.items()
    }  # bisect is quicker on a list than an array
    for column, one in enumerate(parts):
        for number, x, share in one:
            at = listed[number]
            after = min(max(bisect_left(at, x), 1), len(at) - 1)
            f = (x - at[after - 1]) / (at[after] - at[after - 1])
            node = first[number] + after
            columns += [column, column]
            rows += [node - 1, node]
            shares += [share * (1 - f), share * f]
    return np.array(columns, dtype=int), np.array(rows, dtype=int), np.array(shares)
