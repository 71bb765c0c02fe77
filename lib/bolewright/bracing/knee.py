"""Knee braces: geometry, force from lateral load and from weight, and what they bring into post and beam.

A post of height h from its foot to the underside of the beam, a knee ``a`` (rise) below that and ``r`` (run)
beside it; one knee on a post, or two of like rise and run. Post and beam are hinged where they meet. With the base
hinged the statics of the post is determinate; with the base fixed what the knees take, and with two knees what each
does, follows from :mod:`bolewright.bracing.stiffness`.
"""

from __future__ import annotations

from numpy import maximum, sqrt

from bolewright.formulas import formula
from bolewright.units import Force, Length, LineLoadInch, Moment, Ratio, SecondMoment, Stress


@formula("Geometry (length of a knee brace)")
def brace_length(a: Length, r: Length) -> Length:
    """Length of a knee brace between its working points.

    Parameters: a rise, r run (in). Returns: L_b (in). Source: geometry.

    >>> float(brace_length(30.0, 40.0))
    50.0
    """
    L_b: Length = sqrt(a**2 + r**2)
    return L_b


@formula("Statics (moments about the post's top, base hinged)")
def knee_lateral_force(V: Force, h: Length, a: Length) -> Force:
    """Lateral force of all knees of a post on it, base hinged.

    Parameters: V lateral force on the post's foot (lb); h height of the post, a rise of the knee (in).
    Returns: Q (lb). Source: statics, moments about the joint of post and beam.

    >>> knee_lateral_force(300.0, 60.0, 24.0)
    750.0
    """
    Q: Force = V * h / a
    return Q


@formula("Statics (share of the knees, base fixed)")
def knee_lateral_force_held(V: Force, rho: Ratio) -> Force:
    """Lateral force of all knees of a post on it, base fixed.

    Parameters: V lateral force on the post (lb); rho force at the post's top over that at the knee.
    Returns: Q (lb). Source: statics, the post's shear is the sum of both.

    >>> round(knee_lateral_force_held(300.0, 0.5), 3)
    200.0
    """
    Q: Force = V / (1 + rho)
    return Q


@formula("Statics (force along a knee brace)")
def brace_axial_force(Q: Force, q: Ratio, a: Length, r: Length) -> Force:
    """Force along one knee brace, compression or tension.

    Parameters: Q lateral force of all knees of the post (lb); q share of this one in it; a rise, r run (in).
    Returns: F_b (lb). Source: statics.

    >>> float(round(brace_axial_force(750.0, 1.0, 30.0, 30.0), 1))
    1060.7
    """
    L_b: Length = sqrt(a**2 + r**2)
    F_b: Force = q * Q * L_b / r
    return F_b


@formula("Statics (upward part of a brace's force)")
def brace_reaction(Q: Force, q: Ratio, a: Length, r: Length) -> Force:
    """Vertical force of one knee brace on the beam, up or down.

    Parameters: Q lateral force of all knees of the post (lb); q share of this one in it; a rise, r run (in).
    Returns: V_b (lb). Source: statics.

    >>> round(brace_reaction(800.0, 0.5, 30.0, 40.0), 3)
    300.0
    """
    V_b: Force = q * Q * a / r
    return V_b


@formula("Statics (post bent at the knee, base hinged)")
def post_moment_at_knee(V: Force, h: Length, a: Length) -> Moment:
    """Moment in the post at the knee, base hinged.

    Parameters: V lateral force on the post's foot (lb); h height of the post, a rise of the knee (in).
    Returns: M_k (lb·in). Source: statics.

    >>> round(float(post_moment_at_knee(-250.0, 120.0, 30.0)), 3)
    22500.0
    """
    M_k: Moment = abs(V) * (h - a)
    return M_k


