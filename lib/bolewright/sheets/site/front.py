"""The site sheet: one page with marks, key dimensions, what to measure first, the order of the work, contents."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from bolewright.documents.content import Content
from bolewright.drawings.plan_framing import plan_of_framing
from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Cell, Figure, Heading, Statement, StatementKind, Table
from bolewright.rendering.drawing import Dimension
from bolewright.rendering.svg import to_svg
from bolewright.setting_out.levels import find_levels
from bolewright.setting_out.plan import base_line, posts_of
from bolewright.setting_out.stages import stages
from bolewright.setting_out.trunk import girth_of
from bolewright.sheets.drawings import measures_of
from bolewright.sheets.lengths import Lengths

_PLAN = 78.0  # mm: height of the plan on the page
_ABREAST = 3  # sheets in a row of the contents


def front_blocks(
    results: Results, length: Lengths, contents: Sequence[tuple[str, Cell]]
) -> tuple[Content, ...]:
    """All of the page; ``contents`` are the sheets that follow with the places they begin at."""
    layout = results.path.layout
    entries: list[tuple[str | Cell, str | Cell]] = [*contents]
    entries += [("", "")] * (-len(entries) % _ABREAST)
    down = len(entries) // _ABREAST
    rows = tuple(
        tuple(cell for column in range(_ABREAST) for cell in entries[column * down + row])
        for row in range(down)
    )
    return (
        _plan(results, length),
        Heading("Key dimensions", 2),
        _pairs(list(_key(layout, length))),
        Heading("Measure first", 2),
        Statement(StatementKind.ASIDE, tuple(_first(layout, length))),
        Heading("Order of work", 2),
        Statement(StatementKind.ASIDE, (_order(layout),)),
        Heading("In this set", 2),
        Table(
            ("sheet", "page", "sheet ", "page ", "sheet  ", "page  ")[: 2 * _ABREAST],
            rows,
            "",
            "lr" * _ABREAST,
        ),
    )


def _plan(results: Results, length: Lengths) -> Figure:
    drawing = plan_of_framing(results, measures_of(length.tape), brief=True)
    marked = tuple(item for item in drawing.items if not isinstance(item, Dimension))
    bare = replace(drawing, items=marked, heading=(), scale_bar=False)
    svg = to_svg(bare, height=_PLAN, scales=measures_of(length.tape).scales)
    return Figure(svg, "Marks of all parts; every sheet of this set uses them.", drawing.alt)


def _pairs(rows: list[tuple[str, str]]) -> Table:
    """Names and lengths two by two."""
    rows += [("", "")] * (len(rows) % 2)
    half = len(rows) // 2
    both = tuple((*one, *other) for one, other in zip(rows[:half], rows[half:], strict=True))
    return Table(("what", "length", "what ", "length "), both, "", "lrlr", (1, 0, 1, 0))


def _key(layout: Layout, length: Lengths) -> Iterator[tuple[str, str]]:
    """The lengths that everything else hangs on."""
    platform, project = layout.project.platform, layout.project
    base = base_line(layout)
    yield f"{base.a} to {base.b}, the base line", length(base.line.length)
    posts = posts_of(layout)
    for one, other in list(zip(posts, posts[1:], strict=False))[:3]:
        yield f"{one.mark} to {other.mark}, middles", length(math.dist(one.at, other.at))
    for post in posts[:2]:
        yield f"{post.mark} square off the base line", length(base.offsets(post.at)[1])
    yield "floor above grade", length(platform.floor_height)
    levels = find_levels(layout)
    for kind, what in (
        (SupportKind.TREE_BOLT, "seat of {} above grade"),
        (SupportKind.POST, "cut of {} above grade"),
    ):
        for planned, marks in _alike([(lv.planned, lv.support) for lv in levels.at if lv.kind == kind]):
            yield what.format(marks), length(planned)
    for name, footing in list(project.footings.items())[:1]:
        yield f"hole of {name}, below grade", length(footing.depth + footing.gravel)
    for field in project.joists[:2]:
        yield f"joists {field.mark}, on centre", length(field.spacing)


def _alike(found: list[tuple[float, str]]) -> Iterator[tuple[float, str]]:
    """Levels with the marks that share them, at most two."""
    shared: dict[float, list[str]] = {}
    for level, mark in found:
        shared.setdefault(round(level, 2), []).append(mark)
    for level, marks in list(shared.items())[:2]:
        yield level, ", ".join(marks)


def _first(layout: Layout, length: Lengths) -> Iterator[str]:
    """What is measured before anything is cut, bored or dug."""
    for tree in layout.project.trees:
        if any(s.tree == tree.mark for s in layout.supports):
            yield f"1. Girth of {tree.mark} at the bolts: planned {length(girth_of(tree))}; bark, lean, soundness."
    yield "2. Real depth and width of every beam, joist and post."
    yield "3. Grade at the peg, and the level of every seat, from one level line."
    yield "4. Buried lines, roots and rock where the holes go. Then fill Measured on site, run the file again."


def _order(layout: Layout) -> str:
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    names = [stage.name for stage in stages(layout, pieces)]
    numbered = "; ".join(f"{number} {name}" for number, name in enumerate(names, start=1))
    return f"{numbered}. What holds each before the next stands on sheet 22."
