"""Details of knee braces from a trunk: square foot in its shoe on the lower bolt, level head with its side plates."""

from __future__ import annotations

from bolewright.drawings.chains import chain
from bolewright.drawings.joints import NEAR, box
from bolewright.drawings.measures import Measures
from bolewright.drawings.words import listed, titled
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.layout.trunk_brace_ends import is_paired, profile
from bolewright.platform.layout.trunk_braces import TrunkBrace, trunk_braces
from bolewright.platform.results.results import Results
from bolewright.rendering.drawing import Circle, Drawing, Fill, Item, Layer, Leader, Line, Pen, Point, Polygon
from bolewright.setting_out.trunk_braces import TrunkBraceCut, trunk_brace_cuts

_PAST = 14.0  # in of beam past the head


def trunk_brace_details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Knee braces from a trunk with both ends; like ones in one."""
    layout = results.path.layout
    groups: dict[tuple[object, ...], list[TrunkBrace]] = {}
    for brace in trunk_braces(layout):
        like = (round(brace.a, 2), round(brace.r, 2), brace.support.strut, brace.beam.section.name)
        groups.setdefault((*like, is_paired(layout, brace)), []).append(brace)
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    cuts = {cut.mark: cut for cut in trunk_brace_cuts(layout, pieces)}
    return [_brace(results, group, cuts[group[0].mark], measures) for group in groups.values()]


def _brace(results: Results, group: list[TrunkBrace], cut: TrunkBraceCut, measures: Measures) -> Drawing:
    layout, brace = results.path.layout, group[0]
    a, r, d = brace.a, brace.r, brace.beam.section.d
    thick = layout.project.bolts[brace.foot.bolt or ""].diameter
    corners: list[Point] = [
        (x, z - brace.foot_level) for x, z in profile(brace, paired=is_paired(layout, brace))
    ]
    low_foot, low_head, high_head, high_foot = corners
    left = -thick - 8.0
    items: list[Item] = [
        Circle((0.0, -thick / 2), thick / 2, Layer.BOLTS, Fill.STEEL),
        Polygon(box(left, a, r + _PAST, a + d), Layer.BEAMS, Fill.TIMBER),
        Polygon(tuple(corners), Layer.BRACES, Fill.TIMBER),
        Line((0.0, 0.0), (r, a), Layer.CENTRE, Pen.CENTRE),
        *_bolts(brace, cut),
        *chain([(left, 0.0), (left, a), (left, a + d)], measures, NEAR),
        *chain([(0.0, -thick), (r, -thick)], measures, -NEAR),
        *chain([low_foot, low_head], measures, -7.0),
        *chain([high_foot, high_head], measures, 7.0),
        Leader(
            _middle(low_foot, high_foot),
            f"square, {measures.words(cut.standoff)} off the bearing",
            (16.0, -6.0),
        ),
        Leader(_middle(low_head, high_head), f"level cut {cut.level:.1f}° from square", (20.0, -12.0)),
        Leader((0.0, -thick / 2), f"tree bolt {brace.foot.mark}", (-12.0, -9.0)),
        Leader((left + 3.0, a + 0.6 * d), f"beam {brace.beam.mark}", (-6.0, 9.0)),
    ]
    strut = brace.strut
    rated = (
        f" Shoe rated {measures.force(strut.rated_foot)} along the brace by the maker's sheet you entered."
        if strut.rated_foot is not None
        else ""
    )
    title = f"Knee brace from the trunk {listed(item.mark for item in group)}"
    notes = [
        f"{cut.section}.{_bored(brace, cut, measures)}{rated} Dimensions to working points: the "
        f"bearing on the bolt, and the beam's underside. Drawn for {brace.mark}."
    ]
    return titled(results, title, items, f"{title}. {notes[0]}", notes)


def _along(brace: TrunkBrace, cut: TrunkBraceCut, hole: float) -> Point:
    """Where a hole is that is so far from the foot on the brace's middle line."""
    part = (cut.standoff + hole) / brace.length
    return (part * brace.r, part * brace.a)


def _bolts(brace: TrunkBrace, cut: TrunkBraceCut) -> list[Item]:
    D, z = brace.strut.bolt_diameter or 0.0, brace.a + brace.beam.section.d / 2
    at = [_along(brace, cut, hole) for hole in (*cut.foot_holes, *cut.head_holes)]
    at += [(brace.r + hole - cut.on_beam, z) for hole in cut.beam_holes]
    return [Circle(p, D / 2, Layer.HARDWARE, Fill.STEEL) for p in at]


def _bored(brace: TrunkBrace, cut: TrunkBraceCut, measures: Measures) -> str:
    """Where it is bored and what plates it has, in words."""
    strut = brace.strut
    if not cut.head_holes and not cut.foot_holes:
        return " Plates and bolts of its ends are not given: head and foot by their ties alone."
    bolts = measures.words(strut.bolt_diameter or 0.0)
    said = f" Steel plates of {measures.words(strut.plate)} on both sides, bolts {bolts}, on the middle line."
    for end, holes in (("foot", cut.foot_holes), ("head", cut.head_holes)):
        if holes:
            said += f" Bored for its {end} {', '.join(measures.words(h) for h in holes)} from its foot."
    if cut.beam_holes:
        said += " In the beam at mid-depth, over the middle of the head."
    return said


def _middle(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
