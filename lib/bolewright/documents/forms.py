"""Reads an equation in each form it is set in (LaTeX, MathML, the typesetter's source) into the same rows of tokens."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from html import unescape

from bolewright.rendering.tex import rows_of, tokens

Row = tuple[object, ...]  # tokens; a fraction, root or script is a tuple of its name and its rows

_GREEK = {
    "Δ": "Delta",
    "α": "alpha",
    "β": "beta",
    "γ": "gamma",
    "δ": "delta",
    "ε": "varepsilon",
    "θ": "theta",
    "κ": "kappa",
    "λ": "lambda",
    "μ": "mu",
    "π": "pi",
    "ρ": "rho",
    "ϕ": "phi",
    "Σ": "Sigma",
    "σ": "sigma",
    "τ": "tau",
    "ω": "omega",
    "η": "eta",
    "ψ": "psi",
    "φ": "varphi",
}
_OPERATORS = {
    "⋅": "*",
    "−": "-",
    "×": "times",
    "∥": "parallel",
    "⟂": "perp",
    "⊥": "perp",
    "′": "'",
    "∞": "infty",
}
_LATEX = {r"\cdot": "*", r"\left(": "(", r"\right)": ")", r"\left|": "|", r"\right|": "|", r"\%": "%"}
_TYPST = {"dot.op": "*", "phi.alt": "phi", "epsilon": "varepsilon", "oo": "infty", "prime": "'"}
_SILENT = {r"\ ", r"\,", r"\quad", "&"}
_SHAPES = ("over", "root", "sub", "sup")
_SILENT_TYPST = {"med", "quad", "thin", "&"}
_TYPST_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|[A-Za-z]+(?:\.[a-z]+)+|[A-Za-z]{2,}|\d+(?:\.\d+)?|\\[^\n]|\S')
_ATOM = re.compile(r"[\w.,%²³⁴·°]+|\S")
_NUMERAL = re.compile(r"\d(?:[\d,.]*\d)?")


def numerals(text: str) -> list[str]:
    """Every number in a text, in order, as it stands there."""
    return _NUMERAL.findall(_minus(text))


def rows_of_numerals(latex: str) -> list[list[str]]:
    """Every number that an equation prints, row by row, in the order in which paper has them: powers before indices."""
    return [found for row in rows_of(latex) if (found := numerals(" ".join(_flat(latex_row(row)))))]


def latex_row(latex: str) -> Row:
    """Tokens of printed LaTeX."""
    body = " ".join(row.replace("&", " ") for row in rows_of(latex))
    items, _ = _latex_row(list(tokens(body)), 0)
    return _words(items)


def _latex_row(row: list[str], at: int) -> tuple[list[object], int]:
    items: list[object] = []
    while at < len(row) and row[at] != "}":
        token = row[at]
        if token in ("^", "_"):
            inner, at = _latex_piece(row, at + 1)
            _attach(items, token, inner)
            continue
        inner, at = _latex_piece(row, at)
        items += inner
    return items, at


def _latex_piece(row: list[str], at: int) -> tuple[list[object], int]:
    token = row[at]
    if token == "{":
        items, at = _latex_row(row, at + 1)
        return items, at + 1
    if token == r"\frac":
        top, at = _latex_piece(row, at + 1)
        bottom, at = _latex_piece(row, at)
        return [_over(top, bottom)], at
    if token == r"\sqrt":
        inner, at = _latex_piece(row, at + 1)
        return [("root", _words(inner))], at
    if token.startswith(r"\text{"):
        return [("text", re.sub(r"\\([%&#_$])", r"\1", token[6:-1]))], at + 1
    if token in _SILENT:
        return [], at + 1
    return [_LATEX.get(token, token.removeprefix("\\"))], at + 1


def mathml_row(text: str) -> Row:
    """Tokens of the equation in a piece of HTML; none where there is no equation."""
    found = re.search(r"<math\b.*</math>", text, re.S)
    if found is None:
        return ()
    plain = re.sub(r'\sxmlns="[^"]*"', "", unescape(found[0].replace("&lt;", "‹").replace("&amp;", "＆")))
    return _words(list(_mathml_items(ET.fromstring(plain))))


def _mathml_items(node: ET.Element) -> Iterator[object]:
    children = list(node)
    match node.tag:
        case "mi" | "mn":
            word = (node.text or "").strip()
            yield _GREEK.get(word, word)
        case "mo":
            word = (node.text or "").strip()
            if word not in ("\u2061", ""):
                yield _OPERATORS.get(word, word)
        case "mtext":
            yield ("text", node.text or "")
        case "mspace":
            return
        case "mfrac":
            top, bottom = (list(_mathml_items(child)) for child in children)
            yield _over(top, bottom)
        case "msqrt":
            yield ("root", _words([item for child in children for item in _mathml_items(child)]))
        case "msub" | "msup" | "msubsup":
            base, *scripts = (list(_mathml_items(child)) for child in children)
            marks = {"msub": "_", "msup": "^", "msubsup": "_^"}[node.tag]
            for mark, script in zip(marks, scripts, strict=True):
                _attach(base, mark, script)
            yield from base
        case _:
            for child in children:
                yield from _mathml_items(child)


def typst_row(source: str) -> Row:
    """Tokens of an equation in the typesetter's source."""
    found = [
        t
        for t in _TYPST_TOKEN.findall(source.strip().strip("$").replace("\\\n", " "))
        if t not in _SILENT_TYPST
    ]
    items, _ = _typst_row(found, 0, "")
    return _words(items)


