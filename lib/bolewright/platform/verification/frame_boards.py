"""The frame model's own shares of the deck: boards in strips, each from member to member, by its own count.

Apart from the load path: nothing of its panels, cells or shares is used. A strip is a piece of board across the joists;
between two neighbouring members it is a simple span; past the last member it acts by lever over that member, held down
by the next one inward. A hold-down nearer than 6 in. counts as 6 in. away, and the rest of the moment is held by the
member inward of it. Past a beam from which the next member inward hangs there is no lever: the board lies on the beam.
How near a hold-down is counts square to the last member. A strip over one member alone lies on that member, one on the
wood of a member along it on that, one over none on the nearest.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from bolewright.platform.layout.joist_lines import board_axes, field_region
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout, Member
from bolewright.platform.project import JoistField

HOLD = 6.0  # in: a hold-down nearer than this counts as this far away
INSIDE = 0.01  # in
ALONG = 1e-6  # a member whose line runs along the boards within this is crossed by none

Parts = tuple[tuple[int, float, float], ...]  # member, place along it, share of a pound
Under = tuple[
    float, int, float, float, float
]  # place along the board, member, place along it, sine of its angle with the board, half width along the board


@dataclass(frozen=True)
class _Crossed:
    """A member that boards cross: its number, start and rate along the joists, where it counts, and where it lies."""

    number: int
    start: float
    rate: float
    length: float
    low: float
    high: float
    t: float
    slope: float
    half: float
    sine: float

    def at(self, s: float) -> tuple[float, float]:
        """Place along the boards, and along the member."""
        return self.t + self.slope * (s - self.start), min(
            max((s - self.start) / self.rate, 0.0), self.length
        )


class Boards:
    """The boards of one joist field."""

    def __init__(self, layout: Layout, field: JoistField) -> None:
        """Boards of a field, in its axes: s along the joists, t along the boards."""
        self.u, self.n = board_axes(field, layout.project.decking)
        self.region = field_region(field, layout.deck)
        self.members = layout.members
        self.flush = [(i, m) for i, m in enumerate(layout.members) if m in layout.flush]
        rings = (self.region.exterior, *self.region.interiors)
        self.rings = [[self.place(p) for p in ring.coords] for ring in rings]
        self.hangs = {(i, seat.below) for i, m in self.flush for seat in m.seats}
        self.along = [(i, m) for i, m in self.flush if abs(self._rate(m)) < ALONG]
        self.on_wood = [self._wood(i, m) for i, m in self.along]
        self.crossed = [c for i, m in self.flush if (c := self._crossed(i, m)) is not None]

    def place(self, point: Sequence[float]) -> Vector:
        """Place (s, t) of a plan point."""
        return point[0] * self.u[0] + point[1] * self.u[1], point[0] * self.n[0] + point[1] * self.n[1]

    def plan(self, s: float, t: float) -> Vector:
        """Plan point of a place."""
        return s * self.u[0] + t * self.n[0], s * self.u[1] + t * self.n[1]

    def _wood(self, number: int, member: Member) -> tuple[int, float, float, float, float]:
        """Of a member along the boards: its number, where its middle lies, half its width, from where to where."""
        (side, one), (_, other) = self.place(member.line.start), self.place(member.line.end)
        low, high = sorted((one, other))
        return number, side, member.width / 2, low, high

    def _crossed(self, number: int, member: Member) -> _Crossed | None:
        line, rate = member.line, self._rate(member)
        if abs(rate) < ALONG:
            return None
        s, t = self.place(line.start)
        slope = (line.u[0] * self.n[0] + line.u[1] * self.n[1]) / rate
        low, high = sorted((s, s + line.length * rate))
        sine = 1.0 / math.hypot(1.0, slope)
        return _Crossed(number, s, rate, line.length, low, high, t, slope, member.width / 2 / sine, sine)

    def _rate(self, member: Member) -> float:
        return member.line.u[0] * self.u[0] + member.line.u[1] * self.u[1]

    def stretches(self, s: float) -> Iterator[tuple[float, float, list[Under]]]:
        """Deck along the board at s, from and to, with the members under it in order."""
        cuts: list[float] = []
        for ring in self.rings:
            for (s1, t1), (s2, t2) in pairwise(ring):
                if (s1 <= s) != (s2 <= s):
                    cuts.append(t1 + (t2 - t1) * (s - s1) / (s2 - s1))
        cuts.sort()
        under: list[Under] = []
        for c in self.crossed:
            if c.low <= s <= c.high:
                t, x = c.at(s)
                under.append((t, c.number, x, c.sine, c.half))
        under.sort()
        for low, high in zip(cuts[::2], cuts[1::2], strict=True):
            here = [m for m in under if low - m[4] < m[0] < high + m[4]]
            before, after = [m for m in here if m[0] < low][-1:], [m for m in here if m[0] > high][:1]
            yield (
                low,
                high,
                [
                    *(self._at_end(m, s, low) for m in before),
                    *(m for m in here if low <= m[0] <= high),
                    *(self._at_end(m, s, high) for m in after),
                ],
            )

    def _at_end(self, one: Under, s: float, t: float) -> Under:
        """A member past the end of a board, as it bears it there: square to it."""
        _, number, _, sine, half = one
        return t, number, self.members[number].line.nearest(self.plan(s, t)), sine, half

    def share(self, s: float, t: float, under: list[Under]) -> Parts:
        """What the members get of a pound on the board at (s, t)."""
        wood = self.wood(s, t, under)
        return self._across(s, t, under) if wood is None else self._on(wood, s, t)

    def shares(self, s: float, ends: Vector, under: list[Under]) -> tuple[Parts, Parts]:
        """The same at both ends of a piece of board that has one bearing."""
        one, other = ends
        wood = self.wood(s, (one + other) / 2, under)
        if wood is None:
            return self._across(s, one, under), self._across(s, other, under)
        return self._on(wood, s, one), self._on(wood, s, other)

    def _on(self, number: int, s: float, t: float) -> Parts:
        return ((number, self.members[number].line.nearest(self.plan(s, t)), 1.0),)

    def wood(self, s: float, t: float, under: list[Under]) -> int | None:
        """The member along the boards on whose wood a place is, with no member crossing between its ends."""
        for number, side, half, low, high in self.on_wood:
            if abs(s - side) < half and low < t < high:
                return None if any(low + ALONG < m[0] < high - ALONG for m in under) else number
        return None

    def _across(self, s: float, t: float, under: list[Under]) -> Parts:
        """Shares of the members that the board crosses."""
        if not under:
            return (self._nearest(self.plan(s, t)),)
        if len(under) == 1:
            return (self._square(under[0], s, t),)
        if t < under[0][0]:
            return self._past(s, t, under)
        if t > under[-1][0]:
            return self._past(s, t, under[::-1])
        after = next(i for i in range(1, len(under)) if t <= under[i][0])
        one, other = under[after - 1], under[after]
        part = (t - one[0]) / (other[0] - one[0]) if other[0] > one[0] else 0.5
        return (one[1], one[2], 1 - part), (other[1], other[2], part)

    def _square(self, one: Under, s: float, t: float) -> tuple[int, float, float]:
        return one[1], self.members[one[1]].line.nearest(self.plan(s, t)), 1.0

    def _past(self, s: float, t: float, under: list[Under]) -> Parts:
        """Shares past the last member, the first here: by lever, or all on a beam that the next one hangs from."""
        last, following = self.members[under[0][1]], under[1][1]
        if (following, last.mark) in self.hangs:
            return (self._square(under[0], s, t),)
        return _lever(abs(t - under[0][0]), under)

    def _nearest(self, point: Vector) -> tuple[int, float, float]:
        number, member = min(self.flush, key=lambda m: round(m[1].line.distance(point), 6))
        return number, member.line.nearest(point), 1.0


def _lever(a: float, under: list[Under]) -> Parts:
    """Shares of a pound on a board ``a`` past the last member, the last one first."""
    last = under[0]
    moment, up = a * last[3], 1.0
    parts = []
    for other in under[1:]:
        away = abs(other[0] - last[0]) * last[3]
        held = moment / max(away, HOLD)
        parts.append((other[1], other[2], -held))
        up, moment = up + held, moment - held * away
        if away >= HOLD:
            break
    return (last[1], last[2], up), *parts
