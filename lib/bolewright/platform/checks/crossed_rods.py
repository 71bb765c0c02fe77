"""Crossed rods: their tension, and the rated connection of their ends to the posts."""

from __future__ import annotations

from bolewright.bracing.crossed import (
    rod_area,
    rod_lateral_force,
    rod_length,
    rod_tension,
    rod_tension_strength,
)
from bolewright.platform.analysis.crossed import Rod
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_stiffness import run_rod_share
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.checks.brace_ends import RATED_NOTE
from bolewright.platform.checks.lateral import Run, judge_lateral, run_lateral_force, start, worse
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.units import POUND

ROD_NOTE = (
    "Of the two rods the stretched one alone counts; each is fitted without slack, by a turnbuckle or nut, before the "
    "platform is loaded, and looked at again when the timber has dried. Their ends slip 1/16 in at their rated load "
    "(judgement)."
)


def crossed_rod_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of every pair of crossed rods."""
    checks: list[Check] = []
    for crossed in lateral.crossed:
        mark = crossed.rods.mark
        if lateral.loose:
            said = f"{mark} is not checked: nothing holds the platform {lateral.loose}."
            checks.append(not_checked(mark, "crossed_rods.lateral", said))
            continue
        for rod in crossed.pair:
            checks += [check for state in lateral.states for check in _rod(lateral, state, rod)]
    return worse(checks)


def _rod(lateral: LateralAnalysis, state: State, rod: Rod) -> list[Check]:
    """Checks of one rod; of both in a pair the worse is kept."""
    return [_tension(lateral, state, rod), _ends(lateral, state, rod)]


def _run_tension(run: Run, lateral: LateralAnalysis, state: State, rod: Rod) -> Array:
    """Tension of a rod in every case, none where it is slack."""
    i = lateral.row(rod.head.mark)
    frame = lateral.frames[i]
    assert isinstance(frame, PostFrame)
    which = next(w for w, axis in enumerate(frame.axes) if axis.rod is rod)
    V = run_lateral_force(run, lateral, state, i, which)
    q, _ = run_rod_share(run, frame, which, state.foot, state.pulled[i, which][None, :])
    H_r = run(rod_lateral_force, V=V, q=q)
    tension: Array = run(rod_tension, H_r=H_r, L=rod.L, L_r=run(rod_length, L=rod.L, b=rod.b))
    return tension


def _tension(lateral: LateralAnalysis, state: State, rod: Rod) -> Check:
    rods = rod.rods
    calculation = start(lateral)
    run = calculation.run
    T = _run_tension(run, lateral, state, rod)
    T_a = run(rod_tension_strength, F_y=rods.F_y, F_u=rods.F_u, A=run(rod_area, D=rods.diameter))
    return judge_lateral(
        calculation,
        lateral,
        state,
        rods.mark,
        key="crossed_rods.tension",
        demand=T,
        capacity=T_a,
        unit=POUND,
        says="the tension of a rod",
        notes=(ROD_NOTE,),
    )


def _ends(lateral: LateralAnalysis, state: State, rod: Rod) -> Check:
    rods = rod.rods
    calculation = start(lateral)
    T = _run_tension(calculation.run, lateral, state, rod)
    if rods.rated_load is None:
        return not_checked(
            rods.mark,
            "crossed_rods.ends",
            f"{rods.mark} has no rating of its ends: enter rated_load, the tension that the maker rates an end's "
            "connection to the post for.",
        )
    return judge_lateral(
        calculation,
        lateral,
        state,
        rods.mark,
        key="crossed_rods.ends",
        demand=T,
        capacity=rods.rated_load,
        unit=POUND,
        says="the tension at a rod's end",
        notes=(RATED_NOTE, ROD_NOTE),
    )
