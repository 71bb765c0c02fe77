"""Joists that keep a beam upright on a tree bolt: how the beam's torque comes to their connections.

The beam twists between the joists, so that those near the bolt take most. Each connection is a spring against rotation,
each length of the beam between two another; what lies beyond a place is one spring, found joist by joist from the end.
"""

from __future__ import annotations

from numpy import maximum

from bolewright.formulas import formula
from bolewright.units import Force, Length, LineLoadInch, Moment, Ratio, SecondMoment, Stress


@formula(
    "Statics (springs at a joist's upper and lower edge)",
    confidence="judgement: all nails at the edges",
)
def joist_rotation_stiffness(k_j: LineLoadInch, d_j: Length) -> Moment:
    """Stiffness of a joist's connection against rotation: half of its fasteners at each edge, the stiffest they can be.

    Parameters: k_j stiffness of the joint (lb/in); d_j depth of the joist (in). Returns: k_r (lb·in in a radian).
    Source: statics: forces k_j/2 times a slip of d_j/2, d_j apart. A stiffer one takes more: the cautious side.

    >>> joist_rotation_stiffness(80_000.0, 10.0)
    2000000.0
    """
    k_r: Moment = k_j * d_j**2 / 4
    return k_r


@formula("Statics (elastic torsion: springs side by side, and one behind the other)")
def stiffness_with_beyond(k_r: Moment, K_b: Moment, G: Stress, J: SecondMoment, l: Length) -> Moment:
    """Stiffness against rotation of a beam at a place, by what holds it there and all that lies beyond on one side.

    Parameters: k_r stiffness of the connection there, 0 with none; K_b that at the next place beyond, 0 past the last
    (lb·in in a radian); G modulus of rigidity of the beam, its modulus of elasticity over 16 (psi); J its torsion
    constant, each ply by itself (in⁴); l length to the next place (in). Returns: K (lb·in in a radian).
    Source: statics, elastic torsion G J/l of the length between.

    >>> stiffness_with_beyond(1000.0, 1000.0, 100_000.0, 20.0, 2000.0)
    1500.0
    """
    K: Moment = k_r + K_b * G * J / (G * J + K_b * l)
    return K


@formula("Statics (two springs share by their stiffness)")
def share_of_side(K_1: Moment, K_2: Moment) -> Ratio:
    """Share of a beam's torque at a bolt that goes to one side.

    Parameters: K_1 stiffness against rotation by what lies on that side, K_2 on the other (lb·in in a radian).
    Returns: s_1. Source: statics: both turn alike.

    >>> share_of_side(3000.0, 1000.0)
    0.75
    """
    s_1: Ratio = K_1 / (K_1 + K_2)
    return s_1


@formula("Statics (springs side by side share by their stiffness)")
def share_passed_on(s_b: Ratio, k_r: Moment, K: Moment) -> Ratio:
    """Share of a beam's torque that goes on past a joist to those beyond.

    Parameters: s_b share that comes to it; k_r stiffness of its connection against rotation, K the same with all that
    lies beyond (lb·in in a radian). Returns: s_p. Source: statics: what it does not take.

    >>> share_passed_on(1.0, 3000.0, 4000.0)
    0.25
    """
    s_p: Ratio = s_b * (1 - k_r / K)
    return s_p


@formula("Statics (springs side by side share by their stiffness); no less than an even share by judgement")
def share_of_joist(s_b: Ratio, k_r: Moment, K: Moment, n: Ratio) -> Ratio:
    """Share of a beam's torque that one joist's connection takes, no less than an even one.

    Parameters: s_b share that comes to it; k_r stiffness of its connection against rotation, K the same with all that
    lies beyond (lb·in in a radian); n joists that hold the beam. Returns: s. Source: statics; connections that are
    softer than counted share more alike, so an even share is the least that is taken.

    >>> float(share_of_joist(0.8, 3000.0, 4000.0, 10.0))
    0.6
    """
    s: Ratio = maximum(s_b * k_r / K, 1 / n)
    return s


@formula("Statics (torque of a lateral force, by the share of a joist)")
def torque_at_joist(M_b: Moment, s: Ratio, V: Force, d: Length) -> Moment:
    """Torque of a beam that comes to one joist's connection: that of one bolt more.

    Parameters: M_b torque that comes to it from the bolts before (lb·in); s its share; V lateral force across the beam
    at the bolt, in at the beam's top, out at its underside (lb); d depth of the beam (in). Returns: M_j (lb·in).
    Source: statics. Torques of several bolts are added without sign.

    >>> torque_at_joist(100.0, 0.5, 200.0, 10.0)
    1100.0
    """
    M_j: Moment = M_b + s * V * d
    return M_j
