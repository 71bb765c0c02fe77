"""Ratings that the user typed into the file: where each stands, what it is for, where it comes from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from bolewright.platform.project import Project

# Table of the file: each rating in it, and the key that says where that rating is printed.
RATINGS: dict[str, dict[str, str]] = {
    "bolt": {"rated_load": "rated_note", "rated_lateral": "rated_lateral_note"},
    "post": {"cap_lateral": "cap_note", "rotation_tie": "cap_note", "foot_tie": "cap_note"},
    "trunk_opening": {"rated_load": "note"},
    "strut": {"rated_foot": "note"},
    "connection": {"rated_load": "note", "rated_uplift": "note", "rated_lateral": "note"},
    "support": {"uplift_tie": "uplift_note"},
    "beam": {
        "lateral_tie": "tie_note",
        "rotation_tie": "tie_note",
        "uplift_tie": "tie_note",
        "edge_load": "tie_note",
    },
    "joists": {"uplift_tie": "tie_note", "lateral_tie": "tie_note", "edge_load": "tie_note"},
    "blocking": {"edge_load": "tie_note"},
    "brace": {"rated_load": "note"},
    "diagonal": {"rated_load": "note"},
    "crossed_rods": {"rated_load": "note"},
    "stairs": {
        "tread_bracket": "tread_note",
        "face_tie": "face_note",
        "head_edge": "face_note",
        "rail_tie": "rail_note",
    },
    "ladder": {
        "rung_rating": "fixing_note",
        "step_fixing": "fixing_note",
        "head_fixing": "fixing_note",
        "grip_rating": "fixing_note",
    },
    "hatch": {"held_open": "held_note"},
    "guard": {
        "hold_down": "hold_down_note",
        "lower_tie": "hold_down_note",
        "down_tie": "hold_down_note",
        "skew_tie": "hold_down_note",
        "rail_fastening": "rail_note",
        "infill_load": "infill_note",
    },
    "gate": {
        "hinge": "hardware_note",
        "latch": "hardware_note",
        "wheel": "hardware_note",
        "brace_fastening": "hardware_note",
    },
    "point_load": {"fastener_load": "fastener_note"},
}

# Load (lb) beyond which a rating of a single part is likely a slip of the pen (judgement).
PLAUSIBLE = {
    "edge_load": 1_500.0,
    "foot_tie": 8_000.0,
    "rated_foot": 12_000.0,
    "rated_load": 12_000.0,
    "rated_lateral": 6_000.0,
    "cap_lateral": 5_000.0,
    "rotation_tie": 5_000.0,
    "rated_uplift": 5_000.0,
    "uplift_tie": 8_000.0,
    "lateral_tie": 5_000.0,
    "tread_bracket": 1_500.0,
    "face_tie": 5_000.0,
    "head_edge": 3_000.0,
    "rail_tie": 4_000.0,
    "rung_rating": 1_500.0,
    "step_fixing": 1_500.0,
    "head_fixing": 2_500.0,
    "grip_rating": 2_000.0,
    "held_open": 1_000.0,
    "hold_down": 8_000.0,
    "lower_tie": 8_000.0,
    "down_tie": 2_000.0,
    "skew_tie": 2_000.0,
    "rail_fastening": 2_000.0,
    "infill_load": 500.0,
    "hinge": 2_000.0,
    "latch": 2_000.0,
    "wheel": 2_000.0,
    "brace_fastening": 4_000.0,
    "fastener_load": 12_000.0,
}


TO_BUY = (
    "required by the calculation, to be bought"  # where a rating says so no hardware is known that has it
)


@dataclass(frozen=True)
class Rating:
    """One rating of the file: the part or kind of part, the key, the load (lb), where it is printed."""

    table: str
    part: str
    key: str
    load: float
    source: str

    @property
    def words(self) -> str:
        """The rating in words, as in ``P6: cap side 800 lb``."""
        return f"{self.part}: {self.key.replace('_', ' ')} {self.load:,.0f} lb"


def _entries(project: Project) -> Iterator[tuple[str, str, Any]]:
    yield from (("bolt", name, bolt) for name, bolt in project.bolts.items())
    yield from (("post", name, post) for name, post in project.posts.items())
    yield from (("strut", name, strut) for name, strut in project.struts.items())
    yield from (("connection", name, hanger) for name, hanger in project.connections.items())
    for table, parts in (
        ("support", project.supports),
        ("beam", project.beams),
        ("joists", project.joists),
        ("blocking", project.blocking),
        ("brace", project.braces),
        ("trunk_opening", project.trunk_openings),
        ("diagonal", project.diagonals),
        ("crossed_rods", project.crossed_rods),
        ("guard", project.guards),
        ("gate", project.gates),
        ("point_load", project.point_loads),
    ):
        yield from ((table, part.mark, part) for part in parts)
    for table, one in (("stairs", project.stairs), ("ladder", project.ladder), ("hatch", project.hatch)):
        if one.given:
            yield table, table, one


def ratings_of(project: Project) -> tuple[Rating, ...]:
    """All ratings of a project, in the order of the file's model."""
    return tuple(
        Rating(table, mark, key, load, getattr(part, note))
        for table, mark, part in _entries(project)
        for key, note in RATINGS[table].items()
        if (load := getattr(part, key)) is not None
    )
