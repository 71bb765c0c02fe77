"""Stairs: risers of one height from the landing to the floor, and the cuts of a stringer.

The stringer meets the framing one riser below the floor, with one tread less than risers, or flush with it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.calculation import Calculation, Step
from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.stairs import risers
from bolewright.timber.sections import parse_section
from bolewright.timber.stairs import (
    foot_of_stringer,
    riser_height,
    stair_going,
    stair_going_flush,
    stringer_slope_length,
    stringer_throat,
)

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


def stair_layout(layout: Layout) -> StairLayout | None:
    """Stairs of the project, or None where neither their edge nor the level of their foot is given."""
    stairs, floor = layout.project.stairs, layout.project.platform.floor_height
    if not stairs.given:
        return None
    n = risers(floor - stairs.landing_level, stairs.highest_riser)
    calculation = Calculation()
    run, r = calculation.run, stairs.tread_run
    section = parse_section(stairs.section)
    tread = stairs.tread if stairs.tread is not None else parse_section(stairs.tread_section).b
    h_r = float(run(riser_height, H_f=floor, z_f=stairs.landing_level, n=float(n)))
    going = float(run(stair_going_flush if stairs.flush else stair_going, n=float(n), r=r))
    slope = float(run(stringer_slope_length, n=float(n), h_r=h_r, r=r))
    foot_cut = float(run(foot_of_stringer, h_r=h_r, t=tread))
    throat = section.d
    if stairs.cut == "cut":
        throat = float(run(stringer_throat, d=stairs.stringer_depth or section.d, h_r=h_r, r=r))
    treads = n if stairs.flush else n - 1
    return StairLayout(
        count=n,
        riser=h_r,
        run=r,
        going=going,
        slope=slope,
        # One step more than the noses, for the plumb cut at the head and the level cut at the foot.
        stock=slope + (1 + treads - (n - 1)) * math.hypot(h_r, r),
        foot_cut=foot_cut,
        throat=throat,
        treads=tuple((k * h_r, (k - 1) * r) for k in range(1, treads + 1)),
        steps=calculation.at(()),
    )
