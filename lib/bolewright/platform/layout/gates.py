"""Gates as they stand: their leaf, the post that they hang on, the post that they close to, what they weigh."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.platform.layout.guard_sizes import baluster_places
from bolewright.platform.layout.guard_ways import SPHERE, Way, gate_way
from bolewright.platform.layout.guards import GuardPost, GuardRun, find_guards, height_of
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.wood_weight import timber_density
from bolewright.platform.project import Gate, Guard
from bolewright.timber.sections import parse_section


@dataclass(frozen=True)
class GateAt:
    """A gate where it stands: its way, the guard on its edge, and the posts beside it that are near enough to it."""

    gate: Gate
    way: Way
    guard: Guard | None
    hung_on: GuardPost | None
    closes_to: GuardPost | None
    hung_run: GuardRun | None

    @property
    def leaf(self) -> float:
        """Width of the leaf (in)."""
        return self.gate.width - 2 * self.gate.side_gap

    def face_to_leaf(self, post: GuardPost) -> float:
        """Clear distance from a post's face to the leaf (in): the guard's end between them, and the gap."""
        place = self.way.low if post.along < (self.way.low + self.way.high) / 2 else self.way.high
        return max(0.0, abs(post.along - place) - post.section.b / 2) + self.gate.side_gap

    @property
    def arm(self) -> float:
        """Twice the distance from the middle of the post that it hangs on to its leaf (in)."""
        if self.hung_on is None:
            return 0.0
        return self.hung_on.section.b + 2 * self.face_to_leaf(self.hung_on)

    def gap_beside(self, post: GuardPost) -> float:
        """Widest clear gap between a post and the leaf (in): balusters past the post count, rails do not.

        Cables and ropes end at the post; boards, mesh and panels run on with the rails.
        """
        guard, beside = post.guard, self.face_to_leaf(post) - self.gate.side_gap
        if guard.infill in ("cable", "rope"):
            return self.face_to_leaf(post)
        if guard.infill != "balusters":
            return self.gate.side_gap
        count = len(baluster_places(guard, 0.0, beside))
        return (beside - count * parse_section(guard.baluster).b) / (count + 1) + self.gate.side_gap


def find_gates(layout: Layout) -> tuple[GateAt, ...]:
    """All gates of a layout."""
    return tuple(_find(layout, gate) for gate in layout.project.gates)


def _find(layout: Layout, gate: Gate) -> GateAt:
    way = gate_way(layout.project, gate)
    runs = [r for r in find_guards(layout) if r.edge == gate.edge and r.guard.opening is None]
    before = [r for r in runs if r.start + r.line.length <= way.low + SPHERE and r.posts]
    after = [r for r in runs if r.start >= way.high - SPHERE and r.posts]
    first = max(before, key=lambda r: r.start, default=None)
    last = min(after, key=lambda r: r.start, default=None)
    start = _near(first.posts[-1], way.low) if first else None
    end = _near(last.posts[0], way.high) if last else None
    hung, other = (start, end) if gate.hung == "start" else (end, start)
    run = first if gate.hung == "start" else last
    guard = (first or last or (runs[0] if runs else None)) if runs else None
    return GateAt(gate, way, guard.guard if guard else None, hung, other, run)


def _near(post: GuardPost, place: float) -> GuardPost | None:
    """A post whose face is less than 4 in. from the way, so that a leaf beside it leaves no gap."""
    return post if abs(post.along - place) - post.section.b / 2 < SPHERE else None


def leaf_height(layout: Layout, gate: Gate) -> float:
    """Height of the leaf (in)."""
    return height_of(layout.project) - gate.bottom_gap


def leaf_brace(layout: Layout, at: GateAt) -> float:
    """Length of its brace (in)."""
    return math.hypot(at.leaf, leaf_height(layout, at.gate))


def leaf_balusters(at: GateAt) -> int:
    """Balusters of the leaf, as its guard's; none where that is filled otherwise."""
    if at.guard is None or at.guard.infill != "balusters":
        return 0
    stile = parse_section(at.gate.section).b
    return len(baluster_places(at.guard, stile, at.leaf - stile))


def leaf_weight(layout: Layout, at: GateAt) -> float:
    """Weight of the leaf: its frame, brace and infill (lb); infill that is no wood as 2 psf (common practice)."""
    gate = at.gate
    section = parse_section(gate.section)
    rho = timber_density(gate.values(section), gate.wet)
    h = leaf_height(layout, gate)
    total = rho * section.b * section.d * (2 * at.leaf + 2 * h + leaf_brace(layout, at)) / 1728
    if at.guard is not None and at.guard.infill == "balusters":
        baluster = parse_section(at.guard.baluster)
        return total + rho * baluster.b * baluster.d * h * leaf_balusters(at) / 1728
    return total + 2.0 * at.leaf * h / 144
