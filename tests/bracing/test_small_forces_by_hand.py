"""Four small formulas by statics, numbers worked out by hand."""

import pytest

from bolewright.bracing.blocking import brace_edge_force
from bolewright.bracing.tie import hold_down_force
from bolewright.ground.concrete import weight_with_backfill
from bolewright.tree.bolt import resultant_pressure


def test_the_edge_of_a_block_is_pulled_by_a_couple_on_its_depth() -> None:
    """200 lb in. that it holds and 120 lb at 3/4 in. beside the middle, 290 lb in. in all, on 7 1/4 in."""
    assert brace_edge_force(200.0, 120.0, 0.75, 7.25) == pytest.approx(40.0)


def test_a_clip_holds_what_lifts_and_never_less_than_its_least() -> None:
    assert hold_down_force(150.0, 200.0) == pytest.approx(200.0)
    assert hold_down_force(-250.0, 200.0) == pytest.approx(250.0)


def test_pressures_square_to_each_other_add_up_as_a_3_4_5_triangle() -> None:
    assert resultant_pressure(400.0, 300.0) == pytest.approx(500.0)


def test_soil_over_a_pad_adds_to_its_concrete() -> None:
    """3 cu ft of concrete at 150 pcf and 10.4 cu ft of soil at 120 pcf."""
    assert weight_with_backfill(3 * 150.0, 10.4 * 120.0) == pytest.approx(1698.0)
