"""Crossed rods in a platform: statics of the whole, which rod is stretched, names swapped, what is refused in words."""

from __future__ import annotations

import re

import numpy as np
import pytest
from arrangement_files import file_of, project_of

from bolewright.platform.analysis.lateral import LateralAnalysis, State, answer, find_lateral
from bolewright.platform.analysis.lateral_supports import Foot, PostFrame
from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.layout.parts import LayoutError
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.results.results import Results, find_results
from bolewright.platform.verification.independent_lateral import compare_lateral
from bolewright.status import Status

TEXT = file_of("crossed_rods").read_text(encoding="utf-8")
BARE = re.sub(r"\n\[\[crossed_rods\]\]\n(?:[^\[\n][^\n]*\n)*", "\n", TEXT)
H = 120 - 1.5 - 7.25 - 11.25  # in, underside of the beams: floor, boards, joists, beam
C, Z, L = H - 6, 8.0, 84.0  # heights of a rod's ends above grade, distance of the posts (in)


def lateral_of(text: str) -> LateralAnalysis:
    return find_lateral(find_load_path(find_layout(parse_project(text))))


@pytest.fixture(scope="module")
def found() -> Results:
    return find_results(project_of("crossed_rods"))


def check_of(results: Results, part: str, key: str) -> Check:
    return next(c for c in results.checks if (c.part, c.key) == (part, key))


def across(state: State, lateral: LateralAnalysis, mark: str) -> np.ndarray:
    """Lateral force on a post across the beams, along y."""
    i = lateral.row(mark)
    return np.asarray((state.springs[i].axes.T @ state.force[i])[1])


def test_the_arrangement_stands(found: Results) -> None:
    """All that is open is asked of the user: earthquake, guard."""
    left = {c.key for c in found.checks if c.status is not Status.PASSES}
    assert left == {"platform.seismic", "platform.guard"}


def test_vertical_parts_make_the_couple_of_each_panel(found: Results) -> None:
    """T sin = H_r b / L down on one post and up on the other: no sum, and the moment H_r b."""
    lateral = found.lateral
    for state in lateral.states:
        for one, two in (("P1", "P3"), ("P2", "P4")):
            i, j = lateral.row(one), lateral.row(two)
            H_r = np.abs(state.rods[i] + state.rods[j]).max(axis=0)
            np.testing.assert_allclose(state.rod_loads[i] + state.rod_loads[j], 0.0, atol=1e-9)
            np.testing.assert_allclose(np.abs(state.rod_loads[i]) * L, H_r * (C - Z), rtol=1e-9)


def test_everything_balances_at_grade(found: Results) -> None:
    """Forces on each post across: what comes in at its beam's top, its rods, its foot; moments about grade.

    Whole panel: V_1 + V_2 = lateral forces at both feet, and the moment of V at the beams' top = moments at grade + the
    couple of the vertical parts.
    """
    lateral = found.lateral
    top = H + 11.25
    for state in lateral.states:
        for one, two in (("P1", "P3"), ("P2", "P4")):
            i, j = lateral.row(one), lateral.row(two)
            V = across(state, lateral, one), across(state, lateral, two)
            head = [np.abs(state.rods[k]).max(axis=0) for k in (i, j)]
            towards = np.where(
                head[1] > head[0], 1.0, -1.0
            )  # the rod at the second post's head: moved towards it
            feet = [V[0] * towards - head[0] + head[1], V[1] * towards - head[1] + head[0]]
            np.testing.assert_allclose(feet[0] + feet[1], (V[0] + V[1]) * towards, atol=1e-9)
            moments = sum(
                v * towards * top - own * C + other * Z
                for v, own, other in ((V[0], head[0], head[1]), (V[1], head[1], head[0]))
            )
            couple = (state.rod_loads[j] - state.rod_loads[i]) / 2 * towards * L
            np.testing.assert_allclose(moments + couple, (V[0] + V[1]) * towards * top, rtol=1e-9, atol=1e-6)


def test_the_stretched_rod_holds(found: Results) -> None:
    """Pushed along +y the rod at the head of the far post is stretched, pushed back the other; never both."""
    lateral = found.lateral
    for state in lateral.states:
        for mark, sense in (("P1", -1), ("P3", 1), ("P2", -1), ("P4", 1)):
            i = lateral.row(mark)
            x = lateral.frames[i].support.at[0]
            along = state.movement[1] + state.movement[2] * x
            clear = np.abs(along) > 1e-6
            pulled = state.rods[i].max(axis=0) > 0
            assert (pulled == (along * sense > 0))[clear].all()
        assert state.k[:, 1].max() > 3 * state.k[:, 1].min()


