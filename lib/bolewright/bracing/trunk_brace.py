"""Knee braces from a bolt low in the trunk up to a beam: what bears the beam's end also pushes it away from the trunk.

The brace is hinged at both ends, so its force lies along it: what it bears upright, ``R``, brings a lateral force to
both its ends by its slope. Its foot presses on the lower bolt, its head draws the beam outwards, and the bracket on
the upper bolt ties the beam to the trunk.
"""

from __future__ import annotations

from numpy import sqrt

from bolewright.formulas import formula
from bolewright.units import Force, Length, Moment, Ratio


@formula("Statics (force along a knee brace from the trunk)")
def trunk_brace_force(R: Force, a: Length, r: Length) -> Force:
    """Force along a knee brace that bears a beam.

    Parameters: R upright load at its head (lb); a rise from its foot on the bolt to the beam's underside, r run
    (in). Returns: F (lb), compression. Source: statics, two-force member.

    >>> float(round(trunk_brace_force(1000.0, 40.0, 30.0), 1))
    1250.0
    """
    F: Force = R * sqrt(a**2 + r**2) / a
    return F


@formula("Statics (lateral force of a knee brace from the trunk)")
def trunk_brace_compression(R: Force, a: Length, r: Length) -> Force:
    """Lateral force that a knee brace brings to the beam at its head, and to its bolt at its foot the other way.

    Parameters: R upright load at its head (lb); a rise, r run (in). Returns: T_b (lb). Source: statics.

    >>> trunk_brace_compression(1000.0, 40.0, 30.0)
    750.0
    """
    T_b: Force = R * r / a
    return T_b


@formula("Statics (lateral forces of two knee braces that lean apart)")
def opposed_thrust(T_1: Force, T_2: Force) -> Force:
    """What is left of the lateral forces of two knee braces on one beam that lean apart.

    Parameters: T_1 of the brace towards the beam's end, T_2 of that towards its start (lb). Returns: T (lb), towards
    the beam's end. Source: statics; the beam itself takes the rest, in tension.

    >>> round(opposed_thrust(500.0, 300.0), 3)
    200.0
    """
    T: Force = T_1 - T_2
    return T


@formula("Statics (part of a force along an axis)")
def part_along(T: Force, c: Ratio) -> Force:
    """Part of a force along the bolt, or across it.

    Parameters: T force along the beam (lb); c cosine of the angle between beam and axis. Returns: T_c (lb).
    Source: statics.

    >>> round(part_along(500.0, 0.8), 3)
    400.0
    """
    T_c: Force = T * c
    return T_c


@formula("Statics (forces of wind, sway and knee braces)")
def with_brace_compression(H: Force, T: Force) -> Force:
    """Lateral force on a bolt with that of the knee braces.

    Parameters: H from wind, sway and the trunk's own movement, T from the knee braces (lb). Returns: H_T (lb).
    Source: statics.

    >>> round(with_brace_compression(200.0, 300.0), 3)
    500.0
    """
    H_T: Force = H + T
    return H_T


@formula("Statics (lateral force either way, with that of knee braces)")
def with_thrust_either_way(H: Force, T: Force) -> Force:
    """Lateral force on the bolt under knee braces, where that along their beam may go either way.

    Parameters: H lateral force, T from the weight on the braces (lb). Returns: H_T (lb), without sign.
    Source: statics.

    >>> with_thrust_either_way(100.0, -300.0)
    400.0
    """
    H_T: Force = abs(H) + abs(T)
    return H_T


@formula("Statics (a pair of braces takes the whole lateral force of its beam)")
def brace_load_from_lateral(H_b: Force, a_1: Length, r_1: Length, a_2: Length, r_2: Length) -> Force:
    """Upright load that a lateral force along the beam brings to the heads of two knee braces that lean apart.

    When it applies: on the safe side, as if the pair took all of it and the bolts that the beam sits on none; one is
    pressed, the other relieved.
    Parameters: H_b lateral force along the beam (lb); a_1, a_2 rise of each brace; r_1, r_2 its run (in).
    Returns: R_H (lb). Source: statics, both heads are loaded alike upright.

    >>> brace_load_from_lateral(600.0, 30.0, 30.0, 30.0, 30.0)
    300.0
    """
    R_H: Force = abs(H_b) / (r_1 / a_1 + r_2 / a_2)
    return R_H


@formula("Statics (loads at a brace's head added)")
def brace_head_load(R: Force, R_H: Force) -> Force:
    """Load at the head of a knee brace from weight with overturning, and from lateral force along its beam.

    Parameters: R, R_H upright loads (lb). Returns: R_b (lb). Source: statics.

    >>> round(brace_head_load(1000.0, 150.0), 3)
    1150.0
    """
    R_b: Force = R + R_H
    return R_b


@formula("Statics (thrust at a beam's underside)")
def thrust_moment(M: Moment, T_b: Force, d: Length) -> Moment:
    """Moment in a beam whose tie at its underside draws off centre, beside that of its loads.

    Parameters: M moment from loads, without sign (lb·in); T_b tension in the beam (lb); d its depth (in).
    Returns: M_T (lb·in). Source: statics, eccentricity of half the depth.

    >>> thrust_moment(10000.0, 400.0, 10.0)
    12000.0
    """
    M_T: Moment = M + T_b * d / 2
    return M_T
