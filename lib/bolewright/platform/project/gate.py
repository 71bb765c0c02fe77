"""What the file says of a gate in a guard: where it is, on which post it hangs, its leaf and what holds it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StrictBool, StrictInt

from bolewright.platform.project.fields import Mark, Measure, Name, Rated, Text
from bolewright.platform.project.timber import Timber
from bolewright.units import INCH


class Gate(Timber):
    """A gate in the guard of an edge: the guard leaves room for it by itself, and its leaf is filled as the guard is.

    Its frame is of ``section``, on edge: two rails, two stiles, and a brace from the lower hinge up to the free edge.
    """

    section: Name = "2x4"
    """Size of the leaf's frame and brace (common practice: 2x4)."""
    mark: Mark = "GT"
    """Short name of the gate (common practice)."""
    edge: Annotated[StrictInt, Field(ge=1, le=60)]
    """Number of the outline's edge it stands on, edge 1 from the first corner to the second (common practice)."""
    along: Annotated[float, Measure(INCH, least=0, most=2400)] | None = None
    """How far its middle is from the edge's first corner; empty: before the ladder, or mid-edge (common practice)."""
    width: Annotated[float, Measure(INCH, least=12, most=72)] = 30.0
    """Width of the way between the ends of the guard (common practice; no less than the ladder or stairs behind)."""
    hung: Literal["start", "end"] = "start"
    """Whether it hangs on the post nearer to the edge's first corner (start) or second (end) (common practice)."""
    swing: Literal["over the deck", "outward"] = "over the deck"
    """Which way it opens: over the deck, away from the drop (common practice)."""
    self_closing: StrictBool = False
    """Whether springs or sloped hinges close it by themselves (OSHA 1910.29(b)(13) at ladders; common practice)."""
    hinge_spacing: Annotated[float, Measure(INCH, least=8, most=60)] = 24.0
    """Distance of its two hinges from each other (common practice)."""
    hinge: Rated | None = None
    """Rated load of each hinge with its screws, in any direction, off its maker's sheet."""
    latch: Rated | None = None
    """Rated load of the latch, pushed outward, off its maker's sheet."""
    on_wheel: StrictBool | None = None
    """Whether a wheel on the deck bears its free edge; empty: where wheel rates one (common practice)."""
    wheel: Rated | None = None
    """Rated load of that wheel, off its maker's sheet; without a wheel the leaf hangs on its hinges alone."""
    brace_fastening: Rated | None = None
    """Rated load of what fastens each end of the leaf's brace, off its maker's sheet; not asked with a wheel."""
    hardware_note: Text = ""
    """Where these ratings are printed (maker's sheet)."""
    side_gap: Annotated[float, Measure(INCH, least=0, most=12)] = 0.75
    """Gap between the leaf and the guard on each side (IRC 2021, R312.1.3: less than 4 in)."""
    bottom_gap: Annotated[float, Measure(INCH, least=0, most=12)] = 2.0
    """Gap between the deck and the leaf (IRC 2021, R312.1.3: less than 4 in)."""
    note: Text = ""
    """What else is to be said of it (common practice)."""

    @property
    def wheeled(self) -> bool:
        """Whether a wheel bears its free edge."""
        return self.wheel is not None if self.on_wheel is None else self.on_wheel
