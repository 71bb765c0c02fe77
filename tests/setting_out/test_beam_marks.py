"""Joist marks along beams, against the corners of the pieces as they are cut, and by hand on the demonstration."""

import math
from itertools import pairwise

import pytest

from bolewright.platform.layout.layout import Layout, Line
from bolewright.platform.layout.pieces import Piece, Side, cut_pieces
from bolewright.setting_out.beams import JoistMark, joist_marks, seat_marks
from bolewright.setting_out.closing import framing_closings
from bolewright.setting_out.ground import ground_plan
from bolewright.setting_out.tolerance import SIXTEENTH, rounded


def _pieces(layout: Layout) -> dict[str, Piece]:
    return {p.mark: p for p in cut_pieces(layout)}


def _face_start(piece: Piece, face: Side) -> tuple[float, float]:
    start_left, _, _, start_right = piece.corners
    middle = ((start_left[0] + start_right[0]) / 2, (start_left[1] + start_right[1]) / 2)
    return {Side.LEFT: start_left, Side.RIGHT: start_right, Side.NEITHER: middle}[face]


def _of(marks: tuple[JoistMark, ...], beam: str) -> list[JoistMark]:
    return [m for m in marks if m.beam == beam]


def test_near_and_far_edges_are_where_the_pieces_corners_touch(arrangement: Layout) -> None:
    pieces = _pieces(arrangement)
    for mark in joist_marks(arrangement, pieces):
        if mark.face is Side.NEITHER:
            continue
        piece, line = pieces[mark.piece], arrangement.member(mark.beam).line
        ends = (piece.corners[0], piece.corners[3]) if piece.start.meets == mark.beam else piece.corners[1:3]
        x, y = _face_start(pieces[mark.beam], mark.face)
        along = sorted((c[0] - x) * line.u[0] + (c[1] - y) * line.u[1] for c in ends)
        assert (mark.near, mark.far) == pytest.approx(tuple(along), abs=1e-6)
        assert mark.centre == pytest.approx(sum(along) / 2, abs=1e-6)


def test_marks_on_top_are_where_the_centre_lines_cross(arrangement: Layout) -> None:
    pieces = _pieces(arrangement)
    for mark in joist_marks(arrangement, pieces):
        if mark.face is Side.NEITHER:
            below = arrangement.member(mark.beam).line
            crossing = below.crossing(arrangement.member(mark.piece).line)
            assert crossing is not None
            assert mark.centre == pytest.approx(crossing[0] - pieces[mark.beam].from_start[0][0], abs=1e-6)
            sine = below.sine(arrangement.member(mark.piece).line)
            assert mark.far - mark.near == pytest.approx(
                arrangement.member(mark.piece).width / sine, abs=1e-6
            )


def test_demo_marks_stand_sixteen_inches_apart_over_the_sine(demo: Layout) -> None:
    """Joists along x every 16 in. of y; S2 climbs 139 in. for 57.9375 in. across (project file)."""
    marks = _of(joist_marks(demo, _pieces(demo)), "S2")
    pitch = 16 * math.hypot(139, 57.9375) / 139
    assert [b.centre - a.centre for a, b in pairwise(marks)] == pytest.approx([pitch] * 7, abs=1e-9)
    assert marks[0].centre == pytest.approx(
        26 * math.hypot(139, 57.9375) / 139 - 1.5 * 57.9375 / 139, abs=1e-9
    )
    assert all(m.face is Side.LEFT for m in marks)
    told = {c.what: c.wanted for c in framing_closings(demo, _pieces(demo))}
    assert told["S2: from joist to joist of field J, middle to middle"] == pytest.approx(pitch)


def test_demo_seats_by_hand(demo: Layout) -> None:
    """C1 runs along x from -54 11/16: P1 at -36, P2 at 48 (project file)."""
    found = {(m.beam, m.below): m.at for m in seat_marks(demo, _pieces(demo))}
    assert found["C1", "P1"] == pytest.approx(18.6875)
    assert found["C1", "P2"] == pytest.approx(102.6875)
    assert found["S1", "T1"] == pytest.approx(6 * math.hypot(139, 41.0625) / 139, abs=0.01)


def test_closing_dimension_fills_the_beam_to_a_sixteenth(arrangement: Layout) -> None:
    """As printed: last mark and what is left at the end add up to the piece, each rounded to a sixteenth."""
    pieces = _pieces(arrangement)
    marks = joist_marks(arrangement, pieces)
    for closing in framing_closings(arrangement, pieces):
        beam, _, what = closing.what.partition(":")
        if "far end" not in what:
            continue
        last = max(_of(marks, beam), key=lambda m: m.centre)
        piece = pieces[beam]
        whole = {Side.LEFT: piece.left, Side.RIGHT: piece.right, Side.NEITHER: piece.centre}[last.face]
        assert rounded(last.centre) + rounded(closing.wanted) == pytest.approx(whole, abs=SIXTEENTH + 1e-9)


def test_diagonals_of_the_frame_close(demo: Layout) -> None:
    """The four points of two diagonals make a quadrilateral: by the law of cosines, its sides give them back."""
    pieces = _pieces(demo)
    found = {c.what: c.wanted for c in framing_closings(demo, pieces) if "diagonally" in c.what}
    one = found["Middle of J1 at S1 to middle of J8 at S2, diagonally"]
    joist = pieces["J1"].centre
    along = 112 * math.hypot(139, 57.9375) / 139  # J1 to J8 on S2's face
    angle = math.pi / 2 + math.atan(57.9375 / 139)  # inside the quadrilateral at J1, S2
    assert one == pytest.approx(
        math.sqrt(joist**2 + along**2 - 2 * joist * along * math.cos(angle)), abs=1e-6
    )


def test_running_marks_do_not_drift() -> None:
    """Marks printed from one end are each within a 32nd; the same pitch rounded and added up drifts away."""
    pitch = 16 * math.hypot(139, 57.9375) / 139
    assert abs(20 * rounded(pitch) - 20 * pitch) > SIXTEENTH
    assert all(abs(rounded(i * pitch) - i * pitch) <= SIXTEENTH / 2 for i in range(20))


def test_line_helper_agrees_with_the_layout(demo: Layout) -> None:
    s2 = demo.member("S2").line
    assert Line.between(s2.start, s2.end).length == pytest.approx(s2.length)


def test_levels_and_braces_have_their_check_measurements(demo: Layout) -> None:
    """Seats 71 1/4 and 71 1/4, cuts 60 and 60: 11 1/4 below. Braces 30 up, 30 along: 42 7/16 between working points."""
    told = {c.what: c.wanted for c in framing_closings(demo, _pieces(demo))}
    assert told["Seat of T2 level with the seat of T1"] == 0
    assert told["Cut top of P1 below the seat of T1"] == pytest.approx(11.25)
    assert told["K1: working point on P1 to the one under the beam"] == pytest.approx(30 * math.sqrt(2))
    plan = ground_plan(demo)
    assert plan is not None
    depths = {c.what: (c.wanted, c.least) for c in plan.closings if "below grade" in c.what}
    assert depths["P1: bottom of the hole below grade"] == (60, True)
    assert depths["P1: top of the concrete under the post below grade"] == (50, False)
