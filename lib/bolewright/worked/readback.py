"""A worked line is read again from its print: units reduced, dimensions compared, numbers within their rounding."""

from __future__ import annotations

from typing import Any

import pint

from bolewright.rendering.printback import problems_with_values
from bolewright.rendering.printed import Equation, read_block
from bolewright.rendering.tree import Node, Number, Operation, ReadingError, Symbol
from bolewright.worked.units import printed_unit

Dimensions = Any  # pint's container of dimensions and their powers
_ALIKE = ("+", "-", r"\min", r"\max")
_PLAIN = (r"\exp", r"\ln", r"\sin", r"\cos", r"\tan", r"\arctan")


def problems(latex: str, values: dict[str, pint.Quantity[Any]]) -> list[str]:
    """What the print of worked lines says otherwise than was computed; ``values`` by the LaTeX of their symbols."""
    try:
        equations = read_block(latex)
    except ReadingError as error:
        return [f"its print can't be read again ({error})"]
    plain = {symbol: float(value.to_base_units().magnitude) for symbol, value in values.items()}
    found = []
    for equation in equations:
        try:
            found += [
                f"the print of {equation.symbol} has {what}" for what in _dimensions_apart(equation, values)
            ]
            scaled = Equation(
                equation.symbol, tuple(_scaled(part) for part in equation.parts), equation.latex
            )
            found += list(problems_with_values(scaled, plain, dict.fromkeys(plain, "")))
        except (ReadingError, pint.UndefinedUnitError, ArithmeticError, KeyError) as error:
            found.append(f"the print of {equation.symbol} can't be worked out again ({error})")
    return found


def _scaled(node: Node) -> Node:
    """The tree with its numbers brought to the base of their units."""
    match node:
        case Number(value=value, radius=radius, unit=unit) if unit:
            factor = float(printed_unit(unit).to_base_units().magnitude)
            return Number(value * factor, radius * factor, "")
        case Operation(name=name, operands=operands):
            return Operation(name, tuple(_scaled(operand) for operand in operands))
        case _:
            return node


def _dimensions_apart(equation: Equation, values: dict[str, pint.Quantity[Any]]) -> list[str]:
    wanted = values[equation.symbol].dimensionality
    found = [_dimensions(part, values) for part in equation.parts]
    return ["parts of another dimension"] if any(dimensions != wanted for dimensions in found) else []


def _dimensions(node: Node, values: dict[str, pint.Quantity[Any]]) -> Dimensions:
    none = printed_unit("ft").dimensionality / printed_unit("ft").dimensionality
    match node:
        case Number(unit=unit):
            return printed_unit(unit).dimensionality if unit else none
        case Symbol(latex=r"\pi") if r"\pi" not in values:
            return none
        case Symbol(latex=latex):
            return values[latex].dimensionality
    inner = [_dimensions(operand, values) for operand in node.operands]
    match node.name:
        case "*":
            return inner[0] * inner[1]
        case "/":
            return inner[0] / inner[1]
        case r"\sqrt":
            return inner[0] ** 0.5
        case "^":
            return inner[0] ** _exact(node.operands[1]) if inner[0] != none else none
        case name if name in _ALIKE:
            sized = [
                one for one, operand in zip(inner, node.operands, strict=True) if not _is_nought(operand)
            ]
            if any(one != sized[0] for one in sized):
                raise ReadingError(f"{name} of unlike quantities")
            return sized[0] if sized else none
        case name if name in _PLAIN:
            return none
    return inner[0]


def _is_nought(node: Node) -> bool:
    """A plain 0, which is 0 in every unit."""
    return isinstance(node, Number) and node.value == 0 and not node.unit


def _exact(node: Node) -> float:
    match node:
        case Number(value=value, unit=""):
            return value
        case Operation(name="negative", operands=(Number(value=value, unit=""),)):
            return -value
        case Operation(name="/", operands=(top, bottom)):
            return _exact(top) / _exact(bottom)
        case _:
            raise ReadingError("the power of a quantity with a unit is no plain number")
