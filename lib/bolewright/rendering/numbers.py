"""Numbers as they are printed, the same in tables (text) and in equations (LaTeX).

A number shows four significant figures with thousands separators. Whole digits are never rounded away below
ten million, and zeros at the end are dropped only from a number that is exact: ``1.5`` is one and a half,
``1.500`` was rounded. So a number printed with fewer than four figures may be read as exact.
"""

from __future__ import annotations

import math
import re

from bolewright.units import DEGREE, INCH, NONE, PERCENT, Unit
from bolewright.units import feet_inches as _feet_inches

FIGURES = 4
EXACT = 1e-9  # a float this close, relatively, to its printed digits is called exact
ZERO = 1e-9  # a float smaller than this, in any unit we print, is the noise of a subtraction
_PLAIN_BELOW = 1e7
_PLAIN_FROM = 1e-4
_SUPERSCRIPT = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


class NumberError(ValueError):
    """A value that can't be printed as a number."""


def digits(value: float) -> str:
    """Number with four significant figures: ``1,234``, ``0.8221``, ``29,000,000``, ``1.235e-5``.

    >>> digits(1234.4), digits(0.25), digits(1.49999), digits(86123.7), digits(29e6)
    ('1,234', '0.25', '1.500', '86,124', '29,000,000')
    """
    if math.isnan(value):
        raise NumberError("a value that is not a number can't be printed")
    if math.isinf(value):
        return "∞" if value > 0 else "-∞"
    if abs(value) < ZERO:
        return "0"
    mantissa, exponent_text = f"{value:.{FIGURES - 1}e}".split("e")
    exponent = int(exponent_text)
    rounded = float(f"{mantissa}e{exponent}")
    exact = abs(rounded - value) <= EXACT * abs(value)
    if abs(rounded) < _PLAIN_FROM or (abs(rounded) >= _PLAIN_BELOW and not (exact and exponent < 10)):
        return f"{_trimmed(mantissa) if exact else mantissa}e{exponent}"
    text = f"{value:,.{max(FIGURES - 1 - exponent, 0)}f}"
    return _trimmed(text) if exact else text


def _trimmed(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text


def fmt(value: float, unit: Unit = NONE) -> str:
    """Number and unit as plain text.

    >>> from bolewright.units import POUND, PSI
    >>> fmt(1234.4, PSI), fmt(0.000012345, PSI), fmt(30, DEGREE), fmt(-620, POUND)
    ('1,234 psi', '1.234 × 10⁻⁵ psi', '30°', '-620 lb')
    """
    number = digits(value)
    if "e" in number:
        mantissa, exponent = number.split("e")
        number = f"{mantissa} × 10{exponent.translate(_SUPERSCRIPT)}"
    if not unit.label:
        return number
    return f"{number}{unit.label}" if unit is DEGREE else f"{number} {unit.label}"


def fmt_latex(value: float, unit: Unit = NONE) -> str:
    r"""Number and unit as LaTeX; a number with a comma is text, because maths would open a gap at the comma.

    >>> from bolewright.units import PSI
    >>> print(fmt_latex(1234.4, PSI), fmt_latex(0.000012345))
    \text{1,234}\ \text{psi} 1.234 \times 10^{-5}
    """
    number = digits(value)
    if "∞" in number:
        number = number.replace("∞", r"\infty ").strip()
    elif "e" in number:
        mantissa, exponent = number.split("e")
        number = rf"{mantissa} \times 10^{{{exponent}}}"
    elif "," in number:
        number = re.sub(r"[\d,.]+", lambda match: rf"\text{{{match[0]}}}", number)
    return number + unit_latex(unit)


def unit_latex(unit: Unit) -> str:
    r"""Unit as it stands after a number in LaTeX, with the space before it.

    An angle prints ``deg``: a formula turns degrees into radians itself, and ° would do it twice.
    """
    if not unit.label:
        return ""
    if unit is PERCENT:
        return r"\ \%"
    return rf"\ \text{{{'deg' if unit is DEGREE else unit.label}}}"


def feet_and_inches(value: float, unit: Unit = INCH) -> str:
    """Length as feet, inches and sixteenths.

    >>> feet_and_inches(86.5)
    '7\\' 2 1/2"'
    """
    return _feet_inches(float(unit.of(value).m_as("inch")))


def ratio(value: float) -> str:
    """Demand over capacity with two decimals; a ratio above 1 never prints as 1.00.

    >>> ratio(0.954), ratio(0.999), ratio(1.0), ratio(1.004), ratio(2.347), ratio(math.inf)
    ('0.95', '1.00', '1.00', '1.01', '2.35', '∞')
    """
    if math.isnan(value):
        raise NumberError("a ratio that is not a number can't be printed")
    if math.isinf(value):
        return "∞" if value > 0 else "-∞"
    text = f"{value:,.2f}"
    return "1.01" if value > 1 and text == "1.00" else text


def percent(fraction: float) -> str:
    """Fraction as whole percent, or with one decimal below 10 %.

    >>> percent(0.35), percent(0.0625), percent(1.4)
    ('35 %', '6.2 %', '140 %')
    """
    if math.isnan(fraction):
        raise NumberError("a percentage that is not a number can't be printed")
    value = 100 * fraction
    if abs(value) >= 9.95 or abs(value - round(value)) < 0.05:
        return f"{value:,.0f} %"
    return f"{value:.1f} %"
