"""Forces handed on: a post's uplift into its concrete, a tied bolt's thread and washer, green wood, trunks twisted."""

from __future__ import annotations

import math
import re
from functools import cache
from pathlib import Path

import pytest
from durations import load_duration

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results
from bolewright.status import Status
from bolewright.tree.steel import bolt_tension_strength, washer_bearing
from bolewright.tree.trunk import trunk_torsion, trunk_torsion_stress

PROJECTS = Path(__file__).parents[1] / "projects"
TREES = (PROJECTS / "two_trees_revision_a.toml").read_text(encoding="utf-8")
TEXT = (PROJECTS / "lookout_revision_a.toml").read_text(encoding="utf-8")
BOLTED = TEXT.replace('base = "fixed"', 'base = "fixed"\nfoot_bolts = 1\nfoot_bolt_diameter = "1/2 in"\n#', 1)


@cache
def results(text: str = TEXT) -> Results:
    return find_results(parse_project(text))


def find(part: str, key: str, text: str = TEXT) -> Check:
    return next(c for c in results(text).checks if (c.part, c.key) == (part, key))


def argument(check: Check, formula: str, name: str) -> float:
    return next(float(s.arguments[name]) for s in check.steps if s.formula.name == formula)


def test_post_that_is_lifted_is_open_until_its_foot_is_held() -> None:
    """Concrete does not hold a smooth post by itself: what lifts it is said, and what to enter."""
    found = find("P1", "post.foot_uplift")
    assert found.status is Status.NOT_CHECKED
    assert "foot_bolts" in found.sentence
    assert "foot_tie" in found.sentence


def test_bolts_in_the_foot_tear_no_row_out_and_leave_a_net_section() -> None:
    """6x6 Southern Pine No.2 of Table 4D, wet: F_v 165 psi, C_D 1.6; one 1/2 in. bolt 7 D = 3.5 in. above the end.

    NDS 2018, E.3-2: Z'_RT = 1 x 165 x 1.6 x 5.5 x 3.5 = 5,082 lb. Two bolts: 4 D = 2 in. counts, 2 x 264 x 5.5 x 2 =
    5,808 lb. Net area (3.8; hole 9/16 in., 12.1.3.2) 5.5 x (5.5 - 0.5625) = 27.156 in².
    """
    one = find("P1", "post.foot_tear_out", BOLTED)
    assert one.capacity == pytest.approx(165 * 1.6 * 5.5 * 3.5)
    assert one.demand == find("P1", "post.foot_uplift", BOLTED).demand
    two = find("P1", "post.foot_tear_out", BOLTED.replace("foot_bolts = 1", "foot_bolts = 2"))
    assert two.capacity == pytest.approx(2 * 165 * 1.6 * 5.5 * 2)
    net = find("P1", "post.foot_net_tension", BOLTED)
    assert net.demand == pytest.approx(one.demand / (5.5 * (5.5 - 9 / 16)))


def test_bolt_through_the_foot_by_the_yield_limit() -> None:
    """1/2 in. bolt, A307, double shear: 5 1/2 in. of Southern Pine between two of concrete, along the grain.

    NDS 2018, 12.3.1: F_em = 11200 x 0.55 = 6160 psi, F_es = 7500 psi, l_s 3 in., F_yb 45 ksi, R_d 4, 3.2. Im: D l_m
    F_em/4 = 4235 lb; Is: 2 D l_s F_es/4 = 5625; IV: 2 D^2/3.2 sqrt(2 F_em F_yb/(3 (1 + R_e))) = 1575 lb (R_e = 0.821);
    IIIs with k_3: 2 k_3 D l_s F_em/((2 + R_e) 3.2). The least, times C_D and the wet factor 0.7 (Table 11.3.3).
    """
    found = find("P1", "post.foot_uplift", BOLTED)
    D, l_m, l_s, F_em, F_es, F_yb = 0.5, 5.5, 3.0, 11200 * 0.55, 7500.0, 45_000.0
    R_e = F_em / F_es
    k_3 = -1 + math.sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D**2 / (3 * F_em * l_s**2))
    modes = (
        D * l_m * F_em / 4,
        2 * D * l_s * F_es / 4,
        2 * k_3 * D * l_s * F_em / ((2 + R_e) * 3.2),
        2 * D**2 / 3.2 * math.sqrt(2 * F_em * F_yb / (3 * (1 + R_e))),
    )
    assert found.capacity == pytest.approx(min(modes) * 0.7 * load_duration(found.combination), rel=1e-6)
    assert found.status is Status.PASSES
    assert found.demand == pytest.approx(
        -argument(found, "load_with_sway", "R")
        - argument(found, "load_with_sway", "R_o")
        - argument(found, "load_with_sway", "R_k")
    )


def test_bolts_hold_nothing_in_soil_and_an_anchor_is_rated() -> None:
    soil = BOLTED.replace('fill = "concrete"', 'fill = "soil"')
    assert find("P1", "post.foot_uplift", soil).status is Status.NOT_CHECKED
    tied = TEXT.replace('base = "fixed"', 'base = "fixed"\nfoot_tie = "400 lb"\n#', 1)
    assert find("P1", "post.foot_uplift", tied).capacity == 400.0


