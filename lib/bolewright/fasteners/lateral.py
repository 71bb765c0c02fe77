"""Lateral design value of a connection: reference value, adjustment factors, value of the group (NDS 2018, 11.3).

The one door for checks: a connector, a side and a main member, service, pattern and distances in; the
adjusted value, the governing mode, every factor and the printable steps out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from bolewright.calculation import Calculation, Step
from bolewright.fasteners.adjusted import adjusted_lateral_value, connection_value
from bolewright.fasteners.bearing_lengths import BearingLengths, Shear, bearing_lengths
from bolewright.fasteners.connectors import Connector, Kind
from bolewright.fasteners.geometry import (
    Distances,
    Geometry,
    Pattern,
    member_geometry_factor,
    small_dowel_advice,
)
from bolewright.fasteners.group_action import group_action_of
from bolewright.fasteners.members import Concrete, Member, Steel, Wood
from bolewright.fasteners.penetration import reduced_tabulated_value
from bolewright.fasteners.rounding import (
    tabulated_bearing_strength,
    tabulated_bolt_value,
    tabulated_nail_value,
)
from bolewright.fasteners.service import (
    OUTDOORS,
    Arrangement,
    Loading,
    Service,
    check_load_duration,
    diaphragm_factor,
    end_grain_factor,
    service_notes,
    special_factor_notes,
    temperature_factor,
    toe_nail_factor,
    wet_service_factor,
)
from bolewright.fasteners.yield_limit import YieldResult, double_shear, single_shear
from bolewright.fasteners.yield_modes_double import lesser_symmetric_value
from bolewright.reference import memory_notes


@dataclass(frozen=True)
class LateralResult:
    """Reference value Z and adjusted value Z_adj of one fastener, Z_total of the group (lb).

    ``modes`` every yield mode, ``mode`` the governing one, ``factors`` by symbol; numbers or arrays.
    """

    Z_ref: Any
    mode: Any
    modes: dict[str, Any]
    factors: dict[str, Any]
    Z_adj: Any
    count: int
    Z_total: Any
    calculation: Calculation
    notes: tuple[str, ...]

    def steps(self, index: tuple[int, ...] = ()) -> tuple[Step, ...]:
        """The formulas that ran, with the scalar arguments of one element."""
        return self.calculation.at(index)


def lateral_design_value(
    connector: Connector,
    side: Member,
    main: Member,
    *,
    shear: Shear = Shear.SINGLE,
    second_side: Member | None = None,
    service: Service = OUTDOORS,
    C_D: Any = 1.0,
    geometry: Geometry | None = None,
    arrangement: Arrangement | None = None,
    toe_nailed: bool = False,
    diaphragm: bool = False,
    clinched: bool = False,
    prebored: bool = False,
    tabulated: bool = False,
    calculation: Calculation | None = None,
) -> LateralResult:
    """Lateral design value of a connection of like dowels, by the yield limit equations.

    Parameters: ``connector`` the dowel; ``side``, ``main`` members; the angle of load to grain is theta of each
    :class:`Wood` (arrays allowed); ``shear`` single or double; double shear has a second side member, like ``side``
    unless ``second_side`` is given; ``service`` moisture and temperature; out of doors (wet) unless said otherwise;
    ``C_D`` load duration factor, 0.9 to 1.6, number or array; ``geometry`` pattern and distances; one fastener far from
    edges and ends unless given; ``arrangement`` for C_M of wood that dries after fabrication; told from the pattern
    unless given; ``toe_nailed`` nail driven at 30 degrees, a third of its length from the end of the side member;
    ``diaphragm`` nails of a diaphragm's sheathing (C_di); ``clinched`` 12d or smaller nail in double shear, 3 D through
    and clinched: no least penetration (12.1.6.5); ``prebored`` holes bored for nails, only for the advice on their
    spacing; ``tabulated`` the value as the printed NDS tables give it, F_e and Z rounded, penetration by factor;
    ``calculation`` the calculation that the steps go on in; one of their own unless given. Returns: LateralResult.
    Source: NDS 2018, chapters 11 and 12. Raises FastenerError: PenetrationError or GeometryError, one sentence with the
    value and what is allowed.

    >>> from bolewright.fasteners.connectors import bolt
    >>> dfl = Wood(1.5, 0.50)
    >>> lateral_design_value(bolt(0.5, 4.5), dfl, dfl, tabulated=True).Z_ref   # NDS 2018 Table 12A
    480.0
    """
    durations = np.asarray(C_D, dtype=float)
    for value in dict.fromkeys(durations.ravel().tolist()):  # a few, in very many cases
        check_load_duration(value)
    where = geometry or Geometry()
    members = (side, main) if second_side is None else (side, main, second_side)
    shape = np.broadcast_shapes(durations.shape, *(np.shape(member.load_angle) for member in members))
    calc = calculation if calculation is not None else Calculation(shape)
    C_tn = toe_nail_factor(connector, Loading.LATERAL, toe_nailed=toe_nailed)
    lengths = bearing_lengths(
        connector, side, main, second_side, shear, calc, toe_nailed, clinched, tabulated
    )
    result = _reference(connector, side, main, second_side, shear, lengths, calc, tabulated)
    Z = _tabulated(connector, result.Z) if tabulated else result.Z
    if tabulated and lengths.factor != 1.0:
        Z = calc.run(reduced_tabulated_value, Z=Z, factor=lengths.factor)

    sides = [side] if shear is Shear.SINGLE else [side, second_side or side]
    in_end_grain = any(isinstance(member, Wood) and member.end_grain for member in members)
    C_g = group_action_of(connector, main, sides, where.pattern, calc)
    C_Delta, advice = _geometry(connector, side, main, second_side, shear, where, lengths, calc, prebored)
    factors = {
        "C_D": _load_duration(durations, result.mode, side, main),
        "C_M": wet_service_factor(
            connector, service, Loading.LATERAL, arrangement or _arrangement(where.pattern, members)
        ),
        "C_t": temperature_factor(service),
        "C_g": C_g,
        "C_Delta": C_Delta,
        "C_eg": end_grain_factor(connector, Loading.LATERAL, in_end_grain=in_end_grain),
        "C_di": diaphragm_factor(connector, diaphragm=diaphragm),
        "C_tn": C_tn,
    }
    Z_adj = calc.run(adjusted_lateral_value, Z=Z, **factors)
    count = where.pattern.count
    Z_total = calc.run(connection_value, n=float(count), Z_p=Z_adj) if count > 1 else Z_adj
    special = special_factor_notes(factors["C_eg"], factors["C_di"], factors["C_tn"])
    notes = [*connector.notes, *result.notes, *advice, *service_notes(service), *special]
    if geometry is not None and connector.D >= 0.25:
        notes += memory_notes("connection_geometry", "End distance and spacing")
    if np.any(factors["C_D"] != durations):
        notes.append("Bearing in steel or concrete governs: the load duration factor is held to 1.0 there.")
    if tabulated:
        notes.append("Rounded as the printed NDS tables: F_e to 50 psi, Z to 10 lb (nails and screws 1 lb).")
    return LateralResult(
        Z_ref=_plain(Z),
        mode=result.mode,
        modes=result.modes,
        factors={name: _plain(value) for name, value in factors.items()},
        Z_adj=_plain(Z_adj),
        count=count,
        Z_total=_plain(Z_total),
        calculation=calc,
        notes=tuple(dict.fromkeys(notes)),
    )


def _reference(
    connector: Connector,
    side: Member,
    main: Member,
    second_side: Member | None,
    shear: Shear,
    lengths: BearingLengths,
    calc: Calculation,
    tabulated: bool,
) -> YieldResult:
    theta = side.load_angle
    for member in (main, *([second_side] if second_side else [])):
        theta = np.maximum(theta, member.load_angle)

    def strength(member: Member) -> Any:
        F_e = member.bearing_strength(connector.D, calc)
        return tabulated_bearing_strength(F_e) if tabulated and isinstance(member, Wood) else F_e

    common: dict[str, Any] = {
        "D": connector.D_yield,
        "l_m": lengths.main,
        "F_em": strength(main),
        "F_yb": connector.F_yb,
        "theta": theta,
        "D_nominal": connector.D,
        "calculation": calc,
    }
    F_es = strength(side)
    if shear is Shear.SINGLE:
        return single_shear(l_s=lengths.side, F_es=F_es, **common)
    if second_side is None or second_side == side:
        return double_shear(l_s=min(lengths.side, lengths.second), F_es=F_es, **common)
    # Unlike side members: the lesser of the two symmetric connections (NDS 2018, 12.3.8).
    first = double_shear(l_s=lengths.side, F_es=F_es, **common)
    other = double_shear(l_s=lengths.second, F_es=strength(second_side), **common)
    lesser = np.asarray(first.Z) <= np.asarray(other.Z)
    mode = np.where(lesser, first.mode, other.mode)
    modes = {name: np.minimum(first.modes[name], other.modes[name]) for name in first.modes}
    return replace(
        first,
        modes=modes,
        Z=calc.run(lesser_symmetric_value, Z_1=first.Z, Z_2=other.Z),
        mode=str(mode) if mode.ndim == 0 else mode,
        notes=(
            *first.notes,
            "Unlike side members: the lesser of the two symmetric connections (NDS 2018, 12.3.8).",
        ),
    )


def _tabulated(connector: Connector, Z: Any) -> Any:
    rounded_to_ten = connector.kind in (Kind.BOLT, Kind.LAG_SCREW)
    return tabulated_bolt_value(Z) if rounded_to_ten else tabulated_nail_value(Z)


def _geometry(
    connector: Connector,
    side: Member,
    main: Member,
    second_side: Member | None,
    shear: Shear,
    geometry: Geometry,
    lengths: BearingLengths,
    calc: Calculation,
    prebored: bool,
) -> tuple[Any, list[str]]:
    pairs: list[tuple[Wood, Distances | None]] = []
    for member, distances in ((main, geometry.main), (side, geometry.side), (second_side, geometry.side)):
        if isinstance(member, Wood) and not (member is second_side and second_side == side):
            pairs.append((member, distances))
    if connector.D < 0.25:
        steel = isinstance(side, Steel)
        advice = [
            sentence
            for member, distances in pairs
            for sentence in small_dowel_advice(
                connector.D, member, distances, geometry.pattern, steel_side=steel, prebored=prebored
            )
        ]
        return 1.0, advice
    # l of 12.5.1: length in wood main member or total length in wood side members, whichever is less.
    total_side = lengths.side if shear is Shear.SINGLE else lengths.side + lengths.second
    candidates = [lengths.main] if isinstance(main, Wood) else []
    candidates += [total_side] if isinstance(side, Wood) else []
    l = min(candidates, default=lengths.main)
    factor: Any = 1.0
    for member, distances in pairs:
        part = member_geometry_factor(connector.D, member, distances, geometry.pattern, l, calc)
        factor = np.minimum(factor, part)
    return factor, []


def _load_duration(C_D: Any, mode: Any, side: Member, main: Member) -> Any:
    """C_D, held to 1.0 where crushing of steel or concrete governs (NDS 2018, 11.2.3 and 11.3.2)."""
    metal = [name for name, member in (("Im", main), ("Is", side)) if isinstance(member, Steel | Concrete)]
    return np.where(np.isin(mode, metal), np.minimum(C_D, 1.0), C_D)


def _arrangement(pattern: Pattern, members: tuple[Member, ...]) -> Arrangement:
    if pattern.count == 1:
        return Arrangement.SINGLE
    angles = [np.max(np.asarray(member.load_angle)) for member in members if isinstance(member, Wood)]
    if pattern.rows == 1 and max(angles, default=0.0) == 0:
        return Arrangement.ROW_PARALLEL
    return Arrangement.OTHER


def _plain(value: Any) -> Any:
    return float(value) if np.ndim(value) == 0 else value
