"""A hanger set at 45 degrees: a rating that names no skew is no pass (common practice: makers rate each skew)."""

from __future__ import annotations

from functools import cache

from cases import FOLDER

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

TEXT = (FOLDER / "b01_walkway.toml").read_text(encoding="utf-8")
SQUARE = 'direction = "0 deg"\nfirst = "8 in"\nlast = "132 in"'
SKEWED = 'direction = "45 deg"\nfirst = "4 in"\nlast = "66 in"'


@cache
def hangers(field: str, skew: str = "") -> dict[tuple[str, str, str], Check]:
    text = TEXT.replace(SQUARE, field).replace("[connection.H]", f"[connection.H]\n{skew}")
    wanted = ("hanger.rated", "hanger.rated_lateral", "joist.uplift")
    return {(c.part, c.key, c.at): c for c in find_results(parse_project(text)).checks if c.key in wanted}


def test_square_hangers_pass() -> None:
    assert all(c.status is Status.PASSES for c in hangers(SQUARE).values())


def test_a_rating_without_a_skew_is_open_at_45_degrees() -> None:
    found = [c for c in hangers(SKEWED).values() if c.key != "joist.uplift"]
    assert found
    for check in found:
        assert check.status is Status.NOT_CHECKED, check
        assert "45" in check.sentence


def test_an_uplift_rating_without_a_skew_is_no_pass_where_it_lifts() -> None:
    lifted = [c for c in hangers(SKEWED).values() if c.key == "joist.uplift" and c.demand > 0]
    assert not [c for c in lifted if c.status is Status.PASSES and c.ratio > 0]


def test_a_rating_for_less_skew_is_open_and_one_for_it_counts() -> None:
    less = hangers(SKEWED, 'rated_skew = "40 deg"')
    assert {c.status for c in less.values() if c.key == "hanger.rated"} == {Status.NOT_CHECKED}
    enough = [c for c in hangers(SKEWED, 'rated_skew = "45 deg"').values() if c.key == "hanger.rated"]
    assert {c.status for c in enough} == {Status.PASSES}
    assert {c.capacity for c in enough} == {1500.0}
