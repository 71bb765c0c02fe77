"""Tree bolt: plastic limits of a round bar in green wood, load outside the wood face, reduced for ASD.

Statics of a short pile in a uniform medium; AWC TR12's general dowel equations give the same when the bracket
is a pin (M_s = 0, 1/q_s = 0) and the gap is the distance to the load line.
"""

from __future__ import annotations

import numpy as np
from numpy import minimum, sqrt

from bolewright.formulas import formula
from bolewright.units import Angle, Force, Length, LineLoadInch, Moment, Ratio, Stress

EXTRAPOLATED = "judgement: extrapolated above 1 in., engineer to confirm"


@formula("Statics (force per length used up over the whole depth)")
def bearing_yield(q: LineLoadInch, L: Length) -> Force:
    """Yield load if the bolt pressed evenly over its whole depth (mode I_m); never governs with e > 0.

    Parameters: q yield force per length of bolt (lb/in); L penetration in sound wood, full thread, without bark, dead
    sapwood, countersink and tip (in). Returns: P_I yield load (lb). Source: NDS 2018 12.3-1 mode I_m before R_d.

    >>> round(bearing_yield(2000.0, 6.0), 3)
    12000.0
    """
    P_I: Force = q * L
    return P_I


@formula("Statics of a short pile; equals AWC TR12 mode III_m with M_s = 0, 1/q_s = 0, g = e")
def rotation_yield(q: LineLoadInch, L: Length, e: Length) -> Force:
    """Yield load at which the bolt turns rigidly in the wood.

    Parameters: q yield force per length of bolt (lb/in); L penetration in sound wood, full thread, without bark, dead
    sapwood, countersink and tip (in); e sound wood face to centre of bearing, bracket at its worst slide position (in).
    Returns: P_II yield load (lb). Source: plastic equilibrium of a rigid bar: q upward to the turning point, downward
    beyond it.

    >>> float(round(rotation_yield(4935.0, 7.0, 0.0) / (4935.0 * 7.0), 4))  # sqrt(2) - 1
    0.4142

    A lever arm of 1 in. makes a 4/3: 6000 (5/3 - 4/3).

    >>> round(float(rotation_yield(1000.0, 6.0, 1.0)), 3)
    2000.0
    """
    a: Ratio = 2 * e / L + 1
    P_II: Force = q * L * (sqrt(a**2 + 1) - a)
    return P_II


@formula("Statics with a plastic hinge; equals AWC TR12 mode IV with M_s = 0, 1/q_s = 0, g = e")
def hinge_yield(q: LineLoadInch, e: Length, M_y: Moment) -> Force:
    """Yield load at which the steel forms a hinge inside the wood.

    Parameters: q yield force per length of bolt (lb/in); e sound wood face to centre of bearing, bracket at its worst
    slide position (in); M_y dowel yield moment of the bolt (lb·in). Returns: P_IV yield load (lb); an upper bound, see
    the steel check on F_y. Source: moment at the point of no shear, P (e + P / 2 q), set equal to M_y.

    1000 (sqrt(9 + 16) - 3):

    >>> round(float(hinge_yield(1000.0, 3.0, 8000.0)), 3)
    2000.0
    """
    P_IV: Force = q * (sqrt(e**2 + 2 * M_y / q) - e)
    return P_IV


@formula("NDS 2018, Appendix I")
def dowel_yield_strength(F_y: Stress, F_u: Stress) -> Stress:
    """Bending yield strength of the bolt as a dowel.

    Parameters: F_y, F_u yield and tensile strength of the steel (psi). Returns: F_yb mean of the two (psi). Source: NDS
    2018 Appendix I.4.

    >>> dowel_yield_strength(36000, 58000)
    47000.0
    """
    F_yb: Stress = (F_y + F_u) / 2
    return F_yb


@formula("AWC TR12 (dowel moment), NDS 2018, 12.3.7")
def dowel_yield_moment(F_yb: Stress, D_r: Length) -> Moment:
    """Plastic moment of the bolt as a dowel, for the hinge mode.

    Parameters: F_yb bending yield strength (psi); D_r root diameter, or full diameter where thread takes at most 1/4 of
    the bearing length (in). Returns: M_y dowel yield moment (lb·in). Source: AWC TR12; NDS 2018 12.3.7.2 for the
    diameter.

    >>> round(dowel_yield_moment(48_000.0, 0.5), 3)
    1000.0
    """
    M_y: Moment = F_yb * D_r**3 / 6
    return M_y


@formula("NDS 2018, Table 12.3.1B (K_theta)")
def angle_factor(theta: Angle) -> Ratio:
    """Factor K_theta for the largest angle between load and grain in any member at the bolt.

    0 for a vertical load on a steel bracket; 90 where timber bears across its grain on the collar, or where the
    load on the trunk is lateral.

    Parameters: theta largest angle of load to grain (°). Returns: K_theta 1.0 to 1.25. Source: NDS 2018 Table 12.3.1B
    footnote.

    >>> round(angle_factor(36.0), 6)
    1.1
    """
    K_theta: Ratio = 1 + 0.25 * theta / 90
    return K_theta


