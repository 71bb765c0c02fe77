"""The pieces of a platform as bodies in space: what drawings show, and what must not be in the place of another."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from shapely import Polygon

from bolewright.mechanics.convex import Convex, Face, faces_of, round_plan, turned_square, upright
from bolewright.platform.layout.bolt_lines import bolt_line
from bolewright.platform.layout.brace_bolts import brace_bolts
from bolewright.platform.layout.layout import Kind, Layout, Vector, trunk_radius
from bolewright.platform.layout.outlines import measured_outline, trunk_outline
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.layout.rod_ends import rod_ends
from bolewright.platform.layout.trunk_brace_ends import is_paired, profile
from bolewright.platform.layout.trunk_braces import trunk_braces
from bolewright.platform.project import Brace, CrossedRods, Footing, Project, Support, Tree
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.sections import parse_section

TRUNK_BELOW, TRUNK_ABOVE = 6.0, 60.0  # in: how far a trunk is shown below grade and above the floor


class BodyKind(StrEnum):
    """What a body is, in a builder's words."""

    TRUNK = "trunk"
    FOOTING = "footing"
    GRAVEL = "gravel under the footing"
    POST = "post"
    CAP = "post cap"
    JOIST = "joist"
    BLOCKING = "blocking"
    BEAM = "beam"
    BOLT = "tree bolt"
    BRACE = "knee brace"
    ROD = "crossed rod"
    DECKING = "decking"
    GUARD_POST = "guard post"
    LADDER = "ladder"
    STAIRS = "stairs"
    STAIR_PAD = "pad of the stairs"


@dataclass(frozen=True)
class Body:
    """A piece as a convex body with plane faces. ``within`` names pieces whose place it shares by its nature."""

    mark: str
    kind: BodyKind
    faces: tuple[Face, ...]
    within: frozenset[str] = frozenset()

    @cached_property
    def convex(self) -> Convex:
        """The body ready to be laid against others."""
        return Convex(self.faces)

    @property
    def name(self) -> str:
        """What it is called: a footing has no mark but its post's."""
        if self.kind is BodyKind.DECKING:
            return "the decking"
        if self.kind in ACCESS:
            return f"the {self.kind}"
        return f"the {self.kind} of {self.mark}" if self.kind in _OF_A_POST else f"{self.kind} {self.mark}"


_BODIES = {
    Kind.JOIST: BodyKind.JOIST,
    Kind.BEAM: BodyKind.BEAM,
    Kind.BLOCKING: BodyKind.BLOCKING,
}
ACCESS = (BodyKind.LADDER, BodyKind.STAIRS, BodyKind.STAIR_PAD)  # there is one of each at most
_OF_A_POST = (BodyKind.FOOTING, BodyKind.GRAVEL, BodyKind.CAP)


def bodies_of(layout: Layout) -> tuple[Body, ...]:
    """Every piece of a layout that has a place of its own: trunks, footings, posts, timbers, bolts, knee braces."""
    return (
        *trunk_bodies(layout),
        *footing_bodies(layout),
        *post_bodies(layout),
        *member_bodies(layout),
        *_bolts(layout),
        *(body for brace in layout.project.braces for body in brace_bodies(layout, brace)),
        *trunk_brace_bodies(layout),
        *(body for rods in layout.project.crossed_rods for body in rod_bodies(layout, rods)),
    )


def trunk_bodies(layout: Layout) -> Iterator[Body]:
    """Trunks, from below grade to above the floor."""
    top = layout.project.platform.floor_height + TRUNK_ABOVE
    for tree in layout.project.trees:
        yield Body(tree.mark, BodyKind.TRUNK, upright(trunk_plan(layout.project, tree), -TRUNK_BELOW, top))


def trunk_plan(project: Project, tree: Tree) -> list[Vector]:
    """Plan of a trunk as a body: the convex hull of its measured outline, or the circle of its girth."""
    if measured_outline(project, tree) is None:
        return round_plan(tree.at, trunk_radius(tree))
    hull = trunk_outline(project, tree).convex_hull
    return [(x, y) for x, y in hull.exterior.coords[:-1]] if isinstance(hull, Polygon) else []


