"""Runs the lines of a worked cell and prints them: what is printed is what was computed, or the line is refused."""

from __future__ import annotations

import ast
import inspect
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pint

from bolewright.formulas import DimensionError, Formula, formula_of
from bolewright.rendering import tex
from bolewright.rendering.blocks import Block, Equations, Statement, StatementKind
from bolewright.rendering.body import RenderError
from bolewright.rendering.handcalc import render
from bolewright.rendering.numbers import FIGURES, ZERO, figures_typed, fmt, fmt_latex
from bolewright.rendering.printback import PrintBackError, check_step
from bolewright.rendering.symbols import symbol_latex
from bolewright.rendering.template import template
from bolewright.rendering.wording import plain
from bolewright.units import NONE, Quantity, ReadError, magnitude, quantity, shown
from bolewright.worked.grammar import Called, Given, Input, Remark, WorkedError, read_cell, refusal
from bolewright.worked.readback import problems
from bolewright.worked.units import unit_asked, unit_for
from bolewright.worked.values import (
    APART,
    as_printed,
    comes_out,
    number_and_unit,
    one_number,
    sized,
    units_said,
)

TITLE = "Worked calculation"
_FUNCTIONS: dict[str, Any] = {
    "sqrt": np.sqrt,
    "minimum": np.minimum,
    "maximum": np.maximum,
    "exp": np.exp,
    "log": np.log,
    "sin": np.sin,
    "cos": np.cos,
    "tan": np.tan,
    "arctan": np.arctan,
    "abs": abs,
}


@dataclass(frozen=True)
class Worked:
    """A worked cell: its values by symbol, and the blocks that print it."""

    values: dict[str, Any]
    blocks: tuple[Block, ...]


@dataclass(frozen=True)
class _Printed:
    """One row: what stands left and right of its signs, its plain text, its remark."""

    symbol: str
    parts: tuple[str, ...]
    text: str
    comment: str


@dataclass
class _Sheet:
    """What the lines before have given, and the rows that wait to be printed together."""

    known: dict[str, Any]
    title: str
    lines: list[str]
    values: dict[str, Any] = field(default_factory=dict)
    blocks: list[Block] = field(default_factory=list)
    rows: list[_Printed] = field(default_factory=list)

    def flush(self) -> None:
        """Print the rows that wait as one block."""
        if self.rows:
            latex = tex.aligned([(row.symbol, row.parts, tex.escaped(row.comment)) for row in self.rows])
            alt = "\n".join(row.text for row in self.rows)
            self.blocks.append(Equations(self.title, (latex,), alt=alt, formula="worked"))
            self.rows.clear()

    def set(self, symbol: str, value: Any) -> None:
        """A value that later lines may use."""
        self.known[symbol] = self.values[symbol] = value


def work(text: str, namespace: Mapping[str, Any], title: str = "") -> Worked:
    """Run a cell of lines (:mod:`bolewright.worked.grammar`) on a notebook's names, and print it.

    Returns: the values and the blocks. Raises :class:`WorkedError`, a sentence with line and reason, for what is
    outside the grammar, can't be computed, or would print otherwise than it was computed; then nothing is set.
    """
    sheet = _Sheet(dict(namespace), title.strip() or TITLE, text.splitlines())
    for statement in read_cell(text):
        match statement:
            case Remark(words=words):
                sheet.flush()
                sheet.blocks.append(Statement(StatementKind.ASIDE, (words,)))
            case Input() | Given() | Called():
                try:
                    _worked(sheet, statement)
                except (WorkedError, ReadError, RenderError, PrintBackError, DimensionError) as error:
                    raise refusal(statement.line, sheet.lines, str(error).rstrip(".")) from error
                except pint.PintError as error:
                    raise refusal(statement.line, sheet.lines, units_said(error)) from error
                except ZeroDivisionError as error:
                    raise refusal(statement.line, sheet.lines, "it divides by zero") from error
                except (ArithmeticError, ValueError, TypeError) as error:
                    raise refusal(statement.line, sheet.lines, f"it can't be worked out: {error}") from error
    sheet.flush()
    return Worked(sheet.values, tuple(sheet.blocks))


def _worked(sheet: _Sheet, statement: Input | Given | Called) -> None:
    match statement:
        case Input(symbol=symbol, text=None, number=number, comment=comment):
            _add(sheet, symbol, number, (), "", comment, typed=True)
        case Input(symbol=symbol, text=str() as words, comment=comment):
            _add(sheet, symbol, quantity(words), (), "", comment, typed=True)
        case Given():
            _given(sheet, statement)
        case Called():
            _called(sheet, statement)


