"""Blocking that keeps bending members from turning: the moment it holds them with, and what that asks of its ends."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.units import Force, Length, Moment


@formula("AISC 360-16, Appendix 6.3.2 (by analogy)", confidence="from memory")
def blocking_moment(M_r: Moment) -> Moment:
    """Moment with which one piece of blocking keeps a bending member from turning where it is fastened.

    Two per cent of the member's bending moment, the rule for point torsional bracing of steel beams; NDS names no
    force for bracing of a compression edge. Parameters: M_r bending moment of the braced member (lb·in).
    Returns: M_br (lb·in). Source: AISC 360-16, Appendix 6.3.2, by analogy.

    >>> blocking_moment(10000.0)
    200.0
    """
    M_br: Moment = 0.02 * M_r
    return M_br


@formula("Statics")
def blocking_shear(M_1: Moment, M_2: Moment, s: Length) -> Force:
    """Force at the ends of a piece of blocking that holds both members it hangs between, turning the same way.

    Parameters: M_1, M_2 the moments at its ends (lb·in); s from one member to the other (in).
    Returns: V_br (lb). Source: statics, moments about one end.

    >>> blocking_shear(200.0, 200.0, 16.0)
    25.0
    """
    V_br: Force = (M_1 + M_2) / s
    return V_br


@formula("Statics")
def brace_edge_force(M_br: Moment, R: Force, e: Length, d: Length) -> Force:
    """Force at the upper and lower edge of a connection that alone keeps a bending member from turning.

    When it applies: nothing stands on the member's other side, so that one edge of the connection is pulled. The load
    of the piece itself turns the member too, beside its middle line. Parameters: M_br moment that the piece holds it
    with (lb·in); R load at the piece's end (lb); e distance of its bearing from the member's middle line (in); d depth
    of the piece (in). Returns: F_br (lb). Source: statics, a couple on the piece's depth.

    >>> brace_edge_force(200.0, 120.0, 0.75, 7.25)
    40.0
    """
    F_br: Force = (M_br + R * e) / d
    return F_br


@formula("Statics")
def end_force(R: Force, V_br: Force) -> Force:
    """Force on one end's fastening: what comes down onto the piece, and what holds its members upright.

    Parameters: R load at the end (lb); V_br force of the bracing there (lb). Returns: V (lb). Source: statics.

    >>> end_force(120.0, 25.0)
    145.0
    """
    V: Force = R + V_br
    return V
