"""Every rating stands beside the checks that run on it, and on no other rating of the same value."""

from __future__ import annotations

import pytest

from bolewright.paths import shipped
from bolewright.platform.file.ratings import Rating, ratings_of
from bolewright.platform.file.reading import read_project
from bolewright.platform.results.results import Results, find_results
from bolewright.sheets.brief.ratings import checks_on


@pytest.fixture(scope="module")
def results() -> Results:
    return find_results(read_project(shipped("calcsheets") / "one_oak.toml"))


def keys_of(results: Results, table: str, part: str, key: str) -> set[str]:
    rating: Rating = next(
        r for r in ratings_of(results.project) if (r.table, r.part, r.key) == (table, part, key)
    )
    return {check.key for check in checks_on(results, rating)}


@pytest.mark.parametrize(
    ("table", "part", "key", "keys"),
    [
        ("diagonal", "X1", "rated_load", {"platform.in_plane"}),
        (
            "support",
            "T1",
            "uplift_tie",
            {"beam.stage_uplift", "tree_bolt.uplift", "tree_bolt.uplift_lateral"},
        ),
        (
            "connection",
            "HT",
            "rated_load",
            {"hanger.rated", "hanger.rated_lateral", "beam.edge_together"},
        ),
        ("beam", "H1", "edge_load", {"beam.rotation_hanger", "beam.edge_together"}),
        ("guard", "G", "hold_down", {"guard.hold_down"}),
        ("guard", "G", "infill_load", {"guard.infill_fastening"}),
    ],
)
def test_the_checks_that_run_on_it(results: Results, table: str, part: str, key: str, keys: set[str]) -> None:
    assert keys_of(results, table, part, key) == keys


def test_none_is_left_without_its_checks(results: Results) -> None:
    """One oak rests on every rating of its file: none may be told to ask for nothing."""
    assert [r.words for r in ratings_of(results.project) if not checks_on(results, r)] == []


def test_what_holds_a_post_on_a_joist_s_end_alone() -> None:
    two = find_results(read_project(shipped("calcsheets") / "two_trees.toml"))
    (mark,) = (g.mark for g in two.project.guards if g.down_tie is not None)
    assert keys_of(two, "guard", mark, "down_tie") == {"guard.load_down"}
