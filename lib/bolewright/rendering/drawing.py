"""A small drawing model: frozen primitives in model inches, sizes of text and symbols in paper millimetres.

Nothing here knows SVG or DXF. A backend walks :attr:`Drawing.items`, asks :func:`exploded` for the plain
lines and texts of dimensions, marks and leaders at its scale, and draws Line, Polyline, Polygon, Circle, Arc
and Text.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

Point = tuple[float, float]

MM_PER_INCH = 25.4
MIN_TEXT_MM = 2.0
DIMENSION_TEXT_MM = 2.3


class Layer(Enum):
    """What a primitive stands for; the value is the layer's name in exchange files."""

    OUTLINE = "outline"
    HIDDEN = "hidden"
    CENTRE = "centre"
    STEM = "stem"
    BOLTS = "bolts"
    DECKING = "decking"
    JOISTS = "joists"
    CARRIERS = "carriers"
    POSTS = "posts"
    FOOTINGS = "footings"
    BRACES = "braces"
    GUARD = "guard"
    GROUND = "ground"
    LOADS = "loads"
    LIT = "lit"
    MARKS = "marks"
    DIMENSIONS = "dimensions"
    NOTES = "notes"


class Pen(Enum):
    """Line type."""

    SOLID = "solid"
    DASHED = "dashed"
    CENTRE = "centre"


class Fill(Enum):
    """What fills a closed shape."""

    NONE = "none"
    PAPER = "paper"
    WASH = "wash"
    TIMBER = "timber"
    END_GRAIN = "end grain"
    CONCRETE = "concrete"
    SOIL = "soil"
    GRAVEL = "gravel"
    STEM = "stem"
    STEEL = "steel"
    LIT = "lit"


class Anchor(Enum):
    """Which end of a text stands at its point."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True)
class Line:
    """Straight line."""

    start: Point
    end: Point
    layer: Layer = Layer.OUTLINE
    pen: Pen = Pen.SOLID


@dataclass(frozen=True)
class Polyline:
    """Open run of straight lines."""

    points: tuple[Point, ...]
    layer: Layer = Layer.OUTLINE
    pen: Pen = Pen.SOLID


@dataclass(frozen=True)
class Polygon:
    """Closed shape, filled by name; later items are drawn over earlier ones."""

    points: tuple[Point, ...]
    layer: Layer = Layer.OUTLINE
    fill: Fill = Fill.NONE
    pen: Pen = Pen.SOLID


@dataclass(frozen=True)
class Circle:
    """Circle, filled by name."""

    centre: Point
    radius: float
    layer: Layer = Layer.OUTLINE
    fill: Fill = Fill.NONE
    pen: Pen = Pen.SOLID


@dataclass(frozen=True)
class Arc:
    """Arc of a circle, counter-clockwise from ``start`` to ``end``, degrees from the x axis."""

    centre: Point
    radius: float
    start: float
    end: float
    layer: Layer = Layer.OUTLINE
    pen: Pen = Pen.SOLID


@dataclass(frozen=True)
class Text:
    """One line of text; ``height`` in paper millimetres, ``rotation`` in degrees counter-clockwise.

    ``at`` is the end or middle of its centre line; ``shift`` moves it on paper, millimetres right and up.
    """

    at: Point
    text: str
    height: float = 2.5
    anchor: Anchor = Anchor.MIDDLE
    rotation: float = 0.0
    layer: Layer = Layer.NOTES
    bold: bool = False
    shift: Point = (0.0, 0.0)


@dataclass(frozen=True)
class Dimension:
    """Aligned dimension from ``start`` to ``end``.

    ``offset`` is the distance of the dimension line in paper millimetres, to the left of the way from start
    to end where positive.
    """

    start: Point
    end: Point
    text: str
    offset: float = 8.0
    layer: Layer = Layer.DIMENSIONS


@dataclass(frozen=True)
class Mark:
    """A part's mark (J3, C1, P2) in a bubble of ``radius`` paper millimetres."""

    at: Point
    text: str
    radius: float = 3.0
    layer: Layer = Layer.MARKS
    shift: Point = (0.0, 0.0)


@dataclass(frozen=True)
class Leader:
    """A note with a line and a dot at what it speaks of; ``shift`` in paper millimetres places the note."""

    to: Point
    text: str
    shift: Point = (8.0, 8.0)
    layer: Layer = Layer.NOTES


@dataclass(frozen=True)
class Arrow:
    """An arrow with its head at ``to``, such as a load or a reaction; ``length`` in paper millimetres.

    ``direction`` is where it points, degrees counter-clockwise from the x axis.
    """

    to: Point
    direction: float
    length: float = 9.0
    text: str = ""
    layer: Layer = Layer.LOADS


Plain = Line | Polyline | Polygon | Circle | Arc | Text
Item = Plain | Dimension | Mark | Leader | Arrow


@dataclass(frozen=True)
class Drawing:
    """Items in model inches with what a reader must know of them.

    ``north`` is where north lies, degrees clockwise from the sheet's up; None draws no arrow. ``alt``
    describes the drawing to a reader who can't see it.
    """

    title: str
    items: tuple[Item, ...]
    alt: str
    north: float | None = None
    scale_bar: bool = True


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
    """Paper millimetres a text takes, estimated generously."""
    return 0.72 * text.height * len(text.text)


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
    degrees = math.degrees(math.atan2(along[1], along[0]))
    upright = degrees if -89.9 < degrees <= 90.1 else degrees + 180
    above = 1.0 if upright == degrees else -1.0
    text = Text(item.start, item.text, DIMENSION_TEXT_MM, rotation=round(upright % 360, 6), layer=item.layer)
    if text_length(text) + 1.5 <= length / model:
        middle = ((x0 + x1) / 2, (y0 + y1) / 2)
        at = put(middle, item.offset + above * 1.9)
    else:
        at = put(item.end, item.offset, 2.2 + text_length(text) / 2)
    yield Text(at, item.text, DIMENSION_TEXT_MM, rotation=text.rotation, layer=item.layer)


def _mark(item: Mark, scale: float) -> Iterator[Plain]:
    model = 1 / (MM_PER_INCH * scale)
    at = (item.at[0] + item.shift[0] * model, item.at[1] + item.shift[1] * model)
    reach = math.hypot(*item.shift)
    if reach > item.radius:
        part = item.radius / reach
        edge = (at[0] - item.shift[0] * part * model, at[1] - item.shift[1] * part * model)
        yield Line(item.at, edge, item.layer)
    height = max(MIN_TEXT_MM, min(2.6, 2.9 * item.radius / max(2, len(item.text)) * 0.8))
    radius = max(item.radius, 0.36 * height * len(item.text) + 0.5)
    yield Circle(at, radius * model, item.layer, Fill.PAPER)
    yield Text(at, item.text, height, layer=item.layer, bold=True)


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
