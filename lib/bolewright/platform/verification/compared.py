"""An effect by two models: the load path by hand calculation, and the frame model; and what the difference does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

PARTED = 0.05  # of the capacity: a row whose ratios by the two models differ by more is open
ROUNDING = 0.002  # of the effect: what strips of board and the steps between nodes leave
DIGITS = 8  # of a factor: further ones another machine may give otherwise
NOTHING = 1e-6
NOISE = 1e-8  # share of the largest value of its unit
COMPARISON_NOTE = (
    "The frame model has its own shares of the boards, its own statics and its own patterns. Each check is judged by "
    f"the worse of the two models; where its ratios differ by more than {PARTED:g} its row says so and is open. The "
    "comparison itself is no check and has no ratio."
)


@dataclass(frozen=True)
class Compared:
    """One effect of one part by both models, the greatest in all cases and patterns.

    ``rows`` are the checks that rest on it: part, key of the limit state, and what is printed of that, empty for any.
    Where the hand calculation takes a ``bound`` on the safe side only what the frame model has more than it counts.
    ``beside`` is the greatest load on a seat, for its uplift.
    """

    part: str
    quantity: str
    by_hand: float
    by_frame: float
    unit: str
    rows: tuple[tuple[str, str, str], ...] = ()
    bound: bool = False
    beside: float = 0.0

    @property
    def factor(self) -> float:
        """By how much the frame model's effect is greater; 1 within rounding."""
        if abs(self.by_hand) < NOTHING:
            return 1.0
        factor = self.by_frame / self.by_hand
        if self.bound:
            factor = max(factor, 1.0)
        off = abs(factor - 1)
        if off < ROUNDING:  # from half of it on evenly, so that no hair more makes it count at once
            factor = 1 + (factor - 1) * max(2 * off - ROUNDING, 0.0) / max(off, NOISE)
        return round(factor, DIGITS)


def told(compared: Sequence[Compared]) -> list[dict[str, str | float]]:
    """Both models' values for the record, alike on every machine.

    The hand calculation's to six digits, the frame's to the four that solving it leaves; what is nothing beside the
    largest of its unit is 0, not the rounding that it is.
    """
    largest: dict[str, float] = {}
    for c in compared:
        largest[c.unit] = max(largest.get(c.unit, 0.0), abs(c.by_hand))

    def digits(value: float, unit: str, count: int) -> float:
        return float(f"{value:.{count}g}") if abs(value) > NOISE * largest[unit] else 0.0

    return [
        {
            "part": c.part,
            "quantity": c.quantity,
            "unit": c.unit,
            "by_hand": digits(c.by_hand, c.unit, 6),
            "by_frame": digits(c.by_frame, c.unit, 4),
        }
        for c in compared
    ]
