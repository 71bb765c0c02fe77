"""Ways through a guard: gaps at stairs and ladder, gates by statics, bolts along the rail by a worked example."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from test_guards import SQUARE, block, checks_of, guard

from bolewright.bracing.gate import (
    gate_bolt_force,
    gate_moment,
    hinge_load,
    hinge_pull,
    hinge_push,
    inclined_bolt_force,
    leaf_brace_force,
    wheel_load,
)
from bolewright.calculation import Calculation
from bolewright.drawings.guards import guard_on_plan, rail_solids
from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.actions import ActionKind
from bolewright.platform.layout.gates import find_gates, leaf_balusters, leaf_weight
from bolewright.platform.layout.guard_joints import AcrossGrain, behind_post, bolt_across_grain
from bolewright.platform.layout.guard_ways import covered_edges
from bolewright.platform.layout.layout import Layout, LayoutError, find_layout
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.results.results import find_results
from bolewright.status import Status
from bolewright.take_off.guards import gate_items, gate_lengths

BLOCKS = "".join(
    block(f"{at} in", mark=mark) for at, mark in ((20, "BA"), (52, "BB"), (92, "BC"), (124, "BD"))
)
GATE = '\n[[gate]]\nedge = 2\nalong = "72 in"\nwidth = "30 in"\n'
LADDER = '\n[ladder]\nkind = "ship\'s ladder"\nedge = 2\nalong = "72 in"\n'
RATED = 'self_closing = true\nhinge = "600 lb"\nlatch = "250 lb"\nbrace_fastening = "400 lb"\n'
SIDE = [20.0, 52.0, 92.0, 124.0]


def on_two(**more: object) -> str:
    """A guard on edge 2, its posts at the blocks of the edge joist."""
    return SQUARE + BLOCKS + guard(edges=[2], places=[f"{at + 0.0:g} in" for at in SIDE], **more)


def layout_of(text: str) -> Layout:
    return find_layout(parse_project(text))


# ---------------------------------------------------------------------------------------------------------
# Where the guard is left open


def test_the_guard_leaves_room_for_stairs_by_itself() -> None:
    """Stairs of 36 in. in the middle of 144 in.: the guard stands on 0 to 54 and 90 to 144 in."""
    layout = layout_of(SQUARE + guard(edges=[1]) + "\n[stairs]\nedge = 1\n")
    assert [(r.start, r.start + r.line.length) for r in layout.guards] == [(0, 54), (90, 144)]
    assert [p.mark for r in layout.guards for p in r.posts] == ["G1", "G2", "G3", "G4"]
    assert covered_edges(layout.project) == {1}


@pytest.mark.parametrize(
    ("way", "words"),
    [
        (GATE, "gate GT, where the guard is open from 4' 9\" to 7' 3\""),
        (LADDER, "way of the ladder, where"),
    ],
)
def test_a_post_in_the_way_of_a_gate_or_a_ladder_is_said(way: str, words: str) -> None:
    """72 in. is the middle of both; the post was left out without a word."""
    text = SQUARE + BLOCKS + guard(edges=[2], places=["20 in", "52 in", "72 in", "92 in", "124 in"]) + way
    said = [
        c
        for c in find_results(parse_project(text)).checks
        if c.part == "G on edge 2" and c.key == "guard.receiver"
    ]
    assert [c.status for c in said] == [Status.NOT_CHECKED]
    assert "The post of guard G at 6' 0\" of edge 2 is left out" in said[0].sentence
    assert words in said[0].sentence
    without = checks_of(on_two() + way)
    assert ("G on edge 2", "guard.receiver") not in without


@pytest.mark.parametrize(
    ("end", "status"),
    [(54.0, Status.PASSES), (50.5, Status.PASSES), (50.0, Status.FAILS), (45.0, Status.FAILS)],
)
def test_gap_beside_the_stairs(end: float, status: Status) -> None:
    """R312.1.3: a 4 in. sphere passes a gap of 4 in., not one of 3 1/2 in.; the stairs start at 54 in."""
    text = SQUARE + guard(edges=[1], length=f"{end:g} in") + guard(mark="E", edges=[1], start="90 in")
    row = checks_of(text + "\n[stairs]\nedge = 1\n")["edge 1", "guard.gap"]
    assert row.status is status
    assert row.demand == pytest.approx(54.0 - end, abs=1e-4)


def test_a_ladder_without_a_gate_is_open() -> None:
    found = checks_of(on_two() + LADDER)
    assert found["edge 2", "guard.gap"].status is Status.NOT_CHECKED
    assert ("guard", "platform.guard") in found
    assert 2 not in covered_edges(parse_project(on_two() + LADDER))
    shut = checks_of(on_two() + LADDER + GATE)
    assert shut["edge 2", "guard.gap"].status is Status.PASSES
    assert 2 in covered_edges(parse_project(on_two() + LADDER + GATE))


def test_a_gate_beside_the_ladder_does_not_close_it() -> None:
    aside = GATE.replace("72 in", "40 in")
    assert checks_of(on_two() + LADDER + aside)["edge 2", "guard.gap"].status is Status.NOT_CHECKED


def test_a_gate_stands_before_the_ladder_by_itself() -> None:
    text = on_two() + LADDER.replace("72 in", "66 in") + '\n[[gate]]\nedge = 2\nwidth = "30 in"\n'
    way = find_gates(layout_of(text))[0].way
    assert (way.low, way.high) == (51, 81)


@pytest.mark.parametrize(
    ("gate", "said"),
    [
        ("\n[[gate]]\nedge = 4\n", "no guard stands on edge 4"),
        ("\n[[gate]]\nedge = 9\n", "none of the outline's edges"),
        ('\n[[gate]]\nedge = 2\nalong = "4 in"\n', "reaches past the ends"),
        (GATE + GATE.replace("edge", 'mark = "GU"\nedge'), "stand in one place"),
        ('\n[[gate]]\nedge = 2\nwidth = "12 in"\nside_gap = "4 in"\n', "no leaf"),
    ],
)
def test_gates_that_are_refused(gate: str, said: str) -> None:
    with pytest.raises(ProjectError, match=said):
        parse_project(on_two() + gate)


# ---------------------------------------------------------------------------------------------------------
# The gate


def test_statics_of_a_leaf_by_hand() -> None:
    """200 lb at the free edge of 30 in., leaf of 40 lb, hinges 24 in. apart, 3 1/2 in. post, 40 in. high.

    Moments about the lower hinge: (200 x 30 + 40 x 15)/24 = 275 lb; post 200 x 31.75 + 40 x 16.75 = 7,020 lb·in;
    brace (200 + 20) x 50/40 = 275 lb; wheel 220 lb; couple on bolts 3 1/4 in. apart 2,160 lb.
    """
    assert hinge_pull(200.0, 40.0, 30.0, 24.0) == 275
    assert hinge_load(275.0, 0.0, 200.0, 40.0) == pytest.approx(math.hypot(275, 240))
    # pushed outward at its top, 8 in. over the upper hinge: 200 x 32/24 about the lower one
    assert hinge_push(200.0, 40.0, 24.0) == pytest.approx(200 * 32 / 24)
    assert hinge_push(200.0, 20.0, 24.0) == 200  # hinges further apart than the leaf is high: the push itself
    assert hinge_load(0.0, 267.0, 0.0, 40.0) == pytest.approx(math.hypot(267, 40))
    assert gate_moment(200.0, 40.0, 30.0, 3.5) == 7020
    assert leaf_brace_force(200.0, 40.0, 30.0, 40.0) == pytest.approx(275)
    assert wheel_load(200.0, 40.0) == 220
    assert gate_bolt_force(7020.0, 1.0, 3.25) == pytest.approx(2160)
    assert inclined_bolt_force(900.0, 1200.0, 1200.0) == 1500


@given(st.floats(12, 60), st.floats(10, 80), st.floats(10, 40))
def test_the_hinges_hold_the_leaf(w: float, W: float, s: float) -> None:
    """Sum of moments about the free edge and of lateral forces: one hinge pulls as the other presses."""
    F = hinge_pull(200.0, W, w, s)
    assert F * s - 200.0 * w - W * w / 2 == pytest.approx(0, abs=1e-6)
    assert hinge_load(F, 0.0, 200.0, W) > F


def row(text: str, key: str) -> Check:
    return checks_of(text)["GT", f"gate.{key}"]


def test_rows_of_a_hung_gate() -> None:
    """The leaf hangs on G2 (52 in., 3 1/4 in. from the way) and closes to G3 (92 in.)."""
    text = on_two() + GATE + RATED
    layout = layout_of(text)
    at = find_gates(layout)[0]
    assert at.hung_on is not None
    assert at.closes_to is not None
    assert (at.hung_on.mark, at.closes_to.mark) == ("G2", "G3")
    W, w = leaf_weight(layout, at), 28.5
    assert at.leaf == w
    found = checks_of(text)
    F = (200 * w + W * w / 2) / 24
    assert found["GT", "gate.hinge"].demand == pytest.approx(math.hypot(F, 200 + W))
    assert found["GT", "gate.latch"].demand == 200
    assert found["GT", "gate.brace_fastening"].demand == pytest.approx((200 + W / 2) * math.hypot(w, 34) / 34)
    net = 3.5 * (3.5**3 - 0.5625**3) / (6 * 3.5)
    # From the post's middle to the leaf: 1 3/4 in. of post, 3 1/4 in. of rail past it, 3/4 in. of gap.
    M = 200 * (w + 5.75) + W * (w / 2 + 5.75)
    assert found["GT", "gate.post"].demand == pytest.approx(M / net)
    assert found["GT", "gate.rail"].demand == pytest.approx(200 * w / 4 / (3.5 * 1.5**2 / 6))
    assert found["GT", "gate.posts"].status is Status.PASSES
    # 1/2 in. bolts: 1 3/4 in. to the post's edge is less than 4 D, so NDS 2018 gives no value (12.5.1)
    assert found["GT", "gate.joint"].status is Status.NOT_CHECKED
    assert "4 D" in found["GT", "gate.joint"].sentence


def test_weight_of_the_leaf_by_hand() -> None:
    """Frame 2x4 of 28 1/2 x 34 in. with a brace of 44.4 in., five 2x2 balusters: cubic inches times the density."""
    from bolewright.platform.layout.wood_weight import timber_density

    layout = layout_of(on_two() + GATE)
    at = find_gates(layout)[0]
    rho = timber_density(at.gate.values(at.hung_on.section), True)  # type: ignore[union-attr]
    assert leaf_balusters(at) == 5  # 25 1/2 in. clear: (25.5 - 3.75)/5.25 = 4.1
    wood = 1.5 * 3.5 * (2 * 28.5 + 2 * 34 + math.hypot(28.5, 34)) + 5 * 1.5 * 1.5 * 34
    assert leaf_weight(layout, at) == pytest.approx(rho * wood / 1728)


def test_weight_of_a_leaf_of_mesh() -> None:
    """What is no wood counts 2 psf (common practice) of a leaf of 28 1/2 x 34 in. beside its frame."""
    from bolewright.platform.layout.wood_weight import timber_density

    layout = layout_of(on_two(infill="mesh", infill_load="60 lb") + GATE)
    at = find_gates(layout)[0]
    rho = timber_density(at.gate.values(at.hung_on.section), True)  # type: ignore[union-attr]
    frame = rho * 1.5 * 3.5 * (2 * 28.5 + 2 * 34 + math.hypot(28.5, 34)) / 1728
    assert leaf_weight(layout, at) == pytest.approx(frame + 2 * 28.5 * 34 / 144)


def test_cables_end_at_the_post_beside_a_gate() -> None:
    """The leaf's stile is 4 in. from the post's face, 3 1/4 in. of it past the guard's post: no cable runs there."""
    found = row(on_two(infill="cable", infill_load="60 lb", cable_pull="250 lb") + GATE, "opening")
    assert found.demand == pytest.approx(4.0, abs=1e-4)
    assert found.status is Status.FAILS  # a 4 in. sphere may not pass (IRC 2021, R312.1.3)


