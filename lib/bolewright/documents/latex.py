"""Reads the LaTeX of the sheets far enough to break a long equation and to say it in plain text.

The LaTeX is our own renderer's: braces balance, and ``=`` at depth zero separates the steps of one line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

_ENVIRONMENT = re.compile(r"\\(begin|end)\{(?:aligned|align\*?|array|split|gathered)\}(?:\{[lrc]*\})?")
_TOKEN = re.compile(r"\\[A-Za-z]+|\\.|[^\\]", re.S)
_OPEN, _CLOSE = {"{", "(", "[", r"\left"}, {"}", ")", "]", r"\right"}


def rows(latex: str) -> list[str]:
    """Rows of a display: the lines of its ``aligned`` block, or the display itself."""
    body = _ENVIRONMENT.sub("", latex)
    found = [re.sub(r"^\[[\d.]+(pt|em|ex)\]", "", row.strip()) for row in _split(body, {r"\\"})]
    return [row for row in found if row.strip()]


def stacked(latex: str, width: int | None = None) -> str:
    """The display with every ``=`` on a row of its own.

    With ``width`` a row longer than that (in characters of its plain text) is broken again before an outer
    plus or minus.
    """
    lines = []
    for row in rows(latex):
        first, *steps = [step.strip() for step in _split(row.replace(r"\&", "\0").replace("&", " "), {"="})]
        if not steps or row.startswith("&"):  # a row that goes on from the one before
            lines += [f"& {first}"] if first else []
            first = ""
        for number, step in enumerate(steps):
            left = first if number == 0 else ""
            pieces = _packed(list(_terms(step)), width) if width else [step]
            lines.append(f"{left} &= {pieces[0]}")
            lines += [f"& \\quad \\text{{}} {piece}" for piece in pieces[1:]]
    body = " \\\\\n".join(line.replace("\0", r"\&") for line in lines)
    return f"\\begin{{aligned}}\n{body}\n\\end{{aligned}}"


def normalised(latex: str) -> str:
    """The same maths in the spelling that converts cleanly: no row break at the end, ``{,}`` as text."""
    text = re.sub(r"\\\\\s*(?=\\end\{)", "", latex.strip())
    text = re.sub(r"\s*(\\\\\s*)+$", "", text)
    text = re.sub(r"(\d+)\{,\}(?=\d)", r"\1\\text{,}", text)
    text = re.sub(r"\d{1,3}(?:\\text\{,\}\d{3})+(?:\.\d+)?", _one_number, text)
    return re.sub(r"\\[;:,]", r"\\ ", text)


def _one_number(match: re.Match[str]) -> str:
    return "\\text{" + match[0].replace(r"\text{,}", ",") + "}"


def spoken(latex: str) -> str:
    """Plain text of a display, for readers that can't show maths: ``C_P = (1 + alpha_c)/(2 × c)``."""
    return "; ".join(_plain(row) for row in rows(latex))


def _split(latex: str, separators: set[str]) -> Iterator[str]:
    depth, piece = 0, ""
    for token in _TOKEN.findall(latex):
        if token in separators and depth == 0:
            yield piece
            piece = ""
            continue
        depth += (token in _OPEN) - (token in _CLOSE)
        piece += token
    yield piece


def _terms(latex: str) -> Iterator[str]:
    depth, piece, before = 0, "", ""
    for token in _TOKEN.findall(latex):
        if depth == 0 and token in "+-" and piece.strip() and before not in {r"\cdot", r"\times", "=", "/"}:
            yield piece.strip()
            piece = ""
        depth += (token in _OPEN) - (token in _CLOSE)
        piece += token
        before = token.strip() or before
    yield piece.strip()


def _packed(terms: list[str], width: int) -> list[str]:
    packed = [terms[0]]
    for term in terms[1:]:
        if len(spoken(packed[-1])) + len(spoken(term)) <= width:
            packed[-1] += f" {term}"
        else:
            packed.append(term)
    return packed


_WORDS = {
    r"\cdot": " × ",
    r"\times": " × ",
    r"\leq": " ≤ ",
    r"\le": " ≤ ",
    r"\geq": " ≥ ",
    r"\ge": " ≥ ",
    r"\pm": " ± ",
    r"\left": "",
    r"\right": "",
    r"\quad": " ",
    r"\qquad": " ",
    r"\ ": " ",
    r"\,": " ",
    r"\;": " ",
    r"\:": " ",
    r"\!": "",
    r"\%": "%",
    r"\&": "&",
    r"\#": "#",
    r"\_": "_",
    r"\{": "{",
    r"\}": "}",
    r"\perp": "perp",
    r"\parallel": "parallel",
    r"\to": " → ",
    r"\rightarrow": " → ",
    r"\circ": "°",
    r"\degree": "°",
    r"\prime": "'",
    "~": " ",
    "&": " ",
}
_WRAPPERS = {r"\text", r"\textrm", r"\mathrm", r"\mathit", r"\mathbf", r"\operatorname", r"\textbf", r"\mbox"}
_WRAPPERS |= {r"\displaystyle", r"\textstyle", r"\overline", r"\hspace", r"\bar"}


def _plain(latex: str) -> str:
    tokens = _TOKEN.findall(latex)
    text, _ = _read(tokens, 0, until="")
    return re.sub(r"\s+", " ", text).strip()


def _read(tokens: list[str], at: int, until: str) -> tuple[str, int]:
    text = ""
    while at < len(tokens) and tokens[at] != until:
        token = tokens[at]
        at += 1
        if token in {r"\frac", r"\dfrac", r"\tfrac"}:
            top, at = _argument(tokens, at)
            bottom, at = _argument(tokens, at)
            text += f"{_grouped(top)}/{_grouped(bottom)}"
        elif token == r"\sqrt":
            inner, at = _argument(tokens, at)
            text += f"sqrt({inner.strip()})"
        elif token in "^_":
            inner, at = _argument(tokens, at)
            text += "°" if inner == "°" else token + _grouped(inner)
        elif token == "{":
            inner, at = _read(tokens, at, "}")
            text, at = text + inner, at + 1
        elif token in _WRAPPERS:
            continue
        else:
            text += _WORDS.get(token, f" {token[1:]}" if token.startswith("\\") else token)
    return text, at


def _argument(tokens: list[str], at: int) -> tuple[str, int]:
    while at < len(tokens) and tokens[at].isspace():
        at += 1
    if at < len(tokens) and tokens[at] == "{":
        inner, at = _read(tokens, at + 1, "}")
        return inner.strip(), at + 1
    if at < len(tokens):
        inner, at = _read(tokens[: at + 1], at, "")
        return inner.strip(), at
    return "", at


def _grouped(text: str) -> str:
    return text.strip() if re.fullmatch(r"\s*[\w.,'*°]+\s*", text) else f"({text.strip()})"
