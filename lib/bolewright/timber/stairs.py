"""Stairs: geometry of risers and treads, stringers as sloped beams, treads under one heavy person.

A stringer is a simple beam on the slope: hung at its head, on a roller at its foot. Loads are per level length, so that
the moment is that of the level span whatever the slope; shear, axial force and deflection are not.
"""

from __future__ import annotations

from numpy import arctan, cos, pi, sin, sqrt

from bolewright.formulas import formula
from bolewright.units import Angle, Force, Length, LineLoadInch, Moment, Ratio, SecondMoment, Stress

_STEPS = "Geometry (stairs)"
_SLOPED = "Statics (simple beam on a slope)"


@formula(_STEPS)
def riser_height(H_f: Length, z_f: Length, n: Ratio) -> Length:
    """Height of one riser.

    Parameters: H_f floor above grade (in); z_f landing above grade (in); n number of risers. Returns: h_r (in).
    Source: geometry.

    >>> riser_height(84.0, 0.0, 12)
    7.0
    >>> round(riser_height(90.0, 6.0, 12), 3)
    7.0
    """
    H: Length = H_f - z_f
    h_r: Length = H / n
    return h_r


@formula(_STEPS)
def stair_going(n: Ratio, r: Length) -> Length:
    """Level distance from the first riser to the face of the framing, the top tread one riser down.

    Parameters: n number of risers; r run of a tread (in). Returns: L_h (in). Source: geometry.

    >>> stair_going(12, 10.0)
    110.0
    """
    L_h: Length = (n - 1) * r
    return L_h


@formula(_STEPS)
def stair_going_flush(n: Ratio, r: Length) -> Length:
    """Level distance from the first riser to the face of the framing, the top tread level with the floor.

    Parameters: n number of risers; r run of a tread (in). Returns: L_h (in). Source: geometry.

    >>> stair_going_flush(12, 10.0)
    120.0
    """
    L_h: Length = n * r
    return L_h


@formula(_STEPS)
def stringer_slope_length(n: Ratio, h_r: Length, r: Length) -> Length:
    """Length along the noses of a stringer.

    Parameters: n number of risers; h_r riser, r run of a tread (in). Returns: L_s (in). Source: geometry.

    >>> float(stringer_slope_length(5, 6.0, 8.0))
    40.0
    """
    h: Length = sqrt(h_r**2 + r**2)
    L_s: Length = (n - 1) * h
    return L_s


@formula(_STEPS)
def stringer_throat(d: Length, h_r: Length, r: Length) -> Length:
    """Wood left under the notch of a cut stringer, square to its edge.

    Parameters: d depth of the timber (in); h_r riser, r run of a tread (in). Returns: d_t (in). Source: geometry.

    >>> float(stringer_throat(11.25, 6.0, 8.0))
    6.45
    """
    d_t: Length = d - h_r * r / sqrt(h_r**2 + r**2)
    return d_t


@formula(_STEPS)
def foot_of_stringer(h_r: Length, t: Length) -> Length:
    """Height of the first riser as cut: the first tread's board makes up the rest.

    Parameters: h_r riser, t thickness of a tread (in). Returns: h_1 (in). Source: geometry.

    >>> foot_of_stringer(7.5, 1.5)
    6.0
    """
    h_1: Length = h_r - t
    return h_1


@formula(_STEPS)
def stair_angle(h_r: Length, r: Length) -> Angle:
    """Slope of stairs from level.

    Parameters: h_r riser, r run of a tread (in). Returns: theta (°). Source: geometry.

    >>> round(float(stair_angle(7.5, 10.0)), 2)
    36.87
    """
    theta: Angle = 180 / pi * arctan(h_r / r)
    return theta


@formula(_STEPS)
def plumb_cut(d_t: Length, theta: Angle) -> Length:
    """Height of a stringer's plumb cut, where its head meets the framing.

    Parameters: d_t depth of the stringer that is left (in); theta slope (°). Returns: h_p (in). Source: geometry.

    >>> round(float(plumb_cut(5.25, 36.87)), 2)
    6.56
    """
    alpha: Ratio = theta * pi / 180
    h_p: Length = d_t / cos(alpha)
    return h_p


@formula(_STEPS)
def stair_opening(h_r: Length, t: Length, c: Length) -> Length:
    """Opening between two treads.

    Parameters: h_r riser, t thickness of a tread, c height of what closes part of the riser (in). Returns: g (in).
    Source: geometry.

    >>> stair_opening(7.5, 1.5, 2.5)
    3.5
    """
    g: Length = h_r - t - c
    return g


