"""Deck panels: the deck cut into small areas, each handed by the boards to the members under them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from bolewright.mechanics.loads import PointLoad, SpreadLoad, UnitLoad
from bolewright.platform.boards import BoardField, Cell, cells, pieces
from bolewright.platform.lines import Vector
from bolewright.platform.parts import Kind, Layout, LayoutError, Member
from bolewright.units import feet_inches

PANEL = 12.0  # in: greatest length of a panel along its member; tests show that smaller ones change little
STRAY = 9.0  # in: boards with no member under them, as at a corner, may lie this far from the nearest one
REACH = 24.0  # in: deck or a guard further than this from any member has nothing to stand on
_TINY = 1e-6
_EDGE = 0.01  # in
_NONE = 1e-12
_STRIPS = 4  # of a panel, across its boards' direction
_SAMPLES = (0.125, 0.375, 0.625, 0.875)  # of a panel with no member under it, both ways


@dataclass(frozen=True)
class Share:
    """What a member gets of a load: ``part`` of it as ``load``, negative where the lever lifts the member."""

    member: str
    load: UnitLoad
    part: float


@dataclass(frozen=True)
class Panel:
    """A piece of deck: its area (sq in), centroid, corners, and what the members under its boards get of its load.

    Forces and moments of the shares are those of the panel's true shape.
    """

    area: float
    centroid: Vector
    corners: tuple[Vector, ...]
    shares: tuple[Share, ...]

    @property
    def member(self) -> str:
        """The member that gets most of its load."""
        return max(self.shares, key=lambda share: share.part).member


class Borne(NamedTuple):
    """Pounds of one pound on the boards that come onto a member at ``x`` along it (in).

    ``square`` where it came square to the member, not along the board.
    """

    member: str
    pounds: float
    x: float
    square: bool


def find_panels(layout: Layout, panel: float = PANEL) -> tuple[Panel, ...]:
    """All panels of the deck. Their areas add up to the deck's; LayoutError when a part of it has no joist."""
    panels: list[Panel] = []
    for boards in layout.board_fields:
        for cell in cells(boards):
            if cell.members:
                bearers = [layout.member(m.name) for m in cell.members]
                _refuse_far(layout, boards, cell)
                for low, high in pieces(cell, bearers, boards, panel):
                    panels += [_panel(layout, boards, half) for half in cell.cut(low, high).halves()]
            else:
                panels += _strays(layout, boards, cell, panel)
    covered = sum(p.area for p in panels)
    if abs(covered - layout.deck.area) > 1e-3 * layout.deck.area:
        raise LayoutError(
            f"The joist fields cover {covered / 144:.1f} sq ft of the platform's {layout.deck.area / 144:.1f} sq ft: "
            "their regions must fill the outline without overlap."
        )
    return tuple(panels)


def bear(layout: Layout, boards: BoardField, cell: Cell, s: float, t: float) -> Iterator[Borne]:
    """What the members get of one pound on the boards at a place of a cell, and where along them."""
    straight = list(bear_along(layout, boards, s, t))
    yield from straight
    left = 1.0 - sum(borne.pounds for borne in straight)
    if left > _NONE:
        yield from bear_across(layout, boards, cell, s, t, left)


def bear_along(layout: Layout, boards: BoardField, s: float, t: float) -> Iterator[Borne]:
    """What comes straight onto members that the boards lie along, of one pound at a place."""
    for mark, part in boards.shares_along(s, t) if boards.along else ():
        yield Borne(mark, part, layout.member(mark).line.nearest(boards.plan(s, t)), True)


def bear_across(
    layout: Layout, boards: BoardField, cell: Cell, s: float, t: float, pounds: float = 1.0
) -> Iterator[Borne]:
    """What the members that the boards of a cell cross get of some ``pounds``, lying along none of them."""
    for way in cell.ways:
        weight = way.weight(s)
        if weight <= _NONE:
            continue
        weight *= pounds
        if not way.members:
            for member, x, part in _nearest(layout, boards.plan(s, t)):
                yield Borne(member.mark, weight * part, x, True)
        for got in way.parts(s, t):
            member = layout.member(got.member)
            x = member.line.along(boards.plan(s, t)) if got.square else along(member, boards, s)
            yield Borne(member.mark, weight * got.pounds, _on(member, x), got.square)


