"""Joists: where each one of a field lies, and which beams it rests on or hangs from."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from shapely import Polygon

from bolewright.platform.layout.beams import APART, reach_across
from bolewright.platform.layout.instead import unheld_joist
from bolewright.platform.layout.joist_lines import (
    counts_along,
    field_axes,
    field_region,
    joist_positions,
    moved_joist,
    section_of,
    segments,
)
from bolewright.platform.layout.lines import Line
from bolewright.platform.layout.overlaps import LEAST
from bolewright.platform.layout.parts import CLOSE, END, STEP, Bearing, Kind, LayoutError, Member, Note, Seat
from bolewright.platform.project import JoistField
from bolewright.timber.sections import Section
from bolewright.units import feet_inches

LONGEST = 480.0  # in: 40 ft, beyond any joist of a platform
_PAST = 3.0  # in: how far outside the deck the beam of a joist may lie
_PARALLEL = 0.02  # sine of the angle under which a joist runs alongside a beam

__all__ = ["counts_along", "field_axes", "field_region", "find_joists", "joist_positions", "section_of"]

Crossing = tuple[float, float, Member]


def find_joists(
    field: JoistField, beams: dict[str, Member], deck: Polygon
) -> tuple[list[Member], list[Note]]:
    """Joists of a field with their seats, level still unknown, and what is to be said of them.

    Raises :class:`LayoutError` for one that cannot stand.
    """
    u, n = field_axes(field)
    region = field_region(field, deck)
    named = field.beams or tuple(m.mark for m in beams.values() if m.layer <= 1)
    under = [beams[mark] for mark in named]
    beside = [m for m in beams.values() if m.layer <= 1 and _stops(field, m)]
    section = section_of(field)
    joists: list[Member] = []
    notes: list[Note] = []
    for t in joist_positions(field):
        for low, high in segments(region, u, n, t):
            line = Line((u[0] * low + n[0] * t, u[1] * low + n[1] * t), u, high - low)
            mark = f"{field.mark}{len(joists) + 1}"
            for piece, seats in _pieces(
                field, line, _crossings(field, line, under, beams), mark, under, deck
            ):
                if _between_faces(section, piece, seats, beams) < LEAST:
                    notes.append(_no_length(field, t, seats))
                elif not _alongside(piece, section, beside, field):
                    mark = f"{field.mark}{len(joists) + 1}"
                    joists.append(_joist(field, section, mark, piece, seats))
    if not joists:
        across = [x * n[0] + y * n[1] for x, y in region.exterior.coords]
        raise LayoutError(
            f"Joist field {field.mark} has no joist inside the platform: first is {feet_inches(field.first)} and last "
            f"{feet_inches(field.last)}, but the deck lies from {feet_inches(min(across))} to "
            f"{feet_inches(max(across))}, counted to the left of the joists' direction."
        )
    return joists, [*notes, *moved_joist(field, joists)]


def _between_faces(section: Section, piece: Line, seats: Sequence[Seat], beams: dict[str, Member]) -> float:
    """Length of a joist between the short points of its cuts to the faces it hangs on (in); all of it if it rests."""
    length = piece.length
    for seat in {seats[0], seats[-1]}:
        if seat.bearing is Bearing.HANGS:
            beam = beams[seat.below]
            sine = max(piece.sine(beam.line), _PARALLEL)
            length -= beam.width / 2 / sine + section.b / 2 * math.sqrt(1 - min(1.0, sine) ** 2) / sine
    return length


def _no_length(field: JoistField, t: float, seats: Sequence[Seat]) -> Note:
    first, last = seats[0].below, seats[-1].below
    return Note(
        first,
        f"The joist of field {field.mark} at {feet_inches(t)} would be less than {LEAST:g} in. long between the faces "
        f"of {first} and {last}: it is left out, and the boards there lie on these beams and the next joists.",
    )


def _joist(field: JoistField, section: Section, mark: str, line: Line, seats: tuple[Seat, ...]) -> Member:
    if line.length > LONGEST:
        raise LayoutError(
            f"Joist {mark} would be {feet_inches(line.length)} long; the most allowed is {feet_inches(LONGEST)}: "
            "add a beam that the joists hang from, or split the field."
        )
    return Member(
        mark=mark,
        kind=Kind.JOIST,
        line=line,
        timber=field,
        section=section,
        layer=0,
        seats=seats,
        top=0.0,
        field=field.mark,
    )


def _crossings(
    field: JoistField, line: Line, beams: Iterable[Member], others: dict[str, Member]
) -> list[Crossing]:
    """Beams that a joist's line crosses: where along it, where along the beam, which.

    A joist may run along over what the beam hangs from, as far as its outer face: it rests on that one there.
    """
    found = []
    for beam in beams:
        crossing = line.crossing(beam.line)
        if crossing is None or line.sine(beam.line) < _PARALLEL:
            continue
        here, there = crossing
        reach = reach_across(beam.width / 2, line, beam.line) + _PAST - CLOSE
        low, high = (_past_end(beam, seat, others) for seat in (beam.seats[0], beam.seats[-1]))
        if -reach <= here <= line.length + reach and -low <= there <= beam.line.length + high:
            over = None if _stops(field, beam) else _over(beam, there, others)
            if over is None:
                found.append((here, min(max(there, 0.0), beam.line.length), beam))
            elif line.sine(over.line) < _PARALLEL:
                found.append((here, over.line.nearest(line.at(here)), over))
    return sorted(found, key=lambda item: item[0])


def _past_end(beam: Member, seat: Seat, others: dict[str, Member]) -> float:
    """How far past the end of a beam's line a joist may lie: to the far face of what this end hangs from (in)."""
    below = others.get(seat.below)
    if below is None or seat.bearing is not Bearing.HANGS:
        return END
    return END + below.width / 2 / max(beam.line.sine(below.line), _PARALLEL)


