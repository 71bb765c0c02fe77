"""Connectors by their maker's rating: hangers, caps, brackets."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.units import Force, Ratio


@formula("NDS 2018, 11.3.2 and Table 11.3.3")
def hanger_capacity(Z_rated: Force, C_D: Ratio, C_M: Ratio) -> Force:
    """Rated load of a hanger in the combination and service at hand.

    When it applies: a rating for normal duration; a longer load lowers it (0.9), a shorter one does not raise it
    here, since the steel may govern. Parameters: Z_rated maker's rated load (lb); C_D load duration, at most 1;
    C_M wet service, 1 when the rating holds for wet wood. Returns: Z' (lb).
    Source: NDS 2018, 11.3.2 and Table 11.3.3.

    >>> hanger_capacity(600, 0.9, 1.0)
    540.0
    """
    Z_p: Force = Z_rated * C_D * C_M
    return Z_p
