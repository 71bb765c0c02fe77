"""Fall of the ground: the plane that lies nearest to the levels that were measured."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.platform.layout.layout import Layout, Vector

_FLAT = 1e-4  # a fall of less than 1 in 10,000 is none


@dataclass(frozen=True)
class Fall:
    """How the ground falls: ``slope`` as inches per inch, ``down`` the way water runs in plan (unit vector)."""

    slope: float
    down: Vector

    @property
    def level(self) -> bool:
        """Whether there is none to speak of."""
        return self.slope < _FLAT


def fall_of(points: Sequence[tuple[float, float, float]]) -> Fall | None:
    """Fall of the plane nearest to points x, y, z (in) by least squares; None where they do not fix one.

    >>> fall = fall_of([(0, 0, 0), (120, 0, -6), (0, 120, 0)])
    >>> round(fall.slope, 6), tuple(float(part) for part in fall.down)
    (0.05, (1.0, 0.0))
    """
    if len(points) < 3:
        return None
    places = np.array([(1.0, x, y) for x, y, _ in points])
    centred = places[:, 1:] - places[:, 1:].mean(axis=0)
    if np.linalg.matrix_rank(centred, tol=1.0) < 2:
        return None
    (_, b, c), *_ = np.linalg.lstsq(places, np.array([z for *_, z in points]), rcond=None)
    slope = math.hypot(b, c)
    if slope < _FLAT:
        return Fall(0.0, (0.0, 0.0))
    return Fall(slope, (round(-b / slope, 9) + 0.0, round(-c / slope, 9) + 0.0))


def ground_fall(layout: Layout) -> Fall | None:
    """Fall of the ground by the levels under ``[[ground]]`` of a project; None with fewer than three."""
    return fall_of([(*spot.at, spot.level) for spot in layout.project.ground])
