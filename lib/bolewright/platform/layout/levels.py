"""Levels through the stack from the floor down, and the order in which weight flows.

What rests on a beam, and what shares a support with it, fixes its level; so does its ``top`` or ``drop`` in the file.
Where a beam only bears what hangs in it, its top comes flush with the highest of that; where it only hangs, flush with
what it hangs from. Nothing is flush with the boards by default: a beam that nothing decides is refused.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter

from bolewright.platform.layout.parts import STEP, Bearing, Kind, LayoutError, Member, under_deck
from bolewright.platform.project import Project
from bolewright.units import feet_inches


@dataclass(frozen=True)
class _Known:
    """A beam whose top something decides: its level (in above grade), and what does, in words."""

    mark: str
    top: float
    why: str


Place = tuple[str, float]
"""A beam's group, the beams whose levels are tied together, and its underside above that group's zero (in)."""


def find_tops(project: Project, beams: dict[str, Member], joists: Sequence[Member]) -> dict[str, float]:
    """Level of the top of every member, from the floor down through the stack (in above grade)."""
    deck = under_deck(project)
    places = _places(beams)
    zeros = _decided(places, beams, [*_by_joists(joists, deck), *_given(project, deck)])
    hung = [
        (m.mark, s.below)
        for m in beams.values()
        for s in m.seats
        if s.bearing is Bearing.HANGS and s.below in beams and places[m.mark][0] != places[s.below][0]
    ]

    def top(mark: str) -> float | None:
        group, above = places[mark]
        return zeros[group] + above + beams[mark].section.d if group in zeros else None

    while waiting := [g for g in dict.fromkeys(group for group, _ in places.values()) if g not in zeros]:
        chosen = min(waiting, key=lambda g: _rank(g, places, hung, zeros))
        if _rank(chosen, places, hung, zeros) == _NEVER:
            raise _undecided(chosen, places)
        flush_with = _in_it(chosen, places, hung, zeros)
        pairs, best = (flush_with, max) if flush_with else (_of_it(chosen, places, hung, zeros), min)
        zeros[chosen] = best(
            (top(other) or 0.0) - beams[own].section.d - places[own][1] for own, other in pairs
        )
    tops = {joist.mark: deck for joist in joists}
    return tops | {mark: level for mark in beams if (level := top(mark)) is not None}


def _by_joists(joists: Sequence[Member], deck: float) -> Iterator[_Known]:
    """Beams that joists rest on or hang from."""
    for joist in joists:
        for seat in joist.seats:
            rests = seat.bearing is Bearing.RESTS
            how = "rests on it" if rests else "hangs from it"
            yield _Known(seat.below, deck - joist.section.d if rests else deck, f"joist {joist.mark} {how}")


def _given(project: Project, deck: float) -> Iterator[_Known]:
    """Beams whose level the file gives."""
    for beam in project.beams:
        if beam.top is not None:
            yield _Known(beam.mark, beam.top, f"its top is given as {feet_inches(beam.top)}")
        elif beam.drop is not None:
            yield _Known(beam.mark, deck - beam.drop, f"its drop is given as {feet_inches(beam.drop)}")


def _places(beams: Mapping[str, Member]) -> dict[str, Place]:
    """The beams in groups tied by what rests on what, and by supports that two of them share."""
    ties: dict[str, list[tuple[str, float, str]]] = {mark: [] for mark in beams}
    shared: dict[str, list[str]] = {}

    def tie(one: str, other: str, above: float, why: str) -> None:
        ties[one].append((other, above, why))
        ties[other].append((one, -above, why))

    for member in beams.values():
        for seat in member.seats:
            if seat.below not in beams:
                shared.setdefault(seat.below, []).append(member.mark)
            elif seat.bearing is Bearing.RESTS:
                tie(
                    seat.below,
                    member.mark,
                    beams[seat.below].section.d,
                    f"{member.mark} rests on {seat.below}",
                )
    for support, marks in shared.items():
        for other in marks[1:]:
            tie(marks[0], other, 0.0, f"{marks[0]} and {other} both stand on {support}")
    places: dict[str, Place] = {}
    for first in beams:
        if first not in places:
            places[first] = (first, 0.0)
            queue = [first]
            for mark in queue:
                for other, above, why in ties[mark]:
                    level = places[mark][1] + above
                    if other not in places:
                        places[other] = (first, level)
                        queue.append(other)
                    elif abs(places[other][1] - level) > STEP:
                        raise LayoutError(
                            f"{why}, but what else they rest on puts their undersides "
                            f"{feet_inches(abs(places[other][1] - level))} off: give what is under them one depth."
                        )
    return places


def _decided(
    places: Mapping[str, Place], beams: Mapping[str, Member], known: Sequence[_Known]
) -> dict[str, float]:
    """Level of the zero of every group that something decides; LayoutError where two things decide it differently."""
    zeros: dict[str, float] = {}
    firsts: dict[str, _Known] = {}
    for item in known:
        group, above = places[item.mark]
        zero = item.top - beams[item.mark].section.d - above
        first = firsts.setdefault(group, item)
        if abs(zeros.setdefault(group, zero) - zero) > STEP:
            raise _at_two(first, item, beams, abs(zeros[group] - zero))
    return zeros


def _at_two(one: _Known, other: _Known, beams: Mapping[str, Member], apart: float) -> LayoutError:
    """Two things decide one level differently: what to write instead."""
    off = feet_inches(apart)
    if one.mark == other.mark:
        return LayoutError(
            f"Beam {one.mark} would need its top at two levels, {off} apart: {one.why} and {other.why}; use one "
            "kind of bearing and one depth of joist on it, and a top or drop that fits them."
        )
    both = _shared(one.mark, other.mark, beams)
    if both and beams[both].mark in (one.mark, other.mark):
        both = ""
    for support in _supports_of(one.mark, beams) & _supports_of(other.mark, beams):
        return LayoutError(
            f"{one.mark} and {other.mark} both stand on {support}, with their undersides at two levels, {off} apart "
            f"({one.mark}: {one.why}; {other.mark}: {other.why}): give them depths that bring their undersides level, "
            "or end one at the other and name a hanger so that it hangs in its face."
        )
    if both:
        return LayoutError(
            f"Beams {one.mark} and {other.mark} rest on {both} at levels {off} apart "
            f"({one.mark}: {one.why}; {other.mark}: {other.why}): give them one depth."
        )
    return LayoutError(
        f"{one.mark} and {other.mark} can't both be where they are needed, by {off}: {one.mark}: {one.why}; "
        f"{other.mark}: {other.why}. Give them, or what they stand on, one depth."
    )


def _shared(one: str, other: str, beams: Mapping[str, Member]) -> str:
    """A beam that two others both rest on, or empty."""
    below = [{s.below for s in beams[m].seats if s.below in beams} for m in (one, other)]
    return min(below[0] & below[1], default="")


def _supports_of(mark: str, beams: Mapping[str, Member]) -> set[str]:
    return {s.below for s in beams[mark].seats if s.below not in beams}


_NEVER = 4
Pairs = Sequence[tuple[str, str]]


def _in_it(group: str, places: Mapping[str, Place], hung: Pairs, zeros: Mapping[str, float]) -> Pairs:
    """What of known level hangs in a group: the beam of the group, and what hangs in it."""
    return [(y, x) for x, y in hung if places[y][0] == group and places[x][0] in zeros]


def _of_it(group: str, places: Mapping[str, Place], hung: Pairs, zeros: Mapping[str, float]) -> Pairs:
    """What of known level a group hangs from: the beam of the group, and what it hangs from."""
    return [(x, y) for x, y in hung if places[x][0] == group and places[y][0] in zeros]


def _rank(group: str, places: Mapping[str, Place], hung: Pairs, zeros: Mapping[str, float]) -> int:
    """How well a group's level is known by what hangs in it or what it hangs from: 0 best."""
    wanted = sum(places[y][0] == group for _, y in hung)
    known = len(_in_it(group, places, hung, zeros))
    above = len(_of_it(group, places, hung, zeros))
    if wanted and known == wanted:
        return 0
    if not wanted and above:
        return 1
    return 2 if known else 3 if above else _NEVER


