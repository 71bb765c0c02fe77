"""Uplift of a post into its concrete: bolts through its foot by the yield limit, or a rated anchor.

Bolts pull along the grain: a row of them may tear out of the foot (NDS 2018, Appendix E), or the net section may part
(3.8). Lateral force passes from the post's faces to the concrete round it, not through the bolts: 3.4.3.3, which is for
connections that press across the grain, does not apply to them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np

from bolewright.calculation import Calculation
from bolewright.fasteners.adjusted import connection_value
from bolewright.fasteners.bearing_lengths import Shear
from bolewright.fasteners.connectors import bolt
from bolewright.fasteners.lateral import lateral_design_value
from bolewright.fasteners.members import Concrete, Wood
from bolewright.fasteners.tear_out import critical_spacing, row_tear_out
from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.checks.lateral import (
    judge_lateral,
    run_load,
    start,
    under_weight,
    weight_on,
    worse,
)
from bolewright.platform.checks.seats import LIFTS
from bolewright.platform.limit_states.check import Check, not_checked, nothing_asked
from bolewright.platform.loads.combine import Array
from bolewright.platform.project import Footing
from bolewright.timber.adjusted_values import adjusted_shear, adjusted_tension
from bolewright.timber.combined import tension_stress
from bolewright.units import POUND, PSI

KEY = "post.foot_uplift"
TEAR_KEY, NET_KEY = "post.foot_tear_out", "post.foot_net_tension"
END, APART = (
    7.0,
    4.0,
)  # diameters: end distance in tension and spacing in the row (NDS 2018, Tables 12.5.1A and B)
HOLE = 1 / 16  # in: a bolt's hole is wider than it (NDS 2018, 12.1.3.2)
LEAST_F_C = 2500.0  # psi: F_e of 7500 psi wants as much (NDS 2018, Table 12E)
TEAR_NOTE = (
    "The bolts stand one above the other, the lowest seven diameters above the post's end and the next four apart; all "
    "the pull is along the grain. Lateral force presses the post's faces on the concrete round it and does not pass "
    "through the bolts, so that shear at a connection (NDS 2018, 3.4.3.3) is not in them."
)
BOLT_NOTE = (
    "Bolts through the post stick out into the concrete on both sides, six diameters at least (NDS 2018, 12.3.1, Table "
    "12E), and stand seven diameters or more above its end, four apart, 1 1/2 from its sides (Tables 12.5.1A to C); "
    "bond of the concrete to the wood is not counted. Wet."
)


def post_base_checks(lateral: LateralAnalysis) -> list[Check]:
    """Uplift of every post into its concrete, under weight alone and with wind and sway."""
    if lateral.loose:
        return []
    return [
        check
        for i, frame in enumerate(lateral.frames)
        if isinstance(frame, PostFrame)
        for check in _foot(lateral, i, frame)
    ]


@dataclass(frozen=True)
class _Load:
    """Load at a post's foot in all cases of one kind (lb), below zero where it lifts, and what judges its checks."""

    calculation: Calculation
    P: Array
    C_D: Array
    judged: Callable[..., Check]

    @property
    def least(self) -> float:
        """The least of all cases."""
        return float(self.P.min())


def _foot(lateral: LateralAnalysis, i: int, frame: PostFrame) -> list[Check]:
    mark, post = frame.support.mark, frame.post
    footing = lateral.path.layout.project.footings[frame.support.footing or ""]
    loads = (_with_sway(lateral, i, frame), _under_weight(lateral, i, frame))
    least = min(load.least for load in loads)
    if least >= -LIFTS and post.foot_tie is None and post.foot_bolts is None:
        sentence = f"{mark} stays down in its concrete: its least load is {least:,.0f} lb."
        return [nothing_asked(mark, KEY, sentence, least=least, unit=POUND)]
    reason = _unknown(frame, footing, -least)
    if reason:
        return [not_checked(mark, KEY, reason)]
    return worse(check for load in loads for check in _pulled(frame, footing, load))


def _with_sway(lateral: LateralAnalysis, i: int, frame: PostFrame) -> _Load:
    """The state with the least load under wind and sway."""
    found = []
    for state in lateral.states:
        for weight, slack in weight_on(lateral, i, most=False, foot=True):
            calculation = start(lateral)
            P = run_load(calculation.run, state, i, weight, foot=True, slack=slack)
            judged = partial(
                judge_lateral, lateral=lateral, state=state, part=frame.support.mark, slack=slack
            )
            found.append(_Load(calculation, P, lateral.cases.C_D, judged))
    return min(found, key=lambda load: load.least)


