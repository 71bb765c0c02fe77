"""Details of hangers: cut across the beam, and plan with the skew."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.drawings.chains import chain
from bolewright.drawings.joints import NEAR, PLATE, STUB, box, plies
from bolewright.drawings.measures import Measures
from bolewright.drawings.words import listed, titled
from bolewright.platform.checks.seats import held_by_fasteners
from bolewright.platform.layout.layout import Layout, Member, Seat
from bolewright.platform.layout.pieces import EndCut, Piece, Side, cut_pieces
from bolewright.platform.results.results import Results
from bolewright.rendering.annotations import text_length
from bolewright.rendering.drawing import Drawing, Fill, Item, Layer, Leader, Line, Pen, Point, Polygon, Text
from bolewright.rendering.laying import MARGIN_MM, PAGE_WIDTH_MM

_TITLE_MM = PAGE_WIDTH_MM - 2 * MARGIN_MM


@dataclass(frozen=True)
class Hung:
    """An end of a piece that hangs: the piece, its cut there, the seat, and the two members."""

    piece: Piece
    cut: EndCut
    seat: Seat
    member: Member
    beam: Member

    @property
    def like(self) -> tuple[object, ...]:
        """What makes two hung ends the same joint."""
        drop = round(self.beam.top - self.member.top, 2)
        sizes = (self.member.section.name, self.beam.section.name)
        return (*sizes, self.seat.connection, drop, round(self.cut.bevel, 1), self.cut.long_point)


def hung_ends(layout: Layout) -> list[Hung]:
    """Every hung end of a layout, in the layout's order."""
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    found = []
    for member in layout.members:
        for cut in (pieces[member.mark].start, pieces[member.mark].end):
            if cut.hung and not held_by_fasteners(member):
                seat = member.seats[0] if cut.at == "start" else member.seats[-1]
                found.append(Hung(pieces[member.mark], cut, seat, member, layout.member(cut.meets)))
    return found


