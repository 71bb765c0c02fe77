"""Lines of the plan that setting out starts from: the base line of the bolts, and the way a trunk faces."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

from bolewright.platform.layout.layout import Layout, Line, Vector
from bolewright.platform.project import Support, Tree
from bolewright.platform.project.bearing import SupportKind


@dataclass(frozen=True)
class BaseLine:
    """Line between the bearing points that all is measured from, posts on its left, looking from A to B."""

    a: str
    b: str
    line: Line

    def offsets(self, point: Vector) -> tuple[float, float]:
        """Distance of a point along the line from A, and square off it (positive on the posts' side)."""
        dx, dy = point[0] - self.line.start[0], point[1] - self.line.start[1]
        u = self.line.u
        return dx * u[0] + dy * u[1], dy * u[0] - dx * u[1]

    def point(self, s: float, o: float) -> Vector:
        """Plan point of a distance along the line and an offset."""
        x, y = self.line.at(s)
        return (x - o * self.line.u[1], y + o * self.line.u[0])


def posts_of(layout: Layout) -> tuple[Support, ...]:
    """Posts of a layout."""
    return tuple(s for s in layout.supports if s.kind == SupportKind.POST)


def base_line(layout: Layout) -> BaseLine:
    """Base line: through the two tree bolts farthest apart, or else the longest side of the figure of supports."""
    bolts = [s for s in layout.supports if s.kind == SupportKind.TREE_BOLT]
    pairs = list(combinations(bolts if len(bolts) > 1 else layout.supports, 2))
    if len(bolts) < 2:
        pairs = [pair for pair in pairs if _is_side(pair, layout.supports)] or pairs
    a, b = max(pairs, key=lambda pair: round(math.dist(pair[0].at, pair[1].at), 6))
    base = BaseLine(a.mark, b.mark, Line.between(a.at, b.at))
    others = posts_of(layout) or layout.supports
    if sum(base.offsets(s.at)[1] for s in others) < 0:
        base = BaseLine(b.mark, a.mark, Line.between(b.at, a.at))
    return base


def _is_side(pair: tuple[Support, Support], supports: tuple[Support, ...]) -> bool:
    """Whether all supports lie on one side of the line through two of them."""
    base = BaseLine(pair[0].mark, pair[1].mark, Line.between(pair[0].at, pair[1].at))
    offsets = [base.offsets(s.at)[1] for s in supports]
    return min(offsets) > -1.0 or max(offsets) < 1.0


def post_line(layout: Layout) -> Line | None:
    """Line through the two posts farthest apart; None with fewer than two."""
    posts = posts_of(layout)
    if len(posts) < 2:
        return None
    a, b = max(combinations(posts, 2), key=lambda pair: round(math.dist(pair[0].at, pair[1].at), 6))
    return Line.between(a.at, b.at)


def facing(layout: Layout, tree: Tree) -> Vector:
    """Unit vector from a trunk's axis to its front: square to the post line, or else towards the other supports."""
    line = post_line(layout)
    if line is not None and line.off(tree.at) > 1.0:
        s = line.along(tree.at)
        x, y = line.at(s)
        target = (x, y)
    else:
        others = [s.at for s in layout.supports if s.tree != tree.mark] or [s.at for s in layout.supports]
        target = (sum(x for x, _ in others) / len(others), sum(y for _, y in others) / len(others))
    dx, dy = target[0] - tree.at[0], target[1] - tree.at[1]
    length = math.hypot(dx, dy)
    return (dx / length, dy / length) if length > 1e-6 else (0.0, 1.0)
