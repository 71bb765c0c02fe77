"""What the file says of guards as parts, and of the ground beside the platform."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field, StrictBool, StrictInt, StringConstraints

from bolewright.platform.project.blocking import given_timber
from bolewright.platform.project.fields import Mark, Measure, Name, Point, Rated, Strength, Strict, Text
from bolewright.platform.project.timber import Timber
from bolewright.units import INCH, POUND

_TIMBER = ("species", "grade", "material")


class Guard(Timber):
    """A guard along edges of the outline: posts, rails, infill. Its timber is that of the joists where none is given.

    Its height, weight and wind are those of ``loads``: ``guard_height``, ``guard`` and ``guard_edges``. Its posts stand
    outside the framing, each at the end of a joist, or of a block between an edge joist and the next: two bolts, the
    upper one tied back into that joist or block by a hold-down.
    """

    section: Name = "4x4"
    """Size of the posts; the bolts run along the depth (common practice)."""
    mark: Annotated[str, StringConstraints(pattern=r"^[A-Z][A-Za-z]{0,3}$")] = "G"
    """Letter of this guard; its posts are numbered G1, G2 and so on (common practice)."""
    edges: Annotated[tuple[StrictInt, ...], Field(min_length=1, max_length=60)]
    """Numbers of the outline's edges it stands on, edge 1 from the first corner to the second (IRC 2021, R312.1.1)."""
    opening: Annotated[StrictInt, Field(ge=1, le=20)] | None = None
    """Number of the opening whose edges these are; empty: the outline's (IRC 2021, R312.1.1)."""
    start: Annotated[float, Measure(INCH, least=0, most=2400)] = 0.0
    """How far from the edge's first corner it starts, where it stands on a part of one edge (common practice)."""
    length: Annotated[float, Measure(INCH, positive=True, most=2400)] | None = None
    """Length of that part; empty for the rest of the edge (common practice)."""
    spacing: Annotated[float, Measure(INCH, least=12, most=120)] = 60.0
    """Greatest spacing of the posts on centre (common practice: 6 ft at most)."""
    places: tuple[Annotated[float, Measure(INCH, least=0, most=2400)], ...] = ()
    """Distances of the posts from the edge's first corner, on one edge; empty: by spacing (common practice)."""
    lever: Literal["bearing block", "bolts only"] = "bearing block"
    """Bearing block: the post touches the framing down to its underside; bolts only: it stands on spacers (statics)."""
    notched: StrictBool = False
    """Whether the posts are notched at the framing: refused (common practice)."""
    bolt_diameter: Annotated[float, Measure(INCH, least=0.375, most=1)] = 0.5
    """Diameter of the two bolts of each post (NDS 2018, 12.1.3)."""
    bolt_edge: Annotated[float, Measure(INCH, least=1, most=6)] = 2.0
    """Bolts from the upper and lower edge of the joist or block (common practice: 2 in)."""
    bolt_strength: Strength = 60_000.0
    """Tensile strength of the bolts (AISC 360-16, J3.6; 60 ksi of common bolts)."""
    plate: Annotated[float, Measure(INCH, least=1, most=6)] = 3.0
    """Side of the square plate under the bolt's head on the post (NDS 2018, 3.10.2)."""
    hold_down: Rated | None = None
    """Rated tension of the hardware that ties the upper bolt to the joist or block, off its maker's sheet."""
    lower_tie: Rated | None = None
    """Rated tension of what ties the lower bolt, for a push inward, off its maker's sheet; the upper one's if alike."""
    down_tie: Rated | None = None
    """Rated load down of what holds a post to a joist's end with no rim along the edge, off its maker's sheet."""
    skew_tie: Rated | None = None
    """Rated force along the edge at each bolt, of a skew joist's joint to the member along the edge (maker's sheet)."""
    hold_down_note: Text = ""
    """Where these ratings of the maker's are printed, and for what duration of load."""
    cap: Name = "2x6"
    """Rail laid flat on the posts (common practice); takes the push outward and inward."""
    top_rail: Name = "2x4"
    """Rail on edge under the cap; takes the load downward (common practice)."""
    bottom_rail: Name = "2x4"
    """Rail on edge over the deck (common practice)."""
    rail_fastening: Rated | None = None
    """Rated load, any direction, of what fastens each end of cap and rail to a post, off its maker's sheet."""
    rail_note: Text = ""
    """Where that rating of the maker's is printed."""
    rail_posts: Annotated[StrictInt, Field(ge=1, le=20)] = 1
    """Posts in one line that share a push along the rail, as that runs on with joints that pass it (statics)."""
    handrail: StrictBool = False
    """Whether the rail is a handrail too: then it is pushed along itself as well (IRC 2021, Table R301.5)."""
    infill: Literal["balusters", "boards", "mesh", "cable", "rope", "panel"] = "balusters"
    """What fills it (IRC 2021, R312.1.3)."""
    baluster: Name = "2x2"
    """Size of the balusters (common practice)."""
    gap: Annotated[float, Measure(INCH, least=0, most=12)] = 3.75
    """Greatest clear gap of the infill, under load where it gives (IRC 2021, R312.1.3: less than 4 in)."""
    cable_pull: Annotated[float, Measure(POUND, positive=True, most=5000)] | None = None
    """Pull of one cable or rope, pretension and 50 lb on the infill together, off its maker's sheet (statics)."""
    cable_hole: Annotated[float, Measure(INCH, positive=True, most=2)] = 0.375
    """Diameter of the holes for cables through the end posts (NDS 2018, 3.1.2)."""
    bottom_gap: Annotated[float, Measure(INCH, least=0, most=12)] = 3.0
    """Gap between the deck and the lowest rail (IRC 2021, R312.1.3: less than 4 in)."""
    baluster_strength: Strength | None = None
    """Bending strength F b of the balusters before factors: they are sold ungraded, so it is asked (NDS 2018, 4.1)."""
    infill_load: Annotated[float, Measure(POUND, positive=True, most=1000)] | None = None
    """Rated load on a square foot of infill that is no wood, or of each baluster's ends, off its maker's sheet."""
    infill_note: Text = ""
    """Where that rating of the maker's is printed."""
    climbable: StrictBool | None = None
    """Whether it gives a foothold between 4 in and 34 in over the deck; empty: by its infill (common practice)."""
    note: Text = ""
    """What else is to be said of it (common practice)."""


class GroundLevel(Strict):
    """The level of the ground at a place beside the platform, where it is not the grade that all is measured from."""

    mark: Mark
    """Short name of the place (common practice)."""
    at: Point
    """Where it was measured, in plan: x, y (common practice)."""
    level: Annotated[float, Measure(INCH, least=-600, most=600)]
    """Level of the ground there above grade, minus below (common practice: by level)."""


def with_posts_timber(raw: Any) -> Any:
    """A project as it was read, each guard and gate with the timber of the first joists if it has none of its own."""
    for part in ("guard", "gate"):
        entries = raw.get(part) if isinstance(raw, Mapping) else None
        if not isinstance(entries, list | tuple):
            continue
        own = given_timber(raw)
        named = [isinstance(g, Mapping) and not any(key in g for key in _TIMBER) for g in entries]
        raw = {**raw, part: [{**own, **g} if bare else g for g, bare in zip(entries, named, strict=True)]}
    return raw
