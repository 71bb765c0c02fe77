"""What comes onto the members through the boards, by statics by hand: one person, guards, boards past the last member.

The idealisation is the printed one: simple spans between neighbouring members, the lever past the last.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from case_files import case_of, case_path, moment, reaction

from bolewright.platform.analysis.support_loads import support_loads
from bolewright.platform.layout.board_rule import hold_downs
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.combine import envelope, uplift_cases
from bolewright.platform.loads.free_ends import free_ends
from bolewright.platform.loads.load_path import LoadPath, find_load_path, line_weight
from bolewright.platform.project import Project


def changed(project: Project, **parts: dict[str, Any]) -> Project:
    """A project with values of its sections changed; of the one joist field under ``joists``."""
    update: dict[str, Any] = {}
    for name, values in parts.items():
        if name == "joists":
            update[name] = (project.joists[0].model_copy(update=values),)
        else:
            update[name] = getattr(project, name).model_copy(update=values)
    return project.model_copy(update=update)


def solved(project: Project) -> LoadPath:
    return find_load_path(find_layout(project))


def guard_on(path: LoadPath, mark: str) -> float:
    """Pounds of guard that come onto a member: its own dead load less its timber's weight."""
    member = path.layout.member(mark)
    return path.own_weight[mark] - line_weight(member) * member.line.length


# One person


def test_a_person_at_the_end_of_a_beam_that_runs_along_the_boards() -> None:
    # b01: 300 lb at the tip, 36 in. past the post, and 991 lb.in of dead load: 11,790 lb.in.
    path = case_path("b01_walkway")
    found = moment(path, "S1")
    assert found.person_least.min() == pytest.approx(-300 * 36, rel=1e-6)
    assert (found.D + found.person_least).min() == pytest.approx(-11790, rel=1e-3)


def test_a_person_at_the_end_lifts_the_far_post() -> None:
    # b01: 300 x 36 / 68 = 158.8 lb up on P3, 0.6 of its dead load down.
    path = case_path("b01_walkway")
    found = reaction(path, "P3")
    assert found.person_least[0] == pytest.approx(-300 * 36 / 68, rel=1e-6)
    assert found.least(uplift_cases()).min() == pytest.approx(-95, abs=0.5)


def test_a_person_on_the_end_of_a_board_past_the_last_joist() -> None:
    # b02 with its deck 10 in. past the last joist at 130 in. (J1): 300 (1 + 10/16) on it, mid-span of 80 in.: P l / 4.
    project = case_of("b02_guard16")
    outline = tuple((x, 140.0 if y == 132.0 else y) for x, y in project.platform.outline)
    path = solved(changed(project, platform={"outline": outline}))
    last = max(path.layout.joists, key=lambda joist: joist.line.start[1]).mark
    found = moment(path, last)
    assert found.person_most.max() == pytest.approx(300 * (1 + 10 / 16) * 80 / 4, rel=1e-6)
    assert found.person_least.min() == pytest.approx(-300 * (1 + 10 / 16) * 30, rel=1e-6)


def test_a_person_at_a_skew_edge_stands_past_the_tip_of_the_next_joist() -> None:
    """Edge at 45 degrees to the joists, which are 16 in. apart: just past a tip, the board's end is 16 in. past the
    joist before, and that one gets twice the person."""
    project = case_of("b02_guard16")
    outline = ((0.0, 0.0), (90.0, 0.0), (170.0, 80.0), (170.0, 132.0), (0.0, 132.0))
    path = solved(changed(project, platform={"outline": outline}, loads={"guard_edges": ()}))
    joist = next(j for j in path.layout.joists if abs(j.line.start[1] - 50.0) < 0.01)
    tip = joist.line.length
    found = moment(path, joist.mark)
    # where the board ends 16 in. past it: at the tip of the joist below, 16 in. back from its own
    assert found.person_least.min() <= -300 * 2 * (tip - 16 - 90) * 0.999
    assert found.person_least.min() == pytest.approx(-300 * 2 * (tip - 16 - 90), rel=0.02) or (
        found.person_least.min() == pytest.approx(-300 * (tip - 90), rel=1e-6)
    )


# Guards


@pytest.mark.parametrize(
    ("name", "each"),
    [("b02_guard16", 30 * 16 / 12), ("b03_guard23", 30 * 23 / 12), ("b04_guard23_8plf", 8 * 23 / 12)],
)
def test_equal_joists_get_equal_parts_of_a_guard_along_their_ends(name: str, each: float) -> None:
    # simple spans of board: half a bay from either side; the outermost two on each side feel the 2 in. past the last
    path = case_path(name)
    inner = [joist.mark for joist in path.layout.joists][2:-2]
    assert len(inner) >= 3
    for mark in inner:
        assert guard_on(path, mark) == pytest.approx(each, rel=1e-9)
    whole = path.layout.project.loads.guard / 12 * path.layout.deck.bounds[3]
    assert sum(guard_on(path, m.mark) for m in path.layout.members) == pytest.approx(whole, rel=1e-9)


