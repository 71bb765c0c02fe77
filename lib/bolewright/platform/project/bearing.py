"""What the file says of what bears the platform: trees, bolts, posts, footings, hangers, supports."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field, StrictBool, StrictInt

from bolewright.platform.project.fields import (
    Height,
    Mark,
    Measure,
    Name,
    Point,
    Rated,
    Small,
    Strength,
    Strict,
    Text,
)
from bolewright.platform.project.given_for import GivenFor, GivenWood
from bolewright.platform.project.timber import Timber
from bolewright.units import DEGREE, INCH, INCH_PER_YEAR, NONE, PSI, SQUARE_FOOT, YEAR


class Tree(Strict):
    """A living tree that carries bolts.

    ``sway_seen`` is the movement to one side in strong wind, seen at the height ``sway_seen_at``. Without it
    the sway is estimated from the crown's front area and the height of its centre, times two.
    """

    mark: Mark
    """Short name of the tree on sheets and drawings (common practice)."""
    species: Name
    """Species of the living tree (Wood Handbook, Table 5-3b)."""
    at: Point
    """Centre of the trunk in plan: x, y (common practice)."""
    girth: Annotated[float, Measure(INCH, least=20, most=600)] | None = None
    """Girth over the bark at the height of the bolts, by tape; give this or the diameter (common practice)."""
    diameter: Annotated[float, Measure(INCH, least=6, most=200)] | None = None
    """Diameter over the bark at the height of the bolts; give this or the girth (common practice)."""
    bark: Annotated[float, Measure(INCH, least=0, most=6)]
    """Thickness of the bark, measured with a probe or a drill (common practice)."""
    height: Height
    """Height of the tree (common practice: sighted from a measured distance)."""
    condition: Text = ""
    """What the arborist found (ANSI A300 Part 9)."""
    sway_seen: Annotated[float, Measure(INCH, least=0, most=60)] | None = None
    """Movement of the trunk to one side in strong wind, as seen (common practice)."""
    sway_seen_at: Height | None = None
    """Height at which that movement was seen (common practice)."""
    crown_area: Annotated[float, Measure(SQUARE_FOOT, positive=True, most=10_000)] | None = None
    """Front area of the crown, for an estimate of sway (ASCE 7-16, 29.4)."""
    crown_center: Height | None = None
    """Height of the middle of the crown (common practice: sighted)."""
    crown_drag: Annotated[float, Measure(NONE, least=0.1, most=1.2)] = 0.3
    """Drag of the crown with its leaves streamlined (from memory: 0.2 to 0.5)."""
    cavity: Annotated[float, Measure(INCH, least=0, most=120)] = 0.0
    """Diameter of a hollow or rot in the trunk, as found by the arborist (Wagener 1963)."""
    growth: Annotated[float, Measure(INCH_PER_YEAR, positive=True, most=1)] = 0.25
    """Growth of the radius in a year, read off rings or taken as usual (common practice)."""
    service: Annotated[float, Measure(YEAR, positive=True, most=50)] = 10.0
    """Years until gaps, slots and brackets are looked at and set back again (common practice)."""
    margin: Small = 1.0
    """Room left between trunk and timber beyond sway and growth (common practice)."""


class Bolt(GivenFor):
    """A kind of tree bolt, by the numbers the user knows of it."""

    diameter: Annotated[float, Measure(INCH, least=0.5, most=4)]
    """Diameter of the steel in the wood, at the root of the thread (NDS 2018, 12.3.7)."""
    embedment: Annotated[float, Measure(INCH, least=1, most=40)]
    """Length of thread in sound wood, without bark, tip and soft wood (AWC TR12, length of bearing)."""
    F_y: Strength
    """Yield strength of the steel, off its mill certificate (AISC 360-16, A3)."""
    F_u: Strength
    """Tensile strength of the steel, off its mill certificate (AISC 360-16, A3)."""
    seat_length: Annotated[float, Measure(INCH, least=0.5, most=12)]
    """Length of the bearing along the bolt (NDS 2018, 3.10.2, where timber bears on it)."""
    seat_across: Annotated[float, Measure(INCH, least=0.5, most=12)] | None = None
    """Length of the seat across the bolt, off the bracket maker's sheet; empty: as along it, timber: the diameter."""
    seat: Literal["steel bracket", "timber"] = "steel bracket"
    """What bears on the bolt: a steel bracket, or the timber itself (NDS 2018, 3.10.2)."""
    seat_rise: Small | None = None
    """How far the bearing lies above the bolt's centre; empty for half the diameter (common practice)."""
    tail_diameter: Annotated[float, Measure(INCH, least=0.25, most=4)] | None = None
    """Root diameter of the outer thread that takes nut and washer; empty: as in the wood (AISC 360-16, J3)."""
    washer: Annotated[float, Measure(INCH, least=1, most=8)] | None = None
    """Diameter of the washer under the nut where timber bears on the bolt (NDS 2018, 3.10.2)."""
    slide: Small = 0.0
    """How far the bearing may slide outwards as the trunk moves (common practice)."""
    rated_load: Rated | None = None
    """Rated load from the bolt's maker, when there is one."""
    rated_note: Text = ""
    """Where the maker's rating is printed, and for what wood."""
    rated_lateral: Rated | None = None
    """Rated side load from the bolt's maker, when there is one."""
    rated_lateral_note: Text = ""
    """Where the maker's side rating is printed."""
    rated_with_fastening: StrictBool = False
    """Whether these ratings, and the clip's, hold with what fastens the beam to the bracket, off the maker's sheet."""
    beam_bolts: Annotated[StrictInt, Field(ge=1, le=4)] | None = None
    """Bolts through the bracket's side plates and the beam, in a row along the beam (NDS 2018, 12.3)."""
    beam_bolt_diameter: Annotated[float, Measure(INCH, least=0.25, most=1)] | None = None
    """Diameter of those bolts (NDS 2018, 12.1.3)."""
    beam_bolt_height: Annotated[float, Measure(INCH, positive=True, most=24)] | None = None
    """Height of those bolts over the beam's lower edge; empty: 4 D; its middle or more (NDS 2018, Table 12.5.1C)."""
    bracket_plate: Annotated[float, Measure(INCH, least=0.1, most=1)] = 0.25
    """Thickness of each side plate of the bracket, off its maker's sheet (NDS 2018, 12.3.3)."""


