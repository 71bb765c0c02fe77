"""Where the posts of a rail along stairs stand, and how long they are."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.stairs import StairPlan


@dataclass(frozen=True)
class StairRail:
    """Posts along stairs (in): on how many sides, where along the line of the noses from the lowest one up, how long.

    ``height`` is that of the rail over the noses; ``post`` the stick it takes, to the stringer's lower edge.
    """

    section: str
    sides: int
    places: tuple[float, ...]
    height: float
    post: float

    @property
    def posts(self) -> int:
        """Posts on all sides."""
        return self.sides * len(self.places)


def stair_rail(layout: Layout) -> StairRail | None:
    """Posts of the rail of stairs that have a place; None where the file gives none.

    The first stands at the lowest nose, the last at the nose one riser below the floor: from there the rail goes on to
    the guard's post at the floor. Between them they are as many as ``rail_spacing`` wants, evenly apart (common
    practice). A guard stands on both open sides.
    """
    plan = layout.stairs
    if plan is None or (section := plan.stairs.rail_post) is None:
        return None
    stairs = plan.stairs
    if stairs.handrail not in ("one side", "both sides") and stairs.guard_height is None:
        return None
    height = rail_height(plan)
    # From the noses down to the stringer's lower edge, plumb: at most a tread and all of the timber.
    lap = plan.tread + plan.section.d / math.cos(math.radians(plan.theta))
    long = max(plan.count - 2, 0) * math.hypot(plan.riser, plan.run)
    bays = math.ceil(long / stairs.rail_spacing - 1e-9)
    places = tuple(k * long / bays for k in range(bays + 1)) if bays else (0.0,)
    both = stairs.handrail == "both sides" or stairs.guard_height is not None
    return StairRail(section, 2 if both else 1, places, height, height + lap)


def rail_height(plan: StairPlan) -> float:
    """Height over the noses of what people lean on: handrail or guard, the higher (in)."""
    return max(plan.stairs.handrail_height or 0.0, plan.stairs.guard_height or 0.0)


def rail_blocks(plan: StairPlan, rail: StairRail) -> int:
    """Blocks between stringers, one at every post; between two stringers one serves the posts on both sides."""
    shared = plan.stairs.stringers == 2
    return len(rail.places) if shared else rail.posts
