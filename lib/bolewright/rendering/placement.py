"""Finds a place for every text of a drawing so that no two texts or marks lie on each other.

Texts, marks, dimensions and leaders each have a row of places where they may stand, the best first. They are set
down one after the other, those with the fewest places first, each at the place that covers no text already there
and crosses the fewest lines. All sizes are paper millimetres at the drawing's scale.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from bolewright.rendering.annotations import dimension_text_length, exploded, mark_reach, text_length
from bolewright.rendering.drawing import (
    MIN_TEXT_MM,
    MM_PER_INCH,
    Anchor,
    Arrow,
    Circle,
    Dimension,
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

Corners = tuple[Point, ...]

ANNOTATIONS = (Text, Dimension, Mark, Leader, Arrow)
_ORDER: dict[type, int] = {Arrow: 0, Dimension: 1, Text: 2, Mark: 3, Leader: 4}
_MARGIN = 0.35  # mm kept clear round a text
_NEVER = 1e6
_OVER_TEXT, _OVER_LINE, _OVER_PART, _LATER = 3.0, 1.0, 0.3, 0.012  # what a crossing, and a later place, costs
_OFF_ITS_LINE, _THROUGH = 0.7, 2.5
_DIRECTIONS = (45, 135, -45, -135, 0, 180, 90, -90, 22.5, 157.5, -22.5, -157.5, 67.5, 112.5, -67.5, -112.5)


@dataclass(frozen=True)
class Shape:
    """A convex shape on paper with its bounds: a text's box, a mark's box, or a line's two ends."""

    corners: Corners
    bounds: tuple[float, float, float, float]

    @classmethod
    def of(cls, corners: Corners) -> Shape:
        """Shape of these corners."""
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        return cls(corners, (min(xs), min(ys), max(xs), max(ys)))

    def meets(self, other: Shape) -> bool:
        """Whether two convex shapes share more than an edge."""
        a, b = self.bounds, other.bounds
        if a[2] < b[0] or b[2] < a[0] or a[3] < b[1] or b[3] < a[1]:
            return False
        return not any(_apart(self.corners, other.corners, n) for n in (*_normals(self), *_normals(other)))


def _normals(shape: Shape) -> Iterator[Point]:
    corners = shape.corners
    for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True):
        if (x0, y0) != (x1, y1):
            yield (y0 - y1, x1 - x0)
        if len(corners) == 2:
            yield (x1 - x0, y1 - y0)
            return


def _apart(a: Corners, b: Corners, normal: Point) -> bool:
    on_a = [x * normal[0] + y * normal[1] for x, y in a]
    on_b = [x * normal[0] + y * normal[1] for x, y in b]
    return max(on_a) <= min(on_b) + 1e-9 or max(on_b) <= min(on_a) + 1e-9


def text_box(text: Text, scale: float, margin: float = 0.0) -> Shape:
    """Box that a text takes on paper, turned with it."""
    paper = MM_PER_INCH * scale
    length = text_length(text)
    left = {Anchor.START: 0.0, Anchor.MIDDLE: -length / 2, Anchor.END: -length}[text.anchor]
    half = 0.62 * max(text.height, MIN_TEXT_MM) + margin
    angle = math.radians(text.rotation)
    x, y = text.at[0] * paper + text.shift[0], text.at[1] * paper + text.shift[1]
    return Shape.of(
        tuple(
            (
                x + on * math.cos(angle) - up * math.sin(angle),
                y + on * math.sin(angle) + up * math.cos(angle),
            )
            for on, up in (
                (left - margin, -half),
                (left + length + margin, -half),
                (left + length + margin, half),
                (left - margin, half),
            )
        )
    )


def boxes_of(item: Item, scale: float, margin: float = 0.0) -> list[Shape]:
    """Boxes of all the text of an item on paper; of a mark, its bubble."""
    if isinstance(item, Mark):
        paper, (wide, high) = MM_PER_INCH * scale, mark_reach(item)
        x, y = item.at[0] * paper + item.shift[0], item.at[1] * paper + item.shift[1]
        wide, high = wide + margin, high + margin
        return [
            Shape.of(((x - wide, y - high), (x + wide, y - high), (x + wide, y + high), (x - wide, y + high)))
        ]
    return [text_box(part, scale, margin) for part in exploded(item, scale) if isinstance(part, Text)]