def _under_weight(lateral: LateralAnalysis, i: int, frame: PostFrame) -> _Load:
    """The least load by itself, one person at the worst place too, with knees that take up weight or have slack."""
    lifted = under_weight(lateral, i, frame.support.mark)
    return _Load(lifted.calculation, lifted.R, lifted.C_D, lifted.judged)


def _pulled(frame: PostFrame, footing: Footing, load: _Load) -> list[Check]:
    """Bolts or anchor, and the wood at the bolts, under what lifts the foot."""
    T = np.maximum(-load.P, 0.0)
    wood = []
    if frame.post.foot_tie is None:
        wood = [check(frame, load, load.calculation.branch(), T) for check in (_tear_out, _net_tension)]
    capacity, notes = _capacity(frame, footing, load)
    bolts = load.judged(
        calculation=load.calculation,
        key=KEY,
        demand=T,
        capacity=capacity,
        unit=POUND,
        says="uplift of its foot",
        notes=notes,
        clause="Rated load, entered by the user" if frame.post.foot_tie is not None else "",
    )
    return [bolts, *wood]


def _tear_out(frame: PostFrame, load: _Load, calculation: Calculation, T: Array) -> Check:
    """The row of bolts torn out of the post's end along the grain."""
    run, post = calculation.run, frame.post
    n, D = post.foot_bolts or 1, post.foot_bolt_diameter or 0.5
    F_v_p = run(adjusted_shear, F_v=frame.values.F_v, C_D=load.C_D, **frame.factors.shear)
    s_crit = run(critical_spacing, a_end=END * D, s=APART * D) if n > 1 else END * D
    t = min(frame.section.b, frame.section.d)
    return load.judged(
        calculation=calculation,
        key=TEAR_KEY,
        demand=T,
        capacity=run(row_tear_out, n_i=float(n), F_v_p=F_v_p, t=t, s_crit=s_crit),
        unit=POUND,
        says="the tension on the bolts in its foot, along the grain,",
        notes=(TEAR_NOTE,),
    )


def _net_tension(frame: PostFrame, load: _Load, calculation: Calculation, T: Array) -> Check:
    """Tension on what the hole leaves of the post's foot; the hole may go through the greater side."""
    run, section = calculation.run, frame.section
    hole = (frame.post.foot_bolt_diameter or 0.5) + HOLE
    f_t = run(tension_stress, T=T, A_n=section.A - hole * max(section.b, section.d))
    F_t_p = run(adjusted_tension, F_t=frame.values.F_t, C_D=load.C_D, **frame.factors.tension)
    return load.judged(
        calculation=calculation,
        key=NET_KEY,
        demand=f_t,
        capacity=F_t_p,
        unit=PSI,
        says="tension on the net section at the bolts of its foot",
    )


def _unknown(frame: PostFrame, footing: Footing, lift: float) -> str:
    """Why the uplift of a foot cannot be checked; empty where it can."""
    post, mark = frame.post, frame.support.mark
    if post.foot_bolts is not None and post.foot_tie is None:
        if footing.fill != "concrete":
            return (
                f"The foot of {mark} stands in soil on its pad: bolts through it hold nothing there. Fill the hole "
                "with concrete, or enter foot_tie, the rated uplift of its anchor in the pad."
            )
        if footing.f_c < LEAST_F_C:
            return f"Bolts in the foot of {mark} want concrete of {LEAST_F_C:,.0f} psi or more (NDS 2018, Table 12E)."
        return ""
    if post.foot_tie is None:
        return (
            f"{mark} is lifted by up to {lift:,.0f} lb out of its concrete: enter foot_bolts and foot_bolt_diameter, "
            "bolts through the post that stick out into the concrete, or foot_tie, the rated uplift of an anchor."
        )
    return ""


def _capacity(frame: PostFrame, footing: Footing, load: _Load) -> tuple[Any, tuple[str, ...]]:
    post = frame.post
    if post.foot_tie is not None:
        return post.foot_tie, ()
    D = post.foot_bolt_diameter or 0.5
    side = max((footing.width - frame.section.d) / 2, 0.5)
    fastener = bolt(D, frame.section.d + 12 * D)
    one = lateral_design_value(
        fastener,
        Concrete(min(side, 6 * D), footing.f_c),
        Wood(min(frame.section.b, frame.section.d), frame.values.G, theta=0.0, name="post"),
        shear=Shear.DOUBLE,
        C_D=load.C_D,
        calculation=load.calculation,
    )
    total = load.calculation.run(connection_value, n=float(post.foot_bolts or 0), Z_p=one.Z_adj)
    return total, (BOLT_NOTE, *one.notes)
