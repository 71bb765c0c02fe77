"""Hardware where the platform stands: tree bolts with their brackets, caps and ties of posts."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.platform.layout.layout import Layout
from bolewright.platform.project import Bolt, Post
from bolewright.platform.project.bearing import SupportKind
from bolewright.setting_out.foot_bolts import foot_bolts
from bolewright.setting_out.plan import posts_of
from bolewright.take_off.cut_list import run_of
from bolewright.take_off.items import BOLTS, CONNECTORS, TREE_BOLTS, Item, inch, material_of, nails_for
from bolewright.timber.sections import parse_section


def tree_bolt_items(layout: Layout) -> Iterator[Item]:
    """Tree bolts, brackets and their hold-down clips."""
    bolts = [s for s in layout.supports if s.kind == SupportKind.TREE_BOLT]
    for name in dict.fromkeys(s.bolt or "" for s in bolts):
        marks = [s.mark for s in bolts if s.bolt == name]
        bolt = layout.project.bolts[name]
        size = f"{inch(bolt.diameter)} at the root, {inch(bolt.embedment)} in sound wood"
        where, source = run_of(marks), "one for each support"
        material = material_of(TREE_BOLTS)
        yield Item(f"tree bolt {name}", size, len(marks), material, where, source)
        if bolt.seat == "steel bracket":
            seat = f"seat {inch(bolt.seat_length)} along the bolt"
            rated = _rated((bolt.rated_load, "down with the bolt"), (bolt.rated_lateral, "lateral"))
            yield Item(
                f"bracket {name}", f"{seat}; {rated}", len(marks), material_of(CONNECTORS), where, source
            )
            yield _fastening_of(name, bolt, len(marks), where)
        hold_down_clips = [s.mark for s in bolts if s.uplift_tie is not None]
        if hold_down_clips:
            yield _tie("hold-down clip on the bracket", layout, hold_down_clips)


def _rated(*ratings: tuple[float | None, str]) -> str:
    """Ratings of one connector, each with what it is for; the checks rest on all of them."""
    given = [f"{pounds:,.0f} lb {way}" for pounds, way in ratings if pounds is not None]
    return f"rated {', '.join(given)}" if given else "to be chosen"


def _fastening_of(name: str, bolt: Bolt, brackets: int, where: str) -> Item:
    what, material = f"fastening of the beam to bracket {name}", material_of(CONNECTORS)
    if bolt.beam_bolts is not None and bolt.beam_bolt_diameter is not None:
        height = 4 * bolt.beam_bolt_diameter if bolt.beam_bolt_height is None else bolt.beam_bolt_height
        size = f"bolts {inch(bolt.beam_bolt_diameter)} through beam and side plates"
        size += f", {inch(height)} above its lower edge"
        return Item(what, size, bolt.beam_bolts * brackets, material_of(BOLTS), where, "for each bracket")
    if bolt.rated_with_fastening and bolt.rated_lateral is not None:
        size = f"for the {bolt.rated_lateral:,.0f} lb lateral that the bracket is rated for with it"
        return Item(what, f"as the bracket's maker names it, {size}", None, material, where, "maker's sheet")
    return Item(
        what, "to be chosen: the file does not say what its rating holds with", None, material, where, "open"
    )


def post_items(layout: Layout) -> Iterator[Item]:
    """Caps and ties of posts."""
    posts = posts_of(layout)
    for name in dict.fromkeys(s.post or "" for s in posts):
        marks = [s.mark for s in posts if s.post == name]
        post = layout.project.posts[name]
        widths = sorted({layout.on_support(mark)[0][0].width for mark in marks})
        size = f"{parse_section(post.section).single} post, beam {', '.join(inch(w) for w in widths)} wide"
        if post.cap_lateral is not None:
            size += f"; {_rated((post.cap_lateral, 'lateral'))}"
        source = "one for each post"
        yield Item(f"cap {name}", size, len(marks), material_of(CONNECTORS), run_of(marks), source)
        if post.rotation_tie is not None:
            rated = f"rated {post.rotation_tie:,.0f} lb"
            ties = 2 * sum(len(layout.on_support(mark)) for mark in marks)
            yield Item(
                f"rotation tie {name}",
                rated,
                ties,
                material_of(CONNECTORS),
                run_of(marks),
                "one on each side",
            )
        if post.foot_tie is not None:
            yield Item(
                f"anchor of the foot {name}",
                _rated((post.foot_tie, "uplift")),
                len(marks),
                material_of(CONNECTORS),
                run_of(marks),
                "one for each post, before the concrete",
            )
        if post.gusset is not None:
            yield from _gussets(name, post, 2 * sum(len(layout.on_support(mark)) for mark in marks), marks)
    yield from _foot_bolts(layout)
    tied = [s.mark for s in posts if s.uplift_tie is not None]
    if tied:
        yield _tie("uplift tie", layout, tied, ", unless the cap is rated for it")
    yield from nails_for("cap", [s.mark for s in posts])


def _foot_bolts(layout: Layout) -> Iterator[Item]:
    """Bolts through the feet of posts, which the concrete is poured round."""
    for bolts in foot_bolts(layout):
        size = (
            f"{inch(bolts.diameter)} x {inch(bolts.length)} at least, ASTM A307 or better, "
            f"{inch(bolts.out)} in the concrete on both sides"
        )
        yield Item(
            "bolt through the post's foot",
            size,
            bolts.each * len(bolts.marks),
            material_of(BOLTS),
            run_of(list(bolts.marks)),
            f"{bolts.each} in each post, before the concrete",
        )


def _gussets(name: str, post: Post, plates: int, marks: list[str]) -> Iterator[Item]:
    size = f"{inch(post.gusset_thickness or 0.0)} {post.gusset}"
    of = material_of(CONNECTORS) if post.gusset == "steel" else "exterior plywood, treated"
    yield Item(f"gusset {name}", size, plates, of, run_of(marks), "one on each side, over post and beam")
    nails = 2 * plates * (post.gusset_nails or 0)
    each = f"{post.gusset_nails} in the post and {post.gusset_nails} in the beam for each gusset"
    yield Item(
        f"nails of gusset {name}",
        f"{post.gusset_nail} common",
        nails,
        material_of(CONNECTORS),
        run_of(marks),
        each,
    )


def _tie(name: str, layout: Layout, marks: list[str], but: str = "") -> Item:
    rated = [s.uplift_tie or 0.0 for s in layout.supports if s.mark in marks]
    size = f"rated {', '.join(f'{pounds:,.0f} lb' for pounds in sorted(set(rated)))}{but}"
    source = "the project file's rated uplift"
    return Item(name, size, len(marks), material_of(CONNECTORS), run_of(marks), source)
