"""Extra loads on a beam as text: ``live 300 lb at 4 ft; dead 0 plf to 50 plf from 0 ft to 6 ft``.

Forces count downward, so a minus sign lifts; a moment counts clockwise, as a push at the top of a post towards the
beam's right end.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated

from pydantic import PlainValidator

from bolewright import units
from bolewright.mechanics import CoupleLoad, PointLoad, SpreadLoad, TriangleLoad
from bolewright.mechanics.loads import UnitLoad
from bolewright.units import INCH, PLF, POUND, POUND_INCH

_LOAD = re.compile(r"(?:(dead|live)\s+)?(.+?)\s+(?:at\s+(.+)|from\s+(.+?)\s+to\s+(.+))", re.I)
_TO = re.compile(r"\s+to\s+", re.I)
_WANTED = (
    "write a load such as live 300 lb at 4 ft, dead 50 plf from 0 ft to 6 ft, 0 plf to 50 plf from 0 ft to 6 ft, or a "
    "moment as 500 lb ft at 4 ft, and a semicolon between two"
)
MOST = 8


@dataclass(frozen=True)
class BeamLoad:
    """A load: where it begins and ends (in), its total downward (lb), whether it always acts.

    ``first`` and ``last`` (plf) are its sizes at both ends where it is spread; a ``couple`` (lb·in, clockwise) has no
    total.
    """

    start: float
    end: float
    total: float
    dead: bool
    words: str
    first: float = 0.0
    last: float = 0.0
    couple: float = 0.0

    @property
    def parts(self) -> tuple[tuple[UnitLoad, float], ...]:
        """Unit loads for the solver, each with its size."""
        if self.couple:
            return ((CoupleLoad(self.start), -self.couple),)  # the solver's turns the other way
        if self.start == self.end:
            return ((PointLoad(self.start), self.total),)
        if self.first == self.last:
            return ((SpreadLoad(self.start, self.end), self.total),)
        half = (self.end - self.start) / 24
        ramps = (
            (TriangleLoad(self.end, self.start), self.first * half),
            (TriangleLoad(self.start, self.end), self.last * half),
        )
        return tuple((unit, size) for unit, size in ramps if size)

    @property
    def lifts(self) -> bool:
        """Whether it acts upward."""
        return self.total < 0

    @property
    def middle(self) -> float:
        """Place of its resultant (in)."""
        return self.left_of(self.end)[1]

    def left_of(self, x: float) -> tuple[float, float]:
        """The part left of a section: its total (lb) and the place of its resultant (in)."""
        if self.start == self.end:
            return (self.total if self.start <= x else 0.0), self.start
        if self.start >= x:
            return 0.0, self.start
        reach = min(x, self.end) - self.start
        there = self.first + (self.last - self.first) * reach / (self.end - self.start)
        total = (self.first + there) / 24 * reach
        return total, self.start + reach * (self.first + 2 * there) / (3 * (self.first + there))


def spread(
    plf: float, start: float, end: float, *, dead: bool, words: str, last: float | None = None
) -> BeamLoad:
    """A load over a length: even, or from ``plf`` at its start to ``last`` (plf) at its end."""
    last = plf if last is None else last
    return BeamLoad(start, end, (plf + last) / 24 * (end - start), dead, words, plf, last)


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
        x = units.read(at, INCH)
        _placed(x, x)
        if _is_moment(size):
            moment = units.read(size, POUND_INCH)
            _sized(moment, size, 2_400_000, "lb in")
            return BeamLoad(x, x, 0.0, dead, f"{words} moment", couple=moment)
        total = units.read(size, POUND)
        _sized(total, size)
        return BeamLoad(x, x, total, dead, words)
    a, b = units.read(start, INCH), units.read(end, INCH)
    _placed(a, b)
    if not b > a:
        raise ValueError(f"{units.shown(piece)} ends before it begins")
    sizes = _TO.split(size)
    if len(sizes) > 2:
        raise ValueError(f"{units.shown(piece)} is not understood: {_WANTED}")
    ends = [units.read(one, PLF) for one in sizes]
    first, last = ends[0], ends[-1]
    if first * last < 0:
        raise ValueError(
            f"{units.shown(size)} turns from down to up: split it in two loads where it passes zero"
        )
    _sized(max(ends, key=abs), size)
    return spread(first, a, b, dead=dead, words=words, last=last)


def _is_moment(size: str) -> bool:
    try:
        units.read(size, POUND_INCH)
    except ValueError:
        return False
    return True


def _sized(load: float, size: str, most: float = 200_000, unit: str = "") -> None:
    if not 0 < abs(load) <= most:
        of = f"{most:,g} {unit}".strip()
        raise ValueError(f"the load {units.shown(size)} is not between 0 and {of}, up or down")


def _placed(start: float, end: float) -> None:
    if start < 0 or end < 0:
        raise ValueError("a load stands left of the beam's left end: measure from that end")


Loads = Annotated[tuple[BeamLoad, ...], PlainValidator(read_loads)]
