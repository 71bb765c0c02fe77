"""Boards hold a beam sideways where they lie on it: not past the deck's edge, not in an opening; by statics.

S1 and S2 of the lookout start at y = -6 in., their tree bolts are at y = 0, the deck starts at y = 19 1/4 in. Code and
tests were written by one and the same, after an engineer from outside had found boards counted where there is no deck.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from math import hypot

import pytest
from shapely import Polygon, box
from test_plan_give import NAIL, beam_on_springs

from bolewright.paths import shipped
from bolewright.platform.analysis.knees import beam_modulus
from bolewright.platform.analysis.lateral import LateralAnalysis, find_lateral
from bolewright.platform.analysis.plan_give import Joints, plan_give
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.boards_on import boards_on
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.layout.parts import Layout
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.verification.lateral_frame import find_frame

EDGE = 19.25  # in: y at which the deck starts
S1 = (-15.25, -6.0), (-56.3125, 133.0)  # of the file
S2 = (14.5, -6.0), (72.4375, 133.0)
WHOLE = Polygon([(-200, -200), (200, -200), (200, 200), (-200, 200)])
BOTH = pytest.mark.parametrize(("joints", "nails", "firm"), [(Joints.FIRM, 8, True), (Joints.GIVE, 2, False)])


@cache
def lookout() -> LateralAnalysis:
    text = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
    return find_lateral(find_load_path(find_layout(parse_project(text))))


def give_at(layout: Layout, bolt: str, joints: Joints) -> float:
    """In inches a pound: the bolts of the oak lie on the x axis, and so does their first direction."""
    i = 2 * lookout().row(bolt)
    return float(plan_give(layout, lookout().frames, joints)[i, i])


@cache
def by_hand(line: tuple, nails: int, *, firm: bool, boards_from: float) -> float:
    """A pound along x at y = 0 on a beam of two 2x12 that joists hang in from y = 20 in., 16 in. apart, to 132 in.

    Its part across the beam bends it over the springs of the joists, and from a y on of the boards, 5 1/2 in. wide,
    a nail 3/4 in. from each edge; its part along the beam slips all of them.
    What C1 adds at y = 114 in., 10 ft off, is left out.
    """
    (x0, y0), (x1, y1) = line
    length = hypot(x1 - x0, y1 - y0)
    c, s = (x1 - x0) / length, (y1 - y0) / length
    I = 11.25 * 3.0**3 / 12 if firm else 2 * 11.25 * 1.5**3 / 12
    joists = [((y - y0) / s, nails * NAIL) for y in range(20, 133, 16)]
    start = (boards_from - y0) / s
    count = round((length - start) / 5.5)
    width = (length - start) / count
    boards = [
        (start + n * width + at, NAIL * width / 5.5) for n in range(count) for at in (0.75, width - 0.75)
    ]
    held = sorted(joists + boards)
    across = beam_on_springs(beam_modulus(lookout().path.layout.member("S1")) * I, -y0 / s, held)
    return s**2 * across + c**2 / sum(k for _, k in held)


@BOTH
@pytest.mark.parametrize(("bolt", "line"), [("T1", S1), ("T2", S2)])
def test_a_beam_past_the_decks_edge_gives_by_hand(bolt, line, joints, nails, firm):
    hand = by_hand(line, nails, firm=firm, boards_from=EDGE)
    assert give_at(lookout().path.layout, bolt, joints) == pytest.approx(hand, rel=0.02)


@BOTH
def test_without_boards_it_would_give_little_more(joints, nails, firm):
    """Joists alone, 16 in. apart from the deck's edge on: an upper bound, near, since the first is at that edge."""
    (x0, y0), (x1, y1) = S2
    s = (y1 - y0) / hypot(x1 - x0, y1 - y0)
    I = 11.25 * 3.0**3 / 12 if firm else 2 * 11.25 * 1.5**3 / 12
    joists = [((y - y0) / s, nails * NAIL) for y in range(20, 133, 16)]
    across = s**2 * beam_on_springs(beam_modulus(lookout().path.layout.member("S2")) * I, -y0 / s, joists)
    found = give_at(lookout().path.layout, "T2", joints)
    assert 0.6 * across < found < across


@BOTH
@pytest.mark.parametrize(("bolt", "line"), [("T1", S1), ("T2", S2)])
def test_a_deck_over_the_bolts_holds_them(bolt, line, joints, nails, firm):
    """With boards on the whole beam, past the bolt too, it gives less than a tenth of that."""
    hand = by_hand(line, nails, firm=firm, boards_from=-6.0)
    covered = replace(lookout().path.layout, deck=WHOLE)
    assert give_at(covered, bolt, joints) == pytest.approx(hand, rel=0.01)
    assert give_at(covered, bolt, joints) < 0.1 * give_at(lookout().path.layout, bolt, joints)


@pytest.mark.parametrize("joints", Joints)
def test_an_opening_holds_nothing(joints):
    layout = lookout().path.layout
    hole = replace(layout, deck=WHOLE.difference(box(-100, -100, 100, EDGE)))
    assert give_at(hole, "T1", joints) == pytest.approx(give_at(layout, "T1", joints), rel=0.01)


def test_where_boards_lie_on_a_beam():
    """Of S1 and S2 from 19 1/4 in. on, but for the skew over their width; of C1, a layer lower, nowhere.

    An opening over the middle leaves two stretches; a beam beside the deck by its whole width gets none.
    """
    layout = lookout().path.layout
    for mark, ((x0, y0), (x1, y1)) in {"S1": S1, "S2": S2}.items():
        s = (y1 - y0) / hypot(x1 - x0, y1 - y0)
        ((start, end),) = boards_on(layout, layout.member(mark))
        assert start == pytest.approx((EDGE - y0) / s, abs=0.4)
        assert end == pytest.approx(layout.member(mark).line.length, abs=0.3)
    assert boards_on(layout, layout.member("C1")) == ()
    open_middle = replace(layout, deck=WHOLE.difference(box(-100, 40, 100, 60)))
    (_, a), (b, _) = boards_on(open_middle, layout.member("S1"))
    s = 139 / hypot(41.0625, 139)
    assert (a, b) == (pytest.approx(46 / s, abs=0.4), pytest.approx(66 / s, abs=0.4))
    beside = replace(layout, deck=box(20, -6, 30, 0))
    assert boards_on(beside, layout.member("S1")) == ()


def test_the_frame_model_fastens_the_deck_where_it_lies():
    """All its springs are on the deck, and each beam's are those of 8 joists and of two nails in 5 1/2 in. of board."""
    lateral = lookout()
    state = next(s for s in lateral.states if s.joints is Joints.GIVE)
    _, deck = find_frame(lateral, state)
    assert deck.at[:, 1].min() > EDGE - 0.5
    for mark, ((x0, y0), (x1, y1)) in {"S1": S1, "S2": S2}.items():
        length = hypot(x1 - x0, y1 - y0)
        under = length * (1 - (EDGE - y0) / (y1 - y0))
        own = sum(k for node, k in zip(deck.nodes, deck.k, strict=True) if node.startswith(f"{mark}@"))
        assert own == pytest.approx(2 * NAIL * (8 + under / 5.5), rel=0.01)
