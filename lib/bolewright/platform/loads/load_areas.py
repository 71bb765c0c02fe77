"""Areas that the user draws on the deck with a load of their own: a planter, a tub, a bench where a crowd sits."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
import shapely
import shapely.geometry
from shapely import Polygon, unary_union
from shapely.geometry.base import BaseGeometry
from shapely.ops import polygonize

from bolewright.mechanics.loads import Array
from bolewright.platform.layout.parts import Layout, LayoutError
from bolewright.platform.loads.panels import Deck, Piece
from bolewright.platform.project import LoadArea, Project

KINDS = ("dead", "live", "snow")
SHOWN = 1.0  # sq in: less of an area on the deck counts as none
_GAUSS = np.polynomial.legendre.leggauss(8)
_HALVES = 24  # what is less deep counts for nothing
_NO_DEPTH = 1e-9  # in


def on_deck(layout: Layout, area: LoadArea) -> Polygon:
    """The part of an area that lies on the deck. LayoutError when there is none or its edges cross."""
    shape = Polygon(area.corners)
    if not shape.is_valid:
        raise LayoutError(f"Load area {area.mark} is no simple polygon: its edges cross, or it has no area.")
    part = shape.intersection(layout.deck)
    if part.area < SHOWN:
        raise LayoutError(
            f"Load area {area.mark} lies nowhere on the deck: move its corners inside the outline."
        )
    return part


def area_loads(layout: Layout, deck: Deck) -> dict[str, Array]:
    """Pounds of all areas at the corners (four rows) of every piece of deck, by kind."""
    loads = {kind: np.zeros((4, len(deck.pieces))) for kind in KINDS}
    for area in layout.project.load_areas:
        loads[area.kind] += pounds_of(area, layout, deck)
    return loads


def pounds_of(area: LoadArea, layout: Layout, deck: Deck) -> Array:
    """Pounds of one area at the corners (four rows) of every piece; all that lies on the deck."""
    part = on_deck(layout, area)
    found = np.zeros((4, len(deck.pieces)))
    shapes = [_shape(piece) for piece in deck.pieces]
    for i in np.flatnonzero(shapely.intersects(shapes, part)):
        for ring, sign in _rings(shapely.intersection(shapes[i], part)):
            found[:, i] += sign * _within(deck.pieces[i], ring)
    return np.asarray(found * (part.area / found.sum()) * area.load / 144, dtype=float)


def _shape(piece: Piece) -> Polygon:
    """A piece in plan; corners that fall together leave none, and edges that cross by a rounding are mended."""
    cell = piece.cell
    low, high = cell.low, cell.high
    ring = [(low, cell.below[0]), (high, cell.below[1]), (high, cell.above[1]), (low, cell.above[0])]
    corners = tuple(dict.fromkeys(piece.boards.plan(*place) for place in ring))
    shape = Polygon(corners) if len(corners) > 2 else Polygon()
    return shape if shape.is_valid else shape.buffer(0)


def _rings(shape: BaseGeometry) -> Iterator[tuple[Array, int]]:
    """Borders of a shape, counter-clockwise, with -1 for those of its holes."""
    for part in getattr(shape, "geoms", [shape]):
        if part.geom_type == "Polygon" and not part.is_empty:
            whole = shapely.geometry.polygon.orient(part)
            yield np.array(whole.exterior.coords), 1
            for hole in whole.interiors:
                yield np.array(hole.coords)[::-1], -1


def _within(piece: Piece, ring: Array) -> Array:
    """Area inside a ring on a piece, reckoned at its corners by the lever both ways.

    As an integral round the ring (Green), so that of an area cut in two the halves add up to the whole: what lies
    between the lower line and the ring, at every place ``s`` along the piece.
    """
    cell, boards = piece.cell, piece.boards
    s, t = ring @ np.array(boards.u), ring @ np.array(boards.n)
    along = (s - cell.low) / (cell.high - cell.low)
    below = cell.below[0] + along * (cell.below[1] - cell.below[0])
    depth = cell.above[0] + along * (cell.above[1] - cell.above[0]) - below
    found = np.zeros(4)
    for i in range(len(s) - 1):
        two = slice(i, i + 2)
        f, weight = _stations(*np.maximum(depth[two], 0.0))
        d, up, at = (v[i] + f * (v[i + 1] - v[i]) for v in (depth, t - below, along))
        upper = up**2 / (2 * np.maximum(d, _NO_DEPTH))
        parts = np.array([(1 - at) * (up - upper), (1 - at) * upper, at * (up - upper), at * upper])
        found -= parts @ (weight * (s[i + 1] - s[i]))
    return found


def _stations(one: float, other: float) -> tuple[Array, Array]:
    """Places along a side of a ring between two depths of the piece, and their weights.

    The depth halves at most from cut to cut, so that Gauss's rule is good to twelve digits between them.
    """
    high, low = max(one, other), min(one, other)
    cuts = np.array([0.0, 1.0])
    if high - low > _NO_DEPTH:
        halves = math.ceil(math.log2(high / max(low, high * 2.0**-_HALVES)))
        depths = np.array([high * 0.5**k for k in range(max(halves, 1))] + [low])
        cuts = np.sort((depths - one) / (other - one))
    middle, half = (cuts[1:] + cuts[:-1]) / 2, (cuts[1:] - cuts[:-1]) / 2
    places = middle[:, None] + half[:, None] * _GAUSS[0]
    return places.ravel(), (half[:, None] * _GAUSS[1]).ravel()


def heaviest(project: Project, kind: str) -> float:
    """Greatest load of a kind that areas bring to any place (psf): the sum of those that lie over each other there."""
    found = [(Polygon(a.corners), a.load) for a in project.load_areas if a.kind == kind]
    borders = unary_union([shape.exterior for shape, _ in found])
    places = [piece.representative_point() for piece in polygonize(borders) if piece.area >= SHOWN]
    return max((sum(q for shape, q in found if shape.contains(place)) for place in places), default=0.0)
