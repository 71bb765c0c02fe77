"""Where a bolt may sit in a round trunk: sound radius, hole size, edges, tips, spacing, slanting entry.

Limits are common practice; spacing along the grain keeps bolts from cutting the same fibres.
"""

from __future__ import annotations

from numpy import pi, sqrt

from bolewright.formulas import formula
from bolewright.units import Length, Ratio

COMMON = "common practice"
TIP_SPACING, EDGE_DISTANCE, LOADED_EDGE_DISTANCE, ACROSS_SPACING = 2.0, 1.5, 4.0, 5.0  # x D
ALONG_GRAIN_SPACING = 18.0  # in; 12 at the very least


@formula("Geometry (girth to sound radius)")
def sound_radius(C: Length, t_b: Length, t_d: Length) -> Length:
    """Radius of sound wood from the girth over bark.

    Parameters: C girth over bark at the height of the bolt (in); t_b thickness of the bark (in); t_d dead or decayed
    wood below the bark (in); living sapwood is sound. Returns: r radius of sound wood (in). Source: geometry.

    >>> round(sound_radius(75.375, 1.0, 0.0), 1)
    11.0
    >>> round(sound_radius(62.832, 1.0, 0.5), 3)
    8.5
    """
    r: Length = C / (2 * pi) - t_b - t_d
    return r


@formula("Common practice (hole at most one sixth of the trunk)", confidence=COMMON)
def hole_limit(r: Length) -> Length:
    """Largest hole in a trunk.

    Parameters: r radius of sound wood (in). Returns: d_max hole diameter (in). Source: common practice, one sixth of
    the diameter, as for rods in tree support (ANSI A300 part 3, from memory).

    >>> round(hole_limit(9.0), 3)
    3.0
    """
    d_max: Length = 2 * r / 6
    return d_max


@formula("Common practice (post holes off the root plate)", confidence=COMMON)
def post_hole_distance(C: Length) -> Length:
    """Least distance of a post hole from the trunk, so that it cuts few holding roots.

    Parameters: C girth over bark near the ground (in). Returns: x_min three trunk diameters (in). Source: common
    practice; an arborist decides.

    A girth of 62.832 in. is a diameter of 20 in.:

    >>> round(post_hole_distance(62.832), 1)
    60.0
    """
    x_min: Length = 3 * C / pi
    return x_min


@formula("Geometry (two bolts on one diameter)")
def tip_clearance(r: Length, L_1: Length, L_2: Length) -> Length:
    """Wood between the tips of two bolts that meet on one diameter; wants 2 D at least.

    Parameters: r radius of sound wood (in); L_1, L_2 depth of the holes (in). Returns: g wood between the tips (in).
    Source: geometry; 2 D is common practice.

    >>> round(tip_clearance(9.0, 7.0, 8.0), 3)
    3.0
    """
    g: Length = 2 * r - L_1 - L_2
    return g


@formula("Geometry (chord of a round trunk)")
def wood_along_bolt(r: Length, a: Length) -> Length:
    """Wood on the line of a bolt that passes the trunk's axis at distance a.

    Parameters: r radius of sound wood (in); a distance of the bolt's line from the trunk's axis (in). Returns: l length
    of the chord (in). Source: geometry.

    >>> round(float(wood_along_bolt(10.0, 6.0)), 3)
    16.0
    """
    l: Length = 2 * sqrt(r**2 - a**2)
    return l


@formula("Geometry (edge distance in a round trunk)")
def edge_distance(r: Length, a: Length) -> Length:
    """Wood beside a bolt, from its centre line to the sound wood face; wants 1.5 D, 4 D towards a lateral load.

    Parameters: r radius of sound wood (in); a distance of the bolt's line from the trunk's axis (in). Returns: c_e edge
    distance at the middle of the chord (in); near the entry it is less. Source: geometry; NDS 2018 Table 12.5.1C for
    the multiples of D.

    >>> round(edge_distance(10.0, 6.0), 3)
    4.0
    """
    c_e: Length = r - a
    return c_e


