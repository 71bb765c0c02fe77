"""What the requirements of a platform may say: the trees, the floor, the place, and what stands in the way.

A value that is left out is taken by default and named as not measured (:mod:`bolewright.proposing.taken`).
"""

from __future__ import annotations

import math
from typing import Annotated, Literal

from pydantic import Field, StrictBool, StrictInt, StringConstraints

from bolewright.platform.project.fields import (
    AreaLoad,
    Format,
    Height,
    Mark,
    Measure,
    Name,
    Point,
    Rated,
    Ring,
    Strict,
    Text,
)
from bolewright.platform.project.place import Code
from bolewright.units import INCH, INCH_PER_YEAR, MPH, NONE, PSF, SQUARE_FOOT, YEAR


class NeededFloor(Strict):
    """The floor: an outline, or a width and a depth, or an area that the program places by a tree."""

    outline: Annotated[tuple[Point, ...], Field(min_length=3, max_length=24)] | None = None
    """Corners of the floor in order round it."""
    width: Annotated[float, Measure(INCH, least=36, most=360)] | None = None
    """Width along x."""
    depth: Annotated[float, Measure(INCH, least=36, most=360)] | None = None
    """Depth along y."""
    at: Point = (0.0, 0.0)
    """Lower left corner of a floor given by width and depth."""
    area: Annotated[float, Measure(SQUARE_FOOT, least=16, most=400)] | None = None
    """Area of a floor that is placed by the first tree, or at the origin without one."""
    height: Annotated[float, Measure(INCH, least=24, most=240)]
    """Height of the floor over the ground at level 0."""
    guard_height: Annotated[float, Measure(INCH, least=36, most=60)] = 36.0
    """Height of the guard (IRC 2021, R312.1.2: at least 36 in.)."""


class NeededPlace(Strict):
    """Climate and ground of the place."""

    ground_snow: AreaLoad
    """Ground snow load, from the building department."""
    wind_speed: Annotated[float, Measure(MPH, least=60, most=250)]
    """Basic wind speed (ASCE 7-16, 26.5)."""
    exposure: Literal["B", "C", "D"] | None = None
    """B among trees or houses, C open, D by wide water (ASCE 7-16, 26.7)."""
    S_DS: Annotated[float, Measure(NONE, least=0, most=3)] | None = None
    """Design spectral acceleration, in g."""
    frost_depth: Annotated[float, Measure(INCH, least=0, most=72)] | None = None
    """Depth that frost reaches, from the building department."""
    soil: Literal["class 1", "class 2", "class 3", "class 4", "class 5"] | None = None
    """Class of soil (IBC 2021, Table 1806.2)."""


class NeededTree(Strict):
    """A tree as seen: its place and girth must be given."""

    mark: Mark
    """Short name of the tree."""
    species: Name
    """Species of the living tree."""
    at: Point
    """Centre of the trunk in plan."""
    girth: Annotated[float, Measure(INCH, least=20, most=400)]
    """Girth over the bark at the floor, by tape."""
    bark: Annotated[float, Measure(INCH, least=0, most=6)] | None = None
    """Thickness of the bark."""
    height: Height | None = None
    """Height of the tree."""
    sway_seen: Annotated[float, Measure(INCH, least=0, most=60)] | None = None
    """Movement of the trunk to one side in strong wind, as seen."""
    sway_seen_at: Height | None = None
    """Height at which that was seen."""
    crown_area: Annotated[float, Measure(SQUARE_FOOT, positive=True, most=10_000)] | None = None
    """Front area of the crown."""
    crown_center: Height | None = None
    """Height of the middle of the crown."""
    growth: Annotated[float, Measure(INCH_PER_YEAR, positive=True, most=1)] | None = None
    """Growth of the radius in a year."""
    condition: Text = ""
    """What was seen of its condition."""
    fault: Text = ""
    """A fault that an arborist has to judge, as a union or an old wound; empty: none seen."""
    cavity: Annotated[float, Measure(INCH, least=0, most=120)] | None = None
    """Diameter of a hollow, as found by an arborist."""
    may_bear: StrictBool = True
    """Whether bolts may go into it."""

    @property
    def radius(self) -> float:
        """Radius over the bark (in)."""
        return self.girth / (2 * math.pi)


