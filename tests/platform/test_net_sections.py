"""What the bolts of knees leave of posts and beams (NDS 2018, 3.1.2), by hand."""

from __future__ import annotations

import math
import re

import pytest
from arrangement_files import DEMO, file_of

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.timber.net_section import (
    holes_in_one_section,
    net_modulus_along_holes,
    net_modulus_of_row,
    net_section_modulus,
)

TEXT = file_of(DEMO).read_text(encoding="utf-8")


def checks(text: str) -> dict[tuple[str, str], Check]:
    return {(c.part, c.limit_state): c for c in find_results(parse_project(text)).checks}


def arguments(check: Check, name: str) -> dict[str, float]:
    return next({k: float(v) for k, v in s.arguments.items()} for s in check.steps if s.formula.name == name)


def test_one_hole_in_the_middle_agrees_with_the_formula_of_one_hole() -> None:
    assert net_modulus_of_row(3.0, 11.25, 1, 0.5625, 0.0) == pytest.approx(
        net_section_modulus(3.0, 11.25, 0.5625, 0.0)
    )


def test_holes_in_the_plane_of_bending_take_a_strip() -> None:
    """A 6x6 with one hole of 9/16 in.: 4 15/16 in. of 5 1/2 in. is left, 24.89 of 27.73 in3."""
    assert net_modulus_along_holes(5.5, 5.5, 1, 0.5625) == pytest.approx((5.5 - 0.5625) * 5.5**2 / 6)
    assert net_modulus_along_holes(5.5, 5.5, 1, 0.5625) / (5.5**3 / 6) == pytest.approx(0.8977, abs=5e-5)


@pytest.mark.parametrize(
    ("count", "theta", "wanted"),
    [(1, 45.0, 1), (2, 0.0, 1), (2, 45.0, 2), (3, 45.0, 2), (4, 80.0, 4)],
)
def test_bolts_nearer_than_four_diameters_along_the_grain_count_together(
    count: int, theta: float, wanted: int
) -> None:
    assert holes_in_one_section(count, 4 * 0.5, theta, 0.5) == wanted  # NDS 2018, 3.1.2.3


def test_post_at_the_knee_bends_on_its_net_section() -> None:
    check = checks(TEXT)["P1", "combined axial load and bending at the knee"]
    along = arguments(check, "net_modulus_of_row")
    assert along["n"] >= 1
    assert along["D_h"] - 1 / 16 > 0.2
    net = {
        s.result for s in check.steps if s.formula.name in ("net_modulus_of_row", "net_modulus_along_holes")
    }
    used = {float(s.arguments["S"]) for s in check.steps if s.formula.name == "bending_stress"}
    assert sorted(used) == pytest.approx(sorted(net))
    assert all(S < 5.5**3 / 6 for S in used)


def test_a_brace_with_a_rated_load_leaves_the_post_whole() -> None:
    names = {c.limit_state for c in find_results(parse_project(RATED)).checks if c.part == "P1"}
    assert "combined axial load and bending at the knee" in names
    assert "compression on the net section at the knee" not in names


RATED = re.sub(r'bolts = 2\nbolt_diameter = "[^"]*"', 'rated_load = "3000 lb"', TEXT)


def test_thrust_on_the_net_section_is_without_buckling() -> None:
    check = checks(TEXT)["P1", "compression on the net section at the knee"]
    A = arguments(check, "net_area")
    # where the frame model gives more than the hand calculation, its multiple counts, as a step of its own
    more = next((s.arguments["f_m"] for s in check.steps if s.formula.name == "demand_by_frame"), 1.0)
    assert 1.0 <= more < 1.1
    assert check.demand == pytest.approx(
        more * arguments(check, "compression_stress")["P"] / (A["b"] * (A["d"] - A["n"] * A["D_h"]))
    )


def test_beam_bends_on_its_net_section_at_the_knee() -> None:
    found = checks(TEXT)
    check = next(c for (_, state), c in found.items() if state.startswith("bending at the bolts of "))
    row = arguments(check, "net_modulus_of_row")
    gross = row["b"] * row["d"] ** 2 / 6
    taken = row["n"] * (row["D_h"] ** 3 / 12 + row["D_h"] * row["y"] ** 2) * row["b"] * 2 / row["d"]
    S_n = arguments(check, "bending_stress")["S"]
    assert pytest.approx(gross - taken) == S_n
    assert (row["n"], row["y"]) == (1, 0)  # a level row at mid-depth: one hole in any section
    by_hand = arguments(check, "bending_stress")["M"] / S_n
    raised = [
        arguments(check, s.formula.name)["f_m"] for s in check.steps if s.formula.name == "demand_by_frame"
    ]
    assert math.isclose(
        check.demand, by_hand * (raised[0] if raised else 1.0)
    )  # by the worse force of both models
    assert all(1.0 < f_m < 1.01 for f_m in raised)
