"""The patterns of load on a beam in print: its pieces, what they come to, and its supports solved once a pattern."""

from __future__ import annotations

from typing import Any

from bolewright.part_sheets.beam_hand import aside
from bolewright.part_sheets.beam_pieces import Acting, pieces_of
from bolewright.part_sheets.beam_statics import BeamStatics, Worst
from bolewright.part_sheets.beam_supports import Supports, fixed_end
from bolewright.rendering.blocks import Block
from bolewright.rendering.wording import plain
from bolewright.units import INCH, INCH_FOURTH, POUND, PSI
from bolewright.worked import WorkedError, work


class Patterns:
    """A beam's pieces of load by name, and the patterns that were solved."""

    def __init__(self, statics: BeamStatics, E: float, I: float) -> None:
        self.statics = statics
        self.pieces = pieces_of(statics)
        supports = statics.beam.supports
        self.names: dict[str, Any] = {"E": PSI.of(E), "I": INCH_FOURTH.of(I)}
        self.names |= {name: v for p in self.pieces for name, v in p.names.items()}
        self.names |= {f"a_{n}": INCH.of(x) for n, x in enumerate(supports, 1)}
        spans = zip(supports, supports[1:], strict=False)
        self.names |= {f"l_{n}": INCH.of(b - a) for n, (a, b) in enumerate(spans, 1)}
        self._solved: dict[tuple[tuple[int, ...], float], Supports] = {}
        self.opening = (*self._resultants(), *self._fixed_ends())

    def _resultants(self) -> list[Block]:
        """Every spread load put together to a force at a place."""
        blocks: list[Block] = []
        for p in self.pieces:
            if not p.spread:
                continue
            of = self._words(p.bay, p.part.words)
            try:
                done = work("\n".join(p.resultant), self.names, f"Resultant of {of}")
            except WorkedError:  # a load over a length so short that its ends print alike
                self.names |= {f"W_{p.n}": POUND.of(p.part.total), f"x_{p.n}": INCH.of(p.part.middle)}
                mark = plain(f"W_{p.n}")
                blocks.append(aside(f"{mark}, {of}: the load on a very short length, at its middle."))
                continue
            self.names |= done.values
            blocks += done.blocks
        return blocks

    def _words(self, bay: int, words: str) -> str:
        return f"{words}, {self.statics.bays[bay].name}"

    def _fixed_ends(self) -> list[Block]:
        """On three supports, what the load of either span makes at the middle one if the beam is fixed there."""
        if len(self.statics.beam.supports) < 3:
            return []
        blocks: list[Block] = []
        spans = [i for i, bay in enumerate(self.statics.bays) if not bay.overhang]
        for span, bay in enumerate(spans, 1):
            lines = [
                line
                for p in self.pieces
                if p.bay == bay
                and not p.grows_within(self.statics.bays[bay].start, self.statics.bays[bay].end)
                for line in fixed_end(self.statics, p, span, at_right=span == 1)
            ]
            if not lines:
                continue
            try:
                done = work(
                    "\n".join(lines), self.names, f"Fixed-end moments, span {span} fixed at support 2"
                )
            except WorkedError:  # then the patterns that need them say so
                continue
            self.names |= done.values
            blocks += done.blocks
        return blocks

    def acting(self, worst: Worst) -> Acting:
        """The pieces of a pattern."""
        return Acting(self.statics, tuple(p for p in self.pieces if p.load in worst.loads), worst)

    def supports(self, worst: Worst, of: str) -> Supports:
        """Moments over the supports and reactions of a pattern; ``of`` names what it is first asked for."""
        key = (worst.loads, worst.dead_share)
        if key not in self._solved:
            self._solved[key] = Supports(self.statics, self.acting(worst), self.names, of)
        return self._solved[key]

    def said(self, acting: Acting) -> str:
        """The loads of a pattern by their symbols."""
        return ", ".join(
            f"{acting.times(p).replace('*', 'x')}{plain(f'C_{p.n}' if p.couple else f'W_{p.n}')}"
            for p in acting.pieces
        )
