"""Plan of the decking: every row of boards, the rips, the openings, the room for the trunks, the guard."""

from __future__ import annotations

import math
from collections.abc import Iterable

from shapely import Point as PlanPoint
from shapely import Polygon as Shape

from bolewright.drawings.boards import Board, board_outlines
from bolewright.drawings.chains import chain, spaced_chain
from bolewright.drawings.guards import guard_on_plan
from bolewright.drawings.measures import Measures
from bolewright.drawings.plan_framing import FIRST, opening_chains, overall
from bolewright.drawings.solids import guard_runs, wall_run
from bolewright.drawings.words import listed, titled
from bolewright.platform.layout.layout import Layout, Vector
from bolewright.platform.layout.limbs import limb_at
from bolewright.platform.layout.outlines import trunk_outline
from bolewright.platform.project import Limb, LoadArea, TrunkOpening
from bolewright.platform.results.results import Results
from bolewright.rendering import drawing
from bolewright.rendering.drawing import Drawing, Fill, Item, Layer, Line, Mark, Pen
from bolewright.setting_out.cutout import CutOut, cut_outs, room_needed
from bolewright.setting_out.decking import DeckRows, deck_rows, lie

_GUARD_IN = 1.0  # in: the guard is drawn this far inside the edge


def plan_of_decking(results: Results, measures: Measures = Measures.IMPERIAL) -> Drawing:
    """Plan of the decking with rows numbered, first and last rip, openings and the room for every trunk."""
    layout = results.path.layout
    found = cut_outs(results)
    every_row = deck_rows(layout, room_needed(found))
    boards = board_outlines(results)
    items: list[Item] = [drawing.Polygon(_ring(b), Layer.DECKING, Fill.TIMBER) for b in boards]
    items += [_axis(start, end) for start, end in _joist_lines(layout)]
    items += [item for cut in found for item in _trunk(layout, cut, measures)]
    items += [item for opening in layout.project.trunk_openings for item in _cover(layout, opening)]
    items += [item for limb in layout.project.limbs for item in _limb(layout, limb)]
    items += [_guard(a, b, layout) for a, b in guard_runs(layout)]
    items += guard_on_plan(layout)
    for wall in layout.project.walls:
        a, b = wall_run(layout, wall)
        items += [_guard(a, b, layout), Mark(((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), wall.mark)]
    items += [item for rows in every_row for item in _row_numbers(rows, boards)]
    items += [item for area in layout.project.load_areas for item in _load_area(area, layout)]
    items += overall(layout, measures, tier=1)
    items += opening_chains(layout, measures, below=0, beside=1)
    items += [item for rows in every_row for item in _rips(rows, layout, measures)]
    items += _edges(layout, measures)
    alt = f"Plan of the decking: {sum(len(rows.rows) for rows in every_row)} rows of boards."
    notes = [_about(rows, layout, measures) for rows in every_row]
    unknown = [cut.tree for cut in found if cut.gap.sway is None]
    if unknown:
        notes.append(
            f"Sway of {listed(unknown)} is not known: the gap there counts growth and margin only, and needs more."
        )
    notes += [
        f"{area.mark}: {area.load:g} psf, {area.kind}{f', {area.note}' if area.note else ''}."
        for area in layout.project.load_areas
    ]
    notes.append("Numbers: rows. Thick lines on the edge: guard and walls. Thin broken lines: joists.")
    return titled(results, "Plan of decking", items, alt, notes, north=layout.project.platform.north)


def _ring(board: Board) -> tuple[Vector, ...]:
    return tuple((x, y) for x, y in board.outline.exterior.coords[:-1])


def _joist_lines(layout: Layout) -> Iterable[tuple[Vector, Vector]]:
    return ((m.line.start, m.line.end) for m in layout.joists)


def _axis(start: Vector, end: Vector) -> Item:
    return Line(start, end, Layer.CENTRE, Pen.CENTRE)


def _trunk(layout: Layout, cut: CutOut, measures: Measures) -> list[Item]:
    """Trunk with the room it needs at the floor, and the gap in words."""
    items: list[Item] = [drawing.Polygon(cut.outline, Layer.TRUNK, Fill.TRUNK)]
    items.append(drawing.Polygon(cut.line, Layer.TRUNK, Fill.NONE, Pen.DASHED))
    centre = next(tree.at for tree in layout.project.trees if tree.mark == cut.tree)
    items.append(Mark(centre, cut.tree))
    edge = max(cut.line, key=lambda p: p[0] - p[1])
    items.append(Mark(edge, f"gap {measures.words(cut.gap.needed)}", shift=(12.0, -9.0)))
    return items


def _cover(layout: Layout, opening: TrunkOpening) -> list[Item]:
    """Inner and outer edge of what closes an opening at a trunk, and its mark."""
    tree = next((t for t in layout.project.trees if t.mark == opening.around), None)
    if tree is not None:
        bark = trunk_outline(layout.project, tree)
    else:
        limb = next(x for x in layout.project.limbs if x.mark == opening.around)
        at, radius = limb_at(limb, layout.project.platform.floor_height)
        bark = PlanPoint(at).buffer(radius)
    items: list[Item] = []
    if opening.gap is not None:
        inner = bark.buffer(opening.gap)
        items.append(drawing.Polygon(tuple(inner.exterior.coords[:-1]), Layer.DECKING, Fill.NONE))
        *_, right, high = inner.bounds
        items.append(Mark((right, high), opening.mark, shift=(8.0, 6.0)))
    if opening.overlap is not None and opening.cover == "collar":
        hole = next((Shape(r) for r in layout.deck.interiors if Shape(r).contains(bark.centroid)), bark)
        outer = hole.buffer(opening.overlap, join_style="mitre")
        items.append(drawing.Polygon(tuple(outer.exterior.coords[:-1]), Layer.DECKING, Fill.NONE))
    return items


def _limb(layout: Layout, limb: Limb) -> list[Item]:
    """A limb at the floor, its axis in plan, and its mark."""
    at, radius = limb_at(limb, layout.project.platform.floor_height)
    return [
        drawing.Circle(at, radius, Layer.TRUNK, Fill.TRUNK),
        Line(limb.start, limb.end, Layer.TRUNK, Pen.CENTRE),
        Mark(at, limb.mark, shift=(8.0, -6.0)),
    ]


def _load_area(area: LoadArea, layout: Layout) -> list[Item]:
    """Part of the deck with a load of its own, as far as it lies on the deck."""
    on = Shape(area.corners).intersection(layout.deck)
    if on.is_empty:
        return []
    at = on.representative_point()
    return [
        drawing.Polygon(tuple(area.corners), Layer.LOADS, Fill.NONE, Pen.DASHED),
        Mark((at.x, at.y), area.mark),
    ]


def _guard(a: Vector, b: Vector, layout: Layout) -> Item:
    """Guard along an edge, drawn a little inside it."""
    length = math.dist(a, b)
    n = (-(b[1] - a[1]) / length, (b[0] - a[0]) / length)
    middle = ((a[0] + b[0]) / 2 + n[0], (a[1] + b[1]) / 2 + n[1])
    inside = 1.0 if layout.deck.buffer(0.1).covers(PlanPoint(middle)) else -1.0
    shift = (inside * _GUARD_IN * n[0], inside * _GUARD_IN * n[1])
    return Line((a[0] + shift[0], a[1] + shift[1]), (b[0] + shift[0], b[1] + shift[1]), Layer.GUARD)


def _row_numbers(rows: DeckRows, boards: list[Board]) -> list[Item]:
    """Number of the first, the last and every fifth row, in a bubble somewhere along the row."""
    shown = {1, len(rows.rows), *range(5, len(rows.rows) - 1, 5)}
    (ax, ay), (cx, cy) = rows.along, rows.across
    items: list[Item] = []
    for number in sorted(shown):
        row = rows.rows[number - 1]
        pieces = [b.outline for b in boards if b.field == rows.field and b.row == number]
        if not pieces:
            continue
        middle = (row.near + row.far) / 2
        start, end = max(row.stretches, key=lambda s: s[1] - s[0])
        places = [
            (
                rows.origin[0] + middle * cx + (start + f * (end - start)) * ax,
                rows.origin[1] + middle * cy + (start + f * (end - start)) * ay,
            )
            for f in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
        ]
        inside = [p for p in places if any(piece.covers(PlanPoint(p)) for piece in pieces)]
        at = max(pieces, key=lambda p: p.area).representative_point()
        items.append(Mark((inside or [(at.x, at.y)])[0], str(number), along=tuple(inside[1:])))
    return items


def _rips(rows: DeckRows, layout: Layout, measures: Measures) -> list[Item]:
    """Near edge of row to near edge of row, each with its gap, and the width of the last, past the end of the deck."""
    (ox, oy), (ax, ay), (cx, cy) = rows.origin, rows.along, rows.across
    far = max((x - ox) * ax + (y - oy) * ay for x, y in layout.project.platform.outline)

    def at(t: float) -> Vector:
        return (ox + far * ax + t * cx, oy + far * ay + t * cy)

    side = -1.0 if ax * cy - ay * cx > 0 else 1.0
    edges = [*(row.near for row in rows.rows), rows.rows[-1].far]
    return spaced_chain([at(edge) for edge in edges], measures, side * FIRST)


def _edges(layout: Layout, measures: Measures) -> list[Item]:
    """Length of every edge of the deck that runs neither along x nor along y."""
    items: list[Item] = []
    corners = layout.project.platform.outline
    ccw = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)) > 0
    for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
        if min(abs(a[0] - b[0]), abs(a[1] - b[1])) > 0.05:
            items += chain([a, b], measures, -6.0 if ccw else 6.0)
    return items


def _about(rows: DeckRows, layout: Layout, measures: Measures) -> str:
    """Rows of a field in words."""
    decking, section = layout.project.decking, layout.project.decking.section
    gap, first, last = (measures.words(x) for x in (rows.gap, rows.first, rows.last))
    cut = "first and last row ripped alike to" if rows.shared else "last row ripped to"
    whole = rows.last > rows.board - 1 / 32 and rows.first > rows.board - 1 / 32
    aslant = "" if decking.direction == "square" else f" {lie(decking)}"
    rip = "no rip" if whole else f"{cut} {first if rows.shared else last}"
    return (
        f"Field {rows.field}: {rows.count} rows of {section}{aslant}, gap {gap}; {rip}. "
        "The chain of rows runs from near edge to near edge, gap included."
    )
