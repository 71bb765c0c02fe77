"""Yield limit equations of one dowel in single shear (NDS 2018, 12.3.1, Table 12.3.1A).

R_e = F_em/F_es, R_t = l_m/l_s. The dowel diameter D is the root diameter of a threaded fastener (12.3.7).
Members lie face to face; with a gap between them see :mod:`bolewright.fasteners.general_dowel`.
"""

from __future__ import annotations

from numpy import minimum, sqrt

from bolewright.formulas import formula
from bolewright.units import Force, Length, Ratio, Stress

_CLAUSE = "NDS 2018, Table 12.3.1A"


@formula(f"{_CLAUSE}, k_1")
def yield_coefficient_k1(F_em: Stress, F_es: Stress, l_m: Length, l_s: Length) -> Ratio:
    """Coefficient k_1 of yield mode II.

    Parameters: F_em, F_es dowel bearing strength of main and side member (psi); l_m, l_s bearing
    lengths (in). Returns: k_1. Source: NDS 2018, Table 12.3.1A, note.

    R_e = R_t = 2: (sqrt(2 + 8 x 7 + 4 x 8) - 6)/3.

    >>> round(float(yield_coefficient_k1(6000.0, 3000.0, 6.0, 3.0)), 3)
    1.162
    """
    R_e: Ratio = F_em / F_es
    R_t: Ratio = l_m / l_s
    k_1: Ratio = (sqrt(R_e + 2 * R_e**2 * (1 + R_t + R_t**2) + R_t**2 * R_e**3) - R_e * (1 + R_t)) / (1 + R_e)
    return k_1


@formula(f"{_CLAUSE}, k_2")
def yield_coefficient_k2(F_em: Stress, F_es: Stress, F_yb: Stress, D: Length, l_m: Length) -> Ratio:
    """Coefficient k_2 of yield mode III_m.

    Parameters: F_em, F_es bearing strengths (psi); F_yb bending yield strength of the dowel (psi);
    D diameter, l_m bearing length in the main member (in). Returns: k_2.
    Source: NDS 2018, Table 12.3.1A, note.

    R_e = 2: -1 + sqrt(6 + 10 x 64,800 x 0.25/(6000 x 9)) = -1 + sqrt(6 + 3).

    >>> round(float(yield_coefficient_k2(2000.0, 1000.0, 64_800.0, 0.5, 3.0)), 6)
    2.0
    """
    R_e: Ratio = F_em / F_es
    k_2: Ratio = -1 + sqrt(2 * (1 + R_e) + 2 * F_yb * (1 + 2 * R_e) * D**2 / (3 * F_em * l_m**2))
    return k_2


@formula(f"{_CLAUSE}, k_3")
def yield_coefficient_k3(F_em: Stress, F_es: Stress, F_yb: Stress, D: Length, l_s: Length) -> Ratio:
    """Coefficient k_3 of yield mode III_s.

    Parameters: F_em, F_es bearing strengths (psi); F_yb bending yield strength of the dowel (psi);
    D diameter, l_s bearing length in the side member (in). Returns: k_3.
    Source: NDS 2018, Table 12.3.1A, note.

    R_e = 2: -1 + sqrt(3 + 8 x 81,000 x 0.25/(12,000 x 2.25)) = -1 + sqrt(3 + 6).

    >>> round(float(yield_coefficient_k3(4000.0, 2000.0, 81_000.0, 0.5, 1.5)), 6)
    2.0
    """
    R_e: Ratio = F_em / F_es
    k_3: Ratio = -1 + sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D**2 / (3 * F_em * l_s**2))
    return k_3


@formula(f"{_CLAUSE}, equation 12.3-1")
def yield_mode_Im(D: Length, l_m: Length, F_em: Stress, R_d: Ratio) -> Force:
    """Yield mode I_m: the main member crushes along the whole dowel.

    Parameters: D diameter, l_m bearing length in the main member (in); F_em its bearing strength (psi);
    R_d reduction term. Returns: Z (lb). Source: NDS 2018, equations 12.3-1 and 12.3-7.

    >>> round(yield_mode_Im(0.5, 4.0, 5000.0, 4.0), 3)
    2500.0
    """
    Z_Im: Force = D * l_m * F_em / R_d
    return Z_Im


@formula(f"{_CLAUSE}, equation 12.3-2")
def yield_mode_Is(D: Length, l_s: Length, F_es: Stress, R_d: Ratio) -> Force:
    """Yield mode I_s: the side member crushes along the whole dowel.

    Parameters: D diameter, l_s bearing length in the side member (in); F_es its bearing strength (psi);
    R_d reduction term. Returns: Z (lb). Source: NDS 2018, equation 12.3-2.

    >>> round(yield_mode_Is(0.5, 1.5, 5000.0, 4.0), 3)
    937.5
    """
    Z_Is: Force = D * l_s * F_es / R_d
    return Z_Is


