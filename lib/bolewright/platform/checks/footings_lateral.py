"""Footings of posts under wind and sway: embedment, soil pressure, uplift."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from bolewright.bracing.standing import height_of_force, resultant_lateral_force
from bolewright.ground.concrete import PLAIN_CONCRETE, weight_of_volume
from bolewright.ground.embedded_post import (
    effective_breadth,
    embedment_constrained,
    lateral_capacity_nonconstrained,
    lateral_pressure_full_depth,
    lateral_pressure_third_depth,
)
from bolewright.ground.soil import round_footing_area, soil_pressure_gross
from bolewright.ground.uplift import uplift_resistance_weight
from bolewright.platform.analysis.embedded import embedded_depth
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.analysis.post_values import post_weight
from bolewright.platform.checks.footings import (
    GROSS_NOTE,
    allowable_bearing,
    concrete_held_down,
    weight_on_soil,
)
from bolewright.platform.checks.lateral import (
    Run,
    judge_lateral,
    run_lateral_force,
    run_load,
    start,
    under_weight,
    weight_on,
    worse,
)
from bolewright.platform.checks.post_forces import run_foot_force, run_moment_at_grade
from bolewright.platform.checks.posts_lateral import BOTH_NOTE, STIFFNESS_NOTE
from bolewright.platform.layout.tees import TEE_NOTE
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import Array
from bolewright.platform.project import Footing
from bolewright.timber.sections import Section
from bolewright.units import FOOT, POUND, PSF

SOIL_NOTE = (
    "Frozen ground in winter and thawed mud in spring are not the soil of the table: judgement on site."
)
WEIGHT_NOTE = (
    "What weight on its knees does to the foot of a braced post is taken with the base fixed, and with it hinged in "
    "ground that relaxes under it. The worse counts."
)
HELD_DOWN_NOTE = (
    "Of the hole the concrete alone is counted, without the post that stands in it or its weight."
)
POUR_NOTE = (
    "The concrete under the post's foot counts as one piece with that round it: both are poured in one go. Where the "
    "pad is cast first, what holds is shallower by the pad's thickness: enter such a depth and look at the ratio."
)
UPLIFT: dict[str, Any] = {
    "key": "footing.uplift_lateral",
    "unit": POUND,
    "says": "uplift of the footing",
    "notes": (HELD_DOWN_NOTE,),
}


def footing_lateral_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of every post's footing under wind and sway."""
    if lateral.loose:
        return []
    checks: list[Check] = []
    for i, frame in enumerate(lateral.frames):
        if isinstance(frame, PostFrame):
            checks += worse(_embedment(lateral, state, i, frame) for state in lateral.states)
            checks += worse(
                _soil(lateral, state, i, frame, load)
                for state in lateral.states
                for load in weight_on(lateral, i, most=True, foot=True)
            )
            lifted = [
                _footing_uplift(lateral, state, i, frame, load)
                for state in lateral.states
                for load in weight_on(lateral, i, most=False, foot=True)
            ]
            checks += worse([*lifted, _uplift_by_weight(lateral, i, frame)])
    return checks


def _footing(lateral: LateralAnalysis, frame: PostFrame) -> Footing:
    return lateral.path.layout.project.footings[frame.support.footing or ""]


def soil_breadth(footing: Footing, section: Section) -> float:
    """Breadth for the soil (ft): the hole in concrete, else the post's diagonal; a square counts by its diagonal."""
    hole = footing.width * (1.0 if footing.shape == "round" else math.sqrt(2))
    post = math.hypot(section.b, section.d)
    return effective_breadth(post, hole, footing.fill == "concrete") / 12


