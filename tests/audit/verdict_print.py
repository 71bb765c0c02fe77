"""A row's ratio, demand and capacity are those of the last step that its sheet prints, and of the worst of its cases.

Read from the checks as the sheets read them: the steps of the governing case (``Check.steps``), and the ratios of
all cases of its calculation.
"""

from __future__ import annotations

import math

import numpy as np

from bolewright.platform.limit_states.check import Check
from bolewright.status import Status
from bolewright.units import feet_inches

SAME = 1e-9
RATIO = "demand_capacity_ratio"


def printed(check: Check) -> tuple[float, float, float]:
    """Demand, capacity and ratio of the last printed step."""
    last = check.steps[-1]
    assert last.formula.name == RATIO
    return last.arguments["demand"], last.arguments["capacity"], last.result


def close(one: float, other: float) -> bool:
    return abs(one - other) <= SAME * max(abs(one), abs(other), 1e-6)


def faults(check: Check) -> list[str]:
    """What is wrong of one check; its sentence stands for the rest."""
    name = f"{check.key} {check.part} {check.at}"
    if check.status is Status.NOT_CHECKED:
        return [] if check.sentence and math.isnan(check.ratio) else [f"{name}: open, but with a ratio"]
    found = []
    if math.isnan(check.ratio):  # nothing is left of the capacity
        if check.status is not Status.FAILS or not check.sentence or check.capacity > 0 or check.steps:
            found.append(f"{name}: no number, but not a failed check in words")
        return found
    if not math.isfinite(check.ratio) or check.ratio < 0:
        found.append(f"{name}: ratio {check.ratio}")
    if (check.status is Status.PASSES) != (check.ratio <= 1):
        found.append(f"{name}: {check.status.value} at {check.ratio}")
    if (
        check.clashes
    ):  # two pieces in one place: how deep by the tape, in the sentence of the piece, and no ratio
        deep = feet_inches(math.ceil(check.demand * 16 - 1e-6) / 16)
        if (
            check.steps
            or check.shown_ratio != "clash"
            or (check.part != "platform" and deep not in check.sentence)
        ):
            found.append(f"{name}: a clash of {deep} that is printed as a ratio, or not said")
        return found
    if check.calculation is None:
        if check.demand != 0 or check.ratio != 0 or check.capacity < 0:
            found.append(f"{name}: nothing printed, but demand {check.demand}")
        return found
    demand, capacity, ratio = printed(check)
    for word, said, shown in (
        ("demand", check.demand, demand),
        ("capacity", check.capacity, capacity),
        ("ratio", check.ratio, ratio),
    ):
        if not close(said, shown):
            found.append(f"{name}: {word} {said}, printed {shown}")
    if not close(ratio, demand / capacity):
        found.append(f"{name}: prints {demand} / {capacity} = {ratio}")
    return found


def worse_cases(check: Check) -> list[str]:
    """Says where another case of the row's own calculation has a greater ratio than what is printed."""
    calculation = check.calculation
    if calculation is None or math.isnan(check.ratio):
        return []
    function, _, ratios = calculation._runs[-1]
    assert function.__name__ == RATIO
    cases = np.broadcast_to(np.asarray(ratios, float), calculation.shape)[check.index[:-1]]
    most = float(np.nanmax(cases, initial=0.0))
    if most <= check.ratio * (1 + 1e-6) + 1e-9:
        return []
    return [f"{check.key} {check.part} {check.at}: {check.ratio} is printed, {most} is met"]
