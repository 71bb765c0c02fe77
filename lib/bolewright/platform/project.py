"""The project file's model: what a user may write, with the limits of each value.

Quantities are text with a unit in the file; here each stands as a number in the unit of its annotation.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, GetCoreSchemaHandler, StringConstraints
from pydantic_core import CoreSchema, core_schema

from bolewright import units
from bolewright.units import (
    CUBIC_FOOT,
    DEGREE,
    FOOT,
    INCH,
    INCH_PER_YEAR,
    MPH,
    NONE,
    PLF,
    POUND,
    PSF,
    PSI,
    SQUARE_FOOT,
    YEAR,
    Unit,
)


class Strict(BaseModel):
    """Base of all parts of the file: unknown keys are errors, values do not change after reading."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, populate_by_name=True, use_attribute_docstrings=True
    )


@dataclass(frozen=True)
class Measure:
    """Reads text with a unit as a number in ``unit``, which must lie in [least, most] (``positive``: above 0)."""

    unit: Unit
    least: float | None = None
    most: float | None = None
    positive: bool = False

    def read(self, text: object) -> float:
        """Number that ``text`` means; ValueError says what is allowed."""
        number = units.read(text, self.unit)
        label = f" {self.unit.label}" if self.unit.label else ""
        if self.positive and number <= 0:
            raise ValueError(f"{text} is not more than zero")
        if self.least is not None and number < self.least:
            raise ValueError(f"{text} is less than {self.least:g}{label}, the least allowed")
        if self.most is not None and number > self.most:
            raise ValueError(f"{text} is more than {self.most:g}{label}, the most allowed")
        return number

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)


Coordinate = Annotated[float, Measure(INCH, least=-1200, most=1200)]
Size = Annotated[float, Measure(INCH, positive=True, most=240)]
Small = Annotated[float, Measure(INCH, least=0, most=24)]
Height = Annotated[float, Measure(INCH, positive=True, most=1200)]
AreaLoad = Annotated[float, Measure(PSF, least=0, most=500)]
LineLoad = Annotated[float, Measure(PLF, least=0, most=1000)]
Rated = Annotated[float, Measure(POUND, positive=True, most=100_000)]
Strength = Annotated[float, Measure(PSI, positive=True, most=200_000)]
Modulus = Annotated[float, Measure(PSI, positive=True, most=50_000_000)]
Divisor = Annotated[float, Measure(NONE, least=60, most=2000)]
Mark = Annotated[str, StringConstraints(pattern=r"^[A-Za-z][A-Za-z0-9_-]{0,11}$")]
Text = Annotated[str, StringConstraints(max_length=400)]
Point = tuple[Coordinate, Coordinate]
Ring = Annotated[tuple[Point, ...], Field(min_length=3, max_length=60)]


class Title(Strict):
    """Title block."""

    project: Annotated[str, StringConstraints(min_length=1, max_length=80)]
    """Name of the platform, printed on every sheet (common practice)."""
    site: Text = ""
    """Where it stands: street, lot or coordinates (common practice)."""
    client: Text = ""
    """For whom it is built (common practice)."""
    prepared_by: Text = ""
    """Who made these calculations (common practice)."""
    checked_by: Text = ""
    """Who checked them; left empty until somebody has (common practice)."""
    date: datetime.date
    """Date of this revision, as 2026-11-25."""
    revision: Annotated[str, StringConstraints(max_length=12)] = ""
    """Letter or number of this revision (common practice)."""
    note: Text = ""
    """One line under the title, such as what the package is for."""


