"""Reduction terms R_d from yield to allowable lateral value (NDS 2018, Table 12.3.1B)."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy import maximum

from bolewright.fasteners.errors import FastenerError
from bolewright.formulas import Limit, formula
from bolewright.units import Angle, Length, Ratio

_D_LIMIT = Limit(0.0, 0.25, "K_D is for D under 1/4 in. (NDS Table 12.3.1B).")
ABOVE_ONE_INCH = (
    "D is above 1 in., where NDS Table 12.3.1B gives no R_d: the terms are extrapolated, engineer to confirm."
)


@formula(
    "NDS 2018, Table 12.3.1B",
    limits={"theta": Limit(0, 90, "The angle of load to grain is outside 0 to 90 degrees.")},
)
def angle_coefficient(theta: Angle) -> Ratio:
    """Angle to grain coefficient K_theta.

    Parameters: theta largest angle of load to grain of any member of the connection (degrees).
    Returns: K_theta, 1 to 1.25. Source: NDS 2018, Table 12.3.1B, footnote.

    >>> round(angle_coefficient(36.0), 6)
    1.1
    """
    K_theta: Ratio = 1 + 0.25 * theta / 90
    return K_theta


@formula("NDS 2018, Table 12.3.1B", limits={"D": _D_LIMIT}, homogeneous=False)
def diameter_coefficient(D: Length) -> Ratio:
    """Diameter coefficient K_D of a dowel under 1/4 in.: 2.2 up to 0.17 in., then 10 D + 0.5.

    Parameters: D diameter in the yield equations, root diameter of a threaded fastener (in).
    Returns: K_D. Source: NDS 2018, Table 12.3.1B, footnote.

    >>> round(float(diameter_coefficient(0.2)), 6)
    2.5
    >>> round(float(diameter_coefficient(0.162)), 6)
    2.2
    """
    K_D: Ratio = maximum(2.2, 10 * D + 0.5)
    return K_D


@formula("NDS 2018, Table 12.3.1B")
def reduction_mode_I(K_theta: Ratio) -> Ratio:
    """Reduction term of yield modes I_m and I_s, D of 1/4 to 1 in.

    Parameters: K_theta angle coefficient. Returns: R_d. Source: NDS 2018, Table 12.3.1B.

    >>> round(reduction_mode_I(1.25), 6)
    5.0
    """
    R_d: Ratio = 4 * K_theta
    return R_d


@formula("NDS 2018, Table 12.3.1B")
def reduction_mode_II(K_theta: Ratio) -> Ratio:
    """Reduction term of yield mode II, D of 1/4 to 1 in.

    Parameters: K_theta angle coefficient. Returns: R_d. Source: NDS 2018, Table 12.3.1B.

    >>> round(reduction_mode_II(1.25), 6)
    4.5
    """
    R_d: Ratio = 3.6 * K_theta
    return R_d


@formula("NDS 2018, Table 12.3.1B")
def reduction_mode_III_IV(K_theta: Ratio) -> Ratio:
    """Reduction term of yield modes III_m, III_s and IV, D of 1/4 to 1 in.

    Parameters: K_theta angle coefficient. Returns: R_d. Source: NDS 2018, Table 12.3.1B.

    >>> round(reduction_mode_III_IV(1.25), 6)
    4.0
    """
    R_d: Ratio = 3.2 * K_theta
    return R_d


@formula("NDS 2018, Table 12.3.1B, footnote 1")
def reduction_threaded(K_D: Ratio, K_theta: Ratio) -> Ratio:
    """Reduction term, all modes, of a threaded fastener with D of 1/4 in. or more and D_r under 1/4 in.

    Parameters: K_D diameter coefficient at the root; K_theta angle coefficient. Returns: R_d.
    Source: NDS 2018, Table 12.3.1B, footnote 1.

    >>> round(reduction_threaded(2.5, 1.25), 6)
    3.125
    """
    R_d: Ratio = K_D * K_theta
    return R_d


@dataclass(frozen=True)
class ReductionTerms:
    """R_d by group of yield modes."""

    mode_I: Any
    mode_II: Any
    mode_III_IV: Any


def reduction_terms(D: Any, D_nominal: Any, theta: Any, run: Callable[..., Any]) -> ReductionTerms:
    """R_d of each group of modes, by the diameter D of the yield equations and the nominal one.

    theta is the largest angle of load to grain of any member. ``run`` keeps the steps
    (:meth:`bolewright.calculation.Calculation.run`). Raises :class:`FastenerError` for an array of diameters
    that lie on both sides of 1/4 in.: these are two calculations. Source: NDS 2018, Table 12.3.1B.
    """
    small, small_nominal = np.asarray(D) < 0.25, np.asarray(D_nominal) < 0.25
    for flag, which in ((small, "D"), (small_nominal, "nominal D")):
        if flag.any() and not flag.all():
            raise FastenerError(f"{which} lies on both sides of 1/4 in.: run the two classes apart")
    if not small.all():
        K_theta = run(angle_coefficient, theta=theta)
        return ReductionTerms(
            run(reduction_mode_I, K_theta=K_theta),
            run(reduction_mode_II, K_theta=K_theta),
            run(reduction_mode_III_IV, K_theta=K_theta),
        )
    K_D = run(diameter_coefficient, D=D)
    if small_nominal.all():
        return ReductionTerms(K_D, K_D, K_D)
    R_d = run(reduction_threaded, K_D=K_D, K_theta=run(angle_coefficient, theta=theta))
    return ReductionTerms(R_d, R_d, R_d)
