"""Details of post caps: along the beam and across it."""

from __future__ import annotations

from bolewright.drawings.chains import chain
from bolewright.drawings.joints import NEAR, STUB, box, plies
from bolewright.drawings.measures import Measures
from bolewright.drawings.words import listed, titled
from bolewright.platform.project import Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.rendering.drawing import Drawing, Fill, Item, Layer, Leader, Line, Pen, Polygon
from bolewright.timber.sections import parse_section


def cap_details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """Post caps: along the beam and across it; like ones in one."""
    layout = results.path.layout
    groups: dict[tuple[object, ...], list[Support]] = {}
    for support in layout.supports:
        if support.kind == SupportKind.POST:
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
        Polygon(box(-section.b / 2, -plate - STUB, section.b / 2, -plate), Layer.POSTS, Fill.TIMBER),
        Polygon(box(-before, 0, after, d), Layer.BEAMS, Fill.TIMBER),
        Polygon(box(x2 - section.d / 2, -plate - STUB, x2 + section.d / 2, -plate), Layer.POSTS, Fill.TIMBER),
        Polygon(box(x2 - w / 2, 0, x2 + w / 2, d), Layer.BEAMS, Fill.END_GRAIN),
        *plies(x2 - w / 2, 0, x2 + w / 2, d, member.section.plies),
        Line((0.0, -plate - STUB - 0.3), (0.0, d + 0.3), Layer.CENTRE, Pen.CENTRE),
        Line((x2, -plate - STUB - 0.3), (x2, d + 0.3), Layer.CENTRE, Pen.CENTRE),
        *chain([(after, 0), (after, d)], measures, -NEAR),
        *chain([(-section.b / 2, -plate - STUB), (section.b / 2, -plate - STUB)], measures, -NEAR),
        *chain([(x2 - section.d / 2, -plate - STUB), (x2 + section.d / 2, -plate - STUB)], measures, -NEAR),
        *chain([(x2 - w / 2, d), (x2 + w / 2, d)], measures, NEAR),
        Leader((-section.b / 4, -plate - 0.6 * STUB), f"post {post.section}", (-14.0, 4.0)),
        Leader((after * 0.4, 0.7 * d), f"{member.section.name}", (8.0, 16.0)),
    ]
    for x, half in ((0.0, length / 2), (x2, max(section.d, w) / 2)):
        if plate:
            items.append(Polygon(box(x - half, -plate, x + half, 0), Layer.HARDWARE, Fill.STEEL))
        items.append(
            Polygon(box(x - half, -plate - 3.0, x + half, 0.4 * d), Layer.HARDWARE, Fill.NONE, Pen.DASHED)
        )
    if length > section.b + 1 / 32:
        items += chain([(-length / 2, d), (length / 2, d)], measures, NEAR + 8.0)
    if seat.at < STUB:
        items += chain([(-before, d), (0.0, d)], measures, NEAR)
    if member.line.length - seat.at < STUB:
        items += chain([(0.0, d), (after, d)], measures, NEAR)
    over = dict.fromkeys(m.mark for s in group for m, _ in layout.on_support(s.mark))
    title = f"Post cap {listed(s.mark for s in group)} under {listed(over)}"
    ratings = [
        words
        for words in (
            f"cap rated {measures.force(post.cap_lateral)} lateral" if post.cap_lateral else "",
            f"tie on each side of the beam rated {measures.force(post.rotation_tie)}"
            if post.rotation_tie
            else "",
            f"{post.gusset} gusset {measures.words(post.gusset_thickness or 0.0)} thick on each side, "
            f"{post.gusset_nails} {post.gusset_nail} common nails in the post and as many in the beam"
            if post.gusset
            else "",
            f"plate {measures.words(plate)} thick, taken off the post" if plate else "",
        )
        if words
    ]
    said = "; ".join(ratings)
    notes = [
        f"{said[:1].upper()}{said[1:]}{'. ' if said else ''}Cap broken: its shape and fasteners are its maker's."
    ]
    return titled(results, title, items, f"{title}. {notes[0]}", notes)