class Site(Strict):
    """Ground and climate of the place."""

    frost_depth: Annotated[float, Measure(INCH, least=0, most=120)]
    """Depth that frost reaches, from the building department (IRC 2021, R403.1.4.1)."""
    soil: Literal["class 1", "class 2", "class 3", "class 4", "class 5"]
    """Class of soil, 1 rock to 5 clay (IBC 2021, Table 1806.2)."""
    soil_bearing: Annotated[float, Measure(PSF, positive=True, most=20_000)] | None = None
    """Allowed soil pressure from a soils report, in place of the class's value (IBC 2021, 1806.2)."""
    soil_bearing_note: Text = ""
    """Who found that pressure, and when."""
    ground_snow: AreaLoad
    """Ground snow load of the place, from the building department (ASCE 7-16, 7.2)."""
    wind_speed: Annotated[float, Measure(MPH, least=60, most=250)]
    """Basic wind speed, three-second gust (ASCE 7-16, 26.5)."""
    exposure: Literal["B", "C", "D"]
    """B among trees or houses, C open, D by wide water (ASCE 7-16, 26.7)."""
    K_zt: Annotated[float, Measure(NONE, least=1, most=3)] = 1.0
    """Topographic factor, more than 1 on hills and ridges (ASCE 7-16, 26.8)."""
    elevation: Annotated[float, Measure(FOOT, least=0, most=15_000)] = 0.0
    """Height above sea level; thin air pushes less (ASCE 7-16, 26.9)."""


class Loads(Strict):
    """Loads on the platform."""

    live: Annotated[float, Measure(PSF, least=10, most=500)]
    """Live load of people and things (IBC 2021, Table 1607.1; IRC 2021, Table R301.5)."""
    live_note: Text = ""
    """Where that live load comes from."""
    hardware: AreaLoad = 1.0
    """Weight of screws, hangers and the like, spread over the deck (common practice)."""
    guard: LineLoad = 8.0
    """Weight of the guard along an edge (common practice: weigh a piece of it)."""
    guard_edges: tuple[int, ...] = ()
    """Numbers of the outline's edges with a guard; edge 1 runs from the first corner to the second."""
    guard_height: Annotated[float, Measure(INCH, least=12, most=120)] = 42.0
    """Height of the guard over the floor (IRC 2021, R312.1.2: at least 36 in; IBC 2021, 1015.3: 42 in)."""
    guard_solidity: Annotated[float, Measure(NONE, least=0.05, most=1)] = 0.5
    """Share of the guard's face that meets the wind, 1 for a solid wall (ASCE 7-16, 29.4)."""
    person: Annotated[float, Measure(POUND, least=0, most=2000)] = 300.0
    """One heavy person, at the worst spot (IRC 2021, Table R301.5: 300 lb on a stair tread)."""
    sway_share: Annotated[float, Measure(NONE, least=0, most=1)] = 0.10
    """Level force of people moving, as a share of the live load (common practice)."""


class Limits(Strict):
    """Serviceability limits: span, or for drift the floor's height, divided by these numbers."""

    live: Divisor = 360.0
    """Joists and carriers may sag their span divided by this under live load (IBC 2021, Table 1604.3)."""
    total: Divisor = 240.0
    """The same under all load, with creep (IBC 2021, Table 1604.3)."""
    deck_live: Divisor = 180.0
    """The same for deck boards under live load (common practice)."""
    drift: Divisor = 200.0
    """The floor may move sideways its height divided by this (common practice)."""


class Timber(Strict):
    """Species and grade of a piece, and the service it is in."""

    section: Annotated[str, StringConstraints(max_length=30)]
    """Size as a builder writes it: 2x10, 6x6, rough 2x10, 45x195 mm (NDS Supplement 2018, Table 1A)."""
    species: Text
    """Species or species group of the grade stamp (NDS Supplement 2018, Tables 4A, 4B, 4D)."""
    grade: Text
    """Grade of the grade stamp (NDS Supplement 2018, Tables 4A, 4B, 4D)."""
    wet: bool = True
    """Whether it stands in the weather, above 19 % moisture (NDS 2018, 4.3.3)."""
    incised: bool = False
    """Whether it was incised for treatment (NDS 2018, 4.3.8)."""


class Decking(Timber):
    """Deck boards, laid across the joists."""

    gap: Small = 0.125
    """Gap between boards (common practice: 1/8 in)."""


