"""Every combination that a check of the platform may be governed by, with C_D as the checks use it, and its source."""

from __future__ import annotations

from collections.abc import Iterable
from math import isnan
from typing import NamedTuple

from bolewright.platform.checks.guard_common import CASE as GUARD_ALONE
from bolewright.platform.checks.guard_common import DURATION
from bolewright.platform.checks.stages import PUSH
from bolewright.platform.checks.worker import CASE as WORKER
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import (
    GUARD,
    LRFD,
    PERSON,
    Case,
    lrfd_cases,
    strength_cases,
    uplift_cases,
)
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Table
from bolewright.rendering.numbers import digits
from bolewright.timber.basis import LoadType, asd_basis, lrfd_basis

_LOADS = (LoadType.DEAD, LoadType.LIVE, LoadType.SNOW, LoadType.WIND)
_GUARD = "common practice, no clause: the load on a guard beside all of L, and its C_D"
_PERSON = "common practice: one heavy person at the worst spot in place of L"
_GUARD_FACTORED = "common practice, no clause: the load on a guard beside all of L, λ as for occupancy"
_PERSON_FACTORED = f"{_PERSON}, λ as for occupancy"
_SOURCES = {
    PERSON: _PERSON,
    GUARD: _GUARD,
    "0.6D + one person": f"{_PERSON}, uplift of a far support",
    "0.6D + L + guard": f"{_GUARD}, uplift of a far support",
    GUARD_ALONE: "the load on a guard or gate alone; C_D common practice, no clause",
    WORKER: "common practice: one worker on the frame while it is built",
    PUSH: "common practice: one worker's push on a part that is not braced yet",
    "0.7E": "ASCE 7-16, 2.4.5",
    "factored": "ACI 318-19, 5.3.1: the greatest of its combinations, named in the check's steps",
    "storm": "a trunk's movement to one side in strong wind, as seen or as the wind of 0.6W on its crown bends it, and "
    "what it brings, without other load",
}
_OWN = "the load that the check names"


class Row(NamedTuple):
    """One combination: its name, C_D in words, its source."""

    name: str
    C_D: str
    source: str


def combination_rows(results: Results) -> tuple[Row, ...]:
    """Those of the standard, those of common practice, and what else governs a check of this platform."""
    rows = {
        one.name: Row(one.name, digits(one.C_D), one.source)
        for one in asd_basis().with_loads(_LOADS).combinations
    }
    by_factors = results.project.code.design == "LRFD"
    cases: Iterable[Case] = (*strength_cases(), *uplift_cases(), *(lrfd_cases() if by_factors else ()))
    for case in cases:
        if case.guard and not results.project.guards:
            continue
        lasts = digits(case.C_D) if isnan(case.time_effect) else f"λ {digits(case.time_effect)}"
        rows.setdefault(case.name, Row(case.name, lasts, _case_source(case)))
    for name in dict.fromkeys(check.combination for check in results.checks):
        if name and name != "any":
            rows.setdefault(name, Row(name, _durations(results.checks, name), _source(name)))
    return tuple(rows.values())


def _case_source(case: Case) -> str:
    if isnan(case.time_effect):
        return _SOURCES.get(case.name, _OWN)
    listed = {f"{LRFD}{one.name}": one.source for one in lrfd_basis().combinations}
    return listed.get(case.name) or (_GUARD_FACTORED if case.guard else _PERSON_FACTORED)


def _source(name: str) -> str:
    if name in _SOURCES:
        return _SOURCES[name]
    if name.startswith(GUARD_ALONE):
        return _SOURCES[GUARD_ALONE]
    if name.startswith("1.2D"):
        return "ACI 318-19, 5.3.1"
    return _OWN


def _durations(checks: Iterable[Check], name: str) -> str:
    """The C_D that the steps of the checks in a combination take, where wood is among them."""
    found = {
        step.arguments["C_D"]
        for check in checks
        if check.combination == name
        for step in check.steps
        if "C_D" in step.arguments
    }
    return ", ".join(digits(C_D) for C_D in sorted(found)) or "–"


def combinations_table(results: Results) -> Table:
    """The combinations with their load duration factors."""
    caption = (
        "Load combinations, allowable stress design; C_D is for wood and its fasteners alone, "
        "– where no value of wood is adjusted"
    )
    if results.project.code.design == "LRFD":
        caption += "; those that begin with LRFD, with λ in place of C_D, are for joists alone"
    if results.project.guards:
        caption += f". {DURATION}"
    return Table(
        ("combination", "C_D", "source"), tuple(combination_rows(results)), caption.rstrip("."), "lrl"
    )
