"""Details of the joints: hangers with their skew, post caps, brace ends, the boss of a tree bolt."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.drawings.chains import chain
from bolewright.drawings.measures import Measures
from bolewright.drawings.solids import brace_cut, brace_profile
from bolewright.drawings.words import listed, titled
from bolewright.platform.layout import Layout, Member, Seat
from bolewright.platform.project import Brace, Support
from bolewright.platform.results import Results
from bolewright.rendering.drawing import (
    Circle,
    Drawing,
    Fill,
    Item,
    Layer,
    Leader,
    Line,
    Pen,
    Point,
    Polygon,
    Text,
)
from bolewright.setting_out.pieces import EndCut, Piece, Side, cut_pieces
from bolewright.setting_out.stem import bolt_marks
from bolewright.timber.sections import parse_section

STUB = 16.0  # in: length of joist, carrier or post that a detail shows
PLATE = 0.15  # in: thickness a steel plate is drawn with
NEAR = 5.0  # mm
_TITLE = 74  # characters of a title


def details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Every joint of a platform that differs from the others, once each."""
    return [
        *hanger_details(results, measures),
        *cap_details(results, measures),
        *brace_details(results, measures),
        *boss_details(results, measures),
    ]


def _box(left: float, low: float, right: float, high: float) -> tuple[Point, ...]:
    return ((left, low), (right, low), (right, high), (left, high))


def _plies(left: float, low: float, right: float, high: float, plies: int) -> list[Item]:
    """Joints between the plies of a member that is cut across."""
    step = (right - left) / plies
    return [Line((left + k * step, low), (left + k * step, high), Layer.CARRIERS) for k in range(1, plies)]


# ---------------------------------------------------------------------------------------------------------
# Hangers


@dataclass(frozen=True)
class Hung:
    """An end of a piece that hangs: the piece, its cut there, the seat, and the two members."""

    piece: Piece
    cut: EndCut
    seat: Seat
    member: Member
    carrier: Member

    @property
    def like(self) -> tuple[object, ...]:
        """What makes two hung ends the same joint."""
        drop = round(self.carrier.top - self.member.top, 2)
        sizes = (self.member.section.name, self.carrier.section.name)
        return (*sizes, self.seat.connection, drop, round(self.cut.bevel, 1), self.cut.long_point)


def hung_ends(layout: Layout) -> list[Hung]:
    """Every hung end of a layout, in the layout's order."""
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    found = []
    for member in layout.members:
        for cut in (pieces[member.mark].start, pieces[member.mark].end):
            if cut.meets:
                seat = member.seats[0] if cut.at == "start" else member.seats[-1]
                found.append(Hung(pieces[member.mark], cut, seat, member, layout.member(cut.meets)))
    return found


