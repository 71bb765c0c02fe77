"""A steel bar on an elastic bed of wood by beam elements of our own: it imports nothing of the program."""

from __future__ import annotations

from functools import cache
from math import pi

import numpy as np


def drop_of(D: float, L: float, e: float, k: float) -> float:
    """How far a pound so far before the face goes down: the bar's end and slope there, and its free part bent (in)."""
    u = _moved(D, L, e, k)[0]
    return float(u[0] - u[1] * e + e**3 / (3 * 29e6 * pi * D**4 / 64))


@cache
def bar_in_wood(D: float, L: float, e: float, k: float) -> tuple[float, float, float]:
    """Greatest moment and shear in a bar, and pressure at the wood's face, by a pound so far before it.

    Hermite's cubics, bending stiffness and bed each consistent: D its diameter, L in wood, e of the load before the
    face (in), k of the bed (lb/in2: pounds an inch of length, an inch of drop).
    """
    u, ends = _moved(D, L, e, k)
    return float(abs(ends[:, 1]).max()), float(abs(ends[:, 0]).max()), float(k * u[0] / D)


@cache
def _moved(D: float, L: float, e: float, k: float) -> tuple[np.ndarray, np.ndarray]:
    """Movements of the nodes (drop and slope in turn, from the face on), and forces at the ends of the elements."""
    n, EI = 140, 29e6 * pi * D**4 / 64
    h = L / n
    # fmt: off
    bent = EI / h**3 * np.array([[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
                                 [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]])
    bed = k * h / 420 * np.array([[156, 22 * h, 54, -13 * h], [22 * h, 4 * h * h, 13 * h, -3 * h * h],
                                  [54, 13 * h, 156, -22 * h], [-13 * h, -3 * h * h, -22 * h, 4 * h * h]])
    # fmt: on
    K, F = np.zeros((2 * n + 2, 2 * n + 2)), np.zeros(2 * n + 2)
    for i in range(n):
        K[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += bent + bed
    F[0], F[1] = 1.0, -e  # the pound, down, and its moment about the face, which turns the free end down
    u = np.linalg.solve(K, F)
    ends = np.array([(bent + bed) @ u[2 * i : 2 * i + 4] for i in range(n)])
    assert np.allclose(ends[0, :2], F[:2], rtol=1e-6)
    return u, ends
