"""Withdrawal of the tree bolt: thread in green side grain, and what the NDS's wet factor would do to the hinge."""

from __future__ import annotations

from numpy import sqrt

from bolewright.formulas import Limit, formula
from bolewright.units import Force, Length, LineLoadInch, Moment, Ratio

LARGEST_LAG = Limit(0.25, 1.25, "NDS Table 12.2A ends at 1-1/4 in.: extrapolated above, engineer to confirm.")


@formula(
    "NDS 2018, 12.2-1 and Table 11.3.3",
    limits={"D": LARGEST_LAG},
    confidence="judgement, engineer to confirm",
    homogeneous=False,
)
def tree_bolt_withdrawal(G_b: Ratio, D: Length, p_t: Length, C_D: Ratio) -> Force:
    """Allowable withdrawal load of a bolt with lag thread in green side grain.

    Parameters: G_b specific gravity, oven-dry weight and green volume; D nominal thread diameter (in); p_t thread in
    sound wood, tip excluded (in); C_D load duration factor. Returns: W_p adjusted withdrawal value (lb). Source: NDS
    2018 12.2-1 (1800 G^1.5 D^0.75 per inch), Table 11.3.3 (0.7). A machine thread is outside it.

    >>> round(float(tree_bolt_withdrawal(0.58, 1.0, 1.0, 1.0)))
    557

    0.36 to the power 1.5 is 0.216, 1/16 to the power 0.75 is 1/8: 1.6 x 0.7 x 1800 x 0.216/8 x 2.

    >>> round(tree_bolt_withdrawal(0.36, 0.0625, 2.0, 1.6), 3)
    108.864
    """
    W: LineLoadInch = 1800 * G_b**1.5 * D**0.75  # 12.2-1
    C_M: Ratio = 0.7  # Table 11.3.3
    W_p: Force = C_D * C_M * W * p_t
    return W_p


@formula("NDS 2018, 11.3.3 on the hinge mode (sensitivity only)", confidence="judgement, engineer to confirm")
def hinge_load_wet_sensitivity(q_dry: LineLoadInch, e: Length, M_y: Moment, K_theta: Ratio) -> Force:
    """Hinge value were the wet factor put on the whole yield value, as the NDS does for its own fasteners.

    The workbook puts the wet factor (or the lower green crushing strength) on the wood's bearing strength,
    since the steel of the hinge does not get weaker by water. This shows the difference; it is not applied.

    Parameters: q_dry 11200 G D, without the wet factor (lb/in); e sound wood face to centre of bearing (in); M_y dowel
    yield moment (lb·in); K_theta angle factor. Returns: Z_IV reference value with C_M on it (lb). Source: NDS 2018
    Table 11.3.1 and 11.3.3 (C_M on Z), Table 12.3.1B (3.2 K_theta).

    1000 (sqrt(9 + 16) - 3) = 2000, times 0.7, over 4:

    >>> round(float(hinge_load_wet_sensitivity(1000.0, 3.0, 8000.0, 1.25)), 3)
    350.0
    """
    R_d: Ratio = 3.2 * K_theta
    C_M: Ratio = 0.7  # Table 11.3.3
    P_IV: Force = q_dry * (sqrt(e**2 + 2 * M_y / q_dry) - e)
    Z_IV: Force = C_M * P_IV / R_d
    return Z_IV
