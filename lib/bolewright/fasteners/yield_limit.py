"""All yield modes of one dowel, and the one that governs, in single and double shear (NDS 2018, 12.3.1)."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from bolewright.calculation import Calculation, Step
from bolewright.fasteners.reduction import ABOVE_ONE_INCH, reduction_terms
from bolewright.fasteners.yield_modes import (
    least_of_six_modes,
    yield_coefficient_k1,
    yield_coefficient_k2,
    yield_coefficient_k3,
    yield_mode_II,
    yield_mode_IIIm,
    yield_mode_IIIs,
    yield_mode_Im,
    yield_mode_Is,
    yield_mode_IV,
)
from bolewright.fasteners.yield_modes_double import (
    double_shear_mode_IIIs,
    double_shear_mode_Is,
    double_shear_mode_IV,
    least_of_four_modes,
)
from bolewright.formulas import unit_aware
from bolewright.units import POUND, Angle, Length, Stress


@dataclass(frozen=True)
class YieldResult:
    """Value of every yield mode (lb, all shear planes), the least of them, its name, and the steps."""

    modes: dict[str, Any]
    Z: Any
    mode: Any
    calculation: Calculation
    notes: tuple[str, ...] = ()

    def steps(self, index: tuple[int, ...] = ()) -> tuple[Step, ...]:
        """The formulas that ran, with the scalar arguments of one element."""
        return self.calculation.at(index)


def in_pounds(result: YieldResult) -> YieldResult:
    """The same result with its values as pint quantities; its steps stay in inches and pounds."""
    modes = {name: POUND.of(value) for name, value in result.modes.items()}
    return replace(result, modes=modes, Z=POUND.of(result.Z))


@unit_aware(in_pounds)
def single_shear(
    *,
    D: Length,
    l_m: Length,
    l_s: Length,
    F_em: Stress,
    F_es: Stress,
    F_yb: Stress,
    theta: Angle = 0.0,
    D_nominal: Length | None = None,
    calculation: Calculation | None = None,
) -> YieldResult:
    """Six yield modes of one dowel in single shear, and the governing one.

    Parameters: D diameter in the equations (in), root diameter of a threaded fastener; l_m, l_s bearing
    lengths in main and side member (in); F_em, F_es bearing strengths, F_yb bending yield strength (psi);
    theta largest angle of load to grain of any member (degrees); D_nominal diameter by name if it differs
    from D (decides R_d of threaded fasteners). Numbers or arrays that broadcast.
    Returns: :class:`YieldResult`. Source: NDS 2018, 12.3.1.

    1/2 in. bolt through two 1-1/2 in. Douglas Fir-Larch members, along the grain:

    >>> result = single_shear(D=0.5, l_m=1.5, l_s=1.5, F_em=5600, F_es=5600, F_yb=45000)
    >>> round(result.Z), result.mode   # NDS 2018 Table 12A: 480 to the nearest 10
    (483, 'II')
    """
    nominal = D if D_nominal is None else D_nominal
    calc = calculation or _calculation(D, l_m, l_s, F_em, F_es, F_yb, theta, nominal)
    run = calc.run
    R_d = reduction_terms(D, nominal, theta, run)
    k_1 = run(yield_coefficient_k1, F_em=F_em, F_es=F_es, l_m=l_m, l_s=l_s)
    k_2 = run(yield_coefficient_k2, F_em=F_em, F_es=F_es, F_yb=F_yb, D=D, l_m=l_m)
    k_3 = run(yield_coefficient_k3, F_em=F_em, F_es=F_es, F_yb=F_yb, D=D, l_s=l_s)
    III_IV = R_d.mode_III_IV
    modes = {
        "Im": run(yield_mode_Im, D=D, l_m=l_m, F_em=F_em, R_d=R_d.mode_I),
        "Is": run(yield_mode_Is, D=D, l_s=l_s, F_es=F_es, R_d=R_d.mode_I),
        "II": run(yield_mode_II, k_1=k_1, D=D, l_s=l_s, F_es=F_es, R_d=R_d.mode_II),
        "IIIm": run(yield_mode_IIIm, k_2=k_2, D=D, l_m=l_m, F_em=F_em, F_es=F_es, R_d=III_IV),
        "IIIs": run(yield_mode_IIIs, k_3=k_3, D=D, l_s=l_s, F_em=F_em, F_es=F_es, R_d=III_IV),
        "IV": run(yield_mode_IV, D=D, F_em=F_em, F_es=F_es, F_yb=F_yb, R_d=III_IV),
    }
    Z = run(least_of_six_modes, **{f"Z_{name}": value for name, value in modes.items()})
    return YieldResult(modes, Z, governing(modes), calc, _notes(nominal))


@unit_aware(in_pounds)
def double_shear(
    *,
    D: Length,
    l_m: Length,
    l_s: Length,
    F_em: Stress,
    F_es: Stress,
    F_yb: Stress,
    theta: Angle = 0.0,
    D_nominal: Length | None = None,
    calculation: Calculation | None = None,
) -> YieldResult:
    """Four yield modes of one dowel in double shear, side members alike, and the governing one.

    Parameters: as :func:`single_shear`; l_s is the bearing length in one side member. Unlike side members:
    take the lesser of both symmetric connections, see :mod:`bolewright.fasteners.lateral`.
    Returns: :class:`YieldResult`, values of both shear planes together. Source: NDS 2018, 12.3.1.

    1/2 in. bolt, 1-1/2 in. sides on 3-1/2 in. Douglas Fir-Larch:

    >>> result = double_shear(D=0.5, l_m=3.5, l_s=1.5, F_em=5600, F_es=5600, F_yb=45000)
    >>> round(result.Z), result.mode   # NDS 2018 Table 12F: 1230 to the nearest 10
    (1230, 'IIIs')
    """
    nominal = D if D_nominal is None else D_nominal
    calc = calculation or _calculation(D, l_m, l_s, F_em, F_es, F_yb, theta, nominal)
    run = calc.run
    R_d = reduction_terms(D, nominal, theta, run)
    k_3 = run(yield_coefficient_k3, F_em=F_em, F_es=F_es, F_yb=F_yb, D=D, l_s=l_s)
    III_IV = R_d.mode_III_IV
    modes = {
        "Im": run(yield_mode_Im, D=D, l_m=l_m, F_em=F_em, R_d=R_d.mode_I),
        "Is": run(double_shear_mode_Is, D=D, l_s=l_s, F_es=F_es, R_d=R_d.mode_I),
        "IIIs": run(double_shear_mode_IIIs, k_3=k_3, D=D, l_s=l_s, F_em=F_em, F_es=F_es, R_d=III_IV),
        "IV": run(double_shear_mode_IV, D=D, F_em=F_em, F_es=F_es, F_yb=F_yb, R_d=III_IV),
    }
    Z = run(least_of_four_modes, **{f"Z_{name}": value for name, value in modes.items()})
    return YieldResult(modes, Z, governing(modes), calc, _notes(nominal))


def governing(modes: dict[str, Any]) -> Any:
    """Name of the least mode: text for scalars, an array of text for arrays."""
    names = np.array(list(modes))
    least = names[np.argmin(np.stack(np.broadcast_arrays(*modes.values())), axis=0)]
    return str(least) if least.ndim == 0 else least


def _calculation(*values: Any) -> Calculation:
    return Calculation(np.broadcast_shapes(*(np.shape(value) for value in values)))


def _notes(D_nominal: Any) -> tuple[str, ...]:
    return (ABOVE_ONE_INCH,) if np.any(np.asarray(D_nominal) > 1) else ()
