"""Print-back of a formula that is set out once and referred to: its printed equation with another row's numbers.

A reader puts the numbers of the row into the equation that the row refers to. This does the same, each number anywhere
within its rounding, and the row's result must come out.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from bolewright.rendering.intervals import Interval
from bolewright.rendering.printback import PrintBackError
from bolewright.rendering.printed import read_block, read_number
from bolewright.rendering.symbols import symbol_latex
from bolewright.rendering.tree import Number, ReadingError, interval_of, symbols_in

_PRINTED = re.compile(
    r"(?P<sign>[-−]?)(?P<digits>\d[\d,]*(?:\.\d+)?)(?:\s*×\s*10(?P<power>[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+))?(?!\d)"
)
_LOWERED = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")
_FLOAT = 1e-9

Values = Sequence[tuple[str, str]]


def number_in(text: str) -> Number:
    """The number that a printed value begins with. Raises ReadingError where there is none.

    >>> number_in("1,207 lb·in").value, number_in("−2.5×10⁻⁶ rad").value
    (1207.0, -2.5e-06)
    """
    found = _PRINTED.match(text.strip())
    if found is None:
        raise ReadingError(f"{text!r} begins with no number")
    number = read_number(found["digits"], int((found["power"] or "0").translate(_LOWERED)))
    return Number(-number.value, number.radius, "") if found["sign"] else number


def check_again(latex: str, values: Values, name: str) -> None:
    """PrintBackError where ``values`` (symbols with printed values, the result last) don't compute by an equation.

    ``latex`` is the equation that the row refers to, ``name`` that of its formula.
    """
    *given, (symbol, printed) = values
    try:
        known = {symbol_latex(one): number_in(text).interval for one, text in given}
        result = number_in(printed).interval
        for equation in read_block(latex):
            first = equation.parts[0]
            own = symbols_in(first) or len(equation.parts) > 1
            known[equation.symbol] = interval_of(first, known) if own else _plain(first)
    except (ReadingError, ArithmeticError, ValueError) as error:
        raise PrintBackError(f"{name}, referred to: {error}") from error
    found = known.get(symbol_latex(symbol))
    slack = _FLOAT * max(abs(result.low), abs(result.high))
    if found is None or found.low > result.high + slack or result.low > found.high + slack:
        said = f"{found.low:.6g} to {found.high:.6g}" if found else "nothing"
        raise PrintBackError(f"{name}, referred to: its numbers give {said}, the printed result is {printed}")


def _plain(node: object) -> Interval:
    if not isinstance(node, Number):
        raise ReadingError("a line without symbols is no number")
    return node.interval
