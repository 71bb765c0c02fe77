"""Layout: where every joist, carrier and support is, and what rests on what, found by geometry.

Plan coordinates in inches, heights in inches above grade. Members are analysed along their centre lines:
a hung joist runs from carrier centre line to carrier centre line, which is a little longer than face to face
(NDS 2018, 3.2.1) and keeps the moments of all forces in balance.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from graphlib import CycleError, TopologicalSorter

from shapely import LineString, Polygon

from bolewright.platform.project import Carrier, JoistField, Project, Support, Timber
from bolewright.timber.sections import Section, parse_section
from bolewright.units import feet_inches

CLOSE = 1.0  # in: a support this near a carrier's line is under it
STEP = 0.125  # in: levels that differ by more do not meet

Vector = tuple[float, float]


class LayoutError(ValueError):
    """An arrangement that cannot stand; one sentence that names the part and a cure."""


class Kind(StrEnum):
    """What a part is."""

    JOIST = "joist"
    CARRIER = "carrier"
    TREE_BOLT = "tree bolt"
    POST = "post"


class Bearing(StrEnum):
    """How a member sits on what carries it."""

    RESTS = "rests on"
    HANGS = "hangs from"


@dataclass(frozen=True)
class Line:
    """A straight line in plan from ``start``, ``length`` long in the direction ``u``."""

    start: Vector
    u: Vector
    length: float

    @classmethod
    def between(cls, start: Vector, end: Vector) -> Line:
        """Line from one point to another."""
        dx, dy = end[0] - start[0], end[1] - start[1]
        length = math.hypot(dx, dy)
        return cls(start, (dx / length, dy / length), length)

    def at(self, s: float) -> Vector:
        """Point ``s`` along the line."""
        return (self.start[0] + s * self.u[0], self.start[1] + s * self.u[1])

    @property
    def end(self) -> Vector:
        """Far end."""
        return self.at(self.length)

    def along(self, point: Vector) -> float:
        """Distance along the line of the foot of the perpendicular from ``point``."""
        return (point[0] - self.start[0]) * self.u[0] + (point[1] - self.start[1]) * self.u[1]

    def off(self, point: Vector) -> float:
        """Perpendicular distance of ``point`` from the line, unsigned."""
        return abs((point[0] - self.start[0]) * self.u[1] - (point[1] - self.start[1]) * self.u[0])

    def crossing(self, other: Line) -> tuple[float, float] | None:
        """Distances along this and the other line at which they cross; None when they are parallel."""
        cross = self.u[0] * other.u[1] - self.u[1] * other.u[0]
        if abs(cross) < 1e-6:
            return None
        dx, dy = other.start[0] - self.start[0], other.start[1] - self.start[1]
        return (
            (dx * other.u[1] - dy * other.u[0]) / cross,
            (dx * self.u[1] - dy * self.u[0]) / cross,
        )


@dataclass(frozen=True)
class Seat:
    """A place where a member sits: ``at`` along it, on ``below``, ``below_at`` along that (0 on a support)."""

    at: float
    below: str
    below_at: float
    bearing: Bearing
    point: Vector
    connection: str | None = None


@dataclass(frozen=True)
class Member:
    """A joist or carrier: its centre line in plan, its timber, its seats in order along it, its top level."""

    mark: str
    kind: Kind
    line: Line
    timber: Timber
    section: Section
    layer: int
    seats: tuple[Seat, ...]
    top: float
    field: str = ""
    hung_loads: bool = False

    @property
    def width(self) -> float:
        """Width of all plies (in)."""
        return self.section.b

    @property
    def bottom(self) -> float:
        """Level of the underside (in above grade)."""
        return self.top - self.section.d


@dataclass(frozen=True)
class Layout:
    """The whole arrangement: members in order of the flow of weight (top first) and the supports."""

    project: Project
    members: tuple[Member, ...]
    supports: tuple[Support, ...]
    deck: Polygon

    def member(self, mark: str) -> Member:
        """Member of that mark."""
        return next(m for m in self.members if m.mark == mark)

    @property
    def joists(self) -> tuple[Member, ...]:
        """All joists, by mark."""
        return tuple(m for m in self.members if m.kind is Kind.JOIST)

    @property
    def carriers(self) -> tuple[Member, ...]:
        """All carriers, in order of the flow of weight."""
        return tuple(m for m in self.members if m.kind is Kind.CARRIER)

    def on_support(self, mark: str) -> tuple[tuple[Member, Seat], ...]:
        """Carriers that sit on a support, with their seats."""
        return tuple((m, seat) for m in self.members for seat in m.seats if seat.below == mark)

    def seat_level(self, mark: str) -> float:
        """Level of the underside of what sits on a support (in above grade)."""
        return self.on_support(mark)[0][0].bottom


def find_layout(project: Project) -> Layout:
    """Layout of a project.

    Raises :class:`LayoutError` for an arrangement that cannot stand.
    """
    deck = _deck(project)
    lines = {c.mark: Line.between(c.start, c.end) for c in project.carriers}
    seats = _carrier_seats(project, lines)
    carriers = {c.mark: _carrier(c, lines[c.mark], seats[c.mark]) for c in project.carriers}
    joists = [joist for field in project.joists for joist in _joists(field, carriers, deck)]
    _refuse_idle_supports(project, carriers)
    hung = {s.below for m in (*joists, *carriers.values()) for s in m.seats if s.bearing is Bearing.HANGS}
    tops = _tops(project, carriers, joists)
    members = [replace(m, top=tops[m.mark], hung_loads=m.mark in hung) for m in (*joists, *carriers.values())]
    layout = Layout(project, _in_order(members), project.supports, deck)
    _check_levels(layout)
    return layout


# ---------------------------------------------------------------------------------------------------------


def _deck(project: Project) -> Polygon:
    deck = Polygon(project.platform.outline, project.platform.openings)
    if not deck.is_valid or deck.area < 144:
        raise LayoutError(
            "The platform outline is no simple polygon of at least 1 sq ft: its edges cross, an opening "
            "lies outside it, or it has no area."
        )
    return deck


def _carrier(carrier: Carrier, line: Line, seats: Sequence[Seat]) -> Member:
    """Carrier as a member; a hung end is drawn out to the centre line of what it hangs from."""
    ordered = sorted(seats, key=lambda seat: seat.at)
    if len(ordered) < 2:
        on = f"only on {ordered[0].below}" if ordered else "on nothing"
        raise LayoutError(
            f"Carrier {carrier.mark} rests {on}: it needs two supports or more under its line, so add or move "
            "a post, a tree bolt or another carrier."
        )
    low = min(0.0, ordered[0].at)
    high = max(line.length, ordered[-1].at)
    shifted = tuple(replace(seat, at=seat.at - low) for seat in ordered)
    for one, other in zip(shifted, shifted[1:], strict=False):
        if other.at - one.at < 3:
            raise LayoutError(
                f"Carrier {carrier.mark} has two supports, {one.below} and {other.below}, less than 3 in. apart: "
                "keep one."
            )
    return Member(
        mark=carrier.mark,
        kind=Kind.CARRIER,
        line=Line(line.at(low), line.u, high - low),
        timber=carrier,
        section=parse_section(carrier.section).of_plies(carrier.plies),
        layer=carrier.layer,
        seats=shifted,
        top=0.0,
    )


def _carrier_seats(project: Project, lines: dict[str, Line]) -> dict[str, list[Seat]]:
    seats: dict[str, list[Seat]] = {mark: [] for mark in lines}
    for carrier in project.carriers:
        for other in project.carriers:
            if other is not carrier:
                seat = _seat_on_carrier(carrier, other, lines, project)
                if seat:
                    seats[carrier.mark].append(seat)
    for support in project.supports:
        for carrier in _carriers_over(support, project, lines):
            line = lines[carrier.mark]
            seats[carrier.mark].append(
                Seat(line.along(support.at), support.mark, 0.0, Bearing.RESTS, support.at)
            )
    return seats


def _half_width(carrier: Carrier) -> float:
    return parse_section(carrier.section).b * carrier.plies / 2


def _carriers_over(support: Support, project: Project, lines: dict[str, Line]) -> list[Carrier]:
    """Carriers of the lowest layer that pass over a support."""
    over = [
        carrier
        for carrier in project.carriers
        if lines[carrier.mark].off(support.at) <= CLOSE
        and -CLOSE <= lines[carrier.mark].along(support.at) <= lines[carrier.mark].length + CLOSE
    ]
    lowest = max((carrier.layer for carrier in over), default=0)
    return [carrier for carrier in over if carrier.layer == lowest]


def _seat_on_carrier(
    carrier: Carrier, other: Carrier, lines: dict[str, Line], project: Project
) -> Seat | None:
    line, below = lines[carrier.mark], lines[other.mark]
    crossing = line.crossing(below)
    if crossing is None or other.layer < carrier.layer:
        return None
    here, there = crossing
    reach = _half_width(other) / max(0.2, abs(line.u[0] * below.u[1] - line.u[1] * below.u[0])) + CLOSE
    if not (-CLOSE <= there <= below.length + CLOSE and -reach <= here <= line.length + reach):
        return None
    point = line.at(here)
    if other.layer > carrier.layer:
        if not -CLOSE <= here <= line.length + CLOSE:
            return None
        if other.layer == carrier.layer + 1:
            return Seat(here, other.mark, there, Bearing.RESTS, point)
        return None
    ends_here = min(abs(here), abs(here - line.length)) <= reach
    other_reach = (
        _half_width(carrier) / max(0.2, abs(line.u[0] * below.u[1] - line.u[1] * below.u[0])) + CLOSE
    )
    other_ends = min(abs(there), abs(there - below.length)) <= other_reach
    if not ends_here and not other_ends:
        raise LayoutError(
            f"Carriers {carrier.mark} and {other.mark} cross in one layer: put the lower one in layer "
            f"{carrier.layer + 1}, or end one at the other so that it hangs from it."
        )
    if not ends_here or (other_ends and _held_there(carrier, point, project)):
        return None
    if (
        other_ends
        and not _held_there(other, point, project)
        and (carrier.hanger is None) == (other.hanger is None)
    ):
        raise LayoutError(
            f"Carriers {carrier.mark} and {other.mark} end at each other: name a hanger on the one that hangs."
        )
    if other_ends and carrier.hanger is None and not _held_there(other, point, project):
        return None
    return Seat(here, other.mark, there, Bearing.HANGS, point, carrier.hanger)


def _held_there(carrier: Carrier, point: Vector, project: Project) -> bool:
    line = Line.between(carrier.start, carrier.end)
    return any(
        line.off(s.at) <= CLOSE and math.dist(s.at, point) <= 6 + _half_width(carrier)
        for s in project.supports
    )


def _refuse_idle_supports(project: Project, carriers: dict[str, Member]) -> None:
    used = {seat.below for member in carriers.values() for seat in member.seats}
    for support in project.supports:
        if support.mark not in used:
            nearest = min(carriers.values(), key=lambda m: _distance(m.line, support.at))
            raise LayoutError(
                f"Support {support.mark} carries nothing: no carrier passes over it (the nearest, "
                f"{nearest.mark}, is {feet_inches(_distance(nearest.line, support.at))} away); move it under a "
                "carrier or leave it out."
            )


def _distance(line: Line, point: Vector) -> float:
    s = min(max(line.along(point), 0.0), line.length)
    return math.dist(line.at(s), point)


# ---------------------------------------------------------------------------------------------------------
# Joists


def joist_positions(field: JoistField) -> list[float]:
    """Positions of a field's joists across their direction: first, then by the spacing, the last included."""
    count = math.floor((field.last - field.first) / field.spacing + 1e-6)
    positions = [field.first + i * field.spacing for i in range(count + 1)]
    if field.last - positions[-1] > 1.5:
        positions.append(field.last)
    return positions


