"""Loads at one place as actions: a thing that stands or hangs, a swing, a hammock, a pulley."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from bolewright.bracing.hanging import (
    hammock_lateral_force,
    hammock_pull,
    pulley_pull,
    swing_lateral_force,
    swing_pull,
    swing_worst_cosine,
)
from bolewright.calculation import Calculation
from bolewright.platform.layout.actions import Action, ActionKind, gives_actions, moment_of_push
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout, LayoutError, Member
from bolewright.platform.project import PointLoad
from bolewright.units import feet_inches

Run = Callable[..., Any]
ANGLE = {"swing": 90.0, "hanging chair": 60.0, "hammock": 30.0}  # common practice where the file gives none
IMPACT = {"hammock": 2.0, "pulley": 1.5}  # common practice: dropping into it, start and stop
IMPACT_NOTE = "common practice"
HANGS = ("swing", "hanging chair", "hammock", "pulley")


@dataclass(frozen=True)
class Force:
    """What a load brings: straight down and level (lb); ``reverses``: the lateral force comes both ways."""

    down: float
    level: float
    reverses: bool


def impact_of(load: PointLoad) -> tuple[float, str]:
    """Impact factor of a load, and where it comes from."""
    if load.impact is not None:
        return load.impact, load.impact_note
    return IMPACT.get(load.form, 1.0), IMPACT_NOTE if load.form in IMPACT else ""


def run_force(run: Run, load: PointLoad) -> Force:
    """Force of a load by the formulas that are printed."""
    f, _ = impact_of(load)
    angle = load.angle or ANGLE.get(load.form, 0.0)
    W = load.weight
    swings = load.form in ("swing", "hanging chair")
    reverses = swings if load.reverses is None else load.reverses
    if swings:
        V = run(swing_pull, W=W, a_0=angle, f=f)
        c_m = run(swing_worst_cosine, a_0=angle)
        return Force(float(V), float(run(swing_lateral_force, W=W, a_0=angle, c_m=c_m, f=f)), reverses)
    if load.form == "hammock":
        V = run(hammock_pull, W=W, f=f)
        return Force(float(V), float(run(hammock_lateral_force, W=W, a_0=angle, f=f)), reverses)
    if load.form == "pulley":
        return Force(float(run(pulley_pull, W=W, f=f)) - f * load.up, f * load.lateral, reverses)
    return Force(f * (W - load.up), f * load.lateral, reverses)


def place_of(layout: Layout, load: PointLoad) -> tuple[Vector, Member | None]:
    """Where a load is in plan, and the member that it is fastened to; LayoutError where there is no such place."""
    if load.at is not None:
        return load.at, None
    known = {m.mark: m for m in layout.members}
    if load.member not in known:
        raise LayoutError(
            f"{load.mark} is fastened to {load.member}, which is no joist or beam of this platform: the joists are "
            f"{layout.joists[0].mark} to {layout.joists[-1].mark}, the beams "
            f"{', '.join(m.mark for m in layout.beams)}."
        )
    member, along = known[load.member or ""], load.along or 0.0
    if along > member.line.length + 0.01:
        raise LayoutError(
            f"{load.mark} is {feet_inches(along)} along {member.mark}, which is {feet_inches(member.line.length)} long."
        )
    return member.line.at(min(along, member.line.length)), member


def ends_of(layout: Layout, load: PointLoad) -> tuple[tuple[Vector, Vector], ...]:
    """The places in plan that a load comes to, each with the direction it pulls there; two of a hammock on a member."""
    at, member = place_of(layout, load)
    if load.other_end is None or member is None:
        return ((at, direction_of(load)),)
    if load.other_end > member.line.length + 0.01:
        raise LayoutError(
            f"{load.mark} has its other end {feet_inches(load.other_end)} along {member.mark}, which is "
            f"{feet_inches(member.line.length)} long."
        )
    way = 1.0 if load.other_end > (load.along or 0.0) else -1.0
    (u_x, u_y), other = member.line.u, member.line.at(min(load.other_end, member.line.length))
    towards = (way * u_x, way * u_y)
    return (at, towards), (other, (-towards[0], -towards[1]))


def level_of(layout: Layout, load: PointLoad, member: Member | None) -> float:
    """Height above grade at which a load pushes laterally (in)."""
    floor = layout.project.platform.floor_height
    if load.height is not None:
        return floor + load.height
    if member is None:
        return floor
    return member.bottom if load.form in HANGS else member.top - member.section.d / 2


def direction_of(load: PointLoad) -> Vector:
    """Unit direction of its lateral force in plan."""
    angle = math.radians(load.direction)
    return (round(math.cos(angle), 12), round(math.sin(angle), 12))


@gives_actions
def point_load_actions(layout: Layout) -> Iterator[Action]:
    """The actions of all loads at one place.

    A lateral force at some height over a member's middle also turns it: the lateral cases have its overturning, and
    what twists the member is a check of its own. A hammock with both ends on one member pulls at both at once, so that
    it pushes the platform nowhere and only presses that member together.
    """
    for load in layout.project.point_loads:
        _, member = place_of(layout, load)
        force = run_force(Calculation().run, load)
        first, *others = (
            Action(
                load.mark,
                load.note or load.form,
                ActionKind(load.kind),
                at,
                member.mark if member is not None else "",
                down=force.down,
                level=(force.level * u[0], force.level * u[1]),
                height=level_of(layout, load, member),
                patch=load.patch,
                reverses=force.reverses,
            )
            for at, u in ends_of(layout, load)
        )
        yield replace(first, also=tuple(others))


def across(layout: Layout, load: PointLoad) -> tuple[float, float]:
    """Lateral force across the member that a load is fastened to (lb), and its twist about the middle (lb·in)."""
    _, member = place_of(layout, load)
    if member is None or load.other_end is not None:
        return 0.0, 0.0
    force = run_force(Calculation().run, load)
    (u_x, u_y), (d_x, d_y) = member.line.u, direction_of(load)
    H = force.level * abs(u_x * d_y - u_y * d_x)
    arm = level_of(layout, load, member) - (member.top - member.section.d / 2)
    return H, math.hypot(*moment_of_push((H, 0.0), arm))