class Tree(Strict):
    """A living tree that carries bolts.

    ``sway_seen`` is the movement to one side in strong wind, seen at the height ``sway_seen_at``. Without it
    the sway is estimated from the crown's front area and the height of its centre, times two.
    """

    mark: Mark
    """Short name of the tree on sheets and drawings."""
    species: Text
    """Species of the living tree (Wood Handbook, Table 5-3)."""
    at: Point
    """Centre of the stem in plan: x, y."""
    girth: Annotated[float, Measure(INCH, least=20, most=600)] | None = None
    """Girth over the bark at the height of the bolts; give this or the diameter."""
    diameter: Annotated[float, Measure(INCH, least=6, most=200)] | None = None
    """Diameter over the bark at the height of the bolts; give this or the girth."""
    bark: Annotated[float, Measure(INCH, least=0, most=6)]
    """Thickness of the bark, measured with a probe or a drill (common practice)."""
    height: Height
    """Height of the tree (common practice: sighted from a measured distance)."""
    condition: Text = ""
    """What the arborist found (ANSI A300 Part 9)."""
    sway_seen: Annotated[float, Measure(INCH, least=0, most=60)] | None = None
    """Movement of the stem to one side in strong wind, as seen (common practice)."""
    sway_seen_at: Height | None = None
    """Height at which that movement was seen."""
    crown_area: Annotated[float, Measure(SQUARE_FOOT, positive=True, most=10_000)] | None = None
    """Front area of the crown, for an estimate of sway (ASCE 7-16, 29.4)."""
    crown_center: Height | None = None
    """Height of the middle of the crown."""
    crown_drag: Annotated[float, Measure(NONE, least=0.1, most=1.2)] = 0.3
    """Drag of the crown with its leaves streamlined (from memory: 0.2 to 0.5)."""
    cavity: Annotated[float, Measure(INCH, least=0, most=120)] = 0.0
    """Diameter of a hollow or rot in the stem, as found by the arborist."""
    growth: Annotated[float, Measure(INCH_PER_YEAR, positive=True, most=1)] = 0.25
    """Growth of the radius in a year, read off rings or taken as usual (common practice)."""
    service: Annotated[float, Measure(YEAR, positive=True, most=50)] = 10.0
    """Years until gaps, slots and brackets are looked at and set back again (common practice)."""
    margin: Small = 1.0
    """Room left between stem and timber beyond sway and growth (common practice)."""


class Bolt(Strict):
    """A kind of tree bolt, by the numbers the user knows of it."""

    diameter: Annotated[float, Measure(INCH, least=0.5, most=4)]
    """Diameter of the steel in the wood, at the root of the thread (NDS 2018, 12.3.7)."""
    embedment: Annotated[float, Measure(INCH, least=1, most=40)]
    """Length of thread in sound wood (NDS 2018, 12.1.4)."""
    F_y: Strength
    """Yield strength of the steel, off its mill certificate (AISC 360-16, Table 2-4)."""
    F_u: Strength
    """Tensile strength of the steel, off its mill certificate (AISC 360-16, Table 2-4)."""
    seat_length: Annotated[float, Measure(INCH, least=0.5, most=12)]
    """Length of the bearing along the bolt."""
    seat: Literal["steel bracket", "timber"] = "steel bracket"
    """What bears on the bolt: a steel bracket, or the timber itself."""
    seat_rise: Small | None = None
    """How far the bearing lies above the bolt's centre, off the bracket; empty for half the diameter."""
    slide: Small = 0.0
    """How far the bearing may slide outwards as the stem moves."""
    rated_load: Rated | None = None
    """Rated load from the bolt's maker, when there is one."""
    rated_note: Text = ""
    """Where that rating is printed, and for what wood."""
    rated_side: Rated | None = None
    """Rated side load from the bolt's maker, when there is one."""
    rated_side_note: Text = ""
    """Where that side rating is printed."""


