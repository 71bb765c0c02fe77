"""Influence of the sources of load on effects: only the columns of the sources that reach them are kept."""

from __future__ import annotations

from dataclasses import dataclass
from typing import overload

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]


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
        whole = np.zeros(self.count)
        whole[self.columns] = self.values[rows]
        return whole

    def __matmul__(self, loads: Array) -> Array:
        return np.asarray(self.values @ loads[self.columns], dtype=float)

    def __len__(self) -> int:
        return len(self.values)

    @classmethod
    def of(cls, rows: Array) -> Influence:
        """Influence of rows over all sources."""
        return cls(rows, np.arange(rows.shape[1]), rows.shape[1])


def gather(rows: list[tuple[Integers, Array]], count: int) -> Influence:
    """Influence with a row for each pair of sources and values, over all sources that any of them has."""
    columns = np.unique(np.concatenate([sources for sources, _ in rows]))
    values = np.zeros((len(rows), columns.size))
    for i, (sources, amounts) in enumerate(rows):
        values[i, np.searchsorted(columns, sources)] = amounts
    return Influence(values, columns, count)
