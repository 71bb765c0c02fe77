"""What a tree bearing passes sideways: friction, the keeper, a bolt bent in two planes."""

from __future__ import annotations

from numpy import minimum, sqrt

from bolewright.formulas import formula
from bolewright.units import Force, Moment, Ratio

LEAST_KEEPER = 200.0  # lb, least rated uplift of what keeps a bearing on its bolt; common practice


@formula("Coulomb friction, no more than a tie would bring")
def friction_force(mu: Ratio, R: Force, H_t: Force) -> Force:
    """Level force that a moving stem brings to a sliding bearing by friction; counted as load, never as help.

    Parameters: mu coefficient of friction; R load on the bearing (lb); H_t force that the same movement would
    bring to a bearing that is tied (lb). Returns: F_f (lb). Source: Coulomb.

    >>> float(friction_force(0.4, 700.0, 150.0)), float(friction_force(0.4, 300.0, 150.0))
    (150.0, 120.0)
    """
    F_f: Force = minimum(mu * R, H_t)
    return F_f


@formula("Statics (moments about two axes, round bar)")
def resultant_moment(M_v: Moment, M_h: Moment) -> Moment:
    """Moment in a round bar bent in two planes.

    Parameters: M_v, M_h moments in the upright and the level plane (lb·in). Returns: M (lb·in).
    Source: statics; the largest of each, wherever they are.
    """
    M: Moment = sqrt(M_v**2 + M_h**2)
    return M
