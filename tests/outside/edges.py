"""Loads on the deck's edge: one person at a board's end, a guard; on boards that have their width."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from shapely import LineString, Point

from outside.boards import TINY, Deck, Share, spans_on
from outside.drawing import Field

BESIDE = 5e-5  # in: past a place where other members begin


class Edges:
    """What a load at the deck's edge lays on which member."""

    def __init__(self, deck: Deck) -> None:
        self.deck = deck
        self.drawing = deck.drawing

    def point(self, at: np.ndarray) -> list[Share]:
        """Shares of a load at one point of the edge."""
        field = min(self.drawing.fields, key=lambda f: f.region.distance(Point(*at)))
        return self.edge(field, float(at @ field.u), float(at @ field.n))

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
                        yield self.edge(field, s, t + inside)
        reach = self.drawing.deck.buffer(1e-6)
        for i in self.deck.decked:
            beam = self.drawing.beams[i]
            seats = [at + aside for at, _, _ in beam.seats for aside in (-BESIDE, BESIDE)]
            for x in (*nodes[i], *seats, *self._edges_over(i)):
                if 0 <= x <= beam.length and reach.contains(Point(*beam.at(x))):
                    yield [(i, float(x), 1.0)]

    def _looked_at(self, field: Field, nodes: list[np.ndarray]) -> list[float]:
        cuts = self.deck.special_cuts(field)
        places = [c + aside for c in cuts for aside in (-TINY, TINY)]
        for i in self.deck.decked:
            beam = self.drawing.beams[i]
            places += [float(beam.at(x) @ field.u) for x in nodes[i]]
        kept: list[float] = []
        for s in sorted(float(np.clip(p, cuts[0] + TINY, cuts[-1] - TINY)) for p in places):
            if not kept or s - kept[-1] > TINY / 2:
                kept.append(s)
        return kept

    def _edges_over(self, i: int) -> list[float]:
        """Where the deck's edge passes over a member."""
        beam = self.drawing.beams[i]
        crossing = self.drawing.deck.boundary.intersection(LineString([beam.start, beam.at(beam.length)]))
        points = [xy for part in getattr(crossing, "geoms", [crossing]) for xy in part.coords]
        return [float((np.array(xy) - beam.start) @ beam.u) for xy in points]

    def edge(self, field: Field, s: float, t: float) -> list[Share]:
        """Shares of a load on the deck's edge, on a board as wide as boards are.

        Where less than a board's width of deck has the members under it that the edge has there, that part of the
        load goes by them, and the rest by those under the deck next to it, at the same place along the boards.
        """
        if self._straight(field, s, t):
            return self.deck.shares(field, s, t)  # on the wood of one member there is no board's end
        width = self.drawing.board
        (up, above), (down, below) = (self._reach(field, s, t, way, width) for way in (1.0, -1.0))
        if up + down >= width or (above is None and below is None):
            return self.deck.shares(field, s, t)
        way = 1.0 if self._room(field, s, 1.0) > self._room(field, s, -1.0) else -1.0
        if above is None or below is None:
            way = 1.0 if below is None else -1.0
        start = above if way > 0 else below
        found, left = self._part(field, (s, t), (up + down) / width), width - up - down
        while start is not None and left > TINY:
            place = start + 2 * TINY * way
            deep, following = self._reach(field, place, t, way, left)
            part = left if following is None else min(deep, left)
            found += self._part(field, (place, t), part / width)
            left, start = left - part, following
        return found

    def _room(self, field: Field, s: float, way: float) -> float:
        cuts = self.deck.special_cuts(field)
        return (cuts[-1] - s) if way > 0 else (s - cuts[0])

    def _reach(self, field: Field, s: float, t: float, way: float, most: float) -> tuple[float, float | None]:
        """How far the deck has the members under it that bear a load here, and where others begin if they do."""
        here = self._under(field, s, t)
        cuts = self.deck.special_cuts(field)
        stops = sorted((c for c in cuts if TINY / 2 < (c - s) * way < most), key=lambda c: (c - s) * way)
        for stop in stops:
            if stop in (cuts[0], cuts[-1]) or not self._deck_near(field, stop + BESIDE * way, t):
                return abs(stop - s), None
            if self._under(field, stop + BESIDE * way, t) != here:
                return abs(stop - s), stop
        return min(most, self._room(field, s, way)), None

    def _deck_near(self, field: Field, s: float, t: float) -> bool:
        """Whether a strip has deck at a place along it, or ends at most two boards before."""
        return any(
            a - 2 * self.drawing.board <= t <= b + 2 * self.drawing.board for a, b in spans_on(field, s)
        )

    def _straight(self, field: Field, s: float, t: float) -> bool:
        shares = self.deck.shares(field, s, t)
        return len(shares) == 1 and not self.drawing.beams[shares[0][0]].joist

    def _part(self, field: Field, at: tuple[float, float], part: float) -> list[Share]:
        return [(i, x, v * part) for i, x, v in self.deck.shares(field, *at)]

    def _under(self, field: Field, s: float, t: float) -> list[int]:
        """The members that bear a load there."""
        return sorted(i for i, _, part in self.deck.shares(field, s, t) if part)
