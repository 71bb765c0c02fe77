"""A stiff plate in plan on the springs of its supports, by statics of our own: it imports nothing of the program.

A tree bolt: a bar of steel in an elastic bed, pushed in front of it, on a trunk that is a cantilever from the ground
(Hetenyi 1946, Beams on elastic foundation, bars of finite length with free ends). A post in concrete: a cantilever
from 12 in. below grade, pushed at its top along the beam on it, at that beam's top across it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, pi, sin, sinh

import numpy as np

STEEL = 29e6  # psi
SOFTER = 10.0  # the bed across the grain beside that along it: the program's judgement, taken as given
HELD = 12.0  # in. below grade


def bar_stiffness(D: float, L: float, e: float, bed: float) -> float:
    """Force for an inch of movement at e before the wood's face; bed in pounds an inch of length, an inch of movement.

    End of a bar under a force P and a moment M there: y = 2 P lam/k (sh ch - s c)/N + 2 M lam2/k (sh2 + s2)/N, slope
    2 P lam2/k (sh2 + s2)/N + 4 M lam3/k (sh ch + s c)/N, with N = sh2 - s2.
    """
    EI = STEEL * pi * D**4 / 64
    lam = (bed / (4 * EI)) ** 0.25
    x = lam * L
    sh, ch, s, c = sinh(x), (1 + sinh(x) ** 2) ** 0.5, sin(x), cos(x)
    N = sh**2 - s**2
    both = (sh**2 + s**2) / N
    y = 2 * lam / bed * (sh * ch - s * c) / N + 2 * e * lam**2 / bed * both
    slope = 2 * lam**2 / bed * both + 4 * e * lam**3 / bed * (sh * ch + s * c) / N
    return 1 / (y + slope * e + e**3 / (3 * EI))


def cantilever(E: float, I: float, l: float, d: float = 0.0) -> float:
    """Force for an inch at d above the end of a post l long, stiff there: a force P and its moment P d at the end."""
    at_end = l**3 / 3 + d * l**2 / 2
    turn = l**2 / 2 + d * l
    return E * I / (at_end + d * turn)


@dataclass(frozen=True)
class Spring:
    """A support: its place, its first direction, and the stiffness along that and square to it (lb/in)."""

    at: tuple[float, float]
    u: tuple[float, float]
    k: tuple[float, float]

    def axes(self) -> np.ndarray:
        """Its two directions, as rows."""
        c, s = self.u
        return np.array([[c, s], [-s, c]])

    def rows(self) -> np.ndarray:
        """Its movement along both directions as the plate moves along x, along y, and turns about the origin."""
        x, y = self.at
        return self.axes() @ np.array([[1, 0, -y], [0, 1, x]])


def tree_bolt(
    at: tuple, tree: tuple, *, r: float, E: float, D: float, L: float, level: float, kappa: float
) -> Spring:
    """One bolt held both ways in a trunk of sound radius r by itself."""
    out = np.subtract(at, tree)
    x_b = float(np.hypot(*out))
    trunk = cantilever(E, pi * (2 * r) ** 4 / 64, level)
    bar = bar_stiffness(D, L, x_b - r, E / (SOFTER * kappa))
    u = out / x_b
    return Spring(at, (float(u[0]), float(u[1])), (trunk, 1 / (1 / bar + 1 / trunk)))


def shared(
    springs: Sequence[Spring], load: np.ndarray, under: np.ndarray | None = None
) -> tuple[np.ndarray, np.ndarray]:
    """Force on every support (springs, 2, cases) and the plate's movement (3, cases), of F_x, F_y and M (3, cases).

    ``under``: how what a support stands in moves by itself, in its two directions (springs, 2, cases).
    """
    R = np.concatenate([s.rows() for s in springs])
    k = np.concatenate([s.k for s in springs])[:, None]
    g = np.zeros((len(R), load.shape[1])) if under is None else under.reshape(len(R), -1)
    moved = np.linalg.solve(R.T @ (k * R), load + R.T @ (k * g))
    return (k * (R @ moved - g)).reshape(len(springs), 2, -1), moved
