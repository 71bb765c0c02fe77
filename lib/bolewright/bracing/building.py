"""Lateral loads while a platform is being built."""

from __future__ import annotations

from numpy import maximum

from bolewright.formulas import formula
from bolewright.units import Force, Length, Ratio


@formula(
    "ASCE 37-14, 4.4.1", homogeneous=False, confidence="from memory, confirm against the printed document"
)
def construction_push(n: Ratio, W: Force) -> Force:
    """Lateral load of construction: 50 lb for each person on the part, or 2 % of the weight on it, the larger.

    Parameters: n persons; W weight on the part with them (lb). Returns: H_c (lb). Source: ASCE 37-14, 4.4.1, from
    memory.

    >>> float(construction_push(1, 1000.0)), float(construction_push(1, 4000.0))
    (50.0, 80.0)
    """
    H_c: Force = maximum(50 * n, 0.02 * W)
    return H_c


@formula("Statics (weight on one arm as a lateral force at the post's top)")
def push_with_arm(P: Force, W: Force, a: Length, h: Length) -> Force:
    """Lateral force at a post's top with the moment at grade of a push there and of weight on one arm of its beam.

    Parameters: P push at the top, W weight at the end of the arm (lb); a length of the arm, h height of the post's top
    above grade (in). Returns: P_t (lb). Source: statics: P h + W a about grade.

    >>> push_with_arm(50.0, 300.0, 40.0, 60.0)
    250.0
    """
    P_t: Force = P + W * a / h
    return P_t
