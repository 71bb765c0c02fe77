"""Carriers: each one's supports found by geometry, and what crosses, rests or hangs where.

A carrier rests on the supports under it, rests on carriers of the next layer that it crosses, and hangs from a
carrier of its own layer that one of its ends meets.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from bolewright.platform.instead import idle_support, unheld_carrier
from bolewright.platform.lines import Line, Vector
from bolewright.platform.parts import CLOSE, END, Bearing, Kind, LayoutError, Member, Seat, gather
from bolewright.platform.project import Carrier, Project, Support
from bolewright.platform.tees import check_tee
from bolewright.timber.sections import parse_section

APART = 3.0  # in: two seats of one member nearer than this are one
_HELD = 6.0  # in: a support this near to where two carriers meet holds the end there
_STEEPEST = 0.2  # sine of the angle below which a reach grows no further


def find_carriers(project: Project) -> dict[str, Member]:
    """All carriers with their seats, level still unknown; LayoutError for one that cannot stand."""
    lines = {c.mark: Line.between(c.start, c.end) for c in project.carriers}
    seats: dict[str, list[Seat]] = {mark: [] for mark in lines}
    for carrier in project.carriers:
        for other in project.carriers:
            if other is not carrier:
                seat = _seat_on_carrier(carrier, other, lines, project)
                if seat:
                    seats[carrier.mark].append(seat)
    over_each = gather(partial(_carriers_over, s, project, lines) for s in project.supports)
    for support, over in zip(project.supports, over_each, strict=True):
        for carrier in over:
            if _hung_there(seats[carrier.mark], lines[carrier.mark], support, over):
                continue
            along = lines[carrier.mark].along(support.at)
            seats[carrier.mark].append(Seat(along, support.mark, 0.0, Bearing.RESTS, support.at))
    built = gather(partial(_carrier, project, c, lines[c.mark], seats[c.mark]) for c in project.carriers)
    carriers = {member.mark: member for member in built}
    return {mark: replace(member, seats=_seated(member, carriers)) for mark, member in carriers.items()}


def _seated(member: Member, carriers: dict[str, Member]) -> tuple[Seat, ...]:
    """Seats of a carrier with their places along the carriers below as these were cut."""
    return tuple(
        replace(seat, below_at=carriers[seat.below].line.nearest(seat.point))
        if seat.below in carriers
        else seat
        for seat in member.seats
    )


def _carrier(project: Project, carrier: Carrier, line: Line, seats: Sequence[Seat]) -> Member:
    """Carrier as a member; a hung end runs to the centre line of what it hangs from."""
    ordered = sorted(seats, key=lambda seat: seat.at)
    if not ordered or (len(ordered) == 1 and not check_tee(project, carrier.mark, ordered[0].below)):
        on = f"only on {ordered[0].below}" if ordered else "on nothing"
        raise unheld_carrier(project, carrier.mark, on)
    first, last = ordered[0], ordered[-1]
    low = first.at if first.bearing is Bearing.HANGS else min(0.0, first.at)
    high = last.at if last.bearing is Bearing.HANGS else max(line.length, last.at)
    shifted = tuple(replace(seat, at=seat.at - low) for seat in ordered)
    for one, other in zip(shifted, shifted[1:], strict=False):
        if other.at - one.at < APART:
            raise LayoutError(
                f"Carrier {carrier.mark} has two supports, {one.below} and {other.below}, less than "
                f"{APART:g} in. apart: keep one."
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


def half_width(carrier: Carrier) -> float:
    """Half the width of all plies of a carrier (in)."""
    return parse_section(carrier.section).of_plies(carrier.plies).b / 2


def reach_across(half: float, line: Line, below: Line) -> float:
    """How far from a centre line, measured along ``line``, a member may end and still meet the one there (in)."""
    return half / max(_STEEPEST, line.sine(below)) + CLOSE


def _carriers_over(support: Support, project: Project, lines: dict[str, Line]) -> list[Carrier]:
    """Carriers of the lowest layer that pass over a support; LayoutError where none does."""
    over = [
        carrier
        for carrier in project.carriers
        if lines[carrier.mark].off(support.at) <= CLOSE
        and -CLOSE <= lines[carrier.mark].along(support.at) <= lines[carrier.mark].length + CLOSE
    ]
    if not over:
        raise idle_support(support, lines)
    lowest = max(carrier.layer for carrier in over)
    return [carrier for carrier in over if carrier.layer == lowest]


def _seat_on_carrier(
    carrier: Carrier, other: Carrier, lines: dict[str, Line], project: Project
) -> Seat | None:
    """Seat of one carrier on another: it rests on the layer below, or hangs from its own layer."""
    line, below = lines[carrier.mark], lines[other.mark]
    crossing = line.crossing(below)
    if crossing is None or other.layer not in (carrier.layer, carrier.layer + 1):
        return None
    here, there = crossing
    reach = reach_across(half_width(other), line, below)
    if not (-END <= there <= below.length + END and -reach <= here <= line.length + reach):
        return None
    point = line.at(here)
    if other.layer > carrier.layer:
        rests = -CLOSE <= here <= line.length + CLOSE
        return Seat(here, other.mark, there, Bearing.RESTS, point) if rests else None
    if _hangs(carrier, other, (here, there), (line, below), project):
        return Seat(here, other.mark, there, Bearing.HANGS, point, carrier.hanger)
    return None


def _hangs(
    carrier: Carrier,
    other: Carrier,
    crossing: tuple[float, float],
    lines: tuple[Line, Line],
    project: Project,
) -> bool:
    """Whether a carrier hangs from another of its layer where they meet."""
    (here, there), (line, below) = crossing, lines
    point = line.at(here)
    ends = min(abs(here), abs(here - line.length)) <= reach_across(half_width(other), line, below)
    other_ends = min(abs(there), abs(there - below.length)) <= reach_across(half_width(carrier), below, line)
    if not ends and not other_ends:
        raise LayoutError(
            f"Carriers {carrier.mark} and {other.mark} cross in one layer: put the lower one in layer "
            f"{carrier.layer + 1}, or end one at the other so that it hangs from it."
        )
    if not ends:
        return False
    if carrier.hanger is not None and other.hanger is None and _share_there(lines, point, project):
        return True  # both reach the support, and the file says which of them hangs in the other's face
    if _held_there(carrier, line, point, project):
        return False
    if not other_ends or _held_there(other, below, point, project):
        return True
    if (carrier.hanger is None) == (other.hanger is None):
        raise LayoutError(
            f"Carriers {carrier.mark} and {other.mark} end at each other: name a hanger on the one that hangs."
        )
    return carrier.hanger is not None


def _held_there(carrier: Carrier, line: Line, point: Vector, project: Project) -> bool:
    """Whether a support stands under a carrier's line at a point."""
    reach = _HELD + half_width(carrier)
    return any(
        line.off(s.at) <= CLOSE
        and -CLOSE <= line.along(s.at) <= line.length + CLOSE
        and abs(line.along(s.at) - line.along(point)) <= reach
        for s in project.supports
    )


def _share_there(lines: tuple[Line, Line], point: Vector, project: Project) -> bool:
    """Whether one support stands under both of two lines where they meet."""
    return any(
        math.dist(s.at, point) <= _HELD
        and all(
            line.off(s.at) <= CLOSE and -CLOSE <= line.along(s.at) <= line.length + CLOSE for line in lines
        )
        for s in project.supports
    )


def _hung_there(seats: Sequence[Seat], line: Line, support: Support, over: Sequence[Carrier]) -> bool:
    """Whether a carrier over a support hangs in the face of another that the support bears."""
    others = {other.mark: other for other in over}
    return any(
        seat.bearing is Bearing.HANGS
        and seat.below in others
        and abs(seat.at - line.along(support.at)) <= _HELD + half_width(others[seat.below])
        for seat in seats
    )