def _undecided(group: str, places: Mapping[str, Place]) -> LayoutError:
    marks = [mark for mark, (own, _) in places.items() if own == group]
    other = f" (nor that of {', '.join(marks[1:])}, tied to it)" if marks[1:] else ""
    return LayoutError(
        f"Nothing decides the level of {marks[0]}{other}: no joist or beam sits on it, and it shares no support with a "
        'beam that bears some; give it drop = "0 in" (its top level with the undersides of the boards, which then lie '
        "on it), or its top, or leave it out."
    )


def in_order(members: Sequence[Member]) -> tuple[Member, ...]:
    """Members so that each stands before all that carry it: blocking first, then joists, then beams."""
    marks = {m.mark for m in members}
    # In the order of the seats, not in a set's: two runs must list the same parts in the same order.
    graph = {m.mark: dict.fromkeys(s.below for s in m.seats if s.below in marks) for m in members}
    try:
        order = list(TopologicalSorter(graph).static_order())
    except CycleError as error:
        ring = " -> ".join(reversed(dict.fromkeys(error.args[1])))
        raise LayoutError(
            f"These beams carry each other in a ring, {ring}: let one of them end on a support or a beam below."
        ) from None
    rank = {mark: -i for i, mark in enumerate(order)}
    position = {m.mark: i for i, m in enumerate(members)}

    def place(member: Member) -> tuple[int, int, int]:
        kind = (Kind.BLOCKING, Kind.JOIST, Kind.BEAM).index(member.kind)
        return (kind, rank[member.mark] if member.kind is Kind.BEAM else 0, position[member.mark])

    return tuple(sorted(members, key=place))
