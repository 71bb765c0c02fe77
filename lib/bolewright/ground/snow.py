"""Weight and depth of snow on the ground."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.ground.footing import FROM_MEMORY
from bolewright.units import AreaLoad, Density

DENSEST = 30.0  # pcf (ASCE 7-16, Eq. 7.7-1)


@formula("ASCE 7-16, Eq. 7.7-1", homogeneous=False, confidence=FROM_MEMORY)
def snow_unit_weight(p_g: AreaLoad) -> Density:
    """Unit weight of snow, at most 30 pcf.

    Parameters: p_g ground snow (psf). Returns: gamma (pcf). Source: ASCE 7-16, Eq. 7.7-1, from memory.

    >>> snow_unit_weight(25.0)
    17.25
    """
    gamma: Density = 0.13 * p_g + 14
    return gamma


def snow_depth(p_g: float) -> float:
    """Depth of ground snow (in) of ``p_g`` psf.

    >>> round(snow_depth(25.0), 1)
    17.4
    """
    gamma = min(float(snow_unit_weight(p_g=p_g)), DENSEST)
    return 12.0 * p_g / gamma
