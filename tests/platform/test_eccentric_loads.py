"""Rotation of beams on their bearings, loads off their middle line, what passes from ply to ply: statics by hand."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from bolewright.bracing.rotation import (
    compression_block,
    rotation_resistance,
    tie_that_counts,
    torsion_stress,
)
from bolewright.platform.analysis.eccentric import off_centre, seat_torques
from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results
from bolewright.status import Status

PROJECTS = Path(__file__).parents[1] / "projects"
TEXT = (PROJECTS / "lookout_revision_a.toml").read_text(encoding="utf-8")
ROUND = (PROJECTS / "round_the_trunk_revision_a.toml").read_text(encoding="utf-8")
RATED = TEXT.replace('hanger = "HJ"', 'hanger = "HJ"\nrestrains_beam = true\nedge_load = "300 lb"').replace(
    "[connection.HJ]", '[connection.HJ]\nrated_skew = "23 deg"'
)


@cache
def results(text: str = TEXT) -> Results:
    return find_results(parse_project(text))


def find(part: str, limit_state: str, text: str = TEXT) -> Check:
    return next(c for c in results(text).checks if (c.part, c.limit_state) == (part, limit_state))


def has(part: str, key: str, text: str = TEXT) -> bool:
    return any(c.part == part and c.key == key for c in results(text).checks)


def argument(check: Check, formula: str, name: str) -> float:
    return next(float(s.arguments[name]) for s in check.steps if s.formula.name == formula)


def result(check: Check, formula: str) -> float:
    return next(float(s.result) for s in check.steps if s.formula.name == formula)


def test_a_beam_that_turns_over_presses_on_a_block_not_on_an_edge() -> None:
    """(2) 2x12 on (2) 2x12, 276 lb of weight, ties of 1500 lb, 4125 lb·in to be held (D + 0.75L + 0.75(0.6W)).

    About the edge: 276 x 1.5 + 1500 x 3 = 4914, a ratio of 0.84. The block: (276 + 1500)/(378.6 x 3) = 1.564 in., so
    276 x (1.5 - 0.782) + 1500 x (3 - 0.782) = 3525: 1.17.
    """
    R, T, F, l_b, b = 276.0, 1500.0, 0.67 * 565, 3.0, 3.0
    x = compression_block(R, T, F, l_b)
    assert x == pytest.approx(1.564, abs=0.001)
    assert 4125 / (R * b / 2 + T * b) == pytest.approx(0.84, abs=0.005)
    assert 4125 / rotation_resistance(R, b / 2, T, b, x) == pytest.approx(1.17, abs=0.005)


def test_rotation_is_judged_about_the_middle_of_the_block() -> None:
    """C1 on the cap of P1: block, arms and moment again from what the check prints."""
    found = find("P1", "rotation of C1 on the cap")
    R, T = argument(found, "rotation_resistance", "R"), 900.0
    x = (R + T) / (0.67 * 565 * 5.5)
    assert found.capacity == pytest.approx(R * (1.5 - x / 2) + T * (3 - x / 2), rel=1e-6)
    V, d = argument(found, "rotation_moment", "V"), 11.25
    frame = next((s.arguments["f_m"] for s in found.steps if s.formula.name == "demand_by_frame"), 1.0)
    assert 1.0 <= frame < 1.01  # where the frame model gives more, that counts
    assert found.demand == pytest.approx(V * d * frame, rel=1e-6)


def test_joists_on_one_face_turn_the_beam() -> None:
    """Hangers of 1 1/2 in. on the face of a 3 in. beam: e = 1.5 + 0.75 = 2.25 in. All of it reaches the seats."""
    path = results().path
    beam = path.layout.member("S1")
    loads = off_centre(path.layout, beam)
    assert {abs(load.e) for load in loads} == {2.25}
    assert len({load.e > 0 for load in loads}) == 1
    dead = sum(2.25 * float(path.effects[load.member.mark].reactions[load.row] @ path.dead) for load in loads)
    at_seats = seat_torques(path, beam) @ path.dead
    assert abs(float(np.sum(at_seats))) == pytest.approx(dead)
    found = find("S1", "rotation on C1")
    assert argument(found, "eccentric_moment", "e") == 2.25
    assert found.demand == pytest.approx(
        argument(found, "rotation_moment", "V") * 11.25 + 2.25 * argument(found, "eccentric_moment", "R")
    )
    assert found.status is Status.FAILS


def test_torsion_is_in_the_shear_of_a_beam_that_joists_twist() -> None:
    """Square bar: 4.81 T/s3 (Roark, 4.8 by his factors). Plies apart: T/2 on 1.5 x 11.25 each; sum held to F'_v."""
    assert torsion_stress(1000.0, 1.0, 10.0, 10.0) == pytest.approx(4.81, rel=0.01)
    found = find("S1", "shear with torsion")
    T = argument(found, "torsion_stress", "T")
    twist = T / 2 * (3 * 11.25 + 1.8 * 1.5) / (11.25**2 * 1.5**2)
    assert found.demand == pytest.approx(result(found, "shear_stress") + twist, rel=1e-6)
    assert found.capacity == pytest.approx(175 * 0.97 * (found.capacity / 169.75), rel=1e-6)


