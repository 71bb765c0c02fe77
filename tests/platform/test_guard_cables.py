"""Cable infill: its pull on end posts, rail and joints, by statics by hand; open where the pull is not given."""

from __future__ import annotations

import pytest
from test_guard_ways import on_two
from test_guards import SQUARE, checks_of, guard

from bolewright.bracing.cable import cable_line_load, end_post_moment, end_post_reaction
from bolewright.platform.checks.guard_cables import KEYS
from bolewright.status import Status

NAME = "G on edge 2"
CABLE = {
    "infill": "cable",
    "gap": "3 in",
    "cable_pull": "225 lb",
    "rail_fastening": "2000 lb",
    "section": "6x6",
}


def test_statics_of_an_end_post() -> None:
    """225 lb every 3 in. is 75 lb/in.; over 40 in. it makes 75 x 40^2/8 = 15,000 lb·in and 1,500 lb at each end."""
    assert cable_line_load(225.0, 3.0) == 75
    assert end_post_moment(75.0, 40.0) == 15000
    assert end_post_reaction(75.0, 40.0) == 1500


def test_rows_of_cables() -> None:
    """36 in. over the deck, 1 1/2 in. of decking and 2 in. to the bolt: the post spans 39 1/2 in."""
    found = checks_of(on_two(**CABLE))
    M, R = 75 * 39.5**2 / 8, 75 * 39.5 / 2
    assert found[NAME, "guard.cable_post"].demand == pytest.approx(M / ((5.5 - 0.375) * 5.5**2 / 6))
    assert found[NAME, "guard.cable_rail"].demand == pytest.approx(R / (1.5 * 5.5))
    assert found[NAME, "guard.cable_rail_end"].demand == pytest.approx(R)
    assert found[NAME, "guard.cable_rail_end"].capacity == 2000
    # one 1/2 in. bolt across the grain of a 6x6: 470 x 0.7 x 0.9 (reference G5), far less than 1,481 lb
    joint = found[NAME, "guard.cable_joint"]
    assert joint.demand == pytest.approx(R)
    assert joint.capacity == pytest.approx(470 * 0.7 * 0.9, rel=0.005)
    assert joint.status is Status.FAILS


def test_cables_whose_pull_is_not_given_are_open() -> None:
    found = checks_of(on_two(infill="cable", gap="3 in"))
    for key in KEYS:
        assert found[NAME, key].status is Status.NOT_CHECKED, key
        assert "cable_pull" in found[NAME, key].sentence


def test_other_infill_is_not_asked() -> None:
    found = checks_of(SQUARE + guard())
    assert not {key for _, key in found if key.startswith("guard.cable")}


def test_cables_tear_the_rim_towards_its_end() -> None:
    """Row tear-out, NDS 2018, E.3: F_v' t s with C_D 0.9, s from the end post's bolts to the timber's end.

    Southern pine 175 psi x 0.97 wet (Supplement, Table 4B): per inch of end 175 x 0.97 x 0.9 x 1.5 lb. The code of the
    file asks no push along the rail (IRC 2021), so that the pull of 75 x 39.5 / 2 lb is all.
    """
    found = checks_of(on_two(**CABLE))
    rows = [c for (_, key), c in found.items() if key == "guard.framing_tear_out" and c.demand > 0]
    assert rows
    for row in rows:
        s = next(step for step in row.steps if step.formula.name == "row_tear_out").arguments["s_crit"]
        assert row.demand == pytest.approx(75 * 39.5 / 2)
        assert row.capacity == pytest.approx(175 * 0.97 * 0.9 * 1.5 * float(s))
