"""Plain concrete piers and pedestals by ACI 318-19 chapter 14, under factored loads."""

from __future__ import annotations

from numpy import minimum, sqrt

from bolewright.formulas import formula
from bolewright.ground.footing import FROM_MEMORY, LEAST_STRENGTH
from bolewright.units import Area, Force, Length, Moment, Ratio, SectionModulus, Stress


@formula("ACI 318-19, 14.5.6.1", limits={"f_c": LEAST_STRENGTH}, confidence=FROM_MEMORY)
def concrete_bearing_strength(f_c: Stress, A_1: Area, A_2: Area) -> Force:
    """Design bearing strength of plain concrete under a post or plate.

    Parameters: f_c specified strength of concrete (psi); A_1 loaded area (in²); A_2 area of the largest like figure
    inside the support, spread 2 to 1 (in²). Returns: phiB_n design strength (lb). Source: ACI 318-19 Table 14.5.6.1,
    21.2.1 (phi = 0.60).

    The root of 36/16 is 1.5; that of 144/16 counts as 2:

    >>> round(float(concrete_bearing_strength(2500.0, 16.0, 36.0)), 3)
    30600.0
    >>> round(float(concrete_bearing_strength(2500.0, 16.0, 144.0)), 3)
    40800.0
    """
    k: Ratio = minimum(sqrt(A_2 / A_1), 2)
    B_n: Force = k * 0.85 * f_c * A_1  # 14.5.6.1
    phiB_n: Force = 0.60 * B_n  # 21.2.1
    return phiB_n


@formula("ACI 318-19, 14.5.3.1", limits={"f_c": LEAST_STRENGTH}, confidence=FROM_MEMORY)
def pier_axial_strength(f_c: Stress, A_1: Area, l_c: Length, h: Length) -> Force:
    """Design axial strength of a plain concrete pier or pedestal.

    Parameters: f_c specified strength of concrete (psi); A_1 area of the pier, or the loaded area on it if smaller
    (in²); l_c height between lateral supports (in); 0 to the soil's hold for a pier in undisturbed soil; h least width,
    or side of the square of equal area (in). Returns: phiP_n design strength (lb). Source: ACI 318-19 14.5.3.1, 21.2.1
    (phi = 0.60).

    80/320 is 1/4: 0.6 x 0.6 x 250,000 x 15/16.

    >>> round(pier_axial_strength(2500.0, 100.0, 80.0, 10.0), 3)
    84375.0
    """
    P_n: Force = 0.60 * f_c * A_1 * (1 - (l_c / (32 * h)) ** 2)  # 14.5.3.1
    phiP_n: Force = 0.60 * P_n  # 21.2.1
    return phiP_n


@formula("ACI 318-19, 14.5.4.1a", confidence=FROM_MEMORY)
def pier_axial_and_bending(P_u: Force, phiP_n: Force, M_u: Moment, phiM_n: Moment) -> Ratio:
    """Axial load and bending of a plain concrete pier on its compression face.

    Parameters: P_u, M_u factored load (lb) and moment (lb·in); phiP_n, phiM_n design strengths, flexure in compression:
    0.60 x 0.85 f'c S. Returns: r ratio, at most 1. Source: ACI 318-19 Table 14.5.4.1(a).

    >>> round(pier_axial_and_bending(20_000.0, 80_000.0, 10_000.0, 20_000.0), 6)
    0.75
    """
    r: Ratio = P_u / phiP_n + M_u / phiM_n
    return r


@formula("ACI 318-19, 14.5.4.1b", limits={"f_c": LEAST_STRENGTH}, confidence=FROM_MEMORY, homogeneous=False)
def pier_tension_ratio(
    P_u: Force, M_u: Moment, A_g: Area, S_m: SectionModulus, f_c: Stress, lam: Ratio
) -> Ratio:
    """Tension in a plain concrete pier under load and moment, as a ratio; negative when all in compression.

    Parameters: P_u, M_u factored load, compression positive (lb), and moment (lb·in); A_g, S_m area (in²) and section
    modulus (in³); f_c specified strength of concrete (psi); lam 1.0 for normal weight concrete. Returns: r ratio, at
    most 1. Source: ACI 318-19 Table 14.5.4.1(b): M_u / S_m - P_u / A_g <= phi 5 lambda sqrt(f'c).

    >>> round(float(pier_tension_ratio(1000.0, 6625.0, 100.0, 100.0, 2500.0, 0.75)), 6)
    0.5
    """
    f_t: Stress = M_u / S_m - P_u / A_g
    phif_r: Stress = 0.60 * 5 * lam * sqrt(f_c)
    r: Ratio = f_t / phif_r
    return r


@formula("ACI 318-19, 14.3.3.1 (pedestal)")
def pedestal_height_limit(b_min: Length) -> Length:
    """Greatest unsupported height of a plain concrete pedestal.

    A pier held laterally by undisturbed soil over its height is not bound by it.

    Parameters: b_min least width, or side of the square of equal area (in). Returns: l_max height (in). Source: ACI
    318-19 14.3.3.1, 2.3 (pedestal).

    >>> round(pedestal_height_limit(10.0), 3)
    30.0
    """
    l_max: Length = 3 * b_min
    return l_max