def test_tied_bolt_hands_the_pull_to_its_thread() -> None:
    """AISC 360-16, J3.6: 0.75 x 58 ksi x pi/4 x 1.5^2 / 2 = 38.4 kip; on a 3/4 in. root a quarter of it."""
    assert bolt_tension_strength(58_000.0, 1.5) == pytest.approx(0.75 * 58_000 * math.pi / 4 * 2.25 / 2)
    found = find("T1", "tree_bolt.thread")
    assert found.capacity == pytest.approx(38_436, rel=1e-3)
    thin = TEXT.replace('seat_length = "3 in"', 'seat_length = "3 in"\ntail_diameter = "3/4 in"')
    assert find("T1", "tree_bolt.thread", thin).capacity == pytest.approx(38_436 / 4, rel=1e-3)
    pull = find("T1", "tree_bolt.withdrawal")
    assert found.demand == pytest.approx(pull.demand, rel=0.25)  # each in its own governing case


def test_a_bolt_stronger_than_its_nut_is_open() -> None:
    """ASTM A563 grade A heavy hex, proof stress 100 ksi (from memory): steel of 120 ksi would strip it first."""
    assert any("full height" in note for note in find("T1", "tree_bolt.thread").notes)
    strong = re.sub(r'(?m)^F_u = "58 ksi"', 'F_u = "120 ksi"', TEXT).replace(
        'F_y = "36 ksi"', 'F_y = "92 ksi"'
    )
    found = find("T1", "tree_bolt.thread", strong)
    assert found.status is Status.NOT_CHECKED
    assert "nut" in found.sentence


def test_washer_bears_on_timber_across_its_grain() -> None:
    """3 in. washer on a 1 1/2 in. hole: pi/4 (9 - 2.25) = 5.30 in2; C_b (3 + 3/8)/3 within the length (NDS 3.10.4)."""
    assert washer_bearing(1000.0, 3.0, 1.5) == pytest.approx(1000 / 5.301, rel=1e-3)
    timber = TEXT.replace('seat = "steel bracket"', 'seat = "timber"')
    assert find("T1", "tree_bolt.washer", timber).status is Status.NOT_CHECKED
    given = timber.replace('seat_length = "3 in"', 'seat_length = "3 in"\nwasher = "3 in"')
    found = find("T1", "tree_bolt.washer", given)
    assert argument(found, "adjusted_bearing", "C_b") == pytest.approx(3.375 / 3)
    assert found.demand == pytest.approx(argument(found, "washer_bearing", "T") / 5.301, rel=1e-3)
    assert not any(c.key == "tree_bolt.washer" for c in results().checks)


def test_pressure_on_green_wood_under_lateral_load() -> None:
    """Bur oak, green: 3290 psi along (5 % exclusion, over 2.1), 680 psi across over 1.67 (ASTM D245), by Hankinson."""
    found = find("T1", "tree_bolt.wood_pressure_lateral")
    along = 3290 * (1 - 1.645 * 0.18) / 2.1 * load_duration(found.combination)
    theta = math.radians(argument(found, "trunk_bearing_at_angle", "theta"))
    across = argument(found, "trunk_bearing_at_angle", "F_e_perp")
    assert across == pytest.approx(680 / 1.67, rel=0.01)
    at_angle = along * across / (along * math.sin(theta) ** 2 + across * math.cos(theta) ** 2)
    down, side = argument(found, "resultant_pressure", "p_v"), argument(found, "resultant_pressure", "p_h")
    assert math.tan(theta) == pytest.approx(side / down, rel=1e-6)
    worse = max(math.hypot(down, side) / at_angle, side / across)  # the part across by itself, too
    assert found.ratio == pytest.approx(worse, rel=1e-6)


def test_bolts_on_one_side_twist_the_trunk() -> None:
    """200 lb across a bolt 17 in. out: 3400 lb·in; two like forces on opposite sides turn it twice, against it not."""
    one = trunk_torsion(0.0, 200.0, 17.0, 0.0)
    assert one == 3400.0
    assert one + trunk_torsion(0.0, 200.0, -17.0, 0.0) == 0.0
    assert one + trunk_torsion(0.0, -200.0, -17.0, 0.0) == 6800.0
    assert trunk_torsion_stress(3400.0, 22.0, 0.0) == pytest.approx(16 * 3400 / (math.pi * 22**3))
    found = find("OAK", "tree.trunk_torsion")
    assert found.status is Status.PASSES
    T, d = argument(found, "trunk_torsion_stress", "T"), argument(found, "trunk_torsion_stress", "d")
    assert found.demand == pytest.approx(16 * T / (math.pi * d**3))
    hollow = TEXT.replace('bark = "1 in"', 'bark = "1 in"\ncavity = "3 in"')
    assert find("OAK", "tree.trunk_torsion", hollow).ratio > found.ratio


def test_the_lever_of_a_bearing_that_slides_is_printed() -> None:
    """A step gives e as it is in all later steps: the slide entered is in it, what the trunk moves past it is added."""
    steps = {}
    for slide in ("2 in", "1/4 in"):
        text = TREES.replace('slide = "2 in"', f'slide = "{slide}"')
        for key in (
            "tree_bolt.steel_biaxial",
            "tree_bolt.wood_yield_lateral",
            "tree_bolt.wood_pressure_lateral",
        ):
            check = find("T1", key, text)
            (lever,) = [s for s in check.steps if s.formula.name == "lever_of_sliding"]
            moved, slid = lever.arguments["s_u"], lever.arguments["s_l"]
            assert lever.result == pytest.approx(lever.arguments["e"] + max(moved - slid, 0.0))
            last = ("bolt_moment_at", "rotation_yield", "hinge_yield", "bolt_pressure")
            of_last = [s.arguments for s in check.steps if s.formula.name in last]
            after = [
                given["e"] for given in of_last if given.get("P") != 1.0
            ]  # of 1 lb: the bolt's stiffness
            assert after
            assert set(after) == {lever.result}
        steps[slide] = lever
    lever = steps["1/4 in"]
    assert lever.arguments["s_l"] == 0.25
    assert lever.result > lever.arguments["e"]
