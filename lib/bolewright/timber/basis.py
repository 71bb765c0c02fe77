"""The design basis: load combinations and load duration, allowable stress design, as one replaceable object."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import Enum

import numpy as np
import numpy.typing as npt


class LoadType(Enum):
    """Kinds of load, in the order of the columns of :meth:`DesignBasis.factor_matrix`."""

    DEAD = "D"
    LIVE = "L"
    ROOF_LIVE = "Lr"
    SNOW = "S"
    WIND = "W"


@dataclass(frozen=True)
class Combination:
    """One load combination: its name, the factor of each load in it, C_D, and where it comes from."""

    name: str
    factors: Mapping[LoadType, float]
    C_D: float
    source: str

    def factor(self, load: LoadType) -> float:
        """Factor of a load; 0 when it is not in the combination."""
        return self.factors.get(load, 0.0)


@dataclass(frozen=True)
class DesignBasis:
    """Combinations and load duration factors of one way of designing."""

    name: str
    load_duration: Mapping[LoadType, float]
    combinations: tuple[Combination, ...]

    def with_loads(self, present: Iterable[LoadType]) -> DesignBasis:
        """The same basis with only the combinations whose loads are all present."""
        raise NotImplementedError

    def factor_matrix(self) -> npt.NDArray[np.float64]:
        """Load factors, combinations x load types in the order of :class:`LoadType`."""
        raise NotImplementedError

    @property
    def C_D(self) -> npt.NDArray[np.float64]:
        """Load duration factor of each combination."""
        raise NotImplementedError


def asd_basis() -> DesignBasis:
    """ASCE 7-16 2.4.1 with NDS Table 2.3.2: C_D by the shortest load in the combination.

    Adds "0.6D + L" for uplift of a far support (common practice: ASCE 7 has no such combination).
    """
    raise NotImplementedError


