"""Extra loads on a beam as text: ``live 300 lb at 4 ft; dead 50 plf from 0 ft to 6 ft``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated

from pydantic import PlainValidator

from bolewright import units
from bolewright.mechanics import PointLoad, SpreadLoad
from bolewright.units import INCH, PLF, POUND

_LOAD = re.compile(r"(?:(dead|live)\s+)?(.+?)\s+(?:at\s+(.+)|from\s+(.+?)\s+to\s+(.+))", re.I)
_WANTED = (
    "write a load such as live 300 lb at 4 ft, or dead 50 plf from 0 ft to 6 ft, and a semicolon between two"
)
MOST = 8


@dataclass(frozen=True)
class BeamLoad:
    """A load: where it begins and ends (in), its total (lb), whether it always acts."""

    start: float
    end: float
    total: float
    dead: bool
    words: str

    @property
    def unit(self) -> PointLoad | SpreadLoad:
        """One pound of it, for the solver."""
        return PointLoad(self.start) if self.start == self.end else SpreadLoad(self.start, self.end)

    @property
    def middle(self) -> float:
        """Place of its resultant (in)."""
        return (self.start + self.end) / 2

    def left_of(self, x: float) -> tuple[float, float]:
        """The part left of a section: its total (lb) and the place of its resultant (in)."""
        if self.end <= x:
            return self.total, self.middle
        if self.start >= x:
            return 0.0, self.start
        return self.total * (x - self.start) / (self.end - self.start), (self.start + x) / 2


def spread(plf: float, start: float, end: float, *, dead: bool, words: str) -> BeamLoad:
    """An even load over a length."""
    return BeamLoad(start, end, plf * (end - start) / 12, dead, words)


def read_loads(text: object) -> tuple[BeamLoad, ...]:
    """Loads that a text lists; ValueError in a sentence for one that is not understood."""
    if isinstance(text, tuple):
        return text
    pieces = [piece.strip() for piece in str(text).split(";") if piece.strip()]
    if len(pieces) > MOST:
        raise ValueError(f"{len(pieces)} loads are listed, at most {MOST} fit: put some together")
    return tuple(_load(piece) for piece in pieces)


def _load(piece: str) -> BeamLoad:
    match = _LOAD.fullmatch(piece)
    if match is None:
        raise ValueError(f"{units.shown(piece)} is not understood: {_WANTED}")
    kind, size, at, start, end = match.groups()
    dead = (kind or "live").lower() == "dead"
    words = f"{'dead' if dead else 'live'} {size}"
    if at is not None:
        x, total = units.read(at, INCH), units.read(size, POUND)
        _positive(total, x, x, size)
        return BeamLoad(x, x, total, dead, words)
    a, b, plf = units.read(start, INCH), units.read(end, INCH), units.read(size, PLF)
    _positive(plf, a, b, size)
    if not b > a:
        raise ValueError(f"{units.shown(piece)} ends before it begins")
    return spread(plf, a, b, dead=dead, words=words)


def _positive(load: float, start: float, end: float, size: str) -> None:
    if not 0 < load <= 200_000:
        raise ValueError(f"the load {units.shown(size)} is not between 0 and 200,000")
    if start < 0 or end < 0:
        raise ValueError("a load stands left of the beam's left end: measure from that end")


Loads = Annotated[tuple[BeamLoad, ...], PlainValidator(read_loads)]