def hanger_details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Hangers: cut across the beam, and plan with the skew; like ones in one."""
    groups: dict[tuple[object, ...], list[Hung]] = {}
    for hung in hung_ends(results.path.layout):
        groups.setdefault(hung.like, []).append(hung)
    return [_hanger(results, group, measures) for group in groups.values()]


def _hanger(results: Results, group: list[Hung], measures: Measures) -> Drawing:
    first = group[0]
    connection = results.project.connections.get(first.seat.connection or "")
    seat = connection.seat_length if connection else 1.5
    w, d_c = first.beam.width, first.beam.section.d
    top = first.member.top - first.beam.top
    d, face = first.member.section.d, w / 2
    items: list[Item] = [
        Polygon(box(-face, -d_c, face, 0), Layer.BEAMS, Fill.END_GRAIN),
        *plies(-face, -d_c, face, 0, first.beam.section.plies),
        Polygon(box(face, top - d, face + STUB, top), Layer.JOISTS, Fill.TIMBER),
        Polygon(box(face, top - d - PLATE, face + seat, top - d), Layer.HARDWARE, Fill.STEEL),
        Polygon(box(face - PLATE, top - d - PLATE, face, top - 0.3 * d), Layer.HARDWARE, Fill.STEEL),
        Polygon(box(face, top - d, face + seat, top - 0.4 * d), Layer.HARDWARE, Fill.NONE, Pen.DASHED),
        *chain([(-face, -d_c), (-face, 0)], measures, NEAR),
        *chain([(face + STUB, top - d), (face + STUB, top)], measures, -NEAR),
        *chain([(face, min(top - d, -d_c)), (face + seat, min(top - d, -d_c))], measures, -NEAR),
        *chain([(-face, 0), (face, 0)], measures, NEAR),
        Leader((0.0, -0.3 * d_c), f"{first.beam.section.name}", (-12.0, 8.0)),
        Leader((face + 0.6 * STUB, top - d / 2), f"{first.member.section.name}", (8.0, 10.0)),
    ]
    if abs(top) > 1 / 32:
        items += chain([(face + 4.0, 0.0), (face + 4.0, top)], measures, NEAR)
    items += _hanger_plan(first, measures, face + STUB + 14.0)
    joints: dict[str, list[str]] = {}
    for hung in group:
        joints.setdefault(hung.beam.mark, []).append(hung.member.mark)
    like: dict[frozenset[str], list[str]] = {}  # those that hold the same ends are named together
    for beam, marks in joints.items():
        like.setdefault(frozenset(marks), []).append(beam)
    where = "; ".join(f"{listed(dict.fromkeys(joints[on[0]]))} on {listed(on)}" for on in like.values())
    title = f"Hanger {where}"
    if text_length(Text((0.0, 0.0), title, 3.0, bold=True)) > _TITLE_MM:
        title = f"Hanger on {listed(joints)}"
    rated = ""
    if connection and connection.rated_load:
        load = measures.force(connection.rated_load)
        rated = f"Hanger {first.seat.connection}, rated {load} by the maker's sheet you entered. "
    skew = (
        f"Skewed {first.cut.bevel:.1f}° to the {first.cut.hanger_skew.value}, looking at the beam. "
        if first.cut.long_point is not Side.NEITHER
        else ""
    )
    whole = "" if where in title else f"{where}. "
    notes = [
        f"{whole}{rated}{skew}The hanger's height, gauge and nails are its maker's; all holes filled. "
        "Plan on the right."
    ]
    return titled(results, title, items, f"{title}. {notes[0]}", notes)


def _hanger_plan(hung: Hung, measures: Measures, x: float) -> list[Item]:
    """Plan of a hung end: the beam upright, the joist coming off it to the right, cut to its face."""
    w, b, bevel = hung.beam.width, hung.member.width, math.radians(hung.cut.bevel)
    # one who faces the beam looks to the left of this plan: the side on his left is below
    lean = {Side.LEFT: 1.0, Side.RIGHT: -1.0, Side.NEITHER: 0.0}[hung.cut.long_point]
    u = (math.cos(bevel), lean * math.sin(bevel))
    n = (-u[1], u[0])
    face = x + w / 2

    def on_face(side: float) -> Point:
        """Corner of the joist on the beam's face."""
        y = side * b / 2 / u[0]
        return (face, y)

    def far(side: float) -> Point:
        return (face + STUB * u[0] + side * b / 2 * n[0], STUB * u[1] + side * b / 2 * n[1])

    corners = (on_face(-1), far(-1), far(1), on_face(1))
    items: list[Item] = [
        Polygon(box(x - w / 2, -9.0, x + w / 2, 9.0), Layer.BEAMS, Fill.TIMBER),
        *plies(x - w / 2, -9.0, x + w / 2, 9.0, hung.beam.section.plies),
        Polygon(corners, Layer.JOISTS, Fill.TIMBER),
        *chain([corners[0], corners[3]], measures, 10.0),
    ]
    if hung.cut.long_point is not Side.NEITHER:
        long, short = (corners[0], corners[3]) if lean > 0 else (corners[3], corners[0])
        foot = (short[0] - hung.cut.offset * u[0], short[1] - hung.cut.offset * u[1])
        items.append(Line(short, foot, Layer.CENTRE, Pen.CENTRE))
        items.append(Line(foot, long, Layer.CENTRE, Pen.CENTRE))
        items.append(Leader(long, "long point", (14.0, -9.0 * lean)))
        items.append(
            Leader(short, f"short point, {measures.words(hung.cut.offset)} back", (14.0, 12.0 * lean))
        )
        items.append(
            Leader(
                (face + 0.55 * STUB * u[0], 0.55 * STUB * u[1]),
                f"bevel {hung.cut.bevel:.1f}° from square",
                (8.0, 16.0 * lean),
            )
        )
    return items
