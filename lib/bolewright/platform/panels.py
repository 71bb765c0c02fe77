"""Deck panels: the deck cut into small areas, each handed by the lever to the two members its boards rest on."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from bolewright.mechanics.loads import PointLoad, SpreadLoad, UnitLoad
from bolewright.platform.boards import ALONG, BoardField, Cell, board_field, cells, pieces
from bolewright.platform.lines import Vector
from bolewright.platform.parts import Layout, LayoutError, Member
from bolewright.units import feet_inches

PANEL = 12.0  # in: greatest length of a panel along its member; tests show that smaller ones change little
STRAY = 6.0  # in: boards with no member under them may lie this far from the nearest one
REACH = 24.0  # in: deck or a guard further than this from any member has nothing to stand on
BOARD = 5.5  # in: a board this wide, its middle over a place, lies on every member within half of it
NEXT_BOARD = 8.0  # in: from a board beside a member to the next one
_TINY = 1e-6
_EDGE = 0.01  # in
_APART = 0.5  # in: places where a person stands nearer than this are one


@dataclass(frozen=True)
class Share:
    """What a member gets of a load: ``part`` of it as ``load``, negative where the lever lifts the member.

    ``reach`` is how much of the member the load lies beside (in along it).
    """

    member: str
    load: UnitLoad
    part: float
    reach: tuple[float, float]


@dataclass(frozen=True)
class Panel:
    """A piece of deck: its area (sq in), centroid, corners, and what the members under its boards get of its load.

    Forces and moments of the shares are those of the panel's true shape. ``tips`` are the ends of the boards where
    they run out past the last member.
    """

    area: float
    centroid: Vector
    corners: tuple[Vector, ...]
    shares: tuple[Share, ...]
    tips: tuple[Spot, ...] = ()

    @property
    def member(self) -> str:
        """The member that gets most of its load."""
        return max(self.shares, key=lambda share: share.part).member


@dataclass(frozen=True)
class Spot:
    """A place in plan where one heavy person may stand, and what the members under it get of the person."""

    point: Vector
    shares: tuple[Share, ...]


def find_panels(layout: Layout, panel: float = PANEL) -> tuple[Panel, ...]:
    """All panels of the deck. Their areas add up to the deck's; LayoutError when a part of it has no joist."""
    panels: list[Panel] = []
    for field in layout.project.joists:
        boards = board_field(layout, field)
        for cell in cells(boards):
            if cell.members:
                bearers = [layout.member(m.name) for m in cell.members]
                _refuse_far(boards, cell, bearers[0])
                for part in _halves(cell) if len(cell.members) > 1 else (cell,):
                    for low, high in pieces(cell, bearers, boards, panel):
                        panels.append(_panel(layout, boards, part, low, high))
            else:
                panels += _strays(layout, boards, cell, panel)
    covered = sum(p.area for p in panels)
    if abs(covered - layout.deck.area) > 1e-3 * layout.deck.area:
        raise LayoutError(
            f"The joist fields cover {covered / 144:.1f} sq ft of the platform's {layout.deck.area / 144:.1f} sq ft: "
            "their regions must fill the outline without overlap."
        )
    return tuple(panels)


def _halves(cell: Cell) -> tuple[Cell, Cell]:
    """A cell cut along its middle: what lies nearer to one member may count against what lies nearer to the other."""
    middle = tuple((a + b) / 2 for a, b in zip(cell.below, cell.above, strict=True))
    line = (middle[0], middle[1])
    lower = cell.past and cell.outer == 0
    return (
        replace(cell, above=line, past=lower),
        replace(cell, below=line, past=cell.past and not lower),
    )


def _panel(layout: Layout, boards: BoardField, cell: Cell, low: float, high: float) -> Panel:
    """Panel of a cell from ``low`` to ``high`` along the joists."""
    area, centroid, corners = _shape(boards, cell, low, high)
    if len(cell.members) == 1:
        return Panel(
            area, centroid, corners, (_square(layout.member(cell.members[0].name), centroid, corners),)
        )
    shares = tuple(_by_lever(layout, boards, cell, low, high))
    tips = tuple(_tips(layout, boards, cell, low, high)) if cell.past else ()
    return Panel(area, centroid, corners, shares, tips)


def _gauss(low: float, high: float) -> tuple[float, float]:
    """The two places of Gauss's rule, each with half the weight: exact up to the third power."""
    middle, off = (low + high) / 2, (high - low) / math.sqrt(12)
    return middle - off, middle + off


