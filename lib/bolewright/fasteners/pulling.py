"""Withdrawal capacity of a nail or screw, with head pull-through of the side member (NDS 2018, 12.2)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from bolewright.calculation import Calculation, Step
from bolewright.fasteners.adjusted import (
    adjusted_pull_through_value,
    adjusted_withdrawal_value,
    withdrawal_capacity,
)
from bolewright.fasteners.combined import combined_nail_value, combined_screw_value
from bolewright.fasteners.connectors import Connector, Kind, Shank
from bolewright.fasteners.errors import FastenerError
from bolewright.fasteners.members import Member, Wood
from bolewright.fasteners.penetration import penetration
from bolewright.fasteners.rounding import tabulated_nail_value
from bolewright.fasteners.service import (
    OUTDOORS,
    Loading,
    Service,
    check_load_duration,
    end_grain_factor,
    service_notes,
    special_factor_notes,
    temperature_factor,
    toe_nail_factor,
    wet_service_factor,
)
from bolewright.fasteners.withdrawal import (
    lag_screw_withdrawal,
    pull_through_thick_side,
    pull_through_thin_side,
    ring_nail_withdrawal,
    smooth_nail_withdrawal,
    stainless_nail_withdrawal,
    thread_penetration,
    toe_nail_withdrawal_length,
    wood_screw_withdrawal,
)

_BY_SHANK = {
    Shank.SMOOTH: smooth_nail_withdrawal,
    Shank.SMOOTH_STAINLESS: stainless_nail_withdrawal,
    Shank.RING: ring_nail_withdrawal,
}
ROOT_TENSION = "The tensile strength of the lag screw at its root must be checked apart (NDS 2018, 12.2.1.3)."
WASHER = "Bearing of the head or washer on the side member must be checked apart (NDS 2018, 3.10)."


@dataclass(frozen=True)
class WithdrawalResult:
    """Reference W and adjusted value per inch (lb/in), inches that hold, and capacity (lb).

    ``capacity`` is the lesser of withdrawal and of head pull-through, which is None where it does not apply.
    """

    W_ref: Any
    W_adj: Any
    p_t: float
    withdrawal: Any
    pull_through: Any
    capacity: Any
    factors: dict[str, Any]
    calculation: Calculation
    notes: tuple[str, ...]

    def steps(self, index: tuple[int, ...] = ()) -> tuple[Step, ...]:
        """The formulas that ran, with the scalar arguments of one element."""
        return self.calculation.at(index)


def reference_withdrawal(
    connector: Connector, G: float, calculation: Calculation | None = None, *, tabulated: bool = False
) -> Any:
    """Reference withdrawal value W per inch (lb/in) by kind and shank; rounded to 1 lb where ``tabulated``.

    >>> from bolewright.fasteners.connectors import lag_screw
    >>> reference_withdrawal(lag_screw(0.5, 6.0), 0.50, tabulated=True)   # NDS 2018 Table 12.2A
    378.0
    """
    run = (calculation or Calculation()).run
    match connector.kind:
        case Kind.BOLT:
            raise FastenerError(f"{connector.name} is a bolt: it is not loaded in withdrawal")
        case Kind.LAG_SCREW:
            W = run(lag_screw_withdrawal, G=G, D=connector.D)
        case Kind.WOOD_SCREW:
            W = run(wood_screw_withdrawal, G=G, D=connector.D)
        case Kind.NAIL:
            W = run(_BY_SHANK[connector.shank], G=G, D=connector.D)
    return tabulated_nail_value(W) if tabulated else W


def withdrawal_design_value(
    connector: Connector,
    side: Member,
    main: Wood,
    *,
    service: Service = OUTDOORS,
    C_D: Any = 1.0,
    toe_nailed: bool = False,
) -> WithdrawalResult:
    """Withdrawal capacity of one nail or screw from the main member, with pull-through of its head.

    Parameters: connector; side member it passes, main member that holds it; service; C_D load duration
    (number or array); toe_nailed. Returns: :class:`WithdrawalResult`. Raises: FastenerError for a bolt, for
    nails and wood screws in end grain, for too little penetration. Source: NDS 2018, 12.2 and Table 11.3.1.
    Pull-through is for round heads on a wood side member, nails and wood screws (12.2.5).
    """
    durations = np.asarray(C_D, dtype=float)
    for value in durations.ravel():
        check_load_duration(float(value))
    calc = Calculation(durations.shape)
    W = reference_withdrawal(connector, main.G, calc)
    p_t = _holding_length(connector, side.thickness, main.thickness, calc, toe_nailed)
    factors = {
        "C_D": _plain(durations),
        "C_M": wet_service_factor(connector, service, Loading.WITHDRAWAL, toe_nailed=toe_nailed),
        "C_t": temperature_factor(service),
        "C_eg": end_grain_factor(connector, Loading.WITHDRAWAL, in_end_grain=main.end_grain),
        "C_tn": toe_nail_factor(connector, Loading.WITHDRAWAL, toe_nailed=toe_nailed),
    }
    W_adj = calc.run(adjusted_withdrawal_value, W=W, **factors)
    withdrawal = calc.run(withdrawal_capacity, W_p=W_adj, p_t=p_t)
    special = special_factor_notes(factors["C_eg"], 1.0, factors["C_tn"])
    notes = [*connector.notes, *service_notes(service), *special]
    pull_through = None
    if connector.kind is Kind.LAG_SCREW:
        notes += [ROOT_TENSION, WASHER]
    elif isinstance(side, Wood) and connector.D_H > 0:
        pull_through = _pull_through(connector, side, service, durations, calc)
    elif isinstance(side, Wood):
        notes.append(f"Head diameter of {connector.name} is not given: head pull-through is not checked.")
    capacity = withdrawal if pull_through is None else np.minimum(withdrawal, pull_through)
    return WithdrawalResult(
        W_ref=_plain(W),
        W_adj=_plain(W_adj),
        p_t=p_t,
        withdrawal=_plain(withdrawal),
        pull_through=None if pull_through is None else _plain(pull_through),
        capacity=_plain(capacity),
        factors=factors,
        calculation=calc,
        notes=tuple(notes),
    )


def combined_design_value(
    connector: Connector, Z_adj: Any, capacity: Any, alpha: Any, calculation: Calculation
) -> Any:
    """Value of one fastener under a load at alpha degrees to the wood surface (NDS 2018, 12.4).

    Z_adj adjusted lateral value, capacity the lesser of withdrawal and pull-through (lb). The equation is that
    of the connector's kind; a bolt has none.
    """
    if connector.kind is Kind.BOLT:
        raise FastenerError(
            f"{connector.name} is a bolt: combined lateral and withdrawal load is for screws and nails"
        )
    function = combined_nail_value if connector.kind is Kind.NAIL else combined_screw_value
    return calculation.run(function, Z_p=Z_adj, W_p_p=capacity, alpha=alpha)


def _holding_length(
    connector: Connector, before: float, holding: float, calc: Calculation, toe_nailed: bool
) -> float:
    if toe_nailed:
        return min(float(calc.run(toe_nail_withdrawal_length, L=connector.length)), holding)
    reach = penetration(connector, before, holding, calc)
    if connector.kind is Kind.NAIL and connector.shank is not Shank.RING:
        return reach.p
    tip = connector.E_tip if connector.kind is Kind.LAG_SCREW else 0.0
    return float(
        calc.run(
            thread_penetration, L=connector.length, T=connector.thread, E_tip=tip, l_s=before, t_m=holding
        )
    )


def _pull_through(connector: Connector, side: Wood, service: Service, C_D: Any, calc: Calculation) -> Any:
    if side.thickness <= 2.5 * connector.D_H:
        W_H = calc.run(pull_through_thin_side, G=side.G, D_H=connector.D_H, t_ns=side.thickness)
    else:
        W_H = calc.run(pull_through_thick_side, G=side.G, D_H=connector.D_H)
    C_M = wet_service_factor(connector, service, Loading.PULL_THROUGH)
    return calc.run(
        adjusted_pull_through_value, W_H=W_H, C_D=_plain(C_D), C_M=C_M, C_t=temperature_factor(service)
    )


def _plain(value: Any) -> Any:
    return float(value) if np.ndim(value) == 0 else value
