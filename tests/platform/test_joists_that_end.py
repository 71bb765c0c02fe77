"""Joists at the edges of what bears them: the last one, one with no room between faces, one flush with a face."""

from __future__ import annotations

import pytest
from arrangement_files import DEMO, project_of
from cases import case, laid_out

from bolewright.platform.layout.joists import joist_positions
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.results.results import find_results

FIELD = project_of(DEMO).joists[0]

# first, last, spacing; where they lie: the last is always where the file has it
POSITIONS = [
    (0.0, 48.0, 16.0, [0, 16, 32, 48]),
    (0.0, 50.0, 16.0, [0, 16, 32, 48, 50]),
    (0.0, 49.0, 16.0, [0, 16, 32, 49]),  # 1 in. from the one before: less than its width of 1 1/2
    (0.0, 48.05, 16.0, [0, 16, 32, 48.05]),
    (0.0, 60.0, 16.0, [0, 16, 32, 48, 60]),
    (5.0, 5.0, 16.0, [5]),
]


@pytest.mark.parametrize(("first", "last", "spacing", "places"), POSITIONS)
def test_the_last_joist_lies_where_the_file_has_it(
    first: float, last: float, spacing: float, places: list[float]
) -> None:
    field = FIELD.model_copy(update={"first": first, "last": last, "spacing": spacing})
    assert joist_positions(field) == pytest.approx(places)


def test_a_joist_moved_to_the_last_is_said() -> None:
    project = case("m_f53")
    field = project.joists[0].model_copy(update={"first": 1.0, "last": 98.0})
    layout = find_layout(project.model_copy(update={"joists": (field, project.joists[1])}))
    (words,) = [note.words for note in layout.notes if note.part == "J7"]
    assert 'would be 1" from the one before it' in words
    assert layout.member("J7").line.start[1] == pytest.approx(98.0)


def test_a_joist_with_no_room_between_faces_goes_and_its_deck_to_the_beams() -> None:
    """Cut corner: D's face leaves C2's by less than a joist's hangers need at x = 48; no length is negative."""
    layout = laid_out("m_f58")
    assert all(piece.shortest > 0.99 for piece in cut_pieces(layout))
    path = find_load_path(layout)
    laid, carried = path.balance()["L"]
    assert laid == pytest.approx(40 * (96 * 96 - 48 * 48 / 2) / 144)  # 40 psf on the outline less its corner
    assert carried == pytest.approx(laid)
    (note,) = layout.notes
    assert "left out" in note.words
    results = find_results(case("m_f58"))
    assert any(note.words in check.notes for check in results.checks if check.part == note.part)


@pytest.mark.parametrize("edge_at", [0.75, 1.5])
def test_an_edge_joist_over_what_its_beams_hang_from_rests_on_that(edge_at: float) -> None:
    """The hung beams end at C1's face, y = 3; a joist flush with C1's outer face lies at y = 0.75, on top of C1."""
    project = case("m_f39b")
    (field,) = project.joists
    edge = field.model_copy(update={"first": edge_at, "last": 120 - edge_at})
    layout = find_layout(project.model_copy(update={"joists": (edge,)}))
    first = layout.member("J1")
    assert [seat.below for seat in first.seats] == ["C1", "C1", "C1"]
    assert [seat.below_at for seat in first.seats] == pytest.approx([10.0, 60.0, 110.0])
    path = find_load_path(layout)
    laid, carried = path.balance()["D"]
    assert carried == pytest.approx(laid)
