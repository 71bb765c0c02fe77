"""Wind on a knee brace itself: on its broad side, and what of it comes to the tree bolt that it stands on."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from bolewright.bracing.wind import wind_at_one_end
from bolewright.calculation import Calculation
from bolewright.platform.layout.trunk_braces import TrunkBrace
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.lateral_wind import Winds, run_face
from bolewright.platform.loads.load_path import LoadPath
from bolewright.timber.adjustment import Factors
from bolewright.timber.material import DesignValues
from bolewright.timber.sections import Section

Run = Callable[..., Any]


@dataclass(frozen=True)
class BraceTimber:
    """A knee brace as a piece of timber: section of one ply, length (in), and what holds its end."""

    mark: str
    section: Section
    plies: int
    length: float
    values: DesignValues
    factors: Factors
    eccentricity: float = 0.0

    @property
    def thin(self) -> float:
        """The side across which wind bends it (in)."""
        return min(self.section.b, self.section.d)

    @property
    def wide(self) -> float:
        """The side that wind bears on (in)."""
        return max(self.section.b, self.section.d)


def timber_of(brace: TrunkBrace) -> BraceTimber:
    """A knee brace from a trunk as a piece of timber."""
    return BraceTimber(brace.mark, brace.section, 1, brace.length, brace.values, brace.factors)


def run_wind_on(run: Run, path: LoadPath, winds: Winds, brace: BraceTimber) -> float:
    """Wind on all of a brace's broad side, from the wind speed on (lb)."""
    face = next(f for f in winds.faces if f.name == f"knee brace {brace.mark}")
    return run_face(run, path, replace(face, size=(brace.wide, brace.length, 1.0)))


def run_wind_at_foot(run: Run, path: LoadPath, winds: Winds, W: Array, braces: Iterable[TrunkBrace]) -> Array:
    """Wind on braces that comes to the tree bolt that they stand on, in every case (a row, lb).

    ``W`` factor of the wind in every case. How the wind on a brace comes about is printed with the brace.
    """
    total = np.zeros((1, W.size))
    for brace in braces:
        F = run_wind_on(Calculation().run, path, winds, timber_of(brace))
        total = total + np.asarray(run(wind_at_one_end, w=W[None, :], F=F))
    return total
