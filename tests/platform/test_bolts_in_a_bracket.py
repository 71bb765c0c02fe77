"""A beam held in its bracket by bolts through both: what each clause asks of the beam there, by hand.

Lookout: S1, two 2x12 of Southern Pine No.2, wet, 6 in. past T1; two 1/2 in. bolts 2 in. apart, 2 in. above its lower
edge. Lifted by 200 lb at least, the bolts press on those 2 in. of wood.
"""

from __future__ import annotations

import math
import re
import tomllib
from functools import cache

import pytest
from arrangement_files import file_of
from durations import load_duration

from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

E_OF = {"No.1": 1.6e6, "No.2": 1.4e6}  # psi: Southern Pine 2x12 (NDS Supplement 2018, Table 4B)
LOOKOUT = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
GIVEN = re.compile(r"(?m)^rated_with_fastening = true.*$")
BOLTS = GIVEN.sub('beam_bolts = 2\nbeam_bolt_diameter = "1/2 in"', LOOKOUT)


@cache
def checks(text: str) -> tuple[Check, ...]:
    return find_results(parse_project(text)).checks


def test_without_a_word_on_it_the_joint_is_open() -> None:
    (found,) = [c for c in checks(GIVEN.sub("", LOOKOUT)) if (c.part, c.key) == ("T1", "tree_bolt.fastening")]
    assert found.status is Status.NOT_CHECKED
    bracket = next(c for c in checks(LOOKOUT) if (c.part, c.key) == ("T1", "tree_bolt.bracket_lateral"))
    said = re.search(r"passes up to (\d+) lb", found.sentence)
    assert said
    assert float(said[1]) == pytest.approx(bracket.demand, rel=0.02)  # the bracket gets it through this joint


def yield_value(theta: float) -> float:
    """A 1/2 in. bolt through 3 in. of southern pine between plates of 1/4 in., load at theta degrees to the grain (lb).

    NDS 2018, 12.3.1 and Table 12.3.1A, double shear, wet 0.7 (Table 11.3.3): F_e 11200 G and 6100 G^1.45/sqrt(D)
    with G 0.55 (12.3.3, by Hankinson 12.3.4), plates 87 ksi (1.5 x 58), F_yb 45 ksi, R_d times 1 + theta/360.
    """
    D, l_m, l_s, F_yb, F_es = 0.5, 3.0, 0.25, 45_000.0, 87_000.0
    par, perp = 11_200 * 0.55, 6100 * 0.55**1.45 / math.sqrt(D)
    sine, cosine = math.sin(math.radians(theta)), math.cos(math.radians(theta))
    F_em = par * perp / (par * sine**2 + perp * cosine**2)
    K, R_e = 1 + 0.25 * theta / 90, F_em / F_es
    k_3 = -1 + math.sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D**2 / (3 * F_em * l_s**2))
    modes = (
        D * l_m * F_em / (4 * K),
        2 * D * l_s * F_es / (4 * K),
        2 * k_3 * D * l_s * F_em / ((2 + R_e) * 3.2 * K),
        2 * D**2 / (3.2 * K) * math.sqrt(2 * F_em * F_yb / (3 * (1 + R_e))),
    )
    return min(modes) * 0.7


def test_bolts_by_the_yield_limit_with_steel_sides() -> None:
    """Two bolts pushed and lifted by the least, 200 lb: of the force as judged so much is lift, up to 5 % the frame's.

    Group action of two bolts 2 in. apart, NDS 2018, 11.3-1: E A of 3 x 11 1/4 in. of wood, of plates 3 D wide.
    """
    (found,) = [c for c in checks(BOLTS) if (c.part, c.key) == ("T1", "tree_bolt.fastening")]
    EA = E_OF[tomllib.loads(BOLTS)["beam"][0]["grade"]] * 3 * 11.25, 29e6 * 2 * 0.25 * 1.5
    u = 1 + 270_000 * 0.5**1.5 * 2 / 2 * sum(1 / one for one in EA)
    m, R_EA = u - math.sqrt(u**2 - 1), min(EA) / max(EA)
    C_g = m * (1 - m**4) / (2 * ((1 + R_EA * m**2) * (1 + m) - 1 + m**4)) * (1 + R_EA) / (1 - m)
    of_one = found.capacity / (2 * load_duration(found.combination) * C_g)
    steep, flat = (math.degrees(math.asin(200 * more / found.demand)) for more in (1.05, 1.0))
    assert yield_value(steep) <= of_one <= yield_value(flat) * (1 + 1e-9) < 1.02 * yield_value(steep)


