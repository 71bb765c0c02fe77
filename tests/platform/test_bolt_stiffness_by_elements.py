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
from bolewright.platform.analysis.lateral import State
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
    assert "tree bolts at their stiffest" in check.where
    assert any(k == pytest.approx(stiffness(5.0), rel=1e-3) for k in ks)  # the other is along the bolt


def across(states: tuple[State, ...], mark: str) -> list[float]:
    """Stiffness of a bolt across itself in every state, each once, from the stiffest on (lb/in)."""
    i = [frame.support.mark for frame in results().lateral.frames].index(mark)
    return sorted({round(float(state.springs[i].k[1]), 6) for state in states}, reverse=True)


@pytest.mark.parametrize("mark", ["T1", "T2"])
def test_strength_has_both_ends_of_the_wood_and_drift_its_middle(mark: str) -> None:
    lateral = results().lateral
    assert across(lateral.states, mark) == pytest.approx([stiffness(5.0), stiffness(20.0)], rel=1e-3)
    assert across(lateral.middle, mark) == pytest.approx([stiffness(10.0)], rel=1e-3)
    assert stiffness(5.0) > 1.5 * stiffness(10.0) > 2.25 * stiffness(20.0)


def test_each_way_to_take_the_bases_and_joints_meets_both_ends() -> None:
    """All that is taken two ways, taken all ways: none of bases, joints and wood is at one end only with another's."""
    words = {state.words for state in results().lateral.states}
    assert words == {
        f"{base}, joints that {joints}, tree bolts at their {wood}"
        for base in ("fixed base", "base on elastic soil")
        for joints in ("hold firm", "slip")
        for wood in ("stiffest", "softest")
    }


@pytest.mark.parametrize(
    ("part", "key", "wood"),
    [
        ("P1", "post.cap_together", "softest"),
        ("P2", "post.in_ground", "softest"),
        ("platform", "platform.p_delta", "softest"),
        ("platform", "platform.in_plane", "stiffest"),
        ("T1", "tree_bolt.together", "stiffest"),
    ],
)
def test_a_row_names_the_wood_that_it_rests_on(part: str, key: str, wood: str) -> None:
    check = next(c for c in results().checks if (c.part, c.key) == (part, key))
    assert f"tree bolts at their {wood}" in check.where


def test_drift_names_the_middle() -> None:
    check = next(c for c in results().checks if c.key == "platform.drift")
    assert "tree bolts of middling stiffness" in check.where
