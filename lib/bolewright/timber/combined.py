"""Bending with axial load and eccentric load (NDS 2018, 3.9 and 15.4). Results are ratios, at most 1.

Axis 1 is edgewise: moment that bends the member about its strong axis, load on the narrow face, d_1 the wide
dimension. Axis 2 is flatwise, d_2 the narrow dimension. The amplifiers 1 - f_c/F_cE are kept from falling
below 0.000001, so that a member past its buckling load shows a huge ratio and never a negative one.
"""

from __future__ import annotations

from numpy import maximum

from bolewright.formulas import formula
from bolewright.units import Area, Force, Length, Ratio, Stress


@formula("NDS 2018, 3.8.1")
def tension_stress(T: Force, A_n: Area) -> Stress:
    """Tension stress parallel to grain on the net section.

    Parameters: T tension (lb); A_n net area (in²). Returns: f_t (psi). Source: NDS 2018, 3.8.1 and 3.1.2.

    >>> round(tension_stress(4000.0, 8.0), 3)
    500.0
    """
    f_t: Stress = T / A_n
    return f_t


@formula("NDS 2018, 3.9.1")
def bending_and_tension(f_t: Stress, F_t_p: Stress, f_b: Stress, F_b_star: Stress) -> Ratio:
    """Ratio for bending with axial tension, tension edge.

    Parameters: f_t tension stress; F_t_p adjusted tension value; f_b bending stress; F_b_star bending value
    with every factor but C_L (all psi). Returns: ratio, at most 1. Source: NDS 2018, equation 3.9-1.

    >>> round(bending_and_tension(100.0, 400.0, 600.0, 1200.0), 6)
    0.75
    """
    ratio: Ratio = f_t / F_t_p + f_b / F_b_star
    return ratio


@formula("NDS 2018, 3.9.1")
def bending_less_tension(f_b: Stress, f_t: Stress, F_b_dstar: Stress) -> Ratio:
    """Ratio for bending with axial tension, compression edge.

    Parameters: f_b bending stress; f_t tension stress; F_b_dstar bending value with every factor but C_V,
    which for sawn lumber is F'_b (all psi). Returns: ratio, at most 1. Source: NDS 2018, equation 3.9-2.

    >>> round(bending_less_tension(700.0, 100.0, 1200.0), 6)
    0.5
    """
    ratio: Ratio = (f_b - f_t) / F_b_dstar
    return ratio


@formula("NDS 2018, 3.9.2")
def bending_and_compression(
    f_c: Stress,
    F_c_p: Stress,
    F_cE1: Stress,
    F_cE2: Stress,
    f_b1: Stress,
    F_b1_p: Stress,
    f_b2: Stress,
    F_b2_p: Stress,
    F_bE: Stress,
) -> Ratio:
    """Ratio for bending about one or both axes with axial compression.

    Parameters: f_c compression stress; F_c_p adjusted compression value; F_cE1, F_cE2 critical buckling
    stresses edgewise and flatwise; f_b1, f_b2 bending stresses edgewise and flatwise; F_b1_p, F_b2_p adjusted
    bending values; F_bE critical buckling stress in bending (all psi).
    Returns: ratio, at most 1; f_c < F_cE1, f_c < F_cE2 and f_b1 < F_bE are to hold too, else it is huge.
    Source: NDS 2018, equation 3.9-3.

    1/4 axially, 480/(1200 x 0.8) = 1/2 edgewise, 60/(1200 x 1/4) = 1/5 flatwise.

    >>> round(float(bending_and_compression(300.0, 600.0, 1500.0, 600.0, 480.0, 1200.0, 60.0, 1200.0, 960.0)), 6)
    0.95
    """
    axial: Ratio = (f_c / F_c_p) ** 2
    amplifier_1: Ratio = maximum(1 - f_c / F_cE1, 0.000001)
    amplifier_2: Ratio = maximum(1 - f_c / F_cE2 - (f_b1 / F_bE) ** 2, 0.000001)
    edgewise: Ratio = f_b1 / (F_b1_p * amplifier_1)
    flatwise: Ratio = f_b2 / (F_b2_p * amplifier_2)
    ratio: Ratio = axial + edgewise + flatwise
    return ratio