def test_the_beam_splits_at_bolts_near_its_lower_edge() -> None:
    """Lifted: the loaded edge is the lower, d_e = 4 D = 2 in.; nearest bolt 5 in. from the end, under 5 x 11 1/4.

    V'_r = 2/3 x 169.75 x 1.6 x 3 x 2 x (2/11.25)² = 34 lb, and 200 lb lift: 5.8 times as much.
    """
    V_r = 2 / 3 * 169.75 * 1.6 * 3 * 2 * (2 / 11.25) ** 2
    assert pytest.approx(34.3, abs=0.1) == V_r
    found = [c for c in checks(BOLTS) if c.part in ("T1", "S1") and "3.4.3.3" in c.clause]
    assert found
    assert all(c.status is not Status.PASSES for c in found)
    split = _one(BOLTS, "S1", "beam.shear_at_bolts", "T1")
    assert split.combination == "D"  # 200 lb in any case: the longest load has the least C_D, 0.9
    assert split.capacity == pytest.approx(V_r / 1.6 * 0.9, rel=1e-6)
    assert split.demand == 200


def test_bolts_higher_in_the_beam_have_more_wood_below_them() -> None:
    """5 in. up: 2/3 x 169.75 C_D x 3 x 5 x (5/11.25)², 335 lb x C_D for 200."""
    high = _one(
        f"{BOLTS}".replace('"1/2 in"', '"1/2 in"\nbeam_bolt_height = "5 in"', 1),
        "S1",
        "beam.shear_at_bolts",
        "T1",
    )
    assert high.capacity == pytest.approx(
        2 / 3 * 169.75 * 3 * 5 * (5 / 11.25) ** 2 * load_duration(high.combination), rel=1e-6
    )
    assert high.status is Status.PASSES


def test_the_row_torn_out_along_the_grain() -> None:
    """NDS 2018, E.3: two bolts, 2 in. apart and 5 in. from the end: 2 x F_v' x 3 in. x 2 in."""
    torn = _one(BOLTS, "S1", "beam.row_tear_out", "T1")
    assert torn.capacity == pytest.approx(2 * 169.75 * load_duration(torn.combination) * 3 * 2, rel=1e-6)
    (bracket,) = [c for c in checks(BOLTS) if (c.part, c.key) == ("T1", "tree_bolt.bracket_lateral")]
    # all of what the bracket gets; the frame model may give it more
    assert 1.0 <= bracket.demand / torn.demand < 1.05


PARALLEL = (
    file_of("parallel_bolts")
    .read_text(encoding="utf-8")
    .replace(
        "rated_with_fastening = true",
        'beam_bolts = 1\nbeam_bolt_diameter = "1/2 in"\nbeam_bolt_height = "4 1/2 in"',
    )
)
FLOATS = PARALLEL.replace('lateral = "tied"', 'lateral = "floats"')
WET = 38.6 / 1728  # lb/in3: Southern Pine, G 0.55, at 28 % (NDS Supplement 2018, 3.1.3)
C1_WEIGHT = WET * 3 * 9.25  # lb/in
PERSON_LIFTS = 300 * (104 - 24) / (104 - 25.5) * (24 - 6.375) / 12.75


def dead_on_a_bolt() -> float:
    """Dead load on T1, half of C1's: moments about C2 (y 104 in.), joists from 24 to 110 in., C1 at 25 1/2 in.

    Decking 1 1/2 in., 1 psf of hardware, four 2x8, guards of 8 plf at both sides; that of the far edge pries C1 up.
    """
    floor = 48 * 86 * (1.5 * WET + 1 / 144) + 4 * 86 * 1.5 * 7.25 * WET + 2 * 86 * 8 / 12
    on_C1 = (floor * (104 - 67) - 48 * 8 / 12 * (110 - 104)) / (104 - 25.5) + 48 * C1_WEIGHT
    return on_C1 / 2


def test_one_person_past_the_other_bolt_lifts_it() -> None:
    """300 lb at the deck's corner, 17 5/8 in. past T2, the bolts 12 3/4 in. apart: 423 lb, less six tenths of 100 lb.

    C1's shear beside T1 is that of its left half with the bolt's pull: half of the beam between the bolts less (4 lb)
    at T1, that much more at T2. V'_r = 2/3 x 170 x 3 x 4 1/2 x (4.5/9.25)² = 362 lb at C_D 1.0.
    """
    assert pytest.approx(422.6, abs=0.1) == PERSON_LIFTS
    (clip,) = [c for c in checks(PARALLEL) if (c.part, c.key) == ("T1", "tree_bolt.uplift")]
    assert clip.combination == "0.6D + one person"
    assert clip.demand == pytest.approx(PERSON_LIFTS - 0.6 * dead_on_a_bolt(), rel=2e-4)
    row = _one(PARALLEL, "C1", "beam.shear_at_bolts", "T1")
    assert row.combination == "D + one person"
    at_T1, at_T2 = (PERSON_LIFTS + part * 12.75 / 2 * C1_WEIGHT for part in (-1, 1))
    assert at_T1 * (1 - 1e-6) <= row.demand <= at_T2 * (1 + 1e-6)
    assert row.capacity == pytest.approx(2 / 3 * 169.75 * 3 * 4.5 * (4.5 / 9.25) ** 2, rel=1e-6)
    assert row.status is Status.FAILS


