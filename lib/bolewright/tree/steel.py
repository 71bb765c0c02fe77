"""Steel of the tree bolt: bending and shear of a solid round bar by AISC 360, allowable strength."""

from __future__ import annotations

from numpy import minimum, pi, sqrt

from bolewright.formulas import formula
from bolewright.units import Area, Force, Length, LineLoadInch, Moment, Ratio, SectionModulus, Stress


@formula("AISC 360-16, F11 (held to first yield)")
def bolt_moment_first_yield(F_y: Stress, D_r: Length) -> Moment:
    """Allowable moment of a solid round bar, held to first yield: the value the bolt check uses.

    F11 itself allows up to 1.6 F_y S (:func:`bolt_moment_plastic`). The bolt check keeps to F_y S: the moment
    comes from an elastic calculation, the bar is loaded to and fro by a moving tree, and thread is a notch.
    No load duration factor on steel.

    Parameters: F_y yield strength (psi); D_r diameter at the section, root if thread reaches there (in). Returns: M_a
    allowable moment (lb·in). Source: AISC 360-16 F1, F11 with M_n = F_y S, Omega = 1.67.

    S = 0.01227 in³: 441.8/1.67.

    >>> round(bolt_moment_first_yield(36_000.0, 0.5), 0)
    265.0
    """
    S: SectionModulus = pi * D_r**3 / 32
    M_n: Moment = F_y * S
    M_a: Moment = M_n / 1.67  # F1
    return M_a


@formula("AISC 360-16, F11.1")
def bolt_moment_plastic(F_y: Stress, D_r: Length) -> Moment:
    """Allowable moment of a solid round bar with the full plastic allowance of F11, for comparison.

    Parameters: F_y yield strength (psi); D_r diameter at the section, root if thread reaches there (in). Returns: M_a
    allowable moment (lb·in). Source: AISC 360-16 F11.1: M_n = F_y Z <= 1.6 F_y S, Omega = 1.67.

    Z = 1/48 in³ gives 750, 1.6 S gives 706.9, which governs: 706.9/1.67.

    >>> round(float(bolt_moment_plastic(36_000.0, 0.5)), 0)
    423.0
    """
    S: SectionModulus = pi * D_r**3 / 32
    Z_x: SectionModulus = D_r**3 / 6
    M_n: Moment = minimum(F_y * Z_x, 1.6 * F_y * S)  # F11-1
    M_a: Moment = M_n / 1.67  # F1
    return M_a


@formula("AISC 360-16, G1 (0.6 F_y A)")
def bolt_shear_strength(F_y: Stress, D_r: Length) -> Force:
    """Allowable shear of the bolt on its root area.

    Parameters: F_y yield strength (psi); D_r root diameter (in). Returns: V_a allowable shear (lb). Source: AISC 360-16
    ch. G, V_n = 0.6 F_y A, Omega = 1.67.

    A = 0.1963 in²: 4241/1.67.

    >>> round(bolt_shear_strength(36_000.0, 0.5), 0)
    2540.0
    """
    A: Area = pi * D_r**2 / 4
    V_n: Force = 0.6 * F_y * A
    V_a: Force = V_n / 1.67  # G1
    return V_a


@formula("AISC 360-16, J3.6")
def bolt_tension_strength(F_u: Stress, D_r: Length) -> Force:
    """Allowable tension of a bolt at its thread.

    Parameters: F_u tensile strength (psi); D_r root diameter of the thread that takes the nut (in). Returns: T_a
    allowable tension (lb). Source: AISC 360-16 J3.6 and Table J3.2, 0.75 F_u on the area of a threaded rod, Omega =
    2.00; here on the root's area.

    >>> round(float(bolt_tension_strength(58_000.0, 1.0)))
    17082
    >>> round(bolt_tension_strength(58_000.0, 0.5), 0)
    4271.0
    """
    A: Area = pi * D_r**2 / 4
    R_n: Force = 0.75 * F_u * A
    T_a: Force = R_n / 2.00  # J3.6
    return T_a


@formula("NDS 2018, 3.10.2 (washer on side grain)")
def washer_bearing(T: Force, D_w: Length, D_h: Length) -> Stress:
    """Bearing stress of a round washer on side grain.

    Parameters: T tension of the bolt (lb); D_w, D_h diameter of the washer and of the hole (in). Returns: f_c_perp
    stress (psi). Source: statics; NDS 2018, 3.10.2.

    >>> round(float(washer_bearing(1000.0, 3.0, 1.0)), 1)
    159.2
    """
    A: Area = pi * (D_w**2 - D_h**2) / 4
    f_c_perp: Stress = T / A
    return f_c_perp


@formula("Judgement: bending and shear together", confidence="judgement, engineer to confirm")
def bolt_bending_and_shear(M: Moment, M_a: Moment, V: Force, V_a: Force) -> Ratio:
    """Bending and shear of the bolt taken together; AISC asks for none in a solid round bar.

    Parameters: M, V largest moment (lb·in) and largest shear (lb), taken as if at one section; M_a, V_a allowable
    moment and shear. Returns: r ratio, at most 1. Source: elliptical interaction, judgement.

    >>> round(float(bolt_bending_and_shear(300.0, 1000.0, 400.0, 1000.0)), 6)
    0.5
    """
    r: Ratio = sqrt((M / M_a) ** 2 + (V / V_a) ** 2)
    return r


@formula("Statics (largest moment inside wood that yields)")
def bolt_moment_in_yielding_wood(P: Force, e: Length, q: LineLoadInch) -> Moment:
    """Largest moment in the bolt if the wood under it yields: the elastic value's companion.

    Parameters: P load on the bolt (lb); e sound wood face to centre of bearing (in); q yield force per length of bolt
    (lb/in). Returns: M_m largest moment, at depth P / q inside the wood (lb·in). Source: moment at the point of no
    shear.

    >>> round(bolt_moment_in_yielding_wood(2000.0, 3.0, 1000.0), 3)
    8000.0
    """
    x_m: Length = P / q
    M_m: Moment = P * (e + x_m / 2)
    return M_m
