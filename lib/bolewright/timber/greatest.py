"""The greatest length that still meets every limit, for many members at once."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
_HALVINGS = 60


def greatest_length(ratio: Callable[[Array], Any], shape: tuple[int, ...], longest: float) -> Array:
    """Greatest length up to ``longest`` at which ``ratio(length)`` is at most 1, element by element.

    ``ratio`` takes an array of lengths of ``shape`` and must rise with length. Bisection: each element is
    found to better than one part in 10^15 of ``longest``, and the lower bound is returned.
    """
    low, high = np.zeros(shape), np.full(shape, longest)
    fits = ratio(high) <= 1
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        holds = ratio(middle) <= 1
        low, high = np.where(holds, middle, low), np.where(holds, high, middle)
    return np.where(fits, longest, low)


def nearest_inch(length: Array) -> Array:
    """Lengths (in, any shape) to the nearest inch, halves up, as code tables print them.

    >>> nearest_inch(np.array([71.4, 71.5])).tolist()
    [71.0, 72.0]
    """
    return np.floor(length + 0.5)


def whole_inch(length: Array) -> Array:
    """Lengths (in, any shape) rounded down to the inch, with 1e-9 in. of slack for exact values.

    >>> whole_inch(np.array([71.9, 72.0])).tolist()
    [71.0, 72.0]
    """
    return np.floor(length + 1e-9)
