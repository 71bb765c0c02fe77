"""End grain of posts on concrete and under beams (NDS 2018, 3.10.1); concrete under them (ACI 318-19, 14.5)."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from durations import load_duration

from bolewright.platform.checks.concrete import factors_of
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results

TEXT = (Path(__file__).parents[1] / "projects" / "lookout_revision_a.toml").read_text(encoding="utf-8")


@cache
def results(text: str = TEXT) -> Results:
    return find_results(parse_project(text))


def find(part: str, key: str, text: str = TEXT) -> Check:
    return next(c for c in results(text).checks if (c.part, c.key) == (part, key))


def argument(check: Check, formula: str, name: str) -> float:
    return next(float(s.arguments[name]) for s in check.steps if s.formula.name == formula)


def test_a_cap_bears_with_what_of_the_beam_lies_on_it() -> None:
    """A 6x6 under two plies of 1 1/2 in.: 5 1/2 x 3 = 16.5 of 30.25 in2 bear (lookout's C1: 3 in.).

    Under three quarters of F_c* no plate is wanted (NDS 2018, 3.10.1.3); Table 4D, Southern Pine No.2: 525 psi, wet.
    """
    found = find("P1", "post.end_bearing")
    width = results().path.layout.member("C1").width
    assert argument(found, "end_bearing_stress", "A") == pytest.approx(5.5 * width)
    assert found.capacity == pytest.approx(0.75 * 525 * load_duration(found.combination))
    assert found.demand == pytest.approx(argument(found, "end_bearing_stress", "P") / (5.5 * width))


def test_a_plate_on_the_post_spreads_over_all_of_its_end() -> None:
    """A cap with a seat of steel lies on 30.25 in2; then the foot, with the post's own weight, bears more."""
    plated = TEXT.replace('base = "fixed"', 'base = "fixed"\ncap_seat = "1/4 in"', 1)
    assert plated != TEXT
    found = find("P1", "post.end_bearing", plated)
    assert argument(found, "end_bearing_stress", "A") == pytest.approx(5.5**2)
    assert "foot" in found.says


def test_bearing_of_the_concrete_by_hand() -> None:
    """2,500 psi, 6x6 post, 22 in. round pad of 10 in.: A_2 = 22 x 22 / 2 = 242 in2, spread 2 to 1 reaches all of it.

    sqrt(A_2 / A_1) = sqrt(242 / 30.25) = 2.83, at most 2; phi B_n = 0.60 x 2 x 0.85 x 2500 x 30.25 = 77,138 lb (ACI
    318-19, Table 14.5.6.1 and 21.2.1).
    """
    found = find("P1", "footing.concrete_bearing")
    assert found.capacity == pytest.approx(0.6 * 2 * 0.85 * 2500 * 30.25)
    assert found.demand == pytest.approx(find("P1", "footing.concrete_bending").steps[0].result)


def test_narrow_pad_spreads_less() -> None:
    """A square pad of 9 in. under a 6x6: A_2 = 81 in2, the root sqrt(81 / 30.25) = 1.636."""
    text = TEXT.replace('shape = "round"', 'shape = "square"').replace('width = "22 in"', 'width = "9 in"')
    assert text != TEXT
    found = find("P1", "footing.concrete_bearing", text)
    assert found.capacity == pytest.approx(0.6 * 0.85 * 2500 * math.sqrt(81 * 30.25))


def test_round_pad_spreads_to_the_square_inside_it() -> None:
    """A round pad of 10 in. under a 6x6: A_2 lies wholly within the support (ACI 318-19, 14.5.6.1).

    Its largest square is 10 x 10 / 2 = 50 in2 (the circle itself has 78.5): the root of 50 / 30.25 is 1.286.
    """
    text = TEXT.replace('width = "22 in"', 'width = "10 in"')
    assert text != TEXT
    found = find("P1", "footing.concrete_bearing", text)
    assert found.capacity == pytest.approx(0.6 * 0.85 * 2500 * math.sqrt(50 * 30.25))


def test_factors_of_strength() -> None:
    """ACI 318-19, Table 5.3.1: (b) 1.6L + 0.5S, (c) 1.6S + 1.0L, (d) 1.0W + 1.0L + 0.5S; sway is live load.

    Columns: D + 0.6W, D + 0.75L + 0.75(0.6W), D + L, D + 0.75L + 0.75S.
    """
    L, S, W = np.array([0, 0.75, 1, 0.75]), np.array([0, 0, 0, 0.75]), np.array([0.6, 0.45, 0, 0])
    gamma_L, gamma_S, gamma_h = factors_of(L, S, W)
    assert list(gamma_L) == [1, 1, 1.6, 1]
    assert list(gamma_S) == [0.5, 0.5, 0.5, 1.6]
    assert gamma_h * np.where(W > 0, W, L) == pytest.approx([1, 1, 1.6, 1.6])


def test_wind_is_in_the_load_on_the_concrete() -> None:
    """More wind overturns more: what it adds to the concrete's load grows with V2 (ASCE 7-16, 26.10.2), sway does not.

    At each speed the load is 1.2D + L + 0.5S and the wind's whole part, no more than what people's sway adds beside.
    """
    calm, storm = (
        find(
            "P1",
            "footing.concrete_lateral",
            TEXT.replace('wind_speed = "107 mph"', f'wind_speed = "{speed} mph"'),
        )
        for speed in (150, 200)
    )
    added = []
    for check in (calm, storm):
        assert check.combination == "1.2D + 1.0W + 1.0L + 0.5S"
        D, L, S, R, g = (
            argument(check, "factored_load_lateral", name) for name in ("D", "L", "S", "R_h", "gamma_h")
        )
        P_u = next(s.result for s in check.steps if s.formula.name == "factored_load_lateral")
        assert P_u == pytest.approx(1.2 * D + L + 0.5 * S + g * R)
        assert g == pytest.approx(1 / 0.6) or g == pytest.approx(1 / 0.45)
        added.append(g * R)
    assert 1.0 < added[1] / added[0] <= (200 / 150) ** 2 + 1e-9
