"""Which end of a piece, and which side of the plan, in words that hold at the tree."""

from __future__ import annotations

from bolewright.platform.layout.layout import Layout, Vector


def end_words(layout: Layout, mark: str) -> str:
    """Where the tape is hooked on a beam and where it runs to: by the supports and beams at its ends.

    Faces are told by one who stands at the start and looks along the tape.
    """
    member = layout.member(mark)
    first, last = member.seats[0].below, member.seats[-1].below
    if first != last:
        ends = f"tape hooked on the end by {first}, run towards {last}"
    else:
        ends = f"tape hooked on its {plan_side(member.line.u)} end on the plan"
    return f"{ends}; left and right looking along the tape"


def plan_side(along: Vector) -> str:
    """Side of the plan from which a direction starts: left, right, lower or upper."""
    x, y = along
    if abs(x) >= abs(y):
        return "left" if x > 0 else "right"
    return "lower" if y > 0 else "upper"
