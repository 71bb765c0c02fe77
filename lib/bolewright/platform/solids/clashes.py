"""Pieces in the place of each other, found by their bodies."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import MultiPoint, MultiPolygon, Polygon
from shapely import Point as PlanPoint

from bolewright.mechanics.convex import depth_of_overlap
from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.outlines import trunk_outline
from bolewright.platform.project import Brace
from bolewright.platform.solids.access_bodies import access_bodies
from bolewright.platform.solids.bodies import ACCESS, Body, BodyKind, bodies_of, brace_profile

# Two places are each given to 1/16 in. on a tape, and levels meet within 1/8 in. (STEP): together 1/4 in. As much is
# planed, shimmed or driven home on the job; more has to be cut, and a cut has to be on paper.
TOLERANCE = 0.25  # in
# The tip of a lapped brace's square end may stand above the beam by this much: it is cut off flush, without coming near
# the bolts on the brace's middle line (common practice).
TIP = 0.5  # in
# The head of stairs or of a ladder is scribed round a beam that stands out under the framing it hangs on: by no more
# than this, which leaves its end whole where it hangs (common practice).
SCRIBED = 1.0  # in
_FRAMING = (BodyKind.JOIST, BodyKind.BLOCKING, BodyKind.BEAM)


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

    Not looked at: hardware thinner than the tolerance, such as straps, hangers and bolts of braces; rails of guards.
    """
    bodies = (*bodies_of(layout), *access_bodies(layout))
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
                if depth > _allowed(other, body):
                    yield Clash(other, body, depth)


def _allowed(one: Body, other: Body) -> float:
    """How far two bodies may lie in each other (in)."""
    head = (one.kind in ACCESS and other.kind in _FRAMING) or (other.kind in ACCESS and one.kind in _FRAMING)
    return SCRIBED if head else TOLERANCE


def _share_by_nature(one: Body, other: Body) -> bool:
    """Whether two bodies are one piece, or one stands in the other as a post in its concrete, a bolt in its trunk."""
    return one.mark == other.mark or other.mark in one.within or one.mark in other.within


def _in_the_deck(layout: Layout, bodies: Sequence[Body]) -> Iterator[Clash]:
    """What stands up through the boards, and trunks for which the deck has no opening, or too small a one."""
    decking = Body("decking", BodyKind.DECKING, ())
    under = layout.under_deck
    for body in bodies:
        if (
            body.kind is BodyKind.TRUNK or body.kind in ACCESS
        ):  # the boards are cut round the head of a way up
            continue
        over = float(body.convex.high[2]) - under
        if over > TOLERANCE:
            plan = MultiPoint(body.convex.points[:, :2]).convex_hull.buffer(-TOLERANCE)
            if plan.intersects(layout.deck):
                yield Clash(body, decking, over)
    for tree in layout.project.trees:
        trunk = trunk_outline(layout.project, tree)
        depth = _reach(trunk, layout.deck)
        if depth > TOLERANCE:
            yield Clash(Body(tree.mark, BodyKind.TRUNK, ()), decking, depth)


def _reach(trunk: Polygon, deck: Polygon) -> float:
    """How far a deck reaches into the outline of a trunk, from its bark."""
    parts = [
        part for part in shapely.get_parts(trunk.intersection(deck)) if part.area > 0
    ]  # not where they touch
    if not parts:
        return 0.0
    shared = MultiPolygon(parts)
    edge = shapely.get_coordinates(shapely.segmentize(shared, 1.0))
    # where no edge of the deck lies in it at all
    widest = float(shapely.maximum_inscribed_circle(shared).length)
    return max(widest, *(float(trunk.exterior.distance(PlanPoint(at))) for at in edge))


def above_beam(layout: Layout, brace: Brace) -> float:
    """How far the upper end of a knee brace stands above its beam's top (in); 0 where it stays below."""
    top = max(z for _, z in brace_profile(layout, brace))
    return max(0.0, top - layout.member(brace.beam).top)
