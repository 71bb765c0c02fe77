"""Two project files or packages side by side, as lines and as a sheet with revision marks."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from bolewright.documents.content import Content, Paper, SheetContent, TitleBlock
from bolewright.documents.convert import convert
from bolewright.documents.html import html_of
from bolewright.documents.pdf import pdf_of
from bolewright.evidence.between import Between, Moved, bought, checks, drawings, inputs, parts, reactions
from bolewright.evidence.source import Evidence
from bolewright.rendering.blocks import Cell, Statement, StatementKind, Table
from bolewright.status import Status

_MOST = 40  # rows of a kind on the command line
_MARK = "Δ"
_STATUS = {status.value: status for status in Status}


@dataclass(frozen=True)
class Comparison:
    """All that lies between two projects."""

    a: Evidence
    b: Evidence
    inputs: list[Between]
    parts: list[Between]
    checks: list[Moved]
    reactions: list[Between]
    bought: list[Between]
    drawings: list[Between]

    @property
    def same(self) -> bool:
        """Whether nothing lies between them."""
        return not (
            self.inputs or self.parts or self.checks or self.reactions or self.bought or self.drawings
        )

    @property
    def of_others(self) -> tuple[tuple[str, list[Between]], ...]:
        """Differences but those of checks, by kind."""
        return (
            ("Values of the project file", self.inputs),
            ("Parts", self.parts),
            ("Loads on supports, over all combinations of weight", self.reactions),
            ("Take-off", self.bought),
            ("Drawings", self.drawings),
        )


def compare(a: Evidence, b: Evidence) -> Comparison:
    """Compare two. Raises ProjectError or LayoutError where this version can't use one's project file."""
    return Comparison(
        a,
        b,
        inputs(a, b),
        parts(a, b),
        checks(a.told, b.told),
        reactions(a.told, b.told),
        bought(a, b),
        drawings(a, b),
    )


def _heads(found: Comparison) -> list[str]:
    told = []
    for letter, one in (("A", found.a), ("B", found.b)):
        how = (
            f"results printed by version {one.version}"
            if one.printed
            else f"checked now by version {one.version}"
        )
        told.append(f"{letter}: {one.name}, project file {one.fingerprint}, {how}.")
    return told


def lines(found: Comparison) -> list[str]:
    """The comparison for the command line."""
    said = _heads(found)
    if found.same:
        return [*said, "Nothing differs between them."]
    lost = sum(m.lost for m in found.checks)
    said.append(
        f"{len(found.checks)} checks differ, {lost} of them held or were not there in A and fail or are open in B."
    )
    said += _cut(
        [
            f"  {'!' if m.lost else ' '} {m.part}, {m.limit_state}: {m.before or '-'} -> {m.after or '-'}"
            for m in found.checks
        ]
    )
    for name, rows in found.of_others:
        said.append(f"{name}: {len(rows) or 'nothing'} {'differs' if len(rows) < 2 else 'differ'}.")
        said += _cut([f"    {row.what}: {row.before or '-'} -> {row.after or '-'}" for row in rows])
    return said


def _cut(rows: list[str]) -> list[str]:
    more = len(rows) - _MOST
    return [*rows[:_MOST], *([f"    and {more} more; --out FILE.pdf lists all"] if more > 0 else [])]


def sheet(found: Comparison) -> SheetContent:
    """The comparison as a sheet: every row that changed has a revision mark."""
    items: list[Content] = [Statement(StatementKind.READING, tuple(_heads(found)))]
    if found.same:
        items.append(Statement(StatementKind.READING, ("Nothing differs between them.",)))
    if found.checks:
        rows = tuple((_MARK, m.part, m.limit_state, _cell(m.before), _cell(m.after)) for m in found.checks)
        items.append(
            Table(
                ("", "part", "limit state", "A", "B"), rows, "Checks that differ, those lost first", "lllll"
            )
        )
    for name, differing in found.of_others:
        if differing:
            rows_of = tuple((_MARK, row.what, row.before or "–", row.after or "–") for row in differing)
            items.append(Table(("", "what", "A", "B"), rows_of, name, "llll"))
        else:
            items.append(Statement(StatementKind.NOTE, (f"{name}: nothing differs.",)))
    return SheetContent("Comparison", "", tuple(items))


def _cell(outcome: str) -> str | Cell:
    if not outcome:
        return "–"
    if outcome == "open":
        return Cell(outcome, Status.NOT_CHECKED)
    return Cell(outcome, _STATUS[outcome.rpartition(" ")[2]])


def written(found: Comparison, out: Path) -> bytes:
    """The sheet as PDF or as a page, by the name of the file it goes to."""
    title = found.b.results.project.title
    block = TitleBlock(
        project=title.project,
        site=title.site,
        revision=title.revision,
        date=title.date,
        prepared_by=title.prepared_by,
        checked_by=title.checked_by,
        fingerprint=found.b.fingerprint,
        subtitle=f"Comparison with {found.a.name}",
        paper=Paper.LETTER,
    )
    sheets = [sheet(found)]
    converted = convert(sheets)
    if out.suffix.lower() == ".pdf":
        return pdf_of(sheets, converted, block, None)
    return html_of(sheets, converted, block).encode("utf-8")
