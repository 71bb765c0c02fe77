"""Amounts in SI for a reader with metric papers, and whether a project file is written in metric units itself.

Inside the package numbers stay in the unit of their annotation; this is only how they are shown.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from typing import Any

from bolewright import units
from bolewright.rendering.numbers import figures_apart, ratio
from bolewright.unit_words import meaning
from bolewright.units import Quantity, Unit

# each unit's in SI, and the larger one from a thousand (or a million) of it on
_SI: dict[str, tuple[tuple[float, str, str], ...]] = {
    units.INCH.pint: ((1, "millimeter", "mm"),),
    units.FOOT.pint: ((1, "meter", "m"),),
    units.SQUARE_INCH.pint: ((1, "millimeter**2", "mm²"),),
    units.SQUARE_FOOT.pint: ((1, "meter**2", "m²"),),
    units.CUBIC_INCH.pint: ((1e3, "centimeter**3", "cm³"),),
    units.CUBIC_FOOT.pint: ((1, "meter**3", "m³"),),
    units.INCH_FOURTH.pint: ((1e4, "centimeter**4", "cm⁴"),),
    units.POUND.pint: ((1, "newton", "N"), (1e3, "kilonewton", "kN")),
    units.POUND_INCH.pint: ((1, "newton*meter", "N·m"), (1e3, "kilonewton*meter", "kN·m")),
    units.POUND_FOOT.pint: ((1, "newton*meter", "N·m"), (1e3, "kilonewton*meter", "kN·m")),
    units.PSI.pint: ((1, "kilopascal", "kPa"), (1e3, "megapascal", "MPa")),
    units.PSF.pint: ((1, "kilopascal", "kPa"),),
    units.PSF_PER_FOOT.pint: ((1, "kilopascal/meter", "kPa/m"),),
    units.PLF.pint: ((1, "newton/meter", "N/m"), (1e3, "kilonewton/meter", "kN/m")),
    units.PLI.pint: ((1, "newton/meter", "N/m"), (1e3, "kilonewton/meter", "kN/m")),
    units.PCI.pint: ((1, "meganewton/meter**3", "MN/m³"),),
    units.PCF.pint: ((1, "kilonewton/meter**3", "kN/m³"),),
    units.MPH.pint: ((1, "meter/second", "m/s"),),
    units.INCH_PER_YEAR.pint: ((1, "millimeter/year", "mm/yr"),),
}
_METRIC = {
    "mm",
    "cm",
    "m",
    "mm2",
    "cm2",
    "m2",
    "m3",
    "L",
    "N",
    "kN",
    "kg",
    "Pa",
    "kPa",
    "MPa",
    "GPa",
    "N/m",
    "kN/m",
}
_METRIC |= {
    "kN/m2",
    "N/mm2",
    "kg/m2",
    "kN/m3",
    "kg/m3",
    "m/s",
    "km/h",
    "mm/yr",
    "mm/year",
    "cm/yr",
    "cm/year",
    "N*m",
    "kN*m",
}
_GIVEN = re.compile(r"""\d\s*(?:["']|([A-Za-z][A-Za-z0-9/*]*))""")


def in_si(value: float, unit: Unit) -> tuple[float, str]:
    """A number and its label in SI; as it is where the unit is the same in both (angle, time, share).

    >>> number, unit = in_si(1000.0, units.PSI)
    >>> round(number, 6), unit
    (6.894757, 'MPa')
    """
    steps = _SI.get(unit.pint)
    if steps is None:
        return value, unit.label
    base = float(Quantity(value, unit.pint).to(steps[0][1]).magnitude)
    if len(steps) > 1 and abs(base) >= steps[1][0]:
        return base / steps[1][0], steps[1][2]
    return base, steps[0][2]


def amount(value: float, unit: Unit, *, metric: bool) -> str:
    """A number with its unit in three figures, whole from 100 on.

    >>> amount(2000.0, units.POUND, metric=True), amount(2000.0, units.POUND, metric=False)
    ('8.9 kN', '2,000 lb')
    """
    number, label = in_si(value, unit) if metric else (value, unit.label)
    words = f"{number:,.0f}" if abs(number) >= 100 else f"{number:.3g}"
    return f"{words} {label}".strip()


def amount_of(demand: float, capacity: float, unit: Unit, *, metric: bool) -> str:
    """A demand beside its capacity, with as many figures as it takes where it is over by less than three show.

    A number against 1 is a ratio, and is rounded as one.

    >>> amount_of(1.004, 1.0, units.INCH, metric=False), amount_of(620.0, 800.0, units.POUND, metric=False)
    ('1.004 in of 1 in', '620 lb of 800 lb')
    >>> amount_of(1.491, 1.0, units.NONE, metric=False)
    '1.50 of 1'
    """
    if capacity == 1 and unit == units.NONE:
        return f"{ratio(demand)} of 1"
    texts = [amount(value, unit, metric=metric) for value in (demand, capacity)]
    if texts[0] == texts[1] and demand > capacity:
        figures = figures_apart(demand, capacity)
        both = [in_si(value, unit) if metric else (value, unit.label) for value in (demand, capacity)]
        texts = [f"{number:,.{figures}g} {label}".strip() for number, label in both]
    return f"{texts[0]} of {texts[1]}"


def is_metric(text: str) -> bool:
    """Whether most quantities of a project file stand in metric units; False where none does, or for no TOML.

    >>> is_metric('[place]\\nfrost_depth = "900 mm"'), is_metric('[place]\\nfrost_depth = "3 ft"')
    (True, False)
    """
    try:
        given = list(_strings(tomllib.loads(text)))
    except tomllib.TOMLDecodeError:
        return False
    metric = other = 0
    for words in given:
        for match in _GIVEN.finditer(words):
            if match[1] in _METRIC:
                metric += 1
            elif match[1] is None or meaning(match[1]):
                other += 1
    return metric > other


def _strings(node: Any) -> Iterator[str]:
    if isinstance(node, str):
        yield node
    elif isinstance(node, dict):
        for value in node.values():
            yield from _strings(value)
    elif isinstance(node, list):
        for value in node:
            yield from _strings(value)
