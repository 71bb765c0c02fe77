"""Deck panels: the deck cut into small areas, each handed to the member its boards come down on."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from shapely import LineString, Polygon

from bolewright.mechanics.loads import PointLoad, SpreadLoad, UnitLoad
from bolewright.platform.boards import BoardField, Cell, board_field, cells, pieces
from bolewright.platform.lines import Line, Vector
from bolewright.platform.parts import Layout, LayoutError, Member
from bolewright.units import feet_inches

PANEL = 12.0  # in: greatest length of a panel along its member; tests show that smaller ones change little
STRAY = 6.0  # in: boards with no member under them may lie this far from the nearest one
REACH = 24.0  # in: deck or a guard further than this from any member has nothing to stand on
_TINY = 1e-6
_FAR = 1e4  # in: beyond any platform
BOARD = 5.5  # in: width of a board; one whose tip is nearer to another member lies on that too
_EDGE = 0.01  # in
_APART = 0.5  # in: places where a person stands nearer than this are one


@dataclass(frozen=True)
class Lever:
    """What a load past the last member under a board does by the lever: more on that one, less on the next one in.

    ``share`` of the load comes down on the last member at ``at`` on top of it, and lifts the next one, ``inside``,
    at ``inside_at``.
    """

    at: float
    inside: str
    inside_at: float
    share: float


@dataclass(frozen=True)
class Panel:
    """A piece of deck: its area (sq in), centroid, corners, and the unit load it puts on ``member``.

    The load has the panel's centroid along the member, so that the reactions are those of the panel's true shape.
    ``reach`` is how much of the member the panel lies on (in along it). ``lever`` is what it does by lying past the
    last member under its boards.
    """

    area: float
    centroid: Vector
    corners: tuple[Vector, ...]
    member: str
    load: UnitLoad
    reach: tuple[float, float]
    lever: Lever | None = None


@dataclass(frozen=True)
class Spot:
    """A place where one heavy person may stand, ``x`` along a member and in plan: over it, or past it with a lever."""

    member: str
    x: float
    point: Vector
    lever: Lever | None = None


def find_panels(layout: Layout, panel: float = PANEL) -> tuple[Panel, ...]:
    """All panels of the deck. Their areas add up to the deck's; LayoutError when a part of it has no joist."""
    panels: list[Panel] = []
    for field in layout.project.joists:
        boards = board_field(layout, field)
        for cell in cells(boards):
            if cell.member:
                for low, high in pieces(cell, layout.member(cell.member), boards, panel):
                    panels.append(_panel(layout, boards, cell, low, high))
            else:
                panels += _strays(layout, boards, cell, panel)
    covered = sum(p.area for p in panels)
    if abs(covered - layout.deck.area) > 1e-3 * layout.deck.area:
        raise LayoutError(
            f"The joist fields cover {covered / 144:.1f} sq ft of the platform's {layout.deck.area / 144:.1f} sq ft: "
            "their regions must fill the outline without overlap."
        )
    return tuple(panels)


def _panel(layout: Layout, boards: BoardField, cell: Cell, low: float, high: float) -> Panel:
    """Panel of a cell from ``low`` to ``high`` along the joists; LayoutError when it reaches too far."""
    area, s, centroid, corners = _shape(boards, cell, low, high)
    member = layout.member(cell.member)
    _refuse_far(boards, member, corners)
    if cell.square:
        centre = member.line.along(centroid)
        ends = sorted(member.line.along(corner) for corner in corners)
    else:
        centre = _along(member, boards, s)
        ends = sorted(_along(member, boards, place) for place in (low, high))
    start, middle, end = (min(max(x, 0.0), member.line.length) for x in (ends[0], centre, ends[-1]))
    half = min(middle - start, end - middle)
    load: UnitLoad = SpreadLoad(middle - half, middle + half) if half > 1e-6 else PointLoad(middle)
    lever = _lever_of_panel(layout, cell, member, corners)
    return Panel(area, centroid, corners, member.mark, load, (start, end), lever)


