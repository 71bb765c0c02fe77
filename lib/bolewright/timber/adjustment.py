"""Which adjustment factor applies, and its value (NDS 2018 ch. 2 to 4, Supplement). Selectors, no arithmetic.

:func:`factors` gathers them for one member. The factors that depend on load or on the member's length, C_D, C_L,
C_P and C_b, stay with the caller.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from bolewright.timber.material import DesignValues


class Temperature(Enum):
    """Sustained temperature of the wood in service; the value is the row of NDS Table 2.3.3."""

    UP_TO_100F = "T <= 100 F"
    UP_TO_125F = "100 F < T <= 125 F"
    UP_TO_150F = "125 F < T <= 150 F"


class LoadDuration(Enum):
    """Load durations of NDS Table 2.3.2; the value is the row of the table."""

    PERMANENT = "permanent"
    TEN_YEARS = "ten years"
    TWO_MONTHS = "two months"
    SEVEN_DAYS = "seven days"
    TEN_MINUTES = "ten minutes"
    IMPACT = "impact"


@dataclass(frozen=True)
class Service:
    """Conditions a member lives in: wet (over 19 % moisture for long), its temperature, incised for treatment."""

    wet: bool = True
    temperature: Temperature = Temperature.UP_TO_100F
    incised: bool = False


@dataclass(frozen=True)
class Factors:
    """Factors of one member, a mapping per property with the argument names of :mod:`.adjusted_values`.

    ``adjusted_bending(F_b=..., C_D=..., C_L=..., **factors.bending)``. ``bending_star`` and
    ``compression`` fit the "before stability" formulas; ``tension``, ``shear``, ``bearing``, ``modulus`` and
    ``minimum_modulus`` theirs. ``why`` says in one sentence each why a factor is what it is.
    """

    bending: Mapping[str, float]
    bending_star: Mapping[str, float]
    tension: Mapping[str, float]
    shear: Mapping[str, float]
    bearing: Mapping[str, float]
    compression: Mapping[str, float]
    modulus: Mapping[str, float]
    why: Mapping[str, str] = field(default_factory=dict)


def factors(
    values: DesignValues, service: Service, *, repetitive: bool = False, flat: bool = False
) -> Factors:
    """Factors of a member in service; ``repetitive`` from :func:`repetitive_use`, ``flat`` loaded on the wide face."""
    raise NotImplementedError


def load_duration_factor(duration: LoadDuration) -> float:
    """C_D (NDS 2018, Table 2.3.2)."""
    raise NotImplementedError


def repetitive_use(
    *, members: int = 1, spacing: float | None = None, plies: int = 1, load_distributing: bool = True
) -> bool:
    """Whether bending members count as repetitive: 3 or more in contact or at most 24 in. apart (NDS 4.3.9).

    ``spacing`` on centres in inches; ``plies`` in contact of one built-up member.
    """
    raise NotImplementedError


def normally_incised(species: str, *, treated: bool) -> bool:
    """Whether a species is commonly incised when pressure treated (common practice; Southern Pine is not)."""
    raise NotImplementedError
