"""Drawing of how each stick is cut: lengths to one scale, marks and lengths written on the pieces."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from bolewright.platform.project import Stock
from bolewright.rendering.annotations import text_length
from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import Anchor, Drawing, Fill, Item, Layer, Pen, Polygon, Text
from bolewright.rendering.laying import Scale
from bolewright.rendering.svg import to_svg
from bolewright.sheets.lengths import Lengths, Tape
from bolewright.take_off.buying import Purchase, Stick
from bolewright.take_off.cut_list import run_of

_MILLIMETRES = (Scale(1 / 25.4, ""),)
_LEFT = 25.0  # mm before the sticks, for how many and how long
_LENGTH = 140.0  # mm for the longest stick
_HIGH, _STEP = 6.4, 8.4  # mm
_ROWS = 16  # sticks on one drawing
_TEXT = 2.1  # mm


def stick_figures(purchase: Purchase, stock: Stock, length: Lengths) -> list[Figure]:
    """Drawings of all sticks of one kind of lumber, sticks cut alike once."""
    if not purchase.sticks:
        return []
    groups = alike(purchase)
    scale = _LENGTH / max(stick.offer.length for stick in purchase.sticks)
    parts = [groups[i : i + _ROWS] for i in range(0, len(groups), _ROWS)]
    return [_figure(purchase, stock, part, scale, length) for part in parts]


def alike(purchase: Purchase) -> list[tuple[Stick, ...]]:
    """Sticks that are cut to the same lengths, together."""
    return [tuple(group) for _, group in groupby(purchase.sticks, key=_pattern)]


def _pattern(stick: Stick) -> tuple[float, ...]:
    return (stick.offer.length, *(cut.buy for cut in stick.cuts))


def _figure(
    purchase: Purchase, stock: Stock, groups: Sequence[tuple[Stick, ...]], scale: float, length: Lengths
) -> Figure:
    items: list[Item] = []
    for row, group in enumerate(groups):
        items += _stick(group, stock, -row * _STEP, scale, length)
    alt = f"How the sticks of {purchase.lumber.name} are cut: " + "; ".join(
        _words(group, length) for group in groups
    )
    drawing = Drawing(f"Sticks of {purchase.lumber.name}", tuple(items), alt, scale_bar=False)
    caption = f"{purchase.lumber.name}: how each stick is cut; dashed is left over."
    return Figure(to_svg(drawing, scales=_MILLIMETRES, height=_ROWS * _STEP + 12), caption, alt)


def _words(group: tuple[Stick, ...], length: Lengths) -> str:
    stick = group[0]
    cuts = ", ".join(f"{_marks(group, i)} {length(cut.buy)}" for i, cut in enumerate(stick.cuts))
    return f"{len(group)} of {stock_length(stick.offer.length, length)}: {cuts}"


def stock_length(inches: float, length: Lengths) -> str:
    """Length of a stick as the yard says it."""
    return f"{inches / 12:g} ft" if length.tape is Tape.FEET else length(inches)


def _marks(group: tuple[Stick, ...], i: int) -> str:
    """Marks of the pieces in one place of sticks cut alike."""
    return run_of([stick.cuts[i].label for stick in group])


def _stick(group: tuple[Stick, ...], stock: Stock, y: float, scale: float, length: Lengths) -> list[Item]:
    """One row: how many, the whole stick, its pieces one after the other from the left."""
    stick = group[0]
    count = f"{len(group)} × " if len(group) > 1 else ""
    numbers = run_of([str(s.number) for s in group])
    items: list[Item] = [
        Text(
            (0, y + 1.5), f"{count}{stock_length(stick.offer.length, length)}", 2.4, Anchor.START, bold=True
        ),
        Text(
            (0, y - 1.7), f"stick {numbers}" if len(group) == 1 else f"sticks {numbers}", _TEXT, Anchor.START
        ),
        _box(_LEFT, _LEFT + stick.offer.length * scale, y, Fill.NONE, Pen.DASHED),
    ]
    at = stock.end_trim
    for i, cut in enumerate(stick.cuts):
        left, right = _LEFT + at * scale, _LEFT + (at + cut.buy) * scale
        items.append(_box(left, right, y, Fill.TIMBER, Pen.SOLID))
        items += _labels(_marks(group, i), length(cut.buy), left, right, y)
        at += cut.buy + stock.kerf
    return items


def _labels(marks: str, length: str, left: float, right: float, y: float) -> list[Item]:
    """Mark and length one over the other; one that has no room is left to the table."""
    middle = (left + right) / 2
    texts = [
        Text((middle, y + 1.5), marks, _TEXT, layer=Layer.MARKS, bold=True),
        Text((middle, y - 1.6), length, _TEXT),
    ]
    fitting = [text for text in texts if text_length(text) <= right - left - 0.6]
    if len(fitting) == 1:
        return [Text((middle, y), fitting[0].text, _TEXT, layer=fitting[0].layer, bold=fitting[0].bold)]
    return list(fitting)


def _box(left: float, right: float, y: float, fill: Fill, pen: Pen) -> Polygon:
    corners = (
        (left, y - _HIGH / 2),
        (right, y - _HIGH / 2),
        (right, y + _HIGH / 2),
        (left, y + _HIGH / 2),
    )
    return Polygon(corners, Layer.HIDDEN if pen is Pen.DASHED else Layer.OUTLINE, fill, pen)
