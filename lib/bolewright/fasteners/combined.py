"""Lateral and withdrawal load together on one fastener (NDS 2018, 12.4)."""

from __future__ import annotations

from numpy import cos, pi, sin

from bolewright.formulas import Limit, formula
from bolewright.units import Angle, Force, Ratio

_ALPHA = {"alpha": Limit(0, 90, "The angle between load and wood surface is outside 0 to 90 degrees.")}


@formula("NDS 2018, equation 12.4-1", limits=_ALPHA, confidence="from memory")
def combined_screw_value(Z_p: Force, W_p_p: Force, alpha: Angle) -> Force:
    """Value of a lag screw or wood screw loaded at an angle to the wood surface.

    Parameters: Z_p adjusted lateral value (lb); W_p_p adjusted withdrawal value times penetration, or the
    pull-through value where that is less (lb); alpha angle between load and wood surface (degrees, 0 is
    lateral). Returns: Z'_alpha (lb). Source: NDS 2018, 12.4.1, equation 12.4-1.

    At 30 degrees cos² is 3/4 and sin² 1/4: 480,000/(900 + 100).

    >>> round(float(combined_screw_value(400.0, 1200.0, 30.0)), 3)
    480.0
    """
    alpha_rad: Ratio = alpha * pi / 180
    Z_alpha_p: Force = W_p_p * Z_p / (W_p_p * cos(alpha_rad) ** 2 + Z_p * sin(alpha_rad) ** 2)
    return Z_alpha_p


@formula("NDS 2018, equation 12.4-2", limits=_ALPHA, confidence="from memory")
def combined_nail_value(Z_p: Force, W_p_p: Force, alpha: Angle) -> Force:
    """Value of a nail or spike loaded at an angle to the wood surface.

    Parameters: Z_p adjusted lateral value (lb); W_p_p adjusted withdrawal value times penetration, or the
    pull-through value where that is less (lb); alpha angle between load and wood surface (degrees, 0 is
    lateral). Returns: Z'_alpha (lb). Source: NDS 2018, 12.4.2, equation 12.4-2.

    Both values alike at 45 degrees: 100/sqrt(2).

    >>> round(float(combined_nail_value(100.0, 100.0, 45.0)), 1)
    70.7
    """
    alpha_rad: Ratio = alpha * pi / 180
    Z_alpha_p: Force = W_p_p * Z_p / (W_p_p * cos(alpha_rad) + Z_p * sin(alpha_rad))
    return Z_alpha_p


@formula("NDS 2018, 12.4.2", confidence="from memory")
def combined_nail_ratio(R_Z: Force, R_W: Force, Z_p: Force, W_p_p: Force) -> Ratio:
    """Use of a nail under a lateral and a withdrawal force: both shares together, 1 at most.

    Parameters: R_Z lateral, R_W withdrawal force (lb); Z_p, W_p_p adjusted lateral and withdrawal values (lb).
    Returns: ratio. Source: NDS 2018, 12.4.2, equation 12.4-2 rearranged.

    >>> round(combined_nail_ratio(50.0, 20.0, 100.0, 80.0), 6)
    0.75
    """
    ratio: Ratio = R_Z / Z_p + R_W / W_p_p
    return ratio
