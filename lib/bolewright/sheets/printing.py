"""Prints the steps of a check; a step whose print does not compute from itself stops the sheet."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from bolewright.calculation import Step
from bolewright.rendering.blocks import Equations, Statement, StatementKind
from bolewright.rendering.handcalc import RenderedStep, render_steps
from bolewright.rendering.meanings import meaning
from bolewright.rendering.numbers import fmt, ratio
from bolewright.rendering.printback import check_step
from bolewright.rendering.wording import plain
from bolewright.sheets.origins import origin

_SAME = 1e-7  # a value this near, relatively, to one worked out above is that one
_COMPARED = ("demand", "capacity")
RATIO = "demand_capacity_ratio"
_COMMON = (0.0, 1.0)  # values that many symbols have by chance
_GIVEN = (
    "u_x",
    "u_y",
    "theta",
    "x",
    "y",
)  # of the plan: a movement along an axis is as large as that of the deck


@dataclass
class Page:
    """What a sheet has printed so far, so that every symbol is worked out or introduced once.

    ``steps`` by formula and arguments; ``said`` the meanings; ``found`` symbols and values worked out, newest last.
    """

    steps: set[tuple[str, tuple[tuple[str, float], ...]]] = field(default_factory=set)
    said: set[tuple[str, str]] = field(default_factory=set)
    found: list[tuple[str, float]] = field(default_factory=list)

    def above(self, symbol: str, value: float) -> str | None:
        """Symbol under which a value was worked out above; its own name first; None when it was not.

        A round number under another name is none: an input can be as large as what came out above it.
        """
        if any(math.isclose(value, common, rel_tol=_SAME) for common in _COMMON):
            return None
        names = [
            name
            for name, found in self.found
            if math.isclose(abs(found), abs(value), rel_tol=_SAME, abs_tol=0.0)
        ]
        if symbol in names:
            return symbol
        by_chance = float(f"{value:.3g}") == value and symbol not in _COMPARED
        return names[-1] if names and not by_chance and symbol not in _GIVEN else None


def printed(
    steps: Iterable[Step], page: Page | None = None, facts: Mapping[str, str] | None = None
) -> list[Equations | Statement]:
    """The steps as equations, each read back and computed again from its print.

    Under each stands what its symbols mean that were not worked out above it, and where ``facts`` or the table of
    origins know, where their values come from. A step printed before on the same ``page`` is only named with its
    result. Raises PrintBackError, naming formula and line, for a print that says something else than was computed.
    """
    page = page if page is not None else Page()
    blocks: list[Equations | Statement] = []
    again: list[str] = []
    for rendered in render_steps(tuple(steps)):
        key = (rendered.formula.name, tuple(rendered.arguments.items()))
        last = rendered.lines[-1]
        if key in page.steps:
            again.append(f"{plain(last.symbol)} = {fmt(last.value, last.unit)}")
        else:
            blocks += _as_above(again)
            again = []
            page.steps.add(key)
            check_step(rendered)
            blocks.append(rendered.block(given_in(rendered, page, facts or {})))
        page.found.append((last.symbol, last.value))
    return blocks + _as_above(again)


def given_in(step: RenderedStep, page: Page, facts: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    """What must be said of a step's symbols: those worked out above under another name, and those not at all."""
    said: dict[str, list[str]] = {}
    for symbol, value in step.arguments.items():
        above = page.above(symbol, value)
        if above == symbol:
            continue
        if above is not None:
            same = any(name == above and found * value > 0 for name, found in page.found)
            sign = "" if same else " without its sign"
            words = f"is {plain(above)} above{sign}"
        else:
            words = meaning(step.formula, symbol)
            fact = facts.get(symbol)
            where = fact or origin(step.formula.name, symbol)
            words += f" ({where})" if where else ""
            if not fact and (symbol, words) in page.said:
                continue
            page.said.add((symbol, words))
        said.setdefault(words, []).append(plain(symbol))
    pairs = [(", ".join(symbols), words) for words, symbols in said.items()]
    if step.formula.name == RATIO:
        value = step.lines[-1].value
        pairs.append(("ratio", f"rounded up {ratio(value)}: {'passes' if value <= 1 else 'FAILS'}"))
    return tuple(pairs)


def _as_above(results: list[str]) -> list[Equations | Statement]:
    return (
        [Statement(StatementKind.ASIDE, (f"As worked out above: {'; '.join(results)}.",))] if results else []
    )