def _lever_of_panel(layout: Layout, cell: Cell, member: Member, corners: tuple[Vector, ...]) -> Lever | None:
    """Lever of the part of a panel past the last member under its boards."""
    if not cell.inside or len(corners) < 3:
        return None
    inside = layout.member(cell.inside)
    shape = Polygon(corners)
    found = shape.intersection(_beyond(member, inside))
    parts = [
        part for part in getattr(found, "geoms", [found]) if isinstance(part, Polygon) and part.area > 1e-3
    ]
    if len(parts) != 1:
        return None
    (past,) = parts
    lever = lever_of((past.centroid.x, past.centroid.y), member, inside)
    return replace(lever, share=lever.share * past.area / shape.area) if lever else None


def _beyond(member: Member, inside: Member) -> Polygon:
    """The side of a member's line that is away from another."""
    n = _outwards(member, inside)
    c, d = member.line.at(_FAR), member.line.at(-_FAR)
    off = (_FAR * n[0], _FAR * n[1])
    return Polygon([d, c, (c[0] + off[0], c[1] + off[1]), (d[0] + off[0], d[1] + off[1])])


def lever_of(point: Vector, member: Member, inside: Member) -> Lever | None:
    """Lever of a pound at a point past a member, with the next one in, on the line square to the member.

    None where that line passes one of the two well past its ends.
    """
    x = member.line.along(point)
    foot = member.line.at(x)
    c = math.dist(point, foot)
    if c < _TINY or not _on(member, x):
        return None
    crossing = Line.between(point, foot).crossing(inside.line)
    if crossing is None or crossing[0] <= c or not _on(inside, crossing[1]):
        return None
    at, inside_at = (min(max(y, 0.0), m.line.length) for m, y in ((member, x), (inside, crossing[1])))
    return Lever(at, inside.mark, inside_at, c / (crossing[0] - c))


def _on(member: Member, x: float) -> bool:
    """Whether a place along a member lies on it, or no farther past its end than its boards do."""
    return -STRAY <= x <= member.line.length + STRAY


def _shape(
    boards: BoardField, cell: Cell, low: float, high: float
) -> tuple[float, float, Vector, tuple[Vector, ...]]:
    """Area of a cell from ``low`` to ``high``, its centroid along the joists and in plan, and its corners."""
    (below_low, above_low), (below_high, above_high) = cell.side(low), cell.side(high)
    w_low, w_high = max(0.0, above_low - below_low), max(0.0, above_high - below_high)
    area = (w_low + w_high) / 2 * (high - low)
    s = low + (high - low) * (w_low + 2 * w_high) / (3 * (w_low + w_high))
    ring = [(low, below_low), (high, below_high), (high, above_high), (low, above_low)]
    corners = tuple(dict.fromkeys(boards.plan(*place) for place in ring))
    return area, s, boards.plan(s, _centre(w_low, w_high, below_low, below_high)), corners


def _centre(w_low: float, w_high: float, below_low: float, below_high: float) -> float:
    """Centroid along the boards of a trapezoid with sides ``w_low`` and ``w_high`` at its two ends."""
    # integral of (below + w/2) w over the width of the slab, with both linear
    first = (2 * below_low * w_low + below_low * w_high + below_high * w_low + 2 * below_high * w_high) / 6
    second = (w_low**2 + w_low * w_high + w_high**2) / 6
    return (first + second) / ((w_low + w_high) / 2)


def _along(member: Member, boards: BoardField, s: float) -> float:
    """Place along a member at ``s`` along the joists: loads come to it along the boards."""
    start = member.line.start[0] * boards.u[0] + member.line.start[1] * boards.u[1]
    rate = member.line.u[0] * boards.u[0] + member.line.u[1] * boards.u[1]
    return (s - start) / rate


