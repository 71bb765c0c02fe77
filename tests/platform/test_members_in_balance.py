"""Joists over the inner support of a continuous beam, and every member in balance by itself.

The right answers are those of the independent grillage beside the cases (boards in half-inch strips, own influence
lines), and symmetry.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from arrangement_files import ARRANGEMENTS, DEMO, path_of
from case_files import case_path, moment, reaction

from bolewright.platform.layout.coupling import settle
from bolewright.platform.layout.influence import Influence
from bolewright.platform.layout.tees import stands_alone, tee_of
from bolewright.platform.loads.balance import BalanceError, assert_members_balance
from bolewright.platform.loads.load_path import member_values

NINE = ["c01_nine_on", "c02_nine_off"]


@pytest.mark.parametrize("name", NINE)
def test_a_joist_over_the_middle_post_brings_its_load_to_it(name: str) -> None:
    found = reaction(case_path(name), "P22")
    assert found.D[0] == pytest.approx(315, rel=0.01)
    # 2,234 lb where a bay of boards is loaded as a whole or not at all; 2.2 % more where half of a bay may be.
    assert 2234 * 0.99 < found.L_most[0] < 2234 * 1.03


@pytest.mark.parametrize("name", NINE)
def test_negative_moment_over_the_middle_post(name: str) -> None:
    # The worst pattern cuts the boards between two joists where the influence on the moment changes its sign: whole
    # bays alone are 2.7 % low.
    found = moment(case_path(name), "C2")
    assert (found.D + found.L_least).min() == pytest.approx(-14390, rel=0.01)


def test_opposite_corners_settle_alike() -> None:
    path = case_path("c01_nine_on")
    settled = settle(path.layout, {m.mark: member_values(m).E * m.section.I for m in path.layout.members})
    by = dict(zip([s.mark for s in path.layout.supports], np.diag(settled.supports), strict=True))
    for corner in ("P13", "P31", "P33"):
        assert by[corner] == pytest.approx(by["P11"], rel=1e-6)
    for side in ("P32",):
        assert by[side] == pytest.approx(by["P12"], rel=1e-6)


def test_a_line_of_posts_off_the_joist_by_a_sixteenth_changes_next_to_nothing() -> None:
    on, off = (case_path(name) for name in NINE)
    for mark in on.reactions:
        one, other = reaction(on, mark), reaction(off, mark)
        for kind in ("D", "L_most", "S", "person_most"):
            assert getattr(other, kind)[0] == pytest.approx(getattr(one, kind)[0], rel=0.01), (mark, kind)


@pytest.mark.parametrize("name", [DEMO, *ARRANGEMENTS])
def test_every_member_is_in_balance_by_itself(name: str) -> None:
    path = path_of(name)
    tees = {m.mark: tee_of(path.layout.project, m) if stands_alone(m) else None for m in path.layout.members}
    assert_members_balance(path.layout, path.effects, tees)


def test_a_load_that_is_lost_at_one_seat_is_an_error() -> None:
    path = case_path("c01_nine_on")
    none = dict.fromkeys(path.effects)
    effects = path.effects["C2"]
    lost = effects.reactions.values.copy()
    lost[1] *= 0.9
    broken = path.effects | {
        "C2": replace(effects, reactions=Influence(lost, effects.reactions.columns, effects.reactions.count))
    }
    with pytest.raises(BalanceError, match="C2: forces on its seats"):
        assert_members_balance(path.layout, broken, none)


def test_a_load_that_moves_along_its_member_is_an_error() -> None:
    path = case_path("c01_nine_on")
    effects = path.effects["C2"]
    moved = effects.reactions.values.copy()
    moved[0] += moved[1] * 0.1
    moved[1] *= 0.9
    broken = path.effects | {
        "C2": replace(effects, reactions=Influence(moved, effects.reactions.columns, effects.reactions.count))
    }
    with pytest.raises(BalanceError, match="C2: moments"):
        assert_members_balance(path.layout, broken, dict.fromkeys(path.effects))
