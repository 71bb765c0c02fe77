"""Where every piece is cut: to the face of what it hangs from or ends against, on a mitre, or where the file ends it.

Analysis goes from centre line to centre line. Of two beams that end at each other the one that bears something runs
through to the other's outer face, and the other is cut to its inner face; where both bear, or neither, or the cut
would leave too little on their support, they are mitred.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from bolewright.platform.layout.parts import (
    STEP,
    Bearing,
    Cut,
    End,
    Kind,
    Layout,
    LayoutError,
    Member,
    Note,
    Seat,
)
from bolewright.platform.project import Beam, Blocking, Project, Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.sections import parse_section
from bolewright.units import feet_inches

_ALONG = 0.2  # sine of the angle under which two beams butt end to end rather than cross
_GAP = 0.125  # in: a hanger's end gap beyond this is said (common practice: 1/8 in)
_BUTT = 1.0  # in: a beam cut to a face with less left on its support is mitred instead
_LEAST = 0.25  # in: a seat shorter than this is none


def with_ends(project: Project, members: Sequence[Member]) -> tuple[Member, ...]:
    """Members with the cuts at both their ends."""
    by_mark = {m.mark: m for m in members}
    bears = {seat.below for m in members for seat in m.seats}
    halves = {support.mark: half_of(project, support) for support in project.supports}
    found = _Found(by_mark, bears, halves)
    return tuple(
        m if is_rim(m) else replace(m, ends=(_end(m, True, found), _end(m, False, found))) for m in members
    )


def is_rim(member: Member) -> bool:
    """Whether a member is a piece of a rim, whose ends were found with it."""
    return isinstance(member.timber, Blocking) and member.timber.kind == "rim"


def with_cuts(members: Sequence[Member], cuts: Mapping[tuple[str, bool], End]) -> tuple[Member, ...]:
    """Members with the ends that are cut to the face of a rim, by mark and whether it is the start."""
    return tuple(
        replace(m, ends=(cuts.get((m.mark, True), m.cuts[0]), cuts.get((m.mark, False), m.cuts[1])))
        for m in members
    )


@dataclass(frozen=True)
class _Found:
    """The members, which of them bear others, and half the length of bearing on every support (in)."""

    members: dict[str, Member]
    bears: set[str]
    halves: dict[str, float]

    def left(self, one: Member, other: Member, back: float) -> float:
        """Bearing left to a beam on a support that it shares with another, once cut back to that one's face (in)."""
        shared = [
            s.below for s in one.seats if s.below in self.halves and s.below in {t.below for t in other.seats}
        ]
        return min((self.halves[mark] - back for mark in shared), default=back)


def half_of(project: Project, support: Support) -> float:
    """Half the length of bearing on a support (in)."""
    if support.kind == SupportKind.KNEE_BRACE:
        return head_cut(project, support) / 2
    if support.kind == SupportKind.TREE_BOLT:
        return project.bolts[support.bolt or ""].seat_length / 2
    post = project.posts[support.post or ""]
    return (post.cap_length or parse_section(post.section).b) / 2


def head_cut(project: Project, support: Support) -> float:
    """Length of the level cut of a knee brace from a trunk on its beam's underside (in)."""
    foot = next(s for s in project.supports if s.mark == support.foot)
    run, rise = math.dist(foot.at, support.at), support.rise or 1.0
    return parse_section(project.struts[support.strut or ""].section).d * math.hypot(run, rise) / rise


def gaps(members: Sequence[Member]) -> list[Note]:
    """What is said of hung beams that the file ends short of the face they hang on."""
    by_mark = {m.mark: m for m in members}
    notes = []
    for member in members:
        for end, seat in zip(member.cuts, (member.seats[0], member.seats[-1]), strict=True):
            if end.cut is Cut.HUNG:
                gap = abs(end.at - seat.at) - _back(member, by_mark[seat.below])
                if gap > _GAP + 1e-6:
                    notes.append(
                        Note(
                            member.mark,
                            f"The file ends {member.mark} {feet_inches(gap)} short of the face of {seat.below} on "
                            "which it hangs: it is cut so, and its hanger must allow that gap.",
                        )
                    )
    return notes


def idle_hangers(members: Sequence[Member]) -> list[Note]:
    """What is said of a hanger that the file names on a beam or joists of which no end hangs."""
    hung = {m.field or m.mark for m in members for s in m.seats if s.bearing is Bearing.HANGS}
    notes: dict[str, Note] = {}
    for member in members:
        name = getattr(member.timber, "hanger", None)
        own = member.field or member.mark
        if name is not None and own not in hung:
            what = f"the joists of field {own}" if member.field else own
            words = f"The hanger {name} named on {what} is not used: every end rests on what is under it."
            notes.setdefault(own, Note(member.mark, words))
    return list(notes.values())


def _back(member: Member, other: Member) -> float:
    """From where two centre lines cross back to the other's face, along the member (in)."""
    return other.width / 2 / max(member.line.sine(other.line), 0.02)


def hung_seat(member: Member, start: bool) -> Seat | None:
    """Seat by which this end of a member hangs; None for an end that is free or runs over its seat."""
    seat = member.seats[0 if start else -1]
    place = 0.0 if start else member.line.length
    return seat if seat.bearing is Bearing.HANGS and abs(seat.at - place) < STEP else None