def _panel(layout: Layout, boards: BoardField, cell: Cell) -> Panel:
    """Panel of a whole cell; from two places of Gauss's rule, exact up to the third power of ``s``."""
    area, centroid, corners = _shape(boards, cell)
    if len(cell.ways) == 1 and not cell.ways[0].past and not boards.has_along(cell):
        return Panel(area, centroid, corners, tuple(_between(layout, boards, cell)))
    found: dict[tuple[str, bool], tuple[float, float]] = {}
    places = _gauss(cell.low, cell.high)
    sides = [cell.side(s) for s in places]
    whole = sum(above - below for below, above in sides)
    strips = (
        _STRIPS if boards.has_along(cell) else 1
    )  # what lies along a member does not change evenly along the board
    for s, (below, above) in zip(places, sides, strict=True):
        for i in range(strips):
            t = below + (above - below) * (i + 0.5) / strips
            for borne in bear(layout, boards, cell, s, t):
                part, moment = found.get((borne.member, borne.square), (0.0, 0.0))
                more = borne.pounds * (above - below) / whole / strips
                found[borne.member, borne.square] = part + more, moment + more * borne.x
    shares = []
    for (mark, square), (part, moment) in found.items():
        if abs(part) > _TINY:
            member = layout.member(mark)
            ends = (
                [member.line.along(corner) for corner in corners]
                if square
                else [along(member, boards, s) for s in (cell.low, cell.high)]
            )
            shares.append(spread_share(member, part, moment / part, ends))
    return Panel(area, centroid, corners, tuple(shares))


def _between(layout: Layout, boards: BoardField, cell: Cell) -> Iterator[Share]:
    """Shares of the two members between which all of a cell lies."""
    one, two = cell.ways[0].members
    whole = first = first_s = all_s = 0.0
    for s in _gauss(cell.low, cell.high):
        below, above = cell.side(s)
        t_1, t_2 = one.at(s), two.at(s)
        part = (above - below) * (1.0 - ((above + below) / 2 - t_1) / (t_2 - t_1))
        first, first_s = first + part, first_s + part * s
        whole, all_s = whole + above - below, all_s + (above - below) * s
    for slope, part, moment in ((one, first, first_s), (two, whole - first, all_s - first_s)):
        if part > _TINY * whole:
            member = layout.member(slope.name)
            x, *ends = (along(member, boards, s) for s in (moment / part, cell.low, cell.high))
            yield spread_share(member, part / whole, x, ends)


def _gauss(low: float, high: float) -> tuple[float, float]:
    """The two places of Gauss's rule, each with half the weight: exact up to the third power."""
    middle, off = (low + high) / 2, (high - low) / math.sqrt(12)
    return middle - off, middle + off


def spread_share(member: Member, part: float, x: float, ends: Sequence[float]) -> Share:
    """Part of a load that comes onto a stretch of a member between ``ends``, its centre at ``x``."""
    start, end = _on(member, min(ends)), _on(member, max(ends))
    middle = min(max(x, start), end)
    half = min(middle - start, end - middle)
    load: UnitLoad = SpreadLoad(middle - half, middle + half) if half > _TINY else PointLoad(middle)
    return Share(member.mark, load, part)


def _on(member: Member, x: float) -> float:
    if x <= 0.0:
        return 0.0
    length = member.line.length
    return x if x < length else length


def _shape(boards: BoardField, cell: Cell) -> tuple[float, Vector, tuple[Vector, ...]]:
    """Area of a cell, its centroid in plan, and its corners."""
    low, high = cell.low, cell.high
    ring = [(low, cell.below[0]), (high, cell.below[1]), (high, cell.above[1]), (low, cell.above[0])]
    corners = tuple(dict.fromkeys(boards.plan(*place) for place in ring))
    places = _gauss(low, high)
    sides = [cell.side(s) for s in places]
    first, second = (above - below for below, above in sides)
    share = second / (first + second)
    s = places[0] + share * (places[1] - places[0])
    t = ((1 - share) * sum(sides[0]) + share * sum(sides[1])) / 2
    return (first + second) / 2 * (high - low), boards.plan(s, t), corners


def along(member: Member, boards: BoardField, s: float) -> float:
    """Place along a member at ``s``: loads come to it along the boards."""
    start, rate = boards.started(member)
    return (s - start) / rate


