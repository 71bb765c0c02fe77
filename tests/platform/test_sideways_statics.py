"""The platform sideways: equilibrium of every case by hand, mirror images, what is and is not held, the demo."""

from __future__ import annotations

import re

import numpy as np
import pytest
from arrangement_files import ARRANGEMENTS, file_of
from knee_frames import sideways_opinion

from bolewright.bracing.standing import pair_axial_force
from bolewright.platform.check import Status, Topic
from bolewright.platform.layout import find_layout
from bolewright.platform.level_loads import HALVES, SWAY_DIRECTIONS, WHOLE, directions, sway_patterns
from bolewright.platform.level_supports import BoltFrame, Foot, PostFrame
from bolewright.platform.load_path import find_load_path
from bolewright.platform.parts import LayoutError
from bolewright.platform.reading import ProjectError, parse_project
from bolewright.platform.results import find_results
from bolewright.platform.sideways import Sideways, find_sideways

DEMO = file_of("lookout").read_text(encoding="utf-8")


def sideways_of(text: str) -> Sideways:
    return find_sideways(find_load_path(find_layout(parse_project(text))))


@pytest.fixture(scope="module")
def demo() -> Sideways:
    return sideways_of(DEMO)


def without(text: str, table: str) -> str:
    """The file without any [[table]] blocks."""
    return re.sub(rf"\n\[\[{table}\]\]\n(?:[^\[\n][^\n]*\n)*", "\n", text)


def test_level_forces_balance_in_every_case(demo):
    for state in demo.states:
        force, turning = np.zeros((2, demo.cases.count)), np.zeros(demo.cases.count)
        for spring, V in zip(state.springs, state.force, strict=True):
            F = spring.axes.T @ V
            force += F
            turning += spring.x * F[1] - spring.y * F[0]
        np.testing.assert_allclose(force, demo.cases.load[:2], atol=1e-6)
        np.testing.assert_allclose(turning, demo.cases.load[2], atol=1e-4)


def test_overturning_balances_in_every_case(demo):
    """About grade: level forces times height = those on the supports at theirs + vertical changes."""
    for state in demo.states:
        for axis in (0, 1):
            at = np.array([f.support.at[axis] for f in demo.frames])
            tilt = demo.cases.over[axis].copy()
            for f, spring, F in zip(demo.frames, state.springs, state.force, strict=True):
                # a post takes force across C1 at C1's top, 11.25 in above its own
                levels = (f.h, f.h + 11.25) if isinstance(f, PostFrame) else (f.level, f.level)
                tilt -= (spring.axes[:, axis] * levels) @ F
            np.testing.assert_allclose(at @ state.over, tilt, atol=1e-3)
        np.testing.assert_allclose(state.over.sum(axis=0), 0.0, atol=1e-6)
        np.testing.assert_allclose(state.kick.sum(axis=0), 0.0, atol=1e-6)


def test_knees_make_the_couple_of_the_portal(demo):
    """Hinged feet: the posts' push and pull is (V1 + V2) h / s, by moments about a foot (statics in the docstring)."""
    state = next(s for s in demo.states if s.foot is Foot.GIVES)
    i, j = demo.row("P1"), demo.row("P2")
    frame = demo.frames[i]
    H = state.force[i, 0] + state.force[j, 0]
    s = demo.frames[j].support.at[0] - frame.support.at[0]
    plain = np.array([demo.path.reactions[f.support.mark] for f in demo.frames])
    from_sag = (
        (demo.knee_influence.feet - plain) @ demo.tilt @ state.turn
    )  # what overturning on the deck adds
    kick = state.kick - from_sag
    np.testing.assert_allclose(kick[j], pair_axial_force(H, frame.h, s), atol=1e-6)
    np.testing.assert_allclose(kick[i], -kick[j], atol=1e-6)


def test_sway_is_a_tenth_of_the_live_load(demo):
    """60 psf on 73.6 sq ft: 4416 lb, of which 10 % is 442 lb, in every direction."""
    whole = float(sway_patterns(demo.path, directions(1))[WHOLE][0][0])
    assert whole == pytest.approx(4416.5, abs=0.5)
    cases = [
        i
        for i, (name, words) in enumerate(zip(demo.cases.names, demo.cases.words, strict=True))
        if name == "D + L" and "whole deck" in words
    ]
    sizes = np.hypot(*demo.cases.load[:2, cases])
    assert len(cases) == SWAY_DIRECTIONS
    np.testing.assert_allclose(sizes, 0.1 * whole)


