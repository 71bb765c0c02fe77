"""Section properties printed on sheets: rectangles of one or more plies, circles, hollow trunks.

Inches throughout. ``d`` is the depth in the plane of bending, ``b`` the breadth across it.
"""

from __future__ import annotations

from numpy import pi, sqrt

from bolewright.formulas import formula
from bolewright.units import Area, Length, Ratio, SecondMoment, SectionModulus

_SUPPLEMENT = "NDS Supplement, Table 1B (definition)"
_GEOMETRY = "geometry of the section"


@formula(_GEOMETRY)
def multi_ply_breadth(n_plies: Ratio, b_1: Length) -> Length:
    """Breadth of a member of ``n_plies`` plies that bend side by side.

    Parameters: n_plies number of plies; b_1 breadth of one ply (in). Returns: b breadth of all plies (in). Source:
    geometry. Gaps and spacers between plies do not count as breadth.

    >>> multi_ply_breadth(2, 1.5)
    3.0
    """
    b: Length = n_plies * b_1
    return b


@formula(_SUPPLEMENT)
def rectangle_area(b: Length, d: Length) -> Area:
    """Area A of a rectangle.

    Parameters: b, d breadth and depth (in). Returns: A area (in²). Source: NDS Supplement, Table 1B.

    >>> rectangle_area(1.5, 9.25)
    13.875
    """
    A: Area = b * d
    return A


@formula(_SUPPLEMENT)
def rectangle_section_modulus(b: Length, d: Length) -> SectionModulus:
    """Elastic section modulus S of a rectangle.

    Parameters: b, d breadth and depth (in), d in the plane of bending. Returns: S section modulus (in³). Source: NDS
    Supplement, Table 1B.

    >>> round(rectangle_section_modulus(1.5, 9.25), 3)
    21.391
    """
    S: SectionModulus = b * d**2 / 6
    return S


@formula(_SUPPLEMENT)
def rectangle_second_moment(b: Length, d: Length) -> SecondMoment:
    """Second moment of area I of a rectangle.

    Parameters: b, d breadth and depth (in), d in the plane of bending. Returns: I second moment of area (in⁴). Source:
    NDS Supplement, Table 1B.

    >>> round(rectangle_second_moment(1.5, 9.25), 3)
    98.932
    """
    I: SecondMoment = b * d**3 / 12
    return I


@formula(_GEOMETRY)
def rectangle_plastic_modulus(b: Length, d: Length) -> SectionModulus:
    """Plastic section modulus Z of a rectangle, 1.5 S.

    Parameters: b, d breadth and depth (in), d in the plane of bending. Returns: Z plastic section modulus (in³).
    Source: first moment of the two halves about the middle.

    >>> rectangle_plastic_modulus(2.0, 4.0)
    8.0
    """
    Z: SectionModulus = b * d**2 / 4
    return Z


@formula(_GEOMETRY)
def rectangle_radius_of_gyration(d: Length) -> Length:
    """Radius of gyration r of a rectangle in the plane of ``d``.

    Parameters: d depth in the plane of bending (in). Returns: r radius of gyration (in). Source: r = sqrt(I / A).

    >>> round(float(rectangle_radius_of_gyration(5.5)), 4)
    1.5877
    """
    r: Length = d / sqrt(12)
    return r


@formula(_GEOMETRY)
def rectangle_torsion_constant(b: Length, d: Length) -> SecondMoment:
    """Torsion constant J of a solid rectangle, b the smaller side (within 0.5 %).

    Parameters: b, d smaller and larger side (in). Returns: J torsion constant (in⁴). Source: series solution of the
    torsion of a rectangle, two-term fit; 0.141 b⁴ for a square.

    >>> round(rectangle_torsion_constant(1.0, 1.0), 3)
    0.141
    >>> round(rectangle_torsion_constant(1.0, 2.0), 3)
    0.458
    """
    slender: Ratio = b / d
    J: SecondMoment = b**3 * d * (1 / 3 - 0.21 * slender * (1 - slender**4 / 12))
    return J


