"""The hold points: what is looked at before work goes on, with number and tolerance."""

from __future__ import annotations

import math
from collections.abc import Iterator

from bolewright.platform.analysis.held_ways import held_ways
from bolewright.platform.layout.guard_ways import covered_edges
from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.trunk_braces import trunk_braces
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.lever_left import lever_left
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Table
from bolewright.setting_out.cutout import tree_gap
from bolewright.setting_out.foot_bolts import foot_bolts
from bolewright.setting_out.projection import projection_allowed
from bolewright.setting_out.tolerance import Allowed
from bolewright.setting_out.trunk import bolt_marks, bolt_pairs, girth_of
from bolewright.sheets.brief.arborist import inches
from bolewright.sheets.brief.memory import BOX
from bolewright.units import feet_inches


def hold_points(results: Results) -> Table:
    """What is seen before work goes on, each with number and tolerance, a box and room for initials."""
    rows = [(when, what, number, tolerance, BOX, "") for when, what, number, tolerance in _points(results)]
    columns = ("hold point", "what is seen", "number", "tolerance", "seen", "initials, date")
    return Table(columns, tuple(rows), "Work stops until these have been seen", "llllcl", (1, 2, 2, 1, 0, 0))


def _near(allowed: Allowed) -> str:
    return f"± {inches(allowed.value)}"


def _no_more(results: Results, mark: str) -> str:
    """How much longer a bolt's projection may come out than the lever arm that is checked, in whole sixteenths."""
    most = projection_allowed(results, mark)
    if most >= Allowed.BOLT.value:
        return f"+ {inches(most)}"
    by = lever_left(results, mark).limit_state
    return (
        f"+ {inches(most)} at most: its {by} leaves no more" if most else f"no more: its {by} leaves nothing"
    )


def _points(results: Results) -> Iterator[tuple[str, str, str, str]]:
    layout, project = results.path.layout, results.project
    bolts = bolt_marks(layout)
    for tree in project.trees:
        if any(bolt.tree == tree.mark for bolt in bolts):
            yield (
                "1 before boring",
                f"arborist's word in writing; girth of {tree.mark} at the bolts",
                feet_inches(girth_of(tree)),
                _near(Allowed.TAPED),
            )
    for pair in bolt_pairs(layout, bolts):
        yield (
            "1 before boring",
            f"{pair.first} to {pair.second}, straight across, and level",
            feet_inches(pair.chord),
            f"{_near(Allowed.BOLT)}; level {_near(Allowed.LEVEL)}",
        )
    for name, bolt in project.bolts.items():
        yield (
            "2 before anything hangs on a bolt",
            f"bolt {name} in sound wood",
            inches(bolt.embedment),
            "at least",
        )
    for mark in bolts:
        yield (
            "2 before anything hangs on a bolt",
            f"{mark.mark}: bark to the middle of its bearing, which the lever arm comes from",
            feet_inches(mark.projection),
            _no_more(results, mark.mark),
        )
    yield from _nuts(layout)
    for name, f in project.footings.items():
        yield (
            "3 before the concrete",
            f"hole of {name}: width, depth from grade, pad; natural dry soil, {project.site.soil}; frost goes to "
            f"{feet_inches(project.site.frost_depth)}",
            f"{feet_inches(f.width)}, {feet_inches(f.depth)}, {feet_inches(f.pad)}; concrete {f.f_c:,.0f} psi",
            "at least",
        )
    yield from _foot_holds(layout)
    posts = [s for s in layout.supports if s.kind == SupportKind.POST]
    for a, b in zip(posts, posts[1:], strict=False):
        yield (
            "3 before the concrete",
            f"{a.mark} to {b.mark}, middle to middle",
            feet_inches(math.dist(a.at, b.at)),
            _near(Allowed.DIAGONAL),
        )
    if posts:
        yield (
            "4 before posts are loaded",
            "days of curing; posts plumb and braced both ways; tops level with each other",
            "7 days",
            f"at least; {_near(Allowed.LEVEL)}",
        )
    for (rise, run), marks in _knees(layout).items():
        yield (
            "5 before joists",
            f"knee braces {', '.join(marks)}: rise and run, bolts tight; plies fastened",
            f"{feet_inches(rise)}, {feet_inches(run)}",
            _near(Allowed.MARK),
        )
    yield from _connector_holds(layout)
    for field in project.joists:
        yield (
            "6 before decking",
            f"joists {field.mark} on centre; every hole of the hangers filled",
            feet_inches(field.spacing),
            _near(Allowed.MARK),
        )
    for tree in project.trees:
        yield (
            "7 before use",
            f"gap at {tree.mark} all round",
            inches(tree_gap(results, tree).needed),
            "at least",
        )
    edges = ", ".join(map(str, project.loads.guard_edges)) or "none"
    own = set(project.loads.guard_edges) <= covered_edges(project)
    how = "its posts' bolts, plates and hold-downs as drawn" if own else "by its own design"
    yield (
        "7 before use",
        f"guard on edges {edges}, {how}",
        feet_inches(project.loads.guard_height),
        "at least",
    )