class NoPost(Strict):
    """A part of the ground where no post and no hole may be."""

    corners: Ring
    """Its corners in order."""
    why: Annotated[Text, StringConstraints(min_length=1, max_length=60)]
    """What it is: path, pipe, bed."""


class PropertyLine(Strict):
    """A property line: floor and holes stay on the floor's side, a setback away."""

    start: Annotated[Point, Field(alias="from")]
    """A point of the line."""
    end: Annotated[Point, Field(alias="to")]
    """Another point of it."""
    setback: Annotated[float, Measure(INCH, least=0, most=1200)] = 0.0
    """Distance to keep from it, from the zoning office."""


class GroundLevel(Strict):
    """Level of the ground at a place."""

    at: Point
    """The place in plan."""
    level: Annotated[float, Measure(INCH, least=-240, most=240)]
    """Its level over the level from which the floor's height counts."""


class Access(Strict):
    """How one gets up."""

    kind: Literal["stairs", "ladder", "none"] = "ladder"
    """Stairs, a ladder, or from a slope without either."""
    edge: Annotated[StrictInt, Field(ge=1, le=24)] = 1
    """Number of the outline's edge where one arrives."""


class NeededTimber(Strict):
    """What timber can be had."""

    species: Name = "Southern Pine"
    """Species or group of the grade stamp, for all of it."""
    grade: Name = "No.2"
    """Grade of the grade stamp."""
    incised: StrictBool = False
    """Whether it comes incised for treatment (NDS 2018, 4.3.8)."""
    largest_post: Literal["6x6", "8x8", "10x10", "12x12"] = "12x12"
    """Largest post to be had."""
    largest_board: Literal["2x8", "2x10", "2x12"] = "2x12"
    """Deepest board to be had for joists and beams."""


class AtHand(Strict):
    """Ratings of hardware at hand; what is left out is to be bought as the calculation requires."""

    cap_lateral: Rated | None = None
    """Post cap, to the side."""
    cap_uplift: Rated | None = None
    """Post cap, up."""
    roll_strap: Rated | None = None
    """Strap from each side of a beam down to its post."""
    floor_strap: Rated | None = None
    """Strap of a crossed pair in the floor."""
    bracket_down: Rated | None = None
    """Bracket on a tree bolt, down."""
    bracket_side: Rated | None = None
    """Bracket on a tree bolt, to the side."""
    joist_tie: Rated | None = None
    """Tie of a joist to a beam, up."""
    hanger_down: Rated | None = None
    """Hanger of a joist or header, down."""


class Rules(Strict):
    """What is allowed at the trees."""

    may_tie: StrictBool | None = None
    """Whether a trunk may be tied to the platform, by the arborist's word; empty: tried, and asked for."""
    root_zone: Annotated[float, Measure(NONE, least=0, most=10)] = 3.0
    """Trunk diameters that a hole keeps from the trunk's centre (common practice: three)."""
    visits: Annotated[float, Measure(YEAR, least=1, most=20)] = 8.0
    """Years between visits, when gaps and brackets are looked at and set back."""


class Needs(Strict):
    """Requirements of a platform."""

    format: Format
    project: Annotated[Name, StringConstraints(max_length=80)] = "Proposal"
    """Name of the platform."""
    live: Annotated[float, Measure(PSF, least=10, most=200)] = 40.0
    """Live load (IRC 2021, Table R301.5: decks 40 psf)."""
    floor: NeededFloor
    place: NeededPlace
    code: Code = Code()
    trees: Annotated[tuple[NeededTree, ...], Field(alias="tree", max_length=6)] = ()
    no_posts: Annotated[tuple[NoPost, ...], Field(alias="no_post", max_length=12)] = ()
    property_lines: Annotated[tuple[PropertyLine, ...], Field(alias="property_line", max_length=8)] = ()
    ground: Annotated[tuple[GroundLevel, ...], Field(max_length=24)] = ()
    access: Access = Access()
    timber: NeededTimber = NeededTimber()
    hardware: AtHand = AtHand()
    rules: Rules = Rules()
