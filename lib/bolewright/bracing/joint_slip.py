"""Slip of fastenings between joists and beams, under level force."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.ground.footing import FROM_MEMORY
from bolewright.units import Length, LineLoadInch, Ratio

NAIL = 0.148  # in: 10d common


@formula("NDS 2018, 11.3.6.1", homogeneous=False, confidence=FROM_MEMORY)
def slip_modulus(D: Length) -> LineLoadInch:
    """Load/slip modulus of one dowel-type fastener, wood to wood.

    Parameters: D diameter (in). Returns: gamma (lb/in). Source: NDS 2018, 11.3.6.1, from memory; given there for the
    sharing of load in a row, used here for nails as well.

    >>> round(slip_modulus(0.148))
    10249
    """
    gamma: LineLoadInch = 180_000 * D**1.5
    return gamma


@formula("Springs side by side (fasteners of one joint)")
def joint_stiffness(n: Ratio, gamma: LineLoadInch) -> LineLoadInch:
    """Stiffness of a joint against slip.

    Parameters: n fasteners; gamma load/slip modulus of one (lb/in). Returns: k_j (lb/in). Source: springs side by side.
    """
    k_j: LineLoadInch = n * gamma
    return k_j