def hanger_details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Hangers: cut across the carrier, and plan with the skew; like ones in one."""
    groups: dict[tuple[object, ...], list[Hung]] = {}
    for hung in hung_ends(results.path.layout):
        groups.setdefault(hung.like, []).append(hung)
    return [_hanger(results, group, measures) for group in groups.values()]


def _hanger(results: Results, group: list[Hung], measures: Measures) -> Drawing:
    first = group[0]
    connection = results.project.connections.get(first.seat.connection or "")
    seat = connection.seat_length if connection else 1.5
    w, d_c = first.carrier.width, first.carrier.section.d
    top = first.member.top - first.carrier.top
    d, face = first.member.section.d, w / 2
    items: list[Item] = [
        Polygon(_box(-face, -d_c, face, 0), Layer.CARRIERS, Fill.END_GRAIN),
        *_plies(-face, -d_c, face, 0, first.carrier.section.plies),
        Polygon(_box(face, top - d, face + STUB, top), Layer.JOISTS, Fill.TIMBER),
        Polygon(_box(face, top - d - PLATE, face + seat, top - d), Layer.HARDWARE, Fill.STEEL),
        Polygon(_box(face - PLATE, top - d - PLATE, face, top - 0.3 * d), Layer.HARDWARE, Fill.STEEL),
        Polygon(_box(face, top - d, face + seat, top - 0.4 * d), Layer.HARDWARE, Fill.NONE, Pen.DASHED),
        *chain([(-face, -d_c), (-face, 0)], measures, NEAR),
        *chain([(face + STUB, top - d), (face + STUB, top)], measures, -NEAR),
        *chain([(face, min(top - d, -d_c)), (face + seat, min(top - d, -d_c))], measures, -NEAR),
        *chain([(-face, 0), (face, 0)], measures, NEAR),
        Leader((0.0, -0.3 * d_c), f"{first.carrier.section.name}", (-12.0, 8.0)),
        Leader((face + 0.6 * STUB, top - d / 2), f"{first.member.section.name}", (8.0, 10.0)),
    ]
    if abs(top) > 1 / 32:
        items += chain([(face + 4.0, 0.0), (face + 4.0, top)], measures, NEAR)
    items += _hanger_plan(first, measures, face + STUB + 14.0)
    joints: dict[str, list[str]] = {}
    for hung in group:
        joints.setdefault(hung.carrier.mark, []).append(hung.member.mark)
    where = "; ".join(f"{listed(dict.fromkeys(marks))} on {carrier}" for carrier, marks in joints.items())
    title = f"Hanger {where}"
    if len(title) > _TITLE:
        title = f"Hanger on {listed(joints)}"
    rated = ""
    if connection and connection.rated_load:
        rated = f"Hanger {first.seat.connection}, rated {connection.rated_load:g} lb by the maker's sheet you entered. "
    skew = (
        f"Skewed {first.cut.bevel:.1f}° to the {first.cut.hanger_skew.value}, looking at the carrier. "
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
    """Plan of a hung end: the carrier upright, the joist coming off it to the right, cut to its face."""
    w, b, bevel = hung.carrier.width, hung.member.width, math.radians(hung.cut.bevel)
    # one who faces the carrier looks to the left of this plan: the side on his left is below
    lean = {Side.LEFT: 1.0, Side.RIGHT: -1.0, Side.NEITHER: 0.0}[hung.cut.long_point]
    u = (math.cos(bevel), lean * math.sin(bevel))
    n = (-u[1], u[0])
    face = x + w / 2

    def on_face(side: float) -> Point:
        """Corner of the joist on the carrier's face."""
        y = side * b / 2 / u[0]
        return (face, y)

    def far(side: float) -> Point:
        return (face + STUB * u[0] + side * b / 2 * n[0], STUB * u[1] + side * b / 2 * n[1])

    corners = (on_face(-1), far(-1), far(1), on_face(1))
    items: list[Item] = [
        Polygon(_box(x - w / 2, -9.0, x + w / 2, 9.0), Layer.CARRIERS, Fill.TIMBER),
        *_plies(x - w / 2, -9.0, x + w / 2, 9.0, hung.carrier.section.plies),
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


# ---------------------------------------------------------------------------------------------------------
# Post caps


def cap_details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Post caps: along the carrier and across it; like ones in one."""
    layout = results.path.layout
    groups: dict[tuple[object, ...], list[Support]] = {}
    for support in layout.supports:
        if support.kind == "post":
            member, seat = layout.on_support(support.mark)[0]
            ends = (min(seat.at, STUB), min(member.line.length - seat.at, STUB))
            like = (support.post, member.section.name, tuple(sorted(round(end, 1) for end in ends)))
            groups.setdefault(like, []).append(support)
    return [_cap(results, group, measures) for group in groups.values()]


def _cap(results: Results, group: list[Support], measures: Measures) -> Drawing:
    layout, support = results.path.layout, group[0]
    post = results.project.posts[support.post or ""]
    section = parse_section(post.section)
    member, seat = layout.on_support(support.mark)[0]
    d, w = member.section.d, member.width
    before, after = min(seat.at, STUB), min(member.line.length - seat.at, STUB)
    length, plate = post.cap_length or section.b, post.cap_seat
    x2 = after + 16.0 + max(section.d, w)
    items: list[Item] = [
        Polygon(_box(-section.b / 2, -plate - STUB, section.b / 2, -plate), Layer.POSTS, Fill.TIMBER),
        Polygon(_box(-before, 0, after, d), Layer.CARRIERS, Fill.TIMBER),
        Polygon(
            _box(x2 - section.d / 2, -plate - STUB, x2 + section.d / 2, -plate), Layer.POSTS, Fill.TIMBER
        ),
        Polygon(_box(x2 - w / 2, 0, x2 + w / 2, d), Layer.CARRIERS, Fill.END_GRAIN),
        *_plies(x2 - w / 2, 0, x2 + w / 2, d, member.section.plies),
        Line((0.0, -plate - STUB - 1), (0.0, d + 1), Layer.CENTRE, Pen.CENTRE),
        Line((x2, -plate - STUB - 1), (x2, d + 1), Layer.CENTRE, Pen.CENTRE),
        *chain([(after, 0), (after, d)], measures, -NEAR),
        *chain([(-section.b / 2, -plate - STUB), (section.b / 2, -plate - STUB)], measures, -NEAR),
        *chain([(x2 - section.d / 2, -plate - STUB), (x2 + section.d / 2, -plate - STUB)], measures, -NEAR),
        *chain([(x2 - w / 2, d), (x2 + w / 2, d)], measures, NEAR),
        Leader((-section.b / 4, -plate - 0.6 * STUB), f"post {post.section}", (-14.0, 4.0)),
        Leader((after * 0.4, 0.7 * d), f"{member.section.name}", (8.0, 16.0)),
    ]
    for x, half in ((0.0, length / 2), (x2, max(section.d, w) / 2)):
        if plate:
            items.append(Polygon(_box(x - half, -plate, x + half, 0), Layer.HARDWARE, Fill.STEEL))
        items.append(
            Polygon(_box(x - half, -plate - 3.0, x + half, 0.4 * d), Layer.HARDWARE, Fill.NONE, Pen.DASHED)
        )
    items += chain([(-length / 2, 0.4 * d), (length / 2, 0.4 * d)], measures, 9.0)
    if seat.at < STUB:
        items += chain([(-before, d), (0.0, d)], measures, NEAR)
    if member.line.length - seat.at < STUB:
        items += chain([(0.0, d), (after, d)], measures, NEAR)
    over = dict.fromkeys(m.mark for s in group for m, _ in layout.on_support(s.mark))
    title = f"Post cap {listed(s.mark for s in group)} under {listed(over)}"
    ratings = [
        words
        for words in (
            f"cap rated {post.cap_side:g} lb sideways" if post.cap_side else "",
            f"tie on each side of the carrier rated {post.roll_tie:g} lb" if post.roll_tie else "",
            f"plate {measures.words(plate)} thick, taken off the post" if plate else "",
        )
        if words
    ]
    said = "; ".join(ratings)
    notes = [
        f"{said[:1].upper()}{said[1:]}{'. ' if said else ''}Cap broken: its shape and fasteners are its maker's."
    ]
    return titled(results, title, items, f"{title}. {notes[0]}", notes)


# ---------------------------------------------------------------------------------------------------------
# Brace ends


def brace_details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Knee braces with both ends; like ones in one."""
    layout = results.path.layout
    groups: dict[tuple[object, ...], list[Brace]] = {}
    for brace in layout.project.braces:
        like = (
            brace.rise,
            brace.run,
            brace.section,
            brace.plies,
            brace.bolts,
            brace.bolt_diameter,
            brace.rated_load,
        )
        post = next(s for s in layout.supports if s.mark == brace.support).post
        groups.setdefault((*like, post, layout.member(brace.carrier).section.name), []).append(brace)
    return [_brace(results, group, measures) for group in groups.values()]


def _brace(results: Results, group: list[Brace], measures: Measures) -> Drawing:
    layout, brace = results.path.layout, group[0]
    cut = brace_cut(layout, brace)
    support = next(s for s in layout.supports if s.mark == brace.support)
    b = parse_section(layout.project.posts[support.post or ""].section).b
    seat, d = layout.seat_level(brace.support), layout.member(brace.carrier).section.d
    profile = tuple((x, z - seat) for x, z in brace_profile(layout, brace))
    foot, head = (0.0, -brace.rise), (brace.run, 0.0)
    low = -brace.rise - 12.0
    post = Polygon(_box(-b / 2, low, b / 2, 0), Layer.POSTS, Fill.TIMBER)
    carrier = Polygon(_box(-b / 2 - 6.0, 0, brace.run + 16.0, d), Layer.CARRIERS, Fill.TIMBER)
    items: list[Item] = [
        post,
        carrier,
        Polygon(profile, Layer.BRACES, Fill.TIMBER),
        Line(foot, head, Layer.CENTRE, Pen.CENTRE),
        Line((0.0, low), (0.0, d), Layer.CENTRE, Pen.CENTRE),
        *chain([(-b / 2, -brace.rise), (-b / 2, 0)], measures, NEAR + 1),
        *chain([(0.0, low), (brace.run, low)], measures, -NEAR),
        *chain([foot, head], measures, -9.0 if cut.fitted else -10.0),
        Leader((-b / 4, low + 3.0), f"post {brace.support}", (-12.0, -5.0)),
        Leader((brace.run + 8.0, 0.6 * d), f"carrier {brace.carrier}", (8.0, 8.0)),
    ]
    if cut.fitted:
        corners = {"long edge": (profile[0], profile[1]), "short edge": (profile[3], profile[2])}
        (a, c), side = corners["long edge"], -4.0
        items += chain([a, c], measures, side)
        items.append(
            Leader(_middle(profile[0], profile[3]), f"plumb cut {cut.plumb:.1f}° from square", (12.0, -14.0))
        )
        items.append(
            Leader(_middle(profile[1], profile[2]), f"level cut {cut.level:.1f}° from square", (14.0, -10.0))
        )
    else:
        words = f"{brace.bolts} bolts {measures.words(brace.bolt_diameter or 0.0)} centred here"
        part = cut.short_edge / cut.axis
        upper = (part * head[0], foot[1] + part * (head[1] - foot[1]))
        items += chain([foot, upper], measures, -15.0)
        for at, shift in ((foot, (-10.0, -14.0)), (upper, (14.0, 10.0))):
            items.append(Circle(at, (brace.bolt_diameter or 0.5) / 2, Layer.HARDWARE, Fill.STEEL))
            items.append(Leader(at, words, shift))
    long = measures.words(cut.long_edge)
    sides = "one side" if brace.plies == 1 else "both sides"
    shape = (
        f"Long edge {long}, short edge {measures.words(cut.short_edge)}, fitted between post and carrier."
        if cut.fitted
        else f"{long} long, square ends, lapped on {sides} of post and carrier."
    )
    rated = (
        f" Ends rated {brace.rated_load:g} lb by the maker's sheet you entered." if brace.rated_load else ""
    )
    title = f"Knee brace {listed(item.mark for item in group)}"
    notes = [
        f"({brace.plies}) {cut.section}. {shape}{rated} Dimensions to working points. Drawn for {brace.mark}."
    ]
    return titled(results, title, items, f"{title}. {notes[0]}", notes)


def _middle(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)


# ---------------------------------------------------------------------------------------------------------
# The boss


def boss_details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Boss of every kind of tree bolt as it stands out of the bark, side and end; like ones in one."""
    layout = results.path.layout
    groups: dict[tuple[object, ...], list[Support]] = {}
    placed = {bolt.mark: bolt for bolt in bolt_marks(layout)}
    for support in layout.supports:
        if support.kind == "tree bolt":
            bolt = placed[support.mark]
            like = (
                support.bolt,
                round(bolt.projection, 2),
                round(bolt.lever, 2),
                support.sideways,
                support.slot,
            )
            groups.setdefault(like, []).append(support)
    return [_boss(results, group, measures) for group in groups.values()]


def _boss(results: Results, group: list[Support], measures: Measures) -> Drawing:
    layout, support = results.path.layout, group[0]
    kind = layout.project.bolts[support.bolt or ""]
    tree = next(t for t in layout.project.trees if t.mark == support.tree)
    bolt = next(b for b in bolt_marks(layout) if b.mark == support.mark)
    r, rise = kind.diameter / 2, bolt.seat_level - bolt.centre_level
    p, half, d = bolt.projection, kind.seat_length / 2, layout.on_support(support.mark)[0][0].width
    end, low, high = p + half + kind.slide, -4.5, rise + 6.0
    inside = p + kind.slide - bolt.lever  # of the sound wood's face, from the bark
    x2 = end + 9.0
    items: list[Item] = [
        Polygon(_box(-4.0, low, 0.0, high), Layer.STEM, Fill.STEM),
        Line((inside, low), (inside, high), Layer.STEM, Pen.DASHED),
        Polygon(_box(-4.0, -r, end, r), Layer.BOLTS, Fill.WASH),
        Line((-4.5, 0.0), (end + 1.5, 0.0), Layer.CENTRE, Pen.CENTRE),
        Line((p, low), (p, high), Layer.CENTRE, Pen.CENTRE),
        Circle((x2, 0.0), r, Layer.BOLTS, Fill.WASH),
        Line((x2 - r - 1.5, 0.0), (x2 + r + 1.5, 0.0), Layer.CENTRE, Pen.CENTRE),
    ]
    for x, wide in ((p, half), (x2, d / 2)):
        if rise > r + 0.02:
            items.append(Polygon(_box(x - wide, r, x + wide, rise), Layer.HARDWARE, Fill.END_GRAIN))
        items.append(Polygon(_box(x - wide, rise, x + wide, high), Layer.CARRIERS, Fill.TIMBER))
    items += [
        *chain([(0.0, low), (p, low)], measures, -NEAR),
        *chain([(inside, low), (p + kind.slide, low)], measures, -(NEAR + 8.0)),
        *chain([(p - half, high), (p + half, high)], measures, NEAR),
        *chain([(x2 + d / 2, 0.0), (x2 + d / 2, rise)], measures, -NEAR),
        *chain([(x2 - r, -r), (x2 + r, -r)], measures, -NEAR),
        Leader((-2.0, high - 2.0), tree.mark, (-8.0, 6.0)),
        Text((x2, high + 1.0), "end", 2.2),
    ]
    if kind.slide:
        items += chain([(p, high), (p + kind.slide, high)], measures, NEAR + 8.0)
    bears = "Bracket" if kind.seat == "steel bracket" else "Timber"
    slot = f" in a slot of {measures.words(support.slot)}" if support.slot else ""
    moves = {
        "tied": "tied to the bolt both ways",
        "slides": f"sliding along the bolt{slot}",
        "floats": "floating on a pad both ways",
    }.get(support.sideways or "", "with nothing that holds it sideways")
    title = f"Boss {listed(s.mark for s in group)}"
    notes = [
        f"{bears} {moves}. Upper chain: length of the bearing; lower ones: bark to the middle of the bearing, and "
        f"sound wood to it at its farthest. Drawn for {support.mark}."
    ]
    return titled(results, title, items, f"{title}. {notes[0]}", notes)
