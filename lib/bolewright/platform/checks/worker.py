"""One worker on a beam or a joist while it is built: the seats that he lifts from past the last one."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bolewright.mechanics.beam import Beam, respond
from bolewright.mechanics.loads import PointLoad, SpreadLoad
from bolewright.platform.layout.parts import Kind, Member
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.load_path import LoadPath, line_weight

WORKER = 300.0  # lb, with tools
CASE = "D + one worker"
CASES = {f"0.6{CASE}": 0.6, CASE: 1.0}  # six tenths of what holds it down, all of what lifts it


@dataclass(frozen=True)
class Lifted:
    """A seat of a member: share of a worker's weight by which he lifts it, least load by then there (lb)."""

    share: float
    weight: float

    @property
    def lift(self) -> float:
        """Greatest uplift of both cases (lb)."""
        return max(WORKER * self.share - k * self.weight for k in CASES.values())


def beams_alone(path: LoadPath) -> Array:
    """Loads on all sources when all beams are on and nothing else: of each its own weight without the guard's."""
    loads = np.zeros(path.first_spot + len(path.spots))
    for i, member in enumerate(path.layout.members):
        if member.kind is Kind.BEAM:
            own = line_weight(member) * member.line.length
            loads[len(path.panels) + i] = own / path.own_weight[member.mark]
    return loads


def lifted_seats(path: LoadPath, beam: Member, alone: Array) -> list[Lifted]:
    """Every seat under a worker at that end of a member where he tips it; where its weight holds it, none is lifted.

    Its own weight alone, or with the other beams on it (``alone``), whichever holds it down less.
    """
    effects, length = path.effects[beam.mark], beam.line.length
    at = np.array([seat.at for seat in beam.seats])
    held = Beam(length, tuple(at), effects.values.E * beam.section.I)
    R = respond(held, [SpreadLoad(0.0, length), PointLoad(0.0), PointLoad(length)], [0.0]).reactions
    own = R[:, 0] * line_weight(beam) * length
    others = alone.copy()
    others[len(path.panels) + path.layout.members.index(beam)] = 0.0
    both = np.stack([own, own + effects.reactions @ others])
    lifted = np.zeros(len(at))
    for end, pivot, shares in ((0.0, at.min(), R[:, 1]), (length, at.max(), R[:, 2])):
        turns = WORKER * abs(end - pivot)
        if any(turns > k * float((R_D * abs(at - pivot)).sum()) for R_D in both for k in CASES.values()):
            lifted = np.maximum(lifted, -shares)
    least = both.min(axis=0)
    return [Lifted(float(share), float(weight)) for share, weight in zip(lifted, least, strict=True)]
