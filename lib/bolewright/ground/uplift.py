"""Uplift of a footing: weight alone, a cone of soil, or friction on the shaft. Say which one is counted."""

from __future__ import annotations

from numpy import minimum, pi, tan

from bolewright.formulas import formula
from bolewright.units import Angle, AreaLoad, Density, Feet, Force, Ratio, VolumeFeet

CONE = "judgement: cone method, engineer to confirm"


@formula("ASCE 7-16, 2.4.1 (0.6 D against uplift)")
def uplift_resistance_weight(W: Force) -> Force:
    """Weight that may be counted against uplift: concrete, post, and soil standing on the base.

    Parameters: W dead weight (lb). Returns: R_w resistance (lb). Source: ASCE 7-16 2.4.1, combinations with 0.6 D.

    >>> round(uplift_resistance_weight(1000.0), 3)
    600.0
    """
    R_w: Force = 0.6 * W
    return R_w


@formula("Geometry (soil standing on the base round a shaft)")
def soil_on_base(gamma: Density, d_b: Feet, d_s: Feet, H: Feet) -> Force:
    """Weight of the soil column standing on a round base round a narrower shaft.

    Parameters: gamma unit weight of the backfill (pcf); d_b diameter of the base (ft); d_s diameter of the shaft or
    post (ft); H height of soil over the base (ft). Returns: W_s weight (lb). Source: geometry.

    400 pi:

    >>> round(soil_on_base(100.0, 3.0, 1.0, 2.0), 1)
    1256.6
    """
    V_s: VolumeFeet = pi / 4 * (d_b**2 - d_s**2) * H
    W_s: Force = gamma * V_s
    return W_s


@formula("Common practice (frustum of soil above a base)", confidence=CONE)
def uplift_resistance_cone(gamma: Density, d_b: Feet, d_s: Feet, H: Feet, psi: Angle, F_s: Ratio) -> Force:
    """Soil that a base lifts as a frustum, with a factor of safety; tamped or undisturbed soil only.

    Parameters: gamma unit weight of the soil (pcf), buoyant below ground water; d_b diameter of the base (ft); d_s
    diameter of the shaft or post (ft); H depth of the base's top below grade (ft); psi slope of the frustum from the
    vertical (°); 20 to 30, judgement; F_s factor of safety, 2 is common. Returns: R_c resistance of the soil (lb); the
    weight of concrete is added apart. Source: common practice for shallow anchors.

    At 45 degrees the radius grows from 1 to 4 ft: 21 pi ft³, less 3/4 pi of the shaft, times 100/2.

    >>> round(float(uplift_resistance_cone(100.0, 2.0, 1.0, 3.0, 45.0, 2.0)), 1)
    3180.9
    """
    r_1: Feet = d_b / 2
    r_2: Feet = r_1 + H * tan(pi / 180 * psi)
    V_f: VolumeFeet = pi * H / 3 * (r_1**2 + r_1 * r_2 + r_2**2)
    V_c: VolumeFeet = V_f - pi / 4 * d_s**2 * H
    R_c: Force = gamma * V_c / F_s
    return R_c


@formula(
    "IBC 2021, 1810.3.3.1.4 (one sixth of bearing, at most 500 psf)",
    confidence="from memory",
    homogeneous=False,
)
def shaft_friction(q_a: AreaLoad) -> AreaLoad:
    """Allowable friction on a concrete shaft cast against undisturbed soil, without a soil report.

    Parameters: q_a presumptive allowable bearing pressure (psf). Returns: f_a allowable friction (psf). Source: IBC
    2021 1810.3.3.1.4: one sixth of the bearing value of Table 1806.2, not above 500 psf.

    >>> round(float(shaft_friction(1500.0)), 3)
    250.0
    >>> round(float(shaft_friction(4000.0)), 3)
    500.0
    """
    f_a: AreaLoad = minimum(q_a / 6, 500)
    return f_a


@formula("Statics (friction on a round shaft)")
def uplift_resistance_friction(f_a: AreaLoad, d_s: Feet, H_f: Feet) -> Force:
    """Friction of a round shaft over the depth that holds: below frost, not counted in loose fill.

    Parameters: f_a allowable friction (psf); d_s diameter of the shaft (ft); H_f depth counted, below frost (ft).
    Returns: R_f resistance (lb). Source: statics.

    2000 pi:

    >>> round(uplift_resistance_friction(250.0, 2.0, 4.0), 1)
    6283.2
    """
    R_f: Force = f_a * pi * d_s * H_f
    return R_f


@formula("Statics (frost gripping a full-depth shaft)", confidence="judgement, engineer to confirm")
def frost_heave_force(tau: AreaLoad, d_s: Feet, d_frost: Feet) -> Force:
    """Upward pull of frozen soil on the side of a rough full-depth shaft; a smooth sleeve cuts it.

    Parameters: tau adfreeze bond (psf); thousands in frost-susceptible silt, entered by the user; d_s diameter of the
    shaft (ft); d_frost frost depth (ft). Returns: U_f uplift (lb). Source: statics; the bond is judgement.

    3000 pi:

    >>> round(frost_heave_force(1000.0, 1.5, 2.0), 1)
    9424.8
    """
    U_f: Force = tau * pi * d_s * d_frost
    return U_f
