"""Stairs: risers of one height from the landing to the floor, and the cuts of a stringer.

The stringer meets the framing one riser below the floor, so that there is one tread less than risers.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from numpy import sqrt

from bolewright.calculation import Calculation, Step
from bolewright.formulas import formula
from bolewright.platform.layout import Layout
from bolewright.units import Length, Ratio

LEAST_THROAT = 5.0  # in of wood left under the notches of a cut stringer (DCA 6, from memory)
RISER_SPREAD = 0.375  # in between the highest and the lowest riser (IRC 2021, R311.7.5.1)


@dataclass(frozen=True)
class StairLayout:
    """Stairs as they are set out (in); ``treads``: top of each tread above the landing, its nosing past the first."""

    count: int
    riser: float
    run: float
    going: float
    slope: float
    stock: float
    foot_cut: float
    throat: float
    treads: tuple[tuple[float, float], ...]
    steps: tuple[Step, ...]


@formula("Geometry (stairs)")
def riser_height(H_f: Length, z_f: Length, n: Ratio) -> Length:
    """Height of one riser.

    Parameters: H_f floor above grade (in); z_f landing above grade (in); n number of risers. Returns: h_r (in).
    Source: geometry.

    >>> riser_height(84.0, 0.0, 12)
    7.0
    """
    H: Length = H_f - z_f
    h_r: Length = H / n
    return h_r


@formula("Geometry (stairs)")
def stair_going(n: Ratio, r: Length) -> Length:
    """Level distance from the first riser to the face of the framing.

    Parameters: n number of risers; r run of a tread (in). Returns: L_h (in). Source: geometry.

    >>> stair_going(12, 10.0)
    110.0
    """
    L_h: Length = (n - 1) * r
    return L_h


@formula("Geometry (stairs)")
def stringer_slope_length(n: Ratio, h_r: Length, r: Length) -> Length:
    """Length along the noses of a stringer.

    Parameters: n number of risers; h_r riser, r run of a tread (in). Returns: L_s (in). Source: geometry.

    >>> float(stringer_slope_length(5, 6.0, 8.0))
    40.0
    """
    h: Length = sqrt(h_r**2 + r**2)
    L_s: Length = (n - 1) * h
    return L_s


@formula("Geometry (stairs)")
def stringer_throat(d: Length, h_r: Length, r: Length) -> Length:
    """Wood left under the notch of a cut stringer, square to its edge.

    Parameters: d depth of the timber (in); h_r riser, r run of a tread (in). Returns: d_t (in). Source: geometry.

    >>> float(stringer_throat(11.25, 6.0, 8.0))
    6.45
    """
    d_t: Length = d - h_r * r / sqrt(h_r**2 + r**2)
    return d_t


@formula("Geometry (stairs)")
def foot_of_stringer(h_r: Length, t: Length) -> Length:
    """Height of the first riser as cut: the first tread's board makes up the rest.

    Parameters: h_r riser, t thickness of a tread (in). Returns: h_1 (in). Source: geometry.

    >>> foot_of_stringer(7.5, 1.5)
    6.0
    """
    h_1: Length = h_r - t
    return h_1


def risers(rise: float, highest: float) -> int:
    """Least number of risers of which none is higher than allowed.

    >>> risers(84.0, 7.75), risers(77.5, 7.75)
    (11, 10)
    """
    return max(1, math.ceil(rise / highest - 1e-9))


def stair_layout(layout: Layout) -> StairLayout | None:
    """Stairs of the project, or None where the level of their foot is not given."""
    stairs, floor = layout.project.stairs, layout.project.platform.floor_height
    if stairs.foot is None:
        return None
    n = risers(floor - stairs.foot, stairs.highest_riser)
    calculation = Calculation()
    run, r = calculation.run, stairs.tread_run
    h_r = float(run(riser_height, H_f=floor, z_f=stairs.foot, n=float(n)))
    going = float(run(stair_going, n=float(n), r=r))
    slope = float(run(stringer_slope_length, n=float(n), h_r=h_r, r=r))
    foot_cut = float(run(foot_of_stringer, h_r=h_r, t=stairs.tread))
    throat = float(run(stringer_throat, d=stairs.stringer_depth, h_r=h_r, r=r))
    return StairLayout(
        count=n,
        riser=h_r,
        run=r,
        going=going,
        slope=slope,
        # One step more than the noses, for the plumb cut at the head and the level cut at the foot.
        stock=slope + math.hypot(h_r, r),
        foot_cut=foot_cut,
        throat=throat,
        treads=tuple((k * h_r, (k - 1) * r) for k in range(1, n)),
        steps=calculation.at(()),
    )
