"""What stands on every support up to the floor, one thickness on the other, from the layout's own levels.

Timber dries across the grain and a post's stack is often deeper than a tree's: the floor then tilts by the difference.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.platform.layout.layout import Bearing, Layout, Member, Seat, Vector
from bolewright.platform.project import Timber
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.movement import cross_grain_shrinkage
from bolewright.timber.sections import parse_section

ROUNDING = 1e-6  # in
WET, DRY = (
    30.0,
    12.0,
)  # % moisture of fresh treated timber at most, and of timber dried outdoors (from memory)


@dataclass(frozen=True)
class Layer:
    """One thickness of a stack, from the ground up: planned and as measured (in), and its fall as it dries."""

    name: str
    planned: float
    measured: float
    dries: float


@dataclass(frozen=True)
class Stack:
    """What stands on a support up to the floor; levels in inches above grade. ``top`` is the post's cut or the seat."""

    support: str
    kind: SupportKind
    top: float
    layers: tuple[Layer, ...]
    floor: float

    @property
    def dries(self) -> float:
        """Fall of the floor over this support as the timber dries (in)."""
        return sum(layer.dries for layer in self.layers)


def measured_depth(layout: Layout, mark: str, planned: float) -> float:
    """Depth of a member as measured where the project file has it, or as planned (in)."""
    found = (entry.depth for entry in layout.project.as_built if entry.mark == mark)
    return next((depth for depth in found if depth is not None), planned)


def _route(
    layout: Layout, member: Member, point: Vector, seen: frozenset[str] = frozenset()
) -> tuple[Member, ...]:
    """Members whose depths lie between a member's underside and the boards, from below up; empty where none do.

    Up through what rests on it, the nearest first; else, from its top, through what hangs in it or what it hangs from;
    else as on a support that it shares, where its underside is level with that of another.
    """
    if member in layout.flush:
        return (member,)
    seen = seen | {member.mark}
    above = sorted(_seats_on(layout, member.mark), key=lambda item: round(math.dist(item[1].point, point), 6))
    from_it = [layout.member(s.below) for s in member.seats if s.bearing is Bearing.HANGS]
    ways = (
        ([m for m, s in above if s.bearing is Bearing.RESTS], 1, 0),
        ([*(m for m, s in above if s.bearing is Bearing.HANGS), *from_it], 1, 1),
        ([m for s in member.seats for m, _ in layout.on_support(s.below)], 0, 0),
    )
    for others, own, left_out in ways:
        for other in others:
            if other.mark not in seen and (found := _route(layout, other, point, seen)):
                return (*(member,) * own, *found[left_out:])
    return ()


def _seats_on(layout: Layout, mark: str) -> list[tuple[Member, Seat]]:
    return [(m, s) for m in layout.members for s in m.seats if s.below == mark]


def stacks(layout: Layout) -> tuple[Stack, ...]:
    """Stack over every support, bolts first.

    The level of the seat is the layout's own; a depth as measured moves it by what it differs from the planned one.
    """
    decking = layout.project.decking
    board = parse_section(decking.section).b
    floor = layout.project.platform.floor_height
    found = []
    borne = [s for s in layout.project.seated if s.kind != SupportKind.KNEE_BRACE] or list(
        layout.project.seated
    )
    for support in sorted(borne, key=lambda s: s.kind == SupportKind.POST):
        plate = layout.project.posts[support.post or ""].cap_seat if support.kind == SupportKind.POST else 0.0
        layers = [Layer("cap plate", plate, plate, 0.0)] if plate else []
        seat = layout.seat_level(support.mark) - plate
        over = [m for m, _ in layout.on_support(support.mark)]
        routes = [route for m in over if (route := _route(layout, m, support.at))]
        # Of beams side by side the one that bears something: it is under the floor there.
        route = min(routes, key=lambda r: r[0] not in over) if routes else (over[0],)
        for member in route:
            d = member.section.d
            measured = measured_depth(layout, member.mark, d)
            fall = _fall(member.timber, measured) if member.timber.wet else 0.0
            layers.append(Layer(f"{member.mark}, {member.section.name}", d, measured, fall))
        rest = floor - board - seat - sum(layer.planned for layer in layers)
        if abs(rest) > ROUNDING:
            layers.append(Layer("difference of level", rest, rest, 0.0))
        fall = _fall(decking, board) if decking.wet else 0.0
        layers.append(Layer(f"decking, {decking.section}", board, board, fall))
        seat -= sum(layer.measured - layer.planned for layer in layers)
        found.append(Stack(support.mark, support.kind, seat, tuple(layers), floor))
    return tuple(found)


def _fall(timber: Timber, height: float) -> float:
    return float(cross_grain_shrinkage(S_t=timber.shrinkage, H=height, dMC=WET - DRY))
