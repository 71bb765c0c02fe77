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
from bolewright.platform.panels import Deck, Piece
from bolewright.platform.parts import Layout, LayoutError
from bolewright.platform.project import LoadArea, Project

KINDS = ("dead", "live", "snow")
SHOWN = 1.0  # sq in: less of an area on the deck counts as none


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
    """Area inside a ring on a piece, reckoned at its corners by the lever both ways: exact to the fifth power."""
    cell, boards = piece.cell, piece.boards
    s, t = ring @ np.array(boards.u), ring @ np.array(boards.n)
    one = np.stack([s - s[0], t - t[0]])
    a, b = one[:, 1:-1], one[:, 2:]
    twice = a[0] * b[1] - a[1] * b[0]
    found = np.zeros(4)
    for (f, g), weight in _SEVEN:
        x, y = s[0] + f * a[0] + g * b[0], t[0] + f * a[1] + g * b[1]
        along = (x - cell.low) / (cell.high - cell.low)
        below = cell.below[0] + along * (cell.below[1] - cell.below[0])
        above = cell.above[0] + along * (cell.above[1] - cell.above[0])
        depth = above - below
        deep = np.where(depth > 1e-9, (y - below) / np.where(depth > 1e-9, depth, 1.0), 0.5)
        parts = np.array([(1 - along) * (1 - deep), (1 - along) * deep, along * (1 - deep), along * deep])
        found += parts @ (weight * twice / 2)
    return found


def _seven() -> tuple[tuple[tuple[float, float], float], ...]:
    """Places in a triangle, as parts of two of its sides, and weights: Radon's seven, exact to the fifth power."""
    root = math.sqrt(15)
    found = [((1 / 3, 1 / 3), 9 / 40)]
    for sign in (-1, 1):
        near, weight = (6 + sign * root) / 21, (155 + sign * root) / 1200
        far = 1 - 2 * near
        found += [((near, near), weight), ((near, far), weight), ((far, near), weight)]
    return tuple(found)


_SEVEN = _seven()


def heaviest(project: Project, kind: str) -> float:
    """Greatest load of a kind that areas bring to any place (psf): the sum of those that lie over each other there."""
    found = [(Polygon(a.corners), a.load) for a in project.load_areas if a.kind == kind]
    borders = unary_union([shape.exterior for shape, _ in found])
    places = [piece.representative_point() for piece in polygonize(borders) if piece.area >= SHOWN]
    return max((sum(q for shape, q in found if shape.contains(place)) for place in places), default=0.0)
