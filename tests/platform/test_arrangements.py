"""Arrangements people build: each is found by geometry, stands, and runs through every check."""

from __future__ import annotations

import re
from math import cos, inf, radians, sin

import pytest
from arrangement_files import ARRANGEMENTS, DEMO, path_of, project_of

from bolewright.platform.layout.layout import STEP, Bearing, Kind
from bolewright.platform.limit_states.check import Status, Topic
from bolewright.platform.results.results import find_results

EVERY = [DEMO, *ARRANGEMENTS]
HANGS, RESTS = Bearing.HANGS, Bearing.RESTS

# What rests on or hangs from what, read off a sketch of each plan.
SEATS = [
    ("one_tree_two_posts", "S1", [("T1", RESTS), ("C1", RESTS)]),
    ("one_tree_two_posts", "C1", [("P1", RESTS), ("P2", RESTS)]),
    ("one_tree_two_posts", "J1", [("S1", RESTS), ("S2", RESTS)]),
    ("one_tree_one_post", "S1", [("T1", RESTS), ("P1", RESTS)]),
    ("one_tree_one_post", "S2", [("T2", RESTS), ("P1", RESTS)]),
    ("one_tree_one_post", "J8", [("S1", HANGS), ("S2", HANGS)]),
    ("one_tree_one_post_t_frame", "C1", [("P1", RESTS)]),
    ("one_tree_one_post_t_frame", "S2", [("T2", RESTS), ("C1", RESTS)]),
    ("two_trees_two_posts", "C1", [("T1", RESTS), ("T2", RESTS)]),
    ("two_trees", "C2", [("T2", RESTS), ("T4", RESTS)]),
    ("three_trees", "S2", [("T3", RESTS), ("T4", RESTS)]),
    ("four_trees", "C2", [("T3", RESTS), ("T4", RESTS)]),
    ("round_a_trunk", "X1", [("C1", RESTS), ("C2", RESTS)]),
    ("round_a_trunk", "H1", [("X1", HANGS), ("X2", HANGS)]),
    ("round_a_trunk", "J4", [("C1", RESTS), ("H1", HANGS)]),
    ("round_a_trunk", "J5", [("H2", HANGS), ("C2", RESTS)]),
    ("round_a_trunk_hung", "X1", [("C1", HANGS), ("C2", HANGS)]),
    ("round_a_trunk_hung", "H2", [("X1", HANGS), ("X2", HANGS)]),
    ("hung_beams", "X2", [("C1", HANGS), ("C2", HANGS)]),
    ("hung_beams", "J2", [("X2", HANGS), ("X3", HANGS)]),
    ("hung_one_end", "J1", [("C1", HANGS), ("C2", RESTS)]),
    ("skewed_and_reentrant", "E1", [("C1", RESTS), ("C2", RESTS)]),
    ("skewed_and_reentrant", "J1", [("C1", RESTS), ("E1", HANGS)]),
    ("skewed_and_reentrant", "J9", [("C1", RESTS), ("C2", RESTS)]),
    ("skewed_and_reentrant", "K1", [("C2", RESTS), ("C3", RESTS)]),
    ("two_fields_square", "J1", [("C1", HANGS), ("C2", HANGS)]),
    ("two_fields_square", "K1", [("R1", HANGS), ("R2", HANGS)]),
    ("joists_at_an_angle", "J1", [("C1", RESTS), ("C2", RESTS)]),
    ("over_three_posts", "C1", [("P1", RESTS), ("P2", RESTS), ("P3", RESTS)]),
    ("joists_over_three_beams", "J1", [("C1", RESTS), ("C2", RESTS), ("C3", RESTS)]),
    ("joists_over_three_beams", "C2", [("B1", RESTS), ("B2", RESTS)]),
]


@pytest.mark.parametrize(("name", "mark", "seats"), SEATS)
def test_what_sits_on_what(name: str, mark: str, seats: list[tuple[str, Bearing]]) -> None:
    member = path_of(name).layout.member(mark)
    assert [(seat.below, seat.bearing) for seat in member.seats] == seats