@formula("Statics (post bent at the knee, base fixed)")
def post_moment_at_knee_held(V: Force, rho: Ratio, a: Length) -> Moment:
    """Moment in the post at the knee, base fixed; without sign.

    Parameters: V lateral force on the post (lb); rho force at the top over that at the knee; a rise (in).
    Returns: M_k (lb·in). Source: statics, the top force times the rise.

    >>> round(float(post_moment_at_knee_held(-300.0, 0.5, 30.0)), 3)
    3000.0
    """
    M_k: Moment = abs(V * rho / (1 + rho) * a)
    return M_k


@formula("Statics (post bent at grade, base fixed)")
def post_moment_at_grade(V: Force, rho: Ratio, h: Length, a: Length) -> Moment:
    """Moment in the post at grade, base fixed.

    Parameters: V lateral force on the post (lb); rho force at the top over that at the knee; h height of the
    beam's underside above grade, a rise (in). Returns: M_g (lb·in). Source: statics.

    100 lb at 120 in. and 200 lb at 90 in.:

    >>> round(float(post_moment_at_grade(300.0, 0.5, 120.0, 30.0)), 3)
    30000.0
    """
    M_g: Moment = abs(V * (h - a / (1 + rho)))
    return M_g


@formula("Statics (post as a beam from foot to top, pushed at the knee)")
def post_side_stiffness(E: Stress, I: SecondMoment, h: Length, a: Length) -> LineLoadInch:
    """Stiffness of a post, hinged at both ends, against a lateral push at the knee.

    Parameters: E modulus (psi); I second moment (in⁴); h height of the post, a rise of the knee (in).
    Returns: k_p (lb/in). Source: simple beam with a point load, P a² b² / 3 E I l.

    At mid-height, 48 E I/l³:

    >>> round(post_side_stiffness(1_000_000.0, 100.0, 100.0, 50.0), 3)
    4800.0
    """
    b: Length = h - a
    k_p: LineLoadInch = 3 * E * I * h / (a**2 * b**2)
    return k_p


@formula("Statics (post held at its base and at its top, pushed at the knee)")
def post_side_stiffness_held(E: Stress, I: SecondMoment, l: Length, a: Length) -> LineLoadInch:
    """Stiffness of a post, base fixed and top hinged, against a lateral push at the knee.

    Parameters: E modulus (psi); I second moment (in⁴); l from where the base is fixed to the top, a rise of the knee
    (in). Returns: k_p (lb/in). Source: propped cantilever with a point load, P a² b³ (3 l + a) / 12 E I l³
    (statics: the cantilever's deflection less what the top holds back).

    At mid-height, 768 E I / 7 l³:

    >>> round(post_side_stiffness_held(1_000_000.0, 100.0, 100.0, 50.0) * 7 / 768, 3)
    100.0
    """
    b: Length = l - a
    k_p: LineLoadInch = 12 * E * I * l**3 / (a**2 * b**3 * (3 * l + a))
    return k_p


@formula("Statics and stiffness (weight that a knee brace picks up)")
def brace_force_from_weight(
    delta_v: Length, a: Length, r: Length, k_v: LineLoadInch, k_p: LineLoadInch, k_b: LineLoadInch
) -> Force:
    """Compression in a knee brace because the beam deflects onto it; tension, below 0, where it lifts off it.

    When it applies: the brace was fixed before the load came. The beam lifts at a brace between two posts
    when overhangs or loads outside the posts bend it upwards.
    Parameters: delta_v deflection of the beam at the brace with no brace there (in); a rise, r run (in); k_v stiffness
    of the beam, k_p of the post at the knee, each with the part of the other knees; k_b of the brace with its
    ends along itself (lb/in).
    Returns: F_w (lb). Source: the deflection along the brace is taken up by beam, post and brace.

    0.36/3600 + 0.64/6400 + 1/5000 is 1/2500: 0.6 x 0.1 x 2500.

    >>> round(float(brace_force_from_weight(0.1, 30.0, 40.0, 3600.0, 6400.0, 5000.0)), 3)
    150.0
    """
    L_b: Length = sqrt(a**2 + r**2)
    c_v: Ratio = a / L_b
    c_p: Ratio = r / L_b
    k_s: LineLoadInch = 1 / (c_v**2 / k_v + c_p**2 / k_p + 1 / k_b)
    F_w: Force = c_v * delta_v * k_s
    return F_w


