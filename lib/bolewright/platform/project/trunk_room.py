"""What the file says of the room round living wood: how an opening at a trunk is closed, limbs and leaning trunks."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bolewright.platform.project.fields import Height, Mark, Measure, Point, Rated, Small, Strict, Text
from bolewright.units import INCH, INCH_PER_YEAR


class TrunkOpening(Strict):
    """How the opening of the deck round a trunk, or a limb that passes through it, is closed for feet and children.

    A "collar" lies loose on the deck and is pushed aside, a "mesh" is slack, "boards" are cut to the gap and end there.
    """

    mark: Mark
    """Short name of the opening on sheets and drawings (common practice)."""
    around: Mark
    """Mark of the tree or limb that passes through it (common practice)."""
    cover: Literal["collar", "mesh", "boards"]
    """A loose collar on the deck, a slack mesh, or boards cut to the gap (common practice)."""
    gap: Annotated[float, Measure(INCH, least=0, most=24)] | None = None
    """Widest gap from the bark to the cover's edge, at rest; empty for boards: the opening's (common practice)."""
    overlap: Annotated[float, Measure(INCH, least=0, most=36)] | None = None
    """How far a collar lies on the deck on every side, or how much a mesh gives to one side (common practice)."""
    rated_load: Rated | None = None
    """Load of one person that the cover bears, off its maker's sheet or its own calculation."""
    note: Text = ""
    """Where that rating of the maker's is printed."""


class Limb(Strict):
    """A limb, a fork or a leaning or tapering trunk beside the platform, straight between two places along its axis."""

    mark: Mark
    """Short name of the limb on sheets and drawings (common practice)."""
    tree: Mark
    """Mark of the tree it belongs to (common practice)."""
    start: Annotated[Point, Field(alias="from")]
    """Its axis at one place, in plan: x, y (common practice)."""
    start_level: Height
    """Level of that place above grade (common practice)."""
    end: Annotated[Point, Field(alias="to")]
    """Its axis at another place, in plan: lean and taper are between the two (common practice)."""
    end_level: Height
    """Level of the other place above grade (common practice)."""
    start_diameter: Annotated[float, Measure(INCH, positive=True, most=120)]
    """Diameter over the bark at the one place (common practice)."""
    end_diameter: Annotated[float, Measure(INCH, positive=True, most=120)]
    """Diameter over the bark at the other place (common practice)."""
    sway: Small | None = None
    """Movement to one side in strong wind at its place nearest to the platform, as seen (common practice)."""
    growth: Annotated[float, Measure(INCH_PER_YEAR, positive=True, most=1)] | None = None
    """Growth of its radius in a year; empty for that of its tree (common practice)."""