def test_rated_connections_take_the_moment_of_their_own_load() -> None:
    """edge_load entered: F = R x 2.25 / 7.25 at each hanger, none left for the beam's torsion and its seats."""
    found = find("J7", "edges of its connection to S1", RATED)
    hanger = find("J7", "hanger at S1", RATED)
    # the hanger itself is judged by the frame's load, where that is a little more: its own, by hand, is in its steps
    R = argument(hanger, "demand_by_frame", "demand")
    assert found.demand == pytest.approx(R * 2.25 / 7.25, rel=1e-6)
    assert found.capacity == 300.0
    assert not has("S1", "beam.torsion", RATED)
    upright = find("S1", "rotation on T1, held by joists", RATED)
    V, s = argument(upright, "torque_at_joist", "V"), argument(upright, "torque_at_joist", "s")
    R = argument(upright, "joist_edge_force", "R")
    assert upright.demand == pytest.approx((s * V * 11.25 + R * 2.25) / 7.25, rel=1e-6)
    assert upright.capacity == 300.0


def test_without_a_rating_joists_hold_nothing_and_the_way_out_is_said() -> None:
    """No fixed 100 lb: a beam without ties on a tree bolt is open, and both entries that help are named."""
    text = TEXT.replace('rotation_tie = "1500 lb"', "")
    found = find("S1", "rotation on T1", text)
    assert found.status is Status.NOT_CHECKED
    assert "rotation_tie" in found.sentence
    assert "restrains_beam" in found.sentence
    unrated = text.replace('"HJ"\n', '"HJ"\nrestrains_beam = true\n')
    assert find("S1", "rotation on T1, held by joists", unrated).status is Status.NOT_CHECKED
    assert find("J7", "edges of its connection to S1", unrated).status is Status.NOT_CHECKED


def test_what_hangs_on_one_ply_passes_to_the_other_through_nails() -> None:
    """Half of the load passes to the second of two plies. Nails beside a joist: 2 rows x 16 in. / 16 in. = 2.

    10d, 3 x 0.128 in., Southern Pine G 0.55, 1 1/2 in. side: Z = 106 lb in mode IIIs or IV, C_M 0.7 (NDS 2018, 12.3.1,
    Table 11.3.3); the value that the check uses is the library's, tested against NDS Table 12N.
    """
    found = find("S1", "ply-to-ply transfer")
    P, Z = argument(found, "ply_point_transfer", "P"), argument(found, "ply_point_fasteners", "Z_p")
    assert 60 < Z < 120
    assert found.demand == pytest.approx(P / 2 / Z, rel=1e-6)
    assert found.status is Status.FAILS
    closer = TEXT.replace(
        'lateral_tie = "800 lb"', 'lateral_tie = "800 lb"\nply_rows = 3\nply_spacing = "8 in"'
    )
    changed_file = find("S1", "ply-to-ply transfer", closer)
    assert changed_file.status is Status.PASSES
    loose = TEXT.replace('lateral_tie = "800 lb"', 'lateral_tie = "800 lb"\nplies_fastened = false')
    assert find("S1", "ply-to-ply transfer", loose).status is Status.FAILS


