"""Units: one registry, one strict reader for a builder's text, and the annotated types of the formulas.

Inside the package every number stands in the unit of its annotation (inches, pounds, psi ...). Text with a
unit is read at the door by :func:`read`, a small grammar of our own; pint's parser never sees user text.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from typing import Annotated, Any, get_args, get_origin

import numpy.typing as npt
import pint

from bolewright.said_plainly import said_plainly
from bolewright.signs import plain
from bolewright.unit_words import AMBIGUOUS, EXAMPLES, article, meaning, plain_text, plain_unit, with_units

ureg: pint.UnitRegistry[Any] = pint.UnitRegistry()
for _definition in (
    "psf = lbf / foot ** 2",
    "plf = lbf / foot",
    "pcf = lbf / foot ** 3",
    "klf = 1000 * plf",
    "ksf = 1000 * psf",
    "pli = lbf / inch",
):
    ureg.define(_definition)
ureg.formatter.default_format = "~P"
ureg.separate_format_defaults = True  # f"{stress:.0f}" ends in psi, not in the unit's long name
pint.set_application_registry(ureg)  # type: ignore[no-untyped-call]
Quantity = ureg.Quantity


@dataclass(frozen=True)
class Unit:
    """The unit a number stands in: ``pint`` expression, printed ``label``, and the ``dimension`` in words."""

    pint: str
    label: str
    dimension: str

    def of(self, magnitude: Any) -> Any:
        """Magnitude with this unit, as a pint quantity."""
        return Quantity(magnitude, self.pint)


INCH = Unit("inch", "in", "length")
FOOT = Unit("foot", "ft", "length")
SQUARE_INCH = Unit("inch**2", "in²", "area")
SQUARE_FOOT = Unit("foot**2", "ft²", "area")
CUBIC_INCH = Unit("inch**3", "in³", "section modulus or volume")
CUBIC_FOOT = Unit("foot**3", "ft³", "section modulus or volume")
INCH_FOURTH = Unit("inch**4", "in⁴", "second moment of area")
POUND = Unit("lbf", "lb", "force")
POUND_INCH = Unit("lbf*inch", "lb·in", "moment")
POUND_FOOT = Unit("lbf*foot", "lb·ft", "moment")
PSI = Unit("psi", "psi", "stress")
PSF = Unit("psf", "psf", "load per area")
PSF_PER_FOOT = Unit("psf/foot", "psf/ft", "pressure per depth")
PLF = Unit("plf", "plf", "load per length")
PLI = Unit("pli", "lb/in", "load per length")
PCI = Unit("lbf/inch**3", "lb/in³", "foundation modulus")
PCF = Unit("pcf", "pcf", "weight per volume")
MPH = Unit("mile/hour", "mph", "speed")
DEGREE = Unit("degree", "°", "angle")
YEAR = Unit("year", "yr", "time")
HERTZ = Unit("hertz", "Hz", "frequency")
INCH_PER_YEAR = Unit("inch/year", "in/yr", "growth per year")
PERCENT = Unit("percent", "%", "ratio")
NONE = Unit("", "", "ratio")

# What a formula takes: a number in the annotated unit, an array of such, or a quantity of either. Ratios and angles
# stay untyped here, since numpy's own types refuse to take a sine of what may be a quantity.
Value = float | npt.NDArray[Any] | pint.Quantity[Any]
# The annotated types of the formulas: dimension, unit and meaning in one word. A value is a float, a numpy
# array, or a pint quantity of either.
Length = Annotated[Value, INCH]
Feet = Annotated[Value, FOOT]
Area = Annotated[Value, SQUARE_INCH]
AreaFeet = Annotated[Value, SQUARE_FOOT]
SectionModulus = Annotated[Value, CUBIC_INCH]
Volume = Annotated[Value, CUBIC_INCH]
VolumeFeet = Annotated[Value, CUBIC_FOOT]
SecondMoment = Annotated[Value, INCH_FOURTH]
Force = Annotated[Value, POUND]
Moment = Annotated[Value, POUND_INCH]
MomentFeet = Annotated[Value, POUND_FOOT]
Stress = Annotated[Value, PSI]
AreaLoad = Annotated[Value, PSF]
PressurePerDepth = Annotated[Value, PSF_PER_FOOT]
LineLoad = Annotated[Value, PLF]
LineLoadInch = Annotated[Value, PLI]
FoundationModulus = Annotated[Value, PCI]
Density = Annotated[Value, PCF]
Speed = Annotated[Value, MPH]
Angle = Annotated[Any, DEGREE]
Years = Annotated[Value, YEAR]
Frequency = Annotated[Value, HERTZ]
Growth = Annotated[Value, INCH_PER_YEAR]
Ratio = Annotated[Any, NONE]


def unit_of(annotation: Any) -> Unit:
    """Unit carried by an annotated type such as :data:`Length`.

    >>> unit_of(Length).label
    'in'
    """
    if get_origin(annotation) is Annotated:
        for extra in get_args(annotation)[1:]:
            if isinstance(extra, Unit):
                return extra
    raise TypeError(f"{annotation!r} is not one of the annotated types of bolewright.units")


def describe(value: Any) -> str:
    """Short words for a value in an error message: ``40 psf``, ``3``."""
    if isinstance(value, pint.Quantity):
        label = _LABELS.get(str(value.units), f"{value.units:~P}")
        return f"{value.magnitude:g} {label}".strip() if _is_scalar(value.magnitude) else f"array in {label}"
    if getattr(value, "ndim", 0):
        return f"an array of {value.size}"
    return f"{value:g}" if isinstance(value, int | float) else repr(value)


def _is_scalar(value: Any) -> bool:
    return isinstance(value, int | float) or getattr(value, "ndim", 1) == 0


def magnitude(value: Any, unit: Unit) -> Any:
    """Bare number of ``value`` in ``unit``; a pint quantity is converted, a bare number stands as it is.

    Raises :class:`pint.DimensionalityError` for a quantity of another dimension.
    """
    if isinstance(value, pint.Quantity):
        return value.m_as(unit.pint or "dimensionless")
    return value


# ---------------------------------------------------------------------------------------------------------
# Reading a builder's text

_NUMBER = r"[0-9]{1,9}(?:\.[0-9]{0,9})?|\.[0-9]{1,9}"
_FRACTION = r"[0-9]{1,5}\s?/\s?[0-9]{1,4}"
_MIXED = rf"(?:[0-9]{{1,6}}(?:\s+|\s?-\s?){_FRACTION}|{_FRACTION}|{_NUMBER})"
_FEET = r"(?:'|ft\.?|feet|foot)"
_FEET_INCHES = re.compile(
    rf"(?P<sign>-?)\s*(?P<feet>{_NUMBER})\s*{_FEET}\s*-?\s*(?P<inches>{_MIXED})\s*(?P<mark>\"|inches|inch|in\.?|)",
    re.IGNORECASE,
)
_SWAPPED = re.compile(
    rf"-?\s*(?P<first>{_NUMBER})\s*(?:\"|in\.?)\s*(?P<then>{_MIXED})\s*{_FEET}", re.IGNORECASE
)
_PLAIN = re.compile(
    rf"(?P<sign>[-+]?)\s*(?P<number>{_MIXED})\s*(?P<unit>\"|'|[^0-9\s.+,\"'-][^,\"']{{0,25}}|)"
)
_POWER_OF_FEET = re.compile(r"\s(?:ft|foot|feet)[23]$", re.IGNORECASE)  # 60 ft2 is an area, not 60' 2"
_COMMA = re.compile(r"(?P<before>[-+]?[0-9]+),(?P<after>[0-9]+)(?P<rest>(?:[^0-9,][^,]*)?)")
_LONGEST = 60


@said_plainly
class ReadError(ValueError):
    """Text that is no quantity of the wanted dimension; the message is one sentence for the user."""


@dataclass(frozen=True)
class Understood:
    """A quantity as it was read: its ``number`` in the wanted unit, and how the user wrote it.

    ``word`` is the unit word as written, empty for feet and inches or no unit at all; ``factor`` brings that
    unit to the wanted one.
    """

    number: float
    word: str
    factor: float
    in_feet_and_inches: bool = False

    def like_it(self, number: float, unit: Unit) -> str:
        """Another number in ``unit``, written in the unit this one was written in."""
        if self.in_feet_and_inches:
            return feet_inches(number * _factor(unit.pint, "inch"))
        word = self.word or unit.label
        gap = "" if word in _TIGHT else " "
        return f"{number / self.factor:.6g}{gap}{word}".strip()


_TIGHT = ("'", '"', "°")
_DIGITS = 12  # of a converted number


@cache
def _factor(pint_unit: str, target: str) -> float:
    return float(Quantity(1.0, pint_unit).m_as(target))


def _value(number: str, given: str) -> float:
    whole_and_fraction = re.split(r"\s?-\s?|\s+(?=[0-9]+\s?/)", number.strip(), maxsplit=1)
    total = Fraction(0)
    for piece in whole_and_fraction:
        text = piece.replace(" ", "")
        if "/" in text:
            top, bottom = text.split("/")
            if int(bottom) == 0:
                raise ReadError(f"{shown(given)} divides by zero: write a fraction such as 1/2")
            total += Fraction(int(top), int(bottom))
        else:
            total += Fraction(text)
    return float(total)


def shown(value: object) -> str:
    """A value as it stands in a message: text between quotes as it was typed, no longer than a line.

    >>> print(shown("7' 2 1/2\\""), shown(42), shown(True))
    '7' 2 1/2"' 42 true
    """
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int):  # the digits of a huge one are not asked for
        return str(value) if abs(value) < 10**30 else "a number of more than 30 digits"
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list | tuple):
        text = f"[{', '.join(shown(item) for item in value[:5])}]"
        return text if len(text) <= _LONGEST and len(value) <= 5 else f"a list of {len(value)}"
    text = str(value)
    visible = plain(text[: _LONGEST + 1])
    visible = visible if len(visible) <= _LONGEST else f"{visible[: _LONGEST - 3]}..."
    if not isinstance(value, str):
        return visible
    quote = '"' if "'" in visible and '"' not in visible else "'"
    return f"{quote}{visible}{quote}"


def read(text: object, unit: Unit) -> float:
    """Number in ``unit`` that a builder's text means.

    The grammar is one number (decimal, fraction or whole-and-fraction) and one unit word, or feet and inches.
    A plain ratio takes no unit, and zero needs none. Raises :class:`ReadError` with one sentence: what was given,
    what is allowed.

    >>> read("7' 2 1/2\\"", INCH)
    86.5
    >>> round(read("2200 mm", INCH), 4)
    86.6142
    >>> read("40 psf", PSF)
    40.0
    """
    return understood(text, unit).number


def understood(text: object, unit: Unit) -> Understood:
    """What :func:`read` reads, with the unit it was written in."""
    return _of_text(text, unit) if isinstance(text, str) else _bare(text, unit, _wanted(unit))


def _wanted(unit: Unit) -> str:
    if unit.dimension == "ratio":
        return "a plain number, without a unit"
    return f"{article(unit.dimension)} such as {EXAMPLES[unit.dimension]}"


@lru_cache(maxsize=4096)  # a project's file is read again at every change, with all but one of its values
def _of_text(text: str, unit: Unit) -> Understood:
    wanted, clean = _wanted(unit), plain_text(text)
    if len(clean) > _LONGEST:
        raise ReadError(f"{shown(text)} is too long: write {wanted}")
    if not clean:
        raise ReadError(
            f"'{text}' is empty: write {wanted}" if text.isprintable() else f"it is empty: write {wanted}"
        )
    if unit.dimension == "length" and (match := _FEET_INCHES.fullmatch(clean)):
        return _of_feet_and_inches(match, text, unit)
    match = _PLAIN.fullmatch(clean)
    if match is None:
        raise ReadError(f"{shown(text)} is not understood: {_hint(clean, unit)}write {wanted}")
    number = _value(match["number"], text) * (-1 if match["sign"] == "-" else 1)
    word = plain_unit(match["unit"])
    if unit.dimension == "ratio":
        return _ratio(number, word, text, unit)
    if not word:
        if number == 0:
            return Understood(0.0, "", 1.0)
        offer = with_units(clean, unit.dimension)
        raise ReadError(f"{shown(text)} has no unit: write {offer}")
    found = meaning(word)
    if found is None:
        if hint := _hint(clean, unit):
            raise ReadError(f"{shown(text)} is not understood: {hint}write {wanted}")
        raise ReadError(
            f"{shown(text)} has a unit {shown(match['unit'].strip())} that is {_why_not(word)}: write {wanted}"
        )
    if found.dimension != unit.dimension and not _same_kind(found.dimension, unit.dimension):
        raise ReadError(f"{shown(text)} is {article(found.dimension)}, but {wanted} is wanted")
    factor = _factor(found.pint, unit.pint)
    return Understood(_as_meant(number * factor), match["unit"], factor)


def _as_meant(number: float) -> float:
    """A converted number without the rounding of its last digits: 19.05 mm are 3/4 in., and no hair more."""
    return float(f"{number:.{_DIGITS}g}")


def quantity(given: object, unit: str = "") -> pint.Quantity[Any]:
    """A quantity as builders write it, in the unit it is written in; feet and inches come in inches.

    A number and a unit word may be given apart. Raises :class:`ReadError` in one sentence for what is no quantity.

    >>> quantity("40 psf"), quantity("7' 2 1/2\\"").to("foot").magnitude.__round__(4), quantity(12, "ft")
    (<Quantity(40.0, 'psf')>, 7.2083, <Quantity(12.0, 'foot')>)
    """
    if unit:
        if isinstance(given, bool) or not isinstance(given, int | float):
            raise ReadError(f"{shown(given)} is no number to go with the unit {shown(unit)}")
        if not abs(given) < 10**12:  # also what is not a number
            raise ReadError(f"{shown(given)} is no finite number of a believable size")
        word = meaning(plain_unit(unit))
        if word is None:
            raise ReadError(f"the unit {shown(unit)} is {_why_not(plain_unit(unit))}")
        return Quantity(float(given), word.pint)
    if not isinstance(given, str):
        raise ReadError(
            f'{shown(given)} has no unit: write Q({shown(given)}, "ft") or Q("{shown(given)} ft")'
        )
    clean = plain_text(given)
    if len(clean) <= _LONGEST and _FEET_INCHES.fullmatch(clean) and not _POWER_OF_FEET.search(clean):
        return Quantity(read(given, INCH), "inch")
    match = _PLAIN.fullmatch(clean) if len(clean) <= _LONGEST else None
    word = meaning(plain_unit(match["unit"])) if match else None
    if match is None or word is None:
        if match and not match["unit"]:
            raise ReadError(
                f"{shown(given)} has no unit: write one behind the number, such as 12 ft or 40 psf"
            )
        if match and not _hint(clean, INCH):
            raise ReadError(
                f"{shown(given)} has a unit {shown(match['unit'].strip())} that is "
                f"{_why_not(plain_unit(match['unit']))}: write one such as ft, in, mm, lb, psf, plf, psi, lb-ft or kN"
            )
        raise ReadError(
            f"{shown(given)} is not understood: {_hint(clean, INCH)}write a number and a unit, such as 40 psf"
        )
    return Quantity(_value(match["number"], given) * (-1 if match["sign"] == "-" else 1), word.pint)


def _bare(value: object, unit: Unit, wanted: str) -> Understood:
    """A number without quotes: a ratio, or zero."""
    if not isinstance(value, int | float) or isinstance(value, bool):
        quotes = "" if unit.dimension == "ratio" else ", in quotes"
        raise ReadError(f"{shown(value)} is not understood: write {wanted}{quotes}")
    if not abs(value) < 10**12:  # also what is not a number
        raise ReadError(f"{shown(value)} is no finite number of a believable size: write {wanted}")
    if unit.dimension == "ratio" or value == 0:
        return Understood(float(value), "", 1.0)
    offer = with_units(f"{value}", unit.dimension)
    raise ReadError(f"{value} has no unit: write {offer}, in quotes")


def _ratio(number: float, word: str, text: str, unit: Unit) -> Understood:
    if word == "%":
        factor = 0.01 if unit is NONE else 1.0
        return Understood(number * factor, "%", factor)
    if word:
        if hint := _hint(text, unit):
            raise ReadError(f"{shown(text)} is not understood: {hint}write a plain number, without a unit")
        raise ReadError(f"{shown(text)} has the unit {shown(word)}, but a plain number is wanted")
    return Understood(number, "", 1.0)


def _of_feet_and_inches(match: re.Match[str], text: str, unit: Unit) -> Understood:
    feet, inches = _value(match["feet"], text), _value(match["inches"], text)
    if not match["mark"]:
        raise ReadError(
            f"{shown(text)} has no mark after the inches: write {match['feet']}' {match['inches']}\""
        )
    if inches >= 12:
        whole = feet_inches(feet * 12 + inches)
        raise ReadError(
            f"{shown(text)} has {match['inches']} inches after the feet, more than a foot: write {whole}"
        )
    total = feet * 12 + inches
    return Understood(
        (-total if match["sign"] == "-" else total) * _factor("inch", unit.pint),
        "",
        1.0,
        in_feet_and_inches=True,
    )


def _hint(clean: str, unit: Unit) -> str:
    """Why a text may not have been understood, with a colon behind; empty when nothing comes to mind."""
    if match := _COMMA.fullmatch(clean):
        before, after, rest = match["before"], match["after"], match["rest"]
        whole = f'"{before}{after}{rest}" or ' if len(after) == 3 else ""
        return f'numbers are written without a comma, such as {whole}"{before}.{after}{rest}"; '
    if unit.dimension == "length" and (match := _SWAPPED.fullmatch(clean)):
        return (
            f"feet come first, with the mark ', and inches after them, with the mark \", such as "
            f"{match['first']}' {match['then']}\"; "
        )
    if re.search(r"[0-9][eE][-+]?[0-9]", clean):
        return "numbers are written out, without powers of ten; "
    if "," in clean:
        return "numbers are written without a comma; "
    return ""


def _why_not(word: str) -> str:
    reason = AMBIGUOUS.get(word.casefold())
    return f"not clear, for {reason}" if reason else "not known"


def _same_kind(given: str, wanted: str) -> bool:
    return {given, wanted} == {"stress", "load per area"}


# ---------------------------------------------------------------------------------------------------------
# Writing

_LABELS = {
    str(Quantity(1, unit.pint).units): unit.label
    for unit in list(globals().values())
    if isinstance(unit, Unit) and unit.pint
}


def feet_inches(inches: float, denominator: int = 16) -> str:
    """Feet, inches and sixteenths of a length in inches, rounded to the nearest ``1/denominator``.

    >>> feet_inches(86.5)
    '7\\' 2 1/2"'
    >>> feet_inches(-0.25)
    '-1/4"'
    >>> feet_inches(144.9375)
    '12\\' 0 15/16"'
    """
    parts = round(abs(inches) * denominator)
    sign = "-" if inches < 0 and parts else ""
    feet, rest = divmod(parts, 12 * denominator)
    whole, over = divmod(rest, denominator)
    fraction = f"{Fraction(over, denominator)}" if over else ""
    shown = whole or feet or not fraction  # 12' 0 15/16", which no one reads as 12 and a fraction
    inch_text = " ".join(piece for piece in (str(whole) if shown else "", fraction) if piece)
    if not feet:
        return f'{sign}{inch_text}"'
    return f"{sign}{feet}' {inch_text}\""
