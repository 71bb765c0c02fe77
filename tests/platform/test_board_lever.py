"""The lever of boards that run out past the last joist, under load over the deck."""

from __future__ import annotations

import pytest
from arrangement_files import DEMO, project_of

from bolewright.platform.check import Check
from bolewright.platform.checks.board_lever import LIMIT_STATE, lever_factor
from bolewright.platform.results import find_results


def arguments(check: Check, name: str) -> dict[str, float]:
    return next({k: float(v) for k, v in s.arguments.items()} for s in check.steps if s.formula.name == name)


def test_factor_by_statics_of_a_board_on_two_joists() -> None:
    """w (c + s/2) on the last joist without the lever, w c^2 / 2 s more with it: c = 8, s = 16 in. gives 1.125."""
    c, s = 8.0, 16.0
    assert lever_factor(c * (c / 2) / s, c + s / 2) == pytest.approx(1.125)


def test_last_joist_of_the_demo() -> None:
    """Boards end 2 in. past J8, J7 is 16 in. back: 2 (1/16) over 2 + 8 in. of board, 1.25 % more."""
    found = find_results(project_of(DEMO)).checks
    check = next(c for c in found if c.part == "J8" and c.limit_state == LIMIT_STATE)
    factor = arguments(check, "lever_factor")
    # A little more, since near their ends the boards on its inner side come down on the skewed carriers instead.
    assert 0.0125 < factor["A_l"] / factor["A_t"] < 0.0145
    r = arguments(check, "raised_ratio")["r"]
    assert check.ratio == pytest.approx(r * (1 + factor["A_l"] / factor["A_t"]))
    assert "one person" not in check.combination
    own = [c for c in found if c.part == "J8" and c.limit_state == "bending"]
    assert r <= max(c.ratio for c in own)
