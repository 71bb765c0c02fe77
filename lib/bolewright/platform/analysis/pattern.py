"""The pattern of live load behind a check: which panels are loaded, and where the one person stands."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bolewright.mechanics.ties import first_most
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import Array, Case, lrfd_cases, strength_cases, uplift_cases
from bolewright.platform.loads.load_path import LoadPath


@dataclass(frozen=True)
class Pattern:
    """Panels under live load, by number, and the place of the one person, if the case has them."""

    panels: tuple[int, ...]
    person: tuple[float, float] | None = None


def influence_row(path: LoadPath, check: Check) -> Array | None:
    """Influence of every source on the effect that governs a check, positive where it makes it greater."""
    if check.effect is None:
        return None
    effects = path.effects[check.effect.member]
    rows = {
        "moment": effects.moment,
        "head moment": effects.head,
        "reaction": effects.reactions,
        "shear left": effects.shear_left,
        "shear right": effects.shear_right,
    }[check.effect.quantity]
    if rows is None:
        return None
    return np.asarray(rows[check.effect.row] * check.effect.sign, dtype=float)


def case_of(check: Check) -> Case | None:
    """The combination that governs a check, as it was run; None for a check outside the gravity cases."""
    cases = (*strength_cases(), *lrfd_cases(), *uplift_cases())
    return next((c for c in cases if c.name == check.combination), None)


def pattern_of(path: LoadPath, check: Check) -> Pattern | None:
    """Worst pattern of a check; None when its demand was not read from the influence of the deck."""
    row, case = influence_row(path, check), case_of(check)
    if row is None or case is None:
        return None
    loaded = np.flatnonzero(row[: len(path.panels)] > 1e-9) if case.L else np.array([], dtype=int)
    person = None
    if case.person:
        spots = row[path.first_spot :]
        person = path.spots[first_most(spots)].point if spots.size else None
    return Pattern(tuple(int(i) for i in loaded), person)
