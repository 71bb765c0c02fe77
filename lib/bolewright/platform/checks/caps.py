"""Caps of posts under wind and sway: level force, bearing, roll of the carrier, uplift against a tie."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.carrier import bearing_width_on_post
from bolewright.bracing.standing import resultant_level_force
from bolewright.calculation import Calculation
from bolewright.mechanics.ties import first_least, least_of
from bolewright.platform.check import Check, not_checked, nothing_asked
from bolewright.platform.checks.level import Run, judge_level, run_level_force, run_load, start, worse
from bolewright.platform.checks.post_forces import run_cap_force
from bolewright.platform.checks.rotation import (
    ROTATION_NOTE,
    bearing_of,
    patterns,
    run_rotation,
)
from bolewright.platform.checks.seats import LIFTS
from bolewright.platform.combine import Array
from bolewright.platform.contact import contact_at
from bolewright.platform.gussets import GUSSET_NOTE, gusset_tie
from bolewright.platform.level_supports import PostFrame
from bolewright.platform.parts import Member
from bolewright.platform.sideways import Sideways, State
from bolewright.status import Status
from bolewright.timber.adjusted_values import adjusted_bearing
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bearing import bearing_stress
from bolewright.units import POUND, POUND_INCH, PSI

CROSSED_NOTE = "Beams in two directions meet on this post: each keeps the other upright."


def cap_checks(sideways: Sideways) -> list[Check]:
    """Checks of every post's cap under wind and sway."""
    if sideways.loose:
        return []
    return [
        check
        for i, frame in enumerate(sideways.frames)
        if isinstance(frame, PostFrame)
        for check in _fittings(sideways, i, frame)
    ]


def _fittings(sideways: Sideways, i: int, frame: PostFrame) -> list[Check]:
    mark, post = frame.support.mark, frame.post
    checks: list[Check] = []
    if post.cap_side is None:
        most = max(
            float(run_cap_resultant(start(sideways).run, sideways, s, i, frame).max())
            for s in sideways.states
        )
        checks.append(
            not_checked(
                mark,
                "post.cap_lateral",
                f"The cap of {mark} passes up to {most:,.0f} lb sideways: enter its rated side load as cap_side.",
            )
        )
    else:
        checks += worse(_cap(sideways, s, i, frame, post.cap_side) for s in sideways.states)
    checks += worse(_bearing(sideways, s, i, frame) for s in sideways.states)
    checks += worse(_roll(sideways, s, i, frame) for s in sideways.states)
    checks.append(_cap_uplift(sideways, i, frame))
    return checks


def run_cap_resultant(run: Run, sideways: Sideways, state: State, i: int, frame: PostFrame) -> Array:
    """Lateral load that the cap of a post passes, from both directions (lb)."""
    T = [run_cap_force(run, sideways, state, i, frame, which) for which in (0, 1)]
    return np.asarray(run(resultant_level_force, V_1=T[0], V_2=T[1]), dtype=float)


def _cap(sideways: Sideways, state: State, i: int, frame: PostFrame, rated: float) -> Check:
    calculation = start(sideways)
    T = run_cap_resultant(calculation.run, sideways, state, i, frame)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        key="post.cap_lateral",
        demand=T,
        capacity=rated,
        unit=POUND,
        says="the level force on the cap",
    )


def _bearing(sideways: Sideways, state: State, i: int, frame: PostFrame) -> Check:
    """Bearing of the carrier on the cap with what overturning and knees add."""
    path = sideways.path
    carrier, seat = path.layout.on_support(frame.support.mark)[0]
    values = path.effects[carrier.mark].values
    group = factors(values, Service(wet=carrier.timber.wet, incised=carrier.timber.counts_incised))
    calculation = start(sideways)
    run = calculation.run
    R = np.maximum(run_load(run, state, i, np.maximum(sideways.cap_most[i], 0.0), foot=False), 0.0)
    b, l_b = contact_at(path.layout, carrier, seat).sides(carrier.line)
    f_c_perp = run(bearing_stress, R=R, b=min(b, _run_width(run, sideways, frame, carrier)), l_b=l_b)
    F_c_perp_p = run(adjusted_bearing, F_c_perp=values.F_c_perp, C_b=1.0, **group.bearing)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        key="post.cap_bearing_lateral",
        at=carrier.mark,
        demand=f_c_perp,
        capacity=F_c_perp_p,
        unit=PSI,
        says=f"bearing of {carrier.mark} across its grain",
    )


