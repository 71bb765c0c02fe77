"""Stairs in plan: which edge they hang on, what their stringers meet there, where they come down."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from shapely import LineString, Polygon
from shapely import Point as PlanPoint

from bolewright.calculation import Calculation, Step
from bolewright.platform.layout.lines import Line, Vector
from bolewright.platform.layout.parts import Layout, LayoutError, Member
from bolewright.platform.project import Stairs
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.sections import Section, parse_section
from bolewright.timber.stairs import (
    riser_height,
    stair_angle,
    stair_going,
    stair_going_flush,
    stringer_throat,
)
from bolewright.units import feet_inches

REACH = 12.0  # in: framing further inside the edge is no framing for the head of stairs
_ALONG = 0.05  # sine of the angle under which a timber runs along the edge
MARK = "stair"


@dataclass(frozen=True)
class Head:
    """Where the head of a stringer meets the framing: in plan, the member it hangs on (empty for none), its share."""

    at: Vector
    member: str
    share: float


@dataclass(frozen=True)
class StairPlan:
    """Stairs as they stand: steps, slope, stringers and where they are (in, degrees).

    ``going`` is the level span of a stringer, from the face of the framing to its foot; ``inset`` how far that face
    lies inside the edge; ``share`` of a head the width of stairs that its stringer carries; ``out`` points away from
    the deck.
    """

    stairs: Stairs
    section: Section
    count: int
    riser: float
    run: float
    going: float
    theta: float
    throat: float
    heads: tuple[Head, ...]
    along: Vector
    out: Vector
    inset: float
    level: float
    steps: tuple[Step, ...]

    @property
    def depth(self) -> float:
        """Depth of a stringer that counts: what is left under the notches, or all of it (in)."""
        return self.throat if self.stairs.cut == "cut" else self.section.d

    @property
    def tread(self) -> float:
        """Thickness of a tread (in)."""
        given = self.stairs.tread
        return parse_section(self.stairs.tread_section).b if given is None else given

    @property
    def rise(self) -> float:
        """From the landing up to the floor (in)."""
        return self.count * self.riser

    @property
    def treads(self) -> int:
        """Number of treads, the one that is level with the floor counted too."""
        return self.count if self.stairs.flush else self.count - 1

    @property
    def spacing(self) -> float:
        """Distance of two stringers, centre to centre (in)."""
        return (self.stairs.width - self.section.b) / (self.stairs.stringers - 1)

    def place(self, head: Head, out: float) -> Vector:
        """Place in plan, ``out`` from the framing's face in the line of a stringer."""
        return (head.at[0] + out * self.out[0], head.at[1] + out * self.out[1])

    @property
    def outline(self) -> tuple[Vector, ...]:
        """Corners of the stairs in plan, from the framing's face to their foot."""
        half = self.section.b / 2
        first, last = self.heads[0], self.heads[-1]

        def corner(head: Head, side: float, out: float) -> Vector:
            x, y = self.place(head, out)
            return (x + side * self.along[0], y + side * self.along[1])

        return (
            corner(first, -half, 0.0),
            corner(last, half, 0.0),
            corner(last, half, self.going),
            corner(first, -half, self.going),
        )


def risers(rise: float, highest: float) -> int:
    """Least number of risers of which none is higher than allowed.

    >>> risers(84.0, 7.75), risers(77.5, 7.75)
    (11, 10)
    """
    return max(1, math.ceil(rise / highest - 1e-9))


