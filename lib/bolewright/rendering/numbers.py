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
_MOST_TYPED = 9  # figures of a typed number that are printed; with more it is a quotient
_PLAIN_FROM = 1e-4
_SUPERSCRIPT = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


class NumberError(ValueError):
    """A value that can't be printed as a number."""


def digits(value: float, figures: int = FIGURES) -> str:
    """Number with four significant figures: ``1,234``, ``0.8221``, ``29,000,000``, ``1.235e-5``; or with more.

    >>> digits(1234.4), digits(0.25), digits(1.49999), digits(86123.7), digits(29e6)
    ('1,234', '0.25', '1.500', '86,124', '29,000,000')
    """
    if math.isnan(value):
        raise NumberError("a value that is not a number can't be printed")
    if math.isinf(value):
        return "∞" if value > 0 else "-∞"
    if abs(value) < ZERO:
        return "0"
    mantissa, exponent_text = f"{value:.{figures - 1}e}".split("e")
    exponent = int(exponent_text)
    rounded = float(f"{mantissa}e{exponent}")
    exact = abs(rounded - value) <= EXACT * abs(value)
    if abs(rounded) < _PLAIN_FROM or (abs(rounded) >= _PLAIN_BELOW and not (exact and exponent < 10)):
        return f"{_trimmed(mantissa) if exact else mantissa}e{exponent}"
    text = f"{value:,.{max(figures - 1 - exponent, 0)}f}"
    return _trimmed(text) if exact else text


def _trimmed(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text


def fmt(value: float, unit: Unit = NONE, figures: int = FIGURES) -> str:
    """Number and unit as plain text.

    >>> from bolewright.units import POUND, PSI
    >>> fmt(1234.4, PSI), fmt(0.000012345, PSI), fmt(30, DEGREE), fmt(-620, POUND)
    ('1,234 psi', '1.234 × 10⁻⁵ psi', '30°', '-620 lb')
    """
    number = digits(value, figures)
    if "e" in number:
        mantissa, exponent = number.split("e")
        number = f"{mantissa} × 10{exponent.translate(_SUPERSCRIPT)}"
    if not unit.label:
        return number
    return f"{number}{unit.label}" if unit is DEGREE else f"{number} {unit.label}"


def figures_typed(value: float) -> int:
    """Figures that print a number as it was typed: four or more; four for a fraction that has no end.

    >>> figures_typed(1000.1), figures_typed(12.0), figures_typed(1 / 3)
    (5, 4, 4)
    """
    significant = f"{abs(value):.{_MOST_TYPED}e}".partition("e")[0].replace(".", "").rstrip("0")
    return FIGURES if len(significant) > _MOST_TYPED else max(FIGURES, len(significant))


def figures_apart(demand: float, capacity: float) -> int:
    """Figures with which a demand above its capacity is written above it: four or more.

    >>> figures_apart(1.0004, 1.0), figures_apart(9.0, 1.0)
    (5, 4)
    """
    for figures in range(FIGURES, 16):
        if float(f"{demand:.{figures}g}") > float(f"{capacity:.{figures}g}"):
            return figures
    return 16


def fmt_both(demand: float, capacity: float, unit: Unit = NONE) -> tuple[str, str]:
    """Demand and capacity beside each other: written alike only where neither is more.

    A number against 1 is a ratio, and is rounded as one.

    >>> fmt_both(1.00004, 1.0), fmt_both(0.9951, 1.0), fmt_both(1.491, 1.0), fmt_both(2.00004, 2.0)
    (('1.01', '1'), ('1.00', '1'), ('1.50', '1'), ('2.00004', '2'))
    """
    if capacity == 1 and unit == NONE:
        return ratio(demand), "1"
    figures = figures_apart(demand, capacity) if demand > capacity else FIGURES
    if figures == FIGURES:
        return fmt(demand, unit), fmt(capacity, unit)
    demand_text, capacity_text = (
        f"{value:,.{figures}g} {unit.label}".strip() for value in (demand, capacity)
    )
    return demand_text, capacity_text


def fmt_latex(value: float, unit: Unit = NONE, figures: int = FIGURES) -> str:
    r"""Number and unit as LaTeX; a number with a comma is text, because maths would open a gap at the comma.

    >>> from bolewright.units import PSI
    >>> print(fmt_latex(1234.4, PSI), fmt_latex(0.000012345))
    \text{1,234}\ \text{psi} 1.234 \times 10^{-5}
    """
    number = digits(value, figures)
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


MOST_TIMES = 100  # beyond, a ratio says no more than that it is far beyond


def hundredths(value: float) -> int:
    """Demand over capacity in whole hundredths, rounded up: the one rule by which a ratio is rounded.

    A ratio above 1 is never brought down to 1.00, one of 1 or less never up past it; the summary, the sheets,
    the sentences and the form all print this.

    >>> hundredths(0.2532), hundredths(0.76), hundredths(1.0), hundredths(1.0000001), hundredths(0.0)
    (26, 76, 100, 101, 0)
    """
    if math.isnan(value):
        raise NumberError("a ratio that is not a number can't be printed")
    if value > 1:
        return max(101, math.ceil(value * 100 - 1e-9))
    return min(100, math.ceil(value * 100 - 1e-9))


def ratio(value: float) -> str:
    """Demand over capacity with two decimals, rounded up.

    >>> ratio(0.954), ratio(0.999), ratio(1.0), ratio(1.00000001), ratio(2.341), ratio(1e6), ratio(math.inf)
    ('0.96', '1.00', '1.00', '1.01', '2.35', 'over 100', 'over 100')
    """
    if value > MOST_TIMES:
        return f"over {MOST_TIMES}"
    return f"{hundredths(value) / 100:.2f}" if hundredths(value) else "0.00"


def used(value: float) -> str:
    """Share of what is allowed that is used, in whole per cent: the same digits as :func:`ratio`.

    >>> used(0.2532), used(1.0)
    ('26 %', '100 %')
    """
    return f"{hundredths(value)} %"


def excess(value: float) -> str:
    """By how much a ratio above 1 is over, in words that stay readable.

    >>> excess(1.0000001), excess(1.23), excess(4.127), excess(9_999_999.0)
    ('1 % over what is allowed', '23 % over what is allowed', '4.13 times what is allowed', \
'more than 100 times what is allowed')
    """
    if value > MOST_TIMES:
        return f"more than {MOST_TIMES} times what is allowed"
    if value > 2:
        return f"{ratio(value)} times what is allowed"
    return f"{hundredths(value) - 100} % over what is allowed"


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
