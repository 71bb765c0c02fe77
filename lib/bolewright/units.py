"""Units: one registry, one strict reader for a builder's text, and the annotated types of the formulas.

Inside the package every number stands in the unit of its annotation (inches, pounds, psi ...). Text with a
unit is read at the door by :func:`read`, a small grammar of our own; pint's parser never sees user text.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Annotated, Any, get_args, get_origin

import pint

ureg: pint.UnitRegistry[Any] = pint.UnitRegistry()
for _definition in (
    "psf = lbf / foot ** 2",
    "plf = lbf / foot",
    "pcf = lbf / foot ** 3",
    "klf = 1000 * plf",
    "pli = lbf / inch",
):
    ureg.define(_definition)
ureg.formatter.default_format = "~P"
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

# The annotated types of the formulas: dimension, unit and meaning in one word. A value is a float, a numpy
# array, or a pint quantity of either.
Length = Annotated[Any, INCH]
Feet = Annotated[Any, FOOT]
Area = Annotated[Any, SQUARE_INCH]
AreaFeet = Annotated[Any, SQUARE_FOOT]
SectionModulus = Annotated[Any, CUBIC_INCH]
Volume = Annotated[Any, CUBIC_INCH]
VolumeFeet = Annotated[Any, CUBIC_FOOT]
SecondMoment = Annotated[Any, INCH_FOURTH]
Force = Annotated[Any, POUND]
Moment = Annotated[Any, POUND_INCH]
MomentFeet = Annotated[Any, POUND_FOOT]
Stress = Annotated[Any, PSI]
AreaLoad = Annotated[Any, PSF]
PressurePerDepth = Annotated[Any, PSF_PER_FOOT]
LineLoad = Annotated[Any, PLF]
LineLoadInch = Annotated[Any, PLI]
FoundationModulus = Annotated[Any, PCI]
Density = Annotated[Any, PCF]
Speed = Annotated[Any, MPH]
Angle = Annotated[Any, DEGREE]
Years = Annotated[Any, YEAR]
Frequency = Annotated[Any, HERTZ]
Growth = Annotated[Any, INCH_PER_YEAR]
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

_WORDS: dict[str, tuple[str, str]] = {}


def _words(dimension: str, pint_unit: str, *words: str) -> None:
    for word in words:
        _WORDS[word] = (dimension, pint_unit)


_words("length", "inch", "in", "in.", "inch", "inches", '"', "″", "”")
_words("length", "foot", "ft", "ft.", "foot", "feet", "'", "′", "’")
_words("length", "yard", "yd", "yard", "yards")
_words("length", "millimeter", "mm", "millimeter", "millimeters", "millimetre", "millimetres")
_words("length", "centimeter", "cm", "centimeter", "centimeters", "centimetre", "centimetres")
_words("length", "meter", "m", "meter", "meters", "metre", "metres")
_words("area", "inch**2", "in2", "in²", "in^2", "sq in", "sq. in.", "sqin")
_words("area", "foot**2", "ft2", "ft²", "ft^2", "sq ft", "sq. ft.", "sqft")
_words("area", "millimeter**2", "mm2", "mm²", "mm^2")
_words("area", "meter**2", "m2", "m²", "m^2")
_words("section modulus or volume", "foot**3", "ft3", "ft³", "ft^3", "cu ft", "cu. ft.", "cuft")
_words("section modulus or volume", "meter**3", "m3", "m³", "m^3")
_words("section modulus or volume", "liter", "L", "liter", "liters", "litre", "litres")
_words("force", "lbf", "lb", "lb.", "lbs", "lbs.", "lbf", "pound", "pounds", "#")
_words("force", "kip", "kip", "kips", "k")
_words("force", "newton", "N", "newton", "newtons")
_words("force", "kilonewton", "kN")
_words("force", "kilogram_force", "kgf")
_words("stress", "psi", "psi", "lb/in2", "lb/in²")
_words("stress", "ksi", "ksi")
_words("stress", "megapascal", "MPa", "N/mm2", "N/mm²")
_words("stress", "gigapascal", "GPa")
_words("load per area", "psf", "psf", "lb/ft2", "lb/ft²", "lb/sq ft")
_words("load per area", "kilopascal", "kPa", "kN/m2", "kN/m²")
_words("load per area", "pascal", "Pa", "N/m2", "N/m²")
_words("load per length", "plf", "plf", "lb/ft")
_words("load per length", "pli", "lb/in")
_words("load per length", "klf", "klf")
_words("load per length", "kilonewton/meter", "kN/m")
_words("load per length", "newton/meter", "N/m")
_words("weight per volume", "pcf", "pcf", "lb/ft3", "lb/ft³")
_words("weight per volume", "kilonewton/meter**3", "kN/m3", "kN/m³")
_words("weight per volume", "kilogram_force/meter**3", "kg/m3", "kg/m³")
_words("pressure per depth", "psf/foot", "psf/ft", "pcf lateral")
_words("pressure per depth", "kilopascal/meter", "kPa/m")
_words("speed", "mile/hour", "mph")
_words("speed", "meter/second", "m/s")
_words("speed", "kilometer/hour", "km/h", "kph")
_words("angle", "degree", "deg", "degree", "degrees", "°")
_words("time", "year", "yr", "year", "years")
_words("growth per year", "inch/year", "in/yr", "in/year")
_words("growth per year", "millimeter/year", "mm/yr", "mm/year")
_words("moment", "lbf*inch", "lb-in", "lb in", "in-lb", "lb·in")
_words("moment", "lbf*foot", "lb-ft", "lb ft", "ft-lb", "lb·ft")
_words("moment", "kilonewton*meter", "kN-m", "kN m", "kNm", "kN·m")
_words("temperature", "degree_Fahrenheit", "°F", "degF", "F")

_EXAMPLES = {
    "length": "7' 2 1/2\", 7.21 ft or 2200 mm",
    "area": "12 in2 or 4 ft2",
    "section modulus or volume": "0.6 ft3 or 17 L",
    "force": "620 lb or 2.7 kN",
    "stress": "2500 psi, 36 ksi or 17 MPa",
    "load per area": "40 psf or 1.9 kPa",
    "load per length": "8 plf or 0.12 kN/m",
    "weight per volume": "38.6 pcf",
    "pressure per depth": "150 psf/ft",
    "speed": "115 mph or 51 m/s",
    "angle": "30 deg",
    "time": "20 years",
    "growth per year": "0.15 in/yr or 4 mm/yr",
    "moment": "500 lb-ft",
}

_NUMBER = r"\d{1,9}(?:\.\d{1,9})?|\.\d{1,9}"
_FRACTION = r"\d{1,5}\s?/\s?\d{1,4}"
_MIXED = rf"(?:\d{{1,6}}(?:\s+|\s?-\s?){_FRACTION}|{_FRACTION}|{_NUMBER})"
_FEET_INCHES = re.compile(
    rf"(?P<sign>-?)\s*(?P<feet>{_NUMBER})\s*(?:'|′|’|ft\.?|feet|foot)\s*-?\s*"
    rf"(?P<inches>{_MIXED})\s*(?:\"|″|”|''|in\.?|inch|inches)"
)
_PLAIN = re.compile(rf"(?P<sign>[-+]?)\s*(?P<number>{_MIXED})\s*(?P<unit>[^\d\s.+-].{{0,15}}|)")
_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}


class ReadError(ValueError):
    """Text that is no quantity of the wanted dimension; the message is one sentence for the user."""


@cache
def _factor(pint_unit: str, target: str) -> float:
    return float(Quantity(1.0, pint_unit).m_as(target))


def _value(number: str) -> float:
    whole_and_fraction = re.split(r"\s?-\s?|\s+(?=\d+\s?/)", number.strip(), maxsplit=1)
    total = Fraction(0)
    for piece in whole_and_fraction:
        text = piece.replace(" ", "")
        if "/" in text:
            top, bottom = text.split("/")
            if int(bottom) == 0:
                raise ReadError(f"the fraction {text} divides by zero")
            total += Fraction(int(top), int(bottom))
        else:
            total += Fraction(text)
    return float(total)


def read(text: object, unit: Unit) -> float:
    """Number in ``unit`` that a builder's text means.

    The grammar is one number (decimal, fraction or whole-and-fraction) and one unit word, or feet and inches.
    A plain ratio takes no unit. Raises :class:`ReadError` with one sentence: what was given, what is allowed.

    >>> read("7' 2 1/2\\"", INCH)
    86.5
    >>> round(read("2200 mm", INCH), 4)
    86.6142
    >>> read("40 psf", PSF)
    40.0
    """
    example = _EXAMPLES.get(unit.dimension, "0.25")
    wanted = f"a {unit.dimension} such as {example}"
    if not isinstance(text, str):
        if unit.dimension == "ratio" and isinstance(text, int | float) and not isinstance(text, bool):
            if not math.isfinite(text):
                raise ReadError(f"{text} is not a finite number")
            return float(text)
        raise ReadError(f"{text!r} has no unit: write {wanted}, in quotes")
    clean = text.strip()
    for sign, ascii_fraction in _VULGAR.items():
        clean = clean.replace(sign, f" {ascii_fraction}")
    clean = clean.replace("−", "-").strip()
    if len(clean) > 40:
        raise ReadError(f"{text[:40]!r}... is too long: write {wanted}")
    if unit.dimension == "length" and (match := _FEET_INCHES.fullmatch(clean)):
        inches = _value(match["feet"]) * 12 + _value(match["inches"])
        return (-inches if match["sign"] == "-" else inches) * _factor("inch", unit.pint)
    match = _PLAIN.fullmatch(clean)
    if match is None:
        raise ReadError(f"{text!r} is not understood: write {wanted}")
    number = _value(match["number"]) * (-1 if match["sign"] == "-" else 1)
    word = match["unit"].strip()
    if unit.dimension == "ratio":
        if word == "%":
            return number / 100 if unit is NONE else number
        if word:
            raise ReadError(f"{text!r} has the unit {word!r}, but a plain number is wanted")
        return number
    if not word:
        raise ReadError(f"{text!r} has no unit: write {wanted}")
    if word not in _WORDS:
        raise ReadError(f"{text!r} has a unit {word!r} that is not known: write {wanted}")
    dimension, pint_unit = _WORDS[word]
    if dimension != unit.dimension and not _same_kind(dimension, unit.dimension):
        raise ReadError(f"{text!r} is a {dimension}, but {wanted} is wanted")
    return number * _factor(pint_unit, unit.pint)


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
