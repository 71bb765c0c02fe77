"""Statics of a beam on two supports, printed line by line: reactions by moments, moment at a section."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.units import Force, Length, Moment


@formula("statics: moments about the first support")
def reaction_by_moments(M_A: Moment, l: Length) -> Force:
    """Reaction of the second support of a beam on two.

    Parameters: M_A sum of each load times its distance past the first support (lb·in); l distance between the
    supports (in). Returns: R_B (lb). Source: statics, sum of moments about A is zero.

    >>> reaction_by_moments(12_000.0, 120.0)
    100.0
    """
    R_B: Force = M_A / l
    return R_B


@formula("statics: sum of vertical forces")
def other_reaction(W: Force, R_B: Force) -> Force:
    """Reaction of the first support of a beam on two.

    Parameters: W sum of the loads (lb); R_B reaction of the second support (lb). Returns: R_A (lb).
    Source: statics, sum of vertical forces is zero.

    >>> round(other_reaction(4000.0, 2500.0), 3)
    1500.0
    """
    R_A: Force = W - R_B
    return R_A


@formula("statics: moments about the section")
def section_moment(R_A: Force, a: Length, R_B: Force, b: Length, M_left: Moment) -> Moment:
    """Bending moment at a section from the forces on its left.

    Parameters: R_A, R_B reactions (lb); a, b distance of the section past each support, 0 where the support lies
    right of it (in); M_left sum of each load left of the section times its distance to it (lb·in).
    Returns: M (lb·in), sagging positive. Source: statics.

    30,000 + 4000 - 18,000:

    >>> round(section_moment(500.0, 60.0, 400.0, 10.0, 18_000.0), 3)
    16000.0
    """
    M: Moment = R_A * a + R_B * b - M_left
    return M


@formula("statics: sum of vertical forces left of the section")
def section_shear(R_left: Force, W_left: Force) -> Force:
    """Shear at a section from the forces on its left.

    Parameters: R_left reactions of the supports left of the section (lb); W_left sum of the loads left of it (lb).
    Returns: V (lb), positive where the left part is pushed up. Source: statics.

    >>> section_shear(400.0, 150.0)
    250.0
    """
    V: Force = R_left - W_left
    return V
