"""Wind on an open platform by ASCE 7-16: velocity pressure, pressure on guards and framing, force.

Open and solid parts are told apart by their solidity, the share of solid area in the gross area. No part
shelters another, and a tree never shelters the platform.
"""

from __future__ import annotations

from dataclasses import dataclass

from numpy import exp, maximum

from bolewright.formulas import formula
from bolewright.reference import load
from bolewright.units import AreaFeet, AreaLoad, Feet, Force, Length, Moment, Ratio, Speed

DIRECTIONALITY = 0.85  # K_d of Table 26.6-1: solid walls and signs, open signs and lattice frames
GUST = 0.85  # G of 26.11.1, rigid structure
OPEN_UP_TO = 0.7  # solidity up to which a part counts as open (29.4, openings of 30 % or more)
ECCENTRICITY = 0.15  # of the width, either way (Figure 27.3-8, case 2)
LEAST_PRESSURE = 16.0  # psf, 29.7


@dataclass(frozen=True)
class Terrain:
    """Constants of an exposure: power law exponent and gradient height (ft)."""

    alpha: float
    z_g: float


def terrain(exposure: str) -> Terrain:
    """Terrain constants of exposure B, C or D (ASCE 7-16, Table 26.11-1).

    >>> terrain("C")
    Terrain(alpha=9.5, z_g=900.0)
    """
    row = load("asce7_terrain").row(exposure=exposure)
    return Terrain(float(row["alpha"]), float(row["z_g_ft"]))


def open_force_coefficient(solidity: float) -> float:
    """C_f of an open frame of flat-sided members, on its solid area (ASCE 7-16, Table 29.4-2).

    Above the table's 0.7 see :func:`solid_force_coefficient`; between two ranges the larger value holds.

    >>> open_force_coefficient(0.25), open_force_coefficient(0.5)
    (1.8, 1.6)
    """
    for row in load("asce7_open_frame_force_coefficient"):
        if solidity <= row["solidity_up_to"]:
            return float(row["C_f"])
    return solid_force_coefficient()


def solid_force_coefficient() -> float:
    """C_f of a solid face that does not reach the ground: the largest of Figure 29.3-1 for cases A and B, 1.95.

    The figure's own value for the platform's proportions is 1.75 to 1.9; the largest is used throughout. Its case C
    (a face at least twice as long as it is high) lays more on the windward end and less on the rest; less in total.
    """
    return float(load("asce7_solid_sign_force_coefficient").rows[0]["C_f"])


@formula("ASCE 7-16, Table 26.10-1 (K_z)", homogeneous=False)
def velocity_exposure_coefficient(z: Feet, z_g: Feet, alpha: Ratio) -> Ratio:
    """Velocity pressure exposure coefficient K_z.

    Parameters: z height above ground, taken as 15 ft at least; z_g gradient height (ft); alpha exponent.
    Returns: K_z. Source: ASCE 7-16, Table 26.10-1, note 1.

    >>> round(float(velocity_exposure_coefficient(20.0, 900.0, 9.5)), 2)
    0.9
    """
    z_p: Feet = maximum(z, 15)
    K_z: Ratio = 2.01 * (z_p / z_g) ** (2 / alpha)
    return K_z


@formula("ASCE 7-16, Table 26.9-1 (K_e)", confidence="from memory", homogeneous=False)
def ground_elevation_factor(z_e: Feet) -> Ratio:
    """Factor for thinner air on high ground; 1.0 is always allowed.

    Parameters: z_e elevation of the ground above sea level (ft). Returns: K_e.
    Source: ASCE 7-16, Table 26.9-1, note 2.

    >>> round(float(ground_elevation_factor(2000.0)), 2)
    0.93
    """
    K_e: Ratio = exp(-0.0000362 * z_e)
    return K_e


@formula("ASCE 7-16, 26.10.2", homogeneous=False)
def velocity_pressure(K_z: Ratio, K_zt: Ratio, K_d: Ratio, K_e: Ratio, V: Speed) -> AreaLoad:
    """Velocity pressure q_z of the wind.

    Parameters: K_z exposure; K_zt hills and ridges; K_d directionality; K_e ground elevation; V basic wind
    speed, 3 s gust (mph). Returns: q_z (psf). Source: ASCE 7-16, equation 26.10-1.

    Public worked example, exposure C at 15 ft, 115 mph: 24.461 psf with K_z = 0.85.

    >>> round(velocity_pressure(0.85, 1.0, 0.85, 1.0, 115.0), 3)
    24.461
    >>> round(velocity_pressure(0.9, 1.2, 0.85, 0.95, 100.0), 3)
    22.326
    """
    q_z: AreaLoad = 0.00256 * K_z * K_zt * K_d * K_e * V**2
    return q_z


