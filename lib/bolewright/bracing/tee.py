"""A T-frame: one held post, a beam across its cap, a knee from the post towards each end of the beam.

Weight on one arm of the beam turns it about the cap. Two knees of one rise ``a`` hold it by a couple of upright
forces and bring the moment into the post, and its foot in the ground takes it: nothing else in this frame can. How
weight on both arms is shared by cap and knees is a matter of stiffness. The hand calculation takes both bounds, each by
statics alone: all of it on the cap and only the couple in the knees, or none on the cap and all of it on the knees.

``M_h`` is the moment of the weight about the post, positive towards the end of the beam; lateral force V enters at
the beam's top, ``d`` above the cap, positive the same way.
"""

from __future__ import annotations

from numpy import maximum, sqrt

from bolewright.formulas import formula
from bolewright.units import Force, Length, LineLoadInch, Moment, Ratio, SecondMoment, Stress


@formula("Statics (moments about the post: weight of one arm against that of the other)")
def tee_moment_sum(M_w: Moment, M_o: Moment) -> Moment:
    """Moment that weight and overturning on a T-frame's beam have about its post.

    Parameters: M_w from weight, M_o from overturning (lb·in). Returns: M_h (lb·in). Source: statics.

    >>> round(tee_moment_sum(8000.0, 2000.0), 3)
    10000.0
    """
    M_h: Moment = M_w + M_o
    return M_h


@formula("Statics (lateral force at the beam's top, down to its underside)")
def tee_cap_moment(M_h: Moment, V: Force, d: Length) -> Moment:
    """Moment that comes into the head of a T-frame's post through its knees.

    Parameters: M_h of the weight about the post (lb·in); V lateral force along the beam (lb); d depth of the
    beam (in). Returns: M_t (lb·in). Source: statics.

    >>> round(tee_cap_moment(1000.0, 200.0, 10.0), 3)
    3000.0
    """
    M_t: Moment = M_h + V * d
    return M_t


@formula("Statics (couple of two knees)")
def tee_knee_couple(M_s: Moment, r: Length, r_o: Length) -> Force:
    """Vertical part of a knee's compression in a T-frame with all weight on the cap; below 0 tension.

    Parameters: M_s moment that tips the beam towards this knee (lb·in); r run of this knee, r_o of the other
    (in). Returns: V_c (lb). Source: statics; the other knee has the same with the other sign.

    >>> tee_knee_couple(36000.0, 30.0, 30.0)
    600.0
    """
    V_c: Force = M_s / (r + r_o)
    return V_c


@formula("Statics (moments about the other knee, nothing on the cap)")
def tee_knee_prop(R: Force, M_s: Moment, r: Length, r_o: Length) -> Force:
    """Vertical part of a knee's compression in a T-frame with nothing on the cap: as a stiff prop; below 0 tension.

    Parameters: R weight on the beam (lb); M_s moment that tips it towards this knee (lb·in); r run of this knee,
    r_o of the other (in). Returns: V_n (lb). Source: statics.

    >>> tee_knee_prop(1000.0, 36000.0, 30.0, 30.0)
    1100.0
    """
    V_n: Force = (R * r_o + M_s) / (r + r_o)
    return V_n


@formula("Statics (the greater compression of both bounds, the greater tension)")
def tee_knee_compression(V_c: Force, V_n: Force, a: Length, r: Length) -> Force:
    """Greatest compression along a knee of a T-frame, 0 where both bounds are tension.

    Parameters: V_c, V_n upright part by either bound (lb); a rise, r run (in). Returns: F_w (lb). Source: statics.

    >>> round(float(tee_knee_compression(300.0, -60.0, 30.0, 40.0)), 3)
    500.0
    """
    L_b: Length = sqrt(a**2 + r**2)
    F_w: Force = maximum(maximum(V_c, V_n), 0) * L_b / a
    return F_w


@formula("Statics (the greater compression of both bounds, the greater tension)")
def tee_knee_tension(V_c: Force, V_n: Force, a: Length, r: Length) -> Force:
    """Greatest tension along a knee of a T-frame, below 0; 0 where both bounds are compression.

    Parameters: V_c, V_n upright part by either bound (lb); a rise, r run (in). Returns: F_w (lb). Source: statics.

    >>> round(float(tee_knee_tension(300.0, -60.0, 30.0, 40.0)), 3)
    -100.0
    """
    L_b: Length = sqrt(a**2 + r**2)
    F_w: Force = -maximum(maximum(-V_c, -V_n), 0) * L_b / a
    return F_w


