"""Group action factor C_g of a row of fasteners (NDS 2018, 11.3.6)."""

from __future__ import annotations

from typing import Any

from numpy import minimum, sqrt

from bolewright.formulas import Limit, formula
from bolewright.units import Area, Force, Length, LineLoadInch, Ratio, Stress


@formula("NDS 2018, 11.3.6.1")
def axial_stiffness(E: Stress, A: Area) -> Force:
    """Axial stiffness E A of a member of the connection.

    Parameters: E modulus (psi); A gross area (in²), of side members summed. Returns: EA (lb).
    Source: NDS 2018, 11.3.6.1.
    """
    EA: Force = E * A
    return EA


@formula("NDS 2018, 11.3.6.1", homogeneous=False)
def slip_modulus_wood(D: Length) -> LineLoadInch:
    """Load/slip modulus of a dowel-type fastener between wood members.

    Parameters: D nominal diameter (in). Returns: gamma (lb/in). Source: NDS 2018, 11.3.6.1.
    """
    gamma: LineLoadInch = 180000 * D**1.5
    return gamma


@formula("NDS 2018, 11.3.6.1", homogeneous=False)
def slip_modulus_metal(D: Length) -> LineLoadInch:
    """Load/slip modulus of a dowel-type fastener between wood and metal.

    Parameters: D nominal diameter (in). Returns: gamma (lb/in). Source: NDS 2018, 11.3.6.1.
    """
    gamma: LineLoadInch = 270000 * D**1.5
    return gamma


@formula(
    "NDS 2018, equation 11.3-1",
    limits={"n": Limit(1, 1000, "n is less than one fastener.")},
)
def group_action_factor(n: Ratio, gamma: LineLoadInch, s: Length, EA_m: Force, EA_s: Force) -> Ratio:
    """Group action factor C_g of a row of n fasteners.

    When it applies: D of 1/4 in. or more, two or more in the row; else C_g = 1.
    Parameters: n fasteners in the row; gamma load/slip modulus (lb/in); s spacing in the row, center to center
    (in); EA_m, EA_s axial stiffness of main member and of the side members together (lb).
    Returns: C_g. Source: NDS 2018, 11.3.6.1, equation 11.3-1.

    >>> EA_m, EA_s = 1.6e6 * 3.5 * 9.25, 1.6e6 * 2 * 1.5 * 9.25
    >>> float(round(group_action_factor(4, 180000 * 0.75**1.5, 4.0, EA_m, EA_s), 3))
    0.986
    """
    R_EA: Ratio = minimum(EA_s / EA_m, EA_m / EA_s)
    u: Ratio = 1 + gamma * s / 2 * (1 / EA_m + 1 / EA_s)
    m: Ratio = u - sqrt(u**2 - 1)
    numerator: Ratio = m * (1 - m ** (2 * n))
    denominator: Ratio = n * ((1 + R_EA * m**n) * (1 + m) - 1 + m ** (2 * n))
    C_g: Ratio = numerator / denominator * (1 + R_EA) / (1 - m)
    return C_g


def slip_modulus_for(*, metal: bool) -> Any:
    """The formula of the load/slip modulus: wood to metal or wood to wood."""
    return slip_modulus_metal if metal else slip_modulus_wood
