"""Guards, gates, ladder, hatch as they are set out: by hand, on the tape."""

import math
from collections.abc import Callable

import pytest

from bolewright.platform.layout.layout import Layout
from bolewright.setting_out.access import hatch_cut, ladder_cut, stands
from bolewright.setting_out.guards import gate_cuts, rail_bays
from bolewright.sheets.lengths import Lengths, Tape
from bolewright.sheets.setting_out.access import access_blocks
from bolewright.sheets.setting_out.guards import guard_blocks

GUARD = """
[[guard]]
mark = "GC"
edges = [4]
places = ["3 in", "43 3/8 in", "76 3/4 in", "115 1/2 in"]
[[gate]]
edge = 4
along = "60 in"
width = "26 in"
"""


@pytest.fixture(scope="module")
def guarded(demo_text: str, demo_layout_of: Callable[[str], Layout]) -> Layout:
    """The demonstration with a guard and a gate on the edge of its ladder."""
    return demo_layout_of(demo_text + GUARD)


def test_rails_between_posts_by_hand(guarded: Layout) -> None:
    """4x4 posts at 3, 43 3/8, 76 3/4, 115 1/2 in.; the gate from 47 to 73; balusters of 1 1/2, gaps to 3 3/4 in.

    Between 4 3/4 and 41 5/8 in. are 36 7/8 in.: (36.875 - 3.75) / 5.25 = 6.3, so 7, and (36.875 - 10.5) / 8 = 3.297 in.
    """
    bays = rail_bays(guarded)
    length = math.dist(guarded.project.platform.outline[3], guarded.project.platform.outline[0])
    faces = [(0, 1.25), (4.75, 41.625), (45.125, 47), (73, 75), (78.5, 113.75), (117.25, length)]
    assert [(bay.low, bay.high) for bay in bays] == [pytest.approx(pair) for pair in faces]
    assert [bay.between for bay in bays] == [
        ("its end", "GC1"),
        ("GC1", "GC2"),
        ("GC2", "its end"),
        ("its end", "GC3"),
        ("GC3", "GC4"),
        ("GC4", "its end"),
    ]
    assert (bays[1].balusters, bays[1].gap) == (7, pytest.approx(26.375 / 8))
    assert bays[4].balusters == math.ceil((35.25 - 3.75) / 5.25)
    for bay in bays:
        assert bay.gap is not None
        assert bay.gap <= 3.75 + 1e-9
        assert bay.balusters * 1.5 + (bay.balusters + 1) * bay.gap == pytest.approx(bay.length)


def test_a_gate_by_hand(guarded: Layout) -> None:
    """Way 26 in., gaps 3/4: a leaf of 24 1/2 by 40 in. from 2 to 42 in. over the deck; hinges 24 in. apart about 22."""
    (gate,) = gate_cuts(guarded)
    assert (gate.low, gate.high, gate.leaf, gate.foot, gate.top) == pytest.approx(
        (47.0, 73.0, 24.5, 2.0, 42.0)
    )
    assert gate.hinges == pytest.approx((10.0, 34.0))
    assert gate.diagonal == pytest.approx(math.hypot(24.5, 40.0))
    # from the faces of GC2 at 45 1/8 and of GC3 at 75 in. to the leaf, which stands from 47 3/4 to 72 1/4 in.
    assert gate.beside == pytest.approx((47.75 - 45.125, 75 - 72.25))
    # stiles of 1 1/2 in.: 21 1/2 in. clear, (21.5 - 3.75) / 5.25 = 3.4, so 4: (21.5 - 6) / 5 in.
    assert (gate.balusters, gate.gap) == (4, pytest.approx(3.1))


def test_a_ladder_by_hand(guarded: Layout) -> None:
    """84 in. at 59 degrees, 9 rises of 9 1/3 in., rails 36 in. over the floor."""
    cut, (stand,) = ladder_cut(guarded), stands(guarded)
    assert cut is not None
    a = math.radians(59)
    assert cut.to_floor == pytest.approx(84 / math.sin(a))
    assert cut.over == pytest.approx(36 / math.sin(a))
    assert cut.rail == pytest.approx((84 + 36) / math.sin(a) + 5.5 / math.tan(a))
    assert len(cut.steps) == 8
    for k, step in enumerate(cut.steps, 1):
        assert step * math.sin(a) == pytest.approx(k * 84 / 9)
    assert stand.out == pytest.approx(84 / math.tan(a))
    # 20 in. clear, rails 1 1/2 in., about 60 in. from the corner
    assert stand.middles == pytest.approx((60 - 10.75, 60 + 10.75))
    assert stand.pad == (16.0, 16.0)


def test_what_is_printed(guarded: Layout, demo_text: str, demo_layout_of: Callable[[str], Layout]) -> None:
    length = Lengths(Tape.FEET)
    shown = [*guard_blocks(guarded, length).items, *access_blocks(guarded, length).items]
    text = repr(shown).replace("\\'", "'")
    for words in ("GC1 to GC2", "Gate GT", "7' 3 1/8", "From the level cut at the foot up", "3' 4\""):
        assert words in text, words
    assert "[stairs]" not in text  # a ladder leads up: no stairs are asked for
    bare = demo_layout_of(demo_text[: demo_text.index("[ladder]")])
    assert "[[guard]]" in repr(guard_blocks(bare, length).items)
    assert "[stairs]" in repr(access_blocks(bare, length).items)


def test_a_hatch_by_hand(demo_text: str, demo_layout_of: Callable[[str], Layout]) -> None:
    """30 by 36 in.: 46 7/8 in. across; boards of 5 1/2 in. and 1/8 in. gaps: 36 / 5.625 = 6.4, so 7."""
    cut = hatch_cut(demo_layout_of(demo_text + '\n[hatch]\nat = ["0 in", "75 in"]\n'))
    assert cut is not None
    assert (cut.length, cut.width, cut.boards) == (36.0, 30.0, 7)
    assert cut.diagonal == pytest.approx(math.hypot(36, 30))
