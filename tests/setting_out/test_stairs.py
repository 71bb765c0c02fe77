"""Stairs: risers alike and within the limit, treads that close on the floor, by geometry."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.stairs import risers
from bolewright.setting_out.stairs import stair_layout
from bolewright.sheets.lengths import Lengths, Tape
from bolewright.sheets.setting_out.stairs import stair_blocks
from bolewright.timber.stairs import riser_height

STAIRS = '\n[stairs]\nfoot = "2 in"\n'


@pytest.fixture(scope="module")
def demo(demo_text: str, demo_layout_of: Callable[[str], Layout]) -> Layout:
    """The demonstration with stairs that are set out: the level of their foot alone."""
    return demo_layout_of(demo_text + STAIRS)


def test_demo_by_hand(demo: Layout) -> None:
    """From 2 in. to the floor at 7 ft: 82 in., eleven risers of 7.4545 in., ten treads of 10 in."""
    found = stair_layout(demo)
    assert found is not None
    assert (found.count, len(found.treads)) == (11, 10)
    assert found.riser == pytest.approx(82 / 11)
    assert found.going == 100.0
    assert found.slope == pytest.approx(10 * math.hypot(82 / 11, 10.0))
    assert found.foot_cut == pytest.approx(82 / 11 - 1.5)
    # The notch is the height of a right-angled triangle over its longest side: twice its area over that side.
    assert found.throat == pytest.approx(11.25 - (82 / 11) * 10 / math.hypot(82 / 11, 10.0))


def test_treads_close_on_the_floor(demo: Layout) -> None:
    """One riser above the last tread lies the floor, and the last nosing is one run from the framing."""
    found = stair_layout(demo)
    assert found is not None
    up, out = found.treads[-1]
    assert up + found.riser == pytest.approx(demo.project.platform.floor_height - 2.0)
    assert out + found.run == pytest.approx(found.going)


@given(st.floats(4, 300), st.floats(5, 9))
def test_no_riser_is_too_high_and_one_fewer_would_be(rise: float, highest: float) -> None:
    """IRC 2021, R311.7.5.1: no riser above the highest allowed."""
    n = risers(rise, highest)
    assert riser_height(rise, 0.0, n) <= highest * (1 + 1e-6)
    assert n == 1 or rise / (n - 1) > highest


def test_no_stairs_unless_described(arrangement: Layout) -> None:
    assert stair_layout(arrangement) is None
    shown = stair_blocks(arrangement, Lengths(Tape.FEET)).items
    assert len(shown) == 1
    assert "[stairs]" in shown[0].items[0]


def test_a_thin_stringer_is_said(demo_text: str, demo_layout_of: Callable[[str], Layout]) -> None:
    thin = demo_layout_of(demo_text + STAIRS + 'stringer_depth = "9 1/4 in"\n')
    said = [b for b in stair_blocks(thin, Lengths(Tape.FEET)).items if getattr(b, "kind", None) is not None]
    assert any("less than" in item for block in said for item in block.items)
