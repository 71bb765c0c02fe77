"""Print-back: reads the printed LaTeX again, evaluates it, and compares it with what was computed."""

from __future__ import annotations

from bolewright.rendering.handcalc import RenderedStep


class PrintBackError(ValueError):
    """A printed line that does not compute from its own print; names formula and line."""


def check_step(step: RenderedStep) -> None:
    """Raise :class:`PrintBackError` when the print of a step does not say what was computed."""
    raise NotImplementedError


def check_print(latex: str, name: str) -> None:
    """Raise :class:`PrintBackError` when printed equations contradict themselves (no values needed)."""
    raise NotImplementedError