@formula("Statics (horizontal part of a knee's compression)")
def tee_beam_axial_force(F_w: Force, a: Length, r: Length) -> Force:
    """Lateral force that a knee of a T-frame puts along its beam.

    Parameters: F_w force along the knee (lb); a rise, r run (in). Returns: H (lb), without sign. Source: statics.

    >>> round(float(tee_beam_axial_force(-500.0, 30.0, 40.0)), 3)
    400.0
    """
    H: Force = abs(F_w) * r / sqrt(a**2 + r**2)
    return H


@formula("Statics (moments about the knees' foot)")
def tee_cap_force(V: Force, M_t: Moment, a: Length) -> Force:
    """Lateral force between cap and beam of a T-frame: the knees push the other way, at their rise below.

    Parameters: V lateral force along the beam (lb); M_t moment into the post's head (lb·in); a rise (in).
    Returns: T (lb), without sign; not less than without V, should what holds the platform laterally give way.
    Source: statics.

    >>> round(float(tee_cap_force(200.0, 3000.0, 30.0)), 3)
    300.0
    """
    T: Force = maximum(abs(V + M_t / a), abs(M_t) / a)
    return T


@formula("Statics (post of a T-frame as a cantilever)")
def tee_post_moment(V: Force, l: Length, M_h: Moment) -> Moment:
    """Moment in the post of a T-frame, at its knees or below them, in the plane of the frame.

    Parameters: V lateral force along the beam (lb); l distance below it (in); M_h of the weight about the post
    (lb·in). Returns: M (lb·in), without sign; not less than M_h, should what holds the platform laterally give way.
    Source: statics, the moment of the weight is the same all the way down from the knees.

    >>> round(float(tee_post_moment(100.0, 50.0, 8000.0)), 3)
    13000.0
    """
    M: Moment = maximum(abs(V * l + M_h), abs(M_h))
    return M


@formula("Elastic beam theory (cantilever turned at its head)")
def tee_lean(M_h: Moment, E: Stress, I: SecondMoment, l: Length, d: Length, f: Ratio) -> Length:
    """How far the beam's top would move laterally as the weight on one arm bends the post, were nothing to hold it.

    Parameters: M_h of the weight about the post (lb·in); E modulus (psi); I second moment (in⁴); l length of the
    post from where it is held to its top, d depth of the beam (in); f share of the stiffness that the ground leaves
    the post. Returns: g (in). Source: M l² / 2 E I, and the turn of the head M l / E I over the depth.

    >>> round(tee_lean(1000.0, 1_000_000.0, 120.0, 100.0, 10.0, 0.5), 6)
    0.1
    """
    g: Length = M_h * (l**2 / 2 + l * d) / (f * E * I)
    return g


@formula("Elastic beam theory (turn of a held post's head, moment brought in by knees)")
def tee_post_turn(M_h: Moment, E: Stress, I: SecondMoment, l: Length, a: Length) -> Ratio:
    """Turn of a T-frame's beam by the bending of its post (radians).

    Parameters: M_h of the weight about the post (lb·in); E modulus (psi); I second moment (in⁴); l length of the
    post from where it is held, a rise of the knees (in). Returns: theta_h. Source: unit-load method: the moment is M_h
    from the knees down, and falls to nothing at the cap.

    >>> round(tee_post_turn(10_000.0, 1_000_000.0, 100.0, 100.0, 30.0), 6)
    0.008
    """
    theta_h: Ratio = M_h * (l - 2 * a / 3) / (E * I)
    return theta_h


@formula("Elastic theory (turn of a beam by the give of two knees)")
def tee_knee_turn(
    M_h: Moment, r_1: Length, r_2: Length, a: Length, k_1: LineLoadInch, k_2: LineLoadInch
) -> Ratio:
    """Turn of a T-frame's beam by the give of its knees (radians).

    Parameters: M_h of the weight about the post (lb·in); r_1, r_2 runs, a rise of the knees (in); k_1, k_2 their
    stiffness along themselves with their ends (lb/in). Returns: theta_k. Source: unit-load method.

    3600/60² is 1; 1.25²/3125 is 0.0005 for each knee.

    >>> round(float(tee_knee_turn(3600.0, 30.0, 30.0, 40.0, 3125.0, 3125.0)), 6)
    0.001
    """
    n_1: Ratio = sqrt(a**2 + r_1**2) / a
    n_2: Ratio = sqrt(a**2 + r_2**2) / a
    theta_k: Ratio = M_h / (r_1 + r_2) ** 2 * (n_1**2 / k_1 + n_2**2 / k_2)
    return theta_k
