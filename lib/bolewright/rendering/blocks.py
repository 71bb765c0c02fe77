"""Blocks: what a cell of a calc sheet displays, and what the package builder reads back.

A block is frozen data. In a notebook it shows itself through the best standard mime type; beside that its
data travels as ``application/vnd.bolewright.block+json``, so that PDF and HTML are laid out from data, never
from another program's markup. All text in a block is plain text, except the LaTeX of :class:`Equations`.
"""

from __future__ import annotations

import re
from base64 import b64decode, b64encode
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from functools import cache
from html import escape
from importlib import resources
from typing import Any

from bolewright.rendering import palette
from bolewright.rendering.palette import Status
from bolewright.rendering.wording import html_symbols, html_words

BLOCK_MIME = "application/vnd.bolewright.block+json"
VERSION = 1

_NO_MATHS = 'class="tex2jax_ignore mathjax_ignore"'  # a $ in a user's text is no maths
_SVG_URI = "data:image/svg+xml;base64,"
_SMALL = f"color:{palette.SOFT_INK};font-size:90%"
_CELL = f"padding:.2em .7em;border-bottom:1px solid {palette.RULE};text-align:{{}}"


class BlockError(ValueError):
    """A block that holds together badly, or an output whose block data can't be read."""


class StatementKind(Enum):
    """What a statement is for; the value is its heading on the sheet, an aside has none."""

    READING = "Reading"
    CLAUSES = "Clauses"
    CAUTION = "Caution"
    NOTE = "Note"
    FAILURE = "Fails"
    OPEN = "Open"
    ASSUMPTION = "Assumptions"
    ASIDE = ""


@dataclass(frozen=True)
class Equations:
    """Equations of one calculation.

    Each string of ``latex`` is one line, or the rows of an ``aligned`` block (with or without its
    ``\\begin{aligned}``), without ``$$`` fences. ``alt`` is what a reader who can't see the maths gets;
    ``given`` are symbols and what they stand for, ``notes`` sentences (outside a range, from memory), both printed
    under it. ``formula`` is the name under which the formula is registered, ``values`` its symbols with their values
    as printed, the last line's result at the end, and ``number`` the one that a package refers to it by.
    """

    title: str
    latex: tuple[str, ...]
    clause: str = ""
    alt: str = ""
    notes: tuple[str, ...] = ()
    given: tuple[tuple[str, str], ...] = ()
    formula: str = ""
    values: tuple[tuple[str, str], ...] = ()
    number: str = ""

    def __post_init__(self) -> None:
        for line in self.latex:
            if "$" in line.replace(r"\$", ""):
                raise BlockError(f"the LaTeX of {self.title!r} holds a $ fence: {line[:60]}")

    @property
    def displays(self) -> tuple[str, ...]:
        """LaTeX of each display, rows wrapped in ``aligned`` where needed."""
        return tuple(_display(line) for line in self.latex)

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> dict[str, Any]:
        maths = "\n".join(f"$$\n{line}\n$$" for line in self.displays)
        here = [f"Here {'; '.join(f'{html_symbols(s)} {html_words(w)}' for s, w in self.given)}."]
        under = (here if self.given else []) + [html_words(note) for note in self.notes]
        notes = "".join(f'<div {_NO_MATHS} style="{_SMALL}">{words}</div>' for words in under)
        clause = f'<span style="{_SMALL}">{html_words(self.clause)}</span>'
        head = f"<div><strong>{html_words(self.title)}</strong> {clause}</div>"
        return _bundle(
            self,
            {
                "text/html": f"{head}\n{escape(maths, quote=False)}\n{notes}",
                "text/latex": maths,
                "text/plain": "\n".join(
                    [
                        *(self.title, self.clause, self.alt or "\n".join(self.latex)),
                        *(f"{symbols}: {words}" for symbols, words in self.given),
                        *self.notes,
                    ]
                ),
            },
        )


@dataclass(frozen=True)
class Cell:
    """A table cell with a status: shown by word or text, mark and colour.

    In a package it leads to the place named ``to``, without a text by its page; ``anchor`` names the place of its row.
    """

    text: str
    status: Status | None = None
    to: str = ""
    anchor: str = ""


