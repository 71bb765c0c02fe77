"""What stairs weigh, and what they hand on to the timber that they hang on."""

from __future__ import annotations

import math
from collections.abc import Iterator

from bolewright.platform.layout.actions import Action, ActionKind, gives_actions
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.stair_rules import stair_live
from bolewright.platform.layout.stairs import MARK, StairPlan
from bolewright.platform.layout.wood_weight import timber_density
from bolewright.platform.project import Project

TREAD_LOAD = 300.0  # lb on 2 x 2 in. of a tread (IRC 2021, Table R301.5, note c)


def person_of(project: Project) -> float:
    """One heavy person on a tread (lb): the file's, and no less than the code's."""
    return max(project.loads.person, TREAD_LOAD)


def tread_weight(plan: StairPlan) -> float:
    """Weight of the treads (psf)."""
    return timber_density(plan.stairs.values(plan.section), plan.stairs.wet) * plan.tread / 12


def dead_of(layout: Layout, plan: StairPlan) -> float:
    """Dead load of stairs over their plan (psf): the file's, or the weight of treads, stringers and rails."""
    stairs = plan.stairs
    if stairs.dead is not None:
        return stairs.dead
    rho = timber_density(stairs.values(plan.section), stairs.wet)
    by_inch = rho * plan.section.b * plan.section.d / 1728 / math.cos(math.radians(plan.theta))
    wood = stairs.stringers * by_inch + 2 * stairs.rail / 12
    return tread_weight(plan) + wood / stairs.width * 144 + layout.project.loads.hardware


@gives_actions
def stair_actions(layout: Layout) -> Iterator[Action]:
    """What the head of each stringer brings to the timber that it hangs on: half of what lies on the stairs.

    People on the stairs sway as those on the deck do; the foot may slide, so the head takes it all (common practice).
    """
    plan = layout.stairs
    if plan is None or not plan.heads[0].member:
        return
    project = layout.project
    sway = project.loads.sway_share
    kinds = (
        (ActionKind.DEAD, "dead load of the stairs", dead_of(layout, plan), 0.0),
        (ActionKind.LIVE, "live load of the stairs", stair_live(project), sway),
        (ActionKind.SNOW, "snow on the stairs", project.site.ground_snow, 0.0),
    )
    for head in plan.heads:
        framing = layout.member(head.member)
        for kind, what, load, share in kinds:
            whole = load * head.share * plan.going / 144
            if whole <= 0:
                continue
            push = share * whole
            yield Action(
                part=MARK,
                what=what,
                kind=kind,
                at=head.at,
                member=head.member,
                down=whole / 2,
                level=(push * plan.out[0], push * plan.out[1]),
                height=framing.top - framing.section.d / 2,
                reverses=push > 0,
            )