def field_axes(field: JoistField) -> tuple[Vector, Vector]:
    """Direction of the joists and the direction across them, in which their positions count."""
    angle = math.radians(field.direction)
    u = (round(math.cos(angle), 12), round(math.sin(angle), 12))
    return u, (-u[1], u[0])


def field_region(field: JoistField, deck: Polygon) -> Polygon:
    """Part of the deck that a field of joists carries."""
    region = deck if field.region is None else deck.intersection(Polygon(field.region))
    if region.is_empty or region.geom_type != "Polygon":
        raise LayoutError(f"Joist field {field.mark}: its region does not overlap the platform in one piece.")
    return region


def _joists(field: JoistField, carriers: dict[str, Member], deck: Polygon) -> list[Member]:
    u, n = field_axes(field)
    region = field_region(field, deck)
    named = field.carriers or tuple(m.mark for m in carriers.values() if m.layer == 1)
    section = parse_section(field.section)
    joists: list[Member] = []
    for t in joist_positions(field):
        for low, high in _segments(region, u, n, t):
            line = Line((u[0] * low + n[0] * t, u[1] * low + n[1] * t), u, high - low)
            crossings = _crossings(line, [carriers[mark] for mark in named])
            for piece, seats in _pieces(field, line, crossings, f"{field.mark}{len(joists) + 1}"):
                joists.append(
                    Member(
                        mark=f"{field.mark}{len(joists) + 1}",
                        kind=Kind.JOIST,
                        line=piece,
                        timber=field,
                        section=section,
                        layer=0,
                        seats=seats,
                        top=0.0,
                        field=field.mark,
                    )
                )
    if not joists:
        raise LayoutError(f"Joist field {field.mark} has no joist inside the platform: check first and last.")
    return joists


