"""The last sheet of a package: every symbol printed in it, and the documents its clauses stand in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import bolewright.sheets.setting_out
import bolewright.sheets.take_off  # noqa: F401  (the formulas of both are registered when they are imported)
from bolewright.documents.content import Index, Markdown, SheetContent
from bolewright.documents.places import equation_place
from bolewright.formulas import REGISTRY, Formula
from bolewright.rendering.blocks import Equations, Statement, StatementKind, Table
from bolewright.rendering.body import body_of
from bolewright.rendering.meanings import ON_ITS_LINE, meaning
from bolewright.rendering.wording import plain
from bolewright.sheets.clauses import DOCUMENTS, clause_lines, documents_of, grouped
from bolewright.units import Unit

TITLE = "Symbols and documents"
INDEX = "Symbols, clauses and documents"
INDEX_INTRODUCTION = (
    "Pages on which a symbol is said and a clause is used. One letter can stand for different things under different "
    "clauses, as it does in the standards themselves; under each equation stands what it is there. A prime marks an "
    "adjusted value, a star one with some factors left out."
)
INTRODUCTION = (
    "Every symbol printed in this package, with the formula it belongs to: one letter can stand for different "
    "things under different clauses, as it does in the standards themselves. A prime marks an adjusted value, a "
    "star one with some factors left out."
)


def symbols_sheet(sheets: Sequence[SheetContent], number: str) -> SheetContent:
    """Sheet of the symbols and the documents of the other sheets."""
    printed = [item for sheet in sheets for item in sheet.items if isinstance(item, Equations)]
    formulas = [
        REGISTRY[name] for name in dict.fromkeys(item.formula for item in printed) if name in REGISTRY
    ]
    clauses = [formula.clause for formula in formulas]
    rows = symbol_rows(formulas)
    named = documents_of(clauses)
    documents = Table(("short", "document"), tuple(named), "Documents named in the clauses", "ll", (0, 1))
    others = tuple(name for name in grouped(clauses) if name not in dict(named))
    return SheetContent(
        TITLE,
        number,
        (
            Markdown(INTRODUCTION),
            Table(("symbol", "unit", "stands for"), rows, "Symbols, Latin letters first", "lll", (0, 0, 1)),
            documents,
            Statement(StatementKind.NOTE, (f"Not from a document: {'; '.join(others).lower()}.",)),
        ),
    )


def index_sheet(sheets: Sequence[SheetContent], number: str, marks: Iterable[str] = ()) -> SheetContent:
    """Where every symbol of a short package is said, on which pages each clause is used, and the documents.

    ``marks`` are those of the parts: which of them read like a symbol is said.
    """
    symbols: dict[str, list[str]] = {}
    clauses: dict[str, list[str]] = {}
    for item in (item for sheet in sheets for item in sheet.items):
        if not (isinstance(item, Equations) and item.number and item.formula in REGISTRY):
            continue
        formula = REGISTRY[item.formula]
        for symbol, _ in item.values:
            symbols.setdefault(plain(symbol), []).append(equation_place(item.number))
        clauses.setdefault(formula.clause, []).append(equation_place(item.number))
    named = documents_of(list(clauses))
    documents = Table(("short", "document"), tuple(named), "Documents named in the clauses", "ll", (0, 1))

    def entries(found: dict[str, list[str]]) -> tuple[tuple[str, tuple[str, ...]], ...]:
        ordered = sorted(found, key=lambda words: (ord(words[0]) > 127, words.lower(), words))
        return tuple((words, tuple(found[words])) for words in ordered)

    return SheetContent(
        INDEX,
        number,
        (
            Markdown(INDEX_INTRODUCTION),
            *_told_apart(symbols, marks),
            Index("Symbols", entries(symbols)),
            Index("Clauses", entries(clauses)),
            documents,
        ),
    )


def _told_apart(symbols: Iterable[str], marks: Iterable[str]) -> Iterator[Statement]:
    """How a mark of a part and a symbol of the same letter and figure are told apart, where there are such."""
    by_letters = {symbol.replace("_", ""): symbol for symbol in symbols if "_" in symbol}
    alike = sorted(set(marks) & by_letters.keys())
    if alike:
        words = (
            f"Upright and on the line, {', '.join(alike)} are marks of parts. In italics "
            f"and with its figure set low, {', '.join(by_letters[mark] for mark in alike)} are symbols of forces, "
            "stresses or sizes. A line of a calculation has symbols only, its heading marks."
        )
        yield Statement(StatementKind.NOTE, (words,))


def symbol_rows(formulas: Iterable[Formula]) -> tuple[tuple[str, str, str], ...]:
    """A row for each symbol in one unit: all it stands for, each with the clause it stands so in.

    What a line works out for itself and nobody else uses is left to that line.
    """
    found: dict[tuple[str, str], dict[str, list[str]]] = {}
    for formula in formulas:
        for symbol, unit in _units(formula).items():
            words = meaning(formula, symbol)
            if words != ON_ITS_LINE:
                clauses = found.setdefault((plain(symbol), unit.label), {}).setdefault(words, [])
                clauses += clause_lines([formula.clause])
    rows = [
        (symbol, unit or "–", "; ".join(_with_clause(words, clauses) for words, clauses in said.items()))
        for (symbol, unit), said in found.items()
    ]
    return tuple(sorted(rows, key=lambda row: (ord(row[0][0]) > 127, row[0].lower(), row[0], row[1])))


def _with_clause(words: str, clauses: list[str]) -> str:
    first = next((clause for clause in clauses if clause.startswith(tuple(DOCUMENTS))), "")
    return f"{words} ({first.replace(': ', ', ')})" if first else words


def _units(formula: Formula) -> dict[str, Unit]:
    lines = {line.symbol: line.unit for line in body_of(formula.body).lines}
    return formula.parameters | lines
