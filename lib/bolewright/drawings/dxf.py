"""A drawing as DXF: full size in model space, one layer for each kind of part, real dimensions.

Dimensions are DIMENSION entities with the drawing's own words as text; marks, leaders and arrows are lines, circles
and texts. Fills are left out, only outlines are drawn. The same drawing gives the same bytes.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterator
from contextlib import contextmanager

from ezdxf import options, units  # type: ignore[attr-defined]
from ezdxf.document import Drawing as Document
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace

from bolewright.drawings.measures import Measures
from bolewright.rendering.annotations import DIMENSION_TEXT_MM, exploded, text_length
from bolewright.rendering.drawing import (
    MIN_TEXT_MM,
    MM_PER_INCH,
    Anchor,
    Arc,
    Circle,
    Dimension,
    Drawing,
    Layer,
    Line,
    Pen,
    Plain,
    Point,
    Polygon,
    Polyline,
    Text,
)
from bolewright.rendering.laying import PAGE_WIDTH_MM, LaidOut, lay_out

VERSION = "R2010"
_DIGITS = 9  # decimals of a place: the last ones of a sum differ between versions of Python and its libraries
DIMENSION_STYLE = "BUILDER"
_COLOUR = {  # indexed colours of the format
    Layer.TRUNK: 34,
    Layer.BOLTS: 5,
    Layer.DECKING: 41,
    Layer.JOISTS: 30,
    Layer.BLOCKING: 34,
    Layer.STAIRS: 32,
    Layer.BEAMS: 20,
    Layer.POSTS: 16,
    Layer.BRACES: 94,
    Layer.HARDWARE: 5,
    Layer.FOOTINGS: 8,
    Layer.GROUND: 46,
    Layer.DIMENSIONS: 8,
    Layer.HIDDEN: 8,
    Layer.CENTRE: 8,
}
_LINETYPE = {Pen.DASHED: "DASHED", Pen.CENTRE: "CENTER"}
_ALIGN = {
    Anchor.START: TextEntityAlignment.MIDDLE_LEFT,
    Anchor.MIDDLE: TextEntityAlignment.MIDDLE_CENTER,
    Anchor.END: TextEntityAlignment.MIDDLE_RIGHT,
}


def dxf_bytes(drawing: Drawing, measures: Measures = Measures.IMPERIAL, height: float = 190.0) -> bytes:
    """DXF of a drawing in inches, or in millimetres; texts are as high as they print at the drawing's scale."""
    laid_out = lay_out(drawing, PAGE_WIDTH_MM, height, measures.scales)
    with _fixed_meta_data():
        document = new(VERSION, setup=True)
        _Writer(document, laid_out, measures).write()
        for kind in sorted(
            document.entitydb.dxf_types_in_use()
        ):  # a set: written in its order, each run has another
            document.classes.add_class(kind)
        stream = io.StringIO()
        document.write(stream)
    return stream.getvalue().encode(document.output_encoding, errors="dxfreplace")


@contextmanager
def _fixed_meta_data() -> Iterator[None]:
    """No time and no random identity in the file, so that the same drawing gives the same bytes."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


class _Writer:
    def __init__(self, document: Document, laid_out: LaidOut, measures: Measures) -> None:
        self.document, self.laid_out = document, laid_out
        self.space: Modelspace = document.modelspace()
        self.ratio = laid_out.scale.ratio
        self.unit = 1.0 if measures is Measures.IMPERIAL else MM_PER_INCH
        self.paper = self.unit / (MM_PER_INCH * self.ratio)  # drawing units in a paper millimetre
        document.units = units.IN if measures is Measures.IMPERIAL else units.MM
        document.header["$MEASUREMENT"] = 0 if measures is Measures.IMPERIAL else 1
        document.header["$LTSCALE"] = 2.0 * self.paper

    def write(self) -> None:
        for layer in Layer:
            self.document.layers.add(layer.value, color=_COLOUR.get(layer, 7))
        self._style()
        for item in self.laid_out.items:
            if isinstance(item, Dimension):
                self._dimension(item)
            else:
                for plain in exploded(item, self.ratio):
                    self._plain(plain)

    def _style(self) -> None:
        style = self.document.dimstyles.new(DIMENSION_STYLE)
        style.dxf.dimtxt = DIMENSION_TEXT_MM * self.paper
        style.dxf.dimtsz = 1.0 * self.paper
        style.dxf.dimexo = 1.2 * self.paper
        style.dxf.dimexe = 1.2 * self.paper
        style.dxf.dimgap = 0.7 * self.paper
        style.dxf.dimtad = 1
        style.dxf.dimscale = 1.0

    def _dimension(self, item: Dimension) -> None:
        if math.dist(item.start, item.end) == 0:
            return
        builder = self.space.add_aligned_dim(
            p1=self._at(item.start),
            p2=self._at(item.end),
            distance=item.offset * self.paper,
            text=item.text,
            dimstyle=DIMENSION_STYLE,
            dxfattribs={"layer": item.layer.value},
        )
        text = next(part for part in exploded(item, self.ratio) if isinstance(part, Text))
        x, y = self._at(text.at)
        if item.flat:
            half = text_length(text) / 2 * self.paper
            builder.dimension.dxf.text_rotation = 0.0
            x += half if text.anchor is Anchor.START else -half
        builder.set_location((x, y))
        builder.render()

    def _at(self, point: Point) -> Point:
        return (round(point[0] * self.unit, _DIGITS), round(point[1] * self.unit, _DIGITS))

    def _plain(self, item: Plain) -> None:
        attributes: dict[str, object] = {"layer": item.layer.value}
        if not isinstance(item, Text):
            if item.pen is Pen.NONE:
                return
            if item.pen in _LINETYPE:
                attributes["linetype"] = _LINETYPE[item.pen]
        match item:
            case Line():
                self.space.add_line(self._at(item.start), self._at(item.end), attributes)
            case Polyline() | Polygon():
                points = [self._at(p) for p in item.points]
                self.space.add_lwpolyline(points, close=isinstance(item, Polygon), dxfattribs=attributes)
            case Circle():
                self.space.add_circle(self._at(item.centre), item.radius * self.unit, attributes)
            case Arc():
                centre, radius = self._at(item.centre), item.radius * self.unit
                self.space.add_arc(centre, radius, item.start, item.end, dxfattribs=attributes)
            case Text():
                x, y = self._at(item.at)
                at = (
                    round(x + item.shift[0] * self.paper, _DIGITS),
                    round(y + item.shift[1] * self.paper, _DIGITS),
                )
                height = max(item.height, MIN_TEXT_MM) * self.paper
                text = self.space.add_text(
                    item.text, height=height, rotation=item.rotation, dxfattribs=attributes
                )
                text.set_placement(at, align=_ALIGN[item.anchor])