@pytest.mark.parametrize("section", ["3x12", "4x12"])
def test_nails_that_do_not_reach_the_second_ply_hold_nothing(section: str) -> None:
    """A nail of 3 in. leaves 1/2 in. past a ply of 2 1/2 in.; 6 D are 0.77 in. (NDS 2018, 12.1.6.5). It was a stop."""
    thick = TEXT.replace('section = "2x12"', f'section = "{section}"').replace(
        'section = "2x10"', f'section = "{section}"'
    )
    found = find("S1", "ply-to-ply transfer", thick)
    assert found.status is Status.NOT_CHECKED
    assert "12.1.6.5" in found.sentence


def test_header_turned_in_its_own_hangers_is_open_until_they_are_rated() -> None:
    """Round the trunk: a joist on one face of each header. By symmetry half of R e at each end, over the depth."""
    found = find("H1", "rotation in its hanger at M1", ROUND)
    assert found.status is Status.NOT_CHECKED
    assert "edge_load" in found.sentence
    headers = ROUND.replace('mark = "H1"', 'mark = "H1"\nedge_load = "150 lb"')
    rated = find("H1", "rotation in its hanger at M1", headers)
    assert rated.status is Status.PASSES
    assert rated.demand == pytest.approx(result(rated, "eccentric_moment") / 11.25, rel=0.6)


def test_plies_buckle_together_only_where_they_are_fastened() -> None:
    """R_B = sqrt(l_e d / b2): of the built-up breadth where fastened, of one ply where not; the same on both sheets."""
    loose = TEXT.replace('mark = "C1"\n', 'mark = "C1"\nplies_fastened = false\n')
    for name in ("negative bending", "bending with wind and sway"):
        together, apart = find("C1", name), find("C1", name, loose)
        assert argument(together, "slenderness_ratio", "b") == 3.0
        assert argument(apart, "slenderness_ratio", "b") == 1.5
        assert result(apart, "slenderness_ratio") == pytest.approx(2 * result(together, "slenderness_ratio"))
        assert result(apart, "beam_stability_factor") < result(together, "beam_stability_factor")
    assert find("C1", "slenderness on edge", loose).ratio == pytest.approx(
        2 * find("C1", "slenderness on edge").ratio
    )


def test_slenderness_beyond_50_fails() -> None:
    """NDS 2018, 3.3.3.7: R_B at most 50. C1 of one board 19 x 286 mm, 84 in. between its posts, by 3.3.3.5 and 3.3.3.6:

    l_e = 1.63 x 84 + 3 x 11.26 = 170.7 in., R_B = sqrt(170.7 x 11.26)/0.748 = 58.6.
    """
    thin = """
[material.THIN]
F_b = "1500 psi"
F_t = "1000 psi"
F_v = "175 psi"
F_c_perp = "565 psi"
F_c = "1500 psi"
E = "1400000 psi"
G = 0.55
note = "Invented for this test"

[bolt.main]"""
    head, beam = TEXT.replace("\n[bolt.main]", thin).split('mark = "C1"\n')
    beam = beam.replace('plies = 2\nsection = "2x12"\nspecies = "Southern Pine"\ngrade = "No.2"', _BOARD, 1)
    found = find("C1", "slenderness on edge", f'{head}mark = "C1"\n{beam}')
    d, b = 286 / 25.4, 19 / 25.4
    assert found.demand == pytest.approx(((1.63 * 84 + 3 * d) * d) ** 0.5 / b, rel=1e-3)
    assert found.ratio == pytest.approx(1.17, abs=0.01)
    assert found.status is Status.FAILS


