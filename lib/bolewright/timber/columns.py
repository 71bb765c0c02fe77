"""Solid sawn columns: effective length, slenderness, stability factor C_P (NDS 2018, 3.6 and 3.7)."""

from __future__ import annotations

from enum import Enum

from numpy import pi, sqrt

from bolewright.formulas import formula
from bolewright.reference import load
from bolewright.units import Area, Force, Length, Ratio, Stress

SLENDERNESS_LIMIT = 50.0  # 3.7.1.4
SLENDERNESS_LIMIT_CONSTRUCTION = 75.0  # 3.7.1.4, during construction


class ColumnEnds(Enum):
    """End conditions of NDS Appendix G Table G1; the value is the row's name in the reference table."""

    FIXED_FIXED = "both ends fixed"
    FIXED_PINNED = "one end fixed, one pinned"
    FIXED_SWAY = "one end fixed, other free to move but not to turn"
    PINNED_PINNED = "both ends pinned"
    FIXED_FREE = "one end fixed, other free"
    PINNED_SWAY = "one end pinned, other free to move but not to turn"


def buckling_length_coefficient(ends: ColumnEnds) -> float:
    """Recommended buckling length coefficient K_e (NDS 2018, Appendix G, Table G1).

    >>> buckling_length_coefficient(ColumnEnds.FIXED_FREE)
    2.1
    """
    return float(load("nds_table_G1").row(ends=ends.value)["K_e"])


@formula("NDS 2018, 3.7.1.2")
def effective_column_length(K_e: Ratio, l: Length) -> Length:
    """Effective length of a column in one plane.

    Parameters: K_e buckling length coefficient; l distance between points of lateral support in that plane
    (in). Returns: l_e (in). Source: NDS 2018, 3.7.1.2 and Appendix G.

    >>> round(effective_column_length(2.1, 100.0), 3)
    210.0
    """
    l_e: Length = K_e * l
    return l_e


@formula("NDS 2018, 3.7.1.3")
def column_slenderness(l_e: Length, d: Length) -> Ratio:
    """Slenderness ratio l_e/d of a rectangular column in one plane; at most 50, 75 in construction (3.7.1.4).

    Parameters: l_e effective length (in); d dimension of the section in that plane (in).
    Returns: l_e/d. Source: NDS 2018, 3.7.1.3 and 3.7.1.4.

    >>> round(column_slenderness(110.0, 5.5), 3)
    20.0
    """
    slenderness: Ratio = l_e / d
    return slenderness


@formula("NDS 2018, 3.7.1.5")
def critical_buckling_compression(E_min_p: Stress, l_e: Length, d: Length) -> Stress:
    """Critical buckling stress F_cE of a rectangular column in one plane.

    Parameters: E_min_p adjusted minimum modulus (psi); l_e effective length (in); d dimension of the section
    in that plane (in). Returns: F_cE (psi). Source: NDS 2018, 3.7.1.5.

    Worked example of a public wiki, 2x6 over 30 in. on its weak axis: 1130 psi.

    >>> round(float(critical_buckling_compression(550_000, 30, 1.5)), -1)
    1130.0
    """
    F_cE: Stress = 0.822 * E_min_p / (l_e / d) ** 2
    return F_cE


@formula("NDS 2018, 3.7.1.5")
def column_stability_factor(F_cE: Stress, F_c_star: Stress, c: Ratio) -> Ratio:
    """Column stability factor C_P of a solid column.

    When it applies: a column not held throughout its length; the plane with the larger l_e/d governs; held in
    all directions C_P = 1 (3.7.1.1). Parameters: F_cE critical buckling stress (psi); F_c_star compression
    value with every factor but C_P (psi); c 0.8 sawn, 0.85 round. Returns: C_P, in (0, 1].
    Source: NDS 2018, 3.7.1.5, equation 3.7-1.

    Same worked example: 0.434 on the strong axis.

    >>> round(float(column_stability_factor(949.7, 1897.5, 0.8)), 3)
    0.434
    """
    alpha_c: Ratio = F_cE / F_c_star
    beta_c: Ratio = (1 + alpha_c) / (2 * c)
    C_P: Ratio = beta_c - sqrt(beta_c**2 - alpha_c / c)
    return C_P


@formula("NDS 2018, 3.6.3")
def compression_stress(P: Force, A: Area) -> Stress:
    """Compression stress parallel to grain.

    Parameters: P axial load (lb); A gross area where buckling governs (held to F'_c), net area at a brace or
    hole (held to F_c*), in². Returns: f_c (psi). Source: NDS 2018, 3.6.3.

    >>> round(compression_stress(12_100.0, 30.25), 3)
    400.0
    """
    f_c: Stress = P / A
    return f_c


@formula("NDS 2018, 3.7.3")
def equivalent_square(D: Length) -> Length:
    """Side of the square that a round column is designed as.

    Parameters: D diameter (in). Returns: d (in). Source: NDS 2018, 3.7.3: same area.

    The circle's area is 78.54 in²:

    >>> round(float(equivalent_square(10.0)), 3)
    8.862
    """
    d: Length = D * sqrt(pi / 4)
    return d


COLUMN_C = {"sawn": 0.8, "round": 0.85}
"""c of equation 3.7-1 (NDS 2018, 3.7.1.5)."""
