"""Ratings that the user typed into the file: where each stands, what it is for, where it comes from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from bolewright.platform.project import Project

# Table of the file: each rating in it, and the key that says where that rating is printed.
RATINGS: dict[str, dict[str, str]] = {
    "bolt": {"rated_load": "rated_note", "rated_side": "rated_side_note"},
    "post": {"cap_side": "cap_note", "roll_tie": "cap_note", "foot_tie": "cap_note"},
    "connection": {"rated_load": "note", "rated_uplift": "note"},
    "support": {"uplift_tie": "uplift_note"},
    "carrier": {
        "side_tie": "tie_note",
        "roll_tie": "tie_note",
        "uplift_tie": "tie_note",
        "edge_load": "tie_note",
    },
    "joists": {"uplift_tie": "tie_note", "edge_load": "tie_note"},
    "blocking": {"edge_load": "tie_note"},
    "brace": {"rated_load": "note"},
    "diagonal": {"rated_load": "note"},
}

# Load (lb) beyond which a rating of a single part is likely a slip of the pen (judgement).
PLAUSIBLE = {
    "edge_load": 1_500.0,
    "foot_tie": 8_000.0,
    "rated_load": 12_000.0,
    "rated_side": 6_000.0,
    "cap_side": 5_000.0,
    "roll_tie": 5_000.0,
    "rated_uplift": 5_000.0,
    "uplift_tie": 8_000.0,
    "side_tie": 5_000.0,
}


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
    yield from (("connection", name, hanger) for name, hanger in project.connections.items())
    for table, parts in (
        ("support", project.supports),
        ("carrier", project.carriers),
        ("joists", project.joists),
        ("blocking", project.blocking),
        ("brace", project.braces),
        ("diagonal", project.diagonals),
    ):
        yield from ((table, part.mark, part) for part in parts)


def ratings_of(project: Project) -> tuple[Rating, ...]:
    """All ratings of a project, in the order of the file's model."""
    return tuple(
        Rating(table, mark, key, load, getattr(part, note))
        for table, mark, part in _entries(project)
        for key, note in RATINGS[table].items()
        if (load := getattr(part, key)) is not None
    )
