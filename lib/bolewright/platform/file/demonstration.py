"""Values of a file that equal those which the demonstration invented: counted and listed until they are confirmed."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

from bolewright.paths import shipped
from bolewright.platform.file.ratings import RATINGS
from bolewright.platform.project import Project

DEMONSTRATION = "lookout.toml"
# What the demonstration invents beside its ratings: what is measured at the tree and the place, or asked for there.
INVENTED: dict[str, tuple[str, ...]] = {
    "site": ("frost_depth", "soil", "ground_snow", "wind_speed", "S_DS"),
    "tree": (
        "girth",
        "bark",
        "height",
        "sway_seen",
        "sway_seen_at",
        "crown_area",
        "crown_center",
        "growth",
        "condition",
    ),
    "bolt": ("embedment",),
}


_SINGLE = ("site", "stairs", "ladder", "hatch")  # tables that a file has once


@dataclass(frozen=True)
class Same:
    """A value that equals the demonstration's: where it stands, and what it is as it was written there."""

    path: str
    shown: str

    @property
    def words(self) -> str:
        """The value in words."""
        return f"{self.path} = {self.shown}"


@cache
def _invented() -> dict[tuple[str, str], dict[Any, str]]:
    """For each table and key what the demonstration has: the value as it is read, and as it is written."""
    from bolewright.platform.file.reading import parse_project

    text = (shipped("calcsheets") / DEMONSTRATION).read_text(encoding="utf-8")
    written = {path: value for path, _, value in _written(tomllib.loads(text))}
    found: dict[tuple[str, str], dict[Any, str]] = {}
    for table, key, path, value in _values(parse_project(text, DEMONSTRATION)):
        if path in written:
            found.setdefault((table, key), {})[value] = str(written[path])
    return found


def _keys(table: str) -> tuple[str, ...]:
    return (*INVENTED.get(table, ()), *RATINGS.get(table, {}))


def _written(data: dict[str, Any]) -> Iterator[tuple[str, str, Any]]:
    for table in {*INVENTED, *RATINGS}:
        for path, entry in _rows(table, data.get(table, {}), lambda e, key: e.get(key)):
            yield from ((f"{path}.{key}", key, entry[key]) for key in _keys(table) if key in entry)


def _rows(table: str, entries: Any, get: Any) -> Iterator[tuple[str, Any]]:
    """Entries of a table with their paths: the table's own, or by name or mark."""
    if table in _SINGLE:
        yield table, entries
    elif isinstance(entries, dict):
        yield from ((f"{table}.{name}", entry) for name, entry in entries.items())
    else:
        yield from ((f"{table}.{get(entry, 'mark')}", entry) for entry in entries)


# The others are called by the plural.
_ATTRIBUTES = {
    "crossed_rods": "crossed_rods",
    "blocking": "blocking",
    "joists": "joists",
    **{name: name for name in _SINGLE},
}


def _values(project: Project) -> Iterator[tuple[str, str, str, Any]]:
    """Table, key, path and value of everything in a project that the demonstration could have invented."""
    for table in (*INVENTED, *(t for t in RATINGS if t not in INVENTED)):
        entries = getattr(project, _ATTRIBUTES.get(table, f"{table}s"))
        for path, entry in _rows(table, entries, getattr):
            for key in _keys(table):
                value = getattr(entry, key)
                if value not in (None, ""):
                    yield table, key, f"{path}.{key}", value


def unconfirmed(project: Project) -> tuple[Same, ...]:
    """Values equal to the demonstration's that the file does not confirm; none in a demonstration itself."""
    if project.demonstration:
        return ()
    known = _invented()
    return tuple(
        Same(path, known[table, key][value])
        for table, key, path, value in _values(project)
        if value in known.get((table, key), {}) and path not in project.confirmed
    )
