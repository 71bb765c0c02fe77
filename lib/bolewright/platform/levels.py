"""Levels through the stack from the floor down, and the order in which weight flows."""

from __future__ import annotations

from collections.abc import Sequence
from graphlib import CycleError, TopologicalSorter

from bolewright.platform.parts import STEP, Bearing, Kind, Layout, LayoutError, Member, under_deck
from bolewright.platform.project import Project
from bolewright.units import feet_inches


def find_tops(project: Project, carriers: dict[str, Member], joists: Sequence[Member]) -> dict[str, float]:
    """Level of the top of every member, from the floor down through the stack (in above grade)."""
    deck = under_deck(project)
    tops = {joist.mark: deck for joist in joists}
    for joist in joists:
        for seat in joist.seats:
            level = deck if seat.bearing is Bearing.HANGS else deck - joist.section.d
            if abs(tops.setdefault(seat.below, level) - level) > STEP:
                raise LayoutError(
                    f"Carrier {seat.below} would need its top at two levels: joists hang from it and rest on it, or "
                    "joists of two depths rest on it; use one kind of bearing and one depth."
                )
    waiting = [c for c in in_order(list(carriers.values())) if c.mark not in tops]
    while waiting:
        found = {c.mark: top for c in waiting if (top := _top(c, carriers, tops)) is not None}
        tops |= found or {waiting[0].mark: deck}
        waiting = [c for c in waiting if c.mark not in tops]
    return tops


def _top(carrier: Member, carriers: dict[str, Member], tops: dict[str, float]) -> float | None:
    """Level of a carrier's top by what rests on it, or else by what it hangs from; None while unknown."""
    above = [
        (m.mark, tops[m.mark] - m.section.d if m.mark in tops else None)
        for m in carriers.values()
        for s in m.seats
        if s.below == carrier.mark and s.bearing is Bearing.RESTS
    ]
    known = [(mark, level) for mark, level in above if level is not None]
    if known:
        low = min(known, key=lambda item: item[1])
        high = max(known, key=lambda item: item[1])
        if high[1] - low[1] > STEP:
            raise LayoutError(
                f"Carriers {low[0]} and {high[0]} rest on {carrier.mark} at levels "
                f"{feet_inches(high[1] - low[1])} apart: give them one depth."
            )
        return low[1] if len(known) == len(above) else None
    if above:
        return None
    return next(
        (tops[s.below] for s in carrier.seats if s.bearing is Bearing.HANGS and s.below in tops), None
    )


def check_levels(layout: Layout) -> None:
    """LayoutError when members that should meet do not, or a support would have its top below grade."""
    marks = {m.mark for m in layout.members}
    for member in layout.members:
        for seat in member.seats:
            if seat.below not in marks:
                continue
            below = layout.member(seat.below)
            if seat.bearing is Bearing.HANGS and member.bottom < below.bottom - STEP:
                raise LayoutError(
                    f"{member.mark} is deeper than {below.mark} from which it hangs: use a shallower section or "
                    f"a deeper {below.mark}."
                )
            if seat.bearing is Bearing.RESTS and abs(member.bottom - below.top) > STEP:
                raise LayoutError(
                    f"The underside of {member.mark} and the top of {below.mark} are "
                    f"{feet_inches(abs(member.bottom - below.top))} apart where one should rest on the other."
                )
    for support in layout.supports:
        bottoms = [member.bottom for member, _ in layout.on_support(support.mark)]
        if max(bottoms) - min(bottoms) > STEP:
            raise LayoutError(f"The carriers on {support.mark} have their undersides at two levels.")
        if min(bottoms) <= 0:
            raise LayoutError(
                f"The underside of the carrier on {support.mark} would be below grade: raise the floor height."
            )


def in_order(members: Sequence[Member]) -> tuple[Member, ...]:
    """Members so that each stands before all that carry it: joists first, then carriers."""
    marks = {m.mark for m in members}
    # In the order of the seats, not in a set's: two runs must list the same parts in the same order.
    graph = {m.mark: dict.fromkeys(s.below for s in m.seats if s.below in marks) for m in members}
    try:
        order = list(TopologicalSorter(graph).static_order())
    except CycleError as error:
        ring = " -> ".join(reversed(dict.fromkeys(error.args[1])))
        raise LayoutError(
            f"These carriers carry each other in a ring, {ring}: let one of them end on a support or a carrier below."
        ) from None
    rank = {mark: -i for i, mark in enumerate(order)}
    position = {m.mark: i for i, m in enumerate(members)}

    def place(member: Member) -> tuple[bool, int, int]:
        joist = member.kind is Kind.JOIST
        return (not joist, 0 if joist else rank[member.mark], position[member.mark])

    return tuple(sorted(members, key=place))