def _typst_row(row: list[str], at: int, until: str) -> tuple[list[object], int]:
    items: list[object] = []
    while at < len(row) and row[at] not in until.split():
        token = row[at]
        if token in ("^", "_"):
            inner, at = _typst_piece(row, at + 1)
            _attach(items, token, _bare(inner))
        elif token == "/" and items:
            bottom, at = _typst_scripted(row, at + 1)
            top = _last_operand(items)
            items.append(_over(top, bottom))
        else:
            inner, at = _typst_piece(row, at)
            items += inner
    return items, at


def _typst_scripted(row: list[str], at: int) -> tuple[list[object], int]:
    """A piece with what hangs on it."""
    items, at = _typst_piece(row, at)
    while at < len(row) and row[at] in ("^", "_", "'"):
        if row[at] == "'":
            _attach(items, "^", ["'"])
            at += 1
            continue
        mark = row[at]
        inner, at = _typst_piece(row, at + 1)
        _attach(items, mark, _bare(inner))
    return items, at


def _typst_piece(row: list[str], at: int) -> tuple[list[object], int]:
    token = row[at]
    if token in ("frac", "sqrt", "upright", "lr") and row[at + 1 : at + 2] == ["("]:
        parts: list[list[object]] = []
        at += 1
        while row[at] != ")":
            items, at = _typst_row(row, at + 1, ", )" if token != "lr" else ")")
            parts.append(items)
        if token == "upright" or token == "lr":
            return [item for part in parts for item in part], at + 1
        return [_over(*parts) if token == "frac" else ("root", _words(parts[0]))], at + 1
    if token == "(":
        items, at = _typst_row(row, at + 1, ")")
        return ["(", *items, ")"], at + 1
    if token.startswith('"'):
        return [("text", re.sub(r"\\(.)", r"\1", token[1:-1]))], at + 1
    if token.startswith("\\") and len(token) > 1:
        return [token[1:]], at + 1
    return [_TYPST.get(token, token)], at + 1


def _last_operand(items: list[object]) -> list[object]:
    """Takes the operand before a slash off a row: a group in brackets, or the last item with a name before it."""
    start = len(items) - 1
    while start and _hangs_on(items[start]):
        start -= 1
    depth = (items[start] == ")") - (items[start] == "(")
    while start and depth:
        start -= 1
        depth += (items[start] == ")") - (items[start] == "(")
    taken = items[start:]
    del items[start:]
    return taken


def _hangs_on(item: object) -> bool:
    """Whether an item belongs to the one before it: a prime, a sub- or superscript."""
    return item == "'" or _is(item, "sub") or _is(item, "sup")


def _over(top: list[object], bottom: list[object]) -> object:
    """A fraction: brackets round the whole of what stands above or below the line say nothing."""
    return ("over", _words(_bare(top)), _words(_bare(bottom)))


def _bare(items: list[object]) -> list[object]:
    """A group without the brackets that only hold it together."""
    depth = 0
    for i, item in enumerate(items):
        depth += (item == "(") - (item == ")")
        if depth == 0:
            return items[1:-1] if 0 < i == len(items) - 1 else items
    return items


def _attach(items: list[object], mark: str, script: list[object]) -> None:
    """Hangs a sub- or superscript on the last item; a prime reads as a mark, wherever it stands."""
    words = _words(script)
    if mark == "^" and words in (("'",), ("prime",)):
        items.append("'")
    else:
        items.append(("sub" if mark == "_" else "sup", words))


def _words(items: list[object]) -> Row:
    """Items with their plain texts in words, primes before scripts, so that each form reads alike."""
    plain: list[object] = []
    for item in items:
        if isinstance(item, tuple) and item[0] == "text":
            plain += _ATOM.findall(_minus(str(item[1])))
        elif isinstance(item, str):
            plain += _ATOM.findall(_minus(item))
        else:
            plain.append(item)
    for i in range(len(plain) - 1, 0, -1):  # F'_b and F_b' are one
        before = plain[i - 1]
        if plain[i] == "'" and isinstance(before, tuple) and before[0] == "sub":
            plain[i - 1], plain[i] = plain[i], before
    scripts = ("sub", "sup")
    for i in range(len(plain) - 1):
        one, two = plain[i], plain[i + 1]
        if isinstance(one, tuple) and isinstance(two, tuple) and (one[0], two[0]) == scripts[::-1]:
            plain[i], plain[i + 1] = two, one
    return tuple(plain)


def _minus(text: str) -> str:
    return text.translate({0x2212: "-", 0xA0: " ", 0x2019: "'"})


def _flat(row: object) -> Iterator[str]:
    if isinstance(row, str):
        yield row
    elif isinstance(row, tuple):
        items = list(row[1:] if row and row[0] in _SHAPES else row)
        for i in range(len(items) - 1):
            if _is(items[i], "sub") and _is(items[i + 1], "sup"):
                items[i], items[i + 1] = items[i + 1], items[i]
        for item in items:
            yield from _flat(item)


def _is(item: object, name: str) -> bool:
    return isinstance(item, tuple) and item[:1] == (name,)
