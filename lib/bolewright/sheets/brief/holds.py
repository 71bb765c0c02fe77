"""A page for the arborist, and the hold points: what is looked at before work goes on, with number and tolerance."""

from __future__ import annotations

import math
from collections.abc import Iterator

from bolewright.platform.analysis.held_ways import held_ways
from bolewright.platform.layout.guard_ways import covered_edges
from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.trunk_braces import trunk_braces
from bolewright.platform.project import Tree
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Cell, KeyValues, Statement, StatementKind, Table
from bolewright.rendering.numbers import fmt
from bolewright.setting_out.cutout import tree_gap
from bolewright.setting_out.tolerance import Allowed
from bolewright.setting_out.trunk import bolt_marks, bolt_pairs, girth_of
from bolewright.setting_out.upkeep import rounds
from bolewright.sheets.brief.memory import BOX
from bolewright.sheets.sheet import derivation_place
from bolewright.units import SQUARE_FOOT, feet_inches

Row = tuple[str | Cell, ...]


def arborist_blocks(results: Results) -> tuple[Table | KeyValues | Statement, ...]:
    """Bolts and wounds, root zone, clearance, forces on the trunk, what to look at."""
    trees = results.project.trees
    if not trees:
        return (Statement(StatementKind.NOTE, ("No tree carries the platform.",)),)
    pairs = tuple(pair for tree in trees for pair in _tree(results, tree))
    looks = tuple(
        f"{', '.join(look.marks)}: {look.what}. When: {look.when}. Then: {look.then}."
        for look in rounds(results.path.layout)
        if set(look.marks)
        & ({t.mark for t in trees} | {s.mark for s in results.path.layout.supports if s.tree})
    )
    return (
        _bolts(results),
        KeyValues(pairs, "Tree, roots and clearance"),
        Statement(StatementKind.READING, (ASK, *looks)),
    )


ASK = (
    "Asked of the arborist before anything is bored: whether the tree may carry this, is sound at the bolts and in its "
    "roots, and may be held at this height for good. These sheets do not look at decay, root plate or lightning."
)


def _bolts(results: Results) -> Table:
    layout = results.path.layout
    rows = []
    for mark in bolt_marks(layout):
        support = next(s for s in layout.supports if s.mark == mark.mark)
        bolt = layout.project.bolts[support.bolt or ""]
        rows.append(
            (
                f"tree bolt {mark.mark}",
                mark.tree,
                feet_inches(mark.centre_level),
                _inches(bolt.diameter),
                _inches(bolt.embedment),
                feet_inches(mark.hole_depth),
                "bored, thread in green wood; the wound stays open round the steel",
            )
        )
    columns = ("bolt", "tree", "above grade", "steel", "in sound wood", "hole from the bark", "wound")
    return Table(columns, tuple(rows), "Bolts and wounds", "llrrrrl")


def _inches(length: float) -> str:
    """A length below a foot as a carpenter says it, in sixteenths."""
    return feet_inches(length).replace('"', " in") if length < 12 else feet_inches(length)


def _tree(results: Results, tree: Tree) -> Iterator[tuple[str, str | Cell]]:
    layout, project = results.path.layout, results.project
    yield (
        f"{tree.mark}",
        f"{tree.species}, girth {feet_inches(girth_of(tree))} at the bolts, {tree.condition or 'condition not noted'}",
    )
    holes = [
        (math.dist(s.at, tree.at), project.footings[s.footing], s.mark)
        for s in layout.supports
        if s.footing is not None
    ]
    if holes:
        near = min(holes, key=lambda hole: hole[0])
        deep = max(f.depth for _, f, _ in holes)
        yield (
            "Root zone",
            f"{len(holes)} holes {feet_inches(near[1].width)} wide, {feet_inches(deep)} deep; the nearest "
            f"({near[2]}) is {feet_inches(near[0] - near[1].width / 2)} from the trunk's middle to its edge: dug by "
            "hand, roots cut clean",
        )
    check = next((c for c in results.checks if c.part == tree.mark and c.key == "tree.clearance"), None)
    gap = tree_gap(results, tree)
    if check is not None and check.has_sizes:
        yield (
            "Clearance at the trunk",
            f"{fmt(check.capacity, check.unit)} is there, {fmt(check.demand, check.unit)} is needed; "
            f"{tree.service:g} years of growth at {tree.growth:g} in a year are in it, then it is cut back",
        )
    else:
        yield "Clearance at the trunk", f"{_inches(gap.needed)} needed over {tree.service:g} years"
    for other in results.checks:
        if (
            other.part == tree.mark
            and other.key in ("tree.restraint", "tree.clearance_years")
            and other.has_sizes
        ):
            yield (
                other.limit_state.capitalize(),
                Cell(
                    f"{fmt(other.demand, other.unit)} of {fmt(other.capacity, other.unit)}",
                    to=derivation_place(other),
                ),
            )
    if tree.crown_area is not None:
        yield "Crown taken for wind", f"{fmt(tree.crown_area, SQUARE_FOOT)} in still air"


def hold_points(results: Results) -> Table:
    """What is seen before work goes on, each with number and tolerance, a box and room for initials."""
    rows = [(when, what, number, tolerance, BOX, "") for when, what, number, tolerance in _points(results)]
    columns = ("hold point", "what is seen", "number", "tolerance", "seen", "initials, date")
    return Table(columns, tuple(rows), "Work stops until these have been seen", "llllcl", (1, 2, 2, 1, 0, 0))


def _near(allowed: Allowed) -> str:
    return f"± {_inches(allowed.value)}"


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
            _inches(bolt.embedment),
            "at least",
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
    posts = [s for s in layout.supports if s.kind == "post"]
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
            _inches(tree_gap(results, tree).needed),
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


def _nuts(layout: Layout) -> Iterator[tuple[str, str, str, str]]:
    """Nut and washer of every kind of bolt that ties the trunk: its thread's strength counts on them."""
    tied: dict[str, list[str]] = {}
    for support in layout.supports:
        if support.bolt is not None and held_ways(support.lateral)[0]:
            tied.setdefault(support.bolt, []).append(support.mark)
    for name, marks in tied.items():
        bolt = layout.project.bolts[name]
        washer = f"; washer {_inches(bolt.washer)} on the timber" if bolt.washer else ""
        yield (
            "2 before anything hangs on a bolt",
            f"nut of {', '.join(marks)}, which are tied: heavy hex, full height, ASTM A563 grade A or better, all of "
            f"its thread on the bolt's own and turned tight{washer}",
            _inches(bolt.tail_diameter or bolt.diameter),
            "a thread or more past it",
        )


def _knees(layout: Layout) -> dict[tuple[float, float], list[str]]:
    """Marks of the knee braces by their rise and run, from posts and from trunks."""
    found: dict[tuple[float, float], list[str]] = {}
    for brace in layout.project.braces:
        found.setdefault((brace.rise, brace.run), []).append(brace.mark)
    for support in layout.supports:
        if support.kind == "knee brace" and support.rise is not None:
            run = next(b.r for b in trunk_braces(layout) if b.mark == support.mark)
            found.setdefault((support.rise, round(run, 3)), []).append(support.mark)
    return found
