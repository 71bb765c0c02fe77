"""A rating that is taken out of a file turns checks open and makes none vanish: an open check never disappears."""

from __future__ import annotations

import copy
import os
import re
import tomllib
from collections import Counter
from collections.abc import Iterable, Iterator
from functools import cache
from typing import Any

import pytest

from bolewright.paths import shipped
from bolewright.platform.file.ratings import RATINGS
from bolewright.platform.file.reading import find_faults
from bolewright.platform.limit_states import LIMIT_STATES, PartKind
from bolewright.platform.limit_states.check import Check
from bolewright.platform.project import Project
from bolewright.platform.results.coverage import Cover, coverage
from bolewright.platform.results.results import Results, find_results
from bolewright.status import Status

SHIPPED = ("hickory_perch", "lookout", "lookout_too_small", "one_oak", "round_the_trunk", "two_trees")

# Without these nothing is counted as holding the joists there, or the rails at the steps: they do worse.
HOLDS = (("blocking", "edge_load"), ("ladder", "step_fixing"))
ONE = ""  # row of a table that is there once: stairs, ladder, hatch
# Of the hatch's framing: the file's reader hands them to its trimmers and headers, which list them as theirs.
HANDED_ON = {"hatch": ("lateral_tie", "rotation_tie", "uplift_tie", "edge_load")}


def data_of(name: str) -> dict[str, Any]:
    return tomllib.loads((shipped("calcsheets") / f"{name}.toml").read_text(encoding="utf-8"))


def results_of(data: dict[str, Any]) -> Results:
    project, faults = find_faults(data)
    assert project is not None, faults
    return find_results(project)


@cache
def whole(name: str) -> Results:
    return results_of(data_of(name))


def known() -> Iterator[tuple[str, tuple[str, ...]]]:
    for table, keys in RATINGS.items():
        yield table, (*keys, *HANDED_ON.get(table, ()))


def rated(data: dict[str, Any]) -> Iterator[tuple[str, str | int, str]]:
    """Every rating in a file: table, entry, key."""
    for table, keys in known():
        entries = data.get(table, {})
        yield from ((table, ONE, key) for key in keys if isinstance(entries, dict) and key in entries)
        rows = entries.items() if isinstance(entries, dict) else enumerate(entries)
        for row, entry in rows:
            for key in keys:
                if isinstance(entry, dict) and key in entry:
                    yield table, row, key


# One rating of each kind is taken out by itself and all of a file together, unless every single one is asked for.
EVERY_ONE = "BOLEWRIGHT_EVERY_RATING" in os.environ


def cases() -> list[tuple[str, str, str | int, str]]:
    """A case for every kind of rating, or for every one."""
    found = {}
    for name in SHIPPED:
        data = data_of(name)
        for table, row, key in rated(data):
            entry = data[table] if row == ONE else data[table][row]
            kinds = (entry.get("kind"), entry.get("type"))
            found.setdefault(
                (name, table, row, key) if EVERY_ONE else (table, key, *kinds), (name, table, row, key)
            )
    return list(found.values())


CASES = cases()


# Rows of the one joist or block of a field that governs: without a rating another may.
OF_A_FIELD = re.compile(
    r"(joist|blocking)\.(bending|bending_through|shear|bearing|uplift)_lateral|joist\.lateral"
)


def name_of(check: Check, *, of_fields: bool = False) -> tuple[str, str, str]:
    part = check.part.rstrip("0123456789") if of_fields and OF_A_FIELD.fullmatch(check.key) else check.part
    return part, check.key, check.limit_state


def test_every_rating_of_the_file_is_known() -> None:
    """A key that is read as a rated load anywhere in the model is in the list that this test walks."""
    assert {f"{table}.{key}" for table, keys in known() for key in keys} >= {
        f"{info.alias or name}.{key}"
        for name, info in Project.model_fields.items()
        for key in _rated_keys(info.annotation)
    }


def _rated_keys(annotation: Any) -> Iterator[str]:
    from bolewright.workbook.schema import _section_model

    _, model = _section_model(annotation)
    for key, info in model.model_fields.items() if model else ():
        described = (info.description or "").lower()
        if described.startswith("rated"):
            yield key