@dataclass(frozen=True)
class Table:
    """A table of preformatted text.

    ``align`` holds one letter a column: ``l``, ``c``, ``r``, or ``d`` for numbers aligned on the decimal
    point; empty means ``d`` for columns of numbers and ``l`` for the rest. ``widths`` are hints: relative
    shares for columns of running text, 0 for as wide as its content.
    """

    columns: tuple[str, ...]
    rows: tuple[tuple[str | Cell, ...], ...]
    caption: str = ""
    align: str = ""
    widths: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        count = len(self.columns)
        name = self.caption or ", ".join(self.columns)
        for row in self.rows:
            if len(row) != count:
                raise BlockError(f"table {name!r}: a row of {len(row)} cells under {count} columns")
        if self.align and (len(self.align) != count or set(self.align) - set("lcrd")):
            raise BlockError(f"table {name!r}: align {self.align!r} is not one of l, c, r, d for each column")
        if self.widths and len(self.widths) != count:
            raise BlockError(f"table {name!r}: {len(self.widths)} widths for {count} columns")

    @property
    def alignment(self) -> str:
        """Alignment letters, found from the cells where ``align`` is empty."""
        if self.align:
            return self.align
        return "".join(
            "d" if column and all(_is_number(_text(cell)) for cell in column) else "l"
            for column in (zip(*self.rows, strict=True) if self.rows else [()] * len(self.columns))
        )

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> dict[str, Any]:
        sides = [
            {"d": "right", "r": "right", "c": "center", "l": "left"}[letter] for letter in self.alignment
        ]
        head = "".join(
            f'<th scope="col" style="{_CELL.format(side)}">{html_words(column)}</th>'
            for column, side in zip(self.columns, sides, strict=True)
        )
        body = "".join(
            "<tr>"
            + "".join(
                f'<td style="{_CELL.format(side)}">{_html_cell(cell)}</td>'
                for cell, side in zip(row, sides, strict=True)
            )
            + "</tr>\n"
            for row in self.rows
        )
        return _bundle(
            self,
            {
                "text/html": f"<table {_NO_MATHS}>{_html_caption(self.caption)}"
                f"<thead><tr>{head}</tr></thead>\n"
                f"<tbody>\n{body}</tbody></table>",
                "text/plain": _plain_table(self.columns, self.rows, self.caption),
            },
        )


@dataclass(frozen=True)
class KeyValues:
    """Names and values, such as the inputs of a sheet."""

    pairs: tuple[tuple[str, str | Cell], ...]
    caption: str = ""

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> dict[str, Any]:
        rows = "".join(
            f'<tr><th scope="row" style="{_CELL.format("left")};font-weight:normal">{html_words(name)}</th>'
            f'<td style="{_CELL.format("left")}">{_html_cell(value)}</td></tr>\n'
            for name, value in self.pairs
        )
        return _bundle(
            self,
            {
                "text/html": f"<table {_NO_MATHS}>{_html_caption(self.caption)}"
                f"<tbody>\n{rows}</tbody></table>",
                "text/plain": _plain_table(("", ""), self.pairs, self.caption),
            },
        )


@dataclass(frozen=True)
class Figure:
    """A drawing as SVG, with its caption and a description for a reader who can't see it.

    ``scene`` is what a page needs to let a reader turn it, as JSON for ``turn.js``; print shows the SVG. Of figures
    with the same name ``once`` a package prints the first.
    """

    svg: str
    caption: str
    alt: str
    scene: str = ""
    once: str = ""

    def __post_init__(self) -> None:
        if not self.alt.strip():
            raise BlockError(f"the figure {self.caption!r} has no description (alt)")

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> dict[str, Any]:
        # As a picture by its data: a notebook that is opened and not yet trusted shows neither drawn SVG nor scripts.
        words = f'<p style="{_SMALL}">{escape(self.caption)}</p>' if self.caption else ""
        html = f'<img alt="{escape(self.alt)}" src="{_SVG_URI}{b64encode(self.svg.encode()).decode()}">'
        if self.scene:
            turned = f'<div data-scene="{escape(self.scene)}">{self.svg}{words}</div>'
            html = f"<div data-still>{html}</div>{turned}\n<script>\n{turning_script()}</script>"
        else:
            html += words
        bundle = {"text/html": html, "text/plain": f"{self.caption}\n{self.alt}".strip()}
        return _bundle(self, bundle)


