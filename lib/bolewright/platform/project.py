"""The project file's model: what a user may write, with the limits of each value.

Quantities are text with a unit in the file; here each stands as a number in the unit of its annotation.
"""

from __future__ import annotations

import datetime
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, StringConstraints

from bolewright import units
from bolewright.units import Unit


class Strict(BaseModel):
    """Base of all parts of the file: unknown keys are errors, values do not change after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)


def measured(
    unit: Unit, *, least: float | None = None, most: float | None = None, positive: bool = False
) -> Any:
    """Annotated float that reads text with a unit and must lie in [least, most] (``positive``: above zero)."""

    def value(text: object) -> float:
        number = units.read(text, unit)
        label = f" {unit.label}" if unit.label else ""
        if positive and number <= 0:
            raise ValueError(f"{text} is not more than zero")
        if least is not None and number < least:
            raise ValueError(f"{text} is less than {least:g}{label}, the least allowed")
        if most is not None and number > most:
            raise ValueError(f"{text} is more than {most:g}{label}, the most allowed")
        return number

    return Annotated[float, BeforeValidator(value), unit]


Coordinate = measured(units.INCH, least=-1200, most=1200)
Size = measured(units.INCH, positive=True, most=240)
Small = measured(units.INCH, least=0, most=24)
Height = measured(units.INCH, positive=True, most=1200)
AreaLoad = measured(units.PSF, least=0, most=500)
LineLoad = measured(units.PLF, least=0, most=1000)
Rated = measured(units.POUND, positive=True, most=100_000)
Strength = measured(units.PSI, positive=True, most=200_000)
Modulus = measured(units.PSI, positive=True, most=50_000_000)
Divisor = measured(units.NONE, least=60, most=2000)
Mark = Annotated[str, StringConstraints(pattern=r"^[A-Za-z][A-Za-z0-9_-]{0,11}$")]
Text = Annotated[str, StringConstraints(max_length=400)]
Point = tuple[Coordinate, Coordinate]  # type: ignore[valid-type]


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

    frost_depth: measured(units.INCH, least=0, most=120)  # type: ignore[valid-type]
    soil: Literal["class 1", "class 2", "class 3", "class 4", "class 5"]
    soil_bearing: measured(units.PSF, positive=True, most=20_000) | None = None  # type: ignore[valid-type]
    soil_bearing_note: Text = ""
    ground_snow: AreaLoad  # type: ignore[valid-type]
    wind_speed: measured(units.MPH, least=60, most=250)  # type: ignore[valid-type]
    exposure: Literal["B", "C", "D"]


class Loads(Strict):
    """Loads on the platform."""

    live: measured(units.PSF, least=10, most=500)  # type: ignore[valid-type]
    live_note: Text = ""
    hardware: AreaLoad = 1.0  # type: ignore[valid-type]
    guard: LineLoad = 8.0  # type: ignore[valid-type]
    guard_edges: tuple[int, ...] = ()
    person: measured(units.POUND, least=0, most=2000) = 300.0  # type: ignore[valid-type]


class Limits(Strict):
    """Serviceability limits: span divided by these numbers."""

    live: Divisor = 360.0  # type: ignore[valid-type]
    total: Divisor = 240.0  # type: ignore[valid-type]
    deck_live: Divisor = 180.0  # type: ignore[valid-type]


class Timber(Strict):
    """Species and grade of a piece, and the service it is in."""

    section: Annotated[str, StringConstraints(max_length=30)]
    species: Text
    grade: Text
    wet: bool = True
    incised: bool = False


class Decking(Timber):
    """Deck boards, laid across the joists."""

    gap: Small = 0.125  # type: ignore[valid-type]


class Tree(Strict):
    """A living tree that carries bolts."""

    mark: Mark
    species: Text
    at: Point
    girth: measured(units.INCH, least=20, most=600) | None = None  # type: ignore[valid-type]
    diameter: measured(units.INCH, least=6, most=200) | None = None  # type: ignore[valid-type]
    bark: measured(units.INCH, least=0, most=6)  # type: ignore[valid-type]
    height: Height  # type: ignore[valid-type]
    condition: Text = ""


class Bolt(Strict):
    """A kind of tree bolt, by the numbers the user knows of it."""

    diameter: measured(units.INCH, least=0.5, most=4)  # type: ignore[valid-type]
    embedment: measured(units.INCH, least=1, most=40)  # type: ignore[valid-type]
    F_y: Strength  # type: ignore[valid-type]
    F_u: Strength  # type: ignore[valid-type]
    seat_length: measured(units.INCH, least=0.5, most=12)  # type: ignore[valid-type]
    seat: Literal["steel bracket", "timber"] = "steel bracket"
    slide: Small = 0.0  # type: ignore[valid-type]
    rated_load: Rated | None = None  # type: ignore[valid-type]
    rated_note: Text = ""


class Post(Timber):
    """A kind of post."""

    K_e: measured(units.NONE, least=0.5, most=2.5) = 2.1  # type: ignore[valid-type]
    eccentricity: Small = 0.0  # type: ignore[valid-type]
    cap_length: Size | None = None  # type: ignore[valid-type]


class Footing(Strict):
    """A kind of footing: a hole filled with plain concrete, or a pad at its foot."""

    shape: Literal["round", "square"]
    width: measured(units.INCH, least=6, most=96)  # type: ignore[valid-type]
    depth: measured(units.INCH, least=6, most=120)  # type: ignore[valid-type]
    pad: measured(units.INCH, least=4, most=60)  # type: ignore[valid-type]
    f_c: measured(units.PSI, least=2000, most=10_000) = 2500.0  # type: ignore[valid-type]
    fill: Literal["concrete", "soil"] = "concrete"


class Connection(Strict):
    """A hanger with the rated load the user read off its maker's sheet."""

    rated_load: Rated | None = None  # type: ignore[valid-type]
    rated_uplift: Rated | None = None  # type: ignore[valid-type]
    seat_length: measured(units.INCH, least=1, most=12) = 1.5  # type: ignore[valid-type]
    load_duration: Literal["normal", "as stated"] = "normal"
    wet_included: bool = False
    note: Text = ""


