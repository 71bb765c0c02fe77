"""One beam under one load case: reactions, diagrams and their true extrema, between the nodes too."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from bolewright.formulas import bare
from bolewright.mechanics.beam import Beam, respond
from bolewright.mechanics.loads import Array, CoupleLoad, PointLoad, SpreadLoad, UnitLoad, arrange
from bolewright.mechanics.turning import Extreme, greatest, largest, least, turning_points
from bolewright.units import POUND, POUND_INCH, Unit, Value


@dataclass(frozen=True)
class Diagrams:
    """Diagrams of one load case, at stations that hold every node, load edge and extremum.

    Signs as in :mod:`bolewright.mechanics.beam`: sagging and downward positive. ``imbalance`` is what is left
    of vertical equilibrium (lb) and of moments about the right end (lb·in).
    """

    beam: Beam
    stations: Array
    reactions: Array
    clamp_moments: Array
    shear_left: Array
    shear_right: Array
    moment: Array
    slope: Array
    deflection: Array
    zero_shear: tuple[float, ...]
    imbalance: tuple[float, float]

    @property
    def sagging(self) -> Extreme:
        """Greatest sagging moment (lb·in), the largest algebraic value."""
        return greatest(self.stations, self.moment)

    @property
    def hogging(self) -> Extreme:
        """Greatest hogging moment (lb·in), the smallest algebraic value."""
        return least(self.stations, self.moment)

    @property
    def shear(self) -> Extreme:
        """Shear of the largest size (lb), with its sign."""
        left, right = largest(self.stations, self.shear_left), largest(self.stations, self.shear_right)
        return left if abs(left.value) > abs(right.value) else right

    @property
    def downward(self) -> Extreme:
        """Greatest downward deflection (in)."""
        return greatest(self.stations, self.deflection)

    @property
    def upward(self) -> Extreme:
        """Greatest upward deflection (in), the smallest algebraic value."""
        return least(self.stations, self.deflection)


def solve(beam: Beam, loads: Sequence[tuple[UnitLoad, Value]], pieces: int = 0) -> Diagrams:
    """Diagrams of a beam under loads given as (unit load, total in lb).

    Parameters: ``beam`` the beam and how it is held; ``loads`` each unit load with its total (lb), downward positive;
    ``pieces`` equal parts of the beam whose ends are stations as well, for drawing. Raises UnstableError, LoadError: as
    :func:`bolewright.mechanics.beam.respond`.

    Uniform load w on the left half of a simple span: R1 = 3/8 wL and M = 9/128 wL² (AWC DA6, from memory).

    >>> found = solve(Beam(100.0, (0.0, 100.0), 1e6), [(SpreadLoad(0.0, 50.0), 50.0)])
    >>> print(found.reactions[0] / 100, found.sagging)
    0.375 Extreme(x=37.5, value=703.125)
    """
    unit = [load for load, _ in loads]
    total = np.array([bare("solve", "loads", _unit_of(load), size) for load, size in loads], dtype=float)
    edges = _edges(beam, unit)
    zero_shear, turning = _turning(beam, unit, total, edges)
    drawn = np.linspace(0.0, beam.length, pieces + 1) if pieces else np.empty(0)
    stations = np.unique(np.concatenate((edges, turning, drawn)))
    found = respond(beam, unit, stations)
    reactions = found.reactions @ total
    clamps = found.clamp_moments @ total
    arm = beam.length - np.array([_centre(load) for load in unit])
    support_arm = beam.length - np.array(beam.supports)
    return Diagrams(
        beam=beam,
        stations=stations,
        reactions=reactions,
        clamp_moments=clamps,
        shear_left=found.shear_left @ total,
        shear_right=found.shear_right @ total,
        moment=found.moment @ total,
        slope=found.slope @ total,
        deflection=found.deflection @ total,
        zero_shear=tuple(zero_shear),
        imbalance=(
            float(reactions.sum() - total.sum()),
            float(clamps[0] - clamps[1] + reactions @ support_arm - total @ arm),
        ),
    )


def _unit_of(load: UnitLoad) -> Unit:
    return POUND_INCH if isinstance(load, CoupleLoad) else POUND


def _edges(beam: Beam, loads: Sequence[UnitLoad]) -> Array:
    places = [0.0, beam.length, *beam.supports, *beam.hinges]
    for load in loads:
        if isinstance(load, PointLoad | CoupleLoad):
            places.append(load.x)
        elif isinstance(load, SpreadLoad):
            places += [load.start, load.end]
        else:
            places += [load.zero, load.peak]
    ordered = np.unique(np.clip(places, 0.0, beam.length))
    apart = np.concatenate(([True], np.diff(ordered) > 1e-9 * beam.length))
    return np.asarray(ordered[apart])


def _turning(
    beam: Beam, loads: Sequence[UnitLoad], total: Array, edges: Array
) -> tuple[list[float], list[float]]:
    spread = arrange(loads, beam.length)
    size = total[spread.spread_column]
    found = respond(beam, loads, edges)
    shear, moment = found.shear_right @ total, found.moment @ total
    slope = found.slope @ total
    shears: list[float] = []
    places: list[float] = []
    for piece, (a, b) in enumerate(pairwise(edges)):
        covers = (spread.start < (a + b) / 2) & (spread.end > (a + b) / 2)
        q = float((size * (spread.q + spread.m * (a - spread.start)))[covers].sum())
        m = float((size * spread.m)[covers].sum())
        found_in = turning_points(
            float(b - a), float(shear[piece]), float(moment[piece]), float(slope[piece]), q, m, beam.EI
        )
        shears += [float(a) + t for t in found_in.shear]
        places += [float(a) + t for t in found_in.places]
    return shears, places


def _centre(load: UnitLoad) -> float:
    if isinstance(load, PointLoad | CoupleLoad):
        return load.x
    if isinstance(load, SpreadLoad):
        return (load.start + load.end) / 2
    return (load.zero + 2 * load.peak) / 3