def direction_on(layout: Layout, support: Support) -> Vector:
    """Direction in plan of the lowest beam on a support: a post is set square to it."""
    return layout.on_support(support.mark)[0][0].line.u


def footing_plan(support: Support, footing: Footing, u: Vector) -> list[Vector]:
    """Plan outline of a footing."""
    if footing.shape == "round":
        return round_plan(support.at, footing.width / 2)
    return turned_square(support.at, footing.width, footing.width, u)


def footing_bodies(layout: Layout) -> Iterator[Body]:
    """Footings, and the gravel under them; their posts stand in them."""
    for support in layout.supports:
        if support.kind != SupportKind.POST:
            continue
        footing = layout.project.footings[support.footing or ""]
        plan = footing_plan(support, footing, direction_on(layout, support))
        own = frozenset({support.mark})
        if footing.gravel:
            low = -footing.depth - footing.gravel
            yield Body(support.mark, BodyKind.GRAVEL, upright(plan, low, -footing.depth), own)
        top = 0.0 if footing.fill == "concrete" else footing.pad - footing.depth
        yield Body(support.mark, BodyKind.FOOTING, upright(plan, -footing.depth, top), own)


def post_ends(layout: Layout, support: Support) -> tuple[float, float]:
    """Levels of the foot and of the cut top of a post (in above grade)."""
    footing = layout.project.footings[support.footing or ""]
    cap = layout.project.posts[support.post or ""].cap_seat
    return footing.pad - footing.depth, layout.seat_level(support.mark) - cap


def post_bodies(layout: Layout) -> Iterator[Body]:
    """Posts, and the plates of caps that have a thickness."""
    for support in layout.supports:
        if support.kind != SupportKind.POST:
            continue
        kind = layout.project.posts[support.post or ""]
        section, u = parse_section(kind.section), direction_on(layout, support)
        low, high = post_ends(layout, support)
        plan = turned_square(support.at, section.b, section.d, u)
        yield Body(support.mark, BodyKind.POST, upright(plan, low, high))
        if kind.cap_seat:
            cap = turned_square(support.at, kind.cap_length or section.b, section.d, u)
            yield Body(support.mark, BodyKind.CAP, upright(cap, high, high + kind.cap_seat))


def member_bodies(layout: Layout) -> Iterator[Body]:
    """Joists and beams as they are cut."""
    for piece in cut_pieces(layout):
        member = layout.member(piece.mark)
        kind = _BODIES[piece.kind]
        yield Body(piece.mark, kind, upright(piece.corners, member.bottom, member.top))


def _bolts(layout: Layout) -> Iterator[Body]:
    """Tree bolts out of the bark; what they bear shares the place of bracket and notch, and the trunk that of steel."""
    trees = {tree.mark: tree for tree in layout.project.trees}
    for support in layout.supports:
        if support.kind != SupportKind.TREE_BOLT:
            continue
        tree, kind = trees[support.tree or ""], layout.project.bolts[support.bolt or ""]
        line, r = bolt_line(support, tree), kind.diameter / 2
        rise = r if kind.seat_rise is None else kind.seat_rise
        z, (ux, uy) = layout.seat_level(support.mark) - rise, line.u
        start = line.point(tree, math.sqrt(max(0.0, trunk_radius(tree) ** 2 - line.a**2)))
        length = math.dist(start, support.at) + kind.seat_length / 2 + kind.slide
        turns = [math.pi / 4 * k for k in range(8)]
        ring = tuple(
            (start[0] - uy * r * math.cos(t), start[1] + ux * r * math.cos(t), z + r * math.sin(t))
            for t in turns
        )
        borne = frozenset({tree.mark, *(member.mark for member, _ in layout.on_support(support.mark))})
        yield Body(support.mark, BodyKind.BOLT, faces_of(ring, (ux * length, uy * length, 0.0)), borne)


def trunk_brace_bodies(layout: Layout) -> Iterator[Body]:
    """Knee braces from a trunk, under the middle of their beams."""
    for brace in trunk_braces(layout):
        flat = profile(brace, paired=is_paired(layout, brace))
        u, b = brace.beam.line.u, brace.section.b
        n = (-u[1], u[0])
        x0, y0 = brace.beam.line.at(brace.at - brace.side * brace.r)
        corners = tuple(
            (x0 + brace.side * x * u[0] - b / 2 * n[0], y0 + brace.side * x * u[1] - b / 2 * n[1], z)
            for x, z in flat
        )
        yield Body(
            brace.mark,
            BodyKind.BRACE,
            faces_of(corners, (b * n[0], b * n[1], 0.0)),
            frozenset({brace.foot.mark}),
        )


