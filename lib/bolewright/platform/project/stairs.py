"""What the file says of stairs: set out, not calculated."""

from __future__ import annotations

from typing import Annotated

from bolewright.platform.project.fields import Measure, Strict
from bolewright.units import INCH


class Stairs(Strict):
    """Stairs from the ground to the floor; set out on the deck's sheet where the level of their foot is given."""

    foot: Annotated[float, Measure(INCH, least=-240, most=240)] | None = None
    """Level of the landing at their foot above grade, minus below; empty: no stairs (common practice)."""
    highest_riser: Annotated[float, Measure(INCH, least=4, most=9)] = 7.75
    """Highest riser allowed (IRC 2021, R311.7.5.1: 7 3/4 in)."""
    tread_run: Annotated[float, Measure(INCH, least=9, most=20)] = 10.0
    """Depth of a tread from nosing to nosing (IRC 2021, R311.7.5.2: at least 10 in)."""
    tread: Annotated[float, Measure(INCH, least=0.5, most=4)] = 1.5
    """Thickness of a tread (common practice)."""
    stringer_depth: Annotated[float, Measure(INCH, least=7, most=16)] = 11.25
    """Depth of the timber that the stringers are cut from (common practice: a 2x12)."""
