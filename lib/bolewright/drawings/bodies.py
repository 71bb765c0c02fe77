"""Bodies with plane faces: seen level from a side, cut in a section. Inches: x and y as in the plan, z above grade."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely import MultiPoint, Polygon

from bolewright.platform.layout import Vector
from bolewright.rendering.drawing import Fill, Layer

Vec = tuple[float, float, float]
Face = tuple[Vec, ...]

_SIDES = 24


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
    below = tuple((x, y, low) for x, y in plan)
    return Solid(mark, layer, fill, faces_of(below, (0.0, 0.0, high - low)))


def faces_of(profile: Face, along: Vec) -> tuple[Face, ...]:
    """Faces of a body with a plane profile drawn along a direction."""
    far = tuple((x + along[0], y + along[1], z + along[2]) for x, y, z in profile)
    pairs = list(zip(profile, far, strict=True))
    sides = tuple((a, b, d, c) for (a, c), (b, d) in zip(pairs, [*pairs[1:], pairs[0]], strict=True))
    return (profile, far, *sides)


def round_plan(at: Vector, radius: float, sides: int = _SIDES) -> list[Vector]:
    """Corners of a many-sided plan that stands for a circle."""
    return [
        (
            at[0] + radius * math.cos(2 * math.pi * k / sides),
            at[1] + radius * math.sin(2 * math.pi * k / sides),
        )
        for k in range(sides)
    ]


def turned_square(at: Vector, b: float, d: float, u: Vector) -> list[Vector]:
    """Corners of a rectangle ``b`` along ``u`` and ``d`` across it."""
    return [
        (at[0] + i * b / 2 * u[0] - j * d / 2 * u[1], at[1] + i * b / 2 * u[1] + j * d / 2 * u[0])
        for i, j in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    ]
