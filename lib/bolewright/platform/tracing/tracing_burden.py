"""What may lie on the deck: people at one place, a crowd, a snow drift, each cut into point loads."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import Point as PlanPoint
from shapely import Polygon, box

from bolewright.platform.layout.influence import Array
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout
from bolewright.units import feet_inches

PIECE = 4.0  # in: side of the pieces into which a crowd or a drift is cut
EDGE = 0.5  # in: a person this far outside the deck's edge still stands on it
_TINY = 1e-6


class TracingError(ValueError):
    """A burden that is not on the deck, or that nothing carries; one sentence."""


@dataclass(frozen=True)
class Person:
    """People who stand at one place: ``pounds`` all together."""

    at: Vector
    pounds: float


@dataclass(frozen=True)
class Crowd:
    """A crowd, evenly over the part of the deck inside a polygon."""

    corners: tuple[Vector, ...]
    psf: float


@dataclass(frozen=True)
class Drift:
    """A snow drift against an edge of the outline: ``psf`` at the edge, nothing ``width`` inches away from it."""

    edge: int
    psf: float
    width: float


Burden = Person | Crowd | Drift


@dataclass(frozen=True)
class Pieces:
    """A burden as point loads: their places in plan (n x 2) and their weights (lb)."""

    places: Array
    pounds: Array

    @property
    def total(self) -> float:
        """Weight of all of it (lb)."""
        return float(self.pounds.sum())

    @property
    def centre(self) -> Vector:
        """Where it would balance on a finger."""
        x, y = self.pounds @ self.places / self.pounds.sum()
        return (float(x), float(y))


def nearest_on_deck(layout: Layout, place: Vector) -> Vector:
    """The place itself when it is on the deck, else the nearest one on its edge."""
    point = PlanPoint(place)
    if layout.deck.covers(point):
        return place
    on_edge = layout.deck.boundary.interpolate(layout.deck.boundary.project(point))
    return (float(on_edge.x), float(on_edge.y))


def lay(layout: Layout, burden: Burden) -> Pieces:
    """A burden as point loads on the deck.

    Raises :class:`TracingError` for one that is not on the deck.
    """
    deck = layout.deck
    match burden:
        case Person(at, pounds):
            if not pounds > 0:
                raise TracingError(f"The weight is {pounds:g} lb: it must be more than nothing.")
            if deck.distance(PlanPoint(at)) > EDGE:
                raise TracingError(
                    f"{feet_inches(at[0])}, {feet_inches(at[1])} is not on the deck: stand inside its outline."
                )
            return Pieces(np.array([nearest_on_deck(layout, at)]), np.array([pounds]))
        case Crowd(corners, psf):
            area = Polygon(corners).buffer(0) if len(corners) > 2 else Polygon()
            places, sizes = _cut(deck.intersection(area))
            return _some(Pieces(places, sizes / 144 * psf), "crowd")
        case Drift(edge, psf, width):
            start, end = _edge(layout, edge)
            band, far = _band(start, end, width, deck)
            places, sizes = _cut(deck.intersection(band))
            depth = psf * np.maximum(0.0, 1 - far(places) / width)
            return _some(Pieces(places, sizes / 144 * depth), "drift")


def _edge(layout: Layout, number: int) -> tuple[Vector, Vector]:
    outline = layout.project.platform.outline
    if not 1 <= number <= len(outline):
        raise TracingError(f"The outline has {len(outline)} edges, and none with the number {number}.")
    return outline[number - 1], outline[number % len(outline)]


def _some(pieces: Pieces, name: str) -> Pieces:
    if not len(pieces.pounds) or not pieces.total > 0:
        raise TracingError(f"The {name} lies nowhere on the deck, or weighs nothing.")
    return pieces


def _cut(area: Polygon) -> tuple[Array, Array]:
    """Centres and sizes (sq in) of the pieces of an area, cut by a square grid."""
    if area.is_empty or area.area < _TINY:
        return np.empty((0, 2)), np.empty(0)
    west, south, east, north = area.bounds
    xs = np.linspace(west, east, max(1, math.ceil((east - west) / PIECE)) + 1)
    ys = np.linspace(south, north, max(1, math.ceil((north - south) / PIECE)) + 1)
    squares = np.array([box(a, c, b, d) for a, b in pairwise(xs) for c, d in pairwise(ys)])
    parts = shapely.intersection(squares, area)
    sizes = shapely.area(parts)
    centres = shapely.get_coordinates(shapely.centroid(parts[sizes > _TINY]))
    return centres, sizes[sizes > _TINY]


def _band(
    start: Vector, end: Vector, width: float, deck: Polygon
) -> tuple[Polygon, Callable[[Array], Array]]:
    """Strip of ``width`` along an edge on the deck's side, and the distance of places from the edge."""
    if not width > 0:
        raise TracingError("The drift has no width: give the distance from the edge at which it ends.")
    length = math.dist(start, end)
    u = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    n = (-u[1], u[0])

    def strip(side: float) -> Polygon:
        out = (n[0] * side * width, n[1] * side * width)
        return Polygon(
            [start, end, (end[0] + out[0], end[1] + out[1]), (start[0] + out[0], start[1] + out[1])]
        )

    def far(places: Array) -> Array:
        return np.asarray(np.abs((places - np.array(start)) @ np.array(n)))

    return max((strip(1.0), strip(-1.0)), key=lambda s: deck.intersection(s).area), far
