"""Loads on every support, as an engineer copies them first: each kind at its most and least, and level force."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.mechanics.ties import first_least, first_most
from bolewright.platform.combine import envelope, strength_cases, uplift_cases
from bolewright.platform.level_supports import axes_of
from bolewright.platform.load_path import LoadPath
from bolewright.platform.sideways import Sideways


@dataclass(frozen=True)
class Lateral:
    """Level force of the platform on a support along x and y of the plan (lb), in the case where it is greatest."""

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
    most: tuple[float, str]
    least: tuple[float, str]
    lateral: Lateral | None


@dataclass(frozen=True)
class Sum:
    """What all supports carry together of one load, and what was put on (lb)."""

    load: str
    carried: float
    put_on: float


def support_loads(path: LoadPath, sideways: Sideways | None = None) -> tuple[SupportLoads, ...]:
    """Loads on every support, in the order of the file."""
    return tuple(_of(path, sideways, mark) for mark in path.reactions)


def sums(path: LoadPath) -> tuple[Sum, ...]:
    """D, L and S everywhere: the sum of the supports, and what was put on."""
    return tuple(Sum(name, carried, laid) for name, (laid, carried) in path.balance().items())


def _of(path: LoadPath, sideways: Sideways | None, mark: str) -> SupportLoads:
    env = envelope(path, path.reactions[mark][None, :])
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
        most=(float(most[high]), strength_cases()[high].name),
        least=(float(least[low]), uplift_cases()[low].name),
        lateral=_lateral(sideways, mark) if sideways is not None else None,
    )


def _lateral(sideways: Sideways, mark: str) -> Lateral | None:
    """The greatest level force of all states; None where nothing is held sideways."""
    if sideways.loose or not sideways.states:
        return None
    row = sideways.row(mark)
    u = axes_of(sideways.frames[row])
    found: list[Lateral] = []
    for state in sideways.states:
        force = u.T @ state.force[row]
        case = first_most(np.hypot(*force))
        found.append(Lateral(float(force[0, case]), float(force[1, case]), sideways.cases.names[case]))
    return max(found, key=lambda lateral: math.hypot(lateral.x, lateral.y))
