"""A drawing as SVG, to a builder's scale, the same bytes every time; text stays text."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ET
from collections.abc import Iterable
from dataclasses import dataclass

from bolewright.rendering import palette
from bolewright.rendering.drawing import (
    MIN_TEXT_MM,
    MM_PER_INCH,
    Anchor,
    Arc,
    Arrow,
    Circle,
    Dimension,
    Drawing,
    Fill,
    Layer,
    Leader,
    Line,
    Mark,
    Pen,
    Plain,
    Point,
    Polygon,
    Polyline,
    Text,
    exploded,
    north_arrow,
    scale_bar,
    text_length,
)

FONT_FAMILY = "Libertinus Serif, Georgia, serif"
PAGE_WIDTH_MM = 177.0
PAGE_HEIGHT_MM = 150.0
_MARGIN_MM = 2.0
_STRIP_MM = 16.0


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
METRIC_SCALES = tuple(Scale(1 / ratio, f"1 : {ratio}") for ratio in (5, 10, 20, 25, 50, 100, 200))

_ANNOTATIONS = (Text, Dimension, Mark, Leader, Arrow)
_STROKE_MM = {
    Layer.OUTLINE: 0.35,
    Layer.BOLTS: 0.4,
    Layer.CARRIERS: 0.35,
    Layer.POSTS: 0.35,
    Layer.JOISTS: 0.25,
    Layer.LIT: 0.5,
    Layer.LOADS: 0.35,
    Layer.DIMENSIONS: 0.13,
    Layer.MARKS: 0.18,
    Layer.NOTES: 0.15,
    Layer.HIDDEN: 0.18,
    Layer.CENTRE: 0.13,
}
_COLOUR = {
    Layer.LIT: palette.LIT,
    Layer.LOADS: palette.ACCENT,
    Layer.DIMENSIONS: palette.SOFT_INK,
    Layer.HIDDEN: palette.SOFT_INK,
    Layer.CENTRE: palette.SOFT_INK,
}
_DASH = {Pen.SOLID: "", Pen.DASHED: "1.6 1", Pen.CENTRE: "4 0.8 0.8 0.8"}
_FLAT = {
    Fill.NONE: "none",
    Fill.PAPER: palette.PAPER,
    Fill.WASH: palette.WASH,
    Fill.TIMBER: "#efe6d6",
    Fill.STEM: "#e3ddd2",
    Fill.STEEL: palette.INK,
    Fill.LIT: "#f3cfb4",
}


class DrawingError(ValueError):
    """A drawing that can't be laid out; one sentence."""


def to_svg(
    drawing: Drawing,
    width: float = PAGE_WIDTH_MM,
    height: float = PAGE_HEIGHT_MM,
    scales: tuple[Scale, ...] = IMPERIAL_SCALES,
) -> str:
    """SVG of a drawing at the largest of ``scales`` at which it fits ``width`` by ``height`` millimetres.

    Annotations (texts, dimensions, marks, leaders, arrows) are drawn over everything else. The size is what
    the drawing takes at that scale, the root carries title and description. Where no scale fits, a
    scale is made that does, and the drawing says "not to a standard scale". Raises :class:`DrawingError` for
    a drawing without items or with a coordinate that is no number.
    """
    if not drawing.items:
        raise DrawingError(f"the drawing {drawing.title!r} is empty")
    strip = _STRIP_MM if drawing.scale_bar or drawing.north is not None else 0.0
    scale, box = _fitting(drawing, width - 2 * _MARGIN_MM, height - 2 * _MARGIN_MM - strip, scales)
    metric = scales is METRIC_SCALES
    ordered = sorted(drawing.items, key=lambda item: isinstance(item, _ANNOTATIONS))
    items = [plain for item in ordered for plain in exploded(item, scale.ratio)]
    model = 1 / (MM_PER_INCH * scale.ratio)
    if strip:
        foot = box.bottom - 11.0 * model
        if drawing.scale_bar:
            items += scale_bar((box.left + 2 * model, foot), scale.ratio, scale.label, metric)
        if drawing.north is not None:
            items += north_arrow((box.right - 6 * model, foot + 1 * model), drawing.north, scale.ratio)
        box = _Box(box.left, box.bottom - strip * model, box.right, box.top)
        around = _extent(items, scale.ratio)
        box = box.around(around) if around else box
    return _Writer(drawing, scale.ratio, box).write(items)


