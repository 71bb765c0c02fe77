"""Lateral stiffness of supports: cantilever posts, knee-braced posts with hinged or fixed bases, tied tree bolts."""

from __future__ import annotations

from numpy import sqrt

from bolewright.formulas import formula
from bolewright.units import Area, Force, Length, LineLoadInch, Ratio, SecondMoment, Stress, Volume

SOFT_FOOT = 0.5  # share of a held post's stiffness that is left in ground that gives; judgement


@formula("Elastic beam theory (cantilever with a stiff head)")
def cantilever_stiffness(E: Stress, I: SecondMoment, l: Length, d: Length) -> LineLoadInch:
    """Lateral stiffness of a post fixed at its base, pushed at the top of the beam that stands upright on it.

    Parameters: E modulus (psi); I second moment (in⁴); l length from where it is held to its top, d depth of the
    beam tied upright on it (in). Returns: k (lb/in), at the beam's top. Source: cantilever under a force and
    its moment P d; with d = 0, P l³ / 3 E I.

    With d = l, (2 l)³ - l³ = 7 l³: 210,000,000/7,000,000.

    >>> round(cantilever_stiffness(1_000_000.0, 70.0, 100.0, 100.0), 3)
    30.0
    """
    g: Volume = l**3 + 3 * l**2 * d + 3 * l * d**2
    k: LineLoadInch = 3 * E * I / g
    return k


@formula("Judgement: give of the ground", confidence="judgement, engineer to confirm")
def soft_foot_stiffness(k: LineLoadInch, f: Ratio) -> LineLoadInch:
    """Lateral stiffness of a post held in ground that gives.

    When it applies: the lower bound beside the post held still; a pole in loose sand or soft clay gives more.
    Parameters: k stiffness with the base fixed (lb/in); f share of it that is left, 0.5.
    Returns: k_f (lb/in). Source: judgement; with a subgrade of 40 lb/in³ per in. of depth a 54 in. deep hole 22 in.
    wide gives about as much as the post itself bends.

    >>> round(soft_foot_stiffness(1200.0, 0.6), 3)
    720.0
    """
    k_f: LineLoadInch = f * k
    return k_f


@formula("Elastic theory (bar with two ends that slip)")
def brace_stiffness(E: Stress, A: Area, L_b: Length, k_e: LineLoadInch) -> LineLoadInch:
    """Stiffness of a brace along itself, with the slip of both end connections.

    Parameters: E modulus (psi); A area (in²); L_b length (in); k_e stiffness of one end connection (lb/in).
    Returns: k_b (lb/in). Source: three springs in series.

    >>> round(brace_stiffness(1_000_000.0, 10.0, 100.0, 50_000.0), 3)
    20000.0
    """
    k_b: LineLoadInch = 1 / (L_b / (E * A) + 2 / k_e)
    return k_b


@formula("Elastic theory (knee and the beam over it, along the knee)")
def knee_stiffness_with_beam(k_b: LineLoadInch, k_v: LineLoadInch, a: Length, r: Length) -> LineLoadInch:
    """Stiffness of a knee along itself with the beam that it meets.

    Parameters: k_b stiffness of the brace along itself (lb/in); k_v stiffness of the beam at it, up or down, while the
    other knees of the beam press it too (lb/in): below 0 where these move it more than this one, towards it; a rise,
    r run (in). Returns: k_k (lb/in); below 0 where what the others do is more than the brace gives.
    Source: brace and beam in series, the beam's part by the square of the slope.

    0.36/1800 + 1/5000 is 1/2500:

    >>> round(float(knee_stiffness_with_beam(5000.0, 1800.0, 30.0, 40.0)), 3)
    2500.0
    """
    c_v: Ratio = a / sqrt(a**2 + r**2)
    k_k: LineLoadInch = 1 / (c_v**2 / k_v + 1 / k_b)
    return k_k


@formula("Elastic theory (knees as a lateral spring at the post)")
def knee_spring(k_1: LineLoadInch, k_2: LineLoadInch, a: Length, r: Length) -> LineLoadInch:
    """Lateral stiffness with which the knees of a post tie it to the beam at the knee's height.

    Parameters: k_1, k_2 stiffness of its one and its other knee along themselves with the beam, 0 where there is one
    knee (lb/in); a rise, r run (in). Returns: kappa (lb/in). Source: knees side by side, each in the level direction.

    0.64 x (2500 + 625):

    >>> round(float(knee_spring(2500.0, 625.0, 30.0, 40.0)), 3)
    2000.0
    """
    c_r: Ratio = r / sqrt(a**2 + r**2)
    kappa: LineLoadInch = (k_1 + k_2) * c_r**2
    return kappa


@formula("Elastic theory (two knees of one post side by side)")
def share_of_a_knee(k_i: LineLoadInch, k_o: LineLoadInch) -> Ratio:
    """Share of one of two knees in the lateral force of both on their post.

    When it applies: two knees of like rise and run, on both sides of a post; a half where beam and braces are alike.
    Parameters: k_i stiffness of this knee along itself with the beam, k_o of the other (lb/in).
    Returns: q; above 1 where the beam turns the other knee against it. Source: both move alike at the post.

    >>> round(share_of_a_knee(3000.0, 1000.0), 3)
    0.75
    """
    q: Ratio = k_i / (k_i + k_o)
    return q