class Post(Timber):
    """A kind of post.

    ``foot`` "held" counts the embedment as what keeps the post upright (IBC 1807.3, checked), "pinned" counts
    nothing. ``constrained``: a rigid surface, never lawn, holds it at grade. ``doubled``: 1/2 in. of motion at
    grade does no harm (1806.3.4). ``cap_side`` is the cap's rated side load, ``roll_tie`` that of the strap or
    angle which ties each side of the carrier down to the post.
    """

    K_e: Annotated[float, Measure(NONE, least=0.5, most=2.5)] = 2.1
    """Effective length factor: 1 held at both ends, 2.1 free at the top (NDS 2018, Appendix G)."""
    eccentricity: Small = 0.5
    """How far off centre the load may stand (common practice)."""
    cap_length: Size | None = None
    """Length of the post cap along the carrier, when longer than the post."""
    cap_seat: Small = 0.0
    """Thickness of the cap's plate between the post's top and the carrier."""
    foot: Literal["pinned", "held"] = "pinned"
    """Held: the embedment keeps the post upright (IBC 2021, 1807.3); pinned: it counts for nothing."""
    constrained: bool = False
    """Whether a rigid floor, never lawn, holds the post at grade (IBC 2021, 1807.3.2.2)."""
    doubled: bool = False
    """Whether 1/2 in of motion at grade does no harm (IBC 2021, 1806.3.4)."""
    cap_side: Rated | None = None
    """Rated side load of the post cap, off its maker's sheet."""
    roll_tie: Rated | None = None
    """Rated load of the tie on each side of the carrier, off its maker's sheet."""
    cap_note: Text = ""
    """Where these ratings are printed."""


class Footing(Strict):
    """A kind of footing: a hole filled with plain concrete, or a pad at its foot."""

    shape: Literal["round", "square"]
    """Round hole or square pad."""
    width: Annotated[float, Measure(INCH, least=6, most=96)]
    """Diameter of a round footing, side of a square one (IRC 2021, R507.3.1)."""
    depth: Annotated[float, Measure(INCH, least=6, most=120)]
    """Depth of the footing's underside below grade (IRC 2021, R403.1.4)."""
    pad: Annotated[float, Measure(INCH, least=4, most=60)]
    """Thickness of the plain concrete under the post (ACI 318-19, 14.3.2)."""
    f_c: Annotated[float, Measure(PSI, least=2000, most=10_000)] = 2500.0
    """Strength of the concrete (IRC 2021, Table R402.2; ACI 318-19, 19.2)."""
    fill: Literal["concrete", "soil"] = "concrete"
    """What fills the hole round the post, up to grade."""
    gravel: Small = 0.0
    """Tamped gravel under the concrete, dug below the depth (common practice: 4 to 6 in)."""


class Connection(Strict):
    """A hanger with the rated load the user read off its maker's sheet."""

    rated_load: Rated | None = None
    """Rated load downwards of the hanger, off its maker's sheet."""
    rated_uplift: Rated | None = None
    """Rated load upwards of the hanger, off its maker's sheet."""
    seat_length: Annotated[float, Measure(INCH, least=1, most=12)] = 1.5
    """Length on which the timber sits in the hanger (NDS 2018, 3.10)."""
    load_duration: Literal["normal", "as stated"] = "normal"
    """Normal: the rating is for ten years of load and is adjusted (NDS 2018, 2.3.2); as stated: it is not."""
    wet_included: bool = False
    """Whether the rating already counts for timber in the weather (NDS 2018, 11.3.3)."""
    note: Text = ""
    """Where that rating is printed."""


class Support(Strict):
    """A tree bolt or a post, by its position in plan.

    ``sideways`` is how the bearing on a tree bolt meets a level force: "tied" passes it both ways, "slides" runs
    in a ``slot`` along the bolt and is held across it, "floats" slides both ways on a pad. Left out, it holds
    nothing.
    """

    mark: Mark
    """Short name of the support on sheets and drawings."""
    kind: Literal["tree bolt", "post"]
    """A bolt in the tree, or a post on a footing."""
    at: Point
    """Where the load comes down, in plan: x, y."""
    tree: Mark | None = None
    """Mark of the tree the bolt is in."""
    bolt: Mark | None = None
    """Name of the kind of bolt."""
    post: Mark | None = None
    """Name of the kind of post."""
    footing: Mark | None = None
    """Name of the kind of footing."""
    uplift_tie: Rated | None = None
    """Rated load of a tie that keeps the carrier down, off its maker's sheet."""
    uplift_note: Text = ""
    """Where that rating is printed."""
    sideways: Literal["tied", "slides", "floats"] | None = None
    """How the bearing meets a level force: tied, slides along a slot, or floats (common practice)."""
    slot: Annotated[float, Measure(INCH, positive=True, most=48)] | None = None
    """Length of the slot the bearing slides in."""
    friction: Annotated[float, Measure(NONE, least=0.05, most=1)] = 0.4
    """Friction in the sliding bearing (common practice)."""


