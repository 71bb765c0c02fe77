"""Dimensions, marks, leaders and arrows as plain lines and texts at a scale; north arrow and scale bar."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import lru_cache

from bolewright.rendering.drawing import (
    MIN_TEXT_MM,
    MM_PER_INCH,
    Anchor,
    Arrow,
    Circle,
    Dimension,
    Fill,
    Item,
    Layer,
    Leader,
    Line,
    Mark,
    Plain,
    Point,
    Polygon,
    Polyline,
    Text,
)

Put = Callable[..., Point]

DIMENSION_TEXT_MM = 2.3
MARK_TEXT_MM = 2.3
TAG_HEIGHT_MM = 4.0
_BESIDE = 1.6  # mm from an upright dimension line to its level text
_BUBBLE_MM = 3.5  # radius up to which a mark stands in a bubble
CAP_HEIGHT = 0.645  # of the sheets' font, as a share of its size


def exploded(item: Item, scale: float) -> Iterator[Plain]:
    """Plain primitives of an item at a scale (paper inches per model inch); plain ones as they are."""
    match item:
        case Dimension():
            yield from _dimension(item, scale)
        case Mark():
            yield from _mark(item, scale)
        case Leader():
            yield from _leader(item, scale)
        case Arrow():
            yield from _arrow(item, scale)
        case _:
            yield item


def text_length(text: Text) -> float:
    """Paper millimetres a text takes, estimated generously for a book face."""
    ems = sum(_em(letter) for letter in text.text)
    return ems * max(text.height, MIN_TEXT_MM) / CAP_HEIGHT * (1.06 if text.bold else 1.0)


def _em(letter: str) -> float:
    if letter in " .,:;'|!ijl()[]/IJ":
        return 0.36
    if letter in "mwMW@%":
        return 0.88
    return 0.72 if letter.isupper() else 0.54 if letter.isalpha() else 0.5


def north_arrow(at: Point, degrees: float, scale: float, height: float = 11.0) -> tuple[Plain, ...]:
    """North arrow of ``height`` paper millimetres centred at ``at``."""
    model = 1 / (MM_PER_INCH * scale)
    turn = math.radians(-degrees)

    def put(x: float, y: float) -> Point:
        return (
            at[0] + model * (x * math.cos(turn) - y * math.sin(turn)),
            at[1] + model * (x * math.sin(turn) + y * math.cos(turn)),
        )

    half = height / 2
    return (
        Polygon((put(0, half), put(-2, -half), put(0, -half + 1.8)), Layer.NOTES, Fill.PAPER),
        Polygon((put(0, half), put(2, -half), put(0, -half + 1.8)), Layer.NOTES, Fill.STEEL),
        Text(put(0, half + 2.2), "N", 2.8, layer=Layer.NOTES, bold=True),
    )


def scale_bar(at: Point, scale: float, label: str, metric: bool = False) -> tuple[Plain, ...]:
    """Scale bar of four parts, its left end at ``at``, at most 50 paper millimetres long, with the scale."""
    model = 1 / (MM_PER_INCH * scale)
    unit, name = (1000 / 25.4, "m") if metric else (12.0, "ft")
    steps = (0.05, 0.1, 0.25, 0.5, 1, 2, 5, 10, 25) if metric else (0.25, 0.5, 1, 2, 5, 10, 25)
    step = max((s for s in steps if 4 * s * unit / model <= 50), default=steps[0])
    items: list[Plain] = []
    for part in range(4):
        left, right = (at[0] + step * unit * (part + end) for end in (0, 1))
        corners = ((left, at[1]), (right, at[1]), (right, at[1] + 1.3 * model), (left, at[1] + 1.3 * model))
        items.append(Polygon(corners, Layer.NOTES, Fill.STEEL if part % 2 == 0 else Fill.PAPER))
    for tick in (0, 2, 4):
        words = f"{tick * step:g}" + (f" {name}" if tick == 4 else "")
        items.append(Text((at[0] + tick * step * unit, at[1] + 3.2 * model), words, 2.2))
    items.append(Text((at[0], at[1] - 2.2 * model), label, 2.2, Anchor.START))
    return tuple(items)


def _dimension(item: Dimension, scale: float) -> Iterator[Plain]:
    model = 1 / (MM_PER_INCH * scale)
    (x0, y0), (x1, y1) = item.start, item.end
    length = math.hypot(x1 - x0, y1 - y0)
    if length == 0:
        return
    along = ((x1 - x0) / length, (y1 - y0) / length)
    left = (-along[1], along[0])
    side = math.copysign(1.0, item.offset)

    def put(point: Point, out: float, on: float = 0.0) -> Point:
        return (
            point[0] + model * (left[0] * out + along[0] * on),
            point[1] + model * (left[1] * out + along[1] * on),
        )

    for end in (item.start, item.end):
        yield Line(put(end, side * 1.2), put(end, item.offset + side * 1.2), item.layer)
        yield Line(put(end, item.offset - 0.9, -0.9), put(end, item.offset + 0.9, 0.9), Layer.OUTLINE)
    yield Line(put(item.start, item.offset, -1.2), put(item.end, item.offset, 1.2), item.layer)
    if item.flat:
        yield from _flat_text(item, put, side * left[0], model)
        return
    degrees = math.degrees(math.atan2(along[1], along[0]))
    upright = degrees if -89.9 < degrees <= 90.1 else degrees + 180
    above = 1.0 if upright == degrees else -1.0
    taken, room = dimension_text_length(item), length / model
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    on, off = item.text_at or ((0.0, 0.0) if taken + 1.5 <= room else (room / 2 + 2.2 + taken / 2, 0.0))
    at = put(middle, item.offset + off + (above * 1.9 if off == 0 and abs(on) < room / 2 else 0.0), on)
    if off and math.hypot(on, off) > 2.5:
        yield Line(
            put(middle, item.offset), put(middle, item.offset + off - math.copysign(1.6, off), on), item.layer
        )
    yield Text(at, item.text, DIMENSION_TEXT_MM, rotation=round(upright % 360, 6), layer=item.layer)


def _flat_text(item: Dimension, put: Put, right: float, model: float) -> Iterator[Plain]:
    """Level text of an upright dimension beside its line, with a thin line to it where it had to move."""
    on, off = item.text_at or (0.0, 0.0)
    middle = ((item.start[0] + item.end[0]) / 2, (item.start[1] + item.end[1]) / 2)
    way = 1.0 if right > 0 else -1.0
    foot = put(middle, item.offset)
    x, y = put(middle, item.offset, on)
    at = (x + way * (_BESIDE + off) * model, y)
    if abs(on) > 1.0 or off:
        yield Line(foot, (at[0] - way * 0.4 * model, y), item.layer)
    anchor = Anchor.START if way > 0 else Anchor.END
    yield Text(at, item.text, DIMENSION_TEXT_MM, anchor, layer=item.layer)


def dimension_text_length(item: Dimension) -> float:
    """Paper millimetres the text of a dimension takes."""
    return text_length(Text(item.start, item.text, DIMENSION_TEXT_MM))


@lru_cache(maxsize=4096)
def _mark_size(words: str, radius: float) -> tuple[float, float]:
    length = text_length(Text((0.0, 0.0), words, MARK_TEXT_MM, bold=True))
    round_ = max(radius, length / 2 + 0.6)
    return (round_, round_) if round_ <= _BUBBLE_MM else (length / 2 + 0.9, TAG_HEIGHT_MM / 2)


def mark_reach(item: Mark) -> tuple[float, float]:
    """Half the width and height of a mark's bubble, in paper millimetres; long marks stand in a tag."""
    return _mark_size(item.text, item.radius)


