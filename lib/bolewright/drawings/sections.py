"""Sections: upright cuts through a tree bolt with all that bears on it, and through a post with its footing."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from shapely import MultiPoint, Polygon, box

from bolewright.drawings.as_built import built_words, level_line
from bolewright.drawings.bodies import Solid, View, prism
from bolewright.drawings.chains import chain, levels_chain
from bolewright.drawings.covering import Patch, clipped, painted
from bolewright.drawings.measures import Measures
from bolewright.drawings.solids import solids_of
from bolewright.drawings.words import listed, titled
from bolewright.mechanics.convex import round_plan
from bolewright.platform.layout.layout import Layout, Member, Seat, trunk_radius
from bolewright.platform.project import Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.rendering import drawing
from bolewright.rendering.drawing import Drawing, Fill, Item, Layer, Leader, Line, Mark, Pen
from bolewright.setting_out.differences import differences
from bolewright.setting_out.foot_bolts import foot_bolts
from bolewright.setting_out.trunk import BoltMark, bolt_marks, girth_of
from bolewright.timber.sections import parse_section

FIRST, ROW, LEVELS = 7.0, 8.0, 19.0  # mm: to the first chain, between chains, past one with level words
_CUT_FILL = {Fill.TIMBER: Fill.END_GRAIN}
_HAIR = 0.01  # in: cuts are taken this far off the axis, so that they pass no corner exactly


def cut_patches(solids: tuple[Solid, ...], view: View, through: float, window: Polygon) -> list[Patch]:
    """What a section shows inside a window: parts beyond the cut, then the cut faces."""
    beyond: list[tuple[float, Patch]] = []
    faces: list[tuple[float, Patch]] = []
    for solid in solids:
        face = solid.cut(view, through)
        if solid.layer is Layer.GUARD:
            continue
        behind = [view.flat(p) for p in solid.points if view.depth(p) <= through]
        if face is not None:
            behind += list(face.exterior.coords)
        outline = MultiPoint(behind).convex_hull if behind else None
        if isinstance(outline, Polygon) and outline.area > 1e-3:
            nearest = max(view.depth(p) for p in solid.points if view.depth(p) <= through or face is not None)
            beyond.append((min(nearest, through), Patch(outline, solid.layer, solid.fill)))
        if face is not None:
            rank = 1.0 if solid.fill is Fill.STEEL else 0.5 if solid.layer is Layer.POSTS else 0.0
            faces.append((rank, Patch(face, solid.layer, _CUT_FILL.get(solid.fill, solid.fill))))
    ordered = [patch for _, patch in sorted(beyond, key=lambda item: item[0])]
    ordered += [patch for _, patch in sorted(faces, key=lambda item: item[0])]
    return clipped(ordered, window)


Section = Callable[[Results, Support, Measures], tuple[list[Item], str, list[str]]]


def bolt_sections(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Sections at the tree bolts, bolts that measure the same in one."""
    return _grouped(results, measures, SupportKind.TREE_BOLT, _bolt_section, "Section at tree bolt")


