"""Force of a brace at its bolts, along and across the grain of the timber it is lapped on."""

from __future__ import annotations

from numpy import cos, pi, sin

from bolewright.formulas import Limit, formula
from bolewright.units import Angle, Force, Length, Ratio

_ANGLE = Limit(0, 90, "The angle to the grain is outside 0 to 90 degrees.")


@formula("Statics (part of a force along the grain)", limits={"theta": _ANGLE})
def force_along_grain(F: Force, theta: Angle) -> Force:
    """Part of a fastener group's force along the grain, which tears rows out towards an end.

    Parameters: F force of the group (lb); theta its angle to the grain (degrees). Returns: F_par (lb).
    Source: statics.

    >>> float(round(force_along_grain(1000.0, 60.0), 1))
    500.0
    """
    alpha: Ratio = theta * pi / 180
    F_par: Force = F * cos(alpha)
    return F_par


@formula("Statics (part of a force across the grain)", limits={"theta": _ANGLE})
def force_across_grain(F: Force, theta: Angle) -> Force:
    """Part of a fastener group's force across the grain, which the timber passes on as shear.

    Parameters: F force of the group (lb); theta its angle to the grain (degrees). Returns: F_perp (lb).
    Source: statics.

    >>> float(round(force_across_grain(1000.0, 30.0), 1))
    500.0
    """
    alpha: Ratio = theta * pi / 180
    F_perp: Force = F * sin(alpha)
    return F_perp


@formula("NDS 2018, 3.4.3.3 (definition of d_e)")
def depth_from_loaded_edge(d: Length, u: Length) -> Length:
    """Depth d_e at a bolted connection: the depth less the distance of the unloaded edge to the nearest bolt.

    The loaded edge is the one that the bolts are pressed towards. Parameters: d depth (in); u distance of the
    unloaded edge to the centre of the nearest bolt (in). Returns: d_e (in). Source: NDS 2018, 3.4.3.3.

    >>> depth_from_loaded_edge(11.25, 2.5)
    8.75
    """
    d_e: Length = d - u
    return d_e
