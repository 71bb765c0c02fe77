"""Factored loads for plain concrete: the basis is strength design, unlike the rest of the workbook."""

from __future__ import annotations

from numpy import maximum

from bolewright.formulas import formula
from bolewright.units import Force


@formula("ACI 318-19, 5.3.1a")
def factored_load_dead(D: Force) -> Force:
    """Factored load, dead load alone.

    Parameters
    ----------
    D : dead load [lb]

    Returns
    -------
    U : factored load [lb]

    Source
    ------
    ACI 318-19 Table 5.3.1, equation (5.3.1a).
    """
    U: Force = 1.4 * D
    return U


@formula("ACI 318-19, 5.3.1b")
def factored_load_live(D: Force, L: Force, S: Force) -> Force:
    """Factored load, live load leading.

    Parameters
    ----------
    D, L, S : dead, live and snow load [lb]

    Returns
    -------
    U : factored load [lb]

    Source
    ------
    ACI 318-19 Table 5.3.1, equation (5.3.1b).
    """
    U: Force = 1.2 * D + 1.6 * L + 0.5 * S
    return U


@formula("ACI 318-19, 5.3.1c")
def factored_load_snow(D: Force, L: Force, S: Force) -> Force:
    """Factored load, snow leading.

    Parameters
    ----------
    D, L, S : dead, live and snow load [lb]

    Returns
    -------
    U : factored load [lb]

    Source
    ------
    ACI 318-19 Table 5.3.1, equation (5.3.1c).
    """
    U: Force = 1.2 * D + 1.6 * S + 1.0 * L
    return U


@formula("Largest of the factored combinations")
def factored_load(D: Force, L: Force, S: Force) -> Force:
    """Largest factored gravity load on a footing, in one line.

    Parameters
    ----------
    D, L, S : dead, live and snow load [lb]

    Returns
    -------
    P_u : factored load [lb]

    Source
    ------
    ACI 318-19 Table 5.3.1, (5.3.1a), (5.3.1b), (5.3.1c).
    """
    U_a: Force = 1.4 * D  # 5.3.1a
    U_b: Force = 1.2 * D + 1.6 * L + 0.5 * S  # 5.3.1b
    U_c: Force = 1.2 * D + 1.6 * S + 1.0 * L  # 5.3.1c
    P_u: Force = maximum(maximum(U_a, U_b), U_c)
    return P_u
