"""Deck panels: the deck cut into small areas, each handed to the joist (or carrier) that carries it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from shapely import Polygon, box
from shapely.affinity import affine_transform

from bolewright.mechanics.loads import PointLoad, SpreadLoad, UnitLoad
from bolewright.platform.layout import (
    Layout,
    LayoutError,
    Member,
    field_axes,
    field_region,
)
from bolewright.platform.project import JoistField
from bolewright.units import feet_inches

PANEL = 12.0  # in: greatest length of a panel along its joist; tests show that smaller ones change nothing
REACH = 24.0  # in: a guard or deck edge further than this from any member has nothing to stand on


@dataclass(frozen=True)
class Panel:
    """A piece of deck: its area (sq in), centroid, corners, and the unit load it puts on ``member``."""

    area: float
    centroid: tuple[float, float]
    corners: tuple[tuple[float, float], ...]
    member: str
    load: UnitLoad


def find_panels(layout: Layout, panel: float = PANEL) -> tuple[Panel, ...]:
    """All panels of the deck. Their areas add up to the deck's; LayoutError when a part of it has no joist."""
    panels = [p for field in layout.project.joists for p in _field_panels(layout, field, panel)]
    covered = sum(p.area for p in panels)
    if abs(covered - layout.deck.area) > 1e-3 * layout.deck.area:
        raise LayoutError(
            f"The joist fields cover {covered / 144:.1f} sq ft of the platform's {layout.deck.area / 144:.1f} sq ft: "
            "their regions must fill the outline without overlap."
        )
    return tuple(panels)


def _field_panels(layout: Layout, field: JoistField, panel: float) -> Iterator[Panel]:
    u, n = field_axes(field)
    region = affine_transform(field_region(field, layout.deck), [u[0], u[1], n[0], n[1], 0, 0])
    joists = [m for m in layout.joists if m.field == field.mark]
    rows: dict[float, list[Member]] = {}
    for joist in joists:
        t = joist.line.start[0] * n[0] + joist.line.start[1] * n[1]
        rows.setdefault(round(t, 6), []).append(joist)
    positions = sorted(rows)
    edges = [-1e5, *((a + b) / 2 for a, b in zip(positions, positions[1:], strict=False)), 1e5]
    for t, low, high in zip(positions, edges, edges[1:], strict=False):
        strip = region.intersection(box(-1e5, low, 1e5, high))
        if strip.is_empty:
            continue
        starts = {joist.mark: joist.line.start[0] * u[0] + joist.line.start[1] * u[1] for joist in rows[t]}
        for cut_low, cut_high in _cuts(strip.bounds[0], strip.bounds[2], rows[t], starts, panel):
            piece = strip.intersection(box(cut_low, -1e5, cut_high, 1e5))
            for part in getattr(piece, "geoms", [piece]):
                if part.geom_type == "Polygon" and part.area > 1e-6:
                    yield _panel(layout, part, rows[t], starts, (cut_low, cut_high), (u, n))


def _cuts(
    low: float, high: float, joists: list[Member], starts: dict[str, float], panel: float
) -> list[tuple[float, float]]:
    """Cut places along a strip: the ends and seats of its joists, and between them no more than ``panel``."""
    fixed = {low, high}
    for joist in joists:
        for s in (0.0, joist.line.length, *(seat.at for seat in joist.seats)):
            if low < starts[joist.mark] + s < high:
                fixed.add(starts[joist.mark] + s)
    places = sorted(fixed)
    cuts: list[float] = []
    for a, b in zip(places, places[1:], strict=False):
        cuts.extend(np.linspace(a, b, max(1, math.ceil((b - a) / panel)) + 1)[:-1])
    cuts.append(places[-1])
    return [(a, b) for a, b in zip(cuts, cuts[1:], strict=False) if b - a > 1e-6]


def _panel(
    layout: Layout,
    part: Polygon,
    joists: list[Member],
    starts: dict[str, float],
    cut: tuple[float, float],
    axes: tuple[tuple[float, float], tuple[float, float]],
) -> Panel:
    u, n = axes

    def back(x: float, y: float) -> tuple[float, float]:
        return (x * u[0] + y * n[0], x * u[1] + y * n[1])

    middle = (cut[0] + cut[1]) / 2
    joist = min(joists, key=lambda j: _gap(middle - starts[j.mark], j.line.length))
    s = middle - starts[joist.mark]
    centroid = back(part.centroid.x, part.centroid.y)
    corners = tuple(back(x, y) for x, y in part.exterior.coords[:-1])
    if 0 <= s <= joist.line.length:
        load: UnitLoad = SpreadLoad(
            max(0.0, cut[0] - starts[joist.mark]), min(joist.line.length, cut[1] - starts[joist.mark])
        )
        return Panel(part.area, centroid, corners, joist.mark, load)
    seat = joist.seats[0] if s < 0 else joist.seats[-1]
    if joist.seats[0].bearing.value.startswith("hangs"):
        carrier = layout.member(seat.below)
        if carrier.line.off(centroid) > REACH:
            raise LayoutError(
                f"The deck near {feet_inches(centroid[0])}, {feet_inches(centroid[1])} lies "
                f"{feet_inches(carrier.line.off(centroid))} outside carrier {carrier.mark} with no joist under it."
            )
        place = min(max(carrier.line.along(centroid), 0.0), carrier.line.length)
        return Panel(part.area, centroid, corners, carrier.mark, PointLoad(place))
    return Panel(part.area, centroid, corners, joist.mark, PointLoad(0.0 if s < 0 else joist.line.length))


def _gap(s: float, length: float) -> float:
    return max(0.0, -s, s - length)


def guard_pieces(layout: Layout) -> Iterator[tuple[str, PointLoad, float]]:
    """Weight of the guards in pieces of at most 12 in., each on the nearest member: (mark, place, pounds)."""
    outline = layout.project.platform.outline
    carrying = [m for m in layout.members if m.layer <= 1]
    for edge in layout.project.loads.guard_edges:
        start, end = outline[edge - 1], outline[edge % len(outline)]
        length = math.dist(start, end)
        count = max(1, math.ceil(length / PANEL))
        for i in range(count):
            f = (i + 0.5) / count
            point = (start[0] + f * (end[0] - start[0]), start[1] + f * (end[1] - start[1]))
            member = min(carrying, key=lambda m: _off_member(m, point))
            if _off_member(member, point) > REACH:
                raise LayoutError(
                    f"The guard on edge {edge} of the outline stands {feet_inches(_off_member(member, point))} from "
                    f"the nearest member, {member.mark}: nothing carries it."
                )
            place = min(max(member.line.along(point), 0.0), member.line.length)
            yield member.mark, PointLoad(place), layout.project.loads.guard / 12 * length / count


def _off_member(member: Member, point: tuple[float, float]) -> float:
    s = min(max(member.line.along(point), 0.0), member.line.length)
    return math.dist(member.line.at(s), point)
