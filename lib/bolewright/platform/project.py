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

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)


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


class Title(Strict):
    """Title block."""

    project: Annotated[str, StringConstraints(min_length=1, max_length=80)]
    site: Text = ""
    client: Text = ""
    prepared_by: Text = ""
    checked_by: Text = ""
    date: datetime.date
    revision: Annotated[str, StringConstraints(max_length=12)] = ""
    note: Text = ""


class Site(Strict):
    """Ground and climate of the place."""

    frost_depth: Annotated[float, Measure(INCH, least=0, most=120)]
    soil: Literal["class 1", "class 2", "class 3", "class 4", "class 5"]
    soil_bearing: Annotated[float, Measure(PSF, positive=True, most=20_000)] | None = None
    soil_bearing_note: Text = ""
    ground_snow: AreaLoad
    wind_speed: Annotated[float, Measure(MPH, least=60, most=250)]
    exposure: Literal["B", "C", "D"]
    K_zt: Annotated[float, Measure(NONE, least=1, most=3)] = 1.0
    elevation: Annotated[float, Measure(FOOT, least=0, most=15_000)] = 0.0


class Loads(Strict):
    """Loads on the platform."""

    live: Annotated[float, Measure(PSF, least=10, most=500)]
    live_note: Text = ""
    hardware: AreaLoad = 1.0
    guard: LineLoad = 8.0
    guard_edges: tuple[int, ...] = ()
    guard_height: Annotated[float, Measure(INCH, least=12, most=120)] = 42.0
    guard_solidity: Annotated[float, Measure(NONE, least=0.05, most=1)] = 0.5
    person: Annotated[float, Measure(POUND, least=0, most=2000)] = 300.0
    sway_share: Annotated[float, Measure(NONE, least=0, most=1)] = 0.10


class Limits(Strict):
    """Serviceability limits: span, or for drift the floor's height, divided by these numbers."""

    live: Divisor = 360.0
    total: Divisor = 240.0
    deck_live: Divisor = 180.0
    drift: Divisor = 200.0


class Timber(Strict):
    """Species and grade of a piece, and the service it is in."""

    section: Annotated[str, StringConstraints(max_length=30)]
    species: Text
    grade: Text
    wet: bool = True
    incised: bool = False


class Decking(Timber):
    """Deck boards, laid across the joists."""

    gap: Small = 0.125


class Tree(Strict):
    """A living tree that carries bolts.

    ``sway_seen`` is the movement to one side in strong wind, seen at the height ``sway_seen_at``. Without it
    the sway is estimated from the crown's front area and the height of its centre, times two.
    """

    mark: Mark
    species: Text
    at: Point
    girth: Annotated[float, Measure(INCH, least=20, most=600)] | None = None
    diameter: Annotated[float, Measure(INCH, least=6, most=200)] | None = None
    bark: Annotated[float, Measure(INCH, least=0, most=6)]
    height: Height
    condition: Text = ""
    sway_seen: Annotated[float, Measure(INCH, least=0, most=60)] | None = None
    sway_seen_at: Height | None = None
    crown_area: Annotated[float, Measure(SQUARE_FOOT, positive=True, most=10_000)] | None = None
    crown_center: Height | None = None
    crown_drag: Annotated[float, Measure(NONE, least=0.1, most=1.2)] = 0.3
    cavity: Annotated[float, Measure(INCH, least=0, most=120)] = 0.0
    growth: Annotated[float, Measure(INCH_PER_YEAR, positive=True, most=1)] = 0.25
    service: Annotated[float, Measure(YEAR, positive=True, most=50)] = 10.0
    margin: Small = 1.0


class Bolt(Strict):
    """A kind of tree bolt, by the numbers the user knows of it."""

    diameter: Annotated[float, Measure(INCH, least=0.5, most=4)]
    embedment: Annotated[float, Measure(INCH, least=1, most=40)]
    F_y: Strength
    F_u: Strength
    seat_length: Annotated[float, Measure(INCH, least=0.5, most=12)]
    seat: Literal["steel bracket", "timber"] = "steel bracket"
    slide: Small = 0.0
    rated_load: Rated | None = None
    rated_note: Text = ""
    rated_side: Rated | None = None
    rated_side_note: Text = ""


