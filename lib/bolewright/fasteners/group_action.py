"""Group action factor C_g of a row of fasteners (NDS 2018, 11.3.6)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy import minimum, sqrt

from bolewright.calculation import Calculation
from bolewright.fasteners.connectors import Connector
from bolewright.fasteners.errors import FastenerError
from bolewright.fasteners.geometry import Pattern
from bolewright.fasteners.members import Member, Wood
from bolewright.formulas import Limit, formula
from bolewright.units import Area, Force, Length, LineLoadInch, Ratio, Stress


@formula("NDS 2018, 11.3.6.1")
def axial_stiffness(E: Stress, A: Area) -> Force:
    """Axial stiffness E A of a member of the connection.

    Parameters: E modulus (psi); A gross area (in²), of side members summed. Returns: EA (lb).
    Source: NDS 2018, 11.3.6.1.

    >>> round(axial_stiffness(1_600_000.0, 10.0), 1)
    16000000.0
    """
    EA: Force = E * A
    return EA


@formula("NDS 2018, 11.3.6.1", homogeneous=False)
def slip_modulus_wood(D: Length) -> LineLoadInch:
    """Load/slip modulus of a dowel-type fastener between wood members.

    Parameters: D nominal diameter (in). Returns: gamma (lb/in). Source: NDS 2018, 11.3.6.1.

    A quarter to the power 1.5 is an eighth:

    >>> round(slip_modulus_wood(0.25), 3)
    22500.0
    """
    gamma: LineLoadInch = 180000 * D**1.5
    return gamma


@formula("NDS 2018, 11.3.6.1", homogeneous=False)
def slip_modulus_metal(D: Length) -> LineLoadInch:
    """Load/slip modulus of a dowel-type fastener between wood and metal.

    Parameters: D nominal diameter (in). Returns: gamma (lb/in). Source: NDS 2018, 11.3.6.1.

    A quarter to the power 1.5 is an eighth:

    >>> round(slip_modulus_metal(0.25), 3)
    33750.0
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


def group_action_of(
    connector: Connector,
    main: Member,
    sides: Sequence[Member],
    pattern: Pattern,
    calculation: Calculation,
) -> Any:
    """C_g of a connection: 1 for D under 1/4 in. or one fastener in the row, else by the stiffness of its members.

    Raises :class:`FastenerError` where E or the width of a member is not given. Source: NDS 2018, 11.3.6.
    """
    if connector.D < 0.25 or pattern.in_row < 2 or pattern.spacing is None:
        return 1.0
    EA_m = _stiffness(main, pattern, connector.D, calculation)
    EA_s: Any = 0.0
    for member in sides:
        EA_s = EA_s + _stiffness(member, pattern, connector.D, calculation)
    metal = any(not isinstance(member, Wood) for member in (main, *sides))
    gamma = calculation.run(slip_modulus_metal if metal else slip_modulus_wood, D=connector.D)
    return calculation.run(
        group_action_factor, n=float(pattern.in_row), gamma=gamma, s=pattern.spacing, EA_m=EA_m, EA_s=EA_s
    )


def _stiffness(member: Member, pattern: Pattern, D: float, calculation: Calculation) -> Any:
    """E A; nearer across than along the grain the width of the fastener group counts (NDS 2018, 11.3.6.3)."""
    if member.E is None:
        raise FastenerError(
            f"E of {member.name} is not given: a row of {pattern.in_row} fasteners needs it for C_g"
        )
    across = np.asarray(member.load_angle, dtype=float) > 45
    group = (pattern.rows - 1) * (pattern.row_spacing or 0.0) if pattern.rows > 1 else 3 * D
    if not across.all() and member.width is None:
        raise FastenerError(
            f"width of {member.name} is not given: a row of {pattern.in_row} fasteners needs it for C_g"
        )
    width = np.where(across, group, member.width if member.width is not None else group)
    area = width * member.thickness
    return calculation.run(axial_stiffness, E=member.E, A=float(area) if area.ndim == 0 else area)