def _by_lever(layout: Layout, boards: BoardField, cell: Cell, low: float, high: float) -> Iterator[Share]:
    """What the two members that bear it get of a panel, and where: exact for members side by side."""
    places = _gauss(low, high)
    sides = [cell.side(s) for s in places]
    widths = [above - below for below, above in sides]
    levers = [_lever(cell, s, (below + above) / 2) for s, (below, above) in zip(places, sides, strict=True)]
    for i, slope in enumerate(cell.members):
        first, second = (w * lever[i] / sum(widths) for w, lever in zip(widths, levers, strict=True))
        part = first + second
        if abs(part) > _TINY:
            member = layout.member(slope.name)
            s = (first * places[0] + second * places[1]) / part
            x, *ends = (_along(member, boards, place) for place in (s, low, high))
            yield _share(member, part, x, ends)


def _lever(cell: Cell, s: float, t: float) -> tuple[float, float]:
    """Parts of a load at a place on a board that the two members bearing it get."""
    one, two = (m.at(s) for m in cell.members)
    part = (t - one) / (two - one)
    return 1 - part, part


def _square(member: Member, centroid: Vector, corners: Sequence[Vector]) -> Share:
    """All of a panel square to the one member that bears it."""
    return _share(member, 1.0, member.line.along(centroid), [member.line.along(c) for c in corners])


def _share(member: Member, part: float, x: float, along: Sequence[float]) -> Share:
    """Part of a load beside a stretch of a member, its centre at ``x``."""
    ends = min(along), max(along)
    start, middle, end = (min(max(at, 0.0), member.line.length) for at in (ends[0], x, ends[1]))
    half = min(middle - start, end - middle)
    load: UnitLoad = SpreadLoad(middle - half, middle + half) if half > _TINY else PointLoad(middle)
    return Share(member.mark, load, part, (start, end))


def _tips(layout: Layout, boards: BoardField, cell: Cell, low: float, high: float) -> Iterator[Spot]:
    """Places for one person at the tips of boards past the last member: where a panel begins and a cell ends.

    Where the board lies on another member there, the next board. None at an edge that cuts across the joists: what
    is there holds the ends of the boards.
    """
    outer = cell.outer
    if abs(cell.side(low)[outer] - cell.side(high)[outer]) > ALONG * (high - low):
        return
    for end in (low, high)[: 1 + (high == cell.high)]:
        nudged = min(max(end, cell.low + _EDGE), cell.high - _EDGE)
        for places in ((nudged,), (end - NEXT_BOARD, end + NEXT_BOARD)):
            found = [
                spot
                for s in places
                if cell.low < s < cell.high and (spot := _tip(layout, boards, cell, s, cell.side(s)[outer]))
            ]
            if found:
                yield from found
                break


def _tip(layout: Layout, boards: BoardField, cell: Cell, s: float, t: float) -> Spot | None:
    """The tip of a board at a place; None over the last member or another that the board lies on."""
    point = boards.plan(s, t)
    last, inside = (layout.member(m.name) for m in cell.members)
    if abs(t - cell.members[0].at(s)) <= last.width / 2 + _EDGE:
        return None
    if any(m.line.distance(point) < (m.width + BOARD) / 2 for m in layout.flush if m is not last):
        return None
    shares = []
    for member, part in zip((last, inside), _lever(cell, s, t), strict=True):
        x = _along(member, boards, s)
        shares.append(_share(member, part, x, (x,)))
    return Spot(point, tuple(shares))


def _shape(
    boards: BoardField, cell: Cell, low: float, high: float
) -> tuple[float, Vector, tuple[Vector, ...]]:
    """Area of a cell from ``low`` to ``high``, its centroid in plan, and its corners."""
    (below_low, above_low), (below_high, above_high) = cell.side(low), cell.side(high)
    ring = [(low, below_low), (high, below_high), (high, above_high), (low, above_low)]
    corners = tuple(dict.fromkeys(boards.plan(*place) for place in ring))
    places = _gauss(low, high)
    sides = [cell.side(s) for s in places]
    first, second = (above - below for below, above in sides)
    share = second / (first + second)
    s = places[0] + share * (places[1] - places[0])
    t = ((1 - share) * sum(sides[0]) + share * sum(sides[1])) / 2
    return (first + second) / 2 * (high - low), boards.plan(s, t), corners


def _along(member: Member, boards: BoardField, s: float) -> float:
    """Place along a member at ``s`` along the joists: loads come to it along the boards."""
    start = member.line.start[0] * boards.u[0] + member.line.start[1] * boards.u[1]
    rate = member.line.u[0] * boards.u[0] + member.line.u[1] * boards.u[1]
    return (s - start) / rate


def _refuse_far(boards: BoardField, cell: Cell, member: Member) -> None:
    """LayoutError when boards reach too far past the last member, or half-way to the next."""
    reach = max(REACH, boards.field.spacing / 2 + 1.0)
    between = len(cell.members) > 1 and not cell.past
    for s in (cell.low, cell.high):
        for t in (sum(m.at(s) for m in cell.members) / 2,) if between else cell.side(s):
            point = boards.plan(s, t)
            if member.line.distance(point) > reach:
                raise _uncovered(point, member)


