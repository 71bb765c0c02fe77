"""The loads of a beam cut at its supports, and what each piece adds to a line of statics, as text to be worked.

A piece has a number n: ``W_n`` is its force at ``x_n``, ``w_n`` its size per length from ``s_n`` to ``e_n`` (``w_an``
to ``w_bn`` where it grows), ``C_n`` a couple. Clockwise couples and forces downward are positive.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bolewright.part_sheets.beam_statics import BeamStatics, Worst
from bolewright.part_sheets.loads import BeamLoad, spread
from bolewright.units import INCH, PLF, POUND, POUND_INCH

NEAR = 1e-5  # in.
AT = 1e-9  # in., of a couple


@dataclass(frozen=True)
class Piece:
    """The part of a load that lies on one bay: its number, the load's and the bay's, and the part itself."""

    n: int
    load: int
    bay: int
    part: BeamLoad

    @property
    def couple(self) -> bool:
        """Whether it is a couple."""
        return bool(self.part.couple)

    @property
    def spread(self) -> bool:
        """Whether it lies over a length."""
        return self.part.end > self.part.start

    @property
    def even(self) -> bool:
        """Whether it is spread evenly."""
        return self.spread and abs(self.part.first - self.part.last) < 1e-9

    def grows_within(self, start: float, end: float) -> bool:
        """Whether it is a load that grows over a part of a length only, for which there is no line."""
        return self.spread and not self.even and not self.covers(start, end)

    @property
    def names(self) -> dict[str, object]:
        """What is typed of it, by symbol."""
        n, part = self.n, self.part
        if self.couple:
            return {f"C_{n}": POUND_INCH.of(part.couple), f"x_{n}": INCH.of(part.start)}
        if not self.spread:
            return {f"W_{n}": POUND.of(part.total), f"x_{n}": INCH.of(part.start)}
        ends = {f"s_{n}": INCH.of(part.start), f"e_{n}": INCH.of(part.end)}
        if self.even:
            return {f"w_{n}": PLF.of(part.first), **ends}
        return {f"w_a{n}": PLF.of(part.first), f"w_b{n}": PLF.of(part.last), **ends}

    @property
    def resultant(self) -> list[str]:
        """Lines that put a spread load together to a force at a place."""
        n = self.n
        if not self.spread:
            return []
        if self.even:
            return [f"W_{n} = w_{n} * (e_{n} - s_{n})", f"x_{n} = (s_{n} + e_{n}) / 2"]
        centre = f"(e_{n} - s_{n}) * (w_a{n} + 2 * w_b{n}) / (3 * (w_a{n} + w_b{n}))"
        return [f"W_{n} = (w_a{n} + w_b{n}) / 2 * (e_{n} - s_{n})", f"x_{n} = s_{n} + {centre}"]

    def covers(self, start: float, end: float) -> bool:
        """Whether it lies on all of a length."""
        return abs(self.part.start - start) < NEAR and abs(self.part.end - end) < NEAR


def pieces_of(statics: BeamStatics) -> tuple[Piece, ...]:
    """The loads of a beam, each cut where it passes a support."""
    found: list[Piece] = []
    for number, load in enumerate(statics.loads):
        if load.start == load.end:
            found.append(Piece(len(found) + 1, number, _bay_at(statics, load.start), load))
            continue
        for bay, place in enumerate(statics.bays):
            start, end = max(load.start, place.start), min(load.end, place.end)
            if end - start > NEAR:
                part = _cut(load, start, end)
                found.append(Piece(len(found) + 1, number, bay, part))
    return tuple(found)


def _bay_at(statics: BeamStatics, x: float) -> int:
    """The bay of a force or couple at a place: a span before an overhang where it stands over a support."""
    there = [i for i, bay in enumerate(statics.bays) if bay.start - NEAR <= x <= bay.end + NEAR]
    return min(there, key=lambda i: (statics.bays[i].overhang, i))


def _cut(load: BeamLoad, start: float, end: float) -> BeamLoad:
    per = (load.last - load.first) / (load.end - load.start)
    first, last = (load.first + per * (x - load.start) for x in (start, end))
    return spread(first, start, end, dead=load.dead, words=load.words, last=last)


@dataclass(frozen=True)
class Term:
    """A signed term of a sum."""

    sign: int
    text: str


def total(terms: Iterable[Term], sign: int = 1) -> str:
    """The sum of terms as an expression, all of them turned round by ``sign``; empty without terms."""
    text = ""
    for term in terms:
        minus = term.sign * sign < 0
        text += (" - " if minus else " + ") if text else ("-" if minus else "")
        text += term.text
    return text


@dataclass(frozen=True)
class Acting:
    """The pieces that a pattern counts, each with its share."""

    statics: BeamStatics
    pieces: tuple[Piece, ...]
    worst: Worst

    def share(self, piece: Piece) -> float:
        """The share of a piece that counts."""
        return self.statics.share(piece.load, self.worst)

    def times(self, piece: Piece) -> str:
        """The share as it stands before a term."""
        share = self.share(piece)
        return "" if share == 1 else f"{share:g} * "

    def on(self, bays: Sequence[int]) -> list[Piece]:
        """Those that lie on some bays."""
        return [piece for piece in self.pieces if piece.bay in bays]

    def forces(self, pieces: Iterable[Piece]) -> list[Term]:
        """Their forces, added up."""
        return [Term(1, f"{self.times(p)}W_{p.n}") for p in pieces if not p.couple]

    def moments(self, pieces: Iterable[Piece], about: str, at: float) -> list[Term]:
        """Their moments about a place, clockwise positive; ``about`` is its symbol, empty for the left end."""
        terms = []
        for p in pieces:
            if p.couple:
                terms.append(Term(1, f"{self.times(p)}C_{p.n}"))
            elif abs(arm := p.part.middle - at) > NEAR:
                ahead = f"(x_{p.n} - {about})" if arm > 0 else f"({about} - x_{p.n})"
                terms.append(
                    Term(1 if arm > 0 else -1, f"{self.times(p)}W_{p.n} * {ahead if about else f'x_{p.n}'}")
                )
        return terms

    def section(self, x: float, *, left: bool, shear: bool, past: bool) -> tuple[list[str], list[Term]]:
        """Lines and terms of the loads on one side of a section: their moments about it, or their forces.

        ``past`` counts a force or couple at the section itself as left of it. Moments are positive as a load's on its
        side: they bend the beam up, so that they are taken off.
        """
        lines: list[str] = []
        terms: list[Term] = []
        for p in self.pieces:
            start, end, n, times = p.part.start, p.part.end, p.n, self.times(p)
            is_left = start < x - NEAR or (past and start <= x + NEAR)
            if p.couple:  # a section may be looked at just left of it
                is_left = start <= x + AT
            if not p.spread:
                if is_left is not left:
                    continue
                if p.couple:
                    terms += [] if shear else [Term(-1 if left else 1, f"{times}C_{n}")]
                elif shear:
                    terms.append(Term(1, f"{times}W_{n}"))
                elif abs(start - x) > NEAR:
                    terms.append(Term(1, f"{times}W_{n} * {_arm(n, left)}"))
                continue
            if (end <= x + NEAR) if left else (start >= x - NEAR):
                terms.append(Term(1, f"{times}W_{n}" if shear else f"{times}W_{n} * {_arm(n, left)}"))
            elif start < x - NEAR and end > x + NEAR:
                more, text = _cut_off(p, left=left, shear=shear)
                lines += more
                terms.append(Term(1, times + text))
        return lines, terms


def _arm(n: int, left: bool) -> str:
    return f"(x - x_{n})" if left else f"(x_{n} - x)"


def _cut_off(p: Piece, *, left: bool, shear: bool) -> tuple[list[str], str]:
    """The part of a spread load on one side of a section through it: its force, or its moment about the section."""
    n = p.n
    reach = f"(x - s_{n})" if left else f"(e_{n} - x)"
    if p.even:
        return [], f"w_{n} * {reach}" if shear else f"w_{n} * {reach}**2 / 2"
    lines = [f"q_{n} = w_a{n} + (w_b{n} - w_a{n}) * (x - s_{n}) / (e_{n} - s_{n})  # load at the section"]
    far = f"w_a{n}" if left else f"w_b{n}"
    return lines, f"({far} + q_{n}) / 2 * {reach}" if shear else f"(2 * {far} + q_{n}) * {reach}**2 / 6"
