"""Straight lines in plan: points along them, distances from them, where they cross. Inches."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

Vector = tuple[float, float]

_PARALLEL = 1e-6  # sine of the angle under which two lines do not cross


def evenly(a: float, b: float, count: int) -> list[float]:
    """Both ends of a stretch and the places that cut it in ``count`` equal parts.

    >>> evenly(0.0, 12.0, 3)
    [0.0, 4.0, 8.0, 12.0]
    """
    step = (b - a) / count
    return [*(a + i * step for i in range(count)), b]


def apart(places: Iterable[float], close: float) -> list[float]:
    """Places in order of which none are ``close``: of those that are, the middle; the first and the last stay.

    The same from both sides, so that nothing hangs on the way in which a member runs.

    >>> apart([0.0, 6.0, 6.02, 12.0, 11.98], 0.05)
    [0.0, 6.01, 12.0]
    """
    groups: list[list[float]] = []
    for place in sorted(places):
        if groups and place - groups[-1][-1] <= close:
            groups[-1].append(place)
        else:
            groups.append([place])
    if len(groups) < 2:
        return [(group[0] + group[-1]) / 2 for group in groups]
    inner = [group[0] if len(group) == 1 else (group[0] + group[-1]) / 2 for group in groups[1:-1]]
    return [groups[0][0], *inner, groups[-1][-1]]


@dataclass(frozen=True)
class Line:
    """A straight line in plan from ``start``, ``length`` long in the direction ``u``."""

    start: Vector
    u: Vector
    length: float

    @classmethod
    def between(cls, start: Vector, end: Vector) -> Line:
        """Line from one point to another."""
        dx, dy = end[0] - start[0], end[1] - start[1]
        length = math.hypot(dx, dy)
        return cls(start, (dx / length, dy / length), length)

    def at(self, s: float) -> Vector:
        """Point ``s`` along the line."""
        return (self.start[0] + s * self.u[0], self.start[1] + s * self.u[1])

    @cached_property
    def end(self) -> Vector:
        """Far end."""
        return self.at(self.length)

    def along(self, point: Vector) -> float:
        """Distance along the line of the foot of the perpendicular from ``point``."""
        return (point[0] - self.start[0]) * self.u[0] + (point[1] - self.start[1]) * self.u[1]

    def off(self, point: Vector) -> float:
        """Perpendicular distance of ``point`` from the line, unsigned."""
        return abs((point[0] - self.start[0]) * self.u[1] - (point[1] - self.start[1]) * self.u[0])

    def nearest(self, point: Vector) -> float:
        """Distance along the line of its place nearest to ``point``, between its ends."""
        s = self.along(point)
        return 0.0 if s < 0.0 else min(s, self.length)

    def distance(self, point: Vector) -> float:
        """Distance of ``point`` from the nearest place of the line."""
        return math.dist(self.at(self.nearest(point)), point)

    def sine(self, other: Line) -> float:
        """Sine of the angle between this line and another, unsigned."""
        return abs(self.u[0] * other.u[1] - self.u[1] * other.u[0])

    def crossing(self, other: Line) -> tuple[float, float] | None:
        """Distances along this and the other line at which they cross; None when they are parallel."""
        cross = self.u[0] * other.u[1] - self.u[1] * other.u[0]
        if abs(cross) < _PARALLEL:
            return None
        dx, dy = other.start[0] - self.start[0], other.start[1] - self.start[1]
        return (
            (dx * other.u[1] - dy * other.u[0]) / cross,
            (dx * self.u[1] - dy * self.u[0]) / cross,
        )
