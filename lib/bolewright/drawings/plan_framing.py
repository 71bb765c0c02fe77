"""Plan of the framing: every joist, beam, brace and support with its mark, and where they stand."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Sequence

from shapely import Point as PlanPoint
from shapely import Polygon

from bolewright.drawings.as_built import built_on_plan, built_words
from bolewright.drawings.chains import chain, spaced_chain
from bolewright.drawings.covering import Patch, painted
from bolewright.drawings.guards import guard_on_plan
from bolewright.drawings.ladders import hatch_on_plan, ladder_on_plan, ladder_points
from bolewright.drawings.measures import Measures
from bolewright.drawings.places import places_in_words, places_on_plan
from bolewright.drawings.stairs import stair_points, stairs_on_plan
from bolewright.drawings.words import sizes, titled
from bolewright.mechanics.convex import turned_square
from bolewright.platform.layout.blocking import entry_of
from bolewright.platform.layout.layout import Kind, Layout, Member, Vector, field_axes, trunk_radius
from bolewright.platform.layout.outlines import measured_outline, trunk_outline
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.layout.rod_ends import rod_ends
from bolewright.platform.layout.trunk_braces import trunk_braces
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.platform.solids.bodies import direction_on, footing_plan
from bolewright.rendering import drawing
from bolewright.rendering.drawing import Arrow, Circle, Drawing, Fill, Item, Layer, Line, Mark, Pen
from bolewright.setting_out.trunk import bolt_marks
from bolewright.timber.sections import parse_section

FIRST, ROW = 7.0, 8.0  # mm: from the plan to the first chain of dimensions, and from chain to chain
_LAYERS = {Kind.JOIST: Layer.JOISTS, Kind.BLOCKING: Layer.BLOCKING, Kind.BEAM: Layer.BEAMS}
_FEW = 3  # pieces of a row that bear their marks all
_ALONG = (0.5, 0.42, 0.58, 0.35, 0.65, 0.28, 0.72, 0.2, 0.8, 0.13, 0.87)


def plan_of_framing(
    results: Results,
    measures: Measures = Measures.IMPERIAL,
    highlighted: Collection[str] = (),
    *,
    brief: bool = False,
    views: Sequence[tuple[str, Vector]] = (),
) -> Drawing:
    """Plan of the framing with marks and dimensions; parts in ``highlighted`` are filled.

    ``brief`` leaves out all but the greatest dimensions and the marks of guards and blocking; ``views`` are the letters
    of elevations and the way they look.
    """
    layout = results.path.layout
    items: list[Item] = [*deck_outline(layout), *trees(layout)]
    items += painted(
        [*footings_on_plan(layout), *_members(layout, highlighted), *_posts(layout, highlighted)]
    )
    items += _braces(layout)
    items += _diagonals(layout)
    items += _bolts(layout, highlighted)
    items += guard_on_plan(layout, marks=not brief)
    items += places_on_plan(layout)
    items += _marks(layout, blocking=not brief)
    items += built_on_plan(layout)
    items += stairs_on_plan(layout, measures)
    items += hatch_on_plan(layout)
    items += ladder_on_plan(layout, measures)
    kinds = len(kinds_of_support(layout))
    items += overall(layout, measures, tier=0 if brief else kinds)
    if not brief:
        items += _support_chains(layout, measures)
        items += _joist_chains(layout, measures)
        items += opening_chains(layout, measures, below=kinds, beside=1)
        items += [item for letter, look in views for item in _view_mark(layout, letter, look)]
    shown = f" Highlighted: {', '.join(sorted(highlighted))}." if highlighted else ""
    alt = (
        f"Plan of the framing: {len(layout.joists)} joists, {len(layout.beams)} beams, "
        f"{len(layout.supports)} supports.{shown}"
    )
    words = (
        [] if brief else [*sizes(layout, measures), *places_in_words(layout), *built_words(layout, measures)]
    )
    return titled(
        results, "Plan of framing", items, alt, words, north=layout.project.platform.north, bare=brief
    )


def deck_outline(layout: Layout) -> list[Item]:
    """Edge of the deck and of its openings, dashed."""
    rings = [layout.project.platform.outline, *layout.project.platform.openings]
    fills = (Fill.WASH, *(Fill.PAPER for _ in rings[1:]))
    return [
        drawing.Polygon(tuple(ring), Layer.DECKING, fill, Pen.DASHED)
        for ring, fill in zip(rings, fills, strict=True)
    ]


def trees(layout: Layout) -> list[Item]:
    """Trunks at the floor, as measured or by their girth, with sound wood at the bolts, and their marks."""
    items: list[Item] = []
    for tree in layout.project.trees:
        radius = trunk_radius(tree)
        if measured_outline(layout.project, tree) is None:
            items.append(Circle(tree.at, radius, Layer.TRUNK, Fill.TRUNK))
        else:
            items.append(drawing.Polygon(_ring(trunk_outline(layout.project, tree)), Layer.TRUNK, Fill.TRUNK))
        items.append(Circle(tree.at, radius - tree.bark, Layer.TRUNK, Fill.NONE, Pen.DASHED))
        items.append(Mark(tree.at, tree.mark))
    return items


def _ring(shape: Polygon) -> tuple[Vector, ...]:
    return tuple((x, y) for x, y in shape.exterior.coords[:-1])


def _members(layout: Layout, highlighted: Collection[str]) -> list[Patch]:
    """Beams and joists as they are cut, the lowest first."""
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    patches = []
    for member in sorted(layout.members, key=lambda m: (m.top, m.kind is Kind.JOIST)):
        layer = _LAYERS[member.kind]
        chosen = member.mark in highlighted
        patches.append(
            Patch(
                Polygon(pieces[member.mark].corners),
                Layer.HIGHLIGHT if chosen else layer,
                Fill.HIGHLIGHT if chosen else Fill.TIMBER,
                hidden=True,
            )
        )
    return patches


def beams_on_plan(layout: Layout) -> list[Patch]:
    """Beams as they are cut, the lowest first."""
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    ordered = sorted(layout.beams, key=lambda m: m.top)
    return [Patch(Polygon(pieces[m.mark].corners), Layer.BEAMS, Fill.TIMBER, hidden=True) for m in ordered]


def footings_on_plan(layout: Layout) -> list[Patch]:
    """Footings, dashed, with nothing hidden by them."""
    patches = []
    for support in layout.supports:
        if support.kind == SupportKind.POST:
            footing = layout.project.footings[support.footing or ""]
            if footing.shape == "round":
                outline = PlanPoint(support.at).buffer(footing.width / 2, quad_segs=12)
            else:
                outline = Polygon(footing_plan(support, footing, direction_on(layout, support)))
            patches.append(Patch(outline, Layer.FOOTINGS, Fill.NONE, Pen.DASHED, hidden=True, covers=False))
    return patches


def _posts(layout: Layout, highlighted: Collection[str]) -> list[Patch]:
    """Posts, shown through the beams on them."""
    patches = []
    for support in layout.supports:
        if support.kind == SupportKind.POST:
            section = parse_section(layout.project.posts[support.post or ""].section)
            plan = turned_square(support.at, section.b, section.d, direction_on(layout, support))
            chosen = support.mark in highlighted
            fill = Fill.HIGHLIGHT if chosen else Fill.NONE
            patches.append(
                Patch(
                    Polygon(plan), Layer.HIGHLIGHT if chosen else Layer.POSTS, fill, Pen.DASHED, covers=False
                )
            )
    return patches


def _braces(layout: Layout) -> list[Item]:
    items: list[Item] = []
    for brace in layout.project.braces:
        support = next(s for s in layout.supports if s.mark == brace.support)
        u = layout.member(brace.beam).line.u
        sense = 1.0 if brace.towards == "end" else -1.0
        end = (support.at[0] + sense * brace.run * u[0], support.at[1] + sense * brace.run * u[1])
        items.append(Line(support.at, end, Layer.BRACES, Pen.CENTRE))
        places = tuple(
            (support.at[0] + f * (end[0] - support.at[0]), support.at[1] + f * (end[1] - support.at[1]))
            for f in (0.6, 0.8, 0.95)
        )
        items.append(Mark(places[1], brace.mark, along=places))
    for knee in trunk_braces(layout):
        items.append(Line(knee.foot.at, knee.support.at, Layer.BRACES, Pen.CENTRE))
    for rods in layout.project.crossed_rods:
        rod, _ = rod_ends(layout, rods)
        items.append(Line(rod.foot, rod.head, Layer.BRACES, Pen.CENTRE))
        places = tuple(
            (rod.foot[0] + f * rod.away[0], rod.foot[1] + f * rod.away[1]) for f in (0.5, 0.4, 0.6, 0.3, 0.7)
        )
        items.append(Mark(places[0], rods.mark, along=places[1:]))
    return items


def _diagonals(layout: Layout) -> list[Item]:
    """Straps across the deck, under the joists."""
    items: list[Item] = []
    for diagonal in layout.project.diagonals:
        (x0, y0), (x1, y1) = diagonal.start, diagonal.end
        items.append(Line(diagonal.start, diagonal.end, Layer.BRACES, Pen.CENTRE))
        places = tuple(
            (x0 + f * (x1 - x0), y0 + f * (y1 - y0)) for f in (0.12, 0.16, 0.88, 0.84, 0.2, 0.8, 0.25, 0.75)
        )
        items.append(Mark(places[0], diagonal.mark, along=places[1:]))
    return items


def _bolts(layout: Layout, highlighted: Collection[str]) -> list[Item]:
    items: list[Item] = []
    placed = {bolt.mark: bolt for bolt in bolt_marks(layout)}
    for support in layout.supports:
        if support.kind == SupportKind.TREE_BOLT:
            chosen = support.mark in highlighted
            items.append(Line(placed[support.mark].tip, support.at, Layer.BOLTS, Pen.CENTRE))
            radius = layout.project.bolts[support.bolt or ""].diameter / 2
            items.append(
                Circle(
                    support.at,
                    max(radius, 1.2),
                    Layer.HIGHLIGHT if chosen else Layer.BOLTS,
                    Fill.HIGHLIGHT if chosen else Fill.STEEL,
                )
            )
    return items


def _marks(layout: Layout, blocking: bool) -> list[Item]:
    items: list[Item] = []
    for member in (*layout.joists, *layout.beams, *(_marked_blocking(layout) if blocking else ())):
        shares = (
            _ALONG
            if member.kind is Kind.JOIST
            else (0.3, 0.25, 0.35, 0.4, 0.6, 0.2, 0.7, 0.15, 0.8, 0.1, 0.9)
        )
        places = tuple(member.line.at(share * member.line.length) for share in shares)
        items.append(Mark(places[0], member.mark, along=places[1:]))
    middle = layout.deck.centroid
    for support in layout.supports:
        side = -1.0 if support.at[0] < middle.x else 1.0
        up = -1.0 if support.at[1] < middle.y else 1.0
        items.append(Mark(support.at, support.mark, shift=(8.0 * side, 6.0 * up)))
    return items


def _marked_blocking(layout: Layout) -> list[Member]:
    """Pieces of blocking that bear their mark: the first and the last of a row or rim, numbered in order between."""
    rows = [
        [m for m in layout.blocking if entry_of(m).mark == entry.mark] for entry in layout.project.blocking
    ]
    return [m for row in rows for m in (row if len(row) <= _FEW else (row[0], row[-1]))]


def bounds(layout: Layout) -> tuple[float, float, float, float]:
    """Left, low, right, high of all that a plan shows."""
    points: list[Vector] = list(layout.project.platform.outline)
    points += [corner for piece in cut_pieces(layout) for corner in piece.corners]
    for tree in layout.project.trees:
        left, low, right, high = trunk_outline(layout.project, tree).bounds
        points += [(left, low), (right, high)]
    for support in layout.supports:
        r = layout.project.footings[support.footing].width / 2 if support.footing else 0.0
        points += [(support.at[0] - r, support.at[1] - r), (support.at[0] + r, support.at[1] + r)]
    points += stair_points(layout)
    points += ladder_points(layout)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def overall(layout: Layout, measures: Measures, tier: int = 0) -> list[Item]:
    """Greatest width and depth of the deck, outside all other dimensions; ``tier`` chains lie between."""
    left, low, right, high = layout.deck.bounds
    b_left, b_low, _, _ = bounds(layout)
    more = 1 if layout.deck.interiors and tier else 0
    return [
        *chain([(left, b_low), (right, b_low)], measures, -(FIRST + ROW * (tier + more)), (left, low)),
        *chain([(b_left, low), (b_left, high)], measures, FIRST + ROW * (min(tier, 1) + more), (left, low)),
    ]


def _support_chains(layout: Layout, measures: Measures) -> list[Item]:
    """Posts, and bolts, across and along the deck, from edge to edge, so that each chain closes on the whole."""
    left, low, right, high = layout.deck.bounds
    b_left, b_low, _, _ = bounds(layout)
    items: list[Item] = []
    for number, kind in enumerate(kinds_of_support(layout)):
        xs = _distinct([left, right, *(s.at[0] for s in layout.supports if s.kind == kind)])
        items += chain([(x, b_low) for x in xs], measures, -(FIRST + ROW * number), (left, low))
    ys = _distinct([low, high, *(s.at[1] for s in layout.supports)])
    return [*items, *chain([(b_left, y) for y in ys], measures, FIRST, (left, low))]


def kinds_of_support(layout: Layout) -> list[str]:
    """Kinds of support there are, bolts first."""
    return sorted({s.kind for s in layout.supports}, reverse=True)


def _distinct(numbers: Iterable[float], apart: float = 0.02) -> list[float]:
    ordered = sorted(numbers)
    return [a for a, b in zip(ordered, [*ordered[1:], math.inf], strict=True) if b - a > apart]


def _joist_chains(layout: Layout, measures: Measures) -> list[Item]:
    """Spacing of every field of joists, past their ends, equal spaces in one."""
    items: list[Item] = []
    corners = list(layout.deck.exterior.coords)
    b_left, b_low, b_right, b_high = bounds(layout)
    corners += [(b_left, b_low), (b_right, b_low), (b_right, b_high), (b_left, b_high)]
    for number, field in enumerate(layout.project.joists):
        u, n = field_axes(field)
        joists = [m for m in layout.joists if m.field == field.mark]
        places = _distinct(m.line.start[0] * n[0] + m.line.start[1] * n[1] for m in joists)
        reach = max(x * u[0] + y * u[1] for x, y in corners)
        points = [(reach * u[0] + t * n[0], reach * u[1] + t * n[1]) for t in places]
        items += spaced_chain(points, measures, -(FIRST + ROW * number))
    return items


def opening_chains(layout: Layout, measures: Measures, *, below: int, beside: int) -> list[Item]:
    """Where the openings of the deck lie and how large they are, from edge to edge, in chains of their own."""
    if not layout.deck.interiors:
        return []
    left, low, right, high = layout.deck.bounds
    b_left, b_low, _, _ = bounds(layout)
    rings = [Polygon(ring).bounds for ring in layout.deck.interiors]
    xs = _distinct([left, right, *(x for ring in rings for x in (ring[0], ring[2]))])
    ys = _distinct([low, high, *(y for ring in rings for y in (ring[1], ring[3]))])
    return [
        *chain([(x, b_low) for x in xs], measures, -(FIRST + ROW * below), (left, low)),
        *chain([(b_left, y) for y in ys], measures, FIRST + ROW * beside, (left, low)),
    ]


def _view_mark(layout: Layout, letter: str, look: Vector) -> list[Item]:
    """Arrow of an elevation, at a corner of the plan, pointing the way it looks."""
    left, low, right, high = bounds(layout)
    away = 0.12 * max(right - left, high - low) + 6.0
    at = (right + away, low if abs(look[0]) > abs(look[1]) else high)
    return [Arrow(at, math.degrees(math.atan2(look[1], look[0])), 7.0, letter, Layer.NOTES)]
