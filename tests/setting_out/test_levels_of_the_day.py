"""Cut heights and shims: the demonstration by hand, and laws of levelling on every arrangement."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bolewright.platform.layout.layout import Layout
from bolewright.setting_out.levels import LevelAt, find_levels
from bolewright.setting_out.stacks import stacks
from bolewright.timber.movement import shrinkage_ratio


def _at(layout: Layout) -> dict[str, LevelAt]:
    return {level.support: level for level in find_levels(layout).at}


def _readings(**below: str) -> str:
    return "\n".join(f'[[reading]]\nmark = "{mark}"\nbelow_line = "{text}"' for mark, text in below.items())


def test_demo_stack_by_hand(demo: Layout) -> None:
    """Floor 84; board 1 1/2; stringer 11 1/4; beam 11 1/4: seats 71 1/4, posts cut at 60 (project file)."""
    found = _at(demo)
    assert {m: level.planned for m, level in found.items()} == {
        "T1": 71.25,
        "T2": 71.25,
        "P1": 60.0,
        "P2": 60.0,
    }
    assert found["P1"].below_seat == 11.25
    footing = demo.project.footings[next(s.footing for s in demo.supports if s.mark == "P1") or ""]
    assert found["P1"].length == 60.0 + footing.depth - footing.pad
    assert found["T1"].wanted is None


def test_the_higher_bolt_holds_the_level(demo_with: Callable[[str], Layout]) -> None:
    """T1 reads 12 above the line, T2 12 1/2 above: T2 is 1/2 in. higher, T1 gets that shim, posts follow T2.

    The cut is 11 1/4 below T2's seat, 1 1/4 above the line; the concrete at P1 reads 103: post 104 1/4.
    The grade peg reads 59: the line is 58 3/4 over planned grade by T2, so the floor comes to 84 + 59 - 58 3/4.
    """
    layout = demo_with(_readings(T1="-12 in", T2="-12 1/2 in", P1="103 in", GRADE="59 in"))
    found, levels = _at(layout), find_levels(layout)
    assert levels.reference == "T2"
    assert found["T1"].shim == pytest.approx(0.5)
    assert found["T2"].shim == pytest.approx(0)
    assert found["P1"].wanted == pytest.approx(-1.25)
    assert found["P1"].length == pytest.approx(104.25)
    assert found["P1"].length_measured
    assert not found["P2"].length_measured
    assert levels.floor == pytest.approx(84.25)


def test_the_grade_peg_alone_says_where_to_bore(demo_with: Callable[[str], Layout]) -> None:
    """The peg lies 59 below the line: a seat at 71 1/4 lies 12 1/4 above it."""
    layout = demo_with(_readings(GRADE="59 in"))
    assert find_levels(layout).reference == "GRADE"
    assert _at(layout)["T1"].wanted == pytest.approx(-12.25)
    assert _at(layout)["T1"].shim is None


@given(st.integers(-480, 480), st.integers(-16, 16), st.integers(1200, 1900))
def test_where_the_line_stands_changes_no_cut(demo_with, sixteenths: int, apart: int, foot: int) -> None:
    """Two lines at different heights give the same shims and post lengths."""

    def lengths(line: int) -> tuple[float | None, ...]:
        text = _readings(
            T1=f"{(line - 200) / 16} in", T2=f"{(line - 200 + apart) / 16} in", P1=f"{(line + foot) / 16} in"
        )
        found = _at(demo_with(text))
        return (found["T1"].shim, found["T2"].shim, found["P1"].length)

    assert lengths(0) == pytest.approx(lengths(sixteenths))
    assert min(lengths(0)[0] or 0.0, lengths(0)[1] or 0.0) == pytest.approx(0)
    assert max(lengths(0)[0] or 0.0, lengths(0)[1] or 0.0) == pytest.approx(abs(apart) / 16)


@pytest.mark.parametrize(
    ("mark", "cut_by_hand"),
    [
        # A beam 1/8 in. deep over the posts: they are cut 1/8 lower. A stringer 1/8 deep stands on both the bolt
        # and the beam, so the cut below the seat stays.
        ("C1", 11.375),
        ("S1", 11.25),
    ],
)
def test_measured_depths_move_the_cut(demo_with, mark: str, cut_by_hand: float) -> None:
    layout = demo_with(f'[[as_built]]\nmark = "{mark}"\ndepth = "11 3/8 in"')
    found = _at(layout)
    assert found["P1"].planned == pytest.approx(found["T1"].planned - cut_by_hand)


def test_a_bolt_entered_half_an_inch_low_gets_a_shim(demo_with: Callable[[str], Layout]) -> None:
    layout = demo_with('[[as_built]]\nmark = "T1"\nlevel = "-1/2 in"')
    assert _at(layout)["T1"].shim == pytest.approx(0.5)
    assert _at(layout)["T2"].shim == pytest.approx(0)


def test_both_bolts_low_lower_the_floor_and_need_no_shim(demo_with: Callable[[str], Layout]) -> None:
    text = "\n".join(f'[[as_built]]\nmark = "{m}"\nlevel = "-1/2 in"' for m in ("T1", "T2"))
    assert [_at(demo_with(text))[m].shim for m in ("T1", "T2")] == pytest.approx([0, 0])


def test_demo_shrinkage_by_hand(demo: Layout) -> None:
    """11 1/4 in. more timber over the posts shrinks by the ratio of the species table.

    Linear between 30 % and oven dry (Wood Handbook ch. 4): S x H x (30 - 12) / 30.
    """
    found = _at(demo)
    more = found["P1"].dries - found["T1"].dries
    assert more == pytest.approx(shrinkage_ratio("Southern Pine") * 11.25 * 18 / 30)
    assert 0.4 < more < 0.6
    assert find_levels(demo).tilt == pytest.approx(more)


def test_stack_reaches_the_floor(arrangement: Layout) -> None:
    """Seat or cut, and every layer, add up to the floor; the seat is the underside of what sits there."""
    for stack in stacks(arrangement):
        assert stack.top + sum(layer.measured for layer in stack.layers) == pytest.approx(stack.floor)
        assert stack.top == pytest.approx(arrangement.seat_level(stack.support), abs=0.126)
