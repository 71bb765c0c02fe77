"""Loads on the deck's edge: one person at a board's end, a guard; on boards that have their width."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from shapely import Point

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

    def places(self) -> Iterator[list[Share]]:
        """Where one person may stand: over every member and at both ends of every strip; between is never worse."""
        for field in self.drawing.fields:
            for s, _ in self.deck.strips(field):
                for span in spans_on(field, s):
                    for c in self.deck.crossings(field, s, span):
                        if span[0] <= c.t <= span[1]:
                            yield [(c.beam, c.x, 1.0)]
                    for t, inside in ((span[0], TINY), (span[1], -TINY)):
                        yield self.edge(field, s, t + inside)

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
        stops = sorted((c for c in cuts if 2 * TINY < (c - s) * way < most), key=lambda c: (c - s) * way)
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
