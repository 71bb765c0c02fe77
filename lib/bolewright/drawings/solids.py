"""The parts of a platform as solids, from which elevations, sections and the view that turns are made."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from shapely import LineString

from bolewright.drawings.boards import board_outlines
from bolewright.drawings.bodies import Solid, prism
from bolewright.drawings.guards import rail_solids
from bolewright.mechanics.convex import faces_of, turned_square
from bolewright.platform.layout.layout import Layout, Line, Vector
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.project import Brace, Wall
from bolewright.platform.results.results import Results
from bolewright.platform.solids.access_bodies import access_bodies
from bolewright.platform.solids.bodies import (
    Body,
    BodyKind,
    brace_bodies,
    footing_bodies,
    member_bodies,
    post_bodies,
    rod_bodies,
    trunk_bodies,
    trunk_brace_bodies,
)
from bolewright.rendering.drawing import Fill, Layer
from bolewright.setting_out.braces import BraceCut, brace_cuts
from bolewright.setting_out.trunk import bolt_marks

DECKING = "decking"
STRAP_WIDTH, STRAP_THICK = 1.5, 0.125  # in: a strap as it is drawn


_SHOWN = {
    BodyKind.TRUNK: (Layer.TRUNK, Fill.TRUNK),
    BodyKind.FOOTING: (Layer.FOOTINGS, Fill.CONCRETE),
    BodyKind.GRAVEL: (Layer.FOOTINGS, Fill.GRAVEL),
    BodyKind.POST: (Layer.POSTS, Fill.TIMBER),
    BodyKind.CAP: (Layer.HARDWARE, Fill.STEEL),
    BodyKind.JOIST: (Layer.JOISTS, Fill.TIMBER),
    BodyKind.BLOCKING: (Layer.BLOCKING, Fill.TIMBER),
    BodyKind.BEAM: (Layer.BEAMS, Fill.TIMBER),
    BodyKind.BRACE: (Layer.BRACES, Fill.TIMBER),
    BodyKind.ROD: (Layer.BRACES, Fill.STEEL),
    BodyKind.GUARD_POST: (Layer.GUARD, Fill.TIMBER),
    BodyKind.LADDER: (Layer.STAIRS, Fill.TIMBER),
    BodyKind.STAIRS: (Layer.STAIRS, Fill.TIMBER),
    BodyKind.STAIR_PAD: (Layer.FOOTINGS, Fill.CONCRETE),
}


def solids_of(results: Results) -> tuple[Solid, ...]:
    """Every part of a platform as a solid."""
    layout = results.path.layout
    return (
        *_shown(trunk_bodies(layout)),
        *_shown(footing_bodies(layout)),
        *_shown(post_bodies(layout)),
        *_shown(member_bodies(layout)),
        *_bolts(layout),
        *_shown(body for brace in layout.project.braces for body in brace_bodies(layout, brace)),
        *_shown(trunk_brace_bodies(layout)),
        *_shown(body for rods in layout.project.crossed_rods for body in rod_bodies(layout, rods)),
        *_straps(layout),
        *_boards(results),
        *_shown(access_bodies(layout)),
        *rail_solids(layout),
        *_guard(layout),
    )


def _shown(bodies: Iterable[Body]) -> Iterator[Solid]:
    """Bodies on their layers, filled by what they are made of."""
    for body in bodies:
        yield Solid(body.mark, *_SHOWN[body.kind], body.faces)


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


def brace_cut(layout: Layout, brace: Brace) -> BraceCut:
    """A knee brace as it is cut."""
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    return next(cut for cut in brace_cuts(layout, pieces) if cut.mark == brace.mark)


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
