"""Weight that knee braces press on a post's cap is a help only while they are tight: without it by statics.

A knee under a loaded overhang is pulled, and presses its beam on the cap by as much. Bolts in holes 1/16 in. wider
(NDS 2018, 12.1.3.2) have slack, and green wood shrinks: a beam is held down by what lies on it alone.
"""

from __future__ import annotations

from functools import lru_cache
from math import hypot, pi, sqrt
from pathlib import Path

import pytest
from bars_in_wood import bar_in_wood
from lookout_by_lever import LOOKOUT, WET, stringer

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.not_calculated import not_calculated
from bolewright.platform.results.results import Results, find_results

P1, P2 = -36.0, 48.0  # in: x of the posts
F_C_PERP = 565 * 0.67  # psi: Southern Pine No.2 (NDS 2018 Supplement, Table 4B), wet
SIDE, BEAM, DEEP = 5.5, 4.5, 11.25  # in: 6x6 post, three plies, 2x12


@lru_cache
def results() -> Results:
    return find_results(parse_project(LOOKOUT))


def row(key: str, part: str) -> Check:
    return next(c for c in results().checks if c.key == key and c.part == part)


def dead_on_cap(mark: str) -> float:
    """Dead load on a cap by the lever rule alone (lb): deck and joists on S1 and S2, these on bolts and C1 114 in. off.

    A strip of deck across comes onto both by where its middle lies between them. Joists count from axis to axis.
    """
    ends = {"S1": 0.0, "S2": 0.0}

    def carried(pounds: float, x: float, y: float) -> None:
        left, right = stringer("S1", y), stringer("S2", y)
        ends["S1"] += pounds * (right - x) / (right - left) * y / 114
        ends["S2"] += pounds * (x - left) / (right - left) * y / 114

    n = 2000
    for i in range(n):  # decking and 1 psf of hardware
        y = 18 + 116 * (i + 0.5) / n
        left, right = -24 - 34.25 * (y - 18) / 116, 26 + 48.5 * (y - 18) / 116
        carried((1.5 * WET + 1 / 144) * (right - left) * 116 / n, (left + right) / 2, y)
    for y in range(20, 133, 16):  # 2x8
        left, right = stringer("S1", y), stringer("S2", y)
        carried(1.5 * 7.25 * WET * (right - left), (left + right) / 2, y)
    carried(8 / 12 * 132.75, (74.5 - 58.25) / 2, 134)  # guard along the far edge; those at the sides:
    for upper, run in (("S1", 34.25), ("S2", 48.5)):
        ends[upper] += 8 / 12 * hypot(run, 116) * 76 / 114
        length = hypot(stringer(upper, 133) - stringer(upper, -6), 139)
        ends[upper] += 3 * 11.25 * WET * length * 63.5 / 114
    near, far = (P1, P2) if mark == "P1" else (P2, P1)
    own, middle = BEAM * DEEP * WET * 123.1875, -54.6875 + 123.1875 / 2
    on = [(pounds, stringer(upper, 114)) for upper, pounds in ends.items()]
    return sum(pounds * (far - x) / (far - near) for pounds, x in [*on, (own, middle)])


def pull(M: float, R: float) -> float:
    """Pull on the face that lifts: with T it presses a block of wood x wide at the far edge, F_c_perp l_b x = R + T.

    Moments about the middle of the block: M = R (b/2 - x/2) + T (b - x/2), a square in x.
    """
    f, b = F_C_PERP * SIDE, BEAM
    x = b - sqrt(b**2 - 2 * (M + R * b / 2) / f)
    return max(f * x - R, 0.0)


@pytest.mark.parametrize("mark", ["P1", "P2"])
def test_ratings_together_count_no_pull_of_the_knees(mark: str) -> None:
    """0.6 D by the lever rule, no live load: ASCE 7-16, 2.4.1; the shares of strap and cap add up.

    What wind takes off the cap and pushes it aside is as printed: its own analysis.
    """
    check = row("post.cap_together", mark)
    assert check.combination == "0.6D + 0.6W"
    weight = next(s.arguments for s in check.steps if s.formula.name == "load_with_sway")
    R = float(weight["R"]) + float(weight["R_o"]) + float(weight["R_k"])
    assert float(weight["R"]) == pytest.approx(0.6 * dead_on_cap(mark), rel=2e-3)
    sides = next(s.arguments for s in check.steps if s.formula.name == "resultant_lateral_force")
    V_1, V_2 = abs(float(sides["V_1"])), abs(float(sides["V_2"]))
    asked = pull(V_2 * DEEP, R) / 500 + hypot(V_1, V_2) / 900
    frame = next((float(s.arguments["f_m"]) for s in check.steps if s.formula.name == "demand_by_frame"), 1.0)
    assert 1.0 <= frame < 1.05
    assert check.ratio == pytest.approx(asked * frame, rel=3e-3)


@pytest.mark.parametrize("mark", ["P1", "P2"])
def test_the_least_load_with_sway_is_no_larger_than_without(mark: str) -> None:
    """Sway takes weight off one side or the other, whichever way people lean: the least can only fall."""
    assert row("post.uplift_lateral", mark).capacity < row("post.uplift", mark).capacity


@pytest.mark.parametrize("mark", ["P1", "P2"])
def test_rotation_of_the_beam_on_its_cap_counts_no_pull_of_the_knees(mark: str) -> None:
    check = row("post.cap_rotation", mark)
    weight = next(s.arguments for s in check.steps if s.formula.name == "load_with_sway")
    assert float(weight["R"]) == pytest.approx(0.6 * dead_on_cap(mark), rel=2e-3)


