"""Cable or rope infill: its pull on the end post of a guard, which spans from its joint at the deck to the top rail."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.units import Force, Length, LineLoadInch, Moment


@formula("Statics (pull of cables at even distances)")
def cable_line_load(T: Force, s: Length) -> LineLoadInch:
    """Pull of cables on the end post for each inch of its height.

    Parameters: T pull of one cable (lb), off its maker's sheet, with 50 lb on the infill; s distance of cables (in).
    Returns: w_c (lb/in). Source: statics.

    >>> cable_line_load(225.0, 3.0)
    75.0
    """
    w_c: LineLoadInch = T / s
    return w_c


@formula("Statics (simple beam from the joint to the top rail)")
def end_post_moment(w_c: LineLoadInch, h: Length) -> Moment:
    """Moment of an end post that cables pull along the guard, the top rail being its strut.

    Parameters: w_c pull for each inch (lb/in); h from the upper bolt to the top rail (in). Returns: M_c (lb·in).
    Source: statics.

    >>> end_post_moment(75.0, 40.0)
    15000.0
    """
    M_c: Moment = w_c * h**2 / 8
    return M_c


@formula("Statics (simple beam from the joint to the top rail)")
def end_post_reaction(w_c: LineLoadInch, h: Length) -> Force:
    """Force along the guard at the top rail, which it compresses, and at the post's joint.

    Parameters: w_c pull for each inch (lb/in); h from the upper bolt to the top rail (in). Returns: R_c (lb).
    Source: statics.

    >>> end_post_reaction(75.0, 40.0)
    1500.0
    """
    R_c: Force = w_c * h / 2
    return R_c
