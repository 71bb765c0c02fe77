"""The design basis as one object: combinations, load duration or time effect, resistance factors, clauses."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from enum import Enum, StrEnum
from functools import cache
from math import nan
from typing import Any

import numpy as np
import numpy.typing as npt

from bolewright.reference import load


class Method(StrEnum):
    """How loads are held against strength, as the project file names it."""

    ASD = "ASD"
    LRFD = "LRFD"


class LoadType(Enum):
    """Kinds of load, in the order of the columns of :meth:`DesignBasis.factor_matrix`."""

    DEAD = "D"
    LIVE = "L"
    ROOF_LIVE = "Lr"
    SNOW = "S"
    WIND = "W"


@dataclass(frozen=True)
class Combination:
    """One load combination: name, factor of each load in it, C_D or time effect for wood, where it comes from.

    The one of C_D and ``time_effect`` that the method does not know is no number.
    """

    name: str
    factors: Mapping[LoadType, float]
    C_D: float
    source: str
    time_effect: float = nan

    def factor(self, load_type: LoadType) -> float:
        """Factor of a load; 0 when it is not in the combination."""
        return self.factors.get(load_type, 0.0)


@dataclass(frozen=True)
class Resistance:
    """Format conversion factor and resistance factor of one property, the latter with its symbol."""

    K_F: float
    symbol: str
    phi: float

    @property
    def arguments(self) -> dict[str, float]:
        """As the formulas of adjusted values take them."""
        return {"K_F": self.K_F, self.symbol: self.phi}


@dataclass(frozen=True)
class DesignBasis:
    """Combinations, load duration or time effect, and resistance factors of one way of designing.

    C_D is for wood and its fasteners only. Steel, soil, F_c,perp and E take the largest effect without it, so
    the governing combination can differ from material to material. ``resistance`` by the symbol of the property is
    empty for allowable stress design; ``clause`` is what a row adds to its limit state's.
    """

    name: str
    load_duration: Mapping[LoadType, float]
    combinations: tuple[Combination, ...]
    method: Method = Method.ASD
    resistance: Mapping[str, Resistance] = field(default_factory=dict)
    clause: str = ""

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
        """Load duration factor of each combination. Raises ValueError for a method that has none."""
        if self.method is not Method.ASD:
            raise ValueError(
                f"{self.name} has no load duration factor C_D: spans and posts take asd_basis()."
            )
        return np.array([c.C_D for c in self.combinations])


@cache
def asd_basis() -> DesignBasis:
    """Allowable stress design: ASCE 7-16 2.4.1 with NDS 2018 Table 2.3.2.

    C_D is that of the shortest load in the combination (NDS 2018, 2.3.2.1 and Appendix B). The user's snow
    load enters as the ground snow p_g (IRC R507.1). "0.6D + L" and "0.6D + S" are added for uplift of a far
    support: common practice, ASCE 7 has no such combinations. Earthquake is not here.
    """
    table = load("nds_table_2_3_2")  # the only place that holds C_D
    durations = {
        LoadType(row["load"]): float(table.row(duration=row["duration"])["C_D"])
        for row in load("asd_load_duration")
    }
    combinations = []
    for row in load("asd_combinations"):
        factors = _factors(row)
        C_D = max(durations[load_type] for load_type in factors)
        combinations.append(Combination(str(row["name"]), factors, C_D, str(row["source"])))
    return DesignBasis("allowable stress design, ASCE 7-16 2.4.1", durations, tuple(combinations))


@cache
def lrfd_basis() -> DesignBasis:
    """Load and resistance factor design: ASCE 7-16 2.3.1 with NDS 2018 Appendix N, Tables N1 to N3.

    L keeps its whole factor beside snow and wind (the half that 2.3.1, exception 1 permits is not taken), and lambda
    of L is that of occupancy, 0.8. "0.9D + 1.6L" and "0.9D + 1.6S" are added where dead load relieves: common
    practice, ASCE 7 has no such combinations. Earthquake is not here.

    >>> lrfd_basis().with_loads([LoadType.DEAD, LoadType.LIVE]).combinations[1].time_effect
    0.8
    """
    combinations = tuple(
        Combination(str(row["name"]), _factors(row), nan, str(row["source"]), float(row["lambda"]))
        for row in load("lrfd_combinations")
    )
    resistance = {
        str(row["property"]): Resistance(float(row["K_F"]), str(row["factor"]), float(row["phi"]))
        for row in load("nds_tables_N1_N2")
    }
    name = "load and resistance factor design, ASCE 7-16 2.3.1"
    return DesignBasis(name, {}, combinations, Method.LRFD, resistance, "Appendix N (LRFD)")


def _factors(row: Mapping[str, Any]) -> dict[LoadType, float]:
    """Factor of each load that a row of a table of combinations has."""
    return {load_type: float(row[load_type.value]) for load_type in LoadType if row[load_type.value] != ""}
