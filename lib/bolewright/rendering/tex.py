"""Tokens of the LaTeX we print, its printed width, and the breaking of long equations over rows."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

# A row may take the text width of a sheet, 6.5 in. at 10 pt, less a little for what the estimate misses.
TEXT_WIDTH = 6.5 * 72 / 10
ROOM = TEXT_WIDTH - 1.3

_TOKEN = re.compile(
    r"\\text\{[^{}]*\}|\\left[(|]|\\right[)|]|\\[A-Za-z]+|\\.|\d+\.?\d*|[A-Za-z]|\S",
)


@cache
def tokens(latex: str) -> tuple[str, ...]:
    r"""Tokens of a piece of LaTeX; a ``\text{...}`` and a ``\left(`` are one token each."""
    return tuple(_TOKEN.findall(latex))


# Widths in em of the maths font typst and the embedded web font share (measured, rounded up).
_SPACED = {"=": 1.34, "+": 1.23, "-": 1.23, r"\cdot": 0.73, r"\times": 1.23, ",": 0.45}
_FIXED = {r"\ ": 0.28, r"\,": 0.17, r"\quad": 1.0, "'": 0.28, "&": 0.0, r"\%": 0.84, "*": 0.5, r"\infty": 1.0}
_WIDE_LETTERS = dict.fromkeys("mwMWGHKNOQUXVABCDEFPRTY", 0.9)
_NARROW_TEXT = dict.fromkeys("ijltfr.,:;'()[]|! ", 0.38)
_WIDE_TEXT = dict.fromkeys("mwMW%—", 0.95) | dict.fromkeys("ABCDEFGHKNOPQRSTUVXYZ", 0.77)
_NAMED = {
    r"\min": 1.75,
    r"\max": 2.05,
    r"\sin": 1.35,
    r"\cos": 1.45,
    r"\tan": 1.5,
    r"\arctan": 2.9,
    r"\exp": 1.7,
    r"\ln": 1.0,
}
_SCRIPT = 0.72


def width(latex: str) -> float:
    """Printed width in em, a little on the wide side."""
    total, end = _row_width(tokens(latex), 0)
    assert end == len(tokens(latex)), f"unbalanced braces in {latex}"
    return total


def _row_width(row: tuple[str, ...], at: int) -> tuple[float, int]:
    total = 0.0
    while at < len(row) and row[at] != "}":
        piece, at = _piece_width(row, at)
        total += piece
    return total, at


def _piece_width(row: tuple[str, ...], at: int) -> tuple[float, int]:
    token = row[at]
    if token in ("^", "_"):
        inner, at = _piece_width(row, at + 1)
        inner *= _SCRIPT
        if token == "_" and at < len(row) and row[at] == "^":  # sub- and superscript stand over each other
            over, at = _piece_width(row, at)
            inner = max(inner, over)
        return inner, at
    if token == "{":
        inner, at = _row_width(row, at + 1)
        return inner, at + 1
    if token == r"\frac":
        top, at = _piece_width(row, at + 1)
        bottom, at = _piece_width(row, at)
        return max(top, bottom) + 0.3, at
    if token == r"\sqrt":
        inner, at = _piece_width(row, at + 1)
        return inner + 1.3, at
    return _token_width(token), at + 1


@cache
def _token_width(token: str) -> float:
    if token.startswith(r"\text{"):
        return sum(_NARROW_TEXT.get(c) or _WIDE_TEXT.get(c) or 0.56 for c in token[6:-1].replace("\\", ""))
    for table in (_SPACED, _FIXED, _NAMED, _WIDE_LETTERS):
        if token in table:
            return table[token]
    if token.startswith((r"\left", r"\right")):
        return 0.62
    if token[0].isdigit():
        return 0.5 * len(token) - (0.22 if "." in token else 0)
    return 0.62


def aligned(equations: Sequence[tuple[str, Sequence[str], str]]) -> str:
    r"""One ``aligned`` block of equations, each ``(symbol, parts, comment)`` for ``symbol = part = part``.

    Parts share a row as long as they fit; a part too long for a row breaks before an operator.
    """
    left = max(width(symbol) for symbol, _, _ in equations)
    rows: list[str] = []
    for symbol, parts, comment in equations:
        head, *rest = _rows(parts, comment, ROOM - left)
        rows += [f"{symbol} {head}", *rest]
    body = " \\\\\n".join(rows)
    return f"\\begin{{aligned}}\n{body}\n\\end{{aligned}}"


def rows_of(latex: str) -> list[str]:
    """Rows of an ``aligned`` block."""
    body = latex.replace(r"\begin{aligned}", "").replace(r"\end{aligned}", "")
    return [row.strip() for row in re.split(r"\\\\(?![A-Za-z])", body)]


def _rows(parts: Sequence[str], comment: str, room: float) -> list[str]:
    rows = []
    row = ""
    for part in parts:
        if row and width(f"{row} = {part}") <= room:
            row = f"{row} = {part}"
            continue
        if row:
            rows.append(row)
        *full, row = _broken(f"&= {part}", room)
        rows += full
    rows.append(row)
    if comment:
        note = rf"\quad \text{{({comment})}}"
        if width(f"{row} {note}") <= room:
            rows[-1] = f"{row} {note}"
        else:
            rows.append(f"& {note}")
    return rows


def _broken(row: str, room: float) -> list[str]:
    """Row split where it is too wide: before a plus or minus of its top level, else before a product."""
    for operators in (("+", "-"), (r"\cdot",)):
        if width(row) <= room:
            return [row]
        pieces = _split(row, operators)
        rows = [pieces[0]]
        for piece in pieces[1:]:
            longer = f"{rows[-1]} {piece}"
            if width(longer) <= room:
                rows[-1] = longer
            else:
                rows.append(rf"&\quad {piece}")
        if len(rows) > 1:
            return [short for long in rows for short in _broken(long, room)]
    return [row]


def _split(row: str, operators: tuple[str, ...]) -> list[str]:
    pieces: list[str] = []
    start = depth = 0
    after_term = False
    for match in _TOKEN.finditer(row):
        token = match[0]
        if token == "{" or token.startswith(r"\left"):
            depth += 1
        elif token == "}" or token.startswith(r"\right"):
            depth -= 1
        elif depth == 0 and token in operators and after_term:
            pieces.append(row[start : match.start()].strip())
            start = match.start()
        after_term = token not in ("&", "=", r"\quad", "+", "-", r"\cdot", "^", "_")
    pieces.append(row[start:].strip())
    return pieces


def escaped(text: str) -> str:
    r"""Plain text made safe inside ``\text{...}``."""
    return re.sub(r"([%&#_$])", r"\\\1", re.sub(r"[\\{}^~]", " ", text))
