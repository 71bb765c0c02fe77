"""Lateral stability: what holds the platform, its drift, its deck in plan, its seats on beams."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from bolewright.bracing.plan import support_movement
from bolewright.bracing.standing import (
    MOST_P_DELTA,
    drift_limit,
    resultant_movement,
    second_order_ratio,
)
from bolewright.bracing.wind import occupant_sway
from bolewright.mechanics.ties import most_of
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import Bed, PostFrame
from bolewright.platform.analysis.unit_push import REFERENCE, softest_push
from bolewright.platform.checks.deck_in_plan import plan_checks
from bolewright.platform.checks.lateral import HALF_NOTE, judge_lateral, start, worse
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.lateral_loads import WHOLE, compass, directions, sway_patterns
from bolewright.platform.loads.lateral_wind import run_face
from bolewright.units import INCH, NONE

CLAUSE = "ASCE 7-16, 2.4.1 (wind, occupant sway)"
AXES = ((1.0, 0.0), (0.0, 1.0))
DRIFT_NOTE = (
    "The trunk's own movement, where the platform is tied to it, is part of this drift; slack of bolts in their holes "
    "is not: tight holes, and bolts drawn up again after the first season."
)
BED_NOTE = (
    "Drift is a limit of use, on which no strength depends: tree bolts are taken in the middle of their plausible "
    "stiffness, as E of timber is. P-delta and all forces are at the worse end, which the row names."
)
FACE_NOTE = (
    "Wind comes from every direction. Printed is that on the largest face along x and along y; the other faces along "
    "these are listed with the inputs."
)
BOARDS_NOTE = "Boards with open gaps are not counted on to brace the deck in its plane."


def stability_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of the platform as a whole; one sentence where nothing holds it laterally."""
    if lateral.loose:
        return [
            not_checked(
                "platform",
                "platform.lateral",
                f"Nothing that this file declares holds the platform {lateral.loose}, so it can rack, rotate or sway: "
                "the sheets show gravity only. Brace posts with knees ([[brace]]), count embedded posts "
                '(base = "fixed"), or tie it to the tree (lateral = "tied").',
            )
        ]
    return [
        *worse(_drift(lateral, state, _farthest(lateral)) for state in lateral.middle),
        *worse(_p_delta(lateral, state) for state in lateral.states),
        *plan_checks(lateral),
        *_walls(lateral),
    ]


def _farthest(lateral: LateralAnalysis) -> float:
    """Greatest movement of a corner of the floor in all states, tree bolts in the softest wood too (in)."""
    return max(
        float(np.hypot(u_x - theta * y, u_y + theta * x).max())
        for state in lateral.states
        for u_x, u_y, theta in [state.movement]
        for x, y in lateral.path.layout.project.platform.outline
    )


def _drift(lateral: LateralAnalysis, state: State, farthest: float) -> Check:
    """Lateral movement of the corner of the floor that moves most."""
    project = lateral.path.layout.project
    calculation = start(lateral)
    run = calculation.run
    for d in AXES:
        run_face(run, lateral.path, most_of(lateral.winds.towards(d).faces, lambda face: face.force))
    live, _ = sway_patterns(lateral.path, directions(1))[WHOLE]
    run(occupant_sway, s_L=project.loads.sway_share, L=float(live[0]))
    u_x, u_y, theta = state.movement[:, None, :]

    def size(corner: tuple[float, float]) -> float:
        return float(np.hypot(u_x - theta * corner[1], u_y + theta * corner[0]).max())

    x, y = most_of(project.platform.outline, size)
    moved = {"u_x": u_x, "u_y": u_y, "theta": theta, "x": x, "y": y}
    delta_x = run(support_movement, **moved, c=1.0, s=0.0)
    delta_y = run(support_movement, **moved, c=0.0, s=1.0)
    Delta = run(resultant_movement, delta_1=delta_x, delta_2=delta_y)
    allowed = run(drift_limit, h=project.platform.floor_height, n=project.limits.drift)
    soft = f"{BED_NOTE} In the softest wood the floor would move {farthest:.2f} in."
    return judge_lateral(
        calculation,
        lateral,
        state,
        "platform",
        key="platform.drift",
        demand=Delta,
        capacity=allowed,
        unit=INCH,
        says="the drift of the floor",
        notes=(HALF_NOTE, FACE_NOTE, DRIFT_NOTE, *((soft,) if state.bed is Bed.MIDDLE else ())),
    )


def _p_delta(lateral: LateralAnalysis, state: State) -> Check:
    """Weight on the posts against the least lateral stiffness of the whole: P-delta amplification?

    The stiffness is felt at the middle of that weight, the platform free to turn as it moves.
    """
    posts = [i for i, f in enumerate(lateral.frames) if isinstance(f, PostFrame)]
    if not posts:
        posts = list(range(len(lateral.frames)))
    tight, slack = (np.maximum(rows[posts], 0.0).sum(axis=0) for rows in (lateral.most, lateral.slack_most))
    P = np.maximum(tight, slack)[None, :]  # knees bear weight on the posts or, with slack, none
    h = float(np.mean([lateral.path.layout.seat_level(lateral.frames[i].support.mark) for i in posts]))
    calculation = start(lateral)
    push = softest_push(lateral, state, posts)
    Delta = push.run(calculation.run)
    Q_s = calculation.run(second_order_ratio, P=P, Delta=Delta, H=REFERENCE, h=h)
    check = judge_lateral(
        calculation,
        lateral,
        state,
        "platform",
        key="platform.p_delta",
        demand=Q_s,
        capacity=MOST_P_DELTA,
        unit=NONE,
        says="the weight on the moved posts",
        notes=(
            "Movement under a lateral force of 1000 lb at the middle of the weight, in the softest direction.",
        ),
    )
    softest = compass(math.degrees(math.atan2(push.way[1], push.way[0])))
    return replace(
        check, where=f"{REFERENCE:,.0f} lb at the middle of the weight, towards {softest}; {state.words}"
    )


def _walls(lateral: LateralAnalysis) -> list[Check]:
    """Walls whose weight nobody has said is counted."""
    project = lateral.path.layout.project
    return [
        not_checked(
            wall.mark,
            "wall.weight",
            f"Wall {wall.mark} catches wind, but its weight is not counted: put its edge {wall.edge} in "
            "guard_edges, raise guard by what a foot of it weighs, and set weight_in_guard = true.",
        )
        for wall in project.walls
        if not wall.weight_in_guard or wall.edge not in project.loads.guard_edges
    ]