def _strays(layout: Layout, boards: BoardField, cell: Cell, panel: float) -> Iterator[Panel]:
    """Panels with no member under their boards, such as a corner past the ends of the joists: to the nearest."""
    for low, high in pieces(cell, (), boards, panel):
        sides = np.array([cell.side(low), cell.side(high)])
        count = max(1, math.ceil(float(np.diff(sides).max()) / panel))
        lines = np.linspace(sides[:, 0], sides[:, 1], count + 1).tolist()
        for (b_low, b_high), (a_low, a_high) in pairwise(lines):
            part = Cell((), low, high, (b_low, b_high), (a_low, a_high))
            area, centroid, corners = _shape(boards, part, low, high)
            member = _nearest(layout, centroid)
            far = max(corners, key=member.line.distance)
            if member.line.distance(far) > STRAY + member.width / 2:
                raise _uncovered(far, member)
            x = member.line.nearest(centroid)
            yield Panel(area, centroid, corners, (Share(member.mark, PointLoad(x), 1.0, (x, x)),))


def _nearest(layout: Layout, point: Vector) -> Member:
    """The member under the boards nearest to a point; of two as near, the first."""
    return min(layout.flush, key=lambda member: round(member.line.distance(point), 6))


def _uncovered(point: Vector, member: Member) -> LayoutError:
    return LayoutError(
        f"The deck near {feet_inches(point[0])}, {feet_inches(point[1])} reaches "
        f"{feet_inches(member.line.distance(point))} past {member.mark}, the nearest member under it: move the first "
        "or last joist out to it, add a carrier, or draw the outline in."
    )


def find_spots(layout: Layout, panels: tuple[Panel, ...]) -> tuple[Spot, ...]:
    """Places for one heavy person: along every member under the boards, and at the tips of boards past the last."""
    reaches: dict[str, list[tuple[float, float]]] = {}
    tips: dict[tuple[float, ...], Spot] = {}
    for panel in panels:
        for share in panel.shares:
            if share.part > 0:
                reaches.setdefault(share.member, []).append(share.reach)
        for tip in panel.tips:
            tips.setdefault(tuple(round(x / _APART) for x in tip.point), tip)
    spots: list[Spot] = []
    for mark, reach in reaches.items():
        member = layout.member(mark)
        for x in _standing(member, reach):
            spots.append(Spot(member.line.at(x), (Share(mark, PointLoad(x), 1.0, (x, x)),)))
    return (*spots, *tips.values())


def _standing(member: Member, reach: list[tuple[float, float]]) -> list[float]:
    """Places along a member: the ends of the deck on it, the middle of every span, others at most a panel apart."""
    places: set[float] = set()
    middles = [(one.at + other.at) / 2 for one, other in pairwise(member.seats)]
    for low, high in _joined(reach):
        fixed = [low, *(x for x in (*middles, *(s.at for s in member.seats)) if low < x < high), high]
        for a, b in pairwise(sorted(fixed)):
            places.update(np.linspace(a, b, max(1, math.ceil((b - a) / PANEL)) + 1).tolist())
    ordered = sorted(places)
    kept = [ordered[0], *(b for a, b in pairwise(ordered) if b - a > _APART)]
    return kept if ordered[-1] == kept[-1] else [*kept, ordered[-1]]


def _joined(reach: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Stretches joined where they touch."""
    joined: list[tuple[float, float]] = []
    for low, high in sorted(reach):
        if joined and low <= joined[-1][1] + _APART:
            joined[-1] = (joined[-1][0], max(high, joined[-1][1]))
        else:
            joined.append((low, high))
    return joined


def guard_pieces(layout: Layout) -> Iterator[tuple[str, PointLoad, float]]:
    """Weight of the guards in pieces of at most 12 in., each on the nearest member: (mark, place, pounds)."""
    outline = layout.project.platform.outline
    for edge in layout.project.loads.guard_edges:
        start, end = outline[edge - 1], outline[edge % len(outline)]
        length = math.dist(start, end)
        count = max(1, math.ceil(length / PANEL))
        for i in range(count):
            f = (i + 0.5) / count
            point = (start[0] + f * (end[0] - start[0]), start[1] + f * (end[1] - start[1]))
            member = _nearest(layout, point)
            if member.line.distance(point) > REACH:
                raise LayoutError(
                    f"The guard on edge {edge} of the outline stands {feet_inches(member.line.distance(point))} from "
                    f"the nearest member, {member.mark}: nothing carries it."
                )
            pounds = layout.project.loads.guard / 12 * length / count
            yield member.mark, PointLoad(member.line.nearest(point)), pounds
