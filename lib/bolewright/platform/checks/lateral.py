"""Steps that the checks of lateral loads share: the lateral force on a support, its load, the worse of two states."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from bolewright.bracing.knee import push_by_knees, with_more_by_knees
from bolewright.bracing.plan import seat_movement, support_lateral_force, support_movement
from bolewright.bracing.standing import load_with_sway
from bolewright.bracing.tie import friction_force, movement_apart
from bolewright.bracing.trunk_brace import part_along, with_brace_compression, with_thrust_either_way
from bolewright.bracing.wind import with_wind_on_braces
from bolewright.calculation import Calculation
from bolewright.mechanics.ties import exceeds
from bolewright.platform.analysis.brace_compression import STILL, Thrust, heads_over, ties
from bolewright.platform.analysis.brace_wind import run_wind_at_foot
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_stiffness import run_bolt_stiffness, run_post_stiffness
from bolewright.platform.analysis.lateral_supports import BoltFrame, BraceFrame, PostFrame
from bolewright.platform.analysis.lateral_tees import run_lean
from bolewright.platform.analysis.plan_give import JOINT_NOTE
from bolewright.platform.layout.trunk_braces import TrunkBrace
from bolewright.platform.limit_states import limit_state
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.combine import Array, envelope, uplift_cases
from bolewright.units import Unit

Run = Callable[..., Any]
Load = tuple[Array, bool]
"""Weight on a support in every case, and whether with knees that have slack and take none of it."""
SLACK_NOTE = (
    "Knees are taken as they take up weight, and as if they had slack and took none; the worse counts."
)
HALF_NOTE = (
    "Lateral load: wind (ASCE 7-16) and the sway of people as a share of the live load, in all directions, shared by "
    "the supports in proportion to their stiffness through a deck that is stiff in plan. " + JOINT_NOTE
)


def start(lateral: LateralAnalysis) -> Calculation:
    """A calculation over one part and all cases."""
    return Calculation((1, lateral.cases.count))


def run_movement(run: Run, state: State, i: int, which: int) -> Array:
    """Movement of what sits on a support in one of its directions."""
    spring = state.springs[i]
    u_x, u_y, theta = state.movement[:, None, :]
    c, s = spring.axes[which]
    delta = run(support_movement, u_x=u_x, u_y=u_y, theta=theta, x=spring.x, y=spring.y, c=c, s=s)
    return np.asarray(run(seat_movement, delta=delta, y=state.lag[i, which][None, :]), dtype=float)


def run_apart(run: Run, lateral: LateralAnalysis, state: State, i: int, which: int) -> Array:
    """How far the platform and the trunk under a tree bolt move apart in one of its directions."""
    delta = run_movement(run, state, i, which)
    return np.asarray(run(movement_apart, delta=delta, g=state.ground[i, which][None, :]), dtype=float)


def unprinted() -> Run:
    """A run whose steps are kept nowhere: what another check of the part has printed already."""
    return Calculation().run


def run_lateral_force(
    run: Run, lateral: LateralAnalysis, state: State, i: int, which: int, *, full: bool = False
) -> Array:
    """Lateral force of the platform on a support in one of its directions.

    ``full`` prints the stiffness that it comes from. A bearing that slides that way passes friction only.
    """
    frame = lateral.frames[i]
    held = bool(state.k[i, which].any())
    thrust = lateral.thrusts.get(frame.support.mark)
    if thrust is not None:
        return _with_thrust(run, lateral, state, i, which, thrust, full=full)
    if isinstance(frame, BraceFrame):
        return np.zeros((1, lateral.cases.count))
    if isinstance(frame, BoltFrame):
        if full:
            run_bolt_stiffness(run, frame, which, state.bed)
        if not held:
            return _run_friction(run, lateral, i)
    else:
        if full:
            run_post_stiffness(run, frame, which, state.foot, state.pulled[i, which][None, :])
        if not held:
            return np.zeros((1, lateral.cases.count))
    return _run_spring(run, lateral, state, i, which)


def _with_thrust(
    run: Run, lateral: LateralAnalysis, state: State, i: int, which: int, thrust: Thrust, *, full: bool
) -> Array:
    """Lateral force on a bolt that knee braces draw or press: on a tie that of its spring too.

    On a foot under two braces that lean apart they also take, on the safe side, all lateral force along their beam;
    half of the wind on the braces themselves comes to it in any direction.
    """
    frame = lateral.frames[i]
    assert isinstance(frame, BoltFrame)
    none = np.zeros((1, lateral.cases.count))
    if frame.braces:
        H = none
        if len(frame.braces) > 1 and abs(thrust.c[which]) > STILL:
            along = run_beam_lateral(lateral, state, frame.braces[0])
            H = np.asarray(run(part_along, T=along, c=abs(thrust.c[which])))
        H_w = run_wind_at_foot(run, lateral.path, lateral.winds, lateral.cases.W, frame.braces)
        H = np.asarray(run(with_wind_on_braces, H=H, H_w=H_w))
    elif float(state.springs[i].k[which]):
        if full:
            run_bolt_stiffness(run, frame, which, state.bed)
        H = _run_spring(run, lateral, state, i, which)
    else:
        H = _run_friction(run, lateral, i)
    if abs(thrust.c[which]) <= STILL:
        return H
    over = heads_over(lateral.frames, thrust.braces, state.over + state.cap)
    T = thrust.run(run, over, H[0], which)
    both = with_thrust_either_way if frame.braces else with_brace_compression
    return np.asarray(run(both, H=H, T=T), dtype=float)


def _run_friction(run: Run, lateral: LateralAnalysis, i: int) -> Array:
    """Friction that a bearing which slides passes on."""
    R = np.maximum(np.maximum(lateral.most[i], lateral.slack_most[i]), 0.0)[None, :]
    mu = lateral.frames[i].support.friction
    return np.asarray(run(friction_force, mu=mu, R=R, H_t=lateral.tie[i][None, :]), dtype=float)


def run_beam_lateral(lateral: LateralAnalysis, state: State, brace: TrunkBrace) -> Array:
    """Lateral force along the beam of a brace at the bolts that tie it, each without sign (1, cases), lb."""
    u = np.array(brace.beam.line.u)
    total = np.zeros((1, lateral.cases.count))
    for frame in ties(lateral.path, lateral.frames, brace):
        i = lateral.row(frame.support.mark)
        total = total + np.abs(u @ (state.springs[i].axes.T @ lateral.with_push(state)[i]))[None, :]
    return total


def _run_spring(run: Run, lateral: LateralAnalysis, state: State, i: int, which: int) -> Array:
    """Lateral force by the movement and the stiffness of a support."""
    frame = lateral.frames[i]
    k = state.k[i, which][None, :] if lateral.crossed else float(state.springs[i].k[which])
    delta = run_movement(run, state, i, which)
    g = state.ground[i, which][None, :]
    if isinstance(frame, PostFrame) and frame.tee and which == 0:
        g = run_lean(run, frame, state.foot, state.head[i][None, :])
    V = np.asarray(run(support_lateral_force, k=k, delta=delta, g=g), dtype=float)
    return run_with_push(run, lateral, state, i, which, V)


def run_with_push(run: Run, lateral: LateralAnalysis, state: State, i: int, which: int, V: Array) -> Array:
    """The force of a spring with what knees under weight push on it, where that makes it greater."""
    if not lateral.pushed:
        return V
    more = lateral.pushed_more[state.words].get((i, which))
    if more is not None:
        return np.asarray(run(with_more_by_knees, V=V, T=more[None, :]), dtype=float) if more.any() else V
    if not lateral.pushed[state.words][..., i, which].any():
        return V
    cases = lateral.cases
    T_D, T_L, T_S, T_G = lateral.push_parts(state, i, which)[:, None, :]
    T = run(
        push_by_knees,
        c_D=cases.D[None, :], T_D=T_D, c_L=cases.L[None, :], T_L=T_L,
        c_S=cases.S[None, :], T_S=T_S, c_G=cases.G[None, :], T_G=T_G,
    )  # fmt: skip
    return np.asarray(run(with_brace_compression, H=V, T=T), dtype=float)


def weight_on(lateral: LateralAnalysis, i: int, *, most: bool, foot: bool) -> list[Load]:
    """Greatest or least weight on a support in every case, and whether with knees that have slack and take none.

    The knees' pull presses a beam on its cap, their push lifts it: that help is there only while they are tight.
    """
    rows = lateral.knee_influence.feet if foot else lateral.knee_influence.caps
    at_foot, at_cap = (lateral.most, lateral.cap_most) if most else (lateral.least, lateral.cap_least)
    found = [((at_foot if foot else at_cap)[i], False)]
    if not np.allclose(rows[i], lateral.path.reactions[lateral.frames[i].support.mark], atol=1e-9):
        found.append(((lateral.slack_most if most else lateral.slack_least)[i], True))
    return found


def run_least_by_weight(run: Run, lateral: LateralAnalysis, i: int) -> Array:
    """Least load at a post's foot in the cases of uplift by weight alone (1, cases), whether its knees take any or not.

    One person at the worst place is among them, which the cases with wind and sway leave out.
    """
    tight = [on.feet[i] for on in lateral.tight]
    rows = np.stack([lateral.path.reactions[lateral.frames[i].support.mark], *tight])
    least = envelope(lateral.path, rows).least(uplift_cases()).min(axis=1)
    return np.asarray(run(load_with_sway, R=least[None, :], R_o=0.0, R_k=0.0), dtype=float)


@dataclass(frozen=True)
class UnderWeight:
    """Least load at a post's foot or on a bolt by weight alone (1, cases), with C_D of the cases, and its checks."""

    part: str
    calculation: Calculation
    R: Array
    C_D: Array

    def judged(self, calculation: Calculation, **said: Any) -> Check:
        """The check of the part over the cases of uplift by weight alone."""
        names = [case.name for case in uplift_cases()]
        return judge(calculation, [self.part], names, **said)[0]


