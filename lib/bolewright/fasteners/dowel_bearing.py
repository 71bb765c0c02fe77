"""Dowel bearing strength F_e of wood, steel and concrete (NDS 2018, 12.3.3 and 12.3.4)."""

from __future__ import annotations

from typing import Any

from numpy import cos, pi, sin, sqrt

from bolewright.formulas import Limit, formula
from bolewright.units import Angle, Length, Ratio, Stress

_ANGLE = {"theta": Limit(0, 90, "The angle of load to grain is outside 0 to 90 degrees.")}
_LARGE = Limit(0.25, 1.0, "D is outside 1/4 to 1 in., the range of NDS Table 12.3.1B and the tabulated F_e.")
_DENSITY = Limit(0.31, 0.73, "G is outside 0.31 to 0.73, the range of the NDS tables.")

CONCRETE_F_E = 7500.0  # psi, f'c of 2500 psi or more; NDS 2018, Tables 12E and footnotes
LARGE_DIAMETER = 0.25  # in, from here F_e depends on the angle to the grain


@formula("NDS 2018, Table 12.3.3", limits={"G": _DENSITY}, homogeneous=False)
def dowel_bearing_parallel(G: Ratio) -> Stress:
    """Dowel bearing strength along the grain, D of 1/4 in. or more.

    Parameters: G specific gravity, oven-dry weight and volume (NDS Table 12.3.3A); that of green volume, which is less,
    is on the safe side. Returns: F_e,par (psi).
    Source: NDS 2018, Table 12.3.3, footnote 2.

    >>> round(dowel_bearing_parallel(0.50))
    5600
    """
    F_e_par: Stress = 11200 * G
    return F_e_par


@formula("NDS 2018, Table 12.3.3", limits={"G": _DENSITY, "D": _LARGE}, homogeneous=False)
def dowel_bearing_perpendicular(G: Ratio, D: Length) -> Stress:
    """Dowel bearing strength across the grain, D of 1/4 in. or more.

    Parameters: G specific gravity; D nominal diameter (in). Returns: F_e,perp (psi).
    Source: NDS 2018, Table 12.3.3, footnote 2.

    >>> round(dowel_bearing_perpendicular(0.50, 0.5))   # NDS Table 12.3.3: 3150 to the nearest 50
    3158
    """
    F_e_perp: Stress = 6100 * G**1.45 / sqrt(D)
    return F_e_perp


@formula("NDS 2018, Table 12.3.3", limits={"G": _DENSITY}, homogeneous=False)
def dowel_bearing_small(G: Ratio) -> Stress:
    """Dowel bearing strength at any angle to the grain, D under 1/4 in. (nails, most wood screws).

    Parameters: G specific gravity. Returns: F_e (psi). Source: NDS 2018, Table 12.3.3, footnote 2.

    >>> round(dowel_bearing_small(0.55))   # NDS Table 12.3.3: 5550 to the nearest 50
    5526
    """
    F_e: Stress = 16600 * G**1.84
    return F_e


@formula("NDS 2018, 12.3.4", limits=_ANGLE)
def dowel_bearing_at_angle(F_e_par: Stress, F_e_perp: Stress, theta: Angle) -> Stress:
    """Dowel bearing strength at an angle to the grain (Hankinson).

    Parameters: F_e_par, F_e_perp bearing strengths (psi); theta angle between load and grain (degrees).
    Returns: F_e,theta (psi). Source: NDS 2018, 12.3.4, equation 12.3-11.

    >>> round(dowel_bearing_at_angle(5600.0, 3150.0, 90.0))
    3150
    >>> round(float(dowel_bearing_at_angle(6000.0, 2000.0, 30.0)), 3)
    4000.0
    """
    theta_rad: Ratio = theta * pi / 180
    F_e_theta: Stress = F_e_par * F_e_perp / (F_e_par * sin(theta_rad) ** 2 + F_e_perp * cos(theta_rad) ** 2)
    return F_e_theta


@formula("NDS 2018, 12.3.3 and Appendix I")
def dowel_bearing_hot_rolled(F_u: Stress) -> Stress:
    """Dowel bearing strength of a hot-rolled steel plate, 1/4 in. or thicker.

    Parameters: F_u tensile strength of the plate (psi). Returns: F_e (psi): 2.4 F_u / 1.6.
    Source: NDS 2018, Appendix I (2.4 F_u divided by the 1.6 of connections).

    >>> dowel_bearing_hot_rolled(58000)   # ASTM A36
    87000.0
    """
    F_e: Stress = 1.5 * F_u
    return F_e


@formula("NDS 2018, 12.3.3 and Appendix I")
def dowel_bearing_cold_formed(F_u: Stress) -> Stress:
    """Dowel bearing strength of a cold-formed steel sheet, thinner than 1/4 in.

    Parameters: F_u tensile strength of the sheet (psi). Returns: F_e (psi): 2.2 F_u / 1.6.
    Source: NDS 2018, Appendix I.

    >>> dowel_bearing_cold_formed(45000)   # ASTM A653 Grade 33: 61,850 rounded
    61875.0
    """
    F_e: Stress = 1.375 * F_u
    return F_e


def wood_bearing_strength(G: float, D: float, theta: Any, run: Any) -> Any:
    """F_e of a wood member: by class of D, and by angle from 1/4 in. on.

    ``run`` is :meth:`bolewright.calculation.Calculation.run` of the calculation that keeps the steps;
    ``D`` is the nominal diameter, also of threaded fasteners (NDS 2018, Table 12.3.3).
    """
    if D < LARGE_DIAMETER:
        return run(dowel_bearing_small, G=G)
    F_e_par = run(dowel_bearing_parallel, G=G)
    F_e_perp = run(dowel_bearing_perpendicular, G=G, D=D)
    return run(dowel_bearing_at_angle, F_e_par=F_e_par, F_e_perp=F_e_perp, theta=theta)
