"""Ratings of the shipped projects: what their checks ask of each, or why the file has more (common practice).

A demonstration with generous ratings would pass whatever is built; so none is above 1.25 times what its checks ask, or
its source says why: it is sold so, or common practice. Alike hardware, of one value and source, counts once: what
governs it anywhere is what it is bought for.
"""

from __future__ import annotations

import copy
import math
import re
from typing import Any

import pytest
from test_ratings_taken_out import ONE, data_of, rated, results_of

from bolewright.platform.file.ratings import RATINGS, ratings_of
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results
from bolewright.sheets.brief.ratings import checks_on
from bolewright.status import Status

SHIPPED = ("hickory_perch", "lookout", "one_oak", "round_the_trunk", "two_trees")
MOST = 1.25  # times what its checks ask
EXCUSE = re.compile(r"\bsold\b|common practice", re.IGNORECASE)
Entry = dict[str, Any]
Kind = tuple[str, str, str, str]  # table, key, value, source


def kinds(data: dict[str, Any]) -> dict[Kind, list[Entry]]:
    """Every kind of hardware with a rating in a file, and the entries that give it."""
    found: dict[Kind, list[Entry]] = {}
    for table, row, key in rated(data):
        entry = data[table] if row == ONE else data[table][row]
        source = entry.get(RATINGS[table].get(key, "tie_note"), "")
        found.setdefault((table, key, entry[key], source), []).append(entry)
    return found


def pounds(text: str) -> float:
    number = re.fullmatch(r"([\d,.]+) lb", text)
    assert number is not None, text
    return float(number[1].replace(",", ""))


def runs_on(check: Check, load: float) -> bool:
    values = [check.capacity, *(v for step in check.steps for v in step.arguments.values())]
    return any(math.isclose(v, load, rel_tol=1e-9) for v in values if not math.isnan(v))


def is_used(results: Results, kind: Kind) -> bool:
    """Whether one check that is of this rating alone uses 1/1.25 of it."""
    table, key, value, _ = kind
    return any(
        check.ratio >= 1 / MOST and not check.key.endswith("together") and runs_on(check, rating.load)
        for rating in ratings_of(results.project)
        if (rating.table, rating.key) == (table, key) and rating.load == pounds(value)
        for check in checks_on(results, rating)
    )


def fails_with_less(data: dict[str, Any], kind: Kind) -> bool:
    """Whether a check fails, or turns open, with 1/1.25 of this rating wherever it is given: of several that share."""
    less = copy.deepcopy(data)
    for entry in kinds(less)[kind]:
        entry[kind[1]] = f"{pounds(kind[2]) / MOST:.6g} lb"
    return any(check.status is not Status.PASSES for check in results_of(less).checks)


@pytest.mark.parametrize("name", SHIPPED)
def test_no_rating_is_more_than_what_its_checks_ask_without_saying_why(name: str) -> None:
    data = data_of(name)
    results = results_of(data)
    assert all(check.status is Status.PASSES for check in results.checks)
    loose = [
        f"{table}: {key} {value}"
        for table, key, value, source in kinds(data)
        if not EXCUSE.search(source)
        and not is_used(results, (table, key, value, source))
        and not fails_with_less(data, (table, key, value, source))
    ]
    assert not loose


@pytest.mark.parametrize("name", ["hickory_perch"])
def test_the_brief_names_the_checks_of_the_stairs_ratings(name: str) -> None:
    """Taken out of the file each turns a check open, so each has one that asks something of it."""
    results = results_of(data_of(name))
    on_stairs = [r for r in ratings_of(results.project) if r.table == "stairs" or r.part == "HS"]
    assert len(on_stairs) == 6  # two of the hanger, bracket, face, head's edge, rail
    for rating in on_stairs:
        assert checks_on(results, rating), rating.words
