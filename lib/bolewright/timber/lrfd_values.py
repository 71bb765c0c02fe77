"""Adjusted design values of sawn lumber by load and resistance factor design (NDS 2018, Table 4.3.1 and Appendix N).

As :mod:`.adjusted_values`, with format conversion K_F, resistance factor and time effect factor in place of C_D.
"""

from __future__ import annotations

from bolewright.formulas import Limit, formula
from bolewright.units import Ratio, Stress

_EFFECT = {"lam": Limit(0.6, 1.25, "lambda is outside 0.6 to 1.25, the range of NDS Table N3.")}


@formula("NDS 2018, 3.3.3.8 and Appendix N", limits=_EFFECT)
def bending_before_stability_lrfd(
    F_b: Stress,
    K_F: Ratio,
    phi_b: Ratio,
    lam: Ratio,
    C_M: Ratio,
    C_t: Ratio,
    C_F: Ratio,
    C_i: Ratio,
    C_r: Ratio,
) -> Stress:
    """Bending value F_b* by load and resistance factor design, with every factor but C_fu and C_L.

    Parameters: F_b reference bending value (psi); K_F format conversion; phi_b resistance factor; lam time effect;
    C_M wet service; C_t temperature; C_F size; C_i incising; C_r repetitive member.
    Returns: F_b* (psi).
    Source: NDS 2018, 3.3.3.8, Table 4.3.1, Tables N1 to N3.

    2,540 x 0.85 = 2,159; x 0.8 = 1,727.2; x 0.85 x 0.8 x 1.2 x 0.8 x 1.15:

    >>> round(bending_before_stability_lrfd(1000.0, 2.54, 0.85, 0.8, 0.85, 0.8, 1.2, 0.8, 1.15), 2)
    1296.64
    """
    F_b_star: Stress = F_b * K_F * phi_b * lam * C_M * C_t * C_F * C_i * C_r
    return F_b_star


@formula("NDS 2018, Table 4.3.1 and Appendix N", limits=_EFFECT)
def adjusted_bending_lrfd(
    F_b: Stress,
    K_F: Ratio,
    phi_b: Ratio,
    lam: Ratio,
    C_M: Ratio,
    C_t: Ratio,
    C_L: Ratio,
    C_F: Ratio,
    C_fu: Ratio,
    C_i: Ratio,
    C_r: Ratio,
) -> Stress:
    """Adjusted bending design value F'_b by load and resistance factor design.

    Parameters: F_b reference bending value (psi); K_F format conversion; phi_b resistance factor; lam time effect;
    C_M wet service; C_t temperature; C_L beam stability; C_F size; C_fu flat use; C_i incising; C_r repetitive
    member.
    Returns: F'_b (psi).
    Source: NDS 2018, Table 4.3.1, Tables N1 to N3.

    F_b* of 1,296.64 psi as in :func:`bending_before_stability_lrfd`, x 0.9 x 1.1:

    >>> round(adjusted_bending_lrfd(1000.0, 2.54, 0.85, 0.8, 0.85, 0.8, 0.9, 1.2, 1.1, 0.8, 1.15), 1)
    1283.7
    """
    F_b_p: Stress = F_b * K_F * phi_b * lam * C_M * C_t * C_L * C_F * C_fu * C_i * C_r
    return F_b_p


@formula("NDS 2018, Table 4.3.1 and Appendix N", limits=_EFFECT)
def adjusted_shear_lrfd(
    F_v: Stress, K_F: Ratio, phi_v: Ratio, lam: Ratio, C_M: Ratio, C_t: Ratio, C_i: Ratio
) -> Stress:
    """Adjusted shear design value F'_v by load and resistance factor design.

    Parameters: F_v reference shear value (psi); K_F format conversion; phi_v resistance factor; lam time effect;
    C_M wet service; C_t temperature; C_i incising.
    Returns: F'_v (psi).
    Source: NDS 2018, Table 4.3.1, Tables N1 to N3.

    100 x 2.88 x 0.75 x 0.8 = 172.8; x 0.97 x 0.8 x 0.8 = 107.274:

    >>> round(adjusted_shear_lrfd(100.0, 2.88, 0.75, 0.8, 0.97, 0.8, 0.8), 3)
    107.274
    """
    F_v_p: Stress = F_v * K_F * phi_v * lam * C_M * C_t * C_i
    return F_v_p


@formula("NDS 2018, Table 4.3.1 and Appendix N")
def adjusted_bearing_lrfd(
    F_c_perp: Stress, K_F: Ratio, phi_c: Ratio, C_M: Ratio, C_t: Ratio, C_i: Ratio, C_b: Ratio
) -> Stress:
    """Adjusted bearing design value across the grain F'_c,perp by load and resistance factor design.

    The time effect factor does not apply.

    Parameters: F_c_perp reference value (psi); K_F format conversion; phi_c resistance factor; C_M wet service;
    C_t temperature; C_i incising; C_b bearing area.
    Returns: F'_c,perp (psi).
    Source: NDS 2018, Table 4.3.1, Tables N1 and N2.

    400 x 1.67 x 0.9 = 601.2; x 0.5 x 0.8 x 0.95 x 1.25 = 285.57:

    >>> round(adjusted_bearing_lrfd(400.0, 1.67, 0.9, 0.5, 0.8, 0.95, 1.25), 2)
    285.57
    """
    F_c_perp_p: Stress = F_c_perp * K_F * phi_c * C_M * C_t * C_i * C_b
    return F_c_perp_p


@formula("NDS 2018, Table 4.3.1 and Appendix N")
def adjusted_minimum_modulus_lrfd(
    E_min: Stress, K_F: Ratio, phi_s: Ratio, C_M: Ratio, C_t: Ratio, C_i: Ratio, C_fu: Ratio
) -> Stress:
    """Adjusted modulus E'_min for beam stability by load and resistance factor design.

    Parameters: E_min reference modulus (psi); K_F format conversion; phi_s resistance factor; C_M wet service;
    C_t temperature; C_i incising; C_fu flat use.
    Returns: E'_min (psi).
    Source: NDS 2018, Table 4.3.1, Tables N1 and N2.

    500,000 x 1.76 x 0.85 = 748,000; x 0.9 x 0.8 x 0.95 x 0.5 = 255,816:

    >>> round(adjusted_minimum_modulus_lrfd(500_000.0, 1.76, 0.85, 0.9, 0.8, 0.95, 0.5), 3)
    255816.0
    """
    E_min_p: Stress = E_min * K_F * phi_s * C_M * C_t * C_i * C_fu
    return E_min_p
