"""Steps that the checks of level loads share: the level force on a support, its load, the worse of two states."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any

import numpy as np

from bolewright.bracing.plan import seat_movement, support_level_force, support_movement
from bolewright.bracing.standing import load_with_sway
from bolewright.bracing.tie import friction_force, movement_apart
from bolewright.calculation import Calculation
from bolewright.mechanics.ties import exceeds
from bolewright.platform.check import Check, judge
from bolewright.platform.combine import Array
from bolewright.platform.level_stiffness import run_bolt_stiffness, run_post_stiffness
from bolewright.platform.level_supports import BoltFrame, PostFrame
from bolewright.platform.level_tees import run_lean
from bolewright.platform.plan_give import JOINT_NOTE
from bolewright.platform.sideways import Sideways, State
from bolewright.units import Unit

Run = Callable[..., Any]
HALF_NOTE = (
    "Level load: wind (ASCE 7-16) and the sway of people as a share of the live load, in all directions, shared by "
    "the supports in proportion to their stiffness through a deck that is stiff in plan. " + JOINT_NOTE
)


def start(sideways: Sideways) -> Calculation:
    """A calculation over one part and all cases."""
    return Calculation((1, sideways.cases.count))


def run_movement(run: Run, state: State, i: int, which: int) -> Array:
    """Movement of what sits on a support in one of its directions."""
    spring = state.springs[i]
    u_x, u_y, theta = state.movement[:, None, :]
    c, s = spring.axes[which]
    delta = run(support_movement, u_x=u_x, u_y=u_y, theta=theta, x=spring.x, y=spring.y, c=c, s=s)
    return np.asarray(run(seat_movement, delta=delta, y=state.lag[i, which][None, :]), dtype=float)


def run_apart(run: Run, sideways: Sideways, state: State, i: int, which: int) -> Array:
    """How far the platform and the stem under a tree bolt move apart in one of its directions."""
    delta = run_movement(run, state, i, which)
    return np.asarray(run(movement_apart, delta=delta, g=state.ground[i, which][None, :]), dtype=float)


def unprinted() -> Run:
    """A run whose steps are kept nowhere: what another check of the part has printed already."""
    return Calculation().run


def run_level_force(
    run: Run, sideways: Sideways, state: State, i: int, which: int, *, full: bool = False
) -> Array:
    """Level force of the platform on a support in one of its directions.

    ``full`` prints the stiffness that it comes from. A bearing that slides that way passes friction only.
    """
    frame = sideways.frames[i]
    k = float(state.springs[i].k[which])
    if isinstance(frame, BoltFrame):
        if full:
            run_bolt_stiffness(run, frame, which)
        if k == 0.0:
            R = np.maximum(sideways.most[i], 0.0)[None, :]
            H_t = sideways.tie[i][None, :]
            return np.asarray(run(friction_force, mu=frame.support.friction, R=R, H_t=H_t), dtype=float)
    else:
        if full:
            run_post_stiffness(run, frame, which, state.foot)
        if k == 0.0:
            return np.zeros((1, sideways.cases.count))
    delta = run_movement(run, state, i, which)
    g = state.ground[i, which][None, :]
    if isinstance(frame, PostFrame) and frame.tee and which == 0:
        g = run_lean(run, frame, state.foot, state.head[i][None, :])
    return np.asarray(run(support_level_force, k=k, delta=delta, g=g), dtype=float)


def run_load(run: Run, state: State, i: int, weight: Array, *, foot: bool) -> Array:
    """Load on a support with overturning and knees, at a post's foot or at its cap."""
    kick = state.kick if foot else state.cap
    R_o, R_k = state.over[i][None, :], kick[i][None, :]
    return np.asarray(run(load_with_sway, R=weight[None, :], R_o=R_o, R_k=R_k), dtype=float)


def judge_level(
    calculation: Calculation,
    sideways: Sideways,
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
) -> Check:
    """The check of one part over all cases; says which push governs and how feet and joints are taken."""
    both = len(sideways.states) > 1
    taken = f"; {state.words}" if both else ""
    return judge(
        calculation,
        [part],
        sideways.cases.names,
        key=key,
        at=at,
        demand=demand,
        capacity=capacity,
        unit=unit,
        clause=clause,
        says=says,
        where=lambda row, column: sideways.cases.words[column] + taken,
        notes=notes,
        nothing=nothing,
    )[0]


def worse(checks: Iterable[Check]) -> list[Check]:
    """Of checks of one part in one limit state the one with the largest ratio, in the order they came."""
    kept: dict[tuple[str, str], Check] = {}
    for check in checks:
        key = (check.part, check.limit_state)
        if key not in kept or exceeds(check.severity, kept[key].severity):
            kept[key] = check
    return list(kept.values())