@formula("NDS 2018, 3.9.2")
def flatwise_stability(f_c: Stress, F_cE2: Stress, f_b1: Stress, F_bE: Stress) -> Ratio:
    """Ratio of flatwise buckling under axial compression and edgewise bending.

    Parameters: f_c compression stress; F_cE2 critical buckling stress flatwise; f_b1 edgewise bending stress;
    F_bE critical buckling stress in bending (all psi). Returns: ratio, below 1.
    Source: NDS 2018, equation 3.9-4.

    >>> round(flatwise_stability(300.0, 600.0, 480.0, 960.0), 6)
    0.75
    """
    ratio: Ratio = f_c / F_cE2 + (f_b1 / F_bE) ** 2
    return ratio


@formula("NDS 2018, 15.4.1", confidence="from memory")
def eccentric_compression(
    f_c: Stress,
    F_c_p: Stress,
    F_cE1: Stress,
    F_cE2: Stress,
    f_b1: Stress,
    F_b1_p: Stress,
    f_b2: Stress,
    F_b2_p: Stress,
    F_bE: Stress,
    e_1: Length,
    d_1: Length,
    e_2: Length,
    d_2: Length,
) -> Ratio:
    """Ratio for an eccentric axial load with side loads, either axis or both.

    Parameters: f_c compression stress; F_c_p adjusted compression value; F_cE1, F_cE2 critical buckling
    stresses edgewise and flatwise; f_b1, f_b2 bending stresses from side loads alone; F_b1_p, F_b2_p adjusted
    bending values; F_bE critical buckling stress in bending (all psi); e_1, e_2 eccentricities edgewise and
    flatwise (in); d_1 wide dimension, d_2 narrow dimension (in).
    Returns: ratio, at most 1. Source: NDS 2018, equation 15.4-1.

    1/4 axially; 330 + 150 x 1.0468 over 960 edgewise, 45 x 1.1755 over 300 flatwise: 0.25 + 0.5073 + 0.1763.

    >>> given = (300.0, 600.0, 1500.0, 600.0, 330.0, 1200.0, 0.0, 1200.0, 960.0, 1.0, 12.0, 0.1, 4.0)
    >>> round(float(eccentric_compression(*given)), 4)
    0.9336
    """
    end_1: Stress = f_c * 6 * e_1 / d_1
    end_2: Stress = f_c * 6 * e_2 / d_2
    twist: Ratio = ((f_b1 + end_1) / F_bE) ** 2
    amplifier_1: Ratio = maximum(1 - f_c / F_cE1, 0.000001)
    amplifier_2: Ratio = maximum(1 - f_c / F_cE2 - twist, 0.000001)
    axial: Ratio = (f_c / F_c_p) ** 2
    edgewise: Ratio = (f_b1 + end_1 * (1 + 0.234 * f_c / F_cE1)) / (F_b1_p * amplifier_1)
    flatwise: Ratio = (f_b2 + end_2 * (1 + 0.234 * f_c / F_cE2 + 0.234 * twist)) / (F_b2_p * amplifier_2)
    ratio: Ratio = axial + edgewise + flatwise
    return ratio


@formula("NDS 2018, 15.4.1", confidence="from memory")
def eccentric_flatwise_stability(
    f_c: Stress, F_cE2: Stress, f_b1: Stress, F_bE: Stress, e_1: Length, d_1: Length
) -> Ratio:
    """Ratio of flatwise buckling under an eccentric axial load and edgewise bending.

    Parameters: f_c compression stress; F_cE2 critical buckling stress flatwise; f_b1 edgewise bending stress
    from side loads; F_bE critical buckling stress in bending (psi); e_1 eccentricity, d_1 wide dimension
    (in). Returns: ratio, below 1. Source: NDS 2018, equation 15.4-2.

    >>> round(eccentric_flatwise_stability(300.0, 600.0, 330.0, 960.0, 1.0, 12.0), 6)
    0.75
    """
    end_1: Stress = f_c * 6 * e_1 / d_1
    ratio: Ratio = f_c / F_cE2 + ((f_b1 + end_1) / F_bE) ** 2
    return ratio


@formula("NDS 2018, 15.4.2", confidence="from memory")
def bracket_side_load(P: Force, a: Length, l_P: Length, l: Length) -> Force:
    """Side load at mid-height that stands for a load on a side bracket.

    When it applies: a bracket in the upper quarter of a column pinned at both ends; the bracket's load is
    also added to the axial load. Parameters: P load on the bracket (lb); a its distance from the column's
    axis (in); l_P its height above the far end (in); l column length (in). Returns: P_s (lb).
    Source: NDS 2018, 15.4.2, equation 15.4-3.

    >>> round(bracket_side_load(1000.0, 4.0, 90.0, 100.0), 3)
    108.0
    """
    P_s: Force = 3 * P * a * l_P / l**2
    return P_s