def test_halves_of_the_deck_make_the_whole(demo):
    """Of live load, and of its moment about the origin, whichever way the deck is split."""
    patterns = sway_patterns(demo.path, directions(SWAY_DIRECTIONS))
    (whole, at), (one, at_one), (other, at_other) = (patterns[name] for name in (WHOLE, *HALVES))
    np.testing.assert_allclose(one + other, whole)
    np.testing.assert_allclose(one * at_one + other * at_other, whole * at)


def test_formulas_agree_with_the_frame(demo):
    found = sideways_opinion(demo)
    assert {c.quantity for c in found} == {"drift", "force along the brace"}
    for compared in found:
        assert compared.by_frame == pytest.approx(compared.by_hand, rel=2e-3), compared


@pytest.mark.parametrize("axis", [0, 1])
def test_mirror_image_gives_the_same(demo, axis):
    """Every point of the file mirrored in x or in y: the same largest level force and load on each support."""

    def mirrored(match: re.Match[str]) -> str:
        pair = [match[1], match[2]]
        pair[axis] = pair[axis][1:] if pair[axis].startswith("-") else f"-{pair[axis]}"
        return f'["{pair[0]}", "{pair[1]}"]'

    text = re.sub(r'\["([^"]+)", "([^"]+)"\]', mirrored, DEMO)
    if axis == 1:
        text = text.replace('first = "20 in"', 'first = "-132 in"').replace(
            'last = "132 in"', 'last = "-20 in"'
        )
    other = sideways_of(text)
    for state, twin in zip(demo.states, other.states, strict=True):
        for i in range(len(demo.frames)):
            np.testing.assert_allclose(
                np.abs(state.force[i]).max(axis=1), np.abs(twin.force[i]).max(axis=1), rtol=1e-6
            )
            np.testing.assert_allclose(
                (state.over + state.kick)[i].max(), (twin.over + twin.kick)[i].max(), rtol=1e-6
            )


def test_demo_fails_nothing_and_by_real_ratios():
    results = find_results(parse_project(DEMO))
    assert [c for c in results.checks if c.status is Status.FAILS] == []
    lateral_open = [
        c for c in results.checks if c.status is Status.NOT_CHECKED and c.key != "joist.uplift"
    ]  # joist.uplift: tests/command/test_examples.py
    assert [c.key for c in lateral_open] == ["platform.guard"]
    level = [c for c in results.checks if c.topic in (Topic.BRACES, Topic.STABILITY, Topic.TREE_ROOM)]
    assert {c.part for c in level} >= {"K1", "K2", "platform", "S1", "S2", "OAK", "T1", "T2"}
    assert all(check.steps for check in level if check.has_sizes and check.demand)  # none where nothing lifts


def test_platform_without_a_lateral_system_is_told_so_once():
    text = without(without(DEMO, "brace"), "diagonal")
    text = text.replace('foot = "held"', 'foot = "pinned"').replace('sideways = "tied"', "")
    checks = find_results(parse_project(text)).checks
    told = [c for c in checks if c.topic is Topic.STABILITY and c.limit_state == "sideways"]
    assert len(told) == 1
    assert told[0].status is Status.NOT_CHECKED
    assert "[[brace]]" in told[0].sentence
    assert 'sideways = "tied"' in told[0].sentence
    assert {(c.part, c.status) for c in checks if c.limit_state == "sway" and c.topic is Topic.POSTS} == {
        ("P1", Status.NOT_CHECKED),
        ("P2", Status.NOT_CHECKED),
    }


def test_braces_one_way_and_a_floating_tree_leave_the_other_way_loose():
    text = DEMO.replace('foot = "held"', 'foot = "pinned"').replace(
        'sideways = "tied"', 'sideways = "floats"'
    )
    assert sideways_of(text).loose


def test_missing_ratings_are_not_checked_and_never_pass():
    text = re.sub(r"\n(?:cap_side|roll_tie|rated_side|side_tie|uplift_tie) = [^\n]*", "", DEMO)
    open_ones = {
        c.limit_state for c in find_results(parse_project(text)).checks if c.status is Status.NOT_CHECKED
    }
    assert open_ones >= {
        "cap sideways",
        "roll of C1 on the cap",
        "bracket sideways",
        "uplift with wind and sway",
        "fastening on C1 sideways",
        "force of the tied stem",
    }


def test_deck_without_diagonals_is_not_checked():
    checks = find_results(parse_project(without(DEMO, "diagonal"))).checks
    assert [c.status for c in checks if c.limit_state == "deck square in plan"] == [Status.NOT_CHECKED]


