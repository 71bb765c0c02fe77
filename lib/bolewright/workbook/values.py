"""Between what a field of the form shows and what the file holds, and how a value was understood."""

from __future__ import annotations

import datetime
import re
from typing import Any

from bolewright import units
from bolewright.platform.file.follow import is_relation
from bolewright.timber.material import MaterialError, species_named
from bolewright.timber.sections import SectionError, parse_section
from bolewright.tree.species import SpeciesError, trunk_wood
from bolewright.units import FOOT, INCH, Unit, feet_inches
from bolewright.workbook.schema import FieldKind, FieldSpec

_EMPTY_FOR = re.compile(r"\bempty for ([^.;(]*[^.;( ])")
_METRIC: dict[str, tuple[str, str]] = {
    "in": ("mm", "mm"),
    "ft": ("m", "m"),
    "ft²": ("m**2", "m²"),
    "psf": ("kPa", "kPa"),
    "plf": ("kN/m", "kN/m"),
    "lb": ("kN", "kN"),
    "psi": ("MPa", "MPa"),
    "mph": ("m/s", "m/s"),
    "in/yr": ("mm/year", "mm/yr"),
}


def shown(spec: FieldSpec, value: Any) -> str:
    """Text that stands in the field for a value of the file; empty for none."""
    if value is None:
        return ""
    match spec.kind:
        case FieldKind.POINT:
            return _listed(value)
        case FieldKind.CORNERS:
            return _lines(value)
        case FieldKind.RINGS:
            return "\n\n".join(_lines(ring) for ring in value) if isinstance(value, list) else str(value)
        case FieldKind.COUNTS | FieldKind.MARKS:
            return _listed(value)
        case FieldKind.YES_NO:
            return {True: "yes", False: "no"}.get(value, str(value))
    return str(value)


def _listed(value: Any) -> str:
    return ", ".join(str(item) for item in value) if isinstance(value, list) else str(value)


def _lines(value: Any) -> str:
    return "\n".join(_listed(point) for point in value) if isinstance(value, list) else str(value)


def typed(spec: FieldSpec, text: str) -> Any:
    """Value for the file that a field's text means; None where the key is to be left out.

    What can't be read as the field wants it stays the text it is, so that nothing typed is lost and the
    file's own reading says what is wrong.
    """
    clean = text.strip()
    if not clean:
        return "" if spec.kind is FieldKind.TEXT and spec.refers_to is None and spec.default == "" else None
    match spec.kind:
        case FieldKind.NUMBER | FieldKind.COUNT:
            return _number(clean)
        case FieldKind.YES_NO:
            return {"yes": True, "no": False}.get(clean.lower(), clean)
        case FieldKind.DATE:
            return _date(clean)
        case FieldKind.POINT:
            return clean if is_relation(clean) else _split(clean)
        case FieldKind.CORNERS:
            return [_split(line) for line in clean.splitlines() if line.strip()]
        case FieldKind.RINGS:
            rings = re.split(r"\n\s*\n", clean)
            return [[_split(line) for line in ring.splitlines() if line.strip()] for ring in rings]
        case FieldKind.COUNTS:
            return [_number(piece) for piece in _split(clean)]
        case FieldKind.MARKS:
            return _split(clean)
    return text if spec.kind is FieldKind.TEXT else clean


def _split(text: str) -> list[str]:
    return [piece.strip() for piece in text.split(",") if piece.strip()]


def _number(text: str) -> int | float | str:
    if re.fullmatch(r"[-+]?\d{1,9}", text):
        return int(text)
    if re.fullmatch(r"[-+]?\d{0,9}\.\d{1,9}", text):
        return float(text)
    return text


def _date(text: str) -> datetime.date | str:
    if not re.fullmatch(r"\d{4}-\d\d-\d\d", text):
        return text
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        return text


# ---------------------------------------------------------------------------------------------------------


def understood(section: str, spec: FieldSpec, value: Any) -> str:
    """What a value is understood as, in both systems of units; empty where there is nothing to add."""
    if value is None:
        return ""
    try:
        if spec.measure is not None and spec.kind in (FieldKind.QUANTITY, FieldKind.NUMBER):
            return amount(spec.measure.read(value), spec.measure.unit)
        if spec.kind is FieldKind.POINT and len(value) == 2:
            x, y = (amount(units.read(item, INCH), INCH) for item in value)
            return f"x {x}; y {y}"
        if spec.kind is FieldKind.CORNERS:
            return f"{len(value)} corners"
        if spec.kind is FieldKind.RINGS:
            return f"{len(value)} openings"
        return _named(section, spec.key, value)
    except (ValueError, TypeError):
        return ""


def place_words(place: tuple[float, float] | float) -> str:
    """A place or a distance (in) that other parts gave, in both systems of units."""
    if isinstance(place, tuple):
        return "; ".join(f"{axis} {amount(at, INCH)}" for axis, at in zip("xy", place, strict=True))
    return amount(place, INCH)


def _named(section: str, key: str, value: Any) -> str:
    if not isinstance(value, str):
        return ""
    try:
        if key == "section":
            piece = parse_section(value)
            return f"{piece.b:g} x {piece.d:g} in ({piece.b * 25.4:.0f} x {piece.d * 25.4:.0f} mm)"
        if key == "species":
            return trunk_wood(value).species if section == "tree" else species_named(value)
    except (SectionError, MaterialError, SpeciesError):
        return ""
    return ""


def beside_a_field(sentence: str) -> str:
    """What the file's reading says of a value, for someone who types in a field: no word of quotes.

    >>> beside_a_field('60 has no unit: write "60 psf", in quotes.')
    '60 has no unit: write 60 psf.'
    """
    head, no_unit, offers = sentence.partition(" has no unit: write ")
    if no_unit and offers.endswith(", in quotes."):
        bare_offers = offers.removesuffix(", in quotes.").replace('"', "")
        return f"{head}{no_unit}{bare_offers}."
    said = sentence.replace("write true or false, without quotes", "choose yes or no")
    said = said.replace("is no text: write it in quotes", "is no text: type it anew")
    return re.sub(r", (?:in|without) quotes(?=\.$)", "", said)


def default_words(spec: FieldSpec) -> str:
    """The value a field has when it is left empty, in words."""
    if spec.required:
        return "must be given"
    if spec.default in (None, "", ()):
        meant = _EMPTY_FOR.search(spec.help)
        return meant[1] if meant else "none"
    if isinstance(spec.default, bool):
        return "yes" if spec.default else "no"
    if spec.measure is not None:
        return amount(float(spec.default), spec.measure.unit)
    return str(spec.default)


def amount(number: float, unit: Unit) -> str:
    """A number in a unit, and in the other system of units: ``7' 2 1/2" (86.5 in, 2,197 mm)``.

    >>> amount(86.5, INCH)
    '7\\' 2 1/2" (86.5 in, 2,197 mm)'
    """
    if not unit.label:
        return f"{number:g}"
    plain = f"{_digits(number)} {unit.label}"
    if unit.label not in _METRIC:
        return plain
    expression, label = _METRIC[unit.label]
    metric = f"{_digits(float(unit.of(number).m_as(expression)))} {label}"
    if unit in (INCH, FOOT):
        inches = float(unit.of(number).m_as("inch"))
        return f"{feet_inches(inches)} ({plain}, {metric})"
    return f"{plain} ({metric})"


def _digits(number: float) -> str:
    if abs(number) >= 1000:
        return f"{number:,.0f}"
    return f"{number:.4g}"
