"""The brief as two sheets: the pages that are read first, and the annex with the rows beyond the tenth."""

from __future__ import annotations

from bolewright.documents.content import REVIEW, Content, SheetContent
from bolewright.drawings.measures import Measures
from bolewright.platform.results.results import Results
from bolewright.platform.results.verdict import beside_verdict
from bolewright.rendering.blocks import Heading, Statement, StatementKind, Table
from bolewright.sheets.brief.arborist import arborist_blocks
from bolewright.sheets.brief.basis import basis_blocks, project_blocks
from bolewright.sheets.brief.holds import hold_points
from bolewright.sheets.brief.memory import memory_table
from bolewright.sheets.brief.pictures import loads_blocks, path_blocks
from bolewright.sheets.brief.ratings import asked_table
from bolewright.sheets.brief.ten import governing_table, open_blocks
from bolewright.sheets.verdict import not_calculated_table

TITLE, ANNEX = "Brief", "Annex to the brief"
LONGEST = 10  # rows of a table in the brief; what is more stands in the annex
HOLDS = "Hold points"  # never cut: work stops at each of them
DECIDED = "Not calculated, and who decides"  # on a page with little else
ROOM = {DECIDED: 12}


def brief_sheets(
    results: Results, measures: Measures = Measures.IMPERIAL
) -> tuple[SheetContent, SheetContent | None]:
    """The brief, its drawings in ``measures``, and its annex where a table is longer than ten rows."""
    annex: list[Content] = []
    items: list[Content] = []

    def add(title: str, *blocks: Content, new_page: bool = False) -> None:
        items.append(Heading(title, 2, f"brief {title}", new_page=new_page))
        for block in blocks:
            items.append(_cut(title, block, annex) if isinstance(block, Table) else block)

    add("Code basis and loads", *basis_blocks(results))
    add("What, where, for whom", *project_blocks(results))
    beside = beside_verdict(results)
    add(
        "Open",
        *open_blocks(results),
        *((Statement(StatementKind.CAUTION, beside),) if beside else ()),
    )
    add("Plan, elevation and reactions", *loads_blocks(results, measures), new_page=True)
    add("Path of weight and of lateral load", *path_blocks(results, measures), new_page=True)
    add("Ten governing checks", governing_table(results))
    add("What rests on ratings", asked_table(results))
    add("From memory or judgement", memory_table(results))
    add("For the arborist", *arborist_blocks(results), new_page=True)
    add(DECIDED, not_calculated_table(results.project))
    add(HOLDS, hold_points(results), new_page=True)
    add("Sign-off", Statement(StatementKind.NOTE, (SIGN,)), REVIEW)
    more = SheetContent(ANNEX, "", tuple(annex)) if annex else None
    return SheetContent(TITLE, "", tuple(items), listed=True), more


SIGN = (
    "Signed here is what was looked at, by whom and when; nothing else is approved by it. A package made again has "
    "another fingerprint, and this page with it."
)


def _cut(title: str, table: Table, annex: list[Content]) -> Table:
    """The first rows of a table; the others go on in the annex, under the same columns."""
    longest = ROOM.get(title, LONGEST)
    if len(table.rows) <= longest or title == HOLDS:
        return table
    place = f"annex {title}"
    annex += [
        Heading(f"{title}, continued", 2, place, f"brief {title}"),
        Table(table.columns, table.rows[longest:], table.caption, table.align, table.widths),
    ]
    more = len(table.rows) - longest
    caption = f"{table.caption} ({more} more in the annex)".strip()
    return Table(table.columns, table.rows[:longest], caption, table.align, table.widths)
