"""A ladder in the drawings: on the plan, and from the side as built."""

from __future__ import annotations

from bolewright.drawings.chains import chain
from bolewright.drawings.measures import Measures
from bolewright.drawings.words import titled
from bolewright.platform.layout.layout import Layout, Vector
from bolewright.platform.results.results import Results
from bolewright.platform.solids.access_bodies import ladder_profile, ladder_steps
from bolewright.rendering.drawing import Drawing, Fill, Item, Layer, Leader, Line, Mark, Pen, Polygon

_NEAR, _FAR = 7.0, 15.0  # mm


def ladder_points(layout: Layout) -> list[Vector]:
    """Corners in plan of all that a ladder takes up."""
    return [] if layout.ladder is None else list(layout.ladder.outline)


def hatch_on_plan(layout: Layout) -> list[Item]:
    """The cover of a hatch, crossed out, with its mark."""
    hatch = layout.project.hatch
    if hatch.at is None:
        return []
    ring = layout.project.platform.openings[-1]
    items: list[Item] = [
        Line(ring[0], ring[2], Layer.STAIRS, Pen.DASHED),
        Line(ring[1], ring[3], Layer.STAIRS, Pen.DASHED),
    ]
    places = tuple((hatch.at[0], hatch.at[1] + f * hatch.length) for f in (0.0, 0.2, -0.2, 0.35, -0.35))
    return [*items, Mark(places[0], "hatch", along=places[1:])]


def ladder_on_plan(layout: Layout, measures: Measures) -> list[Item]:
    """Rails and rungs or treads, with the mark."""
    plan = layout.ladder
    if plan is None:
        return []
    ring = plan.outline
    items: list[Item] = [Polygon(ring, Layer.STAIRS, Fill.NONE)]
    for k in range(1, plan.count):
        out = plan.run * (1 - k / plan.count)
        a, b = ((x + out * plan.out[0], y + out * plan.out[1]) for x, y in plan.heads)
        items.append(Line(a, b, Layer.STAIRS))
    middle = tuple(sum(c) / 4 for c in zip(*ring, strict=True))
    at = (middle[0], middle[1])
    u = plan.along
    places = tuple((at[0] + s * u[0], at[1] + s * u[1]) for s in (0.0, 20.0, -20.0, 30.0, -30.0))
    items.append(Mark(places[0], "ladder", along=places[1:]))
    return items


def ladder_details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """The ladder from the side: rails, rungs or treads, the framing at its head."""
    layout = results.path.layout
    plan = layout.ladder
    if plan is None:
        return []
    floor = layout.project.platform.floor_height
    items: list[Item] = []
    if plan.member:
        framing = layout.member(plan.member)
        w, low, top = framing.width, framing.bottom, framing.top
        items.append(Polygon(((-w, low), (0.0, low), (0.0, top), (-w, top)), Layer.JOISTS, Fill.END_GRAIN))
        items.append(Leader((-w / 2, low), f"{framing.mark} {framing.section.name}", (-14.0, -8.0)))
    deck = ((-14.0, layout.under_deck), (0.0, layout.under_deck), (0.0, floor), (-14.0, floor))
    items.append(Polygon(deck, Layer.DECKING, Fill.TIMBER))
    profile = ladder_profile(plan)
    items.append(Polygon(tuple(profile), Layer.STAIRS, Fill.TIMBER))
    for near, far, low, high in ladder_steps(plan):
        ring = ((near, low), (far, low), (far, high), (near, high))
        items.append(Polygon(ring, Layer.STAIRS, Fill.END_GRAIN))
    out = profile[1][0]
    items.append(Line((-14.0, plan.level), (out + 12.0, plan.level), Layer.GROUND))
    items += chain([(0.0, plan.level), (plan.run, plan.level)], measures, -_NEAR)
    items += chain([(out, plan.level), (out, floor)], measures, -_FAR)
    items += chain([(out, plan.level), (out, plan.level + plan.rise)], measures, -_NEAR)
    if plan.ladder.rails_over:
        items += chain([(out, floor), (out, floor + plan.ladder.rails_over)], measures, -_FAR)
    title = "Ladder" if plan.ladder.steep else "Ship's ladder"
    step = "rungs" if plan.ladder.steep else "treads"
    size = (
        plan.ladder.step_size
        if plan.ladder.rung_diameter is None
        else f"{plan.ladder.rung_diameter:g} in. round"
    )
    foot = "is fixed" if plan.ladder.foot_fixed else "may slide as the floor moves"
    notes = [
        f"Two rails {plan.section.name}, {measures.words(plan.clear)} clear between them, at {plan.pitch:g}° from "
        f"level; {plan.count - 1} {step} {size}, each {measures.words(plan.rise)} over the last. The head is fixed "
        f"to the framing, never to the trunk; the foot {foot}."
    ]
    return [titled(results, title, items, f"{title}. {notes[0]}", notes)]
