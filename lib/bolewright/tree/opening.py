"""The opening round a trunk: how wide it is left, now and after years, and how far its cover must travel."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.units import Growth, Length, Years


@formula("Geometry (gap as the trunk grows)")
def gap_left(c: Length, g: Growth, t: Years) -> Length:
    """Gap between bark and cover after some years.

    Parameters: c gap now (in); g growth of the radius (in/yr); t years. Returns: c_t (in). Source: geometry.

    >>> round(gap_left(2.0, 0.1, 5.0), 6)
    1.5
    """
    c_t: Length = c - g * t
    return c_t


@formula("Geometry (gap on the far side in a storm)")
def gap_in_storm(c: Length, s: Length) -> Length:
    """Gap that opens on one side as the trunk moves to the other.

    Parameters: c gap at rest, s movement of trunk and platform apart (in). Returns: c_s (in). Source: geometry.

    >>> round(gap_in_storm(3.0, 1.5), 3)
    4.5
    """
    c_s: Length = c + s
    return c_s


@formula("Common practice (travel = movement + bearing)", confidence="common practice")
def travel_needed(s: Length, w: Length, b: Length) -> Length:
    """How far a loose cover must lie on the deck, or a mesh give, so that it still closes the opening.

    Parameters: s movement of trunk and platform apart, w growth until the next service, b bearing left (in).
    Returns: o (in). Source: common practice; on the safe side the play inside the cover is not taken off.

    >>> travel_needed(1.5, 0.5, 1.0)
    3.0
    """
    o: Length = s + w + b
    return o
