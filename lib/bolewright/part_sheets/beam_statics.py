"""Forces in a beam part: the worst pattern of live load for moment, shear, reaction and deflection."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from bolewright.mechanics import Beam, Diagrams, respond, solve
from bolewright.mechanics.loads import Array
from bolewright.part_sheets.loads import BeamLoad

PIECES = 240


@dataclass(frozen=True)
class Bay:
    """A span between two supports, or an overhang: from where to where (in)."""

    start: float
    end: float
    overhang: bool
    name: str

    @property
    def length_for_limit(self) -> float:
        """Length that the deflection limit divides: twice an overhang's (IRC Table R301.7, footnote)."""
        return (self.end - self.start) * (2 if self.overhang else 1)


@dataclass(frozen=True)
class Worst:
    """The worst value of an effect: where, and under which loads (by number)."""

    value: float
    x: float
    loads: tuple[int, ...]


@dataclass(frozen=True)
class BeamStatics:
    """A beam of a part under its loads; dead loads always act, live ones where they make it worse."""

    beam: Beam
    loads: tuple[BeamLoad, ...]
    bays: tuple[Bay, ...]

    @cached_property
    def stations(self) -> Array:
        """Places looked at."""
        edges = [x for load in self.loads for x in (load.start, load.end)]
        return np.unique([*np.linspace(0, self.beam.length, PIECES + 1), *self.beam.supports, *edges])

    @cached_property
    def _found(self) -> dict[str, Array]:
        found = respond(self.beam, [load.unit for load in self.loads], self.stations)
        total = np.array([load.total for load in self.loads])
        return {
            "moment": found.moment * total,
            "left": found.shear_left * total,
            "right": found.shear_right * total,
            "deflection": found.deflection * total,
            "reaction": found.reactions * total,
        }

    def worst(
        self,
        effect: str,
        sign: int,
        rows: Sequence[int] | None = None,
        *,
        dead: bool = True,
        live: bool = True,
    ) -> Worst:
        """The largest value of an effect times ``sign`` over the stations (or the ``rows`` of them)."""
        effects = sign * self._found[effect]
        if rows is not None:
            effects = effects[list(rows)]
        always = np.array([load.dead for load in self.loads])
        counted = np.where(always, effects if dead else 0.0, np.maximum(effects, 0.0) if live else 0.0)
        row = int(counted.sum(axis=1).argmax())
        helps = effects[row] > 1e-9
        acting = tuple(
            i for i, load in enumerate(self.loads) if (dead if load.dead else live and bool(helps[i]))
        )
        at = row if rows is None else list(rows)[row]
        x = self.beam.supports[at] if effect == "reaction" else float(self.stations[at])
        return Worst(float(counted[row].sum()), x, acting)

    def shear(self, *, live: bool = True) -> Worst:
        """The largest shear, either way and on either side of a station."""
        return max(
            (self.worst(e, s, live=live) for e in ("left", "right") for s in (1, -1)), key=lambda w: w.value
        )

    def rows_of(self, bay: Bay) -> list[int]:
        """Stations of a bay."""
        return [i for i, x in enumerate(self.stations) if bay.start - 1e-6 <= x <= bay.end + 1e-6]

    def diagrams(self, loads: Sequence[int]) -> Diagrams:
        """Diagrams under some of the loads."""
        return solve(self.beam, [(self.loads[i].unit, self.loads[i].total) for i in loads], PIECES)
