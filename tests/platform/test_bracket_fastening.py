"""The joint of a beam to its bracket on a tree bolt: by the bracket's rating, by bolts through both, or open."""

from __future__ import annotations

from functools import lru_cache
from math import atan2, cos, hypot, radians, sin, sqrt
from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

DEMO = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(encoding="utf-8")
SAID = "rated_with_fastening = true\n"
BOLTED = 'beam_bolts = {}\nbeam_bolt_diameter = "1/2 in"\n'


@lru_cache
def fastening(lines: str) -> dict[str, Check]:
    assert DEMO.count(SAID) == 1
    checks = find_results(parse_project(DEMO.replace(SAID, lines))).checks
    return {c.part: c for c in checks if c.key == "tree_bolt.fastening"}


def test_it_is_open_until_the_file_says_what_holds_it() -> None:
    """Neither a rating of the bracket alone nor bolts without a size are a joint."""
    for lines in ("", "beam_bolts = 2\n", 'beam_bolt_diameter = "1/2 in"\n'):
        found = fastening(lines)
        assert {c.status for c in found.values()} == {Status.NOT_CHECKED}
        assert set(found) == {"T1", "T2"}
        assert all(
            "rated_with_fastening" in c.sentence and "beam_bolts" in c.sentence for c in found.values()
        )


def test_a_rating_that_holds_with_it_is_held_to_all_of_the_lateral_force() -> None:
    for mark, check in fastening(SAID).items():
        H = next(s for s in check.steps if s.formula.name == "resultant_lateral_force").arguments
        assert check.capacity == 950.0
        assert check.demand >= hypot(H["V_1"], H["V_2"]) * (1 - 1e-9) > 100.0, mark
        assert any("rated_with_fastening" in note for note in check.notes)


@pytest.mark.parametrize("mark", ["T1", "T2"])
def test_bolts_by_the_yield_limit_equations(mark: str) -> None:
    """One 1/2 in. bolt through 3 in. of southern pine between plates of 1/4 in. (NDS 2018, 12.3.1, by hand).

    F_e = 11200 x 0.55 and 6100 x 0.55^1.45 / sqrt(1/2) (Table 12.3.3), Hankinson between; steel 87 ksi, F_yb 45 ksi;
    R_d 4 and 3.2 times 1 + theta/360; wet 0.7 (Table 11.3.3).
    """
    check = fastening(BOLTED.format(1))[mark]
    a = next(s for s in check.steps if s.formula.name == "resultant_load").arguments
    U, H, D = float(a["P_v"]), float(a["P_h"]), 0.5
    assert U >= 200.0  # what a hold-down clip is asked for in any case
    theta = angle(U, H)
    par, perp = 11200 * 0.55, 6100 * 0.55**1.45 / sqrt(D)
    F_e = par * perp / (par * sin(theta) ** 2 + perp * cos(theta) ** 2)
    K = 1 + 0.25 * (theta / radians(90))
    R_e = F_e / 87000.0
    k_3 = -1 + sqrt(2 * (1 + R_e) / R_e + 2 * 45000 * (2 + R_e) * D**2 / (3 * F_e * 0.25**2))
    modes = (
        D * 3.0 * F_e / (4 * K),
        2 * D * 0.25 * 87000 / (4 * K),
        2 * k_3 * D * 0.25 * F_e / ((2 + R_e) * 3.2 * K),
        2 * D**2 / (3.2 * K) * sqrt(2 * F_e * 45000 / (3 * (1 + R_e))),
    )
    C_D = next(float(s.arguments["C_D"]) for s in check.steps if "C_D" in s.arguments)
    assert check.capacity == pytest.approx(min(modes) * 0.7 * C_D, rel=0.005)
    factor = [s.arguments["f_m"] for s in check.steps if s.formula.name == "demand_by_frame"]
    assert check.demand == pytest.approx(hypot(U, H) * (factor or [1.0])[0])


def angle(U: float, H: float) -> float:
    """Angle of the resultant to the level grain of the beam."""
    return atan2(U, H)


def test_bolts_too_near_the_end_of_the_beam_hold_nothing() -> None:
    """S1 goes on for about 6 in. past T1: four of 1 in. at 4 in. would be 6 in. from T1, on its end."""
    found = fastening('beam_bolts = 4\nbeam_bolt_diameter = "1 in"\n')
    assert {c.status for c in found.values()} == {Status.FAILS}
