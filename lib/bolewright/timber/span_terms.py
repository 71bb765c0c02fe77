"""Words of the span tables: loads, limits, stocks, what governs, and a row."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from bolewright.timber.basis import LoadType
from bolewright.timber.sections import Section


class Governs(Enum):
    """What stops a span or an overhang."""

    BENDING = "bending"
    SHEAR = "shear"
    LIVE_DEFLECTION = "live deflection"
    TOTAL_DEFLECTION = "total deflection"
    LONGEST = "longest span listed"
    SHARE_OF_SPAN = "share of the span"
    TIP_DEFLECTION = "tip deflection"


class Rounding(Enum):
    """How spans are rounded to the inch."""

    NEAREST = "nearest"  # as code tables print them
    DOWN = "down"


@dataclass(frozen=True)
class SpanLoads:
    """Loads of a span table: psf over the floor, lb at the end of an overhang.

    ``live_kind`` tells what the live load is (live or snow), for its load duration.
    """

    live: float = 40.0
    dead: float = 10.0
    overhang_point: float = 220.0
    live_kind: LoadType = LoadType.LIVE


@dataclass(frozen=True)
class SpanLimits:
    """Limits of a span table; a deflection limit of None is not checked.

    ``overhang_tip`` is the overhang over its tip deflection under the point load, ``overhang_share`` the
    greatest overhang over the span; ``longest`` in inches. The total deflection counts creep (NDS 2018,
    3.5.2).
    """

    live: float = 360.0
    total: float | None = 240.0
    overhang_tip: float = 180.0
    overhang_share: float = 0.25
    longest: float = 18 * 12.0
    rounding: Rounding = Rounding.NEAREST


@dataclass(frozen=True)
class Stock:
    """A species and grade of a span table."""

    species: str
    grade: str


@dataclass(frozen=True)
class SpanRow:
    """One line of a span table; lengths in inches.

    ``width`` is the joist spacing, or for a carrier the span of the joists it carries; ``exact`` the span
    before rounding; ``bearing`` the length of bearing each end needs at that span (at least the code
    minimum is the user's to keep); ``weakest`` the stock that governs, with the confidence of its values.
    """

    section: Section
    width: float
    span: float
    exact: float
    governs: Governs
    overhang: float
    overhang_governs: Governs
    bearing: float
    weakest: Stock
    confidence: str
