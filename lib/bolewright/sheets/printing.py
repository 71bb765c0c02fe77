"""Prints the steps of a check; a step whose print does not compute from itself stops the sheet."""

from __future__ import annotations

from collections.abc import Iterable

from bolewright.calculation import Step
from bolewright.rendering.blocks import Equations
from bolewright.rendering.handcalc import render_steps
from bolewright.rendering.printback import check_step


def printed(steps: Iterable[Step]) -> list[Equations]:
    """The steps as equations, each read back and computed again from its print.

    Raises PrintBackError, naming formula and line, for a print that says something else than was computed.
    """
    blocks = []
    for rendered in render_steps(tuple(steps)):
        check_step(rendered)
        blocks.append(rendered.block())
    return blocks
