"""The design basis: allowable stress load combinations and load duration, as one replaceable object."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import Enum
from functools import cache

import numpy as np
import numpy.typing as npt

from bolewright.reference import load


class LoadType(Enum):
    """Kinds of load, in the order of the columns of :meth:`DesignBasis.factor_matrix`."""

    DEAD = "D"
    LIVE = "L"
    ROOF_LIVE = "Lr"
    SNOW = "S"
    WIND = "W"


@dataclass(frozen=True)
class Combination:
    """One load combination: name, factor of each load in it, C_D for wood, and where it comes from."""

    name: str
    factors: Mapping[LoadType, float]
    C_D: float
    source: str

    def factor(self, load_type: LoadType) -> float:
        """Factor of a load; 0 when it is not in the combination."""
        return self.factors.get(load_type, 0.0)


@dataclass(frozen=True)
class DesignBasis:
    """Combinations and load duration factors of one way of designing.

    C_D is for wood and its fasteners only. Steel, soil, F_c,perp and E take the largest effect without it, so
    the governing combination can differ from material to material.
    """

    name: str
    load_duration: Mapping[LoadType, float]
    combinations: tuple[Combination, ...]

    def with_loads(self, present: Iterable[LoadType]) -> DesignBasis:
        """The same basis with only the combinations whose loads are all present.

        >>> [c.name for c in asd_basis().with_loads([LoadType.DEAD, LoadType.LIVE]).combinations]
        ['D', 'D + L', '0.6D + L']
        """
        here = set(present)
        kept = tuple(c for c in self.combinations if set(c.factors) <= here)
        return replace(self, combinations=kept)

    def factor_matrix(self) -> npt.NDArray[np.float64]:
        """Load factors, combinations x load types in the order of :class:`LoadType`."""
        return np.array([[c.factor(load_type) for load_type in LoadType] for c in self.combinations])

    @property
    def C_D(self) -> npt.NDArray[np.float64]:
        """Load duration factor of each combination."""
        return np.array([c.C_D for c in self.combinations])


@cache
def asd_basis() -> DesignBasis:
    """Allowable stress design: ASCE 7-16 2.4.1 with NDS 2018 Table 2.3.2.

    C_D is that of the shortest load in the combination (NDS 2018, 2.3.2.1 and Appendix B). The user's snow
    load enters as the ground snow p_g (IRC R507.1). "0.6D + L" is added for uplift of a far support: common
    practice, ASCE 7 has no such combination. Earthquake is not here.
    """
    table = load("nds_table_2_3_2")  # the only place that holds C_D
    durations = {
        LoadType(row["load"]): float(table.row(duration=row["duration"])["C_D"])
        for row in load("asd_load_duration")
    }
    combinations = []
    for row in load("asd_combinations"):
        factors = {
            load_type: float(row[load_type.value]) for load_type in LoadType if row[load_type.value] != ""
        }
        C_D = max(durations[load_type] for load_type in factors)
        combinations.append(Combination(str(row["name"]), factors, C_D, str(row["source"])))
    return DesignBasis("allowable stress design, ASCE 7-16 2.4.1", durations, tuple(combinations))
