"""Rows and groups of a knee's bolts torn out along the grain of brace, beam and post (NDS 2018, Appendix E)."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from bolewright.bracing.joint import force_along_grain
from bolewright.bracing.knee import brace_end_force, brace_tension
from bolewright.calculation import Calculation
from bolewright.fasteners.tear_out import (
    critical_spacing,
    group_net_area,
    group_tear_out,
    row_tear_out,
    rows_tear_out,
)
from bolewright.platform.analysis.knee_weight import Way
from bolewright.platform.analysis.knees import Knee
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.checks.brace_ends import place_of, run_brace_forces, weight_note
from bolewright.platform.checks.lateral import judge_lateral, open_while_loose, start, worse
from bolewright.platform.layout.brace_bolts import ROWS_ALONG, BraceBolts
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import Array
from bolewright.timber.adjusted_values import adjusted_shear, adjusted_tension
from bolewright.timber.adjustment import Factors, Service, factors
from bolewright.timber.material import DesignValues
from bolewright.units import POUND

CLAUSE = "NDS 2018, Appendix E"
ROW_NOTE = "Every row counts with the end distance of the bolt nearest to the end, the least."
TIMBER_NOTE = (
    "Only the part of the force along the grain tears a row out; the part across it is in the shear at the bolts "
    "(NDS 2018, 3.4.3.3)."
)


@dataclass(frozen=True)
class _Timber:
    """A timber that bolts may tear out of: its values, thickness, angle of the force, least end distance."""

    part: str
    kind: str
    values: DesignValues
    factors: Factors
    t: float
    theta: float
    end: float


def tear_out_checks(lateral: LateralAnalysis) -> list[Check]:
    """Tear-out at every lapped end of every knee."""
    if lateral.loose:
        return [
            open_while_loose(lateral, part, f"{kind}.row_tear_out", knee.brace.mark)
            for knee in lateral.knees
            if knee.bolts is not None
            for part, kind in ((knee.brace.support, "post"), (knee.beam.mark, "beam"))
        ]
    checks: list[Check] = []
    for knee in lateral.knees:
        if knee.bolts is not None:
            checks += worse(
                check for state in lateral.states for check in _knee(lateral, state, knee, knee.bolts)
            )
    return checks


def _knee(lateral: LateralAnalysis, state: State, knee: Knee, bolts: BraceBolts) -> list[Check]:
    checks = []
    for mark in (knee.brace.support, knee.beam.mark):
        checks += _of_brace(lateral, state, knee, bolts, mark)
    return checks + [
        _of_timber(lateral, state, knee, bolts, timber) for timber in _timbers(lateral, knee, bolts)
    ]


def _timbers(lateral: LateralAnalysis, knee: Knee, bolts: BraceBolts) -> tuple[_Timber, _Timber]:
    _, frame, _ = place_of(lateral, knee)
    beam, a, r = knee.beam, knee.brace.rise, knee.brace.run
    service = Service(wet=beam.timber.wet, incised=beam.timber.counts_incised)
    values = lateral.path.effects[beam.mark].values
    along = [knee.own + knee.side * hole.x for hole in bolts.holes_on(beam.mark)]
    to_end = min(min(along), beam.line.length - max(along))
    to_top = min(abs(hole.z) for hole in bolts.holes_on(frame.support.mark))
    return (
        _Timber(
            frame.support.mark, "post", frame.values, frame.factors,
            min(frame.section.b, frame.section.d), math.degrees(math.atan2(r, a)), to_top,
        ),
        _Timber(
            beam.mark, "beam", values, factors(values, service),
            beam.width, math.degrees(math.atan2(a, r)), to_end,
        ),
    )  # fmt: skip


def _of_timber(
    lateral: LateralAnalysis, state: State, knee: Knee, bolts: BraceBolts, timber: _Timber
) -> Check:
    """One row along the grain of post or beam, pressed along it by part of the brace's force, either way."""
    calculation = start(lateral)
    run = calculation.run
    F_b, F_w = run_brace_forces(run, lateral, state, knee, Way.EITHER, full=True)
    F = run(brace_end_force, F_b=F_b, F_w=F_w)
    F_par = run(force_along_grain, F=F, theta=timber.theta)
    F_v_p = run(adjusted_shear, F_v=timber.values.F_v, C_D=lateral.cases.C_D, **timber.factors.shear)
    Z_RT = _run_row(calculation, F_v_p, timber.t, bolts.count, max(timber.end, 0.0), bolts.spacing)
    return judge_lateral(
        calculation,
        lateral,
        state,
        timber.part,
        key=f"{timber.kind}.row_tear_out",
        at=knee.brace.mark,
        demand=F_par,
        capacity=Z_RT,
        unit=POUND,
        says=f"the force along its grain at the bolts of {knee.brace.mark}",
        notes=(TIMBER_NOTE, weight_note(knee)),
    )