def test_unknown_sway_of_the_stem_is_not_checked():
    text = re.sub(r"\n(?:sway_seen|sway_seen_at|crown_area|crown_center) = [^\n]*", "", DEMO)
    checks = find_results(parse_project(text)).checks
    assert any(c.part == "OAK" and c.limit_state == "sway" and c.status is Status.NOT_CHECKED for c in checks)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('carrier = "C1"\ntowards = "end"', 'carrier = "S1"\ntowards = "end"', "does not rest on post P1"),
        ('rise = "30 in"\nrun = "30 in"', 'rise = "30 in"\nrun = "110 in"', "goes past the end of C1"),
        ('rise = "30 in"\nrun = "30 in"', 'rise = "55 in"\nrun = "30 in"', "left above grade"),
    ],
)
def test_a_knee_that_meets_nothing(old, new, said):
    with pytest.raises(LayoutError, match=said):
        sideways_of(DEMO.replace(old, new, 1))


def test_a_knee_on_no_post():
    with pytest.raises(ProjectError, match="'T1' is no post of this file"):
        parse_project(DEMO.replace('support = "P1"\ncarrier', 'support = "T1"\ncarrier'))


def test_a_sliding_bearing_passes_friction_and_no_more_than_a_tie():
    """T2 floats: its level force is the lesser of mu R and what a tie would bring; T1 then stands alone."""
    text = DEMO.replace(
        'mark = "T2"\nkind = "tree bolt"\nsideways = "tied"',
        'mark = "T2"\nkind = "tree bolt"\nsideways = "floats"',
    )
    found = sideways_of(text)
    i = found.row("T2")
    assert isinstance(found.frames[i], BoltFrame)
    for state in found.states:
        H = np.hypot(*state.force[i])
        assert np.all(0.4 * np.maximum(found.most[i], 0.0) + 1e-6 >= H)
        assert np.all(found.tie[i] + 1e-6 >= H)
        calm = [k for k, name in enumerate(found.cases.names) if "W" not in name]
        assert H[calm].max() == 0.0


def test_a_stem_that_moves_more_pulls_harder():
    more = sideways_of(DEMO.replace('sway_seen = "1/4 in"', 'sway_seen = "1 in"'))
    less = sideways_of(DEMO)
    i = less.row("P1")
    assert np.abs(more.states[0].force[i]).max() > np.abs(less.states[0].force[i]).max()


def held_everywhere(name: str) -> str:
    """An arrangement with its posts' feet held and its tree bolts tied."""
    text = file_of(name).read_text(encoding="utf-8")
    if 'foot = "held"' in text:
        return text
    text = re.sub(r'\nkind = "tree bolt"', '\nkind = "tree bolt"\nsideways = "tied"', text)
    return re.sub(r"\n(\[post\.\w+\])\n", r'\n\1\nfoot = "held"\n', text)


@pytest.mark.parametrize("name", ["lookout", *ARRANGEMENTS])
def test_every_arrangement_is_in_balance_sideways(name):
    found = sideways_of(held_everywhere(name))
    assert found.loose == ""
    for state in found.states:
        force, turning = np.zeros((2, found.cases.count)), np.zeros(found.cases.count)
        for spring, V in zip(state.springs, state.force, strict=True):
            F = spring.axes.T @ V
            force += F
            turning += spring.x * F[1] - spring.y * F[0]
        np.testing.assert_allclose(force, found.cases.load[:2], atol=1e-5)
        np.testing.assert_allclose(turning, found.cases.load[2], atol=1e-2)
        np.testing.assert_allclose(state.over.sum(axis=0), 0.0, atol=1e-5)


def test_two_tied_trees_fail():
    """Both trees tied: one of them has to let the platform slide; with one sliding it may."""
    tied = held_everywhere("two_trees")
    pair = [
        c for c in find_results(parse_project(tied)).checks if c.limit_state == "trees tied to each other"
    ]
    assert [c.status for c in pair] == [Status.FAILS]
    first = re.search(r'tree = "(\w+)"', tied)
    assert first is not None
    blocks = tied.split("[[support]]")
    slides = "[[support]]".join(
        b.replace('"tied"', '"slides"') if f'tree = "{first[1]}"' in b else b for b in blocks
    )
    pair = [
        c for c in find_results(parse_project(slides)).checks if c.limit_state == "trees tied to each other"
    ]
    assert [c.status for c in pair] == [Status.PASSES]
