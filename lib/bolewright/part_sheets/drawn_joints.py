"""Free-body diagrams of fasteners, rated connectors, notches, guard posts and boards."""

from __future__ import annotations

from collections.abc import Mapping

from bolewright.part_sheets.drawn import figure
from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import (
    Anchor,
    Arrow,
    Circle,
    Dimension,
    Fill,
    Item,
    Layer,
    Line,
    Polygon,
    Text,
)
from bolewright.units import feet_inches

_CAPTION = "Free-body diagram."


def _box(left: float, low: float, right: float, high: float, fill: Fill = Fill.TIMBER) -> Polygon:
    return Polygon(((left, low), (right, low), (right, high), (left, high)), fill=fill)


def pulled_figure(*, side: float, main: float, point: float, load: str) -> Figure:
    """A fastener pulled along its axis out of the main member."""
    scale = 60 / (side + main)
    s, m, p = side * scale, main * scale, point * scale
    items: list[Item] = [
        _box(-35, 0, 35, m),
        _box(-35, m, 35, m + s),
        _box(-1.2, max(m - p, 1), 1.2, m + s, Fill.STEEL),
        _box(-4, m + s, 4, m + s + 2.5, Fill.STEEL),
        Arrow((0, m + s + 17), 90, 13),
        Text((3, m + s + 15), f"{load} on each", 2.6, Anchor.START, bold=True),
        *(Arrow((x, 0), -90, 7) for x in (-20, 0, 20)),
        Dimension((40, max(m - p, 1)), (40, m), feet_inches(point), -3, flat=True),
    ]
    alt = f"A fastener through a side member, {feet_inches(point)} of it in the main member, pulled with {load}."
    return figure("Free-body diagram", items, alt, _CAPTION)


def rated_figure(what: str, loads: Mapping[str, str]) -> Figure:
    """A hanger at the end of a member, or a cap on a post, with its forces."""
    items: list[Item]
    if what == "hanger":
        items = [
            _box(-14, -20, 0, 20),
            _box(0, -14, 60, 14),
            _box(0, -16, 12, -14, Fill.STEEL),
            Line((0.6, -16), (0.6, 14)),
        ]
        down, level = (8.0, 14.0), (30.0, 0.0)
    else:
        items = [_box(-30, 4, 30, 26), _box(-10, -40, 10, 2), _box(-12, 2, 12, 4, Fill.STEEL)]
        down, level = (0.0, 26.0), (-30.0, 15.0)
    said = []
    for name, size in loads.items():
        said.append(f"{name} {size}")
        if name == "down":
            items += [
                Arrow(down, -90, 12),
                Text((down[0] + 2, down[1] + 12), size, 2.6, Anchor.START, bold=True),
            ]
        elif name == "up":
            x = down[0] + 24
            items += [
                Arrow((x, down[1] + 12), 90, 11),
                Text((x + 2, down[1] + 6), size, 2.6, Anchor.START, bold=True),
            ]
        else:
            items += [
                Arrow(level, 0, 12),
                Text((level[0] - 13, level[1] + 4), size, 2.6, Anchor.END, bold=True),
            ]
    alt = f"A {what} with the forces on it: {', '.join(said)}."
    return figure("Free-body diagram", items, alt, _CAPTION)


def notch_figure(*, depth: float, notch: float, lower: bool, reaction: str) -> Figure:
    """The notched end of a beam on its support."""
    scale = 40 / depth
    d, h = 40.0, notch * scale
    if lower:
        points = ((0.0, h), (18.0, h), (18.0, 0.0), (90.0, 0.0), (90.0, d), (0.0, d))
        base = h
    else:
        points = ((0.0, 0.0), (90.0, 0.0), (90.0, d), (22.0, d), (22.0, d - h), (0.0, d - h))
        base = 0.0
    items: list[Item] = [
        Polygon(points, fill=Fill.TIMBER),
        Arrow((8, base), 90, 12),
        Text((10, base - 8), f"V = {reaction}", 2.6, Anchor.START, bold=True),
        Arrow((90, d / 2 - 8), -90, 12),
        Text((93, d / 2), "V", 2.6, Anchor.START, bold=True),
        Dimension((-5, 0), (-5, d), feet_inches(depth), 4),
    ]
    edge = "lower" if lower else "upper"
    cut = f"notched {feet_inches(notch)} in its {edge} edge"
    alt = f"The end of a beam {feet_inches(depth)} deep, {cut}, on a reaction of {reaction}."
    return figure("Free-body diagram", items, alt, _CAPTION)


def guard_figure(
    *, height: float, upper: float, apart: float, push: str, upper_force: str, lower_force: str
) -> Figure:
    """A guard post pushed at its top, held by two bolts."""
    scale = 80 / (height + upper + apart + 2)
    a, b, top = -upper * scale, -(upper + apart) * scale, height * scale
    items: list[Item] = [
        _box(0, b - 6, 8, top + 2),
        _box(-6, b - 6, 0, 0),
        _box(-50, -2.5, 0, 0, Fill.WASH),
        Circle((4, a), 1, fill=Fill.STEEL),
        Circle((4, b), 1, fill=Fill.STEEL),
        Arrow((0, top), 0, 14),
        Text((-15, top), push, 2.6, Anchor.END, bold=True),
        Arrow((-8, a - 0.2), 180, 16),
        Text((-26, a - 4), f"T1 = {upper_force}", 2.6, Anchor.END, bold=True),
        Arrow((24, b), 0, 14),
        Text((26, b), f"T2 = {lower_force}", 2.6, Anchor.START, bold=True),
        Dimension((16, 0), (16, top), feet_inches(height), -4),
    ]
    alt = (
        f"A guard post pushed with {push} at {feet_inches(height)} above the deck; the upper bolt holds "
        f"{upper_force} back, the lower one {lower_force} the other way."
    )
    return figure("Free-body diagram", items, alt, _CAPTION)


def board_figure(*, span: float, spread: str, point: str, reaction: str) -> Figure:
    """A simple span under an even load, with a load at its middle or none."""
    wide = 120.0
    items: list[Item] = [
        _box(0, 0, wide, 4),
        Polygon(((0, 9), (wide, 9), (wide, 12), (0, 12)), Layer.LOADS, Fill.WASH),
        *(Arrow((x, 4.6), -90, 4.4) for x in range(0, 121, 12)),
        Text((20, 15), spread, 2.5),
        Arrow((0, 0), 90, 10),
        Arrow((wide, 0), 90, 10),
        Text((0, -13), f"R = {reaction}", 2.6, bold=True),
        Text((wide, -13), f"R = {reaction}", 2.6, bold=True),
        Dimension((0, -20), (wide, -20), feet_inches(span), 0),
    ]
    said = f"A simple span of {feet_inches(span)} under {spread}, reactions {reaction}"
    if point:
        items += [Arrow((60, 12), -90, 12), Text((63, 22), f"or {point} alone", 2.6, Anchor.START, bold=True)]
        said += f"; or {point} at its middle"
    return figure("Free-body diagram", items, f"{said}.", "Free-body diagram; reactions of the even load.")
