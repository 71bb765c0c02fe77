"""The end of a board as wide as it is, by statics by hand: one person and guards at edges nearly along the boards.

Each case stands for a family that the tests' own model (tests/outside) and the load path once saw differently. Boards
are 5 1/2 in. wide; which strip of deck is a board is not known, so that one person is looked at on each that there may
be. A member bears a board wherever its wood is under it (:mod:`bolewright.platform.layout.board_rule`).
"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.combine import envelope
from bolewright.platform.loads.guard_loads import guard_loads
from bolewright.platform.loads.load_path import LoadPath, find_load_path, line_weight
from outside.platforms import path_of

BOARD, PERSON = 5.5, 300.0


def shear(path: LoadPath, mark: str) -> float:
    """Greatest shear of a member under one person, of either sign (lb)."""
    effects = path.effects[mark]
    both = [envelope(path, rows) for rows in (effects.shear_left, effects.shear_right)]
    return max(float(np.max(np.abs((e.person_most, e.person_least)))) for e in both)


def moment(path: LoadPath, mark: str) -> tuple[float, float]:
    """Greatest and least moment of a member under one person (lb.in)."""
    found = envelope(path, path.effects[mark].moment)
    return float(found.person_most.max()), float(found.person_least.min())


def guard_on(path: LoadPath, mark: str) -> float:
    member = path.layout.member(mark)
    return path.own_weight[mark] - line_weight(member) * member.line.length


def test_a_board_that_reaches_to_the_tip_of_the_next_joist_is_borne_by_both() -> None:
    """J1 (44 in.) hangs at S1; past its first 2 2/3 in. the boards lie on J2 too. Of a board at J1's end that part goes
    by lever over J1, 2 in. past it, held down by S1 (counted as 6 in. away); the rest at J2's tip by J1 and J2, 16 in.
    away. Were half of the rest given to the deck on the other side of J1's end, that lies on S1, 317 lb came of it."""
    own = (2 + 2 / 3) / BOARD
    by_hand = PERSON * (own * (1 + 2 / 6) + (1 - own) * (1 + 2 / 16) * (44 - (2 + 2 / 3)) / 44)
    assert by_hand == pytest.approx(357.3, abs=0.1)
    assert shear(path_of("one_tree_one_post"), "J1") == pytest.approx(by_hand, rel=1e-3)


def test_a_board_whose_corners_lie_on_two_beams_is_hardly_past_the_joist_between_them() -> None:
    """The last joist (6 2/3 in., at y = 136) hangs between beams that meet; the boards end at y = 142, where the wood
    of both leaves but 1 5/8 in. clear. Only that part of a board acts by lever over J8, 6 in. past it, and lifts J7."""
    path = path_of("one_tree_one_post")
    slope = 27 / 162  # of S1 and S2, across the boards for each inch along them
    clear = 2 * (27 - slope * 148 - 1.5 * math.hypot(1, slope))
    assert clear == pytest.approx(1.625, abs=0.001)
    assert moment(path, "J8")[0] == pytest.approx(PERSON * (6 + 2 / 3) / 4, rel=1e-6)  # standing on it
    assert moment(path, "J7")[1] == pytest.approx(-PERSON * clear / BOARD * 6 / 16 * 12 / 4, rel=1e-3)


def test_joists_that_meet_on_a_beam_are_one_line_under_a_board() -> None:
    """S2 bears two rows of joists end to end. A person 6.375 in. past the last: that is held down by the next, 3.125
    in. away (counted as 6), and by the one after for the rest of the moment, 21.625 in. away."""
    a = 6.375
    last = 1 + a / 6 + a * (1 - 3.125 / 6) / 21.625
    assert shear(path_of("g08_stringers"), "S2") == pytest.approx(PERSON * last, rel=1e-3)


def test_a_person_stands_on_the_whole_of_a_joist_that_meets_the_skew_beam() -> None:
    """J7 (99.27 in.) hangs at the far end in B2, 1.115 in. beyond the tip of J6 (21.125 in. away). Of a board at its
    end those 1.115 in. act by lever over J7, held down by B2 (counted as 6 in. away), the rest over J7 and J6; all is
    6.75 in. past J7."""
    path = path_of("g17_hung")
    tips = [path.layout.member(mark).line.length for mark in ("J6", "J7")]
    own = (tips[1] - tips[0]) / BOARD
    by_hand = own * (1 + 6.75 / 6) + (1 - own) * (1 + 6.75 / 21.125) * tips[0] / tips[1]
    assert shear(path, "J7") == pytest.approx(PERSON * by_hand, rel=1e-3)


def test_a_person_on_the_end_of_a_skew_beam_beside_another() -> None:
    """D ends at E's line, under which the boards end: past there E bears them, so that D gets no more than 300 lb."""
    assert shear(path_of("case_m_f58"), "D") == pytest.approx(PERSON, rel=1e-6)


