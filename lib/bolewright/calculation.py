"""A calculation: formulas run in order, kept with the arguments they ran on, so that a sheet can print them.

The check runs :meth:`Calculation.run` on arrays (parts x combinations). :meth:`Calculation.at` picks one
element of every argument: the same functions with scalar arguments, which the sheet renders.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from bolewright.formulas import Formula, formula_of


@dataclass(frozen=True)
class Step:
    """One formula with the scalar arguments it ran on, and its result."""

    formula: Formula
    arguments: dict[str, float]
    result: float

    @property
    def notes(self) -> list[str]:
        """What the sheet must say of this step: outside its range, or from memory."""
        said = self.formula.outside(**self.arguments)
        if self.formula.confidence:
            said.append(f"{self.formula.title}: {self.formula.confidence}.")
        return said


@dataclass(frozen=True)
class Flow:
    """Where a run's arguments come from: the number of the run whose result one is, or which of its name's values.

    ``given`` numbers, from 0, the different values that one name is given over the whole calculation.
    """

    formula: Formula
    from_run: dict[str, int]
    given: dict[str, int]


def _same_object(result: Any, value: Any) -> bool:
    """Whether a value is a result itself, not only as large."""
    return result is value and isinstance(value, (float, np.floating, np.ndarray))


class Calculation:
    """Formulas run in order on arrays that broadcast to one shape."""

    def __init__(self, shape: tuple[int, ...] = ()) -> None:
        self.shape = shape
        self._runs: list[tuple[Callable[..., Any], dict[str, Any], Any]] = []

    def run(self, function: Callable[..., Any], **arguments: Any) -> Any:
        """Result of ``function`` on bare numbers or arrays; the run is kept."""
        result = formula_of(function).body(**arguments)
        self._runs.append((function, arguments, result))
        return result

    def last_of(self, function: Callable[..., Any]) -> dict[str, Any] | None:
        """Arguments of the last run of a function; None where it was not run."""
        return next((arguments for ran, arguments, _ in reversed(self._runs) if ran is function), None)

    def branch(self) -> Calculation:
        """Another calculation that begins with what was run so far."""
        other = Calculation(self.shape)
        other._runs = list(self._runs)
        return other

    def flow(self) -> tuple[Flow, ...]:
        """The runs in order, and where the arguments of each come from."""
        found: list[Flow] = []
        seen: dict[str, list[Any]] = {}
        for function, arguments, _ in self._runs:
            from_run, given = {}, {}
            for name, value in arguments.items():
                runs = [i for i in range(len(found)) if _same_object(self._runs[i][2], value)]
                if runs:
                    from_run[name] = runs[-1]
                    continue
                before = seen.setdefault(name, [])
                which = next(
                    (k for k, other in enumerate(before) if np.array_equal(other, value)), len(before)
                )
                if which == len(before):
                    before.append(value)
                given[name] = which
            found.append(Flow(formula_of(function), from_run, given))
        return tuple(found)

    def at(self, index: tuple[int, ...]) -> tuple[Step, ...]:
        """The runs with the element ``index`` of every argument."""

        def pick(value: Any) -> float:
            array = np.asarray(value, dtype=float)
            return float(np.broadcast_to(array, self.shape)[index]) if array.ndim else float(array)

        return tuple(
            Step(formula_of(function), {name: pick(value) for name, value in arguments.items()}, pick(result))
            for function, arguments, result in self._runs
        )