@pytest.mark.parametrize("name", EVERY)
def test_every_arrangement_runs_through_all_checks(name: str) -> None:
    results = find_results(project_of(name))
    topics = {check.topic for check in results.checks}
    assert {Topic.DECKING, Topic.JOISTS, Topic.BEAMS} <= topics
    parts = {check.part for check in results.checks}
    layout = results.path.layout
    assert {member.mark for member in layout.members} <= parts
    assert {support.mark for support in layout.supports} <= parts
    for check in results.checks:
        assert check.sentence
        # a ratio, but where the check is open, or fails in words: nothing is there that could carry
        in_words = check.status is Status.FAILS and check.severity == inf
        assert check.status is Status.NOT_CHECKED or check.ratio == check.ratio or in_words
    for laid, carried in results.path.balance().values():
        assert carried == pytest.approx(laid, rel=1e-9)


GRAVITY = {
    Topic.DECKING,
    Topic.JOISTS,
    Topic.BEAMS,
    Topic.HANGERS,
    Topic.FOOTINGS,
}
BELIEVABLE = (
    "one_tree_two_posts",
    "round_a_trunk",
    "two_fields_square",
    "over_three_posts",
)


@pytest.mark.parametrize("name", BELIEVABLE)
def test_believable_arrangements_carry_their_weight(name: str) -> None:
    checks = find_results(project_of(name)).checks
    upright = [c for c in checks if c.topic in GRAVITY and "0.6W" not in c.combination]
    assert len(upright) > 50
    assert [c for c in upright if c.status is Status.FAILS] == []


@pytest.mark.parametrize("name", EVERY)
def test_joist_marks_count_from_first_to_last(name: str) -> None:
    layout = path_of(name).layout
    for field in layout.project.joists:
        joists = [joist for joist in layout.joists if joist.field == field.mark]
        assert [joist.mark for joist in joists] == [f"{field.mark}{i + 1}" for i in range(len(joists))]
        _, n = _axes(field.direction)
        across = [joist.line.start[0] * n[0] + joist.line.start[1] * n[1] for joist in joists]
        assert across == pytest.approx(sorted(across), abs=1e-6)
        gaps = [b - a for a, b in zip(across, across[1:], strict=False)]
        assert max(gaps, default=0.0) < 3 * field.spacing


def _axes(degrees: float) -> tuple[tuple[float, float], tuple[float, float]]:
    u = (cos(radians(degrees)), sin(radians(degrees)))
    return u, (-u[1], u[0])


@pytest.mark.parametrize("name", EVERY)
def test_marks_are_unique_and_levels_meet(name: str) -> None:
    layout = path_of(name).layout
    marks = [member.mark for member in layout.members] + [support.mark for support in layout.supports]
    assert len(marks) == len(set(marks))
    assert all(re.fullmatch(r"[A-Za-z][A-Za-z0-9_-]*", mark) for mark in marks)
    for member in layout.members:
        knees = {b.towards for b in layout.project.braces if b.beam == member.mark}
        assert len(member.seats) >= 2 or knees == {"start", "end"}
        assert member.top <= layout.under_deck + STEP
        for seat in member.seats:
            if seat.below in {m.mark for m in layout.members}:
                below = layout.member(seat.below)
                if seat.bearing is Bearing.RESTS:
                    assert member.bottom == pytest.approx(below.top, abs=STEP)
                else:
                    assert member.bottom >= below.bottom - STEP


@pytest.mark.parametrize("name", EVERY)
def test_weight_flows_downward(name: str) -> None:
    layout = path_of(name).layout
    order = [member.mark for member in layout.members]
    for member in layout.members:
        assert (member.kind is Kind.JOIST) == (member.field != "")
        for seat in member.seats:
            if seat.below in order:
                assert order.index(seat.below) > order.index(member.mark)


def test_joists_do_not_take_the_place_of_a_trimmer() -> None:
    layout = path_of("round_a_trunk").layout
    trimmers = {layout.member(mark).line.start[0] for mark in ("X1", "X2")}
    assert all(abs(joist.line.start[0] - x) > 3 for joist in layout.joists for x in trimmers)


def test_joists_over_beams_that_deflect_share_by_stiffness() -> None:
    # On rigid supports the middle beam of two equal spans takes 10/8 w l, 62.5 % of the load between the
    # outer ones; here it hangs in the middle of two long beams and deflects, so it takes less.
    path = path_of("joists_over_three_beams")
    effects = path.effects["J4"]
    shares = effects.reactions @ path.live
    assert shares[1] < 0.60 * shares.sum()
    # ... and the joist bends more where it spans freely: with rigid supports 9/128 w l^2 governs sagging.
    line_load = shares.sum() / effects.member.line.length
    assert (effects.moment @ path.live).max() > 9 / 128 * line_load * 76**2
