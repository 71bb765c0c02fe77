"""Standing still sideways: what holds the platform, its drift, its deck in plan, its seats on carriers."""

from __future__ import annotations

import math

import numpy as np

from bolewright.bracing.plan import (
    plan_diagonal_force,
    plan_stiffness,
    support_movement,
)
from bolewright.bracing.standing import (
    MOST_P_DELTA,
    drift_limit,
    resultant_movement,
    second_order_ratio,
)
from bolewright.bracing.wind import occupant_sway
from bolewright.platform.check import Check, Topic, demand_capacity_ratio, not_checked
from bolewright.platform.checks.level import HALF_NOTE, judge_level, start, worse
from bolewright.platform.combine import Array
from bolewright.platform.level_loads import run_face, sway_patterns
from bolewright.platform.level_supports import PostFrame
from bolewright.platform.sideways import Sideways, State
from bolewright.units import INCH, NONE, POUND

CLAUSE = "ASCE 7-16, 2.4.1 (wind, occupant sway)"
REFERENCE = 1000.0  # lb, for a movement per force
DRIFT_NOTE = "The stem's own movement, where the platform is tied to it, is part of this drift."
FACE_NOTE = (
    "The wind on the largest face along x and along y is printed; the other faces are listed with the inputs."
)
BOARDS_NOTE = "Boards with open gaps are not counted on to keep the deck square."


def stability_checks(sideways: Sideways) -> list[Check]:
    """Checks of the platform as a whole; one sentence where nothing holds it sideways."""
    if sideways.loose:
        return [
            not_checked(
                "platform",
                Topic.STABILITY,
                "sideways",
                f"Nothing that this file declares holds the platform {sideways.loose}, so it can rack, roll or sway: "
                "the sheets show gravity only. Brace posts with knees ([[brace]]), count embedded posts "
                '(foot = "held"), or tie it to the tree (sideways = "tied").',
                CLAUSE,
            )
        ]
    return [
        *worse(_drift(sideways, state) for state in sideways.states),
        *worse(_p_delta(sideways, state) for state in sideways.states),
        *_plan(sideways),
    ]


def _drift(sideways: Sideways, state: State) -> Check:
    """Level movement of the corner of the floor that moves most."""
    project = sideways.path.layout.project
    calculation = start(sideways)
    run = calculation.run
    for wind in sideways.winds:
        run_face(run, sideways.path, max(wind.faces, key=lambda face: face.force))
    whole = sway_patterns(sideways.path)["the whole deck"][0]
    run(occupant_sway, s_L=project.loads.sway_share, L=whole)
    u_x, u_y, theta = state.movement[:, None, :]

    def size(corner: tuple[float, float]) -> float:
        return float(np.hypot(u_x - theta * corner[1], u_y + theta * corner[0]).max())

    x, y = max(project.platform.outline, key=size)
    moved = {"u_x": u_x, "u_y": u_y, "theta": theta, "x": x, "y": y}
    delta_x = run(support_movement, **moved, c=1.0, s=0.0)
    delta_y = run(support_movement, **moved, c=0.0, s=1.0)
    Delta = run(resultant_movement, delta_1=delta_x, delta_2=delta_y)
    allowed = run(drift_limit, h=project.platform.floor_height, n=project.limits.drift)
    run(demand_capacity_ratio, demand=Delta, capacity=allowed)
    return judge_level(
        calculation,
        sideways,
        state,
        "platform",
        topic=Topic.STABILITY,
        limit_state="drift",
        demand=Delta,
        capacity=allowed,
        unit=INCH,
        clause="Common practice",
        says="the drift of the floor",
        notes=(HALF_NOTE, FACE_NOTE, DRIFT_NOTE),
    )


