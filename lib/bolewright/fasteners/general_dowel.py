"""General dowel equations with a gap between the members (AWC TR12).

With no gap they equal the yield limit equations of NDS 12.3.1. A bracket that turns freely about the dowel is
a pin: M_s = 0, 1/q_s = 0 and the gap counts to the LINE of the load; with the dowel's own M_s on that side the
answer is up to 1.8 times too high.
"""

from __future__ import annotations

from typing import Annotated, Any

import numpy as np
from numpy import sqrt

from bolewright.calculation import Calculation
from bolewright.fasteners.errors import FastenerError
from bolewright.fasteners.reduction import ABOVE_ONE_INCH, reduction_terms
from bolewright.fasteners.yield_limit import YieldResult, governing, in_pounds
from bolewright.fasteners.yield_modes import least_of_six_modes
from bolewright.fasteners.yield_modes_double import least_of_four_modes
from bolewright.formulas import formula, unit_aware
from bolewright.units import Angle, Force, Length, LineLoadInch, Moment, Ratio, Stress, Unit

Compliance = Annotated[Any, Unit("inch/lbf", "in/lb", "length per force")]
_CLAUSE = "AWC TR12, Table 1-1"


@formula("AWC TR12, 1.3")
def dowel_bearing_resistance(F_e: Stress, D: Length) -> LineLoadInch:
    """Dowel bearing resistance q of a member per inch of dowel.

    Parameters: F_e bearing strength (psi); D diameter (in). Returns: q (lb/in). Source: AWC TR12, 1.3.

    >>> round(dowel_bearing_resistance(5000.0, 0.5), 3)
    2500.0
    """
    q: LineLoadInch = F_e * D
    return q


@formula("AWC TR12, 1.3")
def dowel_moment_resistance(F_yb: Stress, D: Length) -> Moment:
    """Plastic moment of a round dowel.

    Parameters: F_yb bending yield strength (psi); D diameter at the hinge (in). Returns: M (lb·in).
    Source: AWC TR12, 1.3.

    >>> round(dowel_moment_resistance(48_000.0, 0.5), 3)
    1000.0
    """
    M: Moment = F_yb * D**3 / 6
    return M


@formula(_CLAUSE)
def general_mode_Im(q_m: LineLoadInch, l_m: Length) -> Force:
    """Mode I_m: the main member crushes along the whole dowel, all shear planes.

    Parameters: q_m bearing resistance (lb/in); l_m bearing length (in). Returns: P (lb). Source: AWC TR12.

    >>> round(general_mode_Im(2500.0, 4.0), 3)
    10000.0
    """
    P_Im: Force = q_m * l_m
    return P_Im


@formula(_CLAUSE)
def general_mode_Is(q_s: LineLoadInch, l_s: Length) -> Force:
    """Mode I_s: a side member crushes along the whole dowel.

    Parameters: q_s bearing resistance (lb/in); l_s bearing length (in). Returns: P of one shear plane (lb).
    Source: AWC TR12, Table 1-1.

    >>> round(general_mode_Is(2500.0, 1.5), 3)
    3750.0
    """
    P_Is: Force = q_s * l_s
    return P_Is


@formula(_CLAUSE)
def general_mode_II(q_s: LineLoadInch, q_m: LineLoadInch, l_s: Length, l_m: Length, g: Length) -> Force:
    """Mode II: the straight dowel turns in both members.

    Parameters: q_s, q_m bearing resistances (lb/in); l_s, l_m bearing lengths, g gap (in).
    Returns: P (lb). Source: AWC TR12, Table 1-1.

    Members alike, 3 in. each and 1 in. apart: q (sqrt((l + g)² + l²) - (l + g)) = 1000 (5 - 4).

    >>> round(float(general_mode_II(1000.0, 1000.0, 3.0, 3.0, 1.0)), 3)
    1000.0
    """
    A: Compliance = 1 / (4 * q_s) + 1 / (4 * q_m)
    B: Length = l_s / 2 + g + l_m / 2
    C: Moment = -q_s * l_s**2 / 4 - q_m * l_m**2 / 4
    P_II: Force = (-B + sqrt(B**2 - 4 * A * C)) / (2 * A)
    return P_II


