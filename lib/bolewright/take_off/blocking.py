"""Rims, blocking and spacers for the lists: the sticks they are cut from, and what fastens them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bolewright.platform.layout.blocking import entry_of
from bolewright.platform.layout.layout import Layout, Member
from bolewright.platform.layout.pieces import EndCut, Piece
from bolewright.platform.project import Blocking
from bolewright.take_off.stock import usable_length
from bolewright.timber.sections import parse_section

_STRAIGHT = 1e-3  # sine of the angle between two pieces of a rim that are one stick


@dataclass(frozen=True)
class Stick:
    """One stick of a rim, or one block or spacer: its marks, length along its middle (in), and its two end cuts."""

    marks: tuple[str, ...]
    member: Member
    centre: float
    start: EndCut
    end: EndCut

    @property
    def mark(self) -> str:
        """Its mark: of a rim the first and the last of its pieces between joists."""
        return self.marks[0] if len(self.marks) == 1 else f"{self.marks[0]} to {self.marks[-1]}"

    @property
    def long(self) -> float:
        """Length between its long points (in)."""
        return self.centre + self.member.width / 2 * (abs(self.start.tangent) + abs(self.end.tangent))

    @property
    def short(self) -> float:
        """Length between its short points (in)."""
        return 2 * self.centre - self.long


def _sticks(own: Sequence[Member], pieces: dict[str, Piece], longest: float) -> Iterator[Stick]:
    """Sticks of one entry: a rim runs on over its joists, up to the longest stick there is.

    It is cut over the middle of a joist where it would be longer.
    """
    run: list[Member] = []
    for member in own:
        if run and not _goes_on(run, member, pieces, longest):
            yield _stick(run, pieces)
            run = []
        run.append(member)
    if run:
        yield _stick(run, pieces)


def all_sticks(layout: Layout, pieces: dict[str, Piece]) -> Iterator[Stick]:
    """Sticks of all rims, blocks and spacers, a rim in sticks as long as the file's stock has them."""
    for entry in layout.project.blocking:
        own = [m for m in layout.blocking if entry_of(m).mark == entry.mark]
        longest = usable_length(layout.project, parse_section(entry.section).single, entry.bought_as[1])
        yield from _sticks(own, pieces, longest)


def _goes_on(run: Sequence[Member], member: Member, pieces: dict[str, Piece], longest: float) -> bool:
    last, entry = run[-1], entry_of(member)
    straight = last.line.sine(member.line) < _STRAIGHT and last.seats[-1].below_at == member.seats[0].below_at
    if not (entry.kind == "rim" and entry_of(last).mark == entry.mark and straight):
        return False
    return last.seats[-1].below == member.seats[0].below and (
        sum(pieces[m.mark].longest for m in (*run, member)) <= longest
    )


def _stick(run: Sequence[Member], pieces: dict[str, Piece]) -> Stick:
    found = [pieces[m.mark] for m in run]
    centre = sum(piece.centre for piece in found)
    return Stick(tuple(m.mark for m in run), run[0], centre, found[0].start, found[-1].end)


@dataclass(frozen=True)
class Fastened:
    """Nails or screws of one entry: where, how many in all, and how they go in."""

    entry: Blocking
    marks: tuple[str, ...]
    ends: int
    slanted: int

    @property
    def count(self) -> int:
        """All of them."""
        return self.ends * (self.entry.fasteners or 0)


def fastened(layout: Layout) -> Iterator[Fastened]:
    """Of each entry that nails or screws hold, how many ends: of a rim one at each joist."""
    for entry in layout.project.blocking:
        own = [m for m in layout.blocking if entry_of(m).mark == entry.mark]
        if entry.hanger is not None or not own:
            continue
        places = {(s.below, round(s.below_at, 3)) for m in own for s in m.seats}
        ends = len(places) if entry.kind == "rim" else 2 * len(own)
        slanted = sum(
            layout.member(s.below).section.plies > 1
            for m in own
            for s in m.seats
            if entry.kind != "rim" and entry.fastener.endswith("nail")
        )
        yield Fastened(entry, tuple(m.mark for m in own), ends, slanted)
