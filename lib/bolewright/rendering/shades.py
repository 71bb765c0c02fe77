"""Shades of a ratio: the fuller a part is used, the darker, in colour and in grey; the number is always written too."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.status import Status


@dataclass(frozen=True)
class Shade:
    """Ratios up to ``most`` are filled with ``fill``; ``words`` stand in the key."""

    most: float
    fill: str
    words: str


SHADES = (
    Shade(0.25, "#f8f5ec", "to 0.25"),
    Shade(0.50, "#d3dba9", "to 0.50"),
    Shade(0.75, "#a9c19b", "to 0.75"),
    Shade(0.90, "#5f8f86", "to 0.90"),
    Shade(1.00, "#2a5566", "to 1.00"),
)
FAILING = Shade(math.inf, "#5c0f1b", "over 1.00: fails")
OPEN = Shade(math.nan, "#ffffff", "not checked")


def shade_of(status: Status, ratio: float) -> Shade:
    """Shade of a check's state and ratio.

    >>> shade_of(Status.PASSES, 0.6).words
    'to 0.75'
    """
    if status is Status.FAILS:
        return FAILING
    if status is Status.NOT_CHECKED:
        return OPEN
    return next((shade for shade in SHADES if ratio <= shade.most), SHADES[-1])
