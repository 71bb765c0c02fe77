"""Bearing across, along and at an angle to the grain (NDS 2018, 3.10)."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy import cos, pi, sin

from bolewright.formulas import Limit, formula, unit_aware
from bolewright.units import Angle, Area, Force, Length, Ratio, Stress

_HAIR = 1e-6  # in: a length that is 3 or 6 in. but for rounding is that


@formula("NDS 2018, 3.10.2")
def bearing_stress(R: Force, b: Length, l_b: Length) -> Stress:
    """Bearing stress of a reaction over its seat.

    Parameters: R reaction (lb); b breadth of the seat (in); l_b length of bearing along the grain (in).
    Returns: f_c,perp (psi). Source: NDS 2018, 3.10.2; uniform over the seat.

    >>> round(bearing_stress(3000.0, 1.5, 4.0), 3)
    500.0
    """
    f_c_perp: Stress = R / (b * l_b)
    return f_c_perp


@formula("NDS 2018, 3.10.4", homogeneous=False)
def bearing_area_factor(l_b: Length) -> Ratio:
    """Bearing area factor C_b of a short bearing away from the member's end.

    When it applies: l_b < 6 in. and at least 3 in. to the member's end; else C_b = 1, see
    :func:`bearing_area_factor_for`. Parameters: l_b length of bearing along the grain (in), the diameter for
    a round washer. Returns: C_b. Source: NDS 2018, 3.10.4, equation 3.10-2.

    >>> bearing_area_factor(1.5)
    1.25
    """
    C_b: Ratio = (l_b + 0.375) / l_b
    return C_b


@unit_aware()
def bearing_area_factor_for(l_b: Length, distance_to_end: Length) -> Any:
    """C_b of a bearing: the formula where 3.10.4 allows it (l_b < 6 in., >= 3 in. to the end), else 1.0.

    >>> bearing_area_factor_for(1.5, 0.0), bearing_area_factor_for(1.5, 12.0)
    (1.0, 1.25)
    """
    length, distance = np.asarray(l_b, dtype=float), np.asarray(distance_to_end, dtype=float)
    allowed = (length < 6 - _HAIR) & (distance >= 3 - _HAIR)
    C_b = np.where(allowed, bearing_area_factor(length), 1.0)
    return float(C_b) if C_b.ndim == 0 else C_b


@formula(
    "NDS 2018, 3.10.3", limits={"theta": Limit(0, 90, "The angle to the grain is outside 0 to 90 degrees.")}
)
def bearing_at_angle(F_c_star: Stress, F_c_perp_p: Stress, theta: Angle) -> Stress:
    """Bearing value at an angle to the grain.

    Parameters: F_c_star compression value with every factor but C_P (psi); F_c_perp_p adjusted value across
    the grain (psi); theta angle between load and grain (degrees). Returns: F'_theta (psi).
    Source: NDS 2018, 3.10.3, equation 3.10-1 (Hankinson), Appendix J.

    At 30 degrees sin² is 1/4 and cos² 3/4: 480,000/(300 + 300).

    >>> round(float(bearing_at_angle(1200.0, 400.0, 30.0)), 3)
    800.0
    """
    theta_rad: Ratio = theta * pi / 180
    F_theta_p: Stress = (
        F_c_star * F_c_perp_p / (F_c_star * sin(theta_rad) ** 2 + F_c_perp_p * cos(theta_rad) ** 2)
    )
    return F_theta_p


@formula("NDS 2018, 3.10.1")
def end_bearing_stress(P: Force, A: Area) -> Stress:
    """Bearing stress on end grain, held to F_c*.

    Parameters: P load (lb); A net bearing area (in²). Returns: f_c (psi). Source: NDS 2018, 3.10.1.1.

    >>> round(end_bearing_stress(6000.0, 12.0), 3)
    500.0
    """
    f_c: Stress = P / A
    return f_c


@formula("NDS 2018, 3.10.1.3")
def end_bearing_without_plate(F_c_star: Stress) -> Stress:
    """Bearing stress up to which end grain needs no metal plate or the like between.

    Parameters: F_c_star compression value with every factor but C_P (psi). Returns: F_p (psi).
    Source: NDS 2018, 3.10.1.3.

    >>> end_bearing_without_plate(1000.0)
    750.0
    """
    F_p: Stress = 0.75 * F_c_star
    return F_p


@unit_aware()
def bearing_plate_wanted(f_c: Stress, F_c_star: Stress) -> Any:
    """Whether end grain bearing needs a metal plate between: f_c > 0.75 F_c* (NDS 2018, 3.10.1.3)."""
    result = np.asarray(f_c) > 0.75 * np.asarray(F_c_star)
    return bool(result) if result.ndim == 0 else result


@formula("NDS 2018, 3.10.2")
def bearing_length_wanted(R: Force, b: Length, F_c_perp_p: Stress) -> Length:
    """Length of bearing that a reaction needs.

    Parameters: R reaction (lb); b breadth (in); F_c_perp_p adjusted bearing value (psi). Returns: l_b (in).
    Source: NDS 2018, 3.10.2 solved for the length.

    >>> round(bearing_length_wanted(1500.0, 3.0, 400.0), 3)
    1.25
    """
    l_b: Length = R / (b * F_c_perp_p)
    return l_b
