"""Slip of fastenings between joists and beams, under lateral force."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.units import LineLoadInch, Ratio

NAIL = 0.148  # in: 10d common


@formula("Springs side by side (fasteners of one joint)")
def joint_stiffness(n: Ratio, gamma: LineLoadInch) -> LineLoadInch:
    """Stiffness of a joint against slip.

    Parameters: n fasteners; gamma load/slip modulus of one (lb/in). Returns: k_j (lb/in). Source: springs side by side.

    >>> joint_stiffness(8.0, 10_000.0)
    80000.0
    """
    k_j: LineLoadInch = n * gamma
    return k_j
