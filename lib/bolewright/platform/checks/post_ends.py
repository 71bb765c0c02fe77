"""End grain of posts on what they stand on and under what they bear (NDS 2018, 3.10.1)."""

from __future__ import annotations

import numpy as np

from bolewright.calculation import Calculation
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.analysis.post_values import post_timber, post_weight
from bolewright.platform.checks.lateral import judge_lateral, run_load, start, weight_on, worse
from bolewright.platform.checks.members import CASES, NAMES
from bolewright.platform.checks.posts import support_load
from bolewright.platform.layout.contact import contact_at
from bolewright.platform.layout.layout import Layout
from bolewright.platform.limit_states.check import Check, judge
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Support
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.adjusted_values import compression_before_stability
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bearing import end_bearing_stress, end_bearing_without_plate
from bolewright.timber.sections import parse_section
from bolewright.units import PSI

C_D = np.array([case.C_D for case in CASES])
NOTE = (
    "Its foot stands on the concrete with its whole section; at its cap no more bears than what of the beams lies on "
    "it. Above 0.75 F_c* NDS 2018, 3.10.1.3, wants a metal plate between: none is counted on, so that 0.75 F_c* is the "
    "limit. Ends cut square."
)


def post_end_checks(path: LoadPath) -> list[Check]:
    """Bearing of the ends of every post under weight: the foot with the post's own weight, the cap."""
    return [
        check
        for support in path.layout.supports
        if support.kind == SupportKind.POST
        for check in worse(_under_weight(path, support, foot=foot) for foot in (True, False))
    ]


def post_end_lateral_checks(lateral: LateralAnalysis) -> list[Check]:
    """Bearing of the ends of every post with wind and sway."""
    if lateral.loose:
        return []
    checks: list[Check] = []
    for i, frame in enumerate(lateral.frames):
        if isinstance(frame, PostFrame):
            checks += worse(
                _with_sway(lateral, state, i, frame, load, foot=foot)
                for state in lateral.states
                for foot in (True, False)
                for load in weight_on(lateral, i, most=True, foot=foot)
            )
    return checks


def end_area(layout: Layout, support: Support, *, foot: bool) -> float:
    """Area of a post's end that bears (in²): its section at the foot; at the cap no more than lies on it."""
    post = layout.project.posts[support.post or ""]
    section = parse_section(post.section).A
    if foot or post.cap_seat:  # the plate of a cap with a thickness lies on all of the end
        return section
    there = sum(contact_at(layout, member, seat).area for member, seat in layout.on_support(support.mark))
    return min(section, there)


def _says(foot: bool) -> str:
    return "bearing of its end grain at its foot" if foot else "bearing of its end grain at its cap"


def _under_weight(path: LoadPath, support: Support, *, foot: bool) -> Check:
    post = path.layout.project.posts[support.post or ""]
    _, values = post_timber(path, support)
    group = factors(values, Service(wet=post.wet, incised=post.counts_incised))
    own = post_weight(path, support) * np.array([case.D for case in CASES]) if foot else 0.0
    calculation = Calculation((1, len(CASES)))
    run = calculation.run
    f_c = run(
        end_bearing_stress,
        P=support_load(path, support.mark) + own,
        A=end_area(path.layout, support, foot=foot),
    )
    F_c_star = run(compression_before_stability, F_c=values.F_c, C_D=C_D, **group.compression)
    return judge(
        calculation,
        [support.mark],
        NAMES,
        key="post.end_bearing",
        demand=f_c,
        capacity=run(end_bearing_without_plate, F_c_star=F_c_star),
        unit=PSI,
        says=_says(foot),
        notes=(NOTE,),
    )[0]


def _with_sway(
    lateral: LateralAnalysis,
    state: State,
    i: int,
    frame: PostFrame,
    load: tuple[Array, bool],
    *,
    foot: bool,
) -> Check:
    cases, support = lateral.cases, frame.support
    weight, slack = np.maximum(load[0], 0.0), load[1]
    if foot:
        weight = weight + post_weight(lateral.path, support) * cases.D
    calculation = start(lateral)
    run = calculation.run
    P = np.maximum(run_load(run, state, i, weight, foot=foot, slack=slack), 0.0)
    f_c = run(end_bearing_stress, P=P, A=end_area(lateral.path.layout, support, foot=foot))
    F_c_star = run(
        compression_before_stability, F_c=frame.values.F_c, C_D=cases.C_D, **frame.factors.compression
    )
    return judge_lateral(
        calculation,
        lateral,
        state,
        support.mark,
        key="post.end_bearing_lateral",
        demand=f_c,
        capacity=run(end_bearing_without_plate, F_c_star=F_c_star),
        unit=PSI,
        says=_says(foot),
        notes=(NOTE,),
        slack=slack,
    )
