"""The site set as sheets: its own in front, then those of the package that a builder works from, not derived."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from bolewright.documents.content import Content, Markdown, SheetContent
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Cell, Equations, Statement, StatementKind
from bolewright.sheets.lengths import Lengths
from bolewright.sheets.site.corners import corner_blocks
from bolewright.sheets.site.front import front_blocks
from bolewright.sheets.site.ground import ground_blocks
from bolewright.sheets.site.measured import measured_blocks

ORDER = ("20", "21", "22", "23", "24", "40", "41", "42", "30", "31", "32", "90")
_GOES_ON = (
    "24",
    "31",
    "32",
    "90",
)  # lists and words: they begin on the page that the sheet before leaves half empty
_DERIVED = "## Hand calculation"


def site_sheets(
    results: Results, length: Lengths, sheets: Sequence[SheetContent]
) -> tuple[SheetContent, ...]:
    """The site set: ``sheets`` are those of the package as they were run."""
    by_number = {sheet.number: sheet for sheet in sheets}
    carried = [_carried(by_number[number]) for number in ORDER if number in by_number]
    own = [
        SheetContent("Corners, edges and beam ends", "", corner_blocks(results, length)),
        SheetContent("Site plan", "", ground_blocks(results, length)),
        SheetContent("Measured on site", "", measured_blocks(results, length)),
    ]
    rest = [_placed(sheet) for sheet in (*own, *carried)]
    contents = [(sheet.heading, Cell("", to=_place(sheet))) for sheet in rest]
    return (SheetContent("Site sheet", "", front_blocks(results, length, contents)), *rest)


def _place(sheet: SheetContent) -> str:
    return f"site {sheet.heading}"


def _placed(sheet: SheetContent) -> SheetContent:
    """The sheet with the place to which the site sheet leads, drawings and setting out on pages of their own."""
    return replace(sheet, place=_place(sheet), follows=sheet.number in _GOES_ON)


def _carried(sheet: SheetContent) -> SheetContent:
    """A sheet of the package without its derivations."""
    return replace(sheet, items=tuple(_plain(sheet.items)))


def _plain(items: Sequence[Content]) -> Iterator[Content]:
    derived = False
    for item in items:
        if isinstance(item, Markdown) and item.text.lstrip().startswith("#"):
            derived = item.text.lstrip().startswith(_DERIVED)
        kept = isinstance(item, Statement) and item.kind is StatementKind.CAUTION
        if isinstance(item, Equations) or (derived and not kept):
            continue
        if isinstance(item, Statement) and item.kind is StatementKind.ASIDE:
            continue
        yield item
