"""Crossed rods between two posts: tension only, so of each pair the one that the lateral force stretches.

A rod runs from the head of one post down to the foot of the other. The post at its head, held at its base and by the
rod, takes the lateral force above the rod, ``d`` above the post's top where a beam stands upright on it. The level
part of the rod's tension goes into the foot of the other post; its vertical part presses the post at its head down and
lifts the other.
"""

from __future__ import annotations

from numpy import maximum, minimum, pi, sqrt

from bolewright.formulas import formula
from bolewright.units import (
    Area,
    Force,
    FoundationModulus,
    Length,
    LineLoadInch,
    Moment,
    Ratio,
    SecondMoment,
    Stress,
    Volume,
)

GROUND = 40.0  # lb/in³, growth of the ground's stiffness with depth where it gives; judgement


@formula("Geometry (length of a crossed rod)")
def rod_length(L: Length, b: Length) -> Length:
    """Length of a crossed rod between its working points.

    Parameters: L level distance of the posts' middle lines, b height of its upper end above the lower (in).
    Returns: L_r (in). Source: geometry.

    >>> float(rod_length(96.0, 72.0))
    120.0
    """
    L_r: Length = sqrt(L**2 + b**2)
    return L_r


@formula("Geometry (round bar)")
def rod_area(D: Length) -> Area:
    """Area of a round rod.

    Parameters: D diameter (in). Returns: A (in²). Source: geometry.

    >>> round(float(rod_area(0.75)), 4)
    0.4418
    """
    A: Area = pi * D**2 / 4
    return A


@formula("Elastic beam theory (cantilever)")
def post_foot_stiffness(E: Stress, I: SecondMoment, l: Length) -> LineLoadInch:
    """Lateral stiffness of a held post where a rod pulls its foot.

    Parameters: E modulus (psi); I second moment (in⁴); l length from where the post is held to the rod (in).
    Returns: k_p (lb/in). Source: cantilever, P l³ / 3 E I.

    >>> round(post_foot_stiffness(1_000_000.0, 100.0, 100.0), 3)
    300.0
    """
    k_p: LineLoadInch = 3 * E * I / l**3
    return k_p


@formula(
    "Statics (stiff pole in ground that stiffens with depth)", confidence="judgement, engineer to confirm"
)
def footing_stiffness(n_h: FoundationModulus, d: Length, z: Length) -> LineLoadInch:
    """Lateral stiffness at grade of a footing that a rod pulls.

    When it applies: ground whose stiffness grows evenly with depth, a post that turns in it as a stiff pole.
    Parameters: n_h growth of the ground's stiffness with depth (lb/in³), 40; d depth of the footing, z height of the
    rod's lower end above grade (in). Returns: k_g (lb/in). Source: statics of a stiff pole under the lateral pressure
    n_h x (y_0 - theta x) at depth x, sums of forces and of moments; n_h: judgement.

    >>> round(footing_stiffness(40.0, 54.0, 0.0))
    6480
    >>> round(footing_stiffness(40.0, 54.0, 40.5), 3)
    3240.0
    """
    k_g: LineLoadInch = n_h * d**2 / (18 * (1 + 4 * z / (3 * d)))
    return k_g


@formula("Springs in series (rod, post and ground)")
def rod_spring(k_r: LineLoadInch, L: Length, L_r: Length, k_f: LineLoadInch) -> LineLoadInch:
    """Lateral stiffness with which a rod ties the head of one post to the foot of the other.

    Parameters: k_r stiffness of the rod along itself (lb/in); L level distance of the posts, L_r length of the rod
    (in); k_f lateral stiffness of the other post's foot (lb/in). Returns: k_x (lb/in).
    Source: springs in series, the rod's in the level direction.

    >>> round(rod_spring(3125.0, 80.0, 100.0, 2000.0), 3)
    1000.0
    """
    k_x: LineLoadInch = 1 / ((L_r / L) ** 2 / k_r + 1 / k_f)
    return k_x


@formula("Springs in series (post and ground)")
def in_series(k_p: LineLoadInch, k_g: LineLoadInch) -> LineLoadInch:
    """Stiffness of two springs one after the other.

    Parameters: k_p, k_g their stiffness (lb/in). Returns: k_f (lb/in). Source: statics.

    >>> in_series(3000.0, 6000.0)
    2000.0
    """
    k_f: LineLoadInch = 1 / (1 / k_p + 1 / k_g)
    return k_f


@formula("Judgement: give of the ground", confidence="judgement, engineer to confirm")
def modulus_in_soft_ground(E: Stress, f: Ratio) -> Stress:
    """Modulus with which a post in ground that gives bends as far as post and ground together.

    Parameters: E modulus (psi); f share of a held post's stiffness that is left, 0.5. Returns: E_f (psi).
    Source: as the stiffness of a post without bracing in such ground.

    >>> round(modulus_in_soft_ground(1_200_000.0, 0.5), 3)
    600000.0
    """
    E_f: Stress = f * E
    return E_f