def under_weight(lateral: LateralAnalysis, i: int, part: str) -> UnderWeight:
    """What weight alone lifts at a support, one person at the worst place too, for the checks of a part."""
    cases = uplift_cases()
    calculation = Calculation((1, len(cases)))
    R = run_least_by_weight(calculation.run, lateral, i)
    return UnderWeight(part, calculation, R, np.array([case.C_D for case in cases]))


def run_load(run: Run, state: State, i: int, weight: Array, *, foot: bool, slack: bool = False) -> Array:
    """Load on a support with overturning and knees, at a post's foot or at its cap.

    With ``slack`` the knees bear lateral force, and nothing of weight and overturning.
    """
    brace_reaction = state.brace_reaction if foot else state.cap
    if slack:
        brace_reaction = brace_reaction - state.picked[0 if foot else 1]
    R_o, R_k = state.over[i][None, :], brace_reaction[i][None, :]
    return np.asarray(run(load_with_sway, R=weight[None, :], R_o=R_o, R_k=R_k), dtype=float)


def run_most_load(run: Run, lateral: LateralAnalysis, state: State, i: int) -> Array:
    """Greatest load at a support's cap or head in every case, with knees that take up weight or have slack."""
    kinds = weight_on(lateral, i, most=True, foot=False)
    weights = np.stack([np.maximum(weight, 0.0) for weight, _ in kinds])
    knees = np.stack([state.cap[i] - (state.picked[1][i] if slack else 0.0) for _, slack in kinds])
    pick = np.argmax(weights + knees, axis=0)[None, :]
    R, R_k = (np.take_along_axis(rows, pick, axis=0) for rows in (weights, knees))
    return np.asarray(run(load_with_sway, R=R, R_o=state.over[i][None, :], R_k=R_k), dtype=float)


