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
from functools import cache

import numpy as np
import pytest

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
    """Shares of a pound at the edge between the tip of joist k - 1 and the start of the rim from joist k on."""
    slant = IN * math.hypot(1, rise)  # from edge to rim's line, along the boards
    tip = 36 + (joist(k - 1) - 20) / rise
    start = 36 + (joist(k) - slant - 20) / rise  # of the next rim, where its line crosses joist k
    meets = tip - slant / rise  # where this rim's line crosses joist k - 1
    t = 20 + rise * (s - 36)
    own = min(start - tip, BOARD)
    found = {mark: part * own / BOARD for mark, part in past_the_rim(s, k, rise).items()}
    left = BOARD - own
    beside = min(left, tip - meets)
    rim = joist(k - 1) + slant  # the rim's line right at the tip
    for wide, low, mark in ((beside, rim, f"RA{k - 1}"), (left - beside, joist(k - 1), f"J{k - 1}")):
        part = (joist(k) - t) / (joist(k) - low)
        for name, share in ((mark, part), (f"J{k}", 1 - part)):
            found[name] = found.get(name, 0.0) + share * wide / BOARD
    return found


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


def test_a_guard_along_the_edge_comes_onto_the_rim_by_the_same_lever() -> None:
    """Pounds of it on a rim and its two neighbours, summed in small steps of the lines above.

    What stands before the tip, over the end of the joist and the start of the rim, is not in these lines: it may come
    to the rim whole or not at all, which bounds the rest.
    """
    layout = layout_of("shipped_hickory_perch")
    q = layout.project.loads.guard / 12 * math.hypot(1, RISE)
    k = 4
    tip, slant = 36 + (joist(k - 1) - 20) / RISE, IN * math.hypot(1, RISE)
    start = 36 + (joist(k) - slant - 20) / RISE
    steps = np.linspace(tip, start, 2001)
    middles = (steps[1:] + steps[:-1]) / 2
    sure = sum(
        on_a_board(s, k, RISE)["RA3"] * q * (steps[1] - steps[0]) for s in middles if s > tip + slant / RISE
    )
    open_ = q * (2 * slant / RISE)
    found = sum(load.pounds for load in guard_loads(layout) if load.member == "RA3")
    assert sure < found < sure + 1.3 * open_