def test_posts_share_as_stiff_as_they_are(found: Results) -> None:
    """1000 lb along +y through the middle, the joints firm: each pair takes half, the pulled head most of it."""
    lateral = found.lateral
    state = next(s for s in lateral.states if s.foot is Foot.HELD)
    load = np.array([[0.0], [1000.0], [1000.0 * 72]])
    pushed = answer(lateral, state, load, np.array([[0.0], [0.0]]))
    V = {m: float(across(pushed, lateral, m)[0]) for m in ("P1", "P2", "P3", "P4")}
    assert sum(V.values()) == pytest.approx(1000.0)
    assert V["P3"] == pytest.approx(V["P4"], rel=1e-3)
    assert V["P3"] > 8 * V["P1"]
    back = answer(lateral, state, -load, np.array([[0.0], [0.0]]))
    assert float(across(back, lateral, "P1")[0]) == pytest.approx(-V["P3"], rel=1e-3)


def test_tension_by_hand(found: Results) -> None:
    """T = H_r / cos of the rod, against its strength (AISC: 6613 lb) and the rating of its ends."""
    lateral = found.lateral
    L_r = np.hypot(L, C - Z)
    T = max(float(s.rods[lateral.row(m)].max()) for s in lateral.states for m in ("P1", "P3")) * L_r / L
    tension, ends = (check_of(found, "XR1", f"crossed_rods.{name}") for name in ("tension", "ends"))
    assert tension.demand == pytest.approx(T, rel=1e-6)
    assert tension.capacity == pytest.approx(36e3 * np.pi * 0.625**2 / 4 / 1.67)
    assert (ends.demand, ends.capacity) == (pytest.approx(T, rel=1e-6), 5000.0)


def test_rods_spare_drift_and_bending(found: Results) -> None:
    """Without the rods the same posts drift and bend more; the rods lift and press their feet."""
    bare = find_results(parse_project(BARE))
    for key, part in (("platform.drift", "platform"), ("post.in_ground", "P1")):
        assert check_of(found, part, key).ratio < check_of(bare, part, key).ratio
    assert check_of(bare, "platform", "platform.drift").ratio > 1.5
    for key in ("footing.soil_lateral", "footing.uplift_lateral"):
        assert check_of(found, "P1", key).demand > check_of(bare, "P1", key).demand


def test_a_rod_s_hole_is_missing_from_the_post(found: Results) -> None:
    """NDS 2018, 3.1.2: an 8x8 (7 1/2 in. square) with holes of 11/16 in. along both sides keeps 90.8 % of its modulus.

    By hand with the cross cut out: I = (b - D)(d^3 - D^3) / 12; area by what two strips and their square leave. The
    moment at the lower rod from what is below it: that at grade less the foot's force on the way up.
    """
    check = check_of(found, "P1", "post.at_rods")
    steps = {s.formula.name: s for s in check.steps}
    D, b = 0.625 + 1 / 16, 7.5
    S = (b - D) * (b**3 - D**3) / 12 / (b / 2)
    assert steps["net_modulus_at_rods"].result == pytest.approx(S)
    assert steps["bending_stress"].arguments["S"] == pytest.approx(S)
    assert pytest.approx(0.908, abs=5e-4) == S / (b**3 / 6)
    assert steps["compression_stress"].arguments["A"] == pytest.approx(b**2 - 2 * b * D + D**2)
    at = steps["post_moment_at_lower_rod"].arguments
    V, H_r = abs(at["V"]), at["H_r"]
    below = abs((V * at["h"] - H_r * at["c"]) - at["z"] * (V - H_r))
    assert steps["post_moment_at_lower_rod"].result == pytest.approx(below)
    assert (at["c"], at["z"]) == (pytest.approx(C), Z)
    larger = max(V * (at["h"] - C), below)
    assert steps["post_moment_at_rods"].result == pytest.approx(larger)


def test_thicker_rods_leave_less_of_the_post(found: Results) -> None:
    thick = find_results(
        parse_project(TEXT.replace('diameter = "5/8 in"\nrated', 'diameter = "1 1/2 in"\nrated'))
    )
    for mark in ("P1", "P3"):
        modulus = [
            next(
                s.result
                for s in check_of(r, mark, "post.at_rods").steps
                if s.formula.name == "net_modulus_at_rods"
            )
            for r in (found, thick)
        ]
        assert modulus[1] < 0.9 * modulus[0]


def test_both_models_agree(found: Results) -> None:
    parted = [
        c
        for c in compare_lateral(found.lateral)
        if abs(c.by_hand - c.by_frame) > 0.05 * max(c.by_hand, c.by_frame)
    ]
    small = [c for c in parted if max(c.by_hand, c.by_frame) < 20]
    assert parted == small


def test_names_swapped_change_nothing(found: Results) -> None:
    text = TEXT.replace('from_post = "P1"\nto_post = "P3"', 'from_post = "P3"\nto_post = "P1"')
    assert text != TEXT
    other = find_results(parse_project(text))
    ratios = {(c.part, c.key, c.at): c.ratio for c in other.checks}
    for check in found.checks:
        twin = ratios[check.part, check.key, check.at]
        assert twin == pytest.approx(check.ratio, rel=5e-3, abs=1e-4, nan_ok=True), (check.part, check.key)


