"""Caps of posts under wind and sway: lateral force, bearing, rotation of the beam, uplift against a tie."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.beam import bearing_width_on_post
from bolewright.bracing.standing import resultant_lateral_force
from bolewright.bracing.tie import hold_down_force
from bolewright.calculation import Calculation
from bolewright.mechanics.ties import first_least, least_of
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.checks.lateral import (
    SLACK_NOTE,
    Run,
    judge_lateral,
    run_lateral_force,
    run_load,
    start,
    weight_on,
    worse,
)
from bolewright.platform.checks.post_forces import run_cap_force
from bolewright.platform.checks.rotation import (
    ROTATION_NOTE,
    Bearing,
    Pattern,
    bearing_of,
    patterns,
    run_rotation,
)
from bolewright.platform.checks.seats import LIFTS
from bolewright.platform.file.gussets import GUSSET_NOTE, gusset_tie
from bolewright.platform.layout.contact import contact_at
from bolewright.platform.layout.parts import Member
from bolewright.platform.limit_states.check import Check, not_checked, nothing_asked
from bolewright.platform.loads.combine import Array
from bolewright.status import Status
from bolewright.timber.adjusted_values import adjusted_bearing
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bearing import bearing_stress
from bolewright.units import POUND, POUND_INCH, PSI

CROSSED_NOTE = "Beams in two directions meet on this post: each keeps the other upright."


def cap_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of every post's cap under wind and sway."""
    if lateral.loose:
        return []
    return [
        check
        for i, frame in enumerate(lateral.frames)
        if isinstance(frame, PostFrame)
        for check in _fittings(lateral, i, frame)
    ]


def _fittings(lateral: LateralAnalysis, i: int, frame: PostFrame) -> list[Check]:
    mark, post = frame.support.mark, frame.post
    checks: list[Check] = []
    if post.cap_lateral is None:
        most = max(
            float(run_cap_resultant(start(lateral).run, lateral, s, i, frame).max()) for s in lateral.states
        )
        checks.append(
            not_checked(
                mark,
                "post.cap_lateral",
                f"The cap of {mark} passes up to {most:,.0f} lb lateral: enter its rated side load as cap_lateral.",
            )
        )
    else:
        checks += worse(_cap(lateral, s, i, frame, post.cap_lateral) for s in lateral.states)
    loads = weight_on(lateral, i, most=True, foot=False)
    checks += worse(_bearing(lateral, s, i, frame, load) for s in lateral.states for load in loads)
    beam, seat = lateral.path.layout.on_support(mark)[0]
    at = bearing_of(lateral.path, beam, seat)
    turning = cap_patterns(lateral, i, at)
    checks += worse(_rotation(lateral, s, i, frame, at, turning) for s in lateral.states)
    checks.append(_cap_uplift(lateral, i, frame))
    return checks


def run_cap_resultant(
    run: Run, lateral: LateralAnalysis, state: State, i: int, frame: PostFrame, *, slack: bool = False
) -> Array:
    """Lateral load that the cap of a post passes, from both directions (lb)."""
    T = [run_cap_force(run, lateral, state, i, frame, which, slack=slack) for which in (0, 1)]
    return np.asarray(run(resultant_lateral_force, V_1=T[0], V_2=T[1]), dtype=float)


def _cap(lateral: LateralAnalysis, state: State, i: int, frame: PostFrame, rated: float) -> Check:
    calculation = start(lateral)
    T = run_cap_resultant(calculation.run, lateral, state, i, frame)
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        key="post.cap_lateral",
        demand=T,
        capacity=rated,
        unit=POUND,
        says="the lateral force on the cap",
    )


def cap_patterns(lateral: LateralAnalysis, i: int, at: Bearing) -> tuple[tuple[Pattern, bool], ...]:
    """Weight in the patterns that turn a beam most on a cap, with tight knees and with knees that have slack."""
    found = [(pattern, False) for on in lateral.tight for pattern in patterns(lateral, at, on.caps[i])]
    if len(weight_on(lateral, i, most=False, foot=False)) > 1:
        without = lateral.path.reactions[lateral.frames[i].support.mark]
        found += [(pattern, True) for pattern in patterns(lateral, at, without)]
    return tuple(found)


def _bearing(
    lateral: LateralAnalysis, state: State, i: int, frame: PostFrame, load: tuple[Array, bool]
) -> Check:
    """Bearing of the beam on the cap with what overturning and knees add."""
    weight, slack = load
    path = lateral.path
    beam, seat = path.layout.on_support(frame.support.mark)[0]
    values = path.effects[beam.mark].values
    group = factors(values, Service(wet=beam.timber.wet, incised=beam.timber.counts_incised))
    calculation = start(lateral)
    run = calculation.run
    R = np.maximum(run_load(run, state, i, np.maximum(weight, 0.0), foot=False, slack=slack), 0.0)
    b, l_b = contact_at(path.layout, beam, seat).sides(beam.line)
    f_c_perp = run(bearing_stress, R=R, b=min(b, _run_width(run, lateral, frame, beam)), l_b=l_b)
    F_c_perp_p = run(adjusted_bearing, F_c_perp=values.F_c_perp, C_b=1.0, **group.bearing)
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        key="post.cap_bearing_lateral",
        at=beam.mark,
        demand=f_c_perp,
        capacity=F_c_perp_p,
        unit=PSI,
        says=f"bearing of {beam.mark} across its grain",
        slack=slack,
    )


