"""What the file says of the place and of the whole platform: title, site, loads, limits, plan."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StrictBool, StrictInt, StringConstraints

from bolewright.ground.soil import SoilGroup
from bolewright.platform.project.fields import (
    AreaLoad,
    Date,
    Divisor,
    LineLoad,
    Mark,
    Measure,
    Name,
    Point,
    Ring,
    Strict,
    Text,
)
from bolewright.units import DEGREE, FOOT, INCH, MPH, NONE, POUND, PSF


class Title(Strict):
    """Title block."""

    project: Annotated[Name, StringConstraints(max_length=80)]
    """Name of the platform, printed on every sheet (common practice)."""
    site: Text = ""
    """Where it stands: street, lot or coordinates (common practice)."""
    client: Text = ""
    """For whom it is built (common practice)."""
    prepared_by: Text = ""
    """Who made these calculations (common practice)."""
    checked_by: Text = ""
    """Who checked them; left empty until somebody has (common practice)."""
    date: Date
    """Date of this revision, as 2026-11-25 (common practice)."""
    revision: Annotated[Text, StringConstraints(max_length=12)] = ""
    """Letter or number of this revision (common practice)."""
    note: Text = ""
    """One line under the title, such as what the package is for (common practice)."""


class Site(Strict):
    """Ground and climate of the place."""

    frost_depth: Annotated[float, Measure(INCH, least=0, most=120)]
    """Depth that frost reaches, from the building department (IRC 2021, R403.1.4.1)."""
    soil: SoilGroup
    """Class of soil, 1 rock to 5 clay (IBC 2021, Table 1806.2)."""
    soil_bearing: Annotated[float, Measure(PSF, positive=True, most=20_000)] | None = None
    """Allowed soil pressure from a soils report, in place of the class's value (IBC 2021, 1806.2)."""
    soil_bearing_note: Text = ""
    """Who found that pressure, and when (IBC 2021, 1803.6)."""
    ground_snow: AreaLoad
    """Ground snow load of the place, from the building department (ASCE 7-16, 7.2)."""
    wind_speed: Annotated[float, Measure(MPH, least=60, most=250)]
    """Basic wind speed, three-second gust (ASCE 7-16, 26.5)."""
    exposure: Literal["B", "C", "D"]
    """B among trees or houses, C open, D by wide water (ASCE 7-16, 26.7)."""
    S_DS: Annotated[float, Measure(NONE, least=0, most=3)] | None = None
    """Design spectral acceleration at short periods, in g; empty leaves the earthquake open (ASCE 7-16, 11.4.5)."""
    settlement: Annotated[float, Measure(INCH, least=0, most=3)] = 0.5
    """How far one support may go down beside the others, on the load path's sheet (common practice: 1/2 in)."""
    K_zt: Annotated[float, Measure(NONE, least=1, most=3)] = 1.0
    """Topographic factor, more than 1 on hills and ridges (ASCE 7-16, 26.8)."""
    elevation: Annotated[float, Measure(FOOT, least=0, most=15_000)] = 0.0
    """Height above sea level; thin air pushes less (ASCE 7-16, 26.9)."""


class Code(Strict):
    """Building code that is adopted at the place."""

    basis: Literal["IRC", "IBC"] | None = None
    """Code that the building department applies to the platform (IRC 2021, R101.2; IBC 2021, 101.2)."""
    edition: Annotated[Text, StringConstraints(max_length=20)] = ""
    """Its edition, as 2021 (IRC 2021, R101.1)."""
    amendments: Text = ""
    """What the state or county changed in it, such as frost depth, snow and wind (IRC 2021, Table R301.2)."""
    design: Literal["ASD", "LRFD"] = "ASD"
    """How joists are calculated, by allowable stress or load and resistance factors (NDS 2018, 1.4.1, Appendix N)."""

    @property
    def words(self) -> str:
        """The code in words; empty where the file does not name one."""
        if self.basis is None:
            return ""
        named = f"{self.basis} {self.edition}".strip() + (", joists by LRFD" if self.design == "LRFD" else "")
        return (
            f"{named}, local amendments: {self.amendments}"
            if self.amendments
            else f"{named}, no local amendments entered"
        )