def _segments(region: Polygon, u: Vector, n: Vector, t: float) -> list[tuple[float, float]]:
    """Stretches of a joist's line that lie inside the region, as distances along ``u``."""
    far = 5000.0
    ends = [(u[0] * s + n[0] * t, u[1] * s + n[1] * t) for s in (-far, far)]
    inside = region.intersection(LineString(ends))
    parts = [g for g in getattr(inside, "geoms", [inside]) if g.geom_type == "LineString" and g.length > 6]
    spans = []
    for part in parts:
        along = [x * u[0] + y * u[1] for x, y in part.coords]
        spans.append((min(along), max(along)))
    return sorted(spans)


def _crossings(line: Line, carriers: Sequence[Member]) -> list[tuple[float, float, Member]]:
    found = []
    for carrier in carriers:
        crossing = line.crossing(carrier.line)
        if crossing is None:
            continue
        here, there = crossing
        reach = (
            carrier.width / 2 / max(0.2, abs(line.u[0] * carrier.line.u[1] - line.u[1] * carrier.line.u[0]))
        )
        if -reach - 3 <= here <= line.length + reach + 3 and -CLOSE <= there <= carrier.line.length + CLOSE:
            found.append((here, min(max(there, 0.0), carrier.line.length), carrier))
    return sorted(found, key=lambda item: item[0])


