"""A beam that lateral forces pull across at its supports while joists hold it to a stiff deck: our own plane model.

The beam bends flatwise by elements of Euler and Bernoulli; every joist end is a spring between it and the deck, which
is at rest: what the ends pass is then in balance with the pulls, in force and in moment. Endless stiff springs make a
continuous beam on rigid seats, a stiff beam a group of fasteners. Imports nothing of the program.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

SLIP = (3e3, 1e4, 3e4)  # lb/in: a toe-nailed end, a light angle, a hanger full of nails (judgement)
STIFF = 1e8  # lb/in: no slip at all


def _element(EI: float, L: float) -> np.ndarray:
    k = [
        [12, 6 * L, -12, 6 * L],
        [6 * L, 4 * L**2, -6 * L, 2 * L**2],
        [-12, -6 * L, 12, -6 * L],
        [6 * L, 2 * L**2, -6 * L, 4 * L**2],
    ]
    return EI / L**3 * np.array(k)


def through_ends(ends: Sequence[float], spring: float, EI: float, pulls: Mapping[float, float]) -> np.ndarray:
    """Force that every joist end passes (lb), from the pulls: pounds across at places along the beam.

    ``spring`` stiffness of an end across the beam (lb/in), ``EI`` of the beam flatwise (lb in2).
    """
    places = sorted({*ends, *pulls})
    K, f = np.zeros((2 * len(places), 2 * len(places))), np.zeros(2 * len(places))
    for i, (a, b) in enumerate(zip(places, places[1:], strict=False)):
        K[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += _element(EI, b - a)
    at = [2 * places.index(end) for end in ends]
    K[at, at] += spring
    for place, pounds in pulls.items():
        f[2 * places.index(place)] += pounds
    return np.asarray(spring * np.linalg.solve(K, f)[at])


def group(ends: Sequence[float], pulls: Mapping[float, float]) -> np.ndarray:
    """The same of a beam that does not bend: even share and turning share."""
    at = np.asarray(ends, dtype=float)
    middle = at.mean()
    turning = sum(p * (x - middle) for x, p in pulls.items())
    J = float(((at - middle) ** 2).sum())
    return np.asarray(sum(pulls.values()) / at.size + turning * (at - middle) / (J or 1.0))


def between(ends: Sequence[float], pulls: Mapping[float, float]) -> np.ndarray:
    """The same by the lever between the two ends beside each pull; past the last, over it, held by the next."""
    found = np.zeros(len(ends))
    for x, pounds in pulls.items():
        i = int(np.clip(np.searchsorted(ends, x) - 1, 0, len(ends) - 2))
        part = (x - ends[i]) / (ends[i + 1] - ends[i])
        found[i] += pounds * (1 - part)
        found[i + 1] += pounds * part
    return found
