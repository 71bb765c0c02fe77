"""Stairs in the drawings: on the plan, and the stringer as cut."""

from __future__ import annotations

import math

from bolewright.drawings.chains import chain
from bolewright.drawings.measures import Measures
from bolewright.drawings.words import titled
from bolewright.platform.layout.layout import Layout, Vector
from bolewright.platform.layout.stairs import StairPlan
from bolewright.platform.results.results import Results
from bolewright.platform.solids.access_bodies import BEFORE, stair_pad, stringer_profile
from bolewright.rendering.drawing import (
    Arrow,
    Drawing,
    Fill,
    Item,
    Layer,
    Leader,
    Line,
    Mark,
    Pen,
    Polygon,
)

_NEAR, _FAR = 7.0, 15.0  # mm


def stair_points(layout: Layout) -> list[Vector]:
    """Corners in plan of all that stairs take up."""
    plan = layout.stairs
    if plan is None:
        return []
    return [*plan.outline, *stair_pad(plan)]


def stairs_on_plan(layout: Layout, measures: Measures) -> list[Item]:
    """Stringers, nosings, pad, and an arrow up the stairs, with their steps in words."""
    plan = layout.stairs
    if plan is None:
        return []
    items: list[Item] = []
    if pad := stair_pad(plan):
        items.append(Polygon(pad, Layer.FOOTINGS, Fill.NONE, Pen.DASHED))
    items.append(Polygon(plan.outline, Layer.STAIRS, Fill.NONE))
    low, high, far_high, far_low = plan.outline
    for step in range(1, plan.treads):
        f = step * plan.run / plan.going
        items.append(Line(_between(low, far_low, f), _between(high, far_high, f), Layer.STAIRS))
    for head in plan.heads[1:-1]:
        items.append(Line(head.at, plan.place(head, plan.going), Layer.STAIRS, Pen.CENTRE))
    foot = _between(far_low, far_high, 0.5)
    up = math.degrees(math.atan2(-plan.out[1], -plan.out[0]))
    items.append(Arrow(_between(_between(low, high, 0.5), foot, 0.85), up, 8.0, "up", Layer.STAIRS))
    places = tuple(_between(_between(low, high, 0.5), foot, f) for f in (0.5, 0.4, 0.6, 0.3, 0.7))
    items.append(Mark(places[0], "stair", along=places[1:]))
    items += chain([low, far_low], measures, _NEAR if _left_of(plan) else -_NEAR)
    return items


def _left_of(plan: StairPlan) -> bool:
    """Whether the low side of the stairs lies to the right of the way down, so that its chain goes outside."""
    return plan.out[0] * plan.along[1] - plan.out[1] * plan.along[0] < 0


def stair_details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """The stringer as it is cut, from the framing's face to its pad, with steps, throat and pad."""
    layout = results.path.layout
    plan = layout.stairs
    if plan is None:
        return []
    profile = stringer_profile(plan, steps=True)
    items: list[Item] = []
    member = plan.heads[0].member
    if member:
        framing = layout.member(member)
        w, low, top = framing.width, framing.bottom, framing.top
        box = ((-w, low), (0.0, low), (0.0, top), (-w, top))
        items.append(Polygon(box, Layer.JOISTS, Fill.END_GRAIN))
        items.append(
            Leader((-framing.width / 2, framing.bottom), f"{member} {framing.section.name}", (-14.0, -8.0))
        )
    floor = layout.project.platform.floor_height
    deck = ((-14.0, layout.under_deck), (plan.inset, layout.under_deck), (plan.inset, floor), (-14.0, floor))
    items.append(Polygon(deck, Layer.DECKING, Fill.TIMBER))
    items.append(Polygon(profile, Layer.STAIRS, Fill.TIMBER))
    for k in range(plan.treads):
        out, top = plan.going - k * plan.run, plan.level + (k + 1) * plan.riser
        edge = out + plan.stairs.nosing
        tread = (
            (out - plan.run, top - plan.tread),
            (edge, top - plan.tread),
            (edge, top),
            (out - plan.run, top),
        )
        items.append(Polygon(tread, Layer.STAIRS, Fill.END_GRAIN))
    thick = plan.stairs.pad_thickness
    if plan.stairs.pad_length is not None and thick is not None:
        out = plan.going + BEFORE
        near = out - plan.stairs.pad_length
        pad = ((near, plan.level - thick), (out, plan.level - thick), (out, plan.level), (near, plan.level))
        items.append(Polygon(pad, Layer.FOOTINGS, Fill.CONCRETE))
        items += chain([(near, plan.level - thick), (out, plan.level - thick)], measures, -_NEAR)
    items.append(Line((-14.0, 0.0), (plan.going + 24.0, 0.0), Layer.GROUND))
    low = min(z for _, z in profile)
    below = min(low, plan.level - (thick or 0.0), 0.0)
    items += chain([(0.0, below), (plan.going, below)], measures, -_FAR)
    items += chain([(plan.going, plan.level), (plan.going, floor)], measures, -_FAR)
    first = plan.level + plan.riser
    items += chain([(plan.going, plan.level), (plan.going, first)], measures, -_NEAR)
    items += chain([(plan.going - plan.run, first), (plan.going, first)], measures, _NEAR)
    items += _throat(plan, measures)
    section = plan.section.name
    kind = "cut" if plan.stairs.cut == "cut" else "closed"
    title = "Stringer of the stairs"
    notes = [
        f"{plan.stairs.stringers} {kind} stringers {section}, {measures.words(plan.spacing)} on centre, "
        f"{plan.stairs.width:g} in. wide over all; {plan.count} risers of {measures.words(plan.riser)}, {plan.treads} "
        f"treads, slope {plan.theta:.1f}°. The head hangs in a hanger rated for that slope; the foot stands on its "
        "pad and may slide as the floor moves. The floor end of the first riser is cut by a tread's thickness."
    ]
    return [titled(results, title, items, f"{title}. {notes[0]}", notes)]


def _throat(plan: StairPlan, measures: Measures) -> list[Item]:
    """What is left under a notch, square to the edge, at the middle of a cut stringer."""
    if plan.stairs.cut == "closed":
        return []
    k = plan.treads // 2
    corner = (plan.going - (k + 1) * plan.run, plan.level + (k + 1) * plan.riser - plan.tread)
    alpha = math.radians(plan.theta)
    foot = (corner[0] - plan.depth * math.sin(alpha), corner[1] - plan.depth * math.cos(alpha))
    return [*chain([corner, foot], measures, 0.0)]


def _between(a: Vector, b: Vector, f: float) -> Vector:
    return (a[0] + f * (b[0] - a[0]), a[1] + f * (b[1] - a[1]))