def _run_width(run: Run, sideways: Sideways, frame: PostFrame, carrier: Member) -> float:
    """Width of a carrier on a post; less than the carrier's where the post is narrower, or off its line (in)."""
    off = sideways.path.layout.off_line(frame.support.mark)
    post = min(frame.section.b, frame.section.d)
    if post - 2 * off >= carrier.width:
        return carrier.width
    return max(float(run(bearing_width_on_post, b=carrier.width, b_p=post, o=off)), 0.1)


def _roll(sideways: Sideways, state: State, i: int, frame: PostFrame) -> Check:
    """Rotation of the beam on the cap: across it the level force comes in at its top."""
    layout, mark = sideways.path.layout, frame.support.mark
    carrier, seat = layout.on_support(mark)[0]
    calculation = start(sideways)
    run = calculation.run
    V = np.abs(run_level_force(run, sideways, state, i, 1))
    tie = frame.post.roll_tie or 0.0
    if frame.post.gusset is not None:
        tie = gusset_tie(frame.post, sideways.cases.C_D, calculation)
    at = bearing_of(sideways.path, carrier, seat)
    found = []
    for pattern in patterns(sideways, state, at, sideways.knee_influence.caps[i]):
        turned = calculation.branch()
        R = np.maximum(run_load(turned.run, state, i, pattern.R, foot=False), 0.0)
        M_r, M_a = run_rotation(turned, sideways.path, at, V, pattern, R, tie)
        found.append(
            judge_level(
                turned,
                sideways,
                state,
                mark,
                key="post.cap_rotation",
                at=carrier.mark,
                demand=M_r,
                capacity=M_a,
                unit=POUND_INCH,
                says=f"the rotation of {carrier.mark}",
                notes=(
                    ROTATION_NOTE,
                    *((CROSSED_NOTE,) if frame.depth == 0 else ()),
                    *((GUSSET_NOTE,) if frame.post.gusset else ()),
                ),
                nothing=f"nothing holds {carrier.mark} against turning over on it: wind lifts the weight off",
            )
        )
    check = max(found, key=lambda one: one.severity)
    if frame.post.roll_tie is None and frame.post.gusset is None and check.status is Status.FAILS:
        return not_checked(
            frame.support.mark,
            "post.cap_rotation",
            f"{carrier.mark} is {carrier.section.d:g} in tall and {carrier.width:g} in wide and can turn over on "
            f"{frame.support.mark}: its weight holds {check.capacity:,.0f} of {check.demand:,.0f} lb·in. Tie each "
            "side down to the post with a strap or angle and enter its rated load as roll_tie, or nail a gusset to "
            "each side and enter it as gusset.",
            at=carrier.mark,
        )
    return check


def _cap_uplift(sideways: Sideways, i: int, frame: PostFrame) -> Check:
    """Least load on the cap with wind and sway, against the tie that the user entered."""
    calculations = []
    for state in sideways.states:
        calculation = start(sideways)
        R = run_load(calculation.run, state, i, sideways.cap_least[i], foot=False)
        calculations.append((state, calculation, R))
    state, calculation, R = least_of(calculations, lambda item: float(item[2].min()))
    return uplift_against_tie(
        sideways, state, calculation, R, frame.support.mark, "post.uplift_lateral", frame.support.uplift_tie
    )


def uplift_against_tie(
    sideways: Sideways,
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
    if need.max() <= LIFTS:
        sentence = (
            f"{mark} stays down: its least load with wind and sway is {max(load.min(), 0.0):,.0f} lb "
            f"({sideways.cases.names[case]}, {sideways.cases.words[case]})."
        )
        left, name = max(float(load.min()), 0.0), sideways.cases.names[case]
        return nothing_asked(mark, key, sentence, least=left, unit=POUND, case=name)
    if tie is None:
        return not_checked(
            mark,
            key,
            f"{mark} wants a tie or keeper against {need.max():,.0f} lb of uplift ({sideways.cases.names[case]}, "
            f"{sideways.cases.words[case]}): enter its rated load as uplift_tie.",
        )
    return judge_level(
        calculation,
        sideways,
        state,
        mark,
        key=key,
        demand=need,
        capacity=tie,
        unit=POUND,
        says="uplift on its tie",
    )
