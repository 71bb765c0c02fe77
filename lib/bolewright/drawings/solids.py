"""The parts of a platform as solids, from which elevations, sections and the view that turns are made."""

from __future__ import annotations

import math
from collections.abc import Iterator

from shapely import LineString, Polygon

from bolewright.drawings.boards import board_outlines
from bolewright.drawings.bodies import Solid, faces_of, prism, round_plan, turned_square
from bolewright.platform.layout import Kind, Layout, Line, Vector
from bolewright.platform.outlines import measured_outline, stem_outline
from bolewright.platform.project import Brace, Footing, Project, Support, Tree, Wall
from bolewright.platform.results import Results
from bolewright.rendering.drawing import Fill, Layer
from bolewright.setting_out.braces import BraceCut, brace_cuts
from bolewright.setting_out.pieces import cut_pieces
from bolewright.setting_out.stem import bolt_marks, girth_of
from bolewright.timber.sections import parse_section

DECKING = "decking"
STEM_BELOW, STEM_ABOVE = 6.0, 60.0  # in: how far a stem is drawn below grade and above the floor
STRAP_WIDTH, STRAP_THICK = 1.5, 0.125  # in: a strap as it is drawn


def solids_of(results: Results) -> tuple[Solid, ...]:
    """Every part of a platform as a solid."""
    layout = results.path.layout
    return (
        *_trees(layout),
        *_footings(layout),
        *_posts(layout),
        *_members(layout),
        *_bolts(layout),
        *(solid for brace in layout.project.braces for solid in brace_solids(layout, brace)),
        *_straps(layout),
        *_boards(results),
        *_guard(layout),
    )


def _trees(layout: Layout) -> Iterator[Solid]:
    top = layout.project.platform.floor_height + STEM_ABOVE
    for tree in layout.project.trees:
        yield prism(tree.mark, Layer.STEM, Fill.STEM, _stem_plan(layout.project, tree), -STEM_BELOW, top)


def _stem_plan(project: Project, tree: Tree) -> list[Vector]:
    """Plan of a stem as a body: the convex hull of its measured outline, or the circle of its girth."""
    if measured_outline(project, tree) is None:
        return round_plan(tree.at, tree_radius(tree))
    hull = stem_outline(project, tree).convex_hull
    return [(x, y) for x, y in hull.exterior.coords[:-1]] if isinstance(hull, Polygon) else []


def tree_radius(tree: Tree) -> float:
    """Radius of a stem over the bark (in)."""
    return girth_of(tree) / (2 * math.pi)


def direction_on(layout: Layout, support: Support) -> Vector:
    """Direction in plan of the lowest carrier on a support: a post is set square to it."""
    return layout.on_support(support.mark)[0][0].line.u


def footing_plan(support: Support, footing: Footing, u: Vector) -> list[Vector]:
    """Plan outline of a footing."""
    if footing.shape == "round":
        return round_plan(support.at, footing.width / 2)
    return turned_square(support.at, footing.width, footing.width, u)


def _footings(layout: Layout) -> Iterator[Solid]:
    for support in layout.supports:
        if support.kind != "post":
            continue
        footing = layout.project.footings[support.footing or ""]
        plan = footing_plan(support, footing, direction_on(layout, support))
        if footing.gravel:
            low = -footing.depth - footing.gravel
            yield prism(support.mark, Layer.FOOTINGS, Fill.GRAVEL, plan, low, -footing.depth)
        top = 0.0 if footing.fill == "concrete" else footing.pad - footing.depth
        yield prism(support.mark, Layer.FOOTINGS, Fill.CONCRETE, plan, -footing.depth, top)


def post_ends(layout: Layout, support: Support) -> tuple[float, float]:
    """Levels of the foot and of the cut top of a post (in above grade)."""
    footing = layout.project.footings[support.footing or ""]
    cap = layout.project.posts[support.post or ""].cap_seat
    return footing.pad - footing.depth, layout.seat_level(support.mark) - cap


