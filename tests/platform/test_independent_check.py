"""The independent check: a frame model with its own boards, statics and patterns, and every part by the worse of both.

Its boards by the one idealisation (simple spans, lever past the last member, 6 in.), by statics by hand.
"""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from arrangement_files import ARRANGEMENTS, file_of, project_of

from bolewright.paths import shipped
from bolewright.platform.analysis.lateral import find_lateral
from bolewright.platform.checks.members import look_at
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.actions import ActionKind
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import envelope
from bolewright.platform.loads.load_path import deck_dead, find_load_path, line_weight
from bolewright.platform.results.results import Results, find_results
from bolewright.platform.verification.compared import PARTED, Compared
from bolewright.platform.verification.comparison import compare, demand_by_frame, judged_by_worse
from bolewright.platform.verification.frame_boards import Boards
from bolewright.platform.verification.frame_gravity import frame_gravity
from bolewright.platform.verification.frame_strips import fields_of, guard_points, strips_of
from bolewright.status import Status

DEMO = file_of("lookout").read_text(encoding="utf-8")


def shipped_text(name: str) -> str:
    return (shipped("calcsheets") / f"{name}.toml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def demo() -> Results:
    return find_results(parse_project(DEMO))


# The frame's own boards ------------------------------------------------------------------------------------


def test_past_the_last_member_a_board_acts_by_lever() -> None:
    """A pound 8 in past the last of joists 16 in apart: 1.5 on it, half a pound up at the next (lever)."""
    layout = find_layout(project_of("over_three_posts"))
    field = layout.project.joists[0]
    boards = Boards(layout, field)
    s = boards.place(layout.joists[3].line.at(60.0))[0]
    under = next(boards.stretches(s))[2]
    (last, nearer), spacing = (under[0], under[1]), under[1][0] - under[0][0]
    shares = {number: share for number, _, share in boards.share(s, last[0] - 8.0, under)}
    assert shares == pytest.approx({last[1]: 1 + 8 / spacing, nearer[1]: -8 / spacing})
    middle = {number: share for number, _, share in boards.share(s, last[0] + spacing / 4, under)}
    assert middle == pytest.approx({last[1]: 0.75, nearer[1]: 0.25})


def test_a_hold_down_nearer_than_six_inches_leaves_the_rest_to_the_next() -> None:
    """10 in past the last, held 3 in and 19 in inward: 10/6 up at the first, (1 - 3/6) 10/19 at the second."""
    layout = find_layout(project_of("over_three_posts"))
    boards = Boards(layout, layout.project.joists[0])
    under = [(0.0, 0, 50.0, 1.0, 1.0), (3.0, 1, 50.0, 1.0, 1.0), (19.0, 2, 50.0, 1.0, 1.0)]
    shares = {number: share for number, _, share in boards.share(50.0, -10.0, under)}
    assert shares == pytest.approx({0: 1 + 10 / 6 + 5 / 19, 1: -10 / 6, 2: -5 / 19})


@pytest.mark.parametrize("name", ["lookout", "round_the_trunk", *ARRANGEMENTS])
def test_all_that_is_laid_on_arrives(name: str) -> None:
    """Every piece of board hands on one pound of each; areas make the deck; supports carry D and L."""
    layout = find_layout(project_of(name))
    fields = fields_of(layout)
    strips = strips_of(fields)
    for pair in strips.ends:
        for parts in pair:
            assert sum(share for *_, share in parts) == pytest.approx(1.0)
    assert strips.area.sum() == pytest.approx(layout.deck.area, rel=1e-9)
    assert all(
        sum(share for *_, share in parts) == pytest.approx(1.0) for parts, _ in guard_points(layout, fields)
    )
    frame, path = frame_gravity(layout), find_load_path(layout)
    supports = {s.mark for s in layout.supports}
    total = np.zeros(frame.frame.count)
    for m in layout.members:
        found = frame.frame.found[m.mark]
        for seat, row in zip(m.seats, found.reactions, strict=True):
            if seat.below in supports:
                np.add.at(total, found.columns, row)
    # a pound on each node; the couples of a guard's posts, numbered after each member's nodes, have no weight
    bars = [frame.frame.bars[m.mark] for m in layout.members]
    weighs = np.concatenate([np.repeat([1.0, 0.0], [len(bar.x), len(bar.turned)]) for bar in bars])
    np.testing.assert_allclose(total, weighs, atol=1e-6)
    laid = path.weights @ path.dead
    numbers, (brought, _) = frame.acts.of(np.arange(frame.frame.count))  # stairs, ladder, hatch, point loads
    hung = sum(weighs @ brought[:, [frame.kinds[n] is ActionKind.DEAD for n in numbers]])
    assert frame.dead.sum() + frame.weight.sum() + hung == pytest.approx(laid, rel=1e-6)


def test_a_guard_over_the_wood_of_a_header_is_the_headers() -> None:
    """A guard on the edge, right over the header there: the joist hung behind gets none of it, by either model.

    J5 of one oak hangs on H2 22 1/4 in. from C2 and runs 1 1/2 in. past it. By statics its hanger has of its weight w a
    length x, from C2 on: w (x^2 - (1 1/2)^2) / 2 over 22 1/4 in.; of the deck x ends at H2's inner face at the least,
    and at its middle at the most. The guard, 23 1/2 plf over 14.4 in., would bring three times as much.
    """
    layout = find_layout(parse_project(shipped_text("one_oak")))
    path, frame = find_load_path(layout), frame_gravity(layout)
    q, own = deck_dead(layout) / 144 * 14.4167, line_weight(layout.member("J5"))

    def hanger(w: float, x: float) -> float:
        return w * (x**2 - 1.5**2) / 2 / 22.25

    least, most = hanger(q, 21.5) + hanger(own, 22.25), hanger(q, 22.25) + hanger(own, 22.25)
    found = frame.frame.found["J5"]
    by_hand = envelope(path, path.effects["J5"].reactions[np.array([0])]).D[0]
    by_frame = frame.envelope(found.reactions[[0]], found.columns).D[0]
    assert 0.999 * least <= by_hand <= 1.001 * most
    assert 0.999 * least <= by_frame <= 1.001 * most


def test_continuous_beam_by_the_table() -> None:
    """Two equal spans, a pound on each pair of places mirrored: the middle support by the three moments by hand.

    A load at x from an outer support of equal spans L: middle reaction (x / 2L)(3 - (x/L)²) (theory of three moments).
    """
    layout = find_layout(project_of("over_three_posts"))
    beam = next(m for m in layout.beams if len(m.seats) == 3)
    frame = frame_gravity(layout).frame
    bar, found = frame.bars[beam.mark], frame.found[beam.mark]
    a, b, c = (seat.at for seat in beam.seats)
    assert b - a == pytest.approx(c - b)
    for k, x in enumerate(bar.x):
        if a <= x <= b:
            r = (x - a) / (b - a)
            column = int(np.searchsorted(found.columns, bar.first + k))
            assert found.reactions[1, column] == pytest.approx(r / 2 * (3 - r**2), abs=1e-6)


def test_a_couple_bends_a_block_on_either_side_of_it() -> None:
    """A couple of 1 lb in. at c on a simple span from a to b: (b - c)/(b - a) on one side, (c - a)/(b - a) on the other
    (statics). The frame had the one side at the couple and the other 0.05 in. off it, whichever way the block ran."""
    layout = find_layout(parse_project(shipped_text("two_trees")))
    frame = frame_gravity(layout).frame
    seen = 0
    for bar in frame.bars.values():
        if len(bar.seats) != 2:
            continue
        a, b = (seat.at for seat in bar.member.seats)
        found = frame.found[bar.member.mark]
        for k, node in enumerate(bar.turned):
            c = bar.x[node]
            if a < c < b:
                moments = found.moment[:, np.searchsorted(found.columns, bar.first + len(bar.x) + k)]
                assert sorted((moments.max(), -moments.min())) == pytest.approx(
                    sorted(((b - c) / (b - a), (c - a) / (b - a))), rel=1e-6
                ), bar.member.mark
                seen += 1
    assert seen >= 4


# The worse of the two -------------------------------------------------------------------------------------


def one(demo: Results, part: str, limit_state: str) -> Check:
    return next(c for c in demo.checks if (c.part, c.limit_state) == (part, limit_state))


def judged(check: Check, factor: float) -> Check:
    row = (check.part, check.key, check.limit_state)
    return judged_by_worse([check], [Compared(check.part, "effect", 100.0, 100.0 * factor, "lb", (row,))])[0]


def test_more_by_the_frame_counts_and_is_printed(demo: Results) -> None:
    check = one(demo, "C1", "shear")
    worse = judged(check, 1.03)
    assert worse.ratio == pytest.approx(1.03 * check.ratio, rel=1e-3)
    assert worse.steps[-1].result == pytest.approx(worse.ratio)
    assert "counts" in " ".join(worse.remarks)


@pytest.mark.parametrize("key", ["beam.bending_lateral", "beam.shear_lateral", "beam.bending_at_bolts"])
def test_a_beam_over_a_knee_is_judged_by_the_worse_force_of_both_models(demo: Results, key: str) -> None:
    """The knee's force is a part of it: raised by no less than the greatest of its knees, and it says by what."""
    knees = [c for c in demo.compared if c.quantity == "greatest force along the brace"]
    rows = [c for c in demo.checks if c.part == "C1" and c.key == key]
    assert len(knees) == 2
    assert rows
    for check in rows:
        assert check.calculation is not None
        by_hand = check.calculation.last_of(demand_by_frame)["demand"]  # that of the hand calculation
        assert check.demand / by_hand >= max(c.by_frame for c in knees) / max(c.by_hand for c in knees) - 1e-4
        assert any("greatest force along the brace" in words for words in check.remarks)


def test_the_sentence_names_the_share_that_counts(demo: Results) -> None:
    """One rule of rounding: what is printed as a ratio and what the sentence says are one number."""
    check = one(demo, "C1", "shear")
    worse = judged(check, 1.03)
    assert (
        f"{round(100 * worse.ratio)} %" in worse.sentence or f"{worse.shown_ratio[-2:]} %" in worse.sentence
    )
    for found in demo.checks:
        told = re.fullmatch(r".* is (\d+) % of allowable\.", found.sentence)
        if told and found.has_sizes:
            assert abs(int(told[1]) - 100 * found.ratio) <= 1.0, found.sentence


def test_a_member_twice_on_one_beam_has_each_seat_judged_by_its_own(demo: Results) -> None:
    """Two checks of one name, their loads 3 % more and 1 % more by the frame, in the order of the seats."""
    check = one(demo, "C1", "shear")
    row = (check.part, check.key, check.limit_state)
    compared = [Compared(check.part, "load", 100.0, 100.0 * f, "lb", (row,)) for f in (1.03, 1.01)]
    found = judged_by_worse([check, check], compared)
    assert [c.ratio / check.ratio for c in found] == pytest.approx([1.03, 1.01], rel=1e-3)


def test_a_joint_of_a_rim_is_judged_by_the_load_of_both_pieces() -> None:
    """Where a joint governs both pieces that meet there, their loads, fasteners and ratios are one."""
    found = find_results(project_of("round_the_trunk"))
    of = {c.part: c.ratio for c in found.checks if c.key == "blocking.fastening"}
    assert of["R6"] == pytest.approx(of["R7"], rel=1e-9)  # both at J6
    compared = {c.part: c for c in found.compared if "fasteners" in c.quantity}
    for mark, ratio in of.items():
        assert ratio == pytest.approx(max(compared[mark].by_hand, compared[mark].by_frame), rel=2e-3), mark


def test_less_by_the_frame_changes_nothing(demo: Results) -> None:
    check = one(demo, "C1", "shear")
    assert judged(check, 0.97) == check


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_a_difference_is_measured_against_the_capacity(demo: Results, way: float) -> None:
    """Ratios apart by 0.04: judged by the worse. By 0.06, either way: open, and the row says both."""
    check = one(demo, "C1", "shear")
    near, far = (judged(check, 1 + way * apart / check.ratio) for apart in (PARTED - 0.01, PARTED + 0.01))
    assert near.status is Status.PASSES
    assert far.status is Status.NOT_CHECKED
    assert "hand calculation" in far.sentence
    assert "frame model" in far.sentence


def test_what_fails_by_either_model_fails(demo: Results) -> None:
    check = one(demo, "C1", "shear")
    assert judged(check, 1.2 / check.ratio).status is Status.FAILS
    failing = replace(check, ratio=1.2, demand=1.2 * check.capacity, status=Status.FAILS)
    assert judged(failing, 0.5).status is Status.FAILS


def test_a_load_lost_on_one_joist_opens_its_rows() -> None:
    """The hand calculation of one joist made to lose a third: its bending and bearing part by more than allowed."""
    path = find_load_path(find_layout(parse_project(DEMO)))
    mark = max(path.layout.joists, key=lambda m: m.line.length).mark
    effects = path.effects[mark]
    less = {
        name: replace(getattr(effects, name), values=getattr(effects, name).values * 2 / 3)
        for name in ("moment", "shear_left", "shear_right", "deflection", "reactions")
    }
    faulty = replace(path, effects={**path.effects, mark: replace(effects, **less)})
    looks = [look_at(faulty, m, repetitive=False) for m in path.layout.members]
    compared, unsolved = compare(faulty, find_lateral(path), looks)
    assert unsolved == ""
    off = {c.quantity for c in compared if c.part == mark and abs(c.factor - 1) > 0.3}
    assert {"greatest bending moment", "greatest shear", "deflection over length, live"} <= off


def test_the_comparison_is_no_check_and_has_no_ratio(demo: Results) -> None:
    assert [c for c in demo.checks if c.key == "platform.comparison"] == []
    assert len(demo.compared) > 60


# Layouts that were left open --------------------------------------------------------------------------------

STRONGER = {
    "lookout, knees of 42 in": ("lookout", [(r'(rise|run) = "3[05] in"', r'\1 = "42 in"')]),
    "two oaks, four plies": (
        "two_trees",
        [(r"plies = 3", "plies = 4"), (r'service = "\d+ years"', 'service = "5 years"')],
    ),
    "beech, posts 10x10": (
        "round_the_trunk",
        [(r'section = "8x8"', 'section = "10x10"'), (r'cap_lateral = "\d+ lb"', 'cap_lateral = "3000 lb"')],
    ),
    "lookout, 5 1/2 ft": (
        "lookout",
        [(r'floor_height = "[^"]*"', 'floor_height = "66 in"'), (r'rise = "35 in"', 'rise = "30 in"')],
    ),
    "lookout, 6 1/2 ft": ("lookout", [(r'floor_height = "[^"]*"', 'floor_height = "78 in"')]),
    "lookout, embedment 4 1/2 in": ("lookout", [(r'embedment = "[^"]*"', 'embedment = "4 1/2 in"')]),
}


def opened(text: str) -> list[str]:
    return [c.sentence for c in find_results(parse_project(text)).checks if "frame model" in c.sentence]


@pytest.mark.parametrize("name", STRONGER)
def test_a_layout_made_stronger_is_not_left_open(name: str) -> None:
    """Each was open for a difference of a few pounds where hundreds are allowed."""
    project, changes = STRONGER[name]
    text = shipped_text(project)
    for old, new in changes:
        text, count = re.subn(old, new, text)
        assert count, old
    assert opened(text) == []


@pytest.mark.parametrize("name", ["lookout", "round_the_trunk", *ARRANGEMENTS])
def test_no_arrangement_is_left_open_by_the_comparison(name: str) -> None:
    results = find_results(parse_project(file_of(name).read_text(encoding="utf-8")))
    found = [c for c in results.checks if "frame model" in c.sentence]
    assert [c.sentence for c in found] == []


def test_the_angles_of_a_beam_on_a_beam_are_compared_too() -> None:
    """S1 and S2 hand the wind on to C1, so to P1 and P2: what the frame model gives these goes through the angles.

    Two seats of one beam share a force through their middle alike, and its moment about there over their distance
    (statics): by the frame's forces on P1 and P2, as the FORCE rows have them, within what their directions can differ.
    """
    found = find_results(parse_project(shipped_text("lookout")))
    of = {(c.part, c.quantity): c for c in found.compared}
    posts = [of[mark, "greatest lateral force"] for mark in ("P1", "P2")]
    less = sorted(c.by_frame / c.by_hand for c in posts)
    for mark in ("S1", "S2"):
        for quantity, key in (
            ("greatest lateral force on its seat on C1", "beam.fastening_lateral"),
            ("shares of the ratings of its angles together on C1", "beam.together"),
        ):
            c = of[mark, quantity]
            check = next(x for x in found.checks if x.part == mark and x.key == key)
            assert c.rows == ((mark, key, check.limit_state),)
            if key == "beam.together":
                # less than 0.2 %, what strips of board leave, counts in part
                assert check.demand == pytest.approx(max(c.by_hand, c.by_frame), rel=1e-3)
                assert check.demand >= c.by_hand
            assert less[0] - 0.02 < c.by_frame / c.by_hand < less[1] + 0.02
            assert judged_by_worse([check], [replace(c, by_frame=1.01 * c.by_hand)])[
                0
            ].ratio == pytest.approx(1.01 * check.ratio, rel=1e-3)
