"""Adjusted design values of sawn lumber (NDS 2018 Table 4.3.1), allowable stress design.

Each formula is the reference value times the factors that Table 4.3.1 gives it. The factors come from
:mod:`bolewright.timber.adjustment`, C_L from :mod:`.bending`, C_P from :mod:`.columns`, C_b from
:mod:`.bearing`.
"""

from __future__ import annotations

from bolewright.formulas import Limit, formula
from bolewright.units import Ratio, Stress

_NO_IMPACT = "C_D is outside 0.9 to 2.0, the range of NDS Table 2.3.2."
_C_D = {"C_D": Limit(0.9, 2.0, _NO_IMPACT)}


@formula("NDS 2018, 3.3.3.8", limits=_C_D)
def bending_before_stability(
    F_b: Stress, C_D: Ratio, C_M: Ratio, C_t: Ratio, C_F: Ratio, C_i: Ratio, C_r: Ratio
) -> Stress:
    """Bending value F_b* with every factor but C_fu and C_L, as the beam stability factor wants it.

    Parameters: F_b reference bending value (psi); C_D load duration; C_M wet service; C_t temperature;
    C_F size; C_i incising; C_r repetitive member.
    Returns: F_b* (psi).
    Source: NDS 2018, 3.3.3.8 and Table 4.3.1.

    >>> round(bending_before_stability(1000.0, 1.25, 0.85, 0.8, 1.2, 0.8, 1.15), 3)
    938.4
    """
    F_b_star: Stress = F_b * C_D * C_M * C_t * C_F * C_i * C_r
    return F_b_star


@formula("NDS 2018, Table 4.3.1", limits=_C_D)
def adjusted_bending(
    F_b: Stress,
    C_D: Ratio,
    C_M: Ratio,
    C_t: Ratio,
    C_L: Ratio,
    C_F: Ratio,
    C_fu: Ratio,
    C_i: Ratio,
    C_r: Ratio,
) -> Stress:
    """Adjusted bending design value F'_b of sawn lumber.

    Parameters: F_b reference bending value (psi); C_D load duration; C_M wet service; C_t temperature;
    C_L beam stability; C_F size; C_fu flat use; C_i incising; C_r repetitive member.
    Returns: F'_b (psi).
    Source: NDS 2018, Table 4.3.1.

    Southern Pine No.2 2x8 deck joist of AWC DCA 6 Table 2, C_r = 1.15:

    >>> round(adjusted_bending(925, 1, 1, 1, 1, 1, 1, 1, 1.15), 2)
    1063.75
    >>> round(adjusted_bending(1000.0, 1.6, 0.85, 0.8, 0.9, 1.2, 1.1, 0.8, 1.15), 2)
    1189.14
    """
    F_b_p: Stress = F_b * C_D * C_M * C_t * C_L * C_F * C_fu * C_i * C_r
    return F_b_p


@formula("NDS 2018, Table 4.3.1", limits=_C_D)
def adjusted_tension(F_t: Stress, C_D: Ratio, C_M: Ratio, C_t: Ratio, C_F: Ratio, C_i: Ratio) -> Stress:
    """Adjusted tension design value parallel to grain F'_t.

    Parameters: F_t reference tension value (psi); C_D load duration; C_M wet service; C_t temperature;
    C_F size; C_i incising.
    Returns: F'_t (psi).
    Source: NDS 2018, Table 4.3.1.

    >>> round(adjusted_tension(500.0, 1.6, 1.0, 0.8, 1.2, 0.8), 3)
    614.4
    """
    F_t_p: Stress = F_t * C_D * C_M * C_t * C_F * C_i
    return F_t_p


@formula("NDS 2018, Table 4.3.1", limits=_C_D)
def adjusted_shear(F_v: Stress, C_D: Ratio, C_M: Ratio, C_t: Ratio, C_i: Ratio) -> Stress:
    """Adjusted shear design value parallel to grain F'_v.

    Parameters: F_v reference shear value (psi); C_D load duration; C_M wet service; C_t temperature;
    C_i incising.
    Returns: F'_v (psi).
    Source: NDS 2018, Table 4.3.1.

    >>> round(adjusted_shear(180.0, 1.25, 0.97, 0.8, 0.8), 3)
    139.68
    """
    F_v_p: Stress = F_v * C_D * C_M * C_t * C_i
    return F_v_p


@formula("NDS 2018, Table 4.3.1")
def adjusted_bearing(F_c_perp: Stress, C_M: Ratio, C_t: Ratio, C_i: Ratio, C_b: Ratio) -> Stress:
    """Adjusted bearing design value across the grain F'_c,perp; the load duration factor does not apply.

    Parameters: F_c_perp reference value (psi); C_M wet service; C_t temperature; C_i incising;
    C_b bearing area.
    Returns: F'_c,perp (psi).
    Source: NDS 2018, Table 4.3.1.

    >>> round(adjusted_bearing(400.0, 0.67, 0.8, 1.0, 1.25), 3)
    268.0
    """
    F_c_perp_p: Stress = F_c_perp * C_M * C_t * C_i * C_b
    return F_c_perp_p


