"""The platform under lateral load: equilibrium of every case by hand, mirror images, what is and is not held, the
demo.
"""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest
from arrangement_files import ARRANGEMENTS, file_of
from knee_frames import lateral_opinion

from bolewright.bracing.standing import pair_axial_force
from bolewright.paths import shipped
from bolewright.platform.analysis.lateral import LateralAnalysis, find_lateral
from bolewright.platform.analysis.lateral_supports import BoltFrame, Foot, PostFrame
from bolewright.platform.file.reading import ProjectError, parse_project, read_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.layout.parts import LayoutError
from bolewright.platform.limit_states.check import Status, Topic
from bolewright.platform.loads.lateral_loads import HALVES, SWAY_DIRECTIONS, WHOLE, directions, sway_patterns
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.results.results import find_results

SHIPPED = Path(__file__).parents[2] / "calcsheets" / "lookout.toml"
TWO_TREES = shipped("calcsheets") / "two_trees.toml"
DEMO = file_of("lookout").read_text(encoding="utf-8")


def lateral_of(text: str) -> LateralAnalysis:
    return find_lateral(find_load_path(find_layout(parse_project(text))))


@pytest.fixture(scope="module")
def demo() -> LateralAnalysis:
    return lateral_of(DEMO)


def without(text: str, table: str) -> str:
    """The file without any [[table]] blocks."""
    return re.sub(rf"\n\[\[{table}\]\]\n(?:[^\[\n][^\n]*\n)*", "\n", text)


def test_lateral_forces_balance_in_every_case(demo):
    for state in demo.states:
        force, turning = np.zeros((2, demo.cases.count)), np.zeros(demo.cases.count)
        # a post's foot gets less by what its knees push the deck with
        for spring, V in zip(state.springs, state.force - state.push, strict=True):
            F = spring.axes.T @ V
            force += F
            turning += spring.x * F[1] - spring.y * F[0]
        np.testing.assert_allclose(force, demo.cases.load[:2], atol=1e-6)
        np.testing.assert_allclose(turning, demo.cases.load[2], atol=1e-4)


def test_overturning_balances_in_every_case(demo):
    """About grade: lateral forces times height = those on the supports at theirs + vertical changes."""
    for state in demo.states:
        for axis in (0, 1):
            at = np.array([f.support.at[axis] for f in demo.frames])
            tilt = demo.cases.over[axis].copy()
            for f, spring, F, P in zip(demo.frames, state.springs, state.force, state.push, strict=True):
                # a post takes force across C1 at C1's top, 11.25 in above its own
                levels = (f.h, f.h + 11.25) if isinstance(f, PostFrame) else (f.level, f.level)
                tilt -= (spring.axes[:, axis] * levels) @ F
                if P.any():  # knees under overturning push the deck at C1's underside
                    tilt += spring.axes[:, axis] @ P * f.h
            np.testing.assert_allclose(at @ state.over, tilt, atol=1e-3)
        np.testing.assert_allclose(state.over.sum(axis=0), 0.0, atol=1e-6)
        np.testing.assert_allclose(state.brace_reaction.sum(axis=0), 0.0, atol=1e-6)


def test_knees_make_the_couple_of_the_portal(demo):
    """Hinged feet: the posts' compression and tension is (V1 + V2) h / s, by moments about a foot (statics in the
    docstring).
    """
    state = next(s for s in demo.states if s.foot is Foot.GIVES)
    i, j = demo.row("P1"), demo.row("P2")
    frame = demo.frames[i]
    H = state.force[i, 0] + state.force[j, 0]
    s = demo.frames[j].support.at[0] - frame.support.at[0]
    plain = np.array([demo.path.reactions[f.support.mark] for f in demo.frames])
    from_deflection = (
        (demo.knee_influence.feet - plain) @ demo.tilt @ state.turn
    )  # what overturning on the deck adds
    brace_reaction = state.brace_reaction - from_deflection
    np.testing.assert_allclose(brace_reaction[j], pair_axial_force(H, frame.h, s), atol=1e-6)
    np.testing.assert_allclose(brace_reaction[i], -brace_reaction[j], atol=1e-6)


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
    found = lateral_opinion(demo)
    assert {c.quantity for c in found} == {"drift", "force along the brace"}
    for compared in found:
        assert compared.by_frame == pytest.approx(compared.by_hand, rel=2e-3), compared