@dataclass(frozen=True)
class _Box:
    left: float
    bottom: float
    right: float
    top: float

    def around(self, other: _Box) -> _Box:
        return _Box(
            min(self.left, other.left),
            min(self.bottom, other.bottom),
            max(self.right, other.right),
            max(self.top, other.top),
        )


def _fitting(drawing: Drawing, width: float, height: float, scales: tuple[Scale, ...]) -> tuple[Scale, _Box]:
    def taken(ratio: float) -> tuple[_Box, float]:
        box = _extent((p for item in drawing.items for p in exploded(item, ratio)), ratio)
        if box is None:
            raise DrawingError(f"the drawing {drawing.title!r} has a coordinate that is no finite number")
        paper = MM_PER_INCH * ratio
        return box, max((box.right - box.left) * paper / width, (box.top - box.bottom) * paper / height)

    for scale in scales:
        box, share = taken(scale.ratio)
        if share <= 1:
            return scale, box
    ratio = scales[-1].ratio
    for _ in range(40):
        ratio *= 0.8
        box, share = taken(ratio)
        if share <= 1:
            return Scale(ratio, "not to a standard scale"), box
    raise DrawingError(f"the drawing {drawing.title!r} does not fit its sheet at any scale")


def _extent(items: Iterable[Plain], ratio: float) -> _Box | None:
    """Model inches the items take, texts included; None where a coordinate is no finite number."""
    model = 1 / (MM_PER_INCH * ratio)
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
                points += _corners(item, model)
    if not all(math.isfinite(number) for point in points for number in point):
        return None
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return _Box(min(xs), min(ys), max(xs), max(ys))


def _corners(item: Text, model: float) -> list[Point]:
    length = text_length(item)
    left = {Anchor.START: 0.0, Anchor.MIDDLE: -length / 2, Anchor.END: -length}[item.anchor]
    angle = math.radians(item.rotation)
    x, y = item.at[0] + item.shift[0] * model, item.at[1] + item.shift[1] * model
    return [
        (
            x + model * (on * math.cos(angle) - up * math.sin(angle)),
            y + model * (on * math.sin(angle) + up * math.cos(angle)),
        )
        for on in (left, left + length)
        for up in (-0.6 * item.height, 0.6 * item.height)
    ]


