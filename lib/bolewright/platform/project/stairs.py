"""What the file says of stairs: where they hang, their stringers, treads, foot, and what goes with them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field, StrictBool, StrictInt

from bolewright.platform.project.blocking import given_timber
from bolewright.platform.project.fields import AreaLoad, LineLoad, Mark, Measure, Name, Rated, Small, Text
from bolewright.platform.project.timber import Timber
from bolewright.units import INCH

_TIMBER = ("species", "grade", "material")


class Stairs(Timber):
    """Stairs from the ground to the floor: ``edge`` alone places them, with usual sizes for all that is not given.

    Stringers and treads are of the joists' species and grade where none are given.
    """

    section: Name = "2x12"
    """Size of the timber that a stringer is made of (common practice: 2x12)."""
    edge: Annotated[StrictInt, Field(ge=1, le=60)] | None = None
    """Number of the outline's edge they hang on, edge 1 from the first corner to the second (common practice)."""
    along: Annotated[float, Measure(INCH, least=0, most=2400)] | None = None
    """How far the middle of the stairs is from the edge's first corner; empty: half its length (common practice)."""
    width: Annotated[float, Measure(INCH, least=12, most=144)] = 36.0
    """Width of the stairs, over the outer faces of the stringers (IRC 2021, R311.7.1: 36 in)."""
    foot: Annotated[float, Measure(INCH, least=-240, most=240)] | None = None
    """Level of the landing at their foot above grade, minus below; empty with an edge: 0 (common practice)."""
    highest_riser: Annotated[float, Measure(INCH, least=4, most=9)] = 7.75
    """Highest riser allowed (IRC 2021, R311.7.5.1: 7 3/4 in; IBC 2021, 1011.5.2: 7 in)."""
    tread_run: Annotated[float, Measure(INCH, least=9, most=20)] = 10.0
    """Depth of a tread from nosing to nosing (IRC 2021, R311.7.5.2: 10 in; IBC 2021, 1011.5.2: 11 in)."""
    top: Literal["flush", "one riser down"] | None = None
    """Whether the top tread is flush with the floor or one riser below; empty: flush with an edge (common practice)."""
    stringers: Annotated[StrictInt, Field(ge=2, le=12)] = 3
    """Number of stringers, evenly over the width (common practice: at most 18 in apart)."""
    cut: Literal["cut", "closed"] = "cut"
    """Cut: steps sawn out of its upper edge; closed: whole, with the treads between (common practice)."""
    stringer_depth: Annotated[float, Measure(INCH, least=7, most=16)] | None = None
    """Depth of the timber that they are cut from, where it is not that of the section (common practice)."""
    tread_section: Name = "2x6"
    """Size of the boards of a tread, laid flat (common practice: two 2x6)."""
    tread: Annotated[float, Measure(INCH, least=0.5, most=4)] | None = None
    """Thickness of a tread, where it is not that of its boards (common practice)."""
    tread_span_limit: Annotated[float, Measure(INCH, least=4, most=48)] | None = None
    """Greatest span of treads that are no sawn lumber, off their maker's sheet."""
    tread_bracket: Rated | None = None
    """Rated load of the bracket or cleat under each end of a tread of closed stringers, off its maker's sheet."""
    tread_note: Text = ""
    """Where the maker's ratings of treads and their brackets are printed."""
    nosing: Annotated[float, Measure(INCH, least=0, most=3)] = 0.0
    """How far a tread runs out over the one below (IRC 2021, R311.7.5.3: 3/4 to 1 1/4 in with closed risers)."""
    risers: Literal["open", "closed"] = "open"
    """Whether the risers are closed by boards (IRC 2021, R311.7.5.1)."""
    riser_strip: Small = 0.0
    """Height of a strip that closes part of an open riser (IRC 2021, R311.7.5.1: no 4 in sphere above 30 in)."""
    live: AreaLoad | None = None
    """Live load; empty: 40 psf by the IRC, 100 psf else (IRC 2021, Table R301.5; IBC 2021, Table 1607.1)."""
    dead: AreaLoad | None = None
    """Dead load over their plan; empty: the weight of treads, stringers and rails (ASCE 7-16, 3.1)."""
    rail: LineLoad = 4.0
    """Weight of the handrail or guard on each side, over the level length (common practice: weigh a piece of it)."""
    hanger: Mark | None = None
    """Hanger at the head of each stringer, by its name among the hangers, rated for the slope (NDS 2018, 11.1.1.3)."""
    head_edge: Rated | None = None
    """Rated load, off its maker's sheet, of what keeps the rim from turning at the head (NDS 2018, 3.3.3; statics)."""
    face: Annotated[float, Measure(INCH, least=2, most=48)] | None = None
    """Height of the wood face at their head, from the framing's top down, with a board under it (common practice)."""
    face_tie: Rated | None = None
    """Rated load of the ties that hold such a board up to the framing, all together, off their maker's sheet."""
    face_note: Text = ""
    """Where that rating of the maker's is printed."""
    pad_length: Annotated[float, Measure(INCH, least=6, most=96)] | None = None
    """Length of the concrete pad under their feet, along the stairs (IRC 2021, R403.1)."""
    pad_width: Annotated[float, Measure(INCH, least=12, most=192)] | None = None
    """Width of that pad across the stairs; empty: that of the stairs (IRC 2021, R403.1)."""
    pad_thickness: Annotated[float, Measure(INCH, least=3, most=60)] | None = None
    """Thickness of that pad (ACI 318-19, 14.3.2.1: 8 in)."""
    pad_depth: Annotated[float, Measure(INCH, least=0, most=120)] | None = None
    """Depth of its underside below grade, or of what does not heave under it (IRC 2021, R403.1.4)."""
    landing: Annotated[float, Measure(INCH, least=0, most=240)] | None = None
    """Depth of the landing at their foot in the direction of travel, no narrower than they (IRC 2021, R311.7.6)."""
    handrail: Literal["none", "one side", "both sides"] | None = None
    """Where there is a handrail (IRC 2021, R311.7.8: one side from four risers; IBC 2021, 1011.11: both)."""
    handrail_height: Annotated[float, Measure(INCH, least=20, most=60)] | None = None
    """Height of the handrail over the noses (IRC 2021, R311.7.8.1: 34 to 38 in)."""
    guard_height: Annotated[float, Measure(INCH, least=20, most=60)] | None = None
    """Height of the guard on their open sides over the noses (IRC 2021, R312.1.2: 34 in)."""
    guard_opening: Annotated[float, Measure(INCH, least=0, most=12)] | None = None
    """Largest sphere that passes that guard (IRC 2021, R312.1.3: 4 3/8 in; 6 in in the triangle under the rail)."""
    rail_post: Name | None = None
    """Size of the posts of handrail and guard, bolted to the outer stringers; empty: open (common practice)."""
    rail_spacing: Annotated[float, Measure(INCH, least=12, most=120)] = 60.0
    """Greatest spacing of those posts (common practice)."""
    rail_blocks: StrictBool = False
    """Whether a block between the stringers stands at every post, so that none turns over (common practice)."""
    rail_tie: Rated | None = None
    """Rated tension of what ties each bolt of such a post into its block, off its maker's sheet."""
    rail_note: Text = ""
    """Where that rating of the maker's is printed."""
    head_room: Annotated[float, Measure(INCH, least=24, most=600)] | None = None
    """Least height over the noses to a limb or roof above; empty: nothing is above (IRC 2021, R311.7.2)."""

    @property
    def given(self) -> bool:
        """Whether the file describes stairs."""
        return self.edge is not None or self.foot is not None

    @property
    def landing_level(self) -> float:
        """Level of the landing at their foot (in above grade)."""
        return self.foot or 0.0

    @property
    def flush(self) -> bool:
        """Whether the top tread is level with the floor."""
        return self.top == "flush" or (self.top is None and self.edge is not None)


def with_stair_timber(raw: Any) -> Any:
    """A project as it was read, its stairs with the species and grade of the first joists if they have none."""
    entry = raw.get("stairs") if isinstance(raw, Mapping) else None
    if not isinstance(entry, Mapping) or any(key in entry for key in _TIMBER):
        return raw
    return {**raw, "stairs": {**given_timber(raw), **entry}}
