"""Yield limit equations of one dowel in double shear, symmetric (NDS 2018, 12.3.1, Table 12.3.1A).

Mode I_m is that of single shear. Modes II and III_m can't occur in a symmetric three-member connection.
"""

from __future__ import annotations

from numpy import minimum, sqrt

from bolewright.formulas import formula
from bolewright.units import Force, Length, Ratio, Stress

_CLAUSE = "NDS 2018, Table 12.3.1A"


@formula(f"{_CLAUSE}, equation 12.3-8")
def double_shear_mode_Is(D: Length, l_s: Length, F_es: Stress, R_d: Ratio) -> Force:
    """Yield mode I_s in double shear: both side members crush along the whole dowel.

    Parameters: D diameter, l_s bearing length in one side member (in); F_es its bearing strength (psi);
    R_d reduction term. Returns: Z of both shear planes (lb). Source: NDS 2018, equation 12.3-8.

    >>> round(double_shear_mode_Is(0.5, 1.5, 5000.0, 4.0), 3)
    1875.0
    """
    Z_Is: Force = 2 * D * l_s * F_es / R_d
    return Z_Is


@formula(f"{_CLAUSE}, equation 12.3-9")
def double_shear_mode_IIIs(
    k_3: Ratio, D: Length, l_s: Length, F_em: Stress, F_es: Stress, R_d: Ratio
) -> Force:
    """Yield mode III_s in double shear: a hinge per shear plane inside the main member.

    Parameters: k_3 coefficient; D diameter, l_s bearing length in one side member (in); F_em, F_es bearing
    strengths (psi); R_d reduction term. Returns: Z of both shear planes (lb).
    Source: NDS 2018, equation 12.3-9.

    R_e = 2: 2 x 1.6 x 0.5 x 1.5 x 6000/(4 x 3.2).

    >>> round(double_shear_mode_IIIs(1.6, 0.5, 1.5, 6000.0, 3000.0, 3.2), 3)
    1125.0
    """
    R_e: Ratio = F_em / F_es
    Z_IIIs: Force = 2 * k_3 * D * l_s * F_em / ((2 + R_e) * R_d)
    return Z_IIIs


@formula(f"{_CLAUSE}, equation 12.3-10")
def double_shear_mode_IV(D: Length, F_em: Stress, F_es: Stress, F_yb: Stress, R_d: Ratio) -> Force:
    """Yield mode IV in double shear: two hinges per shear plane.

    Parameters: D diameter (in); F_em, F_es bearing strengths, F_yb bending yield strength (psi);
    R_d reduction term. Returns: Z of both shear planes (lb). Source: NDS 2018, equation 12.3-10.

    R_e = 2: the root of 2 x 6000 x 75,000/9 is 10,000.

    >>> round(float(double_shear_mode_IV(0.5, 6000.0, 3000.0, 75_000.0, 3.2)), 3)
    1562.5
    """
    R_e: Ratio = F_em / F_es
    Z_IV: Force = 2 * D**2 / R_d * sqrt(2 * F_em * F_yb / (3 * (1 + R_e)))
    return Z_IV


@formula("NDS 2018, 12.3.1")
def least_of_four_modes(Z_Im: Force, Z_Is: Force, Z_IIIs: Force, Z_IV: Force) -> Force:
    """Reference lateral design value Z in double shear: the least of the four yield modes.

    Parameters: Z_Im, Z_Is, Z_IIIs, Z_IV values of the modes (lb). Returns: Z of both shear planes (lb).
    Source: NDS 2018, 12.3.1.

    >>> round(float(least_of_four_modes(2500.0, 1875.0, 1125.0, 1562.5)), 3)
    1125.0
    >>> round(float(least_of_four_modes(2500.0, 900.0, 1125.0, 1562.5)), 3)
    900.0
    """
    Z_I: Force = minimum(Z_Im, Z_Is)
    Z_hinged: Force = minimum(Z_IIIs, Z_IV)
    Z: Force = minimum(Z_I, Z_hinged)
    return Z


@formula("NDS 2018, 12.3.8", confidence="from memory")
def lesser_symmetric_value(Z_1: Force, Z_2: Force) -> Force:
    """Reference lateral value in double shear with unlike side members: the lesser symmetric connection.

    Parameters: Z_1, Z_2 values of the symmetric connections with either side member on both faces (lb).
    Returns: Z of both shear planes (lb). Source: NDS 2018, 12.3.8.

    >>> round(float(lesser_symmetric_value(1200.0, 900.0)), 3)
    900.0
    """
    Z: Force = minimum(Z_1, Z_2)
    return Z
