"""Torsion of a trunk whose bolts are all on one side, or whose lateral forces do not pass its axis."""

from __future__ import annotations

import numpy as np

from bolewright.platform.check import Check
from bolewright.platform.checks.level import judge_level, start, worse
from bolewright.platform.level_supports import BoltFrame
from bolewright.platform.sideways import Sideways, State
from bolewright.tree.stem import trunk_torsion, trunk_torsion_stress
from bolewright.tree.working import (
    Property,
    exclusion_value,
    reduction,
    working_value,
    working_value_in_case,
)
from bolewright.units import PSI

TORSION_NOTE = (
    "The lateral forces of all bolts turn the trunk about its axis; what bolts on the other side hold back is in the "
    "sum. The crown's own torsion in wind is not known and not counted."
)


def trunk_torsion_checks(sideways: Sideways) -> list[Check]:
    """Torsion of every trunk that bears the platform."""
    if sideways.loose:
        return []
    trees = dict.fromkeys(f.tree.mark for f in sideways.frames if isinstance(f, BoltFrame))
    return [c for mark in trees for c in worse(_torsion(sideways, state, mark) for state in sideways.states)]


def _torsion(sideways: Sideways, state: State, mark: str) -> Check:
    here = [(i, f) for i, f in enumerate(sideways.frames) if isinstance(f, BoltFrame) and f.tree.mark == mark]
    frame = here[0][1]
    calculation = start(sideways)
    run = calculation.run
    total = np.zeros((1, sideways.cases.count))
    for i, f in here:
        H_x, H_y = state.springs[i].axes.T @ state.force[i]
        x, y = np.array(f.support.at) - np.array(f.tree.at)
        total = total + run(trunk_torsion, H_x=H_x[None, :], H_y=H_y[None, :], x=float(x), y=float(y))
    f_t = run(trunk_torsion_stress, T=np.abs(total), d=2 * frame.placed.r, d_c=frame.tree.cavity)
    cut = reduction(frame.wood, Property.SHEAR)
    X_05 = run(exclusion_value, X=frame.wood.shear, V=cut.variation)
    F_w = run(working_value, X_05=X_05, K=cut.divisor, R_s=1.0)
    return judge_level(
        calculation,
        sideways,
        state,
        mark,
        key="tree.trunk_torsion",
        demand=f_t,
        capacity=run(working_value_in_case, F_w=F_w, C_D=sideways.cases.C_D),
        unit=PSI,
        says="shear of the trunk in torsion",
        notes=(TORSION_NOTE,),
    )