@dataclass(frozen=True)
class Statement:
    """Sentences of one kind: the reading in plain words, the clauses, a caution, a failure."""

    kind: StatementKind
    items: tuple[str, ...]

    @property
    def colour(self) -> str:
        """Colour of its rule and heading."""
        colours = {
            StatementKind.FAILURE: Status.FAILS.colour,
            StatementKind.OPEN: Status.NOT_CHECKED.colour,
            StatementKind.CAUTION: palette.HIGHLIGHT,
        }
        return colours.get(self.kind, palette.ACCENT)

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> dict[str, Any]:
        items = "".join(f"<div>{html_words(item)}</div>" for item in self.items)
        if self.kind is StatementKind.ASIDE:
            return _bundle(
                self,
                {
                    "text/html": f'<div {_NO_MATHS} style="{_SMALL}">{items}</div>',
                    "text/plain": "\n".join(self.items),
                },
            )
        return _bundle(
            self,
            {
                "text/html": f'<div {_NO_MATHS} style="border-left:3px solid {self.colour};padding-left:.8em">'
                f'<strong style="color:{self.colour}">{self.kind.value}</strong>{items}</div>',
                "text/plain": "\n".join([self.kind.value, *(f"- {item}" for item in self.items)]),
            },
        )


@dataclass(frozen=True)
class Heading:
    """A heading that a package can lead to by ``anchor``, and from which it leads back to the place ``back``.

    On paper one with ``new_page`` begins a page.
    """

    text: str
    level: int = 3
    anchor: str = ""
    back: str = ""
    new_page: bool = False

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> dict[str, Any]:
        html = f"<h{self.level} {_NO_MATHS}>{html_words(self.text)}</h{self.level}>"
        return _bundle(self, {"text/html": html, "text/plain": self.text})


Block = Equations | Table | KeyValues | Figure | Statement | Heading

_KINDS: dict[str, type[Block]] = {
    "heading": Heading,
    "equations": Equations,
    "table": Table,
    "key-values": KeyValues,
    "figure": Figure,
    "statement": Statement,
}


@cache
def turning_script() -> str:
    """Script that lets a reader turn every figure with a scene, to stand once after them in a page."""
    return (resources.files("bolewright.rendering") / "turn.js").read_text(encoding="utf-8")


def data_of(block: Block) -> dict[str, Any]:
    """The block as JSON data; the SVG of a figure is left out, it stands in the output's picture."""
    head = {"kind": next(kind for kind, cls in _KINDS.items() if isinstance(block, cls)), "version": VERSION}
    match block:
        case Equations():
            rest: dict[str, Any] = {
                "title": block.title,
                "latex": list(block.latex),
                "clause": block.clause,
                "alt": block.alt,
                "notes": list(block.notes),
                "given": [list(pair) for pair in block.given],
                "formula": block.formula,
                **({"values": [list(pair) for pair in block.values]} if block.values else {}),
            }
        case Heading():
            rest = {"text": block.text, "level": block.level, "anchor": block.anchor, "back": block.back}
            rest |= {"new_page": True} if block.new_page else {}
        case Table():
            rest = {
                "columns": list(block.columns),
                "rows": [[_cell_data(cell) for cell in row] for row in block.rows],
                "caption": block.caption,
                "align": block.align,
                "widths": list(block.widths),
            }
        case KeyValues():
            rest = {
                "pairs": [[name, _cell_data(value)] for name, value in block.pairs],
                "caption": block.caption,
            }
        case Figure():
            more = {"scene": block.scene, "once": block.once}
            rest = {"caption": block.caption, "alt": block.alt} | {k: v for k, v in more.items() if v}
        case Statement():
            rest = {"statement": block.kind.value, "items": list(block.items)}
    return head | rest


def block_from_output(bundle: Mapping[str, Any]) -> Block:
    """Block that an output's mime bundle carries.

    Raises :class:`BlockError` when the bundle holds no block, or one of another version or shape.
    """
    data = bundle.get(BLOCK_MIME)
    if not isinstance(data, Mapping):
        raise BlockError("the output carries no block")
    if data.get("version") != VERSION:
        raise BlockError(
            f"the output's block has version {data.get('version')!r}, this program reads {VERSION}"
        )
    try:
        return _read(dict(data), bundle)
    except BlockError:
        raise
    except (KeyError, TypeError, AttributeError, ValueError) as error:
        raise BlockError(f"the output's {data.get('kind')!r} block can't be read: {error}") from error


