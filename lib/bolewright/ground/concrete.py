"""Concrete and gravel quantities: volume of a hole's filling, bags, weight."""

from __future__ import annotations

import math

from numpy import pi

from bolewright.formulas import formula
from bolewright.units import AreaFeet, Density, Feet, Force, Ratio, VolumeFeet

BAG_YIELD = 0.60  # cu ft for an 80 lb bag, common practice
PLAIN_CONCRETE = 144.0  # pcf, ASCE 7-16 Table C3.1-2, from memory
BACKFILL = 120.0  # pcf, moist soil that is tamped; judgement, on the heavy side


@formula("Geometry (round filling round a post)")
def concrete_volume_round(d_h: Feet, H: Feet, A_post: AreaFeet) -> VolumeFeet:
    """Volume of a round filling, less the post that stands in it.

    Parameters: d_h diameter of the hole (ft); H height filled (ft); A_post section of the post inside the filling
    (ft²), 0 for a solid pad. Returns: V volume (ft³). Source: geometry.

    (0.7854 - 0.25) x 3:

    >>> round(concrete_volume_round(1.0, 3.0, 0.25), 2)
    1.61
    """
    V: VolumeFeet = (pi * d_h**2 / 4 - A_post) * H
    return V


@formula("Geometry (square pad)")
def concrete_volume_square(B: Feet, H: Feet) -> VolumeFeet:
    """Volume of a square pad.

    Parameters: B side (ft); H thickness (ft). Returns: V volume (ft³). Source: geometry.

    >>> round(concrete_volume_square(3.0, 0.75), 3)
    6.75
    """
    V: VolumeFeet = B**2 * H
    return V


@formula("Geometry (soil that stands on a footing)")
def soil_volume_on_footing(A: AreaFeet, A_p: AreaFeet, H_s: Feet) -> VolumeFeet:
    """Volume of the soil straight above a footing, less the post that stands in it.

    Parameters: A area of the footing, A_p section of the post (ft²); H_s height of the soil (ft). Returns: V_s volume
    (ft³). Source: geometry; no cone of soil is counted.

    >>> soil_volume_on_footing(4.0, 0.25, 2.0)
    7.5
    """
    V_s: VolumeFeet = (A - A_p) * H_s
    return V_s


@formula("Common practice (bags)")
def bags_of_concrete(V: VolumeFeet, y: VolumeFeet, w: Ratio) -> Ratio:
    """Bags of concrete mix, before rounding up.

    Round up with :func:`whole_bags`.

    Parameters: V volume to fill (ft³); y yield of one bag (ft³); 0.60 for 80 lb; w waste and overbreak, 0.10 for 10 %.
    Returns: n bags. Source: common practice: 80 lb yields about 0.60 cu ft; read the bag.

    >>> round(bags_of_concrete(6.0, 0.6, 0.1), 3)
    11.0
    """
    n: Ratio = V * (1 + w) / y
    return n


@formula("Statics (weight of a volume)")
def weight_of_volume(V: VolumeFeet, gamma: Density) -> Force:
    """Weight of concrete, soil or gravel.

    Parameters: V volume (ft³); gamma unit weight (pcf). Returns: W weight (lb). Source: geometry.

    >>> round(weight_of_volume(4.0, 150.0), 3)
    600.0
    """
    W: Force = gamma * V
    return W


@formula("Statics (weights on the soil)")
def weight_with_backfill(W_c: Force, W_s: Force) -> Force:
    """Weight of a pad and of the soil that fills the hole over it.

    Parameters: W_c weight of the concrete, W_s of the soil over it (lb). Returns: W_f (lb). Source: statics.

    >>> weight_with_backfill(450.0, 1250.0)
    1700.0
    """
    W_f: Force = W_c + W_s
    return W_f


def whole_bags(n: float) -> int:
    """Bags to buy.

    >>> whole_bags(7.2)
    8
    """
    return math.ceil(n - 1e-9)
