"""Plain concrete footings by ACI 318-19 chapter 14: strength design, so factored loads and phi = 0.60.

Never feed these with service loads. The soil area itself stays with allowable stress (ground.soil).
"""

from __future__ import annotations

from dataclasses import dataclass

from numpy import maximum, minimum, pi, sqrt

from bolewright.formulas import Limit, formula
from bolewright.units import Force, Length, Moment, Ratio, SectionModulus, Stress

FROM_MEMORY = "from memory, confirm against the printed document"
LEAST_THICKNESS = Limit(8.0, 1e6, "ACI 318-19 14.3.2.1 wants a plain concrete footing at least 8 in. thick.")
LEAST_STRENGTH = Limit(2500.0, 1e6, "ACI 318-19 Table 19.2.1.1 wants concrete of at least 2500 psi.")


@formula("ACI 318-19, 13.2.7.3 (circle as a square of equal area)")
def equal_area_square(d_c: Length) -> Length:
    """Side of the square that a round column or footing counts as.

    Parameters: d_c diameter (in). Returns: s side of the square of equal area (in). Source: ACI 318-19 13.2.7.3; for
    the outline of a round base, common practice.

    >>> round(float(equal_area_square(20.0)), 2)
    17.72
    """
    s: Length = sqrt(pi * d_c**2 / 4)
    return s


@formula("ACI 318-19, 14.5.6.1 (the largest square inside a circle)")
def square_in_round(d_c: Length) -> Length:
    """Side of the largest square inside a round footing: as far as a square under a post may grow.

    Parameters: d_c diameter (in). Returns: s_i side (in). Source: geometry; A_2 of ACI 318-19, 14.5.6.1 is like the
    loaded area and lies wholly within the support, so that the square of equal area (13.2.7.3) does not serve.

    >>> round(float(square_in_round(20.0)), 2)
    14.14
    """
    s_i: Length = d_c / sqrt(2)
    return s_i


@formula("IRC 2018, R403.1.1 (thickness at least the projection, and 6 in.)", homogeneous=False)
def minimum_footing_thickness(B: Length, c: Length) -> Length:
    """Minimum thickness of a plain spread footing from its projection, by rule.

    Parameters: B side of a square footing or diameter of a round one (in); c width of what stands on it (in). Returns:
    h_min minimum thickness (in). Source: IRC R403.1.1: a projection is at most the thickness, which is at least 6 in.
    (read in a public copy of the section). AWC DCA 6 Table 4 has it of 6x6 posts, rounded up to the inch. A rule: the
    concrete's own bending and shear (ACI 318-19 14.5) are other functions here.

    >>> float(minimum_footing_thickness(18.0, 5.5)), float(minimum_footing_thickness(42.0, 5.5))
    (6.25, 18.25)
    """
    p: Length = (B - c) / 2
    h_min: Length = maximum(p, 6)
    return h_min


@formula("ACI 318-19, 14.5.1.7", limits={"h": LEAST_THICKNESS}, homogeneous=False)
def effective_thickness(h: Length) -> Length:
    """Thickness that counts where concrete is cast against soil.

    Parameters: h overall thickness of the footing (in). Returns: h_e thickness for flexure, shear and combined stress
    (in). Source: ACI 318-19 14.5.1.7 (2 in. less), 14.3.2.1 (8 in. at least).

    >>> round(effective_thickness(10.0), 3)
    8.0
    """
    h_e: Length = h - 2
    return h_e


@formula("Statics (factored soil pressure, footing's own weight left out)")
def factored_soil_pressure(P_u: Force, B: Length) -> Stress:
    """Factored net pressure that bends a square footing; its own weight lies on the soil and bends nothing.

    Parameters: P_u factored load from the column (lb); B side of the square footing, or of the square of equal area
    (in). Returns: q_u pressure (psi). Source: ACI 318-19 13.2.6.

    >>> round(factored_soil_pressure(5760.0, 24.0), 3)
    10.0
    """
    q_u: Stress = P_u / B**2
    return q_u


@formula("ACI 318-19, 14.5.2.1 and 14.4.3.2.1 (moment at the column's face)")
def footing_moment(q_u: Stress, B: Length, c: Length) -> Moment:
    """Factored moment in a square footing at the face of the column; zero where the column is as wide.

    Parameters: q_u factored net pressure (psi); B side of the footing (in); c side of a square column, post or pedestal
    (in); halfway to the plate's edge under a steel plate. Returns: M_u moment over the whole breadth (lb·in). Source:
    ACI 318-19 13.2.7.1, 14.5.

    >>> round(float(footing_moment(10.0, 24.0, 8.0)), 3)
    7680.0
    """
    a: Length = maximum((B - c) / 2, 0)
    M_u: Moment = q_u * B * a**2 / 2
    return M_u


@formula(
    "ACI 318-19, 14.5.2.1a",
    limits={"f_c": LEAST_STRENGTH},
    confidence=FROM_MEMORY,
    homogeneous=False,
)
def footing_moment_strength(f_c: Stress, lam: Ratio, B: Length, h_e: Length) -> Moment:
    """Design flexural strength of plain concrete over the whole breadth.

    Parameters: f_c specified strength of concrete (psi); lam 1.0 for normal weight concrete; B breadth of the section
    (in); h_e effective thickness (in). Returns: phiM_n design strength (lb·in). Source: ACI 318-19 14.5.2.1(a), 21.2.1
    (phi = 0.60).

    >>> round(float(footing_moment_strength(2500.0, 0.75, 24.0, 8.0)), 3)
    28800.0
    """
    S_m: SectionModulus = B * h_e**2 / 6
    M_n: Moment = 5 * lam * sqrt(f_c) * S_m  # 14.5.2.1a
    phiM_n: Moment = 0.60 * M_n  # 21.2.1
    return phiM_n


