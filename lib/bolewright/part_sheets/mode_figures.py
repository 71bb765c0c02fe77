"""The yield modes of a dowel drawn: members, the bent dowel, the value of each mode."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bolewright.part_sheets.drawn import figure, value
from bolewright.part_sheets.inputs import Inputs
from bolewright.part_sheets.kind import Given
from bolewright.part_sheets.sheet import number
from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import Arrow, Circle, Fill, Item, Layer, Point, Polygon, Polyline, Text
from bolewright.units import POUND

# Of each mode: the dowel's path through side (x 0 to 12) and main member (x 12 to 32), and its hinges. The holes lie
# at y = SLIP in the side members and at 0 in the main one, so that the dowel crushes wood wherever it leaves them.
SLIP = 3.0
SINGLE: dict[str, tuple[tuple[Point, ...], tuple[Point, ...]]] = {
    "Z_Im": (((-3, 3), (34, 3)), ()),
    "Z_Is": (((-3, 0), (34, 0)), ()),
    "Z_II": (((-3, 5.4), (34, -3.2)), ()),
    "Z_IIIm": (((-3, 3), (8, 3), (34, -3.2)), ((8, 3),)),
    "Z_IIIs": (((-3, 5.4), (17, 0), (34, 0)), ((17, 0),)),
    "Z_IV": (((-3, 3), (7, 3), (17, 0), (34, 0)), ((7, 3), (17, 0))),
}
_DOUBLE: dict[str, tuple[tuple[Point, ...], tuple[Point, ...]]] = {
    "Z_Im": (((-3, 3), (47, 3)), ()),
    "Z_Is": (((-3, 0), (47, 0)), ()),
    "Z_IIIs": (((-3, 5.4), (16, 0), (28, 0), (47, 5.4)), ((16, 0), (28, 0))),
    "Z_IV": (
        ((-3, 3), (7, 3), (16, 0), (28, 0), (37, 3), (47, 3)),
        ((7, 3), (16, 0), (28, 0), (37, 3)),
    ),
}
_CRUSHED = {"Z_Im": "main member crushes", "Z_Is": "side member crushes", "Z_II": "dowel turns in both"}
_WIDE, _HIGH = 52.0, 34.0


def mode_figures(inputs: Inputs, given: Given, values: Mapping[str, Any], blank: bool) -> tuple[Figure, ...]:
    """One drawing of all modes of the joint, the governing one named."""
    double = bool(given["double"])
    modes = _DOUBLE if double else SINGLE
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
    places = "left the side member, right the main member; hatched: crushed wood"
    caption = f"{which}, reference values ({places}).{governing}"
    return (_apart(given, double), figure("Yield modes", items, alt, caption))


def _apart(given: Given, double: bool) -> Figure:
    """The members drawn apart: the load on each, and what the fasteners hand over between them."""
    P = given["P"]
    whole, side = value(P, POUND), value(P / 2 if double else P, POUND)
    parts = [(0.0, 12.0, 90), (26.0, 46.0, -90)] + ([(60.0, 72.0, 90)] if double else [])
    items: list[Item] = []
    for left, right, way in parts:
        middle, sign, load = (left + right) / 2, way / 90, side if way > 0 else whole
        corners = ((left, -12.0), (right, -12.0), (right, 12.0), (left, 12.0))
        items += [
            Polygon(corners, fill=Fill.TIMBER),
            Arrow((middle, sign * 25), way, 12),
            Arrow((middle, sign * -7), -way, 9),
            Text((middle, sign * 28 - 1), load, 2.6, bold=True),
            Text((middle, sign * -15 - 1), f"{'side' if way > 0 else 'main'} member", 2.2),
        ]
    said = f"Free-body diagram: {whole} on the joint, handed over by the fasteners, the members drawn apart."
    return figure("Members apart", items, said, said)


def _mode(
    x: float, y: float, path: tuple[Point, ...], hinges: tuple[Point, ...], *, double: bool, governs: bool
) -> list[Item]:
    members = [(0.0, 12.0), (12.0, 32.0)] if not double else [(0.0, 12.0), (12.0, 32.0), (32.0, 44.0)]
    items: list[Item] = []
    for n, (a, b) in enumerate(members):
        hole = 0.0 if n == 1 else SLIP
        corners = ((x + a, y - 9 + hole), (x + b, y - 9 + hole), (x + b, y + 9 + hole), (x + a, y + 9 + hole))
        items.append(Polygon(corners, fill=Fill.HIGHLIGHT if governs else Fill.TIMBER))
        for shape in crushed(path, a, b, hole):
            items.append(Polygon(tuple((x + px, y + py + 0.4) for px, py in shape), fill=Fill.SOIL))
    items.append(Polyline(tuple((x + px, y + py + 1) for px, py in path), Layer.BOLTS))
    items.append(Polyline(tuple((x + px, y + py - 0.2) for px, py in path), Layer.BOLTS))
    items += [Circle((x + px, y + py + 0.4), 1.1, fill=Fill.STEEL) for px, py in hinges]
    return items


def crushed(path: tuple[Point, ...], a: float, b: float, hole: float) -> list[tuple[Point, ...]]:
    """Wood of a member from ``a`` to ``b`` between its hole and the dowel, one shape for each side of the hole."""
    shapes: list[tuple[Point, ...]] = []
    for (x1, y1), (x2, y2) in zip(path, path[1:], strict=False):
        slope = (y2 - y1) / (x2 - x1)
        cuts = {max(x1, a), min(x2, b)}
        if slope and max(x1, a) < (meets := x1 + (hole - y1) / slope) < min(x2, b):
            cuts.add(meets)
        places = sorted(cuts)
        for c, d in zip(places, places[1:], strict=False):
            at_c, at_d = y1 + slope * (c - x1), y1 + slope * (d - x1)
            if c < d and max(x1, a) <= c and max(abs(at_c - hole), abs(at_d - hole)) > 0.2:
                shapes.append(((c, hole), (c, at_c), (d, at_d), (d, hole)))
    return shapes
