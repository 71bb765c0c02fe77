"""What the file says of timber: decking, joists, beams, braces, straps and crossed rods between them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, PrivateAttr, StrictBool, StrictInt, StringConstraints

from bolewright.platform.project.fields import (
    Coordinate,
    Height,
    Mark,
    Measure,
    Name,
    Point,
    Rated,
    Ring,
    Size,
    Strength,
    Strict,
    Text,
)
from bolewright.platform.project.given_for import GivenTogether, GivenWood
from bolewright.platform.project.material import Material
from bolewright.timber.adjustment import asks_incising
from bolewright.timber.material import DesignValues, reference_values
from bolewright.timber.movement import greatest_shrinkage_ratio, shrinkage_ratio
from bolewright.timber.sections import Section, parse_section
from bolewright.units import DEGREE, INCH, PSF


class Timber(Strict):
    """Size of a piece, its species and grade or a material of the user's own, and the service it is in."""

    section: Annotated[Name, StringConstraints(max_length=30)]
    """Size as a builder writes it: 2x10, 6x6, rough 2x10, 45x195 mm (NDS Supplement 2018, Table 1A)."""
    species: Name | None = None
    """Species or species group of the grade stamp (NDS Supplement 2018, Tables 4A, 4B, 4D)."""
    grade: Name | None = None
    """Grade of the grade stamp (NDS Supplement 2018, Tables 4A, 4B, 4D)."""
    material: Mark | None = None
    """Name of a material of your own, in place of species and grade (NDS 2018, 4.1.2)."""
    wet: StrictBool = True
    """Whether it stands in the weather, above 19 % moisture (NDS 2018, 4.3.3)."""
    incised: StrictBool | None = None
    """Whether it was incised for treatment (NDS 2018, 4.3.8); empty for an open check where such lumber commonly is."""
    _own: Material | None = PrivateAttr(default=None)  # the material it names, once the whole file is read

    def values(self, section: Section) -> DesignValues:
        """Reference design values in a section: those of the material it names, else the tables'.

        Raises MaterialError for a species, grade or size without values.
        """
        if self._own is not None:
            return self._own.values(self.material or "", section)
        return reference_values(self.species or "", self.grade or "", section)

    @property
    def incising_open(self) -> bool:
        """Whether the file has to say if this piece was incised, and does not.

        Wood in the weather is taken as preservative treated, as the cut list asks for it.
        """
        if self.incised is not None or not self.wet or self._own is not None or self.species is None:
            return False
        return asks_incising(self.values(parse_section(self.section)), treated=True)

    @property
    def counts_incised(self) -> bool:
        """Whether C_i is counted: as the file says, and where it has to say and does not, the safe way."""
        return self.incising_open if self.incised is None else self.incised

    @property
    def bought_as(self) -> tuple[str, str]:
        """Species and grade by the names it is bought under."""
        values = self.values(parse_section(self.section))
        return values.species, values.grade

    @property
    def shrinkage(self) -> float:
        """Shrinkage across the grain from green to oven dry, as a ratio."""
        if self._own is not None:
            return greatest_shrinkage_ratio() if self._own.shrinkage is None else self._own.shrinkage
        return shrinkage_ratio(self.species or "")


BOARD_TURN = {
    "square": 0.0,
    "diagonal left": 45.0,
    "diagonal right": -45.0,
}  # degrees, from square to the joists
_NO_WAY = {
    "parallel": "boards along the joists bear on nothing between them: turn the joists (their direction), or lay the "
    "boards square or at 45 deg",
    "diagonal": "write 'diagonal left' or 'diagonal right', as seen along the way that the joists run",
}


def _direction(value: object) -> object:
    """Say what to write instead of a direction that boards can't have, or that says too little."""
    if isinstance(value, str) and value.strip().lower() in _NO_WAY:
        raise ValueError(f"{value!r} is refused: {_NO_WAY[value.strip().lower()]}")
    return value


