"""Factored loads for plain concrete: the basis is strength design, unlike the rest of the workbook."""

from __future__ import annotations

from numpy import maximum

from bolewright.formulas import formula
from bolewright.units import Force, Ratio


@formula("ASCE 7-16, 2.4.1 (all of dead, live and snow load, on the safe side)")
def service_load(D: Force, L: Force, S: Force) -> Force:
    """Service load on a footing, all loads at once.

    Parameters: D, L, S dead, live and snow load (lb). Returns: P (lb). Source: ASCE 7-16, 2.4.1, which takes 0.75 of
    live and snow load together: on the safe side.

    >>> service_load(1000.0, 2000.0, 500.0)
    3500.0
    """
    P: Force = D + L + S
    return P


@formula("ACI 318-19, 5.3.1a")
def factored_load_dead(D: Force) -> Force:
    """Factored load, dead load alone.

    Parameters: D dead load (lb). Returns: U factored load (lb). Source: ACI 318-19 Table 5.3.1, equation (5.3.1a).

    >>> round(factored_load_dead(1000.0), 3)
    1400.0
    """
    U: Force = 1.4 * D
    return U


@formula("ACI 318-19, 5.3.1b")
def factored_load_live(D: Force, L: Force, S: Force) -> Force:
    """Factored load, live load leading.

    Parameters: D, L, S dead, live and snow load (lb). Returns: U factored load (lb). Source: ACI 318-19 Table 5.3.1,
    equation (5.3.1b).

    >>> round(factored_load_live(1000.0, 2000.0, 1000.0), 3)
    4900.0
    """
    U: Force = 1.2 * D + 1.6 * L + 0.5 * S
    return U


@formula("ACI 318-19, 5.3.1c")
def factored_load_snow(D: Force, L: Force, S: Force) -> Force:
    """Factored load, snow leading.

    Parameters: D, L, S dead, live and snow load (lb). Returns: U factored load (lb). Source: ACI 318-19 Table 5.3.1,
    equation (5.3.1c).

    >>> round(factored_load_snow(1000.0, 2000.0, 1000.0), 3)
    4800.0
    """
    U: Force = 1.2 * D + 1.6 * S + 1.0 * L
    return U


@formula("Largest of the factored combinations")
def factored_load(D: Force, L: Force, S: Force) -> Force:
    """Largest factored gravity load on a footing, in one line.

    Parameters: D, L, S dead, live and snow load (lb). Returns: P_u factored load (lb). Source: ACI 318-19 Table 5.3.1,
    (5.3.1a), (5.3.1b), (5.3.1c).

    >>> round(float(factored_load(1000.0, 2000.0, 1000.0)), 3)
    4900.0
    >>> round(float(factored_load(1000.0, 500.0, 3000.0)), 3)
    6500.0
    >>> round(float(factored_load(1000.0, 0.0, 0.0)), 3)
    1400.0
    """
    U_a: Force = 1.4 * D  # 5.3.1a
    U_b: Force = 1.2 * D + 1.6 * L + 0.5 * S  # 5.3.1b
    U_c: Force = 1.2 * D + 1.6 * S + 1.0 * L  # 5.3.1c
    P_u: Force = maximum(maximum(U_a, U_b), U_c)
    return P_u


@formula("ACI 318-19, 5.3.1")
def factored_load_lateral(
    D: Force, L: Force, S: Force, R_h: Force, gamma_L: Ratio, gamma_S: Ratio, gamma_h: Ratio
) -> Force:
    """Factored load on a footing with what wind and sway of people add to it by overturning.

    When it applies: R_h is of an allowable-stress case; gamma_h brings it to strength, 1/0.6 or 1/0.45 where the
    case holds 0.6 or 0.45 of the wind, whose factor is 1.0 (5.3.1d), 1.6 where it holds sway alone (5.3.1b).

    Parameters: D, L, S dead, live and snow load (lb); R_h load of wind and sway in the case, down positive (lb);
    gamma_L, gamma_S, gamma_h factors of L, S and R_h. Returns: P_u factored load (lb). Source: ACI 318-19 Table 5.3.1,
    (5.3.1b), (5.3.1c), (5.3.1d).

    >>> factored_load_lateral(1000.0, 2000.0, 500.0, 450.0, 1.0, 0.5, 1 / 0.45)
    4450.0
    """
    P_u: Force = 1.2 * D + gamma_L * L + gamma_S * S + gamma_h * R_h
    return P_u
