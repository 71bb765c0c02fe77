"""Details of knee braces with both ends, and of the holes at the ends of lapped ones."""

from __future__ import annotations

import math

from bolewright.drawings.chains import chain
from bolewright.drawings.joints import NEAR, box
from bolewright.drawings.measures import Measures
from bolewright.drawings.solids import brace_cut
from bolewright.drawings.words import listed, titled
from bolewright.platform.project import Brace
from bolewright.platform.results.results import Results
from bolewright.platform.solids.bodies import brace_profile
from bolewright.rendering.drawing import Circle, Drawing, Fill, Item, Layer, Leader, Line, Pen, Point, Polygon
from bolewright.setting_out.braces import BraceCut
from bolewright.timber.sections import parse_section


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
        groups.setdefault((*like, post, layout.member(brace.beam).section.name), []).append(brace)
    return [_brace(results, group, measures) for group in groups.values()]


def _brace(results: Results, group: list[Brace], measures: Measures) -> Drawing:
    layout, brace = results.path.layout, group[0]
    cut = brace_cut(layout, brace)
    support = next(s for s in layout.supports if s.mark == brace.support)
    b = parse_section(layout.project.posts[support.post or ""].section).b
    seat, d = layout.seat_level(brace.support), layout.member(brace.beam).section.d
    profile = tuple((x, z - seat) for x, z in brace_profile(layout, brace))
    foot, head = (0.0, -brace.rise), (brace.run, 0.0)
    low = -brace.rise - 12.0
    post = Polygon(box(-b / 2, low, b / 2, 0), Layer.POSTS, Fill.TIMBER)
    beam = Polygon(box(-b / 2 - 6.0, 0, brace.run + 16.0, d), Layer.BEAMS, Fill.TIMBER)
    items: list[Item] = [
        post,
        beam,
        Polygon(profile, Layer.BRACES, Fill.TIMBER),
        Line(foot, head, Layer.CENTRE, Pen.CENTRE),
        Line((0.0, low), (0.0, d), Layer.CENTRE, Pen.CENTRE),
        *chain([(-b / 2, -brace.rise), (-b / 2, 0)], measures, NEAR + 1),
        *chain([(0.0, low), (brace.run, low)], measures, -NEAR),
        *chain([foot, head], measures, -9.0 if cut.fitted else -10.0),
        Leader((-b / 4, low + 3.0), f"post {brace.support}", (-12.0, -5.0)),
        Leader((-b / 2 - 3.0, 0.6 * d), f"beam {brace.beam}", (-8.0, 8.0)),
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
        part = cut.short_edge / cut.axis
        upper = (part * head[0], foot[1] + part * (head[1] - foot[1]))
        items += chain([foot, upper], measures, -15.0)
        items += _holes(cut, brace, measures)
    long = measures.words(cut.long_edge)
    sides = "one side" if brace.plies == 1 else "both sides"
    apart = (
        f", {measures.words(math.dist(*((h.level, h.up) for h in cut.holes[:2])))} apart"
        if brace.bolts != 1
        else ""
    )
    shape = (
        f"Long edge {long}, short edge {measures.words(cut.short_edge)}, fitted between post and beam."
        if cut.fitted
        else f"{long} long, square ends, lapped on {sides} of post and beam; {brace.bolts} bolts "
        f"{measures.words(brace.bolt_diameter or 0.0)} at each end{apart}, upright on the post's middle line "
        "and level at the beam's mid-depth; bored as far from that end of the brace as written."
    )
    rated = (
        f" Ends rated {measures.force(brace.rated_load)} by the maker's sheet you entered."
        if brace.rated_load
        else ""
    )
    title = f"Knee brace {listed(item.mark for item in group)}"
    notes = [
        f"({brace.plies}) {cut.section}. {shape}{rated} Dimensions to working points. Drawn for {brace.mark}."
    ]
    return titled(results, title, items, f"{title}. {notes[0]}", notes)


def _holes(cut: BraceCut, brace: Brace, measures: Measures) -> list[Item]:
    """Every bolt hole where it is bored, and how far each is from the brace's end."""
    items: list[Item] = []
    for on, shift in ((cut.post, (-10.0, -14.0)), (brace.beam, (14.0, 10.0))):
        own = [hole for hole in cut.holes if hole.on == on]
        at = [(hole.level, hole.up) for hole in own]
        items += [Circle(p, (brace.bolt_diameter or 0.5) / 2, Layer.HARDWARE, Fill.STEEL) for p in at]
        lower = on == cut.post
        away = sorted(h.on_brace if lower else cut.long_edge - h.on_brace for h in own)
        places = ", ".join(measures.words(x) for x in away)
        items.append(Leader(at[0] if lower else at[-1], f"bored {places}", shift))
    return items


def _middle(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
