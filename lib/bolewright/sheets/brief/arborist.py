"""A page for the arborist: bolts and wounds, root zone, clearance, forces on the trunk, what is asked."""

from __future__ import annotations

import math
from collections.abc import Iterator

from bolewright.platform.project import Tree
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Cell, KeyValues, Statement, StatementKind, Table
from bolewright.rendering.numbers import fmt
from bolewright.setting_out.cutout import tree_gap
from bolewright.setting_out.trunk import bolt_marks, girth_of
from bolewright.setting_out.upkeep import rounds
from bolewright.sheets.places import derivation_place
from bolewright.units import SQUARE_FOOT, feet_inches


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
                inches(bolt.diameter),
                inches(bolt.embedment),
                feet_inches(mark.hole_depth),
                "bored, thread in green wood; the wound stays open round the steel",
            )
        )
    columns = ("bolt", "tree", "above grade", "steel", "in sound wood", "hole from the bark", "wound")
    return Table(columns, tuple(rows), "Bolts and wounds", "llrrrrl")


def inches(length: float) -> str:
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
        yield "Clearance at the trunk", f"{inches(gap.needed)} needed over {tree.service:g} years"
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
