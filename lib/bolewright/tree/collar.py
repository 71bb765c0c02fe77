"""What bears on the collar outside the wood: timber across its grain, or a steel bracket."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.units import Area, Force, Length, Stress


@formula("Statics (timber bearing across the grain on the collar)")
def collar_bearing_stress(P: Force, b_b: Length, l_b: Length) -> Stress:
    """Stress across the grain where timber bears on the collar; hold it against F'_c,perp.

    Parameters: P load on the bolt (lb); b_b width of the flat or saddle that bears (in); for a bare round bar its
    diameter is an upper bound; l_b length of timber in contact along the bolt (in). Returns: f_c_perp bearing stress
    (psi). Source: NDS 2018 3.10.2.

    >>> round(collar_bearing_stress(1200.0, 2.0, 3.0), 3)
    200.0
    """
    A_b: Area = b_b * l_b
    f_c_perp: Stress = P / A_b
    return f_c_perp


@formula("AISC 360-16, J7", confidence="from memory")
def bracket_bearing_strength(F_y: Stress, D: Length, t: Length) -> Force:
    """Allowable bearing of a steel bracket on the bolt.

    Parameters: F_y lower yield strength of bracket and bolt (psi); D bolt diameter at the bracket (in); t thickness of
    steel bearing along the bolt (in). Returns: R_a allowable load (lb). Source: AISC 360-16 J7(a): R_n = 1.8 F_y A_pb,
    Omega = 2.00.

    >>> round(bracket_bearing_strength(36_000.0, 1.0, 0.25), 3)
    8100.0
    """
    A_pb: Area = D * t
    R_n: Force = 1.8 * F_y * A_pb
    R_a: Force = R_n / 2.00
    return R_a
