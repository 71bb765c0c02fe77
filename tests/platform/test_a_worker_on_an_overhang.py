"""A worker at the end of a beam before the joists are on: its far end lifts, by the lever rule.

Two 2x8 of 140 in. on posts 24 in. from the ends, 92 in. apart; 300 lb at the end: 300 x 24/92 = 78 lb, less half of the
beam's 68 lb (38.6 pcf: NDS Supplement 2018, 3.1.3). With its guards on, six tenths of the whole dead load hold it down.
"""

from __future__ import annotations

import re

import pytest
from cases import FOLDER

from bolewright.platform.file.reading import parse_project
from bolewright.platform.results.results import find_results
from bolewright.status import Status

TEXT = (
    (FOLDER / "b01_walkway.toml")
    .read_text(encoding="utf-8")
    .replace('"36 in"]\n', '"24 in"]\n')
    .replace('"104 in"]\n', '"116 in"]\n')
    .replace('uplift_tie = "900 lb"\n', "")
    .replace("guard_edges = []", "guard_edges = [2, 4]")
)
LOOSE = re.sub(r"(?m)^rotation_tie = .*\n", "", TEXT)
LIFT = 300 * 24 / 92 - 38.6 / 1728 * 3 * 7.25 * 140 / 2


def test_the_finished_walkway_stays_down() -> None:
    found = {(c.part, c.key): c for c in find_results(parse_project(TEXT)).checks}
    assert found["P3", "post.uplift"].status is Status.PASSES
    assert found["P3", "post.uplift"].demand == 0


def test_its_beam_alone_tips_under_a_worker() -> None:
    assert pytest.approx(44, abs=1) == LIFT
    states = [c for c in find_results(parse_project(TEXT)).checks if ".stage_" in c.key]
    assert any(c.part in ("S1", "P3") and "lift" in c.sentence for c in states)


def test_by_the_lever_rule_and_open_without_a_tie() -> None:
    """Six tenths of the beam's weight count, as for every uplift (common practice): 78 - 0.6 x 34 = 58 lb."""
    lift = 300 * 24 / 92 - 0.6 * 38.6 / 1728 * 3 * 7.25 * 140 / 2
    assert pytest.approx(58, abs=1) == lift
    rows = {
        (c.part, c.at): c for c in find_results(parse_project(LOOSE)).checks if c.key == "beam.stage_uplift"
    }
    assert {at for _, at in rows} == {"P1", "P2", "P3", "P4"}  # a worker at either end lifts the other seat
    for check in rows.values():
        assert check.status is Status.NOT_CHECKED
        assert f"by {lift:.0f} lb" in check.sentence
        assert "Tie it down there before anyone stands on it" in check.sentence


def test_its_tie_is_asked_for_it() -> None:
    tied = TEXT.replace('kind = "post"\n', 'kind = "post"\nuplift_tie = "100 lb"\n')
    rows = [c for c in find_results(parse_project(tied)).checks if c.key == "beam.stage_uplift"]
    assert len(rows) == 4
    for check in rows:
        assert check.status is Status.PASSES
        assert check.capacity == 100
        assert check.demand == pytest.approx(300 * 24 / 92 - 0.6 * 38.6 / 1728 * 3 * 7.25 * 140 / 2, rel=0.01)
        assert check.combination == "0.6D + one worker"


def test_nothing_is_asked_where_no_seat_lifts() -> None:
    """6 in. past its posts, 128 in. apart: 300 x 6/128 = 14 lb, six tenths of 34 lb hold it down."""
    still = TEXT.replace('"24 in"]\n', '"6 in"]\n').replace('"116 in"]\n', '"134 in"]\n')
    assert still != TEXT
    assert not [c for c in find_results(parse_project(still)).checks if c.key == "beam.stage_uplift"]


def test_a_strap_that_keeps_it_upright_counts_where_no_tie_is_named() -> None:
    rows = [c for c in find_results(parse_project(TEXT)).checks if c.key == "beam.stage_uplift"]
    (strap,) = {float(lb) for lb in re.findall(r'(?m)^rotation_tie = "(\d+) lb"', TEXT)}
    assert len(rows) == 4
    assert {c.capacity for c in rows} == {strap}
