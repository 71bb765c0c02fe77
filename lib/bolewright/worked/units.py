"""Which unit a result prints in, and what a printed unit word stands for."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from functools import cache
from typing import Any

import pint

from bolewright import units
from bolewright.unit_words import meaning, plain_unit
from bolewright.units import DEGREE, NONE, Quantity, Unit

_METRIC = re.compile(r"meter|newton|pascal|kilogram|liter")
# By dimension the units that a result keeps when it comes out in one of them exactly; the first of each column is
# what any other is brought to, in the builder's units and in metric ones.
_KEPT = (
    (("inch", "foot", "yard"), ("millimeter", "meter", "centimeter")),
    (("inch**2", "foot**2", "yard**2"), ("millimeter**2", "meter**2", "centimeter**2")),
    (("inch**3", "foot**3", "yard**3"), ("millimeter**3", "meter**3", "centimeter**3", "liter")),
    (("inch**4", "foot**4"), ("millimeter**4", "centimeter**4")),
    (("lbf", "kip"), ("newton", "kilonewton")),
    (
        ("lbf*inch", "lbf*foot", "kip*inch", "kip*foot"),
        ("newton*meter", "kilonewton*meter", "newton*millimeter"),
    ),
    (("psi", "psf", "ksi", "ksf"), ("megapascal", "kilopascal", "gigapascal", "pascal")),
    (("plf", "pli", "klf"), ("kilonewton/meter", "newton/meter")),
    (("pcf", "lbf/inch**3"), ("kilonewton/meter**3",)),
    (("lbf*inch**2",), ("newton*millimeter**2",)),
    (
        ("mile/hour", "inch/year", "foot/second"),
        ("meter/second", "millimeter/year", "centimeter/year", "kilometer/hour"),
    ),
    (("degree",), ("degree",)),
    (("year",), ("year",)),
    (("hertz",), ("hertz",)),
)
_LABELS = {unit.pint: unit.label for unit in vars(units).values() if isinstance(unit, Unit) and unit.pint}
_LABELS |= {  # pint writes ft·kip, m·N, mm/a
    "kip*inch": "kip·in",
    "kip*foot": "kip·ft",
    "newton*meter": "N·m",
    "newton*millimeter": "N·mm",
    "liter": "L",
    "millimeter/year": "mm/yr",
    "centimeter/year": "cm/yr",
}


@cache
def unit_named(name: str) -> Unit:
    """The unit of a pint expression, with the label that the sheets print."""
    known = next((u for u in vars(units).values() if isinstance(u, Unit) and u.pint == name), None)
    if known is not None:
        return known
    return Unit(name, _LABELS.get(name) or f"{Quantity(1, name).units:~P}".replace("lbf", "lb"), "quantity")


def unit_asked(word: str) -> Unit:
    """The unit a user asks for by its word; ValueError for none."""
    found = meaning(plain_unit(word))
    if found is None:
        raise ValueError(f"the unit {units.shown(word)} is not known")
    return unit_named(found.pint)


def unit_for(value: pint.Quantity[Any], beside: Sequence[pint.Quantity[Any]] = ()) -> Unit:
    """The unit in which a result prints: the one it comes out in where builders know it, else the usual one."""
    if value.units == Quantity(1, "degree").units:
        return DEGREE
    if value.dimensionless:
        return NONE
    metric = _is_metric([value])
    if beside:
        metric = _is_metric(beside)
    for columns in _KEPT:
        names = columns[metric]
        if value.check(Quantity(1, names[0]).dimensionality):
            first = (name for name in names if _same_size(value, name))
            other = (name for name in columns[not metric] if _same_size(value, name))
            return unit_named(next(first, None) or next(other, None) or names[0])
    return unit_named(_usual(value, metric))


def _is_metric(values: Iterable[pint.Quantity[Any]]) -> bool:
    sized = [f"{v.units:P}" for v in values if not v.dimensionless]
    return bool(sized) and all(_METRIC.search(words) for words in sized)


def _same_size(value: pint.Quantity[Any], name: str) -> bool:
    return math.isclose(float(Quantity(1, value.units).m_as(name)), 1.0, rel_tol=1e-12)


def _usual(value: pint.Quantity[Any], metric: bool) -> str:
    """Pounds, inches and seconds (or newtons, millimetres) for a dimension that has no name of its own."""
    powers: dict[str, float] = {str(name): float(str(power)) for name, power in value.dimensionality.items()}
    force = powers.pop("[mass]", 0.0)
    length = powers.pop("[length]", 0.0) - force
    time = powers.pop("[time]", 0.0) + 2 * force
    if any(powers.values()):
        raise ValueError(f"{value.units:~P} is no unit that a sheet prints")
    names = ("newton", "millimeter", "second") if metric else ("lbf", "inch", "second")
    parts = [f"{name}**{_whole(p)}" for name, p in zip(names, (force, length, time), strict=True) if p]
    return "*".join(parts)


def _whole(number: float) -> str:
    if not math.isclose(number, round(number), abs_tol=1e-9):
        raise ValueError("a unit to a broken power has no meaning that can be printed")
    return str(round(number))


@cache
def printed_unit(label: str) -> pint.Quantity[Any]:
    """One of a unit as it stands in print, such as ``lb·in²``: read from its label alone."""
    found = meaning(plain_unit(label))
    if found is not None:
        return Quantity(1.0, found.pint)
    plain = re.sub(r"[⁻⁰¹²³⁴-⁹]+", lambda m: "**" + m[0].translate(_LOWERED), label.replace("·", "*"))
    return Quantity(1.0, re.sub(r"(?<![a-z])lb(?![a-z])", "lbf", plain))


_LOWERED = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")
