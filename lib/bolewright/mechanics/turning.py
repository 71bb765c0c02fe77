"""Where load, shear and slope pass through zero between the nodes: the places of true extrema."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.mechanics.loads import Array
from bolewright.mechanics.ties import first_least, first_most


@dataclass(frozen=True)
class Extreme:
    """A value and the place (in) where it occurs."""

    x: float
    value: float


def greatest(x: Array, values: Array) -> Extreme:
    """Largest of the values (stations) and its place among ``x`` (stations); the first such place in a tie."""
    at = first_most(values)
    return Extreme(float(x[at]), float(values[at]))


def least(x: Array, values: Array) -> Extreme:
    """Smallest of the values (stations) and its place among ``x`` (stations); the first such place in a tie."""
    at = first_least(values)
    return Extreme(float(x[at]), float(values[at]))


def largest(x: Array, values: Array) -> Extreme:
    """Value of the largest size, with its sign, and its place; ``x`` and ``values`` (stations)."""
    at = first_most(np.abs(values))
    return Extreme(float(x[at]), float(values[at]))


@dataclass(frozen=True)
class Turning:
    """Places (in) where shear, slope and load are zero: extrema of moment, deflection and shear."""

    shear: list[float]
    slope: list[float]
    load: list[float]

    @property
    def places(self) -> list[float]:
        """All of them."""
        return self.shear + self.slope + self.load


def turning_points(
    width: float, shear: float, moment: float, slope: float, q: float, m: float, EI: float
) -> Turning:
    """Places of zero in a piece under the load ``q + m t``, 0 <= t <= width.

    ``shear``, ``moment`` and ``slope`` stand at t = 0, in the signs of :mod:`bolewright.mechanics.beam`.
    """
    bent = (EI * slope, -moment * width, -shear * width**2 / 2, q * width**3 / 6, m * width**4 / 24)
    return Turning(
        shear=[t * width for t in _roots((shear, -q * width, -m * width**2 / 2))],
        slope=[t * width for t in _roots(bent)],
        load=[t * width for t in _roots((q, m * width))],
    )


def _roots(coefficients: Sequence[float]) -> list[float]:
    """Roots in [0, 1] of a polynomial, lowest power first; nearly double roots count as one real root."""
    size = max(abs(c) for c in coefficients)
    if size == 0.0:
        return []
    kept = [0.0 if abs(c) < 1e-14 * size else c for c in reversed(coefficients)]
    found = np.roots(kept)
    real = found.real[(np.abs(found.imag) < 1e-6) & (found.real > -1e-9) & (found.real < 1 + 1e-9)]
    return sorted(float(min(max(t, 0.0), 1.0)) for t in real)
