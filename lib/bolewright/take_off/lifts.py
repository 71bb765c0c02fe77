"""What is lifted: single sticks, and beams with all their plies fastened together; the heaviest of all."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from bolewright.take_off.cut_list import Cut, Use
from bolewright.take_off.weights import people_to_lift

SINGLY = (Use.STRINGER, Use.TREAD, Use.RAIL, Use.RUNG, Use.COVER)  # they share a mark, and go up one by one


@dataclass(frozen=True)
class Lift:
    """A part as it goes up: its mark, how many sticks it is of, its weight (lb)."""

    mark: str
    use: Use
    plies: int
    weight: float

    @property
    def people(self) -> int:
        """People it takes on level ground."""
        return people_to_lift(self.weight)


def find_lifts(cuts: Iterable[Cut]) -> tuple[Lift, ...]:
    """Every part, its plies together, the heaviest first."""
    found: dict[tuple[str, Use], list[Cut]] = {}
    for cut in cuts:
        found.setdefault((cut.label if cut.use in SINGLY else cut.mark, cut.use), []).append(cut)
    lifts = [
        Lift(mark, use, len(group), sum(cut.weight for cut in group)) for (mark, use), group in found.items()
    ]
    return tuple(sorted(lifts, key=lambda lift: -lift.weight))
