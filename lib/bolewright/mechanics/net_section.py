"""Sections put together from parts, holes negative: net sections at bolts, trunks with a cavity.

Inches throughout; heights are measured upward from any level in the plane of bending.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from numpy import maximum, pi, sqrt


@dataclass(frozen=True)
class Patch:
    """A part of a section: area (in²), height of its centre (in), own second moment (in⁴), bottom and top."""

    area: Any
    centre: Any
    own: Any
    bottom: Any
    top: Any


def rectangle(b: Any, d: Any, bottom: Any = 0.0) -> Patch:
    """A rectangle of breadth ``b`` and depth ``d`` whose lower edge is at height ``bottom`` (in)."""
    return Patch(b * d, bottom + d / 2, b * d**3 / 12, bottom, bottom + d)


def circle(D: Any, centre: Any = 0.0) -> Patch:
    """A circle of diameter ``D`` with its centre at height ``centre`` (in)."""
    return Patch(pi * D**2 / 4, centre, pi * D**4 / 64, centre - D / 2, centre + D / 2)


@dataclass(frozen=True)
class Section:
    """Properties of a section about its horizontal centroid axis (in)."""

    A: Any
    centroid: Any
    I: Any
    S_top: Any
    S_bottom: Any

    @property
    def S(self) -> Any:
        """The lesser section modulus (in³)."""
        return self.I / maximum(self.I / self.S_top, self.I / self.S_bottom)

    @property
    def r(self) -> Any:
        """Radius of gyration (in)."""
        return sqrt(self.I / self.A)


def net_section(solid: Sequence[Patch], holes: Sequence[Patch] = ()) -> Section:
    """Section of solid parts less holes, about the centroid that is left.

    Top and bottom are those of the solid parts. Holes must lie inside them and apart from one another.

    Parameters: ``solid`` the parts that are there; ``holes`` the parts that are taken away. Raises ValueError: the
    holes take away all of the section.

    A 2x10 with a 1-1/2 in bolt hole at mid depth keeps 99.6 % of its I.

    >>> left = net_section([rectangle(1.5, 9.25)], [rectangle(1.5, 1.5, bottom=3.875)])
    >>> print(left.A, round(left.I, 2))
    11.625 98.51
    """
    signed = [(1.0, patch) for patch in solid] + [(-1.0, patch) for patch in holes]
    A: Any = sum(sign * patch.area for sign, patch in signed)
    if not (maximum(A, 0.0) > 0).all() if hasattr(A, "all") else A <= 0:
        raise ValueError("the holes take away all of the section")
    centroid = sum(sign * patch.area * patch.centre for sign, patch in signed) / A
    I: Any = sum(sign * (patch.own + patch.area * (patch.centre - centroid) ** 2) for sign, patch in signed)
    top, bottom = solid[0].top, solid[0].bottom
    for patch in solid[1:]:
        top, bottom = maximum(top, patch.top), -maximum(-bottom, -patch.bottom)
    return Section(A, centroid, I, I / (top - centroid), I / (centroid - bottom))
