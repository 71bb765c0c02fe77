"""Where two pieces touch in plan: the overlap of both as they are cut, whose area bears and no more.

A post's cap and the bracket on a tree bolt are rectangles; a bracket stands square to the timber in it.
"""

from __future__ import annotations

from dataclasses import dataclass

from shapely import Polygon

from bolewright.mechanics.convex import turned_square
from bolewright.platform.layout.bolt_lines import bolt_line
from bolewright.platform.layout.ends import head_cut
from bolewright.platform.layout.lines import Line, Vector
from bolewright.platform.layout.parts import Bearing, Layout, Member, Seat
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.project import Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.sections import parse_section

INSET = 1 / 16  # in: how far inside a timber's sides the length of bearing is measured
_NOTHING = 1e-3  # in²: pieces that overlap by less do not bear on each other


@dataclass(frozen=True)
class Contact:
    """The area on which a member bears at one of its seats; ``shape`` its corners in plan (in)."""

    shape: Polygon

    @property
    def area(self) -> float:
        """Area (in²)."""
        return float(self.shape.area)

    @property
    def touches(self) -> bool:
        """Whether there is any area."""
        return not self.shape.is_empty

    @property
    def centre(self) -> Vector:
        """Centroid, where an even pressure has its resultant."""
        point = self.shape.centroid
        return (float(point.x), float(point.y))

    def along(self, line: Line) -> tuple[float, float]:
        """Where the area begins and ends along a member's line (in)."""
        places = [line.along((x, y)) for x, y in self.shape.exterior.coords]
        return min(places), max(places)

    def sides(self, line: Line) -> tuple[float, float]:
        """Mean breadth across a member's grain, and greatest length along it, by which C_b goes (in)."""
        if not self.touches:
            return 1.0, _NOTHING
        low, high = self.along(line)
        return self.area / (high - low), high - low

    def from_end(self, member: Member) -> float:
        """Distance from its near edge to the nearer end of a member, 0 where it reaches that end (in)."""
        if not self.touches:
            return 0.0
        low, high = self.along(member.line)
        start, end = (cut.at for cut in member.cuts)
        return max(0.0, min(low - start, end - high))

    def off_centre(self, line: Line) -> float:
        """How far its centroid lies to the left of a member's line (in)."""
        return across(line, self.centre)

    def to_edge(self, line: Line) -> float:
        """From a member's line to the nearer edge of the area; below 0 where the area is on one side (in)."""
        places = [across(line, (x, y)) for x, y in self.shape.exterior.coords]
        return min(max(places), -min(places))

    def over_whole_width(self, member: Member) -> float:
        """Least length along the grain over a member's whole width; 0 where part of the width bears nothing (in)."""
        if not self.touches:
            return 0.0
        half = member.width / 2 - INSET
        return min(self._chord(member.line, side) for side in (-half, 0.0, half))

    def _chord(self, line: Line, side: float) -> float:
        corners = [(line.along((x, y)), across(line, (x, y)) - side) for x, y in self.shape.exterior.coords]
        places = [
            s + (t - s) * a / (a - b)
            for (s, a), (t, b) in zip(corners, corners[1:], strict=False)
            if a * b <= 0 and a != b
        ]
        return max(places) - min(places) if places else 0.0


def across(line: Line, point: Vector) -> float:
    """How far a point lies to the left of a line (in)."""
    x, y = point[0] - line.start[0], point[1] - line.start[1]
    return line.u[0] * y - line.u[1] * x


def find_contacts(layout: Layout) -> dict[tuple[str, int], Contact]:
    """The contact of every seat that rests, by the member's mark and the seat's row; empty where nothing touches."""
    plans = {piece.mark: Polygon(piece.corners) for piece in cut_pieces(layout)}
    supports = {support.mark: support for support in layout.supports}
    found = {}
    for member in layout.members:
        for row, seat in enumerate(member.seats):
            if seat.bearing is not Bearing.RESTS:
                continue
            support = supports.get(seat.below)
            own = plans[member.mark]
            below = _on_support(layout, member, support) if support else plans[seat.below]
            shape = own.intersection(below)
            bears = isinstance(shape, Polygon) and shape.area > _NOTHING
            found[member.mark, row] = Contact(shape if bears else Polygon())
    return found


def _on_support(layout: Layout, member: Member, support: Support) -> Polygon:
    if support.kind == SupportKind.POST:
        post = layout.project.posts[support.post or ""]
        section = parse_section(post.section)
        u = layout.on_support(support.mark)[0][0].line.u
        return Polygon(turned_square(support.at, post.cap_length or section.b, section.d, u))
    if support.kind == SupportKind.KNEE_BRACE:
        strut = parse_section(layout.project.struts[support.strut or ""].section)
        return Polygon(turned_square(support.at, head_cut(layout.project, support), strut.b, member.line.u))
    bolt = layout.project.bolts[support.bolt or ""]
    square = bolt.seat_across
    if square is None:
        square = bolt.diameter if bolt.seat == "timber" else bolt.seat_length
    tree = next(t for t in layout.project.trees if t.mark == support.tree)
    u = bolt_line(support, tree).u
    beside = abs(u[0] * member.line.u[0] + u[1] * member.line.u[1]) > 0.5**0.5  # timber along the bolt
    sides = (bolt.seat_length, square) if beside else (square, bolt.seat_length)
    return Polygon(turned_square(support.at, *sides, member.line.u))


def contact_at(layout: Layout, member: Member, seat: Seat) -> Contact:
    """The contact of one resting seat of a member."""
    return layout.contacts[member.mark, member.seats.index(seat)]
