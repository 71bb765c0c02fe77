"""A design basis as the checks of members run it: its cases, and formulas of adjusted values with what each takes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from bolewright.platform.layout.influence import Array
from bolewright.platform.loads.combine import Case, lrfd_cases, strength_cases
from bolewright.timber.adjusted_values import (
    adjusted_bearing,
    adjusted_bending,
    adjusted_minimum_modulus,
    adjusted_shear,
    bending_before_stability,
)
from bolewright.timber.basis import Method, lrfd_basis
from bolewright.timber.lrfd_values import (
    adjusted_bearing_lrfd,
    adjusted_bending_lrfd,
    adjusted_minimum_modulus_lrfd,
    adjusted_shear_lrfd,
    bending_before_stability_lrfd,
)


@dataclass(frozen=True)
class Adjusted:
    """Formula of an adjusted value, and the factors that load and method bring to it."""

    formula: Callable[..., Any]
    given: Mapping[str, Array | float]


@dataclass(frozen=True)
class Values:
    """How a method adjusts the values of sawn lumber; ``F_b_star`` is F_b without C_L."""

    F_b_star: Adjusted
    F_b: Adjusted
    F_v: Adjusted
    F_c_perp: Adjusted
    E_min: Adjusted


@dataclass(frozen=True)
class Strength:
    """Cases of a method and its adjusted values over them.

    ``weight`` is what an effect of a case is divided by to compare cases: C_D or lambda. ``clause`` goes behind that of
    a limit state.
    """

    cases: tuple[Case, ...]
    weight: Array
    values: Values
    clause: str = ""

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the cases."""
        return tuple(case.name for case in self.cases)


def asd_values(C_D: Array | float) -> Values:
    """Values by allowable stress design under a load duration factor, one or one a case (NDS 2018, Table 4.3.1)."""
    lasting = {"C_D": C_D}
    return Values(
        F_b_star=Adjusted(bending_before_stability, lasting),
        F_b=Adjusted(adjusted_bending, lasting),
        F_v=Adjusted(adjusted_shear, lasting),
        F_c_perp=Adjusted(adjusted_bearing, {}),
        E_min=Adjusted(adjusted_minimum_modulus, {}),
    )


def lrfd_values(lam: Array | float) -> Values:
    """Values by load and resistance factor design under a time effect factor, one or one a case (NDS 2018, App. N)."""
    taken = {name: found.arguments for name, found in lrfd_basis().resistance.items()}
    lasting = {"lam": lam}
    return Values(
        F_b_star=Adjusted(bending_before_stability_lrfd, taken["F_b"] | lasting),
        F_b=Adjusted(adjusted_bending_lrfd, taken["F_b"] | lasting),
        F_v=Adjusted(adjusted_shear_lrfd, taken["F_v"] | lasting),
        F_c_perp=Adjusted(adjusted_bearing_lrfd, taken["F_c_perp"]),
        E_min=Adjusted(adjusted_minimum_modulus_lrfd, taken["E_min"]),
    )


@cache
def strength(method: Method) -> Strength:
    """A method's cases of D, L, S, one person and a guard, with its values over them."""
    if method is Method.LRFD:
        lam = np.array([case.time_effect for case in lrfd_cases()])
        return Strength(lrfd_cases(), lam, lrfd_values(lam), lrfd_basis().clause)
    C_D = np.array([case.C_D for case in strength_cases()])
    return Strength(strength_cases(), C_D, asd_values(C_D))
