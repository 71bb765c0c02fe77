"""Trunks under what the platform adds, and with the wind in their own crowns."""

from __future__ import annotations

import numpy as np

from bolewright.platform.analysis.brace_compression import heads_over
from bolewright.platform.analysis.brace_wind import run_wind_at_foot
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_stiffness import Run
from bolewright.platform.analysis.lateral_supports import BoltFrame
from bolewright.platform.analysis.trunk_sway import run_crown_force
from bolewright.platform.checks.lateral import judge_lateral, start, unprinted, worse
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.platform.project import Bolt
from bolewright.tree.sway import crown_wind_moment
from bolewright.tree.trunk import (
    hole_second_moment,
    hole_second_moment_beside,
    platform_trunk_moment,
    trunk_allowable_stress,
    trunk_moment_sum,
    trunk_net_area,
    trunk_net_section_modulus,
    trunk_section_modulus,
    trunk_stress,
)
from bolewright.tree.working import Property, depth_effect, exclusion_value, reduction, working_value
from bolewright.units import PSI

ALLOWABLE_WIND = 0.6  # factor of W with which the wind on the crown is worked out (ASCE 7-16, 2.4.1)
TRUNK_NOTE = (
    "The trunk is taken as thick at its foot as at the bolts, upright, with the holes in the plane of bending; the "
    "weight of the tree above is left out, a small part of the stress."
)