class Support(Strict):
    """A tree bolt or a post, by its position in plan."""

    mark: Mark
    kind: Literal["tree bolt", "post"]
    at: Point
    tree: Mark | None = None
    bolt: Mark | None = None
    post: Mark | None = None
    footing: Mark | None = None
    uplift_tie: Rated | None = None  # type: ignore[valid-type]
    uplift_note: Text = ""


class Carrier(Timber):
    """A beam or stringer of one or more plies along a straight line in plan.

    ``layer`` 1 is beside or right under the joists, 2 is under layer 1, and so on.
    """

    mark: Mark
    plies: Annotated[int, Field(ge=1, le=5)] = 1
    start: Annotated[Point, Field(alias="from")]
    end: Annotated[Point, Field(alias="to")]
    layer: Annotated[int, Field(ge=1, le=3)] = 1
    hanger: Mark | None = None


class JoistField(Timber):
    """Joists at one spacing and direction, hung between carriers or resting on them."""

    mark: Annotated[str, StringConstraints(pattern=r"^[A-Z][A-Za-z]{0,3}$")] = "J"
    direction: measured(units.DEGREE, least=-180, most=180) = 0.0  # type: ignore[valid-type]
    first: Coordinate  # type: ignore[valid-type]
    last: Coordinate  # type: ignore[valid-type]
    spacing: measured(units.INCH, least=4, most=60)  # type: ignore[valid-type]
    bearing: Literal["hung", "resting"]
    carriers: tuple[Mark, ...] = ()
    region: tuple[Point, ...] | None = None
    hanger: Mark | None = None


class Platform(Strict):
    """Plan and height of the floor."""

    outline: Annotated[tuple[Point, ...], Field(min_length=3, max_length=60)]
    openings: tuple[tuple[Point, ...], ...] = ()
    floor_height: measured(units.INCH, least=6, most=720)  # type: ignore[valid-type]


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
