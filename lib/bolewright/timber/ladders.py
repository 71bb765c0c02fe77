"""Ladders and ship's ladders: rungs, rails, the rails above the floor, the head."""

from __future__ import annotations

from numpy import cos, pi, sin, sqrt, tan

from bolewright.formulas import formula
from bolewright.units import Angle, Force, Length, LineLoadInch, Moment, Ratio, SectionModulus

_LEANING = "Statics (ladder that leans)"


@formula("ASCE 7-16, 4.5.4")
def ladder_load(P: Force, n: Ratio) -> Force:
    """Load of people on a ladder: one, and one more for each full 10 ft of its height.

    Parameters: P one person (lb); n full tens of feet. Returns: P_n (lb). Source: ASCE 7-16, 4.5.4.

    >>> ladder_load(300.0, 1.0)
    600.0
    """
    P_n: Force = P * (1 + n)
    return P_n


@formula(_LEANING)
def across_rail(P: Force, theta: Angle) -> Force:
    """Part of a weight that bends a rail: square to it.

    Parameters: P weight (lb); theta slope from level (°). Returns: P_b (lb). Source: statics.

    >>> round(float(across_rail(300.0, 75.0)), 1)
    77.6
    """
    alpha: Ratio = theta * pi / 180
    P_b: Force = P * cos(alpha)
    return P_b


@formula(_LEANING)
def along_rail(P: Force, theta: Angle) -> Force:
    """Part of a weight that runs along a rail.

    Parameters: P weight (lb); theta slope from level (°). Returns: P_a (lb). Source: statics.

    >>> round(float(along_rail(300.0, 75.0)), 1)
    289.8
    """
    alpha: Ratio = theta * pi / 180
    P_a: Force = P * sin(alpha)
    return P_a


@formula(_LEANING)
def weight_across_rail(W: Force, l: Length, theta: Angle) -> LineLoadInch:
    """Part of a rail's own weight that bends it, along the rail.

    Parameters: W weight on the rail (lb); l its length (in); theta slope from level (°). Returns: w (lb/in).
    Source: statics.

    >>> round(float(weight_across_rail(50.0, 100.0, 60.0)), 3)
    0.25
    """
    alpha: Ratio = theta * pi / 180
    w: LineLoadInch = W * cos(alpha) / l
    return w


@formula(_LEANING)
def rail_length(H: Length, theta: Angle) -> Length:
    """Length of a rail from its foot to the floor.

    Parameters: H height (in); theta slope from level (°). Returns: l (in). Source: geometry.

    >>> round(float(rail_length(96.0, 75.0)), 1)
    99.4
    """
    alpha: Ratio = theta * pi / 180
    l: Length = H / sin(alpha)
    return l


@formula("Statics (cantilever above the floor)")
def rail_top_moment(P: Force, h: Length, theta: Angle) -> Moment:
    """Moment in a rail at the floor from a push on its top, across the slope: its lever is the rail's own length.

    Parameters: P push (lb); h height over the floor (in); theta slope from level (°). Returns: M (lb·in).
    Source: statics.

    >>> round(float(rail_top_moment(100.0, 36.0, 90.0)), 6)
    3600.0
    >>> round(float(rail_top_moment(100.0, 36.0, 60.0)), 1)
    4156.9
    """
    alpha: Ratio = theta * pi / 180
    M: Moment = P * h / sin(alpha)
    return M


@formula("Statics (round section)")
def round_modulus(D: Length) -> SectionModulus:
    """Section modulus of a round rung.

    Parameters: D diameter (in). Returns: S (in³). Source: geometry.

    >>> round(float(1312.5 / round_modulus(1.25)), 1)
    6844.9
    """
    S: SectionModulus = pi * D**3 / 32
    return S


@formula("Statics; common practice (the foot may slide)", confidence="common practice")
def head_force(P: Force, W: Force, theta: Angle) -> Force:
    """Force on the head of a ladder: one person at its top with half of its weight, and the lean of that person.

    Parameters: P people (lb); W weight of the ladder (lb); theta slope from level (°). Returns: F_h (lb).
    Source: statics; P / tan(theta) is what leans outwards, common practice.

    >>> round(float(head_force(300.0, 60.0, 75.0)))
    340
    """
    alpha: Ratio = theta * pi / 180
    V: Force = P + W / 2
    H: Force = P / tan(alpha)
    F_h: Force = sqrt(V**2 + H**2)
    return F_h


@formula("Statics; ASCE 7-16, 2.4.1 (0.6W)")
def wind_on_cover(F: Force) -> Force:
    """Force at the edge of an open hatch cover, hinged at the other, that holds it against the wind.

    Parameters: F wind force on the cover (lb), strength level. Returns: F_h (lb). Source: statics.

    >>> wind_on_cover(100.0)
    30.0
    """
    F_h: Force = 0.6 * F / 2
    return F_h
