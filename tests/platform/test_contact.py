"""Bearing areas as the pieces touch: overlap by hand, C_b from the near edge (NDS 2018, 3.10.4), least length (IRC)."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.contact import Contact, contact_at
from bolewright.platform.layout.layout import Layout, Member, find_layout
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

PROJECTS = Path(__file__).parents[1] / "projects"
TEXT = (PROJECTS / "lookout_revision_a.toml").read_text(encoding="utf-8")
TREES = (PROJECTS / "two_trees_revision_a.toml").read_text(encoding="utf-8")


@cache
def layout_of(text: str) -> Layout:
    return find_layout(parse_project(text))


@cache
def checks(text: str) -> dict[tuple[str, str], Check]:
    return {(c.part, c.limit_state): c for c in find_results(parse_project(text)).checks}


def bears(mark: str, below: str, text: str = TEXT) -> tuple[Member, Contact]:
    layout = layout_of(text)
    member = layout.member(mark)
    seat = next(s for s in member.seats if s.below == below)
    return member, contact_at(layout, member, seat)


def argument(check: Check, formula: str, name: str) -> float:
    return next(float(s.arguments[name]) for s in check.steps if s.formula.name == formula)


def test_beams_that_cross_on_a_skew_touch_in_a_parallelogram() -> None:
    """Two 3 in. beams at an angle t: area 9/sin(t); along the upper 3/sin(t) everywhere, + 3/tan(t) at most."""
    member, contact = bears("S2", "C1")
    run, rise = 72.4375 - 14.5, 139.0
    sine, tangent = rise / math.hypot(run, rise), rise / run
    assert contact.area == pytest.approx(9 / sine, rel=1e-6)
    breadth, length = contact.sides(member.line)
    assert length == pytest.approx(3 / sine + 3 / tangent, rel=1e-6)
    assert breadth * length == pytest.approx(contact.area)
    assert contact.over_whole_width(member) == pytest.approx(3 / sine, rel=1e-6)


def test_no_C_b_where_the_near_edge_is_less_than_3_in_from_the_end() -> None:
    """C1 begins 3.9 in. before S1's middle: its bearing begins less than 3 in. from the end: C_b = 1 (NDS 3.10.4)."""
    layout = layout_of(TEXT)
    lower = layout.member("C1")
    _, contact = bears("S1", "C1")
    assert contact.along(lower.line)[0] < 3
    found = checks(TEXT)["C1", "bearing under S1"]
    assert argument(found, "adjusted_bearing", "C_b") == 1.0
    inside = TEXT.replace('["-54 11/16 in", "114 in"]', '["-58 11/16 in", "114 in"]')
    again = checks(inside)["C1", "bearing under S1"]
    length = argument(again, "bearing_stress", "l_b")
    assert argument(again, "adjusted_bearing", "C_b") == pytest.approx((length + 0.375) / length)


def test_joist_half_over_a_beams_end_bears_on_half() -> None:
    """A beam that ends on the middle line of a 1 1/2 in. joist bears half of it: 3 x 3/4 = 2.25 of 4.5 in2."""
    text = TREES.replace('to = ["156 in", "108 in"]', 'to = ["155 1/4 in", "108 in"]').replace(
        'mark = "C2"               # over the posts\nlayer = 1\nplies = 3',
        'mark = "C2"\nlayer = 1\nplies = 2',
    )
    last = max(layout_of(text).joists, key=lambda joist: joist.line.start[0])
    assert last.line.start[0] == pytest.approx(155.25)
    member, contact = bears(last.mark, "C2", text)
    assert contact.area == pytest.approx(2.25)
    assert abs(contact.off_centre(member.line)) == pytest.approx(0.375)
    found = checks(text)[last.mark, "length of bearing on C2"]
    assert found.status is Status.FAILS


def test_bracket_narrower_than_the_beam_on_it() -> None:
    """4 1/2 in. of beam on a bracket of 4 in. along the bolt: 16 in2 bear, and 1/4 in. at each side does not."""
    _, contact = bears("C1", "T1", TREES)
    assert contact.area == pytest.approx(16.0)
    assert checks(TREES)["C1", "length of bearing on T1"].status is Status.FAILS


def test_timber_straight_on_a_bolt_bears_on_the_bolts_width() -> None:
    """Timber across a 1 1/2 in. bolt: at most the bolt's diameter along the grain, not the length along the bolt."""
    text = TEXT.replace('seat = "steel bracket"', 'seat = "timber"')
    member, contact = bears("S2", "T2", text)
    assert contact.over_whole_width(member) == pytest.approx(1.5, abs=0.01)
    wide = text.replace('seat_length = "3 in"', 'seat_length = "3 in"\nseat_across = "2 1/2 in"')
    assert bears("S2", "T2", wide)[1].over_whole_width(member) == pytest.approx(2.5, abs=0.01)


def test_bearing_stress_is_load_over_the_overlap() -> None:
    """Statics: f = R / A with the area of the overlap, whichever way it is printed."""
    found = checks(TEXT)["S2", "bearing on C1"]
    _, contact = bears("S2", "C1")
    assert found.demand == pytest.approx(argument(found, "bearing_stress", "R") / contact.area)
