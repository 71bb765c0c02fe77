"""Ends of knee braces from a trunk: where their bolts stand, how long the piece is, its clearance."""

from __future__ import annotations

import math

from numpy import sqrt

from bolewright.formulas import formula
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.trunk_braces import TrunkBrace
from bolewright.platform.project import Tree
from bolewright.units import Length

END = 7.0  # diameters from the foremost bolt to the end of the brace (NDS 2018, Table 12.5.1A, softwood in tension)
SPACING = 4.0  # diameters from bolt to bolt in a row (NDS 2018, Table 12.5.1B)
SHOE = 0.5  # in: what the shoe's seat puts between the bolt's bearing and the brace's square foot (common practice)
APART = 1 / 8  # in: half the gap between the feet of two braces on one bolt
DISTANCE_NOTE = (
    "Its bolts stand on its middle line, 7 diameters from its ends and 4 from each other, those in the beam level at "
    "mid-depth, as the setting-out says (NDS 2018, 12.5.1)."
)


@formula("Geometry (two feet on one bolt)")
def paired_standoff(d: Length, a: Length, r: Length, g: Length) -> Length:
    """How far along a brace its square foot stands off the bearing, so that it clears the brace beside it.

    Parameters: d depth of the brace, a rise, r run between its working points, g half the gap between both feet (in).
    Returns: s_f (in). Source: geometry, the upper corner of the foot on the plumb line through the bearing.

    >>> round(float(paired_standoff(5.5, 40.0, 30.0, 0.0)), 4)
    3.6667
    """
    L_b: Length = sqrt(a**2 + r**2)
    s_f: Length = (d * a / (2 * L_b) + g) * L_b / r
    return s_f


def standoff(brace: TrunkBrace, *, paired: bool) -> float:
    """How far along a brace its square foot stands off the bearing (in): on the shoe's seat, clear of its pair."""
    if not paired:
        return SHOE
    return max(SHOE, float(paired_standoff(d=brace.section.d, a=brace.a, r=brace.r, g=APART)))


def profile(brace: TrunkBrace, *, paired: bool) -> tuple[tuple[float, float], ...]:
    """Corners of a brace in its plane: along the beam from its foot towards its head, and level above grade.

    Foot square, head cut level under the beam; ``paired`` where another brace stands on the same bolt.
    """
    length, d = brace.length, brace.section.d
    u, n = (brace.r / length, brace.a / length), (-brace.a / length, brace.r / length)
    s = standoff(brace, paired=paired)
    x, z = s * u[0], brace.foot_level + s * u[1]
    low, high = (x - n[0] * d / 2, z - n[1] * d / 2), (x + n[0] * d / 2, z + n[1] * d / 2)
    under = brace.beam.bottom
    return (low, (brace.r + brace.cut / 2, under), (brace.r - brace.cut / 2, under), high)


def is_paired(layout: Layout, brace: TrunkBrace) -> bool:
    """Whether another brace stands on the same tree bolt."""
    return len(layout.braces_on(brace.foot.mark)) > 1


def foot_clearance(brace: TrunkBrace, tree: Tree, *, paired: bool) -> float:
    """Least distance in plan from the bark to the brace, at its foot (in), below zero where it is in the bark."""
    radius = (tree.diameter if tree.diameter is not None else (tree.girth or 0.0) / math.pi) / 2
    ux, uy = brace.beam.line.u
    towards = [x for x, _ in profile(brace, paired=paired)]
    start, end = (side * brace.side for side in (min(towards), max(towards)))
    dx, dy = brace.foot.at[0] - tree.at[0], brace.foot.at[1] - tree.at[1]
    along, off = dx * ux + dy * uy, abs(ux * dy - uy * dx)
    low, high = sorted((along + start, along + end))
    nearest = max(low, min(0.0, high)) if low <= 0.0 <= high or low > 0 else high
    beside = max(0.0, off - brace.section.b / 2)
    return math.hypot(nearest, beside) - radius
