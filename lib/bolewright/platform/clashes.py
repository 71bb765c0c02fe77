"""Pieces in the place of each other, found by their bodies."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import MultiPoint, MultiPolygon, Polygon
from shapely import Point as PlanPoint

from bolewright.mechanics.convex import depth_of_overlap
from bolewright.platform.bodies import Body, BodyKind, bodies_of, brace_profile
from bolewright.platform.layout import Layout
from bolewright.platform.outlines import stem_outline
from bolewright.platform.project import Brace

# Two places are each given to 1/16 in. on a tape, and levels meet within 1/8 in. (STEP): together 1/4 in. As much is
# planed, shimmed or driven home on the job; more has to be cut, and a cut has to be on paper.
TOLERANCE = 0.25  # in
# The tip of a lapped brace's square end may stand above the beam by this much: it is cut off flush, without coming near
# the bolts on the brace's middle line (common practice).
TIP = 0.5  # in


@dataclass(frozen=True)
class Clash:
    """Two pieces of which one lies in the place of the other, by how much it would have to move (in)."""

    piece: Body
    other: Body
    depth: float

    @property
    def sentence(self) -> str:
        """What is wrong, with both pieces named."""
        return f"{self.piece.name} lies in the place of {self.other.name}"


def clashes(layout: Layout) -> tuple[Clash, ...]:
    """Every two pieces that share more of one place than the tolerance, each two marks once, the deepest first.

    Not looked at: hardware thinner than the tolerance, such as straps, hangers and bolts of braces.
    """
    bodies = bodies_of(layout)
    found: dict[tuple[str, str], Clash] = {}
    for clash in (*_overlaps(bodies), *_in_the_deck(layout, bodies)):
        key = (clash.piece.mark, clash.other.mark)
        if key not in found or clash.depth > found[key].depth:
            found[key] = clash
    return tuple(sorted(found.values(), key=lambda clash: -clash.depth))


def _overlaps(bodies: Sequence[Body]) -> Iterator[Clash]:
    low = np.array([body.convex.low for body in bodies])
    high = np.array([body.convex.high for body in bodies])
    for i, body in enumerate(bodies):
        shared = np.minimum(high[i + 1 :], high[i]) - np.maximum(low[i + 1 :], low[i])
        for j in np.nonzero((shared > TOLERANCE).all(axis=1))[0]:
            other = bodies[i + 1 + int(j)]
            if not _share_by_nature(body, other):
                depth = depth_of_overlap(body.convex, other.convex)
                if depth > TOLERANCE:
                    yield Clash(other, body, depth)


def _share_by_nature(one: Body, other: Body) -> bool:
    """Whether two bodies are one piece, or one stands in the other as a post in its concrete, a bolt in its trunk."""
    return one.mark == other.mark or other.mark in one.within or one.mark in other.within


def _in_the_deck(layout: Layout, bodies: Sequence[Body]) -> Iterator[Clash]:
    """What stands up through the boards, and trunks for which the deck has no opening, or too small a one."""
    decking = Body("decking", BodyKind.DECKING, ())
    under = layout.under_deck
    for body in bodies:
        if body.kind is BodyKind.STEM:
            continue
        over = float(body.convex.high[2]) - under
        if over > TOLERANCE:
            plan = MultiPoint(body.convex.points[:, :2]).convex_hull.buffer(-TOLERANCE)
            if plan.intersects(layout.deck):
                yield Clash(body, decking, over)
    for tree in layout.project.trees:
        stem = stem_outline(layout.project, tree)
        depth = _reach(stem, layout.deck)
        if depth > TOLERANCE:
            yield Clash(Body(tree.mark, BodyKind.STEM, ()), decking, depth)


def _reach(stem: Polygon, deck: Polygon) -> float:
    """How far a deck reaches into the outline of a trunk, from its bark."""
    parts = [
        part for part in shapely.get_parts(stem.intersection(deck)) if part.area > 0
    ]  # not where they touch
    if not parts:
        return 0.0
    shared = MultiPolygon(parts)
    edge = shapely.get_coordinates(shapely.segmentize(shared, 1.0))
    # where no edge of the deck lies in it at all
    widest = float(shapely.maximum_inscribed_circle(shared).length)
    return max(widest, *(float(stem.exterior.distance(PlanPoint(at))) for at in edge))


def above_beam(layout: Layout, brace: Brace) -> float:
    """How far the upper end of a knee brace stands above its beam's top (in); 0 where it stays below."""
    top = max(z for _, z in brace_profile(layout, brace))
    return max(0.0, top - layout.member(brace.carrier).top)