@pytest.mark.parametrize("past", [0.0, 2.0, 5.0, 10.0])
def test_a_guard_on_an_outer_edge_is_amplified_as_the_deck_beside_it(past: float) -> None:
    # Edge 3 runs along the joists, so far past the last of them: 1 + past/16 of its weight on that one.
    project = case_of("b02_guard16")
    outline = tuple((x, 130.0 + past if y == 132.0 else y) for x, y in project.platform.outline)
    path = solved(changed(project, platform={"outline": outline}, loads={"guard_edges": (3,)}))
    last, inside = sorted(path.layout.joists, key=lambda joist: -joist.line.start[1])[:2]
    whole = 30 / 12 * 120
    assert guard_on(path, last.mark) == pytest.approx(whole * (1 + past / 16), rel=1e-9)
    assert guard_on(path, inside.mark) == pytest.approx(-whole * past / 16, rel=1e-9, abs=1e-9)


def test_a_guard_over_a_beam_that_runs_along_the_edge_is_that_beams() -> None:
    # b01: edge 4 of the walkway is S1's own, 1.5 in. from its centre line, and the boards lie along it.
    project = changed(case_of("b01_walkway"), loads={"guard_edges": (4,)})
    path = solved(project)
    assert guard_on(path, "S1") == pytest.approx(8 / 12 * 140, rel=1e-9)


# No cliff


def statics_of_the_rule(past: float, near: float, third: float) -> tuple[float, float, float]:
    """By hand: what the last, the next and the third member get of one pound past the last."""
    if near >= 6:
        return 1 + past / near, -past / near, 0.0
    held, rest = past / 6, (1 - near / 6) * past / third
    return 1 + held + rest, -held, -rest


@pytest.mark.parametrize("near", [2.0, 3.0, 5.85, 5.94, 6.0, 6.06, 12.0, 16.0])
def test_two_joists_close_together_past_which_boards_run_out(near: float) -> None:
    # b02 with its last joist so near to the one before and 10 in. of boards past it; a guard on the edge there.
    project = case_of("b02_guard16")
    last = 114.0 + near
    outline = tuple((x, last + 10.0 if y == 132.0 else y) for x, y in project.platform.outline)
    path = solved(
        changed(project, platform={"outline": outline}, loads={"guard_edges": (3,)}, joists={"last": last})
    )
    rows = sorted(path.layout.joists, key=lambda joist: -joist.line.start[1])[:3]
    whole = 30 / 12 * 120
    expected = statics_of_the_rule(10.0, near, near + 16.0)
    for joist, part in zip(rows, expected, strict=True):
        assert guard_on(path, joist.mark) == pytest.approx(whole * part, rel=1e-9, abs=1e-6)
    # in balance about the last joist: the load 10 in. past it, the others so far inward
    assert 10.0 + expected[1] * near + expected[2] * (near + 16.0) == pytest.approx(0.0, abs=1e-9)


def test_the_hold_down_is_continuous_and_in_balance() -> None:
    for near in np.linspace(0.0, 12.0, 193):
        distances = [near, near + 16.0]
        pulls = hold_downs(10.0, distances)
        assert np.dot(pulls, distances) == pytest.approx(10.0, rel=1e-9)
        nearby = hold_downs(10.0, [near + 1 / 16, near + 1 / 16 + 16.0])
        assert sum(nearby) == pytest.approx(sum(pulls), rel=0.02)


def reactions_of(project: Project) -> np.ndarray:
    path = solved(project)
    env = envelope(path, np.array([path.reactions[s.mark] for s in path.layout.supports]))
    return np.stack([env.D, env.L_most, env.L_least, env.person_most, env.person_least])


@pytest.mark.parametrize("step", [1 / 16, -1 / 16])
def test_an_outline_out_of_square_by_a_sixteenth(step: float) -> None:
    # A corner moved so little makes a sliver of deck past the tips of the joists; no board is that narrow.
    project = case_of("b02_guard16")
    outline = tuple((x + step if (x, y) == (120.0, 0.0) else x, y) for x, y in project.platform.outline)
    path, moved = (solved(p) for p in (project, changed(project, platform={"outline": outline})))
    for joist in path.layout.joists:
        for kind in ("D", "person_least", "L_least"):
            one, other = (getattr(moment(p, joist.mark), kind).min() for p in (path, moved))
            assert other == pytest.approx(one, rel=0.02, abs=0.02 * 3600), (joist.mark, kind)


def test_one_person_just_beside_a_hanger_is_all_shear_of_the_joist() -> None:
    # b01: an inner joist, hung at both ends, 300 lb just inside: V = 300 (1 - x/L) by statics, 300 lb as x -> 0
    path = case_path("b01_walkway")
    effects = path.effects[path.layout.joists[1].mark]
    for shear in (effects.shear_left, effects.shear_right):
        found = envelope(path, shear)
        assert np.max(found.person_most) == pytest.approx(300.0, rel=1e-3)
        assert np.min(found.person_least) == pytest.approx(-300.0, rel=1e-3)


def test_a_corner_past_the_joists_tips_lies_on_the_nearest_and_is_named() -> None:
    # m_f18, a triangle: above y = 58.4 no joist is under the boards of the apex; J3, at x = 4, is the nearest.
    path = case_path("m_f18")
    named = {(end.edge, end.member) for end in free_ends(path.layout) if not end.under}
    assert named == {("edge 1", "J3"), ("edge 3", "J3")}
    # the live load of the deck, half of 110.85 x 96 in., at 40 psf: nothing is lost
    assert sum(s.L for s in support_loads(path)) == pytest.approx(110.8512 * 96 / 2 / 144 * 40, rel=1e-4)
