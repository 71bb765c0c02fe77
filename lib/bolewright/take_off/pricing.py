"""The best pattern for given values of the pieces (a bounded knapsack), and all patterns near enough to the best."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from bolewright.take_off.packing import Cutting, Pattern

_LEAST = 1e-11  # a gain smaller than this is the noise of a sum
Array = NDArray[np.float64]


@dataclass(frozen=True)
class Best:
    """For each kind of stick the value of its best pattern, and that pattern."""

    values: tuple[float, ...]
    patterns: tuple[Pattern, ...]


def best_patterns(cutting: Cutting, values: Array) -> Best:
    """Patterns of greatest value, each kind of piece no more often than it is wanted."""
    room = cutting.rooms[-1]
    reached = np.zeros(room + 1)
    lots: list[tuple[int, int, int, NDArray[np.bool_]]] = []
    for kind, (size, want) in enumerate(zip(cutting.sizes, cutting.wanted, strict=True)):
        if values[kind] <= _LEAST:
            continue
        for count in _lots(min(want, room // size)):
            width = size * count
            gained = reached[:-width] + values[kind] * count
            taken = gained > reached[width:] + _LEAST
            reached[width:][taken] = gained[taken]
            lots.append((kind, count, width, taken))
    patterns = tuple(_traced(cutting, lots, stick) for stick in range(len(cutting.rooms)))
    return Best(tuple(float(reached[r]) for r in cutting.rooms), patterns)


def _lots(most: int) -> Iterator[int]:
    """Numbers whose sums give every count from none to ``most`` (1, 2, 4 ... and the rest)."""
    lot = 1
    while most > 0:
        yield min(lot, most)
        most -= lot
        lot *= 2


def _traced(cutting: Cutting, lots: list[tuple[int, int, int, Any]], stick: int) -> Pattern:
    left = cutting.rooms[stick]
    counts = [0] * len(cutting.sizes)
    for kind, count, width, taken in reversed(lots):
        if left >= width and taken[left - width]:
            counts[kind] += count
            left -= width
    return Pattern(stick, tuple(counts))


def patterns_worth(cutting: Cutting, values: Array, slack: float, most: int) -> list[Pattern] | None:
    """Every full pattern whose cost is at most ``slack`` more than its value; None when there are over ``most``.

    Full: no further wanted piece fits, and no cheaper stick holds it. A plan cheaper than the values' bound plus
    ``slack`` can be made of such patterns alone.
    """
    best = _best_of_the_rest(cutting, values)
    found: list[Pattern] = []
    for stick, room in enumerate(cutting.rooms):
        least = cutting.costs[stick] - slack - 1e-7 * (1 + cutting.costs[stick])
        for counts in _search(cutting, values, best, room, least, most):
            pattern = Pattern(stick, counts)
            if _full(cutting, pattern):
                found.append(pattern)
                if len(found) > most:
                    return None
        if len(found) > most:
            return None
    return found


class TooMany(Exception):
    """The search visited more places than allowed."""


def _best_of_the_rest(cutting: Cutting, values: Array) -> list[Array]:
    """For each kind, the greatest value of that kind and the later ones in every length of room."""
    room = cutting.rooms[-1]
    best = [np.zeros(room + 1)]
    for kind in reversed(range(len(cutting.sizes))):
        reached = best[-1].copy()
        size = cutting.sizes[kind]
        for count in _lots(min(cutting.wanted[kind], room // size)):
            width = size * count
            reached[width:] = np.maximum(reached[width:], reached[:-width] + values[kind] * count)
        best.append(reached)
    return best[::-1]


def _search(
    cutting: Cutting, values: Array, best: list[Array], room: int, least: float, most: int
) -> Iterator[tuple[int, ...]]:
    """Counts of pieces in ``room`` that are worth at least ``least``, by depth first."""
    kinds = len(cutting.sizes)
    stack: list[tuple[int, int, float, tuple[int, ...]]] = [(0, room, 0.0, ())]
    visited = 0
    while stack:
        kind, left, worth, counts = stack.pop()
        visited += 1
        if visited > 40 * most:
            raise TooMany
        if kind == kinds:
            yield counts
            continue
        size = cutting.sizes[kind]
        for count in range(min(cutting.wanted[kind], left // size) + 1):
            rest = left - count * size
            gained = worth + count * float(values[kind])
            if gained + best[kind + 1][rest] >= least:
                stack.append((kind + 1, rest, gained, (*counts, count)))


def _full(cutting: Cutting, pattern: Pattern) -> bool:
    used = pattern.used(cutting)
    left = cutting.rooms[pattern.stick] - used
    if any(
        size <= left and count < want
        for size, count, want in zip(cutting.sizes, pattern.counts, cutting.wanted, strict=True)
    ):
        return False
    return not any(
        cutting.rooms[i] >= used and cutting.costs[i] < cutting.costs[pattern.stick]
        for i in range(len(cutting.rooms))
    )