def _given(sheet: _Sheet, line: Given) -> None:
    if line.symbol in line.names:
        raise WorkedError(f"{line.symbol} stands on both sides; give the new value a name of its own")
    own = {name: _scalar(name, sheet.known) for name in line.names if name != "pi"}
    pi = {"pi": math.pi} if "pi" in line.names else {}
    code = compile(ast.fix_missing_locations(ast.Expression(line.expression)), "<worked>", "eval")

    def worked_from(values: Mapping[str, Any]) -> Any:
        with np.errstate(all="ignore"):
            return eval(code, {"__builtins__": {}}, {**_FUNCTIONS, **values, **pi})

    value = worked_from(own)
    value = one_number(line.symbol, value)
    beside = [v for v in own.values() if isinstance(v, pint.Quantity)]
    if line.to:
        if not isinstance(value, pint.Quantity):
            raise WorkedError(f"the result is a plain number and takes no unit {shown(line.to)}")
        value = value.to(unit_asked(line.to).pint)
    elif isinstance(value, pint.Quantity):
        unit = unit_for(value, beside)
        value = value.to(unit.pint) if unit is not NONE else float(value.m_as(""))
    if not comes_out(lambda: worked_from({name: as_printed(v) for name, v in own.items()}), value):
        raise WorkedError(
            f"the numbers in it, rounded to the figures that are printed, do not give {line.symbol} "
            f"within {APART:.0%}; give what they come to, such as their difference, on an input line"
        )
    printed = template(line.expression, line.symbol)
    numbers = {name: fmt_latex(*number_and_unit(v)) for name, v in own.items()}
    text = ast.unparse(line.expression)
    _add(sheet, line.symbol, value, (printed.symbolic, printed.numeric(numbers)), text, line.comment, own)


def _add(
    sheet: _Sheet,
    symbol: str,
    value: Any,
    parts: tuple[str, ...],
    text: str,
    comment: str,
    own: Mapping[str, Any] | None = None,
    *,
    typed: bool = False,
) -> None:
    """A row of a value and how it came about, read back before it is taken; a typed one with all its digits."""
    number, unit = number_and_unit(value)
    if 0 < abs(number) < ZERO:
        raise WorkedError(
            f"{symbol} is too small to print in {unit.label or 'a plain number'}; ask for another unit"
        )
    figures = figures_typed(number) if typed else FIGURES
    result = fmt_latex(number, unit, figures)
    shown_parts = tuple(dict.fromkeys((*parts, result)))
    said = " = ".join(dict.fromkeys(word for word in (symbol, text, fmt(number, unit, figures)) if word))
    row = _Printed(symbol_latex(symbol), shown_parts, said, comment)
    values = {symbol_latex(name): sized(v) for name, v in {**(own or {}), symbol: value}.items()}
    latex = tex.aligned([(row.symbol, row.parts, "")])
    for problem in problems(latex, values):
        raise WorkedError(f"it can't be printed truly: {problem}")
    sheet.rows.append(row)
    sheet.set(symbol, value)


def _called(sheet: _Sheet, line: Called) -> None:
    record, function = _formula(line.function, sheet.known)
    signature = inspect.signature(record.body)
    arguments: dict[str, Any] = {}
    sources: dict[str, str] = {}
    free = [name for name in signature.parameters if name not in {n for n, _ in line.arguments}]
    for name, node in line.arguments:
        parameter = name if name is not None else (free.pop(0) if free else None)
        if parameter is None or parameter not in record.parameters:
            raise WorkedError(f"{record.name} takes {', '.join(record.parameters)}")
        if isinstance(node, ast.Name) and node.id != "pi":
            arguments[parameter] = _scalar(node.id, sheet.known)
            sources[parameter] = node.id
        else:
            arguments[parameter] = math.pi if isinstance(node, ast.Name) else float(ast.literal_eval(node))
    try:
        signature.bind(**arguments)
    except TypeError:
        missing = [n for n, p in signature.parameters.items() if p.default is p.empty and n not in arguments]
        raise WorkedError(f"{record.name} also wants {', '.join(missing)}") from None
    value = one_number(line.symbol, function(**_with_units(record, arguments)))
    bare = {name: float(magnitude(v, record.parameters[name])) for name, v in arguments.items()}
    step = render(record, **bare)
    check_step(step)
    sheet.flush()
    given = tuple((plain(name), f"is {plain(own)}") for name, own in sources.items() if name != own)
    sheet.blocks.append(step.block(given))
    last = step.lines[-1]
    unit = record.result
    if unit is not NONE and not isinstance(
        value, pint.Quantity
    ):  # plain numbers in: its unit is the formula's
        value = unit.of(last.value)
    if last.symbol == line.symbol:
        sheet.set(line.symbol, unit.of(last.value) if unit is not NONE else last.value)
        return
    own = {last.symbol: value}
    parts = (symbol_latex(last.symbol), fmt_latex(last.value, unit))
    _add(sheet, line.symbol, value, parts, last.symbol, line.comment, own)


def _with_units(record: Formula, arguments: dict[str, Any]) -> dict[str, Any]:
    """Arguments as the formula's door takes them: with units throughout, so that a bare number is not mistaken."""
    with_units = any(isinstance(value, pint.Quantity) for value in arguments.values())
    return (
        arguments
        if with_units or all(u is NONE for u in record.parameters.values())
        else {
            name: Quantity(value, "dimensionless") if record.parameters[name] is not NONE else value
            for name, value in arguments.items()
        }
    )


def _formula(node: ast.expr, known: Mapping[str, Any]) -> tuple[Formula, Callable[..., Any]]:
    names = ast.unparse(node).split(".")
    found = known.get(names[0])
    for name in names[1:]:
        found = getattr(found, name, None)
    if found is None:
        raise WorkedError(f"{'.'.join(names)} is not known here")
    try:
        return formula_of(found), found
    except TypeError:
        raise WorkedError(
            f"{'.'.join(names)} is no formula that can be printed; make it one with @formula"
        ) from None


def _scalar(name: str, known: Mapping[str, Any]) -> Any:
    if name not in known:
        raise WorkedError(f"{name} is not known here; give it a value on a line before")
    return one_number(name, known[name])