class Loads(Strict):
    """Loads on the platform."""

    live: Annotated[float, Measure(PSF, least=10, most=500)]
    """Live load of people and things (IBC 2021, Table 1607.1; IRC 2021, Table R301.5)."""
    live_note: Text = ""
    """Where that live load comes from (IBC 2021, 1603.1.1)."""
    hardware: AreaLoad = 1.0
    """Weight of screws, hangers and the like, spread over the deck (common practice)."""
    guard: LineLoad = 8.0
    """Weight of the guard along an edge (common practice: weigh a piece of it)."""
    guard_edges: tuple[StrictInt, ...] = ()
    """Numbers of the outline's edges with a guard, edge 1 from the first corner to the second (IRC 2021, R312.1.1)."""
    guard_height: Annotated[float, Measure(INCH, least=12, most=120)] = 42.0
    """Height of the guard over the floor (IRC 2021, R312.1.2: at least 36 in; IBC 2021, 1015.3: 42 in)."""
    guard_solidity: Annotated[float, Measure(NONE, least=0.05, most=1)] = 0.5
    """Share of the guard's face that meets the wind, 1 for a solid wall (ASCE 7-16, 29.3 and 29.4)."""
    person: Annotated[float, Measure(POUND, least=0, most=2000)] = 300.0
    """One heavy person, at the worst spot (IRC 2021, Table R301.5: 300 lb on a stair tread)."""
    sway_share: Annotated[float, Measure(NONE, least=0, most=1)] = 0.10
    """Lateral force of people moving, as a share of the live load (common practice)."""


class LoadArea(Strict):
    """A part of the deck with a load of its own beside the one that lies everywhere: a planter, a tub, a bench.

    ``kind`` dead stands there always, live comes and goes, snow lies with the rest of the snow. Sway of people counts
    the live load of ``loads`` only.
    """

    mark: Mark
    """Short name of the area on sheets (common practice)."""
    corners: Ring
    """Its corners in order round it, one a line: x, y; what lies off the deck does not count (common practice)."""
    load: Annotated[float, Measure(PSF, positive=True, most=1000)]
    """Its load, added to what lies there already (common practice: water 5.2 psf for each inch of depth)."""
    kind: Literal["dead", "live", "snow"]
    """Dead stands there always; live comes and goes; snow lies with the rest of the snow (ASCE 7-16, 2.4.1)."""
    note: Text = ""
    """What it is (common practice)."""


class Limits(Strict):
    """Serviceability limits: span, or for drift the floor's height, divided by these numbers."""

    live: Divisor = 360.0
    """Joists and beams may deflect their span divided by this under live load (IBC 2021, Table 1604.3)."""
    total: Divisor = 240.0
    """The same under all load, with creep (IBC 2021, Table 1604.3)."""
    deck_live: Divisor = 180.0
    """The same for deck boards under live load, which no table of the codes limits (common practice: L/180)."""
    drift: Divisor = 200.0
    """The floor may move laterally its height divided by this (common practice)."""


class Platform(Strict):
    """Plan and height of the floor."""

    outline: Annotated[tuple[Point, ...], Field(min_length=3, max_length=60)]
    """Corners of the deck in order round it, one a line: x, y (common practice)."""
    openings: Annotated[tuple[Ring, ...], Field(max_length=20)] = ()
    """Corners of each hole in the deck, one a line; an empty line between holes (common practice)."""
    floor_height: Annotated[float, Measure(INCH, least=6, most=720)]
    """Height of the floor over the ground (IRC 2021, R312.1.1: a guard above 30 in)."""
    north: Annotated[float, Measure(DEGREE, least=-360, most=360)] | None = None
    """Where north lies, clockwise from the plan's y; empty draws no arrow (common practice: by compass)."""


class Wall(Strict):
    """A wall or screen that stands on an edge of the deck: it catches wind.

    Its weight comes down where the guard's does: count it in ``guard`` and say so with ``weight_in_guard``.
    """

    mark: Mark
    """Short name of the wall on sheets and drawings (common practice)."""
    edge: Annotated[StrictInt, Field(ge=1, le=60)]
    """Number of the outline's edge it stands on, edge 1 from the first corner to the second (common practice)."""
    height: Annotated[float, Measure(INCH, least=12, most=144)]
    """Height of the wall over the floor, for its wind (ASCE 7-16, 29.4)."""
    start: Annotated[float, Measure(INCH, least=0, most=2400)] = 0.0
    """How far from the edge's first corner it starts (common practice)."""
    length: Annotated[float, Measure(INCH, positive=True, most=2400)] | None = None
    """Length of the wall; empty for the rest of the edge (common practice)."""
    solidity: Annotated[float, Measure(NONE, least=0.05, most=1)] = 1.0
    """Share of the wall's face that meets the wind, 1 for a solid wall (ASCE 7-16, 29.3 and 29.4)."""
    weight_in_guard: StrictBool = False
    """Whether the guard's weight already holds the wall's, on this edge (common practice)."""
