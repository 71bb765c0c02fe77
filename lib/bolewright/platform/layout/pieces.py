"""Joists and beams as they are cut: face to face, with bevels, although analysis goes centre to centre."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from bolewright.calculation import Calculation, Step
from bolewright.platform.layout.layout import STEP, Kind, Layout, Line, Member, Vector
from bolewright.platform.layout.parts import Cut, End
from bolewright.timber.bevel import (
    bevel_from_square,
    bevel_offset,
    face_to_face,
    half_width_on_skew,
    left_edge,
    long_points,
    right_edge,
    skew_tangent,
)

ROUNDING = 1e-6  # in
SQUARE = 1e-6  # tangent below which a cut is square
TILT = 45.0  # degrees: most saws tilt no further (common practice)


class Side(StrEnum):
    """A side of a piece, or neither."""

    LEFT = "left"
    RIGHT = "right"
    NEITHER = "square"


_ALONG = 0.02  # sine of the angle under which an edge of the deck runs along a member


@dataclass(frozen=True)
class EndCut:
    """One end of a piece: the part whose face it meets (empty for a free end), its bevel, and which way round.

    ``tangent`` is positive where the left edge, looking from the start to the end, reaches further along.
    ``long_point`` and ``hanger_skew`` are as seen by one who stands on the piece and faces this end: the side on
    which the piece is longer, and the side to which it comes off what it hangs on, looking back from that.
    """

    at: str
    meets: str
    tangent: float
    bevel: float
    offset: float
    long_point: Side
    cut: Cut = Cut.FREE

    @property
    def hung(self) -> bool:
        """Whether it hangs there in a hanger."""
        return self.cut is Cut.HUNG

    @property
    def hanger_skew(self) -> Side:
        """Way the hanger is skewed: the side, facing the beam, to which the joist comes off it."""
        return {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT, Side.NEITHER: Side.NEITHER}[self.long_point]

    @property
    def beyond_saw(self) -> bool:
        """Whether a common saw cannot tilt so far."""
        return self.bevel > TILT


@dataclass(frozen=True)
class Piece:
    """A joist or beam as it is cut: lengths in inches along centre and edges, its end cuts, its plan corners.

    ``left`` and ``right`` are the edges looking from ``start`` to ``end``; ``longest`` is the stock it takes, long
    point to long point. ``from_start`` is where its ends lie along the member's centre line: at the centre, the left
    edge and the right edge. ``corners`` go round: start left, end left, end right, start right.
    """

    mark: str
    kind: Kind
    section: str
    plies: int
    b: float
    d: float
    centre: float
    left: float
    right: float
    longest: float
    start: EndCut
    end: EndCut
    from_start: tuple[tuple[float, float, float], tuple[float, float, float]]
    corners: tuple[Vector, Vector, Vector, Vector]
    steps: tuple[Step, ...]

    @property
    def shortest(self) -> float:
        """Length between the short points, along the piece."""
        return 2 * self.centre - self.longest


def cut_pieces(layout: Layout) -> tuple[Piece, ...]:
    """Every joist and beam of a layout as it is cut, in the layout's order."""
    return tuple(cut_piece(layout, member) for member in layout.members)


def cut_piece(layout: Layout, member: Member) -> Piece:
    """A joist or beam as it is cut: from face to face where it hangs, to its own end where it is free."""
    b = member.width
    calculation = Calculation()
    run = calculation.run
    backs, tangents = [], []
    for start, end in zip((True, False), member.cuts, strict=True):
        face = _run(layout, member, end, start)
        r, q = member.line.u[0] * face[0] + member.line.u[1] * face[1], _across(member.line, face)
        sign = 1.0 if q > 0 else -1.0
        t = float(run(skew_tangent, r=sign * r, q=sign * q))
        back = end.at if start else member.line.length - end.at
        if end.cut in (Cut.HUNG, Cut.BUTT):
            to_face = float(run(half_width_on_skew, w=layout.member(end.meets).width, t=t))
            back = to_face if abs(back - to_face) < ROUNDING else back
        backs.append(back)
        tangents.append(t)
    L = float(run(face_to_face, l_c=member.line.length, c_1=backs[0], c_2=backs[1]))
    ends = {"b": b, "t_1": tangents[0], "t_2": tangents[1]}
    left = float(run(left_edge, L=L, **ends))
    right = float(run(right_edge, L=L, **ends))
    longest = float(run(long_points, L=L, **ends))
    cuts = []
    for name, t, end in zip(("start", "end"), tangents, member.cuts, strict=True):
        bevel = float(run(bevel_from_square, t=t))
        offset = float(run(bevel_offset, b=b, t=t))
        cuts.append(EndCut(name, end.meets, t, bevel, offset, _long_point(t), end.cut))
    near, far = backs[0], member.line.length - backs[1]
    half = [b / 2 * t for t in tangents]
    from_start = ((near, near + half[0], near - half[0]), (far, far + half[1], far - half[1]))
    return Piece(
        mark=member.mark,
        kind=member.kind,
        section=member.section.name,
        plies=member.section.plies,
        b=b,
        d=member.section.d,
        centre=L,
        left=left,
        right=right,
        longest=longest,
        start=cuts[0],
        end=cuts[1],
        from_start=from_start,
        corners=_corners(member.line, b, from_start),
        steps=calculation.at(()),
    )


def _across(line: Line, v: Vector) -> float:
    """Part of a direction that goes to the left of a line."""
    return line.u[0] * v[1] - line.u[1] * v[0]


def _run(layout: Layout, member: Member, end: End, start: bool) -> Vector:
    """Run in plan of the face that an end is cut to: what it meets, the deck's edge, or square across."""
    if end.run is not None:
        return end.run
    square = (-member.line.u[1], member.line.u[0])
    if member.kind is Kind.BEAM:
        return square
    return _deck_edge(layout, member.line, start) or square


def _deck_edge(layout: Layout, line: Line, start: bool) -> Vector | None:
    """Direction of the deck's edge that a line ends on, away from the deck's corners; None where it ends on none.

    An edge that runs along the line is none that it ends on.
    """
    point = line.start if start else line.end
    for ring in (layout.deck.exterior, *layout.deck.interiors):
        corners = list(ring.coords)
        for a, b in zip(corners, corners[1:], strict=False):
            edge = Line.between((a[0], a[1]), (b[0], b[1]))
            on_it = edge.off(point) < STEP and STEP < edge.along(point) < edge.length - STEP
            if on_it and line.sine(edge) > _ALONG:
                return edge.u
    return None


def _long_point(t: float) -> Side:
    """Side of the long point, facing out of an end; both ends read alike, as half a turn swaps both."""
    if abs(t) < SQUARE:
        return Side.NEITHER
    return Side.LEFT if t > 0 else Side.RIGHT


def _corners(
    line: Line, b: float, ends: tuple[tuple[float, float, float], tuple[float, float, float]]
) -> tuple[Vector, Vector, Vector, Vector]:
    n = (-line.u[1], line.u[0])

    def at(s: float, side: float) -> Vector:
        x, y = line.at(s)
        return (x + side * b / 2 * n[0], y + side * b / 2 * n[1])

    (_, start_left, start_right), (_, end_left, end_right) = ends
    return at(start_left, 1), at(end_left, 1), at(end_right, -1), at(start_right, -1)
