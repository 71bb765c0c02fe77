"""Stems under what the platform adds, and with the wind in their own crowns."""

from __future__ import annotations

import numpy as np

from bolewright.platform.check import Check, not_checked
from bolewright.platform.checks.level import judge_level, start, worse
from bolewright.platform.combine import Array
from bolewright.platform.level_stiffness import Run
from bolewright.platform.level_supports import BoltFrame
from bolewright.platform.project import Bolt
from bolewright.platform.sideways import Sideways, State
from bolewright.platform.stem_sway import LEVEL_WIND, run_crown_force
from bolewright.tree.stem import (
    hole_second_moment,
    hole_second_moment_beside,
    platform_stem_moment,
    stem_allowable_stress,
    stem_moment_sum,
    stem_net_area,
    stem_net_section_modulus,
    stem_section_modulus,
    stem_stress,
)
from bolewright.tree.sway import crown_wind_moment
from bolewright.tree.working import Property, depth_effect, exclusion_value, reduction, working_value
from bolewright.units import PSI

STEM_NOTE = (
    "The stem is taken as thick at its foot as at the bolts, upright, with the holes in the plane of bending; the "
    "weight of the tree above is left out, a small part of the stress."
)


def stem_checks(sideways: Sideways) -> list[Check]:
    """Checks of every stem, at the bolts and at its foot."""
    if sideways.loose:
        return []
    trees = dict.fromkeys(f.tree.mark for f in sideways.frames if isinstance(f, BoltFrame))
    return [check for mark in trees for check in _stem(sideways, mark)]


def _stem(sideways: Sideways, mark: str) -> list[Check]:
    tree = next(t for t in sideways.path.layout.project.trees if t.mark == mark)
    checks = worse(
        _stem_check(sideways, state, mark, at_bolts=at_bolts, crown=False)
        for state in sideways.states
        for at_bolts in (True, False)
    )
    if tree.crown_area is None or tree.crown_center is None:
        return [
            *checks,
            not_checked(
                mark,
                "tree.trunk_wind",
                f"{mark}: enter crown_area and crown_center, so that the stem can be checked with wind in its "
                "crown.",
            ),
        ]
    return checks + worse(
        _stem_check(sideways, state, mark, at_bolts=at_bolts, crown=True)
        for state in sideways.states
        for at_bolts in (True, False)
    )


def _unopposed(frames: list[BoltFrame], L: float) -> float:
    """How many of the holes in a stem are on one side with none opposite: the sum of their directions.

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


def _stem_check(sideways: Sideways, state: State, mark: str, *, at_bolts: bool, crown: bool) -> Check:
    """Stem stress from what the platform adds, and with the crown's own wind, at the bolts or at the foot."""
    cases = sideways.cases
    here = [(i, f) for i, f in enumerate(sideways.frames) if isinstance(f, BoltFrame) and f.tree.mark == mark]
    frame = here[0][1]
    tree, bolt = frame.tree, max((f.placed.bolt for _, f in here), key=lambda b: b.diameter)
    down = np.zeros((2, cases.count))
    level = np.zeros((2, cases.count))
    P = np.zeros(cases.count)
    for i, f in here:
        R = np.maximum(sideways.most[i], 0.0) + state.over[i] + state.kick[i]
        P = P + R
        down += np.outer(np.array(f.support.at) - np.array(tree.at), R)
        level += state.springs[i].axes.T @ state.force[i]
    z = 0.0 if at_bolts else frame.level
    d = 2 * frame.placed.r
    calculation = start(sideways)
    run = calculation.run
    P = np.maximum(np.abs(P), 1.0)  # a tree that is pulled up is stressed as one that is pushed down
    a = np.hypot(*down) / P
    M_p = run(platform_stem_moment, P=P[None, :], a=a[None, :], H=np.hypot(*level)[None, :], z=z)
    M = M_p
    if crown:
        F_c = run_crown_force(run, sideways.path, tree)
        height = frame.level if at_bolts else 0.0
        M_c = run(crown_wind_moment, F_c=F_c, z_c=tree.crown_center or 0.0, z=height)
        w = cases.W / LEVEL_WIND**2
        M = run(stem_moment_sum, M_p=M_p, M_c=M_c, w=w)
    if at_bolts:
        holes = float(len(here))
        I_h = _run_hole(run, [f for _, f in here], bolt, d)
        S_n = run(
            stem_net_section_modulus,
            d=d,
            d_c=tree.cavity,
            a_c=0.0,
            n_h=holes,
            n_1=_unopposed([f for _, f in here], bolt.embedment),
            d_h=bolt.diameter,
            L_h=bolt.embedment,
            I_h=I_h,
        )
        A_n = run(stem_net_area, d=d, d_c=tree.cavity, n_h=holes, d_h=bolt.diameter, L_h=bolt.embedment)
    else:
        S_n = (
            run(stem_section_modulus, d=d)
            if tree.cavity == 0
            else run(
                stem_net_section_modulus,
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
        A_n = run(stem_net_area, d=d, d_c=tree.cavity, n_h=0.0, d_h=bolt.diameter, L_h=bolt.embedment)
    f = run(stem_stress, M=M, S_n=S_n, P=P[None, :], A_n=A_n)
    cut = reduction(frame.wood, Property.BENDING)
    X_05 = run(exclusion_value, X=frame.wood.MOR, V=cut.variation)
    F_w = run(working_value, X_05=X_05, K=cut.divisor, R_s=1.0)
    C_d = run(depth_effect, d=d)
    capacity = run(stem_allowable_stress, F_w=F_w, C_d=C_d, C_D=cases.C_D)
    return judge_level(
        calculation,
        sideways,
        state,
        mark,
        key="tree.trunk_wind" if crown else "tree.trunk",
        demand=f,
        capacity=capacity,
        unit=PSI,
        says="the stress in the stem" + (" with wind in its crown" if crown else " from the platform"),
        notes=(STEM_NOTE, "At the bolts." if at_bolts else "At the foot of the stem."),
    )
