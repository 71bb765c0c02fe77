"""Hand calculations: registered formulas printed line by line, through the maths engine of handcalcs.

What is printed is run again here, line by line, and must give what the check computed. What does not change
with the numbers (:mod:`bolewright.rendering.template`) is made once for each formula.
"""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache
from typing import Any

from bolewright.calculation import Step
from bolewright.formulas import Formula, formula_of
from bolewright.rendering import tex
from bolewright.rendering.blocks import Equations
from bolewright.rendering.body import Line, RenderError, body_of
from bolewright.rendering.numbers import fmt, fmt_latex
from bolewright.rendering.symbols import symbol_latex
from bolewright.rendering.template import Template, template
from bolewright.units import Unit

_AGREES = 1e-9


@dataclass(frozen=True)
class RenderedLine:
    """One line ``symbol = symbolic = numeric = result``, each part LaTeX; ``comment`` is its sub-clause."""

    symbol: str
    symbol_latex: str
    symbolic_latex: str
    numeric_latex: str
    result_latex: str
    comment: str
    value: float
    unit: Unit
    text: str

    @property
    def parts(self) -> tuple[str, ...]:
        """What stands behind the symbol, without saying anything twice."""
        return tuple(dict.fromkeys((self.symbolic_latex, self.numeric_latex, self.result_latex)))


@dataclass(frozen=True)
class RenderedStep:
    """One formula with numbers: its lines, and all of them as one ``aligned`` block of LaTeX."""

    formula: Formula
    arguments: dict[str, float]
    lines: tuple[RenderedLine, ...]
    latex: str
    notes: tuple[str, ...]

    @property
    def title(self) -> str:
        """First line of the formula's docstring."""
        return self.formula.title

    @property
    def clause(self) -> str:
        """Clause of the formula."""
        return self.formula.clause

    @property
    def alt(self) -> str:
        """The calculation in plain text, for a reader who can't see the maths."""
        return "\n".join(line.text for line in self.lines)

    def block(self, given: tuple[tuple[str, str], ...] = ()) -> Equations:
        """The step as a block of a calc sheet; ``given`` says what its symbols stand for."""
        last = self.lines[-1]
        units = self.formula.parameters
        values = [(symbol, fmt(value, units[symbol])) for symbol, value in self.arguments.items()]
        values.append((last.symbol, fmt(last.value, last.unit)))
        return Equations(
            self.title,
            (self.latex,),
            self.clause,
            self.alt,
            self.notes,
            given,
            self.formula.name,
            tuple(values),
        )


def render(function: Callable[..., Any] | Formula, **arguments: float) -> RenderedStep:
    """Formula with scalar arguments (bare numbers in its annotated units), printed line by line.

    Raises :class:`RenderError` for arguments that are not the formula's, for a result that is no finite
    number, and for a body outside the subset that can be printed.
    """
    record = function if isinstance(function, Formula) else formula_of(function)
    numbers = _all(record, {symbol: float(value) for symbol, value in arguments.items()})
    try:
        result = float(record.body(**numbers))
    except ZeroDivisionError as error:
        raise RenderError(_divides(record, numbers)) from error
    return render_step(Step(record, numbers, result))


def render_step(step: Step) -> RenderedStep:
    """A step of a calculation, printed. What is printed is run again and must give the step's result."""
    record = step.formula
    body = body_of(record.body)
    arguments = _all(record, step.arguments)
    units = record.parameters | {line.symbol: line.unit for line in body.lines} | {body.result: record.result}
    try:
        values = {symbol: float(value) for symbol, value in body.run(arguments).items()}
    except ZeroDivisionError as error:
        raise RenderError(_divides(record, arguments)) from error
    for symbol, value in values.items():
        if not math.isfinite(value):
            raise RenderError(
                f"{symbol} of {record.name} is no finite number with {_said(record, arguments)}"
            )
    if not math.isclose(values[body.result], step.result, rel_tol=_AGREES, abs_tol=1e-300):
        raise RenderError(
            f"{record.name} printed gives {values[body.result]!r}, but the check computed {step.result!r}"
        )
    numbers = {symbol: fmt_latex(value, units[symbol]) for symbol, value in values.items()}
    lines = tuple(
        _rendered(line, printed, numbers, values, units[line.symbol])
        for line, printed in zip(body.lines, _templates(record.body), strict=True)
    )
    latex = tex.aligned([(line.symbol_latex, line.parts, line.comment) for line in lines])
    return RenderedStep(record, arguments, lines, latex, tuple(step.notes))


def render_steps(steps: Iterable[Step]) -> tuple[RenderedStep, ...]:
    """The steps of a calculation, printed in order; a formula run twice on the same numbers prints once."""
    seen: dict[tuple[str, tuple[float, ...]], Step] = {}
    for step in steps:
        seen.setdefault((step.formula.name, tuple(step.arguments.values())), step)
    return tuple(render_step(step) for step in seen.values())


def _all(record: Formula, arguments: dict[str, float]) -> dict[str, float]:
    """Arguments with the formula's defaults filled in."""
    try:
        bound = inspect.signature(record.body).bind(**arguments)
    except TypeError as error:
        raise RenderError(f"{record.name} takes {', '.join(record.parameters)}: {error}") from error
    bound.apply_defaults()
    return dict(bound.arguments)


def _said(record: Formula, arguments: dict[str, float]) -> str:
    return ", ".join(
        f"{symbol} = {value if math.isnan(value) else fmt(value, record.parameters[symbol])}"
        for symbol, value in arguments.items()
    )


def _divides(record: Formula, arguments: dict[str, float]) -> str:
    return f"{record.name} divides by zero with {_said(record, arguments)}"


def _rendered(
    line: Line, printed: Template, numbers: dict[str, str], values: dict[str, float], unit: Unit
) -> RenderedLine:
    result = numbers[line.symbol]
    return RenderedLine(
        symbol=line.symbol,
        symbol_latex=symbol_latex(line.symbol),
        symbolic_latex=printed.symbolic,
        numeric_latex=printed.numeric(numbers),
        result_latex=result,
        comment=tex.escaped(line.comment),
        value=values[line.symbol],
        unit=unit,
        text=f"{line.symbol} = {line.text} = {fmt(values[line.symbol], unit)}",
    )


@cache
def _templates(function: Callable[..., Any]) -> tuple[Template, ...]:
    return tuple(template(line.expression, function.__name__) for line in body_of(function).lines)
