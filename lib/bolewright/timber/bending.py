"""Bending of rectangular sawn members: stress, lateral stability, effective lengths, depth-breadth."""

from __future__ import annotations

from enum import Enum
from typing import Any

import numpy as np
from numpy import sqrt

from bolewright.formulas import Limit, formula, unit_aware
from bolewright.reference import load
from bolewright.units import Length, Moment, Ratio, SectionModulus, Stress


@formula("NDS 2018, 3.3.2.1")
def bending_stress(M: Moment, S: SectionModulus) -> Stress:
    """Bending stress at the edge of a section.

    Parameters: M bending moment (lb·in); S section modulus (in³). Returns: f_b (psi).
    Source: NDS 2018, 3.3.2.1.

    >>> round(bending_stress(12_000.0, 12.0), 3)
    1000.0
    """
    f_b: Stress = M / S
    return f_b


@formula("NDS 2018, Table 3.3.3")
def effective_length(l_u: Length, d: Length, k_l: Ratio, k_d: Ratio) -> Length:
    """Effective length of a bending member between points of lateral support.

    Parameters: l_u unsupported length (in); d depth (in); k_l, k_d coefficients of the case in Table 3.3.3,
    from :func:`effective_length_coefficients`.
    Returns: l_e (in). Source: NDS 2018, 3.3.3.4 and Table 3.3.3.

    >>> effective_length(120, 11.25, 1.63, 3.0)
    229.35
    """
    l_e: Length = k_l * l_u + k_d * d
    return l_e


_R_B_LIMIT = "R_B is over 50, more than NDS 3.3.3.7 allows: brace the compression edge more closely."


@formula("NDS 2018, 3.3.3.6")
def slenderness_ratio(l_e: Length, d: Length, b: Length) -> Ratio:
    """Slenderness ratio R_B of a bending member; it shall not exceed 50 (3.3.3.7).

    Parameters: l_e effective length (in); d depth (in); b breadth (in). Returns: R_B.
    Source: NDS 2018, 3.3.3.6, equation 3.3-5.

    >>> round(float(slenderness_ratio(90.0, 10.0, 1.5)), 3)
    20.0
    """
    R_B: Ratio = sqrt(l_e * d / b**2)
    return R_B


@formula("NDS 2018, 3.3.3.8", limits={"R_B": Limit(0, 50, _R_B_LIMIT)})
def critical_buckling_bending(E_min_p: Stress, R_B: Ratio) -> Stress:
    """Critical buckling stress F_bE of a bending member.

    Parameters: E_min_p adjusted minimum modulus (psi); R_B slenderness ratio. Returns: F_bE (psi).
    Source: NDS 2018, 3.3.3.8.

    >>> round(critical_buckling_bending(500_000.0, 20.0), 3)
    1500.0
    """
    F_bE: Stress = 1.20 * E_min_p / R_B**2
    return F_bE


@formula("NDS 2018, 3.3.3.8")
def beam_stability_factor(F_bE: Stress, F_b_star: Stress) -> Ratio:
    """Beam stability factor C_L.

    When it applies: d > b and the compression edge is not held throughout; else C_L = 1 (3.3.3.1 to 3.3.3.3).
    Parameters: F_bE critical buckling stress (psi); F_b_star bending value with every factor but C_fu and
    C_L (psi). Returns: C_L, in (0, 1]. Source: NDS 2018, 3.3.3.8, equation 3.3-6.

    With both alike beta is 2/1.9 = 1.0526, and 1/0.95 the same: 1.0526 - sqrt(1.1080 - 1.0526).

    >>> round(float(beam_stability_factor(1000.0, 1000.0)), 3)
    0.817
    """
    r: Ratio = F_bE / F_b_star
    beta: Ratio = (1 + r) / 1.9
    C_L: Ratio = beta - sqrt(beta**2 - r / 0.95)
    return C_L