def mark_led(item: Mark) -> bool:
    """Whether a mark stands beside its part, with a line to a dot on it."""
    wide, high = mark_reach(item)
    return max(abs(item.shift[0]) / wide, abs(item.shift[1]) / high) > 1


def _mark(item: Mark, scale: float) -> Iterator[Plain]:
    model = 1 / (MM_PER_INCH * scale)
    at = (item.at[0] + item.shift[0] * model, item.at[1] + item.shift[1] * model)
    wide, high = mark_reach(item)
    right, up = item.shift
    reach = max(abs(right) / wide, abs(up) / high)
    if reach > 1:
        edge = (at[0] - right / reach * model, at[1] - up / reach * model)
        if wide == high:
            part = wide / math.hypot(right, up)
            edge = (at[0] - right * part * model, at[1] - up * part * model)
        yield Line(item.at, edge, item.layer)
        yield Circle(item.at, 0.4 * model, item.layer, Fill.STEEL)
    if wide == high:
        yield Circle(at, wide * model, item.layer, Fill.PAPER)
    else:
        x, y = wide * model, high * model
        corners = (
            (at[0] - x, at[1] - y),
            (at[0] + x, at[1] - y),
            (at[0] + x, at[1] + y),
            (at[0] - x, at[1] + y),
        )
        yield Polygon(corners, item.layer, Fill.PAPER)
    yield Text(at, item.text, MARK_TEXT_MM, layer=item.layer, bold=True)


def _leader(item: Leader, scale: float) -> Iterator[Plain]:
    model = 1 / (MM_PER_INCH * scale)
    right, up = item.shift
    knee = (item.to[0] + right * model, item.to[1] + up * model)
    side = 1.0 if right >= 0 else -1.0
    foot = (knee[0] + side * 2.0 * model, knee[1])
    yield Circle(item.to, 0.5 * model, item.layer, Fill.STEEL)
    yield Polyline((item.to, knee, foot), item.layer)
    anchor = Anchor.START if side > 0 else Anchor.END
    yield Text(foot, item.text, 2.3, anchor, layer=item.layer, shift=(side * 0.8, 0.0))


def _arrow(item: Arrow, scale: float) -> Iterator[Plain]:
    model = 1 / (MM_PER_INCH * scale)
    angle = math.radians(item.direction)

    def put(back: float, aside: float = 0.0) -> Point:
        return (
            item.to[0] - model * (back * math.cos(angle) + aside * math.sin(angle)),
            item.to[1] - model * (back * math.sin(angle) - aside * math.cos(angle)),
        )

    yield Line(put(item.length), put(1.5), item.layer)
    yield Polygon((put(0), put(2.2, 0.8), put(2.2, -0.8)), item.layer, Fill.STEEL)
    if item.text:
        yield Text(put(item.length + 2.2), item.text, 2.3, layer=item.layer)
