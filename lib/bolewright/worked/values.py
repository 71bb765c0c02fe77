"""The value of a worked line: one finite number with or without a unit, as a reader finds it in the print."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pint

from bolewright.rendering.numbers import ZERO, digits
from bolewright.units import NONE, Quantity, Unit, ureg
from bolewright.worked.grammar import WorkedError
from bolewright.worked.units import unit_for

APART = 0.02  # a result further from what its printed numbers give would mislead a reader


def as_printed(value: Any) -> Any:
    """A value as a reader finds it in the print: in its printed unit, with the printed figures."""
    number, unit = number_and_unit(value)
    rounded = float(digits(number).replace(",", ""))
    return unit.of(rounded) if unit is not NONE else rounded


def comes_out(again: Callable[[], Any], value: Any) -> bool:
    """Whether a line worked out from its printed numbers comes to its value, within 2 %."""
    try:
        found = sized(again())
    except ArithmeticError:
        return False
    wanted = sized(value)
    one, two = float(found.m_as(wanted.units)), float(wanted.magnitude)
    return math.isclose(one, two, rel_tol=APART, abs_tol=ZERO)


def one_number(name: str, value: Any) -> Any:
    """One finite number, plain or with a unit."""
    bare = value.magnitude if isinstance(value, pint.Quantity) else value
    single = isinstance(bare, int | float | np.integer | np.floating) or getattr(bare, "ndim", 1) == 0
    if isinstance(bare, bool) or not single:
        raise WorkedError(f"{name} is {_kind(bare)}, a worked line takes one number")
    number = float(bare)
    if not math.isfinite(number):
        raise WorkedError(f"{name} is no finite number")
    return Quantity(number, value.units) if isinstance(value, pint.Quantity) else number


def _kind(value: Any) -> str:
    return "an array of numbers" if isinstance(value, np.ndarray) else f"a {type(value).__name__}"


def number_and_unit(value: Any) -> tuple[float, Unit]:
    """A value's number, and the unit in which it prints."""
    if not isinstance(value, pint.Quantity):
        return float(value), NONE
    unit = unit_for(value)
    return (float(value.m_as(unit.pint)), unit) if unit is not NONE else (float(value.m_as("")), NONE)


def sized(value: Any) -> pint.Quantity[Any]:
    """A value as a quantity, a plain number without dimension."""
    return value if isinstance(value, pint.Quantity) else Quantity(float(value), "")


def units_said(error: pint.PintError) -> str:
    """What is wrong with units, in the words that the sheets print."""
    if isinstance(error, pint.DimensionalityError):
        one, two = (_unit_words(units) for units in (error.units1, error.units2))
        return f"{one} and {two} don't go together"
    return "its units don't go together"


def _unit_words(units: Any) -> str:
    """Unit words as the sheets print them, not pint's own."""
    words = f"{ureg.Unit(units):~P}".replace("lbf", "lb")
    return words or "a plain number"
