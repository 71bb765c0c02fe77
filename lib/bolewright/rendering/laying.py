"""Lays a drawing out: the largest builder's scale at which it fits, a place for every text, the strip at its foot."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from bolewright.rendering.annotations import exploded, north_arrow, scale_bar
from bolewright.rendering.drawing import (
    MM_PER_INCH,
    Anchor,
    Arc,
    Circle,
    Drawing,
    Item,
    Line,
    Plain,
    Point,
    Polygon,
    Polyline,
    Text,
)
from bolewright.rendering.placement import placed, together
from bolewright.rendering.shapes import ANNOTATIONS, text_box

PAGE_WIDTH_MM = 172.0  # inside the margins of A4, the narrower paper
PAGE_HEIGHT_MM = 150.0
MARGIN_MM = 2.0
_STRIP_MM = 16.0
_HEADING_MM = 4.4
_STANDARD_TRIES = 40


class DrawingError(ValueError):
    """A drawing that can't be laid out; one sentence."""


@dataclass(frozen=True)
class Scale:
    """Paper inches per model inch, and how it is written on the drawing."""

    ratio: float
    label: str


IMPERIAL_SCALES = tuple(
    Scale(paper / 12, f'{words}" = 1\' 0"')
    for paper, words in (
        (3.0, "3"),
        (1.5, "1 1/2"),
        (1.0, "1"),
        (0.75, "3/4"),
        (0.5, "1/2"),
        (0.375, "3/8"),
        (0.25, "1/4"),
        (0.1875, "3/16"),
        (0.125, "1/8"),
        (0.09375, "3/32"),
        (0.0625, "1/16"),
    )
)
METRIC_SCALES = tuple(
    Scale(1 / ratio, f"1 : {ratio}") for ratio in (5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 200)
)


@dataclass(frozen=True)
class Box:
    """Bounds in model inches."""

    left: float
    bottom: float
    right: float
    top: float

    def around(self, other: Box) -> Box:
        """Bounds of both."""
        return Box(
            min(self.left, other.left),
            min(self.bottom, other.bottom),
            max(self.right, other.right),
            max(self.top, other.top),
        )


@dataclass(frozen=True)
class LaidOut:
    """A drawing at its scale: every annotation in its place, the strip with scale bar and heading among the items."""

    drawing: Drawing
    scale: Scale
    items: tuple[Item, ...]
    box: Box


def lay_out(
    drawing: Drawing,
    width: float = PAGE_WIDTH_MM,
    height: float = PAGE_HEIGHT_MM,
    scales: tuple[Scale, ...] = IMPERIAL_SCALES,
) -> LaidOut:
    """A drawing at the largest of ``scales`` at which it fits ``width`` by ``height`` millimetres.

    Annotations (texts, dimensions, marks, leaders, arrows) come after everything else, each where it lies on no
    other. Where no scale fits, a scale is made that does, and the drawing says "not to a standard scale". Raises
    :class:`DrawingError` for a drawing without items or with a coordinate that is no number.
    """
    if not drawing.items:
        raise DrawingError(f"the drawing {drawing.title!r} is empty")
    strip = _STRIP_MM if drawing.scale_bar or drawing.north is not None else 0.0
    strip += _HEADING_MM * len(drawing.heading)
    scale, items, box = _fitting(drawing, width - 2 * MARGIN_MM, height - 2 * MARGIN_MM - strip, scales)
    if strip:
        model = 1 / (MM_PER_INCH * scale.ratio)
        foot = _strip(drawing, scale, box, scales is METRIC_SCALES)
        items += foot
        box = Box(box.left, box.bottom - strip * model, box.right, box.top)
        around = _extent((p for item in foot for p in exploded(item, scale.ratio)), scale.ratio)
        box = box.around(around) if around else box
    return LaidOut(drawing, scale, items, box)


def _strip(drawing: Drawing, scale: Scale, box: Box, metric: bool) -> tuple[Plain, ...]:
    """Heading, scale bar and north arrow under a drawing."""
    model = 1 / (MM_PER_INCH * scale.ratio)
    items: list[Plain] = []
    y = box.bottom - 4.0 * model
    for number, words in enumerate(drawing.heading):
        height, bold = (3.0, True) if number == 0 else (2.2, False)
        items.append(Text((box.left, y), words, height, Anchor.START, bold=bold))
        y -= _HEADING_MM * model
    foot = box.bottom - (11.0 + _HEADING_MM * len(drawing.heading)) * model
    if drawing.scale_bar:
        items += scale_bar((box.left + 2 * model, foot), scale.ratio, scale.label, metric)
    if drawing.north is not None:
        right = max(box.right, box.left + 75.0 * model)
        items += north_arrow((right - 6 * model, foot + model), drawing.north, scale.ratio)
    return tuple(items)


def _fitting(
    drawing: Drawing, width: float, height: float, scales: tuple[Scale, ...]
) -> tuple[Scale, tuple[Item, ...], Box]:
    ordered = sorted(drawing.items, key=lambda item: isinstance(item, ANNOTATIONS))

    def share(items: Iterable[Item], ratio: float) -> tuple[float, Box]:
        box = _extent((p for item in items for p in exploded(item, ratio)), ratio)
        if box is None:
            raise DrawingError(f"the drawing {drawing.title!r} has a coordinate that is no finite number")
        paper = MM_PER_INCH * ratio
        return max((box.right - box.left) * paper / width, (box.top - box.bottom) * paper / height), box

    last = scales[-1].ratio
    made = (Scale(last * 0.8**n, "not to a standard scale") for n in range(1, _STANDARD_TRIES))
    for scale in (*scales, *made):
        if share(ordered, scale.ratio)[0] > 1.0:
            continue
        items = placed(together(ordered, scale.ratio), scale.ratio, (width, height))
        taken, box = share(items, scale.ratio)
        if taken <= 1.0:
            return scale, items, box
    raise DrawingError(f"the drawing {drawing.title!r} does not fit its sheet at any scale")


def _extent(items: Iterable[Plain], ratio: float) -> Box | None:
    """Model inches the items take, texts included; None where a coordinate is no finite number."""
    paper = MM_PER_INCH * ratio
    points: list[Point] = []
    for item in items:
        match item:
            case Line():
                points += [item.start, item.end]
            case Polyline() | Polygon():
                points += item.points
            case Circle() | Arc():
                (x, y), r = item.centre, item.radius
                points += [(x - r, y - r), (x + r, y + r)]
            case Text():
                points += [(x / paper, y / paper) for x, y in text_box(item, ratio).corners]
    if not all(math.isfinite(number) for point in points for number in point):
        return None
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Box(min(xs), min(ys), max(xs), max(ys))