@pytest.mark.parametrize("after", [0.0, 2.0, 3.5, 6.0])
def test_the_gap_on_the_other_side_of_the_stairs(after: float) -> None:
    """Stairs from 54 to 90 in.: the guard before them is 1 in. off, the one past them begins ``after`` inches on."""
    text = SQUARE + guard(edges=[1], length="53 in") + guard(mark="E", edges=[1], start=f"{90 + after:g} in")
    row = checks_of(text + "\n[stairs]\nedge = 1\n")["edge 1", "guard.gap"]
    assert row.demand == pytest.approx(max(1.0, after), abs=1e-4)
    assert row.status is (Status.PASSES if after < 4 else Status.FAILS)


def test_a_couple_on_thin_bolts() -> None:
    """3/8 in. bolts keep 4 D in a 4x4: the couple, with half of what hangs, against one bolt's value: it fails."""
    text = on_two(bolt_diameter="3/8 in", rail_posts=2) + GATE + RATED
    layout = layout_of(text)
    at = find_gates(layout)[0]
    W = leaf_weight(layout, at)
    found = row(text, "joint")
    Z = (200 * (28.5 + 5.75) + W * (28.5 / 2 + 5.75)) / 2 / 3.25
    assert found.demand == pytest.approx(math.hypot(Z, (200 + W) / 2))
    assert found.status is Status.FAILS


