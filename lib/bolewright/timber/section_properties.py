"""Properties of a rectangular section, as printed formulas (NDS Supplement 3.1)."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.units import Area, Length, SecondMoment, SectionModulus

E_OVER_G = 16.0
"""Modulus of elasticity over shear modulus of sawn timber, as ASTM D2915 takes it to turn one measured E into another.

From memory; so is that the Wood Handbook (FPL-GTR-282, Table 5-1) has G of 6 to 9 hundredths of E for most species.
"""


@formula("NDS Supplement 2018, 3.1")
def section_area(b: Length, d: Length) -> Area:
    """Area of a rectangular section.

    Parameters: b breadth (in); d depth (in). Returns: A (in²). Source: NDS Supplement, 3.1, Table 1B.

    >>> section_area(1.5, 7.25)
    10.875
    """
    A: Area = b * d
    return A


@formula("NDS Supplement 2018, 3.1")
def section_modulus(b: Length, d: Length) -> SectionModulus:
    """Section modulus of a rectangular section.

    Parameters: b breadth (in); d depth (in). Returns: S (in³). Source: NDS Supplement, 3.1, Table 1B.

    >>> round(section_modulus(1.5, 7.25), 2)
    13.14
    """
    S: SectionModulus = b * d**2 / 6
    return S


@formula("NDS Supplement 2018, 3.1")
def section_second_moment(b: Length, d: Length) -> SecondMoment:
    """Second moment of area of a rectangular section.

    Parameters: b breadth (in); d depth (in). Returns: I (in⁴). Source: NDS Supplement, 3.1, Table 1B.

    >>> round(section_second_moment(1.5, 7.25), 2)
    47.63
    """
    I: SecondMoment = b * d**3 / 12
    return I
