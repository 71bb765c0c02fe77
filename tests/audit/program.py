"""The only module that runs the program: its rows and forces, handed to the audit as plain numbers."""

from __future__ import annotations

import json
from functools import lru_cache, partial
from pathlib import Path

import numpy as np

from audit.paper import Member, Range, Row, Seat, Site
from bolewright.platform.file.reading import read_project
from bolewright.platform.loads.combine import envelope
from bolewright.platform.results.results import Results, find_results, to_json

TESTS = Path(__file__).parents[1]
FOLDERS = (
    TESTS.parent / "calcsheets",
    TESTS / "platform" / "cases",
    TESTS / "projects",
    TESTS / "projects" / "without_guard",
    TESTS / "platform" / "arrangements",
    TESTS / "audit" / "projects",
)
FILES = {f"{folder.name}/{file.stem}": file for folder in FOLDERS for file in sorted(folder.glob("*.toml"))}


LAST = 2  # results of so many platforms are kept: each takes up to 150 MB


@lru_cache(maxsize=LAST)
def results_of(name: str) -> Results:
    return find_results(read_project(FILES[name]))


def _range(path, influence) -> Range:
    e = envelope(path, influence)
    return Range(
        np.asarray(e.D),
        (e.L_most, e.L_least),
        (e.person_most, e.person_least),
        (e.S_most, e.S_least),
        (e.guard_most, e.guard_least),
    )


def _seat(path, mark: str, k: int) -> Range:
    return _range(path, path.effects[mark].reactions[np.array([k])])


def _effect(path, mark: str, name: str) -> Range:
    return _range(path, getattr(path.effects[mark], name))


@lru_cache(maxsize=LAST)
def site_of(name: str) -> Site:
    results = results_of(name)
    path = results.path
    members = {}
    for m in path.layout.members:
        e = path.effects[m.mark]
        seats = tuple(
            Seat(s.below, s.bearing.value, s.at, partial(_seat, path, m.mark, k))
            for k, s in enumerate(m.seats)
        )
        members[m.mark] = Member(
            m.mark,
            m.kind.value,
            m.section.name,
            m.line.length,
            np.array(m.line.start, float),
            np.array(m.line.u, float),
            m.field,
            seats,
            np.asarray(e.stations),
            partial(_effect, path, m.mark),
        )
    reactions = {s.mark: _range(path, path.load_on(s.mark)[None, :]) for s in path.layout.supports}
    return Site(FILES[name].read_text(), members, reactions, tuple(told_of(name).get("actions", ())))


@lru_cache(maxsize=LAST)
def told_of(name: str) -> dict:
    """The file results.json of a project."""
    return json.loads(to_json(results_of(name), FILES[name].read_text()))


@lru_cache(maxsize=LAST)
def rows_of(name: str) -> tuple[Row, ...]:
    """The rows of results.json, with the steps that the sheets print."""
    results = results_of(name)
    told = told_of(name)["checks"]
    rows = []
    for said, check in zip(told, results.checks, strict=True):
        steps = tuple((s.formula.name, s.arguments, s.result) for s in check.steps)
        number = [float("nan") if said[k] is None else said[k] for k in ("demand", "capacity", "ratio")]
        rows.append(
            Row(
                said["part"],
                said["key"],
                check.at,
                said["status"],
                *number,
                said["combination"],
                said["where"],
                said["limit_state"],
                steps,
            )
        )
    return tuple(rows)
