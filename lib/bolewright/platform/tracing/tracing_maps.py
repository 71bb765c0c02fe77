"""Influence as a map over the deck: what one pound on each panel does to a support, or to a moment."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bolewright.platform.layout.influence import Array
from bolewright.platform.layout.lines import Vector
from bolewright.platform.loads.load_path import LoadPath
from bolewright.units import INCH, NONE, Unit, feet_inches


@dataclass(frozen=True)
class InfluenceMap:
    """Value of each deck panel: the effect of one pound on it. ``unit`` is that of the effect per pound."""

    what: str
    unit: Unit
    values: Array
    corners: tuple[tuple[Vector, ...], ...]


def reaction_map(path: LoadPath, support: str) -> InfluenceMap:
    """Share of a weight on each panel that a support takes; negative lifts it."""
    values = path.reactions[support][: len(path.panels)]
    return InfluenceMap(f"share of the weight that {support} takes", NONE, values, _corners(path))


def moment_map(path: LoadPath, member: str, x: float) -> InfluenceMap:
    """Moment at ``x`` along a member (in inches) for each pound on a panel: lb·in per lb; sagging positive."""
    effects = path.effects[member]
    row = int(np.abs(effects.stations - x).argmin())
    values = effects.moment[row][: len(path.panels)]
    place = feet_inches(float(effects.stations[row]))
    return InfluenceMap(
        f"moment of {member} at {place} from its start, for each pound", INCH, values, _corners(path)
    )


def _corners(path: LoadPath) -> tuple[tuple[Vector, ...], ...]:
    return tuple(panel.corners for panel in path.panels)