@formula(_SLOPED)
def slope_span(L: Length, theta: Angle) -> Length:
    """Span of a stringer along its slope.

    Parameters: L level span (in); theta slope (°). Returns: l_s (in). Source: geometry.

    >>> round(float(slope_span(90.0, 36.87)), 1)
    112.5
    """
    alpha: Ratio = theta * pi / 180
    l_s: Length = L / cos(alpha)
    return l_s


@formula(_SLOPED)
def shear_on_slope(R: Force, theta: Angle) -> Force:
    """Shear square to a stringer from its vertical reaction.

    Parameters: R vertical reaction (lb); theta slope (°). Returns: V (lb). Source: statics.

    >>> round(float(shear_on_slope(281.25, 36.87)))
    225
    """
    alpha: Ratio = theta * pi / 180
    V: Force = R * cos(alpha)
    return V


@formula(_SLOPED)
def stringer_deflection(w: LineLoadInch, L: Length, E_p: Stress, I: SecondMoment, theta: Angle) -> Length:
    """Deflection square to a stringer at mid-span under a load per level length.

    The level beam's formula is 20 to 40 % short of it on stairs. Parameters: w load (lb/in of level length); L level
    span (in); E_p adjusted modulus (psi); I second moment of area (in⁴); theta slope (°). Returns: delta (in).
    Source: elastic beam theory: span L/cos, load w cos² square to it.

    >>> I = 1.5 * 5.25**3 / 12
    >>> round(float(stringer_deflection(40 * 18 / 144, 90.0, 1.4e6 * 0.9, I, 36.87)), 4)
    0.2928
    """
    alpha: Ratio = theta * pi / 180
    delta: Length = 5 * w * L**4 / (384 * E_p * I * cos(alpha) ** 2)
    return delta


@formula("Statics (load over a short length at mid-span)")
def patch_moment(P: Force, l: Length, c: Length) -> Moment:
    """Moment of a simple span under a load spread over a short length at its middle.

    Parameters: P load (lb); l span (in); c length that it is spread over (in). Returns: M (lb·in). Source: statics.

    >>> patch_moment(300, 16.5, 2.0)
    1162.5
    """
    M: Moment = P * (l / 4 - c / 8)
    return M


@formula("Geometry (level cut of a stringer's foot)")
def depth_over_bearing(d_t: Length, l_b: Length, theta: Angle) -> Length:
    """Depth left over the part of the foot's level cut that bears, counted from its heel.

    Parameters: d_t depth of the stringer (in); l_b length of bearing from the heel (in); theta slope (°).
    Returns: d_n (in). Source: geometry.

    >>> round(float(depth_over_bearing(5.25, 0.375, 36.87)), 3)
    5.025
    """
    alpha: Ratio = theta * pi / 180
    d_n: Length = d_t - l_b * sin(alpha)
    return d_n


@formula("Statics")
def stair_reaction(w: LineLoadInch, L: Length, P: Force) -> Force:
    """Vertical reaction of a stringer at its head or foot, with one person who stands there.

    Parameters: w load (lb/in of level length); L level span (in); P person at that end (lb). Returns: R (lb).
    Source: statics.

    >>> stair_reaction(75 / 12, 90.0, 0.0)
    281.25
    >>> round(stair_reaction(6.0, 100.0, 250.0), 3)
    550.0
    """
    R: Force = w * L / 2 + P
    return R


@formula("Statics (couple on two stringers)")
def couple_between(M: Moment, s: Length) -> Force:
    """Force up on one stringer and down on the next, from a moment that a block between them takes.

    Parameters: M moment (lb·in); s distance of the stringers (in). Returns: V (lb). Source: statics.

    >>> couple_between(9000.0, 18.0)
    500.0
    """
    V: Force = M / s
    return V


@formula("Statics; ASCE 7-16, 2.4.1 (0.6D)")
def lifted_head(V: Force, R_D: Force) -> Force:
    """Uplift at the head of a stringer that the couple of a rail's post lifts, less 0.6 of what lies there always.

    Parameters: V force of the couple; R_D reaction of the dead load (lb). Returns: U (lb). Source: ASCE 7-16, 2.4.1.

    >>> lifted_head(500.0, 50.0)
    470.0
    """
    U: Force = V - 0.6 * R_D
    return U