@formula("ACI 318-19, 14.5.5.1a (one-way shear at h from the face)")
def footing_shear_one_way(q_u: Stress, B: Length, c: Length, h_e: Length) -> Force:
    """Factored one-way shear at the effective thickness from the column's face; zero when that is outside.

    Parameters: q_u factored net pressure (psi); B side of the footing (in); c side of a square column or pedestal (in);
    h_e effective thickness (in). Returns: V_u shear (lb). Source: ACI 318-19 14.4.3.2, 14.5.5.1.

    >>> round(float(footing_shear_one_way(10.0, 24.0, 4.0, 6.0)), 3)
    960.0
    """
    a: Length = maximum((B - c) / 2 - h_e, 0)
    V_u: Force = q_u * B * a
    return V_u


@formula(
    "ACI 318-19, 14.5.5.1a",
    limits={"f_c": LEAST_STRENGTH},
    confidence=FROM_MEMORY,
    homogeneous=False,
)
def footing_shear_strength_one_way(f_c: Stress, lam: Ratio, B: Length, h_e: Length) -> Force:
    """Design one-way shear strength of plain concrete.

    Parameters: f_c specified strength of concrete (psi); lam 1.0 for normal weight concrete; B breadth of the section
    (in); h_e effective thickness (in). Returns: phiV_n design strength (lb). Source: ACI 318-19 Table 14.5.5.1(a),
    21.2.1 (phi = 0.60).

    >>> round(float(footing_shear_strength_one_way(2500.0, 0.75, 24.0, 6.0)), 3)
    4320.0
    """
    V_n: Force = 4 / 3 * lam * sqrt(f_c) * B * h_e  # 14.5.5.1a
    phiV_n: Force = 0.60 * V_n  # 21.2.1
    return phiV_n


@formula("ACI 318-19, 14.5.5.1b (two-way shear at h/2 from the face)")
def footing_shear_two_way(q_u: Stress, B: Length, c: Length, h_e: Length) -> Force:
    """Factored punching shear at half the effective thickness from the column's face.

    Parameters: q_u factored net pressure (psi); B side of the footing (in); c side of a square column or pedestal (in);
    h_e effective thickness (in). Returns: V_u shear (lb); zero when the perimeter lies outside the footing. Source: ACI
    318-19 14.4.3.2, 14.5.5.1.

    >>> round(float(footing_shear_two_way(10.0, 24.0, 6.0, 6.0)), 3)
    4320.0
    """
    s: Length = c + h_e
    V_u: Force = maximum(q_u * (B**2 - s**2), 0)
    return V_u


@formula(
    "ACI 318-19, 14.5.5.1b",
    limits={"f_c": LEAST_STRENGTH},
    confidence=FROM_MEMORY,
    homogeneous=False,
)
def footing_shear_strength_two_way(f_c: Stress, lam: Ratio, beta: Ratio, c: Length, h_e: Length) -> Force:
    """Design punching strength of plain concrete round a square column.

    Parameters: f_c specified strength of concrete (psi); lam 1.0 for normal weight concrete; beta long side over short
    side of the column, 1 for square and round; c side of the column or pedestal (in); h_e effective thickness (in).
    Returns: phiV_n design strength (lb). Source: ACI 318-19 Table 14.5.5.1(b), (c), 21.2.1 (phi = 0.60).

    A square column takes 8/3, one four times as long as wide (1 + 2/4) 4/3 = 2:

    >>> round(float(footing_shear_strength_two_way(2500.0, 0.75, 1.0, 6.0, 6.0)), 3)
    17280.0
    >>> round(float(footing_shear_strength_two_way(2500.0, 0.75, 4.0, 6.0, 6.0)), 3)
    12960.0
    """
    b_o: Length = 4 * (c + h_e)
    k: Ratio = minimum((1 + 2 / beta) * 4 / 3, 8 / 3)
    V_n: Force = k * lam * sqrt(f_c) * b_o * h_e  # 14.5.5.1b, c
    phiV_n: Force = 0.60 * V_n  # 21.2.1
    return phiV_n


@dataclass(frozen=True)
class PadLimitStates:
    """Which limit states a plain concrete base has: names of the checks that apply, and why others do not."""

    flexure: bool
    one_way_shear: bool
    two_way_shear: bool
    says: str


def pad_limit_states(B: float, c: float, h_e: float) -> PadLimitStates:
    """Limit states of a square base of side ``B`` under a square column ``c``, all in inches.

    A full-depth pier, where the load spreads inside the concrete, has bearing and axial load only.

    >>> pad_limit_states(17.7, 5.5, 8.0).one_way_shear
    False
    """
    overhang = (B - c) / 2
    if overhang <= 0:
        return PadLimitStates(False, False, False, "the base is no wider than the post: bearing only")
    one_way, two_way = overhang > h_e, c + h_e < B
    says = "flexure at the post's face"
    if not one_way:
        says += "; the one-way shear section, one thickness off the face, lies outside the base"
    if not two_way:
        says += "; the punching perimeter lies outside the base"
    return PadLimitStates(True, one_way, two_way, says)
