"""Lengths of bolts through timber."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.units import Length


@formula("Common practice (bolt through timber)")
def least_bolt_length(g: Length, D: Length) -> Length:
    """Shortest bolt that takes two washers and a nut with thread to spare.

    Parameters: g thickness of all timber that it passes (in); D diameter (in). Returns: l_b (in); take the next half
    inch. Source: common practice: nut D, two washers 1/4 D, three turns of thread 1/4 D.

    >>> least_bolt_length(8.5, 0.5)
    9.375
    """
    l_b: Length = g + D + 3 * D / 4
    return l_b