def _posts(layout: Layout) -> Iterator[Solid]:
    for support in layout.supports:
        if support.kind != "post":
            continue
        kind = layout.project.posts[support.post or ""]
        section, u = parse_section(kind.section), direction_on(layout, support)
        low, high = post_ends(layout, support)
        plan = turned_square(support.at, section.b, section.d, u)
        yield prism(support.mark, Layer.POSTS, Fill.TIMBER, plan, low, high)
        if kind.cap_seat:
            length = kind.cap_length or section.b
            cap = turned_square(support.at, length, section.d, u)
            yield prism(support.mark, Layer.HARDWARE, Fill.STEEL, cap, high, high + kind.cap_seat)


def _members(layout: Layout) -> Iterator[Solid]:
    for piece in cut_pieces(layout):
        member = layout.member(piece.mark)
        layer = Layer.JOISTS if piece.kind is Kind.JOIST else Layer.CARRIERS
        yield prism(piece.mark, layer, Fill.TIMBER, piece.corners, member.bottom, member.top)


def _bolts(layout: Layout) -> Iterator[Solid]:
    for bolt in bolt_marks(layout):
        support = next(s for s in layout.supports if s.mark == bolt.mark)
        kind = layout.project.bolts[support.bolt or ""]
        r, z = kind.diameter / 2, bolt.centre_level
        u = (
            (bolt.bearing[0] - bolt.entry[0]) / bolt.projection,
            (bolt.bearing[1] - bolt.entry[1]) / bolt.projection,
        )
        start = (bolt.entry[0] - u[0] * bolt.hole_depth, bolt.entry[1] - u[1] * bolt.hole_depth)
        length = bolt.hole_depth + bolt.projection + kind.seat_length / 2 + kind.slide
        ring = tuple(
            (
                start[0] - u[1] * r * math.cos(math.pi / 4 * k),
                start[1] + u[0] * r * math.cos(math.pi / 4 * k),
                z + r * math.sin(math.pi / 4 * k),
            )
            for k in range(8)
        )
        yield Solid(bolt.mark, Layer.BOLTS, Fill.STEEL, faces_of(ring, (u[0] * length, u[1] * length, 0.0)))
        if kind.seat == "steel bracket" and bolt.seat_level - (z + r) > 0.05:
            plan = turned_square(bolt.bearing, kind.seat_length, kind.diameter, u)
            yield prism(bolt.mark, Layer.HARDWARE, Fill.STEEL, plan, z + r, bolt.seat_level)


def brace_profile(layout: Layout, brace: Brace) -> tuple[tuple[float, float], ...]:
    """Corners of a knee brace in its plane: along the carrier from the post's centre, and level above grade."""
    support = next(s for s in layout.supports if s.mark == brace.support)
    post = parse_section(layout.project.posts[support.post or ""].section)
    d = parse_section(brace.section).d
    seat = layout.seat_level(brace.support)
    a, r = brace.rise, brace.run
    length = math.hypot(a, r)
    u, n = (r / length, a / length), (-a / length, r / length)
    if brace.bolts is None:  # fitted: plumb at the post's face, level under the carrier
        edges = []
        for side in (-1, 1):
            x0, z0 = side * d / 2 * n[0], seat - a + side * d / 2 * n[1]
            foot = (post.b / 2, z0 + (post.b / 2 - x0) * a / r)
            head = (x0 + (seat - z0) * r / a, seat)
            edges.append((foot, head))
        (low_foot, low_head), (high_foot, high_head) = edges
        return (low_foot, low_head, high_head, high_foot)
    cut = brace_cut(layout, brace)
    ends = [(s * u[0], seat - a + s * u[1]) for s in (-cut.lower_end, cut.long_edge - cut.lower_end)]
    corners = [(x + s * d / 2 * n[0], z + s * d / 2 * n[1]) for x, z in ends for s in (-1, 1)]
    return (corners[0], corners[2], corners[3], corners[1])