def test_posts_without_knees_beside_braced_ones_agree_with_the_frame():
    """two_trees: C2 on five posts, knees at the outer two; in soft ground the others are half as stiff."""
    found = lateral_opinion(find_lateral(find_load_path(find_layout(read_project(TWO_TREES)))))
    assert {c.part for c in found} == {"C2", "K1", "K2"}
    for compared in found:
        assert compared.by_frame == pytest.approx(compared.by_hand, rel=2e-3), compared


@pytest.fixture(scope="module")
def two_each() -> LateralAnalysis:
    """Two knees on each post of the demo, 14 in. along the beam: one under its free end, one under its span."""

    def both(match: re.Match[str]) -> str:
        one = re.sub('run = ".*"', 'run = "14 in"', match[0])
        other = {"start": "end", "end": "start"}[re.search('towards = "(.*)"', one)[1]]  # type: ignore[index]
        two = re.sub('towards = ".*"', f'towards = "{other}"', one).replace('mark = "K', 'mark = "F')
        return f"{one}\n{two}"

    return lateral_of(re.sub(r"\[\[brace\]\]\n(?:[^\[\n][^\n]*\n)+", both, DEMO))


def test_two_knees_under_unlike_beam_agree_with_the_frame(two_each):
    """The one under the span takes more than its half, both together all: a plane frame of beam, posts and knees."""
    found = lateral_opinion(two_each)
    forces = [c for c in found if c.quantity == "force along the brace"]
    assert {c.part for c in forces} == {"K1", "F1", "K2", "F2"}
    for compared in found:
        assert compared.by_frame == pytest.approx(compared.by_hand, rel=1e-4), compared
    assert max(c.by_frame for c in forces) > 1.3 * min(c.by_frame for c in forces)
    for frame in two_each.frames:
        for axis in frame.axes if isinstance(frame, PostFrame) else ():
            for moved in axis.moved if axis.n else ():
                assert sum(m.share for m in moved) == pytest.approx(1.0)


def test_what_two_unlike_knees_leave_upright_goes_to_their_post(two_each):
    """Foot less cap is what knees hand to the post: q Q a/r down from one, up from the other; all sums stay none."""
    unlike = 0.0
    for state in two_each.states:
        np.testing.assert_allclose(state.brace_reaction.sum(axis=0), 0.0, atol=1e-6)
        for i, frame in enumerate(two_each.frames):
            if not isinstance(frame, PostFrame):
                continue
            axis = frame.axes[0]
            Q, moved = state.Q[i, 0], axis.when_moved(state.foot)
            to_post = (
                -sum(k.side * m.share for k, m in zip(axis.knees, moved, strict=True)) * Q * axis.a / axis.r
            )
            by_knees = state.brace_reaction[i] - state.cap[i] - (state.picked[0, i] - state.picked[1, i])
            np.testing.assert_allclose(by_knees, to_post, atol=1e-6)
            unlike = max(unlike, float(np.abs(to_post).max()))
    assert unlike > 50.0


def test_two_knees_under_like_beam_take_half_each():
    """At the middle post of three, by symmetry; at the outer ones the knee under the span takes more."""
    places = ["P1", "end"], ["P1", "start"], ["P2", "start"], ["P2", "end"], ["P3", "start"], ["P3", "end"]
    knees = "".join(
        f'[[brace]]\nmark = "K{n}"\nsupport = "{post}"\nbeam = "C1"\ntowards = "{towards}"\nrise = "24 in"\n'
        'run = "10 in"\nsection = "2x6"\nspecies = "Southern Pine"\ngrade = "No.2"\nrated_load = "4000 lb"\n'
        for n, (post, towards) in enumerate(places)
    )
    lateral = lateral_of(file_of("over_three_posts").read_text(encoding="utf-8") + knees)
    shares = {
        k.brace.mark: [m.share for m in two]
        for frame in lateral.frames
        if isinstance(frame, PostFrame)
        for axis in frame.axes
        for k, two in zip(axis.knees, zip(*axis.moved, strict=True), strict=True)
    }
    assert shares["K2"] == pytest.approx([0.5, 0.5], rel=1e-9)
    assert shares["K3"] == pytest.approx([0.5, 0.5], rel=1e-9)
    for inner, outer in (("K0", "K1"), ("K4", "K5")):
        assert min(shares[inner]) > 0.51 > 0.49 > max(shares[outer])
    assert shares["K0"] == pytest.approx(shares["K4"], rel=1e-9)