def _refuse_far(layout: Layout, boards: BoardField, cell: Cell) -> None:
    """LayoutError when boards reach too far past the last member, or half-way to the next."""
    reach = max(REACH, boards.field.spacing / 2 + 1.0)
    main = cell.ways[0]
    for s in (cell.low, cell.high):
        for t in cell.side(s) if main.past else (sum(m.at(s) for m in main.members) / 2,):
            point = boards.plan(s, t)
            if any(layout.member(m.name).line.distance(point) <= reach for m in main.members[:1]):
                continue
            member = nearest_member(layout, point)
            if member.line.distance(point) > reach:
                raise _uncovered(layout, point, member)


def _strays(layout: Layout, boards: BoardField, cell: Cell, panel: float) -> Iterator[Panel]:
    """Panels with no member under their boards, such as a corner past the ends of the joists: to the nearest."""
    for low, high in pieces(cell, (), boards, panel):
        sides = np.array([cell.side(low), cell.side(high)])
        count = max(1, math.ceil(float(np.diff(sides).max()) / panel))
        lines = np.linspace(sides[:, 0], sides[:, 1], count + 1).tolist()
        for (b_low, b_high), (a_low, a_high) in pairwise(lines):
            yield _stray(layout, boards, Cell(cell.ways, low, high, (b_low, b_high), (a_low, a_high)))


def _stray(layout: Layout, boards: BoardField, cell: Cell) -> Panel:
    """Small pieces of a panel, each to the member nearest to it."""
    area, centroid, corners = _shape(boards, cell)
    for corner in corners:
        member = nearest_member(layout, corner)
        if member.line.distance(corner) > STRAY + member.width / 2:
            raise _uncovered(layout, corner, member)
    found: dict[str, list[tuple[float, float]]] = {}
    for f in _SAMPLES:
        s = cell.low + f * (cell.high - cell.low)
        below, above = cell.side(s)
        for g in _SAMPLES:
            for member, x, part in _nearest(layout, boards.plan(s, below + g * (above - below))):
                found.setdefault(member.mark, []).append((part * (above - below), x))
    whole = sum(weight for some in found.values() for weight, _ in some)
    shares = []
    for mark, some in found.items():
        part = sum(weight for weight, _ in some)
        x = sum(weight * at for weight, at in some) / part
        shares.append(spread_share(layout.member(mark), part / whole, x, [at for _, at in some]))
    return Panel(area, centroid, corners, tuple(shares))


def _nearest(layout: Layout, point: Vector) -> list[tuple[Member, float, float]]:
    """The members under the boards nearest to a point, where along them, and the part of each: even if as near."""
    away = [(member.line.distance(point), member) for member in layout.flush]
    least = min(distance for distance, _ in away)
    near = [member for distance, member in away if distance <= least + _TINY]
    return [(member, member.line.nearest(point), 1 / len(near)) for member in near]


def nearest_member(layout: Layout, point: Vector) -> Member:
    """The member under the boards nearest to a point; of two as near, the first."""
    return min(layout.flush, key=lambda member: round(member.line.distance(point), 6))


def _uncovered(layout: Layout, point: Vector, member: Member) -> LayoutError:
    """Deck that nothing bears: what would bear it, by where it lies from the nearest member."""
    field = [joist.mark for joist in layout.joists if joist.field == member.field]
    along = member.line.along(point)
    within = -_EDGE <= along <= member.line.length + _EDGE
    if member.kind is Kind.JOIST and not (within and member.mark in (field[0], field[-1])):
        what = (
            f"shift the joists of field {member.field} until one runs out under it, put a beam under that edge, or "
            "draw the outline in"
        )
    elif member.kind is Kind.CARRIER and within and member.line.distance(point) <= PANEL:
        what = (
            f"the boards run along {member.mark} there, so move {member.mark} out under them, let the joists run out "
            "over it, or draw the outline in"
        )
    else:
        what = "move the first or last joist out to it, add a carrier, or draw the outline in"
    return LayoutError(
        f"The deck near {feet_inches(point[0])}, {feet_inches(point[1])} reaches "
        f"{feet_inches(member.line.distance(point))} past {member.mark}, the nearest member under it: {what}."
    )