class Carrier(Timber):
    """A beam or stringer of one or more plies along a straight line in plan.

    ``layer`` 1 is beside or right under the joists, 2 is under layer 1, and so on. Layer 0 is beside joists that
    rest on layer 1: trimmers and headers round an opening, or a carrier that joists hang from at one end only.
    """

    mark: Mark
    """Short name of the carrier on sheets and drawings."""
    plies: Annotated[int, Field(ge=1, le=5)] = 1
    """How many boards side by side, fastened together (IRC 2021, R507.5)."""
    start: Annotated[Point, Field(alias="from")]
    """Where its centre line starts, in plan: x, y."""
    end: Annotated[Point, Field(alias="to")]
    """Where its centre line ends, in plan: x, y."""
    layer: Annotated[int, Field(ge=0, le=3)] = 1
    """1 beside or right under the joists, 2 under that, and so on."""
    hanger: Mark | None = None
    """Connection it hangs in, where it hangs from another carrier."""
    side_tie: Rated | None = None
    """Rated side load of what fastens it to each carrier that it rests on, off its maker's sheet."""
    roll_tie: Rated | None = None
    """Rated load of the tie on each side that keeps it upright on carriers and tree bolts, off its maker's sheet."""


class JoistField(Timber):
    """Joists at one spacing and direction, hung between carriers or resting on them."""

    mark: Annotated[str, StringConstraints(pattern=r"^[A-Z][A-Za-z]{0,3}$")] = "J"
    """Letter of these joists; they are numbered J1, J2 and so on."""
    direction: Annotated[float, Measure(DEGREE, least=-180, most=180)] = 0.0
    """Direction the joists run: 0 deg along x, 90 deg along y."""
    first: Coordinate
    """Where the first joist lies, across the direction."""
    last: Coordinate
    """Where the last joist lies."""
    spacing: Annotated[float, Measure(INCH, least=4, most=60)]
    """Spacing on centre (common practice: 12, 16 or 24 in)."""
    bearing: Literal["hung", "resting"]
    """Hung between the carriers, or resting on them."""
    carriers: tuple[Mark, ...] = ()
    """Marks of the carriers that bear them; empty for all they cross."""
    region: Ring | None = None
    """Corners of the part of the deck they lie in; empty for all of it."""
    hanger: Mark | None = None
    """Connection they hang in."""


class Brace(Timber):
    """A knee brace from a post up to a carrier, ``run`` along the carrier and ``rise`` below its underside.

    ``towards`` the carrier's start or end. Its ends: ``bolts`` of ``bolt_diameter`` through one or two plies
    lapped on the post and the carrier, or a ``rated_load`` from the maker's sheet.
    """

    mark: Mark
    """Short name of the brace on sheets and drawings."""
    kind: Literal["knee"] = "knee"
    """Kind of brace: a knee brace from post to carrier."""
    support: Mark
    """Mark of the post it stands at."""
    carrier: Mark
    """Mark of the carrier it holds."""
    towards: Literal["start", "end"]
    """Which end of the carrier it leans towards."""
    rise: Annotated[float, Measure(INCH, least=6, most=120)]
    """How far below the carrier's underside it meets the post (common practice: 24 in and more)."""
    run: Annotated[float, Measure(INCH, least=6, most=120)]
    """How far along the carrier it reaches."""
    plies: Annotated[int, Field(ge=1, le=2)] = 1
    """How many boards side by side."""
    bolts: Annotated[int, Field(ge=1, le=6)] | None = None
    """Number of bolts at each end (NDS 2018, 12.5); or give a rated load."""
    bolt_diameter: Annotated[float, Measure(INCH, least=0.25, most=1)] | None = None
    """Diameter of those bolts (NDS 2018, 12.1.3)."""
    rated_load: Rated | None = None
    """Rated load of the brace's ends, off their maker's sheet."""
    note: Text = ""
    """Where that rating is printed."""


