"""Tapes across a rectangle of strings that prove it square, past every trunk."""

from __future__ import annotations

import math
from collections.abc import Sequence

from numpy import sqrt

from bolewright.formulas import formula
from bolewright.platform.layout.layout import Layout, Line, Vector
from bolewright.setting_out.tolerance import Allowed, Closing
from bolewright.setting_out.trunk import girth_of
from bolewright.units import Length

TAPE_CLEAR = 3.0  # in: a tape passes a trunk this far from the bark, or not at all
STEP = 6.0  # in: marks, working line and setback in half feet

Spot = tuple[str, Vector]


@formula("Geometry (rectangle)")
def rectangle_diagonal(w: Length, h: Length) -> Length:
    """Diagonal of a rectangle; when both come out so, its corners are square.

    Parameters: w and h sides (in). Returns: d (in). Source: Pythagoras.

    >>> float(rectangle_diagonal(84.0, 112.0))
    140.0
    """
    d: Length = sqrt(w**2 + h**2)
    return d


def tape_is_clear(layout: Layout, start: Vector, end: Vector) -> bool:
    """Whether a tape between two points on the ground passes every trunk."""
    if math.dist(start, end) < 1e-6:
        return True
    line = Line.between(start, end)
    return all(
        line.distance(tree.at) >= girth_of(tree) / (2 * math.pi) + TAPE_CLEAR for tree in layout.project.trees
    )


def squaring(
    layout: Layout, corners: Sequence[Vector], width: float, height: float
) -> tuple[tuple[Closing, ...], tuple[Spot, ...]]:
    """Both diagonals; where a trunk stands in them, tapes from each corner to a mark on the string opposite, in pairs.

    The marks, a to d, are given with the places they have.
    """
    one, two, three, four = corners
    if tape_is_clear(layout, one, three) and tape_is_clear(layout, two, four):
        across = float(rectangle_diagonal(w=width, h=height))
        both = (
            Closing("Corner 1 to corner 3, diagonal", across, Allowed.DIAGONAL.value, (one, three)),
            Closing("Corner 2 to corner 4, the other diagonal", across, Allowed.DIAGONAL.value, (two, four)),
        )
        return both, ()
    found: list[Closing] = []
    marks: list[Spot] = []
    for (a, b, c, d), names in (((0, 1, 2, 3), "ab"), ((2, 3, 0, 1), "cd")):
        ends = [corners[i] for i in (a, b, c, d)]
        q = _clear_mark(layout, ends, height)
        if q is None:
            continue
        across = float(rectangle_diagonal(w=width, h=q))
        spots = (Line.between(ends[1], ends[2]).at(q), Line.between(ends[0], ends[3]).at(q))
        for start, spot, name in ((a, spots[0], names[0]), (b, spots[1], names[1])):
            marks.append((f"mark {name}", spot))
            what = f"Corner {start + 1} to mark {name}; it equals its fellow"
            found.append(Closing(what, across, Allowed.DIAGONAL.value, (corners[start], spot)))
    return tuple(found), tuple(marks)


def _clear_mark(layout: Layout, corners: list[Vector], height: float) -> float | None:
    """Farthest mark up both sides, in half feet, to which tapes from the corners opposite pass every trunk."""
    a, b, c, d = corners
    q = math.floor(height / STEP) * STEP
    while q >= STEP:
        right, left = Line.between(b, c).at(q), Line.between(a, d).at(q)
        if tape_is_clear(layout, a, right) and tape_is_clear(layout, b, left):
            return q
        q -= STEP
    return None