def find_stairs(layout: Layout) -> StairPlan | None:
    """Stairs that have a place on an edge; None where the file gives none.

    Raises LayoutError where they do not fit: off the edge, into a trunk, under the floor.
    """
    stairs = layout.project.stairs
    if stairs.edge is None:
        return None
    edge = edge_line(layout.project.platform.outline, stairs.edge)
    middle = edge.length / 2 if stairs.along is None else stairs.along
    half = stairs.width / 2
    if middle - half < -0.01 or middle + half > edge.length + 0.01:
        raise LayoutError(
            f"The stairs, {feet_inches(stairs.width)} wide with their middle {feet_inches(middle)} along edge "
            f"{stairs.edge}, reach past its ends: it is {feet_inches(edge.length)} long."
        )
    section = parse_section(stairs.section)
    out = outwards(layout, edge)
    step = (stairs.width - section.b) / (stairs.stringers - 1)
    places = [middle - half + section.b / 2 + i * step for i in range(stairs.stringers)]
    member = framing_behind(layout, edge, [edge.at(s) for s in places])
    inset = 0.0 if member is None else max(0.0, member.line.distance(edge.at(middle)) - member.width / 2)
    shares = [min(step, half)] * len(places) if len(places) > 2 else [half, half]
    if len(places) > 2:
        shares[0] = shares[-1] = step / 2 + section.b / 2
    plan = _steps(layout, stairs, section)
    heads = tuple(
        Head((x - inset * out[0], y - inset * out[1]), member.mark if member else "", share)
        for (x, y), share in zip((edge.at(s) for s in places), shares, strict=True)
    )
    found = StairPlan(heads=heads, along=edge.u, out=out, inset=inset, **plan)
    _clear(layout, found)
    return found


def _steps(layout: Layout, stairs: Stairs, section: Section) -> dict[str, Any]:
    floor = layout.project.platform.floor_height
    n = risers(floor - stairs.landing_level, stairs.highest_riser)
    calculation = Calculation()
    run, r = calculation.run, stairs.tread_run
    h_r = float(run(riser_height, H_f=floor, z_f=stairs.landing_level, n=float(n)))
    going = float(run(stair_going_flush if stairs.flush else stair_going, n=float(n), r=r))
    theta = float(run(stair_angle, h_r=h_r, r=r))
    depth = stairs.stringer_depth or section.d
    throat = float(run(stringer_throat, d=depth, h_r=h_r, r=r))
    return {
        "stairs": stairs,
        "section": section,
        "count": n,
        "riser": h_r,
        "run": r,
        "going": max(going, r),
        "theta": theta,
        "throat": throat,
        "level": stairs.landing_level,
        "steps": calculation.at(()),
    }


def edge_line(outline: Sequence[Vector], number: int) -> Line:
    """Edge of an outline or opening, by its number."""
    return Line.between(outline[number - 1], outline[number % len(outline)])


def outwards(layout: Layout, edge: Line) -> Vector:
    """Direction square to an edge, away from the deck."""
    x, y = edge.at(edge.length / 2)
    out = (edge.u[1], -edge.u[0])
    inside = layout.deck.contains(PlanPoint(x + 0.1 * out[0], y + 0.1 * out[1]))
    return (-out[0], -out[1]) if inside else out


def framing_behind(layout: Layout, edge: Line, places: list[Vector]) -> Member | None:
    """The timber under the deck that runs along the edge behind every stringer; None where there is none."""
    found = []
    for member in layout.flush:
        if member.line.sine(edge) > _ALONG:
            continue
        reach = [member.line.along(place) for place in places]
        if min(reach) < -0.25 or max(reach) > member.line.length + 0.25:
            continue
        away = max(member.line.distance(place) for place in places) - member.width / 2
        if away <= REACH:
            found.append((away, member))
    return min(found, key=lambda pair: pair[0])[1] if found else None


def _clear(layout: Layout, plan: StairPlan) -> None:
    """LayoutError where the stairs run into a trunk or a post."""
    flight = Polygon(plan.outline)
    for tree in layout.project.trees:
        girth = tree.diameter * math.pi if tree.diameter is not None else (tree.girth or 0.0)
        gap = flight.distance(PlanPoint(tree.at)) - girth / (2 * math.pi)
        if gap < 0:
            raise LayoutError(
                f"The stairs on edge {plan.stairs.edge} run into the trunk of {tree.mark}: move them along the edge "
                "(stairs.along) or to another."
            )
    line = LineString([plan.heads[0].at, plan.heads[-1].at])
    for support in layout.supports:
        spot = PlanPoint(support.at)
        if support.kind == SupportKind.POST and flight.contains(spot) and line.distance(spot) > 6.0:
            raise LayoutError(
                f"The stairs on edge {plan.stairs.edge} run into the post {support.mark}: move them along the edge "
                "(stairs.along) or to another."
            )