class _Writer:
    """Writes plain primitives as SVG elements, one user unit a paper millimetre."""

    def __init__(self, drawing: Drawing, ratio: float, box: _Box) -> None:
        self.paper = MM_PER_INCH * ratio
        self.box = box
        width = (box.right - box.left) * self.paper + 2 * _MARGIN_MM
        height = (box.top - box.bottom) * self.paper + 2 * _MARGIN_MM
        self.root = ET.Element(
            "svg",
            {
                "xmlns": "http://www.w3.org/2000/svg",
                "width": f"{_number(width)}mm",
                "height": f"{_number(height)}mm",
                "viewBox": f"0 0 {_number(width)} {_number(height)}",
                "role": "img",
                "font-family": FONT_FAMILY,
            },
        )
        ET.SubElement(self.root, "title").text = drawing.title
        ET.SubElement(self.root, "desc").text = drawing.alt
        self.patterns: set[Fill] = set()
        self.defs = ET.SubElement(self.root, "defs")

    def write(self, items: list[Plain]) -> str:
        for item in items:
            match item:
                case Line():
                    (x1, y1), (x2, y2) = self._at(item.start), self._at(item.end)
                    ends = {"x1": x1, "y1": y1, "x2": x2, "y2": y2}
                    self._add("line", item, **{key: _number(value) for key, value in ends.items()})
                case Polyline():
                    self._add("polyline", item, points=self._points(item.points))
                case Polygon():
                    self._add("polygon", item, points=self._points(item.points))
                case Circle():
                    x, y = self._at(item.centre)
                    self._add(
                        "circle", item, cx=_number(x), cy=_number(y), r=_number(item.radius * self.paper)
                    )
                case Arc():
                    self._add("path", item, d=self._arc(item))
                case Text():
                    self._text(item)
        for fill in sorted(self.patterns, key=lambda fill: fill.value):
            _pattern(self.defs, fill)
        if not self.patterns:
            self.root.remove(self.defs)
        ET.indent(self.root, " ")
        return ET.tostring(self.root, encoding="unicode") + "\n"

    def _at(self, point: Point) -> Point:
        return (
            (point[0] - self.box.left) * self.paper + _MARGIN_MM,
            (self.box.top - point[1]) * self.paper + _MARGIN_MM,
        )

    def _points(self, points: tuple[Point, ...]) -> str:
        return " ".join(f"{_number(x)},{_number(y)}" for x, y in map(self._at, points))

    def _add(self, tag: str, item: Line | Polyline | Polygon | Circle | Arc, **attributes: str) -> None:
        look = {
            "fill": self._fill(item.fill) if isinstance(item, Polygon | Circle) else "none",
            "stroke": _COLOUR.get(item.layer, palette.INK),
            "stroke-width": _number(_STROKE_MM.get(item.layer, 0.25)),
            "stroke-linejoin": "round",
        }
        if _DASH[item.pen]:
            look["stroke-dasharray"] = _DASH[item.pen]
        ET.SubElement(self.root, tag, attributes | look)

    def _fill(self, fill: Fill) -> str:
        if fill in _FLAT:
            return _FLAT[fill]
        self.patterns.add(fill)
        return f"url(#{_pattern_id(fill)})"

    def _arc(self, item: Arc) -> str:
        sweep = (item.end - item.start) % 360
        ends = [
            self._at(
                (
                    item.centre[0] + item.radius * math.cos(math.radians(angle)),
                    item.centre[1] + item.radius * math.sin(math.radians(angle)),
                )
            )
            for angle in (item.start, item.start + sweep)
        ]
        (x1, y1), (x2, y2) = ends
        radius = _number(item.radius * self.paper)
        large = int(sweep > 180)
        return f"M{_number(x1)},{_number(y1)}A{radius},{radius} 0 {large} 0 {_number(x2)},{_number(y2)}"

    def _text(self, item: Text) -> None:
        x, y = self._at(item.at)
        x, y = x + item.shift[0], y - item.shift[1]
        height = max(item.height, MIN_TEXT_MM)
        size = height / 0.68  # cap height of the sheet's font is about 0.65 of its size
        attributes = {
            "x": _number(x),
            "y": _number(y + 0.5 * height * 0.96),
            "font-size": _number(size),
            "text-anchor": item.anchor.value,
            "fill": _COLOUR.get(item.layer, palette.INK),
            "stroke": palette.PAPER,
            "stroke-width": _number(0.18 * height),
            "stroke-linejoin": "round",
            "paint-order": "stroke",
        }
        if item.bold:
            attributes["font-weight"] = "bold"
        if item.rotation % 360:
            attributes["transform"] = f"rotate({_number(-item.rotation)} {_number(x)} {_number(y)})"
        ET.SubElement(self.root, "text", attributes).text = item.text


def _pattern_id(fill: Fill) -> str:
    return "fill-" + fill.value.replace(" ", "-")


def _pattern(defs: ET.Element, fill: Fill) -> None:
    side = 3.0
    pattern = ET.SubElement(
        defs,
        "pattern",
        {
            "id": _pattern_id(fill),
            "width": _number(side),
            "height": _number(side),
            "patternUnits": "userSpaceOnUse",
        },
    )
    ground = "#efe6d6" if fill is Fill.END_GRAIN else palette.WASH
    ET.SubElement(pattern, "rect", {"width": _number(side), "height": _number(side), "fill": ground})
    ink = {"stroke": palette.SOFT_INK, "stroke-width": "0.12", "fill": "none"}
    if fill in (Fill.SOIL, Fill.END_GRAIN):
        ET.SubElement(pattern, "path", {"d": "M0,3L3,0M-0.5,0.5L0.5,-0.5M2.5,3.5L3.5,2.5"} | ink)
    else:
        radius = "0.35" if fill is Fill.GRAVEL else "0.16"
        for x, y in (("0.7", "0.8"), ("2.2", "1.5"), ("1.1", "2.4")):
            ET.SubElement(pattern, "circle", {"cx": x, "cy": y, "r": radius} | ink)


def _number(value: float) -> str:
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