def test_a_wheel_bears_the_free_edge() -> None:
    text = on_two() + GATE + RATED + 'wheel = "300 lb"\n'
    found = checks_of(text)
    W = leaf_weight(layout_of(text), find_gates(layout_of(text))[0])
    assert found["GT", "gate.wheel"].demand == pytest.approx(200 + W / 2)
    # outward at the top, 5 in. over the upper hinge: 200 x 29/24 lb, and the leaf's weight: more than 200 + W
    assert found["GT", "gate.hinge"].demand == pytest.approx(math.hypot(200 * 29 / 24, W))
    for key in ("post", "joint", "brace_fastening", "posts"):
        assert found["GT", f"gate.{key}"].status is Status.PASSES, key


def test_what_is_not_given_is_open() -> None:
    found = checks_of(on_two() + GATE)
    for key in ("closing", "hinge", "latch", "brace_fastening"):
        assert found["GT", f"gate.{key}"].status is Status.NOT_CHECKED, key
    outward = row(on_two() + GATE + 'swing = "outward"\n', "swing")
    assert outward.status is Status.NOT_CHECKED


def test_a_post_too_far_from_the_gate_is_open() -> None:
    text = on_two() + GATE.replace("72 in", "76 in")
    assert row(text, "posts").status is Status.NOT_CHECKED


