"""Every row of the results, demand and capacity, against a second calculation of its kind; the springs in print too.

A row's ratio, demand and capacity are also those of the last step that its sheet prints, and of the worst of its cases.
"""

from __future__ import annotations

import math
from functools import cache

import pytest

from audit import springs
from audit.explained import EXPLAINED
from audit.kinds import AUDIT
from audit.not_yet import IN_WORDS, NOT_YET
from audit.paper import Row
from audit.program import FILES, results_of, rows_of, site_of
from audit.verdict_print import faults, worse_cases

TOLERANCE = 0.005


def numbers(row: Row) -> bool:
    """Whether a row has a demand and a capacity to audit."""
    deep = row.key in ("platform.place", "brace.place")  # the sentence says how deep; no line is worked out
    made = bool(row.printed) or row.key.endswith(".uplift") or deep
    return row.status != "not checked" and made and not math.isnan(row.ratio)


def differs(row: Row, demand: float, capacity: float) -> str:
    """What is apart by more than 0.5 %; empty where nothing is."""
    apart = []
    for name, ours, theirs in (("demand", demand, row.demand), ("capacity", capacity, row.capacity)):
        if abs(ours - theirs) > TOLERANCE * max(abs(ours), abs(theirs), 1e-9) + 1e-6:
            apart.append(f"{name} {ours:.6g}, by the program {theirs:.6g}")
    return f"{row.key} {row.part} {row.at}: {'; '.join(apart)}" if apart else ""


@pytest.fixture(scope="module", params=list(FILES))
def name(request: pytest.FixtureRequest) -> str:
    """One platform after the other through all tests that look at it: it is found once."""
    return str(request.param)


def test_ratio_demand_and_capacity_are_the_last_printed_step(name: str) -> None:
    found = [fault for check in results_of(name).checks for fault in faults(check)]
    assert not found, f"{len(found)}: " + " | ".join(found[:5])


def test_printed_case_is_the_governing_case(name: str) -> None:
    """No other case of the row's own calculation has a greater ratio."""
    found = [worse for check in results_of(name).checks for worse in worse_cases(check)]
    assert not found, f"{len(found)}: " + " | ".join(found[:5])


def test_demand_and_capacity(name: str) -> None:
    found = []
    keys_of(name)
    for row in rows_of(name):
        found += springs.apart(site_of(name), row)
        if not numbers(row) or row.key not in AUDIT:
            continue
        demand, capacity = AUDIT[row.key](site_of(name), row)
        apart = differs(row, demand, capacity)
        if apart and (row.key, name) not in EXPLAINED and (row.key, "") not in EXPLAINED:
            found.append(apart)
        if apart:
            assert demand / capacity <= row.ratio * (1 + TOLERANCE), f"unsafe: {apart}"
    assert not found, f"{len(found)} rows apart: " + " | ".join(found[:5])


@cache
def keys_of(name: str) -> tuple[frozenset[str], frozenset[str]]:
    """Keys of all rows of a platform, and of those with numbers: kept when the rows are long let go."""
    rows = rows_of(name)
    return frozenset(row.key for row in rows), frozenset(row.key for row in rows if numbers(row))


def met() -> set[str]:
    return {key for name in FILES for key in keys_of(name)[1]}


def test_every_kind_that_is_met_is_audited() -> None:
    assert met() - set(AUDIT) == NOT_YET
    assert not NOT_YET & set(AUDIT)


def test_what_is_only_said_in_words() -> None:
    said = {key for name in FILES for key in keys_of(name)[0]} - met()
    assert said == IN_WORDS


def test_few_are_explained() -> None:
    assert len(EXPLAINED) <= 6
    assert all(key in AUDIT for key, _ in EXPLAINED)
