"""Free-body diagrams of fasteners, rated connectors, notches, guard posts and boards."""

from __future__ import annotations

from collections.abc import Mapping

from bolewright.part_sheets.drawn import figure
from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import (
    Anchor,
    Arc,
    Arrow,
    Circle,
    Dimension,
    Fill,
    Item,
    Layer,
    Line,
    Pen,
    Point,
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
        *(Arrow((x, -7), -90, 7) for x in (-20, 0, 20)),
        Text((23, -5), f"R = {load} in all", 2.6, Anchor.START, bold=True),
        Dimension((40, max(m - p, 1)), (40, m), feet_inches(point), -3, flat=True),
    ]
    alt = f"A fastener through a side member, {feet_inches(point)} of it in the main member, pulled with {load}; the "
    alt += f"main member is held back with R = {load}."
    return figure("Free-body diagram", items, alt, _CAPTION)


def rated_figure(what: str, loads: Mapping[str, str]) -> Figure:
    """A hanger at the end of a member, or a cap on a post, with its forces."""
    items: list[Item]
    if what == "hanger":
        items = [_box(0, -16, 1.2, 14, Fill.STEEL), _box(0, -16, 14, -14.4, Fill.STEEL)]
        items += [Line((14, -14.4), (44, -14.4), pen=Pen.DASHED), Line((14, 14), (44, 14), pen=Pen.DASHED)]
        seat, by = (8.0, -14.4), "fasteners in the header"
    else:
        items = [_box(-12, 0, 12, 2, Fill.STEEL), _box(-12, 2, -10.8, 14, Fill.STEEL)]
        items += [_box(10.8, 2, 12, 14, Fill.STEEL), _box(-10, -14, -8.8, 0, Fill.STEEL)]
        items += [_box(8.8, -14, 10, 0, Fill.STEEL), Line((-30, 14), (30, 14), pen=Pen.DASHED)]
        items += [Line((-8.8, -24), (-8.8, 0), pen=Pen.DASHED), Line((8.8, -24), (8.8, 0), pen=Pen.DASHED)]
        seat, by = (0.0, 2.0), "post"
    said = []
    for name, size in loads.items():
        if name == "level":
            items += (
                _across(size)
                if what == "hanger"
                else [
                    *_level((-12.0, 8.0), 0, f"P = {size}", 14),
                    *_level((10, -9), 180, f"R = {size}", 12),
                ]
            )
            said.append(f"lateral {size}, held back by the {by} with R = {size}")
            continue
        down = name == "down"
        load, back = (-90, 90) if down else (90, -90)
        side = 0.0 if down else 14.0
        x = seat[0] + side
        tip = (x, seat[1] + (0 if down else 13))
        items += [
            Arrow(tip, load, 13),
            Text((x + 2, seat[1] + 10), f"P = {size}", 2.6, Anchor.START, bold=True),
        ]
        if what == "hanger":
            place = (-4.0 - side, 2.0 if down else -9.0)
            items += [
                Arrow(place, back, 12),
                Text((place[0] - 2, -4), f"R = {size}", 2.6, Anchor.END, bold=True),
            ]
        else:
            place = (side, -16.0 if down else -28.0)
            items += [
                Arrow(place, back, 12),
                Text((side + 2, -24), f"R = {size}", 2.6, Anchor.START, bold=True),
            ]
        said.append(f"{name} {size} on the seat, held by the {by} with R = {size}")
    alt = f"A {what} with the forces on it: {'; '.join(said)}."
    note = "The fasteners also hold the couple that P and R make." if what == "hanger" else ""
    return figure("Free-body diagram", items, alt, f"Free-body diagram of the {what}. {note}".strip())


def _across(size: str) -> list[Item]:
    """A force square to the drawing, towards the reader, and what holds it back."""
    words = f"P = {size} towards you, R = {size} back at the header"
    return [
        Circle((30, 0), 1.6),
        Circle((30, 0), 0.5, fill=Fill.STEEL),
        Text((33, 0), words, 2.4, Anchor.START),
    ]


def _level(to: Point, direction: float, words: str, length: float) -> list[Item]:
    """A level arrow with its words behind it."""
    tail = to[0] - length if direction == 0 else to[0] + length
    end, shift = (Anchor.END, -1.5) if direction == 0 else (Anchor.START, 1.5)
    return [Arrow(to, direction, length), Text((tail + shift, to[1]), words, 2.6, end, bold=True)]


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
        Arc((90, d / 2), 9, -60, 60),
        Arrow((94.5, d / 2 + 7.8), 150, 2),
        Text((101, d / 2 + 6), "M", 2.6, Anchor.START, bold=True),
        Dimension((-5, 0), (-5, d), feet_inches(depth), 4),
    ]
    edge = "lower" if lower else "upper"
    cut = f"notched {feet_inches(notch)} in its {edge} edge"
    alt = f"The end of a beam {feet_inches(depth)} deep, {cut}, on a reaction of {reaction}; V and M at the cut."
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


def board_figure(*, span: float, spread: str, point: str, reaction: str, of: str = "") -> Figure:
    """A simple span under an even load, and a load at its middle where there is one; ``of`` says which loads."""
    wide = 120.0
    items: list[Item] = [_box(0, 0, wide, 4)]
    said = f"A simple span of {feet_inches(span)}"
    if spread:
        items += [
            Polygon(((0, 9), (wide, 9), (wide, 12), (0, 12)), Layer.LOADS, Fill.WASH),
            *(Arrow((x, 4.6), -90, 4.4) for x in range(0, 121, 12)),
            Text((20, 15), spread, 2.5),
        ]
        said += f" under {spread}"
    if point:
        items += [
            Arrow((60, 12 if spread else 4), -90, 12),
            Text((63, 22 if spread else 14), point, 2.6, Anchor.START, bold=True),
        ]
        said += f"{' and' if spread else ' under'} {point} at its middle"
    items += [
        Arrow((0, 0), 90, 10),
        Arrow((wide, 0), 90, 10),
        Text((0, -13), f"R = {reaction}", 2.6, bold=True),
        Text((wide, -13), f"R = {reaction}", 2.6, bold=True),
        Dimension((0, -20), (wide, -20), feet_inches(span), 0),
    ]
    caption = f"Free-body diagram, {of}." if of else "Free-body diagram."
    return figure("Free-body diagram", items, f"{said}, reactions {reaction}.", caption)