class BendingCase(Enum):
    """Load cases of NDS Table 3.3.3; the value is the row's name in the reference table."""

    CANTILEVER_UNIFORM = "cantilever, uniform load"
    CANTILEVER_POINT_AT_END = "cantilever, point load at the free end"
    SINGLE_UNIFORM = "single span, uniform load"
    SINGLE_POINT_CENTRE = "single span, point load at centre, not braced there"
    SINGLE_POINT_CENTRE_BRACED = "single span, point load at centre, braced there"
    TWO_POINTS_BRACED = "single span, 2 equal point loads at 1/3 points, braced there"
    THREE_POINTS_BRACED = "single span, 3 equal point loads at 1/4 points, braced there"
    FOUR_POINTS_BRACED = "single span, 4 equal point loads at 1/5 points, braced there"
    FIVE_POINTS_BRACED = "single span, 5 equal point loads at 1/6 points, braced there"
    SIX_POINTS_BRACED = "single span, 6 equal point loads at 1/7 points, braced there"
    SEVEN_POINTS_BRACED = "single span, 7 or more equal point loads, braced there"
    EQUAL_END_MOMENTS = "single span, equal end moments"
    OTHER = "any other single span or cantilever"


@unit_aware()
def effective_length_coefficients(case: BendingCase, l_u: Length, d: Length) -> tuple[Any, Any]:
    """Coefficients (k_l, k_d) of l_e = k_l l_u + k_d d for a load case, by the ratio l_u/d.

    ``l_u`` and ``d`` in inches, numbers or arrays, or quantities. Source: NDS 2018, Table 3.3.3 and its footnote 1.

    >>> effective_length_coefficients(BendingCase.SINGLE_UNIFORM, 120.0, 11.25)
    (1.63, 3.0)
    >>> effective_length_coefficients(BendingCase.SINGLE_UNIFORM, 60.0, 11.25)
    (2.06, 0.0)
    """
    row = load("nds_table_3_3_3").row(case=case.value)
    ratio = np.asarray(l_u, dtype=float) / np.asarray(d, dtype=float)
    long = ratio >= 7.0
    very_long = (ratio > 14.3) & (case is BendingCase.OTHER)
    k_l = np.where(very_long, row["k_l_very_long"], np.where(long, row["k_l_long"], row["k_l_short"]))
    k_d = np.where(very_long, 0.0, np.where(long, row["k_d_long"], 0.0))
    return (float(k_l), float(k_d)) if ratio.ndim == 0 else (k_l, k_d)


class LateralSupport(Enum):
    """What holds a bending member laterally, from nothing up (NDS 4.4.1.2); the value orders them."""

    NONE = 0
    ENDS = 1
    ENDS_AND_COMPRESSION_EDGE = 2
    ENDS_EDGE_AND_BLOCKING_8FT = 3
    ENDS_AND_BOTH_EDGES = 4


def lateral_support_wanted(nominal_depth: float, nominal_breadth: float) -> LateralSupport:
    """Lateral support that stands in for a calculated C_L, by the ratio of nominal depth to breadth.

    Where the member has at least this support, C_L = 1.0 may be used (4.4.1.1). Raises ValueError above 7:1,
    for which 4.4.1 has no rule. Source: NDS 2018, 4.4.1.2.

    >>> lateral_support_wanted(10, 2).name
    'ENDS_AND_COMPRESSION_EDGE'
    """
    ratio = nominal_depth / nominal_breadth
    for limit, support in (
        (2, LateralSupport.NONE),
        (4, LateralSupport.ENDS),
        (5, LateralSupport.ENDS_AND_COMPRESSION_EDGE),
        (6, LateralSupport.ENDS_EDGE_AND_BLOCKING_8FT),
        (7, LateralSupport.ENDS_AND_BOTH_EDGES),
    ):
        if ratio <= limit:
            return support
    raise ValueError(
        f"nominal depth to breadth is {ratio:.3g}, but NDS 4.4.1 goes only up to 7: calculate C_L by 3.3.3"
    )


def depth_breadth_satisfied(nominal_depth: float, nominal_breadth: float, held: LateralSupport) -> bool:
    """Whether the member's lateral support meets 4.4.1.2, so that C_L = 1.0 without calculation."""
    return held.value >= lateral_support_wanted(nominal_depth, nominal_breadth).value
