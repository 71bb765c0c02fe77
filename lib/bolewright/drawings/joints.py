"""What all details of joints share: how much of a part they show, boxes, and the joints between plies."""

from __future__ import annotations

from bolewright.rendering.drawing import Item, Layer, Line, Point

STUB = 16.0  # in: length of joist, beam or post that a detail shows
PLATE = 0.15  # in: thickness a steel plate is drawn with
NEAR = 5.0  # mm


def box(left: float, low: float, right: float, high: float) -> tuple[Point, ...]:
    """Corners of an upright rectangle."""
    return ((left, low), (right, low), (right, high), (left, high))


def plies(left: float, low: float, right: float, high: float, count: int) -> list[Item]:
    """Joints between the plies of a member that is cut across."""
    step = (right - left) / count
    return [Line((left + k * step, low), (left + k * step, high), Layer.BEAMS) for k in range(1, count)]
