"""Load combinations over the load path: the worst pattern of live load for every effect."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
import numpy.typing as npt

from bolewright.platform.load_path import LoadPath
from bolewright.timber.basis import Combination, DesignBasis, LoadType, asd_basis

Array = npt.NDArray[np.float64]
PERSON = "D + one person"
UPLIFT_ONLY = "0.6D + L"


@cache
def basis() -> DesignBasis:
    """The design basis of the gravity checks: combinations of D, L and S."""
    return asd_basis().with_loads((LoadType.DEAD, LoadType.LIVE, LoadType.SNOW))


@dataclass(frozen=True)
class Case:
    """One combination as it is run: factors of D, L (worst pattern), S (all or nothing), one person; C_D."""

    name: str
    D: float
    L: float
    S: float
    person: float
    C_D: float


def _case(combination: Combination) -> Case:
    factor = combination.factor
    return Case(
        combination.name,
        factor(LoadType.DEAD),
        factor(LoadType.LIVE),
        factor(LoadType.SNOW),
        0.0,
        combination.C_D,
    )


@cache
def strength_cases() -> tuple[Case, ...]:
    """Combinations for strength; one heavy person at the worst spot replaces the live load once."""
    cases = [_case(c) for c in basis().combinations if c.name != UPLIFT_ONLY]
    return (*cases, Case(PERSON, 1.0, 0.0, 0.0, 1.0, 1.0))


@cache
def uplift_cases() -> tuple[Case, ...]:
    """Combinations for the least reaction: all of strength and, as common practice, 0.6D + L."""
    cases = [_case(c) for c in basis().combinations]
    return (*cases, Case("0.6D + one person", 0.6, 0.0, 0.0, 1.0, 1.0))


@dataclass(frozen=True)
class Envelope:
    """Greatest and least value of effects (last axis) under each load."""

    D: Array
    L_most: Array
    L_least: Array
    S: Array
    person_most: Array
    person_least: Array

    def most(self, cases: tuple[Case, ...]) -> Array:
        """Greatest value in each case: cases x effects."""
        return np.stack(
            [c.D * self.D + c.L * self.L_most + c.S * self.S + c.person * self.person_most for c in cases]
        )

    def least(self, cases: tuple[Case, ...]) -> Array:
        """Least value in each case: cases x effects."""
        return np.stack(
            [c.D * self.D + c.L * self.L_least + c.S * self.S + c.person * self.person_least for c in cases]
        )


def envelope(path: LoadPath, influence: Array) -> Envelope:
    """Envelope of effects whose influence (effects x sources) is given.

    Live load stands wherever it makes the effect greater (or less); the person stands on the worst panel.
    """
    person = path.layout.project.loads.person
    on_deck = influence[:, : len(path.panels)]
    return Envelope(
        D=influence @ path.dead,
        L_most=np.maximum(influence, 0.0) @ path.live,
        L_least=np.minimum(influence, 0.0) @ path.live,
        S=influence @ path.snow,
        person_most=np.maximum(on_deck.max(axis=1, initial=0.0), 0.0) * person,
        person_least=np.minimum(on_deck.min(axis=1, initial=0.0), 0.0) * person,
    )
