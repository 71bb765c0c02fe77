"""The site plan with north and fall, and the levels of the ground."""

from __future__ import annotations

from bolewright.documents.content import Content
from bolewright.drawings.files import SHEET_HEIGHT_MM
from bolewright.drawings.site_plan import site_plan
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Figure, Table
from bolewright.rendering.laying import PAGE_WIDTH_MM
from bolewright.rendering.svg import to_svg
from bolewright.setting_out.plan import base_line
from bolewright.sheets.drawings import measures_of
from bolewright.sheets.lengths import Lengths
from bolewright.sheets.site.measured import BLANK

_EMPTY = 4  # rows for levels where the file has none


def ground_blocks(results: Results, length: Lengths) -> tuple[Content, ...]:
    """Site plan, and the ground's levels with room for those of the day."""
    layout = results.path.layout
    measures = measures_of(length.tape)
    drawing = site_plan(results, measures)
    base = base_line(layout)
    rows = [
        (spot.mark, *(length(x) for x in base.offsets(spot.at)), length(spot.level), BLANK)
        for spot in layout.project.ground
    ]
    rows += [(BLANK, BLANK, BLANK, "", BLANK)] * max(0, _EMPTY - len(rows))
    columns = ("place", f"along from {base.a}", "square off", "in the file", "measured")
    return (
        Figure(to_svg(drawing, PAGE_WIDTH_MM, SHEET_HEIGHT_MM, measures.scales), "", drawing.alt),
        Table(columns, tuple(rows), "Levels of the ground above grade, minus below: [[ground]]", "lrrrl"),
    )
