"""States on the way that can fall over: a worker of 300 lb and his push, statics by hand."""

from __future__ import annotations

import math

import pytest
from arrangement_files import DEMO, file_of

from bolewright.bracing.building import construction_push, push_with_arm
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.load_path import find_load_path, line_weight
from bolewright.platform.results.results import find_results
from bolewright.status import Status

TEXT = file_of(DEMO).read_text(encoding="utf-8")


def checks(text: str = TEXT) -> dict[tuple[str, str], Check]:
    return {(c.part, c.key): c for c in find_results(parse_project(text)).checks}


FOUND = checks()
LAYOUT = find_layout(parse_project(TEXT))


def step(check: Check, name: str) -> float:
    return next(float(s.result) for s in check.steps if s.formula.name == name)


def test_a_joist_carries_one_worker_before_the_decking_is_on():
    """Simple span L: (300 L/4 + w L²/8) / S; edge free over L/2, C_L by NDS 2018, 3.3.3.8, worked here again."""
    joist = LAYOUT.member("J8")
    L, w = joist.line.length, line_weight(joist)
    check = FOUND["J8", "joist.stage_bending"]
    assert check.demand == pytest.approx((300 * L / 4 + w * L**2 / 8) / (1.5 * 7.25**2 / 6), rel=2e-3)
    F_b, E_min, C_D = (
        925.0,
        510_000 * 0.9,
        1.25,
    )  # Southern Pine No.2 2x8, wet: F_b C_F <= 1150, C_M = 1; E_min 0.9
    l_u, d, b = L / 2, 7.25, 1.5
    l_e = 2.06 * l_u if l_u / d < 7 else 1.63 * l_u + 3 * d  # Table 3.3.3, any other load
    r = 1.20 * E_min / (l_e * d / b**2) / (F_b * C_D)
    C_L = (1 + r) / 1.9 - math.sqrt(((1 + r) / 1.9) ** 2 - r / 0.95)
    assert check.capacity == pytest.approx(F_b * C_D * C_L, rel=1e-6)


def test_a_beam_is_free_from_seat_to_seat_before_its_joists_are_on():
    """C1 on P1 and P2, 84 in. apart: the longest length with nothing on it is that between the posts."""
    check = FOUND["C1", "beam.stage_bending"]
    length = next(s for s in check.steps if s.formula.name == "effective_length")
    assert dict(length.arguments)["l_u"] == pytest.approx(84)
    assert check.combination == "D + one worker"


def test_a_workers_push_turns_a_beam_about_its_edge():
    """50 lb at the top of C1, 11 1/4 in. up: 562.5 lb·in; a strap of 500 lb on the far side and the weight hold
    about the middle of the block x = (500 + R)/(378.55 x 5.5) that both press: 500 (4.5 - x/2) + R (2.25 - x/2).
    """
    check = FOUND["C1", "beam.stage_rotation"]
    assert check.demand == pytest.approx(562.5)
    path = find_load_path(LAYOUT)
    beams = sum(line_weight(m) * m.line.length for m in path.layout.beams)
    least, most = 500 / (0.67 * 565 * 5.5), (500 + beams) / (0.67 * 565 * 5.5)
    assert 500 * (4.5 - most / 2) < check.capacity < 500 * (4.5 - least / 2) + beams * 2.25


def test_a_beam_that_nothing_ties_is_open_and_says_what_holds_it_until_then():
    text = TEXT.replace('rotation_tie = "500 lb"', "#")
    check = checks(text)["C1", "beam.stage_rotation"]
    assert check.status is Status.NOT_CHECKED
    assert "turns it over on P2: its weight holds" in check.sentence  # one row for each seat
    assert "of 562 lb·in" in check.sentence
    assert "rotation_tie of the post" in check.sentence


def test_a_post_alone_in_its_concrete():
    """IBC 2021, equation 18-1 turned round: with A = 2.34 P / (S_1 b), d = A/2 (1 + sqrt(1 + 4.36 h/A)) at P = P_a."""
    check = FOUND["P1", "post.stage_alone"]
    assert check.demand == 50.0
    arguments = dict(
        next(s for s in check.steps if s.formula.name == "lateral_capacity_nonconstrained").arguments
    )
    A = 2.34 * check.capacity / (arguments["S_1"] * arguments["b"])
    assert A / 2 * (1 + math.sqrt(1 + 4.36 * arguments["h"] / A)) == pytest.approx(arguments["d"], rel=1e-9)
    assert arguments["h"] == pytest.approx(LAYOUT.seat_level("P1") / 12)


def test_lateral_load_of_building():
    """ASCE 37-14, 4.4.1 (from memory): 50 lb a person, or 2 % of the weight where that is more."""
    assert float(construction_push(1, 2000)) == 50
    assert float(construction_push(2, 2000)) == 100
    assert float(construction_push(1, 10_000)) == 200


def test_a_beam_is_slender_before_its_joists_are_on():
    """C1 on edge, 84 in. free: l_e = 1.63 x 84 + 3 x 11.25 in. (l_u/d = 7.47), R_B² = l_e d/b² (NDS 2018, 3.3.3.6)."""
    check = FOUND["C1", "beam.stage_slenderness"]
    b = LAYOUT.member("C1").width
    assert check.demand == pytest.approx(math.sqrt((1.63 * 84 + 3 * 11.25) * 11.25 / b**2))
    assert check.capacity == 50


def test_one_ply_is_twice_as_slender_as_two():
    """R_B goes with 1/b (NDS 2018, 3.3.3.6); one ply of a 2x12 passes 50 from (50² 1.5²/11.25 - 3 x 11.25)/1.63 on."""
    text = TEXT.replace('mark = "S1"\nplies = 2', 'mark = "S1"\nplies = 1')
    one = {(c.part, c.key): c for c in find_results(parse_project(text)).checks}[
        "S1", "beam.stage_slenderness"
    ]
    two = FOUND["S1", "beam.stage_slenderness"]
    assert one.demand == pytest.approx(2 * two.demand)
    l_u = dict(next(s for s in one.steps if s.formula.name == "effective_length").arguments)["l_u"]
    assert (one.status is Status.FAILS) == (l_u > (50**2 * 1.5**2 / 11.25 - 3 * 11.25) / 1.63)


def test_weight_on_an_arm_as_a_push_at_the_top():
    """50 lb at 60 in. and 300 lb 40 in. off: 3,000 + 12,000 lb·in about grade, as 250 lb at 60 in."""
    assert push_with_arm(P=50.0, W=300.0, a=40.0, h=60.0) == pytest.approx(15_000 / 60)


TEE = file_of("one_tree_one_post_t_frame").read_text(encoding="utf-8")


def test_a_worker_at_the_end_of_an_arm():
    """C1 of the T, 88 in. on its post in the middle: 300 x 44 + w 44²/2 over the post, and what the stringers weigh.

    About grade the post holds 50 h + 300 x 44: as much as (50 + 300 x 44/h) lb at its top.
    """
    found = checks(TEE)
    layout = find_layout(parse_project(TEE))
    beam = layout.member("C1")
    bending = found["C1", "beam.stage_bending"]
    M = 300 * 44 + line_weight(beam) * 44**2 / 2
    assert bending.demand * beam.section.S >= M
    assert bending.demand * beam.section.S == pytest.approx(M, rel=0.25)
    h = layout.seat_level("P1")
    post = found["P1", "post.stage_alone"]
    assert post.demand == pytest.approx(50 + 300 * 44 / h)
    assert ("C1", "beam.stage_rotation") in found
