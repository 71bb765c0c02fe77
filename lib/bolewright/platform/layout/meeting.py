"""Whether members meet where they should, and lie nowhere in the place of another."""

from __future__ import annotations

from functools import partial

from bolewright.platform.layout.parts import STEP, Bearing, Layout, LayoutError, Member, gather
from bolewright.platform.project import Support
from bolewright.units import feet_inches


def check_levels(layout: Layout) -> None:
    """LayoutError when members that should meet do not, or a support would have its top below grade."""
    gather(
        (
            *(partial(_member_meets, layout, member) for member in layout.members),
            *(partial(_support_meets, layout, support) for support in layout.project.seated),
        )
    )


def _member_meets(layout: Layout, member: Member) -> None:
    marks = {m.mark for m in layout.members}
    _under_the_boards(layout, member)
    for seat in member.seats:
        if seat.below in marks:
            _meets(member, layout.member(seat.below), seat.bearing)


def _support_meets(layout: Layout, support: Support) -> None:
    bottoms = {member.mark: member.bottom for member, _ in layout.on_support(support.mark)}
    low, high = min(bottoms, key=bottoms.__getitem__), max(bottoms, key=bottoms.__getitem__)
    if bottoms[high] - bottoms[low] > STEP:
        raise LayoutError(
            f"The beams on {support.mark} have their undersides at two levels: {high} lies "
            f"{feet_inches(bottoms[high] - bottoms[low])} above {low}; give them depths that bring these level."
        )
    if bottoms[low] <= 0:
        raise LayoutError(
            f"The underside of the beam on {support.mark} would be below grade: raise the floor height."
        )


def _under_the_boards(layout: Layout, member: Member) -> None:
    """LayoutError when a member would stand up through the boards."""
    over = member.top - layout.under_deck
    if over > STEP:
        raise LayoutError(
            f"The top of {member.mark} would be {feet_inches(over)} above the undersides of the boards: use a "
            "shallower section, or lower it with drop."
        )


def _meets(member: Member, below: Member, bearing: Bearing) -> None:
    if bearing is Bearing.RESTS:
        apart = abs(member.bottom - below.top)
        if apart > STEP:
            raise LayoutError(
                f"The underside of {member.mark} and the top of {below.mark} are {feet_inches(apart)} apart where one "
                "should rest on the other."
            )
    elif member.section.d > below.section.d + STEP:
        raise LayoutError(
            f"{member.mark} is deeper than {below.mark} from which it hangs: use a shallower section or a deeper "
            f"{below.mark}."
        )
    elif member.bottom < below.bottom - STEP:
        raise LayoutError(
            f"The underside of {member.mark} would be {feet_inches(below.bottom - member.bottom)} below that of "
            f"{below.mark}, from which it hangs: raise it (top or drop), or use a shallower section or a deeper "
            f"{below.mark}."
        )
    elif member.top > below.top + STEP:
        raise LayoutError(
            f"The top of {member.mark} would be {feet_inches(member.top - below.top)} above that of {below.mark}, from "
            f"which it hangs, so that its hanger has no face there: lower it with drop, use a deeper {below.mark}, or "
            f"let it rest on {below.mark} (one layer up)."
        )