def _pieces(
    field: JoistField, line: Line, crossings: list[tuple[float, float, Member]], mark: str
) -> list[tuple[Line, tuple[Seat, ...]]]:
    where = f"at {feet_inches(line.at(0)[0])}, {feet_inches(line.at(0)[1])}"
    if len(crossings) < 2:
        on = f"only carrier {crossings[0][2].mark}" if crossings else "no carrier"
        raise LayoutError(
            f"Joist {mark} ({where}) reaches {on}: it needs two, so lengthen a carrier, add one, or stop the "
            "joist field before it."
        )
    if field.bearing == "resting":
        low = min(0.0, crossings[0][0])
        high = max(line.length, crossings[-1][0])
        seats = tuple(
            Seat(here - low, c.mark, there, Bearing.RESTS, line.at(here)) for here, there, c in crossings
        )
        return [(Line(line.at(low), line.u, high - low), seats)]
    pieces: list[tuple[Line, tuple[Seat, ...]]] = []
    for (a, below_a, first), (b, below_b, second) in zip(crossings, crossings[1:], strict=False):
        seats = (
            Seat(0.0, first.mark, below_a, Bearing.HANGS, line.at(a), field.hanger),
            Seat(b - a, second.mark, below_b, Bearing.HANGS, line.at(b), field.hanger),
        )
        pieces.append((Line(line.at(a), line.u, b - a), seats))
    return pieces


