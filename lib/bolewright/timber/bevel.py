"""Cuts on the skew: the bevel from square, and the lengths of a piece between two faces that are not parallel.

A bevel is counted from square, as a saw's tilt and a speed square read it: 0 is a square cut. Its tangent is
how far the cut runs along the piece for its width, positive where the left edge reaches further, looking along
the piece from its start.
"""

from __future__ import annotations

from numpy import arctan, pi, sqrt

from bolewright.formulas import formula
from bolewright.units import Angle, Length, Ratio

GEOMETRY = "Geometry (right triangle)"


@formula(GEOMETRY)
def skew_tangent(r: Length, q: Length) -> Ratio:
    """Skew of one piece to another: how far it runs along the other for each inch across it.

    Parameters: r run of the face along the piece (in), signed; q run of the face across the piece (in).
    Returns: t, tangent of the bevel. Source: geometry, right triangle.

    >>> skew_tangent(3.0, 12.0)
    0.25
    """
    t: Ratio = r / q
    return t


@formula(GEOMETRY)
def bevel_from_square(t: Ratio) -> Angle:
    """Bevel of a cut, counted from square as a saw's tilt and a speed square read it.

    Parameters: t tangent of the bevel. Returns: beta (°). Source: geometry, right triangle.

    >>> float(bevel_from_square(1.0)), round(float(bevel_from_square(0.75)), 2)
    (45.0, 36.87)
    """
    beta: Angle = 180 / pi * arctan(abs(t))
    return beta


@formula(GEOMETRY)
def bevel_offset(b: Length, t: Ratio) -> Length:
    """Distance along a piece between the long and the short point of a cut.

    Parameters: b width of the piece across the cut (in); t tangent of the bevel. Returns: o (in).
    Source: geometry, right triangle.

    >>> bevel_offset(1.5, 0.5)
    0.75
    """
    o: Length = abs(b * t)
    return o


@formula("Geometry (centre line to face, along the skew)")
def half_width_on_skew(w: Length, t: Ratio) -> Length:
    """Distance along a piece from the centre line of what it hangs on to that one's face.

    Parameters: w width of what it hangs on (in); t tangent of the bevel. Returns: c (in).
    Source: geometry, (w / 2) / cos(beta).

    >>> float(half_width_on_skew(3.0, 0.75))
    1.875
    """
    c: Length = w / 2 * sqrt(1 + t**2)
    return c


@formula("Geometry (face to face)")
def face_to_face(l_c: Length, c_1: Length, c_2: Length) -> Length:
    """Length of a piece along its centre line, from face to face.

    Parameters: l_c centre line to centre line (in); c_1, c_2 centre line to face at either end (in).
    Returns: L (in). Source: geometry.

    >>> face_to_face(100.0, 1.5, 1.5)
    97.0
    """
    L: Length = l_c - c_1 - c_2
    return L


@formula("Geometry (edge of a bevelled piece)")
def left_edge(L: Length, b: Length, t_1: Ratio, t_2: Ratio) -> Length:
    """Length along the left edge of a piece, looking from its start to its end.

    Parameters: L length along the centre line (in); b width of the piece (in); t_1, t_2 tangents of the bevels at
    start and end, positive where the left edge reaches further along. Returns: L_l (in). Source: geometry.

    >>> left_edge(97.0, 1.5, -0.5, 0.5)
    97.75
    >>> round(left_edge(97.0, 4.0, -0.25, 0.25), 3)
    98.0
    """
    L_l: Length = L + b / 2 * (t_2 - t_1)
    return L_l


@formula("Geometry (edge of a bevelled piece)")
def right_edge(L: Length, b: Length, t_1: Ratio, t_2: Ratio) -> Length:
    """Length along the right edge of a piece, looking from its start to its end.

    Parameters: L length along the centre line (in); b width of the piece (in); t_1, t_2 tangents of the bevels, as
    for the left edge.
    Returns: L_r (in). Source: geometry.

    >>> right_edge(97.0, 1.5, -0.5, 0.5)
    96.25
    """
    L_r: Length = L - b / 2 * (t_2 - t_1)
    return L_r


@formula("Geometry (longest points of a bevelled piece)")
def long_points(L: Length, b: Length, t_1: Ratio, t_2: Ratio) -> Length:
    """Stock that a piece takes: from the long point of one end to the long point of the other, along it.

    Parameters: L length along the centre line (in); b width of the piece (in); t_1, t_2 tangents of the bevels, as
    for the left edge.
    Returns: L_max (in). Source: geometry.

    >>> long_points(97.0, 1.5, 0.5, 0.5)
    97.75
    """
    L_max: Length = L + b / 2 * (abs(t_1) + abs(t_2))
    return L_max