def _end(member: Member, start: bool, found: _Found) -> End:
    line = member.line
    inward = 1.0 if start else -1.0
    place = 0.0 if start else line.length
    own = place
    if isinstance(member.timber, Beam):
        own = line.along(member.timber.start if start else member.timber.end)
    seat = hung_seat(member, start)
    if seat is not None:
        below = found.members[seat.below]
        back = _back(member, below)
        if member.kind is Kind.BEAM:
            back = max(back, (own - place) * inward)
        return End(place + inward * back, Cut.HUNG, below.mark, below.line.u)
    free = End(own)
    if member.kind is Kind.JOIST:
        return free
    met = [
        end
        for other in found.members.values()
        if other.kind is Kind.BEAM and (end := _at(member, free, inward, other, found)) is not None
    ]
    return max(met, key=lambda end: end.at * inward, default=free)


def _at(member: Member, free: End, inward: float, other: Member, found: _Found) -> End | None:
    """How a beam ends at another of its level that does not bear it; None where they do not meet at this end."""
    if other is member or _tied(member, other) or not _side_by_side(member, other):
        return None
    crossing, sine = member.line.crossing(other.line), member.line.sine(other.line)
    if sine < _ALONG:
        return _in_line(member, free, inward, other)
    if crossing is None:
        return None
    here, there = crossing
    near_start = there < other.line.length / 2
    theirs = _own_end(other, near_start)
    mine = (free.at - here) * inward  # from the crossing in to the end; negative past it
    others = (theirs - there) * (1.0 if near_start else -1.0)
    back, beside = _back(member, other), _back(other, member)
    if mine >= back - STEP or others >= beside - STEP or mine < -2 * back - STEP:
        return None
    passes, passed = mine <= -back + STEP, others <= -beside + STEP
    u = (inward * member.line.u[0], inward * member.line.u[1])
    if passed and others < -2 * beside - STEP:
        passes = False  # the other runs on: this one ends at it, however far into it the file draws it
    if passes != passed:
        return End(here + inward * back, Cut.BUTT, other.mark, other.line.u) if passed else None
    first, second = member.mark in found.bears, other.mark in found.bears
    if first and not second and found.left(other, member, beside) >= _BUTT:
        return End(
            min((here - inward * back) * inward, free.at * inward) * inward,
            Cut.FREE,
            other.mark,
            other.line.u,
        )
    if second and not first and found.left(member, other, back) >= _BUTT:
        return End(here + inward * back, Cut.BUTT, other.mark, other.line.u)
    toward = 1.0 if near_start else -1.0
    v = (toward * other.line.u[0], toward * other.line.u[1])
    run = tuple(other.width * a + member.width * b for a, b in zip(u, v, strict=True))
    return End(here, Cut.MITRE, other.mark, (run[0], run[1]))


def _own_end(beam: Member, start: bool) -> float:
    """Where the file ends a beam, along its line."""
    timber = beam.timber
    assert isinstance(timber, Beam)
    return beam.line.along(timber.start if start else timber.end)


def _tied(one: Member, other: Member) -> bool:
    """Whether one of two beams sits on the other."""
    return any(s.below == other.mark for s in one.seats) or any(s.below == one.mark for s in other.seats)


def _side_by_side(one: Member, other: Member) -> bool:
    """Whether two members share some height."""
    return min(one.top, other.top) - max(one.bottom, other.bottom) > STEP


def _in_line(member: Member, free: End, inward: float, other: Member) -> End | None:
    """End of a beam that lies in line with another, their ends in one place: each is cut to the middle of it."""
    line = member.line
    ends = [line.along(other.line.at(_own_end(other, start))) for start in (True, False)]
    if max(line.off(other.line.start), line.off(other.line.end)) > STEP:
        return None
    near = min(ends, key=lambda x: abs(x - free.at))
    far = max(ends, key=lambda x: abs(x - free.at))
    over = (near - free.at) * inward
    if over <= 0 or (far - free.at) * inward > 0 or over > line.length / 2:
        return None
    return End(free.at + inward * over / 2)


# ---------------------------------------------------------------------------------------------------------


def bearing_length(layout: Layout, member: Member, seat: Seat) -> float:
    """Length of bearing of a member on a seat, along its own grain, to where it is cut (in).

    On a skew, the length that gives the bearing area over the member's width.
    """
    project = layout.project
    if seat.bearing is Bearing.HANGS:
        hanger = project.connections.get(seat.connection or "")
        return hanger.seat_length if hanger else 1.5
    support = next((s for s in project.supports if s.mark == seat.below), None)
    sine = 1.0
    if support is None:
        below = layout.member(seat.below)
        sine = max(member.line.sine(below.line), 0.02)
        half = below.width / 2 / sine
    else:
        half = half_of(project, support)
    start, end = (cut.at for cut in member.cuts)
    return (min(seat.at + half, end) - max(seat.at - half, start)) * sine


def check_bearing(layout: Layout) -> None:
    """LayoutError where a piece as it is cut does not reach over what it rests on."""
    for member in layout.members:
        for seat in member.seats:
            if bearing_length(layout, member, seat) < _LEAST:
                end = min(member.cuts, key=lambda cut: abs(cut.at - seat.at))
                why = f", cut to the face of {end.meets}," if end.cut is Cut.BUTT else ""
                instead = (
                    f"let it hang from {end.meets} (name a hanger on it)"
                    if why
                    else "draw its line on over it"
                )
                raise LayoutError(
                    f"{member.mark}{why} ends {feet_inches(abs(end.at - seat.at))} from the middle of {seat.below} and "
                    f"has no bearing there: {instead}, or move {seat.below} under it."
                )