def test_uplift_alone_presses_square_to_the_grain() -> None:
    """Brackets that float pass no force but friction: one person's uplift alone is the most, C_D 1.0, at 90 degrees.

    There a bolt takes least: 761 lb, against 1158 along the grain.
    """
    (found,) = [c for c in checks(FLOATS) if (c.part, c.key) == ("T1", "tree_bolt.fastening")]
    assert found.combination == "0.6D + one person"
    assert found.demand == pytest.approx(PERSON_LIFTS - 0.6 * dead_on_a_bolt(), rel=2e-4)
    assert found.capacity == pytest.approx(yield_value(90.0), rel=1e-6)
    assert yield_value(90.0) < 0.66 * yield_value(0.0)


def net_modulus(d: float, height: float, hole: float) -> float:
    """Of 3 in. of breadth with one hole: what is above and below it, about their common axis (in3)."""
    low, high = height - hole / 2, d - height - hole / 2
    axis = (low * low / 2 + high * (d - high / 2)) / (low + high)
    I = sum(
        3 * (side**3 / 12 + side * (at - axis) ** 2) for side, at in ((low, low / 2), (high, d - high / 2))
    )
    return I / max(axis, d - axis)


def test_bending_of_what_a_hole_leaves_by_hand() -> None:
    """C1 hangs 17 5/8 in. past T1; 300 lb at the deck's corner, 80/78.5 of it on C1: 5389 lb in. at the bolt.

    Dead: the joist at the edge 16 7/8 in. past T1, with 8 1/2 in. of the deck, and the guard of 8 plf in line with C1's
    end; half of all is 67 in. from the trunk, C2 at 104 in., so 37/78.5 of it is on C1; C1 itself. Boards run on over
    two bays and share a little otherwise: 1.5 %. Net of a hole of 9/16 in. 1/8 in. below the middle: 42.69 in3.
    """
    S_n = net_modulus(9.25, 4.5, 9 / 16)
    assert pytest.approx(42.69, abs=0.005) == S_n
    lever, on_C1 = 24 - 6.375, 37 / 78.5
    person = 300 * 80 / 78.5 * lever
    floor = 86 * 8.5 * (1.5 * WET + 1 / 144) + 86 * 1.5 * 7.25 * WET
    dead = on_C1 * (floor * (lever - 0.75) + 86 * 8 / 12 * lever) + C1_WEIGHT * lever**2 / 2
    row = _one(FLOATS, "C1", "beam.bending_at_bolts", "T1")
    assert row.combination == "D + one person"
    assert row.demand == pytest.approx((person + dead) / S_n / 800, rel=0.015)
    assert row.capacity == 1.0


def test_lateral_force_pulls_at_what_a_hole_leaves() -> None:
    """Tied bolts: the lateral force of the case over 3 x (9.25 - 9/16) in2, F_t 475 x 1.6 psi, beside the bending."""
    row = _one(PARALLEL, "C1", "beam.bending_at_bolts", "T1")
    assert load_duration(row.combination) == 1.6
    (bracket,) = [c for c in checks(PARALLEL) if (c.part, c.key) == ("T1", "tree_bolt.bracket_lateral")]
    (M,) = [s.arguments["M"] for s in row.steps if s.formula.name == "bending_stress"]
    T = (row.demand - M / net_modulus(9.25, 4.5, 9 / 16) / (800 * 1.6)) * 475 * 1.6 * 3 * (9.25 - 9 / 16)
    V = [s.result for s in row.steps if s.formula.name == "support_lateral_force"]
    assert pytest.approx(math.hypot(*V)) == T
    assert 0.8 * bracket.demand < T < bracket.demand  # the bracket's own case has more force and less moment


def test_bolts_below_the_middle_hang_a_beam_on_its_lower_part() -> None:
    """NDS 2018, Table 12.5.1C, footnote 2 (from memory): not below the neutral axis, 4 5/8 in. of 9 1/4 in."""
    low = _one(PARALLEL, "C1", "beam.bolts_below_middle", "T1")
    assert (low.demand, low.capacity, low.status) == (4.625, 4.5, Status.FAILS)
    middle = PARALLEL.replace('beam_bolt_height = "4 1/2 in"', 'beam_bolt_height = "4 5/8 in"')
    assert _one(middle, "C1", "beam.bolts_below_middle", "T1").status is Status.PASSES
    unsaid = _one(BOLTS, "S1", "beam.bolts_below_middle", "T1")
    assert (unsaid.demand, unsaid.capacity, unsaid.status) == (5.625, 2.0, Status.FAILS)  # 4 D of 1/2 in.


def _one(text: str, part: str, key: str, at: str) -> Check:
    (found,) = [c for c in checks(text) if (c.part, c.key, c.at) == (part, key, at)]
    return found