def judge_lateral(
    calculation: Calculation,
    lateral: LateralAnalysis,
    state: State,
    part: str,
    *,
    key: str,
    demand: Any,
    capacity: Any,
    unit: Unit,
    says: str,
    at: str = "",
    clause: str = "",
    notes: Sequence[str] = (),
    nothing: str = "",
    slack: bool = False,
) -> Check:
    """The check of one part over all cases; says which push governs and how bases, joints and knees are taken."""
    both = len(lateral.states) > 1
    taken = (f"; {state.words}" if both else "") + ("; its knees with slack" if slack else "")
    return judge(
        calculation,
        [part],
        lateral.cases.names,
        key=key,
        at=at,
        demand=demand,
        capacity=capacity,
        unit=unit,
        clause=clause,
        says=says,
        where=lambda row, column: lateral.cases.words[column] + taken,
        notes=notes,
        nothing=nothing,
    )[0]


def open_while_loose(lateral: LateralAnalysis, part: str, key: str, at: str) -> Check:
    """A check at bolts that is open since nothing holds the platform laterally."""
    reason = (
        f"{part}: {limit_state(key).at(at)} is not checked: nothing holds the platform {lateral.loose}, so what comes "
        "to these bolts is not known."
    )
    return not_checked(part, key, reason, at=at)


def worse(checks: Iterable[Check]) -> list[Check]:
    """Of checks of one part in one limit state the one with the largest ratio, in the order they came."""
    kept: dict[tuple[str, str], Check] = {}
    for check in checks:
        key = (check.part, check.limit_state)
        if key not in kept or exceeds(check.severity, kept[key].severity):
            kept[key] = check
    return list(kept.values())
