"""Influence of the sources of load on effects: only what is not nothing is kept, and what comes through few loads once.

A member over three seats that give way feels every source of the whole platform, but the far ones only by the forces at
its seats. Their influence is kept as these forces' (:class:`Through`), not for every station: the memory grows with
members times sources, not with stations on top.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import overload

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]
Row = tuple[Integers, Array]  # the sources that a load has, and how much of each

_WIDE = 0.25  # share of all sources from which on a row is kept by itself


@dataclass(frozen=True)
class Influence:
    """Effects (rows) by sources (columns). ``columns`` are the sources that reach them, out of ``count``.

    Behaves as the whole matrix: ``influence[row]`` is a row over all sources, ``influence[rows]`` a smaller
    influence, and ``influence @ loads`` the effects of loads on all sources.
    """

    values: Array
    columns: Integers
    count: int

    @overload
    def __getitem__(self, rows: int) -> Array: ...

    @overload
    def __getitem__(self, rows: npt.NDArray[np.intp]) -> Influence: ...

    def __getitem__(self, rows: int | npt.NDArray[np.intp]) -> Array | Influence:
        if isinstance(rows, np.ndarray):
            return Influence(self.values[rows], self.columns, self.count)
        return self._whole(self.values[rows])

    def __matmul__(self, loads: Array) -> Array:
        return np.asarray(self.values @ loads[self.columns], dtype=float)

    def __len__(self) -> int:
        return len(self.values)

    def combined(self, weights: Array) -> Array:
        """Sum of the rows, each by its weight, over all sources."""
        return self._whole(weights @ self.values)

    def sizes(self) -> Array:
        """Sum of the rows without their signs, over all sources."""
        return self._whole(np.abs(self.values).sum(axis=0))

    def after(self, matrix: Array) -> Influence:
        """Effects that are ``matrix`` times these."""
        return Influence(matrix @ self.values, self.columns, self.count)

    def _whole(self, row: Array) -> Array:
        whole = np.zeros(self.count)
        whole[self.columns] = row
        return whole

    @classmethod
    def of(cls, rows: Array) -> Influence:
        """Influence of rows over all sources."""
        return cls(rows, np.arange(rows.shape[1]), rows.shape[1])


class Through(Influence):
    """Influence of near sources, and of all others through a few rows: ``near`` + ``shape`` times ``far``.

    ``values`` are worked out each time they are asked for and not kept.
    """

    def __init__(self, near: Influence, shape: Array, far: Sequence[Row]) -> None:
        for name, value in (("near", near), ("shape", shape), ("far", tuple(far)), ("count", near.count)):
            object.__setattr__(self, name, value)

    near: Influence
    shape: Array
    far: tuple[Row, ...]

    @property
    def columns(self) -> Integers:
        """All sources."""
        return np.arange(self.count)

    @property
    def values(self) -> Array:
        """The whole matrix."""
        whole = self.shape @ self._rows()
        whole[:, self.near.columns] += self.near.values
        return np.asarray(whole)

    def _rows(self) -> Array:
        rows = np.zeros((len(self.far), self.count))
        for row, (sources, amounts) in zip(rows, self.far, strict=True):
            row[sources] = amounts
        return rows

    def __getitem__(self, rows: int | npt.NDArray[np.intp]) -> Array | Influence:  # type: ignore[override]
        if isinstance(rows, np.ndarray):
            return Through(self.near[rows], self.shape[rows], self.far)
        return self._summed(self.shape[rows], self.near[rows])

    def _summed(self, weights: Array, near: Array) -> Array:
        for weight, (sources, amounts) in zip(weights, self.far, strict=True):
            if weight:
                near[sources] += weight * amounts
        return near

    def __matmul__(self, loads: Array) -> Array:
        far = np.array([amounts @ loads[sources] for sources, amounts in self.far])
        return np.asarray(self.near @ loads + self.shape @ far, dtype=float)

    def __len__(self) -> int:
        return len(self.shape)

    def combined(self, weights: Array) -> Array:
        """Sum of the rows, each by its weight, over all sources."""
        return self._summed(weights @ self.shape, self.near.combined(weights))

    def sizes(self) -> Array:
        """Sum of near and far rows without their signs, over all sources."""
        far = tuple((sources, np.abs(amounts)) for sources, amounts in self.far)
        return Through(self.near, self.shape, far)._summed(np.abs(self.shape).sum(axis=0), self.near.sizes())

    def after(self, matrix: Array) -> Influence:
        """Effects that are ``matrix`` times these."""
        return Through(self.near.after(matrix), matrix @ self.shape, self.far)


def gather(rows: Sequence[Row], count: int, *, apart: bool = False) -> Influence:
    """Influence with a row for each pair of sources and values, over all sources that any of them has.

    With ``apart``, rows that a large share of all sources has are kept as they are, beside the near ones.
    """
    wide = [i for i, (sources, _) in enumerate(rows) if apart and sources.size > _WIDE * count]
    nothing: Row = (np.zeros(0, dtype=np.int64), np.zeros(0))
    near = list(rows)
    for i in wide:
        near[i] = nothing
    columns = np.unique(np.concatenate([sources for sources, _ in near]))
    values = np.zeros((len(near), columns.size))
    for i, (sources, amounts) in enumerate(near):
        values[i, np.searchsorted(columns, sources)] = amounts
    found = Influence(values, columns, count)
    if not wide:
        return found
    shape = np.zeros((len(near), len(wide)))
    shape[wide, np.arange(len(wide))] = 1.0
    return Through(found, shape, [rows[i] for i in wide])
