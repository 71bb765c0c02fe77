"""The yield modes of a dowel drawn: members, the bent dowel, the value of each mode."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bolewright.part_sheets.drawn import figure, value
from bolewright.part_sheets.inputs import Inputs
from bolewright.part_sheets.kind import Given
from bolewright.part_sheets.sheet import number
from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import Circle, Fill, Item, Layer, Point, Polygon, Polyline, Text
from bolewright.units import POUND

# Of each mode: the dowel's path through side (x 0 to 12) and main member (x 12 to 32), and its hinges.
_SINGLE: dict[str, tuple[tuple[Point, ...], tuple[Point, ...]]] = {
    "Z_Im": (((-3, 0), (34, 0)), ()),
    "Z_Is": (((-3, 0), (34, 0)), ()),
    "Z_II": (((-3, 3.2), (34, -3.2)), ()),
    "Z_IIIm": (((-3, 0.0), (9, 0.0), (34, -4.6)), ((9, 0.0),)),
    "Z_IIIs": (((-3, 4.6), (17, 0), (34, 0)), ((17, 0),)),
    "Z_IV": (((-3, 2.6), (8, 2.6), (17, -2.0), (34, -2.0)), ((8, 2.6), (17, -2.0))),
}
_DOUBLE: dict[str, tuple[tuple[Point, ...], tuple[Point, ...]]] = {
    "Z_Im": (((-3, 0), (47, 0)), ()),
    "Z_Is": (((-3, 0), (47, 0)), ()),
    "Z_IIIs": (((-3, 4.0), (16, 0), (28, 0), (47, 4.0)), ((16, 0), (28, 0))),
    "Z_IV": (
        ((-3, 2.4), (8, 2.4), (16, -1.8), (28, -1.8), (36, 2.4), (47, 2.4)),
        ((8, 2.4), (16, -1.8), (28, -1.8), (36, 2.4)),
    ),
}
_CRUSHED = {"Z_Im": "main member crushes", "Z_Is": "side member crushes", "Z_II": "dowel turns in both"}
_WIDE, _HIGH = 52.0, 34.0


def mode_figures(inputs: Inputs, given: Given, values: Mapping[str, Any], blank: bool) -> tuple[Figure, ...]:
    """One drawing of all modes of the joint, the governing one named."""
    double = bool(given["double"])
    modes = _DOUBLE if double else _SINGLE
    found = {name: number(values[name]) for name in modes if name in values}
    if len(found) < len(modes):
        return ()
    least = min(found, key=lambda name: found[name])
    items: list[Item] = []
    for i, (name, (path, hinges)) in enumerate(modes.items()):
        x, y = (i % 3) * _WIDE, -(i // 3) * _HIGH
        items += _mode(x, y, path, hinges, double=double, governs=name == least and not blank)
        label = f"{name[2:]}: {value(found[name], POUND, blank)}"
        items.append(
            Text((x + (22 if double else 16), y - 13.5), label, 2.6, bold=name == least and not blank)
        )
        said = _CRUSHED.get(name, f"{len(hinges)} hinge{'s' if len(hinges) > 1 else ''}")
        items.append(Text((x + (22 if double else 16), y - 17.5), said, 2.2))
    words = "; ".join(f"mode {name[2:]} {value(v, POUND, blank)}" for name, v in found.items())
    governing = "" if blank else f" Mode {least[2:]} governs."
    alt = f"Yield modes of one fastener: {words}.{governing}"
    which = f"{'Four' if double else 'Six'} yield modes of one fastener"
    caption = f"{which} (left the side member, right the main member), reference values.{governing}"
    return (figure("Yield modes", items, alt, caption),)


def _mode(
    x: float, y: float, path: tuple[Point, ...], hinges: tuple[Point, ...], *, double: bool, governs: bool
) -> list[Item]:
    members = [(0.0, 12.0), (12.0, 32.0)] if not double else [(0.0, 12.0), (12.0, 32.0), (32.0, 44.0)]
    items: list[Item] = []
    for n, (a, b) in enumerate(members):
        up = 0.0 if n == 1 else 2.0
        corners = ((x + a, y - 9 + up), (x + b, y - 9 + up), (x + b, y + 9 + up), (x + a, y + 9 + up))
        items.append(Polygon(corners, fill=Fill.HIGHLIGHT if governs else Fill.TIMBER))
    items.append(Polyline(tuple((x + px, y + py + 1) for px, py in path), Layer.BOLTS))
    items.append(Polyline(tuple((x + px, y + py - 0.2) for px, py in path), Layer.BOLTS))
    items += [Circle((x + px, y + py + 0.4), 1.1, fill=Fill.STEEL) for px, py in hinges]
    return items
