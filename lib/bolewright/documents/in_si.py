"""SI beside the units that a sheet is calculated in, for a reader with metric papers.

The calculation stays in the units of the standards' formulas, as it was checked and read back; under each equation
stand its inputs and results in SI, and behind each quantity in a table or a sentence its SI value in brackets. Lists
whose unit stands in a heading, markdown cells and drawings keep what they have: drawings follow the tape.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from bolewright import units
from bolewright.documents.content import Content, SheetContent
from bolewright.metric import amount, in_si
from bolewright.rendering.blocks import Cell, Equations, KeyValues, Statement, StatementKind, Table
from bolewright.rendering.wording import plain
from bolewright.units import INCH, Unit

_MINUS = re.compile(r"(?:^|[\s(=])[-−]$")
_BY_LABEL = {
    unit.label: unit
    for unit in vars(units).values()
    if isinstance(unit, Unit) and unit.label and in_si(1.0, unit)[1] != unit.label
}
_BY_LABEL["sq ft"] = units.SQUARE_FOOT
_POWERS = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")
_DIGITS = r"\d[\d,]*(?:\.\d+)?(?:\ ×\ 10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)?"
_INCHES = r"\d+\ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?"
_LABELS = "|".join(sorted(map(re.escape, set(_BY_LABEL) - {"in"}), key=len, reverse=True))
# "5 in the row" is no length: an inch has a dot, stands at an end, or has one of these words behind it
_WORDS = "of|from|to|wide|thick|deep|high|long|apart|on|and|at|by|over|less|more|allowed"
_BEHIND = rf"(?=\s*(?:[.,;:)=x]|$|(?:{_WORDS})\b))"
_MOMENT = r"\s?[-*]?\s?(?:ft|in|lbs?)\b"  # of a moment as a builder types it: 500 lb ft
_QUANTITY = re.compile(
    rf"""(?<![\w.,/"'])(?:
        (?P<feet>\d+)(?:'|\ ft)(?:\ (?P<inches>{_INCHES})(?:"|\ in\.?(?!\w)))    # 7' 2 1/2", 7 ft 2 in.
      | (?P<only>\d+\ \d+/\d+|\d+/\d+)"                                          # 2 1/2"
      | (?<!.)(?P<whole>\d+)"(?!.)                                                # 8" alone in a cell
      | (?P<mixed>\d+\ \d+/\d+|\d+/\d+)\ in(?:\.|\b(?![\w·/²³⁴]))                 # 1 1/2 in.
      | (?P<number>{_DIGITS})\ (?:
            (?P<label>{_LABELS})(?![\w·/²³⁴'])(?!{_MOMENT})
          | in(?:\.(?!\w)|(?![\w·/²³⁴]){_BEHIND})
        )
    )(?!\s*\([\d.,]+\ (?:mm|m|N|kN|kPa|MPa|cm|m/s)\b)""",
    re.VERBOSE,
)


def si_beside(sheet: SheetContent, *, equations: bool = True) -> SheetContent:
    """A sheet with SI beside its quantities; its ``equations`` stay as they are where their numbers are left blank."""
    return replace(sheet, items=tuple(_item(item, equations) for item in sheet.items))


def with_si(text: str, *, prose: bool = False) -> str:
    """A text with the SI value in brackets behind each quantity; a sentence of ``prose`` keeps its full stop.

    >>> with_si("1,234 psi of 1,500 psi"), with_si("40 psf live", prose=True)
    ('1,234 psi (8.51 MPa) of 1,500 psi (10.3 MPa)', '40 psf (1.92 kPa) live')
    >>> with_si("7' 2 1/2\\" of 3 in the row"), with_si("It is 3 in. It stays.", prose=True)
    ('7\\' 2 1/2" (2,197 mm) of 3 in the row', 'It is 3 in. (76.2 mm). It stays.')
    """

    def said(match: re.Match[str]) -> str:
        number, unit = _read(match)
        sign = -1.0 if _MINUS.search(text[: match.start()]) else 1.0
        shown = f"{match[0]} ({amount(sign * number, unit, metric=True)})"
        rest = text[match.end() :]
        ends = prose and match[0].endswith("in.") and (not rest.strip() or re.match(r"\s[A-Z]", rest))
        return f"{shown}." if ends else shown

    return _QUANTITY.sub(said, text)


def _read(match: re.Match[str]) -> tuple[float, Unit]:
    """Number and unit of a quantity in a text."""
    if match["feet"]:
        return 12.0 * float(match["feet"]) + _fraction(match["inches"]), INCH
    if fraction := match["only"] or match["mixed"] or match["whole"]:
        return _fraction(fraction), INCH
    mantissa, _, power = match["number"].replace(",", "").partition(" × 10")
    number = float(mantissa) * 10.0 ** int(power.translate(_POWERS) or 0)
    return number, _BY_LABEL[match["label"]] if match["label"] else INCH


def _fraction(text: str) -> float:
    return float(sum(Fraction(piece) for piece in text.split()))


def _item(item: Content, equations: bool) -> Content:
    match item:
        case Equations() if equations:
            said = _values(item)
            return replace(item, notes=(f"In SI: {'; '.join(said)}.", *item.notes)) if said else item
        case Table():
            return replace(item, rows=tuple(tuple(_cell(cell) for cell in row) for row in item.rows))
        case KeyValues():
            return replace(item, pairs=tuple((label, _cell(value)) for label, value in item.pairs))
        case Statement() if item.kind is not StatementKind.CLAUSES:
            return replace(item, items=tuple(with_si(words, prose=True) for words in item.items))
    return item


def _cell(cell: str | Cell) -> str | Cell:
    return replace(cell, text=with_si(cell.text)) if isinstance(cell, Cell) else with_si(cell)


def _values(item: Equations) -> list[str]:
    """Inputs and results of an equation in SI, those of one kind of number left out."""
    values = item.values
    if not values:  # a calculation of several lines: each line's result
        lines = (line.split(" = ") for line in item.alt.splitlines() if " = " in line)
        values = tuple((line[0], line[-1]) for line in lines)
    said = []
    for symbol, text in values:
        sign, bare = ("-", text[1:]) if text.startswith("-") else ("", text)
        if match := _QUANTITY.fullmatch(bare):
            number, unit = _read(match)
            said.append(f"{plain(symbol)} = {sign}{amount(number, unit, metric=True)}")
    return list(dict.fromkeys(said))
