"""A limit state of a kind of part: what every check is made of, as data."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Topic(StrEnum):
    """The calc sheet a check stands on, in the order of the load path."""

    DECKING = "decking"
    JOISTS = "joists"
    BEAMS = "beams"
    HANGERS = "hangers"
    TREE_BOLTS = "tree bolts"
    POSTS = "posts"
    FOOTINGS = "footings"
    BRACES = "braces"
    ACCESS = "stairs and ladder"
    CLEARANCE = "clearance and growth"
    STABILITY = "stability"
    GUARDS = "guards"


class PartKind(StrEnum):
    """Kinds of part that have limit states, in the order of the load path."""

    DECKING = "decking"
    BLOCKING = "blocking"
    JOIST = "joist"
    BEAM = "beam"
    HANGER = "hanger"
    TREE_BOLT = "tree bolt"
    TREE = "tree"
    POST = "post"
    FOOTING = "footing"
    BRACE = "knee brace"
    CROSSED_RODS = "crossed rods"
    GUARD = "guard post"
    GUARD_EDGE = "guard along an edge"
    GATE = "gate"
    POINT_LOAD = "load at one place"
    STAIRS = "stairs"
    LADDER = "ladder"
    HATCH = "hatch"
    TRUNK_BRACE = "knee brace from a trunk"
    TRUNK_OPENING = "opening at a trunk"
    LIMB = "limb"
    WALL = "wall"
    PLATFORM = "platform"


@dataclass(frozen=True)
class LimitState:
    """One limit state of one kind of part.

    ``key`` names it in code and never changes. ``label`` is what is printed; ``{at}`` in it stands for the piece or
    place it is met at. ``change`` says what would make it pass. ``lateral``: it needs a platform that something holds
    laterally. ``when``: in words, which parts of the kind it applies to; empty for all of them.
    """

    key: str
    kind: PartKind
    topic: Topic
    label: str
    clause: str
    change: str
    lateral: bool = False
    when: str = ""

    @property
    def rated(self) -> bool:
        """Whether its capacity is a rating or limit that the user typed in."""
        return self.clause in (RATED, MAKER, LIMIT) or self.key in TYPED

    @property
    def compares(self) -> bool:
        """Whether it holds two ways of calculating beside each other, not a demand against a capacity."""
        return self.key == "platform.comparison"

    @property
    def places(self) -> bool:
        """Whether it finds pieces in the place of others: how deep is no share of a strength."""
        return self.key.endswith((".place", ".clash"))

    def at(self, place: str = "") -> str:
        """The label as it is printed, with the piece or place it is met at."""
        return " ".join(self.label.format(at=place).split())

    @property
    def plain(self) -> str:
        """The label without a piece, for a list of limit states."""
        return self.label.removeprefix("{at}").removesuffix("{at}").format(at="…").strip()


def incising(name: str, kind: PartKind, topic: Topic) -> LimitState:
    """Whether a piece of treated lumber was incised, asked of every kind of timber."""
    change = "Look at its faces for rows of slits, and enter incised = true or false."
    when = "where treated lumber commonly is incised and the file does not say"
    return LimitState(f"{name}.incising", kind, topic, "incising", "NDS 2018, 4.3.8", change, when=when)


def place(name: str, kind: PartKind, topic: Topic, key: str = "place") -> LimitState:
    """Whether a piece lies in the place of another, asked of every kind of piece that has a place of its own."""
    change = "Move, shorten or cut one of the two, or leave one out."
    when = "where it lies in the place of another piece"
    return LimitState(f"{name}.{key}", kind, topic, "in the place of {at}", GEOMETRY, change, when=when)


GEOMETRY = "Geometry; common practice (1/4 in.)"
# Limit states whose capacity is a rating, wholly or in part, though their clause is another.
TYPED = frozenset(
    {
        "stairs.rail_load",
        "blocking.uplift",
        "blocking.bracing_edges",
        "joist.edge_together",
        "beam.edge_together",
        "blocking.edge_together",
        "joist.uplift",
        "beam.uplift",
        "beam.stage_uplift",
        "joist.stage_uplift",
        "joist.lateral",
        "beam.lateral",
        "joist.uplift_lateral",
        "beam.uplift_lateral",
        "beam.rotation",
        "beam.rotation_joists",
        "tree_bolt.together",
        "beam.together",
        "post.cap_together",
        "trunk_brace.uplift",
        "trunk_brace.uplift_lateral",
        "tree_bolt.uplift",
        "tree_bolt.uplift_lateral",
        "post.uplift",
        "post.uplift_lateral",
        "post.cap_rotation",
        "platform.in_plane",
        "tree.restraint",
        "hatch.held",
    }
)
RATED = "Rated load, entered by the user"
MAKER = "Maker's rated load, entered by the user"
LIMIT = "Limit entered by the user"
WIND_UPLIFT = "ASCE 7-16, 2.4.1 (0.6D + 0.6W)"
PRACTICE = "Common practice"