@formula("Elastic theory (knee-braced post, base hinged)")
def knee_braced_stiffness(
    E: Stress, I: SecondMoment, h: Length, a: Length, kappa: LineLoadInch
) -> LineLoadInch:
    """Lateral stiffness of a knee-braced post whose base is hinged.

    Parameters: E modulus (psi); I second moment (in⁴); h height of the post, a rise of the knee (in); kappa
    lateral stiffness of its knees (lb/in). Returns: k (lb/in).
    Source: post as a beam with an overhang of h - a below the knee, in series with the knees.

    Post 300,000,000/250,000 = 1200, knees 4800/4 = 1200:

    >>> round(knee_braced_stiffness(1_000_000.0, 100.0, 100.0, 50.0, 4800.0), 3)
    600.0
    """
    b: Length = h - a
    k_p: LineLoadInch = 3 * E * I / (b**2 * h)
    k_q: LineLoadInch = kappa * (a / h) ** 2
    k: LineLoadInch = 1 / (1 / k_p + 1 / k_q)
    return k


@formula("Elastic theory (knee-braced post, base fixed)")
def knee_force_ratio(E: Stress, I: SecondMoment, l: Length, a: Length, kappa: LineLoadInch) -> Ratio:
    """Lateral force at the top of a knee-braced post over that at its knee, base fixed.

    Parameters: E modulus (psi); I second moment (in⁴); l length from where the base is fixed to the beam's
    underside, a rise of the knee (in); kappa lateral stiffness of its knees (lb/in).
    Returns: rho; negative where the top pushes back. Source: cantilever moved alike at top and, but for the
    give of the knees, at the knee.

    (1,000,000 - 312,500 + 125,000)/(1,000,000 - 312,500) = 13/11.

    >>> round(knee_force_ratio(1_000_000.0, 100.0, 100.0, 50.0, 300.0), 4)
    1.1818
    """
    c: Length = l - a
    g_t: Volume = l**3  # 3 E I times the give at the top from the top
    g_k: Volume = c**3
    g_x: Volume = c**2 * (3 * l - c) / 2  # at one from the other
    g_q: Volume = 3 * E * I / kappa
    rho: Ratio = (g_q - g_x + g_k) / (g_t - g_x)
    return rho


@formula("Elastic theory (knee-braced post, base fixed)")
def knee_braced_stiffness_held(E: Stress, I: SecondMoment, l: Length, a: Length, rho: Ratio) -> LineLoadInch:
    """Lateral stiffness of a knee-braced post whose base is fixed.

    Parameters: E modulus (psi); I second moment (in⁴); l length from where the base is fixed to the beam's
    underside, a rise of the knee (in); rho as :func:`knee_force_ratio`. Returns: k (lb/in).
    Source: cantilever under forces at the top and the knee.

    525,000,000 over the mean of 1,000,000 and 312,500:

    >>> round(knee_braced_stiffness_held(1_000_000.0, 175.0, 100.0, 50.0, 1.0), 3)
    800.0
    """
    c: Length = l - a
    g_x: Volume = c**2 * (3 * l - c) / 2
    g: Volume = (rho * l**3 + g_x) / (1 + rho)
    k: LineLoadInch = 3 * E * I / g
    return k


@formula("Definition (force over displacement)")
def spring_of(P: Force, delta: Length) -> LineLoadInch:
    """Stiffness from a force and the displacement that it makes.

    Parameters: P force (lb); delta displacement (in). Returns: k (lb/in). Source: definition.

    >>> round(spring_of(100.0, 0.25), 3)
    400.0
    """
    k: LineLoadInch = P / delta
    return k


@formula("Springs in series (bolt and its share of the trunk)")
def tied_bolt_stiffness(k_d: LineLoadInch, k_t: LineLoadInch, n: Ratio) -> LineLoadInch:
    """Lateral stiffness of a tied tree bolt with the trunk behind it.

    Parameters: k_d stiffness of the bolt in the wood (lb/in); k_t stiffness of the trunk at that height
    (lb/in); n bolts that share the trunk. Returns: k (lb/in). Source: springs in series.

    >>> round(tied_bolt_stiffness(4000.0, 8000.0, 2.0), 3)
    2000.0
    """
    k: LineLoadInch = 1 / (1 / k_d + n / k_t)
    return k


@formula("Springs side by side (tied bolts that share a trunk)")
def trunk_share(k_t: LineLoadInch, n: Ratio) -> LineLoadInch:
    """Lateral stiffness of a tied tree bolt along itself: its share of the trunk.

    When it applies: the bolt itself neither stretches nor slips in the wood.
    Parameters: k_t stiffness of the trunk at that height (lb/in); n bolts that share the trunk. Returns: k (lb/in).
    Source: n like springs side by side.

    >>> trunk_share(9000.0, 3.0)
    3000.0
    """
    k: LineLoadInch = k_t / n
    return k
