"""Joists of a rectangular deck under weight, wind and sway, by statics of our own: it imports nothing of the program.

Boards along x are simple spans from joist to joist and act by lever past the last; joists along y are beams on two
seats with free ends. What lateral forces leave to weight lies on the deck as a plane of pressure without a sum. All is
done by influence: what a pound at every place of a fine grid does to an effect; live load stands where that is
positive, snow lies whole there and half elsewhere.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

STEP = 0.5  # in. of the grid across and along the joists
HAIR = 1e-6  # in
WET = (
    62.4 * 0.55 / (1 + 0.009 * 0.55 * 28) * 1.28 / 1728
)  # lb/in3: Southern Pine (NDS 2018 Supplement, 3.1.3)


def lever(at: Sequence[float], x: np.ndarray) -> np.ndarray:
    """What each of the joists ``at`` gets of a pound on the boards at ``x`` (joists, places)."""
    places = np.asarray(at, dtype=float)
    found = np.zeros((places.size, x.size))
    for k, here in enumerate(x):
        i = int(np.clip(np.searchsorted(places, here) - 1, 0, places.size - 2))
        part = (here - places[i]) / (places[i + 1] - places[i])
        found[i, k], found[i + 1, k] = 1 - part, part
    return found


@dataclass(frozen=True)
class Seated:
    """A joist from 0 to ``length`` on two seats."""

    length: float
    seats: tuple[float, float]

    def reactions(self, y: np.ndarray) -> np.ndarray:
        """Of both seats from a pound at y (2, places)."""
        a, b = self.seats
        return np.stack([(b - y) / (b - a), (y - a) / (b - a)])

    def moment(self, s: float, y: np.ndarray) -> np.ndarray:
        """Moment at s from a pound at y, sagging positive."""
        R = self.reactions(y)
        pushed = sum(R[i] * max(s - seat, 0.0) for i, seat in enumerate(self.seats))
        return np.asarray(pushed - np.maximum(s - y, 0.0))

    def shear(self, s: float, y: np.ndarray, *, past: bool = False) -> np.ndarray:
        """What the part before s hands on past it: reactions less loads; just ``past`` a seat at s, with it."""
        R = self.reactions(y)
        before = (y < s - HAIR) + 0.5 * (np.abs(y - s) <= HAIR)  # half of a cell that s cuts in its middle
        return np.asarray(
            sum(R[i] for i, seat in enumerate(self.seats) if seat < s or (past and seat == s)) - before
        )


@dataclass(frozen=True)
class Deck:
    """A deck from (x0, y0) to (x1, y1): joists at ``lines``, each from ``start`` to ``end`` with seats at ``seats``.

    ``boards`` weight of boards and hardware, ``live``, ``snow`` (psf); ``guard`` plf on all four edges; ``size`` b, d
    of a joist. Deck that lies past the ends of joists lies on what they hang from.
    """

    x: tuple[float, float]
    y: tuple[float, float]
    lines: tuple[float, ...]
    ends: tuple[float, float]
    seats: tuple[float, float]
    size: tuple[float, float]
    live: float
    snow: float
    guard: float = 0.0

    @property
    def boards(self) -> float:
        """Weight of boards 1 1/2 in. thick and hardware (psf)."""
        return 1.5 * WET * 144 + 1.0

    @property
    def joist(self) -> Seated:
        """A joist from its own start."""
        return Seated(
            self.ends[1] - self.ends[0], (self.seats[0] - self.ends[0], self.seats[1] - self.ends[0])
        )

    @cached_property
    def grid(self) -> tuple[np.ndarray, np.ndarray]:
        """Middles of the cells, across (x) and along the joists (y): boards past their ends load no joist."""
        (x0, x1), (y0, y1) = self.x, (max(self.y[0], self.ends[0]), min(self.y[1], self.ends[1]))
        nx, ny = (max(1, round((b - a) / STEP)) for a, b in ((x0, x1), (y0, y1)))
        return (
            x0 + (np.arange(nx) + 0.5) * (x1 - x0) / nx,
            y0 + (np.arange(ny) + 0.5) * (y1 - y0) / ny,
        )

    def pressure(self, turn: Sequence[float]) -> np.ndarray:
        """Plane of pressure (psi; x, y) without a sum that makes these moments of force times x and times y."""
        (x0, x1), (y0, y1) = self.x, self.y
        a, b = x1 - x0, y1 - y0
        x, y = self.grid
        across = turn[0] / (b * a**3 / 12) * (x - (x0 + x1) / 2)
        along = turn[1] / (a * b**3 / 12) * (y - (y0 + y1) / 2)
        return np.asarray(across[:, None] + along[None, :])

    def effect(self, share: np.ndarray, influence, length: float) -> Effect:
        """An effect on one joist: ``share`` of boards at every x, ``influence`` of places along it from its start."""
        x, y = self.grid
        cell = (x[1] - x[0]) * (y[1] - y[0])
        along = influence(y - self.ends[0])
        field = share[:, None] * along[None, :] * cell
        raised, whole = np.maximum(field, 0).sum() / 144, field.sum() / 144
        b, d = self.size
        fine = (np.arange(round(length * 4)) + 0.5) / 4
        dead = self.boards * whole + WET * b * d * influence(fine).mean() * length
        if self.guard:
            g = self.guard / 12
            ends = influence(np.array([y_ - self.ends[0] for y_ in self.y])).sum()
            dead += g * share.sum() * (x[1] - x[0]) * ends
            at_edges = lever(self.lines, np.array(self.x))[self._row(share)].sum()
            dead += g * at_edges * along.sum() * (y[1] - y[0])
        by_turn = tuple(float((field * self.pressure(one)).sum()) for one in ((1, 0), (0, 1)))
        least = np.minimum(field, 0).sum() / 144
        return Effect(
            dead,
            self.live * np.array([raised, least]),
            self.snow * (whole / 2 + np.array([raised, least]) / 2),
            np.array(by_turn),
        )

    def _row(self, share: np.ndarray) -> int:
        shares = lever(self.lines, self.grid[0])
        return int(np.argmin(np.abs(shares - share).sum(axis=1)))

    def stations(self) -> np.ndarray:
        """Places along a joist where its moment is looked at."""
        return np.unique([*np.arange(0, self.joist.length, 1.0), *self.joist.seats])

    def effects(self, line: int) -> dict[str, list[Effect]]:
        """Moments, shears at the depth from each seat, and reactions of a joist."""
        share, joist = lever(self.lines, self.grid[0])[line], self.joist
        L = joist.length
        d = self.size[1]
        sheared = [s for seat in joist.seats for s in (seat - d, seat + d) if 0 < s < L]
        return {
            "moment": [self.effect(share, lambda y, s=s: joist.moment(s, y), L) for s in self.stations()],
            "shear": [self.effect(share, lambda y, s=s: joist.shear(s, y), L) for s in sheared],
            "reaction": [self.effect(share, lambda y, i=i: joist.reactions(y)[i], L) for i in (0, 1)],
        }


@dataclass(frozen=True)
class Effect:
    """An effect of dead load, of live load and snow at their most and least, of a moment of 1 lb·in along x and y."""

    dead: float
    live: np.ndarray
    snow: np.ndarray
    turn: np.ndarray

    def most(self, D: np.ndarray, L: np.ndarray, S: np.ndarray, turn: np.ndarray) -> np.ndarray:
        """In every case; ``turn`` (2, cases)."""
        return np.asarray(D * self.dead + L * self.live[0] + S * self.snow[0] + self.turn @ turn)

    def least(self, D: np.ndarray, L: np.ndarray, S: np.ndarray, turn: np.ndarray) -> np.ndarray:
        """The same, at its least."""
        return np.asarray(D * self.dead + L * self.live[1] + S * self.snow[1] + self.turn @ turn)


def bending_value(F_b: float, C_D: np.ndarray, l_u: float, b: float, d: float, E_min: float) -> np.ndarray:
    """F_b' of one of many joists (C_r 1.15) whose edge in compression is free over l_u (NDS 2018, 3.3.3.8, 4.3.9).

    l_e by footnote 1 of Table 3.3.3; E_min already adjusted.
    """
    F_star = F_b * 1.15 * C_D
    if not l_u:
        return np.asarray(F_star)
    ratio = l_u / d
    l_e = 2.06 * l_u if ratio < 7 else 1.63 * l_u + 3 * d if ratio <= 14.3 else 1.84 * l_u
    F_bE = 1.20 * E_min * b**2 / (l_e * d)
    q = F_bE / F_star
    return np.asarray(F_star * ((1 + q) / 1.9 - np.sqrt(((1 + q) / 1.9) ** 2 - q / 0.95)))
