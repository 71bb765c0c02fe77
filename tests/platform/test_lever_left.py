"""What the checks leave of a tree bolt's projection, against the whole platform calculated with a longer lever arm.

A bearing that slides outwards by ``slide`` makes the lever arm longer by just that: it counts from the sound wood to
the centre of the bearing at its worst.
"""

from __future__ import annotations

from functools import lru_cache
from math import cos, cosh, pi, sin, sinh
from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.lever_left import lever_left
from bolewright.platform.results.results import Results, find_results
from bolewright.sheets.brief.holds import hold_points

LOOKOUT = (Path(__file__).parents[2] / "calcsheets" / "lookout.toml").read_text(encoding="utf-8")
EMBEDDED = 'embedment = "7 in"        # in sound wood, full thread\n'


@lru_cache
def out_by(more: float) -> Results:
    assert LOOKOUT.count(EMBEDDED) == 1
    return find_results(parse_project(LOOKOUT.replace(EMBEDDED, f'{EMBEDDED}slide = "{more} in"\n')))


def worst(results: Results, mark: str) -> float:
    keys = (
        "steel_bending",
        "steel_biaxial",
        "wood_yield",
        "wood_yield_lateral",
        "wood_pressure",
        "steel_shear",
    )
    of = ("wood_pressure_lateral", *keys)
    return max(c.ratio for c in results.checks if c.part == mark and c.key.removeprefix("tree_bolt.") in of)


def row(results: Results, mark: str, key: str) -> Check:
    return next(c for c in results.checks if c.part == mark and c.key == key)


def farther_out(more_pressure: float) -> float:
    """How much longer the lever arm of a 1 7/8 in. bolt may be until the wood's face is pressed so many times as much.

    A bar 7 in. long on an elastic bed of E_g/50 (kappa 5, ten times softer across the grain): its end goes down under a
    force as (sh ch - s c), under a moment as lam (sh2 + s2) (Hetenyi 1946, finite bars). The load stands 17 in. from
    the axis of a trunk of 75 3/8 in. girth with 1 in. of bark.
    """
    D, L, k = 1.875, 7.0, 880_000.0 / 50
    lam = (k / (4 * 29e6 * pi * D**4 / 64)) ** 0.25
    e = 17 - (75.375 / (2 * pi) - 1)
    by_force = sinh(lam * L) * cosh(lam * L) - sin(lam * L) * cos(lam * L)
    by_moment = lam * (sinh(lam * L) ** 2 + sin(lam * L) ** 2)
    return (more_pressure - 1) * (by_force / by_moment + e)


@pytest.mark.parametrize("mark", ["T1", "T2"])
def test_what_is_left_is_exact_for_the_forces_as_they_are(mark: str) -> None:
    """Pressure across the grain is left least, 680 psi over 1.67 (bur oak, green; ASTM D245) allowed.

    It is in proportion to a + e, so the quarter inch that the program looks ahead loses nothing.
    """
    check = row(out_by(0.0), mark, "tree_bolt.wood_pressure_lateral")
    found = lever_left(out_by(0.0), mark)
    assert found.limit_state == check.limit_state
    assert found.left == pytest.approx(farther_out(680 / 1.67 / check.demand), rel=1e-6)


@pytest.mark.parametrize("mark", ["T1", "T2"])
def test_a_bearing_that_far_out_does_not_come_past_its_limit(mark: str) -> None:
    """The longer bolt is softer and draws less lateral force, by 1 to 3 %: so much is left of the limit, never less.

    The bracket's force is that of its own worst case; in the pressure's case the bolt may draw a little less still.
    With as much force as before it would come to 1, an inch farther to over it.
    """
    left = lever_left(out_by(0.0), mark).left
    moved = out_by(round(left - 5e-5, 4))
    drawn = [row(found, mark, "tree_bolt.bracket_lateral").demand for found in (out_by(0.0), moved)]
    assert 0.97 < drawn[1] / drawn[0] < 0.99
    pressed = row(moved, mark, "tree_bolt.wood_pressure_lateral").ratio
    assert drawn[1] / drawn[0] - 0.02 < pressed < drawn[1] / drawn[0] + 2e-3
    assert pressed <= worst(moved, mark) <= 1.0  # weight alone presses as much as before: T1 to 0.99
    assert worst(out_by(round(left + 1.0, 4)), mark) > 1.0


def test_the_hold_point_allows_no_more_than_that() -> None:
    """Drawn 1/4 in. farther out, T1 has less left than the 1/4 in. that other places of bolts may be off."""
    results = out_by(0.25)
    left = lever_left(results, "T1").left
    assert 1 / 16 < left < 1 / 4
    rows = {
        str(row[1])[:2]: str(row[3])
        for row in hold_points(results).rows
        if "bark to the middle" in str(row[1])
    }
    sixteenths = int(left * 16)
    said = {1: "1/16", 2: "1/8", 3: "3/16"}[sixteenths]
    assert rows["T1"].startswith(f"+ {said} in at most: its pressure on the wood")
