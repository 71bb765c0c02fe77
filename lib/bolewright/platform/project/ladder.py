"""What the file says of a ladder or a ship's ladder: where it leads up, rails, rungs or treads, its head and foot."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field, StrictBool, StrictInt

from bolewright.platform.project.blocking import given_timber
from bolewright.platform.project.fields import Measure, Name, Rated, Size, Text
from bolewright.platform.project.timber import Timber
from bolewright.units import DEGREE, INCH

_TIMBER = ("species", "grade", "material")


class Ladder(Timber):
    """A ladder or ship's ladder: ``edge`` or ``opening`` alone places it, with usual sizes for what is not given.

    Rails, rungs and treads are of the joists' species and grade where none are given.
    """

    kind: Literal["ladder", "ship's ladder"] = "ladder"
    """A ladder with rungs, or a ship's ladder with treads and handrails (IRC 2021, R311.7.12)."""
    section: Name = "2x6"
    """Size of each of its two rails (common practice: 2x6)."""
    edge: Annotated[StrictInt, Field(ge=1, le=60)] | None = None
    """Number of the edge its head is fixed at, of the outline or of the opening (common practice)."""
    opening: Annotated[StrictInt, Field(ge=1, le=20)] | None = None
    """Number of the opening that it leads up through; empty: at the edge of the deck (common practice)."""
    along: Annotated[float, Measure(INCH, least=0, most=2400)] | None = None
    """How far its middle is from the edge's first corner; empty: half the edge's length (common practice)."""
    foot: Annotated[float, Measure(INCH, least=-240, most=240)] = 0.0
    """Level that it stands on above grade, minus below (common practice)."""
    clear: Annotated[float, Measure(INCH, least=8, most=48)] | None = None
    """Clear width between the rails; empty: 16 in, 20 in of a ship's ladder (OSHA 1910.23; IRC 2021, R311.7.12)."""
    pitch: Annotated[float, Measure(DEGREE, least=45, most=90)] | None = None
    """Slope of the rails from level; empty: 75 deg, at most 60 of a ship's ladder (OSHA 1910.23; IRC, R311.7.12)."""
    spacing: Annotated[float, Measure(INCH, least=6, most=18)] | None = None
    """Greatest rise from rung to rung; empty: 12 in, 9 1/2 in of a ship's ladder (OSHA 1910.23; IRC, R311.7.12)."""
    step: Name | None = None
    """Size of a rung or tread, laid flat; empty: 2x4, 2x10 of a ship's ladder (common practice)."""
    rung_diameter: Annotated[float, Measure(INCH, least=0.5, most=4)] | None = None
    """Diameter of round rungs, in place of a size; they count by their rating only (NDS has no value for dowels)."""
    rung_rating: Rated | None = None
    """Rated load at the middle of a round rung, off its maker's sheet."""
    step_fixing: Rated | None = None
    """Rated load of each end of a rung or tread in its rail: housed, on a cleat or a bracket, off its maker's sheet."""
    rails_over: Annotated[float, Measure(INCH, least=0, most=60)] | None = None
    """How far the rails run up over the floor; empty: open (OSHA 1910.23: 42 in; common practice: 36 in)."""
    rails_tied: StrictBool = False
    """Whether the rails over the floor are fastened to the guard beside them (common practice)."""
    grip: StrictBool = False
    """Whether grab bars or the edge of the hatch give hold in place of rails over the floor (common practice)."""
    grip_rating: Rated | None = None
    """Rated load of these grab bars with what fastens them, in any direction, off their maker's sheet."""
    head_fixing: Rated | None = None
    """Rated load of the fixing of each rail's head to the framing, in any direction, off its maker's sheet."""
    fixing_note: Text = ""
    """Where the maker's ratings of rungs and fixings are printed."""
    foot_fixed: StrictBool = False
    """Whether its foot is fixed and cannot slide as the platform moves (common practice: it slides)."""
    pad: Size | None = None
    """Side of the square pad under each rail, or of one under both (IRC 2021, R403.1)."""
    closed_by: Literal["gate", "hatch", "chain"] | None = None
    """What closes its head, so that nobody walks off there (OSHA 1910.29; common practice)."""
    handrail_height: Annotated[float, Measure(INCH, least=20, most=60)] | None = None
    """Height of the handrails on both sides of a ship's ladder over its treads (IRC 2021, R311.7.12.2: 30 to 34 in)."""

    @property
    def given(self) -> bool:
        """Whether the file describes a ladder."""
        return self.edge is not None

    @property
    def steep(self) -> bool:
        """Whether it has rungs, not treads."""
        return self.kind == "ladder"

    @property
    def step_size(self) -> str:
        """Size of a rung or tread."""
        return self.step or ("2x4" if self.steep else "2x10")


def with_ladder_timber(raw: Any) -> Any:
    """A project as it was read, its ladder with the species and grade of the first joists if it has none."""
    entry = raw.get("ladder") if isinstance(raw, Mapping) else None
    if not isinstance(entry, Mapping) or any(key in entry for key in _TIMBER):
        return raw
    return {**raw, "ladder": {**given_timber(raw), **entry}}
