"""A small drawing model: frozen primitives in model inches, sizes of text and symbols in paper millimetres.

Nothing here knows SVG or DXF. A backend lays a drawing out at a scale (:mod:`bolewright.rendering.laying`), asks
:func:`bolewright.rendering.annotations.exploded` for the plain lines and texts of dimensions, marks and leaders,
and draws Line, Polyline, Polygon, Circle, Arc and Text.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

Point = tuple[float, float]

MM_PER_INCH = 25.4
MIN_TEXT_MM = 2.0


class Layer(Enum):
    """What a primitive stands for; the value is the layer's name in exchange files."""

    OUTLINE = "outline"
    HIDDEN = "hidden"
    CENTRE = "centre"
    TRUNK = "trunk"
    BOLTS = "bolts"
    DECKING = "decking"
    JOISTS = "joists"
    BLOCKING = "blocking"
    BEAMS = "beams"
    POSTS = "posts"
    FOOTINGS = "footings"
    BRACES = "braces"
    STAIRS = "stairs"
    HARDWARE = "hardware"
    GUARD = "guard"
    GROUND = "ground"
    LOADS = "loads"
    HIGHLIGHT = "highlighted"
    MARKS = "marks"
    DIMENSIONS = "dimensions"
    NOTES = "notes"


class Pen(Enum):
    """Line type."""

    SOLID = "solid"
    DASHED = "dashed"
    CENTRE = "centre"
    NONE = "none"


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
    TRUNK = "trunk"
    STEEL = "steel"
    HIGHLIGHT = "highlighted"


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
    """Closed shape, filled by name or with a ``colour``; later items are drawn over earlier ones."""

    points: tuple[Point, ...]
    layer: Layer = Layer.OUTLINE
    fill: Fill = Fill.NONE
    pen: Pen = Pen.SOLID
    colour: str = ""


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

    ``at`` is the end or middle of its centre line; ``shift`` moves it on paper, millimetres right and up. ``fixed``
    keeps it there, such as in its box, whatever else it lies on.
    """

    at: Point
    text: str
    height: float = 2.5
    anchor: Anchor = Anchor.MIDDLE
    rotation: float = 0.0
    layer: Layer = Layer.NOTES
    bold: bool = False
    shift: Point = (0.0, 0.0)
    fixed: bool = False


@dataclass(frozen=True)
class Dimension:
    """Aligned dimension from ``start`` to ``end``.

    ``offset`` is the distance of the dimension line in paper millimetres, to the left of the way from start
    to end where positive. ``text_at`` is where the text stands, millimetres along from the middle of the dimension
    line and to its left; None puts it over the line, or beside it where it is too short. ``flat`` writes it level,
    beside an upright dimension, on the side away from what is measured: for chains of short spaces.
    """

    start: Point
    end: Point
    text: str
    offset: float = 8.0
    layer: Layer = Layer.DIMENSIONS
    text_at: Point | None = None
    flat: bool = False


@dataclass(frozen=True)
class Mark:
    """A part's mark (J3, C1, P2) in a bubble of ``radius`` paper millimetres.

    ``along`` are other places on the part where the bubble may stand instead.
    """

    at: Point
    text: str
    radius: float = 3.0
    layer: Layer = Layer.MARKS
    shift: Point = (0.0, 0.0)
    along: tuple[Point, ...] = ()


@dataclass(frozen=True)
class Leader:
    """A note with a line and a dot at what it speaks of; ``shift`` in paper millimetres places the note.

    ``along`` are other places on it where the dot may stand instead.
    """

    to: Point
    text: str
    shift: Point = (8.0, 8.0)
    layer: Layer = Layer.NOTES
    along: tuple[Point, ...] = ()


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
    describes the drawing to a reader who can't see it. ``heading`` are lines that stand on the drawing itself, the
    first as its title.
    """

    title: str
    items: tuple[Item, ...]
    alt: str
    north: float | None = None
    scale_bar: bool = True
    heading: tuple[str, ...] = ()
