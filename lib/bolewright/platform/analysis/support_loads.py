"""Loads on every support, as an engineer copies them first: each kind at its most and least, and lateral force."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.mechanics.ties import first_least, first_most
from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.analysis.lateral_supports import axes_of
from bolewright.platform.loads.combine import strength_cases, support_envelope, uplift_cases
from bolewright.platform.loads.load_path import LoadPath


@dataclass(frozen=True)
class Lateral:
    """Lateral force of the platform on a support along x and y of the plan (lb), in the case where it is greatest."""

    x: float
    y: float
    combination: str


@dataclass(frozen=True)
class SupportLoads:
    """Loads on a support, down positive (lb); ``L`` and ``S`` with the load everywhere, the others in patterns.

    ``most`` and ``least`` over all combinations of weight, with the combination's name.
    """

    mark: str
    D: float
    L: float
    L_most: float
    L_least: float
    S: float
    S_most: float
    S_least: float
    person_most: float
    person_least: float
    guard_most: float
    guard_least: float
    most: tuple[float, str]
    least: tuple[float, str]
    lateral: Lateral | None


@dataclass(frozen=True)
class Sum:
    """What all supports carry together of one load, and what was put on (lb)."""

    load: str
    carried: float
    put_on: float


def support_loads(path: LoadPath, lateral: LateralAnalysis | None = None) -> tuple[SupportLoads, ...]:
    """Loads on every support, in the order of the file."""
    return tuple(_of(path, lateral, mark) for mark in path.reactions)


def sums(path: LoadPath) -> tuple[Sum, ...]:
    """D, L and S everywhere: the sum of the supports, and what was put on."""
    return tuple(Sum(name, carried, laid) for name, (laid, carried) in path.balance().items())


def _of(path: LoadPath, lateral: LateralAnalysis | None, mark: str) -> SupportLoads:
    env = support_envelope(path, mark)
    most, least = env.most(strength_cases())[:, 0], env.least(uplift_cases())[:, 0]
    high, low = first_most(most), first_least(least)

    def one(values: Sequence[float] | np.ndarray) -> float:
        return float(values[0])

    return SupportLoads(
        mark,
        D=one(env.D),
        L=one(env.L_most) + one(env.L_least),
        L_most=one(env.L_most),
        L_least=one(env.L_least),
        S=one(env.S),
        S_most=one(env.S_most),
        S_least=one(env.S_least),
        person_most=one(env.person_most),
        person_least=one(env.person_least),
        guard_most=one(env.guard_most),
        guard_least=one(env.guard_least),
        most=(float(most[high]), strength_cases()[high].name),
        least=(float(least[low]), uplift_cases()[low].name),
        lateral=_lateral(lateral, mark) if lateral is not None else None,
    )


def _lateral(lateral: LateralAnalysis, mark: str) -> Lateral | None:
    """The greatest lateral force of all states; None where nothing is held laterally."""
    if lateral.loose or not lateral.states:
        return None
    row = lateral.row(mark)
    u = axes_of(lateral.frames[row])
    found: list[Lateral] = []
    for state in lateral.states:
        force = u.T @ lateral.with_push(state)[row]
        case = first_most(np.hypot(*force))
        found.append(Lateral(float(force[0, case]), float(force[1, case]), lateral.cases.names[case]))
    return max(found, key=lambda one: math.hypot(one.x, one.y))