@formula(_CLAUSE)
def general_mode_IIIm(q_s: LineLoadInch, q_m: LineLoadInch, l_m: Length, M_s: Moment, g: Length) -> Force:
    """Mode III_m: a hinge in the side member, the dowel turns in the main member.

    Parameters: q_s, q_m bearing resistances (lb/in); l_m bearing length, g gap (in); M_s dowel moment in the
    side member (lb·in). Returns: P (lb). Source: AWC TR12, Table 1-1.

    With these A is 1/2000, B 3, C -8000: 1000 (sqrt(9 + 16) - 3).

    >>> round(float(general_mode_IIIm(2000.0, 1000.0, 4.0, 4000.0, 1.0)), 3)
    2000.0
    """
    A: Compliance = 1 / (2 * q_s) + 1 / (4 * q_m)
    B: Length = g + l_m / 2
    C: Moment = -M_s - q_m * l_m**2 / 4
    P_IIIm: Force = (-B + sqrt(B**2 - 4 * A * C)) / (2 * A)
    return P_IIIm


@formula(_CLAUSE)
def general_mode_IIIs(q_s: LineLoadInch, q_m: LineLoadInch, l_s: Length, M_m: Moment, g: Length) -> Force:
    """Mode III_s: a hinge in the main member, the dowel turns in the side member.

    Parameters: q_s, q_m bearing resistances (lb/in); l_s bearing length, g gap (in); M_m dowel moment in the
    main member (lb·in). Returns: P of one shear plane (lb). Source: AWC TR12, Table 1-1.

    With these A is 1/2000, B 3, C -8000: 1000 (sqrt(9 + 16) - 3).

    >>> round(float(general_mode_IIIs(1000.0, 2000.0, 4.0, 4000.0, 1.0)), 3)
    2000.0
    """
    A: Compliance = 1 / (4 * q_s) + 1 / (2 * q_m)
    B: Length = l_s / 2 + g
    C: Moment = -q_s * l_s**2 / 4 - M_m
    P_IIIs: Force = (-B + sqrt(B**2 - 4 * A * C)) / (2 * A)
    return P_IIIs


@formula(_CLAUSE)
def general_mode_IV(q_s: LineLoadInch, q_m: LineLoadInch, M_s: Moment, M_m: Moment, g: Length) -> Force:
    """Mode IV: a hinge in each member.

    Parameters: q_s, q_m bearing resistances (lb/in); M_s, M_m dowel moments in side and main member (lb·in);
    g gap (in). Returns: P of one shear plane (lb). Source: AWC TR12, Table 1-1.

    With these A is 1/1000, C -4000: 500 (sqrt(9 + 16) - 3).

    >>> round(float(general_mode_IV(1000.0, 1000.0, 2000.0, 2000.0, 3.0)), 3)
    1000.0
    """
    A: Compliance = 1 / (2 * q_s) + 1 / (2 * q_m)
    C: Moment = -M_s - M_m
    P_IV: Force = (-g + sqrt(g**2 - 4 * A * C)) / (2 * A)
    return P_IV


@formula("AWC TR12, 1.2")
def general_value(P: Force, R_d: Ratio) -> Force:
    """Reference lateral value of a mode in single shear: its yield load over the reduction term.

    Parameters: P yield load (lb); R_d reduction term (NDS Table 12.3.1B). Returns: Z (lb). Source: AWC TR12, 1.2.

    >>> round(general_value(3600.0, 3.6), 3)
    1000.0
    """
    Z: Force = P / R_d
    return Z