class Post(Timber, GivenFor):
    """A kind of post.

    ``base`` "fixed" counts the embedment as what keeps the post upright (IBC 1807.3, checked), "pinned" counts
    nothing. ``constrained``: a rigid surface, never lawn, holds it at grade. ``doubled``: 1/2 in. of motion at
    grade does no harm (1806.3.4). ``cap_lateral`` is the cap's rated side load, ``rotation_tie`` that of the strap or
    angle which ties each side of the beam down to the post.
    """

    K_e: Annotated[float, Measure(NONE, least=0.5, most=2.5)] = 2.1
    """Effective length factor: 1 held at both ends, 2.1 free at the top (NDS 2018, Appendix G)."""
    eccentricity: Small = 0.5
    """How far off centre the load may stand (common practice)."""
    cap_length: Annotated[float, Measure(INCH, least=1, most=24)] | None = None
    """Length of the post cap along the beam, when longer than the post (NDS 2018, 3.10.2)."""
    cap_seat: Annotated[float, Measure(INCH, least=0, most=2)] = 0.0
    """Thickness of the cap's plate between the post's top and the beam, off its maker's sheet."""
    base: Literal["pinned", "fixed"] = "pinned"
    """Held: the embedment keeps the post upright (IBC 2021, 1807.3); pinned: it counts for nothing."""
    constrained: StrictBool = False
    """Whether a rigid floor, never lawn, holds the post at grade (IBC 2021, 1807.3.2.2)."""
    doubled: StrictBool = False
    """Whether 1/2 in of motion at grade does no harm (IBC 2021, 1806.3.4)."""
    cap_lateral: Rated | None = None
    """Rated side load of the post cap, off its maker's sheet."""
    rotation_tie: Rated | None = None
    """Rated load of the tie on each side of the beam, off its maker's sheet."""
    cap_note: Text = ""
    """Where these ratings of the maker's are printed."""
    foot_bolts: Annotated[StrictInt, Field(ge=1, le=4)] | None = None
    """Bolts through the post's foot that stick out into its concrete on both sides (NDS 2018, 12.3 and Table 12E)."""
    foot_bolt_diameter: Annotated[float, Measure(INCH, least=0.5, most=1)] | None = None
    """Diameter of those bolts; empty for 1/2 in (NDS 2018, 12.1.3)."""
    foot_tie: Rated | None = None
    """Rated uplift of an anchor that holds the post's foot in its concrete, off its maker's sheet."""
    gusset: Literal["plywood", "steel"] | None = None
    """Plate on each side of the post's head and the beam on it, in place of rotation_tie (common practice)."""
    gusset_thickness: Annotated[float, Measure(INCH, least=0.03, most=1.5)] | None = None
    """Thickness of the gusset; plywood of at least 1/2 in (common practice)."""
    gusset_nail: Literal["8d", "10d", "12d", "16d", "20d"] | None = None
    """Common nail of the gusset by pennyweight (NDS 2018, Appendix L, Table L4)."""
    gusset_nails: Annotated[StrictInt, Field(ge=2, le=24)] | None = None
    """Number of nails of each gusset in the post, and again as many in the beam (NDS 2018, 12.3)."""


