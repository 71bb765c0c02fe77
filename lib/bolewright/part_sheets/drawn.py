"""Small tools for the drawings of part sheets: everything in millimetres on paper."""

from __future__ import annotations

from collections.abc import Sequence

from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import Drawing, Item
from bolewright.rendering.laying import Scale
from bolewright.rendering.numbers import fmt
from bolewright.rendering.svg import to_svg
from bolewright.units import NONE, Unit

WIDE = 150.0  # mm
_MILLIMETRES = (Scale(1 / 25.4, ""),)
_TALL = 220.0
LINE = "______"


def value(number: float, unit: Unit = NONE, blank: bool = False) -> str:
    """A number with its unit on a drawing, or the line to write it on."""
    return f"{LINE} {unit.label}".strip() if blank else fmt(number, unit)


def figure(title: str, items: Sequence[Item], alt: str, caption: str) -> Figure:
    """A drawing of items in millimetres."""
    drawing = Drawing(title, tuple(items), alt, scale_bar=False)
    return Figure(to_svg(drawing, scales=_MILLIMETRES, height=_TALL), caption, alt)