class Decking(Timber):
    """Deck boards, laid across the joists: timber that is calculated, or boards held to their maker's limits.

    With ``span_limit`` they are checked by what the maker's sheet says of them, and need no species or grade.
    """

    gap: Annotated[float, Measure(INCH, least=0, most=0.5)] = 0.125
    """Gap between boards (common practice: 1/8 in; ICC A117.1-2017, 302.3: at most 1/2 in under a heel or cane)."""
    direction: Annotated[
        Literal["square", "diagonal left", "diagonal right"], BeforeValidator(_direction)
    ] = "square"
    """How they lie: square to the joists, or 45 deg to the left or right of their way (IRC 2021, R507.7: no more)."""
    span_limit: Size | None = None
    """Greatest span of the boards off their maker's sheet; empty for timber that is calculated (IRC 2021, R507.2.2)."""
    span_measured: Literal["on centre", "clear"] = "on centre"
    """Whether the maker's limit is a spacing of joists on centre, or the clear distance between them."""
    span_load: Annotated[float, Measure(PSF, positive=True, most=500)] | None = None
    """Load that the limit holds for, off the same maker's sheet."""
    end_limit: Annotated[float, Measure(INCH, least=0, most=6)] | None = None
    """How far the boards may run out past the last joist's face, off the same maker's sheet (an inch or two)."""
    weight: Annotated[float, Measure(PSF, positive=True, most=50)] | None = None
    """Weight of such boards, off the same maker's sheet or weighed."""
    span_note: Text = ""
    """Where these limits of the maker's are printed."""

    @property
    def incising_open(self) -> bool:
        """Whether the file has to say if the boards were incised; not of boards held to their maker's limits."""
        return self.span_limit is None and super().incising_open

    @property
    def bought_as(self) -> tuple[str, str]:
        """Species and grade by the names the boards are bought under; with a limit of the maker's as written."""
        if self.span_limit is None:
            return super().bought_as
        return self.species or "deck board", self.grade or "of the maker whose limit was taken"

    @property
    def shrinkage(self) -> float:
        """Shrinkage across the grain; that of the species that shrinks most where the boards' own is not known."""
        return super().shrinkage if self.span_limit is None else greatest_shrinkage_ratio()


class JoistField(Timber, GivenWood):
    """Joists at one spacing and direction, hung between beams or resting on them."""

    mark: Annotated[str, StringConstraints(pattern=r"^[A-Z][A-Za-z]{0,3}$")] = "J"
    """Letter of these joists; they are numbered J1, J2 and so on (common practice)."""
    direction: Annotated[float, Measure(DEGREE, least=-180, most=180)] = 0.0
    """Direction the joists run: 0 deg along x, 90 deg along y (common practice)."""
    first: Coordinate
    """Where the first joist lies across them, on their left: along y at 0 deg, along -x at 90 deg (common practice)."""
    last: Coordinate
    """Where the last joist lies, counted the same way: no less than the first (common practice)."""
    spacing: Annotated[float, Measure(INCH, least=4, most=60)]
    """Spacing on centre (common practice: 12, 16 or 24 in)."""
    bearing: Literal["hung", "resting"]
    """Hung between the beams, or resting on them (IRC 2021, R507.6.1)."""
    beams: tuple[Mark, ...] = ()
    """Marks of the beams that bear them; empty for all they cross (common practice)."""
    region: Ring | None = None
    """Corners of the part of the deck they lie in; empty for all of it (common practice)."""
    hanger: Mark | None = None
    """Hanger they hang in, by its name among the hangers (common practice)."""
    uplift_tie: Rated | None = None
    """Rated uplift of what ties each resting joist down to each beam, off its maker's sheet."""
    lateral_tie: Rated | None = None
    """Rated lateral load, in any direction, of what fastens each resting joist to each beam, off its maker's sheet."""
    tie_note: Text = ""
    """Where the maker's ratings of these ties are printed."""
    restrains_beam: StrictBool = False
    """Whether the joists' connections keep their beams from turning; edge_load rates them (common practice)."""
    edge_load: Rated | None = None
    """Rated load of each joist's connection at its upper and lower edge, off its maker's sheet."""
    rated_alone: StrictBool = False
    """Whether its maker allows each rating in full while the others act too, or each is of a piece of its own."""


class Beam(Timber, GivenTogether):
    """A beam or stringer of one or more plies along a straight line in plan.

    ``layer`` 1 is beside or right under the joists, 2 is under layer 1, and so on. Layer 0 is beside joists that
    rest on layer 1: trimmers and headers round an opening, or a beam that joists hang from at one end only.
    """

    mark: Mark
    """Short name of the beam on sheets and drawings (common practice)."""
    plies: Annotated[StrictInt, Field(ge=1, le=5)] = 1
    """How many boards side by side, fastened together (IRC 2021, R507.5)."""
    start: Annotated[Point, Field(alias="from")]
    """Where its centre line starts, in plan: x, y (common practice)."""
    end: Annotated[Point, Field(alias="to")]
    """Where its centre line ends, in plan: x, y (common practice)."""
    layer: Annotated[StrictInt, Field(ge=0, le=3)] = 1
    """1 beside or right under the joists, 2 under that, and so on (common practice)."""
    hanger: Mark | None = None
    """Hanger it hangs in, where it hangs from another beam (common practice)."""
    lateral_tie: Rated | None = None
    """Rated side load of what fastens it to each beam that it rests on, off its maker's sheet."""
    rotation_tie: Rated | None = None
    """Rated load of the tie on each side that keeps it upright on beams and tree bolts, off its maker's sheet."""
    uplift_tie: Rated | None = None
    """Rated uplift of what ties it down to each beam that it rests on, off its maker's sheet."""
    tie_note: Text = ""
    """Where the maker's ratings of these ties are printed."""
    restrains_beam: StrictBool = False
    """Whether its hangers keep the beams that it hangs on from turning; edge_load rates them (common practice)."""
    edge_load: Rated | None = None
    """Rated load of its hangers at the upper and lower edge, off their maker's sheet."""
    plies_fastened: StrictBool = True
    """Whether its plies are fastened together; apart, each buckles by itself (IRC 2021, R507.5: 10d at 16 in)."""
    ply_rows: Annotated[StrictInt, Field(ge=2, le=6)] = 2
    """Rows of 10d nails between each two plies (IRC 2021, R507.5: two, one along each edge)."""
    ply_spacing: Annotated[float, Measure(INCH, least=3, most=16)] = 16.0
    """Spacing of those nails along each row (IRC 2021, R507.5: 16 in at most)."""
    top: Height | None = None
    """Level of its top above grade; empty where what sits on it or what it hangs from decides (common practice)."""
    drop: Annotated[float, Measure(INCH, least=0, most=240)] | None = None
    """In place of top: how far its top lies below the undersides of the boards, 0 in for flush (common practice)."""