@formula("NDS 2018, Table 12.3.1B (mode II)", confidence=EXTRAPOLATED)
def rotation_reference_load(P_II: Force, K_theta: Ratio) -> Force:
    """Reference design value for rigid rotation, normal duration.

    Parameters: P_II rotation yield load (lb); K_theta angle factor. Returns: Z_II reference design value (lb). Source:
    NDS 2018 Table 12.3.1B: R_d = 3.6 K_theta for mode II, D <= 1 in.

    >>> round(rotation_reference_load(4500.0, 1.25), 3)
    1000.0
    """
    R_d: Ratio = 3.6 * K_theta  # mode II
    Z_II: Force = P_II / R_d
    return Z_II


@formula("NDS 2018, Table 12.3.1B (mode IV)", confidence=EXTRAPOLATED)
def hinge_reference_load(P_IV: Force, K_theta: Ratio) -> Force:
    """Reference design value for the hinge in the steel, normal duration.

    Parameters: P_IV hinge yield load (lb); K_theta angle factor. Returns: Z_IV reference design value (lb). Source: NDS
    2018 Table 12.3.1B: R_d = 3.2 K_theta for modes III and IV, D <= 1 in.

    >>> round(hinge_reference_load(4000.0, 1.25), 3)
    1000.0
    """
    R_d: Ratio = 3.2 * K_theta  # mode IV
    Z_IV: Force = P_IV / R_d
    return Z_IV


@formula("NDS 2018, Table 12.3.1B (mode I)", confidence=EXTRAPOLATED)
def bearing_reference_load(P_I: Force, K_theta: Ratio) -> Force:
    """Reference design value for even bearing, normal duration.

    Parameters: P_I bearing yield load (lb); K_theta angle factor. Returns: Z_I reference design value (lb). Source: NDS
    2018 Table 12.3.1B: R_d = 4 K_theta for mode I, D <= 1 in.

    >>> round(bearing_reference_load(5000.0, 1.25), 3)
    1000.0
    """
    R_d: Ratio = 4 * K_theta  # mode I
    Z_I: Force = P_I / R_d
    return Z_I


@formula("NDS 2018, 11.3.2 (load duration), least of the modes")
def tree_bolt_adjusted_load(Z_I: Force, Z_II: Force, Z_IV: Force, C_D: Ratio) -> Force:
    """Adjusted design value of the bolt in the wood.

    The wet factor already stands in F_e; single bolt, so C_g = 1. C_D at most 1.6.

    Parameters: Z_I, Z_II, Z_IV reference design values of the three modes (lb); C_D load duration factor of the
    combination. Returns: Z_p adjusted design value (lb). Source: NDS 2018 11.3.1, 11.3.2, 12.3.1 (least mode).

    >>> round(float(tree_bolt_adjusted_load(3000.0, 1000.0, 1200.0, 1.6)), 3)
    1600.0
    """
    Z: Force = minimum(minimum(Z_I, Z_II), Z_IV)
    Z_p: Force = C_D * Z
    return Z_p


@formula("Maker's rated load, as the user entered it")
def tree_bolt_governing_load(Z_p: Force, Z_rated: Force, C_rated: Ratio) -> Force:
    """Lower of the computed design value and the rated load with its stated factors.

    Parameters: Z_p adjusted design value computed from the wood (lb); Z_rated rated load from the maker's sheet (lb);
    C_rated product of the factors that still apply to the rated load (duration, wet). Returns: P_a allowable load (lb).
    Source: common practice: a rated load governs only where it is lower.

    >>> round(float(tree_bolt_governing_load(1600.0, 2000.0, 0.7)), 3)
    1400.0
    """
    P_a: Force = minimum(Z_p, C_rated * Z_rated)
    return P_a


@formula("Statics (resultant of vertical and lateral load on a round bar)")
def resultant_load(P_v: Force, P_h: Force) -> Force:
    """Resultant of the vertical and the lateral load on the bolt.

    Its angle to the grain is :func:`load_angle`.

    Parameters: P_v, P_h vertical and lateral load (lb). Returns: P resultant (lb). Source: statics.

    >>> round(float(resultant_load(400.0, 300.0)), 3)
    500.0
    """
    P: Force = sqrt(P_v**2 + P_h**2)
    return P


@formula("Statics (resultant of vertical and lateral pressure on a round bar)")
def resultant_pressure(p_v: Stress, p_h: Stress) -> Stress:
    """Resultant of the pressures down and across at the face of the sound wood.

    Parameters: p_v, p_h pressure down and across (psi). Returns: p resultant (psi). Source: statics.

    >>> round(float(resultant_pressure(400.0, 300.0)), 3)
    500.0
    """
    p: Stress = sqrt(p_v**2 + p_h**2)
    return p


def load_angle(P_v: float, P_h: float) -> float:
    """Angle of the resultant load to the grain of an upright trunk, in degrees (0 vertical, 90 level).

    >>> round(load_angle(1000.0, 1000.0))
    45
    """
    angle: float = np.degrees(np.arctan2(np.abs(P_h), np.abs(P_v)))
    return angle


def effective_root_diameter(D: float, D_r: float, L: float, threaded_length: float) -> float:
    """Diameter for the dowel moment: full where thread takes at most 1/4 of the bearing length, else root.

    Source: NDS 2018 12.3.7.2.

    >>> effective_root_diameter(1.5, 1.28, 8.0, 2.0), effective_root_diameter(1.5, 1.28, 8.0, 3.0)
    (1.5, 1.28)
    """
    return D if threaded_length <= L / 4 else D_r
