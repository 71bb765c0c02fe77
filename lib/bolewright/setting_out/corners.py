"""Corners of the deck and ends of its beams from two fixed points, every edge, and the diagonals that prove the shape.

The two fixed points are those of the ground: the plumb points of the base line, or pegs A and B beside it where a
trunk stands in it. All lengths are level, plumb under or over the place named.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bolewright.platform.layout.layout import Bearing, Layout, Member, Vector
from bolewright.platform.layout.pieces import Piece
from bolewright.setting_out.beams import seat_marks
from bolewright.setting_out.ground import Peg, ground_plan, peg_at
from bolewright.setting_out.plan import BaseLine, base_line
from bolewright.setting_out.squaring import tape_is_clear
from bolewright.setting_out.tolerance import Allowed, Closing


@dataclass(frozen=True)
class Edge:
    """An edge of the deck or of an opening: its number as the project file counts it, its ends, its length (in)."""

    name: str
    between: tuple[str, str]
    ends: tuple[Vector, Vector]

    @property
    def length(self) -> float:
        """Length along the edge (in)."""
        return math.dist(*self.ends)


@dataclass(frozen=True)
class BeamEnd:
    """An end of a beam: where it lies, and how far it runs past the middle of the ``seat`` nearest to it (in).

    One that ``hangs`` is cut to the face of the beam that its hanger is on.
    """

    beam: str
    end: str
    peg: Peg
    past: float
    seat: str
    hangs: bool


@dataclass(frozen=True)
class DeckCorners:
    """All that fixes the deck's outline from ``tapes``, the two fixed points, which stand at ``pegs`` in plan."""

    base: BaseLine
    tapes: tuple[str, str]
    pegs: tuple[Vector, Vector]
    corners: tuple[Peg, ...]
    edges: tuple[Edge, ...]
    diagonals: tuple[Closing, ...]
    hidden: tuple[str, ...]


def deck_corners(layout: Layout) -> DeckCorners:
    """Corners, edges and diagonals of the deck and its openings. ``hidden`` are diagonals that a trunk stands in."""
    base, working, tapes = _fixed(layout)
    rings = [("deck", layout.project.platform.outline)]
    many = len(layout.project.platform.openings) > 1
    rings += [
        (f"opening {number}," if many else "opening", ring)
        for number, ring in enumerate(layout.project.platform.openings, start=1)
    ]
    corners: list[Peg] = []
    edges: list[Edge] = []
    for name, ring in rings:
        names = [f"{name} {number}" for number in range(1, len(ring) + 1)]
        corners += [
            peg_at(layout, base, working, n, base.offsets(at)) for n, at in zip(names, ring, strict=True)
        ]
        for i, at in enumerate(ring):
            j = (i + 1) % len(ring)
            of = "edge" if name == "deck" else f"{name} edge"
            edges.append(Edge(f"{of} {i + 1}", (names[i], names[j]), (at, ring[j])))
    clear, hidden = [], []
    for name, one, other, ends in _across(rings):
        if tape_is_clear(layout, *ends):
            what = f"{name} {one} to {name} {other}, diagonally"
            clear.append(Closing(what, math.dist(*ends), Allowed.DIAGONAL.value, ends))
        else:
            hidden.append(f"{name} {one} to {name} {other}")
    ends = base.point(0.0, working), base.point(base.line.length, working)
    return DeckCorners(base, tapes, ends, tuple(corners), tuple(edges), tuple(clear), tuple(hidden))


def beam_ends(layout: Layout, pieces: dict[str, Piece]) -> tuple[BeamEnd, ...]:
    """Both ends of every beam, at the middle of its end's face."""
    base, working, _ = _fixed(layout)
    found = []
    for member in layout.beams:
        piece = pieces[member.mark]
        one, two, three, four = piece.corners
        seats = sorted(
            (mark.at, mark.below) for mark in seat_marks(layout, pieces) if mark.beam == member.mark
        )
        for end, (a, b) in (("start", (one, four)), ("end", (two, three))):
            middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
            at, seat = seats[0] if end == "start" else seats[-1]
            past = at if end == "start" else piece.centre - at
            hangs = seat in _hung(member)
            name = f"{member.mark} {end}"
            found.append(
                BeamEnd(
                    member.mark,
                    end,
                    peg_at(layout, base, working, name, base.offsets(middle)),
                    past,
                    seat,
                    hangs,
                )
            )
    return tuple(found)


def along_beam(layout: Layout, pieces: dict[str, Piece], beam: str) -> tuple[tuple[str, float], ...]:
    """Start, seats that it rests on, and end of a beam with their places along it from its start (in)."""
    hung = _hung(layout.member(beam))
    seats = [(m.below, m.at) for m in seat_marks(layout, pieces) if m.beam == beam and m.below not in hung]
    return (("start", 0.0), *sorted(seats, key=lambda seat: seat[1]), ("end", pieces[beam].centre))


def _hung(beam: Member) -> set[str]:
    """What a beam hangs from, and has no seat on."""
    return {seat.below for seat in beam.seats if seat.bearing is Bearing.HANGS}


def _fixed(layout: Layout) -> tuple[BaseLine, float, tuple[str, str]]:
    """Base line, offset of the two fixed points from it, and their names."""
    ground = ground_plan(layout)
    if ground is not None:
        return ground.base, ground.working, ground.tapes
    base = base_line(layout)
    return base, 0.0, (base.a, base.b)


def _across(
    rings: Sequence[tuple[str, Sequence[Vector]]],
) -> Iterator[tuple[str, int, int, tuple[Vector, Vector]]]:
    """Pairs of corners one apart round each ring: with the edges they fix its shape."""
    for name, ring in rings:
        count = len(ring)
        pairs = {tuple(sorted((i, (i + 2) % count))) for i in range(count)} if count > 3 else set()
        for one, other in sorted(pairs):
            yield name, one + 1, other + 1, (ring[one], ring[other])
