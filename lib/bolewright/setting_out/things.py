"""Where what stands, hangs or leans beside the deck goes: loads at a place, and limbs at the floor and the guard."""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.limbs import limb_at
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.point_loads import level_of, place_of
from bolewright.platform.layout.stairs import edge_line, outwards


@dataclass(frozen=True)
class FromEdge:
    """A place in plan taped from the deck (in): along edge 1 from its first corner, and in from that edge's line.

    ``along`` is below 0 before the corner, ``inside`` below 0 outside the edge.
    """

    along: float
    inside: float


@dataclass(frozen=True)
class ThingAt:
    """A load at a place (in): on a member, so far from its start, with another end of a hammock; or on the deck.

    ``level`` above grade is where it is fastened or stands; ``member`` is empty for what stands on the deck.
    """

    mark: str
    what: str
    member: str
    along: float | None
    other_end: float | None
    place: FromEdge
    level: float


@dataclass(frozen=True)
class LimbAt:
    """A limb at a level above grade (in): what level that is, its axis in plan, and its diameter over the bark."""

    mark: str
    where: str
    level: float
    place: FromEdge
    diameter: float


def things(layout: Layout) -> tuple[ThingAt, ...]:
    """Every load at a place, in the order of the file."""
    found = []
    for load in layout.project.point_loads:
        at, member = place_of(layout, load)
        found.append(
            ThingAt(
                load.mark,
                load.note or load.form,
                member.mark if member else "",
                None if member is None else load.along or 0.0,
                load.other_end,
                _from_edge(layout, at),
                level_of(layout, load, member),
            )
        )
    return tuple(found)


def limbs(layout: Layout) -> tuple[LimbAt, ...]:
    """Every limb where it passes the floor, and the top of the guard if there is one."""
    floor, loads = layout.project.platform.floor_height, layout.project.loads
    levels = [("floor", floor)]
    if loads.guard_edges or layout.project.guards:
        levels.append(("top of the guard", floor + loads.guard_height))
    found = []
    for limb in layout.project.limbs:
        low, high = sorted((limb.start_level, limb.end_level))
        for where, level in levels:
            if low <= level <= high:
                at, radius = limb_at(limb, level)
                found.append(LimbAt(limb.mark, where, level, _from_edge(layout, at), 2 * radius))
    return tuple(found)


def _from_edge(layout: Layout, at: Vector) -> FromEdge:
    edge = edge_line(layout.project.platform.outline, 1)
    x, y = outwards(layout, edge)
    return FromEdge(edge.along(at), -((at[0] - edge.start[0]) * x + (at[1] - edge.start[1]) * y))
