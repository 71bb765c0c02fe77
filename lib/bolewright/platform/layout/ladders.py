"""A ladder in plan: where its rails meet the framing, how it slopes, where it stands."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from bolewright.platform.layout.actions import Action, ActionKind, gives_actions
from bolewright.platform.layout.guard_ways import LADDER_CLEAR
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout, LayoutError
from bolewright.platform.layout.stairs import edge_line, framing_behind, outwards, risers
from bolewright.platform.layout.wood_weight import timber_density
from bolewright.platform.project import Ladder
from bolewright.timber.sections import Section, parse_section
from bolewright.units import feet_inches

MARK = "ladder"
PERSON = 300.0  # lb, ASCE 7-16, 4.5.4
_EACH = 120.0  # in: one person more for each full 10 ft (ASCE 7-16, 4.5.4)
LEAST_RUN = 5.0  # in of a tread in plan (IRC 2021, R311.7.12.1)
PITCH, RISE = {True: 75.0, False: 60.0}, {True: 12.0, False: 9.5}


@dataclass(frozen=True)
class LadderPlan:
    """A ladder as it stands (in, degrees): ``heads`` the rails at the framing's face, ``out`` away from it."""

    ladder: Ladder
    section: Section
    count: int
    rise: float
    height: float
    pitch: float
    clear: float
    heads: tuple[Vector, Vector]
    member: str
    along: Vector
    out: Vector
    level: float

    @property
    def run(self) -> float:
        """Level distance from the framing's face to its foot."""
        return self.height / math.tan(math.radians(self.pitch)) if self.pitch < 90 else 0.0

    @property
    def slope_length(self) -> float:
        """Length of a rail from foot to floor."""
        return self.height / math.sin(math.radians(self.pitch))

    @property
    def over_length(self) -> float:
        """Length of a rail over the floor: it runs on along its slope."""
        return (self.ladder.rails_over or 0.0) / math.sin(math.radians(self.pitch))

    @property
    def rail_stock(self) -> float:
        """Length of timber that a rail takes, from the long point of its level cut at the foot."""
        return self.slope_length + self.over_length + self.section.d / math.tan(math.radians(self.pitch))

    @property
    def step_run(self) -> float:
        """Level distance of two treads."""
        return self.rise / math.tan(math.radians(self.pitch)) if self.pitch < 90 else 0.0

    @property
    def people(self) -> float:
        """Full tens of feet of its height."""
        return float(self.height // _EACH)

    @property
    def outline(self) -> tuple[Vector, ...]:
        """Corners in plan, from the framing's face to its foot."""
        b = self.section.b / 2
        (x0, y0), (x1, y1) = self.heads
        u, o, r = self.along, self.out, max(self.run, self.section.d)
        near = ((x0 - b * u[0], y0 - b * u[1]), (x1 + b * u[0], y1 + b * u[1]))
        return (*near, *((x + r * o[0], y + r * o[1]) for x, y in reversed(near)))


def find_ladder(layout: Layout) -> LadderPlan | None:
    """The ladder that has a place; None where the file gives none. LayoutError where it does not fit."""
    ladder = layout.project.ladder
    if ladder.edge is None:
        return None
    platform = layout.project.platform
    ring = platform.outline if ladder.opening is None else platform.openings[ladder.opening - 1]
    edge = edge_line(ring, ladder.edge)
    section = parse_section(ladder.section)
    clear = ladder.clear or LADDER_CLEAR[ladder.steep]
    middle = edge.length / 2 if ladder.along is None else ladder.along
    half = clear / 2 + section.b
    if middle - half < -0.01 or middle + half > edge.length + 0.01:
        raise LayoutError(
            f"The ladder, {feet_inches(2 * half)} wide over its rails with its middle {feet_inches(middle)} along edge "
            f"{ladder.edge}, reaches past its ends: it is {feet_inches(edge.length)} long."
        )
    places = [edge.at(middle + side * (half - section.b / 2)) for side in (-1, 1)]
    out = outwards(layout, edge)
    member = framing_behind(layout, edge, places)
    inset = 0.0 if member is None else max(0.0, member.line.distance(edge.at(middle)) - member.width / 2)
    height = platform.floor_height - ladder.foot
    count = risers(height, ladder.spacing or RISE[ladder.steep])
    heads = [(x - inset * out[0], y - inset * out[1]) for x, y in places]
    return LadderPlan(
        ladder=ladder,
        section=section,
        count=count,
        rise=height / count,
        height=height,
        pitch=ladder.pitch or usual_pitch(ladder, height / count),
        clear=clear,
        heads=(heads[0], heads[1]),
        member=member.mark if member else "",
        along=edge.u,
        out=out,
        level=ladder.foot,
    )


def usual_pitch(ladder: Ladder, rise: float) -> float:
    """Slope where the file gives none (degrees): a ship's ladder so flat that its treads are 5 in. deep in plan."""
    usual = PITCH[ladder.steep]
    if ladder.steep:
        return usual
    return min(usual, float(math.floor(math.degrees(math.atan(rise / LEAST_RUN)))))


def ladder_weight(plan: LadderPlan) -> float:
    """Weight of rails and rungs or treads (lb)."""
    ladder = plan.ladder
    rho = timber_density(ladder.values(plan.section), ladder.wet)
    rails = 2 * plan.section.b * plan.section.d * (plan.slope_length + plan.over_length)
    return rho * rails / 1728 + (plan.count - 1) * step_weight(plan) * (plan.clear + 1.0)


def step_weight(plan: LadderPlan) -> float:
    """Weight of a rung or tread along its length (lb/in)."""
    ladder = plan.ladder
    rho = timber_density(ladder.values(plan.section), ladder.wet)
    step = parse_section(ladder.step_size)
    area = math.pi / 4 * ladder.rung_diameter**2 if ladder.rung_diameter else step.b * step.d
    return rho * area / 1728


@gives_actions
def ladder_actions(layout: Layout) -> Iterator[Action]:
    """What the head brings to the framing: half of its weight, one person at its top, and all others on it.

    One more stands on every full ten feet; that those come to the head whole is on the safe side (ASCE 7-16, 4.5.4).
    """
    plan = layout.ladder
    if plan is None or not plan.member:
        return
    W = ladder_weight(plan)
    for head in plan.heads:
        yield Action(MARK, "weight of the ladder", ActionKind.DEAD, head, plan.member, down=W / 4)
        people = PERSON * (1 + plan.people)
        yield Action(MARK, "people on the ladder", ActionKind.LIVE, head, plan.member, down=people / 2)
