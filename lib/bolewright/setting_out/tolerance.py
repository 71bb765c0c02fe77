"""Measurements that must come out, how far off they may be, and the smallest division of the tape."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from bolewright.platform.layout.layout import Vector

SIXTEENTH = 1 / 16  # in: the division that all lengths are printed to


class Allowed(Enum):
    """How far off a measurement may be (in); common practice."""

    CUT = 1 / 16
    MARK = 1 / 8
    LEVEL = 1 / 8
    BOLT = 1 / 4
    DIAGONAL = 1 / 4
    TAPED = 1 / 2
    HOLE = 1.0


@dataclass(frozen=True)
class Closing:
    """A measurement that must come out: what to measure, what it should be (in), how far off it may be (in).

    ``ends`` are the two points in plan between which a tape is stretched for it, where it is one. One that is ``least``
    may be more, but not less.
    """

    what: str
    wanted: float
    allowed: float
    ends: tuple[Vector, Vector] | None = None
    least: bool = False


def rounded(length: float) -> float:
    """Length to the nearest sixteenth of an inch, as it is printed and marked.

    >>> rounded(10.04)
    10.0625
    """
    return round(length / SIXTEENTH) * SIXTEENTH