@formula("Geometry (wood beside a hole in a round trunk)")
def wood_beside_hole(r: Length, a: Length, L: Length) -> Length:
    """Wood beside a bolt halfway down its hole, square to it, on the side where the face is nearer.

    Near the entry it is less, deeper in more, up to ``r - a`` at the middle of the chord.

    Parameters: r radius of sound wood (in); a distance of the bolt's line from the trunk's axis (in); L depth of the
    hole in sound wood, along its line (in). Returns: c_e centre line of the bolt to the face of sound wood (in).
    Source: geometry.

    >>> float(wood_beside_hole(13.0, 5.0, 24.0))  # halfway through the trunk: r - a
    8.0
    >>> round(float(wood_beside_hole(13.0, 5.0, 14.0)), 3)
    7.0
    """
    y_m: Length = sqrt(r**2 - a**2) - L / 2  # middle of the hole
    c_e: Length = sqrt(r**2 - y_m**2) - a
    return c_e


@formula("Geometry (wood up to a hollow in a round trunk)")
def wood_to_hollow(r: Length, r_c: Length, a: Length) -> Length:
    """Sound wood on a bolt's line from the face to a round hollow round the trunk's axis.

    Parameters: r radius of sound wood (in); r_c radius of the hollow (in), at least a; a distance of the line from the
    trunk's axis (in). Returns: l length in sound wood (in). Source: geometry.

    >>> float(wood_to_hollow(13.0, 5.0, 5.0)), float(wood_to_hollow(13.0, 5.0, 0.0))
    (12.0, 8.0)
    """
    l: Length = sqrt(r**2 - a**2) - sqrt(r_c**2 - a**2)
    return l


@formula("Common practice (multiples of the bolt's diameter)", confidence=COMMON)
def diameters(n: Ratio, D: Length) -> Length:
    """Distance that is wanted in diameters of a bolt.

    Parameters: n how many diameters; D diameter of the bolt (in). Returns: w distance wanted (in). Source: common
    practice; NDS 2018 Table 12.5.1C for the multiples at edges.

    >>> diameters(4.0, 1.5)
    6.0
    """
    w: Length = n * D
    return w


@formula("Geometry (two holes seen in plan)")
def holes_apart(x: Length, y: Length) -> Length:
    """Nearest distance of the centre lines of two holes in one trunk, seen in plan.

    Parameters: x, y from the nearest point of one to that of the other, in plan (in). Returns: c distance (in). Source:
    geometry.

    >>> float(holes_apart(3.0, 4.0))
    5.0
    """
    c: Length = sqrt(x**2 + y**2)
    return c


@formula("Geometry (slanting entry in a round trunk)")
def slant_entry(D: Length, r: Length, a: Length) -> Length:
    """How much longer the lever arm is on one side of the bolt, where it enters the round face at a slant.

    Add it to e. On the other side the wood begins as much earlier.

    Parameters: D bolt diameter (in); r radius of sound wood (in); a distance of the bolt's line from the trunk's axis
    (in). Returns: Delta_e (D / 2) tan(phi), with sin(phi) = a / r (in). Source: geometry.

    >>> round(float(slant_entry(1.0, 10.0, 6.0)), 4)
    0.375
    """
    t_phi: Ratio = a / sqrt(r**2 - a**2)  # tan(phi)
    Delta_e: Length = D / 2 * t_phi
    return Delta_e


@formula("Geometry (sound wood face to the centre of bearing)")
def lever_arm(x_b: Length, r: Length, a: Length, Delta_e: Length, s: Length) -> Length:
    """Lever arm e of the load, with the bracket at its worst slide position.

    Parameters: x_b distance of the bearing's centre from the trunk's axis, along the bolt (in); r radius of sound wood
    (in); a distance of the bolt's line from the trunk's axis (in); Delta_e slant of the entry (in); s slide of the
    bracket outward (in). Returns: e lever arm (in). Source: geometry.

    >>> float(lever_arm(17.0, 11.0, 0.0, 0.0, 0.0))
    6.0
    >>> round(float(lever_arm(17.0, 10.0, 6.0, 0.5, 1.0)), 3)
    10.5
    """
    e: Length = x_b - sqrt(r**2 - a**2) + Delta_e + s
    return e