@formula("Elastic theory (post held at its base and by a rod)")
def rod_share(E: Stress, I: SecondMoment, l: Length, d: Length, c: Length, k_x: LineLoadInch) -> Ratio:
    """Level part of the tension of a rod over the lateral force on the post at its head, base fixed.

    Parameters: E modulus (psi); I second moment (in⁴); l length from where the post is held to its top, d height above
    that at which the force comes in, c length from where it is held to the rod (in); k_x lateral stiffness of
    the rod (lb/in), 0 where it is slack. Returns: q; above 1 where the base pushes back.
    Source: cantilever whose movement at the rod is that of the rod.

    >>> round(float(rod_share(1.0, 1.0, 100.0, 0.0, 100.0, 1e9)), 6)
    1.0

    Half-way up, 10 in. below the force: 312,500 x 2400/(300,000,000 + 125,000 x 2400).

    >>> round(rod_share(1_000_000.0, 100.0, 90.0, 10.0, 50.0, 2400.0), 6)
    1.25
    """
    g_k: Volume = c**3  # 3 E I times the movement at the rod from a force there
    g_x: Volume = c**2 * (3 * (l + d) - c) / 2  # from a force at the load
    q: Ratio = g_x * k_x / (3 * E * I + g_k * k_x)
    return q


@formula("Elastic theory (post held at its base and by a rod)")
def rod_braced_stiffness(
    E: Stress, I: SecondMoment, l: Length, d: Length, c: Length, q: Ratio
) -> LineLoadInch:
    """Lateral stiffness of a post with a rod at its head, base fixed.

    Parameters: as :func:`rod_share`; q level part of the rod's tension over the lateral force.
    Returns: k (lb/in). Source: cantilever under the lateral force and the rod's.

    A rod at the head that takes half makes the post twice as stiff as 3 E I/l³ = 300:

    >>> round(rod_braced_stiffness(1_000_000.0, 100.0, 100.0, 0.0, 100.0, 0.5), 3)
    600.0
    >>> round(rod_braced_stiffness(1_000_000.0, 100.0, 90.0, 10.0, 80.0, 0.5), 1)
    463.7
    """
    g_t: Volume = (l + d) ** 3 - d**3
    g_x: Volume = c**2 * (3 * (l + d) - c) / 2
    k: LineLoadInch = 3 * E * I / (g_t - q * g_x)
    return k


@formula("Statics (moments about a hinged base)")
def rod_share_hinged(h: Length, d: Length, c: Length) -> Ratio:
    """Level part of the tension of a rod over the lateral force on the post at its head, base hinged.

    Parameters: h height of the post's top, d height above it at which the force comes in, c height of the rod, all
    above the hinge but d (in). Returns: q. Source: statics.

    >>> rod_share_hinged(90.0, 10.0, 80.0)
    1.25
    """
    q: Ratio = (h + d) / c
    return q


@formula("Elastic theory (post hinged at its base and held by a rod)")
def rod_braced_stiffness_hinged(
    E: Stress, I: SecondMoment, h: Length, d: Length, c: Length, q: Ratio, k_x: LineLoadInch
) -> LineLoadInch:
    """Lateral stiffness of a post with a rod at its head, base hinged.

    Parameters: E modulus (psi); I second moment (in⁴); h, d, c as :func:`rod_share_hinged` (in); q level part of the
    rod's tension over the lateral force; k_x lateral stiffness of the rod (lb/in), 0 where it is slack.
    Returns: k (lb/in). Source: beam with an overhang, in series with the rod.

    g is 80² x 100 - 1000 = 639,000 in³, a thousandth of 3 E I: 1000/(1 + 5²).

    >>> round(rod_braced_stiffness_hinged(1_000_000.0, 213.0, 90.0, 10.0, 20.0, 5.0, 1000.0), 3)
    38.462
    """
    a: Length = h + d - c
    g: Volume = a**2 * (h + d) - d**3
    k: LineLoadInch = k_x / (k_x * g / (3 * E * I) + q**2)
    return k


@formula("Statics (level part of a rod's tension)")
def rod_lateral_force(V: Force, q: Ratio) -> Force:
    """Level part of the tension of the rod at a post's head.

    Parameters: V lateral force on that post (lb); q its share. Returns: H_r (lb), without sign. Source: statics.

    >>> round(float(rod_lateral_force(-400.0, 1.25)), 3)
    500.0
    """
    H_r: Force = abs(V) * q
    return H_r


