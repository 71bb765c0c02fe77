"""A stringer's slenderness and C_L, of one ply, of two fastened and two not (NDS 2018, 3.3.3.6 to 3.3.3.8), by hand."""

from __future__ import annotations

import math
from functools import cache

import pytest
from cases import FOLDER

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

TEXT = (FOLDER / "b01_walkway.toml").read_text(encoding="utf-8")
STRINGER = 'mark = "S1"\nlayer = 1\nplies = 2\nsection = "2x8"'
E_MIN, F_B = 510_000 * 0.9, 925.0  # Southern Pine No.2, 2x8, wet (NDS Supplement 2018, Table 4B)


@cache
def checks(stringer: str = STRINGER, long: bool = False) -> dict[str, Check]:
    """Checks of S1; ``long``: 340 in. long, on posts 300 in. apart."""
    text = TEXT.replace(STRINGER, stringer)
    if long:
        text = text.replace('"140 in"', '"340 in"').replace('"132 in"', '"334 in"')
        text = text.replace('"36 in"]\n', '"20 in"]\n').replace('"104 in"]\n', '"320 in"]\n')
    return {c.key: c for c in find_results(parse_project(text)).checks if c.part == "S1"}


def slenderness(l_u: float, d: float, b: float) -> float:
    """R_B; any other load of Table 3.3.3: l_e = 2.06 l_u under 7 d, 1.63 l_u + 3 d up to 14.3 d."""
    l_e = 2.06 * l_u if l_u / d < 7 else 1.63 * l_u + 3 * d if l_u / d <= 14.3 else 1.84 * l_u
    return math.sqrt(l_e * d) / b


def stability(R_B: float, F_b_star: float) -> float:
    """C_L, equation 3.3-6."""
    r = 1.20 * E_MIN / R_B**2 / F_b_star
    return (1 + r) / 1.9 - math.sqrt(((1 + r) / 1.9) ** 2 - r / 0.95)


@pytest.mark.parametrize(
    ("stringer", "b"),
    [
        (STRINGER, 3.0),
        (STRINGER.replace("plies = 2", "plies = 2\nplies_fastened = false"), 1.5),
        (STRINGER.replace("plies = 2", "plies = 1"), 1.5),
    ],
)
def test_plies_that_are_not_fastened_are_as_slender_as_one(stringer: str, b: float) -> None:
    """Posts 68 in. apart, the lower edge held at them alone, a person at the end of the 36 in. overhang."""
    R_B = slenderness(68, 7.25, b)
    found = checks(stringer)
    assert found["beam.slenderness"].demand == pytest.approx(R_B)
    assert found["beam.negative_bending"].capacity == pytest.approx(F_B * stability(R_B, F_B), rel=1e-6)
    assert found["beam.stage_bending"].capacity == pytest.approx(
        1.25 * F_B * stability(R_B, 1.25 * F_B), rel=1e-6
    )


def test_a_worker_at_the_end_of_the_overhang_before_the_joists_are_on() -> None:
    """300 x 36 + w 36²/2 with two 2x8 of wet Southern Pine, 38.6 pcf (NDS Supplement 2018, 3.1.3): 11,115 lb in."""
    w = 38.6 / 1728 * 3 * 7.25
    M = 300 * 36 + w * 36**2 / 2
    assert checks()["beam.stage_bending"].demand == pytest.approx(M / (3 * 7.25**2 / 6), rel=1e-3)


@pytest.mark.parametrize("key", ["beam.slenderness", "beam.stage_slenderness"])
def test_a_slenderness_of_more_than_50_fails(key: str) -> None:
    """One 2x12, 300 in. from post to post: l_u/d = 26.7, R_B = (1.84 x 300 x 11.25)^0.5/1.5 = 52.5 (3.3.3.7)."""
    R_B = slenderness(300, 11.25, 1.5)
    assert pytest.approx(52.5, abs=0.05) == R_B
    check = checks(STRINGER.replace("plies = 2", "plies = 1").replace("2x8", "2x12"), True)[key]
    assert check.demand == pytest.approx(R_B)
    assert (check.capacity, check.status) == (50, Status.FAILS)
