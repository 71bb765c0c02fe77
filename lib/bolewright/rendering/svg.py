"""A drawing as SVG, to a builder's scale, the same bytes every time; text stays text."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ET
from collections.abc import Iterable

from bolewright.rendering import palette
from bolewright.rendering.annotations import CAP_HEIGHT, exploded
from bolewright.rendering.drawing import (
    MIN_TEXT_MM,
    MM_PER_INCH,
    Arc,
    Circle,
    Dimension,
    Drawing,
    Fill,
    Item,
    Layer,
    Line,
    Mark,
    Pen,
    Plain,
    Point,
    Polygon,
    Polyline,
    Text,
)
from bolewright.rendering.laying import (
    IMPERIAL_SCALES,
    MARGIN_MM,
    PAGE_HEIGHT_MM,
    PAGE_WIDTH_MM,
    Box,
    LaidOut,
    Scale,
    lay_out,
)

FONT_FAMILY = "Libertinus Serif, Georgia, serif"

_STROKE_MM = {
    Layer.OUTLINE: 0.35,
    Layer.BOLTS: 0.4,
    Layer.BEAMS: 0.35,
    Layer.POSTS: 0.35,
    Layer.JOISTS: 0.25,
    Layer.BLOCKING: 0.25,
    Layer.STAIRS: 0.25,
    Layer.HIGHLIGHT: 0.5,
    Layer.GUARD: 0.35,
    Layer.LOADS: 0.35,
    Layer.DIMENSIONS: 0.13,
    Layer.MARKS: 0.18,
    Layer.NOTES: 0.15,
    Layer.HIDDEN: 0.18,
    Layer.CENTRE: 0.13,
}
_COLOUR = {
    Layer.HIGHLIGHT: palette.HIGHLIGHT,
    Layer.LOADS: palette.ACCENT,
    Layer.DIMENSIONS: palette.SOFT_INK,
    Layer.HIDDEN: palette.SOFT_INK,
    Layer.CENTRE: palette.SOFT_INK,
}
_DASH = {Pen.DASHED: "1.6 1", Pen.CENTRE: "4 0.8 0.8 0.8"}
_FLAT = {
    Fill.NONE: "none",
    Fill.PAPER: palette.PAPER,
    Fill.WASH: palette.WASH,
    Fill.TIMBER: "#efe6d6",
    Fill.TRUNK: "#e3ddd2",
    Fill.STEEL: palette.INK,
    Fill.HIGHLIGHT: "#f3cfb4",
}


def to_svg(
    drawing: Drawing,
    width: float = PAGE_WIDTH_MM,
    height: float = PAGE_HEIGHT_MM,
    scales: tuple[Scale, ...] = IMPERIAL_SCALES,
) -> str:
    """SVG of a drawing at the largest of ``scales`` at which it fits ``width`` by ``height`` millimetres.

    The size is what the drawing takes at that scale, the root carries title and description. Raises
    :class:`~bolewright.rendering.laying.DrawingError`.
    """
    return svg_of(lay_out(drawing, width, height, scales))


def svg_of(laid_out: LaidOut) -> str:
    """SVG of a drawing that is laid out; each dimension and mark is a group of that class."""
    return _Writer(laid_out.drawing, laid_out.scale.ratio, laid_out.box).write(laid_out.items)


class _Writer:
    """Writes plain primitives as SVG elements, one user unit a paper millimetre."""

    def __init__(self, drawing: Drawing, ratio: float, box: Box) -> None:
        self.paper = MM_PER_INCH * ratio
        self.box = box
        width = (box.right - box.left) * self.paper + 2 * MARGIN_MM
        height = (box.top - box.bottom) * self.paper + 2 * MARGIN_MM
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
        self.parent = self.root
        self.defs = ET.SubElement(self.root, "defs")

    def write(self, items: Iterable[Item]) -> str:
        for item in items:
            group = "dimension" if isinstance(item, Dimension) else "mark" if isinstance(item, Mark) else ""
            self.parent = ET.SubElement(self.root, "g", {"class": group}) if group else self.root
            for plain in exploded(item, self.paper / MM_PER_INCH):
                self._plain(plain)
        for fill in sorted(self.patterns, key=lambda fill: fill.value):
            _pattern(self.defs, fill)
        if not self.patterns:
            self.root.remove(self.defs)
        ET.indent(self.root, " ")
        return ET.tostring(self.root, encoding="unicode") + "\n"

    def _plain(self, item: Plain) -> None:
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
                self._add("circle", item, cx=_number(x), cy=_number(y), r=_number(item.radius * self.paper))
            case Arc():
                self._add("path", item, d=self._arc(item))
            case Text():
                self._text(item)

    def _at(self, point: Point) -> Point:
        return (
            (point[0] - self.box.left) * self.paper + MARGIN_MM,
            (self.box.top - point[1]) * self.paper + MARGIN_MM,
        )

    def _points(self, points: tuple[Point, ...]) -> str:
        return " ".join(f"{_number(x)},{_number(y)}" for x, y in map(self._at, points))

    def _add(self, tag: str, item: Line | Polyline | Polygon | Circle | Arc, **attributes: str) -> None:
        look = {
            "fill": self._fill(item.fill) if isinstance(item, Polygon | Circle) else "none",
            "stroke": "none" if item.pen is Pen.NONE else _COLOUR.get(item.layer, palette.INK),
            "stroke-width": _number(_stroke(item.layer, item.pen)),
            "stroke-linejoin": "round",
        }
        if isinstance(item, Polygon) and item.colour:
            look["fill"] = item.colour
            if item.pen is Pen.NONE:  # no seam between faces that meet
                look |= {"stroke": item.colour, "stroke-width": "0.15"}
        if _DASH.get(item.pen):
            look["stroke-dasharray"] = _DASH[item.pen]
        ET.SubElement(self.parent, tag, attributes | look)

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
        size = height / CAP_HEIGHT
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
        ET.SubElement(self.parent, "text", attributes).text = item.text


def _stroke(layer: Layer, pen: Pen) -> float:
    """Width of a line (mm); broken lines are thin."""
    width = _STROKE_MM.get(layer, 0.25)
    return width if pen in (Pen.SOLID, Pen.NONE) else min(width, 0.2)


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
