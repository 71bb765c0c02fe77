"""One look at a candidate: all checks of the whole platform, and what is kept of them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from bolewright.changes.change import Data
from bolewright.changes.ways import ways
from bolewright.platform.file.reading import Location, find_faults
from bolewright.platform.layout.layout import LayoutError
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results
from bolewright.setting_out.complete import complete_results
from bolewright.status import Status

Name = tuple[str, str, str]  # key of the limit state, part, place


@dataclass(frozen=True)
class Miss:
    """A check that fails or is open.

    ``ratings`` are the ratings of the file that would settle it, with the value asked; ``helps`` the values that
    changes which may help it would set.
    """

    name: Name
    words: str
    severity: float
    open: bool
    ratings: tuple[tuple[Location, Any], ...] = ()
    helps: tuple[tuple[Location, Any], ...] = ()


@dataclass(frozen=True)
class Seen:
    """What all checks said: the ratio by name, and those that fail or are open. ``refused``: no layout, and why."""

    ratios: dict[Name, float]
    misses: tuple[Miss, ...] = ()
    refused: str = ""


def look(data: Data) -> Seen:
    """All checks of a project's data. Runs in any process: data in, numbers and words out."""
    project, faults = find_faults(data)
    if project is None:
        return Seen({}, (), faults[0].message if faults else "can't be read")
    try:
        results = complete_results(project)
    except LayoutError as error:
        return Seen({}, (), str(error))
    joists = {m.mark: m.field for m in results.path.layout.joists}
    ratios: dict[Name, float] = {}
    misses: dict[Name, Miss] = {}
    for check in results.checks:
        name = name_of(check, joists)
        ratios[name] = max(check.severity, ratios.get(name, 0.0))
        if check.status is not Status.PASSES:
            miss = _miss(data, results, check, name)
            if name not in misses or (miss.open, miss.severity) > (misses[name].open, misses[name].severity):
                misses[name] = miss
    return Seen(ratios, tuple(misses.values()))


def name_of(check: Check, joists: dict[str, str]) -> Name:
    """What a check is known by; all joists of a field are one, for closer ones are numbered anew."""
    at = check.at if check.at not in joists else f"a joist {joists[check.at]}"
    return (check.key, f"a joist {joists[check.part]}" if check.part in joists else check.part, at)


def _miss(data: Data, results: Results, check: Check, name: Name) -> Miss:
    ratings: tuple[tuple[Location, Any], ...] = ()
    helps: list[tuple[Location, Any]] = []
    for way in ways(data, results, check):
        if way[0].only_rates:
            ratings = ratings or way[0].values
        else:
            helps += [value for change in way[:3] for value in change.values]
    is_open = check.status is Status.NOT_CHECKED
    severity = math.inf if is_open else check.severity
    return Miss(name, f"{check.part}, {check.limit_state}", severity, is_open, ratings, tuple(helps))
