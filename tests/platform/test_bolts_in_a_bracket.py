"""A beam held in its bracket by bolts through both: what each clause asks of the beam there, by hand.

Lookout: S1, two 2x12 of Southern Pine No.2, wet, 6 in. past T1; two 1/2 in. bolts 2 in. apart, 2 in. above its lower
edge. Lifted by 200 lb at least, the bolts press on those 2 in. of wood.
"""

from __future__ import annotations

import math
import re
from functools import cache

import pytest
from arrangement_files import file_of

from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

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


def test_bolts_by_the_yield_limit_with_steel_sides() -> None:
    """NDS 2018, 12.3.1, mode III_s: plates of 1/4 in. at 87 ksi (1.5 x 58), F_em by Hankinson at atan(200/489)."""
    (found,) = [c for c in checks(BOLTS) if (c.part, c.key) == ("T1", "tree_bolt.fastening")]
    step = next(s for s in found.steps if s.formula.name == "double_shear_mode_IIIs")
    D, l_s, F_yb, F_es = 0.5, 0.25, 45_000.0, 87_000.0
    F_em, R_d = (float(step.arguments[name]) for name in ("F_em", "R_d"))
    par, perp = 11_200 * 0.55, 6100 * 0.55**1.45 / D**0.5
    sine = (1 / F_em - 1 / par) / (1 / perp - 1 / par)  # Hankinson turned round
    assert R_d == pytest.approx(3.2 * (1 + 0.25 * _degrees(sine) / 90), rel=1e-3)
    R_e = F_em / F_es
    k_3 = -1 + (2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D**2 / (3 * F_em * l_s**2)) ** 0.5
    Z = 2 * k_3 * D * l_s * F_em / ((2 + R_e) * R_d)
    assert found.capacity == pytest.approx(2 * Z * 0.7 * 1.6, rel=0.01)


def _degrees(sine_squared: float) -> float:
    return math.degrees(math.asin(math.sqrt(sine_squared)))


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
    assert split.capacity == pytest.approx(V_r / 1.6 * _C_D(split), rel=1e-6)
    assert split.demand == 200


def test_bolts_higher_in_the_beam_have_more_wood_below_them() -> None:
    """5 in. up: 2/3 x 169.75 C_D x 3 x 5 x (5/11.25)², 335 lb x C_D for 200."""
    high = _one(
        f"{BOLTS}".replace('"1/2 in"', '"1/2 in"\nbeam_bolt_height = "5 in"', 1),
        "S1",
        "beam.shear_at_bolts",
        "T1",
    )
    assert high.capacity == pytest.approx(2 / 3 * 169.75 * 3 * 5 * (5 / 11.25) ** 2 * _C_D(high), rel=1e-6)
    assert high.status is Status.PASSES


def test_the_row_torn_out_along_the_grain() -> None:
    """NDS 2018, E.3: two bolts, 2 in. apart and 5 in. from the end: 2 x F_v' x 3 in. x 2 in."""
    torn = _one(BOLTS, "S1", "beam.row_tear_out", "T1")
    assert torn.capacity == pytest.approx(2 * 169.75 * _C_D(torn) * 3 * 2, rel=1e-6)
    forces = next(s for s in torn.steps if s.formula.name == "resultant_lateral_force").arguments
    assert torn.demand == pytest.approx(math.hypot(forces["V_1"], forces["V_2"]), rel=1e-6)


def test_one_person_past_the_other_bolt_lifts_it() -> None:
    """Two bolts 12 3/4 in. apart: uplift of the hold-down clip by weight alone, C_D 1.0, is asked of these bolts too.

    V'_r = 2/3 x 170 x 3 x 4 1/2 x (4.5/9.25)² = 362 lb at C_D 1.0. Beside T1 the beam has that uplift and what weighs
    on its end: the row takes no less, and no more than twice the uplift with it.
    """
    text = file_of("parallel_bolts").read_text(encoding="utf-8")
    bolts = 'beam_bolts = 1\nbeam_bolt_diameter = "1/2 in"\nbeam_bolt_height = "4 1/2 in"'
    text = text.replace("rated_with_fastening = true", bolts)
    row = _one(text, "C1", "beam.shear_at_bolts", "T1")
    (clip,) = [c for c in checks(text) if (c.part, c.key) == ("T1", "tree_bolt.uplift")]
    assert "one person" in clip.combination
    assert "one person" in row.combination
    assert clip.demand < row.demand < 2 * clip.demand
    assert row.capacity == pytest.approx(2 / 3 * 169.75 * 3 * 4.5 * (4.5 / 9.25) ** 2, rel=2e-3)
    assert row.status is Status.FAILS


def _one(text: str, part: str, key: str, at: str) -> Check:
    (found,) = [c for c in checks(text) if (c.part, c.key, c.at) == (part, key, at)]
    return found


def _C_D(check: Check) -> float:
    return next(float(s.arguments["C_D"]) for s in check.steps if "C_D" in s.arguments)
