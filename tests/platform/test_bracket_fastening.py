"""The joint of a beam to its bracket on a tree bolt: by the bracket's rating, by bolts through both, or open."""

from __future__ import annotations

from functools import lru_cache
from math import asin, atan2, cos, degrees, hypot, radians, sin, sqrt
from pathlib import Path

import pytest
from durations import load_duration

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

DEMO = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(encoding="utf-8")
SAID = "rated_with_fastening = true\n"
BOLTED = 'beam_bolts = {}\nbeam_bolt_diameter = "1/2 in"\n'


@lru_cache
def rows(lines: str) -> tuple[Check, ...]:
    assert DEMO.count(SAID) == 1
    return find_results(parse_project(DEMO.replace(SAID, lines))).checks


def fastening(lines: str) -> dict[str, Check]:
    return {c.part: c for c in rows(lines) if c.key == "tree_bolt.fastening"}


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


def yield_value(theta: float) -> float:
    """One 1/2 in. bolt through 3 in. of southern pine between plates of 1/4 in. (NDS 2018, 12.3.1, by hand; lb).

    F_e = 11200 x 0.55 and 6100 x 0.55^1.45 / sqrt(1/2) (Table 12.3.3), Hankinson between; steel 87 ksi, F_yb 45 ksi;
    R_d 4 and 3.2 times 1 + theta/360 (theta in degrees); wet 0.7 (Table 11.3.3).
    """
    D, turned = 0.5, radians(theta)
    par, perp = 11200 * 0.55, 6100 * 0.55**1.45 / sqrt(D)
    F_e = par * perp / (par * sin(turned) ** 2 + perp * cos(turned) ** 2)
    K = 1 + theta / 360
    R_e = F_e / 87000.0
    k_3 = -1 + sqrt(2 * (1 + R_e) / R_e + 2 * 45000 * (2 + R_e) * D**2 / (3 * F_e * 0.25**2))
    modes = (
        D * 3.0 * F_e / (4 * K),
        2 * D * 0.25 * 87000 / (4 * K),
        2 * k_3 * D * 0.25 * F_e / ((2 + R_e) * 3.2 * K),
        2 * D**2 / (3.2 * K) * sqrt(2 * F_e * 45000 / (3 * (1 + R_e))),
    )
    return min(modes) * 0.7


def test_the_pushed_bolt_by_the_yield_limit_equations() -> None:
    """T1: the lateral force H is that of the row's tear-out, the lift the 200 lb that a clip is asked for in any case.

    Both models' factor is that of the bracket's row, the same force in the same case.
    """
    check = fastening(BOLTED.format(1))["T1"]
    torn = next(c for c in rows(BOLTED.format(1)) if c.key == "beam.row_tear_out" and c.at == "T1")
    bracket = next(
        c for c in rows(BOLTED.format(1)) if c.key == "tree_bolt.bracket_lateral" and c.part == "T1"
    )
    assert check.combination == torn.combination == bracket.combination
    assert "0.6W" in check.combination  # C_D 1.6 (Table 2.3.2)
    assert check.where == torn.where == bracket.where
    U, H = 200.0, torn.demand
    assert check.capacity == pytest.approx(yield_value(degrees(atan2(U, H))) * 1.6, rel=1e-6)
    assert check.demand == pytest.approx(hypot(U, H) * bracket.demand / torn.demand, rel=1e-6)


def test_the_other_bolt_whatever_case_governs() -> None:
    """T2: of the force P as judged 200 lb are lift, P by up to 5 % the frame's; C_D by the row's case (Table 2.3.2)."""
    check = fastening(BOLTED.format(1))["T2"]
    C_D = load_duration(check.combination)
    steep, flat = (degrees(asin(200.0 * more / check.demand)) for more in (1.05, 1.0))
    assert (
        yield_value(steep)
        <= check.capacity / C_D
        <= yield_value(flat) * (1 + 1e-9)
        < 1.02 * yield_value(steep)
    )


def test_bolts_too_near_the_end_of_the_beam_hold_nothing() -> None:
    """S1 goes on for about 6 in. past T1: four of 1 in. at 4 in. would be 6 in. from T1, on its end."""
    found = fastening('beam_bolts = 4\nbeam_bolt_diameter = "1 in"\n')
    assert {c.status for c in found.values()} == {Status.FAILS}
