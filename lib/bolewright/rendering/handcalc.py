"""Hand calculations: registered formulas printed line by line, through the maths engine of handcalcs."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from bolewright.calculation import Step
from bolewright.formulas import Formula
from bolewright.rendering.blocks import Equations
from bolewright.units import Unit


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

    def block(self) -> Equations:
        """The step as a block of a calc sheet."""
        return Equations(self.title, (self.latex,), self.clause, self.alt, self.notes)


def render(function: Callable[..., Any] | Formula, **arguments: float) -> RenderedStep:
    """Formula with scalar arguments (bare numbers in its annotated units), printed line by line."""
    raise NotImplementedError


def render_step(step: Step) -> RenderedStep:
    """A step of a calculation, printed; the printed result is the step's own."""
    raise NotImplementedError


def render_steps(steps: Iterable[Step]) -> tuple[RenderedStep, ...]:
    """The steps of a calculation, printed in order; what repeats another step word for word is left out."""
    raise NotImplementedError
