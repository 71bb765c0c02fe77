"""Distances that the bolts of a lapped brace keep in post, beam and brace (NDS 2018, 12.5.1)."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from bolewright.bracing.lapped import distance_in_diameters
from bolewright.calculation import Calculation
from bolewright.mechanics.ties import first_most
from bolewright.platform.analysis.knees import Knee
from bolewright.platform.layout.brace_bolts import Distance
from bolewright.platform.limit_states.check import Check, judge
from bolewright.units import INCH

NOTE = (
    "Post and beam are loaded aslant to their grain, to and fro: the rules along and across the grain both hold, "
    "and both edges count as loaded. End distances are those of softwood that is pulled, the larger."
)


def distance_checks(knee: Knee) -> list[Check]:
    """The worst distance that the timbers leave a brace's bolts; none for a brace without."""
    if knee.bolts is None:
        return []
    found, D = [d for d in knee.bolts.distances if not d.chosen], knee.bolts.diameter
    calculation = Calculation((len(found), 1))
    run = calculation.run
    limit = np.array([[d.limit] for d in found])
    run(distance_in_diameters, k=limit / D, D=D)
    demand, capacity = np.array([[d.demand] for d in found]), np.array([[d.capacity] for d in found])
    checks = judge(
        calculation,
        [knee.brace.mark] * len(found),
        ["any"],
        key="brace.distances",
        demand=demand,
        capacity=capacity,
        unit=INCH,
        says="",
        where=lambda row, _: found[row].what,
        notes=(NOTE,),
    )
    row = first_most([check.ratio for check in checks])
    return [replace(checks[row], sentence=_sentence(knee.brace.mark, found[row]))]


def _sentence(mark: str, distance: Distance) -> str:
    verb = "fails" if distance.wrong else "holds"
    bound = "most" if distance.most else "least"
    there, limit = distance.said
    return f"{mark} {verb}: {distance.what} is {there}, {limit} is the {bound}."