_BOARD = 'plies = 1\nsection = "19x286 mm"\nmaterial = "THIN"'


def test_a_stronger_tie_never_holds_less() -> None:
    """k = 400 x 3 lb/in, b = 3, R = 600: the block reaches the tie at T = 3 k - R = 3,000 lb, M = 3,000 x 1.5."""
    held = []
    for rated in (0.0, 1000.0, 3000.0, 5000.0, 9000.0):
        T = float(tie_that_counts(rated, 600.0, 400.0, 3.0, 3.0, 1.5))
        x = compression_block(600.0, T, 400.0, 3.0)
        held.append(float(rotation_resistance(600.0, 1.5, T, 3.0, x)))
    assert held == sorted(held)
    assert held[2] == held[-1] == pytest.approx(4500.0)
    raised = RATED.replace('rotation_tie = "900 lb"', 'rotation_tie = "5000 lb"')
    assert raised != RATED
    weak, strong = (
        next(c for c in results(text).checks if c.key == "post.cap_rotation") for text in (RATED, raised)
    )
    assert strong.ratio <= weak.ratio


def test_plies_that_nothing_joins_turn_over_one_by_one() -> None:
    """Each of two 1 1/2 in. plies stands on its own 3/4 in. to either side: c of a beam of one ply (statics)."""
    apart = TEXT.replace('mark = "S1"', 'mark = "S1"\nplies_fastened = false')
    assert apart != TEXT
    found = [x for x in results(apart).checks if x.key == "beam.rotation" and x.part == "S1" and x.steps]
    assert found
    for check in found:
        assert argument(check, "rotation_resistance", "c") == pytest.approx(0.75)
        assert argument(check, "rotation_resistance", "b") == pytest.approx(1.5)


def test_a_hangers_seat_is_one_and_a_half_inches_at_least() -> None:
    """IRC 2021, R507.6.1 (from memory): 1 1/2 in. of bearing on wood or metal, a hanger's seat as well."""
    short = TEXT.replace('seat_length = "1 1/2 in"', 'seat_length = "1 in"')
    assert short != TEXT
    with pytest.raises(ProjectError, match=r"seat_length.*1.5 in"):
        parse_project(short)


def test_the_ply_that_joists_hang_on_bends_more_than_half() -> None:
    """Half of the beam's moment, and P/2 l/3 of what hangs at one place, l the length over which nails pass it on.

    2-2x12 on 2 rows at 16 in.: k = 2 x 2 x 180,000 x 0.128^1.5 / 16 = 2,061 psi (NDS 2018, 11.3.6.1; two plies slip
    by twice what each moves), E' = 0.9 E wet, I = 1.5 x 11.25^3 / 12 = 178 in4, l = (4 E I / k)^(1/4).
    """
    found = find("S1", "bending of the loaded ply")
    l_s = (4 * argument(found, "adjusted_modulus", "E") * 0.9 * 1.5 * 11.25**3 / 12 / 2061) ** 0.25
    M, P = argument(found, "moment_of_loaded_ply", "M"), argument(found, "ply_point_transfer", "P")
    by_hand = (M / 2 + P / 2 * l_s / 3) / (1.5 * 11.25**2 / 6)
    assert result(found, "bending_stress") == pytest.approx(by_hand, rel=1e-3)
    even = find("S1", "bending")
    assert found.ratio > even.ratio
    loose = TEXT.replace('lateral_tie = "800 lb"', 'lateral_tie = "800 lb"\nplies_fastened = false')
    alone = find("S1", "bending of the loaded ply", loose)
    assert result(alone, "bending_stress") == pytest.approx(
        argument(alone, "moment_of_loaded_ply", "M") / (1.5 * 11.25**2 / 6)
    )
    assert alone.status is Status.FAILS