@formula("AWC TR12, 1.2")
def general_value_two_planes(P: Force, R_d: Ratio) -> Force:
    """Reference lateral value of a mode in double shear: the yield load of both planes over the reduction term.

    Parameters: P yield load of one shear plane (lb); R_d reduction term (NDS Table 12.3.1B). Returns: Z (lb).
    Source: AWC TR12, 1.2.

    >>> round(general_value_two_planes(1600.0, 3.2), 3)
    1000.0
    """
    Z: Force = 2 * P / R_d
    return Z


@unit_aware(in_pounds)
def general_dowel(
    *,
    D: Length,
    l_m: Length,
    l_s: Length,
    F_em: Stress,
    F_es: Stress,
    F_yb: Stress,
    gap: Length = 0.0,
    theta: Angle = 0.0,
    D_nominal: Length | None = None,
    D_s: Length | None = None,
    D_m: Length | None = None,
    double: bool = False,
    calculation: Calculation | None = None,
) -> YieldResult:
    """Every yield mode of one dowel with a gap between the members, and the one that governs.

    Parameters: as :func:`bolewright.fasteners.yield_limit.single_shear`; gap between side and main member (in);
    D_s, D_m diameters at the hinge in side and main member, where thread or shank make them differ from D (in);
    ``double`` for a symmetric double shear connection, gap at both planes, values of both planes together.
    Returns: :class:`YieldResult`. Raises: FastenerError for a gap below zero. Source: AWC TR12.
    """
    if np.any(np.asarray(gap) < 0):
        raise FastenerError(f"gap between the members is {gap} in.: it must be 0 or more")
    nominal = D if D_nominal is None else D_nominal
    D_s, D_m = D if D_s is None else D_s, D if D_m is None else D_m
    shapes = (np.shape(value) for value in (D, l_m, l_s, F_em, F_es, F_yb, gap, theta, nominal, D_s, D_m))
    calc = calculation or Calculation(np.broadcast_shapes(*shapes))
    run = calc.run
    R_d = reduction_terms(D, nominal, theta, run)
    q_s = run(dowel_bearing_resistance, F_e=F_es, D=D)
    q_m = run(dowel_bearing_resistance, F_e=F_em, D=D)
    M_s = run(dowel_moment_resistance, F_yb=F_yb, D=D_s)
    M_m = run(dowel_moment_resistance, F_yb=F_yb, D=D_m)
    value = general_value_two_planes if double else general_value
    P_Im = run(general_mode_Im, q_m=q_m, l_m=l_m)
    P_Is = run(general_mode_Is, q_s=q_s, l_s=l_s)
    P_IIIs = run(general_mode_IIIs, q_s=q_s, q_m=q_m, l_s=l_s, M_m=M_m, g=gap)
    P_IV = run(general_mode_IV, q_s=q_s, q_m=q_m, M_s=M_s, M_m=M_m, g=gap)
    modes = {
        "Im": run(general_value, P=P_Im, R_d=R_d.mode_I),
        "Is": run(value, P=P_Is, R_d=R_d.mode_I),
    }
    if not double:
        P_II = run(general_mode_II, q_s=q_s, q_m=q_m, l_s=l_s, l_m=l_m, g=gap)
        P_IIIm = run(general_mode_IIIm, q_s=q_s, q_m=q_m, l_m=l_m, M_s=M_s, g=gap)
        modes["II"] = run(value, P=P_II, R_d=R_d.mode_II)
        modes["IIIm"] = run(value, P=P_IIIm, R_d=R_d.mode_III_IV)
    modes["IIIs"] = run(value, P=P_IIIs, R_d=R_d.mode_III_IV)
    modes["IV"] = run(value, P=P_IV, R_d=R_d.mode_III_IV)
    least = least_of_four_modes if double else least_of_six_modes
    Z = run(least, **{f"Z_{name}": mode for name, mode in modes.items()})
    notes = (ABOVE_ONE_INCH,) if np.any(np.asarray(nominal) > 1) else ()
    return YieldResult(modes, Z, governing(modes), calc, notes)
