"""What the timber yard has and asks for it."""

from __future__ import annotations

from typing import Annotated

from pydantic import StringConstraints

from bolewright.platform.project.fields import Measure, Name, StockLength, Strict, Text
from bolewright.units import CUBIC_FOOT, INCH, NONE, POUND


class Stock(Strict):
    """What the timber yard has, what the saw takes, and what the car carries; all of it may be left out."""

    lengths: tuple[StockLength, ...] = ()
    """Lengths the yard has; empty for 8 ft to 20 ft by 2 ft (common practice)."""
    longest: StockLength | None = None
    """Longest piece the car carries; what must be longer is marked as delivered (common practice)."""
    kerf: Annotated[float, Measure(INCH, least=0, most=0.5)] = 0.125
    """Width of the saw's cut (common practice: 1/8 in)."""
    end_trim: Annotated[float, Measure(INCH, least=0, most=12)] = 0.5
    """Cut off each end of a stick for checks and stains (common practice: 1/2 in)."""
    post_spare: Annotated[float, Measure(INCH, least=0, most=48)] = 3.0
    """Added to a post that is cut to its height once it stands (common practice: 3 in)."""
    bag_yield: Annotated[float, Measure(CUBIC_FOOT, positive=True, most=3)] = 0.60
    """Concrete one bag makes, off the bag (common practice: 0.60 ft3 for 80 lb)."""
    bag_weight: Annotated[float, Measure(POUND, positive=True, most=200)] = 80.0
    """Weight of one bag, off the bag (common practice: 80 lb)."""
    overbreak: Annotated[float, Measure(NONE, least=0, most=1)] = 0.10
    """Concrete and gravel beyond the drawn volume, as a share of it (common practice: 10 %)."""
    currency: Annotated[Text, StringConstraints(max_length=8)] = ""
    """Word or sign printed with the prices (common practice)."""


class Price(Strict):
    """One line of the price table: a size of lumber at one length, or any other item by the name it is listed under.

    Sizes with a price are bought in the lengths that have one; the rest in the lengths of ``stock``.
    """

    item: Annotated[Name, StringConstraints(max_length=60)]
    """Size of lumber such as 2x8, or an item's name on the hardware list such as concrete, bag (common practice)."""
    length: StockLength | None = None
    """Length of the stick, for lumber (common practice)."""
    grade: Text = ""
    """Grade it holds for, for lumber; empty for any (common practice)."""
    each: Annotated[float, Measure(NONE, least=0, most=1_000_000)]
    """Price of one (common practice: as quoted by the yard)."""
