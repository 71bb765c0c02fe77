"""What annotations take on paper: boxes of texts and bubbles, dots that name a part, lines; and what lies on what.

All sizes are paper millimetres at the drawing's scale.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bolewright.rendering.annotations import exploded, mark_led, mark_reach, text_length
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
_TOUCH = 1e-9
DOT_MM = 0.5  # half the side of a dot's box


@dataclass(frozen=True)
class Shape:
    """A convex shape on paper with its bounds: a text's box, a mark's box, or a line's two ends."""

    corners: Corners
    bounds: tuple[float, float, float, float]
    level: bool  # its sides lie along and across the sheet, so its bounds say all

    @classmethod
    def of(cls, corners: Corners) -> Shape:
        """Shape of these corners."""
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        (x0, y0), (x1, y1) = corners[:2]
        level = (x0 == x1 or y0 == y1) and len(set(xs)) <= 2 and len(set(ys)) <= 2
        return cls(corners, (min(xs), min(ys), max(xs), max(ys)), level)

    def meets(self, other: Shape) -> bool:
        """Whether two convex shapes share more than an edge."""
        a, b = self.bounds, other.bounds
        if a[2] < b[0] or b[2] < a[0] or a[3] < b[1] or b[3] < a[1]:
            return False
        if self.level and other.level:
            return (
                a[2] > b[0] + _TOUCH
                and b[2] > a[0] + _TOUCH
                and a[3] > b[1] + _TOUCH
                and b[3] > a[1] + _TOUCH
            )
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
    return max(on_a) <= min(on_b) + _TOUCH or max(on_b) <= min(on_a) + _TOUCH


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


def dot_of(item: Item, scale: float) -> Shape | None:
    """Box of the dot that says which part a mark or leader names; None where the bubble stands on the part itself."""
    match item:
        case Mark():
            x, y = item.at
            if not mark_led(item):
                return None
        case Leader():
            x, y = item.to
        case _:
            return None
    x, y = x * MM_PER_INCH * scale, y * MM_PER_INCH * scale
    return Shape.of(tuple((x + DOT_MM * a, y + DOT_MM * b) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))))


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
        if isinstance(item, Dimension | Leader | Mark | Arrow) or is_axis(item)
        for plain in exploded(item, scale)
        for line in lines_of(plain, paper)
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


def on_dots(items: Sequence[Item], scale: float) -> list[tuple[str, str]]:
    """Dots on which another's label, dot or line lies, so that it could be taken for its own: whose, and what on it."""
    told = [item for item in items if isinstance(item, ANNOTATIONS)]
    dots = [(item, dot) for item in told if (dot := dot_of(item, scale)) is not None]
    others = [(item, box) for item in told for box in boxes_of(item, scale)]
    others += dots
    others += [
        (item, line) for item in told if isinstance(item, Mark | Leader) for line in strokes_of(item, scale)
    ]
    return [
        (_words(item), _words(other))
        for item, dot in dots
        for other, shape in others
        if other is not item and shape.meets(dot)
    ]


def strokes_of(item: Item, scale: float) -> list[Shape]:
    """Straight lines of an item as it is drawn at a scale."""
    return [line for plain in exploded(item, scale) for line in lines_of(plain, MM_PER_INCH * scale)]


def is_part(item: Item) -> bool:
    """Whether an item is the outline of a part, which a text had better not stand on."""
    drawn = isinstance(item, Line | Polyline | Polygon | Circle)
    return drawn and item.layer is not Layer.NOTES and not is_axis(item)


def is_axis(item: Item) -> bool:
    """Whether an item is a centre line."""
    return isinstance(item, Line | Polyline) and item.layer is Layer.CENTRE


def lines_of(item: Plain | Item, paper: float) -> Iterator[Shape]:
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
