"""Plan for setting out the deck: its corners from two fixed points, every edge, the diagonals, the beams' ends."""

from __future__ import annotations

import math
from dataclasses import replace

from shapely import Point as PlanPoint

from bolewright.drawings.chains import chain
from bolewright.drawings.covering import painted
from bolewright.drawings.measures import Measures
from bolewright.drawings.plan_framing import beams_on_plan, deck_outline, trees
from bolewright.drawings.words import titled
from bolewright.platform.layout.layout import Layout, trunk_radius
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.results.results import Results
from bolewright.rendering.drawing import Circle, Drawing, Fill, Item, Layer, Line, Mark, Pen
from bolewright.setting_out.corners import BeamEnd, DeckCorners, beam_ends, deck_corners

_OUT = 9.0  # mm: from a corner to its mark
_PAST = 7.0  # mm: from a beam's end to its words
_EDGE = 6.0  # mm: from an edge to its dimension
TITLE = "Plan of corners and beam ends"


def plan_of_corners(results: Results, measures: Measures = Measures.IMPERIAL) -> Drawing:
    """Outline with its corners marked, every edge dimensioned, diagonals, fixed points, and the ends of the beams."""
    layout = results.path.layout
    found = deck_corners(layout)
    ends = beam_ends(layout, {piece.mark: piece for piece in cut_pieces(layout)})
    items: list[Item] = [*deck_outline(layout), *_trees(layout), *painted(beams_on_plan(layout))]
    items += fixed_points(found)
    items += _supports(layout)
    items += _edges(layout, found, measures)
    items += _diagonals(found, measures)
    items += _corner_marks(layout, found)
    items += [_end(layout, end, measures) for end in ends]
    lengths = "; ".join(f"{edge.name} {measures.words(edge.length)}" for edge in found.edges)
    alt = f"{TITLE}: {lengths}."
    notes = [
        f"Corners are taped level from {found.tapes[0]} and {found.tapes[1]}; the lengths stand in the table. "
        "Thin broken lines: diagonals. At a beam's end: how far it runs past the middle of its seat."
    ]
    return titled(results, TITLE, items, alt, notes, north=layout.project.platform.north)


def _trees(layout: Layout) -> list[Item]:
    """Trunks, their marks anywhere on them."""
    radius = {tree.mark: trunk_radius(tree) for tree in layout.project.trees}
    return [
        replace(item, along=_on_trunk(item.at, radius[item.text])) if isinstance(item, Mark) else item
        for item in trees(layout)
    ]


def _on_trunk(at: tuple[float, float], radius: float) -> tuple[tuple[float, float], ...]:
    ways = ((0.0, 1.0), (0.0, -1.0), (1.0, 0.0), (-1.0, 0.0))
    return tuple((at[0] + f * radius * x, at[1] + f * radius * y) for f in (0.4, 0.7) for x, y in ways)


def fixed_points(found: DeckCorners) -> list[Item]:
    """The two fixed points, and the line between them."""
    items: list[Item] = [Line(*found.pegs, Layer.CENTRE, Pen.CENTRE)]
    for name, at in zip(found.tapes, found.pegs, strict=True):
        if name.startswith("peg"):
            items += [Circle(at, 1.2, Layer.GROUND, Fill.STEEL), Mark(at, name, shift=(0.0, -_OUT))]
    return items


def _supports(layout: Layout) -> list[Item]:
    middle = layout.deck.centroid
    items: list[Item] = []
    for support in layout.supports:
        side = -1.0 if support.at[0] < middle.x else 1.0
        up = -1.0 if support.at[1] < middle.y else 1.0
        items += [
            Circle(support.at, 1.2, Layer.BOLTS, Fill.STEEL),
            Mark(support.at, support.mark, shift=(8.0 * side, 6.0 * up)),
        ]
    return items


def _edges(layout: Layout, found: DeckCorners, measures: Measures) -> list[Item]:
    """Length of every edge, outside the deck; of an opening's on the deck beside it, where no trunk stands."""
    items: list[Item] = []
    for edge in found.edges:
        (ax, ay), (bx, by) = edge.ends
        length = edge.length
        left = (-(by - ay) / length, (bx - ax) / length)
        middle = ((ax + bx) / 2 + left[0], (ay + by) / 2 + left[1])
        inside = layout.deck.buffer(1e-6).contains(PlanPoint(middle))
        to_left = inside is not edge.name.startswith("edge")
        items += chain([edge.ends[0], edge.ends[1]], measures, _EDGE if to_left else -_EDGE)
    return items


def _diagonals(found: DeckCorners, measures: Measures) -> list[Item]:
    items: list[Item] = []
    for closing in found.diagonals:
        assert closing.ends is not None
        (ax, ay), (bx, by) = closing.ends
        items.append(Line(*closing.ends, Layer.HIDDEN, Pen.DASHED))
        places = tuple(
            (ax + f * (bx - ax), ay + f * (by - ay)) for f in (0.25, 0.75, 0.2, 0.8, 0.3, 0.7, 0.12, 0.88)
        )
        items.append(Mark(places[0], measures.length(closing.wanted), along=places[1:]))
    return items


def _corner_marks(layout: Layout, found: DeckCorners) -> list[Item]:
    """Mark of every corner, away from the middle of the deck."""
    middle = layout.deck.centroid
    items: list[Item] = []
    for corner in found.corners:
        dx, dy = corner.point[0] - middle.x, corner.point[1] - middle.y
        length = math.hypot(dx, dy) or 1.0
        items.append(Mark(corner.point, corner.name, shift=(_OUT * dx / length, _OUT * dy / length)))
    return items


def _end(layout: Layout, end: BeamEnd, measures: Measures) -> Item:
    """How far a beam runs past its last seat, at its end."""
    u = layout.member(end.beam).line.u
    sense = -1.0 if end.end == "start" else 1.0
    words = f"{end.beam}: hung on {end.seat}" if end.hangs else ""
    words = words or f"{end.beam}: {measures.length(end.past)} past {end.seat}"
    return Mark(end.peg.point, words, shift=(sense * _PAST * u[0], sense * _PAST * u[1]))
