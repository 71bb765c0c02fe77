"""Elastic bolt in the trunk: a bar of length L on an elastic foundation, free at both ends, loaded outside.

Closed form for any length, from a rigid peg (L / l_c below 1) to a slender bar (above 3).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy import cos, exp, pi, sin

from bolewright.formulas import formula, unit_aware
from bolewright.units import (
    INCH,
    Force,
    FoundationModulus,
    Length,
    LineLoadInch,
    Moment,
    Ratio,
    SecondMoment,
    Stress,
)

FINITE_BAR = "Hetényi, Beams on Elastic Foundation (1946), finite bar with free ends"
STEEL_MODULUS = 29_000_000.0  # psi, AISC 360
DEFAULT_KAPPA = 10.0  # judgement, editable
PLAUSIBLE_KAPPA = (5.0, 20.0)


@formula("Judgement: foundation modulus as a share of E", confidence="judgement, engineer to confirm")
def foundation_modulus(E_g: Stress, D: Length, kappa: Ratio) -> FoundationModulus:
    """Pressure per displacement of green wood under a bolt; an estimate, editable.

    The force per length and displacement, k_0 D, is taken as a share of the trunk's modulus along the grain.
    Drop, slope and face pressure follow it with a small power; the largest moment hardly moves.

    Parameters: E_g modulus of elasticity of green wood along the grain (psi); D bolt diameter (in); kappa E_g / (k_0
    D); 10 by default, plausible from 5 to 20. Returns: k_0 foundation modulus (lb/in³). Source: judgement, of the order
    of embedment tests on dowels.

    >>> round(foundation_modulus(1_000_000.0, 1.25, 10.0), 3)
    80000.0
    """
    k_0: FoundationModulus = E_g / (kappa * D)
    return k_0


@formula(
    "Judgement: foundation modulus across the grain, softer than along it",
    confidence="judgement, engineer to confirm",
)
def foundation_modulus_across(E_g: Stress, D: Length, kappa: Ratio, n: Ratio) -> FoundationModulus:
    """Pressure per displacement of green wood under a bolt that is pushed across the grain; an estimate, editable.

    Parameters: E_g modulus of elasticity of green wood along the grain (psi); D bolt diameter (in); kappa E_g / (k_0
    D) along the grain; n how many times softer the wood is across it. Returns: k_0 foundation modulus across the grain
    (lb/in³). Source: judgement.

    >>> round(foundation_modulus_across(1_000_000.0, 1.25, 10.0, 5.0), 3)
    16000.0
    """
    k_0: FoundationModulus = E_g / (n * kappa * D)
    return k_0


@formula(FINITE_BAR)
def characteristic_length(k_0: FoundationModulus, D: Length, D_r: Length, E_s: Stress) -> Length:
    """Length over which the wood takes the load out of the bolt.

    Parameters: k_0 foundation modulus of the wood (lb/in³); D diameter in contact with the wood (in); D_r diameter that
    bends: root if the bar is threaded in the wood (in); E_s modulus of elasticity of the steel (psi), 29 000 000.
    Returns: l_c characteristic length (in). Source: Hetényi (1946): l_c = 1 / lambda = (4 E I / k)^(1/4).

    I = 0.02877 in⁴: the fourth root of 33.38.

    >>> round(characteristic_length(80_000.0, 1.25, 0.875, 29_000_000.0), 2)
    2.4
    """
    I: SecondMoment = pi * D_r**4 / 64
    k: Stress = k_0 * D
    l_c: Length = (4 * E_s * I / k) ** 0.25
    return l_c


@formula(FINITE_BAR)
def bolt_pressure(P: Force, e: Length, L: Length, D: Length, l_c: Length, x: Length) -> Stress:
    """Pressure of the bolt on the wood at depth x; x = 0 gives the pressure at the face, the largest.

    Parameters: P load on the bolt (lb); e sound wood face to centre of bearing (in); L penetration in sound wood (in);
    D diameter in contact with the wood (in); l_c characteristic length (in); x depth from the sound wood face (in).
    Returns: p pressure (psi), negative on the far side of the turning point. Source: Hetényi (1946), end force and end
    moment superposed.

    Stiff beside its length (l_c = 100 in.), a bar presses as a rigid one: at the face (4 P/L + 6 P e/L²)/D, here
    1750/0.5, and 750/0.5 less each inch in. A long one, 2 P/(l_c D) (1 + e/l_c):

    >>> round(float(bolt_pressure(1000.0, 2.0, 4.0, 0.5, 100.0, 0.0)), 0)
    3500.0
    >>> round(float(bolt_pressure(1000.0, 2.0, 4.0, 0.5, 100.0, 2.0)), 0)
    500.0
    >>> round(float(bolt_pressure(1000.0, 2.0, 100.0, 1.0, 2.0, 0.0)), 3)
    2000.0
    """
    b: Ratio = L / l_c
    u: Ratio = x / l_c
    r: Ratio = b - u
    s_b: Ratio = (exp(b) - exp(-b)) / 2  # sinh
    N: Ratio = s_b**2 - sin(b) ** 2
    A_P: Ratio = s_b * cos(u) * (exp(r) + exp(-r)) - sin(b) * (exp(u) + exp(-u)) * cos(r)
    B_r: Ratio = (exp(r) - exp(-r)) * cos(u) - (exp(r) + exp(-r)) * sin(u)
    B_u: Ratio = (exp(u) + exp(-u)) * sin(r) - (exp(u) - exp(-u)) * cos(r)
    A_M: Ratio = s_b * B_r + sin(b) * B_u
    w: LineLoadInch = P / l_c * (A_P + A_M * e / l_c) / N
    p: Stress = w / D
    return p


@formula(FINITE_BAR)
def bolt_shear_at(P: Force, e: Length, L: Length, l_c: Length, x: Length) -> Force:
    """Shear in the bolt at depth x in the wood; in a short bolt it exceeds the load itself.

    Parameters: P load on the bolt (lb); e sound wood face to centre of bearing (in); L penetration in sound wood (in);
    l_c characteristic length (in); x depth from the sound wood face (in). Returns: V shear (lb). Source: Hetényi
    (1946).

    A rigid bar presses with 1750 lb/in at the face and 750 less each inch in: 1000 - 1750 x 2 + 750 x 2²/2.

    >>> round(float(bolt_shear_at(1000.0, 2.0, 4.0, 100.0, 2.0)), 0)
    -1000.0
    """
    b: Ratio = L / l_c
    u: Ratio = x / l_c
    r: Ratio = b - u
    s_b: Ratio = (exp(b) - exp(-b)) / 2  # sinh
    s_u: Ratio = (exp(u) - exp(-u)) / 2
    c_u: Ratio = (exp(u) + exp(-u)) / 2  # cosh
    s_r: Ratio = (exp(r) - exp(-r)) / 2
    c_r: Ratio = (exp(r) + exp(-r)) / 2
    N: Ratio = s_b**2 - sin(b) ** 2
    A_P: Ratio = s_b * (cos(u) * s_r - sin(u) * c_r) - sin(b) * (c_u * sin(r) - s_u * cos(r))
    A_M: Ratio = -2 * (s_b * s_r * sin(u) + sin(b) * s_u * sin(r))
    V: Force = P * (A_P + A_M * e / l_c) / N
    return V


@formula(FINITE_BAR)
def bolt_moment_at(P: Force, e: Length, L: Length, l_c: Length, x: Length) -> Moment:
    """Moment in the bolt at depth x in the wood; the largest lies inside, not at the face.

    Parameters: P load on the bolt (lb); e sound wood face to centre of bearing (in); L penetration in sound wood (in);
    l_c characteristic length (in); x depth from the sound wood face (in). Returns: M moment (lb·in). Source: Hetényi
    (1946).

    A rigid bar, as at :func:`bolt_shear_at`: 2000 + 1000 x 2 - 1750 x 2²/2 + 750 x 2³/6.

    >>> round(float(bolt_moment_at(1000.0, 2.0, 4.0, 100.0, 2.0)), 0)
    1500.0
    """
    b: Ratio = L / l_c
    u: Ratio = x / l_c
    r: Ratio = b - u
    s_b: Ratio = (exp(b) - exp(-b)) / 2  # sinh
    s_u: Ratio = (exp(u) - exp(-u)) / 2
    c_u: Ratio = (exp(u) + exp(-u)) / 2  # cosh
    s_r: Ratio = (exp(r) - exp(-r)) / 2
    c_r: Ratio = (exp(r) + exp(-r)) / 2
    N: Ratio = s_b**2 - sin(b) ** 2
    A_P: Ratio = s_b * sin(u) * s_r - sin(b) * s_u * sin(r)
    A_M: Ratio = s_b * (s_r * cos(u) + c_r * sin(u)) - sin(b) * (s_u * cos(r) + c_u * sin(r))
    M: Moment = P * (l_c * A_P + e * A_M) / N
    return M


@formula(FINITE_BAR)
def bolt_slope(P: Force, e: Length, L: Length, D: Length, k_0: FoundationModulus, l_c: Length) -> Ratio:
    """Slope of the bolt at the wood face under service load.

    Parameters: P load on the bolt (lb); e sound wood face to centre of bearing (in); L penetration in sound wood (in);
    D diameter in contact with the wood (in); k_0 foundation modulus (lb/in³); l_c characteristic length (in). Returns:
    theta_0 slope, rise over run. Source: Hetényi (1946).

    A rigid bar, as at :func:`bolt_shear_at`: 750 lb/in less each inch, over k_0 D.

    >>> round(float(bolt_slope(1000.0, 2.0, 4.0, 1.25, 80_000.0, 100.0)), 6)
    0.0075
    """
    b: Ratio = L / l_c
    s_b: Ratio = (exp(b) - exp(-b)) / 2  # sinh
    c_b: Ratio = (exp(b) + exp(-b)) / 2  # cosh
    N: Ratio = s_b**2 - sin(b) ** 2
    A_P: Ratio = (s_b**2 + sin(b) ** 2) / N
    A_M: Ratio = 2 * (s_b * c_b + sin(b) * cos(b)) / N
    k: Stress = k_0 * D
    theta_0: Ratio = 2 * P / (k * l_c**2) * (A_P + A_M * e / l_c)
    return theta_0


@formula("Statics (face displacement, slope and cantilever bending)")
def bolt_drop(
    P: Force, e: Length, p_0: Stress, k_0: FoundationModulus, theta_0: Ratio, E_s: Stress, D: Length
) -> Length:
    """Drop of the bearing point under service load.

    Parameters: P load on the bolt (lb); e sound wood face to centre of bearing (in); p_0 pressure at the wood face
    (psi); k_0 foundation modulus (lb/in³); theta_0 slope at the face; E_s modulus of elasticity of the steel (psi); D
    diameter of the bar outside the wood (in). Returns: delta drop (in). Source: statics.

    0.0175 at the face, 0.015 by the slope, 8000/(3 x 29,000,000 x 0.003068) = 0.0300 by bending.

    >>> round(bolt_drop(1000.0, 2.0, 1750.0, 100_000.0, 0.0075, 29_000_000.0, 0.5), 4)
    0.0625
    """
    I: SecondMoment = pi * D**4 / 64
    y_0: Length = p_0 / k_0
    delta_e: Length = P * e**3 / (3 * E_s * I)
    delta: Length = y_0 + theta_0 * e + delta_e
    return delta


def _first_zero(function: Callable[[Any], Any], upper: Any) -> Any:
    """First depth in (0, upper) at which ``function``, positive at 0, falls through zero; elementwise."""
    steps = np.linspace(0.0, 1.0, 201).reshape((-1,) + (1,) * np.ndim(upper))
    negative = function(steps * upper) < 0
    first = np.argmax(negative, axis=0) / 200.0
    low, high = (first - 1 / 200.0) * upper, first * upper
    for _ in range(50):
        middle = (low + high) / 2
        positive = function(middle) > 0
        low, high = np.where(positive, middle, low), np.where(positive, high, middle)
    return (low + high) / 2


@unit_aware(INCH.of)
def turning_depth(P: Force, e: Length, L: Length, D: Length, l_c: Length) -> Any:
    """Depth [in] at which the pressure changes side: there the shear inside the wood is largest."""
    depth = L + 0.0 * (e + l_c + P)
    return _first_zero(lambda x: bolt_pressure(P, e, L, D, l_c, x), depth)


@unit_aware(INCH.of)
def largest_moment_depth(P: Force, e: Length, L: Length, D: Length, l_c: Length) -> Any:
    """Depth [in] at which the shear is zero: there the moment in the bolt is largest."""
    return _first_zero(lambda x: bolt_shear_at(P, e, L, l_c, x), turning_depth(P, e, L, D, l_c))


@unit_aware(INCH.of)
def largest_shear_depth(P: Force, e: Length, L: Length, D: Length, l_c: Length) -> Any:
    """Depth [in] of the largest shear in the bolt: 0 (the load itself) or where the pressure changes side."""
    depth = turning_depth(P, e, L, D, l_c)
    return np.where(np.abs(bolt_shear_at(P, e, L, l_c, depth)) > np.abs(P), depth, 0.0)
