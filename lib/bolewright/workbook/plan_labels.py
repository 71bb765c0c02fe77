"""Places for the labels of a plan: each where it was wanted, or the next place along its part that is still free."""

from __future__ import annotations

from collections.abc import Sequence

from bolewright.platform.layout import Member
from bolewright.platform.lines import Vector

Box = tuple[float, float, float, float]  # left, low, right, high (in of the model)
_ALONG = (0.0, 0.1, -0.1, 0.2, -0.2, 0.3, -0.3, 0.4, -0.4)  # of the length, from the wanted place


def along(member: Member, wanted: float) -> list[Vector]:
    """Places along a member, from the wanted part of its length outwards."""
    parts = [wanted + step for step in _ALONG if 0.06 <= wanted + step <= 0.94]
    return [member.line.at(part * member.line.length) for part in parts]


def beside(at: Vector, off: float) -> list[Vector]:
    """Places round a support: below it, above it."""
    return [(at[0], at[1] - off), (at[0], at[1] + off)]


class Labels:
    """The boxes that are taken; :meth:`place` takes one more."""

    def __init__(self) -> None:
        self.taken: list[Box] = []

    def place(self, wanted: Sequence[Vector], width: float, height: float) -> Vector:
        """The first of the wanted places with room for a label; where none has, the one that covers least."""
        best, least = wanted[0], float("inf")
        for at in wanted:
            box = (at[0] - width / 2, at[1] - height / 2, at[0] + width / 2, at[1] + height / 2)
            covered = sum(_common(box, other) for other in self.taken)
            if covered < least:
                best, least = at, covered
            if covered == 0:
                break
        x, y = best
        self.taken.append((x - width / 2, y - height / 2, x + width / 2, y + height / 2))
        return best


def _common(one: Box, other: Box) -> float:
    """Area that two boxes have in common."""
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    return wide * high if wide > 0 and high > 0 else 0.0
