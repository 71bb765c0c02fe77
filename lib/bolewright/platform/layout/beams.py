"""Beams: each one's supports found by geometry, and what crosses, rests or hangs where.

A beam rests on the supports under it, rests on beams of the next layer that it crosses, and hangs from a
beam of its own layer that one of its ends meets.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from bolewright.platform.layout.instead import idle_support, unheld_beam
from bolewright.platform.layout.lines import Line, Vector
from bolewright.platform.layout.parts import CLOSE, END, Bearing, Kind, LayoutError, Member, Seat, gather
from bolewright.platform.layout.tees import check_tee
from bolewright.platform.project import Beam, Project, Support
from bolewright.timber.sections import parse_section

APART = 3.0  # in: two seats of one member nearer than this are one
_HELD = 6.0  # in: a support this near to where two beams meet holds the end there
_STEEPEST = 0.2  # sine of the angle below which a reach grows no further


def find_beams(project: Project) -> dict[str, Member]:
    """All beams with their seats, level still unknown; LayoutError for one that cannot stand."""
    lines = {c.mark: Line.between(c.start, c.end) for c in project.beams}
    seats: dict[str, list[Seat]] = {mark: [] for mark in lines}
    for beam in project.beams:
        for other in project.beams:
            if other is not beam:
                seat = _seat_on_beam(beam, other, lines, project)
                if seat:
                    seats[beam.mark].append(seat)
    over_each = gather(partial(_beams_over, s, project, lines) for s in project.seated)
    for support, over in zip(project.seated, over_each, strict=True):
        for beam in over:
            if _hung_there(seats[beam.mark], lines[beam.mark], support, over):
                continue
            along = lines[beam.mark].along(support.at)
            seats[beam.mark].append(Seat(along, support.mark, 0.0, Bearing.RESTS, support.at))
    built = gather(partial(_beam, project, c, lines[c.mark], seats[c.mark]) for c in project.beams)
    beams = {member.mark: member for member in built}
    return {mark: replace(member, seats=_seated(member, beams)) for mark, member in beams.items()}


def _seated(member: Member, beams: dict[str, Member]) -> tuple[Seat, ...]:
    """Seats of a beam with their places along the beams below as these were cut."""
    return tuple(
        replace(seat, below_at=beams[seat.below].line.nearest(seat.point)) if seat.below in beams else seat
        for seat in member.seats
    )


def _beam(project: Project, beam: Beam, line: Line, seats: Sequence[Seat]) -> Member:
    """Beam as a member; a hung end runs to the centre line of what it hangs from."""
    ordered = sorted(seats, key=lambda seat: seat.at)
    if not ordered or (len(ordered) == 1 and not check_tee(project, beam.mark, ordered[0].below)):
        on = f"only on {ordered[0].below}" if ordered else "on nothing"
        raise unheld_beam(project, beam.mark, on)
    first, last = ordered[0], ordered[-1]
    low = first.at if first.bearing is Bearing.HANGS else min(0.0, first.at)
    high = last.at if last.bearing is Bearing.HANGS else max(line.length, last.at)
    shifted = tuple(replace(seat, at=seat.at - low) for seat in ordered)
    for one, other in zip(shifted, shifted[1:], strict=False):
        if other.at - one.at < APART:
            raise LayoutError(
                f"Beam {beam.mark} has two supports, {one.below} and {other.below}, less than "
                f"{APART:g} in. apart: keep one."
            )
    return Member(
        mark=beam.mark,
        kind=Kind.BEAM,
        line=Line(line.at(low), line.u, high - low),
        timber=beam,
        section=parse_section(beam.section).of_plies(beam.plies),
        layer=beam.layer,
        seats=shifted,
        top=0.0,
    )


def half_width(beam: Beam) -> float:
    """Half the width of all plies of a beam (in)."""
    return parse_section(beam.section).of_plies(beam.plies).b / 2


def reach_across(half: float, line: Line, below: Line) -> float:
    """How far from a centre line, measured along ``line``, a member may end and still meet the one there (in)."""
    return half / max(_STEEPEST, line.sine(below)) + CLOSE


def _beams_over(support: Support, project: Project, lines: dict[str, Line]) -> list[Beam]:
    """Beams of the lowest layer that pass over a support; LayoutError where none does."""
    over = [
        beam
        for beam in project.beams
        if lines[beam.mark].off(support.at) <= CLOSE
        and -CLOSE <= lines[beam.mark].along(support.at) <= lines[beam.mark].length + CLOSE
    ]
    if not over:
        raise idle_support(support, lines)
    lowest = max(beam.layer for beam in over)
    return [beam for beam in over if beam.layer == lowest]


def _seat_on_beam(beam: Beam, other: Beam, lines: dict[str, Line], project: Project) -> Seat | None:
    """Seat of one beam on another: it rests on the layer below, or hangs from its own layer."""
    line, below = lines[beam.mark], lines[other.mark]
    crossing = line.crossing(below)
    if crossing is None or other.layer not in (beam.layer, beam.layer + 1):
        return None
    here, there = crossing
    reach = reach_across(half_width(other), line, below)
    if not (-END <= there <= below.length + END and -reach <= here <= line.length + reach):
        return None
    point = line.at(here)
    if other.layer > beam.layer:
        rests = -CLOSE <= here <= line.length + CLOSE
        return Seat(here, other.mark, there, Bearing.RESTS, point) if rests else None
    if _hangs(beam, other, (here, there), (line, below), project):
        return Seat(here, other.mark, there, Bearing.HANGS, point, beam.hanger)
    return None


def _hangs(
    beam: Beam,
    other: Beam,
    crossing: tuple[float, float],
    lines: tuple[Line, Line],
    project: Project,
) -> bool:
    """Whether a beam hangs from another of its layer where they meet."""
    (here, there), (line, below) = crossing, lines
    point = line.at(here)
    ends = min(abs(here), abs(here - line.length)) <= reach_across(half_width(other), line, below)
    other_ends = min(abs(there), abs(there - below.length)) <= reach_across(half_width(beam), below, line)
    if not ends and not other_ends:
        raise LayoutError(
            f"Beams {beam.mark} and {other.mark} cross in one layer: put the lower one in layer "
            f"{beam.layer + 1}, or end one at the other so that it hangs from it."
        )
    if not ends:
        return False
    if beam.hanger is not None and other.hanger is None and _share_there(lines, point, project):
        return True  # both reach the support, and the file says which of them hangs in the other's face
    if _held_there(beam, line, point, project):
        return False
    if not other_ends or _held_there(other, below, point, project):
        return True
    if (beam.hanger is None) == (other.hanger is None):
        raise LayoutError(
            f"Beams {beam.mark} and {other.mark} end at each other: name a hanger on the one that hangs."
        )
    return beam.hanger is not None


def _held_there(beam: Beam, line: Line, point: Vector, project: Project) -> bool:
    """Whether a support stands under a beam's line at a point."""
    reach = _HELD + half_width(beam)
    return any(
        line.off(s.at) <= CLOSE
        and -CLOSE <= line.along(s.at) <= line.length + CLOSE
        and abs(line.along(s.at) - line.along(point)) <= reach
        for s in project.seated
    )


def _share_there(lines: tuple[Line, Line], point: Vector, project: Project) -> bool:
    """Whether one support stands under both of two lines where they meet."""
    return any(
        math.dist(s.at, point) <= _HELD
        and all(
            line.off(s.at) <= CLOSE and -CLOSE <= line.along(s.at) <= line.length + CLOSE for line in lines
        )
        for s in project.seated
    )


def _hung_there(seats: Sequence[Seat], line: Line, support: Support, over: Sequence[Beam]) -> bool:
    """Whether a beam over a support hangs in the face of another that the support bears."""
    others = {other.mark: other for other in over}
    return any(
        seat.bearing is Bearing.HANGS
        and seat.below in others
        and abs(seat.at - line.along(support.at)) <= _HELD + half_width(others[seat.below])
        for seat in seats
    )
