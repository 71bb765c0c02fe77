"""What the ratings of a hanger, cap or bracket were given for: other wood, size or direction opens them again."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import StrictBool

from bolewright.platform.project.fields import Measure, Name, Size, Strict
from bolewright.units import NONE


class GivenWood(Strict):
    """Optional keys of a rating, off the same maker's sheet; left out, nothing is known of what it was given for."""

    rated_wood: Name | None = None
    """Species of wood that its ratings were given for, off the maker's sheet; empty where it does not say."""
    rated_G: Annotated[float, Measure(NONE, least=0.2, most=1.2)] | None = None
    """Least specific gravity of the wood that its ratings were given for, off the maker's sheet."""
    rated_size: Name | None = None
    """Size of the piece that its ratings were given for, as 2x8, off the maker's sheet."""
    rated_C_D: Annotated[float, Measure(NONE, least=0.9, most=2)] | None = None
    """Load duration factor that is in its ratings, off the maker's sheet (NDS 2018, Table 2.3.2)."""


class GivenTogether(GivenWood):
    """The same of several ratings of one piece of hardware, which act in several directions."""

    rated_direction: Literal["any", "along", "across"] | None = None
    """Direction of its side rating, along or across the beam or any, off the maker's sheet."""
    rated_alone: StrictBool = False
    """Whether its maker allows each rating in full while the others act too; else they count together."""


class GivenFor(GivenTogether):
    """The same of hardware on a bolt."""

    rated_bolt: Size | None = None
    """Diameter of the bolt that its ratings were given for, off the maker's sheet."""
