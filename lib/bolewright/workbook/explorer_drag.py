"""What a drag on the explorer's plan means for a crowd and for a snow drift."""

from __future__ import annotations

from bolewright.platform.layout.lines import Line, Vector
from bolewright.platform.layout.parts import Layout

Rectangle = tuple[float, float, float, float]

_LEAST = 6.0  # in: a drag shorter than this draws no crowd, it is a click


def dragged_crowd(layout: Layout, held: Rectangle | None, press: Vector, at: Vector) -> Rectangle:
    """The crowd after a drag from ``press`` to ``at``; ``held`` is where it was when the drag began.

    Taken inside it goes along; from beside it a drag draws it anew, and a click brings its middle there. Its middle
    stays over the deck.
    """
    west, south, east, north = layout.deck.bounds
    if held is None:
        held = (west, south, east, north)
    left, right = sorted((held[0], held[2]))
    low, high = sorted((held[1], held[3]))
    if left <= press[0] <= right and low <= press[1] <= high:
        return _brought(layout, (left, low, right, high), (at[0] - press[0], at[1] - press[1]))
    if abs(at[0] - press[0]) >= _LEAST and abs(at[1] - press[1]) >= _LEAST:
        xs, ys = sorted((press[0], at[0])), sorted((press[1], at[1]))
        drawn = (max(xs[0], west), max(ys[0], south), min(xs[1], east), min(ys[1], north))
        if drawn[2] - drawn[0] >= _LEAST and drawn[3] - drawn[1] >= _LEAST:
            return drawn
    by = (at[0] - (left + right) / 2, at[1] - (low + high) / 2)
    return _brought(layout, (left, low, right, high), by)


def _brought(layout: Layout, crowd: Rectangle, by: Vector) -> Rectangle:
    west, south, east, north = layout.deck.bounds
    half_x, half_y = (crowd[2] - crowd[0]) / 2, (crowd[3] - crowd[1]) / 2
    x = min(max(crowd[0] + half_x + by[0], west), east)
    y = min(max(crowd[1] + half_y + by[1], south), north)
    return (x - half_x, y - half_y, x + half_x, y + half_y)


def dragged_drift(layout: Layout, press: Vector, at: Vector) -> tuple[int, float | None]:
    """The edge nearest to where it was pressed, and how far from it the drag reaches; None for a click."""
    outline = layout.project.platform.outline
    edges = [Line.between(a, b) for a, b in zip(outline, (*outline[1:], outline[0]), strict=True)]
    number = min(range(len(edges)), key=lambda i: edges[i].distance(press))
    moved = abs(at[0] - press[0]) + abs(at[1] - press[1]) >= _LEAST
    return number + 1, max(edges[number].off(at), _LEAST) if moved else None
