"""What the symbols of a formula mean, read from its docstring.

Docstrings here name them in a paragraph ``Parameters: w load (lb/in); l span (in). Returns: M (lb·in).`` The unit comes
from the annotation, so it is left out of the meaning.
"""

from __future__ import annotations

import inspect
import re
from functools import cache

from bolewright.formulas import REGISTRY, Formula
from bolewright.rendering.body import body_of

ON_ITS_LINE = "set on its own line"
_INLINE = re.compile(
    r"(?:Parameters?|Returns?):\s*(.*?)(?=\b(?:Parameters?|Returns?|Raises|Source):|>>>|\Z)", re.S
)
_UNIT = re.compile(
    r"\s*\((?:all )?(?:[^()]*/)?(?:°|in|ft|lb|psi|psf|mph|plf|pcf|kip|deg|degrees?|radians|years?|yr|%)"
    r"[^()a-z]*(?:[·/]\w+[²³⁴]?)*\)"
)
_BRACKETS = re.compile(r"\s*\[[^\]]*\]")
_AS = re.compile(r"\bas :func:`(\w+)`")
_ROLE = re.compile(r"\s*:func:`([^`]*)`")


def meaning(formula: Formula, symbol: str) -> str:
    """What a symbol of the formula stands for; for a line of its body that the docstring skips, where it is set."""
    found = meanings(formula).get(symbol, "")
    if found:
        return found
    return _lower(formula.title) if symbol == body_of(formula.body).result else ON_ITS_LINE


def meanings(formula: Formula) -> dict[str, str]:
    """Meaning of every symbol that the docstring describes, without its unit."""
    doc = inspect.getdoc(formula.body) or ""
    found = dict(_read(formula.name, doc, _symbols(formula)))
    for name in _AS.findall(doc):
        for symbol, words in meanings(REGISTRY[name]).items() if name in REGISTRY else ():
            if symbol in formula.parameters:
                found.setdefault(symbol, words)
    return found


def _symbols(formula: Formula) -> tuple[str, ...]:
    return (*formula.parameters, *(line.symbol for line in body_of(formula.body).lines))


@cache
def _read(name: str, doc: str, symbols: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    known = set(symbols)
    found: dict[str, str] = {}
    for entry in _entries(doc, known):
        for named, words in _split(entry, known):
            if words:
                for symbol in named:
                    found.setdefault(symbol, words)
    return tuple(found.items())


def _entries(doc: str, known: set[str]) -> list[str]:
    """Pieces ``symbol, symbol meaning`` of the parameters and what is returned."""
    return [entry for text in _INLINE.findall(doc) for entry in _paragraph(text, known)]


def _paragraph(text: str, known: set[str]) -> list[str]:
    """Entries of ``w load (lb/in); l span (in)``; a piece that opens with no symbol goes on from the one before."""
    entries: list[str] = []
    for piece in re.split(r";\s", " ".join(text.split()).rstrip(". ")):
        if _leading(piece, known)[0]:
            entries.append(piece)
        elif entries:
            entries[-1] += f"; {piece}"
    return entries


def _split(entry: str, known: set[str]) -> list[tuple[list[str], str]]:
    """An entry as symbols and words; ``F_w, F_b what`` is one, ``h height, a rise`` are two."""
    found = []
    rest = entry
    while rest:
        named, words = _leading(rest, known)
        if not named:
            break
        cut = re.search(rf",\s(?:and\s)?(?=(?:{'|'.join(map(re.escape, sorted(known)))})\s[a-z])", words)
        rest = ""
        if cut and words[: cut.start()]:
            words, rest = words[: cut.start()], words[cut.end() :]
        found.append((named, _clean(words)))
    return found


def _leading(text: str, known: set[str]) -> tuple[list[str], str]:
    """Symbols at the start of a text, and the words after them."""
    named: list[str] = []
    rest = text.strip()
    while match := re.match(r"([A-Za-z]\w*)(?:(, | and )(?=[A-Za-z])|\s+|$)", rest):
        if match[1] not in known:
            break
        named.append(match[1])
        rest = rest[match.end() :]
        if not match[2]:
            break
    return named, rest


def _clean(words: str) -> str:
    text = _ROLE.sub(lambda m: " " + m[1].replace("_", " "), words)
    text = _BRACKETS.sub("", _UNIT.sub("", text)).replace("`", "")
    return re.sub(r"\s+([,;.])", r"\1", " ".join(text.split())).strip(" ,;.:")


def _lower(title: str) -> str:
    return title[:1].lower() + title[1:] if title[1:2].islower() or title[1:2] == " " else title
