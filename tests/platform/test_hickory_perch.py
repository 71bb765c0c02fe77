"""The shipped project framed the usual way: laid out as drawn, its levels by sums, its flow of weight by statics."""

from __future__ import annotations

import pytest
from arrangement_files import path_of, project_of
from cases import laid_out

from bolewright.platform.layout.layout import Bearing, Layout
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.loads.load_path import find_load_path

NAME = "hickory_perch"
RESTS, HANGS = Bearing.RESTS, Bearing.HANGS


@pytest.mark.parametrize(
    ("mark", "seats"),
    [
        ("C1", [("P1", RESTS), ("P2", RESTS)]),
        ("S1", [("T1", RESTS), ("C1", HANGS)]),
        ("S2", [("T2", RESTS), ("C1", HANGS)]),
        ("D1", [("C1", HANGS), ("S1", HANGS)]),
        ("D2", [("C1", HANGS), ("S2", HANGS)]),
        ("J1", [("S1", RESTS), ("S2", RESTS)]),
        ("J5", [("D1", RESTS), ("S1", RESTS), ("S2", RESTS), ("D2", RESTS)]),
    ],
)
def test_what_sits_on_what(mark: str, seats: list[tuple[str, Bearing]]) -> None:
    found = path_of(NAME).layout.member(mark).seats
    assert sorted((s.below, s.bearing) for s in found) == sorted(seats)


def test_levels_by_sums_of_depths() -> None:
    """Floor 52 in., board 1 1/2, joist 2x6 5 1/2: the beams' tops at 45 in., C1 a 2x12, S and D 2x10."""
    layout = path_of(NAME).layout
    assert layout.member("C1").top == pytest.approx(45.0)
    assert layout.seat_level("P1") == pytest.approx(45.0 - 11.25)
    assert layout.seat_level("T1") == pytest.approx(45.0 - 9.25)
    assert layout.member("D1").top == pytest.approx(45.0)


def test_the_diagonals_are_cut_at_45_degrees_face_to_face() -> None:
    """From C1's face, y = 94 1/2, to S1's, x = 18 1/2: both centre lines at 45 degrees, 44 1/2 in. each way."""
    piece = next(p for p in cut_pieces(path_of(NAME).layout) if p.mark == "D1")
    assert piece.centre == pytest.approx(44.5 * 2**0.5, abs=1e-3)
    assert piece.start.bevel == pytest.approx(45.0, abs=1e-3)
    assert piece.end.bevel == pytest.approx(45.0, abs=1e-3)


def reactions_by_moments(
    layout: Layout, beams: tuple[str, str], y_bolts: float, y_beam: float
) -> tuple[float, float]:
    """Share of a uniform load on the whole deck at the bolts and at the post beam, by moments about the bolts."""
    centroid = layout.deck.centroid.y
    whole = layout.project.loads.live * layout.deck.area / 144
    at_beam = whole * (centroid - y_bolts) / (y_beam - y_bolts)
    return whole - at_beam, at_beam


@pytest.mark.parametrize("name", [NAME, "c03_hung_in_face"])
def test_live_load_by_moments_about_the_bolts(name: str) -> None:
    """Bolts and post beam are two lines of support: statics gives what each bears, whatever is between.

    The stairs of the perch: 40 psf on 36 in. by seven treads of 10 in., half of it at their head, over the post beam.
    """
    layout = laid_out(name) if name != NAME else path_of(NAME).layout
    path = find_load_path(layout)
    y_beam = layout.member("C1").line.start[1]
    bolts, beam = reactions_by_moments(layout, ("S1", "S2"), 0.0, y_beam)
    stairs = 40 * 36 * 7 * 10 / 144 / 2 if name == NAME else 0.0
    found = {mark: float(row @ path.live) for mark, row in path.reactions.items()}
    assert found["T1"] + found["T2"] == pytest.approx(bolts, rel=1e-6)
    assert found["P1"] + found["P2"] == pytest.approx(beam + stairs, rel=1e-6)
    assert found["T1"] == pytest.approx(found["T2"], rel=1e-6)  # by symmetry


def test_the_hung_ends_go_into_the_post_beam_where_they_hang() -> None:
    """c03: S1 and S2 hang at x = -17 and 17 in., which is 63 and 97 in. along C1 from x = -80."""
    layout = laid_out("c03_hung_in_face")
    at = {mark: layout.member(mark).seats[-1] for mark in ("S1", "S2")}
    assert (at["S1"].below, at["S1"].below_at) == ("C1", pytest.approx(63.0))
    assert (at["S2"].below, at["S2"].below_at) == ("C1", pytest.approx(97.0))
    path = find_load_path(layout)
    half = 60 * 60 * 103 / 144 / 2  # 60 psf on half of a deck of 60 by 103 in., its middle at y = 67.5
    for mark in at:
        end = path.effects[mark].reactions[1] @ path.live
        assert float(end) == pytest.approx(half * 67.5 / 120, rel=1e-6)


def test_the_usual_framing_keeps_its_promises() -> None:
    project = project_of(NAME)
    assert {c.mark: c.plies for c in project.beams} == {"C1": 2, "S1": 2, "S2": 2, "D1": 2, "D2": 2}
    assert len(project.trees) == 1
    assert sum(s.kind == "post" for s in project.supports) == 2
