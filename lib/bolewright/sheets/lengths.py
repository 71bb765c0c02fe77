"""Lengths as a builder's tape reads them: feet, inches and sixteenths, or millimetres."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from bolewright.metric import amount
from bolewright.rendering import numbers
from bolewright.rendering.blocks import Table
from bolewright.rendering.laying import IMPERIAL_SCALES, METRIC_SCALES, Scale
from bolewright.setting_out.tolerance import Closing
from bolewright.units import Unit, feet_inches


class Tape(StrEnum):
    """The tape in hand."""

    FEET = "feet and inches"
    METRIC = "millimetres"


def read_tape(words: str) -> Tape:
    """Tape by its name; ValueError says which there are."""
    if words not in list(Tape):
        raise ValueError(f"{words!r} is no tape; write {' or '.join(Tape)}")
    return Tape(words)


@dataclass(frozen=True)
class Lengths:
    """Writes lengths in inches as the tape in hand reads them."""

    tape: Tape

    @property
    def scales(self) -> tuple[Scale, ...]:
        """Scales of drawings beside these lengths; their bar counts in feet, or metres."""
        return IMPERIAL_SCALES if self.tape is Tape.FEET else METRIC_SCALES

    def __call__(self, inches: float) -> str:
        """Text of a length to the nearest sixteenth, or millimetre."""
        if self.tape is Tape.FEET:
            return feet_inches(inches)
        return f"{round(inches * 25.4) + 0:,d} mm"

    def bound(self, inches: float, *, most: bool = False) -> str:
        """Text of a limit, rounded to its safe side: a least up, a most down."""
        division = 1 / 16 if self.tape is Tape.FEET else 1 / 25.4
        parts = inches / division
        return self((math.floor(parts + 1e-9) if most else math.ceil(parts - 1e-9)) * division)

    def volume(self, cubic_feet: float) -> str:
        """Text of a volume: cubic feet, or litres."""
        return f"{cubic_feet:.1f} cu ft" if self.tape is Tape.FEET else f"{cubic_feet * 28.316847:,.0f} L"

    def weight(self, pounds: float, decimals: int = 0) -> str:
        """Text of a weight: pounds, or kilograms."""
        number, unit = (pounds, "lb") if self.tape is Tape.FEET else (pounds * 0.45359237, "kg")
        return f"{number:,.{decimals}f} {unit}"

    def both(self, demand: float, allowed: float, unit: Unit) -> tuple[str, str]:
        """Texts of a demand and of what is allowed: as the calculation prints them, or in SI."""
        if self.tape is Tape.FEET:
            return numbers.fmt_both(demand, allowed, unit)
        return amount(demand, unit, metric=True), amount(allowed, unit, metric=True)

    def signed(self, inches: float, positive: str, negative: str) -> str:
        """A length with the word for its side: ``below`` or ``above``."""
        text = self(abs(inches))
        return text if text.strip('0 "m') == "" else f"{text} {positive if inches > 0 else negative}"

    def closings(self, found: tuple[Closing, ...] | list[Closing], caption: str) -> Table:
        """Measurements that must come out, with how far off they may be."""
        rows = tuple(
            (c.what, self(c.wanted), f"+ {self(c.allowed)}, not less" if c.least else f"± {self(c.allowed)}")
            for c in found
        )
        return Table(("measure", "must come out", "within"), rows, caption, "lrr")
