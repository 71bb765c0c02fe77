"""Marks along every beam: where each joist or upper beam meets it, and where its supports stand."""

from __future__ import annotations

from dataclasses import dataclass

from numpy import sqrt

from bolewright.formulas import formula
from bolewright.platform.layout.ends import is_rim
from bolewright.platform.layout.layout import Bearing, Layout, Line, Member, Seat
from bolewright.platform.layout.pieces import Piece, Side
from bolewright.units import Length, Ratio

ALONG = 0.02  # sine of the angle under which a joist lies along a beam, with no place on it to mark


@formula("Geometry (mark on a beam's face)")
def face_mark(x_c: Length, w: Length, t: Ratio) -> Length:
    """Place on a beam's face at which the middle of a skewed piece meets it.

    Parameters: x_c place at which the centre lines cross, along the beam (in); w width of the beam (in);
    t run along the beam for each inch away from it, of the piece. Returns: x_f (in). Source: geometry.

    >>> face_mark(20.0, 3.0, 0.5)
    20.75
    """
    x_f: Length = x_c + w / 2 * t
    return x_f


@formula("Geometry (width of a piece along what it meets)")
def width_on_face(b: Length, t: Ratio) -> Length:
    """Width that a skewed piece takes up along a beam.

    Parameters: b width of the piece (in); t tangent of its skew. Returns: b_f (in). Source: geometry.

    >>> float(width_on_face(1.5, 0.75))
    1.875
    """
    b_f: Length = b * sqrt(1 + t**2)
    return b_f


@formula("Geometry (spacing along a skewed beam)")
def spacing_along(s: Length, t: Ratio) -> Length:
    """Distance along a beam between the marks of joists at one spacing.

    Parameters: s spacing square to the joists (in); t tangent of the skew. Returns: s_f (in). Source: geometry.

    >>> float(spacing_along(16.0, 0.75))
    20.0
    """
    s_f: Length = s * sqrt(1 + t**2)
    return s_f


@dataclass(frozen=True)
class JoistMark:
    """Where a piece meets a beam: inches from the beam's start, on its ``face`` (looking from its start).

    ``near`` and ``far`` are the edges of the piece, ``centre`` its middle; ``face`` is neither for a piece that
    rests on top, where the marks are on the beam's centre line.
    """

    beam: str
    piece: str
    face: Side
    near: float
    centre: float
    far: float
    tangent: float


@dataclass(frozen=True)
class SeatMark:
    """Where the centre of what a beam sits on lies, inches from its start."""

    beam: str
    below: str
    at: float


def joist_marks(layout: Layout, pieces: dict[str, Piece]) -> tuple[JoistMark, ...]:
    """Marks of everything that hangs from or rests across every beam, in order along it."""
    order = {m.mark: i for i, m in enumerate(layout.beams)}
    marks = [
        _mark(layout, member, seat, pieces[seat.below])
        for member in layout.members
        if not is_rim(member)  # it runs along the end of a beam, not on its face
        for seat in member.seats
        if seat.below in order and member.line.sine(layout.member(seat.below).line) > ALONG
    ]
    return tuple(sorted(marks, key=lambda m: (order[m.beam], m.face.value, m.centre)))


def seat_marks(layout: Layout, pieces: dict[str, Piece]) -> tuple[SeatMark, ...]:
    """Where every beam sits on its supports and on other beams."""
    return tuple(
        SeatMark(member.mark, seat.below, seat.at - pieces[member.mark].from_start[0][0])
        for member in layout.beams
        for seat in member.seats
    )


def skew_along(beam: Line, outward: tuple[float, float]) -> tuple[float, int]:
    """Run along a beam for each inch away from it of a direction, and the side: 1 left, -1 right."""
    along = beam.u[0] * outward[0] + beam.u[1] * outward[1]
    across = beam.u[0] * outward[1] - beam.u[1] * outward[0]
    return along / abs(across), 1 if across > 0 else -1


def _mark(layout: Layout, member: Member, seat: Seat, on: Piece) -> JoistMark:
    beam = layout.member(seat.below)
    at_start = seat.at < member.line.length / 2
    outward = member.line.u if at_start else (-member.line.u[0], -member.line.u[1])
    t, side = skew_along(beam.line, outward)
    hung = seat.bearing is Bearing.HANGS
    centre = float(face_mark(x_c=seat.below_at, w=beam.width if hung else 0.0, t=t))
    half = float(width_on_face(b=member.width, t=t)) / 2
    face = (Side.LEFT if side > 0 else Side.RIGHT) if hung else Side.NEITHER
    start = on.from_start[0][{Side.NEITHER: 0, Side.LEFT: 1, Side.RIGHT: 2}[face]]
    centre -= start
    return JoistMark(seat.below, member.mark, face, centre - half, centre, centre + half, t)
