"""Level loads while a platform is being built."""

from __future__ import annotations

from numpy import maximum

from bolewright.formulas import formula
from bolewright.units import Force, Ratio


@formula(
    "ASCE 37-14, 4.4.1", homogeneous=False, confidence="from memory, confirm against the printed document"
)
def construction_push(n: Ratio, W: Force) -> Force:
    """Level load of construction: 50 lb for each person on the part, or 2 % of the weight on it, the larger.

    Parameters: n persons; W weight on the part with them (lb). Returns: H_c (lb). Source: ASCE 37-14, 4.4.1, from
    memory.

    >>> float(construction_push(1, 1000.0)), float(construction_push(1, 4000.0))
    (50.0, 80.0)
    """
    H_c: Force = maximum(50 * n, 0.02 * W)
    return H_c
