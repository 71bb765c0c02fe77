"""Joists and beams as they are cut, by vector algebra that shares nothing with the formulas.

Corners are found by solving for the crossing of an edge with a face, angles by the dot product, areas by shapely.
"""

import math
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon, box
from shapely.affinity import rotate, translate

from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.ends import with_ends
from bolewright.platform.layout.layout import Bearing, Kind, Layout, Line, Member, Seat, find_layout
from bolewright.platform.layout.pieces import Piece, Side, cut_piece, cut_pieces
from bolewright.timber.sections import parse_section

LAYOUT = find_layout(
    parse_project(
        (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text("utf-8")
    )
)
S1 = LAYOUT.member("S1")
J1 = LAYOUT.member("J1")


def _beam(mark: str, a: tuple[float, float], b: tuple[float, float], plies: int) -> Member:
    return replace(S1, mark=mark, line=Line.between(a, b), section=parse_section("2x12").of_plies(plies))


@st.composite
def quadrilaterals(draw: st.DrawFn) -> tuple[Layout, Member, Member, Member]:
    """A joist hung between two beams along the sides of any quadrilateral, turned and shifted anyhow."""
    inches = st.floats(-60, 60)
    left = _beam("A", (draw(inches), 0.0), (draw(inches), 120.0), draw(st.integers(1, 3)))
    right = _beam("B", (150 + draw(inches), 0.0), (150 + draw(inches), 120.0), draw(st.integers(1, 3)))
    y = draw(st.floats(20, 100))
    across = Line((-500.0, y), (1.0, 0.0), 1000.0)
    turn, shift = draw(st.floats(-math.pi, math.pi)), (draw(inches), draw(inches))

    def moved(p: tuple[float, float]) -> tuple[float, float]:
        c, s = math.cos(turn), math.sin(turn)
        return (c * p[0] - s * p[1] + shift[0], s * p[0] + c * p[1] + shift[1])

    ends, seats = [], []
    for beam in (left, right):
        here, there = across.crossing(beam.line) or (0.0, 0.0)
        ends.append(across.at(here))
        seats.append((beam.mark, there))
    left, right = (
        replace(m, line=Line.between(moved(m.line.start), moved(m.line.end))) for m in (left, right)
    )
    line = Line.between(moved(ends[0]), moved(ends[1]))
    joist = replace(
        J1,
        mark="X",
        line=line,
        section=parse_section(draw(st.sampled_from(["2x8", "4x8", "6x8"]))),
        seats=(
            Seat(0.0, "A", seats[0][1], Bearing.HANGS, line.start),
            Seat(line.length, "B", seats[1][1], Bearing.HANGS, line.end),
        ),
    )
    joist, left, right = with_ends(LAYOUT.project, (joist, left, right))
    layout = Layout(LAYOUT.project, (joist, left, right), (), LAYOUT.deck)
    return layout, joist, left, right


def _solve(p: np.ndarray, u: np.ndarray, q: np.ndarray, v: np.ndarray) -> np.ndarray:
    s, _ = np.linalg.solve(np.column_stack([u, -v]), q - p)
    return p + s * u


def _corner(joist: Member, beam: Member, side: int, towards: np.ndarray) -> np.ndarray:
    """Where an edge of the joist meets the beam's face on the joist's side."""
    u = np.array(joist.line.u)
    n = np.array([-u[1], u[0]])
    v = np.array(beam.line.u)
    m = np.array([-v[1], v[0]])
    m = m if m @ (towards - np.array(beam.line.start)) > 0 else -m
    return _solve(
        np.array(joist.line.start) + side * joist.width / 2 * n,
        u,
        np.array(beam.line.start) + beam.width / 2 * m,
        v,
    )


@given(quadrilaterals())
def test_lengths_and_bevels_of_a_joist_in_any_quadrilateral(
    given_: tuple[Layout, Member, Member, Member],
) -> None:
    layout, joist, left, right = given_
    piece = cut_piece(layout, joist)
    middle = np.array(joist.line.at(joist.line.length / 2))
    wanted = [
        _corner(joist, left, 1, middle),
        _corner(joist, right, 1, middle),
        _corner(joist, right, -1, middle),
        _corner(joist, left, -1, middle),
    ]
    np.testing.assert_allclose(piece.corners, wanted, atol=1e-6)
    assert piece.left == pytest.approx(np.linalg.norm(wanted[1] - wanted[0]), abs=1e-6)
    assert piece.right == pytest.approx(np.linalg.norm(wanted[2] - wanted[3]), abs=1e-6)
    along = np.array(wanted) @ np.array(joist.line.u)
    assert piece.longest == pytest.approx(along.max() - along.min(), abs=1e-6)
    assert piece.shortest == pytest.approx(along[1:3].min() - max(along[0], along[3]), abs=1e-6)
    for cut, beam in ((piece.start, left), (piece.end, right)):
        between = math.degrees(math.acos(min(1.0, abs(np.dot(joist.line.u, beam.line.u)))))
        assert cut.bevel == pytest.approx(90 - between, abs=1e-5)
        assert cut.offset == pytest.approx(joist.width * math.tan(math.radians(cut.bevel)), abs=1e-6)


@given(quadrilaterals())
def test_area_is_that_of_the_strip_between_the_faces(given_: tuple[Layout, Member, Member, Member]) -> None:
    layout, joist, left, right = given_
    piece = cut_piece(layout, joist)
    strip = box(-400, -joist.width / 2, joist.line.length + 400, joist.width / 2)
    strip = translate(
        rotate(strip, math.degrees(math.atan2(joist.line.u[1], joist.line.u[0])), origin=(0, 0)),
        *joist.line.start,
    )
    for beam in (left, right):
        long = replace(beam.line, start=beam.line.at(-3000), length=6000 + beam.line.length)
        band = Polygon([*_offset(long, beam.width / 2), *reversed(_offset(long, -beam.width / 2))])
        middle = joist.line.at(joist.line.length / 2)
        parts = [g for g in strip.difference(band).geoms if g.buffer(1e-6).contains(_point(middle))]
        assert len(parts) == 1
        strip = parts[0]
    assert strip.area == pytest.approx(piece.centre * piece.b, rel=1e-9)
    assert Polygon(piece.corners).symmetric_difference(strip).area < 1e-5


def _offset(line: Line, d: float) -> list[tuple[float, float]]:
    n = (-line.u[1] * d, line.u[0] * d)
    return [(p[0] + n[0], p[1] + n[1]) for p in (line.start, line.end)]


def _point(p: tuple[float, float]) -> Point:
    return Point(p)


@given(quadrilaterals())
def test_long_point_and_hanger_skew_are_on_the_sides_one_sees(
    given_: tuple[Layout, Member, Member, Member],
) -> None:
    """Facing the beam: the long point is the corner farther on; the joist comes off it on the other side."""
    layout, joist, _, _ = given_
    piece = cut_piece(layout, joist)
    for cut, facing, (one, other) in (
        (piece.end, np.array(joist.line.u), (piece.corners[1], piece.corners[2])),
        (piece.start, -np.array(joist.line.u), (piece.corners[3], piece.corners[0])),
    ):
        on_left, on_right = (np.dot(facing, p) for p in (one, other))
        if abs(on_left - on_right) < 1e-4:
            continue
        assert cut.long_point is (Side.LEFT if on_left > on_right else Side.RIGHT)
        beam = layout.member(cut.meets).line
        square = np.array([beam.u[1], -beam.u[0]])
        square = square if square @ facing < 0 else -square  # straight off the beam, towards the joist
        comes_off = -facing
        right_hand = np.array([facing[1], -facing[0]])
        leans = (comes_off - square) @ np.array([-square[1], square[0]])
        # Facing the beam, the right hand is where (facing turned clockwise) points.
        side_right = np.array([-square[1], square[0]]) @ right_hand > 0
        assert cut.hanger_skew is (Side.RIGHT if (leans > 0) == side_right else Side.LEFT)


def test_a_joist_moved_along_parallel_faces_keeps_its_length() -> None:
    square = {p.mark: p for p in cut_pieces(LAYOUT)}["J1"]
    assert square.start.bevel == pytest.approx(math.degrees(math.atan(41.0625 / 139)), abs=1e-9)  # S1's ends
    assert square.end.bevel == pytest.approx(math.degrees(math.atan(57.9375 / 139)), abs=1e-9)  # S2's ends


def test_demo_joist_by_hand() -> None:
    """J1 at y = 20: S1 crosses at x = -22.931, S2 at 25.337; faces 1.5 in. square to the beams."""
    piece = {p.mark: p for p in cut_pieces(LAYOUT)}["J1"]
    x_1 = -15.25 - 26 * 41.0625 / 139
    x_2 = 14.5 + 26 * 57.9375 / 139
    c_1, c_2 = (1.5 * math.hypot(1, t) for t in (41.0625 / 139, 57.9375 / 139))
    assert piece.centre == pytest.approx(x_2 - x_1 - c_1 - c_2, abs=1e-9)
    assert piece.left - piece.right == pytest.approx(1.5 * (41.0625 + 57.9375) / 139, abs=1e-9)
    assert piece.left > piece.right  # the field widens towards the posts
    assert piece.longest == pytest.approx(piece.left, abs=1e-9)


def test_square_joist_loses_half_of_either_beam(arrangement: Layout) -> None:
    """Every square hung piece is shorter than its analysed length by half the widths it hangs on."""
    for member in arrangement.members:
        piece = cut_piece(arrangement, member)
        hung = [arrangement.member(c.meets).width / 2 for c in (piece.start, piece.end) if c.meets]
        if piece.start.bevel < 1e-6 and piece.end.bevel < 1e-6:
            assert piece.centre == pytest.approx(member.line.length - sum(hung), abs=1e-6)
        assert piece.longest >= max(piece.left, piece.right) - 1e-9
        assert piece.shortest <= min(piece.left, piece.right) + 1e-9


def _body(piece: Piece) -> Polygon:
    return Polygon(piece.corners)


def test_pieces_touch_what_they_hang_on_and_cut_into_nothing(arrangement: Layout) -> None:
    pieces = {p.mark: p for p in cut_pieces(arrangement)}
    for piece in pieces.values():
        for cut in (piece.start, piece.end):
            if cut.meets:
                beam = _body(pieces[cut.meets])
                assert _body(piece).distance(beam) < 1e-6
                assert _body(piece).intersection(beam).area < 1e-6


def test_free_joist_ends_follow_the_decks_edge(arrangement: Layout) -> None:
    corners = list(arrangement.deck.exterior.coords)
    edges = [Line.between(a, b) for a, b in pairwise(corners)]
    for member in arrangement.joists:
        piece = cut_piece(arrangement, member)
        if not piece.end.meets and piece.end.bevel > 1e-6:
            edge = min(edges, key=lambda e: e.distance(member.line.end))
            assert max(edge.off(c) for c in piece.corners[1:3]) < 1e-3
    assert all(
        p.start.bevel == 0 for p in cut_pieces(arrangement) if p.kind is Kind.BEAM and not p.start.meets
    )
