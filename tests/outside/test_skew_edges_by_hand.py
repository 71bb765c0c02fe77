"""Edges askew to boards and joists, by statics by hand: lever and place change together along them.

one_tree_two_posts: joists along x, 16 in. apart but for the last, J8, 6 in. past J7; the deck's sides run in by 30 in.
over 104 in. towards J1. Half a side of joists is looked at, the other is its mirror image.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from bolewright.platform.loads.combine import envelope
from outside.platforms import path_of

RISE = 104 / 30  # of the side, along the boards for each inch across
BOARD, PERSON = 5.5, 300.0


def test_a_person_between_the_tips_of_two_joists_is_worst_part_of_the_way() -> None:
    """J3 (a = 13.72 in. past S1) and J2 (tip 4.62 in. short of J3's). At d short of J3's tip a board's end is RISE d
    past J3. Of a board 5.5 in. wide 4.62 in. act by lever over J3 and J4, 16 in. on; the rest lies on J2 and J3 beside
    it, at the same place along the boards. The moment is a parabola in d: its top, not its ends, is the worst."""
    path = path_of("one_tree_two_posts")
    a = 39.5192 - (15 + 25.2 * 54 / 126)
    short = 16 / RISE
    own = short / BOARD
    d = np.linspace(0, short, 2001)
    lever = own * (1 + RISE * d / 16) * (a - d) + (1 - own) * (1 - RISE * d / 16) * (a - short)
    assert 0.5 < d[lever.argmax()] < short - 0.5  # neither end of the stretch
    found = envelope(path, path.effects["J3"].moment)
    assert found.person_least.min() == pytest.approx(-PERSON * lever.max(), rel=3e-3)


def test_live_load_on_the_triangle_of_deck_past_a_joist() -> None:
    """J7 (a = 19.38 in. past S1) over its seats: half of 16 in. of boards to J6 as far as that reaches, half of 6 in.
    to J8, and the triangle between the two tips by lever over J7 and J8. All along the span the inch of deck past J8
    lifts J7 by q/12 lb/in, which adds q/12 L^2/8 at mid-span."""
    path = path_of("one_tree_two_posts")
    q = path.layout.project.loads.live / 144
    seat = 15 + 25.2 * 118 / 126
    a, w = 30 + 97 / RISE - seat, 16 / RISE
    between = 8 * (a - w) ** 2 / 2 + 3 * a**2 / 2
    once = RISE * (a * w**2 / 2 - w**3 / 3)
    by_lever = RISE**2 / 12 * (a * w**3 / 3 - w**4 / 4)
    by_hand = q * (between + once + by_lever + (2 * seat) ** 2 / 8 / 12)
    assert by_hand == pytest.approx(728.3, abs=0.1)
    found = envelope(path, path.effects["J7"].moment)
    assert found.L_least.min() == pytest.approx(-by_hand, rel=5e-3)


def test_deck_past_a_joists_end_lies_on_its_tip() -> None:
    """m_f18: J3 hangs by its end on C3, 3.93 in. short of the corner of the deck, which is 60 degrees. What lies past
    it bears on the tip, so at the seat: it is no shear of the joist."""
    path = path_of("case_m_f18")
    member, effects = path.layout.member("J3"), path.effects["J3"]
    height = 64 - member.line.end[1]
    past = path.layout.project.site.ground_snow / 144 * height**2 * math.tan(math.radians(30))
    at_seat = envelope(path, effects.reactions).S[1]
    beside = -envelope(path, effects.shear_left).S[-1]
    assert at_seat - beside == pytest.approx(past, rel=1e-3)
