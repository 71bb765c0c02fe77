"""Statics printed beside a demand, where a guard's post brings a couple: by hand, and on every check of such a deck."""

from __future__ import annotations

import pytest

from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.actions import couple_along
from bolewright.platform.results.results import Results, find_results
from bolewright.rendering.blocks import Table
from bolewright.sheets.statics import Acting, acting_on, statics_blocks


@pytest.fixture(scope="module")
def guarded() -> Results:
    path = shipped("calcsheets") / "round_the_trunk.toml"
    return find_results(parse_project(path.read_text(encoding="utf-8"), path.name))


def test_a_couple_about_a_place_by_hand() -> None:
    """100 lb at 30 in. and a couple of 600 lb·in that deflects what lies before it: about 10 in. 100 x 20 - 600."""
    assert Acting("", 30.0, 100.0, 30.0, 30.0).about(10.0) == 2000.0
    assert Acting("", 30.0, 0.0, 30.0, 30.0, 600.0).about(10.0) == -600.0


def test_every_demand_of_a_deck_with_guards_comes_out_by_hand(guarded: Results) -> None:
    """statics_blocks stops (BalanceError) where reactions, moment or shear by its table are not what was checked."""
    with_couple = 0
    for check in guarded.checks:
        tables = [b for b in statics_blocks(guarded, check) if isinstance(b, Table)]
        with_couple += any("lb·in" in str(row[2]) for table in tables for row in table.rows)
    assert with_couple >= 5


def test_a_block_between_two_joists_turns_a_guards_push_into_a_pair(guarded: Results) -> None:
    """A couple C on a simple beam of span l: C/l down at one end, up at the other, none of it weight."""
    path = guarded.path
    blocks = {m.mark: m for m in path.layout.members if m.mark.startswith("BA") and len(m.seats) == 2}
    on_blocks = [(i, a) for i, a in enumerate(path.layout.actions) if a.member in blocks]
    most, action = max(on_blocks, key=lambda one: abs(couple_along(blocks[one[1].member], one[1].moment)))
    effects = path.effects[action.member]
    loads = path.weights * 0.0
    loads[path.first_action + most] = 1.0
    acting = acting_on(effects, loads)
    l = effects.member.seats[1].at - effects.member.seats[0].at
    R_B = sum(x.about(effects.member.seats[0].at) for x in acting) / l
    assert (effects.reactions @ loads)[1] == pytest.approx(R_B, abs=1e-9)
    C = sum(x.couple for x in acting)
    W = sum(x.pounds for x in acting)
    assert abs(C) > 100
    assert (effects.reactions @ loads).sum() == pytest.approx(W, abs=1e-9)
