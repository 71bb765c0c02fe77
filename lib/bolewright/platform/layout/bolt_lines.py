"""Lines of tree bolts in plan: straight at the trunk's axis, or parallel holes that pass it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.platform.layout.lines import Vector
from bolewright.platform.project import Support, Tree

RADIAL = 1e-6  # in: a line this near to the axis points at it


@dataclass(frozen=True)
class BoltLine:
    """Line of a bolt seen from the trunk's axis.

    ``u`` points out of the trunk; the bearing lies ``y`` along it and the line ``a`` to its left (in).
    """

    u: Vector
    a: float
    y: float

    @property
    def beside(self) -> float:
        """Distance of the line from the trunk's axis (in)."""
        return abs(self.a)

    def point(self, tree: Tree, y: float) -> Vector:
        """Point on the line, ``y`` out from beside the axis, in plan."""
        (ux, uy), (x, z) = self.u, tree.at
        return (x + y * ux - self.a * uy, z + y * uy + self.a * ux)


def bolt_line(support: Support, tree: Tree) -> BoltLine:
    """Line of a tree bolt: as its direction says, or straight from the axis through its bearing."""
    dx, dy = support.at[0] - tree.at[0], support.at[1] - tree.at[1]
    if support.direction is None:
        y = math.dist(support.at, tree.at)
        return BoltLine((dx / y, dy / y) if y else (1.0, 0.0), 0.0, y)
    bored = math.radians(support.direction)
    u = (round(-math.cos(bored), 15), round(-math.sin(bored), 15))
    a = u[0] * dy - u[1] * dx
    return BoltLine(u, a if abs(a) > RADIAL else 0.0, u[0] * dx + u[1] * dy)