def _over(beam: Member, there: float, others: dict[str, Member]) -> Member | None:
    """What a beam hangs from, where a joist crosses its line past the face it is cut to; None short of that."""
    for seat, inward in ((beam.seats[0], there), (beam.seats[-1], beam.line.length - there)):
        below = others.get(seat.below)
        if below is not None and seat.bearing is Bearing.HANGS:
            back = below.width / 2 / max(beam.line.sine(below.line), _PARALLEL)
            if inward < back - STEP:
                return below
    return None


def _stops(field: JoistField, beam: Member) -> bool:
    """Whether joists end at a beam and hang from it, rather than pass over it."""
    return field.bearing == "hung" or beam.layer == 0


def _pieces(
    field: JoistField,
    line: Line,
    crossings: Sequence[Crossing],
    mark: str,
    under: Sequence[Member],
    deck: Polygon,
) -> list[tuple[Line, tuple[Seat, ...]]]:
    """A joist's line cut at the beams it hangs from; each piece with its seats."""
    stops = [item for item in crossings if _stops(field, item[2])]
    rests = [item for item in crossings if not _stops(field, item[2])]
    pieces: list[tuple[Line, tuple[Seat, ...]]] = []
    bounds: list[Crossing | None] = [None, *stops, None]
    for first, second in zip(bounds, bounds[1:], strict=False):
        low = first[0] if first else -math.inf
        high = second[0] if second else math.inf
        inside = _apart([item for item in rests if low + APART < item[0] < high - APART])
        held = len(inside) + (first is not None) + (second is not None)
        if held < 2:
            start, end = max(low, 0.0), min(high, line.length)
            if stops and not inside and end - start <= 24.0:
                continue  # the stub of deck past a beam at the edge; the panels hand it to that beam
            held_by = [*inside, *(x for x in (first, second) if x)]
            raise unheld_joist(mark, line, [beam for *_, beam in held_by], under, deck)
        start = low if first else min(0.0, inside[0][0])
        end = high if second else max(line.length, inside[-1][0])
        seats = [Seat(here - start, c.mark, there, Bearing.RESTS, line.at(here)) for here, there, c in inside]
        if first:
            seats.insert(0, Seat(0.0, first[2].mark, first[1], Bearing.HANGS, line.at(low), field.hanger))
        if second:
            seats.append(
                Seat(high - start, second[2].mark, second[1], Bearing.HANGS, line.at(high), field.hanger)
            )
        pieces.append((Line(line.at(start), line.u, end - start), tuple(seats)))
    return pieces


def _apart(crossings: Sequence[Crossing]) -> list[Crossing]:
    """Crossings that are not right beside the one before: there the joist lies over the joint of two beams."""
    kept: list[Crossing] = []
    for item in crossings:
        if not kept or item[0] - kept[-1][0] >= APART:
            kept.append(item)
    return kept


def _alongside(piece: Line, section: Section, beams: Iterable[Member], field: JoistField) -> bool:
    """Whether a beam in the joists' own layer lies where this joist would, and so takes its place."""
    for beam in beams:
        near = beam.line.off(piece.at(piece.length / 2)) < (section.b + beam.width) / 2
        if not (near and piece.sine(beam.line) < _PARALLEL):
            continue
        along = sorted(beam.line.along(point) for point in (piece.start, piece.end))
        covered = min(along[1], beam.line.length) - max(along[0], 0.0)
        if covered > 0.9 * piece.length:
            return True
        if covered > APART:
            raise LayoutError(
                f"A joist of field {field.mark} would lie in beam {beam.mark} for part of its length: move "
                "the field's first joist, or the beam."
            )
    return False