@pytest.mark.parametrize(("name", "table", "row", "key"), CASES)
def test_without_a_rating_checks_turn_open_and_none_vanishes(
    name: str, table: str, row: str | int, key: str
) -> None:
    data = copy.deepcopy(data_of(name))
    del (data[table] if row == ONE else data[table][row])[key]
    before, after = whole(name).checks, results_of(data).checks
    holds = (table, key) in HOLDS
    is_now = nothing_vanished(before, after, of_fields=holds)
    for check in before:
        then = is_now[name_of(check, of_fields=holds)]
        if then.status is Status.NOT_CHECKED:
            continue
        if holds:
            assert then.severity >= check.severity * (1 - 1e-9)
            continue
        assert then.status is check.status
        assert then.severity == pytest.approx(check.severity, rel=1e-9)


def nothing_vanished(
    before: Iterable[Check], after: Iterable[Check], *, of_fields: bool = False
) -> dict[tuple[str, str, str], Check]:
    """The checks after a rating was taken out, by name: each there was is there still."""
    was, now = (Counter(name_of(check, of_fields=of_fields) for check in some) for some in (before, after))
    assert not was - now
    assert now.total() >= was.total()
    return {
        name_of(check, of_fields=of_fields): check
        for check in sorted(after, key=lambda check: check.severity)
    }


@pytest.mark.parametrize("name", SHIPPED)
def test_without_any_rating_no_check_vanishes_and_none_gets_milder(name: str) -> None:
    data = copy.deepcopy(data_of(name))
    taken = list(rated(data))
    for table, row, key in taken:
        del (data[table] if row == ONE else data[table][row])[key]
    before, after = whole(name).checks, results_of(data).checks
    is_now = nothing_vanished(before, after, of_fields=True)
    opened = 0
    for check in before:
        then = is_now[name_of(check, of_fields=True)]
        if then.status is Status.NOT_CHECKED:
            opened += check.status is not Status.NOT_CHECKED
            continue
        assert then.severity >= check.severity * (1 - 1e-9)
    assert opened >= len({(table, key) for table, _, key in taken}) / 2


# Kinds of part that a platform may do without: by the file's own tables, not by what the program found.
BY_THE_FILE = {
    PartKind.GUARD: lambda raw: "guard" in raw,
    PartKind.GUARD_EDGE: lambda raw: "guard" in raw,
    PartKind.GATE: lambda raw: "gate" in raw,
    PartKind.POINT_LOAD: lambda raw: "point_load" in raw,
    PartKind.TRUNK_OPENING: lambda raw: "trunk_opening" in raw,
    PartKind.LIMB: lambda raw: "limb" in raw,
    PartKind.CROSSED_RODS: lambda raw: "crossed_rods" in raw,
    PartKind.TRUNK_BRACE: lambda raw: any(s["kind"] == "knee brace" for s in raw["support"]),
    PartKind.HATCH: lambda raw: "hatch" in raw,
    PartKind.LADDER: lambda raw: "ladder" in raw,
    PartKind.STAIRS: lambda raw: "stairs" in raw,
}


@pytest.mark.parametrize("name", SHIPPED)
def test_every_limit_state_of_every_kind_of_part_is_accounted_for(name: str) -> None:
    results = whole(name)
    rows = coverage(results.lateral, results.checks)
    raw = data_of(name)
    absent = {kind for kind, given in BY_THE_FILE.items() if not given(raw)}
    assert {row.state.key for row in rows} == {k for k, v in LIMIT_STATES.items() if v.kind not in absent}
    for row in rows:
        if row.cover is Cover.NOT_APPLICABLE:
            assert row.why
    assert sum(row.cover is Cover.CHECKED for row in rows) > 30
    assert {c.key for c in results.checks} <= set(LIMIT_STATES)


def test_where_nothing_lifts_the_row_says_so_and_counts_as_made() -> None:
    rows = [
        c for c in whole("lookout").checks if c.key in ("joist.uplift", "post.uplift", "tree_bolt.uplift")
    ]
    assert rows
    for row in rows:
        if row.demand == 0:
            assert row.status is Status.PASSES
            assert row.capacity >= 0
            assert "its least load is" in row.sentence


def test_a_check_that_was_not_made_is_open() -> None:
    """Take a check out of what was made: it comes back as open, by name."""
    from bolewright.platform.results.coverage import missing_checks

    results = whole("lookout")
    kept = [c for c in results.checks if not (c.part == "P1" and c.key == "footing.frost")]
    (found,) = missing_checks(results.lateral, kept)
    assert (found.part, found.key, found.status) == ("P1", "footing.frost", Status.NOT_CHECKED)
