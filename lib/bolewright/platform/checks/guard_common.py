"""What the checks of guards share: their case, load duration, limits of the codes, factors, a plain comparison."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.calculation import Calculation
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.project import Gate, Guard
from bolewright.timber.adjustment import Factors, LoadDuration, Service, factors, load_duration_factor
from bolewright.timber.material import DesignValues
from bolewright.timber.sections import Section
from bolewright.units import POUND, Unit

CASE = "guard"
ANY = "any"
C_D = load_duration_factor(LoadDuration.TEN_MINUTES)
SPHERE = 4.0  # in, IRC 2021, R312.1.3
MOST_APART = 72.0  # in, DCA 6, second-hand
NEEDED = 30.0  # in, IRC 2021, R312.1.1
LEAST_HEIGHT = {"IRC": 36.0, "IBC": 42.0}
DURATION = (
    "C_D 1.6 for the load on a guard is common practice, no clause; at C_D 1.0, the letter of an occupancy live "
    "load, the ratio of wood's bending and shear is 1.6 times as much."
)


def guard_factors(
    guard: Guard | Gate, section: Section, *, flat: bool = False
) -> tuple[DesignValues, Factors]:
    """Design values of a piece of a guard or gate, and its factors."""
    values = guard.values(section)
    return values, factors(
        values, Service(wet=guard.wet, incised=guard.counts_incised), repetitive=False, flat=flat
    )


def one_check(
    name: str, key: str, demand: float, capacity: float, unit: Unit, says: str, notes: tuple[str, ...] = ()
) -> list[Check]:
    """One number against one limit, with no calculation before it."""
    calculation = Calculation((1, 1))
    return judge(
        calculation,
        [name],
        [ANY],
        key=key,
        demand=np.array([[demand]]),
        capacity=capacity,
        unit=unit,
        says=says,
        notes=notes,
    )


def fastened(
    name: str, key: str, rated: float | None, demand: float, field: str, what: str
) -> Iterator[Check]:
    """A rated load against what is asked of it, open where none is given."""
    if rated is None:
        yield not_checked(
            name,
            key,
            f"{name}: {what} takes {demand:,.0f} lb in any direction: enter the rated load of its fastening as "
            f"{field}, off its maker's sheet.",
        )
        return
    yield from one_check(name, key, demand, rated, POUND, f"the load on {what}")
