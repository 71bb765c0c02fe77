"""Chains of dimensions: point to point on one line, equal spaces written as one."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from bolewright.drawings.measures import Measures
from bolewright.rendering.drawing import Dimension, Item, Point

_SAME = 1 / 64  # in: spaces that differ by less are one spacing


def chain(points: Sequence[Point], measures: Measures, offset: float) -> list[Item]:
    """Dimension from each point to the next; ``offset`` in paper millimetres, to the left of the way."""
    return [
        Dimension(a, b, measures.length(math.dist(a, b)), offset)
        for a, b in pairwise(points)
        if math.dist(a, b) > _SAME
    ]


def levels_chain(x: float, levels: Sequence[float], measures: Measures, offset: float) -> list[Item]:
    """Upright dimensions between levels, from below, their words level beside the line."""
    return [
        Dimension((x, a), (x, b), measures.length(b - a), offset, flat=True)
        for a, b in pairwise(sorted(levels))
        if b - a > _SAME
    ]


def spaced_chain(points: Sequence[Point], measures: Measures, offset: float) -> list[Item]:
    """The same, with three equal spaces and more in one: ``7 at 1' 4" = 9' 4"``."""
    items: list[Item] = []
    start = 0
    while start < len(points) - 1:
        first = math.dist(points[start], points[start + 1])
        end = start + 1
        while end < len(points) - 1 and abs(math.dist(points[end], points[end + 1]) - first) < _SAME:
            end += 1
        if end - start < 3:
            items += chain(points[start : start + 2], measures, offset)
            start += 1
            continue
        whole = math.dist(points[start], points[end])
        words = f"{end - start} at {measures.length(first)} = {measures.length(whole)}"
        items.append(Dimension(points[start], points[end], words, offset))
        start = end
    return items