class Strut(Timber, GivenWood):
    """A kind of knee brace from a tree bolt low in the trunk up to a beam: one piece under the beam's middle.

    Its head is cut level and bears on the beam's underside; a steel plate on each side, with ``head_bolts`` in the
    beam and as many in the brace, takes the lateral force. Its foot stands in a steel shoe with ``foot_bolts``.
    """

    head_bolts: Annotated[StrictInt, Field(ge=1, le=4)] | None = None
    """Number of bolts of the head's plates in the beam, and again as many in the brace (NDS 2018, 12.3)."""
    foot_bolts: Annotated[StrictInt, Field(ge=1, le=4)] | None = None
    """Number of bolts through the shoe's plates and the foot, on its middle line (NDS 2018, 12.3)."""
    bolt_diameter: Annotated[float, Measure(INCH, least=0.25, most=1)] | None = None
    """Diameter of the bolts at head and foot (NDS 2018, 12.1.3)."""
    plate: Annotated[float, Measure(INCH, least=0.25, most=1)] = 0.25
    """Thickness of each steel plate at head and foot, hot-rolled (NDS 2018, 12.3.3)."""
    rated_foot: Rated | None = None
    """Rated load, along the brace, of the shoe between its foot and the tree bolt, off its maker's sheet."""
    note: Text = ""
    """Where that rating of the maker's is printed."""


class Footing(Strict):
    """A kind of footing: a hole filled with plain concrete, or a pad at its foot."""

    shape: Literal["round", "square"]
    """Round hole or square pad (IRC 2021, R507.3.1)."""
    width: Annotated[float, Measure(INCH, least=6, most=96)]
    """Diameter of a round footing, side of a square one (IRC 2021, R507.3.1)."""
    depth: Annotated[float, Measure(INCH, least=6, most=120)]
    """Depth of the footing's underside below grade (IRC 2021, R403.1.4)."""
    pad: Annotated[float, Measure(INCH, least=4, most=60)]
    """Thickness of the plain concrete under the post (ACI 318-19, 14.3.2)."""
    f_c: Annotated[float, Measure(PSI, least=2000, most=10_000)] = 2500.0
    """Strength of the concrete (IRC 2021, Table R402.2; ACI 318-19, 19.2)."""
    fill: Literal["concrete", "soil"] = "concrete"
    """What fills the hole round the post, up to grade (IBC 2021, 1807.3.3)."""
    gravel: Small = 0.0
    """Tamped gravel under the concrete, dug below the depth (common practice: 4 to 6 in)."""