@formula("Statics (tension of a rod)")
def rod_tension(H_r: Force, L: Length, L_r: Length) -> Force:
    """Tension of a rod from its level part.

    Parameters: H_r level part (lb); L level distance of the posts, L_r length of the rod (in).
    Returns: T (lb). Source: statics.

    >>> rod_tension(800.0, 96.0, 120.0)
    1000.0
    """
    T: Force = H_r * L_r / L
    return T


@formula("Statics (vertical part of a rod's tension)")
def rod_vertical_force(H_r: Force, L: Length, b: Length) -> Force:
    """Vertical part of the tension of a rod: down on the post at its head, up on the other.

    Parameters: H_r level part (lb); L level distance of the posts, b height of the rod's upper end above the lower
    (in). Returns: V_r (lb). Source: statics.

    >>> rod_vertical_force(800.0, 96.0, 72.0)
    600.0
    """
    V_r: Force = H_r * b / L
    return V_r


@formula("Statics (post bent at the rod)")
def post_moment_at_rod(V: Force, a: Length) -> Moment:
    """Moment in a post at the rod at its head.

    Parameters: V lateral force on the post (lb); a how far above the rod it comes in (in).
    Returns: M_k (lb·in), without sign. Source: statics.

    >>> round(float(post_moment_at_rod(-400.0, 10.0)), 3)
    4000.0
    """
    M_k: Moment = abs(V) * a
    return M_k


@formula("Statics (post bent at its lower rod)")
def post_moment_at_lower_rod(V: Force, h: Length, H_r: Force, c: Length, z: Length) -> Moment:
    """Moment in a post where a rod meets its foot.

    Parameters: V lateral force on the post (lb); h height at which it comes in (in); H_r level part of the rod at its
    head (lb), c height of that rod (in); z height of the rod at its foot (in).
    Returns: M_z (lb·in), without sign. Source: statics of what is above it.

    >>> post_moment_at_lower_rod(100.0, 90.0, 80.0, 80.0, 10.0)
    2400.0
    """
    M_z: Moment = abs(abs(V) * (h - z) - H_r * (c - z))
    return M_z


@formula("Statics (post bent at its rods)")
def post_moment_at_rods(M_k: Moment, M_z: Moment) -> Moment:
    """Larger moment in a post where its rods go through it.

    Parameters: M_k moment at its upper rod, M_z at its lower one (lb·in). Returns: M_r (lb·in). Source: statics.

    >>> float(post_moment_at_rods(8000.0, 2000.0))
    8000.0
    """
    M_r: Moment = maximum(M_k, M_z)
    return M_r


@formula("Statics (post bent at grade, with rods)")
def post_moment_at_grade_rods(V: Force, h: Length, H_r: Force, c: Length, H_o: Force, z: Length) -> Moment:
    """Moment at grade in a held post with a rod at its head and one at its foot.

    Parameters: V lateral force on the post (lb); h height at which it comes in (in); H_r level part of the rod at its
    head (lb), c height of that rod (in); H_o level part of the rod at its foot (lb), z height of that one (in).
    Returns: M_g (lb·in), without sign. Source: statics; of the two rods one is slack.

    >>> round(float(post_moment_at_grade_rods(400.0, 100.0, 450.0, 80.0, 50.0, 20.0)), 3)
    5000.0
    """
    M_g: Moment = abs(abs(V) * h - H_r * c) + H_o * z
    return M_g


@formula("Statics (lateral force at a post's foot, with rods)")
def foot_force_rods(V: Force, H_r: Force, H_o: Force) -> Force:
    """Lateral force at the foot of a post with a rod at its head and one at its foot.

    Parameters: V lateral force on the post, H_r level part of the rod at its head, H_o of the one at its foot (lb).
    Returns: V_f (lb), without sign. Source: statics; of the two rods one is slack.

    >>> round(float(foot_force_rods(400.0, 450.0, 50.0)), 3)
    100.0
    """
    V_f: Force = abs(abs(V) - H_r) + H_o
    return V_f


@formula("AISC 360-16, D2 (a) and J3.6, Table J3.2", confidence="from memory")
def rod_tension_strength(F_y: Stress, F_u: Stress, A: Area) -> Force:
    """Allowable tension of a threaded rod: yield on its area, rupture of its thread by the nominal area.

    No load duration factor on steel. Parameters: F_y yield, F_u tensile strength (psi); A nominal area (in²).
    Returns: T_a (lb). Source: AISC 360-16, D2: F_y A / 1.67; J3.6 with F_nt = 0.75 F_u, Omega = 2.00.

    >>> round(float(rod_tension_strength(36000.0, 58000.0, 0.4418)))
    9524
    >>> round(float(rod_tension_strength(50_000.0, 40_000.0, 1.0)), 3)
    15000.0
    """
    T_a: Force = minimum(F_y * A / 1.67, 0.75 * F_u * A / 2)
    return T_a