def brace_cut(layout: Layout, brace: Brace) -> BraceCut:
    """A knee brace as it is cut."""
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    return next(cut for cut in brace_cuts(layout, pieces) if cut.mark == brace.mark)


def brace_solids(layout: Layout, brace: Brace) -> Iterator[Solid]:
    """Plies of a knee brace: fitted under the carrier's middle, or lapped on the sides of post and carrier."""
    support = next(s for s in layout.supports if s.mark == brace.support)
    carrier = layout.member(brace.carrier)
    post = parse_section(layout.project.posts[support.post or ""].section)
    t = parse_section(brace.section).b
    sense = 1.0 if brace.towards == "end" else -1.0
    u = (carrier.line.u[0] * sense, carrier.line.u[1] * sense)
    n = (-carrier.line.u[1], carrier.line.u[0])
    side = max(post.d, carrier.width) / 2
    if brace.bolts is None:
        starts = [-t * brace.plies / 2 + t * k for k in range(brace.plies)]
    else:
        starts = [side] if brace.plies == 1 else [side, -side - t]
    for start in starts:
        profile = tuple(
            (support.at[0] + x * u[0] + start * n[0], support.at[1] + x * u[1] + start * n[1], z)
            for x, z in brace_profile(layout, brace)
        )
        yield Solid(brace.mark, Layer.BRACES, Fill.TIMBER, faces_of(profile, (t * n[0], t * n[1], 0.0)))


def _straps(layout: Layout) -> Iterator[Solid]:
    level = min(member.bottom for member in layout.joists)
    for diagonal in layout.project.diagonals:
        (x0, y0), (x1, y1) = diagonal.start, diagonal.end
        length = math.dist(diagonal.start, diagonal.end)
        u = ((x1 - x0) / length, (y1 - y0) / length)
        plan = turned_square(((x0 + x1) / 2, (y0 + y1) / 2), length, STRAP_WIDTH, u)
        yield prism(diagonal.mark, Layer.BRACES, Fill.STEEL, plan, level - STRAP_THICK, level)


def _boards(results: Results) -> Iterator[Solid]:
    layout = results.path.layout
    low, high = layout.under_deck, layout.project.platform.floor_height
    for board in board_outlines(results):
        plan = [(x, y) for x, y in board.outline.exterior.coords[:-1]]
        yield prism(DECKING, Layer.DECKING, Fill.TIMBER, plan, low, high)


def guard_runs(layout: Layout) -> list[tuple[Vector, Vector]]:
    """Edges of the deck with a guard, from corner to corner."""
    outline = layout.project.platform.outline
    return [(outline[n - 1], outline[n % len(outline)]) for n in layout.project.loads.guard_edges]


def wall_run(layout: Layout, wall: Wall) -> tuple[Vector, Vector]:
    """Where a wall starts and ends on its edge of the deck."""
    outline = layout.project.platform.outline
    edge = Line.between(outline[wall.edge - 1], outline[wall.edge % len(outline)])
    end = edge.length if wall.length is None else min(edge.length, wall.start + wall.length)
    return edge.at(wall.start), edge.at(end)


def _guard(layout: Layout) -> Iterator[Solid]:
    """Guards and walls as thin panels on the edges of the deck."""
    low, height = layout.project.platform.floor_height, layout.project.loads.guard_height
    panels = [("guard", height, run) for run in guard_runs(layout)]
    panels += [(wall.mark, wall.height, wall_run(layout, wall)) for wall in layout.project.walls]
    for mark, tall, (a, b) in panels:
        if LineString([a, b]).length > 0:
            face = ((*a, low), (*b, low), (*b, low + tall), (*a, low + tall))
            yield Solid(mark, Layer.GUARD, Fill.NONE, (face,))
