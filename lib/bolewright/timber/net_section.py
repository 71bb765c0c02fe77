"""What is left of a section at bolt holes (NDS 2018, 3.1.2), and holes that count as one cross-section."""

from __future__ import annotations

import math

from numpy import sqrt

from bolewright.formulas import formula
from bolewright.units import Area, Length, Ratio, SecondMoment, SectionModulus

_ROUNDING = 1e-9  # of a distance: 4D is 4D, whatever its last digit
HOLE_CLEARANCE = (1 / 32, 1 / 16)
"""Bolt holes are 1/32 to 1/16 in. larger than the bolt (NDS 2018, 12.1.3.2)."""


@formula("NDS 2018, 3.1.2")
def net_area(b: Length, d: Length, n: Ratio, D_h: Length) -> Area:
    """Area left at a cross-section with n holes bored through the breadth.

    Parameters: b breadth (in); d depth (in); n holes in the cross-section; D_h hole diameter (in).
    Returns: A_n (in²). Source: NDS 2018, 3.1.2.1.

    >>> round(net_area(1.5, 10.0, 2.0, 0.5), 3)
    13.5
    """
    A_n: Area = b * (d - n * D_h)
    return A_n


@formula("NDS 2018, 3.1.2")
def net_section_modulus(b: Length, d: Length, D_h: Length, y: Length) -> SectionModulus:
    """Section modulus left at one hole bored through the breadth, to the edge farther from the shifted axis.

    Parameters: b breadth (in); d depth (in); D_h hole diameter (in); y hole centre from mid-depth (in, either
    sign). Returns: S_n (in³). Source: statics of the net section, NDS 2018, 3.1.2.1 and 3.2.3.

    The axis shifts by 3/4 in.: 1000 - 224 - 54 = 722 in⁴, over 5.75 in.

    >>> round(float(net_section_modulus(12.0, 10.0, 2.0, 3.0)), 3)
    125.565
    """
    shift: Length = D_h * sqrt(y**2) / (d - D_h)
    I_gross: SecondMoment = b * d**3 / 12
    I_hole: SecondMoment = b * D_h**3 / 12 + b * D_h * y**2
    I_n: SecondMoment = I_gross - I_hole - b * (d - D_h) * shift**2
    S_n: SectionModulus = I_n / (d / 2 + shift)
    return S_n


@formula("NDS 2018, 3.1.2")
def net_modulus_along_holes(b: Length, d: Length, n: Ratio, D_h: Length) -> SectionModulus:
    """Section modulus left by n holes that run in the plane of bending, through the whole depth.

    Parameters: b breadth (in); d depth (in); n holes in the cross-section; D_h hole diameter (in).
    Returns: S_n (in³). Source: statics of the net section, NDS 2018, 3.1.2.1.

    >>> net_modulus_along_holes(5.5, 5.5, 1, 0.5625)
    24.893229166666668
    """
    b_n: Length = b - n * D_h
    S_n: SectionModulus = b_n * d**2 / 6
    return S_n


@formula("NDS 2018, 3.1.2")
def net_modulus_of_row(b: Length, d: Length, n: Ratio, D_h: Length, y: Length) -> SectionModulus:
    """Section modulus left by n holes bored through the breadth, even about mid-depth, none farther off than y.

    Parameters: b breadth (in); d depth (in); n holes in the cross-section; D_h hole diameter (in); y distance of the
    outermost from mid-depth, at which all are taken (in). Returns: S_n (in³). Source: statics of the net section,
    NDS 2018, 3.1.2.1; on the safe side for three and more.

    500 - 2 (4 + 108) = 276 in⁴, over 5 in.

    >>> round(net_modulus_of_row(6.0, 10.0, 2.0, 2.0, 3.0), 3)
    55.2
    """
    I_gross: SecondMoment = b * d**3 / 12
    I_holes: SecondMoment = n * (b * D_h**3 / 12 + b * D_h * y**2)
    S_n: SectionModulus = 2 * (I_gross - I_holes) / d
    return S_n


@formula("NDS 2018, 3.1.2")
def net_area_at_rods(b: Length, d: Length, D_h: Length) -> Area:
    """Area left of a post by a hole along each of its sides, both through it and through its middle.

    Parameters: b, d sides (in); D_h hole diameter (in). Returns: A_n (in²). Source: NDS 2018, 3.1.2.1; geometry.

    >>> net_area_at_rods(7.5, 7.5, 0.75)
    45.5625
    """
    A_n: Area = (b - D_h) * (d - D_h)
    return A_n


@formula("NDS 2018, 3.1.2")
def net_modulus_at_rods(b: Length, d: Length, D_h: Length) -> SectionModulus:
    """Section modulus left of a post by a hole along each of its sides, both through it and through its middle.

    Parameters: b side square to the plane of bending, d side in it (in); D_h hole diameter (in).
    Returns: S_n (in³). Source: statics of the net section, NDS 2018, 3.1.2.1.

    >>> round(net_modulus_at_rods(5.5, 5.5, 0.75), 3)
    23.887
    """
    S_n: SectionModulus = (b - D_h) * (d**3 - D_h**3) / (6 * d)
    return S_n


def holes_in_one_section(count: int, spacing: float, theta: float, D: float) -> int:
    """How many bolts of a row count in one section of a timber whose grain is ``theta`` degrees off the row.

    Neighbours less than 4D apart along the grain count together. Source: NDS 2018, 3.1.2.3.

    >>> holes_in_one_section(2, 2.0, 0.0, 0.5), holes_in_one_section(2, 2.0, 56.3, 0.5)
    (1, 2)
    """
    along = spacing * math.cos(math.radians(theta))
    together = 1
    while together < count and holes_act_together(along_grain=together * along, D=D):
        together += 1
    return together


def holes_act_together(*, along_grain: float, D: float) -> bool:
    """Whether staggered fasteners of adjacent rows count in one cross-section.

    They do less than 4D apart along the grain. Source: NDS 2018, 3.1.2.3 (parallel to grain loading,
    bolts and lag screws).

    >>> holes_act_together(along_grain=1.5, D=0.5), holes_act_together(along_grain=2.0, D=0.5)
    (True, False)
    """
    return along_grain < 4 * D * (1 - _ROUNDING)