@formula("Statics (brace reaction at the knee from weight)")
def post_moment_from_weight(F_w: Force, h: Length, a: Length, r: Length) -> Moment:
    """Moment in a post at the knee from the force that weight brings to its brace, post hinged at both ends.

    Parameters: F_w force in the brace, compression or tension (lb); h height of the post, a rise, r run (in).
    Returns: M_w (lb·in), without sign. Source: simple beam, P a b / l.

    >>> round(float(post_moment_from_weight(500.0, 120.0, 30.0, 40.0)), 3)
    9000.0
    """
    b: Length = h - a
    M_w: Moment = abs(F_w) * r / sqrt(a**2 + r**2) * a * b / h
    return M_w


@formula("Statics (brace reaction at the knee from weight, base fixed)")
def post_moment_from_weight_held(F_w: Force, l: Length, a: Length, r: Length) -> Moment:
    """Moment in a post at the knee from the force that weight brings to its brace, base fixed and top hinged.

    Parameters: F_w force in the brace, compression or tension (lb); l from where the base is fixed to the top, a
    rise, r run (in). Returns: M_w (lb·in), without sign. Source: propped cantilever, the top's force P b² (3 l - b) /
    2 l³ (statics: it brings the cantilever's tip back) times the rise.

    400 lb level at mid-height, 5/16 of it at the top:

    >>> round(float(post_moment_from_weight_held(500.0, 60.0, 30.0, 40.0)), 3)
    3750.0
    """
    b: Length = l - a
    T_w: Force = abs(F_w) * r / sqrt(a**2 + r**2) * b**2 * (3 * l - b) / (2 * l**3)
    M_w: Moment = T_w * a
    return M_w


@formula("Statics (post bent at grade by the weight on its knee, base fixed)")
def grade_moment_from_weight(F_w: Force, h: Length, l: Length, a: Length, r: Length) -> Moment:
    """Moment in a post at grade from the force that weight brings to its brace, base fixed and top hinged.

    Parameters: F_w force in the brace, compression or tension (lb); h height of the post over grade, l from where the
    base is fixed to the top, a rise, r run (in). Returns: M_w (lb·in), without sign. Source: propped cantilever,
    the top's force P b² (3 l - b) / 2 l³ (statics); moments about grade.

    400 lb level at mid-height of 60 in., 125 of it at the top: 400 x 30 - 125 x 60 at the base, fixed at grade here.

    >>> round(float(grade_moment_from_weight(500.0, 60.0, 60.0, 30.0, 40.0)), 3)
    4500.0
    """
    b: Length = l - a
    p: Force = abs(F_w) * r / sqrt(a**2 + r**2)
    T_w: Force = p * b**2 * (3 * l - b) / (2 * l**3)
    M_w: Moment = abs(p * (h - a) - T_w * h)
    return M_w


@formula("Statics (what is left at the cap)")
def cap_lateral_force(V: Force, Q: Force) -> Force:
    """Lateral force between a post's top and its beam, along the beam.

    Parameters: V lateral force on the post, Q lateral force of its knees (lb). Returns: T (lb). Source: statics.

    >>> round(float(cap_lateral_force(200.0, 500.0)), 3)
    300.0
    """
    T: Force = abs(Q - V)
    return T


@formula("Statics (post as a cantilever)")
def post_moment_cantilever(V: Force, l: Length) -> Moment:
    """Moment in a post without knees, at a distance below the lateral force.

    Parameters: V lateral force (lb); l distance below it (in). Returns: M (lb·in). Source: statics.

    >>> round(float(post_moment_cantilever(-250.0, 96.0)), 3)
    24000.0
    """
    M: Moment = abs(V) * l
    return M


