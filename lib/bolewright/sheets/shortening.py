"""A package in short: a formula set out once and referred to after that, a figure once.

What stands a second time becomes a row: formula, its numbers, result, and the number of the equation it goes by. Every
row is put into that equation again and must come out (:mod:`bolewright.rendering.again`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from bolewright.documents.content import Content, SheetContent
from bolewright.documents.places import equation_place
from bolewright.rendering.again import check_again
from bolewright.rendering.blocks import Cell, Equations, Figure, Statement, StatementKind, Table
from bolewright.rendering.wording import plain
from bolewright.sheets.printing import RATIO

COLUMNS = ("by", "formula", "with", "result")


def numbered_equations(sheets: Sequence[SheetContent]) -> list[SheetContent]:
    """The sheets with a number for each equation of a formula, through the whole package."""
    number = 0
    found = []
    for sheet in sheets:
        items: list[Content] = []
        for item in sheet.items:
            if isinstance(item, Equations) and item.formula:
                number += 1
                item = replace(item, number=str(number))
            items.append(item)
        found.append(replace(sheet, items=tuple(items)))
    return found


def following(sheets: Sequence[SheetContent]) -> list[SheetContent]:
    """The sheets one after the other; the first of what is carried to the site, and each of drawings, begins a page.

    The site set of its own has every sheet on a page of its own.
    """
    return [replace(sheet, follows=row > 0 and not _begins(sheet.number)) for row, sheet in enumerate(sheets)]


def _begins(number: str) -> bool:
    return number.isdigit() and (int(number) == 20 or 40 <= int(number) < 90)


def shortened(sheets: Sequence[SheetContent]) -> list[SheetContent]:
    """The sheets in short. Raises PrintBackError for a row that does not compute by the equation it refers to."""
    short = _Short()
    return [replace(sheet, items=tuple(short.items(sheet.items))) for sheet in sheets]


@dataclass
class _Short:
    """What has been set out so far."""

    formulas: dict[str, Equations] = field(default_factory=dict)
    notes: set[str] = field(default_factory=set)
    figures: set[str] = field(default_factory=set)
    rows: list[tuple[str | Cell, ...]] = field(default_factory=list)
    said: list[str] = field(default_factory=list)

    def items(self, items: Sequence[Content]) -> Iterator[Content]:
        for item in items:
            if isinstance(item, Equations) and item.formula:
                first = self.formulas.get(item.formula)
                if first is not None and item.values:
                    self._refer(first, item)
                    continue
                yield from self._left()
                yield self._first(item)
                continue
            if self._as_above(item):
                continue
            yield from self._left()
            if isinstance(item, Figure) and item.once:
                if item.once in self.figures:
                    continue
                self.figures.add(item.once)
            yield item
        yield from self._left()

    def _as_above(self, item: Content) -> bool:
        """Whether an aside only repeats results: it goes on as a note of the rows before it."""
        if not (isinstance(item, Statement) and item.kind is StatementKind.ASIDE and self.rows):
            return False
        if not all(words.startswith("As worked out above") for words in item.items):
            return False
        self.rows.append(("", "as worked out above", item.items[0].partition(": ")[2].rstrip("."), ""))
        return True

    def _first(self, item: Equations) -> Equations:
        number = str(len(self.formulas) + 1)
        first = replace(item, number=number, notes=tuple(self._new_notes(item)))
        self.formulas[item.formula] = first
        return first

    def _new_notes(self, item: Equations) -> list[str]:
        fresh = [note for note in item.notes if note not in self.notes]
        self.notes.update(fresh)
        return fresh

    def _refer(self, first: Equations, item: Equations) -> None:
        check_again(first.latex[0], item.values, item.formula)
        symbol, result = item.values[-1]
        outcome = next((words for names, words in item.given if names == "ratio"), "")
        title = "ratio" if item.formula == RATIO else item.title
        self.rows.append(
            (
                Cell(f"({first.number})", to=equation_place(first.number)),
                title,
                _inputs(item),
                f"{plain(symbol)} = {result}" + (f", {outcome}" if outcome else ""),
            )
        )
        self.said += self._new_notes(item)

    def _left(self) -> Iterator[Content]:
        if self.rows:
            yield Table(COLUMNS, tuple(self.rows), "", "llll", (0, 2, 3, 0))
        if self.said:
            yield Statement(StatementKind.ASIDE, tuple(self.said))
        self.rows, self.said = [], []


def _inputs(item: Equations) -> str:
    """The numbers that an equation was run on; symbols of one value together, with the name they had above."""
    above: dict[str, str] = {}
    for names, words in item.given:
        if words.startswith("is ") and words.endswith((" above", " above without its sign")):
            named = words.removeprefix("is ").partition(" above")[0]
            above |= dict.fromkeys(
                names.split(", "), f"{named}, without its sign" if "sign" in words else named
            )
    groups: dict[tuple[str, str], list[str]] = {}
    for symbol, value in item.values[:-1]:
        name = plain(symbol)
        groups.setdefault((above.get(name, ""), value), []).append(name)
    said = []
    for (named, value), symbols in groups.items():
        said.append(f"{', '.join(symbols)} = {f'{named} = ' if named else ''}{value}")
    return "; ".join(said)
