"""Tips of joists along which a rim runs: at which edge of the deck each is, and how far it is cut back for the rim.

The joist's line stays as long as it is without a rim, so that boards and guard at the edge find it there.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from shapely import Polygon

from bolewright.platform.layout.joist_lines import field_axes
from bolewright.platform.layout.lines import Line, Vector
from bolewright.platform.layout.parts import STEP, Bearing, Kind, LayoutError, Member
from bolewright.platform.project import Blocking, JoistField
from bolewright.timber.sections import parse_section
from bolewright.units import feet_inches

_PARALLEL = 0.02  # sine of the angle under which a beam runs along the joists
_FLATTEST = 0.2  # sine of the angle between joist and edge under which no rim is fastened to the joist's end
_ALONG_AN_EDGE = 1e-3
_ROUNDING = 1e-6  # in


@dataclass(frozen=True)
class Tip:
    """The end of a joist, or of a beam among the joists, that a rim is fastened to.

    ``point`` where the rim's middle line crosses the joist's; ``back`` how far that is from its end at the edge (in,
    along it); ``edge`` direction of the deck's edge there, ``room`` how far the edge goes on both ways (in).
    """

    member: Member
    start: bool
    point: Vector
    back: float
    edge: Vector
    room: tuple[float, float]
    next_to_last: bool

    @property
    def below_at(self) -> float:
        """Where along the member the rim's load comes onto it (in)."""
        return self.back if self.start else self.member.line.length - self.back

    @property
    def face(self) -> float:
        """Where along its line the member is cut to the rim's inner face (in)."""
        return 2 * self.back if self.start else self.member.line.length - 2 * self.back

    def beyond(self, line: Line, way: float, past: float) -> float:
        """How far the rim runs on past this tip along its line: over the joist's width, or as far as it is to (in)."""
        ahead = line.u[0] * self.edge[0] + line.u[1] * self.edge[1]
        if abs(line.u[0] * self.edge[1] - line.u[1] * self.edge[0]) > _PARALLEL:
            return 0.0  # between two edges: the rim ends at the joist
        room = self.room[1] if ahead * way > 0 else self.room[0]
        sine = max(_FLATTEST, self.member.line.sine(line))
        return min(max(past, self.member.width / 2 / sine), max(room, 0.0))


def find_rim(entry: Blocking, field: JoistField, members: Sequence[Member], deck: Polygon) -> list[Tip]:
    """Tips along which a rim runs, in order across the joists; LayoutError where no two are beside each other."""
    u, n = field_axes(field)
    b = parse_section(entry.section).b
    lanes = sorted((m for m in members if _among(m, field, u)), key=lambda m: _across(m, n))
    wanted = _wanted(entry, lanes)
    tips: list[Tip] = []
    beside = False
    for member in _outermost(lanes, u, n, entry.end == "end"):
        tip = _tip(entry, member, u, deck, b) if member.mark in wanted else None
        if tip is not None:
            tips.append(replace(tip, next_to_last=beside))
        elif entry.between and member.mark in wanted:
            raise _no_tip(entry, member)
        beside = tip is not None
    if not any(tip.next_to_last for tip in tips):
        raise LayoutError(
            f"Rim {entry.mark} has nothing to be fastened to: no two joists of field {field.mark} beside each other "
            f"have a free end at an edge of the deck at their {entry.end}; joists that hang there have none. Name the "
            "other end, or leave the rim out."
        )
    fastened = {id(x) for a, c in pairwise(tips) if c.next_to_last for x in (a, c)}
    return [tip for tip in tips if id(tip) in fastened]


def _among(member: Member, field: JoistField, u: Vector) -> bool:
    """Whether a member is a joist of a field, or a beam that lies among its joists and along them."""
    if member.kind is Kind.JOIST:
        return member.field == field.mark
    return (
        member.kind is Kind.BEAM
        and member.layer == 0
        and abs(member.line.u[0] * u[1] - member.line.u[1] * u[0]) < _PARALLEL
    )


def _across(member: Member, n: Vector) -> float:
    x, y = member.line.at(member.line.length / 2)
    return x * n[0] + y * n[1]


def _outermost(lanes: Sequence[Member], u: Vector, n: Vector, end: bool) -> Iterator[Member]:
    """Of the members in one line, such as a joist that an opening cuts in two, the one at the end asked for."""
    groups: list[list[Member]] = []
    for member in lanes:
        if groups and _across(member, n) - _across(groups[-1][0], n) < STEP:
            groups[-1].append(member)
        else:
            groups.append([member])

    def out(member: Member) -> float:
        places = (p[0] * u[0] + p[1] * u[1] for p in (member.line.start, member.line.end))
        return max(places) if end else -min(places)

    for group in groups:
        yield max(group, key=out)


def _wanted(entry: Blocking, lanes: Sequence[Member]) -> set[str]:
    """Marks of the members from the first to the last named; all where none is."""
    marks = [m.mark for m in lanes]
    if not entry.between:
        return set(marks)
    for mark in entry.between:
        if mark not in marks:
            raise LayoutError(
                f"Rim {entry.mark} names {mark}, which is no joist or beam among those whose ends it runs along: "
                f"there are {', '.join(marks)}."
            )
    low, high = sorted(marks.index(mark) for mark in entry.between)
    return set(marks[low : high + 1])


def _tip(entry: Blocking, member: Member, u: Vector, deck: Polygon, b: float) -> Tip | None:
    """A member's tip at the end asked for; None where it hangs there or ends at no edge of the deck."""
    line = member.line
    along = line.u[0] * u[0] + line.u[1] * u[1] > 0
    start = (entry.end == "start") == along
    seat = member.seats[0 if start else -1]
    point = line.start if start else line.end
    if seat.bearing is Bearing.HANGS and abs(seat.at - (0.0 if start else line.length)) < STEP:
        return None
    edges = [edge for edge in _edges(deck) if _ends_on(point, edge) and line.sine(edge) > _FLATTEST]
    if not edges:
        return None
    edge = max(edges, key=lambda e: min(e.along(point), e.length - e.along(point)))
    back = b / 2 / line.sine(edge)
    if (seat.at if start else line.length - seat.at) < back - _ROUNDING:
        raise LayoutError(
            f"Rim {entry.mark} leaves no bearing to {member.mark}, which ends right over {seat.below}: let the joists "
            "run out over it, or leave the rim out."
        )
    on = line.at(back if start else line.length - back)
    at = edge.along(on)
    return Tip(member, start, on, back, edge.u, (at, edge.length - at), False)


def _ends_on(point: Vector, edge: Line) -> bool:
    return edge.off(point) < STEP and -STEP < edge.along(point) < edge.length + STEP


def _edges(deck: Polygon) -> list[Line]:
    """Edges of the deck's outline, not of its openings."""
    corners = [(float(x), float(y)) for x, y in deck.exterior.coords]
    return [Line.between(a, b) for a, b in pairwise(corners) if math.dist(a, b) > _ALONG_AN_EDGE]


def _no_tip(entry: Blocking, member: Member) -> LayoutError:
    length = feet_inches(member.line.length)
    return LayoutError(
        f"Rim {entry.mark} can't be fastened to {member.mark} ({length} long): at its {entry.end} it hangs, or ends at "
        "no edge of the deck; name other joists in between."
    )
