"""A check: demand against capacity of one part in one limit state, with the steps that made it."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

import numpy as np
import numpy.typing as npt

from bolewright.calculation import Calculation, Step
from bolewright.formulas import formula
from bolewright.mechanics.ties import first_most
from bolewright.platform.limit_states import Topic as Topic
from bolewright.platform.limit_states import limit_state
from bolewright.platform.limit_states.state import LIMIT, MAKER, RATED
from bolewright.rendering import numbers
from bolewright.rendering.numbers import MOST_TIMES, excess, used
from bolewright.status import Status
from bolewright.units import NONE, Ratio, Unit

Array = npt.NDArray[np.float64]
NONE_LEFT = "none left"
CLASH = "clash"
NOISE = 1e-9  # a demand or capacity below this, in any unit we use, is the noise of a subtraction


@dataclass(frozen=True)
class Effect:
    """Where in the load path's influence a demand was read: quantity, member, row, and which way it is worst."""

    quantity: str
    member: str
    row: int
    sign: int


@formula("definition")
def demand_capacity_ratio(demand: Ratio, capacity: Ratio) -> Ratio:
    """Ratio of demand to capacity; a ratio over 1.0 fails.

    Parameters: demand what the part must bear; capacity what it may bear, in the same unit. Returns: ratio.
    Source: definition.

    >>> demand_capacity_ratio(9.0, 10.0)
    0.9
    """
    ratio: Ratio = demand / capacity
    return ratio


@dataclass(frozen=True)
class Check:
    """One check. ``steps`` are the formulas with the arguments they ran on, picked out when a sheet prints them.

    ``key`` is the limit state of :mod:`bolewright.platform.limit_states`, where topic, words and clause come from,
    ``at`` the piece or place it is met at, and ``says`` what the sentence calls the demand. A failed check without a
    number (``ratio`` not a number) has nothing left to bear its demand.
    """

    part: str
    topic: Topic
    limit_state: str
    status: Status
    demand: float = math.nan
    capacity: float = math.nan
    unit: Unit = NONE
    ratio: float = math.nan
    combination: str = ""
    clause: str = ""
    sentence: str = ""
    remarks: tuple[str, ...] = ()
    where: str = ""
    effect: Effect | None = field(default=None, repr=False)
    calculation: Calculation | None = field(default=None, repr=False)
    index: tuple[int, ...] = ()
    key: str = ""
    at: str = ""
    says: str = field(default="", repr=False)

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The formulas that made this check, with the arguments of the part and case that govern.

        What is set against what is in the check's own unit, so that the last lines print it.
        """
        found = self.calculation.at(self.index) if self.calculation else ()
        return tuple(_in_unit(step, self.unit) for step in found)

    @property
    def notes(self) -> tuple[str, ...]:
        """What must be said of the check: its remarks, and steps out of range or from memory."""
        return tuple(dict.fromkeys([*self.remarks, *(note for step in self.steps for note in step.notes)]))

    @property
    def shown_ratio(self) -> str:
        """The ratio as it is printed everywhere; in words where it is open, a clash, or nothing is left."""
        if self.status is Status.NOT_CHECKED:
            return "open"
        if self.clashes:
            return CLASH
        return NONE_LEFT if math.isnan(self.ratio) else numbers.ratio(self.ratio)

    @property
    def has_sizes(self) -> bool:
        """Whether demand and capacity are numbers that tell something beside each other."""
        return self.status is not Status.NOT_CHECKED and self.ratio <= MOST_TIMES and not self.clashes

    @property
    def clashes(self) -> bool:
        """Whether it names two pieces in one place: the sentence says how deep, and no ratio does."""
        return self.status is Status.FAILS and limit_state(self.key).places

    @property
    def asks_nothing(self) -> bool:
        """Whether it was made and asks nothing of the part: ``capacity`` is then what is least, no strength."""
        return self.status is Status.PASSES and self.calculation is None and self.demand == 0

    @property
    def rests_on_rating(self) -> bool:
        """Whether its capacity is, wholly or in part, a rating or limit that the user typed in."""
        return limit_state(self.key).rated or self.clause in (RATED, MAKER, LIMIT)

    @property
    def severity(self) -> float:
        """The ratio, to compare checks by: without end where nothing is left, 0 for one that is open."""
        if self.status is Status.FAILS and math.isnan(self.ratio):
            return math.inf
        return 0.0 if math.isnan(self.ratio) else self.ratio


def _in_unit(step: Step, unit: Unit) -> Step:
    """A step that sets a demand against a capacity, or makes a greater demand of it, in the unit that both have."""
    own = step.formula
    if "demand" not in own.parameters:
        return step
    units = {name: unit if name in ("demand", "capacity") else of for name, of in own.parameters.items()}
    result = own.result if "capacity" in units else unit
    return replace(step, formula=replace(own, parameters=units, result=result))


def not_checked(part: str, key: str, reason: str, *, at: str = "") -> Check:
    """A check that can't be made, with the reason. Raises KeyError for a key that is no limit state."""
    state = limit_state(key)
    return Check(
        part,
        state.topic,
        state.at(at),
        Status.NOT_CHECKED,
        sentence=reason,
        clause=state.clause,
        key=key,
        at=at,
    )