@formula(f"{_CLAUSE}, equation 12.3-3")
def yield_mode_II(k_1: Ratio, D: Length, l_s: Length, F_es: Stress, R_d: Ratio) -> Force:
    """Yield mode II: the straight dowel turns in both members.

    Parameters: k_1 coefficient; D diameter, l_s bearing length in the side member (in); F_es its bearing
    strength (psi); R_d reduction term. Returns: Z (lb). Source: NDS 2018, equation 12.3-3.

    >>> round(yield_mode_II(0.4, 0.5, 1.5, 6000.0, 3.6), 3)
    500.0
    """
    Z_II: Force = k_1 * D * l_s * F_es / R_d
    return Z_II


@formula(f"{_CLAUSE}, equation 12.3-4")
def yield_mode_IIIm(k_2: Ratio, D: Length, l_m: Length, F_em: Stress, F_es: Stress, R_d: Ratio) -> Force:
    """Yield mode III_m: a hinge in the dowel inside the side member, the dowel turns in the main member.

    Parameters: k_2 coefficient; D diameter, l_m bearing length in the main member (in); F_em, F_es bearing
    strengths (psi); R_d reduction term. Returns: Z (lb). Source: NDS 2018, equation 12.3-4.

    R_e = 2: 1.2 x 0.5 x 4 x 6000/(5 x 3.2).

    >>> round(yield_mode_IIIm(1.2, 0.5, 4.0, 6000.0, 3000.0, 3.2), 3)
    900.0
    """
    R_e: Ratio = F_em / F_es
    Z_IIIm: Force = k_2 * D * l_m * F_em / ((1 + 2 * R_e) * R_d)
    return Z_IIIm


@formula(f"{_CLAUSE}, equation 12.3-5")
def yield_mode_IIIs(k_3: Ratio, D: Length, l_s: Length, F_em: Stress, F_es: Stress, R_d: Ratio) -> Force:
    """Yield mode III_s: a hinge in the dowel inside the main member, the dowel turns in the side member.

    Parameters: k_3 coefficient; D diameter, l_s bearing length in the side member (in); F_em, F_es bearing
    strengths (psi); R_d reduction term. Returns: Z (lb). Source: NDS 2018, equation 12.3-5.

    R_e = 2: 1.6 x 0.5 x 1.5 x 6000/(4 x 3.2).

    >>> round(yield_mode_IIIs(1.6, 0.5, 1.5, 6000.0, 3000.0, 3.2), 3)
    562.5
    """
    R_e: Ratio = F_em / F_es
    Z_IIIs: Force = k_3 * D * l_s * F_em / ((2 + R_e) * R_d)
    return Z_IIIs


@formula(f"{_CLAUSE}, equation 12.3-6")
def yield_mode_IV(D: Length, F_em: Stress, F_es: Stress, F_yb: Stress, R_d: Ratio) -> Force:
    """Yield mode IV: a hinge in the dowel in each member.

    Parameters: D diameter (in); F_em, F_es bearing strengths, F_yb bending yield strength (psi);
    R_d reduction term. Returns: Z (lb). Source: NDS 2018, equation 12.3-6.

    R_e = 2: the root of 2 x 6000 x 75,000/9 is 10,000.

    >>> round(float(yield_mode_IV(0.5, 6000.0, 3000.0, 75_000.0, 3.2)), 3)
    781.25
    """
    R_e: Ratio = F_em / F_es
    Z_IV: Force = D**2 / R_d * sqrt(2 * F_em * F_yb / (3 * (1 + R_e)))
    return Z_IV


@formula("NDS 2018, 12.3.1")
def least_of_six_modes(
    Z_Im: Force, Z_Is: Force, Z_II: Force, Z_IIIm: Force, Z_IIIs: Force, Z_IV: Force
) -> Force:
    """Reference lateral design value Z in single shear: the least of the six yield modes.

    Parameters: Z_Im, Z_Is, Z_II, Z_IIIm, Z_IIIs, Z_IV values of the modes (lb).
    Returns: Z (lb). Source: NDS 2018, 12.3.1.

    >>> round(float(least_of_six_modes(2500.0, 937.5, 500.0, 1500.0, 750.0, 781.25)), 3)
    500.0
    >>> round(float(least_of_six_modes(2500.0, 937.5, 900.0, 1500.0, 750.0, 781.25)), 3)
    750.0
    >>> round(float(least_of_six_modes(2500.0, 400.0, 900.0, 1500.0, 750.0, 781.25)), 3)
    400.0
    """
    Z_I: Force = minimum(Z_Im, Z_Is)
    Z_III: Force = minimum(Z_IIIm, Z_IIIs)
    Z_hinged: Force = minimum(Z_III, Z_IV)
    Z_turned: Force = minimum(Z_II, Z_hinged)
    Z: Force = minimum(Z_I, Z_turned)
    return Z
