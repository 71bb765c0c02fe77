"""A quantity by two routes, and when their difference is flagged."""

from __future__ import annotations

from dataclasses import dataclass, replace

FLAG = 0.05  # of the value: a larger difference is flagged
SLIGHT = 0.03  # of the largest value of its kind: a small value may differ by this


@dataclass(frozen=True)
class Compared:
    """One quantity by both routes; ``why`` says what likely parts them where they differ.

    ``largest`` is the largest value of the same kind by the hand route. Where the hand route takes a ``bound`` on the
    safe side only what the frame has more than it counts as a difference.
    """

    part: str
    quantity: str
    load: str
    by_hand: float
    by_frame: float
    unit: str
    why: str = "a member that carries it sags under load"
    largest: float = 0.0
    bound: bool = False

    @property
    def difference(self) -> float:
        """Difference as a share of the hand route's value; of a small one, so that 5 % is 3 % of the largest."""
        measure = max(abs(self.by_hand), self.largest * SLIGHT / FLAG)
        more = abs(self.by_frame) - abs(self.by_hand) if self.bound else self.by_frame - self.by_hand
        if self.bound and more < 0:
            return 0.0
        return more / measure if measure else 0.0

    @property
    def flagged(self) -> bool:
        """Whether the routes differ by more than 5 % of the value and by more than 3 % of the largest of its kind."""
        return abs(self.difference) > FLAG


def beside_largest(group: list[Compared]) -> list[Compared]:
    """The same, each with the largest of the group."""
    largest = max((abs(c.by_hand) for c in group), default=0.0)
    return [replace(c, largest=largest) for c in group]