@pytest.mark.parametrize(("gap", "passes"), [("3 in", True), ("4 in", False)])
def test_gap_under_the_leaf(gap: str, passes: bool) -> None:
    wide = GATE.replace('"30 in"', '"32 in"')  # the posts beside it are 3 in. off its leaf
    found = row(on_two() + wide + f'bottom_gap = "{gap}"\n', "opening")
    assert (found.status is Status.PASSES) == passes


def test_a_gate_narrower_than_the_ladder_fails() -> None:
    """A ship's ladder is 20 in. clear; a gate of 18 in. is too narrow."""
    found = row(on_two() + LADDER + GATE.replace("30 in", "18 in"), "way")
    assert found.status is Status.FAILS
    assert found.ratio == pytest.approx(20 / 18)


def test_the_gates_moment_bends_the_edge_joist() -> None:
    """A hung leaf turns its post: the couple M is on the edge joist behind it, and its reactions differ by it."""
    text = on_two() + GATE + RATED
    path = find_load_path(layout_of(text))
    column, action = next(
        (path.first_push + i, a)
        for i, a in enumerate(a for a in path.layout.actions if a.kind is ActionKind.PUSH)
        if a.part == "GT"
    )
    own = path.effects["J1"]
    assert action.member == "J1"
    W = leaf_weight(path.layout, find_gates(path.layout)[0])
    M = 200 * (28.5 + 5.75) + W * (28.5 / 2 + 5.75)
    R = [float(own.reactions[i][column]) for i in range(2)]
    at = [seat.at for seat in own.member.seats]
    x = own.member.line.nearest(action.at)
    down_only = [200 * (at[1] - x) / (at[1] - at[0]), 200 * (x - at[0]) / (at[1] - at[0])]
    assert sum(R) == pytest.approx(200)
    assert abs(R[0] - down_only[0]) == pytest.approx(M / (at[1] - at[0]))


def test_lists_and_drawings_hold_the_gate() -> None:
    layout = layout_of(on_two() + GATE + RATED)
    sticks = list(gate_lengths(layout))
    assert [s.use for s in sticks].count("baluster") == 5
    assert sum(s.length for s in sticks if s.use in ("gate rail", "gate stile")) == pytest.approx(
        2 * (28.5 + 34)
    )
    named = {item.name: item.count for item in gate_items(layout)}
    assert named["hinge, GT"] == 2
    assert named["baluster screw, GT"] == 20
    assert any(getattr(item, "text", "") == "GT" for item in guard_on_plan(layout))
    assert sum(solid.mark == "GT" for solid in rail_solids(layout)) == 5  # two rails, two stiles, a brace


