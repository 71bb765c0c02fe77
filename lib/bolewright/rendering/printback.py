"""Print-back: reads the printed LaTeX again, evaluates it, and compares it with what was computed.

Every line must hold in three ways. Its symbolic part, with the exact values, gives the computed value. Its
numeric part is the symbolic one with each symbol replaced by its value, correctly rounded. And the numeric
part, with each printed number anywhere within its rounding, gives the printed result within its rounding:
what a reader with a pocket calculator finds.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from bolewright.rendering.handcalc import RenderedStep
from bolewright.rendering.intervals import Interval
from bolewright.rendering.printed import Equation, read_block
from bolewright.rendering.symbols import symbol_latex
from bolewright.rendering.tree import (
    Node,
    Number,
    Operation,
    ReadingError,
    interval_of,
    same_shape,
    symbols_in,
    value_of,
)
from bolewright.units import Unit

_FLOAT = 1e-9  # what floats lose between the order of the source and the order of the print


class PrintBackError(ValueError):
    """A printed line that does not compute from its own print; names formula and line."""


def check_step(step: RenderedStep) -> None:
    """Raise :class:`PrintBackError` when the print of a step does not say what was computed."""
    name = step.formula.name
    equations = _read(step.latex, name)
    printed = [equation.symbol for equation in equations]
    computed = [symbol_latex(line.symbol) for line in step.lines]
    if printed != computed:
        raise PrintBackError(f"{name} prints the symbols {printed}, but computes {computed}")
    units = step.formula.parameters | {line.symbol: line.unit for line in step.lines}
    exact = step.arguments | {line.symbol: line.value for line in step.lines}
    values = {symbol_latex(symbol): value for symbol, value in exact.items()}
    if len(values) < len(exact):
        raise PrintBackError(f"{name} prints two of its symbols {sorted(exact)} alike")
    labels = {symbol_latex(symbol): _label(unit) for symbol, unit in units.items()}
    for equation, line in zip(equations, step.lines, strict=True):
        for problem in problems_with_values(equation, values, labels):
            raise PrintBackError(f"{name}, line {line.symbol}: {problem}, in {equation.latex}")


def _read(latex: str, name: str) -> tuple[Equation, ...]:
    try:
        return read_block(latex)
    except ReadingError as error:
        raise PrintBackError(f"{name} prints what can't be read again: {error}") from error


def _label(unit: Unit) -> str:
    return {"°": "deg", "%": r"\%"}.get(unit.label, unit.label)


def problems_with_values(
    equation: Equation, values: dict[str, float], labels: dict[str, str]
) -> Iterator[str]:
    """What is wrong with one printed chain, with the exact values of its symbols and the unit that each prints in."""
    value = values[equation.symbol]
    *_, result = equation.parts
    number = _signed(result)
    if number is None:
        yield "the result is no number"
        return
    yield from _wrong_number(equation.symbol, number, values, labels)
    first = equation.parts[0]
    try:
        found = value_of(first, values) if first is not result else value
    except (ReadingError, ArithmeticError, ValueError) as error:
        yield f"the symbolic part can't be evaluated ({error})"
        return
    if not math.isclose(found, value, rel_tol=_FLOAT, abs_tol=_FLOAT * _scale(first, values)):
        yield f"the symbolic part gives {found:.6g}, computed was {value:.6g}"
    pairs: list[tuple[str, Number]] = []
    yield from _shape_problems(equation, pairs)
    for symbol, substituted in pairs:
        yield from _wrong_number(symbol, substituted, values, labels)
    yield from _sum_problems(equation, number)


def _shape_problems(equation: Equation, pairs: list[tuple[str, Number]]) -> Iterator[str]:
    """Whether the numeric part is the symbolic one; ``pairs`` collects the numbers put for symbols."""

    def pair(symbol: str, number: Number, negative: bool) -> None:
        pairs.append((symbol, _negated(number) if negative else number))

    match equation.parts:
        case (result,):
            holds = not symbols_in(result)
        case (symbolic, result) if not symbols_in(symbolic):
            holds = not symbols_in(result)
        case (symbolic, numeric):  # a symbol by itself: its number is the result
            holds = same_shape(symbolic, numeric, pair)
        case (symbolic, numeric, _):
            holds = same_shape(symbolic, numeric, pair)
        case _:
            holds = False
    if not holds:
        yield "the numeric part is not the symbolic one with numbers"


def _sum_problems(equation: Equation, number: Number) -> Iterator[str]:
    """Whether the printed numbers give the printed result, each anywhere within its rounding."""
    if len(equation.parts) < 2:
        return
    numeric = equation.parts[-2] if not symbols_in(equation.parts[-2]) else equation.parts[-1]
    try:
        found = interval_of(numeric, {})
    except (ReadingError, ArithmeticError, ValueError) as error:
        yield f"the numeric part can't be evaluated ({error})"
        return
    if not _meet(found, number.interval):
        yield f"its numbers give {found.low:.6g} to {found.high:.6g}, the printed result is {number.value:g}"


def _meet(a: Interval, b: Interval) -> bool:
    slack = _FLOAT * max(abs(b.low), abs(b.high))
    return a.low <= b.high + slack and b.low <= a.high + slack


def _wrong_number(
    symbol: str, number: Number, values: dict[str, float], labels: dict[str, str]
) -> Iterator[str]:
    if symbol not in values:
        yield f"the symbol {symbol} has no value"
        return
    value = values[symbol]
    if abs(number.value - value) > number.radius * (1 + _FLOAT):
        yield f"{symbol} is printed as {number.value:g}, but is {value:.6g}"
    if number.unit != labels[symbol]:
        yield f"{symbol} is printed in {number.unit or 'no unit'}, not in {labels[symbol] or 'no unit'}"


def _signed(node: Node) -> Number | None:
    match node:
        case Number():
            return node
        case Operation(name="negative", operands=(Number() as number,)):
            return _negated(number)
        case _:
            return None


def _negated(number: Number) -> Number:
    return Number(-number.value, number.radius, number.unit)


def _scale(node: Node, values: dict[str, float]) -> float:
    """Largest number met on the way: a difference of large numbers keeps their rounding."""
    match node:
        case Operation(operands=operands):
            here = abs(value_of(node, values))
            return max(here, *(_scale(operand, values) for operand in operands))
        case _:
            return abs(value_of(node, values))
