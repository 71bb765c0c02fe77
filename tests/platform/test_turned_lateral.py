"""A plan turned on the paper stands as it stood: lateral forces, stiffness and every check stay the same.

Wind comes along x and along y, so only quarter turns give the same wind cases; pushes given by hand may turn by
any angle.
"""

from __future__ import annotations

import numpy as np
import pytest
from arrangement_files import DEMO, project_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bolewright.bracing.plan import plan_stiffness
from bolewright.paths import shipped
from bolewright.platform.analysis.lateral import LateralAnalysis, answer, find_lateral
from bolewright.platform.file.reading import read_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.project import Project
from bolewright.platform.results.results import find_results
from bolewright.platform.verification.independent_lateral import compare_lateral
from bolewright.status import Status
from outside.relations import moved, turn

HELD = [
    DEMO,
    "crossed_rods",
    "hickory_perch",
    "round_the_trunk",
    "two_trees",
    "one_tree_one_post_knee",
    "parallel_bolts",
]
ROUNDING = 5e-3  # stations and guard pieces that tie between two members may fall either way


def example(name: str) -> Project:
    """An example that ships, or an arrangement with its own braces."""
    return read_project(shipped("calcsheets") / f"{name}.toml") if name == "two_trees" else project_of(name)


def lateral_of(project: Project) -> LateralAnalysis:
    return find_lateral(find_load_path(find_layout(project)))


@pytest.mark.parametrize("name", HELD)
@pytest.mark.parametrize("degrees", [90, 180, 270])
def test_quarter_turns_give_every_check_the_same_ratio(name: str, degrees: int) -> None:
    before = find_results(example(name))
    after = find_results(moved(example(name), turn(degrees)))
    ratios = {(c.part, c.limit_state): c for c in after.checks}
    if degrees % 180:  # the two rows of the earthquake are named by the paper's axes, which change places
        x, y = (("platform", f"earthquake along {axis}") for axis in "xy")
        ratios[x], ratios[y] = ratios[y], ratios[x]
    assert len(ratios) == len({(c.part, c.limit_state) for c in before.checks})
    compared = 0
    for check in before.checks:
        twin = ratios[check.part, check.limit_state]
        if Status.NOT_CHECKED in (check.status, twin.status):
            assert check.status is twin.status
            continue
        assert twin.ratio == pytest.approx(check.ratio, rel=ROUNDING, abs=1e-4, nan_ok=True), (
            check.part,
            check.limit_state,
        )
        compared += 1
    assert compared > 100


@pytest.mark.parametrize("name", HELD)
@pytest.mark.parametrize("mirrored", [False, True])
def test_any_turn_gives_the_same_forces_for_the_push_turned_with_it(name: str, mirrored: bool) -> None:
    first = lateral_of(example(name))

    @settings(max_examples=6, deadline=None, suppress_health_check=list(HealthCheck))
    @given(st.floats(-180, 180), st.floats(0, 360), st.floats(-5e4, 5e4))
    def law(degrees: float, way: float, moment: float) -> None:
        way_round = turn(degrees) @ (np.diag([1.0, -1.0]) if mirrored else np.eye(2))
        second = lateral_of(moved(example(name), way_round))
        push = 1000 * np.array([np.cos(np.radians(way)), np.sin(np.radians(way))])
        for state, twin in zip(first.states, second.states, strict=True):
            eigen = np.linalg.eigvalsh(plan_stiffness(list(state.springs))[:2, :2])
            turned = np.linalg.eigvalsh(plan_stiffness(list(twin.springs))[:2, :2])
            np.testing.assert_allclose(turned, eigen, rtol=1e-6)
            side = -1.0 if mirrored else 1.0
            here = answer(first, state, np.array([[*push, moment]]).T, 84 * push[:, None])
            there = answer(
                second,
                twin,
                np.array([[*(way_round @ push), side * moment]]).T,
                84 * (way_round @ push)[:, None],
            )
            size = np.abs(here.force).max()
            np.testing.assert_allclose(np.abs(there.force), np.abs(here.force), atol=1e-6 * size)
            load = np.abs(here.over + here.brace_reaction).max()
            np.testing.assert_allclose(
                there.over + there.brace_reaction, here.over + here.brace_reaction, atol=ROUNDING * load
            )

    law()


def test_the_space_frame_turns_with_the_plan_too() -> None:
    before = {(c.part, c.quantity): c for c in compare_lateral(lateral_of(example(DEMO)))}
    turned = lateral_of(moved(example(DEMO), turn(90)))
    after = {(c.part, c.quantity): c for c in compare_lateral(turned)}
    assert before.keys() == after.keys()
    for key, compared in before.items():
        assert after[key].by_frame == pytest.approx(compared.by_frame, rel=1e-3), key
        assert after[key].by_hand == pytest.approx(compared.by_hand, rel=1e-3), key
