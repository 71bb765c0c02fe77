"""Deck boards in half-inch strips: what every point of the deck lays on which member.

Deck boards are simple spans between neighbouring members under them; past the last member a board acts by lever over
that member, held down by the next one inward. A hold-down nearer than 6 in. to the last member counts as 6 in. away,
and the rest of the moment is held by the member inward of it (and so on inward, where that one is near too).

Said beside that sentence, where it says nothing: a member is under a board where its wood overlaps the board, and
bears it at its centre line; where that is past the board's end, at the end. A board over one member alone lies on that,
square to it. What lies past the ends of joists that hang from a beam, on it or beside it, lies on that beam.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from outside.drawing import Drawing, Field

STRIP = 0.5  # in
NEAREST = 6.0  # in: the least arm of a hold-down, part of the sentence above
PIECE = 1.0  # in: pieces of a strip that lies along a member
TINY = 1e-6
SAME = 1e-4  # in: crossings nearer than this along a board are in one place

Share = tuple[int, float, float]  # beam's number, place along it (in), part of the load


@dataclass(frozen=True)
class Crossing:
    t: float
    beam: int
    x: float


def spans_on(field: Field, s: float) -> list[tuple[float, float]]:
    """Stretches of the field's region along the boards at ``s``."""
    found = []
    region = field.region
    for polygon in getattr(region, "geoms", [region]):
        for ring in (polygon.exterior, *polygon.interiors):
            xy = np.array(ring.coords)
            a, t = xy @ field.u, xy @ field.n
            low, high = a[:-1], a[1:]
            cut = (low <= s) != (high <= s)
            share = (s - low[cut]) / (high[cut] - low[cut])
            found += (t[:-1][cut] + share * (t[1:][cut] - t[:-1][cut])).tolist()
    found.sort()
    return [(a, b) for a, b in zip(found[::2], found[1::2], strict=True) if b - a > TINY]


