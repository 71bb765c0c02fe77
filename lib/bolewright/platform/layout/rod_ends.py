"""Where the ends of crossed rods meet the middle lines of their posts, by the layout alone."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.platform.layout.layout import Layout, Vector
from bolewright.platform.project import CrossedRods


@dataclass(frozen=True)
class RodEnds:
    """One of two crossed rods: its posts and where it meets their middle lines (in plan, and in above grade)."""

    head_post: str
    foot_post: str
    head: Vector
    foot: Vector
    high: float
    low: float

    @property
    def away(self) -> Vector:
        """From its foot to its head, in plan."""
        return (self.head[0] - self.foot[0], self.head[1] - self.foot[1])

    @property
    def run(self) -> float:
        """Level distance of its ends (in)."""
        return math.hypot(*self.away)


def rod_ends(layout: Layout, rods: CrossedRods) -> tuple[RodEnds, RodEnds]:
    """Both rods of a pair: the one at the head of the second post, and the one at the head of the first."""
    one, two = (next(s for s in layout.supports if s.mark == m) for m in (rods.from_post, rods.to_post))

    def ends(head: str, foot: str, at: Vector, low: Vector) -> RodEnds:
        return RodEnds(head, foot, at, low, layout.seat_level(head) - rods.below_beam, rods.above_grade)

    return ends(two.mark, one.mark, two.at, one.at), ends(one.mark, two.mark, one.at, two.at)