# ---------------------------------------------------------------------------------------------------------
# Bolts along the rail


def test_g5_one_bolt_across_the_posts_grain() -> None:
    """Reference G5: 1/2 in. bolt, 1 1/2 in. rim, 3 1/2 in. southern pine: Z 470 lb, wet, C_D 1.6: 526 lb (NDS Table
    12A prints 470); on a 6x6, that keeps 4 D, with its own G and thickness the same rim governs."""
    layout = layout_of(on_two(section="4x6"))
    post = layout.guards[0].posts[0]
    rim = behind_post(layout, post)
    assert rim is not None
    assert rim.mark == "J1"
    found = bolt_across_grain(
        layout_of(on_two(section="6x6")), post_of(on_two(section="6x6")), Calculation((1, 1))
    )
    assert isinstance(found, AcrossGrain)
    # mode IIIs: the rim governs, so the thicker post changes nothing: 470 x 0.7 x 1.6
    assert float(found.value) == pytest.approx(470 * 0.7 * 1.6, rel=0.005)


def post_of(text: str):  # type: ignore[no-untyped-def]
    return layout_of(text).guards[0].posts[0]


def test_along_the_rail_where_it_is_asked() -> None:
    """Five posts share 200 lb: on a 6x6, (36 + 1.5 + 3.625) x 40/3.25 + 20 = 526 lb against 526 lb."""
    keys = {"edges": [2], "section": "6x6", "handrail": True, "rail_posts": 5}
    five = (
        SQUARE
        + BLOCKS
        + block("72 in", mark="BE")
        + guard(places=[f"{at:g} in" for at in sorted([*SIDE, 72.0])], **keys)
    )
    found = checks_of(five)["G1", "guard.along"]
    assert found.demand == pytest.approx(40 * (36 + 1.5 + 3.625) / 3.25 + 20)
    assert found.ratio == pytest.approx(526.15 / 526.4, abs=0.01)
    # where four stand in the line, four share it, whatever the file says
    four = checks_of(on_two(section="6x6", handrail=True, rail_posts=5))["G1", "guard.along"]
    assert four.demand == pytest.approx(50 * (36 + 1.5 + 3.625) / 3.25 + 25)
    assert four.status is Status.FAILS


def test_no_rim_is_open() -> None:
    """On joists' ends without a rim nothing lies against the post along the rail."""
    found = checks_of(SQUARE + guard(edges=[1], handrail=True))
    assert found["G1", "guard.along"].status is Status.NOT_CHECKED
    assert "No rim" in found["G1", "guard.along"].sentence


def test_a_rim_takes_the_push_along_in_its_own_plane() -> None:
    """The couple P/n (H + t + d/2) bends the piece of rim behind the post; lateral force and couple act on the rim."""
    rim = '\n[[blocking]]\nmark = "R"\nkind = "rim"\nend = "end"\nfasteners = 5\n'
    layout = layout_of(SQUARE + rim + guard(edges=[3], handrail=True, rail_posts=2, section="6x6"))
    along = [a for a in layout.actions if a.what == "push along the guard"]
    assert along
    assert all(a.member.startswith("R") for a in along)
    assert {round(math.hypot(*a.moment), 3) for a in along} == {round(100 * (36 + 1.5 + 3.625), 3)}
    assert {round(math.hypot(*a.level), 6) for a in along} == {200.0}


# ---------------------------------------------------------------------------------------------------------
# Round an opening


def test_a_guard_round_the_opening() -> None:
    """Posts stand in the hole at the ends of the tail joists; their weight comes onto these, with no line load."""
    ring = guard(mark="Q", edges=[1, 3], opening=1)
    layout = layout_of(SQUARE + ring)
    posts = [p for run in layout.guards for p in run.posts]
    assert posts
    assert all(p.receiver is not None for p in posts)
    for post in posts:
        x, y = post.at
        assert 52 <= x <= 92
        assert y in (52.0, 92.0)
        assert post.out[1] == (1.0 if y == 52.0 else -1.0)
    weights = [a for a in layout.actions if a.what == "weight of the guard"]
    assert len(weights) == len(posts)
    found = checks_of(SQUARE + ring)
    assert found["Q on edge 1 of opening 1", "guard.weight"].status is Status.PASSES
    assert ("guard", "platform.guard") in found  # the outline's edges are as open as before


