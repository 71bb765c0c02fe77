"""Bounce of the floor, reported and not judged: first frequency of each joist, alone and with its carriers."""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.calculation import Calculation, Step
from bolewright.mechanics.serviceability import deflection_in_service
from bolewright.mechanics.ties import first_most
from bolewright.platform.checks.members import Look, look_at
from bolewright.platform.layout import Member
from bolewright.platform.load_path import LoadPath
from bolewright.timber.adjusted_values import adjusted_modulus
from bolewright.timber.deflection import (
    deflection_of_joist_and_carrier,
    deflection_that_moves,
    first_frequency,
)

FIRM = 8.0  # Hz and up feels firm underfoot (common practice)


@dataclass(frozen=True)
class Bounce:
    """First frequency of a joist by itself, and with the carrier under it that sags most (Hz)."""

    mark: str
    carrier: str
    alone: float
    together: float
    steps: tuple[Step, ...]


def find_bounce(path: LoadPath) -> tuple[Bounce, ...]:
    """Bounce of every joist. Supports count as rigid, and people as a tenth of the live load (common practice)."""
    return tuple(_bounce(path, member) for member in path.layout.joists)


def _bounce(path: LoadPath, joist: Member) -> Bounce:
    carriers = {m.mark for m in path.layout.carriers}
    below = sorted({seat.below for seat in joist.seats} & carriers)
    trial = {mark: _sag(Calculation(), path, path.layout.member(mark)) for mark in below}
    carrier = max(trial, key=lambda mark: trial[mark], default="")
    calculation = Calculation()
    delta_j = _sag(calculation, path, joist)
    alone = float(calculation.run(first_frequency, delta=delta_j))
    if not carrier:
        return Bounce(joist.mark, "", alone, alone, calculation.at(()))
    delta_c = _sag(calculation, path, path.layout.member(carrier))
    delta = calculation.run(deflection_of_joist_and_carrier, delta_j=delta_j, delta_c=delta_c)
    together = float(calculation.run(first_frequency, delta=delta))
    return Bounce(joist.mark, carrier, alone, together, calculation.at(()))


def _sag(calculation: Calculation, path: LoadPath, member: Member) -> float:
    """Largest sag of a member under its dead load and the people that stay, at its modulus in service (in)."""
    look: Look = look_at(path, member, repetitive=False)
    sag = look.deflection
    row = first_most(sag.D + 0.1 * sag.L_most)
    D, L = max(float(sag.D[row]), 1e-4), max(float(sag.L_most[row]), 0.0)
    delta_E = calculation.run(deflection_that_moves, delta_D=D, delta_L=L)
    E = look.effects.values.E
    E_p = calculation.run(adjusted_modulus, E=E, **look.factors.modulus)
    return float(calculation.run(deflection_in_service, delta_E=delta_E, E=E, E_p=E_p))
