"""Every member in balance by itself, every seat passed on: the load path proves itself each time it is solved.

The balance of the whole platform hides what one member loses and another gains, so each member is looked at alone:
for every source of load, the forces on its seats hold up what arrives, and their moments those of the loads; and what
a member gives to its seat is what the member below it gets, at that place.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np

from bolewright.mechanics.loads import CoupleLoad, PointLoad, SpreadLoad, UnitLoad, pounds_of
from bolewright.platform.layout.influence import Array
from bolewright.platform.layout.parts import Layout, Member
from bolewright.platform.layout.tees import Tee

if TYPE_CHECKING:
    from bolewright.platform.loads.load_path import Effects

_AGREES = 1e-6  # of the greatest force of a source on the member, or of that times the member's length


class BalanceError(AssertionError):
    """What is carried is not what was put on; a fault of the program, never released."""


def assert_members_balance(
    layout: Layout, effects: Mapping[str, Effects], tees: Mapping[str, Tee | None]
) -> None:
    """Raise :class:`BalanceError` for a member or a seat that does not pass on all that arrives."""
    for member in layout.members:
        _assert_forces(member, effects[member.mark])
        _assert_moments(member, effects[member.mark], tees[member.mark])
        for i, seat in enumerate(member.seats):
            if seat.below in effects:
                _assert_passed(member, i, effects[member.mark], effects[seat.below])


def _assert_forces(member: Member, effects: Effects) -> None:
    _assert_none(
        f"{member.mark}: forces on its seats and what arrives",
        effects.reactions.combined(np.ones(len(effects.reactions)))
        - effects.delivered.combined(np.array([pounds_of(load) for load in effects.loads])),
        _size(effects),
    )


def _assert_moments(member: Member, effects: Effects, tee: Tee | None) -> None:
    """About the member's start; about its post for a beam on one post, whose head gets them."""
    about = tee.own if tee is not None else 0.0
    at = np.array([moment_of(load, about) for load in effects.loads])
    seats = np.array([seat.at for seat in member.seats]) - about
    held = effects.reactions.combined(seats)
    if effects.head is not None:
        held = held + effects.head[0]
    laid = effects.delivered.combined(at)
    _assert_none(
        f"{member.mark}: moments of its seats and of what arrives",
        held - laid,
        _size(effects) * member.line.length,
    )


def _assert_passed(member: Member, seat: int, above: Effects, below: Effects) -> None:
    at = member.seats[seat].below_at
    arrived = sum(
        below.delivered[row]
        for row, (load, label) in enumerate(zip(below.loads, below.labels, strict=True))
        if label == member.mark and isinstance(load, PointLoad) and load.x == at
    )
    same = sum(
        above.reactions[i]
        for i, other in enumerate(member.seats)
        if other.below == below.member.mark and other.below_at == at
    )
    size = max(1.0, float(above.delivered.sizes().max(initial=0.0)))
    _assert_none(
        f"{member.mark} on {below.member.mark}: what one gives and the other gets",
        np.asarray(arrived - same, dtype=float),
        size,
    )


def moment_of(load: UnitLoad, about: float) -> float:
    """Moment of a unit load about a place of its member (lb·in): its weight times the distance past it."""
    return -1.0 if isinstance(load, CoupleLoad) else middle(load) - about


def middle(load: UnitLoad) -> float:
    """Where along its member a unit load's centre is (in)."""
    match load:
        case PointLoad(x) | CoupleLoad(x):
            return x
        case SpreadLoad(start, end):
            return (start + end) / 2
    return load.zero + (load.peak - load.zero) * 2 / 3


def _size(effects: Effects) -> Array:
    return np.asarray(np.maximum(1.0, effects.delivered.sizes()), dtype=float)


def _assert_none(what: str, off: Array, size: Array | float) -> None:
    worst = float(np.max(np.abs(off) / size, initial=0.0))
    if not worst <= _AGREES:
        raise BalanceError(f"{what} differ by {worst:.2g} of the load.")
