"""Adjusted connection values: reference value times the factors of NDS 2018, Table 11.3.1 (ASD)."""

from __future__ import annotations

from bolewright.formulas import Limit, formula
from bolewright.units import Force, Length, LineLoadInch, Ratio

_C_D = {"C_D": Limit(0.9, 1.6, "C_D is outside 0.9 to 1.6: the impact factor is not for connections.")}


@formula("NDS 2018, Table 11.3.1", limits=_C_D)
def adjusted_lateral_value(
    Z: Force,
    C_D: Ratio,
    C_M: Ratio,
    C_t: Ratio,
    C_g: Ratio,
    C_Delta: Ratio,
    C_eg: Ratio,
    C_di: Ratio,
    C_tn: Ratio,
) -> Force:
    """Adjusted lateral design value Z' of one fastener.

    Parameters: Z reference value (lb); C_D load duration; C_M wet service; C_t temperature; C_g group action;
    C_Delta geometry; C_eg end grain; C_di diaphragm; C_tn toe-nail. Returns: Z' (lb).
    Source: NDS 2018, Table 11.3.1, dowel-type fasteners.

    >>> round(adjusted_lateral_value(1000.0, 1.6, 0.7, 0.8, 0.9, 0.8, 1.0, 1.0, 1.0), 3)
    645.12
    """
    Z_p: Force = Z * C_D * C_M * C_t * C_g * C_Delta * C_eg * C_di * C_tn
    return Z_p


@formula("NDS 2018, Table 11.3.1", limits=_C_D)
def adjusted_withdrawal_value(
    W: LineLoadInch, C_D: Ratio, C_M: Ratio, C_t: Ratio, C_eg: Ratio, C_tn: Ratio
) -> LineLoadInch:
    """Adjusted withdrawal design value W' per inch of penetration.

    Parameters: W reference value (lb/in); C_D load duration; C_M wet service; C_t temperature; C_eg end grain;
    C_tn toe-nail. Returns: W' (lb/in). Source: NDS 2018, Table 11.3.1.

    >>> round(adjusted_withdrawal_value(100.0, 1.6, 0.7, 0.8, 0.75, 1.0), 3)
    67.2
    """
    W_p: LineLoadInch = W * C_D * C_M * C_t * C_eg * C_tn
    return W_p


@formula("NDS 2018, Table 11.3.1", limits=_C_D)
def adjusted_pull_through_value(W_H: Force, C_D: Ratio, C_M: Ratio, C_t: Ratio) -> Force:
    """Adjusted head pull-through design value W'_H.

    Parameters: W_H reference value (lb); C_D load duration; C_M wet service; C_t temperature.
    Returns: W'_H (lb). Source: NDS 2018, Table 11.3.1.

    >>> round(adjusted_pull_through_value(200.0, 1.6, 0.7, 0.8), 3)
    179.2
    """
    W_H_p: Force = W_H * C_D * C_M * C_t
    return W_H_p


@formula("NDS 2018, 12.2.1 to 12.2.4")
def withdrawal_capacity(W_p: LineLoadInch, p_t: Length) -> Force:
    """Withdrawal capacity of one fastener: value per inch times the inches that hold.

    Parameters: W_p adjusted value (lb/in); p_t penetration that counts (in). Returns: W' p (lb).
    Source: NDS 2018, 12.2.1 to 12.2.4.

    >>> round(withdrawal_capacity(100.0, 2.5), 3)
    250.0
    """
    W_p_p: Force = W_p * p_t
    return W_p_p


@formula("NDS 2018, 11.2.1")
def connection_value(n: Ratio, Z_p: Force) -> Force:
    """Value of a connection of n like fasteners.

    Parameters: n number of fasteners; Z_p adjusted value of one (lb). Returns: total (lb).
    Source: NDS 2018, 11.2.1, the sum of fasteners of the same type and size.

    >>> round(connection_value(4.0, 250.0), 3)
    1000.0
    """
    Z_total: Force = n * Z_p
    return Z_total
