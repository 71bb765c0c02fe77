"""Bodies with plane faces: seen level from a side, cut in a section. Inches: x and y as in the plan, z above grade."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely import MultiPoint, Polygon

from bolewright.mechanics.convex import Face, Vec, upright
from bolewright.platform.layout.layout import Vector
from bolewright.rendering.drawing import Fill, Layer


@dataclass(frozen=True)
class Solid:
    """A part as a body with plane faces."""

    mark: str
    layer: Layer
    fill: Fill
    faces: tuple[Face, ...]

    @property
    def points(self) -> tuple[Vec, ...]:
        """Corners of all faces."""
        return tuple(point for face in self.faces for point in face)

    @property
    def buried(self) -> bool:
        """Whether it lies wholly below grade."""
        return max(z for _, _, z in self.points) <= 1e-6

    def seen(self, view: View) -> Polygon | None:
        """Outline of the body as seen level in a direction; None for a plane seen edge on."""
        flat = [Polygon([view.flat(p) for p in face]) for face in self.faces]
        outline = shapely.union_all([p.buffer(1e-6) for p in flat if p.area > 1e-6])
        outline = shapely.simplify(outline, 1e-4) if isinstance(outline, Polygon) else outline.convex_hull
        return outline if isinstance(outline, Polygon) and not outline.is_empty else None

    def cut(self, view: View, through: float) -> Polygon | None:
        """Face where a plane square to a view, at that depth, cuts a convex body; None if it does not."""
        points = []
        for face in self.faces:
            for a, b in zip(face, (*face[1:], face[0]), strict=True):
                d_a, d_b = view.depth(a) - through, view.depth(b) - through
                if d_a * d_b < 0:
                    f = d_a / (d_a - d_b)
                    (x0, z0), (x1, z1) = view.flat(a), view.flat(b)
                    points.append((x0 + f * (x1 - x0), z0 + f * (z1 - z0)))
        hull = MultiPoint(points).convex_hull if points else None
        return hull if isinstance(hull, Polygon) and hull.area > 1e-6 else None


@dataclass(frozen=True)
class View:
    """A level view in the direction ``look`` of the plan (unit vector)."""

    look: Vector

    def flat(self, point: Vec) -> Vector:
        """Where a point is seen: to the right, and up."""
        return (point[0] * self.look[1] - point[1] * self.look[0], point[2])

    def depth(self, point: Vec) -> float:
        """How near to the viewer a point is."""
        return -(point[0] * self.look[0] + point[1] * self.look[1])

    def across(self, at: Vector) -> float:
        """Where a plan point is seen, to the right."""
        return self.flat((*at, 0.0))[0]


def prism(mark: str, layer: Layer, fill: Fill, plan: Sequence[Vector], low: float, high: float) -> Solid:
    """Upright body over a plan outline."""
    return Solid(mark, layer, fill, upright(plan, low, high))
