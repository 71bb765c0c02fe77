"""Chains of dimensions: point to point on one line, equal spaces written as one.

The words of a chain are differences of rounded places along it, never rounded spaces: so they add up, to the sixteenth
or millimetre, to the words of the whole. Places count from the chain's first point, or from an origin that several
chains share; levels count from grade.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import accumulate, pairwise

from bolewright.drawings.measures import Measures
from bolewright.rendering.drawing import Dimension, Item, Point

_SAME = 1 / 64  # in: spaces that differ by less are one spacing


def rounded_places(points: Sequence[Point], measures: Measures, origin: Point | None = None) -> list[float]:
    """Places of points along their chain from ``origin`` (in), each to the nearest that its words can say.

    >>> [16 * place for place in rounded_places([(0.0, 0.0), (0.04, 0.0), (0.08, 0.0)], Measures.IMPERIAL)]
    [0.0, 1.0, 1.0]
    """
    (x, y), end = points[0], points[-1]
    length = math.dist(points[0], end)
    before = 0.0
    if origin is not None and length > 0:
        before = ((x - origin[0]) * (end[0] - x) + (y - origin[1]) * (end[1] - y)) / length
    spaces = (math.dist(a, b) for a, b in pairwise(points))
    return [measures.rounded(place) for place in accumulate(spaces, initial=before)]


def chain(
    points: Sequence[Point], measures: Measures, offset: float, origin: Point | None = None
) -> list[Item]:
    """Dimension from each point to the next; ``offset`` in paper millimetres, to the left of the way."""
    places = rounded_places(points, measures, origin)
    return [
        Dimension(a, b, measures.length(q - p), offset)
        for (a, b), (p, q) in zip(pairwise(points), pairwise(places), strict=True)
        if math.dist(a, b) > _SAME
    ]


def levels_chain(x: float, levels: Sequence[float], measures: Measures, offset: float) -> list[Item]:
    """Upright dimensions between levels, from below, their words level beside the line."""
    ordered = sorted(levels)
    places = [measures.rounded(level) for level in ordered]
    return [
        Dimension((x, a), (x, b), measures.length(q - p), offset, flat=True)
        for (a, b), (p, q) in zip(pairwise(ordered), pairwise(places), strict=True)
        if b - a > _SAME
    ]


def spaced_chain(
    points: Sequence[Point], measures: Measures, offset: float, origin: Point | None = None
) -> list[Item]:
    """The same, with three equal spaces and more in one: ``7 at 1' 4" = 9' 4"``.

    Where the rounded space times their number is not the whole, only the whole is written: ``7 equal = 9' 4 1/4"``.
    """
    items: list[Item] = []
    places = rounded_places(points, measures, origin)
    start = 0
    while start < len(points) - 1:
        first = math.dist(points[start], points[start + 1])
        end = start + 1
        while end < len(points) - 1 and abs(math.dist(points[end], points[end + 1]) - first) < _SAME:
            end += 1
        if end - start < 3:
            end = start + 1
        whole, count = places[end] - places[start], end - start
        words = measures.length(whole)
        if count > 1:
            exact = abs(count * measures.rounded(first) - whole) < 1e-6
            words = f"{count} at {measures.length(first)} = {words}" if exact else f"{count} equal = {words}"
        if math.dist(points[start], points[end]) > _SAME:
            items.append(Dimension(points[start], points[end], words, offset))
        start = end
    return items
