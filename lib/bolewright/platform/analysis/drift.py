"""Whether snow drifts on the deck are to be thought of: where a wall or a solid guard stands by it. Not calculated."""

from __future__ import annotations

from bolewright.ground.snow import snow_depth
from bolewright.platform.project import Project

SOLID = 0.8  # judgement: a guard or wall with less of its face solid lets the snow through
LEAST_STEP = 0.2  # h_c/h_b below which no drift is asked for (ASCE 7-16, 7.7.1 and 7.8)


def drift_edges(project: Project) -> tuple[str, ...]:
    """What stands by the deck that snow drifts against, in words; none where no drift is asked for."""
    loads, p = project.loads, project.site.ground_snow
    stands = [(f"wall {wall.mark}", wall.height) for wall in project.walls if wall.solidity >= SOLID]
    if loads.guard_solidity >= SOLID:
        stands += [(f"the guard on edge {edge}", loads.guard_height) for edge in loads.guard_edges]
    return tuple(words for words, height in stands if p > 0 and step_ratio(p, height) >= LEAST_STEP)


def step_ratio(p_g: float, height: float) -> float:
    """h_c/h_b: clear height of a wall (in) over the depth of the snow, over that depth."""
    h_b = snow_depth(p_g)
    return (height - h_b) / h_b
