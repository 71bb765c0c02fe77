"""Standing upright: overturning, rotation of a tall beam on a cap, drift, and P-delta amplification."""

from __future__ import annotations

from numpy import sqrt

from bolewright.formulas import formula
from bolewright.units import Force, Length, Moment, Ratio

MOST_P_DELTA = 0.10  # common practice: below it second-order effects are left out


@formula("Statics (moment of the lateral forces about the supports' heads)")
def overturning_moment(F: Force, z_F: Length, V: Force, z_V: Length) -> Moment:
    """Moment that the lateral forces bring to the platform and the supports have to take by weight.

    Parameters: F lateral force (lb); z_F height at which it acts (in); V sum of the supports' lateral forces (lb);
    z_V mean height at which they act (in). Returns: M_o (lb·in). Source: statics.

    >>> round(overturning_moment(500.0, 120.0, 450.0, 40.0), 3)
    42000.0
    """
    M_o: Moment = F * z_F - V * z_V
    return M_o


@formula("Statics (couple of the lateral force in a braced pair)")
def pair_axial_force(H: Force, h: Length, s: Length) -> Force:
    """Compression and tension in two knee-braced posts with hinged feet, from the lateral force on both.

    Parameters: H lateral force on both posts (lb); h height of the beam's underside (in); s distance of the
    posts (in). Returns: N (lb). Source: statics, moments about a foot.

    >>> pair_axial_force(600.0, 60.0, 84.0)
    428.57142857142856
    """
    N: Force = H * h / s
    return N


@formula("Common practice (drift limit)", confidence="common practice")
def drift_limit(h: Length, n: Ratio) -> Length:
    """Greatest lateral movement of the floor.

    Parameters: h height of the floor (in); n divisor, 200 by default. Returns: Delta_a (in).
    Source: common practice.

    >>> round(drift_limit(96.0, 200.0), 3)
    0.48
    """
    Delta_a: Length = h / n
    return Delta_a


@formula("Geometry (resultant of two movements)")
def resultant_movement(delta_1: Length, delta_2: Length) -> Length:
    """Movement in plan from its parts in two directions at a right angle.

    Parameters: delta_1, delta_2 movements (in). Returns: Delta (in). Source: geometry.

    >>> round(float(resultant_movement(0.05, 0.12)), 6)
    0.13
    """
    Delta: Length = sqrt(delta_1**2 + delta_2**2)
    return Delta


@formula("Statics (resultant of two lateral forces)")
def resultant_lateral_force(V_1: Force, V_2: Force) -> Force:
    """Lateral force from its parts in two directions at a right angle.

    Parameters: V_1, V_2 lateral forces (lb). Returns: V (lb). Source: statics.

    >>> round(float(resultant_lateral_force(300.0, -400.0)), 3)
    500.0
    """
    V: Force = sqrt(V_1**2 + V_2**2)
    return V


@formula("Statics (resultant moment over resultant force)")
def height_of_force(M_1: Moment, M_2: Moment, V: Force) -> Length:
    """Height above grade at which one lateral force has the moments at grade of two planes.

    Parameters: M_1, M_2 moments at grade in two planes at a right angle (lb·in); V resultant lateral force (lb).
    Returns: h_V (in). Source: statics.

    >>> round(float(height_of_force(3000.0, 4000.0, 100.0)), 3)
    50.0
    """
    h_V: Length = sqrt(M_1**2 + M_2**2) / V
    return h_V


@formula("Statics (sum of three loads)")
def load_with_sway(R: Force, R_o: Force, R_k: Force) -> Force:
    """Load on a support from weight and from lateral forces together.

    Parameters: R load from weight; R_o what overturning adds; R_k what the brace reaction of knee braces adds (lb).
    Returns: P (lb), below 0 for uplift. Source: statics.

    >>> round(load_with_sway(1000.0, -300.0, 50.0), 3)
    750.0
    """
    P: Force = R + R_o + R_k
    return P


@formula("Statics (weight times movement over force times height)")
def second_order_ratio(P: Force, Delta: Length, H: Force, h: Length) -> Ratio:
    """Moment of the weight on the movement over the moment of the lateral force: P-delta amplification.

    Parameters: P weight on the posts (lb); Delta their movement under that force (in); H lateral force on them (lb);
    h height of the posts (in). Returns: Q_s, at most 0.10. Source: P-delta, first term.

    >>> round(second_order_ratio(5000.0, 0.2, 250.0, 100.0), 6)
    0.04
    """
    Q_s: Ratio = P * Delta / (H * h)
    return Q_s
