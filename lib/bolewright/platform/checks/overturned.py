"""Effects under weight and overturning alone: the few states and cases in which one may be greatest.

What overturning adds goes with the moment that it has along x and y. Of cases that have the same factors of the loads
and the same C_D, an effect is greatest at a corner of the hull of these moments over all states: there alone is looked.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

import numpy as np
from scipy.spatial import ConvexHull, QhullError

from bolewright.mechanics.ties import first_most
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.layout.influence import Influence, Integers
from bolewright.platform.loads.combine import Array, Envelope

Part = TypeVar("Part")
MORE = 1e-6  # share: of states and parts that are asked alike the first is named, whatever rounding makes of them


@dataclass(frozen=True)
class Corners:
    """What the corners have of D, L, S, a guard, and overturning along x and y (6, corners); and their C_D.

    ``values`` are the C_D that occur and ``which`` of them each corner has.
    """

    amount: Array
    values: Array
    which: Integers

    @property
    def pushed(self) -> Array:
        """The push on a guard in every corner."""
        return np.asarray(self.amount[3])

    @classmethod
    def of(cls, lateral: LateralAnalysis) -> Corners:
        """The corners over all states of a platform that something holds laterally; found once."""
        if ("corners",) not in lateral.found:
            lateral.found[("corners",)] = _find(lateral)
        every = lateral.found[("corners",)]
        values, which = np.unique(every[4], return_inverse=True)
        return cls(np.delete(every, 4, axis=0), values, which.reshape(-1))


def _find(lateral: LateralAnalysis) -> Array:
    """Factors of D, L, S and a guard, C_D, and overturning along x and y at every corner (7, corners)."""
    kinds, kind = np.unique(np.vstack([_weight(lateral), lateral.cases.C_D]), axis=1, return_inverse=True)
    turns = np.stack([state.turn for state in lateral.states])
    found = []
    for n, factors in enumerate(kinds.T):
        points = turns[:, :, kind.reshape(-1) == n].transpose(1, 0, 2).reshape(2, -1)
        at = points[:, _corners(points.T)]
        found.append(np.vstack([np.repeat(factors[:, None], at.shape[1], axis=1), at]))
    return np.concatenate(found, axis=1)


def _weight(lateral: LateralAnalysis) -> Array:
    """Factors of D, live load, snow and a guard in every case (4, cases)."""
    cases = lateral.cases
    return np.stack([cases.D, cases.L, cases.S, cases.G])


def _corners(points: Array) -> Sequence[int]:
    """Rows of points that are corners of their hull; the ends where all lie on one line."""
    try:
        return sorted(int(n) for n in ConvexHull(points).vertices)
    except (QhullError, ValueError):  # fewer than three points, or all on a line
        return sorted({int(pick(points[:, axis])) for axis in (0, 1) for pick in (np.argmin, np.argmax)})


def units_of(lateral: LateralAnalysis, weight: Envelope, effect: Influence | Array, *, up: bool) -> Array:
    """Effects (rows) by D, L, S and a guard, each in its worst pattern, and by overturning along x and y.

    ``up``: what makes them greatest; else their opposite, where they are least.
    """
    if up:
        parts = [weight.D, weight.L_most, weight.S_most, weight.guard_most]
    else:
        parts = [-weight.D_least, -weight.L_least, -weight.S_least, -weight.guard_least]
    turned = np.asarray(effect @ lateral.tilt)
    return np.column_stack([*parts, turned if up else -turned])


def either_way(lateral: LateralAnalysis, weight: Envelope, effect: Influence | Array) -> Array:
    """The same of effects at their greatest and, below, of their opposites."""
    return np.concatenate([units_of(lateral, weight, effect, up=up) for up in (True, False)])


def by_weight(lateral: LateralAnalysis, unit: Array) -> Array:
    """Effects (rows of :func:`units_of`) by weight alone in every case."""
    return np.asarray(unit[:, :4] @ _weight(lateral))


def by_overturning(state: State, unit: Array) -> Array:
    """Effects (rows of :func:`units_of`) by overturning alone in every case of a state."""
    return np.asarray(unit[:, 4:] @ state.turn)


def in_cases(lateral: LateralAnalysis, state: State, unit: Array) -> Array:
    """Effects (rows of :func:`units_of`) in every case of a state."""
    return by_weight(lateral, unit) + by_overturning(state, unit)


@dataclass(frozen=True)
class Asked(Generic[Part]):
    """Effects of a part: rows of :func:`units_of`, their capacity over the C_D of the corners, and what is beside them.

    ``beside``: what the part is asked in every corner whatever the row.
    """

    part: Part
    units: Array
    capacity: Array
    beside: Array | float = 0.0


@dataclass(frozen=True)
class Worst(Generic[Part]):
    """Where effects are the greatest share of their capacity: the part, the row, and that row of its units."""

    part: Part
    row: int
    unit: Array


def worst_of(corners: Corners, asked: Iterable[Asked[Part]]) -> Worst[Part] | None:
    """The worst of the effects of several parts; None where nothing asks anything of them."""
    worst, most = None, 0.0
    for one in asked:
        loads = one.units @ corners.amount + one.beside
        shares = (loads / one.capacity[corners.which]).max(axis=1)
        row = first_most(shares)
        if float(shares[row]) > most * (1 + MORE):
            worst, most = Worst(one.part, row, one.units[[row]]), float(shares[row])
    return worst


def worst_state(
    lateral: LateralAnalysis, unit: Array, capacity: Array | float, beside: Array | float = 0.0
) -> State:
    """The state in which an effect is the greatest share of its capacity in the cases; the first of those alike.

    ``unit`` a row of :func:`units_of`, ``beside`` what is asked in every case beside it.
    """
    weight = by_weight(lateral, unit) + beside
    most = [float(((weight + by_overturning(s, unit)) / capacity).max()) for s in lateral.states]
    return next(s for s, one in zip(lateral.states, most, strict=True) if one >= max(most) - MORE * max(most))
