"""Torsion of a trunk whose bolts are all on one side, or whose lateral forces do not pass its axis."""

from __future__ import annotations

import numpy as np

from bolewright.platform.analysis.brace_compression import heads_over
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import BoltFrame
from bolewright.platform.checks.lateral import judge_lateral, start, worse
from bolewright.platform.limit_states.check import Check
from bolewright.tree.trunk import trunk_torsion, trunk_torsion_stress
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


def trunk_torsion_checks(lateral: LateralAnalysis) -> list[Check]:
    """Torsion of every trunk that bears the platform."""
    if lateral.loose:
        return []
    trees = dict.fromkeys(f.tree.mark for f in lateral.frames if isinstance(f, BoltFrame))
    return [c for mark in trees for c in worse(_torsion(lateral, state, mark) for state in lateral.states)]


def _torsion(lateral: LateralAnalysis, state: State, mark: str) -> Check:
    here = [(i, f) for i, f in enumerate(lateral.frames) if isinstance(f, BoltFrame) and f.tree.mark == mark]
    frame = here[0][1]
    calculation = start(lateral)
    run = calculation.run
    total = np.zeros((1, lateral.cases.count))
    pushed = lateral.with_push(state)
    for i, f in here:
        H_x, H_y = state.springs[i].axes.T @ pushed[i]
        x, y = np.array(f.support.at) - np.array(f.tree.at)
        total = total + run(trunk_torsion, H_x=H_x[None, :], H_y=H_y[None, :], x=float(x), y=float(y))
    for (
        _,
        f,
    ) in here:  # between the upper bolts and those below, where knee braces draw on these and press on those
        thrust = lateral.thrusts.get(f.support.mark)
        if thrust is None or f.braces:
            continue
        T = thrust.greatest(heads_over(lateral.frames, thrust.braces, state.over + state.cap))[None, :]
        u = thrust.braces[0].beam.line.u
        x, y = (float(v) for v in np.array(f.support.at) - np.array(f.tree.at))
        way = np.where(total * (x * u[1] - y * u[0]) < 0, -1.0, 1.0)
        total = total + run(trunk_torsion, H_x=way * T * u[0], H_y=way * T * u[1], x=x, y=y)
    f_t = run(trunk_torsion_stress, T=np.abs(total), d=2 * frame.placed.r, d_c=frame.tree.cavity)
    cut = reduction(frame.wood, Property.SHEAR)
    X_05 = run(exclusion_value, X=frame.wood.shear, V=cut.variation)
    F_w = run(working_value, X_05=X_05, K=cut.divisor, R_s=1.0)
    return judge_lateral(
        calculation,
        lateral,
        state,
        mark,
        key="tree.trunk_torsion",
        demand=f_t,
        capacity=run(working_value_in_case, F_w=F_w, C_D=lateral.cases.C_D),
        unit=PSI,
        says="shear of the trunk in torsion",
        notes=(TORSION_NOTE,),
    )
