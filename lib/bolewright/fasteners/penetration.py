"""How far a fastener reaches into the member that holds it, and what bears there (NDS 2018, 12.1, 12.3.5)."""

from __future__ import annotations

from dataclasses import dataclass

from numpy import maximum, minimum

from bolewright.calculation import Calculation
from bolewright.fasteners.connectors import Connector, Kind
from bolewright.fasteners.errors import PenetrationError
from bolewright.formulas import formula
from bolewright.units import Force, Length, Ratio

LEAST_DIAMETERS = {Kind.LAG_SCREW: 4.0, Kind.WOOD_SCREW: 6.0, Kind.NAIL: 6.0}
FULL_DIAMETERS = {Kind.LAG_SCREW: 8.0, Kind.WOOD_SCREW: 10.0, Kind.NAIL: 10.0}
_CLAUSES = {Kind.LAG_SCREW: "12.1.4.6", Kind.WOOD_SCREW: "12.1.5.6", Kind.NAIL: "12.1.6.5"}


@formula("NDS 2018, 12.1.4.6")
def lag_screw_penetration(L: Length, l_s: Length, E_tip: Length, t_m: Length) -> Length:
    """Penetration of a lag screw into the main member, without its tapered tip.

    Parameters: L length under the head or washer, l_s length in the side member, E_tip length of the tip,
    t_m thickness of the main member (in). Returns: p (in). Source: NDS 2018, 12.1.4.6.

    >>> round(float(lag_screw_penetration(6.0, 1.5, 0.5, 5.5)), 3)
    4.0
    """
    p: Length = minimum(L - l_s - E_tip, t_m)
    return p


@formula("NDS 2018, 12.1.5.6 and 12.1.6.5")
def screw_or_nail_penetration(L: Length, l_s: Length, t_m: Length) -> Length:
    """Penetration of a wood screw or nail into the member that holds its point, tip included.

    Parameters: L length, l_s length before that member, t_m thickness of that member (in). Returns: p (in).
    Source: NDS 2018, 12.1.5.6 and 12.1.6.5.

    >>> round(float(screw_or_nail_penetration(3.5, 1.5, 3.5)), 3)
    2.0
    """
    p: Length = minimum(L - l_s, t_m)
    return p


@formula("NDS 2018, 12.3.5.3", confidence="from memory")
def bearing_length_with_tip(L: Length, l_s: Length, t_m: Length, E_tip: Length) -> Length:
    """Bearing length of a wood screw or nail with less than 10 D of penetration: half the tip counts.

    Parameters: L length, l_s length before the member that holds the point, t_m thickness of that member,
    E_tip length of the tip, 2 D where unknown (in). Returns: l_m (in). Source: NDS 2018, 12.3.5.3; a tip that
    has come out at the far side takes nothing off.

    All of the tip in the member; and 0.1 in. of it out at the far side:

    >>> round(float(bearing_length_with_tip(3.5, 1.5, 3.5, 0.25)), 4)
    1.875
    >>> round(float(bearing_length_with_tip(5.1, 1.5, 3.5, 0.25)), 4)
    3.425
    """
    p: Length = minimum(L - l_s, t_m)
    through: Length = maximum(L - l_s - t_m, 0)
    E_in: Length = maximum(E_tip - through, 0)
    l_m: Length = p - E_in / 2
    return l_m


@formula("NDS 2018, Tables 12J to 12R, footnotes")
def penetration_factor(p: Length, p_full: Length) -> Ratio:
    """Share of a TABULATED lateral value for a fastener short of its full penetration; not for the equations.

    Parameters: p penetration, p_full penetration of the table, 8 D lag screws, 10 D screws and nails (in).
    Returns: factor, 1 at most. Source: NDS 2018, Tables 12J to 12R, footnotes.

    >>> round(float(penetration_factor(1.2, 1.6)), 6)
    0.75
    >>> round(float(penetration_factor(2.0, 1.6)), 6)
    1.0
    """
    factor: Ratio = minimum(p / p_full, 1)
    return factor


@formula("NDS 2018, Tables 12J to 12R, footnotes")
def reduced_tabulated_value(Z: Force, factor: Ratio) -> Force:
    """Tabulated lateral value for a fastener short of the table's penetration.

    Parameters: Z tabulated value (lb); factor penetration factor. Returns: Z (lb).
    Source: NDS 2018, Tables 12J to 12R, footnotes.

    >>> round(reduced_tabulated_value(120.0, 0.75), 3)
    90.0
    """
    Z_red: Force = Z * factor
    return Z_red


@dataclass(frozen=True)
class Penetration:
    """Penetration p, bearing length l_m, least and full (tabulated) penetration of a connector (in)."""

    p: float
    bearing: float
    least: float
    full: float


def penetration(
    connector: Connector, before: float, holding: float, calculation: Calculation, *, enforce: bool = True
) -> Penetration:
    """Penetration of a connector that passes ``before`` inches and is held in the next ``holding`` inches.

    A bolt bears through the whole member. Raises :class:`PenetrationError` below the least penetration unless
    ``enforce`` is false. Source: NDS 2018, 12.1.4.6, 12.1.5.6, 12.1.6.5, 12.3.5.
    """
    kind, D, L = connector.kind, connector.D, connector.length
    if kind is Kind.BOLT:
        if before + holding > L:
            raise PenetrationError(
                f"{connector.name} is {L:g} in. long but the members measure {before + holding:g} in.: "
                "the bolt must be longer, with room for washers and nut"
            )
        return Penetration(holding, holding, 0.0, 0.0)
    least, full = LEAST_DIAMETERS[kind] * D, FULL_DIAMETERS[kind] * D
    run = calculation.run
    if kind is Kind.LAG_SCREW:
        p = float(run(lag_screw_penetration, L=L, l_s=before, E_tip=connector.E_tip, t_m=holding))
        bearing = p
    else:
        p = float(run(screw_or_nail_penetration, L=L, l_s=before, t_m=holding))
        bearing = p
        if p < full and p > 0:
            tip = connector.E_tip
            bearing = float(run(bearing_length_with_tip, L=L, l_s=before, t_m=holding, E_tip=tip))
    if enforce and p < least - 1e-9:
        raise PenetrationError(
            f"{connector.name} reaches {max(p, 0.0):.3g} in. into the member that holds it"
            f"{' (tip left out)' if kind is Kind.LAG_SCREW else ''}: "
            f"NDS 2018, {_CLAUSES[kind]} wants {LEAST_DIAMETERS[kind]:g} D = {least:.3g} in. or more"
        )
    return Penetration(p, bearing, least, full)