@formula("Statics (moments of one plane added)")
def post_moment_sum(M_k: Moment, M_w: Moment) -> Moment:
    """Moment in a post at the knee from lateral force and from weight.

    Parameters: M_k from lateral force, M_w from weight (lb·in). Returns: M (lb·in). Source: statics.

    >>> round(post_moment_sum(9000.0, 1500.0), 3)
    10500.0
    """
    M: Moment = M_k + M_w
    return M


@formula("Statics (lateral force at a post's top, post as a simple beam)")
def cap_force_from_weight(F_w: Force, h: Length, a: Length, r: Length) -> Force:
    """Lateral force at the top of a post from the force that weight brings to its brace, post hinged at both ends.

    Parameters: F_w force in the brace, compression or tension (lb); h height of the post, a rise, r run (in).
    Returns: T_w (lb), without sign. Source: simple beam, P b / l.

    >>> float(round(cap_force_from_weight(1000.0, 60.0, 30.0, 30.0), 1))
    353.6
    """
    T_w: Force = abs(F_w) * r / sqrt(a**2 + r**2) * (h - a) / h
    return T_w


@formula("Statics (what the post leaves to the cap, base fixed)")
def cap_force_from_weight_held(F_w: Force, l: Length, a: Length, r: Length) -> Force:
    """Lateral force at the top of a post from the force that weight brings to its brace, base fixed and top hinged.

    Parameters: F_w force in the brace, compression or tension (lb); l from where the base is fixed to the top, a
    rise, r run (in). Returns: T_w (lb), without sign. Source: propped cantilever, P b² (3 l - b) / 2 l³ (statics: it
    brings the cantilever's tip back).

    >>> round(float(cap_force_from_weight_held(500.0, 60.0, 30.0, 40.0)), 3)
    125.0
    """
    b: Length = l - a
    T_w: Force = abs(F_w) * r / sqrt(a**2 + r**2) * b**2 * (3 * l - b) / (2 * l**3)
    return T_w


@formula("Statics (lateral force at a post's foot, base fixed)")
def foot_force_from_weight_held(F_w: Force, l: Length, a: Length, r: Length) -> Force:
    """Lateral force at the foot of a post from the force that weight brings to its brace, base fixed and top hinged.

    Parameters: F_w force in the brace, compression or tension (lb); l from where the base is fixed to the top, a
    rise, r run (in). Returns: V_w (lb), without sign. Source: propped cantilever (statics), what the top, with
    P b² (3 l - b) / 2 l³, does not take.

    >>> round(float(foot_force_from_weight_held(500.0, 60.0, 30.0, 40.0)), 3)
    275.0
    """
    b: Length = l - a
    V_w: Force = abs(F_w) * r / sqrt(a**2 + r**2) * (1 - b**2 * (3 * l - b) / (2 * l**3))
    return V_w


@formula("Statics (lateral force at a post's foot, post as a simple beam)")
def foot_force_from_weight(F_w: Force, h: Length, a: Length, r: Length) -> Force:
    """Lateral force at the foot of a post from the force that weight brings to its brace, post hinged at both ends.

    Parameters: F_w force in the brace, compression or tension (lb); h height of the post, a rise, r run (in).
    Returns: V_w (lb), without sign. Source: simple beam, P a / l.

    >>> round(float(foot_force_from_weight(500.0, 120.0, 30.0, 40.0)), 3)
    100.0
    """
    V_w: Force = abs(F_w) * r / sqrt(a**2 + r**2) * a / h
    return V_w


@formula("Statics (lateral forces of one plane added)")
def lateral_force_sum(V: Force, V_w: Force) -> Force:
    """Lateral force from wind or sway and from the weight on the knees, in the worse direction.

    Parameters: V from wind or sway, either way; V_w from weight (lb). Returns: V_s (lb). Source: statics.

    >>> round(float(lateral_force_sum(-250.0, 50.0)), 3)
    300.0
    """
    V_s: Force = abs(V) + V_w
    return V_s