def _run_width(run: Run, lateral: LateralAnalysis, frame: PostFrame, beam: Member) -> float:
    """Width of a beam on a post; less than the beam's where the post is narrower, or off its line (in)."""
    off = lateral.path.layout.off_line(frame.support.mark)
    post = min(frame.section.b, frame.section.d)
    if post - 2 * off >= beam.width:
        return beam.width
    return max(float(run(bearing_width_on_post, b=beam.width, b_p=post, o=off)), 0.1)


def _rotation(
    lateral: LateralAnalysis,
    state: State,
    i: int,
    frame: PostFrame,
    at: Bearing,
    turning: tuple[tuple[Pattern, bool], ...],
) -> Check:
    """Rotation of the beam on the cap: across it the lateral force comes in at its top."""
    mark, beam = frame.support.mark, at.beam
    calculation = start(lateral)
    run = calculation.run
    V = np.abs(run_lateral_force(run, lateral, state, i, 1))
    tie = frame.post.rotation_tie or 0.0
    if frame.post.gusset is not None:
        tie = gusset_tie(frame.post, lateral.cases.C_D, calculation)
    found = []
    for pattern, slack in ((one.under(state), loose) for one, loose in turning):
        turned = calculation.branch()
        R = np.maximum(run_load(turned.run, state, i, pattern.R, foot=False, slack=slack), 0.0)
        M_r, M_a = run_rotation(turned, lateral.path, at, V, pattern, R, tie)
        found.append(
            judge_lateral(
                turned,
                lateral,
                state,
                mark,
                key="post.cap_rotation",
                at=beam.mark,
                demand=M_r,
                capacity=M_a,
                unit=POUND_INCH,
                says=f"the rotation of {beam.mark}",
                notes=(
                    ROTATION_NOTE,
                    *((SLACK_NOTE,) if len(turning) > 2 or slack else ()),
                    *((CROSSED_NOTE,) if frame.depth == 0 else ()),
                    *((GUSSET_NOTE,) if frame.post.gusset else ()),
                ),
                nothing=f"nothing holds {beam.mark} against turning over on it: wind lifts the weight off",
                slack=slack,
            )
        )
    check = max(found, key=lambda one: one.severity)
    if frame.post.rotation_tie is None and frame.post.gusset is None and check.status is Status.FAILS:
        return not_checked(
            frame.support.mark,
            "post.cap_rotation",
            f"{beam.mark} is {beam.section.d:g} in tall and {beam.width:g} in wide and can turn over on "
            f"{frame.support.mark}: its weight holds {check.capacity:,.0f} of {check.demand:,.0f} lb·in. Tie each "
            "side down to the post with a strap or angle and enter its rated load as rotation_tie, or nail a gusset to "
            "each side and enter it as gusset.",
            at=beam.mark,
        )
    return check


def _cap_uplift(lateral: LateralAnalysis, i: int, frame: PostFrame) -> Check:
    """Least load on the cap with wind and sway, against the tie that the user entered."""
    calculations = []
    for state in lateral.states:
        for weight, slack in weight_on(lateral, i, most=False, foot=False):
            calculation = start(lateral)
            R = run_load(calculation.run, state, i, weight, foot=False, slack=slack)
            calculations.append((state, calculation, R))
    state, calculation, R = least_of(calculations, lambda item: float(item[2].min()))
    return uplift_against_tie(
        lateral, state, calculation, R, frame.support.mark, "post.uplift_lateral", frame.support.uplift_tie
    )


def uplift_against_tie(
    lateral: LateralAnalysis,
    state: State,
    calculation: Calculation,
    load: Array,
    mark: str,
    key: str,
    tie: float | None,
    least: float = 0.0,
) -> Check:
    """Uplift with wind and sway against a tie's rated load; ``load`` is the least load, ``least`` asked in any case."""
    need = np.maximum(np.maximum(-load, 0.0), least)
    case = first_least(load[0])
    if least:  # of cases that ask the same the one with the least load is printed
        asked = np.asarray(calculation.run(hold_down_force, R=load, U_0=least), dtype=float)
        need = np.where(np.arange(load.size) == case, asked, np.maximum(-load, 0.0))
    if need.max() <= LIFTS:
        sentence = (
            f"What bears on {mark} stays down: its least load with wind and sway is {max(load.min(), 0.0):,.0f} lb "
            f"({lateral.cases.names[case]}, {lateral.cases.words[case]})."
        )
        left, name = max(float(load.min()), 0.0), lateral.cases.names[case]
        return nothing_asked(mark, key, sentence, least=left, unit=POUND, case=name)
    if tie is None:
        return not_checked(
            mark,
            key,
            f"{mark} wants a tie or hold-down clip against {need.max():,.0f} lb of uplift "
            f"({lateral.cases.names[case]}, "
            f"{lateral.cases.words[case]}): enter its rated load as uplift_tie.",
        )
    return judge_lateral(
        calculation,
        lateral,
        state,
        mark,
        key=key,
        demand=need,
        capacity=tie,
        unit=POUND,
        says="uplift on its tie",
    )
