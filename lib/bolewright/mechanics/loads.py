"""Unit loads on a straight member: a point, an even spread, a triangle, each 1 lb in total; a couple of 1 lb·in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from bolewright.formulas import make_bare
from bolewright.units import INCH, Value

Array = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]

_AT, _FROM_TO, _RISING = {"x": INCH}, {"start": INCH, "end": INCH}, {"zero": INCH, "peak": INCH}


def gather(places: Integers, values: Array, shape: tuple[int, ...]) -> Array:
    """Array of ``shape`` with each value added at its flat place."""
    count = int(np.prod(shape))
    summed = np.bincount(places.ravel(), weights=values.ravel(), minlength=count)
    return np.asarray(summed, dtype=np.float64).reshape(shape)


@dataclass(frozen=True)
class PointLoad:
    """1 lb at ``x`` (in)."""

    x: float

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(self, x: Value) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _AT)


@dataclass(frozen=True)
class SpreadLoad:
    """1 lb in total, spread evenly over [``start``, ``end``] (in)."""

    start: float
    end: float

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(self, start: Value, end: Value) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _FROM_TO)


@dataclass(frozen=True)
class TriangleLoad:
    """1 lb in total, rising evenly from nothing at ``zero`` to its greatest at ``peak`` (in), either way."""

    zero: float
    peak: float

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(self, zero: Value, peak: Value) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _RISING)


@dataclass(frozen=True)
class CoupleLoad:
    """A couple of 1 lb·in at ``x`` (in) that deflects the member before it and hogs it past it.

    So a push at the top of what stands at ``x``, towards the member's start; it has no weight.
    """

    x: float

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(self, x: Value) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _AT)


UnitLoad = PointLoad | SpreadLoad | TriangleLoad | CoupleLoad


def pounds_of(load: UnitLoad) -> float:
    """Weight of a unit load (lb): 1, and none of a couple."""
    return 0.0 if isinstance(load, CoupleLoad) else 1.0


_ON_IT = 1e-12  # of the mean span: a couple at a place is past it there


class LoadError(ValueError):
    """A load that does not lie on its member; one sentence."""


@dataclass(frozen=True)
class LoadArrays:
    """Unit loads as arrays: points, then linear spreads ``q + m (x - start)``, then couples, each by its column."""

    count: int
    point_column: Integers
    point: Array
    spread_column: Integers
    start: Array
    end: Array
    q: Array
    m: Array
    couple_column: Integers
    couple: Array
    couple_size: float = 1.0

    def scaled(self, length: float) -> LoadArrays:
        """The same loads with every length divided by ``length``."""
        return LoadArrays(
            self.count,
            self.point_column,
            self.point / length,
            self.spread_column,
            self.start / length,
            self.end / length,
            self.q * length,
            self.m * length**2,
            self.couple_column,
            self.couple / length,
            self.couple_size / length,
        )

    def before(self, x: Array, tolerance: float) -> tuple[Array, Array]:
        """Load (lb) left of each ``x``, without and with the point loads that stand exactly there."""
        left = np.zeros((x.size, self.count))
        right = left
        if self.spread_column.size:
            covered = np.minimum(np.maximum(x[:, None] - self.start, 0.0), self.end - self.start)
            left[:, self.spread_column] = covered * (self.q + 0.5 * self.m * covered)
        if self.point_column.size:
            right = left.copy()
            ahead = x[:, None] - self.point
            left[:, self.point_column] = ahead > tolerance
            right[:, self.point_column] = ahead >= -tolerance
        return left, right

    def integrals(
        self, x: Array, origin: Array, inside: Integers, holder: Integers, turned: Integers
    ) -> Array:
        """First, second and third integral of the load from ``origin`` to ``x``, as (3, x, loads).

        ``inside`` is the span of each x; ``holder`` the span that carries each point load, ``turned`` each couple.
        """
        result = np.zeros((3, x.size, self.count))
        if self.point_column.size:
            u = np.maximum(x[:, None] - self.point, 0.0) * (inside[:, None] == holder)
            squared = u * u
            result[0][:, self.point_column] = u
            result[1][:, self.point_column] = squared / 2
            result[2][:, self.point_column] = squared * u / 6
        if self.couple_column.size:
            past = x[:, None] - self.couple
            here = self.couple_size * ((past >= -_ON_IT) & (inside[:, None] == turned))
            u = np.maximum(past, 0.0)
            result[0][:, self.couple_column] = here
            result[1][:, self.couple_column] = here * u
            result[2][:, self.couple_column] = here * u * u / 2
        if self.spread_column.size:
            for edge, sign in ((self.start, 1.0), (self.end, -1.0)):
                seen = np.maximum(edge, origin[:, None])
                u = np.maximum(x[:, None] - seen, 0.0)
                q = sign * (self.q + self.m * (seen - self.start))
                m = sign * self.m
                power = u * u
                for order, factorial in ((0, 2.0), (1, 6.0), (2, 24.0)):
                    result[order][:, self.spread_column] += power * (q + m * u / (order + 3)) / factorial
                    power = power * u
        return result

    def total_between(self, a: Array, b: Array, holder: Integers) -> Array:
        """Load (lb) held by each span [a, b], as (spans, loads)."""
        total = np.zeros((a.size, self.count))
        if self.point_column.size:
            total[:, self.point_column] = np.arange(a.size)[:, None] == holder
        if self.spread_column.size:
            first = np.maximum(self.start, a[:, None])
            width = np.maximum(np.minimum(self.end, b[:, None]) - first, 0.0)
            total[:, self.spread_column] = width * (
                self.q + self.m * (first - self.start) + 0.5 * self.m * width
            )
        return total


def arrange(loads: Sequence[UnitLoad], length: float) -> LoadArrays:
    """Loads as arrays; :class:`LoadError` names one that does not lie on a member of ``length``."""
    tolerance = 1e-9 * length
    points: list[tuple[int, float]] = []
    couples: list[tuple[int, float]] = []
    spreads: list[tuple[int, float, float, float, float]] = []
    for column, load in enumerate(loads):
        if isinstance(load, PointLoad):
            points.append((column, load.x))
            ends: tuple[float, ...] = (load.x,)
        elif isinstance(load, CoupleLoad):
            couples.append((column, load.x))
            ends = (load.x,)
        else:
            if isinstance(load, SpreadLoad):
                start, end = load.start, load.end
            else:
                start, end = sorted((load.zero, load.peak))
            width = end - start
            if not width > tolerance:
                raise LoadError(f"load {load} has no width: give an end beyond its start, or a point load")
            if isinstance(load, SpreadLoad):
                spreads.append((column, start, end, 1 / width, 0.0))
            elif load.peak > load.zero:
                spreads.append((column, start, end, 0.0, 2 / width**2))
            else:
                spreads.append((column, start, end, 2 / width, -2 / width**2))
            ends = (start, end)
        if not all(-tolerance <= x <= length + tolerance for x in ends):
            raise LoadError(f"load {load} does not lie on the beam, which runs from 0 to {length:g} in")
    point = np.array(points, dtype=float).reshape(-1, 2)
    spread = np.array(spreads, dtype=float).reshape(-1, 5)
    couple = np.array(couples, dtype=float).reshape(-1, 2)
    return LoadArrays(
        len(loads),
        point[:, 0].astype(np.int64),
        point[:, 1],
        spread[:, 0].astype(np.int64),
        spread[:, 1],
        spread[:, 2],
        spread[:, 3],
        spread[:, 4],
        couple[:, 0].astype(np.int64),
        couple[:, 1],
    )
