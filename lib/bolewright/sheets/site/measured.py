"""Boxes for what is measured on the day, each under the key by which the project file takes it."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.documents.content import Content
from bolewright.platform.layout.layout import Layout
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Heading, Table
from bolewright.setting_out.levels import GRADE
from bolewright.setting_out.trunk import bolt_marks
from bolewright.sheets.lengths import Lengths
from bolewright.sheets.setting_out.opening import note
from bolewright.timber.sections import parse_section

BLANK = "____________"
Row = tuple[str, str, str, str, str]


def measured_blocks(results: Results, length: Lengths) -> tuple[Content, ...]:
    """Readings of the level line, then every value of ``[[as_built]]`` with what was planned."""
    layout = results.path.layout
    marks = [*(s.mark for s in layout.supports), GRADE]
    columns = ("mark", "key", "what", "planned", "measured")
    return (
        Heading("Before anything is cut", 2),
        note(
            "Write what the tape says, then type it into the project file under the name in the second column: "
            "[[as_built]] with mark and key, [[reading]] with mark and below_line. Run the check again: cut heights, "
            "shims and every ratio follow. Leave out what came out as planned.",
            "Measured by, date: ______________________________",
        ),
        Table(
            ("mark", "key", "what", "measured"),
            tuple((mark, "below_line", _read(layout, mark), BLANK) for mark in marks),
            "[[reading]]: from one level line down to each point, minus above it",
            "llll",
        ),
        Table(columns, tuple(_supports(layout, length)), "[[as_built]]: bolts, posts and holes", "lllrl"),
        Table(columns, tuple(_timber(layout, length)), "[[as_built]]: timber as the tape reads it", "lllrl"),
    )


def _read(layout: Layout, mark: str) -> str:
    kind = next((s.kind for s in layout.supports if s.mark == mark), "")
    if kind == SupportKind.POST:
        return "concrete under the post's foot"
    return "seat" if kind else "peg at grade"


def _supports(layout: Layout, length: Lengths) -> Iterator[Row]:
    project = layout.project
    projections = {bolt.mark: bolt.projection for bolt in bolt_marks(layout)}
    for s in layout.supports:
        if s.kind == SupportKind.TREE_BOLT:
            if s.mark in projections:
                planned = length(projections[s.mark])
                yield s.mark, "projection", "bark to middle of bearing", planned, BLANK
            bolt = project.bolts[s.bolt or ""]
            yield s.mark, "embedment", "thread in sound wood", length(bolt.embedment), BLANK
        seat = length(layout.seat_level(s.mark))
        yield s.mark, "level", f"seat above its planned level, {seat} above grade", length(0.0), BLANK
        if s.kind == SupportKind.POST:
            at = ", ".join(length(x) for x in s.at)
            yield s.mark, "at", "where it stands in plan: x, y", at, BLANK
            section = parse_section(project.posts[s.post or ""].section)
            yield s.mark, "width", "width of the post", length(section.b), BLANK
            yield s.mark, "depth", "depth of the post", length(section.d), BLANK
        if s.footing is not None:
            depth = length(project.footings[s.footing].depth)
            yield s.mark, "hole", "underside of the concrete below grade", depth, BLANK


def _timber(layout: Layout, length: Lengths) -> Iterator[Row]:
    for member in (*layout.beams, *layout.joists):
        yield member.mark, "depth", "depth", length(member.section.d), BLANK
        yield member.mark, "width", "thickness of one ply", length(member.section.ply_thickness), BLANK
