"""How lengths and loads stand in the tables of ``bolewright spans``."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.metric import amount
from bolewright.timber.spans import Rounding
from bolewright.units import POUND, PSF


@dataclass(frozen=True)
class SpanTape:
    """How lengths stand in a table: feet and inches, or metres to 10 mm and millimetres."""

    metric: bool
    rounding: Rounding

    @property
    def unit(self) -> str:
        """End of a column's name."""
        return "mm" if self.metric else "in"

    def long(self, rounded: float, exact: float) -> str:
        """A span or height: the inches as rounded, or the exact length rounded the same way to 10 mm."""
        if not self.metric:
            return feet_dash_inches(rounded)
        steps = exact * 2.54
        whole = math.floor(steps + (0.5 if self.rounding is Rounding.NEAREST else 1e-9))
        return f"{whole / 100:.2f} m"

    def exact(self, inches: float) -> str:
        """A length before rounding."""
        return f"{inches * 25.4:.0f}" if self.metric else f"{inches:.2f}"

    def given(self, inches: float) -> str:
        """A length as it was asked."""
        return f"{inches * 25.4:.0f}" if self.metric else f"{inches:g}"

    def down(self, inches: float) -> str:
        """An overhang, never more than it is."""
        return f"{math.floor(inches * 2.54 + 1e-9) / 100:.2f} m" if self.metric else feet_dash_inches(inches)

    def load(self, psf: float) -> str:
        """A load per area (psf)."""
        return amount(psf, PSF, metric=True) if self.metric else f"{psf:g} psf"

    def force(self, pounds: float) -> str:
        """A load at a point (lb)."""
        return amount(pounds, POUND, metric=True) if self.metric else f"{pounds:g} lb"

    def area(self, square_feet: float) -> str:
        """A floor area (ft²) in the unit of its column."""
        return f"{square_feet * 0.09290304:.3g}" if self.metric else f"{square_feet:g}"

    @property
    def rounded(self) -> str:
        """How spans are rounded, in words."""
        return f"Rounded to {'10 mm' if self.metric else 'the inch'}: {self.rounding.value}"


def feet_dash_inches(inches: float) -> str:
    """Whole inches as code tables print them.

    >>> feet_dash_inches(118.0)
    '9-10'
    """
    feet, rest = divmod(int(inches), 12)
    return f"{feet}-{rest}"
