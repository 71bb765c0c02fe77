"""The blank form of a sheet, for teaching: what was worked out left out, and a key at the end."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from bolewright.part_sheets.kind import Symbol
from bolewright.rendering import tex
from bolewright.rendering.blocks import Block, Equations, Statement, StatementKind, Table
from bolewright.rendering.numbers import fmt
from bolewright.rendering.wording import plain

DOTS = r"\text{. . . . . . . . . . . . . .}"
_SIZE = re.compile(r"[-−]?\d[\d,.]*(?= lb)")


def blanked(block: Block) -> Block:
    """The block without what it works out: symbol and formula stay, numbers and result become a dotted line."""
    match block:
        case Equations():
            rows = [row for latex in block.latex for row in _rows(latex)]
            body = " \\\\\n".join(rows)
            return replace(
                block, latex=(f"\\begin{{aligned}}\n{body}\n\\end{{aligned}}",), alt="", formula=""
            )
        case Statement(kind=StatementKind.ASIDE):
            return Statement(block.kind, tuple(_SIZE.sub("______", words) for words in block.items))
        case _:
            return block


def _rows(latex: str) -> list[str]:
    """A row a chain ``symbol = part = part``, broken rows put together: symbol, formula, dotted line."""
    chains: list[tuple[str, str]] = []
    for row in tex.rows_of(latex):
        left, _, right = row.partition("&")
        right = re.sub(r"\\quad\s*\\text\{\(.*$", "", right).replace("&", "").replace(r"\quad", "").strip()
        if left.strip():
            chains.append((left.strip(), right))
        elif chains:
            chains[-1] = (chains[-1][0], f"{chains[-1][1]} {right}")
    return [f"{left} &{_kept(_parts(right))}" for left, right in chains]


def _kept(parts: list[str]) -> str:
    if len(parts) > 1 or (parts and _is_formula(parts[0])):
        return f"= {parts[0].strip()} = {DOTS}"
    return f"= {DOTS}"


def _parts(latex: str) -> list[str]:
    return [part for part in latex.split("=") if part.strip()]


def _is_formula(part: str) -> bool:
    """Whether the row's first part is the formula, its numbers on the rows below it."""
    return re.search(r"[A-Za-z]", re.sub(r"\\[A-Za-z]+|\\text\{[^}]*\}", "", part)) is not None


def key_of(
    symbols: Iterable[Symbol], before: Iterable[Block], titled: Iterable[tuple[str, Iterable[Block]]]
) -> Table:
    """The key: every symbol that was worked out, and its value.

    What comes ``before`` the steps is listed under the titles of its own lines; a symbol that statics found and no line
    works out comes first.
    """
    lines = [row for block in before for row in _lines_of(getattr(block, "title", ""), block)]
    worked = {symbol for _, symbol, _ in lines}
    rows = [
        ("Statics", plain(s.name), fmt(float(s.value), s.unit))
        for s in symbols
        if s.found and s.words and s.name not in worked
    ]
    lines += [row for title, blocks in titled for block in blocks for row in _lines_of(title, block)]
    rows += [(title, plain(symbol), value) for title, symbol, value in lines]
    return Table(("step", "symbol", "value"), tuple(rows), "What was worked out", "llr")


def _lines_of(title: str, block: Block) -> Iterable[tuple[str, str, str]]:
    """Title, symbol and value of each line of a block."""
    if not isinstance(block, Equations):
        return
    for line in block.alt.splitlines():
        symbol, _, rest = line.partition(" = ")
        yield title, symbol, rest.rpartition(" = ")[2] or rest