@formula(_GEOMETRY)
def circle_area(D: Length) -> Area:
    """Area A of a circle.

    Parameters: D diameter (in). Returns: A area (in²). Source: geometry.

    >>> round(float(circle_area(1.0)), 4)
    0.7854
    >>> round(circle_area(3.0), 3)
    7.069
    """
    A: Area = pi * D**2 / 4
    return A


@formula(_GEOMETRY)
def circle_section_modulus(D: Length) -> SectionModulus:
    """Elastic section modulus S of a circle.

    Parameters: D diameter (in). Returns: S section modulus (in³). Source: geometry, S = I / (D/2).

    >>> round(float(circle_section_modulus(1.5)), 4)
    0.3313
    """
    S: SectionModulus = pi * D**3 / 32
    return S


@formula(_GEOMETRY)
def circle_second_moment(D: Length) -> SecondMoment:
    """Second moment of area I of a circle.

    Parameters: D diameter (in). Returns: I second moment of area (in⁴). Source: geometry.

    >>> round(float(circle_second_moment(1.5)), 4)
    0.2485
    """
    I: SecondMoment = pi * D**4 / 64
    return I


@formula(_GEOMETRY)
def circle_plastic_modulus(D: Length) -> SectionModulus:
    """Plastic section modulus Z of a circle.

    Parameters: D diameter (in). Returns: Z plastic section modulus (in³). Source: first moment of the two halves about
    the diameter.

    >>> circle_plastic_modulus(1.5)
    0.5625
    """
    Z: SectionModulus = D**3 / 6
    return Z


@formula(_GEOMETRY)
def hollow_circle_area(D: Length, D_c: Length) -> Area:
    """Area A of a round trunk with a round cavity, wherever it lies.

    Parameters: D, D_c diameter of the trunk and of the cavity (in). Returns: A area of sound wood (in²). Source:
    geometry.

    >>> round(float(hollow_circle_area(24.0, 12.0)), 2)
    339.29
    """
    A: Area = pi * (D**2 - D_c**2) / 4
    return A


@formula(_GEOMETRY)
def hollow_circle_second_moment(D: Length, D_c: Length, e_c: Length) -> SecondMoment:
    """Second moment of area I of a round trunk with a round cavity off its centre, about its own centroid.

    For bending in the plane that holds both centres, where I is least.

    Parameters: D, D_c diameter of the trunk and of the cavity (in); e_c distance between their centres (in), zero for a
    central cavity. Returns: I second moment of area (in⁴). Source: parallel axis theorem.

    >>> round(float(hollow_circle_second_moment(24.0, 12.0, 0.0)), 1)
    15268.1
    >>> round(hollow_circle_second_moment(20.0, 10.0, 5.0), 1)
    4745.1
    """
    A_c: Area = pi * D_c**2 / 4
    A: Area = pi * D**2 / 4 - A_c
    shift: Length = A_c * e_c / A
    I: SecondMoment = pi * (D**4 - D_c**4) / 64 - A_c * e_c**2 - A * shift**2
    return I


@formula(_GEOMETRY)
def hollow_circle_section_modulus(D: Length, D_c: Length, e_c: Length) -> SectionModulus:
    """Least section modulus S of a round trunk with a round cavity off its centre.

    For bending in the plane that holds both centres, at the face nearest the cavity.

    Parameters: D, D_c diameter of the trunk and of the cavity (in); e_c distance between their centres (in), zero for a
    central cavity. Returns: S section modulus (in³). Source: parallel axis theorem; the centroid moves away from the
    cavity.

    >>> round(float(hollow_circle_section_modulus(24.0, 12.0, 0.0)), 1)
    1272.3
    >>> round(hollow_circle_section_modulus(20.0, 10.0, 5.0), 2)
    406.72
    """
    A_c: Area = pi * D_c**2 / 4
    A: Area = pi * D**2 / 4 - A_c
    shift: Length = A_c * e_c / A
    I: SecondMoment = pi * (D**4 - D_c**4) / 64 - A_c * e_c**2 - A * shift**2
    S: SectionModulus = I / (D / 2 + shift)
    return S
