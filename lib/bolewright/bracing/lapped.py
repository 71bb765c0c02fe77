"""Knee braces lapped on post and beam: where their bolts stand, how long they are, what their bolts must keep.

The bolts stand in a line along the grain of the timber they are lapped on, on its middle: upright in a post, level in
a beam. So they stand aslant in the brace, even about its middle line.
"""

from __future__ import annotations

from numpy import sqrt

from bolewright.formulas import formula
from bolewright.units import Length, Ratio


@formula("Geometry (lapped brace, similar triangles)")
def lapped_bolt_distance(L_b: Length, a: Length, h: Length) -> Length:
    """Distance along a lapped brace from the middle of its bolts in the post to that of its bolts in the beam.

    The upper bolts stand on the brace's own line, above the working point at the beam's underside.

    Parameters: L_b distance between the working points (in); a rise between them (in); h height of the upper bolts
    over the beam's underside (in). Returns: l_b (in). Source: geometry, similar triangles.

    >>> lapped_bolt_distance(50.0, 40.0, 10.0)
    62.5
    """
    l_b: Length = L_b * (1 + h / a)
    return l_b


@formula("Geometry (hole in a row)")
def hole_from_middle(k: Ratio, n: Ratio, s: Length) -> Length:
    """Distance of a hole from the middle of its row, along the grain of post or beam.

    Parameters: k number of the hole, 1 the lowest in a post and the nearest to the post in a beam; n holes in the
    row; s between them (in). Returns: x_k (in). Source: geometry.

    >>> hole_from_middle(1.0, 2.0, 2.0), hole_from_middle(3.0, 3.0, 2.0)
    (-1.0, 2.0)
    """
    x_k: Length = (k - (n + 1) / 2) * s
    return x_k


@formula("Geometry (part of a distance)")
def part_by_run(x: Length, a: Length, r: Length) -> Length:
    """Part of a distance by the brace's run: a level one taken along the brace, an upright one across it.

    Parameters: x level or upright distance (in); a rise, r run of the brace (in). Returns: x_r (in).
    Source: geometry, similar triangles.

    >>> float(part_by_run(10.0, 30.0, 40.0))
    8.0
    """
    L_b: Length = sqrt(a**2 + r**2)
    x_r: Length = x * r / L_b
    return x_r


@formula("Geometry (part of a distance)")
def part_by_rise(x: Length, a: Length, r: Length) -> Length:
    """Part of a distance by the brace's rise: an upright one taken along the brace, a level one across it.

    Parameters: x upright or level distance (in); a rise, r run of the brace (in). Returns: x_a (in).
    Source: geometry, similar triangles.

    >>> float(part_by_rise(10.0, 30.0, 40.0))
    6.0
    """
    L_b: Length = sqrt(a**2 + r**2)
    x_a: Length = x * a / L_b
    return x_a


@formula("Geometry (lapped brace, square ends)")
def lapped_length(l_b: Length, g_l: Length, g_u: Length, e: Length) -> Length:
    """Length of a brace lapped on post and beam.

    Parameters: l_b distance between the middles of the bolts at its ends (in); g_l and g_u distance along the brace
    from that middle to the outermost bolt, at the lower and the upper end (in); e end distance of those (in).
    Returns: L (in). Source: geometry; end distance by NDS 2018, Table 12.5.1A.

    >>> lapped_length(40.0, 1.0, 1.5, 4.0)
    50.5
    """
    L: Length = l_b + g_l + g_u + 2 * e
    return L


@formula("NDS 2018, 12.5.1")
def distance_in_diameters(k: Ratio, D: Length) -> Length:
    """Distance that is given in bolt diameters.

    Parameters: k diameters; D bolt diameter (in). Returns: a (in). Source: NDS 2018, Tables 12.5.1A to 12.5.1D.

    >>> distance_in_diameters(4.0, 0.625)
    2.5
    """
    a: Length = k * D
    return a