def post_sections(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Sections at posts and footings, posts that measure the same in one."""
    return _grouped(results, measures, SupportKind.POST, _post_section, "Section at post and footing")


def _grouped(
    results: Results, measures: Measures, kind: SupportKind, make: Section, title: str
) -> list[Drawing]:
    groups: dict[str, list[tuple[str, list[Item], list[str]]]] = {}
    for support in results.path.layout.supports:
        if support.kind == kind:
            items, key, notes = make(results, support, measures)
            groups.setdefault(key, []).append((support.mark, items, notes))
    drawings = []
    for members in groups.values():
        _, items, notes = members[0]
        name = f"{title} {listed(mark for mark, _, _ in members)}"
        said = [f"Drawn for {members[0][0]}."] if len(members) > 1 else []
        drawings.append(titled(results, name, items, f"{name}. {' '.join(notes)}", [*notes, *said]))
    return drawings


def _bolt_section(
    results: Results, support: Support, measures: Measures
) -> tuple[list[Item], str, list[str]]:
    layout = results.path.layout
    bolt = next(b for b in bolt_marks(layout) if b.mark == support.mark)
    kind = layout.project.bolts[support.bolt or ""]
    tree = next(t for t in layout.project.trees if t.mark == support.tree)
    dx, dy = bolt.bearing[0] - bolt.entry[0], bolt.bearing[1] - bolt.entry[1]
    u = (dx / bolt.projection, dy / bolt.projection)
    view = View((-u[1], u[0]))
    through = view.depth((*bolt.bearing, 0.0)) + _HAIR
    bearing, entry = view.across(bolt.bearing), view.across(bolt.entry)
    face, tip = bearing - bolt.lever, entry - bolt.hole_depth
    floor = layout.project.platform.floor_height
    low, left, right = bolt.centre_level - 7.0, tip - 3.0, bearing + max(8.0, kind.seat_length + kind.slide)
    window = box(left, low, right, floor + 4.0)
    trunk = prism(
        tree.mark, Layer.TRUNK, Fill.TRUNK, round_plan(tree.at, trunk_radius(tree)), low, floor + 4.0
    )
    solids = (trunk, *(s for s in solids_of(results) if s.layer is not Layer.TRUNK))
    bark = prism(
        tree.mark,
        Layer.TRUNK,
        Fill.NONE,
        round_plan(tree.at, trunk_radius(tree) - tree.bark),
        low,
        floor + 4.0,
    )
    items: list[Item] = painted(cut_patches(solids, view, through, window))
    sound = bark.cut(view, through)
    if sound is not None:
        for x in (sound.bounds[0], sound.bounds[2]):
            if left < x < right:
                items.append(Line((x, low), (x, floor + 4.0), Layer.TRUNK, Pen.DASHED))
    items.append(
        Line((tip - 1.5, bolt.centre_level), (right - 1.0, bolt.centre_level), Layer.CENTRE, Pen.CENTRE)
    )
    items.append(Line((bearing, low), (bearing, bolt.seat_level), Layer.CENTRE, Pen.CENTRE))
    from_tip = (tip, low)
    lengths = chain([(x, low) for x in (tip, face, entry, bearing)], measures, -FIRST, from_tip)
    lengths += chain([(face, low), (bearing + kind.slide, low)], measures, -(FIRST + ROW), from_tip)
    if kind.slide:
        lengths += chain([(bearing, low), (bearing + kind.slide, low)], measures, -FIRST, from_tip)
    over = layout.on_support(support.mark)
    levels = [bolt.centre_level, bolt.seat_level, *(m.top for m, _ in over), layout.under_deck, floor]
    lengths += levels_chain(right, sorted({round(z, 4) for z in levels}), measures, -FIRST)
    items += lengths
    items.append(
        Leader((tip + 1.5, bolt.centre_level), f"bolt, {measures.words(kind.diameter)} thick", (-8.0, -10.0))
    )
    items.append(Leader((face - 3.0, bolt.centre_level + 3.0), "sound wood", (-10.0, 6.0)))
    items.append(
        Leader(((face + entry) / 2, floor - 3.0), f"bark {measures.words(tree.bark)}", (-12.0, 12.0))
    )
    items += _bolt_as_built(layout, support, bolt, view)
    seat = "steel bracket" if kind.seat == "steel bracket" else "timber bears on the bolt"
    items.append(
        Leader(
            (bearing, bolt.seat_level - 0.2),
            f"{seat}, {measures.words(kind.seat_length)} long",
            (10.0, -12.0),
        )
    )
    items += _stack_notes(over, view)
    notes = [
        f"Seat {measures.words(bolt.seat_level)} above grade. Girth {measures.words(girth_of(tree))} "
        f"over the bark. Lower dimension: lever arm, sound wood to the middle of the bearing"
        f"{' slid out as far as it goes' if kind.slide else ''}.",
        *_beside_words(bolt, measures),
        *(built := built_words(layout, measures, (support.mark,))),
    ]
    return items, _key(lengths, [*built, kind.seat, f"{girth_of(tree):.2f}", *_sizes(over)]), notes


def _beside_words(bolt: BoltMark, measures: Measures) -> Iterator[str]:
    """How a bolt lies whose line passes the trunk's axis."""
    if bolt.template:
        yield (
            f"Bored {measures.words(abs(bolt.a))} beside the trunk's axis, at {abs(bolt.template):.1f}° to the line "
            "from the mark to the axis; lengths are on the bolt's own line. On one side of it the sound wood begins "
            "farther in, which the checks add to the lever arm."
        )


def _bolt_as_built(layout: Layout, support: Support, bolt: BoltMark, view: View) -> Iterator[Item]:
    """Lines at the tip that the bolt reached, and at the middle of the bearing as it stands out."""
    found = {d.what: d for d in differences(layout) if d.mark == support.mark}
    face = view.across(bolt.bearing) - bolt.projection
    z = bolt.centre_level
    reached = found.get("thread in sound wood")
    if reached is not None:
        x = face - bolt.hole_depth + (reached.planned - reached.built)
        yield Line((x, z - 2.0), (x, z + 2.0), Layer.HIGHLIGHT)
        yield Mark((x, z + 2.0), "tip, as built", shift=(-6.0, 8.0))
    out = found.get("bark to middle of bearing")
    if out is not None:
        x = face + out.built
        yield Line((x, z - 2.0), (x, z + 2.0), Layer.HIGHLIGHT)
        yield Mark((x, z - 2.0), "bearing, as built", shift=(6.0, -8.0))


def _stack_notes(over: tuple[tuple[Member, Seat], ...], view: View) -> Iterator[Item]:
    """What lies on a support, each with its size; members that meet there in one note, as they have one dot."""
    noted: dict[tuple[float, float], dict[str, list[str]]] = {}
    for member, seat in over:
        at, z = view.across(member.line.at(seat.at)), member.top - member.section.d / 3
        noted.setdefault((round(at, 2), round(z, 2)), {}).setdefault(member.section.name, []).append(
            member.mark
        )
    for dot, sizes in noted.items():
        text = ", ".join(f"{', '.join(marks)}, {size}" for size, marks in sizes.items())
        yield Leader(dot, text, (14.0, 10.0))


def _sizes(over: tuple[tuple[Member, Seat], ...]) -> list[str]:
    return [member.section.name for member, _ in over]


def _key(lengths: list[Item], words: list[str]) -> str:
    return "|".join([*(item.text for item in lengths if isinstance(item, drawing.Dimension)), *words])


def _post_section(
    results: Results, support: Support, measures: Measures
) -> tuple[list[Item], str, list[str]]:
    layout = results.path.layout
    post = layout.project.posts[support.post or ""]
    footing = layout.project.footings[support.footing or ""]
    over = layout.on_support(support.mark)
    view = View(over[0][0].line.u)
    through = view.depth((*support.at, 0.0)) + _HAIR
    x = view.across(support.at)
    floor, section = layout.project.platform.floor_height, parse_section(post.section)
    foot, bottom = footing.pad - footing.depth, -footing.depth
    low, half = bottom - footing.gravel, footing.width / 2
    reach = half + 12.0
    window = box(x - reach, low - 2.0, x + reach, floor + 4.0)
    own = tuple(
        s
        for s in solids_of(results)
        if s.layer not in (Layer.FOOTINGS, Layer.POSTS) or s.mark == support.mark
    )
    soil = box(x - reach, low - 3.0, x + reach, 0.0).difference(box(x - half, low, x + half, 1.0))
    items: list[Item] = [
        drawing.Polygon(
            tuple((a, b) for a, b in soil.exterior.coords[:-1]), Layer.GROUND, Fill.SOIL, Pen.NONE
        )
    ]
    items += painted(cut_patches(own, view, through, window))
    items += [
        Line((x - reach, 0.0), (x - half, 0.0), Layer.GROUND),
        Line((x + half, 0.0), (x + reach, 0.0), Layer.GROUND),
    ]
    seat = layout.seat_level(support.mark)
    tops = [seat - post.cap_seat, seat, *(m.top for m, _ in over), layout.under_deck, floor]
    levels = sorted({round(z, 4) for z in (foot, 0.0, *tops)})
    lengths = levels_chain(x + reach, levels, measures, -FIRST)
    lengths += chain([(x + reach, 0.0), (x + reach, floor)], measures, -(FIRST + LEVELS))
    depths = sorted({round(z, 4) for z in (low, bottom, foot, 0.0)})
    lengths += levels_chain(x - reach, depths, measures, FIRST)
    frost = -layout.project.site.frost_depth
    lengths += chain([(x - reach, frost), (x - reach, 0.0)], measures, FIRST + LEVELS)
    lengths += chain([(x - half, low - 2.0), (x + half, low - 2.0)], measures, -FIRST)
    items += lengths
    items.append(Line((x - reach, frost), (x + reach, frost), Layer.HIDDEN, Pen.DASHED))
    items.append(Leader((x + half + 4.0, frost), "frost depth", (6.0, 6.0)))
    items.append(
        Leader((x + section.d / 4, 0.35 * seat), f"post {support.mark}, {post.section}", (14.0, 6.0))
    )
    items.append(Leader((x + half * 0.6, bottom + 2.0), "plain concrete", (14.0, -9.0)))
    if footing.gravel:
        items.append(Leader((x + half * 0.4, low + 1.0), "tamped gravel", (16.0, -14.0)))
    items += _foot_bolt_lines(layout, support.mark, x, foot, measures)
    items += _stack_notes(over, view)
    for found in differences(layout):
        if found.mark == support.mark and "grade" in found.what:
            below = "below" in found.what
            items += level_line(
                x, -found.built if below else found.built, "dug, as built" if below else "cut, as built"
            )
    own_bolts = _foot_bolt_words(layout, support.mark, measures)
    round_or_square = "round" if footing.shape == "round" else "square"
    notes = [
        f"Post from the concrete to its cut: {measures.words(seat - post.cap_seat - foot)}, planned; cut it to the "
        f"level taken on the day. Footing {round_or_square}, {measures.words(footing.width)} wide. Soil: "
        f"{layout.project.site.soil}.",
        *own_bolts,
        *(built := built_words(layout, measures, (support.mark,))),
    ]
    return (
        items,
        _key(lengths, [*built, *own_bolts, post.section, footing.shape, footing.fill, *_sizes(over)]),
        notes,
    )


def _foot_bolt_lines(layout: Layout, mark: str, x: float, foot: float, measures: Measures) -> Iterator[Item]:
    """The bolts through a post's foot, from end to end."""
    for bolts in foot_bolts(layout):
        if mark not in bolts.marks:
            continue
        for height in bolts.heights:
            ends = (x - bolts.length / 2, foot + height), (x + bolts.length / 2, foot + height)
            yield Line(*ends, Layer.HARDWARE)
        words = f"{bolts.each} bolt{'s' * (bolts.each > 1)} {measures.words(bolts.diameter)}, through the post's foot"
        yield Leader((x + bolts.length / 2, foot + bolts.heights[0]), words, (12.0, 8.0))


def _foot_bolt_words(layout: Layout, mark: str, measures: Measures) -> tuple[str, ...]:
    return tuple(
        f"Through the post's foot, before the concrete: {bolts.each} bolt{'s' * (bolts.each > 1)} "
        f"{measures.words(bolts.diameter)} x {measures.words(bolts.length)} at least, "
        f"{', '.join(measures.words(height) for height in bolts.heights)} above the post's end, "
        f"{measures.words(bolts.out)} in the concrete on both sides."
        for bolts in foot_bolts(layout)
        if mark in bolts.marks
    )
