"""What one part of a drawing hides of another: visible outlines drawn full, hidden ones dashed or left out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString, MultiLineString, Polygon
from shapely.geometry.base import BaseGeometry

from bolewright.rendering import drawing
from bolewright.rendering.drawing import Fill, Item, Layer, Pen, Polyline

_SHORTEST = 0.02  # in: shorter stretches of line are noise of the intersections


@dataclass(frozen=True)
class Patch:
    """A part seen from one side: its outline, how it is drawn, and whether its hidden edges are shown dashed.

    One that does not ``cover`` lets what lies behind it be seen.
    """

    outline: Polygon
    layer: Layer
    fill: Fill = Fill.TIMBER
    pen: Pen = Pen.SOLID
    hidden: bool = False
    covers: bool = True


def painted(patches: Sequence[Patch]) -> list[Item]:
    """Patches as drawing items, the first farthest away: fills in order, then visible and hidden edges."""
    fills: list[Item] = []
    edges: list[Item] = []
    for number, patch in enumerate(patches):
        for ring in _rings(patch.outline):
            if patch.fill is not Fill.NONE:
                fills.append(drawing.Polygon(ring, patch.layer, patch.fill, Pen.NONE))
            break
        over = shapely.union_all([p.outline for p in patches[number + 1 :] if p.covers])
        boundary = patch.outline.boundary
        edges += [Polyline(run, patch.layer, patch.pen) for run in _runs(boundary.difference(over))]
        if patch.hidden:
            covered = boundary.intersection(over)
            edges += [Polyline(run, patch.layer, Pen.DASHED) for run in _runs(covered)]
    return [*fills, *edges]


def _rings(outline: Polygon) -> list[tuple[drawing.Point, ...]]:
    return [_points(ring.coords)[:-1] for ring in (outline.exterior, *outline.interiors)]


def _points(coordinates: Iterable[Sequence[float]]) -> tuple[drawing.Point, ...]:
    return tuple((float(c[0]), float(c[1])) for c in coordinates)


def _runs(lines: BaseGeometry) -> list[tuple[drawing.Point, ...]]:
    """Runs of line of a geometry, joined where they meet end to end."""
    parts = [g for g in shapely.get_parts(lines) if isinstance(g, LineString) and g.length > _SHORTEST]
    if not parts:
        return []
    merged = shapely.line_merge(MultiLineString(parts)) if len(parts) > 1 else parts[0]
    return [_points(g.coords) for g in shapely.get_parts(merged)]


def clipped(items: Iterable[Patch], window: Polygon) -> list[Patch]:
    """Patches cut off at a window's edges, in their order."""
    found = []
    for item in items:
        cut = item.outline.intersection(window)
        for part in shapely.get_parts(cut):
            if isinstance(part, Polygon) and part.area > _SHORTEST:
                found.append(Patch(part, item.layer, item.fill, item.pen, item.hidden, item.covers))
    return found
