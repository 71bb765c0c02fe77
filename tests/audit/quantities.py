"""Quantities of a project file as plain numbers: inches, pounds, psi, psf, years. The auditor's own reader."""

from __future__ import annotations

import re
from fractions import Fraction

FACTOR = {
    "": 1.0,
    "in": 1.0,
    "ft": 12.0,
    "mm": 1 / 25.4,
    "cm": 1 / 2.54,
    "m": 1 / 0.0254,
    "lb": 1.0,
    "psi": 1.0,
    "ksi": 1000.0,
    "psf": 1.0,
    "plf": 1.0,
    "mph": 1.0,
    "deg": 1.0,
    "%": 0.01,
    "years": 1.0,
    "year": 1.0,
    "yr": 1.0,
    "in/yr": 1.0,
    "ft2": 1.0,
}


def number(text: str) -> float:
    """Sum of whole numbers and fractions: 5 3/8.

    >>> number("5 3/8")
    5.375
    """
    return float(sum(Fraction(part) for part in text.split())) if text.strip() else 0.0


def read(value: object, default: float | None = None) -> float:
    """Number of a quantity as it stands in the file.

    >>> read("7' 2 1/2\\""), read("-58 1/4 in"), read("36 ksi"), read("10 %")
    (86.5, -58.25, 36000.0, 0.1)
    """
    if value is None:
        assert default is not None
        return default
    if isinstance(value, int | float):
        return float(value)
    text = str(value).strip()
    sign = -1.0 if text.startswith("-") else 1.0
    text = text.lstrip("-")
    if "'" in text or '"' in text:
        feet, inches = re.fullmatch(r"(?:([\d. /]+)')?\s*(?:([\d. /]+)\")?", text).groups()
        return sign * (12 * number(feet or "0") + number(inches or "0"))
    amount, unit = re.fullmatch(r"([\d. /]+?)\s*([a-z%][a-z0-9/]*)?", text).groups()
    return sign * number(amount) * FACTOR[unit or ""]