def _of_brace(
    lateral: LateralAnalysis, state: State, knee: Knee, bolts: BraceBolts, mark: str
) -> list[Check]:
    """Brace in tension: its rows, and their group, torn out of the end that is lapped on post or beam."""
    t = knee.brace.plies * knee.section.b
    in_row, rows, gap_along, gap_across = rows_in_brace(knee, bolts, mark)
    checks = []
    for group in (False, True) if rows > 1 else (False,):
        calculation = start(lateral)
        run = calculation.run
        F_b, F_w = run_brace_forces(run, lateral, state, knee, Way.PULL, full=True)
        F = run(brace_tension, F_b=F_b, F_w=F_w)
        F_v_p = run(adjusted_shear, F_v=knee.values.F_v, C_D=lateral.cases.C_D, **knee.factors.shear)
        Z_RTi = _run_row(calculation, F_v_p, t, in_row, bolts.end, gap_along)
        if group:
            F_t_p = run(adjusted_tension, F_t=knee.values.F_t, C_D=lateral.cases.C_D, **knee.factors.tension)
            A_g = run(group_net_area, t=t, n_row=float(rows), s_row=gap_across, D_hole=bolts.hole)
            Z = run(group_tear_out, Z_RT1_p=Z_RTi, Z_RTn_p=Z_RTi, F_t_p=F_t_p, A_group=A_g)
        else:
            Z = run(rows_tear_out, n_row=float(rows), Z_RTi_p=Z_RTi)
        checks.append(
            judge_lateral(
                calculation,
                lateral,
                state,
                knee.brace.mark,
                key="brace.group_tear_out" if group else "brace.row_tear_out",
                at=mark,
                demand=F,
                capacity=Z,
                unit=POUND,
                says=f"tension on the wood at its bolts on {mark}",
                notes=(*((ROW_NOTE,) if rows > 1 else ()), weight_note(knee)),
            )
        )
    return checks


def _run_row(calculation: Calculation, F_v_p: Array, t: float, n: int, end: float, spacing: float) -> Array:
    """Tear-out of one row of ``n`` bolts."""
    s_crit = calculation.run(critical_spacing, a_end=end, s=spacing) if n > 1 else end
    return np.asarray(calculation.run(row_tear_out, n_i=float(n), F_v_p=F_v_p, t=t, s_crit=s_crit))


def rows_in_brace(knee: Knee, bolts: BraceBolts, mark: str) -> tuple[int, int, float, float]:
    """Bolts in a row along the brace and rows beside one another at one end, and what is between both (in).

    Bolts that stand far enough apart across the brace are rows of their own (NDS 2018, Table 12.5.1D).
    """
    n = bolts.count
    if n == 1:
        return 1, 1, 0.0, 0.0
    first, second = bolts.holes_on(mark)[:2]
    along, across = abs(second.along - first.along), abs(second.off - first.off)
    if across >= ROWS_ALONG * bolts.diameter - 1e-9:
        return 1, n, along, across
    return n, 1, along, across
