"""Posts of guards, ladders and stairs as bodies in space: drawn, and held against the place of all other pieces."""

from __future__ import annotations

import math
from collections.abc import Iterator

from bolewright.mechanics.convex import Vec, faces_of, turned_square, upright
from bolewright.platform.layout.guard_sizes import post_length
from bolewright.platform.layout.guards import GuardPost, height_of
from bolewright.platform.layout.ladders import LadderPlan
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.stairs import StairPlan
from bolewright.platform.solids.bodies import Body, BodyKind
from bolewright.timber.sections import parse_section

BEFORE = 3.0  # in of pad before the first riser of stairs


def access_bodies(layout: Layout) -> tuple[Body, ...]:
    """All of them; rails of guards run past each other at corners and have no place of their own."""
    return (*guard_post_bodies(layout), *ladder_bodies(layout), *stair_bodies(layout))


def post_centre(post: GuardPost) -> Vector:
    """Centre of a guard's post in plan: outside the edge."""
    half = post.section.d / 2
    return (post.at[0] + half * post.out[0], post.at[1] + half * post.out[1])


def guard_post_bodies(layout: Layout) -> Iterator[Body]:
    """Posts of guards, from the underside of what they stand against up to the cap."""
    top = layout.project.platform.floor_height + height_of(layout.project)
    for run in layout.guards:
        cap = parse_section(run.guard.cap)
        for post in run.posts:
            plan = turned_square(post_centre(post), post.section.d, post.section.b, post.out)
            low = top - cap.b - post_length(layout, post)
            yield Body(post.mark, BodyKind.GUARD_POST, upright(plan, low, top - cap.b))


def ladder_bodies(layout: Layout) -> Iterator[Body]:
    """Rails and steps of a ladder."""
    plan = layout.ladder
    if plan is None:
        return
    b, u = plan.section.b, plan.along

    def at(start: Vector, out: float, level: float) -> Vec:
        return (start[0] + out * plan.out[0], start[1] + out * plan.out[1], level)

    for x, y in plan.heads:
        start = (x - b / 2 * u[0], y - b / 2 * u[1])
        ring = tuple(at(start, out, level) for out, level in ladder_profile(plan))
        yield Body("ladder", BodyKind.LADDER, faces_of(ring, (b * u[0], b * u[1], 0.0)))
    x, y = plan.heads[0]
    start = (x + b / 2 * u[0], y + b / 2 * u[1])
    across = (plan.clear * u[0], plan.clear * u[1], 0.0)
    for near, far, low, high in ladder_steps(plan):
        ring = tuple(at(start, out, z) for out, z in ((near, low), (far, low), (far, high), (near, high)))
        yield Body("ladder", BodyKind.LADDER, faces_of(ring, across))


def ladder_profile(plan: LadderPlan) -> list[Vector]:
    """A rail from the side: distance out from the framing's face, and level."""
    over = plan.ladder.rails_over or 0.0
    alpha = math.radians(plan.pitch)
    d, top = plan.section.d / math.sin(alpha), plan.level + plan.height
    run = plan.run
    lean = math.cos(alpha) / math.sin(alpha)
    return [
        (run, plan.level),
        (run + d, plan.level),
        (d - over * lean, top + over),
        (-over * lean, top + over),
    ]


def ladder_steps(plan: LadderPlan) -> Iterator[tuple[float, float, float, float]]:
    """Each rung or tread from the side: near, far, low, high."""
    step = parse_section(plan.ladder.step_size)
    depth, thick = step.d, step.b
    if plan.ladder.rung_diameter is not None:
        depth = thick = plan.ladder.rung_diameter
    middle = plan.section.d / math.sin(math.radians(plan.pitch)) / 2
    for k in range(1, plan.count):
        out, top = plan.run * (1 - k / plan.count) + middle, plan.level + k * plan.rise
        yield out - depth / 2, out + depth / 2, top - thick, top


def stair_bodies(layout: Layout) -> Iterator[Body]:
    """Stringers, as plain slopes over their notches, treads and pad of stairs."""
    plan = layout.stairs
    if plan is None:
        return
    b = plan.section.b
    across = (b * plan.along[0], b * plan.along[1], 0.0)
    for head in plan.heads:
        start = (head.at[0] - b / 2 * plan.along[0], head.at[1] - b / 2 * plan.along[1])
        profile = tuple(_place(plan, start, x, z) for x, z in stringer_profile(plan, steps=False))
        yield Body("stair", BodyKind.STAIRS, faces_of(profile, across))
    low, high, _, _ = plan.outline
    width = (high[0] - low[0], high[1] - low[1], 0.0)
    for k in range(plan.treads):
        out, top = plan.going - k * plan.run, plan.level + (k + 1) * plan.riser
        profile = tuple(
            _place(plan, low, x, z)
            for x, z in (
                (out - plan.run, top),
                (out + plan.stairs.nosing, top),
                (out + plan.stairs.nosing, top - plan.tread),
                (out - plan.run, top - plan.tread),
            )
        )
        yield Body("stair", BodyKind.STAIRS, faces_of(profile, width))
    if pad := stair_pad(plan):
        thick = plan.stairs.pad_thickness or 4.0
        ring = tuple((x, y, plan.level) for x, y in pad)
        yield Body("stair", BodyKind.STAIR_PAD, faces_of(ring, (0.0, 0.0, -thick)))


def stringer_profile(plan: StairPlan, *, steps: bool) -> tuple[Vector, ...]:
    """Outline of a stringer: distance out from the framing's face, and level; with its steps or as a plain slope."""
    slope = math.tan(math.radians(plan.theta))
    top = plan.level + plan.treads * plan.riser - plan.tread
    down = plan.depth / math.cos(math.radians(plan.theta))
    # Under the notches, the line that the inner corners of the steps lie on.
    inner = [
        (plan.going - (k + 1) * plan.run, plan.level + (k + 1) * plan.riser - plan.tread)
        for k in range(plan.treads)
    ]
    line = inner[-1]

    def under(x: float) -> float:
        return line[1] - (x - line[0]) * slope - down

    heel = max(0.0, plan.going - (under(plan.going) < plan.level) * (plan.level - under(plan.going)) / slope)
    low = [(0.0, under(0.0)), (heel, plan.level), (plan.going, plan.level)]
    if plan.stairs.cut == "closed" or not steps:
        upper = plan.level + plan.riser - plan.tread
        return ((0.0, top), *low, (plan.going, upper))
    stepped: list[Vector] = []
    for k in range(plan.treads):
        level = plan.level + (k + 1) * plan.riser - plan.tread
        stepped += [(plan.going - k * plan.run, level), (plan.going - (k + 1) * plan.run, level)]
    return (*low, *stepped)


def stair_pad(plan: StairPlan) -> tuple[Vector, ...]:
    """Corners of the pad in plan; none where its length is not given."""
    length = plan.stairs.pad_length
    if length is None:
        return ()
    _, _, far_high, far_low = plan.outline
    more = ((plan.stairs.pad_width or plan.stairs.width) - plan.stairs.width) / 2

    def corner(at: Vector, side: float, out: float) -> Vector:
        return (
            at[0] + side * more * plan.along[0] + out * plan.out[0],
            at[1] + side * more * plan.along[1] + out * plan.out[1],
        )

    back = BEFORE - length
    return (
        corner(far_low, -1.0, back),
        corner(far_high, 1.0, back),
        corner(far_high, 1.0, BEFORE),
        corner(far_low, -1.0, BEFORE),
    )


def _place(plan: StairPlan, start: Vector, out: float, level: float) -> Vec:
    return (start[0] + out * plan.out[0], start[1] + out * plan.out[1], level)