@formula("Statics (push of the deck by knees under weight, shared by the springs in plan)")
def push_by_knees(
    c_D: Ratio, T_D: Force, c_L: Ratio, T_L: Force, c_S: Ratio, T_S: Force, c_G: Ratio, T_G: Force
) -> Force:
    """Lateral force on a support as knees under weight push the deck, in a case.

    Parameters: c_D, c_L, c_S, c_G factors of dead load, live load, snow and the push on a guard in the case; T_D, T_L,
    T_S, T_G what each brings to the support (lb): the parts of the knees' lateral forces that the feet of their posts
    take, handed on by the stiff deck, live load and snow where they make it greatest. Returns: T (lb).
    Source: statics, superposition.

    >>> round(push_by_knees(1.0, 40.0, 0.75, 80.0, 0.5, 60.0, 2.0, 7.0), 3)
    144.0
    """
    T: Force = c_D * T_D + c_L * T_L + c_S * T_S + c_G * T_G
    return T


@formula("Statics (post with knees on a deck that other knees push)")
def with_more_by_knees(V: Force, T: Force) -> Force:
    """Lateral force on a post with knees, with what these and its foot get more as all knees push the deck.

    When it applies: beside the weight on its own knees, taken with the deck at rest. Parameters: V from wind or sway,
    either way; T lateral force at its top that covers what more comes to its foot, cap, knees and moments under weight
    on all knees, live load and snow where they make it greatest (lb). Returns: V_T (lb), without sign. Source: statics.

    >>> round(float(with_more_by_knees(-250.0, 40.0)), 3)
    290.0
    """
    V_T: Force = abs(V) + T
    return V_T


@formula("Statics (compression of lateral force and weight)")
def brace_compression(F_b: Force, F_w: Force) -> Force:
    """Greatest compression in a knee brace.

    Parameters: F_b force from lateral load, either way; F_w from weight, compression above 0 (lb).
    Returns: F (lb). Source: statics.

    >>> round(float(brace_compression(-300.0, 120.0)), 3)
    420.0
    """
    F: Force = abs(F_b) + maximum(F_w, 0)
    return F


@formula("Statics (tension of lateral force and weight)")
def brace_tension(F_b: Force, F_w: Force) -> Force:
    """Greatest tension in a knee brace.

    Parameters: F_b force from lateral load, either way; F_w from weight, tension below 0 (lb).
    Returns: F (lb). Source: statics.

    >>> round(float(brace_tension(300.0, -120.0)), 3)
    420.0
    """
    F: Force = abs(F_b) + maximum(-F_w, 0)
    return F


@formula("Statics (lateral force and weight, compression or tension)")
def brace_end_force(F_b: Force, F_w: Force) -> Force:
    """Greatest force on the ends of a knee brace, compression or tension.

    Parameters: F_b force from lateral load, either way; F_w from weight, either way (lb).
    Returns: F (lb). Source: statics.

    >>> round(float(brace_end_force(-300.0, 120.0)), 3)
    420.0
    """
    F: Force = abs(F_b) + abs(F_w)
    return F


@formula("Statics (greatest shear under the patterns that load a brace one way)")
def shear_with_brace_force(V: Force, t: Ratio, F: Force) -> Force:
    """Bound on the shear beside a brace under the patterns of weight that put it in compression, or in tension.

    Parameters: V shear in the pattern in which V + t F is greatest (lb); t pounds of shear that a pound of brace force
    is traded for; F force in the brace in that pattern, that way positive (lb). Returns: V_t (lb). Source: statics; no
    pattern with F >= 0 has more.

    >>> shear_with_brace_force(700.0, 0.5, -40.0)
    680.0
    """
    V_t: Force = V + t * F
    return V_t
