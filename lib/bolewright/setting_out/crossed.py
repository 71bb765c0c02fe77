"""Crossed rods as they are ordered and fitted: length, slope, where they meet their posts."""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.bracing.crossed import rod_length
from bolewright.calculation import Calculation, Step
from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.rod_ends import rod_ends
from bolewright.setting_out.braces import brace_slope
from bolewright.timber.bevel import bevel_from_square


@dataclass(frozen=True)
class RodCut:
    """One of two crossed rods; lengths in inches, the slope in degrees from level.

    ``length`` runs between the middle lines of the posts; what is cut is shorter or longer by what its ends and its
    turnbuckle want. ``below_beam`` is on the post ``head``, ``above_grade`` on the post ``foot``.
    """

    mark: str
    diameter: float
    head: str
    foot: str
    length: float
    run: float
    slope: float
    below_beam: float
    above_grade: float
    steps: tuple[Step, ...]


def rod_cuts(layout: Layout) -> tuple[RodCut, ...]:
    """Every crossed rod, both of each pair."""
    found = []
    for rods in layout.project.crossed_rods:
        for ends in rod_ends(layout, rods):
            calculation = Calculation()
            run = calculation.run
            rise = ends.high - ends.low
            length = float(run(rod_length, L=ends.run, b=rise))
            slope = float(run(bevel_from_square, t=run(brace_slope, a=rise, r=ends.run)))
            found.append(
                RodCut(
                    mark=rods.mark,
                    diameter=rods.diameter,
                    head=ends.head_post,
                    foot=ends.foot_post,
                    length=length,
                    run=ends.run,
                    slope=slope,
                    below_beam=rods.below_beam,
                    above_grade=rods.above_grade,
                    steps=calculation.at(()),
                )
            )
    return tuple(found)
