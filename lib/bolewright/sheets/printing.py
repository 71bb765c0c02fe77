"""Prints the steps of a check; a step whose print does not compute from itself stops the sheet."""

from __future__ import annotations

from collections.abc import Iterable

from bolewright.calculation import Step
from bolewright.rendering.blocks import Equations, Statement, StatementKind
from bolewright.rendering.handcalc import render_steps
from bolewright.rendering.numbers import fmt
from bolewright.rendering.printback import check_step

Seen = set[tuple[str, tuple[tuple[str, float], ...]]]


def printed(steps: Iterable[Step], seen: Seen | None = None) -> list[Equations | Statement]:
    """The steps as equations, each read back and computed again from its print.

    A step in ``seen``, printed before on the same sheet, is only named with its result; the others are added
    to it. Raises PrintBackError, naming formula and line, for a print that says something else than was computed.
    """
    seen = set() if seen is None else seen
    blocks: list[Equations | Statement] = []
    again: list[str] = []
    for rendered in render_steps(tuple(steps)):
        key = (rendered.formula.name, tuple(rendered.arguments.items()))
        if key in seen:
            last = rendered.lines[-1]
            again.append(f"{rendered.title.split(';')[0]}: {fmt(last.value, last.unit)}")
            continue
        blocks += _as_above(again)
        again = []
        seen.add(key)
        check_step(rendered)
        blocks.append(rendered.block())
    return blocks + _as_above(again)


def _as_above(results: list[str]) -> list[Equations | Statement]:
    return [Statement(StatementKind.NOTE, (f"As above. {'. '.join(results)}.",))] if results else []
