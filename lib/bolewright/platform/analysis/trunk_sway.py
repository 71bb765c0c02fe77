"""Trunks: their lateral stiffness at the bolts, and their sway from what was seen or from wind in the crown."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from bolewright.bracing.tie import greater_movement
from bolewright.calculation import Calculation
from bolewright.platform.analysis.lateral_supports import BoltFrame
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Tree
from bolewright.tree.seating import sound_radius
from bolewright.tree.species import trunk_wood
from bolewright.tree.sway import (
    allowable_wind_speed,
    crown_wind_force,
    sway_from_crown_wind,
    sway_linear,
    sway_quadratic,
    trunk_second_moment,
    trunk_stiffness,
)

Run = Callable[..., Any]
SURE = 2.0  # an estimate of sway is uncertain by a factor of two, and doubled


def run_trunk(run: Run, frame: BoltFrame) -> tuple[float, float]:
    """Radius of sound wood (in) and lateral stiffness of the trunk at the bolts (lb/in)."""
    r = float(run(sound_radius, C=frame.placed.girth, t_b=frame.tree.bark, t_d=0.0))
    I = run(trunk_second_moment, d=2 * r)
    return r, float(run(trunk_stiffness, E_g=frame.wood.MOE, I=I, z=frame.level))


def run_sway(run: Run, path: LoadPath, tree: Tree, level: float) -> float | None:
    """Sway of the trunk to one side at a level: from what was seen, else from crown wind, doubled; None unknown.

    Where crown wind by itself gives more than was seen, that counts: no storm has been watched at every gust.
    """
    if tree.sway_seen is not None:
        seen_at = tree.sway_seen_at if tree.sway_seen_at is not None else level
        law = sway_linear if level <= seen_at else sway_quadratic
        seen = float(run(law, s_o=tree.sway_seen, z=level, z_o=seen_at))
        if tree.crown_area is None or tree.crown_center is None or _crown_sway(path, tree, level) <= seen:
            return seen
        return float(run(greater_movement, s=seen, u=run_crown_sway(run, path, tree, level)))
    if tree.crown_area is None or tree.crown_center is None:
        return None
    return SURE * run_crown_sway(run, path, tree, level)


def _crown_sway(path: LoadPath, tree: Tree, level: float) -> float:
    return run_crown_sway(Calculation().run, path, tree, level)


def run_crown_force(run: Run, path: LoadPath, tree: Tree) -> float:
    """Force of the wind of 0.6 W on the crown."""
    V = run(allowable_wind_speed, V=path.layout.project.site.wind_speed)
    return float(run(crown_wind_force, V=V, C_w=tree.crown_drag, A_c=tree.crown_area or 0.0))


def run_crown_sway(run: Run, path: LoadPath, tree: Tree, level: float) -> float:
    """Sway at a level by bending of the trunk under crown wind."""
    girth = tree.girth if tree.girth is not None else math.pi * float(tree.diameter or 0.0)
    r = run(sound_radius, C=girth, t_b=tree.bark, t_d=0.0)
    F_c = run_crown_force(run, path, tree)
    return float(
        run(
            sway_from_crown_wind,
            F_c=F_c,
            z_c=tree.crown_center or 0.0,
            z=level,
            E_g=trunk_wood(tree.species).MOE,
            I=run(trunk_second_moment, d=2 * r),
        )
    )