def test_an_opening_that_is_not_there_is_refused() -> None:
    with pytest.raises(ProjectError, match="no opening of the deck"):
        parse_project(SQUARE + guard(opening=4, edges=[1]))


# ---------------------------------------------------------------------------------------------------------
# Where guard and ladder stand, by the plan (mutants of these lived)


def test_a_guard_is_pushed_out_of_the_deck_on_every_edge() -> None:
    """Square deck, its edges counter-clockwise from the corner 0, 0: out is -y, +x, +y, -x."""
    runs = layout_of(SQUARE + BLOCKS + guard(edges=[1, 2, 3, 4])).guards
    out = {run.edge: run.posts[0].out for run in runs if run.posts}
    wanted = {1: (0, -1), 2: (1, 0), 3: (0, 1), 4: (-1, 0)}
    assert out
    for edge, way in out.items():
        assert way == pytest.approx(wanted[edge])


def test_an_end_post_holds_its_rail_by_moments() -> None:
    """A line load on a bay of 32 in. and 20 in. past the post: 52^2 / 64 in. of it; a middle post half of two bays."""
    posts = layout_of(on_two()).guards[0].posts
    assert posts[0].holds == pytest.approx(52**2 / 64)
    assert posts[1].holds == pytest.approx((32 + 40) / 2)


def test_a_guard_past_the_end_of_its_edge_is_refused() -> None:
    with pytest.raises(LayoutError, match="does not fit on edge 1"):
        _ = layout_of(SQUARE + guard(edges=[1], start="100 in", length="60 in")).guards


def test_a_ladder_in_plan_runs_out_from_the_edge() -> None:
    """On the edge x = 144 in.: from its heads there to its foot, height / tan(pitch) away, over both rails along y."""
    ladder = layout_of(
        SQUARE + '\n[ladder]\nedge = 2\nalong = "72 in"\npitch = "75 deg"\nclear = "16 in"\n'
    ).ladder
    assert ladder is not None
    x, y = zip(*ladder.outline, strict=True)
    assert (min(x), max(x)) == pytest.approx((144, 144 + 72 / math.tan(math.radians(75))))
    assert (min(y), max(y)) == pytest.approx((72 - 9.5, 72 + 9.5))


def test_a_leaf_tears_the_rim_towards_its_end() -> None:
    """The couple of the leaf on two bolts, shared by the posts that the rail ties: M / n s on each (statics)."""
    text = on_two() + GATE + RATED
    layout = layout_of(text)
    at = find_gates(layout)[0]
    assert at.hung_on is not None
    W, w, post = leaf_weight(layout, at), at.leaf, at.hung_on
    M = 200 * (w + 5.75) + W * (w / 2 + 5.75)
    row = checks_of(text)["G2", "guard.framing_tear_out"]
    assert row.demand == pytest.approx(M / post.sharing / (post.depth - 4))


def test_a_gate_does_not_shut_through_the_rails_of_a_ladder() -> None:
    """Geometry: a leaf at the edge, over all of the ladder's width, and rails that run on over the floor at 75 degrees.

    The rails cross the edge at the floor and lean in over the deck, where the leaf swings: it neither shuts nor opens.
    """
    for own, status in (('rails_over = "36 in"', Status.NOT_CHECKED), ("grip = true", Status.PASSES)):
        found = checks_of(on_two() + GATE + LADDER + own + "\n")
        assert found["GT", "gate.swing"].status is status


@pytest.mark.parametrize(("width", "widest"), [(30.0, 4.0), (32.0, 3.75), (24.0, 3.75)])
def test_the_gap_between_a_post_and_the_leaf(width: float, widest: float) -> None:
    """A post at 52 in., 4x4: 53 3/4 in. its face. The way of 30 in. begins at 57: 3 1/4 in., and 3/4 in. to the leaf.

    Of 32 in.: 2 1/4 + 3/4 = 3 in., so that the balusters' 3 3/4 in. are the widest; of 24 in. no post is beside it.
    """
    found = row(on_two() + GATE.replace('"30 in"', f'"{width:g} in"') + RATED, "opening")
    assert found.demand == pytest.approx(widest, rel=1e-5)
    assert found.status is (Status.PASSES if widest < 4 else Status.FAILS)
