"""Sections of sawn timber: what a builder calls them, and what they measure (NDS Supplement Tables 1A, 1B)."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum

from bolewright.reference import load
from bolewright.timber.section_properties import (
    section_area,
    section_modulus,
    section_second_moment,
)

_MM_PER_INCH = 25.4
_LARGEST = 30.0


class Finish(Enum):
    """How the name of a section gives its size."""

    DRESSED = "dressed to NDS Supplement Table 1A"
    ROUGH = "rough, full size"
    ACTUAL = "actual size given"


class SectionError(ValueError):
    """A section name that is not understood or not possible; one sentence for the user."""


@dataclass(frozen=True)
class Section:
    """A rectangular section, of one or more equal plies side by side.

    ``b`` is the whole breadth and ``d`` the depth in inches (narrow face up, d >= thickness);
    ``nominal_thickness`` and ``nominal_width`` are the size class of one ply, which picks table rows.
    """

    name: str
    b: float
    d: float
    nominal_thickness: float
    nominal_width: float
    finish: Finish
    plies: int = 1

    @property
    def ply_thickness(self) -> float:
        """Thickness of one ply (in)."""
        return self.b / self.plies

    @property
    def A(self) -> float:
        """Area (in²)."""
        return float(section_area(b=self.b, d=self.d))

    @property
    def S(self) -> float:
        """Section modulus about the strong axis, load on the narrow face (in³)."""
        return float(section_modulus(b=self.b, d=self.d))

    @property
    def I(self) -> float:
        """Second moment of area about the strong axis (in⁴)."""
        return float(section_second_moment(b=self.b, d=self.d))

    @property
    def S_flat(self) -> float:
        """Section modulus about the weak axis, load on the wide face, plies bent together (in³)."""
        return float(section_modulus(b=self.d, d=self.b))

    @property
    def I_flat(self) -> float:
        """Second moment of area about the weak axis, plies bent together (in⁴)."""
        return float(section_second_moment(b=self.d, d=self.b))

    @property
    def is_timber(self) -> bool:
        """Whether both dimensions are 5 in. nominal or more (a timber, not dimension lumber)."""
        return self.nominal_thickness >= 5

    def of_plies(self, plies: int) -> Section:
        """The same section with this many plies."""
        if plies < 1:
            raise SectionError(f"{plies} plies of {self.name} is not possible: give 1 or more")
        single = self.name.split(") ")[-1]
        name = single if plies == 1 else f"({plies}) {single}"
        return Section(
            name,
            self.ply_thickness * plies,
            self.d,
            self.nominal_thickness,
            self.nominal_width,
            self.finish,
            plies,
        )


def parse_section(text: str) -> Section:
    """Section that a builder's name means.

    ``2x12`` and ``6x6`` are nominal and dressed (NDS Supplement Table 1A); ``5/4x6`` a radius-edge board, 1 in.
    thick; ``rough 2x10`` is full size; ``45x195 mm`` and ``1.5x11.25 in`` are actual sizes; ``(3) 2x12`` or
    ``3-2x12`` three plies. The smaller number is taken as the thickness. Raises :class:`SectionError`.

    >>> parse_section("2x12").d, parse_section("6x6").b, parse_section("(3) 2x12").b
    (11.25, 5.5, 4.5)
    """
    raise NotImplementedError


def section_names() -> tuple[str, ...]:
    """Names of the stock sections, from boards to timbers, in the order of a lumber list."""
    raise NotImplementedError