def trunk_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of every trunk, at the bolts and at its foot."""
    if lateral.loose:
        return []
    trees = dict.fromkeys(f.tree.mark for f in lateral.frames if isinstance(f, BoltFrame))
    return [check for mark in trees for check in _trunk(lateral, mark)]


def _trunk(lateral: LateralAnalysis, mark: str) -> list[Check]:
    ways = [
        (at_bolts, slack)
        for at_bolts in (True, False)
        for slack in ((False, True) if lateral.knees else (False,))
    ]
    tree = next(t for t in lateral.path.layout.project.trees if t.mark == mark)
    checks = worse(
        _trunk_check(lateral, state, mark, at_bolts=at_bolts, crown=False, slack=slack)
        for state in lateral.states
        for at_bolts, slack in ways
    )
    if tree.crown_area is None or tree.crown_center is None:
        return [
            *checks,
            not_checked(
                mark,
                "tree.trunk_wind",
                f"{mark}: enter crown_area and crown_center, so that the trunk can be checked with wind in its "
                "crown.",
            ),
        ]
    return checks + worse(
        _trunk_check(lateral, state, mark, at_bolts=at_bolts, crown=True, slack=slack)
        for state in lateral.states
        for at_bolts, slack in ways
    )


def _unopposed(frames: list[BoltFrame], L: float) -> float:
    """How many of the holes in a trunk are on one side with none opposite: the sum of their directions.

    A hole whose line passes the axis counts by where its middle lies, against one straight at the axis.
    """
    return float(np.hypot(*np.sum([_side(f, L) for f in frames], axis=0)))


def _side(frame: BoltFrame, L: float) -> Array:
    line, r = frame.placed.line, frame.placed.r
    if line.a == 0:
        return np.array(line.u)
    middle = line.point(frame.tree, np.sqrt(r**2 - line.a**2) - L / 2)
    return np.asarray((np.array(middle) - np.array(frame.tree.at)) / (r - L / 2))


def _run_hole(run: Run, frames: list[BoltFrame], bolt: Bolt, d: float) -> float:
    """Second moment that a hole takes: straight at the axis in the plane of bending, or beside it whichever way."""
    a = max(f.placed.a for f in frames)
    if a == 0:
        return float(run(hole_second_moment, d_h=bolt.diameter, d=d, L_h=bolt.embedment))
    return float(run(hole_second_moment_beside, d_h=bolt.diameter, d=d, L_h=bolt.embedment, a=a))


def _by_braces(lateral: LateralAnalysis, state: State, frames: list[BoltFrame], down: Array) -> Array:
    """Moment along x and y that the heads of knee braces bring beside that of their bolts (2, cases).

    Their load stands in the patterns that make it greatest one way or the other along the beams; the worse counts.
    """
    found = [np.zeros_like(down), np.zeros_like(down)]
    for frame in frames:
        thrust = lateral.thrusts.get(frame.support.mark)
        if not frame.braces or thrust is None:
            continue
        over = heads_over(lateral.frames, thrust.braces, state.over + state.cap)
        u = np.array(thrust.braces[0].beam.line.u)
        turned = int(u[0] < -1e-9 or (abs(u[0]) <= 1e-9 and u[1] < 0))  # beams drawn the other way round
        for sense in (0, 1):
            found[sense ^ turned] += np.outer(u, thrust.couple(over, sense))
    more = np.hypot(*(down + found[1])) > np.hypot(*(down + found[0]))
    return np.asarray(np.where(more, found[1], found[0]))


def _trunk_check(
    lateral: LateralAnalysis, state: State, mark: str, *, at_bolts: bool, crown: bool, slack: bool
) -> Check:
    """Trunk stress from what the platform adds, and with the crown's own wind, at the bolts or at the foot.

    With ``slack`` the knees of the beams on its bolts take none of their weight.
    """
    cases = lateral.cases
    here = [(i, f) for i, f in enumerate(lateral.frames) if isinstance(f, BoltFrame) and f.tree.mark == mark]
    frame = here[0][1]
    tree, bolt = frame.tree, max((f.placed.bolt for _, f in here), key=lambda b: b.diameter)
    down = np.zeros((2, cases.count))
    level, pushed = np.zeros((2, cases.count)), lateral.with_push(state)
    P, own = np.zeros(cases.count), np.zeros(cases.count)
    for i, f in here:
        weight = lateral.slack_most[i] if slack else lateral.most[i]
        R = np.maximum(weight, 0.0) + state.over[i] + state.brace_reaction[i]
        if slack:
            R = R - state.picked[0, i]
        P = P + R
        down += np.outer(np.array(f.support.at) - np.array(tree.at), R)
        level += state.springs[i].axes.T @ pushed[i]
        own += run_wind_at_foot(unprinted(), lateral.path, lateral.winds, cases.W, f.braces)[0]
    low = min(f.level for _, f in here) if any(f.braces for _, f in here) else frame.level
    high = max(f.level for _, f in here) if any(f.braces for _, f in here) else frame.level
    z = high - low if at_bolts else high
    down = down + _by_braces(lateral, state, [f for _, f in here], down)
    d = 2 * frame.placed.r
    calculation = start(lateral)
    run = calculation.run
    P = np.maximum(np.abs(P), 1.0)  # a tree that is pulled up is stressed as one that is pushed down
    a = np.hypot(*down) / P
    M_p = run(platform_trunk_moment, P=P[None, :], a=a[None, :], H=(np.hypot(*level) + own)[None, :], z=z)
    M = M_p
    if crown:
        F_c = run_crown_force(run, lateral.path, tree)
        height = low if at_bolts else 0.0
        M_c = run(crown_wind_moment, F_c=F_c, z_c=tree.crown_center or 0.0, z=height)
        w = cases.W / ALLOWABLE_WIND
        M = run(trunk_moment_sum, M_p=M_p, M_c=M_c, w=w)
    if at_bolts:
        holes = float(len(here))
        I_h = _run_hole(run, [f for _, f in here], bolt, d)
        S_n = run(
            trunk_net_section_modulus,
            d=d,
            d_c=tree.cavity,
            a_c=0.0,
            n_h=holes,
            n_1=_unopposed([f for _, f in here], bolt.embedment),
            d_h=bolt.diameter,
            L_h=bolt.embedment,
            I_h=I_h,
        )
        A_n = run(trunk_net_area, d=d, d_c=tree.cavity, n_h=holes, d_h=bolt.diameter, L_h=bolt.embedment)
    else:
        S_n = (
            run(trunk_section_modulus, d=d)
            if tree.cavity == 0
            else run(
                trunk_net_section_modulus,
                d=d,
                d_c=tree.cavity,
                a_c=0.0,
                n_h=0.0,
                n_1=0.0,
                d_h=bolt.diameter,
                L_h=bolt.embedment,
                I_h=0.0,
            )
        )
        A_n = run(trunk_net_area, d=d, d_c=tree.cavity, n_h=0.0, d_h=bolt.diameter, L_h=bolt.embedment)
    f = run(trunk_stress, M=M, S_n=S_n, P=P[None, :], A_n=A_n)
    cut = reduction(frame.wood, Property.BENDING)
    X_05 = run(exclusion_value, X=frame.wood.MOR, V=cut.variation)
    F_w = run(working_value, X_05=X_05, K=cut.divisor, R_s=1.0)
    C_d = run(depth_effect, d=d)
    capacity = run(trunk_allowable_stress, F_w=F_w, C_d=C_d, C_D=cases.C_D)
    return judge_lateral(
        calculation,
        lateral,
        state,
        mark,
        key="tree.trunk_wind" if crown else "tree.trunk",
        demand=f,
        capacity=capacity,
        unit=PSI,
        says="the stress in the trunk" + (" with wind in its crown" if crown else " from the platform"),
        notes=(TRUNK_NOTE, "At the bolts." if at_bolts else "At the foot of the trunk."),
        slack=slack,
    )