def _foot_holds(layout: Layout) -> Iterator[tuple[str, str, str, str]]:
    """Bolts and anchors at the feet of posts: no one sees them again."""
    for bolts in foot_bolts(layout):
        heights = ", ".join(inches(height) for height in bolts.heights)
        yield (
            "3 before the concrete",
            f"bolts through the feet of {', '.join(bolts.marks)}: {bolts.each} in each, {inches(bolts.diameter)} x "
            f"{inches(bolts.length)}; above the post's end, and out of it on both sides",
            f"{heights}; {inches(bolts.out)}",
            "at least",
        )
    for name, post in layout.project.posts.items():
        marks = [s.mark for s in layout.supports if s.post == name]
        if post.foot_tie is not None and marks:
            yield (
                "3 before the concrete",
                f"anchor at the foot of {', '.join(marks)}, rated uplift on its tag",
                f"{post.foot_tie:,.0f} lb",
                "at least",
            )


def _connector_holds(layout: Layout) -> Iterator[tuple[str, str, str, str]]:
    """Clips, ties, angles and straps: every hole filled, with the rating that the checks count on."""
    project = layout.project
    seen = "every hole filled, rating on the tag"
    clips: dict[float, list[str]] = {}
    for support in layout.supports:
        if support.uplift_tie is not None:
            clips.setdefault(support.uplift_tie, []).append(support.mark)
    for rated, marks in clips.items():
        yield (
            "5 before joists",
            f"hold-down clips or ties at {', '.join(marks)}: {seen}",
            f"{rated:,.0f} lb uplift",
            "at least",
        )
    for name, post in project.posts.items():
        ratings = _ratings(
            (post.cap_lateral, "lateral on the cap"), (post.rotation_tie, "on each rotation tie")
        )
        marks = [s.mark for s in layout.supports if s.post == name]
        if ratings and marks:
            yield "5 before joists", f"caps and ties of {', '.join(marks)}: {seen}", ratings, "at least"
    for beam in project.beams:
        ratings = _ratings(
            (beam.lateral_tie, "lateral"),
            (beam.uplift_tie, "uplift"),
            (beam.rotation_tie, "against rotation"),
        )
        if ratings:
            what = f"angles of {beam.mark} where it crosses beams, both sides: {seen}"
            yield "5 before joists", what, ratings, "at least"
    for diagonal in project.diagonals:
        if diagonal.rated_load is not None:
            yield (
                "6 before decking",
                f"strap {diagonal.mark} in plan: drawn straight, both ends nailed, {seen}",
                f"{diagonal.rated_load:,.0f} lb",
                "at least",
            )


def _ratings(*given: tuple[float | None, str]) -> str:
    return ", ".join(f"{rated:,.0f} lb {what}" for rated, what in given if rated is not None)


def _nuts(layout: Layout) -> Iterator[tuple[str, str, str, str]]:
    """Nut and washer of every kind of bolt that ties the trunk: its thread's strength counts on them."""
    tied: dict[str, list[str]] = {}
    for support in layout.supports:
        if support.bolt is not None and held_ways(support.lateral)[0]:
            tied.setdefault(support.bolt, []).append(support.mark)
    for name, marks in tied.items():
        bolt = layout.project.bolts[name]
        washer = f"; washer {inches(bolt.washer)} on the timber" if bolt.washer else ""
        yield (
            "2 before anything hangs on a bolt",
            f"nut of {', '.join(marks)}, which are tied: heavy hex, full height, ASTM A563 grade A or better, all of "
            f"its thread on the bolt's own and turned tight{washer}",
            inches(bolt.tail_diameter or bolt.diameter),
            "a thread or more past it",
        )


def _knees(layout: Layout) -> dict[tuple[float, float], list[str]]:
    """Marks of the knee braces by their rise and run, from posts and from trunks."""
    found: dict[tuple[float, float], list[str]] = {}
    for brace in layout.project.braces:
        found.setdefault((brace.rise, brace.run), []).append(brace.mark)
    for support in layout.supports:
        if support.kind == SupportKind.KNEE_BRACE and support.rise is not None:
            run = next(b.r for b in trunk_braces(layout) if b.mark == support.mark)
            found.setdefault((support.rise, round(run, 3)), []).append(support.mark)
    return found