@formula("ASCE 7-16, 29.3 (solid), 29.4 (open) and 29.7", homogeneous=False)
def wind_pressure(q_z: AreaLoad, G: Ratio, C_f: Ratio) -> AreaLoad:
    """Wind pressure on the area that faces the wind, 16 psf at least.

    Parameters: q_z velocity pressure (psf); G gust effect; C_f force coefficient. Returns: p (psf).
    Source: ASCE 7-16, equations 29.3-1 (solid faces) and 29.4-1 (open ones), and 29.7.

    >>> float(wind_pressure(14.2, 0.85, 1.6)), float(wind_pressure(10.0, 0.85, 1.6))
    (19.311999999999998, 16.0)
    """
    p: AreaLoad = maximum(q_z * G * C_f, 16)
    return p


@formula("Geometry (solid area that faces the wind)")
def area_facing(h: Feet, w: Feet, epsilon: Ratio) -> AreaFeet:
    """Solid area of a guard or a face, projected against the wind.

    Parameters: h height, w width across the wind (ft); epsilon solidity, 1 for a solid face.
    Returns: A_f (ft²). Source: ASCE 7-16, 29.4: the solid area projected normal to the wind.

    >>> round(area_facing(3.0, 12.0, 0.5), 3)
    18.0
    """
    A_f: AreaFeet = h * w * epsilon
    return A_f


@formula("ASCE 7-16, 29.4")
def wind_force(p: AreaLoad, A_f: AreaFeet) -> Force:
    """Wind force on a face.

    Parameters: p pressure (psf); A_f area that faces the wind (ft²). Returns: F (lb).
    Source: ASCE 7-16, equation 29.4-1.

    >>> round(wind_force(20.0, 18.0), 3)
    360.0
    """
    F: Force = p * A_f
    return F


@formula("Statics (a simple span under an even load)")
def moment_by_wind(w: Ratio, F: Force, l: Length) -> Moment:
    """Greatest moment of a brace by the wind on its broad side, between its ends.

    Parameters: w factor of the wind in the combination; F wind force on all of its side (lb); l its length (in).
    Returns: M_w (lb·in). Source: statics, w F over l, supported at both ends.

    >>> moment_by_wind(0.6, 50.0, 40.0)
    150.0
    """
    M_w: Moment = w * F * l / 8
    return M_w


@formula("Statics (wind on braces beside what they pass on)")
def with_wind_on_braces(H: Force, H_w: Force) -> Force:
    """Lateral force on the tree bolt under knee braces with the wind on themselves, whatever way it blows.

    Parameters: H lateral force without it, H_w wind on the braces that comes to the bolt (lb). Returns: H_s (lb),
    without sign. Source: statics, on the safe side: as if both went one way.

    >>> with_wind_on_braces(-100.0, 25.0)
    125.0
    """
    H_s: Force = abs(H) + H_w
    return H_s


@formula("Statics (half of an even load at each end)")
def wind_at_one_end(w: Ratio, F: Force) -> Force:
    """Wind on a brace that comes to one of its ends.

    Parameters: w factor of the wind in the combination; F wind force on all of its broad side (lb). Returns: H_w (lb).
    Source: statics.

    >>> wind_at_one_end(0.6, 50.0)
    15.0
    """
    H_w: Force = w * F / 2
    return H_w


@formula("Common practice (lateral share of the live load)", confidence="common practice")
def occupant_sway(s_L: Ratio, L: Force) -> Force:
    """Lateral force of people who sway, dance or lean together, in any direction at the floor.

    Parameters: s_L share of the live load, 0.10 by default; L live load on the deck or a part of it (lb).
    Returns: H (lb). Source: common practice; no building code has it for a deck.

    >>> round(occupant_sway(0.1, 4000.0), 3)
    400.0
    """
    H: Force = s_L * L
    return H
