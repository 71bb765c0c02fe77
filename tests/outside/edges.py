"""Loads on the deck's edge: one person at a board's end, a guard; on boards that have their width."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from shapely import LineString, Point

from outside.boards import SAME, TINY, Deck, Share, spans_on
from outside.drawing import Field

JUST = 0.01  # in
ASKEW = 0.25  # in per in: ends of boards cut askew by no more than this are one edge
TURN = 0.01  # of the slope: an edge that turns by less goes on
AT_END = 0.05  # in: a place so near to an end of the boards is at it
PAST, OVER, NONE = "past a member", "over members", "over none"
BESIDE = 5e-5  # in: past a place where other members begin


class Edges:
    """What a load at the deck's edge lays on which member."""

    def __init__(self, deck: Deck) -> None:
        self.deck = deck
        self.drawing = deck.drawing

    def point(self, at: np.ndarray) -> list[Share]:
        """Shares of a load at one point of the edge."""
        field = min(self.drawing.fields, key=lambda f: f.region.distance(Point(*at)))
        ways = self.edge(field, float(at @ field.u), float(at @ field.n))
        return [(i, x, part / len(ways)) for way in ways for i, x, part in way]

    def places(self, nodes: list[np.ndarray]) -> Iterator[list[Share]]:
        """Where one person may stand: over every member, at both ends of every strip, and just beside every seat.

        Strips are looked at wherever bearing changes and at every node of a member: between these what a person does
        has no peak.
        """
        for field in self.drawing.fields:
            for s in self._looked_at(field, nodes):
                for span in spans_on(field, s):
                    for c in self.deck.crossings(field, s, span):
                        if span[0] <= c.t <= span[1]:
                            yield [(c.beam, c.x, 1.0)]
                    for t, inside in ((span[0], TINY), (span[1], -TINY)):
                        yield from self.edge(field, s, t + inside)
        reach = self.drawing.deck.buffer(1e-6)
        for i in self.deck.decked:
            beam = self.drawing.beams[i]
            seats = [at + aside for at, _, _ in beam.seats for aside in (-BESIDE, BESIDE)]
            between = [nodes[i][:-1] + part * np.diff(nodes[i]) for part in (0.25, 0.5, 0.75)]
            for x in (*nodes[i], *np.concatenate(between), *seats, *self._edges_over(i)):
                across = [
                    beam.at(x) + face * beam.half * np.array([-beam.u[1], beam.u[0]]) for face in (-1, 0, 1)
                ]
                if 0 <= x <= beam.length and any(reach.contains(Point(*at)) for at in across):
                    yield [(i, float(x), 1.0)]

    def _looked_at(self, field: Field, nodes: list[np.ndarray]) -> list[float]:
        cuts = self.deck.special_cuts(field)
        places = [c + aside for c in cuts for aside in (-2 * SAME, -TINY, TINY, 2 * SAME)]
        for i in self.deck.decked:
            beam = self.drawing.beams[i]
            middles = (nodes[i][1:] + nodes[i][:-1]) / 2
            places += [float(beam.at(x) @ field.u) for x in (*nodes[i], *middles)]
        kept: list[float] = []
        for s in sorted(float(np.clip(p, cuts[0] + TINY, cuts[-1] - TINY)) for p in places):
            on_cut = (
                np.abs(np.subtract(cuts, s)).min() < TINY / 2
            )  # two members that meet there are never both under
            if not on_cut and (not kept or s - kept[-1] > TINY / 2):
                kept.append(s)
        return kept

    def _edges_over(self, i: int) -> list[float]:
        """Where the deck's edge passes over a member: over its centre line and both faces."""
        beam = self.drawing.beams[i]
        found = []
        for face in (-1, 0, 1):
            aside = face * beam.half * np.array([-beam.u[1], beam.u[0]])
            line = LineString([beam.start + aside, beam.at(beam.length) + aside])
            crossing = self.drawing.deck.boundary.intersection(line)
            points = [xy for part in getattr(crossing, "geoms", [crossing]) for xy in part.coords]
            found += [float((np.array(xy) - beam.start) @ beam.u) for xy in points]
        return found

    def edge(self, field: Field, s: float, t: float) -> list[list[Share]]:
        """Shares of a load on the deck's edge, on a board as wide as boards are; two where it may lie either way.

        Where less than a board's width of deck has the members under it that the edge has there, that part of the
        load goes by them, and the rest by those under the deck next to it, at the same place along the boards. The
        board may reach to either side where the deck has room for it: one person is looked at both ways, of a guard
        each takes half.
        """
        if self._straight(field, s, t):
            return [self.deck.shares(field, s, t)]  # on the wood of one member there is no board's end
        width = self.drawing.board
        end = self._end(field, s, t)
        (up, above), (down, below) = (self._reach(field, s, (s, t), way, width, end) for way in (1.0, -1.0))
        if up + down >= width or (above is None and below is None):
            return [self.deck.shares(field, s, t)]
        own = self._part(field, (s, t), (up + down) / width)
        both = [(way, start) for way, start in ((1.0, above), (-1.0, below)) if start is not None]
        rests = [self._rest(field, start, (s, t), way, width - up - down) for way, start in both]
        least = min(left for left, _ in rests)
        return [own + shares for left, shares in rests if left < least + TINY]

    def _rest(
        self, field: Field, start: float | None, at: tuple[float, float], way: float, left: float
    ) -> tuple[float, list[Share]]:
        """What is left of a board's width, on the deck to one side; and how much of it has no deck there."""
        found: list[Share] = []
        while start is not None and left > TINY:
            place = start + 4 * BESIDE * way  # clear of a place where one member hangs from another
            deep, following = self._reach(field, place, at, way, left)
            part = left if following is None else min(deep, left)
            found += self._part(field, (place, at[1]), part / self.drawing.board)
            left, start = left - min(deep, left), following
        return left, found

    def _room(self, field: Field, s: float, way: float) -> float:
        cuts = self.deck.special_cuts(field)
        return (cuts[-1] - s) if way > 0 else (s - cuts[0])

    def _reach(
        self, field: Field, s: float, at: tuple[float, float], way: float, most: float, end: int | None = None
    ) -> tuple[float, float | None]:
        """How far the deck has the members under it that bear a load here, and where others begin if they do.

        Of a load on one end of the boards (``end`` 0 or 1), as far as that end of theirs has them: it may be askew.
        """
        t = at[1]
        here = self._under(field, s, t)
        cuts = self.deck.special_cuts(field)
        places = cuts if end is not None else [*cuts, *self._passing(field, t)]
        stops = sorted((c for c in places if TINY / 2 < (c - s) * way < most), key=lambda c: (c - s) * way)
        for stop in stops:
            ends = stop in (cuts[0], cuts[-1])
            there = stop + BESIDE * way
            turned = end is not None and not ends and self._turned(field, (s, t), stop, way, end)
            goes_on = _alike(self._under(field, there, self._along_end(field, there, t, end)), here)
            if ends or turned or not goes_on:
                near = not ends and self._deck_near(field, stop + BESIDE * way, at)
                return abs(stop - s), stop if near else None
        return min(most, self._room(field, s, way)), None

    def _passing(self, field: Field, t: float) -> list[float]:
        """Where members' centre lines pass a place along the boards: on either side of it other members bear it."""
        _, slope, start, length, offset, rise, _ = self.deck._lines(field)
        askew = np.abs(rise) > 1e-9
        x = (t - offset[askew]) / rise[askew]
        on = (x > 0) & (x < length[askew])
        return (start[askew][on] + x[on] * slope[askew][on]).tolist()

    def _end(self, field: Field, s: float, t: float) -> int | None:
        """Which end of the boards at ``s`` a place is at: 0 or 1, None where it is at neither."""
        off = [(abs(t - at), i) for span in spans_on(field, s) for i, at in enumerate(span)]
        return min(off)[1] if off and min(off)[0] < AT_END else None

    def _along_end(self, field: Field, s: float, t: float, end: int | None) -> float:
        """Where along the boards at ``s`` the end is that goes on from a place at one of theirs."""
        ends = [] if end is None else [span[end] for span in spans_on(field, s)]
        return t if not ends else min(ends, key=lambda at: abs(at - t)) + (TINY if end == 0 else -TINY)

    def _turned(self, field: Field, at: tuple[float, float], stop: float, way: float, end: int) -> bool:
        """Whether the edge on which the boards' ends lie turns at a place, or ends there."""
        near, just, far = (
            self._along_end(field, stop + aside * way, at[1], end) for aside in (-BESIDE, BESIDE, 2 * BESIDE)
        )
        rise = (near - at[1]) / (stop - BESIDE * way - at[0]) if abs(stop - at[0]) > 3 * BESIDE else None
        after = (far - just) / (BESIDE * way)
        if rise is None:
            before = self._along_end(field, stop - 2 * BESIDE * way, at[1], end)
            rise = (near - before) / (BESIDE * way)
        return abs(after - rise) > TURN * (1 + abs(rise)) or abs(just - near) > 3 * BESIDE * (1 + abs(rise))

    def _deck_near(self, field: Field, s: float, at: tuple[float, float]) -> bool:
        """Whether a strip has deck at a place along it, or ends just before; by so much more as ends are askew."""
        near = JUST + ASKEW * abs(s - at[0])
        return any(a - near <= at[1] <= b + near for a, b in spans_on(field, s))

    def _straight(self, field: Field, s: float, t: float) -> bool:
        shares = self.deck.shares(field, s, t)
        return len(shares) == 1 and not self.drawing.beams[shares[0][0]].joist

    def _part(self, field: Field, at: tuple[float, float], part: float) -> list[Share]:
        return [(i, x, v * part) for i, x, v in self.deck.shares(field, *at)]

    def _under(self, field: Field, s: float, t: float) -> tuple[str, list[int]]:
        """Whether a load there is past a member's line, or over none at all, and the members that bear it."""
        shares = [(i, part) for i, _, part in self.deck.shares(field, s, t) if part]
        if shares[0][1] > 1 and all(part < 0 for _, part in shares[1:]):
            return PAST, [i for i, _ in shares]
        over = any(self.deck.crossings(field, s, span) for span in spans_on(field, s))
        return OVER if over else NONE, sorted(i for i, _ in shares)


def _alike(one: tuple[str, list[int]], other: tuple[str, list[int]]) -> bool:
    """A board past a member's line is the same whether the next one inward holds it down by itself or with others."""
    if not one[0] == other[0] == PAST:
        return one == other
    return one[1][:2] == other[1][:2] and all(a == b for a, b in zip(one[1], other[1], strict=False))
