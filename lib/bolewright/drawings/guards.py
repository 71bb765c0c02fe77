"""Guards that are parts, drawn: posts on the plan, solids of elevations, the joint of a post in detail."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from bolewright.drawings.bodies import Solid, prism
from bolewright.drawings.chains import chain
from bolewright.drawings.measures import Measures
from bolewright.drawings.words import titled
from bolewright.mechanics.convex import faces_of, turned_square
from bolewright.platform.layout.gates import GateAt, find_gates
from bolewright.platform.layout.guard_sizes import baluster_places, stretches_of
from bolewright.platform.layout.guards import GuardPost, GuardRun, below_deck, edge_name, height_of
from bolewright.platform.layout.layout import Layout, Vector
from bolewright.platform.layout.stairs import edge_line, outwards
from bolewright.platform.results.results import Results
from bolewright.platform.solids.access_bodies import post_centre
from bolewright.rendering.drawing import Drawing, Fill, Item, Layer, Leader, Line, Mark, Pen, Polygon
from bolewright.timber.sections import parse_section

_STUB = 26.0  # in of joist that a detail shows
_ABOVE = 12.0  # in of post over the deck that a detail shows
_NEAR = 8.0  # mm
_FACING = 0.5  # cosine of the angle up to which a guard's infill is seen from a side
_CABLE = 0.25  # in: a cable as it is drawn


def guard_on_plan(layout: Layout, marks: bool = True) -> list[Item]:
    """Posts and gates, with their marks."""
    items: list[Item] = []
    for run in layout.guards:
        for post in run.posts:
            x, y = post_centre(post)
            ring = turned_square((x, y), post.section.d, post.section.b, post.out)
            items.append(Polygon(tuple((float(a), float(b)) for a, b in ring), Layer.GUARD, Fill.END_GRAIN))
            if marks:
                items.append(Mark((x, y), post.mark))
    for at in find_gates(layout):
        items += _gate_on_plan(layout, at)
    return items


def _gate_line(layout: Layout, at: GateAt) -> tuple[Vector, Vector, Vector]:
    """Hinge side and free side of a leaf in plan, on the middle line of the posts, and the way over the deck."""
    edge = edge_line(layout.project.platform.outline, at.gate.edge)
    out = outwards(layout, edge)
    off = (parse_section(at.guard.section).d if at.guard is not None else 3.5) / 2
    low, high = (
        (x + off * out[0], y + off * out[1])
        for x, y in (edge.at(at.way.low + at.gate.side_gap), edge.at(at.way.high - at.gate.side_gap))
    )
    hinge, free = (low, high) if at.gate.hung == "start" else (high, low)
    return hinge, free, (-out[0], -out[1])


def _gate_on_plan(layout: Layout, at: GateAt) -> Iterator[Item]:
    """The leaf shut, the quarter circle in which it opens, and its mark."""
    hinge, free, inward = _gate_line(layout, at)
    if at.gate.swing == "outward":
        inward = (-inward[0], -inward[1])
    shut = (free[0] - hinge[0], free[1] - hinge[1])
    opened = (inward[0] * at.leaf, inward[1] * at.leaf)
    arc = []
    for k in range(13):
        c, s = math.cos(math.pi * k / 24), math.sin(math.pi * k / 24)
        arc.append((hinge[0] + c * shut[0] + s * opened[0], hinge[1] + c * shut[1] + s * opened[1]))
    yield Line(hinge, free, Layer.GUARD, Pen.SOLID)
    yield Line(hinge, arc[-1], Layer.GUARD, Pen.DASHED)
    for a, b in pairwise(arc):
        yield Line(a, b, Layer.GUARD, Pen.DASHED)
    yield Mark(((hinge[0] + free[0]) / 2, (hinge[1] + free[1]) / 2), at.gate.mark)


def rail_solids(layout: Layout) -> Iterator[Solid]:
    """Caps, rails and gates as bodies; they run through their posts and past each other at corners, as no body may."""
    floor = layout.project.platform.floor_height
    top = floor + height_of(layout.project)
    for run in layout.guards:
        yield from _rails(run, floor, top)
    for at in find_gates(layout):
        yield from _leaf(layout, at, floor, top)


def _leaf(layout: Layout, at: GateAt, floor: float, top: float) -> Iterator[Solid]:
    """Rails, stiles and brace of a gate that is shut: the brace from the lower hinge up to the free edge."""
    hinge, free, _ = _gate_line(layout, at)
    section = parse_section(at.gate.section)
    u = ((free[0] - hinge[0]) / at.leaf, (free[1] - hinge[1]) / at.leaf)
    middle = ((hinge[0] + free[0]) / 2, (hinge[1] + free[1]) / 2)
    foot = floor + at.gate.bottom_gap
    for low in (foot, top - section.d):
        plan = turned_square(middle, at.leaf, section.b, u)
        yield prism(at.gate.mark, Layer.GUARD, Fill.TIMBER, plan, low, low + section.d)
    for end, way in ((hinge, 1.0), (free, -1.0)):
        place = (end[0] + way * section.d / 2 * u[0], end[1] + way * section.d / 2 * u[1])
        plan = turned_square(place, section.d, section.b, u)
        yield prism(at.gate.mark, Layer.GUARD, Fill.TIMBER, plan, foot, top)
    rise, run = top - foot - 2 * section.d, at.leaf - 2 * section.d
    slant = section.d * math.hypot(rise, run) / run  # upright through the brace
    x, y = hinge[0] - section.b / 2 * u[1], hinge[1] + section.b / 2 * u[0]  # on its near face
    profile = (
        (section.d, foot + section.d),
        (section.d + run, top - section.d - slant),
        (section.d + run, top - section.d),
        (section.d, foot + section.d + slant),
    )
    ring = tuple((x + along * u[0], y + along * u[1], z) for along, z in profile)
    through = (section.b * u[1], -section.b * u[0], 0.0)
    yield Solid(at.gate.mark, Layer.GUARD, Fill.TIMBER, faces_of(ring, through))


def infill_solids(layout: Layout, look: Vector) -> Iterator[Solid]:
    """Infill of guards and gates that face a viewer who looks in a plan direction; mesh as an open field."""
    floor = layout.project.platform.floor_height
    top = floor + height_of(layout.project)
    for run in layout.guards:
        if run.posts and run.posts[0].out[0] * look[0] + run.posts[0].out[1] * look[1] < -_FACING:
            for low, high in stretches_of(run):
                yield from _infill(run, low, high, floor + run.guard.bottom_gap, top)
    for at in find_gates(layout):
        hinge, free, inward = _gate_line(layout, at)
        if at.guard is not None and inward[0] * look[0] + inward[1] * look[1] > _FACING:
            yield from _leaf_infill(at, hinge, free, floor + at.gate.bottom_gap, top)


def _infill(run: GuardRun, low: float, high: float, foot: float, top: float) -> Iterator[Solid]:
    guard, u, out = run.guard, run.line.u, run.posts[0].out
    off = (parse_section(guard.section).d + parse_section(guard.top_rail).b) / 2
    name, under = edge_name(run), top - parse_section(guard.cap).b

    def plan(at: float, wide: float, thick: float) -> list[Vector]:
        x, y = run.line.at(at)
        return list(turned_square((x + off * out[0], y + off * out[1]), wide, thick, u))

    if guard.infill == "balusters":
        size = parse_section(guard.baluster)
        for at in baluster_places(guard, low, high):
            yield prism(name, Layer.GUARD, Fill.TIMBER, plan(at, size.b, size.d), foot, under)
    elif guard.infill in ("cable", "rope"):
        count = max(1, math.floor((under - foot) / (guard.gap + _CABLE)))
        for k in range(1, count + 1):
            level = foot + k * (under - foot) / (count + 1)
            ring = plan((low + high) / 2, high - low, _CABLE)
            yield prism(name, Layer.GUARD, Fill.STEEL, ring, level, level + _CABLE)
    else:
        fill = Fill.NONE if guard.infill == "mesh" else Fill.WASH
        yield prism(name, Layer.GUARD, fill, plan((low + high) / 2, high - low, 0.5), foot, under)


def _leaf_infill(at: GateAt, hinge: Vector, free: Vector, foot: float, top: float) -> Iterator[Solid]:
    guard = at.guard
    if guard is None or guard.infill != "balusters":
        return
    size, stile = parse_section(guard.baluster), parse_section(at.gate.section)
    u = ((free[0] - hinge[0]) / at.leaf, (free[1] - hinge[1]) / at.leaf)
    for x in baluster_places(guard, stile.b, at.leaf - stile.b):
        plan = turned_square((hinge[0] + x * u[0], hinge[1] + x * u[1]), size.b, size.d, u)
        yield prism(at.gate.mark, Layer.GUARD, Fill.TIMBER, plan, foot, top)


def _rails(run: GuardRun, floor: float, top: float) -> Iterator[Solid]:
    guard = run.guard
    cap, upper, lower = (parse_section(size) for size in (guard.cap, guard.top_rail, guard.bottom_rail))
    out = run.posts[0].out if run.posts else (0.0, 0.0)
    off = parse_section(guard.section).d / 2
    middle = run.line.at(run.line.length / 2)
    at = (middle[0] + off * out[0], middle[1] + off * out[1])
    foot = floor + guard.bottom_gap
    for wide, low, high in (
        (cap.d, top - cap.b, top),
        (upper.b, top - cap.b - upper.d, top - cap.b),
        (lower.b, foot, foot + lower.d),
    ):
        plan = turned_square(at, run.line.length, wide, run.line.u)
        yield prism(edge_name(run), Layer.GUARD, Fill.TIMBER, plan, low, high)


def guard_details(results: Results, measures: Measures = Measures.IMPERIAL) -> list[Drawing]:
    """The joint of one post of each guard: post, joist or block, bolts, plates, hold-down."""
    found = []
    for guard in results.project.guards:
        posts = [
            p for run in results.path.layout.guards if run.guard is guard for p in run.posts if p.receiver
        ]
        if posts:
            found.append(_detail(results, posts[0], measures))
    return found


def _box(x0: float, z0: float, x1: float, z1: float) -> tuple[Vector, ...]:
    return ((x0, z0), (x1, z0), (x1, z1), (x0, z1))


def _detail(results: Results, post: GuardPost, measures: Measures) -> Drawing:
    layout, guard = results.path.layout, post.guard
    receiver = post.receiver
    assert receiver is not None
    t, d, e = below_deck(layout, post), receiver.section.d, guard.bolt_edge
    wide = post.section.d
    upper, lower = -t - e, -t - d + e
    hold = "hold-down" if guard.hold_down is None else f"hold-down rated {guard.hold_down:,.0f} lb"
    tie = "tie" if guard.lower_tie is None else f"tie rated {guard.lower_tie:,.0f} lb"
    items: list[Item] = [
        Polygon(_box(-_STUB, -t - d, 0.0, -t), Layer.JOISTS, Fill.TIMBER),
        Polygon(_box(-_STUB, -t, 0.0, 0.0), Layer.DECKING, Fill.WASH),
        Polygon(_box(0.0, -t - d, wide, _ABOVE), Layer.GUARD, Fill.TIMBER),
    ]
    for z in (upper, lower):
        items += [
            Line((-8.0, z), (wide + 1.0, z), Layer.HARDWARE, Pen.SOLID),
            Polygon(
                _box(wide, z - guard.plate / 2, wide + 0.25, z + guard.plate / 2), Layer.HARDWARE, Fill.STEEL
            ),
            Polygon(_box(-9.5, z - 1.0, -4.0, z + 1.0), Layer.HARDWARE, Fill.STEEL),
        ]
    items += [
        *chain([(wide, -t - d), (wide, lower), (wide, upper), (wide, -t)], measures, -_NEAR),
        *chain([(0.0, -t - d), (wide, -t - d)], measures, -_NEAR),
        Leader((-7.0, upper), f"{hold}, on the side of {receiver.mark}", (-16.0, 14.0)),
        Leader((-7.0, lower), f"{tie}, on the side of {receiver.mark}", (-16.0, -14.0)),
        Leader((wide / 2, _ABOVE - 3.0), f"{post.mark}, {guard.section}", (10.0, 6.0)),
    ]
    marks = ", ".join(p.mark for run in layout.guards if run.guard is guard for p in run.posts if p.receiver)
    title = f"Guard post {post.mark}, its joint"
    where = (
        "a rim, where there is one, lies between post and joist"
        if receiver.field
        else "the edge joist lies between"
    )
    notes = [
        f"Alike: {marks}. Two bolts of {measures.words(guard.bolt_diameter)} through the post, plate washers of "
        f"{measures.words(guard.plate)}; {where}. Not notched. Top of the guard "
        f"{measures.words(height_of(layout.project))} over the deck."
    ]
    return titled(results, title, items, f"{title}. {notes[0]}", notes)
