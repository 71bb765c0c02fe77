"""Growth of the trunk: radial growth, years to zero clearance, years until the collar is overgrown.

New wood is laid on outside: the wood face moves outward, e falls and the bolt gets stronger; what runs out is
the clearance. Old wood does not move, so bolts neither rise nor spread.
"""

from __future__ import annotations

from numpy import pi

from bolewright.formulas import formula
from bolewright.units import Growth, Length, Years

TYPICAL = "growth is from memory: measure the girth year by year"


@formula("Geometry (girth growth to radial growth)")
def radial_growth(C_1: Length, C_2: Length, t: Years) -> Growth:
    """Radial growth per year from two girths.

    Parameters: C_1, C_2 girth then and now, at the same height (in); t years between. Returns: g radial growth (in/yr);
    0.05 to 0.25 is typical of mature hardwoods (from memory). Source: geometry.

    >>> round(radial_growth(72.0, 75.14, 5.0), 2)
    0.1
    """
    w: Length = (C_2 - C_1) / (2 * pi)
    g: Growth = w / t
    return g


@formula("Geometry (girth growth to radial growth)")
def girth_after(C_1: Length, g: Growth, t: Years) -> Length:
    """Girth to expect after years of an even radial growth.

    Parameters: C_1 girth now (in); g radial growth (in/yr); t years. Returns: C_2 girth then, at the same height (in).
    Source: geometry.

    >>> round(girth_after(72.0, 0.1, 5.0), 2)
    75.14
    """
    w: Length = g * t
    C_2: Length = C_1 + 2 * pi * w
    return C_2


@formula("Geometry (growth over the years)")
def growth_over_years(g: Growth, t: Years) -> Length:
    """Radial growth over the years to the next service.

    Parameters: g radial growth (in/yr); t years. Returns: w radial growth (in). Source: geometry.

    >>> round(growth_over_years(0.25, 8.0), 3)
    2.0
    """
    w: Length = g * t
    return w


@formula("Common practice (gap = sway + growth + margin)", confidence="common practice")
def gap_needed(s: Length, g: Growth, t: Years, m: Length) -> Length:
    """Gap between bark and any part that is not fixed to the trunk.

    Parameters: s sway to one side at that height (in); g radial growth (in/yr); t years until the gap is cut back; m
    margin (in). Returns: c gap (in). Source: common practice.

    >>> round(gap_needed(1.0, 0.1, 10.0, 1.0), 1)
    3.0
    """
    c: Length = s + g * t + m
    return c


@formula("Geometry (years until bark touches in a storm)", confidence=TYPICAL)
def years_to_storm_contact(c: Length, s: Length, g: Growth) -> Years:
    """Years until the swaying trunk touches: the day to cut back decking or back off a bracket.

    Parameters: c gap today, bark to the nearest part (in); s sway to one side at that height (in); g radial growth
    (in/yr), above zero. Returns: t years; negative when it touches already. Source: geometry.

    >>> round(years_to_storm_contact(4.0, 1.0, 0.25), 3)
    12.0
    """
    t: Years = (c - s) / g
    return t


@formula("Geometry (years until bark touches at rest)", confidence=TYPICAL)
def years_to_contact(c: Length, g: Growth) -> Years:
    """Years until bark meets the bracket at rest; from then on the tree pushes it.

    Parameters: c gap today, bark to the bracket (in); g radial growth (in/yr), above zero. Returns: t years. Source:
    geometry.

    >>> round(years_to_contact(4.0, 0.25), 3)
    16.0
    """
    t: Years = c / g
    return t


@formula("Geometry (years until the collar is overgrown)", confidence=TYPICAL)
def years_to_swallow(p_b: Length, g: Growth) -> Years:
    """Years until the bark reaches the outer end of the collar.

    Parameters: p_b projection of the collar or bolt end beyond the bark today (in); g radial growth (in/yr), above
    zero. Returns: t years. Source: geometry.

    >>> round(years_to_swallow(3.0, 0.25), 3)
    12.0
    """
    t: Years = p_b / g
    return t


@formula("Geometry (lever arm after growth)", confidence=TYPICAL)
def lever_arm_after_growth(e: Length, g: Growth, t: Years) -> Length:
    """Lever arm e once new wood has grown round the bolt, the bracket not moved; never counted as a gain.

    Parameters: e lever arm today (in); g radial growth (in/yr); t years. Returns: e_t lever arm then (in). Source:
    geometry: the wood face moves out.

    >>> round(lever_arm_after_growth(4.0, 0.25, 8.0), 3)
    2.0
    """
    e_t: Length = e - g * t
    return e_t
