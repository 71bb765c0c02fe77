"""The words a builder writes for units, and what each dimension is called in a sentence."""

from __future__ import annotations

import re
import unicodedata
from typing import NamedTuple


class Word(NamedTuple):
    """What a unit word means: its dimension, and the unit as pint writes it."""

    dimension: str
    pint: str


_EXACT: dict[str, Word] = {}


def _words(dimension: str, pint_unit: str, *words: str) -> None:
    for word in words:
        _EXACT[word] = Word(dimension, pint_unit)


# As written after `plain_unit`: straight marks, 2 and 3 for powers, no dot after an abbreviation.
_words("length", "inch", "in", "inch", "inches", '"')
_words("length", "foot", "ft", "foot", "feet", "'")
_words("length", "yard", "yd", "yds", "yard", "yards")
_words("length", "millimeter", "mm", "millimeter", "millimeters", "millimetre", "millimetres")
_words("length", "centimeter", "cm", "centimeter", "centimeters", "centimetre", "centimetres")
_words("length", "meter", "m", "meter", "meters", "metre", "metres")
_words("area", "inch**2", "in2", "sq in", "sqin", "square inch", "square inches")
_words("area", "foot**2", "ft2", "sq ft", "sqft", "sf", "square foot", "square feet")
_words("area", "millimeter**2", "mm2", "sq mm")
_words("area", "centimeter**2", "cm2", "sq cm")
_words("area", "meter**2", "m2", "sq m", "sqm")
_words("section modulus or volume", "inch**3", "in3", "cu in", "cubic inch", "cubic inches")
_words("section modulus or volume", "millimeter**3", "mm3")
_words("section modulus or volume", "centimeter**3", "cm3")
_words("second moment of area", "inch**4", "in4")
_words("second moment of area", "millimeter**4", "mm4")
_words("second moment of area", "centimeter**4", "cm4")
_words("section modulus or volume", "foot**3", "ft3", "cu ft", "cuft", "cubic feet", "cubic foot")
_words("section modulus or volume", "yard**3", "yd3", "cu yd", "cubic yards", "cubic yard")
_words("section modulus or volume", "meter**3", "m3", "cu m")
_words("section modulus or volume", "liter", "L", "liter", "liters", "litre", "litres")
_words("force", "lbf", "lb", "lbs", "lbf", "pound", "pounds", "#")
_words("force", "kip", "kip", "kips", "k")
_words("force", "newton", "N", "newton", "newtons")
_words("force", "kilonewton", "kN")
_words("force", "kilogram_force", "kg", "kgs", "kgf", "kilogram", "kilograms")  # its weight, standard gravity
_words("stress", "psi", "psi", "lb/in2")
_words("stress", "ksi", "ksi", "kip/in2")
_words("stress", "megapascal", "MPa", "N/mm2")
_words("stress", "gigapascal", "GPa", "kN/mm2")
_words("load per area", "psf", "psf", "lb/ft2")
_words("load per area", "ksf", "ksf", "kip/ft2")
_words("load per area", "kilopascal", "kPa", "kN/m2")
_words("load per area", "pascal", "Pa", "N/m2")
_words("load per area", "kilogram_force/meter**2", "kg/m2")
_words("load per length", "plf", "plf", "lb/ft")
_words("load per length", "pli", "lb/in")
_words("load per length", "klf", "klf", "kip/ft")
_words("load per length", "kilonewton/meter", "kN/m")
_words("load per length", "newton/meter", "N/m")
_words("load per length", "kilogram_force/meter", "kg/m")
_words("weight per volume", "pcf", "pcf", "lb/ft3")
_words("weight per volume", "kilonewton/meter**3", "kN/m3")
_words("weight per volume", "kilogram_force/meter**3", "kg/m3")
_words("pressure per depth", "psf/foot", "psf/ft", "pcf lateral")
_words("pressure per depth", "kilopascal/meter", "kPa/m")
_words("speed", "mile/hour", "mph", "mi/h")
_words("speed", "meter/second", "m/s", "mps")
_words("speed", "kilometer/hour", "km/h", "kph", "kmh")
_words("speed", "foot/second", "ft/s", "fps")
_words("speed", "knot", "knot", "knots", "kt")
_words("angle", "degree", "deg", "degs", "degree", "degrees", "°")
_words("time", "year", "yr", "yrs", "year", "years")
_words("growth per year", "inch/year", "in/yr")
_words("growth per year", "millimeter/year", "mm/yr")
_words("growth per year", "centimeter/year", "cm/yr")
_words("foundation modulus", "lbf/inch**3", "pci", "lb/in3")
for _force, _pint_force in (
    ("lb", "lbf"),
    ("kip", "kip"),
    ("N", "newton"),
    ("kN", "kilonewton"),
    ("kg", "kilogram_force"),
):
    for _length, _pint_length in (("in", "inch"), ("ft", "foot"), ("m", "meter"), ("mm", "millimeter")):
        _words("moment", f"{_pint_force}*{_pint_length}", f"{_force}-{_length}")
_words("moment", "newton*meter", "Nm")
_words("moment", "kilonewton*meter", "kNm")
_words("temperature", "degree_Fahrenheit", "°F", "degF", "F")