def brace_profile(layout: Layout, brace: Brace) -> tuple[tuple[float, float], ...]:
    """Corners of a knee brace in its plane: along the beam from the post's centre, and level above grade."""
    support = next(s for s in layout.supports if s.mark == brace.support)
    post = parse_section(layout.project.posts[support.post or ""].section)
    d = parse_section(brace.section).d
    seat = layout.seat_level(brace.support)
    a, r = brace.rise, brace.run
    length = math.hypot(a, r)
    u, n = (r / length, a / length), (-a / length, r / length)
    bolts = brace_bolts(layout, brace)
    if bolts is None:  # fitted: plumb at the post's face, level under the beam
        edges = []
        for side in (-1, 1):
            x0, z0 = side * d / 2 * n[0], seat - a + side * d / 2 * n[1]
            foot = (post.b / 2, z0 + (post.b / 2 - x0) * a / r)
            head = (x0 + (seat - z0) * r / a, seat)
            edges.append((foot, head))
        (low_foot, low_head), (high_foot, high_head) = edges
        return (low_foot, low_head, high_head, high_foot)
    ends = [(s * u[0], seat - a + s * u[1]) for s in (-bolts.lower, bolts.length - bolts.lower)]
    corners = [(x + s * d / 2 * n[0], z + s * d / 2 * n[1]) for x, z in ends for s in (-1, 1)]
    return (corners[0], corners[2], corners[3], corners[1])


def brace_bodies(layout: Layout, brace: Brace) -> Iterator[Body]:
    """Plies of a knee brace: fitted under the beam's middle, or lapped on the sides of post and beam."""
    support = next(s for s in layout.supports if s.mark == brace.support)
    beam = layout.member(brace.beam)
    post = parse_section(layout.project.posts[support.post or ""].section)
    t = parse_section(brace.section).b
    sense = 1.0 if brace.towards == "end" else -1.0
    u = (beam.line.u[0] * sense, beam.line.u[1] * sense)
    n = (-beam.line.u[1], beam.line.u[0])
    side = max(post.d, beam.width) / 2
    if brace.bolts is None:
        starts = [-t * brace.plies / 2 + t * k for k in range(brace.plies)]
    elif brace.plies == 1:  # two single ones at one post lie on its two sides, else they would cross
        first = next(b.mark for b in layout.project.braces if b.support == brace.support)
        starts = [side if brace.mark == first else -side - t]
    else:
        starts = [side, -side - t]
    flat = brace_profile(layout, brace)
    for start in starts:
        profile = tuple(
            (support.at[0] + x * u[0] + start * n[0], support.at[1] + x * u[1] + start * n[1], z)
            for x, z in flat
        )
        yield Body(brace.mark, BodyKind.BRACE, faces_of(profile, (t * n[0], t * n[1], 0.0)))


def rod_bodies(layout: Layout, rods: CrossedRods) -> Iterator[Body]:
    """Two crossed rods between the middle lines of their posts, beside each other where they cross."""
    r = rods.diameter / 2
    posts = frozenset({rods.from_post, rods.to_post})
    for side, rod in zip((1, -1), rod_ends(layout, rods), strict=True):
        (x, y), (dx, dy), b = rod.foot, rod.away, rod.high - rod.low
        (ux, uy), length = (dx / rod.run, dy / rod.run), math.hypot(rod.run, b)
        up = (-ux * b / length, -uy * b / length, rod.run / length)  # square to the rod in its plane
        aside = side * r
        ring = tuple(
            (
                x + up[0] * r * math.cos(t) - uy * (aside + r * math.sin(t)) * side,
                y + up[1] * r * math.cos(t) + ux * (aside + r * math.sin(t)) * side,
                rod.low + up[2] * r * math.cos(t),
            )
            for t in (math.pi / 4 * k for k in range(8))
        )
        yield Body(rods.mark, BodyKind.ROD, faces_of(ring, (dx, dy, b)), posts)
