"""Forces of things that people hang in or pull on: swings, hammocks, pulleys. Mechanics, from rest and without loss."""

from __future__ import annotations

from numpy import cos, maximum, pi, sqrt, tan

from bolewright.formulas import formula
from bolewright.units import Angle, Force, Ratio


@formula("Mechanics (pendulum let go at rest, at its lowest point)")
def swing_pull(W: Force, a_0: Angle, f: Ratio) -> Force:
    """Pull of a swing straight down as it passes its lowest point.

    Parameters: W weight on the seat and of it (lb); a_0 angle from hanging straight at which it is let go (degrees); f
    impact factor beyond the swinging. Returns: V (lb). Source: mechanics: 2 W for 60 degrees, 3 W for 90.

    >>> float(round(swing_pull(200.0, 90.0, 1.0))), float(round(swing_pull(200.0, 60.0, 1.0)))
    (600.0, 400.0)
    """
    alpha: Ratio = a_0 * pi / 180
    V: Force = f * W * (3 - 2 * cos(alpha))
    return V


@formula("Mechanics (pendulum, where the horizontal part of its pull is greatest)")
def swing_worst_cosine(a_0: Angle) -> Ratio:
    """Cosine of the angle at which the horizontal part of a swing's pull is greatest, no wider than it is let go.

    Parameters: a_0 angle from hanging straight at which it is let go (degrees). Returns: c_m.
    Source: derivative of (3 cos a - 2 cos a_0) sin a, which is 0 there.

    >>> float(round(swing_worst_cosine(90.0) ** 2, 9))
    0.5
    >>> round(float(swing_worst_cosine(60.0)), 3)
    0.795
    """
    alpha: Ratio = a_0 * pi / 180
    c_m: Ratio = maximum((cos(alpha) + sqrt(cos(alpha) ** 2 + 18)) / 6, cos(alpha))
    return c_m


@formula("Mechanics (pendulum let go at rest)")
def swing_lateral_force(W: Force, a_0: Angle, c_m: Ratio, f: Ratio) -> Force:
    """Greatest lateral force of a swing, one way and half a period later the other.

    Parameters: W weight on the seat and of it (lb); a_0 angle at which it is let go (degrees); c_m cosine of the angle
    at which this force is greatest; f impact factor. Returns: H (lb).
    Source: mechanics: 0.60, 0.84, 1.15 and 1.50 W for 45, 60, 75 and 90 degrees.

    >>> float(round(swing_lateral_force(200.0, 90.0, 0.5**0.5, 1.0), 6))
    300.0
    >>> round(float(swing_lateral_force(200.0, 60.0, 0.8, 1.0)), 3)
    168.0
    """
    alpha: Ratio = a_0 * pi / 180
    H: Force = f * W * (3 * c_m - 2 * cos(alpha)) * sqrt(1 - c_m**2)
    return H


@formula("Statics (rope with a weight at its middle)")
def hammock_pull(W: Force, f: Ratio) -> Force:
    """Pull of a hammock straight down at each of its two ends.

    Parameters: W weight in it (lb); f impact factor. Returns: V (lb). Source: statics.

    >>> round(hammock_pull(300.0, 2.0), 3)
    300.0
    """
    V: Force = f * W / 2
    return V


@formula("Statics (rope with a weight at its middle)")
def hammock_lateral_force(W: Force, a_0: Angle, f: Ratio) -> Force:
    """Lateral force of a hammock at each end, towards the other end.

    Parameters: W weight in it (lb); a_0 angle of its ropes below level (degrees); f impact factor. Returns: H (lb).
    Source: statics.

    >>> float(round(hammock_lateral_force(300.0, 30.0, 2.0), 1))
    519.6
    """
    alpha: Ratio = a_0 * pi / 180
    H: Force = f * W / (2 * tan(alpha))
    return H


@formula("Statics (both parts of the rope hang straight down)")
def pulley_pull(W: Force, f: Ratio) -> Force:
    """Pull of a sheave when the one who hauls stands below it.

    Parameters: W weight hauled (lb); f impact factor of start and stop. Returns: V (lb). Source: statics.

    >>> round(pulley_pull(100.0, 1.5), 3)
    300.0
    """
    V: Force = 2 * f * W
    return V


@formula("Statics (resultant)")
def fastening_pull(V: Force, H: Force) -> Force:
    """Pull on what fastens a thing that hangs, lifts or pushes laterally, both at once.

    Parameters: V straight down or up, H level (lb). Returns: R (lb). Source: statics, on the safe side.

    >>> round(float(fastening_pull(400.0, 300.0)), 3)
    500.0
    """
    R: Force = sqrt(V**2 + H**2)
    return R
