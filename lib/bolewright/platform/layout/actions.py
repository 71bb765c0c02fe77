"""What stands on, hangs from or pushes the framing at a place: the one way by which parts hand their loads on.

A part (a point load, a guard post, a stair's head, a ladder) gives :class:`Action`s. The load path makes one source of
each, so that it counts in every effect of every member and support: always (dead), wherever it does harm (live), with
the snow, or as the push on a guard, at one place at a time. Its lateral force goes into the lateral cases, at its
height. Nothing else of the program has to know of the part.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property

from shapely import Point as PlanPoint

from bolewright.mechanics.loads import CoupleLoad, PointLoad, SpreadLoad, UnitLoad
from bolewright.platform.layout.board_ends import bear_at_edge, board_width
from bolewright.platform.layout.boards import BoardField, Cell, deck_at
from bolewright.platform.layout.borne import Share
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout, LayoutError, Member
from bolewright.units import feet_inches

_NOTHING = 1e-9  # lb
_SHORT = 0.1  # in: a shorter patch is one place


class ActionKind(StrEnum):
    """When an action is there."""

    DEAD = "dead"
    """always"""
    LIVE = "live"
    """where it does harm, with the live load"""
    SNOW = "snow"
    """with the snow"""
    WIND = "wind"
    """lateral force in the wind, at strength level: factored 0.6 as the wind is"""
    PUSH = "push"
    """the push on a guard: one place at a time, beside the live load"""


_STAYS = (ActionKind.DEAD, ActionKind.LIVE, ActionKind.SNOW)


@dataclass(frozen=True)
class Action:
    """What a part brings to the framing at one place.

    ``part`` is the mark it is listed under and ``what`` says it in words. It comes straight to a ``member`` at ``at``
    (a point in plan on its line), or down through the boards where ``member`` is empty. ``down`` in lb, minus lifts;
    ``level`` the lateral force along x and y of the plan (lb), at ``height`` above grade (in); ``moment`` as a vector
    along x and y by the right hand (lb·in), which only a member can take: the part along the member's line would
    twist it and must be 0. ``patch`` is the length along the member over which ``down`` is spread (in).
    ``reverses``: the lateral force comes both ways in turn. ``also``: what the same load brings to other places at
    once: down, moment and lateral force. On boards where several stretches of deck meet (``ways``) the part gives one
    action for each (``way``, from 0), and stands on one of them: :mod:`bolewright.platform.loads.either`.
    """

    part: str
    what: str
    kind: ActionKind
    at: Vector
    member: str = ""
    down: float = 0.0
    level: Vector = (0.0, 0.0)
    height: float = 0.0
    moment: Vector = (0.0, 0.0)
    patch: float = 0.0
    reverses: bool = False
    also: tuple[Action, ...] = ()
    ways: int = 1
    way: int = 0

    @cached_property
    def lateral(self) -> tuple[float, float, float, float, float]:
        """Lateral force at all its places: F_x, F_y (lb), moment about the origin, force times height (lb·in)."""
        parts = [(one.at, one.level, one.height) for one in (self, *self.also)]
        return (
            sum(F[0] for _, F, _ in parts),
            sum(F[1] for _, F, _ in parts),
            sum(at[0] * F[1] - at[1] * F[0] for at, F, _ in parts),
            sum(F[0] * height for _, F, height in parts),
            sum(F[1] * height for _, F, height in parts),
        )

    @property
    def weight(self) -> float:
        """Load down at all its places (lb)."""
        return self.down + sum(one.down for one in self.also)


Giver = Callable[[Layout], Iterable[Action]]
_GIVERS: list[Giver] = []


def gives_actions(giver: Giver) -> Giver:
    """Mark a function of a layout as one that gives the actions of a kind of part; see ``platform/action_givers``."""
    _GIVERS.append(giver)
    return giver


def find_actions(layout: Layout) -> tuple[Action, ...]:
    """Actions of all parts on a layout, in a fixed order: those that stay or come with other loads, then pushes."""
    from bolewright.platform.layout import action_givers  # noqa: F401  its import lists the kinds of part

    found = [action for giver in _GIVERS for action in giver(layout)]
    for action in found:
        for one in (action, *action.also):
            _refuse_off(layout, one)
    each = (way for action in found for way in _each_way(layout, action))
    return tuple(sorted(each, key=lambda action: action.kind is ActionKind.PUSH))


def _each_way(layout: Layout, action: Action) -> Iterator[Action]:
    """An action on the boards by each stretch of deck that may bear it; its lateral force comes once."""
    boards = not action.member and action.kind in _STAYS and abs(action.down) > _NOTHING
    count = len(through_boards(layout, action.at)) if boards else 1
    yield action if count == 1 else replace(action, ways=count)
    for way in range(1, count):
        yield replace(action, ways=count, way=way, level=(0.0, 0.0))


def shares_of(layout: Layout, action: Action) -> Iterator[Share]:
    """What the members get of an action: pounds of unit loads, and lb·in of couples."""
    for one in action.also:
        yield from shares_of(layout, one)
    if action.member:
        member = layout.member(action.member)
        yield from _on_member(member, action)
    elif abs(action.down) > _NOTHING:
        for share in through_boards(layout, action.at)[action.way]:
            yield Share(share.member, share.load, action.down * share.part)


def _on_member(member: Member, action: Action) -> Iterator[Share]:
    x = member.line.nearest(action.at)
    if abs(action.down) > _NOTHING:
        half = min(action.patch / 2, x, member.line.length - x)
        load: UnitLoad = SpreadLoad(x - half, x + half) if half > _SHORT / 2 else PointLoad(x)
        yield Share(member.mark, load, action.down)
    couple = couple_along(member, action.moment)
    if abs(couple) > _NOTHING:
        yield Share(member.mark, CoupleLoad(x), couple)


def couple_along(member: Member, moment: Vector) -> float:
    """The part of a moment that bends a member up and down, as :class:`CoupleLoad` counts it (lb·in).

    A lateral push towards the member's start above it deflects what lies before it: moment z x push, by the right hand.
    """
    (u_x, u_y), (m_x, m_y) = member.line.u, moment
    return -(u_x * m_y - u_y * m_x)


def moment_of_push(push: Vector, arm: float) -> Vector:
    """Moment (a vector along x and y, lb·in) of a lateral push at ``arm`` above the line that takes it.

    >>> moment_of_push((200.0, 0.0), 40.0)
    (0.0, 8000.0)
    """
    return (0.0 - push[1] * arm, push[0] * arm)


def through_boards(layout: Layout, point: Vector) -> list[list[Share]]:
    """What the members get of a pound on the boards at a place in plan, by each stretch of deck that meets there.

    Boards end where two fields meet, so a thing set on the seam may stand on either one whole.
    """
    found: dict[tuple[tuple[str, float, float], ...], list[Share]] = {}
    for boards, cell in deck_at(layout.board_fields, point):
        parts = sorted(_through(layout, boards, cell, point))
        alike = tuple((mark, round(x, 4), round(part, 6)) for mark, x, part in parts)
        found.setdefault(alike, [Share(mark, PointLoad(x), part) for mark, x, part in parts])
    return list(found.values())


def _through(
    layout: Layout, boards: BoardField, cell: Cell, point: Vector
) -> Iterator[tuple[str, float, float]]:
    """By one stretch: each member, where along it, and its part."""
    found: dict[tuple[str, bool], tuple[float, float]] = {}
    for borne in bear_at_edge(layout, boards, cell, *boards.place(point), board_width(layout)):
        key = (borne.member, borne.pounds > 0)
        part, moment = found.get(key, (0.0, 0.0))
        found[key] = (part + borne.pounds, moment + borne.pounds * borne.x)
    for (mark, _), (part, moment) in found.items():
        if abs(part) > _NOTHING:
            yield mark, moment / part, part


def _refuse_off(layout: Layout, action: Action) -> None:
    """LayoutError for an action that nothing takes."""
    where = f"{feet_inches(action.at[0])}, {feet_inches(action.at[1])}"
    if not action.member:
        if layout.deck.distance(PlanPoint(action.at)) > 1e-6:
            raise LayoutError(f"{action.part} stands at {where}, off the deck: move it inside the outline.")
        if math.hypot(*action.moment) > _NOTHING:
            raise LayoutError(f"{action.part} brings a moment to the boards at {where}: put it on a member.")
        return
    if action.member not in {m.mark for m in layout.members}:
        raise LayoutError(f"{action.part} is on {action.member}, which is no member of this platform.")
    member = layout.member(action.member)
    off = member.line.distance(action.at)
    if off > member.width / 2 + 0.5:
        raise LayoutError(
            f"{action.part} at {where} is {feet_inches(off)} off the line of {action.member}: move it onto it."
        )