@formula("NDS 2018, 3.7.1.5", limits=_C_D)
def compression_before_stability(
    F_c: Stress, C_D: Ratio, C_M: Ratio, C_t: Ratio, C_F: Ratio, C_i: Ratio
) -> Stress:
    """Compression value F_c* with every factor but C_P: for column stability and for end grain bearing.

    Parameters: F_c reference compression value (psi); C_D load duration; C_M wet service; C_t temperature;
    C_F size; C_i incising.
    Returns: F_c* (psi).
    Source: NDS 2018, 3.7.1.5 and 3.10.1.

    >>> round(compression_before_stability(1650, 1.15, 1, 1, 1, 1), 1)
    1897.5
    >>> round(compression_before_stability(1500.0, 1.6, 0.8, 0.8, 1.1, 0.8), 2)
    1351.68
    """
    F_c_star: Stress = F_c * C_D * C_M * C_t * C_F * C_i
    return F_c_star


@formula("NDS 2018, Table 4.3.1", limits=_C_D)
def adjusted_compression(
    F_c: Stress, C_D: Ratio, C_M: Ratio, C_t: Ratio, C_F: Ratio, C_i: Ratio, C_P: Ratio
) -> Stress:
    """Adjusted compression design value parallel to grain F'_c.

    Parameters: F_c reference compression value (psi); C_D load duration; C_M wet service; C_t temperature;
    C_F size; C_i incising; C_P column stability.
    Returns: F'_c (psi).
    Source: NDS 2018, Table 4.3.1.

    >>> round(adjusted_compression(1500.0, 1.0, 0.8, 0.8, 1.0, 0.8, 0.5), 3)
    384.0
    """
    F_c_p: Stress = F_c * C_D * C_M * C_t * C_F * C_i * C_P
    return F_c_p


@formula("NDS 2018, Table 4.3.1")
def adjusted_modulus(E: Stress, C_M: Ratio, C_t: Ratio, C_i: Ratio, C_fu: Ratio) -> Stress:
    """Adjusted modulus of elasticity E' for deflection.

    Parameters: E reference modulus (psi); C_M wet service; C_t temperature; C_i incising; C_fu flat use
    (differs from 1 only for beams and stringers No.1 loaded on the wide face, Supplement Table 4D).
    Returns: E' (psi).
    Source: NDS 2018, Table 4.3.1.

    >>> round(adjusted_modulus(1_600_000.0, 0.9, 0.9, 0.95, 1.0), 1)
    1231200.0
    """
    E_p: Stress = E * C_M * C_t * C_i * C_fu
    return E_p


@formula("NDS 2018, Table 4.3.1")
def adjusted_minimum_modulus(E_min: Stress, C_M: Ratio, C_t: Ratio, C_i: Ratio, C_fu: Ratio) -> Stress:
    """Adjusted modulus E'_min for beam and column stability.

    Parameters: E_min reference modulus (psi); C_M wet service; C_t temperature; C_i incising; C_fu flat use
    (differs from 1 only for beams and stringers No.1 loaded on the wide face, Supplement Table 4D).
    Returns: E'_min (psi).
    Source: NDS 2018, Table 4.3.1. The buckling stiffness factor C_T is for trusses and is not used here.

    >>> round(adjusted_minimum_modulus(580_000.0, 0.9, 0.9, 0.95, 1.0), 1)
    446310.0
    """
    E_min_p: Stress = E_min * C_M * C_t * C_i * C_fu
    return E_min_p


@formula("NDS 2018, 4.2.6")
def bearing_at_small_deformation(F_c_perp: Stress) -> Stress:
    """Bearing value across the grain at 0.02 in. of deformation instead of 0.04 in.

    Parameters: F_c_perp reference value (psi). Returns: F_c,perp0.02 (psi).
    When it applies: where crushing at a bearing matters to the user. Source: NDS 2018, 4.2.6.

    >>> round(bearing_at_small_deformation(565.0), 2)
    412.45
    """
    F_c_perp_02: Stress = 0.73 * F_c_perp
    return F_c_perp_02


@formula("NDS 2018, Appendix D.4")
def minimum_modulus(E: Stress, COV_E: Ratio) -> Stress:
    """Minimum modulus E_min from the mean modulus and its coefficient of variation.

    Parameters: E reference modulus (psi); COV_E coefficient of variation (0.25 for visually graded lumber).
    Returns: E_min (psi). Source: NDS 2018, Appendix D.4 and F.

    >>> round(minimum_modulus(1_600_000, 0.25), -4)
    580000.0
    """
    E_min: Stress = 1.03 * E * (1 - 1.645 * COV_E) / 1.66
    return E_min