ONE_KNEE = Path(__file__).parent / "arrangements" / "one_tree_one_post_knee.toml"


@lru_cache
def one_knee() -> Results:
    return find_results(parse_project(ONE_KNEE.read_text(encoding="utf-8")))


def weight_on(mark: str, D: float, L: float, S: float) -> float:
    """Weight on T1, or on P1, by the lever rule (lb): S1 from T1 (y 0) to P1 (y 156), S2 its mirror image.

    Deck from y 22 to 142, 54 to 16 in. wide; joists every 16 in. from 24; guards of 8 plf along all but the near edge.
    """
    area, middle = 120 * (54 + 16) / 2, 22 + 120 * (54 + 2 * 16) / (3 * (54 + 16))
    side, length = hypot(19, 120), hypot(27, 162)
    joists = [(1.5 * 5.5 * WET * 54 * (156 - y) / 162, y) for y in range(24, 137, 16)]
    dead = [
        (area * (1.5 * WET + 1 / 144), middle),
        *joists,
        (2 * side * 8 / 12, 82.0),
        (16 * 8 / 12, 142.0),
        (2 * 3 * 9.25 * WET * length, 75.0),
    ]
    loads = [*[(D * pounds, y) for pounds, y in dead], (area / 144 * (40 * L + 25 * S), middle)]
    if mark == "T1":
        return sum(pounds / 2 * (156 - y) / 156 for pounds, y in loads)
    return sum(pounds * y / 156 for pounds, y in loads)


# The boards outside the stringers' axes lie on these alone and not on the joists: up to 1/2 % more on the bolt.
ASIDE = 1.005


def test_a_bolt_under_a_braced_beam_bears_all_of_its_weight() -> None:
    """S1 stands on T1 and P1, and a knee of P1 props it 30 in. from there, towards T1.

    With slack in it the beam is one span, and T1 bears what it does without a knee, with wind and sway on top of it.
    """
    found = {c.key: c for c in one_knee().checks if c.part == "T1"}
    weight = weight_on("T1", 1, 0.75, 0.75)
    rated = found["tree_bolt.rated"]
    assert rated.combination == "D + 0.75L + 0.75S"
    assert weight <= rated.demand <= ASIDE * weight
    for key in ("tree_bolt.rated_lateral", "tree_bolt.steel_biaxial"):
        check = found[key]
        assert check.combination == "D + 0.75L + 0.75(0.6W) + 0.75S"
        assert check.where.endswith("its knees with slack")
        load = next(s.arguments for s in check.steps if s.formula.name == "load_with_sway")
        assert weight <= float(load["R"]) <= ASIDE * weight, key


def test_the_bolt_of_a_slack_knee_is_bent_over_its_first_yield() -> None:
    """It was 0.93 by the knee alone. Weight by the lever rule; wind's part of it and across the bolt as printed.

    The bar by elements of our own: 1 1/2 in., 7 in. in white oak (green: 1.25e6 psi, Wood Handbook, Table 5-3b) of
    kappa 20 down and 200 across, the load 26 - 19 1/4 in. before the wood; the force along it acts at its top.
    """
    check = next(c for c in one_knee().checks if c.part == "T1" and c.key == "tree_bolt.steel_biaxial")
    load = next(s.arguments for s in check.steps if s.formula.name == "load_with_sway")
    # with what the knee pushes the deck with while it is tight: both count at once, on the safe side
    across, along = (float(s.result) for s in check.steps if s.formula.name == "with_brace_compression")
    down, side = (bar_in_wood(1.5, 7.0, 6.75, 1.25e6 / kappa)[0] for kappa in (20.0, 200.0))
    P = weight_on("T1", 1, 0.75, 0.75) + float(load["R_o"]) + float(load["R_k"])
    M = hypot(P * down + abs(along) * 0.75, across * side)
    first_yield = 36_000 * pi * 1.5**3 / 32 / 1.67  # AISC 360-16, F11 at F_y S, ASD
    frame = next((float(s.arguments["f_m"]) for s in check.steps if s.formula.name == "demand_by_frame"), 1.0)
    assert 1.0 <= frame < 1.06
    assert frame * M / first_yield <= check.ratio * 1.0005
    assert check.ratio <= frame * M / first_yield * ASIDE


def test_the_post_of_a_slack_knee_bears_no_less_than_without_it() -> None:
    """All of the weight on the section less one hole of a 1/2 in. bolt (NDS 2018, 3.1.2, 12.1.3.2); sway adds to it."""
    check = next(c for c in one_knee().checks if c.key == "post.net_section" and c.part == "P1")
    assert check.combination == "D + L"
    area = 5.5**2 - 5.5 * (1 / 2 + 1 / 16)
    assert check.demand * area > weight_on("P1", 1, 1, 0)


def test_slack_in_one_of_two_knees_of_a_post_is_named_as_not_calculated() -> None:
    """Until it closes the other has all of their lateral force: no row counts that. Lone knees have it anyhow."""
    assert [one.what for one in not_calculated(results().project) if "slack" in one.what] == []
    second = LOOKOUT[LOOKOUT.index('[[brace]]\nmark = "K1"') : LOOKOUT.index('[[brace]]\nmark = "K2"')]
    second = second.replace('"K1"', '"K3"').replace('towards = "end"', 'towards = "start"')
    named = [one for one in not_calculated(parse_project(f"{LOOKOUT}\n{second}")) if "slack" in one.what]
    assert [one.what for one in named] == ["slack in one of the two knees of P1"]
    assert "twice" in named[0].why
    assert "NDS 2018, 12.1.3.2" in named[0].why