def _refuse_far(boards: BoardField, member: Member, corners: tuple[Vector, ...]) -> None:
    far = max(corners, key=member.line.distance)
    reach = max(REACH, boards.field.spacing / 2 + 1.0)
    if member.line.distance(far) > reach:
        raise _uncovered(far, member)


def _strays(layout: Layout, boards: BoardField, cell: Cell, panel: float) -> Iterator[Panel]:
    """Panels with no member under their boards, such as a corner past the ends of the joists: to the nearest."""
    for low, high in pieces(cell, None, boards, panel):
        sides = np.array([cell.side(low), cell.side(high)])
        count = max(1, math.ceil(float(np.diff(sides).max()) / panel))
        lines = np.linspace(sides[:, 0], sides[:, 1], count + 1).tolist()
        for (b_low, b_high), (a_low, a_high) in pairwise(lines):
            part = Cell("", low, high, (b_low, b_high), (a_low, a_high), cell.key)
            area, _, centroid, corners = _shape(boards, part, low, high)
            member = _nearest(layout, centroid)
            far = max(corners, key=member.line.distance)
            if member.line.distance(far) > STRAY + member.width / 2:
                raise _uncovered(far, member)
            x = member.line.nearest(centroid)
            yield Panel(area, centroid, corners, member.mark, PointLoad(x), (x, x))


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
    """Places for one heavy person: the ends of every panel along its member, and the middle of every span."""
    places: dict[str, set[float]] = {}
    reaching: dict[str, list[Panel]] = {}
    for panel in panels:
        places.setdefault(panel.member, set()).update(panel.reach)
        if panel.lever:
            reaching.setdefault(panel.member, []).append(panel)
    spots: list[Spot] = []
    for mark, here in places.items():
        member = layout.member(mark)
        low, high = min(here), max(here)
        for one, other in pairwise(member.seats):
            middle = (one.at + other.at) / 2
            if low < middle < high:
                here.add(middle)
        ordered = sorted(here)
        kept = [ordered[0], *(b for a, b in pairwise(ordered) if b - a > _APART)]
        if ordered[-1] != kept[-1]:
            kept.append(ordered[-1])
        spots += [Spot(mark, x, member.line.at(x)) for x in kept]
        spots += _tips(layout, member, reaching.get(mark, []), kept)
    return tuple(spots)


def _tips(layout: Layout, member: Member, panels: list[Panel], places: list[float]) -> Iterator[Spot]:
    """Places at the tips of the boards that run out past a member, beside those on it."""
    for x in places:
        found: list[Spot] = []
        for panel in panels:
            if panel.lever is None or not panel.reach[0] - _APART <= x <= panel.reach[1] + _APART:
                continue
            inside = layout.member(panel.lever.inside)
            n = _outwards(member, inside)
            foot = member.line.at(min(max(x, panel.reach[0] + _EDGE), panel.reach[1] - _EDGE))
            ray = LineString([foot, (foot[0] + _FAR * n[0], foot[1] + _FAR * n[1])])
            met = Polygon(panel.corners).intersection(ray)
            if not met.is_empty and met.length - member.width / 2 > _EDGE:
                point = (foot[0] + met.length * n[0], foot[1] + met.length * n[1])
                others = (m for m in layout.flush if m is not member)
                if any(m.line.distance(point) - m.width / 2 < BOARD for m in others):
                    continue  # a board reaches across to that one as well
                lever = lever_of(point, member, inside)
                found += [Spot(member.mark, x, point, replace(lever, at=x))] if lever else []
        yield from sorted(found, key=lambda spot: -spot.lever.share if spot.lever else 0.0)[:1]


def _outwards(member: Member, inside: Member) -> Vector:
    """Direction square to a member, away from another."""
    (a, b), (x, y) = member.line.start, inside.line.at(inside.line.length / 2)
    n = (-member.line.u[1], member.line.u[0])
    side = -1.0 if (x - a) * n[0] + (y - b) * n[1] > 0 else 1.0
    return (side * n[0], side * n[1])


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