def test_rods_along_the_beams() -> None:
    """Rods between the two posts of each beam in place of its knees: no arm, for the beam takes its own moment."""
    text = re.sub(r"\n\[\[brace\]\]\n(?:[^\[\n][^\n]*\n)*", "\n", TEXT)
    for n, (one, two) in enumerate((("P1", "P2"), ("P3", "P4")), 3):
        text += f'\n[[crossed_rods]]\nmark = "XR{n}"\nfrom_post = "{one}"\nto_post = "{two}"\ndiameter = "5/8 in"\n'
        text += 'rated_load = "5000 lb"\n'
    results = find_results(parse_project(text))
    lateral = results.lateral
    assert all(isinstance(f, PostFrame) and all(a.rod for a in f.axes) for f in lateral.frames)
    assert [f.arm(0) for f in lateral.frames if isinstance(f, PostFrame)] == [0.0] * 4
    assert check_of(results, "platform", "platform.drift").ratio < 1
    for state in lateral.states:
        np.testing.assert_allclose(state.rod_loads.sum(axis=0), 0.0, atol=1e-9)
        assert np.abs(state.rods[:, 0]).max() > 0
    assert not any(c.key == "platform.comparison" and c.status is not Status.PASSES for c in results.checks)


def test_posts_on_hinged_feet_stand_by_rods() -> None:
    """With hinged feet nothing but the rods holds the platform across; along it the knees do."""
    text = TEXT.replace('base = "fixed"', 'base = "pinned"')
    assert not lateral_of(text).loose
    bare = BARE.replace('base = "fixed"', 'base = "pinned"')
    assert lateral_of(bare).loose == "along y"


def test_metric_gives_the_same() -> None:
    text = TEXT.replace('rated_load = "5000 lb"', 'rated_load = "22.2411 kN"')
    text = text.replace('diameter = "5/8 in"\nrated', 'diameter = "15.875 mm"\nrated')
    assert text != TEXT
    one, two = (check_of(find_results(parse_project(t)), "XR1", "crossed_rods.ends") for t in (TEXT, text))
    assert two.ratio == pytest.approx(one.ratio, rel=1e-5)


def test_without_a_rating_the_ends_are_open() -> None:
    text = TEXT.replace('rated_load = "5000 lb"\n', "")
    check = check_of(find_results(parse_project(text)), "XR1", "crossed_rods.ends")
    assert check.status is Status.NOT_CHECKED
    assert "rated_load" in check.sentence


REFUSED = {
    "no such post": ('to_post = "P3"', 'to_post = "P9"', "'P9' is no post of this file"),
    "one post": ('to_post = "P3"', 'to_post = "P1"', "XR1 starts and ends at P1"),
    "too thin": (
        'diameter = "5/8 in"\nrated_load',
        'diameter = "1/4 in"\nrated_load',
        "'1/4 in' is less than 0.375 in",
    ),
    "aslant": ('to_post = "P3"', 'to_post = "P4"', "XR1 runs aslant at post P1"),
    "as the knee": ('to_post = "P3"', 'to_post = "P2"', "XR1 runs the same way as knee brace K1 at post P1"),
    "no rise": (
        'diameter = "5/8 in"\nrated_load',
        'diameter = "5/8 in"\nbelow_beam = "60 in"\nabove_grade = "40 in"\nrated_load',
        "at least 1' 0\" must be left between the ends",
    ),
    "a mark twice": ('mark = "XR2"', 'mark = "XR1"', "'XR1' already names a pair of crossed rods"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_bad_input_gets_one_sentence(case: str) -> None:
    old, new, says = REFUSED[case]
    assert old in TEXT
    with pytest.raises((ProjectError, LayoutError)) as refused:
        lateral_of(TEXT.replace(old, new, 1))
    assert says in str(refused.value)


def test_two_pairs_at_one_post_in_one_direction_are_refused() -> None:
    more = TEXT + '\n[[crossed_rods]]\nmark = "XR3"\nfrom_post = "P1"\nto_post = "P3"\ndiameter = "5/8 in"\n'
    with pytest.raises(LayoutError, match="brace every second bay"):
        lateral_of(more)


def test_a_trunk_in_the_way_is_refused() -> None:
    """From corner to corner round the beech they would run through it."""
    text = file_of("round_the_trunk").read_text(encoding="utf-8")
    rods = '\n[[crossed_rods]]\nmark = "XR1"\nfrom_post = "P1"\nto_post = "P4"\ndiameter = "5/8 in"\n'
    with pytest.raises(LayoutError, match=r"XR1 runs .* into the trunk of"):
        lateral_of(text + rods)