def judge(
    calculation: Calculation,
    parts: Sequence[str],
    cases: Sequence[str],
    *,
    key: str,
    demand: Any,
    capacity: Any,
    unit: Unit,
    says: str | Sequence[str],
    at: str | Sequence[str] = "",
    clause: str = "",
    where: Callable[[int, int], str] = lambda row, column: "",
    effect: Callable[[int, int], Effect | None] = lambda row, column: None,
    notes: Sequence[str] = (),
    nothing: str = "",
) -> list[Check]:
    """One check per part from arrays (parts x cases): the case with the largest ratio governs.

    ``key`` names the limit state, ``at`` the piece or place it is met at (one for all parts or one for each), as
    ``says`` says what the demand is ("bending at mid-span"). ``clause`` takes the place of the limit state's where
    the case at hand has another. Where nothing is left to bear the demand (a capacity of 0 or less) the check fails
    without a number, and ``nothing`` says in words what that means. The ratio is the last step of the calculation,
    run here, so that what is printed is what is judged.
    """
    state = limit_state(key)
    if not parts:
        return []
    shape = (len(parts), len(cases))
    asked, there = np.asarray(demand, dtype=float), np.asarray(capacity, dtype=float)
    _assert_numbers(asked, there, lambda: f"{key} of {', '.join(parts)}")
    if there.min() > 0:
        ratios = np.maximum(calculation.run(demand_capacity_ratio, demand=demand, capacity=capacity), 0.0)
    else:  # nothing is divided by a capacity of 0 or less
        some = there > 0
        left = np.where(some, _over(there, shape), np.nan)
        found = calculation.run(demand_capacity_ratio, demand=demand, capacity=left)
        ratios = np.where(some, np.maximum(found, 0.0), np.where(_over(asked, shape) > NOISE, np.inf, 0.0))
    ratios = _over(ratios, shape)
    checks = []
    for row, part in enumerate(parts):
        column = first_most(ratios[row])
        index = (row, column)
        value = float(ratios[index])
        none_left = math.isinf(value)
        place, said = (text if isinstance(text, str) else text[row] for text in (at, says))
        checks.append(
            Check(
                part=part,
                topic=state.topic,
                limit_state=state.at(place),
                status=Status.PASSES if value <= 1 else Status.FAILS,
                demand=_at(asked, shape, index),
                capacity=max(_at(there, shape, index), 0.0),
                unit=unit,
                ratio=math.nan if none_left else value,
                combination=cases[column],
                clause=clause or state.clause,
                sentence=sentence_of(part, said, value, nothing),
                remarks=tuple(notes),
                where=where(row, column),
                effect=effect(row, column),
                calculation=None if none_left else calculation,
                index=index,
                key=key,
                at=place,
                says=said,
            )
        )
    return checks


def nothing_asked(
    part: str, key: str, sentence: str, *, at: str = "", least: float = 0.0, unit: Unit = NONE, case: str = ""
) -> Check:
    """A check that was made and asks nothing of the part in any case, with what is least in ``least``."""
    state = limit_state(key)
    return Check(
        part,
        state.topic,
        state.at(at),
        Status.PASSES,
        demand=0.0,
        capacity=least,
        unit=unit,
        ratio=0.0,
        combination=case,
        clause=state.clause,
        sentence=sentence,
        key=key,
        at=at,
    )


def _assert_numbers(need: Array, has: Array, what: Callable[[], str]) -> None:
    """A demand that is negative or no number, or a capacity that is no number, is a fault of the program."""
    least, most = float(need.min()), float(need.max())
    assert math.isfinite(least), f"demand of {what()} is no number"
    assert math.isfinite(most), f"demand of {what()} is no number"
    assert least >= -NOISE, f"demand of {what()} is {least}"
    assert not math.isnan(float(has.min())), f"capacity of {what()}"


def _over(values: Array, shape: tuple[int, ...]) -> Array:
    """Values over all parts and cases."""
    return values if values.shape == shape else np.broadcast_to(values, shape)


def _at(values: Array, shape: tuple[int, ...], index: tuple[int, int]) -> float:
    """The value of a part and case; one number is the same of all."""
    return float(values) if values.ndim == 0 else float(_over(values, shape)[index])


def sentence_of(part: str, says: str, value: float, nothing: str = "") -> str:
    """What a check says of its ratio, by the one rule of rounding."""
    part = part[:1].upper() + part[1:]
    if value > MOST_TIMES:
        left = f"next to nothing is left to bear {says.rstrip(',')}"
        return f"{part} fails: {nothing or left}."
    if value > 1:
        return f"{part} fails: {says} is {excess(value)}."
    return f"{part} passes: {says} is {used(value)} of allowable."


def _told(ratio: float) -> float:
    """A ratio for sorting: to the nine digits that every machine agrees on; 0 where there is none."""
    return float(f"{ratio:.9g}") if ratio == ratio else 0.0


def worst(checks: Sequence[Check]) -> list[Check]:
    """Checks with the failing ones first, then the not checked, then by falling ratio."""
    rank = {Status.FAILS: 0, Status.NOT_CHECKED: 1, Status.PASSES: 2}
    return sorted(checks, key=lambda c: (rank[c.status], -_told(c.severity)))
