"""Limbs and leaning trunks beside the platform: their place and thickness at any level, and how near they come."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from shapely import LineString, Polygon, points
from shapely import Point as PlanPoint
from shapely.geometry.base import BaseGeometry

from bolewright.platform.layout.layout import Layout, Vector
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.project import Limb

_STEPS = 240  # places along a limb that are looked at
_REACH = 12.0  # in beside a flight that head room is kept over (judgement)


def limb_at(limb: Limb, level: float) -> tuple[Vector, float]:
    """Axis in plan and radius of a limb at a level, or at its end that is nearer to it (in)."""
    rise = limb.end_level - limb.start_level
    share = min(max((level - limb.start_level) / rise, 0.0), 1.0) if abs(rise) > 1e-9 else 0.0
    return _at(limb, share)[0], _at(limb, share)[2]


def sway_of(limb: Limb) -> float | None:
    """Movement of a limb to one side, as seen (in); None where it is not given."""
    return limb.sway


def _at(limb: Limb, share: float) -> tuple[Vector, float, float]:
    """Axis in plan, level and radius at a share of a limb's length."""
    (x0, y0), (x1, y1) = limb.start, limb.end
    radius = (limb.start_diameter + share * (limb.end_diameter - limb.start_diameter)) / 2
    level = limb.start_level + share * (limb.end_level - limb.start_level)
    return (x0 + share * (x1 - x0), y0 + share * (y1 - y0)), level, radius


def near(layout: Layout, limb: Limb) -> Iterator[tuple[str, float, float]]:
    """What a limb comes near to: name, least clearance from its bark (in), below 0 inside, and the level there.

    The floor with its framing, and the guard; taken along the whole limb where it is least, on the slope, square to its
    axis or nearly so: the distance from the axis less the radius there.
    """
    floor = layout.project.platform.floor_height
    places = [_at(limb, n / _STEPS) for n in range(_STEPS + 1)]
    axis = points([at for at, _, _ in places])

    def least(shape: BaseGeometry, low: float, high: float) -> tuple[float, float]:
        found = []
        for off, (_, level, radius) in zip(shape.distance(axis).tolist(), places, strict=True):
            beside = max(0.0, low - level, level - high)
            found.append((math.hypot(off, beside) - radius, level))
        return min(found)

    frame = [least(layout.deck, layout.under_deck, floor)]
    for piece in cut_pieces(layout):
        member = layout.member(piece.mark)
        frame.append(least(Polygon(piece.corners), member.bottom, member.top))
    yield "the floor and its framing", *min(frame)
    height = layout.project.loads.guard_height
    if layout.project.loads.guard_edges or layout.project.guards:
        edge = LineString([*layout.project.platform.outline, layout.project.platform.outline[0]])
        yield "the guard", *least(edge, floor, floor + height)


@dataclass(frozen=True)
class BesideWay:
    """A limb and a way up: how far its bark is from the flight in plan, below 0 over or in it (in).

    ``over`` is the level of its lowest underside above the flight in plan; None where no part of it is there.
    """

    what: str
    aside: float
    over: float | None


def ways_beside(layout: Layout, limb: Limb) -> Iterator[BesideWay]:
    """How a limb stands to stairs and ladder, along all of it, in plan: one higher up counts as one below."""
    flights = [("stairs", layout.stairs), ("ladder", layout.ladder)]
    for what, plan in flights:
        if plan is None:
            continue
        flight = Polygon(plan.outline)
        found = [_at(limb, n / _STEPS) for n in range(_STEPS + 1)]
        aside = min(float(flight.distance(PlanPoint(at))) - radius for at, _, radius in found)
        above = [
            level - radius for at, level, radius in found if flight.distance(PlanPoint(at)) < radius + _REACH
        ]
        yield BesideWay(what, aside, min(above, default=None))
