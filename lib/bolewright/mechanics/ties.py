"""The greatest of several values where some are equal but for rounding: the first of them, on every machine.

Processors and Python versions add in another order, so that equal values differ in their last digits. Which of them
governs must not hang on that: those within a part in a thousand million of the greatest count as equal to it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from typing import Any, TypeVar

import numpy as np
import numpy.typing as npt

TIE = 1e-9  # share of the greatest size

Array = npt.NDArray[np.float64]
Part = TypeVar("Part")


def first_most(values: npt.ArrayLike, axis: int | None = None) -> Any:
    """Place of the greatest value, along ``axis`` or of all: the first of those that tie with it.

    >>> first_most([1.0, 3.0, 3.0 + 1e-12]), first_most([1.0, 3.0, 3.1])
    (1, 2)
    """
    found = np.asarray(values, dtype=float)
    if axis is None:
        high, low = float(found.max()), float(found.min())
        if math.isfinite(high) and math.isfinite(low):
            return int(np.argmax(found >= high - TIE * max(abs(high), abs(low))))
    most, least = found.max(axis=axis, keepdims=True), found.min(axis=axis, keepdims=True)
    if np.isfinite(most).all() and np.isfinite(least).all():
        place = np.argmax(found >= most - TIE * np.maximum(np.abs(most), np.abs(least)), axis=axis)
        return int(place) if place.ndim == 0 else place
    with np.errstate(invalid="ignore"):
        sizes = np.where(np.isfinite(found), np.abs(found), 0.0).max(axis=axis, keepdims=True)
        ties = (found >= most - TIE * sizes) | np.isnan(
            found
        )  # what is no number is found, never passed over
        place = np.argmax(ties, axis=axis)
    return int(place) if place.ndim == 0 else place


def first_least(values: npt.ArrayLike, axis: int | None = None) -> Any:
    """Place of the least value, of an array of any shape or along ``axis``: the first of those that tie with it."""
    return first_most(-np.asarray(values, dtype=float), axis)


def most_of(parts: Iterable[Part], value: Callable[[Part], float]) -> Part:
    """The part with the greatest value: the first of those that tie with it."""
    listed = list(parts)
    at: int = first_most([value(part) for part in listed])
    return listed[at]


def least_of(parts: Iterable[Part], value: Callable[[Part], float]) -> Part:
    """The part with the least value: the first of those that tie with it."""
    return most_of(parts, lambda part: -value(part))


def exceeds(one: float, other: float) -> bool:
    """Whether a value is greater than another, and not only by rounding."""
    slight = TIE * max(abs(one), abs(other))
    return one > other + (slight if np.isfinite(slight) else 0.0)