@pytest.mark.parametrize(("rim", "length"), [("RS2", 16.0), ("RS3", 17.75), ("RS7", 3.25)])
def test_a_rim_along_the_boards_bears_the_deck_and_the_guard_on_its_wood(rim: str, length: float) -> None:
    """A rim 1 1/2 in. wide between two joists, flush with the deck's edge: live load on 1 1/2 in., the guard on all its
    length, half at either end. At 12 and 6 in. between places that were counted, up to half went straight to the
    joists."""
    # the deck round the beech with rims alone and its guard as a line, before posts of a guard stood on it
    text = (Path(__file__).parent.parent / "projects" / "round_the_trunk_rims.toml").read_text(
        encoding="utf-8"
    )
    path = find_load_path(find_layout(parse_project(text)))
    loads = path.layout.project.loads
    found = envelope(path, path.effects[rim].reactions)
    live = loads.live / 144 * 1.5 * length / 2
    assert found.L_most == pytest.approx([live, live], rel=1e-6)
    assert found.L_least == pytest.approx([0.0, 0.0], abs=1e-9)
    assert guard_on(path, rim) == pytest.approx(loads.guard / 12 * length, rel=1e-6)


def test_a_guard_at_a_corner_past_the_last_tip_lies_on_a_whole_board() -> None:
    """Edge 3 of g14 rises 2.5 in. over 136.31 in. Past J1's tip no member is under 0.1 in. of deck: that part of a
    board lies on J1, the rest by lever over J1 and J2, 16 in. away. From tip to tip it goes over from J2 to J1, but for
    what has J1 alone under it; and what is past J2's own side in the next bay lifts J1."""
    path = path_of("g14_continuous_beams")
    q = path.layout.project.loads.guard / 12
    (x_2, tip_2), (x_1, tip_1) = (path.layout.member(mark).line.end for mark in ("J2", "J1"))
    (x_0, top) = path.layout.project.platform.outline[2]
    run = math.hypot(1.0, (tip_1 - tip_2) / (x_1 - x_2))  # of edge for an inch across
    corner = (top - tip_1) / BOARD
    past = q * run * (x_0 - x_1) * (corner + (1 - corner) * (1 + (x_0 - x_1) / 2 / 16))
    alone = (tip_1 - tip_2) / BOARD
    between = q * run * (x_1 - x_2) * (alone + (1 - alone) / 2)
    lifted = q * run * (x_1 - x_2) * alone / 2
    assert guard_on(path, "J1") == pytest.approx(past + between - lifted, rel=5e-3)


def test_a_guard_at_a_corner_where_the_boards_ends_are_askew() -> None:
    """Edge 1 of g09 falls 2.3125 in. over 122.5 in., edge 2 is 1 in 30 out of square. Past J1's tip less than 0.4 in.
    of a board have J1 alone under them or nothing; the rest acts by lever over J1 and J2, 14.5 in. away. Between J2
    and J1 half goes to either; what J1 alone bears more there it is lifted by in the bay beyond J2."""
    layout = path_of("g09_continuous_beams").layout
    q = layout.project.loads.guard / 12
    (x_2, tip_2), (x_1, tip_1) = (layout.member(mark).line.start for mark in ("J2", "J1"))
    x_0, low = layout.project.platform.outline[1]
    alone = ((tip_2 - tip_1) + (tip_1 - low) / 2) / BOARD  # on average past J1
    past = q * ((x_0 - x_1) + (1 - alone) * (x_0 - x_1) ** 2 / 2 / (x_1 - x_2))
    by_hand = past + q * (x_1 - x_2) / 2
    found = sum(load.pounds for load in guard_loads(layout) if load.edge == 1 and load.member == "J1")
    assert by_hand == pytest.approx(6.70, abs=0.005)
    assert found == pytest.approx(by_hand, rel=2e-3)


def test_a_guard_on_two_joists_2_in_apart_is_shear_at_their_tips() -> None:
    """Edge 1 of g24, 1.5 lb/in over the joists' tips: J8 is 2.1875 in. from J9, the last, and 16 in. from J7. It bears
    half of both bays, less what it holds down of the 3.3125 in. past J9 (counted as 6 in. away); all of it is shear
    just past the tip, with what the joist weighs there none."""
    path = path_of("g24_continuous_beams")
    by_hand = 1.5 * (16 / 2 + 2.1875 / 2 - 3.3125**2 / 2 / 6)
    dead = envelope(path, path.effects["J8"].shear_right).D
    assert path.effects["J8"].stations[0] == 0.0
    assert dead[0] == pytest.approx(-by_hand, rel=1e-4)