@pytest.mark.parametrize("axis", [0, 1])
def test_mirror_image_gives_the_same(demo, axis):
    """Every point of the file mirrored in x or in y: the same largest lateral force and load on each support."""

    def mirrored(match: re.Match[str]) -> str:
        pair = [match[1], match[2]]
        pair[axis] = pair[axis][1:] if pair[axis].startswith("-") else f"-{pair[axis]}"
        return f'["{pair[0]}", "{pair[1]}"]'

    text = re.sub(r'\["([^"]+)", "([^"]+)"\]', mirrored, DEMO)
    if axis == 1:
        text = text.replace('first = "20 in"', 'first = "-132 in"').replace(
            'last = "132 in"', 'last = "-20 in"'
        )
    other = lateral_of(text)
    for state, twin in zip(demo.states, other.states, strict=True):
        for i in range(len(demo.frames)):
            np.testing.assert_allclose(
                np.abs(state.force[i]).max(axis=1), np.abs(twin.force[i]).max(axis=1), rtol=1e-6
            )
            np.testing.assert_allclose(
                (state.over + state.brace_reaction)[i].max(),
                (twin.over + twin.brace_reaction)[i].max(),
                rtol=1e-6,
            )


def test_demo_fails_nothing_and_by_real_ratios():
    results = find_results(parse_project(SHIPPED.read_text(encoding="utf-8")))
    assert [c for c in results.checks if c.status is not Status.PASSES] == []
    level = [c for c in results.checks if c.topic in (Topic.BRACES, Topic.STABILITY, Topic.CLEARANCE)]
    assert {c.part for c in level} >= {"K1", "K2", "platform", "S1", "S2", "OAK", "T1", "T2"}
    assert all(check.steps for check in level if check.has_sizes and check.demand)  # none where nothing lifts


def test_platform_without_a_lateral_system_is_told_so_once():
    text = without(without(DEMO, "brace"), "diagonal")
    text = text.replace('base = "fixed"', 'base = "pinned"').replace('lateral = "tied"', "")
    checks = find_results(parse_project(text)).checks
    told = [c for c in checks if c.topic is Topic.STABILITY and c.limit_state == "lateral stability"]
    assert len(told) == 1
    assert told[0].status is Status.NOT_CHECKED
    assert "[[brace]]" in told[0].sentence
    assert 'lateral = "tied"' in told[0].sentence
    assert {(c.part, c.status) for c in checks if c.limit_state == "sway" and c.topic is Topic.POSTS} == {
        ("P1", Status.NOT_CHECKED),
        ("P2", Status.NOT_CHECKED),
    }


def test_braces_one_way_and_a_floating_tree_leave_the_other_way_loose():
    text = DEMO.replace('base = "fixed"', 'base = "pinned"').replace('lateral = "tied"', 'lateral = "floats"')
    assert lateral_of(text).loose


def test_missing_ratings_are_not_checked_and_never_pass():
    text = re.sub(r"\n(?:cap_lateral|rotation_tie|rated_lateral|lateral_tie|uplift_tie) = [^\n]*", "", DEMO)
    open_ones = {
        c.limit_state for c in find_results(parse_project(text)).checks if c.status is Status.NOT_CHECKED
    }
    assert open_ones >= {
        "lateral load on the post cap",
        "rotation of C1 on the cap",
        "lateral load on the bracket",
        "uplift with wind and sway",
        "lateral load on the fastening at C1",
        "restraint force",
    }


def test_deck_without_diagonals_is_not_checked():
    checks = find_results(parse_project(without(DEMO, "diagonal"))).checks
    assert [c.status for c in checks if c.limit_state == "in-plane bracing"] == [Status.NOT_CHECKED]


