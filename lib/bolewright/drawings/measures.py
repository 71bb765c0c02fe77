"""How lengths are written on a drawing: feet, inches and sixteenths, or millimetres."""

from __future__ import annotations

from enum import Enum

from bolewright.metric import amount
from bolewright.rendering.laying import IMPERIAL_SCALES, METRIC_SCALES, Scale
from bolewright.units import POUND, feet_inches

MM_PER_INCH = 25.4


class Measures(Enum):
    """System of lengths and scales of a drawing."""

    IMPERIAL = "feet, inches and sixteenths"
    METRIC = "millimetres"

    def length(self, inches: float) -> str:
        """Length as it stands at a dimension.

        >>> Measures.IMPERIAL.length(86.5), Measures.METRIC.length(86.5)
        ('7\\' 2 1/2"', '2197')
        """
        return feet_inches(inches) if self is Measures.IMPERIAL else str(round(inches * MM_PER_INCH))

    def words(self, inches: float) -> str:
        """Length in running text, with its unit.

        >>> Measures.METRIC.words(1.0)
        '25 mm'
        """
        return self.length(inches) if self is Measures.IMPERIAL else f"{self.length(inches)} mm"

    def force(self, pounds: float) -> str:
        """Load of a rating in running text.

        >>> Measures.IMPERIAL.force(790.0), Measures.METRIC.force(790.0)
        ('790 lb', '3.51 kN')
        """
        return f"{pounds:g} lb" if self is Measures.IMPERIAL else amount(pounds, POUND, metric=True)

    def rounded(self, inches: float) -> float:
        """The length that :meth:`length` writes, in inches.

        >>> Measures.IMPERIAL.rounded(86.51)
        86.5
        """
        step = 1 / 16 if self is Measures.IMPERIAL else 1 / MM_PER_INCH
        return round(inches / step) * step

    @property
    def scales(self) -> tuple[Scale, ...]:
        """Scales in common use."""
        return IMPERIAL_SCALES if self is Measures.IMPERIAL else METRIC_SCALES