class AsBuilt(Strict):
    """What was really built or measured at one part; what is left out is as planned.

    A bolt: ``projection``, ``level``, ``embedment``. A post: ``at``, ``level`` of its cut top, ``hole``. A joist
    or carrier: ``depth`` as the tape reads it. The checks are run again with it.
    """

    mark: Mark
    """Mark of the support, joist or carrier."""
    at: Point | None = None
    """Where a support really stands, in plan: x, y."""
    projection: Annotated[float, Measure(INCH, positive=True, most=48)] | None = None
    """From the bark to the middle of the bearing on a tree bolt, along the bolt."""
    level: Annotated[float, Measure(INCH, least=-24, most=24)] | None = None
    """How far the seat lies above its planned level; below it is negative."""
    embedment: Annotated[float, Measure(INCH, least=0.5, most=40)] | None = None
    """Thread in sound wood that a tree bolt reached."""
    hole: Annotated[float, Measure(INCH, positive=True, most=120)] | None = None
    """Depth of the footing's underside that was reached, such as before rock."""
    depth: Annotated[float, Measure(INCH, positive=True, most=30)] | None = None
    """Depth of a joist, carrier or board as measured."""
    note: Text = ""
    """Who measured it, and when."""


class Reading(Strict):
    """A reading of the day: how far a point lies below a level line (string, water level or instrument).

    A tree bolt's mark is for its seat, a post's for the concrete its foot stands on, ``GRADE`` for the peg at the
    planned grade. All readings are from one line.
    """

    mark: Mark
    """Mark of the bolt or post, or GRADE."""
    below_line: Annotated[float, Measure(INCH, least=-480, most=480)]
    """From the level line down to the point; negative when the point lies above it."""


class StemOutline(Strict):
    """The outline of a stem's bark at the floor: points in plan, or widths across at stations round the girth.

    ``widths``: divide the girth in twice as many equal stations as there are widths, the first on the side of +x
    and then counter-clockwise; each is the width across from a station to the one opposite.
    """

    tree: Mark
    """Mark of the tree."""
    points: Annotated[tuple[Point, ...], Field(max_length=60)] = ()
    """Points of the bark in order round the stem, in plan: x, y."""
    widths: Annotated[tuple[Size, ...], Field(max_length=30)] = ()
    """Widths across the stem, from each station to the one opposite."""


StockLength = Annotated[float, Measure(INCH, least=12, most=720)]


class Stock(Strict):
    """What the timber yard has, what the saw takes, and what the car carries; all of it may be left out."""

    lengths: tuple[StockLength, ...] = ()
    """Lengths the yard has; empty for 8 ft to 20 ft by 2 ft (common practice)."""
    longest: StockLength | None = None
    """Longest piece the car carries; what must be longer is marked as delivered."""
    kerf: Annotated[float, Measure(INCH, least=0, most=0.5)] = 0.125
    """Width of the saw's cut (common practice: 1/8 in)."""
    end_trim: Annotated[float, Measure(INCH, least=0, most=12)] = 0.5
    """Cut off each end of a stick for checks and stains (common practice: 1/2 in)."""
    post_spare: Annotated[float, Measure(INCH, least=0, most=48)] = 3.0
    """Added to a post that is cut to its height once it stands (common practice: 3 in)."""
    bag_yield: Annotated[float, Measure(CUBIC_FOOT, positive=True, most=3)] = 0.60
    """Concrete one bag makes, off the bag (common practice: 0.60 ft3 for 80 lb)."""
    bag_weight: Annotated[float, Measure(POUND, positive=True, most=200)] = 80.0
    """Weight of one bag."""
    overbreak: Annotated[float, Measure(NONE, least=0, most=1)] = 0.10
    """Concrete and gravel beyond the drawn volume, as a share of it (common practice: 10 %)."""
    currency: Annotated[str, StringConstraints(max_length=8)] = ""
    """Word or sign printed with the prices."""


class Price(Strict):
    """One line of the price table: a size of lumber at one length, or any other item by the name it is listed under.

    Sizes with a price are bought in the lengths that have one; the rest in the lengths of ``stock``.
    """

    item: Annotated[str, StringConstraints(min_length=1, max_length=60)]
    """Size of lumber such as 2x8, or the name of an item on the hardware list such as concrete, bag."""
    length: StockLength | None = None
    """Length of the stick, for lumber."""
    grade: Text = ""
    """Grade it holds for, for lumber; empty for any."""
    each: Annotated[float, Measure(NONE, least=0, most=1_000_000)]
    """Price of one."""


