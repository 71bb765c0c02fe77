"""The frame model's own shares of the deck: boards in strips, each from member to member, by its own count.

Apart from the load path: nothing of its panels, cells or shares is used. A strip is a piece of board across the joists;
between two neighbouring members it is a simple span; past the last member it acts by lever over that member, held down
by the next one inward. A hold-down nearer than 6 in. counts as 6 in. away, and the rest of the moment is held by the
member inward of it. Past a member that lies along the board rather than across it there is no lever: the board lies on
it. A strip over one member alone lies on that member, one over none on the nearest.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from bolewright.platform.joists import field_axes, field_region
from bolewright.platform.lines import Line, Vector
from bolewright.platform.parts import Layout, Member
from bolewright.platform.project import JoistField

HOLD = 6.0  # in: a hold-down nearer than this counts as this far away
NEAR_EDGE = (
    6.0,
    9.0,
)  # in: deck beside a member along the boards whose edge is nearer lies on it, farther not
PAST = 9.0  # in: a strip no farther past a member's end, on the wood that carries it, lies on that end
SLANT = (
    4.0,
    10.0,
)  # rise of a member along the board: below the first it is crossed, above the other it lies along it
INSIDE = 0.01  # in
TOUCH = 0.25  # in
ALONG = 1e-6  # a member whose line runs along the boards within this is crossed by none

Parts = tuple[tuple[int, float, float], ...]  # member, place along it, share of a pound
Under = tuple[
    float, int, float, float, float
]  # place along the board, member, place along it, half width, slant


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
    slant: float

    def at(self, s: float) -> tuple[float, float]:
        """Place along the boards, and along the member."""
        return self.t + self.slope * (s - self.start), min(
            max((s - self.start) / self.rate, 0.0), self.length
        )


class Boards:
    """The boards of one joist field."""

    def __init__(self, layout: Layout, field: JoistField) -> None:
        """Boards of a field, in its axes: s along the joists, t along the boards."""
        self.u, self.n = field_axes(field)
        self.region = field_region(field, layout.deck)
        self.members = layout.members
        self.flush = [(i, m) for i, m in enumerate(layout.members) if m in layout.flush]
        rings = (self.region.exterior, *self.region.interiors)
        self.rings = [[self.place(p) for p in ring.coords] for ring in rings]
        slants = ((i, m.line, _lies_along(self._rise(m))) for i, m in self.flush)
        self.along = [(i, line, part) for i, line, part in slants if part > 0]
        self.crossed = [c for i, m in self.flush if (c := self._crossed(i, m)) is not None]

    def place(self, point: Sequence[float]) -> Vector:
        """Place (s, t) of a plan point."""
        return point[0] * self.u[0] + point[1] * self.u[1], point[0] * self.n[0] + point[1] * self.n[1]

    def plan(self, s: float, t: float) -> Vector:
        """Plan point of a place."""
        return s * self.u[0] + t * self.n[0], s * self.u[1] + t * self.n[1]

    def _crossed(self, number: int, member: Member) -> _Crossed | None:
        line = member.line
        rate = line.u[0] * self.u[0] + line.u[1] * self.u[1]
        if abs(rate) < ALONG:
            return None
        s, t = self.place(line.start)
        slope = (line.u[0] * self.n[0] + line.u[1] * self.n[1]) / rate
        before, after = (self._past_end(member, x, x + way) for x, way in ((0.0, -PAST), (line.length, PAST)))
        ends = sorted((s - before * rate, s + (line.length + after) * rate))
        half = member.width / 2 * math.hypot(1.0, slope)
        return _Crossed(number, s, rate, line.length, ends[0], ends[1], t, slope, half, _lies_along(slope))

    def _past_end(self, member: Member, x: float, beyond: float) -> float:
        """How far past its end a member counts: to the edge near by, where it ends at one along the boards."""
        end, other = member.line.at(x), member.line.at(beyond)
        near = (m for _, m in self.flush if m is not member and m.line.distance(end) <= m.width / 2 + TOUCH)
        if max((_lies_along(self._rise(m)) for m in near), default=0.0) < 1.0:
            return 0.0
        out = self._ahead(end, ((other[0] - end[0]) / PAST, (other[1] - end[1]) / PAST))
        return out if out <= PAST else 0.0

    def _rise(self, member: Member) -> float:
        ds, dt = (member.line.u[0] * axis[0] + member.line.u[1] * axis[1] for axis in (self.u, self.n))
        return dt / ds if abs(ds) > ALONG else math.inf

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
                under.append((t, c.number, x, c.slant, c.half))
        under.sort()
        for low, high in zip(cuts[::2], cuts[1::2], strict=True):
            yield low, high, [_bearing(m, low, high) for m in under if low - m[4] < m[0] < high + m[4]]

    def share(self, s: float, t: float, under: list[Under]) -> Parts:
        """What the members get of a pound on the board at (s, t)."""
        parts = self._across(s, t, under)
        if not self.along:
            return parts
        point = self.plan(s, t)
        lies = ((number, *self._lies(line, part, point)) for number, line, part in self.along)
        straight = [one for one in lies if one[2] > 0]
        if not straight:
            return parts
        whole = max(1.0, sum(w for *_, w in straight))
        left = 1.0 - sum(w for *_, w in straight) / whole
        return (
            *((n, x, w / whole) for n, x, w in straight),
            *((n, x, share * left) for n, x, share in parts),
        )

    def _lies(self, line: Line, part: float, point: Vector) -> tuple[float, float]:
        """Place along a member that runs along the boards, and how much of a load at a point lies straight on it."""
        x = line.along(point)
        off = (point[0] - line.start[0]) * line.u[1] - (point[1] - line.start[1]) * line.u[0]
        if not 0.0 <= x <= line.length or not 1e-6 < abs(off) < NEAR_EDGE[1]:
            return x, 0.0
        side = math.copysign(1.0, off)
        edge = abs(off) + self._ahead(point, (side * line.u[1], -side * line.u[0]))
        return x, part * min(max((NEAR_EDGE[1] - edge) / (NEAR_EDGE[1] - NEAR_EDGE[0]), 0.0), 1.0)

    def _ahead(self, point: Vector, way: Vector) -> float:
        """Distance from a point to the edge of the field, one way."""
        (s, t), (ds, dt) = self.place(point), self.place(way)
        nearest = math.inf
        for ring in self.rings:
            for (s1, t1), (s2, t2) in pairwise(ring):
                x, y = s2 - s1, t2 - t1
                cross = ds * y - dt * x
                if abs(cross) > ALONG:
                    ahead = ((s1 - s) * y - (t1 - t) * x) / cross
                    f = ((s1 - s) * dt - (t1 - t) * ds) / cross
                    if -ALONG <= f <= 1 + ALONG and ahead >= -ALONG:
                        nearest = min(nearest, ahead)
        return max(nearest, 0.0)

    def _across(self, s: float, t: float, under: list[Under]) -> Parts:
        """Shares of the members that the board crosses; one that lies partly past its end bears it in part."""
        for end in (0, -1):
            if len(under) > 1 and under[end][4] < 1.0:
                bears = under[end][4]
                whole = (*under[end][:4], 1.0)
                with_it = [whole, *under[1:]] if end == 0 else [*under[:-1], whole]
                without = under[1:] if end == 0 else under[:-1]
                return (
                    *((n, x, share * bears) for n, x, share in self._across(s, t, with_it)),
                    *((n, x, share * (1 - bears)) for n, x, share in self._across(s, t, without)),
                )
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
        """Shares past the last member, the first here: by lever, and square to it as far as it lies along the board."""
        lies = under[0][3]
        parts = _lever(abs(t - under[0][0]), under)
        if lies == 0.0:
            return parts
        number, x, _ = self._square(under[0], s, t)
        return (number, x, lies), *((n, at, share * (1 - lies)) for n, at, share in parts)

    def _nearest(self, point: Vector) -> tuple[int, float, float]:
        number, member = min(self.flush, key=lambda m: round(m[1].line.distance(point), 6))
        return number, member.line.nearest(point), 1.0


def _bearing(one: Under, low: float, high: float) -> Under:
    """A member under a board from ``low`` to ``high``: wholly, or in part where its middle is past the end."""
    t, number, x, slant, half = one
    return t, number, x, slant, 1.0 - max(low - t, t - high, 0.0) / half


def _lies_along(rise: float) -> float:
    """How far a member of such a rise lies along the boards: 0 where they cross it, 1 along it."""
    return min(max((abs(rise) - SLANT[0]) / (SLANT[1] - SLANT[0]), 0.0), 1.0)


def _lever(a: float, under: list[Under]) -> Parts:
    """Shares of a pound on a board ``a`` past the last member, the last one first."""
    last, moment, up = under[0], a, 1.0
    parts = []
    for other in under[1:]:
        away = abs(other[0] - last[0])
        held = moment / max(away, HOLD)
        parts.append((other[1], other[2], -held))
        up, moment = up + held, moment - held * away
        if away >= HOLD:
            break
    return (last[1], last[2], up), *parts
