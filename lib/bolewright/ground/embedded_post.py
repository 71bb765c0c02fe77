"""Embedded posts by IBC 1807.3: depth, free or held at grade, capacity at a depth, bending below grade.

The formulas hold for posts with a trustworthy backfill (concrete, or tamped clean sand) in undisturbed soil.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy import maximum, minimum, sqrt

from bolewright.formulas import Limit, formula, unit_aware
from bolewright.units import FOOT, AreaLoad, Feet, Force, MomentFeet, PressurePerDepth, Ratio

DEPTH_LIMIT = Limit(0.0, 12.0, "IBC 1807.3.2 takes no more than 12 ft of depth for the lateral pressure.")


@formula("IBC 2021, 1807.3.2.1 (S_1 at one third of the depth)", limits={"d": DEPTH_LIMIT}, homogeneous=False)
def lateral_pressure_third_depth(S: PressurePerDepth, d: Feet, m: Ratio) -> AreaLoad:
    """Allowable lateral soil pressure S_1 at one third of the embedment.

    Parameters: S allowable lateral bearing per foot of depth (psf/ft), Table 1806.2; d embedment (ft); m 2 where the
    user declares that 1/2 in. of motion at grade does no harm (1806.3.4), else 1. Returns: S_1 pressure (psf). Source:
    IBC 2021 1807.3.2.1, 1806.3.4, 1806.3.3; no 1/3 increase with ASCE 7 2.4.1 combinations.

    >>> float(lateral_pressure_third_depth(150.0, 4.0, 2.0))
    400.0
    """
    d_p: Feet = minimum(d, 12)
    S_1: AreaLoad = m * S * d_p / 3
    return S_1


@formula("IBC 2021, 1807.3.2.1 (A)")
def embedment_parameter(P: Force, S_1: AreaLoad, b: Feet) -> Feet:
    """Length A of the embedment formula.

    Parameters: P lateral load (lb); S_1 allowable lateral pressure at one third of the depth (psf); b diameter of a
    round post or footing, diagonal of a square one (ft). Returns: A length (ft). Source: IBC 2021 1807.3.2.1.

    >>> round(embedment_parameter(1000.0, 300.0, 1.3), 3)
    6.0
    """
    A: Feet = 2.34 * P / (S_1 * b)
    return A


@formula("IBC 2021, 1807.3.2.1 (equation 18-1)")
def embedment_nonconstrained(A: Feet, h: Feet) -> Feet:
    """Embedment needed where nothing holds the post at grade.

    Parameters: A 2.34 P / (S_1 b) (ft); h height of the lateral load above grade (ft). Returns: d embedment (ft).
    Source: IBC 2021 1807.3.2.1.

    4.36 x 2/1.09 is 8, 1 + 8 the square of 3: 0.5 x 1.09 x 4.

    >>> round(float(embedment_nonconstrained(1.09, 2.0)), 3)
    2.18
    """
    d: Feet = 0.5 * A * (1 + sqrt(1 + 4.36 * h / A))
    return d


@formula("IBC 2021, 1807.3.2.1 (solved for the load)")
def lateral_capacity_nonconstrained(S_1: AreaLoad, b: Feet, d: Feet, h: Feet) -> Force:
    """Lateral load that an embedment carries where nothing holds the post at grade.

    Parameters: S_1 allowable lateral pressure at one third of the depth (psf); b diameter of a round post or footing,
    diagonal of a square one (ft); d embedment (ft); h height of the lateral load above grade (ft). Returns: P_a
    allowable lateral load (lb). Source: IBC 2021 1807.3.2.1: d = 0.5 A (1 + sqrt(1 + 4.36 h / A)) gives A = d^2 / (d +
    1.09 h).

    The other way round from :func:`embedment_nonconstrained`: A is 1.09 ft, times 234/2.34.

    >>> round(lateral_capacity_nonconstrained(117.0, 2.0, 2.18, 2.0), 3)
    109.0
    """
    A: Feet = d**2 / (d + 1.09 * h)
    P_a: Force = S_1 * b * A / 2.34
    return P_a


@formula("IBC 2021, 1807.3.2.2 (S_3 at the full depth)", limits={"d": DEPTH_LIMIT}, homogeneous=False)
def lateral_pressure_full_depth(S: PressurePerDepth, d: Feet, m: Ratio) -> AreaLoad:
    """Allowable lateral soil pressure S_3 at the full depth of embedment.

    Parameters: S allowable lateral bearing per foot of depth (psf/ft), Table 1806.2; d embedment (ft); m 2 where the
    user declares that 1/2 in. of motion at grade does no harm (1806.3.4), else 1. Returns: S_3 pressure (psf). Source:
    IBC 2021 1807.3.2.2.

    >>> round(float(lateral_pressure_full_depth(100.0, 4.0, 2.0)), 3)
    800.0
    >>> round(float(lateral_pressure_full_depth(100.0, 15.0, 1.0)), 3)
    1200.0
    """
    d_p: Feet = minimum(d, 12)
    S_3: AreaLoad = m * S * d_p
    return S_3


@formula("IBC 2021, 1807.3.2.2 (equation 18-2)")
def embedment_constrained(P: Force, h: Feet, S_3: AreaLoad, b: Feet) -> Feet:
    """Embedment needed where a rigid surface (a slab, not lawn) holds the post at grade.

    Parameters: P lateral load (lb); h height of the lateral load above grade (ft); S_3 allowable lateral pressure at
    the full depth (psf); b diameter of a round post or footing, diagonal of a square one (ft). Returns: d embedment
    (ft). Source: IBC 2021 1807.3.2.2.

    >>> round(float(embedment_constrained(100.0, 8.0, 425.0, 2.0)), 3)
    2.0
    """
    d: Feet = sqrt(4.25 * P * h / (S_3 * b))
    return d


@formula("IBC 2021, 1807.3.2.1 (solved for a moment without a lateral force)")
def moment_capacity_nonconstrained(S_1: AreaLoad, b: Feet, d: Feet) -> MomentFeet:
    """Moment that an embedment carries where nothing holds the post at grade and no lateral force comes with it.

    Parameters: S_1 allowable lateral pressure at one third of the depth (psf); b diameter of a round post or footing,
    diagonal of a square one (ft); d embedment (ft). Returns: M_a allowable moment at grade (lb·ft). Source: IBC 2021
    1807.3.2.1: P h where h grows and P falls, so that A = d^2 / (1.09 h).

    4800/2.5506:

    >>> round(moment_capacity_nonconstrained(200.0, 1.5, 4.0), 0)
    1882.0
    """
    M_a: MomentFeet = S_1 * b * d**2 / (2.34 * 1.09)
    return M_a


@formula("IBC 2021, 1807.3.2.2 (solved for the moment)")
def moment_capacity_constrained(S_3: AreaLoad, b: Feet, d: Feet) -> MomentFeet:
    """Moment that an embedment carries where a rigid surface (a slab, not lawn) holds the post at grade.

    Parameters: S_3 allowable lateral pressure at the full depth (psf); b diameter of a round post or footing, diagonal
    of a square one (ft); d embedment (ft). Returns: M_a allowable moment at grade (lb·ft). Source: IBC 2021 1807.3.2.2:
    d^2 = 4.25 P h / (S_3 b).

    >>> round(moment_capacity_constrained(425.0, 2.0, 4.0), 3)
    3200.0
    """
    M_a: MomentFeet = S_3 * b * d**2 / 4.25
    return M_a


@formula("Statics (soil pressure of a stiff pole: depth times a straight-line displacement)")
def post_moment_below_grade(P: Force, h: Feet, d: Feet, x: Feet) -> MomentFeet:
    """Moment in an embedded post at depth x; the largest lies below grade, not at it.

    Soil pressure grows with depth and with the displacement of a pole that turns rigidly about a point at
    depth a: p = n x (1 - x / a). The depth of the largest value is :func:`largest_post_moment_depth`.

    Parameters: P lateral load (lb); h height of the lateral load above grade (ft); d embedment (ft); x depth below
    grade (ft). Returns: M moment (lb·ft). Source: statics of the pole that IBC 1807.3.2.1 describes, nothing held at
    grade.

    It turns 4.2 ft down, n is 700: 5400 - 700 (4.5 - 81/50.4). At its lower end nothing is left.

    >>> round(post_moment_below_grade(600.0, 6.0, 6.0, 3.0), 3)
    3375.0
    >>> abs(round(post_moment_below_grade(600.0, 6.0, 6.0, 6.0), 3))
    0.0
    """
    a: Feet = d * (3 * d + 4 * h) / (4 * d + 6 * h)  # turning point
    n: AreaLoad = P / (d**2 / 2 - d**3 / (3 * a))
    M: MomentFeet = P * (h + x) - n * (x**3 / 6 - x**4 / (12 * a))
    return M


@formula("Statics (soil pressure of a stiff pole: depth times a straight-line displacement)")
def post_shear_below_grade(P: Force, h: Feet, d: Feet) -> Force:
    """Largest shear in an embedded post: at grade, or turned about where the pole turns.

    Parameters: P lateral load (lb); h height of the lateral load above grade (ft); d embedment (ft). Returns: V shear,
    without sign (lb). Source: statics of the pole that IBC 1807.3.2.1 describes, nothing held at grade; with no height,
    11/16 P at 3/4 d.

    >>> float(post_shear_below_grade(160.0, 0.0, 4.0)), round(float(post_shear_below_grade(100.0, 5.0, 4.5)), 1)
    (160.0, 262.6)
    """
    a: Feet = d * (3 * d + 4 * h) / (4 * d + 6 * h)  # turning point
    n: AreaLoad = P / (d**2 / 2 - d**3 / (3 * a))
    V_a: Force = n * a**2 / 6 - P
    V: Force = maximum(P, V_a)
    return V


@formula("Statics (soil pressure of a stiff pole: depth times a straight-line displacement)")
def turning_depth(h: Feet, d: Feet) -> Feet:
    """Depth about which a stiff embedded post turns: the soil presses against it one way above, the other way below.

    Parameters: h height of the lateral load above grade (ft); d embedment (ft). Returns: a depth (ft). Source: statics
    of the pole that IBC 1807.3.2.1 describes, nothing held at grade: forces and moments add up to nothing.

    >>> round(turning_depth(6.0, 6.0), 3)
    4.2
    """
    a: Feet = d * (3 * d + 4 * h) / (4 * d + 6 * h)
    return a


@formula("Statics (soil pressure of a stiff pole: depth times a straight-line displacement)")
def soil_force_above_turn(P: Force, d: Feet, a: Feet) -> Force:
    """Resultant of the soil against an embedded post above the depth about which it turns, against the load.

    Parameters: P lateral load (lb); d embedment (ft); a depth about which the post turns (ft). Returns: R_u (lb).
    Source: statics: pressure n x (1 - x / a) from grade to a, n from the sum of forces.

    With no height a is 3/4 d, n d² is 18 P: 18 x 9/16 / 6.

    >>> round(soil_force_above_turn(160.0, 4.0, 3.0), 3)
    270.0
    """
    n: AreaLoad = P / (d**2 / 2 - d**3 / (3 * a))
    R_u: Force = n * a**2 / 6
    return R_u


@formula("Statics (sum of lateral forces)")
def soil_force_below_turn(R_u: Force, P: Force) -> Force:
    """Resultant of the soil against an embedded post below the depth about which it turns, with the load.

    Parameters: R_u resultant above that depth, P lateral load (lb). Returns: R_l (lb). Source: statics.

    >>> soil_force_below_turn(270.0, 160.0)
    110.0
    """
    R_l: Force = R_u - P
    return R_l


@unit_aware(FOOT.of)
def largest_post_moment_depth(h: Feet, d: Feet) -> Any:
    """Depth [ft] below grade at which the shear is zero and the moment in the post largest; elementwise.

    With u = x / a the shear is zero where u^2 / 2 - u^3 / 3 is P / (n a^2): a cubic with one root between 0 and 1.
    """
    a = d * (3 * d + 4 * h) / (4 * d + 6 * h)
    share = (d**2 / 2 - d**3 / (3 * a)) / a**2
    return a * (0.5 + np.cos(np.arccos(1 - 12 * share) / 3 - 2 * np.pi / 3))


def effective_breadth(post: float, hole: float, concrete_backfill: bool) -> float:
    """Breadth b for round parts: the hole where it is filled with concrete, else the post alone.

    ``post`` is the diameter of a round post or the diagonal of a square one. Concrete backfill is 2000 psi at
    least, or clean sand tamped in 8 in. layers; with sand only the post counts (IBC 1807.3.4).

    >>> effective_breadth(0.65, 1.67, True), effective_breadth(0.65, 1.67, False)
    (1.67, 0.65)
    """
    return hole if concrete_backfill else post


@unit_aware(FOOT.of)
def solve_embedment_nonconstrained(P: Force, h: Feet, S: PressurePerDepth, b: Feet, m: Ratio = 1.0) -> Any:
    """Embedment d [ft] at which S_1 taken at d / 3 makes the printed formula return d itself; elementwise.

    P [lb], h [ft], S [psf/ft], b [ft], m 1 or 2. Bisection round :func:`embedment_nonconstrained`.
    """

    def excess(d: Any) -> Any:
        S_1 = lateral_pressure_third_depth(S, d, m)
        return embedment_nonconstrained(embedment_parameter(P, S_1, b), h) - d

    return _bisect(excess, P * h * S * b * m)


@unit_aware(FOOT.of)
def solve_embedment_constrained(P: Force, h: Feet, S: PressurePerDepth, b: Feet, m: Ratio = 1.0) -> Any:
    """Embedment d [ft] at which S_3 taken at d makes the printed formula return d itself; elementwise."""

    def excess(d: Any) -> Any:
        return embedment_constrained(P, h, lateral_pressure_full_depth(S, d, m), b) - d

    return _bisect(excess, P * h * S * b * m)


def _bisect(excess: Any, shape_like: Any) -> Any:
    low, high = 1e-6 + 0.0 * shape_like, 1000.0 + 0.0 * shape_like
    for _ in range(80):
        middle = (low + high) / 2
        short = excess(middle) > 0
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    return (low + high) / 2