def overlaps(items: Sequence[Item], scale: float) -> list[tuple[str, str]]:
    """Pairs of texts or marks of different items that lie on each other."""
    boxes = [
        (box, _words(item))
        for item in items
        if isinstance(item, ANNOTATIONS)
        for box in boxes_of(item, scale)
    ]
    return [
        (words, other_words)
        for i, (box, words) in enumerate(boxes)
        for other, other_words in boxes[i + 1 :]
        if box.meets(other)
    ]


def struck(items: Sequence[Item], scale: float) -> list[tuple[str, str]]:
    """Texts through which a line of another annotation or a centre line runs, and what runs through each."""
    paper = MM_PER_INCH * scale
    lines = [
        (line, _words(item) or Layer.CENTRE.value, item)
        for item in items
        if isinstance(item, Dimension | Leader | Mark | Arrow) or _is_axis(item)
        for plain in exploded(item, scale)
        for line in _lines(plain, paper)
    ]
    return [
        (item.text, words)
        for item in items
        if isinstance(item, Text | Dimension | Leader | Arrow)
        for box in boxes_of(item, scale)
        for line, words, other in lines
        if other is not item and line.meets(box)
    ]


def _words(item: Item) -> str:
    return item.text if isinstance(item, ANNOTATIONS) else ""


def placed(items: Sequence[Item], scale: float) -> tuple[Item, ...]:
    """The items, in their order, with every annotation at the place found for it."""
    return _placed(tuple(items), scale)


@lru_cache(maxsize=64)  # a sheet, its file and the brief show the same drawing
def _placed(items: tuple[Item, ...], scale: float) -> tuple[Item, ...]:
    paper = MM_PER_INCH * scale
    parts = [line for item in items if _is_part(item) for line in _lines(item, paper)]
    axes = [line for item in items if _is_axis(item) for line in _lines(item, paper)]
    wanted = [i for i, item in enumerate(items) if isinstance(item, ANNOTATIONS)]
    strokes = {i: _strokes(items[i], scale) for i in wanted if isinstance(items[i], Dimension | Arrow)}
    texts: list[Shape] = []
    result = list(items)
    for i in sorted(wanted, key=lambda i: (_ORDER[type(items[i])], i)):
        best, least = items[i], math.inf
        others = [line for j, drawn in strokes.items() if j != i for line in drawn]
        covers = isinstance(items[i], Mark)  # a bubble hides what it stands on
        for number, choice in enumerate(_choices(items[i], scale)):
            cost = _LATER * number
            if cost >= least:
                break
            cost += _cost(
                choice, scale, texts, others if covers else [*others, *axes], () if covers else parts
            )
            if cost < least:
                best, least = choice, cost
        result[i] = best
        texts += boxes_of(best, scale, _MARGIN)
        strokes[i] = _strokes(best, scale)
    return tuple(result)


def _strokes(item: Item, scale: float) -> list[Shape]:
    return [line for plain in exploded(item, scale) for line in _lines(plain, MM_PER_INCH * scale)]


def _is_part(item: Item) -> bool:
    """Whether an item is the outline of a part, which a text had better not stand on."""
    drawn = isinstance(item, Line | Polyline | Polygon | Circle)
    return drawn and item.layer is not Layer.NOTES and not _is_axis(item)


def _is_axis(item: Item) -> bool:
    return isinstance(item, Line | Polyline) and item.layer is Layer.CENTRE


def _cost(
    item: Item, scale: float, texts: Iterable[Shape], lines: Iterable[Shape], parts: Iterable[Shape]
) -> float:
    own = boxes_of(item, scale)
    cost = _NEVER * sum(box.meets(text) for box in own for text in _beside(box, texts))
    if cost:
        return cost
    strokes = _strokes(item, scale)
    if isinstance(item, Dimension) and not item.flat and item.text_at and item.text_at[1]:
        cost += _OFF_ITS_LINE
    cost += _OVER_TEXT * sum(stroke.meets(text) for stroke in strokes for text in _beside(stroke, texts))
    cost += sum(_struck(line, box) for box in own for line in _beside(box, lines))
    return cost + _OVER_PART * sum(line.meets(box) for box in own for line in _beside(box, parts))


def _beside(one: Shape, shapes: Iterable[Shape]) -> list[Shape]:
    """Those of many shapes whose bounds touch those of one: few, and only they are looked at closely."""
    left, low, right, high = one.bounds
    return [
        shape
        for shape in shapes
        for a, b, c, d in (shape.bounds,)
        if a <= right and c >= left and b <= high and d >= low
    ]