# ---------------------------------------------------------------------------------------------------------
# Levels and order


def _tops(project: Project, carriers: dict[str, Member], joists: Sequence[Member]) -> dict[str, float]:
    """Level of the top of every member, from the floor down through the stack."""
    under_deck = project.platform.floor_height - parse_section(project.decking.section).b
    tops = {joist.mark: under_deck for joist in joists}
    for joist in joists:
        for seat in joist.seats:
            level = under_deck if seat.bearing is Bearing.HANGS else under_deck - joist.section.d
            if abs(tops.setdefault(seat.below, level) - level) > STEP:
                raise LayoutError(
                    f"Carrier {seat.below} would need its top at two levels: joists hang from it and rest on it, or "
                    "joists of two depths rest on it; use one kind of bearing and one depth."
                )
    for carrier in sorted(carriers.values(), key=lambda c: c.layer):
        if carrier.mark in tops:
            continue
        above = [
            (m.mark, tops[m.mark] - m.section.d)
            for m in carriers.values()
            for s in m.seats
            if s.below == carrier.mark and s.bearing is Bearing.RESTS and m.mark in tops
        ]
        hung_from = [tops[s.below] for s in carrier.seats if s.bearing is Bearing.HANGS and s.below in tops]
        if above:
            low = min(above, key=lambda item: item[1])
            for mark, level in above:
                if level - low[1] > STEP:
                    raise LayoutError(
                        f"Carriers {low[0]} and {mark} rest on {carrier.mark} at levels {feet_inches(level - low[1])} "
                        "apart: give them one depth."
                    )
            tops[carrier.mark] = low[1]
        else:
            tops[carrier.mark] = hung_from[0] if hung_from else under_deck
    return tops


def _check_levels(layout: Layout) -> None:
    for member in layout.members:
        for seat in member.seats:
            below = next((m for m in layout.members if m.mark == seat.below), None)
            if below is None:
                continue
            if seat.bearing is Bearing.HANGS and member.bottom < below.bottom - STEP:
                raise LayoutError(
                    f"{member.mark} is deeper than {below.mark} from which it hangs: use a shallower section or "
                    f"a deeper {below.mark}."
                )
            if seat.bearing is Bearing.RESTS and abs(member.bottom - below.top) > STEP:
                raise LayoutError(
                    f"The underside of {member.mark} and the top of {below.mark} are "
                    f"{feet_inches(abs(member.bottom - below.top))} apart where one should rest on the other."
                )
    for support in layout.supports:
        bottoms = [member.bottom for member, _ in layout.on_support(support.mark)]
        if max(bottoms) - min(bottoms) > STEP:
            raise LayoutError(f"The carriers on {support.mark} have their undersides at two levels.")
        if min(bottoms) <= 0:
            raise LayoutError(
                f"The underside of the carrier on {support.mark} would be below grade: raise the floor height."
            )


def _in_order(members: Sequence[Member]) -> tuple[Member, ...]:
    """Members so that each stands before all that carry it."""
    marks = {m.mark for m in members}
    graph = {m.mark: {s.below for s in m.seats if s.below in marks} for m in members}
    try:
        order = list(TopologicalSorter(graph).static_order())
    except CycleError as error:
        ring = " -> ".join(dict.fromkeys(error.args[1]))
        raise LayoutError(f"These carriers carry each other in a ring, so none can stand: {ring}.") from None
    rank = {mark: -i for i, mark in enumerate(order)}
    position = {m.mark: i for i, m in enumerate(members)}
    return tuple(
        sorted(
            members,
            key=lambda m: (
                m.kind is not Kind.JOIST,
                0 if m.kind is Kind.JOIST else rank[m.mark],
                position[m.mark],
            ),
        )
    )
