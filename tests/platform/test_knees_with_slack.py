"""Weight that knee braces press on a post's cap is a help only while they are tight: without it by statics.

A knee under a loaded overhang is pulled, and presses its beam on the cap by as much. Bolts in holes 1/16 in. wider
(NDS 2018, 12.1.3.2) have slack, and green wood shrinks: a beam is held down by what lies on it alone.
"""

from __future__ import annotations

from functools import lru_cache
from math import hypot, sqrt
from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results

LOOKOUT = Path(__file__).parents[2] / "calcsheets" / "lookout.toml"
P1, P2 = -36.0, 48.0  # in: x of the posts
F_C_PERP = 565 * 0.67  # psi: Southern Pine No.2 (NDS 2018 Supplement, Table 4B), wet
SIDE, BEAM, DEEP = 5.5, 4.5, 11.25  # in: 6x6 post, three plies, 2x12


@lru_cache
def results() -> Results:
    return find_results(parse_project(LOOKOUT.read_text(encoding="utf-8")))


def row(key: str, part: str) -> Check:
    return next(c for c in results().checks if c.key == key and c.part == part)


def dead_on_cap(mark: str) -> float:
    """Dead load on a cap by the lever rule: ends of S1 and S2 and the weight of C1 itself, on two posts."""
    path = results().path
    beam = path.layout.member("C1")
    start = beam.line.at(0.0)[0]
    near, far = (P1, P2) if mark == "P1" else (P2, P1)
    total = 0.0
    for upper in ("S1", "S2"):
        seats = path.layout.member(upper).seats
        n = next(i for i, seat in enumerate(seats) if seat.below == "C1")
        x = path.layout.member(upper).line.at(seats[n].at)[0]
        total += float(path.effects[upper].reactions[n] @ path.dead) * (far - x) / (far - near)
    own = 38.6 / 1728 * 3 * 1.5 * 11.25 * beam.line.length  # lb: wet, 38.6 pcf (NDS Supplement, 3.1.3)
    return total + own * (far - (start + beam.line.length / 2)) / (far - near)


def pull(M: float, R: float) -> float:
    """Pull on the face that lifts: with T it presses a block of wood x wide at the far edge, F_c_perp l_b x = R + T.

    Moments about the middle of the block: M = R (b/2 - x/2) + T (b - x/2), a square in x.
    """
    f, b = F_C_PERP * SIDE, BEAM
    x = b - sqrt(b**2 - 2 * (M + R * b / 2) / f)
    return max(f * x - R, 0.0)


@pytest.mark.parametrize("mark", ["P1", "P2"])
def test_ratings_together_count_no_pull_of_the_knees(mark: str) -> None:
    """0.6 D by the lever rule, no live load: ASCE 7-16, 2.4.1; the shares of strap and cap add up."""
    check = row("post.cap_together", mark)
    assert check.combination == "0.6D + 0.6W"
    weight = next(s.arguments for s in check.steps if s.formula.name == "load_with_sway")
    R = float(weight["R"]) + float(weight["R_o"]) + float(weight["R_k"])
    assert float(weight["R"]) == pytest.approx(0.6 * dead_on_cap(mark), rel=2e-3)
    sides = next(s.arguments for s in check.steps if s.formula.name == "resultant_lateral_force")
    V_1, V_2 = abs(float(sides["V_1"])), abs(float(sides["V_2"]))
    asked = pull(V_2 * DEEP, R) / 420 + hypot(V_1, V_2) / 760
    assert check.ratio == pytest.approx(asked, rel=2e-3)


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


def test_a_bolt_under_a_braced_beam_bears_all_of_its_weight() -> None:
    """S1 stands on T1 and P1, and a knee of P1 props it 30 in. from there, towards T1.

    With slack in it the beam is one span, and T1 bears what it does without a knee: the lever rule of the gravity rows.
    Sway at the same D + L can only add to that.
    """
    found = {c.key: c for c in one_knee().checks if c.part == "T1"}
    alone = one_knee().path.reactions["T1"]
    path = one_knee().path
    weight = float(alone @ path.dead + (alone * (alone > 0)) @ path.live)
    assert found["tree_bolt.rated"].demand >= weight * (1 - 1e-9)
    for key in ("tree_bolt.rated_lateral", "tree_bolt.steel_biaxial"):
        load = next(s.arguments for s in found[key].steps if s.formula.name == "load_with_sway")
        assert "its knees with slack" in found[key].where or float(load["R"]) >= weight, key
    assert found["tree_bolt.rated_lateral"].demand >= weight
    assert found["tree_bolt.steel_biaxial"].ratio > 1.0  # it was 0.93 by the knee alone


def test_the_post_of_a_slack_knee_bears_as_without_it() -> None:
    """Net section at its bolts and combined load at the knee count the worse of both ways."""
    path = one_knee().path
    alone = path.reactions["P1"]
    weight = float(alone @ path.dead + (alone * (alone > 0)) @ path.live)
    check = next(c for c in one_knee().checks if c.key == "post.net_section" and c.part == "P1")
    area = 5.5**2 - 5.5 * (
        1 / 2 + 1 / 16
    )  # a 6x6 less one hole of a 1/2 in. bolt (NDS 2018, 3.1.2, 12.1.3.2)
    assert check.demand >= weight / area * (1 - 1e-9)
