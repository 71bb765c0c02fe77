"""Ends of boards on rims askew to boards and joists, by statics by hand: one person and a guard's line load.

hickory_perch: joists along x, 12.5417 in. apart, their tips on the deck's edge, which rises 2.5583 in. along the boards
for an inch across; rims 1 1/2 in. wide between the tips, flush with the edge, so that their lines are 3/4 in. square in
from it. Between the tip of one joist and the start of the next rim (4.10 in. across) the boards end past the rim alone.
What a board 5 1/2 in. wide has less than that lies beside the tip, at the same place along the boards: as far as the
rim goes on under it there, between rim and next joist, and farther aside between the two joists.

Program and tests' model are held to the same lines; before, the program gave the rim 2 to 11 % more, and the tests'
model lost the lever at a rim so steep that the stretch is wider than a board.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from functools import cache

import numpy as np
import pytest

from bolewright.mechanics.loads import PointLoad
from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.board_ends import bear_each_way, board_width
from bolewright.platform.layout.layout import Layout, find_layout
from bolewright.platform.loads.guard_loads import guard_loads
from outside.boards import Deck
from outside.drawing import drawing_of
from outside.edges import Edges
from outside.platforms import layout_of

BOARD, SPACING, FIRST, IN = 5.5, 12.5417, 20.75, 0.75
RISE = 76.75 / 30
STEEP = 63 / 30
STEEPER = """[["36 in", "20 in"], ["66 in", "83 in"], ["66 in", "96 3/4 in"],
    ["-66 in", "96 3/4 in"], ["-66 in", "83 in"], ["-36 in", "20 in"]]"""


def joist(k: int) -> float:
    """Where joist k lies along the boards."""
    return FIRST + (k - 1) * SPACING


def past_the_rim(s: float, k: int, rise: float, past: float = IN) -> dict[str, float]:
    """A pound so far square past the rim from joist k - 1 to k, at s across: held down by joists k and inward.

    Nearer than 6 in., square to the rim, a hold-down counts as 6 in. away, and the next takes the rest.
    """
    sine = 1 / math.hypot(1, rise)
    rim = 20 + rise * (s - 36) + IN / sine
    left, total, shares = past, 0.0, {}
    for inward in range(k, k + 4):
        arm = (joist(inward) - rim) * sine
        pull = left / max(arm, 6.0)
        shares[f"J{inward}"] = -pull
        total += pull
        left *= max(0.0, 1 - arm / 6)
    return {f"RA{k - 1}": 1 + total, **shares}


def on_a_board(s: float, k: int, rise: float) -> dict[str, float]:
    """Shares of a pound at the edge from the tip of joist k - 1 to the start of the rim from joist k on.

    What a board has less than that stretch lies beside the tip. So near to it that the rim's line there is farther in
    than the place, first between joist k - 1 and that line, then on the line, as far as the rim goes on.
    """
    slant = IN * math.hypot(1, rise)  # from edge to rim's line, along the boards
    tip = tip_of(k - 1, rise)
    start = tip_of(k, rise) - slant / rise  # of the next rim, where its line crosses joist k
    meets = tip - slant / rise  # where this rim's line crosses joist k - 1
    t = 20 + rise * (s - 36)
    own = min(start - tip, BOARD)
    found = {mark: part * own / BOARD for mark, part in past_the_rim(s, k, rise).items()}
    rim, here, inward = f"RA{k - 1}", f"J{k - 1}", f"J{k}"
    left = BOARD - own
    beside = min(left, tip - meets)
    before = min(s - tip, beside)  # so much of it is inward of the rim's line at the place
    in_reach = (joist(k) - t) / (joist(k) - joist(k - 1) - slant)
    u = min((t - joist(k - 1)) / slant, 1.0)
    if before < beside:
        lies = [(beside - before, here, 1 - u), (beside - before, rim, u), (before, rim, 1.0)]
    else:
        lies = [(beside, rim, in_reach), (beside, inward, 1 - in_reach)]
    across = (joist(k) - t) / SPACING
    for wide, mark, part in (*lies, (left - beside, here, across), (left - beside, inward, 1 - across)):
        found[mark] = found.get(mark, 0.0) + part * wide / BOARD
    return found


def over_a_tip(s: float, k: int, rise: float) -> dict[str, float]:
    """The same from the start of rim k to the tip of joist k, whose end is under the board's: 2 in. of edge at most.

    That much of a board lies on the joist; the rest beside it, first past the end of rim k - 1, then on that rim.
    """
    slant = IN * math.hypot(1, rise)
    stretch, past = slant / rise, joist(k) - (20 + rise * (s - 36))
    first = tip_of(k, rise) - s
    levers = past_the_rim(tip_of(k, rise) - stretch, k, rise, past / math.hypot(1, rise))
    found = {mark: part * first / BOARD for mark, part in levers.items()}
    for wide, mark in ((stretch, f"J{k}"), (BOARD - stretch - first, f"RA{k - 1}")):
        found[mark] = found.get(mark, 0.0) + wide / BOARD
    return found


def tip_of(k: int, rise: float) -> float:
    """Across the boards, where the edge meets joist k."""
    return 36 + (joist(k) - 20) / rise


@cache
def steeper() -> Layout:
    """The same with sides of 25.5 degrees to the boards: there a stretch is wider, 5.12 in."""
    text = (shipped("calcsheets") / "hickory_perch.toml").read_text(encoding="utf-8")
    return find_layout(
        parse_project(
            re.sub(r"(?s)outline = \[.*?\n\]", f"outline = {STEEPER}", text).partition("\n[[guard]]")[0]
        )
    )


def by_program(layout: Layout, s: float, t: float) -> dict[str, float]:
    boards = layout.board_fields[0]
    (way,) = bear_each_way(layout, boards, boards.slab(s).at(s, t), s, t, board_width(layout))
    return _added((one.member, one.pounds) for one in way)


def by_tests(layout: Layout, s: float, t: float) -> dict[str, float]:
    drawing = drawing_of(layout)
    (way,) = Edges(Deck(drawing)).edge(drawing.fields[0], s, t)
    return _added((drawing.beams[i].mark, part) for i, _, part in way)


def _added(shares) -> dict[str, float]:
    found: dict[str, float] = {}
    for mark, part in shares:
        found[mark] = found.get(mark, 0.0) + part
    return found


@pytest.mark.parametrize("model", [by_program, by_tests])
@pytest.mark.parametrize("along", [0.25, 0.5, 0.9])
@pytest.mark.parametrize(("rise", "k"), [(RISE, 3), (RISE, 5), (STEEP, 3), (STEEP, 5)])
def test_one_person_at_the_edge_between_two_tips(model, along: float, rise: float, k: int) -> None:
    """On the edge, from well past one tip to nearly the start of the next rim."""
    layout = layout_of("shipped_hickory_perch") if rise == RISE else steeper()
    tip, slant = 36 + (joist(k - 1) - 20) / rise, IN * math.hypot(1, rise)
    start = 36 + (joist(k) - slant - 20) / rise
    s = (
        tip + slant / rise + along * (start - tip - slant / rise)
    )  # so far on the rest lies between rim and joist
    found = model(layout, s, 20 + rise * (s - 36) + 1e-5)
    for mark, part in on_a_board(s, k, rise).items():
        assert found.get(mark, 0.0) == pytest.approx(part, abs=2e-3), mark
    assert sum(found.values()) == pytest.approx(1.0, abs=1e-9)


def test_the_lever_of_one_person_is_not_lost_at_a_rim_so_steep_that_a_board_lies_past_it_alone() -> None:
    """A pound 3/4 in. past the rim's line needs 3/4 lb.in. about it: 1 1/8 lb at least comes onto the rim's end.

    That holds for any stretch of edge, however steep, so for all of a board that has but the rim under its end: 5.16
    of 5 1/2 in. here. Looked at along a line square to the boards instead, half a board lies inside the rim's line.
    """
    found = by_program(steeper(), 41.4, 20 + STEEP * 5.4 + 1e-5)
    own = (36 + (joist(2) - IN * math.hypot(1, STEEP) - 20) / STEEP - 36 - (joist(1) - 20) / STEEP) / BOARD
    assert found["RA1"] > own * (1 + IN / 6)
    assert found["RA1"] > 1 + IN / 6


@pytest.mark.parametrize("along", [0.02, 0.1, 0.3, 0.7, 0.95])
@pytest.mark.parametrize(("rise", "k"), [(RISE, 3), (RISE, 5), (STEEP, 3), (STEEP, 5)])
def test_what_holds_a_board_is_in_balance_with_the_person_on_its_end(
    along: float, rise: float, k: int
) -> None:
    """Forces and moments across the boards, whatever rule shares them: a pound, and its place along the boards."""
    layout = layout_of("shipped_hickory_perch") if rise == RISE else steeper()
    tip, start = tip_of(k - 1, rise), tip_of(k, rise) - IN * math.hypot(1, rise) / rise
    s = tip + along * (start - tip)
    t = 20 + rise * (s - 36) + 1e-5
    boards = layout.board_fields[0]
    for way in bear_each_way(layout, boards, boards.slab(s).at(s, t), s, t, BOARD):
        held = [(one.pounds, layout.member(one.member).line.at(one.x)[1]) for one in way]
        assert sum(pounds for pounds, _ in held) == pytest.approx(1.0, abs=1e-9)
        assert sum(pounds * y for pounds, y in held) == pytest.approx(t, abs=1e-6)


def guard_on_edge_2() -> list[tuple[str, float, float]]:
    """Member, pounds and place along the boards (y) of every piece of the guard on the right-hand edge."""
    layout = layout_of("shipped_hickory_perch")
    found = []
    for load in guard_loads(layout):
        if load.edge == 2:
            one = load.load
            at = one.x if isinstance(one, PointLoad) else (one.zero + 2 * one.peak) / 3
            found.append((load.member, load.pounds, float(layout.member(load.member).line.at(at)[1])))
    return found


def test_a_guard_along_the_edge_is_in_balance_with_what_bears_it() -> None:
    """17.5 plf on 82.4 in., its middle at y 58 3/8 in.: all of it arrives, and its moment to 0.2 in.

    No more is lost than the rule says: a board's end past the last but one joist is held down by one member alone,
    nearer than 6 in. (1.5 in. there, over 6 in. of edge), and where the deck ends on a joist's own wood that bears at
    its middle (0.3 in. at most, over 0.8 in. at each of seven tips).
    """
    parts = guard_on_edge_2()
    whole = 17.5 / 12 * math.hypot(30, 76.75)
    assert sum(pounds for _, pounds, _ in parts) == pytest.approx(whole, rel=1e-9)
    middle = sum(pounds * y for _, pounds, y in parts) / whole
    assert 0 <= middle - (20 + 96.75) / 2 < 0.18


def test_a_guard_along_the_edge_comes_onto_rims_and_joists_by_the_same_lever() -> None:
    """Summed in small steps of the lines above from tip to tip: a rim gets 19 lb of the 19.6 over its bay."""
    q, slant = 17.5 / 12 * math.hypot(1, RISE), IN * math.hypot(1, RISE)
    by_hand, found = Counter[str](), Counter[str]()
    for k in range(2, 7):
        tip, start, end = tip_of(k - 1, RISE), tip_of(k, RISE) - slant / RISE, tip_of(k, RISE)
        for shares, low, high in ((on_a_board, tip, start), (over_a_tip, start, end)):
            for s in low + (np.arange(400) + 0.5) * (high - low) / 400:
                for mark, part in shares(float(s), k, RISE).items():
                    by_hand[mark] += part * q * (high - low) / 400
    for mark, pounds, _ in guard_on_edge_2():
        found[mark] += pounds
    for rim in ("RA2", "RA3", "RA4"):
        assert found[rim] == pytest.approx(by_hand[rim], rel=2e-3), rim
    assert by_hand["RA3"] < q * SPACING / RISE  # what the joists do not hold of it themselves
    assert found["J4"] == pytest.approx(by_hand["J4"], abs=0.03)