def _p_delta(sideways: Sideways, state: State) -> Check:
    """Weight on the posts against the least level stiffness of the whole: does sway feed on itself?"""
    posts = [i for i, f in enumerate(sideways.frames) if isinstance(f, PostFrame)]
    if not posts:
        posts = list(range(len(sideways.frames)))
    P = np.maximum(sideways.most[posts], 0.0).sum(axis=0)[None, :]
    k = float(np.linalg.eigvalsh(plan_stiffness(list(state.springs))[:2, :2])[0])
    h = float(np.mean([sideways.path.layout.seat_level(sideways.frames[i].support.mark) for i in posts]))
    calculation = start(sideways)
    Q_s = calculation.run(second_order_ratio, P=P, Delta=REFERENCE / k, H=REFERENCE, h=h)
    calculation.run(demand_capacity_ratio, demand=Q_s, capacity=MOST_P_DELTA)
    return judge_level(
        calculation,
        sideways,
        state,
        "platform",
        topic=Topic.STABILITY,
        limit_state="sway feeding on itself (P-delta)",
        demand=Q_s,
        capacity=MOST_P_DELTA,
        unit=NONE,
        clause="Common practice (10 %)",
        says="the weight on the moved posts",
        notes=("Movement under a level force of 1000 lb in the softest direction.",),
    )


# ---------------------------------------------------------------------------------------------------------
# The deck in plan


def _plan(sideways: Sideways) -> list[Check]:
    """Crossed diagonals that carry level force across the carriers under the deck, from one end to the other."""
    layout = sideways.path.layout
    top = [c for c in layout.carriers if c.layer <= 1]
    angles = [2 * math.atan2(c.line.u[1], c.line.u[0]) for c in top]
    angle = math.atan2(sum(map(math.sin, angles)), sum(map(math.cos, angles))) / 2
    u = np.array([math.cos(angle), math.sin(angle)])
    t = np.array([-u[1], u[0]])
    if len({f.support.at for f in sideways.frames}) < 2 or len(layout.project.diagonals) == 0:
        return [
            not_checked(
                "platform",
                Topic.STABILITY,
                "deck square in plan",
                "Nothing keeps the deck square in plan: boards with open gaps are not counted on. Put a crossed "
                "pair of straps or flat bars under the joists ([[diagonal]] with from, to and rated_load).",
                "Statics",
            )
        ]
    checks: list[Check] = []
    for lean in (1, -1):
        cosines, rated = [], []
        for diagonal in layout.project.diagonals:
            along = np.array(diagonal.end) - np.array(diagonal.start)
            along = along / np.linalg.norm(along)
            along = along * (1 if along @ u > 0 else -1)
            if lean * (along @ t) > 0.1:
                cosines.append(abs(float(along @ t)))
                rated.append(diagonal.rated_load)
        if not cosines:
            return [
                not_checked(
                    "platform",
                    Topic.STABILITY,
                    "deck square in plan",
                    "The plan diagonals all lean one way, and a strap only pulls: cross them.",
                    "Statics",
                )
            ]
        checks += [_diagonal(sideways, state, u, t, sum(cosines), min(rated)) for state in sideways.states]
    return worse(checks)


def _diagonal(sideways: Sideways, state: State, u: Array, t: Array, C: float, rated: float) -> Check:
    places = np.array([f.support.at for f in sideways.frames]) @ u
    order = np.argsort(places)
    across = np.einsum("sac,sa->sc", state.force, np.array([s.axes @ t for s in state.springs]))
    passed = np.abs(np.cumsum(across[order], axis=0)[:-1])
    apart = np.diff(places[order]) > 12.0
    H = (passed[apart].max(axis=0) if apart.any() else np.zeros(sideways.cases.count))[None, :]
    calculation = start(sideways)
    F_d = calculation.run(plan_diagonal_force, H=H, C=C)
    calculation.run(demand_capacity_ratio, demand=F_d, capacity=rated)
    return judge_level(
        calculation,
        sideways,
        state,
        "platform",
        topic=Topic.STABILITY,
        limit_state="deck square in plan",
        demand=F_d,
        capacity=rated,
        unit=POUND,
        clause="Statics; rated load entered by the user",
        says="the pull in its plan diagonals",
        notes=(
            BOARDS_NOTE,
            "All that the supports on one side take is passed on by the diagonals that lean one way.",
        ),
    )