# Short names of what stands on either side of a stroke.
_SHORT = {
    **dict.fromkeys(("lbs", "lbf", "pound", "pounds", "#"), "lb"),
    **dict.fromkeys(("k", "kips"), "kip"),
    **dict.fromkeys(("kgf", "kgs", "kilogram", "kilograms"), "kg"),
    **dict.fromkeys(("newton", "newtons"), "N"),
    **dict.fromkeys(("kilonewton", "kilonewtons"), "kN"),
    **dict.fromkeys(("inch", "inches"), "in"),
    **dict.fromkeys(("foot", "feet"), "ft"),
    **dict.fromkeys(("sqin", "sq in", "square inch", "square inches"), "in2"),
    **dict.fromkeys(("sqft", "sq ft", "sf", "square foot", "square feet"), "ft2"),
    **dict.fromkeys(("sqm", "sq m", "square meter", "square metre"), "m2"),
    **dict.fromkeys(("cuft", "cu ft", "cubic foot"), "ft3"),
    **dict.fromkeys(("meter", "meters", "metre", "metres"), "m"),
    **dict.fromkeys(("millimeter", "millimeters", "millimetre", "millimetres"), "mm"),
    **dict.fromkeys(("mile", "miles"), "mi"),
    **dict.fromkeys(("kilometer", "kilometers", "kilometre", "kilometres"), "km"),
    **dict.fromkeys(("hour", "hr"), "h"),
    **dict.fromkeys(("second", "sec"), "s"),
    **dict.fromkeys(("year", "y", "a"), "yr"),
}

_ANY_CASE: dict[str, Word] = {}
for _word, _meaning in _EXACT.items():
    _ANY_CASE.setdefault(_word.casefold(), _meaning)

# Words that mean different amounts to different people.
AMBIGUOUS = {
    "t": "a ton is 2000 lb, 2240 lb or 1000 kg",
    "ton": "a ton is 2000 lb, 2240 lb or 1000 kg",
    "tons": "a ton is 2000 lb, 2240 lb or 1000 kg",
    "tonne": "a ton is 2000 lb, 2240 lb or 1000 kg",
    "tonnes": "a ton is 2000 lb, 2240 lb or 1000 kg",
    "gal": "a gallon differs from country to country",
    "gallon": "a gallon differs from country to country",
    "gallons": "a gallon differs from country to country",
    "mil": "a mil is a thousandth of an inch to some and a millimetre to others",
    "mils": "a mil is a thousandth of an inch to some and a millimetre to others",
}

EXAMPLES = {
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
    "foundation modulus": "500 lb/in3",
}

# Units to offer for a number that has none.
_USUAL = {
    "length": ("in", "ft", "mm"),
    "area": ("ft2", "m2"),
    "section modulus or volume": ("ft3", "L"),
    "force": ("lb", "kg", "kN"),
    "stress": ("psi", "MPa"),
    "load per area": ("psf", "kPa"),
    "load per length": ("plf", "kN/m"),
    "weight per volume": ("pcf", "kN/m3"),
    "pressure per depth": ("psf/ft", "kPa/m"),
    "speed": ("mph", "m/s"),
    "angle": ("deg",),
    "time": ("years",),
    "growth per year": ("in/yr", "mm/yr"),
    "moment": ("lb-ft", "kN-m"),
    "foundation modulus": ("lb/in3",),
}

_MARKS = str.maketrans(
    {
        **dict.fromkeys("′’‘´`ʹʼ", "'"),
        **dict.fromkeys("″”“„˝ʺ", '"'),
        **dict.fromkeys("⁄∕", "/"),
        **dict.fromkeys("−–—‐‑‒", "-"),
    }
)


def plain_text(text: str) -> str:
    """A quantity in plain characters: straight marks and dashes, spaces single, ``½`` written out as 1/2.

    >>> plain_text("7′ 2⅜″")
    '7\\' 2 3/8"'
    """
    written_out = "".join(_written_out(sign) for sign in text)
    return " ".join(written_out.translate(_MARKS).replace("''", '"').split())


def _written_out(sign: str) -> str:
    if unicodedata.decomposition(sign).startswith("<fraction>"):
        return f" {unicodedata.normalize('NFKC', sign)}"
    return sign


def plain_unit(text: str) -> str:
    """A unit word without dots and signs for powers, each side of its stroke by its short name, a moment's force first.

    >>> plain_unit("lbs./sq. ft."), plain_unit("miles per hour"), plain_unit("p.s.f."), plain_unit("ft*lbs")
    ('lb/ft2', 'mi/h', 'psf', 'lb-ft')
    """
    word = text.replace("²", "2").replace("³", "3").replace("^", "").replace("**", "").replace(".", " ")
    word = " ".join(word.split())
    if re.fullmatch(r"(?:\w )+\w", word):
        word = word.replace(" ", "")
    top, stroke, bottom = re.sub(r"\bper\b", "/", word, flags=re.IGNORECASE).partition("/")
    if not stroke:
        return _moment(word) or word
    return "/".join(_SHORT.get(side.strip().casefold(), side.strip()) for side in (top, bottom))


def _moment(word: str) -> str:
    """A force times a length in either order, as ``lb-ft``; empty for any other word."""
    sides = [_SHORT.get(side.strip().casefold(), side.strip()) for side in re.split(r"[-*· ]", word)]
    for force, length in (sides, sides[::-1]) if len(sides) == 2 else ():
        for written in (f"{force}-{length}", f"{force}-{length}".casefold()):
            if written in _EXACT:
                return written
    return ""


def meaning(unit: str) -> Word | None:
    """What a plain unit word means, in the case it was written or in any; None for no unit known here.

    >>> meaning("FT").pint, meaning("kN").pint
    ('foot', 'kilonewton')
    """
    return _EXACT.get(unit) or _ANY_CASE.get(unit.casefold())


def article(dimension: str) -> str:
    """The dimension with its article: a length, an angle."""
    return f"{'an' if dimension[0] in 'aeio' else 'a'} {dimension}"


def with_units(number: str, dimension: str) -> str:
    """A number with the units that it may have meant: ``"42 in", "42 ft" or "42 mm"``."""
    shown = [f'"{number} {unit}"' for unit in _USUAL.get(dimension, ())]
    return " or ".join(filter(None, (", ".join(shown[:-1]), shown[-1])))
