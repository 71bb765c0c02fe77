"""Sway of the trunk at the platform, the slot it wants, and the force it brings when tied.

Best is an observation at the platform's height in strong wind: no scaling. From above scale in proportion to
height, from below by its square. The estimate from crown wind is uncertain by a factor of two or more.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy import pi, sqrt

from bolewright.formulas import formula, unit_aware
from bolewright.units import (
    INCH,
    AreaFeet,
    Force,
    Length,
    LineLoadInch,
    Moment,
    Ratio,
    SecondMoment,
    Speed,
    Stress,
)

UNCERTAIN = "judgement: uncertain by a factor of two or more, observe the tree"


@formula("Judgement: sway in proportion to height", confidence="judgement, engineer to confirm")
def sway_linear(s_o: Length, z: Length, z_o: Length) -> Length:
    """Sway at the platform from an observation higher up; safe for scaling down.

    A trunk bent by the crown's force moves 1.4 times more at a quarter of the height than the square law
    says, and a tilting root plate moves in proportion to height.

    Parameters: s_o sway to one side seen at height z_o in strong wind (in); z height of the platform's bearing (in);
    z_o height of the observation (in), at or above z. Returns: s sway to one side at the platform (in). Source:
    judgement, root plate tilt as the upper law.

    >>> round(sway_linear(8.0, 120.0, 480.0), 3)
    2.0
    """
    s: Length = s_o * z / z_o
    return s


@formula("Judgement: sway as the square of height", confidence="judgement, engineer to confirm")
def sway_quadratic(s_o: Length, z: Length, z_o: Length) -> Length:
    """Sway at the platform from an observation lower down; a lower bound when scaling down.

    Parameters: s_o sway to one side seen at height z_o in strong wind (in); z height of the platform's bearing (in);
    z_o height of the observation (in), below z. Returns: s sway to one side at the platform (in). Source: judgement,
    foot of a bent cantilever.

    >>> round(sway_quadratic(0.2, 360.0, 120.0), 3)
    1.8
    """
    s: Length = s_o * (z / z_o) ** 2
    return s


@unit_aware(INCH.of)
def scaled_sway(s_o: Length, z: Length, z_o: Length) -> Any:
    """Sway at height ``z`` by the law that is safe for an observation at ``z_o``: linear down, square up."""
    law = np.where(np.asarray(z) <= np.asarray(z_o), sway_linear(s_o, z, z_o), sway_quadratic(s_o, z, z_o))
    return float(law) if law.ndim == 0 else law


@formula("IBC 2021, 1609.3.1 (V_asd)", confidence="from memory")
def allowable_wind_speed(V: Speed) -> Speed:
    """Wind speed at which the wind presses with 0.6 W, the wind of allowable stress design.

    Parameters: V basic wind speed of the place (mph). Returns: V_asd (mph). Source: IBC 2021, 1609.3.1; 0.6 W of
    ASCE 7-16, 2.4.1, with a pressure that goes by the square of the speed (26.10.2).

    >>> round(float(allowable_wind_speed(100.0)), 2)
    77.46
    """
    V_asd: Speed = V * sqrt(0.6)
    return V_asd


@formula("Common practice (wind on a crown)", confidence=UNCERTAIN, homogeneous=False)
def crown_wind_force(V: Speed, C_w: Ratio, A_c: AreaFeet) -> Force:
    """Wind force on the crown; leaves and twigs stream, so the drag factor falls in strong wind.

    Parameters: V gust speed at the crown (mph); C_w drag factor of the crown: about 0.2 to 0.3 in a storm in leaf, more
    in light wind; A_c front area of the crown in still air (ft²). Returns: F_c force (lb). Source: 0.00256 V^2 psf is
    the stagnation pressure of ASCE 7; the drag factor is judgement.

    >>> round(crown_wind_force(100.0, 0.25, 200.0), 3)
    1280.0
    """
    F_c: Force = 0.00256 * V**2 * C_w * A_c
    return F_c


@formula("Geometry (solid round trunk)")
def trunk_second_moment(d: Length) -> SecondMoment:
    """Second moment of area of a round trunk.

    Parameters: d diameter of sound wood (in). Returns: I second moment (in⁴). Source: geometry.

    160,000/64 times pi:

    >>> round(trunk_second_moment(20.0), 2)
    7853.98
    """
    I: SecondMoment = pi * d**4 / 64
    return I


@formula("Statics (cantilever with the crown's force, uniform trunk)", confidence=UNCERTAIN)
def sway_from_crown_wind(F_c: Force, z_c: Length, z: Length, E_g: Stress, I: SecondMoment) -> Length:
    """Static sway at the platform from wind in the crown; root plate and gust dynamics are left out.

    Parameters: F_c wind force on the crown (lb); z_c height of its centre (in); z height of the platform's bearing
    (in), below z_c; E_g modulus of elasticity of green wood (psi); I second moment of the trunk (in⁴). Returns: s sway
    to one side (in). Source: cantilever with an end load; a tapering trunk moves more.

    >>> round(sway_from_crown_wind(500.0, 440.0, 120.0, 1_000_000.0, 10_000.0), 6)
    0.144
    """
    s: Length = F_c * z**2 * (3 * z_c - z) / (6 * E_g * I)
    return s


@formula("Statics (moment of the crown's wind on the trunk)")
def crown_wind_moment(F_c: Force, z_c: Length, z: Length) -> Moment:
    """Moment that wind in the crown brings to the trunk, at the height of the section looked at.

    Parameters: F_c wind force on the crown (lb); z_c height of its centre (in); z height of the section (in). Returns:
    M moment (lb·in). Source: statics.

    >>> round(crown_wind_moment(500.0, 440.0, 120.0), 3)
    160000.0
    """
    M: Moment = F_c * (z_c - z)
    return M


@formula("Statics (trunk as a cantilever)", confidence=UNCERTAIN)
def trunk_stiffness(E_g: Stress, I: SecondMoment, z: Length) -> LineLoadInch:
    """Lateral force per displacement of the trunk at the platform; a root plate that tilts makes it less.

    Parameters: E_g modulus of elasticity of green wood (psi); I second moment of the trunk (in⁴); z height of the
    platform's bearing (in). Returns: k_t stiffness (lb/in). Source: cantilever with an end load.

    >>> round(trunk_stiffness(1_000_000.0, 10_000.0, 100.0), 3)
    30000.0
    """
    k_t: LineLoadInch = 3 * E_g * I / z**3
    return k_t


@formula("Statics (tree and platform tied together)", confidence=UNCERTAIN)
def tied_tree_force(s: Length, k_t: LineLoadInch, k_f: LineLoadInch) -> Force:
    """Force between tree and platform where the bearing cannot slide.

    Parameters: s sway the tree would have if free (in); k_t stiffness of the trunk at the platform (lb/in); k_f lateral
    stiffness of platform, posts and bracing (lb/in). Returns: H_t force in the tie, either way (lb). Source: statics:
    two springs in series pulled apart by s.

    >>> round(tied_tree_force(0.5, 3000.0, 6000.0), 3)
    1000.0
    """
    H_t: Force = s * k_t * k_f / (k_t + k_f)
    return H_t


@formula("Common practice (room to slide each way)", confidence="common practice")
def slide_each_way(s: Length, w: Length, m: Length) -> Length:
    """Room a sliding bracket wants each way from rest.

    Parameters: s sway to one side (in); w radial growth over the years to the next service (in); m margin (in).
    Returns: c_s room each way (in). Source: sway + growth + margin.

    >>> round(slide_each_way(1.5, 1.0, 0.5), 3)
    3.0
    """
    c_s: Length = s + w + m
    return c_s


@formula("Common practice (slide between two trees)", confidence="common practice")
def slide_between_trees(s_1: Length, s_2: Length, m: Length) -> Length:
    """Room to slide each way where a part spans from one trunk to another: they do not sway together.

    Parameters: s_1, s_2 sway of either trunk to one side at the bearing (in); m margin (in). Returns: c_s room each way
    (in), at one end at least. Source: sum of both sways + margin; bolts in two trunks do not move apart by growth.

    >>> round(slide_between_trees(1.5, 2.0, 0.5), 3)
    4.0
    """
    c_s: Length = s_1 + s_2 + m
    return c_s


@formula("Geometry (slot over a pin)")
def slot_length(c_s: Length, D: Length) -> Length:
    """Length of the slot for a pin that slides both ways.

    Parameters: c_s room each way (in); D diameter of the pin (in). Returns: l_s length of the slot (in). Source:
    geometry.

    >>> round(slot_length(3.0, 1.0), 3)
    7.0
    """
    l_s: Length = 2 * c_s + D
    return l_s
