"""Bearing lengths of a dowel in the members of a connection, in single and double shear and as a toe-nail."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from bolewright.calculation import Calculation
from bolewright.fasteners.connectors import Connector, Kind
from bolewright.fasteners.errors import FastenerError, PenetrationError
from bolewright.fasteners.members import Member
from bolewright.fasteners.penetration import FULL_DIAMETERS, penetration, penetration_factor
from bolewright.fasteners.withdrawal import toe_nail_main_length, toe_nail_side_length


class Shear(StrEnum):
    """Shear planes of the connection."""

    SINGLE = "single shear"
    DOUBLE = "double shear"


@dataclass(frozen=True)
class BearingLengths:
    """Bearing lengths of main, first and second side member, and the penetration factor of a tabulated value."""

    main: float
    side: float
    second: float
    factor: float = 1.0


def bearing_lengths(
    connector: Connector,
    side: Member,
    main: Member,
    second_side: Member | None,
    shear: Shear,
    calc: Calculation,
    toe_nailed: bool,
    clinched: bool,
    tabulated: bool,
) -> BearingLengths:
    """Bearing lengths of a connection; errors of penetration, toe-nailing and clinching (NDS 2018, 12.1, 12.3.5)."""
    if toe_nailed:
        if shear is Shear.DOUBLE:
            raise FastenerError("a toe-nail has one shear plane: double shear is not possible")
        l_s = float(calc.run(toe_nail_side_length, L=connector.length))
        l_m = min(float(calc.run(toe_nail_main_length, L=connector.length)), main.thickness)
        if l_m < 6 * connector.D - 1e-9:
            raise PenetrationError(
                f"{connector.name} as a toe-nail reaches {l_m:.3g} in. into the main member: "
                f"6 D = {6 * connector.D:.3g} in. is the least (NDS 2018, 12.1.6.5)"
            )
        return BearingLengths(l_m, l_s, l_s)
    if shear is Shear.SINGLE:
        reach = penetration(connector, side.thickness, main.thickness, calc)
        if tabulated and connector.kind is not Kind.BOLT:
            factor = float(calc.run(penetration_factor, p=reach.p, p_full=reach.full))
            return BearingLengths(FULL_DIAMETERS[connector.kind] * connector.D, side.thickness, 0.0, factor)
        return BearingLengths(reach.bearing, side.thickness, 0.0)
    last = second_side or side
    before = side.thickness + main.thickness
    if clinched:
        _check_clinched(connector, before, side, last)
    reach = penetration(connector, before, last.thickness, calc, enforce=not clinched)
    if tabulated and connector.kind is not Kind.BOLT:
        raise FastenerError("NDS has no tables of screws or nails in double shear: leave tabulated off")
    second = last.thickness if clinched else reach.bearing
    return BearingLengths(main.thickness, side.thickness, second)


def _check_clinched(connector: Connector, before: float, side: Member, last: Member) -> None:
    through = connector.length - before - last.thickness
    if connector.kind is not Kind.NAIL or connector.D > 0.148 + 1e-9:
        raise FastenerError(
            f"{connector.name}: only nails of 12d or smaller are clinched (NDS 2018, 12.1.6.5)"
        )
    if through < 3 * connector.D - 1e-9:
        raise PenetrationError(
            f"{connector.name} comes {through:.3g} in. out of the last member: "
            f"3 D = {3 * connector.D:.3g} in. is the least to clinch (NDS 2018, 12.1.6.5)"
        )
    if min(side.thickness, last.thickness) < 0.375:
        raise FastenerError("side members of a clinched double shear connection must be 3/8 in. or thicker")
