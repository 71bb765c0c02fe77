"""Boards at 45 degrees to the joists: geometry by hand, the independent statics, and the same however it is drawn.

IRC 2021, R507.7: wood boards lie at most 45 degrees off square (from memory); a board there spans the joists' spacing
over cos 45.
"""

from __future__ import annotations

import math
from functools import cache

import pytest

from bolewright.drawings.boards import board_outlines
from bolewright.paths import shipped
from bolewright.platform.file.reading import find_faults, parse_project
from bolewright.platform.layout.boards import board_spans
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.combine import envelope
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.project import Project
from bolewright.platform.results.results import find_results
from bolewright.setting_out.decking import deck_rows
from outside.answers import differences, ratios, results_of
from outside.compare import apart, pairs
from outside.platforms import GENERATED, project_of
from outside.relations import joists_from_the_other_side, mirror_image, turned_22_5

LEFT, RIGHT = "diagonal left", "diagonal right"


@cache
def aslant(name: str, direction: str = LEFT) -> Project:
    raw = GENERATED[name].raw
    project, faults = find_faults({**raw, "decking": {**raw["decking"], "direction": direction}})
    assert project is not None, faults
    return project


def test_a_board_spans_the_spacing_over_the_cosine() -> None:
    """Joists 20 in. apart: 28.28 in. along the board."""
    square, turned = project_of("g02_hung"), aslant("g02_hung")
    assert board_spans(find_layout(square))[0] == pytest.approx(20.0)
    assert board_spans(find_layout(turned))[0] == pytest.approx(20.0 * math.sqrt(2))


@pytest.mark.parametrize("name", ["g02_hung", "g05_two_beams"])
@pytest.mark.parametrize("direction", [LEFT, RIGHT])
def test_the_load_path_agrees_with_statics(name: str, direction: str) -> None:
    """g05: boards reach past the last joist by a lever that grows twice as fast as the edge leaves their square."""
    found = pairs(find_load_path(find_layout(aslant(name, direction))))
    assert len(found) > 300
    assert not apart(found), [str(pair) for pair in apart(found)[:8]]


def test_a_joist_lifted_right_at_its_seat_by_a_person_past_the_next_one() -> None:
    """g05: J11 and J10 5.8125 in. apart, tips on edge 1. The board that crosses J11 at its seat (y = 2.4065) ends on
    that edge 19.78 in. farther along x, 13.97 in. past J10 and short of J9's tip: J11, counted as 6 in. away, holds it
    down with 13.97/6 of 300 lb. Just past the seat all of that is shear of J11."""
    path = find_load_path(find_layout(aslant("g05_two_beams")))
    past = (2.4065 + 17.375) - 5.8125
    effects = path.effects["J11"]
    both = (envelope(path, rows).person_most.max() for rows in (effects.shear_left, effects.shear_right))
    assert max(both) == pytest.approx(300.0 * past / 6, rel=1e-3)


def test_left_and_right_are_not_the_same() -> None:
    """The corners of the deck that boards cut short are others, and this deck is not alike from both sides."""
    left, right = (ratios(results_of(aslant("g02_hung", way))) for way in (LEFT, RIGHT))
    assert differences(left, right, 1e-3, 1e-3)


@pytest.mark.parametrize("relation", [mirror_image, joists_from_the_other_side, turned_22_5])
def test_the_same_however_it_is_drawn(relation) -> None:
    base, other = (ratios(results_of(project)) for project in relation(aslant("g02_hung")))
    assert not differences(base, other, 1e-6, 1e-6)


@pytest.mark.parametrize(("direction", "turn"), [(LEFT, 45.0), (RIGHT, -45.0)])
def test_the_boards_are_drawn_and_counted_as_they_lie(direction: str, turn: float) -> None:
    """Rows 45 degrees off the way the joists run; boards and gaps cover the deck: w / (w + g) of it is wood."""
    results = find_results(aslant("g02_hung", direction))
    layout = results.path.layout
    (field,) = layout.project.joists
    (rows,) = deck_rows(layout)
    angle = math.degrees(math.atan2(rows.along[1], rows.along[0]))
    assert (angle - field.direction - turn) % 180 == pytest.approx(0.0, abs=1e-6)
    wood = sum(board.outline.area for board in board_outlines(results)) / layout.deck.area
    assert wood == pytest.approx(rows.board / (rows.board + rows.gap), rel=0.01)


@pytest.mark.parametrize(
    ("written", "instead"),
    [("parallel", "turn the joists"), ("diagonal", "'diagonal left' or 'diagonal right'")],
)
def test_what_is_refused_says_what_to_write(written: str, instead: str) -> None:
    text = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
    with pytest.raises(ValueError, match="decking") as caught:
        parse_project(text.replace("[decking]\n", f'[decking]\ndirection = "{written}"\n'))
    assert instead in str(caught.value)
