"""Rotation (overturning) of a beam on its bearing: lateral force at its top, loads off its middle line, weight and
ties.

What holds it down presses on the far edge, and that takes a block of wood: the resultant is not in the edge itself.
"""

from __future__ import annotations

from numpy import maximum, minimum, sqrt

from bolewright.formulas import formula
from bolewright.units import Force, Length, Moment, Ratio, Stress


@formula("Statics (load off a beam's middle line)")
def eccentric_moment(R: Force, e: Length) -> Moment:
    """Moment about a beam's middle line of a load that bears beside it.

    Parameters: R load (lb); e distance of its bearing from the middle line (in). Returns: M_e (lb·in).
    Source: statics. A load on one face of a beam: half its width and half the hanger's seat.

    >>> eccentric_moment(600.0, 2.25)
    1350.0
    """
    M_e: Moment = R * e
    return M_e


@formula("Statics (rotation of a beam on its bearing)")
def rotation_moment(V: Force, d: Length, M_e: Moment) -> Moment:
    """Moment that turns a beam over on its bearing.

    Parameters: V lateral force across the beam, in at its top, out at its underside (lb); d its depth (in); M_e moment
    of loads off its middle line (lb·in). Returns: M_r (lb·in). Source: statics.

    >>> rotation_moment(200.0, 11.25, 750.0)
    3000.0
    """
    M_r: Moment = V * d + M_e
    return M_r


@formula("Statics; NDS 2018, 3.10.2")
def compression_block(R: Force, T: Force, F_c_perp_p: Stress, l_b: Length) -> Length:
    """Width of the block of wood on which a beam that turns over presses with all that holds it down.

    Parameters: R load on the bearing, T pull of the tie on the side that lifts (lb); F_c_perp_p adjusted bearing value
    across the grain (psi); l_b length of the bearing along the beam (in). Returns: x (in).
    Source: statics: the block carries both at the allowable stress.

    >>> compression_block(300.0, 900.0, 400.0, 3.0)
    1.0
    """
    x: Length = (R + T) / (F_c_perp_p * l_b)
    return x


@formula("Statics; NDS 2018, 3.10.2")
def tie_that_counts(T: Force, R: Force, F_c_perp_p: Stress, l_b: Length, b: Length, c: Length) -> Force:
    """Pull of a tie that helps against rotation: more would only crush wood under the tie itself.

    Parameters: T rated load of the tie on the face that lifts, R load on the bearing (lb); F_c_perp_p adjusted bearing
    value across the grain (psi); l_b length of the bearing along the beam, b width of the beam, c from its middle line
    to the nearer edge of its bearing (in). Returns: T_c (lb). Source: statics: the block ends under the tie.

    >>> float(tie_that_counts(5000.0, 600.0, 400.0, 3.0, 3.0, 1.5))
    3000.0
    """
    T_c: Force = minimum(T, maximum(F_c_perp_p * l_b * (b / 2 + c) - R, 0))
    return T_c


@formula("Statics (weight and tie against rotation)")
def rotation_resistance(R: Force, c: Length, T: Force, b: Length, x: Length) -> Moment:
    """Moment that holds a beam against turning over: weight, and a tie on the face that lifts, about the block.

    Parameters: R load on the bearing that is there with the moment (lb); c from the beam's middle line to the nearer
    edge of its bearing (in); T rated load of the tie, 0 without (lb); b width of the beam (in); x width of the block
    (in). Returns: M_a (lb·in). Source: statics, about the middle of the block.

    >>> rotation_resistance(400.0, 1.5, 900.0, 3.0, 1.0)
    2650.0
    """
    M_a: Moment = R * (c - x / 2) + T * (b / 2 + c - x / 2)
    return M_a


@formula("Statics; NDS 2018, 3.10.2")
def tie_pull_asked(M_r: Moment, R: Force, F_c_perp_p: Stress, l_b: Length, b: Length, c: Length) -> Force:
    """Pull that a tie must give for a beam not to turn over: 0 where weight alone holds it.

    The other way round from :func:`rotation_resistance`. Where no pull is enough, the block has gone to the tie, and
    the rotation's own check fails. Parameters: M_r moment that turns the beam (lb·in); R load on the bearing (lb);
    F_c_perp_p adjusted bearing value across the grain (psi); l_b length of the bearing along the beam, b width of the
    beam, c from its middle line to the nearer edge of its bearing (in). Returns: T_a (lb). Source: statics about the
    tie: F'_c,perp l_b x (b/2 + c - x/2) = M_r + R b/2.

    >>> float(tie_pull_asked(2650.0, 400.0, 1300 / 3, 3.0, 3.0, 1.5))  # rotation_resistance: 900 lb, a block of 1 in.
    900.0
    """
    B: Length = b / 2 + c
    x: Length = B - sqrt(maximum(B**2 - 2 * (M_r + R * b / 2) / (F_c_perp_p * l_b), 0))
    T_a: Force = maximum(F_c_perp_p * l_b * x - R, 0)
    return T_a


@formula("Statics (connections of joists hold a beam against rotation)")
def joist_edge_force(M_j: Moment, R: Force, e: Length, d_j: Length) -> Force:
    """Force at the upper and lower edge of a joist whose connection keeps a beam from turning.

    When it applies: joists at least half as deep as the beam; each takes the moment of its own load. Parameters: M_j
    torque of the beam that comes to its connection, 0 where it holds none upright (lb·in); R its load (lb); e distance
    of its bearing from the beam's middle line, d_j its depth (in). Returns: F_j (lb). Source: statics, a couple on the
    joist's depth.

    >>> joist_edge_force(225.0, 300.0, 2.25, 7.5)
    120.0
    """
    F_j: Force = (M_j + R * e) / d_j
    return F_j


@formula("Statics (torque over the plies, each by itself; Roark, rectangular bar)", confidence="from memory")
def torsion_stress(T: Moment, n: Ratio, d: Length, t: Length) -> Stress:
    """Greatest shear stress of a beam that is twisted, its plies not counted as one.

    Parameters: T torque (lb·in); n plies; d depth, t thickness of a ply (in). Returns: f_vt (psi), at the middle of the
    broad face. Source: T (3 a + 1.8 b)/(8 a² b²) with half sides a and b (Roark's Formulas for Stress and Strain).

    >>> round(torsion_stress(1000.0, 1.0, 12.0, 12.0) * 12**3 / 1000, 2)  # square: 4.8 T/s³
    4.8
    """
    f_vt: Stress = T / n * (3 * d + 1.8 * t) / (d**2 * t**2)
    return f_vt


@formula("Statics (shear of bending and of torsion)")
def shear_with_torsion(f_v: Stress, f_vt: Stress) -> Stress:
    """Shear stress where a beam is sheared and twisted: both are greatest in one face.

    Parameters: f_v from bending, f_vt from torsion (psi). Returns: f (psi). Source: statics, stresses of one direction.

    >>> round(shear_with_torsion(80.0, 30.0), 3)
    110.0
    """
    f: Stress = f_v + f_vt
    return f
