"""What is measured on the day: parts as built, readings below a line, a trunk's outline."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from bolewright.platform.project.fields import Mark, Measure, Point, Size, Strict, Text
from bolewright.units import INCH


class AsBuilt(Strict):
    """What was really built or measured at one part; what is left out is as planned.

    A bolt: ``projection``, ``level``, ``embedment``. A post: ``at``, ``level`` of its cut top, ``hole``, size. A joist
    or beam: ``depth`` and ``width`` as the tape reads them. The checks are run again with it.
    """

    mark: Mark
    """Mark of the support, joist or beam (common practice)."""
    at: Point | None = None
    """Where a support really stands, in plan: x, y (common practice)."""
    projection: Annotated[float, Measure(INCH, positive=True, most=48)] | None = None
    """From the bark to the middle of the bearing on a tree bolt, along the bolt (common practice)."""
    level: Annotated[float, Measure(INCH, least=-24, most=24)] | None = None
    """How far the seat lies above its planned level; below it is negative (common practice)."""
    embedment: Annotated[float, Measure(INCH, least=0.5, most=40)] | None = None
    """Thread in sound wood that a tree bolt reached (common practice: tape down the hole before it goes in)."""
    hole: Annotated[float, Measure(INCH, positive=True, most=120)] | None = None
    """Depth of the footing's underside that was reached, such as before rock (IRC 2021, R403.1.4)."""
    depth: Annotated[float, Measure(INCH, least=2, most=30)] | None = None
    """Depth of a joist, beam or post as measured (NDS Supplement 2018, Table 1A has the planned one)."""
    width: Annotated[float, Measure(INCH, least=0.5, most=12)] | None = None
    """Thickness of one ply, or width of a post, as measured (NDS Supplement 2018, Table 1A has the planned one)."""
    note: Text = ""
    """Who measured it, and when (common practice)."""


class Reading(Strict):
    """A reading of the day: how far a point lies below a level line (string, water level or instrument).

    A tree bolt's mark is for its seat, a post's for the concrete its foot stands on, ``GRADE`` for the peg at the
    planned grade. All readings are from one line.
    """

    mark: Mark
    """Mark of the bolt or post, or GRADE (common practice)."""
    below_line: Annotated[float, Measure(INCH, least=-480, most=480)]
    """From the level line down to the point; negative when the point lies above it (common practice)."""


class TrunkOutline(Strict):
    """The outline of a trunk's bark at the floor: points in plan, or widths across at stations round the girth.

    ``widths``: divide the girth in twice as many equal stations as there are widths, the first on the side of +x
    and then counter-clockwise; each is the width across from a station to the one opposite.
    """

    tree: Mark
    """Mark of the tree (common practice)."""
    points: Annotated[tuple[Point, ...], Field(max_length=60)] = ()
    """Points of the bark in order round the trunk, in plan: x, y (common practice)."""
    widths: Annotated[tuple[Size, ...], Field(max_length=30)] = ()
    """Widths across the trunk, from each station to the one opposite (common practice: by calipers or two boards)."""