class Diagonal(Strict):
    """A strap or flat bar that keeps the deck square in plan; it pulls, so a crossed pair is needed."""

    mark: Mark
    """Short name of the diagonal on sheets and drawings."""
    start: Annotated[Point, Field(alias="from")]
    """Where it starts, in plan: x, y."""
    end: Annotated[Point, Field(alias="to")]
    """Where it ends, in plan: x, y."""
    rated_load: Rated
    """Rated pull of the strap with its fasteners, off its maker's sheet."""
    note: Text = ""
    """Where that rating is printed."""


class Wall(Strict):
    """A wall or screen that stands on an edge of the deck: it catches wind.

    Its weight comes down where the guard's does: count it in ``guard`` and say so with ``weight_in_guard``.
    """

    mark: Mark
    """Short name of the wall on sheets and drawings."""
    edge: Annotated[int, Field(ge=1, le=60)]
    """Number of the outline's edge it stands on; edge 1 runs from the first corner to the second."""
    height: Annotated[float, Measure(INCH, least=12, most=144)]
    """Height of the wall over the floor."""
    start: Annotated[float, Measure(INCH, least=0, most=2400)] = 0.0
    """How far from the edge's first corner it starts."""
    length: Annotated[float, Measure(INCH, positive=True, most=2400)] | None = None
    """Length of the wall; empty for the rest of the edge."""
    solidity: Annotated[float, Measure(NONE, least=0.05, most=1)] = 1.0
    """Share of the wall's face that meets the wind, 1 for a solid wall (ASCE 7-16, 29.4)."""
    weight_in_guard: bool = False
    """Whether the guard's weight already holds the wall's, on this edge."""


class Platform(Strict):
    """Plan and height of the floor."""

    outline: Annotated[tuple[Point, ...], Field(min_length=3, max_length=60)]
    """Corners of the deck in order round it, one a line: x, y."""
    openings: Annotated[tuple[Ring, ...], Field(max_length=20)] = ()
    """Corners of each hole in the deck, one a line; an empty line between holes."""
    floor_height: Annotated[float, Measure(INCH, least=6, most=720)]
    """Height of the floor over the ground (IRC 2021, R312.1.1: a guard above 30 in)."""
    north: Annotated[float, Measure(DEGREE, least=-360, most=360)] | None = None
    """Where north lies, clockwise from the plan's y; empty draws no arrow (common practice: by compass)."""


class Project(Strict):
    """A whole project file."""

    format: Literal[1]
    title: Title
    site: Site
    loads: Loads
    limits: Limits = Limits()
    platform: Platform
    decking: Decking
    trees: Annotated[tuple[Tree, ...], Field(alias="tree")] = ()
    bolts: Annotated[dict[Mark, Bolt], Field(alias="bolt")] = {}
    posts: Annotated[dict[Mark, Post], Field(alias="post")] = {}
    footings: Annotated[dict[Mark, Footing], Field(alias="footing")] = {}
    connections: Annotated[dict[Mark, Connection], Field(alias="connection")] = {}
    supports: Annotated[tuple[Support, ...], Field(alias="support", min_length=1)]
    carriers: Annotated[tuple[Carrier, ...], Field(alias="carrier", min_length=1)]
    joists: Annotated[tuple[JoistField, ...], Field(min_length=1)]
    braces: Annotated[tuple[Brace, ...], Field(alias="brace")] = ()
    diagonals: Annotated[tuple[Diagonal, ...], Field(alias="diagonal")] = ()
    walls: Annotated[tuple[Wall, ...], Field(alias="wall")] = ()
    as_built: tuple[AsBuilt, ...] = ()
    readings: Annotated[tuple[Reading, ...], Field(alias="reading")] = ()
    outlines: Annotated[tuple[StemOutline, ...], Field(alias="outline")] = ()
    stock: Stock = Stock()
    prices: Annotated[tuple[Price, ...], Field(alias="price")] = ()
