"""Stiffness of a tree bolt across itself by beam elements of our own, and the trunk above its foot as a cantilever.

Lookout: the load 17 in. from the axis of a trunk of 75 3/8 in. girth with 1 in. of bark; green bur oak, 0.88e6 psi
(Wood Handbook, Table 5-3b); the bed ten times softer across the grain.
"""

from __future__ import annotations

import tomllib
from functools import cache
from math import pi

import pytest
from bars_in_wood import drop_of

from audit.quantities import read
from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.results.results import Results, find_results

TEXT = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
BOLT = tomllib.loads(TEXT)["bolt"]["main"]
R = read(tomllib.loads(TEXT)["tree"][0]["girth"]) / (2 * pi) - 1


@cache
def results() -> Results:
    return find_results(parse_project(TEXT))


def stiffness(kappa: float) -> float:
    """Of one of the two bolts with its half of the trunk, which bends as a cantilever of 71 1/4 in. (lb/in)."""
    bolt = 1 / drop_of(read(BOLT["diameter"]), read(BOLT["embedment"]), 17 - R, 880_000 / (10 * kappa))
    trunk = 3 * 880_000 * pi * (2 * R) ** 4 / 64 / (84 - 1.5 - 11.25) ** 3
    return 1 / (1 / bolt + 2 / trunk)


@pytest.mark.parametrize("mark", ["T1", "T2"])
@pytest.mark.parametrize("key", ["bracket_lateral", "wood_pressure_lateral", "steel_biaxial"])
def test_the_force_across_a_bolt_is_its_movement_times_the_stiffness_of_elements(mark: str, key: str) -> None:
    """Stiff wood draws the force, and presses most: kappa 5, the stiffest of 5 to 20."""
    check = next(c for c in results().checks if c.part == mark and c.key == f"tree_bolt.{key}")
    ks = [float(s.arguments["k"]) for s in check.steps if s.formula.name == "support_lateral_force"]
    assert any(k == pytest.approx(stiffness(5.0), rel=1e-3) for k in ks)  # the other is along the bolt
