"""Pegs, strings and diagonals: two tapes crossed must give the post back, by circle intersection."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point

from bolewright.paths import shipped
from bolewright.platform.file.reading import read_project
from bolewright.platform.layout.layout import Layout, find_layout
from bolewright.setting_out.ground import GroundPlan, Peg, ground_plan, leg_345
from bolewright.setting_out.holes import holes
from bolewright.setting_out.squaring import rectangle_diagonal
from bolewright.setting_out.tolerance import rounded
from bolewright.setting_out.trunk import girth_of


def _crossed(plan: GroundPlan, peg: Peg, round_off: bool = False) -> tuple[float, float]:
    """Where two tapes cross, in front of the tape points: intersection of two circles in closed form."""
    a, b = plan.base.point(0.0, plan.working), plan.base.point(plan.base.line.length, plan.working)
    r_a, r_b = (rounded(x) if round_off else x for x in (peg.from_a, peg.from_b))
    d = math.dist(a, b)
    s = (r_a**2 - r_b**2 + d**2) / (2 * d)
    h = math.sqrt(max(r_a**2 - s**2, 0.0)) * (1 if peg.offset >= plan.working else -1)
    u = ((b[0] - a[0]) / d, (b[1] - a[1]) / d)
    return (a[0] + s * u[0] - h * u[1], a[1] + s * u[1] + h * u[0])


def test_two_tapes_give_every_post_back(arrangement: Layout) -> None:
    plan = ground_plan(arrangement)
    if plan is None:
        assert all(s.kind == "tree bolt" for s in arrangement.supports)
        return
    posts = {s.mark: s.at for s in arrangement.supports if s.kind == "post"}
    assert {p.name for p in plan.posts} == set(posts)
    for peg in plan.posts:
        assert peg.point == pytest.approx(posts[peg.name], abs=1e-9)
        if peg.from_a > 1 and abs(peg.offset - plan.working) > 1:
            assert _crossed(plan, peg) == pytest.approx(posts[peg.name], abs=1e-6)


def test_tapes_read_to_a_sixteenth_place_the_demo_posts_within_an_eighth(demo: Layout) -> None:
    plan = ground_plan(demo)
    assert plan is not None
    for peg in plan.posts:
        assert math.dist(_crossed(plan, peg, round_off=True), peg.point) < 1 / 8


def test_demo_by_hand(demo: Layout) -> None:
    """T1 (-17, 0), T2 (17, 0), P1 (-36, 114), P2 (48, 114); working line 12 + 12 in. before the axis."""
    plan = ground_plan(demo)
    assert plan is not None
    assert (plan.base.a, plan.base.b, plan.working) == ("T1", "T2", 24.0)
    found = {p.name: (p.from_a, p.from_b) for p in plan.posts}
    assert found["P1"] == pytest.approx((math.hypot(19, 90), math.hypot(53, 90)))
    assert found["P2"] == pytest.approx((math.hypot(65, 90), math.hypot(31, 90)))
    assert plan.diagonal == pytest.approx(math.hypot(84, 90))
    assert {c.what: c.wanted for c in plan.closings}["P1 to P2, centres"] == pytest.approx(84)
    assert all(p.clear_a and p.clear_b for p in (*plan.posts, *plan.corners))


def test_diagonals_are_equal_and_strings_close(arrangement: Layout) -> None:
    plan = ground_plan(arrangement)
    if plan is None:
        return
    one, two, three, four = (c.point for c in plan.corners)
    assert math.dist(one, three) == pytest.approx(plan.diagonal)
    assert math.dist(two, four) == pytest.approx(plan.diagonal)
    assert abs(rounded(math.dist(one, three)) - rounded(math.dist(two, four))) <= 1 / 16
    for string, side in zip(plan.strings, (plan.width, plan.height) * 2, strict=True):
        assert string.length == pytest.approx(side + 2 * plan.setback)
        places = [at for _, at in string.marks]
        assert places == sorted(places)
        assert places[-1] - places[0] == pytest.approx(side)


@given(st.floats(24, 600), st.floats(24, 600))
def test_a_3_4_5_leg_is_a_right_triangle_that_fits(width: float, height: float) -> None:
    leg = leg_345(width, height)
    assert leg.short**2 + leg.long**2 == pytest.approx(leg.slope**2)
    assert leg.short <= min(width, height) + 1e-6
    assert leg.long <= max(width, height) + 1e-6
    assert leg.short % 6 == 0


def test_demo_holes_by_hand(demo: Layout) -> None:
    """Round hole filled with concrete, less the 5 1/2 in. post from the pad up; bags at 0.60 cu ft and 10 % more."""
    kinds = {s.mark: s.footing for s in demo.supports}
    for hole in holes(demo):
        footing = demo.project.footings[kinds[hole.post] or ""]
        whole = math.pi * footing.width**2 / 4 * footing.depth
        post = 5.5**2 * (footing.depth - footing.pad)
        assert hole.concrete_volume == pytest.approx((whole - post) / 1728)
        assert hole.bags == math.ceil(hole.concrete_volume * 1.1 / 0.6)
        assert hole.dig == footing.depth
        assert hole.foot == footing.depth - footing.pad


def test_every_tape_of_the_check_passes_every_trunk(arrangement: Layout) -> None:
    """What must come out can be measured: by shapely, no tape runs through a trunk, and each is as long as it says."""
    plan = ground_plan(arrangement)
    if plan is None:
        return
    for closing in plan.closings:
        if closing.ends is None:
            continue
        assert math.dist(*closing.ends) == pytest.approx(closing.wanted)
        for tree in arrangement.project.trees:
            trunk = Point(tree.at).buffer(girth_of(tree) / (2 * math.pi) - 0.01)
            assert not LineString(closing.ends).intersects(trunk), closing.what


def test_a_trunk_in_the_diagonals_is_measured_past() -> None:
    """The second example: a beech 30 in. thick in the middle of posts 116 by 104 in. apart.

    Marks 60 in. up the sides from either end: every tape is sqrt(116^2 + 60^2), and clears the bark by 3 in. or more.
    """
    layout = find_layout(read_project(shipped("calcsheets") / "round_the_trunk.toml"))
    plan = ground_plan(layout)
    assert plan is not None
    assert [c.wanted for c in plan.squaring] == pytest.approx([math.hypot(116, 60)] * 4)
    marks = {name: at for string in plan.strings for name, at in string.marks if name.startswith("mark")}
    assert marks == pytest.approx({"mark a": 60, "mark b": 104 - 60, "mark c": 60, "mark d": 104 - 60})
    tree = layout.project.trees[0]
    to_bark = {c.what: c.wanted for c in plan.closings if c.what.startswith("Bark of BEECH to P1")}
    assert list(to_bark.values()) == pytest.approx([math.hypot(58, 52) - girth_of(tree) / (2 * math.pi)])


@given(st.floats(60, 300), st.floats(60, 300), st.floats(0.2, 1.0), st.floats(0.5, 3.0))
def test_unequal_tapes_show_a_corner_that_is_not_square(
    w: float, h: float, share: float, lean: float
) -> None:
    """Shift the far side by ``lean``: of two tapes to marks up the sides one grows, one shrinks."""
    q = share * h
    shift = lean * share
    grown, shrunk = math.hypot(w + shift, q), math.hypot(w - shift, q)
    straight = float(rectangle_diagonal(w=w, h=q))
    assert shrunk < straight < grown
    assert grown - shrunk == pytest.approx(2 * shift * w / straight, rel=0.05)