class Deck:
    """The boards of a drawing."""

    def __init__(self, drawing: Drawing) -> None:
        self.drawing = drawing
        self.decked = [i for i, beam in enumerate(drawing.beams) if beam.decked]
        self.lines: dict[int, tuple[np.ndarray, ...]] = {}
        self.special: dict[int, list[float]] = {}

    def crossings(self, field: Field, s: float, span: tuple[float, float]) -> list[Crossing]:
        """Members under the boards at ``s`` between two ends of the deck, in order along the boards."""
        numbers, slope, start, length, offset, rise, half = self._lines(field)
        x = (s - start) / slope
        t = offset + x * rise
        under = (x >= -TINY / 2) & (x <= length + TINY / 2) & (t >= span[0] - half) & (t <= span[1] + half)
        order = np.flatnonzero(under)[np.argsort(t[under], kind="stable")]
        found = [Crossing(float(t[k]), int(numbers[k]), float(x[k])) for k in order]
        return [self._on_board(field, s, span, crossing) for crossing in found]

    def _on_board(self, field: Field, s: float, span: tuple[float, float], c: Crossing) -> Crossing:
        """A crossing past the board's end with the member's wood under it: borne at the end, square to the member."""
        t = min(max(c.t, span[0]), span[1])
        return c if t == c.t else Crossing(t, c.beam, self._along(c.beam, field, s, t))

    def _lines(self, field: Field) -> tuple[np.ndarray, ...]:
        """Members across the boards: numbers, and their lines in the field's axes."""
        if id(field) not in self.lines:
            across = [i for i in self.decked if abs(self.drawing.beams[i].u @ field.u) >= 1e-9]
            beams = [self.drawing.beams[i] for i in across]
            slope = np.array([beam.u @ field.u for beam in beams])
            self.lines[id(field)] = (
                np.array(across),
                slope,
                np.array([beam.start @ field.u for beam in beams]),
                np.array([beam.length for beam in beams]),
                np.array([beam.start @ field.n for beam in beams]),
                np.array([beam.u @ field.n for beam in beams]),
                np.array([beam.half for beam in beams]) / np.abs(slope),
            )
        return self.lines[id(field)]

    def alongside(self, field: Field, s: float) -> list[tuple[int, float, float]]:
        """Members along the boards with their wood at ``s``: number, from and to along the boards."""
        found = []
        for i in self.decked:
            beam = self.drawing.beams[i]
            if abs(beam.u @ field.u) < 1e-9 and abs(beam.start @ field.u - s) <= beam.half + TINY:
                ends = sorted((beam.start @ field.n, beam.at(beam.length) @ field.n))
                found.append((i, *ends))
        return found

    def rule(self, field: Field, s: float, t: float, crossings: list[Crossing], beside) -> list[tuple] | int:
        """What bears a load near ``t``: (beam, place, part at t = 0, part per inch of t), or the beam it lies on."""
        for i, low, high in beside:
            if low - TINY <= t <= high + TINY and not any(low + TINY < c.t < high - TINY for c in crossings):
                return i
        if not crossings:
            return self._nearest(s * field.u + t * field.n)
        if len(crossings) == 1:
            return crossings[0].beam
        if t < crossings[0].t or t > crossings[-1].t:
            inward = crossings if t < crossings[0].t else crossings[::-1]
            if abs(inward[1].t - inward[0].t) < SAME and self._hangs(inward[0], inward[1]):
                inward = [
                    inward[1],
                    inward[0],
                    *inward[2:],
                ]  # right over the place where one hangs from the other
            if self._hangs(inward[1], inward[0]):
                return inward[0].beam  # the next one inward hangs from it and ends there
            return _lever(inward, 1.0 if t < crossings[0].t else -1.0, self._sine(inward[0], field))
        k = next(k for k in range(len(crossings) - 1) if t <= crossings[k + 1].t)
        a, b = crossings[k], crossings[k + 1]
        gap = b.t - a.t
        if gap < TINY:
            return [(a.beam, a.x, 1.0, 0.0)]
        return [(a.beam, a.x, b.t / gap, -1 / gap), (b.beam, b.x, -a.t / gap, 1 / gap)]

    def _hangs(self, crossing: Crossing, other: Crossing) -> bool:
        below = self.drawing.beams[other.beam].mark
        return any(mark == below for _, mark, _ in self.drawing.beams[crossing.beam].seats)

    def _sine(self, crossing: Crossing, field: Field) -> float:
        """Sine of the angle between a member and the boards."""
        return abs(float(self.drawing.beams[crossing.beam].u @ field.u))

    def _along(self, i: int, field: Field, s: float, t: float) -> float:
        beam = self.drawing.beams[i]
        return float(np.clip((s * field.u + t * field.n - beam.start) @ beam.u, 0, beam.length))

    def _nearest(self, point: np.ndarray) -> int:
        def off(i: int) -> float:
            beam = self.drawing.beams[i]
            x = float(np.clip((point - beam.start) @ beam.u, 0, beam.length))
            return float(np.hypot(*(point - beam.at(x))))

        return min(self.decked, key=off)

    def cuts(self, field: Field) -> list[float]:
        """Edges of the strips: wherever a corner, a member's end or a seat lies, or its wood leaves the deck."""
        places = []
        for polygon in [field.region, *(area for _, area, _ in self.drawing.areas)]:
            for part in getattr(polygon, "geoms", [polygon]):
                for ring in (part.exterior, *part.interiors):
                    places += (np.array(ring.coords) @ field.u).tolist()
        corners = np.concatenate(
            [np.array(p.exterior.coords) @ field.u for p in getattr(field.region, "geoms", [field.region])]
        )
        low, high = corners.min(), corners.max()
        for i in self.decked:
            beam = self.drawing.beams[i]
            for x in (0.0, beam.length, *(seat[0] for seat in beam.seats)):
                places.append(float(beam.at(x) @ field.u))
            if abs(beam.u @ field.u) < 1e-9:
                places += [places[-1] - beam.half, places[-1] + beam.half]
        places += self._leaving(field)
        kept = [low]
        for p in sorted(places):
            if p - kept[-1] > 1e-4 and high - p > 1e-4:
                kept.append(p)
        return [*kept, high]

    def _leaving(self, field: Field) -> Iterator[float]:
        """Where the wood of members comes under an end of the boards, or leaves it: faces, along the boards."""
        _, slope, start, length, offset, rise, half = self._lines(field)
        for polygon in getattr(field.region, "geoms", [field.region]):
            for ring in (polygon.exterior, *polygon.interiors):
                xy = np.array(ring.coords)
                s, t = xy @ field.u, xy @ field.n
                for a, b, c, d in zip(s, s[1:], t, t[1:], strict=False):
                    if abs(b - a) < TINY:
                        continue
                    k = (d - c) / (b - a)
                    steep = rise / slope - k
                    for face in (half, -half):
                        with np.errstate(divide="ignore", invalid="ignore"):
                            x = a - (offset + (a - start) * rise / slope + face - c) / steep
                        along = (x - start) / slope
                        on = (np.abs(steep) > 1e-9) & (min(a, b) < x) & (x < max(a, b))
                        yield from x[on & (along > 0) & (along < length)].tolist()

    def strips(self, field: Field) -> Iterator[tuple[float, float]]:
        """Middle and width of every strip."""
        special = self.special_cuts(field)
        for a, b in zip(special, special[1:], strict=False):
            count = int(np.ceil((b - a) / STRIP - 1e-9))
            width = (b - a) / count
            for k in range(count):
                yield a + (k + 0.5) * width, width

    def cells(self) -> Iterator[tuple[float, list[Share], list[Share], np.ndarray]]:
        """Pieces of strips with one rule: area, shares at both ends (linear between), a point inside."""
        for field in self.drawing.fields:
            for s, width in self.strips(field):
                for span in spans_on(field, s):
                    crossings, beside = self.crossings(field, s, span), self.alongside(field, s)
                    breaks = {*span, *(c.t for c in crossings), *(t for _, a, b in beside for t in (a, b))}
                    breaks |= set(self._area_breaks(field, s))
                    inside = sorted(t for t in breaks if span[0] <= t <= span[1])
                    for a, b in zip(inside, inside[1:], strict=False):
                        if b - a < 1e-7:
                            continue
                        middle = (a + b) / 2
                        rule = self.rule(field, s, middle, crossings, beside)
                        if isinstance(rule, int):
                            yield from self._on_one(rule, field, (s, width), (a, b))
                            continue
                        ends = [[(i, x, p + q * t) for i, x, p, q in rule] for t in (a, b)]
                        yield width * (b - a), ends[0], ends[1], s * field.u + middle * field.n

    def _on_one(self, i: int, field: Field, strip: tuple[float, float], ends: tuple[float, float]):
        """Short pieces of a strip that lies on one member, each on the member's place nearest to it."""
        (s, width), (a, b) = strip, ends
        places = np.linspace(a, b, int(np.ceil((b - a) / PIECE - 1e-9)) + 1)
        for t, following in zip(places, places[1:], strict=False):
            shares = [[(i, self._along(i, field, s, x), 1.0)] for x in (t, following)]
            yield width * (following - t), *shares, s * field.u + (t + following) / 2 * field.n

    def _area_breaks(self, field: Field, s: float) -> Iterator[float]:
        for _, area, _ in self.drawing.areas:
            for span in spans_on(Field(field.u, field.n, area), s):
                yield from span

    def special_cuts(self, field: Field) -> list[float]:
        """The cuts, found once."""
        if id(field) not in self.special:
            self.special[id(field)] = self.cuts(field)
        return self.special[id(field)]

    def shares(self, field: Field, s: float, t: float) -> list[Share]:
        """Shares of a load at one place of a field, by the strip there."""
        spans = spans_on(field, s)
        if not spans:
            i = self._nearest(s * field.u + t * field.n)
            return [(i, self._along(i, field, s, t), 1.0)]
        span = min(spans, key=lambda p: max(p[0] - t, t - p[1], 0.0))
        rule = self.rule(field, s, t, self.crossings(field, s, span), self.alongside(field, s))
        if isinstance(rule, int):
            return [(rule, self._along(rule, field, s, t), 1.0)]
        return [(i, x, p + q * t) for i, x, p, q in rule]


def _lever(inward: list[Crossing], sign: float, sine: float) -> list[tuple]:
    """Past the last member, a = sign (last - t): the sentence at the head of this module, told again inward.

    How near a hold-down is to the last member counts square to that: ``sine`` of its angle with the boards.
    """
    last = inward[0]
    held, rest = [], 1.0
    for c in inward[1:]:
        d = abs(c.t - last.t)
        least = NEAREST / sine
        held.append((c, rest / max(d, least)))
        if d >= least:
            break
        rest *= 1 - d / least
    total = sum(per for _, per in held)
    shares = [(last.beam, last.x, 1 + sign * last.t * total, -sign * total)]
    return shares + [(c.beam, c.x, -sign * last.t * per, sign * per) for c, per in held]
