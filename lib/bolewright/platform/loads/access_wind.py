"""What stairs and a ladder show to the wind: areas towards the edge that they hang on, and along it.

Across the edge their foot may slide, so the floor holds all of it, as it holds the sway of people on the stairs (common
practice). Along the edge a flight spans from head to foot, which must be held there: at its head alone it would turn
about it (statics); so the floor holds half. Where a ladder's foot is fixed, half of both. Both rails of a ladder count,
none shelters the other (ASCE 7-16, 29.4).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from bolewright.platform.layout.ladders import LadderPlan
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.stairs import StairPlan
from bolewright.timber.sections import parse_section

FLAT_C_F = 2.0  # flat-sided members, the largest of ASCE 7-16, Table 29.4-2
FOOT = 0.5  # of the wind along the edge, which spans from head to foot (statics)
HANDRAIL = 1.5  # in, depth of a handrail that no file gives (common practice)


@dataclass(frozen=True)
class Shown:
    """What hangs on an edge, or stands under a beam, and catches wind.

    ``side`` and ``front`` areas (in²) whose wind the floor holds, along the edge and across it; ``along`` its unit
    direction; ``at`` the middle in plan; ``high`` the height, ``height`` of the place at which the floor holds it above
    grade (in); ``C_f`` its force coefficient.
    """

    name: str
    side: float
    front: float
    along: Vector
    at: Vector
    high: float
    height: float
    C_f: float = FLAT_C_F


def shown_by_access(layout: Layout) -> Iterator[Shown]:
    """Stairs and ladder, where the file gives them a place."""
    height = layout.under_deck
    if layout.ladder is not None:
        yield _ladder(layout.ladder, height)
    if layout.stairs is not None:
        yield _stairs(layout.stairs, layout.project.loads.guard_solidity, height)


def _middle(outline: tuple[Vector, ...]) -> Vector:
    return (sum(x for x, _ in outline) / len(outline), sum(y for _, y in outline) / len(outline))


def _ladder(plan: LadderPlan, height: float) -> Shown:
    """Two rails up to their ends over the floor, rungs or treads between them, handrails beside them."""
    ladder = plan.ladder
    over = ladder.rails_over or 0.0
    step = ladder.rung_diameter or parse_section(ladder.step_size).b
    hands = 2 * HANDRAIL if ladder.handrail_height is not None else 0.0
    side = (2 * plan.section.d + hands) * plan.slope_length + 2 * plan.section.d * plan.over_length
    front = (2 * plan.section.b + hands) * plan.height + 2 * plan.section.b * over
    front += (plan.count - 1) * plan.clear * step
    share = FOOT if ladder.foot_fixed else 1.0
    return Shown("ladder", FOOT * side, share * front, plan.along, _middle(plan.outline), plan.height, height)


def _stairs(plan: StairPlan, solidity: float, height: float) -> Shown:
    """The flight's side once, its stringers being one behind the other under the treads; treads, risers where closed.

    What stands on both sides as a guard counts twice, each by the solidity of the platform's.
    """
    stairs = plan.stairs
    slope = (plan.going**2 + plan.rise**2) ** 0.5
    rail = max(stairs.handrail_height or 0.0, stairs.guard_height or 0.0)
    side = plan.section.d * slope + 2 * rail * plan.going * solidity
    closed = plan.riser if stairs.risers == "closed" else max(plan.tread, stairs.riser_strip)
    front = plan.treads * stairs.width * closed + stairs.stringers * plan.section.b * plan.rise
    return Shown("stairs", FOOT * side, front, plan.along, _middle(plan.outline), plan.rise, height)
