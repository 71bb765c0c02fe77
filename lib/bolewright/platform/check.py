"""A check: demand against capacity of one part in one limit state, with the steps that made it."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property
from typing import Any

import numpy as np

from bolewright.calculation import Calculation, Step
from bolewright.formulas import formula
from bolewright.rendering.numbers import MOST_TIMES, excess, used
from bolewright.status import Status
from bolewright.units import NONE, Ratio, Unit


@dataclass(frozen=True)
class Effect:
    """Where in the load path's influence a demand was read: quantity, member, row, and which way it is worst."""

    quantity: str
    member: str
    row: int
    sign: int


class Topic(StrEnum):
    """The calc sheet a check stands on, in the order of the load path."""

    DECKING = "decking"
    JOISTS = "joists"
    CARRIERS = "carriers"
    HANGERS = "hangers"
    TREE_BOLTS = "tree bolts"
    POSTS = "posts"
    FOOTINGS = "footings"
    BRACES = "braces"
    TREE_ROOM = "room for the tree"
    STABILITY = "stability"


@formula("definition")
def demand_capacity_ratio(demand: Ratio, capacity: Ratio) -> Ratio:
    """Ratio of demand to capacity; more than 1 fails.

    Parameters: demand what the part must bear; capacity what it may bear, in the same unit. Returns: ratio.
    Source: definition.

    >>> demand_capacity_ratio(9.0, 10.0)
    0.9
    """
    ratio: Ratio = demand / capacity
    return ratio


@dataclass(frozen=True)
class Check:
    """One check. ``steps`` are the formulas with the arguments they ran on, picked out when a sheet prints them."""

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

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The formulas that made this check, with the arguments of the part and case that govern."""
        return self.calculation.at(self.index) if self.calculation else ()

    @property
    def notes(self) -> tuple[str, ...]:
        """What must be said of the check: its remarks, and steps out of range or from memory."""
        return tuple(dict.fromkeys([*self.remarks, *(note for step in self.steps for note in step.notes)]))


def not_checked(part: str, topic: Topic, limit_state: str, reason: str, clause: str = "") -> Check:
    """A check that can't be made, with the reason."""
    return Check(part, topic, limit_state, Status.NOT_CHECKED, sentence=reason, clause=clause)


def judge(
    calculation: Calculation,
    parts: Sequence[str],
    cases: Sequence[str],
    *,
    topic: Topic,
    limit_state: str,
    demand: Any,
    capacity: Any,
    unit: Unit,
    clause: str,
    says: str | Sequence[str],
    where: Callable[[int, int], str] = lambda row, column: "",
    effect: Callable[[int, int], Effect | None] = lambda row, column: None,
    notes: Sequence[str] = (),
    nothing: str = "",
) -> list[Check]:
    """One check per part from arrays (parts x cases): the case with the largest ratio governs.

    ``says`` is what the demand is, in words ("bending at mid-span"), one for all parts or one for each. ``nothing``
    says in words what it means that next to nothing is left to bear it; the ratio then is a number without sense.
    """
    shape = (len(parts), len(cases))
    need = np.broadcast_to(np.asarray(demand, dtype=float), shape)
    has = np.broadcast_to(np.asarray(capacity, dtype=float), shape)
    ratios = need / has
    checks = []
    for row, part in enumerate(parts):
        column = int(np.argmax(ratios[row]))
        index = (row, column)
        value = float(ratios[index])
        checks.append(
            Check(
                part=part,
                topic=topic,
                limit_state=limit_state,
                status=Status.PASSES if value <= 1 else Status.FAILS,
                demand=float(need[index]),
                capacity=float(has[index]),
                unit=unit,
                ratio=value,
                combination=cases[column],
                clause=clause,
                sentence=_sentence(part, says if isinstance(says, str) else says[row], value, nothing),
                remarks=tuple(notes),
                where=where(row, column),
                effect=effect(row, column),
                calculation=calculation,
                index=index,
            )
        )
    return checks


def _sentence(part: str, says: str, value: float, nothing: str) -> str:
    part = part[:1].upper() + part[1:]
    if value > MOST_TIMES and nothing:
        return f"{part} fails: {nothing}."
    if value > 1:
        return f"{part} fails: {says} is {excess(value)}."
    return f"{part} holds: {says} uses {used(value)} of what is allowed."


def worst(checks: Sequence[Check]) -> list[Check]:
    """Checks with the failing ones first, then the not checked, then by falling ratio."""
    rank = {Status.FAILS: 0, Status.NOT_CHECKED: 1, Status.PASSES: 2}
    return sorted(checks, key=lambda c: (rank[c.status], -c.ratio if c.ratio == c.ratio else 0.0))
