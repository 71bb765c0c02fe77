"""Forces in a beam part: the worst pattern of live load for moment, shear, reaction and deflection."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from bolewright.mechanics import Beam, Diagrams, respond, solve
from bolewright.mechanics.loads import Array
from bolewright.part_sheets.loads import BeamLoad

PIECES = 240
# Of dead load against what lifts: 0.6D + 0.6W (ASCE/SEI 7-16, 2.4.1, 7); common practice: 0.6D + L, 0.6D + S
LIFTED_DEAD = 0.6
_BESIDE = 1e-6  # in., from a couple: the moment steps there
LEFT, RIGHT = "left", "right"


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
    """The worst value of an effect: where, under which loads (by number), and with which share of dead load.

    ``side`` of the place where a shear is found, and the ``sign`` of it there.
    """

    value: float
    x: float
    loads: tuple[int, ...]
    dead_share: float = 1.0
    side: str = ""
    sign: int = 1


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
        edges += [load.start - _BESIDE for load in self.loads if load.couple and load.start]
        edges += [(bay.start + bay.end) / 2 for bay in self.bays]
        return np.unique([*np.linspace(0, self.beam.length, PIECES + 1), *self.beam.supports, *edges])

    @cached_property
    def _found(self) -> dict[str, Array]:
        parts = [(n, unit, size) for n, load in enumerate(self.loads) for unit, size in load.parts]
        found = respond(self.beam, [unit for _, unit, _ in parts], self.stations)
        sizes = np.zeros((len(parts), len(self.loads)))
        for row, (n, _, size) in enumerate(parts):
            sizes[row, n] = size
        return {
            "moment": found.moment @ sizes,
            "left": found.shear_left @ sizes,
            "right": found.shear_right @ sizes,
            "deflection": found.deflection @ sizes,
            "reaction": found.reactions @ sizes,
        }

    @property
    def dead_shares(self) -> tuple[float, ...]:
        """Shares of the dead load that act with live load: all of it, and 0.6 where a live load lifts."""
        return (1.0, LIFTED_DEAD) if any(load.lifts and not load.dead for load in self.loads) else (1.0,)

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
        shares = self.dead_shares if dead and live else (1.0 if dead else 0.0,)
        return max((self._worst(effect, sign, rows, share, live) for share in shares), key=lambda w: w.value)

    def _worst(
        self, effect: str, sign: int, rows: Sequence[int] | None, dead_share: float, live: bool
    ) -> Worst:
        effects = sign * self._found[effect]
        if rows is not None:
            effects = effects[list(rows)]
        always = np.array([load.dead for load in self.loads])
        counted = np.where(always, dead_share * effects, np.maximum(effects, 0.0) if live else 0.0)
        row = int(counted.sum(axis=1).argmax())
        helps = effects[row] > 1e-9
        acting = tuple(
            i for i, load in enumerate(self.loads) if (dead_share if load.dead else live and bool(helps[i]))
        )
        at = row if rows is None else list(rows)[row]
        x = self.beam.supports[at] if effect == "reaction" else float(self.stations[at])
        return Worst(float(counted[row].sum()), x, acting, dead_share or 1.0)

    def uplift(self) -> Worst:
        """The largest uplift of a support: against 0.6 of the dead load, or with all of it where it lifts itself."""
        shares = (1.0, LIFTED_DEAD)
        return max(
            (self._worst("reaction", -1, None, share, True) for share in shares), key=lambda w: w.value
        )

    def shear(self, *, live: bool = True) -> Worst:
        """The largest shear, either way and on either side of a station."""
        return max(
            (
                replace(self.worst(side, sign, live=live), side=side, sign=sign)
                for side in (LEFT, RIGHT)
                for sign in (1, -1)
            ),
            key=lambda w: w.value,
        )

    def rows_of(self, bay: Bay) -> list[int]:
        """Stations of a bay."""
        return [i for i, x in enumerate(self.stations) if bay.start - 1e-6 <= x <= bay.end + 1e-6]

    def diagrams(self, worst: Worst) -> Diagrams:
        """Diagrams under the loads of a pattern."""
        loads = [
            (unit, size * self.share(i, worst)) for i in worst.loads for unit, size in self.loads[i].parts
        ]
        return solve(self.beam, loads, PIECES)

    def share(self, load: int, worst: Worst) -> float:
        """Share of a load (by number) that a pattern counts."""
        return worst.dead_share if self.loads[load].dead else 1.0
