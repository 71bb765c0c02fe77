"""Geometry of ladders and ship's ladders, and what the code lets them be."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.calculation import Calculation
from bolewright.platform.layout.ladders import MARK, LadderPlan
from bolewright.platform.layout.parts import Layout
from bolewright.platform.limit_states.check import Check, judge, not_checked, nothing_asked
from bolewright.timber.sections import parse_section
from bolewright.units import DEGREE, INCH, SQUARE_FOOT, Unit

SPACING = (10.0, 14.0)  # in from rung to rung (OSHA 1910.23)
CLEAR = 16.0  # in between rails (OSHA 1910.23)
OVER = 36.0  # in over the floor (common practice; OSHA 1910.23: 42 in)
HIGHEST = 288.0  # in without fall arrest (OSHA 1910.28, from memory)
SHIP_AREA = 200.0  # sq ft (IRC 2021, R311.7.12)
SHIP_RISE, SHIP_TREAD, SHIP_RUN, SHIP_CLEAR = (
    9.5,
    8.5,
    5.0,
    20.0,
)  # in (IBC 2012, 1009.14; IRC 2021, R311.7.12.1)
SHIP_RAIL = (30.0, 34.0)  # in (IRC 2021, R311.7.12.2, from memory)
ACCESS = (
    "A rung ladder is access, not egress: no stairway by IRC 2021, R311.7, and no way out of a room that is lived "
    "in; the building department decides."
)
SHIP = (
    "A ship's ladder is no part of a means of egress, except to areas of at most 200 sq ft without kitchen or bath "
    "(IRC 2021, R311.7.12, as explained; the building department decides)."
)
FALL = "Above 24 ft a fixed ladder wants personal fall arrest or a ladder safety system (OSHA 1910.28, from memory)."


def _held(
    key: str, demand: float, capacity: float, says: str, unit: Unit = INCH, notes: tuple[str, ...] = ()
) -> list[Check]:
    return judge(
        Calculation((1, 1)),
        [MARK],
        ["any"],
        key=f"ladder.{key}",
        demand=demand,
        capacity=capacity,
        unit=unit,
        says=says,
        notes=notes,
    )


def ladder_geometry_checks(layout: Layout, plan: LadderPlan) -> Iterator[Check]:
    """Spacing, widths, slope and hold, and what such a ladder may serve."""
    ladder = plan.ladder
    if ladder.steep:
        yield nothing_asked(MARK, "ladder.use", ACCESS)
        if plan.rise < SPACING[0]:
            yield from _held("spacing", SPACING[0], plan.rise, "the least rise of a rung")
        else:
            yield from _held("spacing", plan.rise, SPACING[1], "the rise from rung to rung")
        yield from _held("clear", CLEAR, plan.clear, "the least clear width")
        yield from _held("pitch", 75.0, plan.pitch, "the least slope", DEGREE)
    else:
        area = layout.deck.area / 144
        yield from _held("use", area, SHIP_AREA, "the area that it serves", SQUARE_FOOT, (SHIP,))
        yield from _held("spacing", plan.rise, SHIP_RISE, "the height of a riser")
        yield from _held("clear", SHIP_CLEAR, plan.clear, "the least clear width")
        yield from _held("tread_run", SHIP_RUN, plan.step_run, "the least projected depth of a tread")
        depth = parse_section(ladder.step_size).d
        yield from _held("tread_depth", SHIP_TREAD, depth, "the least depth of a tread with its nosing")
        yield from _handrail(plan)
    yield from _held("height", plan.height, HIGHEST, "the height climbed", notes=(FALL,))
    if ladder.closed_by is None:
        why = (
            "What closes the head of the ladder is not given (ladder.closed_by: gate, hatch or chain): somebody may "
            "walk off there."
        )
        yield not_checked(MARK, "ladder.closed", why)
    else:
        yield nothing_asked(MARK, "ladder.closed", f"A {ladder.closed_by} closes the head of the ladder.")
    if ladder.rails_over:
        yield from _held("over", OVER, ladder.rails_over, "the least height of the rails over the floor")
    elif ladder.grip:
        said = "Grab bars or the edge of the hatch give hold in place of rails over the floor."
        yield nothing_asked(MARK, "ladder.over", said)


def _handrail(plan: LadderPlan) -> Iterator[Check]:
    height = plan.ladder.handrail_height
    if height is None:
        why = "A ship's ladder wants handrails on both sides, 30 to 34 in. high (ladder.handrail_height)."
        yield not_checked(MARK, "ladder.handrail", why)
    elif height > SHIP_RAIL[1]:
        yield from _held("handrail", height, SHIP_RAIL[1], "the height of the handrails")
    else:
        yield from _held("handrail", SHIP_RAIL[0], height, "the least height of the handrails")
