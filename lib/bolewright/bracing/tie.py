"""What a tree bearing passes sideways: friction, the keeper, and pull on the bolt along its axis."""

from __future__ import annotations

from numpy import sqrt

from bolewright.formulas import formula
from bolewright.units import Force, Length, LineLoadInch, Moment, Ratio

LEAST_KEEPER = 200.0  # lb, least rated uplift of what keeps a bearing on its bolt; common practice
WITHDRAWAL = "judgement: lag screw equation extrapolated above 1 in. and to green wood, engineer to confirm"


@formula("Coulomb friction")
def friction_force(mu: Ratio, R: Force) -> Force:
    """Level force that a sliding bearing can pass by friction; counted as load, never as help.

    Parameters: mu coefficient of friction; R load on the bearing (lb). Returns: F_f (lb). Source: Coulomb.
    """
    F_f: Force = mu * R
    return F_f


@formula("NDS 2018, 12.2.1.1 (lag screw) and Table 11.3.3", confidence=WITHDRAWAL, homogeneous=False)
def bolt_withdrawal(G_b: Ratio, D: Length, L: Length, C_D: Ratio) -> Force:
    """Allowable pull along a threaded tree bolt in green wood.

    Parameters: G_b specific gravity on green volume; D diameter (in); L threaded length in sound wood (in);
    C_D load duration. Returns: W (lb). Source: NDS 2018, equation 12.2-1, with C_M = 0.7.
    """
    w_0: LineLoadInch = 1800 * G_b**1.5 * D**0.75  # 12.2-1
    W: Force = w_0 * 0.7 * C_D * L
    return W


@formula("Statics (moments about two axes, round bar)")
def resultant_moment(M_v: Moment, M_h: Moment) -> Moment:
    """Moment in a round bar bent in two planes.

    Parameters: M_v, M_h moments in the upright and the level plane (lb·in). Returns: M (lb·in).
    Source: statics; the largest of each, wherever they are.
    """
    M: Moment = sqrt(M_v**2 + M_h**2)
    return M
