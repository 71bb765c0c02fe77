"""A worker at the end of a beam before the joists are on: its far end lifts, by the lever rule.

Two 2x8 of 140 in. on posts 24 in. from the ends, 92 in. apart; 300 lb at the end: 300 x 24/92 = 78 lb, less six tenths
(common practice) of half of the beam's 68 lb (38.6 pcf: NDS Supplement 2018, 3.1.3). With its guards on, six tenths of
the whole dead load hold it down.
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
TIED = TEXT.replace('kind = "post"\n', 'kind = "post"\nuplift_tie = "100 lb"\n')
WET = 62.4 * 0.55 / (1 + 0.009 * 0.55 * 28) * 1.28  # pcf: Southern Pine at 28 % (NDS Supplement 2018, 3.1.3)
HALF = WET / 1728 * 3 * 7.25 * 140 / 2
LIFT = 300 * 24 / 92 - 0.6 * HALF


def test_the_finished_walkway_stays_down() -> None:
    found = {(c.part, c.key): c for c in find_results(parse_project(TEXT)).checks}
    assert found["P3", "post.uplift"].status is Status.PASSES
    assert found["P3", "post.uplift"].demand == 0


def test_its_beam_alone_tips_under_a_worker() -> None:
    """Its weight, 34 lb at either post, has a moment of 34 x 92 about the other; the worker has 300 x 24."""
    assert pytest.approx(34.0, abs=0.05) == HALF
    assert HALF * 92 < 300 * 24
    rows = [c for c in find_results(parse_project(TIED)).checks if c.key == "beam.stage_uplift"]
    assert {(c.part, c.at) for c in rows} == {("S1", "P1"), ("S1", "P3"), ("S2", "P2"), ("S2", "P4")}
    for check in rows:
        assert check.demand == pytest.approx(LIFT, rel=1e-5)


def test_by_the_lever_rule_and_open_without_a_tie() -> None:
    """78.26 - 0.6 x 33.99 = 57.9 lb."""
    rows = {
        (c.part, c.at): c for c in find_results(parse_project(LOOSE)).checks if c.key == "beam.stage_uplift"
    }
    assert {at for _, at in rows} == {"P1", "P2", "P3", "P4"}  # a worker at either end lifts the other seat
    for check in rows.values():
        assert check.status is Status.NOT_CHECKED
        assert "by 58 lb" in check.sentence
        assert "Tie it down there before anyone stands on it" in check.sentence


def test_its_tie_is_asked_for_it() -> None:
    rows = [c for c in find_results(parse_project(TIED)).checks if c.key == "beam.stage_uplift"]
    assert len(rows) == 4
    for check in rows:
        assert check.status is Status.PASSES
        assert check.capacity == 100
        assert check.demand == pytest.approx(LIFT, rel=1e-5)
        assert check.combination == "0.6D + one worker"


def test_nothing_is_asked_where_no_seat_lifts() -> None:
    """6 in. past its posts, 128 in. apart: 300 x 6/128 = 14 lb, six tenths of 34 lb hold it down."""
    still = TEXT.replace('"24 in"]\n', '"6 in"]\n').replace('"116 in"]\n', '"134 in"]\n')
    assert still != TEXT
    assert not [c for c in find_results(parse_project(still)).checks if c.key == "beam.stage_uplift"]


def test_a_strap_that_keeps_it_upright_does_not_hold_it_down_too() -> None:
    """The worker who lifts the far seat also leans on the beam's edge: its strap is pulled on already."""
    assert re.search(r'(?m)^rotation_tie = "(\d+) lb"', TEXT)
    rows = [c for c in find_results(parse_project(TEXT)).checks if c.key == "beam.stage_uplift"]
    assert len(rows) == 4
    assert {c.status for c in rows} == {Status.NOT_CHECKED}