def _embedment(lateral: LateralAnalysis, state: State, i: int, frame: PostFrame) -> Check:
    footing, project = _footing(lateral, frame), lateral.path.layout.project
    calculation = start(lateral)
    run = calculation.run
    top = [run_lateral_force(run, lateral, state, i, which) for which in (0, 1)]
    M = [run_moment_at_grade(run, lateral, state, frame, which, top[which]) for which in (0, 1)]
    V = [run_foot_force(run, lateral, state, frame, which, top[which]) for which in (0, 1)]
    P = np.maximum(run(resultant_lateral_force, V_1=V[0], V_2=V[1]), 1e-6)
    h = run(height_of_force, M_1=M[0], M_2=M[1], V=P) / 12
    S = project.site.soil.values.lateral
    b, d, m = (
        soil_breadth(footing, frame.section),
        embedded_depth(footing) / 12,
        2.0 if frame.post.doubled else 1.0,
    )
    notes = (SOIL_NOTE, STIFFNESS_NOTE, *((BOTH_NOTE,) if len(lateral.states) > 1 else ()))
    notes += (TEE_NOTE,) if frame.tee else (WEIGHT_NOTE,) if frame.braced else ()
    notes += (POUR_NOTE,) if footing.fill == "concrete" else ()
    if frame.post.constrained:
        S_3 = run(lateral_pressure_full_depth, S=S, d=d, m=m)
        wanted = run(embedment_constrained, P=P, h=h, S_3=S_3, b=b)
        return judge_lateral(
            calculation,
            lateral,
            state,
            frame.support.mark,
            demand=wanted,
            capacity=d,
            unit=FOOT,
            says="the depth required, held at grade by a rigid surface,",
            notes=notes,
            key="footing.embedment",
        )
    S_1 = run(lateral_pressure_third_depth, S=S, d=d, m=m)
    P_a = run(lateral_capacity_nonconstrained, S_1=S_1, b=b, d=d, h=h)
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        demand=P,
        capacity=P_a,
        unit=POUND,
        says="the lateral force on the soil",
        notes=notes,
        key="footing.embedment",
    )


def _soil(
    lateral: LateralAnalysis, state: State, i: int, frame: PostFrame, load: tuple[Array, bool]
) -> Check:
    footing = _footing(lateral, frame)
    calculation = start(lateral)
    run = calculation.run
    weight, slack = load
    weight = np.maximum(weight, 0.0) + post_weight(lateral.path, frame.support) * lateral.cases.D
    P = run_load(run, state, i, weight, foot=True, slack=slack)
    W_f = weight_on_soil(run, footing)
    side = footing.width / 12
    A = run(round_footing_area, d_f=side) if footing.shape == "round" else side**2
    q = run(soil_pressure_gross, P=np.maximum(P, 0.0), W_f=W_f, A=A)
    allowed = allowable_bearing(lateral.path)
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        key="footing.soil_lateral",
        demand=q,
        capacity=allowed,
        unit=PSF,
        says="pressure on the soil with wind and sway",
        notes=(GROSS_NOTE,),
        slack=slack,
    )


def _run_held_down(run: Run, footing: Footing, section: Section) -> Array:
    """Six tenths of the weight of a footing's concrete."""
    W_f = run(weight_of_volume, V=concrete_held_down(footing, section), gamma=PLAIN_CONCRETE)
    return np.asarray(run(uplift_resistance_weight, W=W_f))


def _footing_uplift(
    lateral: LateralAnalysis, state: State, i: int, frame: PostFrame, load: tuple[Array, bool]
) -> Check:
    """Uplift of the post's foot against six tenths of the concrete's weight."""
    calculation = start(lateral)
    run = calculation.run
    weight, slack = load
    P = run_load(run, state, i, weight, foot=True, slack=slack)
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        demand=np.maximum(-P, 0.0),
        capacity=_run_held_down(run, _footing(lateral, frame), frame.section),
        slack=slack,
        **UPLIFT,
    )


def _uplift_by_weight(lateral: LateralAnalysis, i: int, frame: PostFrame) -> Check:
    """The same by weight alone: one person on an overhang, too."""
    lifted = under_weight(lateral, i, frame.support.mark)
    R_w = _run_held_down(lifted.calculation.run, _footing(lateral, frame), frame.section)
    return lifted.judged(lifted.calculation, demand=np.maximum(-lifted.R, 0.0), capacity=R_w, **UPLIFT)
