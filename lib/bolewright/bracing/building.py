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


@formula("Statics (lever rule); common practice (six tenths of the dead load)", confidence="common practice")
def uplift_by_worker(W: Force, r: Ratio, k: Ratio, R_D: Force) -> Force:
    """Uplift of a beam's seat by a worker on the other side of the next one, less what weighs on the seat.

    Parameters: W worker with tools (lb); r share of W that lifts the seat from the worst place; k share of the dead
    load that counts: 0.6 as it holds down, 1 as it may lift itself; R_D dead load on the seat (lb). Returns: U (lb).
    Source: statics; common practice.

    >>> round(float(uplift_by_worker(300.0, 0.25, 0.6, 50.0)), 3), float(uplift_by_worker(300.0, 0.25, 1.0, 90.0))
    (45.0, 0.0)
    """
    U: Force = maximum(W * r - k * R_D, 0)
    return U


@formula("Statics (lever rule)")
def weight_left_by_worker(R: Force, W: Force, r: Ratio) -> Force:
    """Weight that is left on a beam's seat while a worker on the other side of the next one lifts it.

    Parameters: R weight on the seat, W worker with tools (lb); r share of W that lifts the seat from the worst place.
    Returns: R_w (lb). Source: statics.

    >>> float(weight_left_by_worker(100.0, 300.0, 0.25)), float(weight_left_by_worker(100.0, 300.0, 0.5))
    (25.0, 0.0)
    """
    R_w: Force = maximum(R - W * r, 0)
    return R_w


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
