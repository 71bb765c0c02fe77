"""The tree of a printed expression: its value, its range within the rounding of its numbers, its shape."""

from __future__ import annotations

import math
import operator
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from bolewright.rendering import intervals
from bolewright.rendering.intervals import Interval


class ReadingError(ValueError):
    """Printed LaTeX that can't be read or evaluated; one sentence."""


@dataclass(frozen=True)
class Number:
    """A printed number: its value, how far the true value may lie from it, its unit."""

    value: float
    radius: float
    unit: str

    @property
    def interval(self) -> Interval:
        """All values that print as this number."""
        return Interval(self.value - self.radius, self.value + self.radius)


@dataclass(frozen=True)
class Symbol:
    """A printed symbol."""

    latex: str


@dataclass(frozen=True)
class Operation:
    """An operator or function and what it works on."""

    name: str
    operands: tuple[Node, ...]


Node = Number | Symbol | Operation

_ARITHMETIC: dict[str, Callable[..., Any]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
    "negative": operator.neg,
    "abs": abs,
}
_EXACT_VALUES = _ARITHMETIC | {
    "^": math.pow,
    r"\sqrt": math.sqrt,
    r"\min": min,
    r"\max": max,
    r"\exp": math.exp,
    r"\ln": math.log,
    r"\sin": math.sin,
    r"\cos": math.cos,
    r"\tan": math.tan,
    r"\arctan": math.atan,
}
_INTERVALS = _ARITHMETIC | {
    "^": operator.pow,
    r"\sqrt": intervals.root,
    r"\min": intervals.smallest,
    r"\max": intervals.largest,
    r"\exp": intervals.exponential,
    r"\ln": intervals.logarithm,
    r"\sin": intervals.sine,
    r"\cos": intervals.cosine,
    r"\tan": intervals.tangent,
    r"\arctan": intervals.arc_tangent,
}


def value_of(node: Node, symbols: dict[str, float]) -> float:
    """Value of a tree with exact values for its symbols."""
    match node:
        case Number(value=value):
            return value
        case Symbol(latex=latex):
            if latex == r"\pi" and latex not in symbols:
                return math.pi
            if latex not in symbols:
                raise ReadingError(f"the symbol {latex} has no value")
            return symbols[latex]
        case Operation(name=name, operands=operands):
            return float(_EXACT_VALUES[name](*(value_of(operand, symbols) for operand in operands)))


def interval_of(node: Node, symbols: dict[str, Interval]) -> Interval:
    """Range of a tree over all values its printed numbers can stand for."""
    match node:
        case Number():
            return node.interval
        case Symbol(latex=latex):
            if latex == r"\pi" and latex not in symbols:
                return intervals.exactly(math.pi)
            if latex not in symbols:
                raise ReadingError(f"the symbol {latex} has no value")
            return symbols[latex]
        case Operation(name=name, operands=operands):
            found: Interval = _INTERVALS[name](*(interval_of(operand, symbols) for operand in operands))
            return found


def symbols_in(node: Node) -> set[str]:
    """Symbols of a tree, ``\\pi`` not among them."""
    match node:
        case Symbol(latex=latex):
            return {latex} - {r"\pi"}
        case Operation(operands=operands):
            return set().union(*(symbols_in(operand) for operand in operands))
        case _:
            return set()


def same_shape(symbolic: Node, numeric: Node, pair: Callable[[str, Number, bool], Any]) -> bool:
    """Whether ``numeric`` is ``symbolic`` with numbers for symbols; ``pair`` is told each with its sign."""
    match symbolic, numeric:
        case Symbol(latex=r"\pi"), Symbol(latex=r"\pi"):
            return True
        case Symbol(latex=latex), Number():
            pair(latex, numeric, False)
            return True
        case Symbol(latex=latex), Operation(name="negative", operands=(Number() as number,)):
            pair(latex, number, True)
            return True
        case Number(), Number():
            return symbolic == numeric
        case Operation(), Operation():
            return (
                symbolic.name == numeric.name
                and len(symbolic.operands) == len(numeric.operands)
                and all(
                    same_shape(a, b, pair) for a, b in zip(symbolic.operands, numeric.operands, strict=True)
                )
            )
        case _:
            return False