def test_unknown_sway_of_the_trunk_is_not_checked():
    text = re.sub(r"\n(?:sway_seen|sway_seen_at|crown_area|crown_center) = [^\n]*", "", DEMO)
    checks = find_results(parse_project(text)).checks
    assert any(c.part == "OAK" and c.limit_state == "sway" and c.status is Status.NOT_CHECKED for c in checks)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('beam = "C1"\ntowards = "end"', 'beam = "S1"\ntowards = "end"', "does not rest on post P1"),
        ('rise = "30 in"\nrun = "30 in"', 'rise = "30 in"\nrun = "110 in"', "goes past the end of C1"),
        ('rise = "30 in"\nrun = "30 in"', 'rise = "55 in"\nrun = "30 in"', "left above grade"),
    ],
)
def test_a_knee_that_meets_nothing(old, new, said):
    with pytest.raises(LayoutError, match=said):
        lateral_of(DEMO.replace(old, new, 1))


def test_a_knee_on_no_post():
    with pytest.raises(ProjectError, match="'T1' is no post of this file"):
        parse_project(DEMO.replace('support = "P1"\nbeam', 'support = "T1"\nbeam'))


def test_a_sliding_bearing_passes_friction_and_no_more_than_a_tie():
    """T2 floats: its lateral force is the lesser of mu R and what a tie would bring; T1 then stands alone."""
    text = DEMO.replace(
        'mark = "T2"\nkind = "tree bolt"\nlateral = "tied"',
        'mark = "T2"\nkind = "tree bolt"\nlateral = "floats"',
    )
    found = lateral_of(text)
    i = found.row("T2")
    assert isinstance(found.frames[i], BoltFrame)
    for state in found.states:
        H = np.hypot(*state.force[i])
        assert np.all(0.4 * np.maximum(found.most[i], 0.0) + 1e-6 >= H)
        assert np.all(found.tie[i] + 1e-6 >= H)
        calm = [k for k, name in enumerate(found.cases.names) if "W" not in name]
        assert H[calm].max() == 0.0


def test_a_trunk_that_moves_more_pulls_harder():
    more = lateral_of(DEMO.replace('sway_seen = "1/4 in"', 'sway_seen = "1 in"'))
    less = lateral_of(DEMO)
    i = less.row("P1")
    assert np.abs(more.states[0].force[i]).max() > np.abs(less.states[0].force[i]).max()


def held_everywhere(name: str) -> str:
    """An arrangement with its posts' bases fixed and its tree bolts tied."""
    text = file_of(name).read_text(encoding="utf-8")
    if 'base = "fixed"' in text:
        return text
    text = re.sub(r'\nkind = "tree bolt"', '\nkind = "tree bolt"\nlateral = "tied"', text)
    return re.sub(r"\n(\[post\.\w+\])\n", r'\n\1\nbase = "fixed"\n', text)


@pytest.mark.parametrize("name", ["lookout", *ARRANGEMENTS])
def test_every_arrangement_is_in_balance_lateral(name):
    found = lateral_of(held_everywhere(name))
    assert found.loose == ""
    for state in found.states:
        force, turning = np.zeros((2, found.cases.count)), np.zeros(found.cases.count)
        # a post's foot gets less by what its knees push the deck with
        for spring, V in zip(state.springs, state.force - state.push, strict=True):
            F = spring.axes.T @ V
            force += F
            turning += spring.x * F[1] - spring.y * F[0]
        np.testing.assert_allclose(force, found.cases.load[:2], atol=1e-5)
        np.testing.assert_allclose(turning, found.cases.load[2], atol=1e-2)
        np.testing.assert_allclose(state.over.sum(axis=0), 0.0, atol=1e-5)


def test_two_tied_trees_fail():
    """Both trees tied: one of them has to let the platform slide; with one sliding it may."""
    tied = held_everywhere("two_trees")
    pair = [c for c in find_results(parse_project(tied)).checks if c.limit_state == "restrained trunks"]
    assert [c.status for c in pair] == [Status.FAILS]
    first = re.search(r'tree = "(\w+)"', tied)
    assert first is not None
    blocks = tied.split("[[support]]")
    slides = "[[support]]".join(
        b.replace('"tied"', '"slides"') if f'tree = "{first[1]}"' in b else b for b in blocks
    )
    pair = [c for c in find_results(parse_project(slides)).checks if c.limit_state == "restrained trunks"]
    assert [c.status for c in pair] == [Status.PASSES]
