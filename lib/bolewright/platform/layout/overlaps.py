"""Timbers that can't be built where they are: two in one place, and a joist with no room between its beams."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bolewright.platform.layout.parts import STEP, Bearing, LayoutError, Member
from bolewright.platform.project import Blocking
from bolewright.units import feet_inches

_PARALLEL = 0.02  # sine of the angle under which two timbers run side by side
_LAP = 6.0  # in: timbers that end over one support may overlap by as much, for lapped or scarfed ends
LEAST = 1.0  # in: the least clear length of a joist between two beams: two hangers' nails need more


def check_room(members: Sequence[Member]) -> None:
    """LayoutError where two timbers lie in each other, or a joist has no room between what it hangs from."""
    for member in members:
        _room_between(member, members)
    start = np.array([m.line.start for m in members])
    u = np.array([m.line.u for m in members])
    length = np.array([m.line.length for m in members])
    half = np.array([m.width / 2 for m in members])
    top, depth = np.array([m.top for m in members]), np.array([m.section.d for m in members])
    for i, member in enumerate(members):
        later = np.arange(i + 1, len(members))
        along = u[later] @ u[i]
        side_by_side = np.abs(u[i][0] * u[later][:, 1] - u[i][1] * u[later][:, 0]) < _PARALLEL
        from_here = start[later] - start[i]
        first = from_here @ u[i]
        last = first + along * length[later]
        overlap = np.minimum(np.maximum(first, last), length[i]) - np.maximum(np.minimum(first, last), 0.0)
        middle = start[later] + u[later] * (length[later] / 2)[:, None] - start[i]
        apart = np.abs(middle[:, 0] * u[i][1] - middle[:, 1] * u[i][0])
        in_height = np.minimum(top[later], top[i]) - np.maximum(top[later] - depth[later], top[i] - depth[i])
        meets = side_by_side & (apart < half[later] + half[i] - STEP) & (overlap > _LAP) & (in_height > STEP)
        if meets.any():
            at = int(np.argmax(meets))
            other = members[int(later[at])]
            raise LayoutError(
                f"{member.mark} and {other.mark} lie in each other for {feet_inches(float(overlap[at]))}: their centre "
                f"lines are {feet_inches(float(apart[at]))} apart, and half of each is "
                f"{feet_inches(float(half[i] + half[later[at]]))} together; move one of them, or leave one out."
            )


def _room_between(member: Member, members: Sequence[Member]) -> None:
    """LayoutError for a member that hangs from two beams with next to nothing between their faces."""
    first, last = member.seats[0], member.seats[-1]
    if isinstance(member.timber, Blocking) and member.timber.kind == "rim":
        return  # it runs along their ends, not between their faces
    if len(member.seats) != 2 or not (first.bearing is last.bearing is Bearing.HANGS):
        return
    below = {m.mark: m for m in members if m.mark in (first.below, last.below)}
    faces = sum(
        below[mark].width / 2 / max(0.2, member.line.sine(below[mark].line))
        for mark in (first.below, last.below)
    )
    if member.line.length - faces < LEAST:
        raise LayoutError(
            f"{member.mark} has no room between {first.below} and {last.below}, which are "
            f"{feet_inches(member.line.length)} apart on centre there: move one of them, leave one out, or name the "
            "beams that the joists hang from."
        )