def _drawn(bundle: Mapping[str, Any]) -> str:
    """SVG of a figure's output: read back from its picture's data, or, of an older one, as it was drawn."""
    if "image/svg+xml" in bundle:
        return "".join(bundle["image/svg+xml"])
    data = "".join(bundle["text/html"]).partition(_SVG_URI)[2].partition('"')[0]
    if not data:
        raise BlockError("the output's figure carries no picture")
    return b64decode(data, validate=True).decode()


def _read(data: dict[str, Any], bundle: Mapping[str, Any]) -> Block:
    match data["kind"]:
        case "equations":
            return Equations(
                data["title"],
                tuple(data["latex"]),
                data["clause"],
                data["alt"],
                tuple(data["notes"]),
                tuple((symbols, words) for symbols, words in data.get("given", ())),
                data.get("formula", ""),
                tuple((symbol, value) for symbol, value in data.get("values", ())),
            )
        case "heading":
            new_page = data.get("new_page", False)
            return Heading(data["text"], data["level"], data["anchor"], data["back"], new_page)
        case "table":
            rows = tuple(tuple(_cell_from(cell) for cell in row) for row in data["rows"])
            return Table(tuple(data["columns"]), rows, data["caption"], data["align"], tuple(data["widths"]))
        case "key-values":
            return KeyValues(tuple((name, _cell_from(cell)) for name, cell in data["pairs"]), data["caption"])
        case "figure":
            svg = _drawn(bundle)
            return Figure(svg, data["caption"], data["alt"], data.get("scene", ""), data.get("once", ""))
        case "statement":
            kind = next((kind for kind in StatementKind if kind.value == data["statement"]), None)
            if kind is None:
                raise BlockError(f"the output's statement is of the unknown kind {data['statement']!r}")
            return Statement(kind, tuple(data["items"]))
        case kind:
            raise BlockError(f"the output's block is of the unknown kind {kind!r}")


def _bundle(block: Block, standard: dict[str, Any]) -> dict[str, Any]:
    return standard | {BLOCK_MIME: data_of(block)}


def _display(latex: str) -> str:
    text = latex.strip()
    if text.startswith(r"\begin{") or not ("&" in text.replace(r"\&", "") or r"\\" in text):
        return text
    return f"\\begin{{aligned}}\n{text}\n\\end{{aligned}}"


def _text(cell: str | Cell) -> str:
    return cell.text if isinstance(cell, Cell) else cell


def _is_number(text: str) -> bool:
    return re.fullmatch(r"\s*([-−+]?[\d,]*\.?\d+\s*%?|–|—|-|)\s*", text) is not None


def _cell_data(cell: str | Cell) -> Any:
    if isinstance(cell, str):
        return cell
    places = {name: value for name, value in (("to", cell.to), ("anchor", cell.anchor)) if value}
    return {"text": cell.text, "status": cell.status.value if cell.status else None, **places}


def _cell_from(data: Any) -> str | Cell:
    if isinstance(data, str):
        return data
    status = next((status for status in Status if status.value == data["status"]), None)
    return Cell(data["text"], status, data.get("to", ""), data.get("anchor", ""))


def _html_cell(cell: str | Cell) -> str:
    if isinstance(cell, str) or cell.status is None:
        return html_words(_text(cell))
    weight = ";font-weight:bold" if cell.status is Status.FAILS else ""
    return (
        f'<span style="color:{cell.status.colour}{weight}">'
        f'<span aria-hidden="true">{cell.status.mark}</span> {html_words(cell.text)}</span>'
    )


def _html_caption(caption: str) -> str:
    return f'<caption style="text-align:left">{html_words(caption)}</caption>' if caption else ""


def _plain_table(columns: tuple[str, ...], rows: tuple[tuple[str | Cell, ...], ...], caption: str) -> str:
    lines = [columns, *(tuple(_text(cell) for cell in row) for row in rows)]
    widths = [max(len(line[i]) for line in lines) for i in range(len(columns))]
    body = [
        "  ".join(text.ljust(width) for text, width in zip(line, widths, strict=True)).rstrip()
        for line in lines
    ]
    return "\n".join(line for line in [caption, *body] if line)
