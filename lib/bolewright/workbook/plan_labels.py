"""Places for the labels of a plan: each where it was wanted, or the next place along its part that is still free."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bolewright.platform.layout.layout import Member
from bolewright.platform.layout.lines import Vector

Box = tuple[float, float, float, float]  # left, low, right, high (in of the model)
_ALONG = (
    0.0,
    *(side * step / 20 for step in range(1, 9) for side in (1, -1)),
)  # of the length, from the wanted place
_ROWS = 8  # how many rows of text a label may move off its part where its part has no room


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
        """The first of the wanted places with room for a label, or next to one; where none has, what covers least."""
        best, least = wanted[0], float("inf")
        for at in (*wanted, *_next_to(wanted, width, height)):
            box = (at[0] - width / 2, at[1] - height / 2, at[0] + width / 2, at[1] + height / 2)
            covered = sum(_common(box, other) for other in self.taken)
            if covered < least:
                best, least = at, covered
            if covered == 0:
                break
        x, y = best
        self.taken.append((x - width / 2, y - height / 2, x + width / 2, y + height / 2))
        return best


def _next_to(wanted: Sequence[Vector], width: float, height: float) -> Iterator[Vector]:
    """Places off the wanted ones, the nearest first: rows above and below, half a label's width to either side."""
    for row in range(1, _ROWS + 1):
        for x, y in wanted:
            for aside in (0.0, width / 2, -width / 2):
                yield from ((x + aside, y + row * height), (x + aside, y - row * height))


def _common(one: Box, other: Box) -> float:
    """Area that two boxes have in common."""
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    return wide * high if wide > 0 and high > 0 else 0.0