def _struck(line: Shape, box: Shape) -> float:
    """What it costs that a line crosses a text: more where it strikes it through lengthwise."""
    if not line.meets(box):
        return 0.0
    (x0, y0), (x1, y1) = line.corners
    (left, low), (right, high) = box.corners[:2]
    along = abs((x1 - x0) * (right - left) + (y1 - y0) * (high - low))
    across = abs((x1 - x0) * (high - low) - (y1 - y0) * (right - left))
    return _THROUGH if along > across else _OVER_LINE


def _lines(item: Plain | Item, paper: float) -> Iterator[Shape]:
    """Straight lines of a plain item on paper; those of small circles and heads of arrows are left out."""
    match item:
        case Line():
            yield _line(item.start, item.end, paper)
        case Polyline():
            yield from (_line(a, b, paper) for a, b in zip(item.points, item.points[1:], strict=False))
        case Polygon():
            corners = item.points
            yield from (_line(a, b, paper) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
        case Circle() if item.radius * paper > 4:
            r = item.radius
            ring = [
                (
                    item.centre[0] + r * math.cos(k * math.pi / 8),
                    item.centre[1] + r * math.sin(k * math.pi / 8),
                )
                for k in range(17)
            ]
            yield from (_line(a, b, paper) for a, b in zip(ring, ring[1:], strict=False))
        case _:
            return


def _line(a: Point, b: Point, paper: float) -> Shape:
    return Shape.of(((a[0] * paper, a[1] * paper), (b[0] * paper, b[1] * paper)))


def _choices(item: Item, scale: float) -> Iterator[Item]:
    """Places where an annotation may stand, the best first."""
    yield item
    match item:
        case Dimension():
            yield from _dimension_choices(item, scale)
        case Mark():
            yield from (replace(item, at=at, shift=(0.0, 0.0)) for at in item.along)
            near, far = list(_around(7.0, 13.0, 3.0)), _around(16.0, 60.0, 3.0)
            yield from (replace(item, shift=shift) for shift in near)
            # its dot elsewhere on the part, where no other bubble lies on it
            yield from (replace(item, at=at, shift=shift) for at in item.along for shift in near)
            yield from (replace(item, shift=shift) for shift in far)
        case Leader():
            right, up = item.shift
            yield from (replace(item, shift=shift) for shift in ((right, -up), (-right, up), (-right, -up)))
            yield from (replace(item, shift=shift) for shift in _around(6.0, 80.0, 4.0) if abs(shift[0]) > 1)
        case Text(fixed=False):
            x, y = item.shift
            yield from (replace(item, shift=(x + dx, y + dy)) for dx, dy in _around(2.0, 40.0, 2.0))
        case _:
            return


def _dimension_choices(item: Dimension, scale: float) -> Iterator[Dimension]:
    if item.flat:
        yield from (
            replace(item, text_at=(on, off))
            for off in (0.0, 3.0, 6.0, 12.0)
            for on in (1.5, -1.5, 3.0, -3.0, 4.5, -4.5, 6.0, -6.0, 8.0, -8.0, 11.0, -11.0)
        )
        return
    room = math.dist(item.start, item.end) * MM_PER_INCH * scale
    taken = dimension_text_length(item)
    side = math.copysign(1.0, item.offset)
    beside = room / 2 + 2.2 + taken / 2
    if taken + 1.5 <= room:
        slack = (room - taken) / 2
        yield from (replace(item, text_at=(on, 0.0)) for on in (-slack / 2, slack / 2, -slack, slack))
    else:
        yield replace(item, text_at=(-beside, 0.0))
    for off in (4.6, 7.6, -4.6, 10.6, 13.6, 16.6, -7.6, 19.6, 22.6, 26.0, 30.0):
        for share in (0.0, 0.5, -0.5, 1.0, -1.0, 1.5, -1.5):
            yield replace(item, text_at=(share * taken, side * off))


def _around(nearest: float, farthest: float, step: float) -> Iterator[Point]:
    reach = nearest
    while reach <= farthest:
        for degrees in _DIRECTIONS:
            angle = math.radians(degrees)
            yield (round(reach * math.cos(angle), 3), round(reach * math.sin(angle), 3))
        reach += step