class Brace(Timber, GivenWood):
    """A knee brace from a post up to a beam, ``run`` along the beam and ``rise`` below its underside.

    ``towards`` the beam's start or end. Its ends: ``bolts`` of ``bolt_diameter`` through one or two plies
    lapped on the post and the beam, or a ``rated_load`` from the maker's sheet.
    """

    mark: Mark
    """Short name of the brace on sheets and drawings (common practice)."""
    kind: Literal["knee"] = "knee"
    """Kind of brace: a knee brace from post to beam (common practice)."""
    support: Mark
    """Mark of the post it stands at (common practice)."""
    beam: Mark
    """Mark of the beam it holds (common practice)."""
    towards: Literal["start", "end"]
    """Which end of the beam it leans towards (common practice)."""
    rise: Annotated[float, Measure(INCH, least=6, most=120)]
    """How far below the beam's underside it meets the post (common practice: 24 in and more)."""
    run: Annotated[float, Measure(INCH, least=6, most=120)]
    """How far along the beam it reaches (common practice: as far as it rises)."""
    plies: Annotated[StrictInt, Field(ge=1, le=2)] = 1
    """How many boards side by side, lapped on post and beam (common practice)."""
    bolts: Annotated[StrictInt, Field(ge=1, le=6)] | None = None
    """Number of bolts at each end (NDS 2018, 11.3.6 and 12.5); or give a rated load."""
    bolt_diameter: Annotated[float, Measure(INCH, least=0.25, most=1)] | None = None
    """Diameter of those bolts (NDS 2018, 12.1.3)."""
    rated_load: Rated | None = None
    """Rated load of the brace's ends, off their maker's sheet."""
    note: Text = ""
    """Where that rating of the maker's is printed."""


class Diagonal(GivenWood):
    """A strap or flat bar that braces the deck in its plane; it takes tension only, so a crossed pair is needed."""

    mark: Mark
    """Short name of the diagonal on sheets and drawings (common practice)."""
    start: Annotated[Point, Field(alias="from")]
    """Where it starts, in plan: x, y (common practice)."""
    end: Annotated[Point, Field(alias="to")]
    """Where it ends, in plan: x, y (common practice)."""
    rated_load: Rated | None = None
    """Rated tension of the strap with its fasteners, off its maker's sheet."""
    note: Text = ""
    """Where that rating of the maker's is printed."""


class CrossedRods(GivenWood):
    """Two steel rods that cross between two posts, each from the head of one to the foot of the other.

    They take tension only: of the two, the one that the lateral force stretches. A turnbuckle or nut in each takes up
    the slack. Their plane is square to the beams on the posts, or along them.
    """

    mark: Mark
    """Short name of the pair on sheets and drawings (common practice)."""
    from_post: Mark
    """Mark of one of the two posts (common practice)."""
    to_post: Mark
    """Mark of the other post (common practice)."""
    below_beam: Annotated[float, Measure(INCH, least=2, most=60)] = 6.0
    """How far below the beam's underside the upper ends meet the posts' middle lines (common practice)."""
    above_grade: Annotated[float, Measure(INCH, least=4, most=48)] = 8.0
    """How far above grade the lower ends meet them (common practice: clear of soil)."""
    diameter: Annotated[float, Measure(INCH, least=0.375, most=1.5)]
    """Diameter of the rods, threaded (AISC 360-16, J3.6)."""
    F_y: Strength = 36_000.0
    """Yield strength of the steel: 36,000 psi of ASTM A36 (AISC 360-16, A3)."""
    F_u: Strength = 58_000.0
    """Tensile strength of the steel: 58,000 psi of ASTM A36 (AISC 360-16, A3)."""
    rated_load: Rated | None = None
    """Rated tension of an end's connection to its post, off its maker's sheet."""
    note: Text = ""
    """Where that rating of the maker's is printed."""
