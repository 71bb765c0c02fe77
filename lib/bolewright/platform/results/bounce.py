"""Bounce of the floor, reported and not judged: first frequency of each joist, alone and with its beams."""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.calculation import Calculation, Step
from bolewright.mechanics.serviceability import deflection_in_service
from bolewright.mechanics.ties import first_most
from bolewright.platform.checks.members import Look, look_at
from bolewright.platform.layout.layout import Member
from bolewright.platform.loads.load_path import LoadPath
from bolewright.timber.adjusted_values import adjusted_modulus
from bolewright.timber.deflection import (
    deflection_of_joist_and_beam,
    deflection_that_moves,
    first_frequency,
)

FIRM = 8.0  # Hz and up feels firm underfoot (common practice)


@dataclass(frozen=True)
class Bounce:
    """First frequency of a joist by itself, and with the beam under it that deflects most (Hz)."""

    mark: str
    beam: str
    alone: float
    together: float
    steps: tuple[Step, ...]


def find_bounce(path: LoadPath) -> tuple[Bounce, ...]:
    """Bounce of every joist. Supports count as rigid, and people as a tenth of the live load (common practice)."""
    return tuple(_bounce(path, member) for member in path.layout.joists)


def _bounce(path: LoadPath, joist: Member) -> Bounce:
    beams = {m.mark for m in path.layout.beams}
    below = sorted({seat.below for seat in joist.seats} & beams)
    trial = {mark: _deflection(Calculation(), path, path.layout.member(mark)) for mark in below}
    beam = max(trial, key=lambda mark: trial[mark], default="")
    calculation = Calculation()
    delta_j = _deflection(calculation, path, joist)
    alone = float(calculation.run(first_frequency, delta=delta_j))
    if not beam:
        return Bounce(joist.mark, "", alone, alone, calculation.at(()))
    delta_c = _deflection(calculation, path, path.layout.member(beam))
    delta = calculation.run(deflection_of_joist_and_beam, delta_j=delta_j, delta_c=delta_c)
    together = float(calculation.run(first_frequency, delta=delta))
    return Bounce(joist.mark, beam, alone, together, calculation.at(()))


def _deflection(calculation: Calculation, path: LoadPath, member: Member) -> float:
    """Largest deflection of a member under its dead load and the people that stay, at its modulus in service (in)."""
    look: Look = look_at(path, member, repetitive=False)
    deflection = look.deflection
    row = first_most(deflection.D + 0.1 * deflection.L_most)
    D, L = max(float(deflection.D[row]), 1e-4), max(float(deflection.L_most[row]), 0.0)
    delta_E = calculation.run(deflection_that_moves, delta_D=D, delta_L=L)
    E = look.effects.values.E
    E_p = calculation.run(adjusted_modulus, E=E, **look.factors.modulus)
    return float(calculation.run(deflection_in_service, delta_E=delta_E, E=E, E_p=E_p))