class Connection(GivenFor):
    """A hanger with the rated load the user read off its maker's sheet."""

    rated_load: Rated | None = None
    """Rated load downwards of the hanger, off its maker's sheet."""
    rated_uplift: Rated | None = None
    """Rated load upwards of the hanger, off its maker's sheet."""
    rated_lateral: Rated | None = None
    """Rated lateral load of the hung end, in any direction in plan, off its maker's sheet."""
    rated_skew: Annotated[float, Measure(DEGREE, least=0, most=75)] | None = None
    """Greatest skew, off square, that its ratings hold at, off its maker's sheet; empty where it does not say."""
    seat_length: Annotated[float, Measure(INCH, least=1.5, most=6)] = 1.5
    """Length on which the timber sits in the hanger, 1 1/2 in at least (NDS 2018, 3.10; IRC 2021, R507.6.1)."""
    load_duration: Literal["normal", "as stated"] = "normal"
    """Normal: the rating is for ten years of load and is adjusted (NDS 2018, 2.3.2); as stated: it is not."""
    wet_included: StrictBool = False
    """Whether the rating already counts for timber in the weather (NDS 2018, 11.3.3)."""
    note: Text = ""
    """Where that rating of the maker's is printed."""


class SupportKind(StrEnum):
    """What a support is, as the file writes it."""

    TREE_BOLT = "tree bolt"
    POST = "post"
    KNEE_BRACE = "knee brace"


class Support(Strict):
    """A tree bolt or a post, by its position in plan.

    ``lateral`` is how the bearing on a tree bolt meets a lateral force: "tied" passes it both ways, "slides" runs
    in a ``slot`` along the bolt and is held across it, "slides across" is held along it and runs in a slot across it,
    "floats" slides both ways on a pad. Left out, it holds nothing. Two bolts with one ``direction`` are parallel
    although the trunk is round; without it a bolt points straight at the trunk's axis. A "knee brace" stands on the
    tree bolt ``foot``, ``rise`` below the beam's underside, and bears the beam at its place in plan.
    """

    mark: Mark
    """Short name of the support on sheets and drawings (common practice)."""
    kind: SupportKind
    """A bolt in the tree, a post on a footing, or a knee brace from a lower tree bolt (common practice)."""
    at: Point
    """Where the load comes down, in plan: x, y (common practice)."""
    tree: Mark | None = None
    """Mark of the tree the bolt is in (common practice)."""
    bolt: Mark | None = None
    """Name of the kind of bolt (common practice)."""
    direction: Annotated[float, Measure(DEGREE, least=-360, most=360)] | None = None
    """Direction of the hole into the trunk, in plan: 0 deg along x; empty: straight at its axis (common practice)."""
    post: Mark | None = None
    """Name of the kind of post (common practice)."""
    footing: Mark | None = None
    """Name of the kind of footing (common practice)."""
    foot: Mark | None = None
    """Mark of the tree bolt low in the trunk that a knee brace stands on (common practice)."""
    strut: Mark | None = None
    """Name of the kind of knee brace (common practice)."""
    rise: Annotated[float, Measure(INCH, least=12, most=120)] | None = None
    """How far below the beam's underside a knee brace bears on its tree bolt (common practice: as far as it runs)."""
    uplift_tie: Rated | None = None
    """Rated load of a tie that keeps the beam down, off its maker's sheet."""
    uplift_note: Text = ""
    """Where that rating of the maker's is printed."""
    lateral: Literal["tied", "slides", "slides across", "floats"] | None = None
    """How the bearing meets a lateral force: tied, slides along or across its bolt, or floats (common practice)."""
    slot: Annotated[float, Measure(INCH, positive=True, most=48)] | None = None
    """Length of the slot the bearing slides in (common practice: sway, growth and margin both ways)."""
    friction: Annotated[float, Measure(NONE, least=0.05, most=1)] = 0.4
    """Friction in the sliding bearing (common practice)."""
