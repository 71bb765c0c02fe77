"""What the file says of timber: decking, joists, carriers, braces, and straps between them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StrictBool, StrictInt, StringConstraints

from bolewright.platform.project.fields import (
    Coordinate,
    Mark,
    Measure,
    Name,
    Point,
    Rated,
    Ring,
    Small,
    Strict,
    Text,
)
from bolewright.units import DEGREE, INCH


class Timber(Strict):
    """Species and grade of a piece, and the service it is in."""

    section: Annotated[Name, StringConstraints(max_length=30)]
    """Size as a builder writes it: 2x10, 6x6, rough 2x10, 45x195 mm (NDS Supplement 2018, Table 1A)."""
    species: Name
    """Species or species group of the grade stamp (NDS Supplement 2018, Tables 4A, 4B, 4D)."""
    grade: Name
    """Grade of the grade stamp (NDS Supplement 2018, Tables 4A, 4B, 4D)."""
    wet: StrictBool = True
    """Whether it stands in the weather, above 19 % moisture (NDS 2018, 4.3.3)."""
    incised: StrictBool = False
    """Whether it was incised for treatment (NDS 2018, 4.3.8)."""


class Decking(Timber):
    """Deck boards, laid across the joists."""

    gap: Small = 0.125
    """Gap between boards (common practice: 1/8 in)."""


class JoistField(Timber):
    """Joists at one spacing and direction, hung between carriers or resting on them."""

    mark: Annotated[str, StringConstraints(pattern=r"^[A-Z][A-Za-z]{0,3}$")] = "J"
    """Letter of these joists; they are numbered J1, J2 and so on."""
    direction: Annotated[float, Measure(DEGREE, least=-180, most=180)] = 0.0
    """Direction the joists run: 0 deg along x, 90 deg along y."""
    first: Coordinate
    """Where the first joist lies, across the direction, to its left: along y at 0 deg, along minus x at 90 deg."""
    last: Coordinate
    """Where the last joist lies, counted the same way: no less than the first."""
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


class Carrier(Timber):
    """A beam or stringer of one or more plies along a straight line in plan.

    ``layer`` 1 is beside or right under the joists, 2 is under layer 1, and so on. Layer 0 is beside joists that
    rest on layer 1: trimmers and headers round an opening, or a carrier that joists hang from at one end only.
    """

    mark: Mark
    """Short name of the carrier on sheets and drawings."""
    plies: Annotated[StrictInt, Field(ge=1, le=5)] = 1
    """How many boards side by side, fastened together (IRC 2021, R507.5)."""
    start: Annotated[Point, Field(alias="from")]
    """Where its centre line starts, in plan: x, y."""
    end: Annotated[Point, Field(alias="to")]
    """Where its centre line ends, in plan: x, y."""
    layer: Annotated[StrictInt, Field(ge=0, le=3)] = 1
    """1 beside or right under the joists, 2 under that, and so on."""
    hanger: Mark | None = None
    """Connection it hangs in, where it hangs from another carrier."""
    side_tie: Rated | None = None
    """Rated side load of what fastens it to each carrier that it rests on, off its maker's sheet."""
    roll_tie: Rated | None = None
    """Rated load of the tie on each side that keeps it upright on carriers and tree bolts, off its maker's sheet."""


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
    plies: Annotated[StrictInt, Field(ge=1, le=2)] = 1
    """How many boards side by side."""
    bolts: Annotated[StrictInt, Field(ge=1, le=6)] | None = None
    """Number of bolts at each end (NDS 2018, 12.5); or give a rated load."""
    bolt_diameter: Annotated[float, Measure(INCH, least=0.25, most=1)] | None = None
    """Diameter of those bolts (NDS 2018, 12.1.3)."""
    rated_load: Rated | None = None
    """Rated load of the brace's ends, off their maker's sheet."""
    note: Text = ""
    """Where that rating is printed."""


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