class Post(Timber):
    """A kind of post.

    ``foot`` "held" counts the embedment as what keeps the post upright (IBC 1807.3, checked), "pinned" counts
    nothing. ``constrained``: a rigid surface, never lawn, holds it at grade. ``doubled``: 1/2 in. of motion at
    grade does no harm (1806.3.4). ``cap_side`` is the cap's rated side load, ``roll_tie`` that of the strap or
    angle which ties each side of the carrier down to the post.
    """

    K_e: Annotated[float, Measure(NONE, least=0.5, most=2.5)] = 2.1
    eccentricity: Small = 0.5
    cap_length: Size | None = None
    foot: Literal["pinned", "held"] = "pinned"
    constrained: bool = False
    doubled: bool = False
    cap_side: Rated | None = None
    roll_tie: Rated | None = None
    cap_note: Text = ""


class Footing(Strict):
    """A kind of footing: a hole filled with plain concrete, or a pad at its foot."""

    shape: Literal["round", "square"]
    width: Annotated[float, Measure(INCH, least=6, most=96)]
    depth: Annotated[float, Measure(INCH, least=6, most=120)]
    pad: Annotated[float, Measure(INCH, least=4, most=60)]
    f_c: Annotated[float, Measure(PSI, least=2000, most=10_000)] = 2500.0
    fill: Literal["concrete", "soil"] = "concrete"


class Connection(Strict):
    """A hanger with the rated load the user read off its maker's sheet."""

    rated_load: Rated | None = None
    rated_uplift: Rated | None = None
    seat_length: Annotated[float, Measure(INCH, least=1, most=12)] = 1.5
    load_duration: Literal["normal", "as stated"] = "normal"
    wet_included: bool = False
    note: Text = ""


class Support(Strict):
    """A tree bolt or a post, by its position in plan.

    ``sideways`` is how the bearing on a tree bolt meets a level force: "tied" passes it both ways, "slides" runs
    in a ``slot`` along the bolt and is held across it, "floats" slides both ways on a pad. Left out, it holds
    nothing.
    """

    mark: Mark
    kind: Literal["tree bolt", "post"]
    at: Point
    tree: Mark | None = None
    bolt: Mark | None = None
    post: Mark | None = None
    footing: Mark | None = None
    uplift_tie: Rated | None = None
    uplift_note: Text = ""
    sideways: Literal["tied", "slides", "floats"] | None = None
    slot: Annotated[float, Measure(INCH, positive=True, most=48)] | None = None
    friction: Annotated[float, Measure(NONE, least=0.05, most=1)] = 0.4


class Carrier(Timber):
    """A beam or stringer of one or more plies along a straight line in plan.

    ``layer`` 1 is beside or right under the joists, 2 is under layer 1, and so on. Layer 0 is beside joists that
    rest on layer 1: trimmers and headers round an opening, or a carrier that joists hang from at one end only.
    """

    mark: Mark
    plies: Annotated[int, Field(ge=1, le=5)] = 1
    start: Annotated[Point, Field(alias="from")]
    end: Annotated[Point, Field(alias="to")]
    layer: Annotated[int, Field(ge=0, le=3)] = 1
    hanger: Mark | None = None


class JoistField(Timber):
    """Joists at one spacing and direction, hung between carriers or resting on them."""

    mark: Annotated[str, StringConstraints(pattern=r"^[A-Z][A-Za-z]{0,3}$")] = "J"
    direction: Annotated[float, Measure(DEGREE, least=-180, most=180)] = 0.0
    first: Coordinate
    last: Coordinate
    spacing: Annotated[float, Measure(INCH, least=4, most=60)]
    bearing: Literal["hung", "resting"]
    carriers: tuple[Mark, ...] = ()
    region: tuple[Point, ...] | None = None
    hanger: Mark | None = None


class Brace(Timber):
    """A knee brace from a post up to a carrier, ``run`` along the carrier and ``rise`` below its underside.

    ``towards`` the carrier's start or end. Its ends: ``bolts`` of ``bolt_diameter`` through one or two plies
    lapped on the post and the carrier, or a ``rated_load`` from the maker's sheet.
    """

    mark: Mark
    kind: Literal["knee"] = "knee"
    support: Mark
    carrier: Mark
    towards: Literal["start", "end"]
    rise: Annotated[float, Measure(INCH, least=6, most=120)]
    run: Annotated[float, Measure(INCH, least=6, most=120)]
    plies: Annotated[int, Field(ge=1, le=2)] = 1
    bolts: Annotated[int, Field(ge=1, le=6)] | None = None
    bolt_diameter: Annotated[float, Measure(INCH, least=0.25, most=1)] | None = None
    rated_load: Rated | None = None
    note: Text = ""


class Platform(Strict):
    """Plan and height of the floor."""

    outline: Annotated[tuple[Point, ...], Field(min_length=3, max_length=60)]
    openings: tuple[tuple[Point, ...], ...] = ()
    floor_height: Annotated[float, Measure(INCH, least=6, most=720)]


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
