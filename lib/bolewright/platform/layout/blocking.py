"""Rims, rows of blocking and spacers: where each piece lies, and in which joists or beams it hangs.

A piece is a simple span from one joist or beam to the next, from centre line to centre line, although a rim is one
timber past several joists: no joist gets help from its neighbours through it, and what comes onto a piece goes to
the two that it is fastened to, by statics.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from shapely import LineString, Polygon

from bolewright.platform.layout.joist_lines import field_axes
from bolewright.platform.layout.lines import Line, Vector
from bolewright.platform.layout.parts import STEP, Bearing, Cut, End, Kind, LayoutError, Member, Note, Seat
from bolewright.platform.layout.rims import Tip, find_rim
from bolewright.platform.project import Blocking, JoistField, Project
from bolewright.timber.sections import parse_section
from bolewright.units import feet_inches

_PARALLEL = 0.02  # sine of the angle under which a beam runs along the joists
_OFF = 1.0  # in: a piece with more of it off the deck would lie in an opening
_SHORTEST = 3.0  # in: two ends' fasteners have no room in a shorter piece (common practice)
RIM_NOTE = (
    "Rim {mark} is counted from joist to joist as if it were cut over each: no joist gets help from its neighbours "
    "through it. Where it runs on over joists that give, it bends as they do; that is looked at beside."
)
FULL = 0.25  # in: blocking less deep than its joist by no more is as deep as it


@dataclass(frozen=True)
class Found:
    """All pieces, what is to be said of them, and the cut at each end of a joist or beam that a rim runs along."""

    pieces: tuple[Member, ...]
    notes: tuple[Note, ...]
    cuts: dict[tuple[str, bool], End]


def find_blocking(project: Project, members: Sequence[Member], deck: Polygon) -> Found:
    """Pieces of all rims, rows and spacers, levels still unknown; LayoutError for one that nothing holds."""
    by_mark = {m.mark: m for m in members}
    pieces: list[Member] = []
    notes: list[Note] = []
    cuts: dict[tuple[str, bool], End] = {}
    for entry in (e for e in project.blocking if e.kind == "rim"):
        tips = find_rim(entry, _field(project, entry), members, deck)
        found = _rim(entry, tips)
        for tip in tips:
            meets = next(p for p in found if any(s.below == tip.member.mark for s in p.seats))
            cuts[tip.member.mark, tip.start] = End(tip.face, Cut.FREE, meets.mark, tip.edge)
        pieces += found
        notes.append(Note(found[0].mark, RIM_NOTE.format(mark=entry.mark)))
    for entry in (e for e in project.blocking if e.kind != "rim"):
        found, said = _row(project, entry, by_mark, deck)
        pieces += found
        notes += said
    return Found(tuple(pieces), tuple(notes), cuts)


def entry_of(piece: Member) -> Blocking:
    """The entry of the file that a piece of a rim or row, or a spacer, comes from."""
    assert isinstance(piece.timber, Blocking)
    return piece.timber


def top_of(piece: Member, tops: dict[str, float]) -> float:
    """Level of the top of a piece: its drop below the lower of the tops that it hangs between (in above grade)."""
    return min(tops[seat.below] for seat in piece.seats) - entry_of(piece).drop


def _field(project: Project, entry: Blocking) -> JoistField:
    """The field of joists along whose ends a rim runs."""
    return next((f for f in project.joists if f.mark == entry.joists), project.joists[0])


def _piece(entry: Blocking, number: int, line: Line, seats: Sequence[Seat]) -> Member:
    return Member(
        mark=f"{entry.mark}{number}",
        kind=Kind.BLOCKING,
        line=line,
        timber=entry,
        section=parse_section(entry.section),
        layer=0,
        seats=tuple(seats),
        top=0.0,
    )


# ---------------------------------------------------------------------------------------------------------
# Rims


def _rim(entry: Blocking, tips: Sequence[Tip]) -> list[Member]:
    """Pieces of a rim between neighbouring tips; the first and the last run on over their joist, or past it."""
    pieces: list[Member] = []
    bays = [(a, b) for a, b in pairwise(tips) if b.next_to_last]
    for i, (a, b) in enumerate(bays):
        line = Line.between(a.point, b.point)
        first = i == 0 or bays[i - 1][1] is not a
        last = i + 1 == len(bays) or bays[i + 1][0] is not b
        low = a.beyond(line, -1.0, entry.past) if first else 0.0
        high = b.beyond(line, 1.0, entry.past) if last else 0.0
        whole = Line(line.at(-low), line.u, line.length + low + high)
        seats = [
            Seat(at, tip.member.mark, tip.below_at, Bearing.HANGS, tip.point, entry.hanger)
            for at, tip in ((low, a), (low + line.length, b))
        ]
        pieces.append(_mitred(_piece(entry, i + 1, whole, seats), bays, i))
    return pieces


def _mitred(piece: Member, bays: Sequence[tuple[Tip, Tip]], i: int) -> Member:
    """A piece of a rim with its ends mitred where the rim goes round a corner at a joist."""
    u = piece.line.u
    runs: list[Vector | None] = [None, None]
    for side, j in ((0, i - 1), (1, i + 1)):
        if 0 <= j < len(bays) and (bays[j][1] is bays[i][0] if side == 0 else bays[j][0] is bays[i][1]):
            v = Line.between(bays[j][0].point, bays[j][1].point).u
            if abs(u[0] * v[1] - u[1] * v[0]) > _PARALLEL:
                runs[side] = (-(u[1] + v[1]), u[0] + v[0])
    ends = tuple(
        End(at, Cut.MITRE if run else Cut.FREE, run=run)
        for at, run in zip((0.0, piece.line.length), runs, strict=True)
    )
    return replace(piece, ends=(ends[0], ends[1]))


# ---------------------------------------------------------------------------------------------------------
# Rows of blocking, and spacers


@dataclass(frozen=True)
class _Lane:
    """A joist or beam that a row crosses: where along it, and where along the row."""

    member: Member
    here: float
    along_row: float


def _row(
    project: Project, entry: Blocking, members: dict[str, Member], deck: Polygon
) -> tuple[list[Member], list[Note]]:
    first, last = (_named(entry, mark, members) for mark in entry.between)
    row = _line_of_row(entry, first, last, members)
    lanes = _lanes(project, entry, (first, last), row, members)
    width = parse_section(entry.section).b
    bays = [(a, b) for a, b in pairwise(lanes) if _on_deck(row, a, b, deck) and _clear(a, b) >= _SHORTEST]
    if not bays:
        raise LayoutError(
            f"Blocking {entry.mark} has no piece: between {first.mark} and {last.mark} its row lies in an opening of "
            f"the deck, or they are less than {_SHORTEST:g} in. apart; move it, or leave it out."
        )
    staggered = (
        entry.hanger is None and len(bays) > 1
    )  # so that each end is nailed or screwed straight through
    pieces = []
    for i, (a, b) in enumerate(bays):
        shift = (width / 2 if i % 2 else -width / 2) if staggered else 0.0
        pieces.append(_block(entry, i + 1, a, b, shift))
    notes = []
    if len(bays) < len(lanes) - 1:
        notes.append(
            Note(
                pieces[0].mark,
                f"Blocking {entry.mark} leaves out {len(lanes) - 1 - len(bays)} of its pieces, which would lie in an "
                f"opening of the deck or be shorter than {_SHORTEST:g} in.",
            )
        )
    return pieces, notes


def _block(entry: Blocking, number: int, a: _Lane, b: _Lane, shift: float) -> Member:
    """One block or spacer, from centre line to centre line, moved along what it hangs between by ``shift``."""
    places = [lane.here + shift for lane in (a, b)]
    points = [lane.member.line.at(at) for lane, at in zip((a, b), places, strict=True)]
    line = Line.between(points[0], points[1])
    for lane, at in zip((a, b), places, strict=True):
        if not STEP <= at <= lane.member.line.length - STEP:
            raise _misses(entry, lane.member, at)
    seats = [
        Seat(x, lane.member.mark, at, Bearing.HANGS, point, entry.hanger)
        for x, lane, at, point in zip((0.0, line.length), (a, b), places, points, strict=True)
    ]
    return _piece(entry, number, line, seats)


def _named(entry: Blocking, mark: str, members: dict[str, Member]) -> Member:
    if mark in members:
        return members[mark]
    alike = [m for m in members if m.rstrip("0123456789") == mark.rstrip("0123456789")]
    listed = f"; there are {alike[0]} to {alike[-1]}" if len(alike) > 1 else ""
    raise LayoutError(
        f"Blocking {entry.mark} names {mark}, which is no joist or beam of this layout{listed}."
    )


def _line_of_row(entry: Blocking, first: Member, last: Member, members: dict[str, Member]) -> Line:
    """Middle line of a row: that of the beam it runs over, or square to the first joist or beam at a place of it."""
    if entry.over is not None:
        return members[entry.over].line
    start = first.line.at(entry.along or 0.0)
    if not STEP <= (entry.along or 0.0) <= first.line.length - STEP:
        raise _misses(entry, first, entry.along or 0.0)
    n = (-first.line.u[1], first.line.u[0])
    across = last.line.at(last.line.length / 2)
    sign = 1.0 if (across[0] - start[0]) * n[0] + (across[1] - start[1]) * n[1] > 0 else -1.0
    return Line(start, (sign * n[0], sign * n[1]), 1.0)


def _lanes(
    project: Project, entry: Blocking, ends: tuple[Member, Member], row: Line, members: dict[str, Member]
) -> list[_Lane]:
    """What a row crosses from its first to its last, in order along it; of a spacer, its two beams alone."""
    first, last = ends
    taken = [first, last]
    if first.kind is Kind.JOIST:
        field = next(f for f in project.joists if f.mark == first.field)
        u = field_axes(field)[0]
        taken += [m for m in members.values() if m not in taken and _in_row(m, first.field, u)]
    found = []
    for member in taken:
        crossing = member.line.crossing(row)
        if crossing is None:
            raise LayoutError(
                f"Blocking {entry.mark} would run along {member.mark}: name the two joists or beams that it spans "
                "between, and a row across them."
            )
        here, there = crossing
        if 0.0 <= here <= member.line.length:
            found.append(_Lane(member, here, there))
        elif member in ends:
            raise _misses(entry, member, here)
    where = {lane.member.mark: lane.along_row for lane in found}
    low, high = sorted((where[first.mark], where[last.mark]))
    inside = sorted((x for x in found if low <= x.along_row <= high), key=lambda lane: lane.along_row)
    return inside if where[first.mark] == low else inside[::-1]


def _in_row(member: Member, field: str, u: Vector) -> bool:
    """Whether a row between joists of a field is cut at a member: a joist of it, or a beam that lies among them."""
    if member.kind is Kind.JOIST:
        return member.field == field
    return member.layer == 0 and abs(member.line.u[0] * u[1] - member.line.u[1] * u[0]) < _PARALLEL


def _clear(a: _Lane, b: _Lane) -> float:
    """Room for a piece between two joists or beams, along the row (in)."""
    return abs(b.along_row - a.along_row) - (a.member.width + b.member.width) / 2


def _on_deck(row: Line, a: _Lane, b: _Lane, deck: Polygon) -> bool:
    """Whether a piece lies under the deck, and not across an opening of it."""
    line = LineString([row.at(a.along_row), row.at(b.along_row)])
    return bool(line.difference(deck).length <= _OFF)


def _misses(entry: Blocking, member: Member, at: float) -> LayoutError:
    over = f"over {entry.over}" if entry.over else "there"
    return LayoutError(
        f"Blocking {entry.mark} {over} misses {member.mark}, which is {feet_inches(member.line.length)} long: it would "
        f"meet it at {feet_inches(at)} from its start; move the row, or name other joists in between."
    )
