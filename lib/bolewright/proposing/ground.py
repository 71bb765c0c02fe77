"""Where the floor lies and where a hole may be dug: outline, height, and what is in the way."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt
from shapely import distance, points, transform
from shapely.geometry import LineString, MultiLineString, Polygon
from shapely.geometry import Point as Spot
from shapely.geometry.base import BaseGeometry
from shapely.prepared import prep

from bolewright.platform.project.fields import Point
from bolewright.proposing.needs import NeededTree, Needs
from bolewright.proposing.writing import eighth

_FAR = 20_000.0  # in, beyond any platform
_TOUCHES = 1e-3  # in²: a floor that ends right at a setback is not over it
_SHAPE = 1.3  # width over depth of a floor given by its area; judgement
_SHAPE_AT_TRUNK = 1.0  # the same beside a trunk, so that joists don't run out far past the beams on its bolts


@dataclass(frozen=True)
class Zone:
    """Ground where no hole may be, and why: path, root zone of a tree, beyond a property line."""

    shape: BaseGeometry
    why: str
    key: str


@dataclass(frozen=True)
class Turn:
    """How a plan is turned before an arrangement is drawn: x and y changed, then y against its way."""

    swapped: bool = False
    flipped: bool = False

    def points(self, xy: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        """Points (n x 2), turned."""
        turned = xy[:, ::-1] if self.swapped else xy
        return turned * np.array([1.0, -1.0]) if self.flipped else turned

    def of(self, ground: Ground) -> Ground:
        """The ground turned."""
        return ground.turned(self)


@dataclass(frozen=True)
class Ground:
    """The floor in plan and the ground under it, turned as an arrangement is drawn."""

    needs: Needs
    outline: tuple[Point, ...]
    zones: tuple[Zone, ...]
    turn: Turn = Turn()

    @cached_property
    def polygon(self) -> Polygon:
        """The floor."""
        return Polygon(self.outline)

    @property
    def area(self) -> float:
        """Area of the floor (sq ft)."""
        return float(self.polygon.area) / 144

    @property
    def height(self) -> float:
        """Height of the floor over the lowest ground given (in): no post is longer than calculated."""
        return self.needs.floor.height - min((g.level for g in self.needs.ground), default=0.0)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Least x and y, greatest x and y."""
        x0, y0, x1, y1 = self.polygon.bounds
        return float(x0), float(y0), float(x1), float(y1)

    def at(self, tree: NeededTree) -> Point:
        """Centre of a trunk."""
        x, y = self.turn.points(np.array([tree.at]))[0]
        return float(x), float(y)

    def turned(self, turn: Turn) -> Ground:
        """The same with x and y changed, or y against its way, or both."""

        def moved(xy: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
            return turn.points(xy)

        zones = tuple(Zone(transform(z.shape, moved), z.why, z.key) for z in self.zones)
        corners = moved(np.array(self.outline))
        return Ground(self.needs, tuple((float(x), float(y)) for x, y in corners), zones, turn)

    def free(self, x: float, y: float, half: float) -> bool:
        """Whether a hole of half a width may be dug there."""
        return self.in_way(x, y, half) is None

    def free_of(self, xs: list[float], y: float, half: float) -> list[float]:
        """Those of some places along x at y where a hole may be dug."""
        spots = points(np.array([(x, y) for x in xs]).reshape(-1, 2))
        good = np.ones(len(xs), dtype=bool)
        for zone in self.zones:
            good &= distance(zone.shape, spots) >= half - 1e-6
        return [x for x, ok in zip(xs, good, strict=True) if ok]

    def in_way(self, x: float, y: float, half: float) -> Zone | None:
        """The first zone that a hole would touch."""
        spot = Spot(x, y)
        return next((z for z in self.zones if z.shape.distance(spot) < half - 1e-6), None)

    def chord(self, y: float) -> tuple[float, float] | None:
        """From where to where the floor reaches along x at y; None where it is none there or in two pieces."""
        return _single(self.polygon.intersection(LineString([(-_FAR, y), (_FAR, y)])), 0)

    def across(self, x: float) -> tuple[float, float] | None:
        """From where to where the floor reaches along y at x."""
        return _single(self.polygon.intersection(LineString([(x, -_FAR), (x, _FAR)])), 1)

    def trunks_in(self) -> tuple[NeededTree, ...]:
        """Trees whose trunk, with its bark and a hand's breadth round it, would go through the floor."""
        inside = prep(self.polygon)
        return tuple(t for t in self.needs.trees if inside.intersects(Spot(self.at(t)).buffer(t.radius + 2)))

    @property
    def floor_over_line(self) -> bool:
        """Whether the floor itself reaches over a property line or its setback; one that ends right at it does not."""
        lines = (z.shape for z in self.zones if z.key.startswith("property_line"))
        return any(shape.intersection(self.polygon).area > _TOUCHES for shape in lines)

    @property
    def trunks_over_line(self) -> tuple[NeededTree, ...]:
        """Trees whose trunk stands on a property line or beyond it, whatever the setback of floor and holes."""
        setbacks = [line.setback for line in self.needs.property_lines]
        beyond = [z.shape for z in self.zones if z.key.startswith("property_line")]
        off = [shape.buffer(-setback) for shape, setback in zip(beyond, setbacks, strict=True)]
        return tuple(t for t in self.needs.trees if any(s.distance(Spot(self.at(t))) < t.radius for s in off))


def _single(found: BaseGeometry, axis: int) -> tuple[float, float] | None:
    pieces = found.geoms if isinstance(found, MultiLineString) else [found]
    lines = [p for p in pieces if isinstance(p, LineString) and p.length > 1]
    if len(lines) != 1:
        return None
    ends = sorted(float(c[axis]) for c in lines[0].coords)
    return ends[0], ends[-1]


def ground_of(needs: Needs) -> Ground:
    """The ground and the floor as the requirements give them; a floor by its area lies where :func:`placed` puts it."""
    outline = needs.floor.outline or placed(needs)
    return Ground(needs, tuple((x, y) for x, y in outline), zones_of(needs, outline))


def placed(needs: Needs) -> tuple[Point, ...]:
    """Corners of a floor given by width and depth, or by its area: beside the first tree's trunk, in the middle."""
    floor = needs.floor
    if floor.width is not None and floor.depth is not None:
        return _rectangle(*floor.at, floor.width, floor.depth)
    assert floor.area is not None
    width = math.ceil(math.sqrt(floor.area * 144 * (_SHAPE_AT_TRUNK if needs.trees else _SHAPE)) / 2) * 2.0
    depth = math.ceil(floor.area * 144 / width)
    if not needs.trees:
        return _rectangle(*floor.at, width, float(depth))
    tree = needs.trees[0]
    x, y = tree.at
    return _rectangle(eighth(x - width / 2), eighth(y + tree.radius + 6), width, float(depth))


def _rectangle(x: float, y: float, width: float, depth: float) -> tuple[Point, ...]:
    return (x, y), (x + width, y), (x + width, y + depth), (x, y + depth)


def zones_of(needs: Needs, outline: tuple[Point, ...]) -> tuple[Zone, ...]:
    """Where no hole may be: what the requirements name, root zones, what lies beyond property lines."""
    found = [Zone(Polygon(z.corners), z.why, f"no_post {i}") for i, z in enumerate(needs.no_posts)]
    for tree in needs.trees:
        reach = max(needs.rules.root_zone * 2 * tree.radius, tree.radius + 2)
        found.append(Zone(Spot(tree.at).buffer(reach, 32), f"root zone of {tree.mark}", "root_zone"))
    centre = Polygon(outline).centroid
    for i, line in enumerate(needs.property_lines):
        (ax, ay), (bx, by) = line.start, line.end
        length = math.dist(line.start, line.end)
        ux, uy = (bx - ax) / length, (by - ay) / length
        nx, ny = -uy, ux
        if (centre.x - ax) * nx + (centre.y - ay) * ny > 0:
            nx, ny = -nx, -ny
        ax, ay = ax - nx * line.setback, ay - ny * line.setback
        ring = [
            (ax - ux * _FAR, ay - uy * _FAR),
            (ax + ux * _FAR, ay + uy * _FAR),
            (ax + ux * _FAR + nx * _FAR, ay + uy * _FAR + ny * _FAR),
            (ax - ux * _FAR + nx * _FAR, ay - uy * _FAR + ny * _FAR),
        ]
        found.append(Zone(Polygon(ring), "property line", f"property_line {i}"))
    return tuple(found)
