"""Boards that run out past the last joist: by their lever they load it with more than what lies on them.

The panels hand the whole load past the last joist to it, without the lever; here its worst check under load over the
deck is made again with all of that joist's load raised by what the lever adds. One person past it is in the load path.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from bolewright.calculation import Calculation
from bolewright.formulas import formula
from bolewright.platform.check import Check, Topic, demand_capacity_ratio, judge
from bolewright.platform.checks.members import NAMES
from bolewright.platform.combine import PERSON
from bolewright.platform.load_path import LoadPath
from bolewright.platform.parts import Kind
from bolewright.units import NONE, Area, Ratio

TOPICS = (Topic.JOISTS, Topic.CARRIERS, Topic.HANGERS)
LITTLE = 0.005  # more than this of a member's load by the lever is checked
LIMIT_STATE = "lever of the boards past it"
NOTE = (
    "Its own weight and the guards on it are raised as well, and the next member in is not relieved: on the safe side. "
    "Carriers and supports get what they got, moved by a fraction of an inch."
)


@formula("Statics (lever of the boards past the last member)")
def lever_factor(A_l: Area, A_t: Area) -> Ratio:
    """Load on the last member under the boards, with the lever of what lies past it, over that without.

    Parameters: A_l deck past the member, each part times its distance from the member over the distance back to the
    next one in (in²); A_t all deck that the member bears (in²). Returns: k. Source: statics of a board on two members.

    >>> lever_factor(512.0, 1280.0 * 8)  # 16 in. of 128 in. past it: c/2 = 4 in. of an 8 in. overhang, 16 in. back
    1.05
    """
    k: Ratio = 1 + A_l / A_t
    return k


@formula("definition")
def raised_ratio(r: Ratio, k: Ratio) -> Ratio:
    """Ratio of the worst check of a member with its load raised.

    Parameters: r the ratio of that check; k factor on the load. Returns: r_k. Source: stress in proportion to load.
    """
    r_k: Ratio = r * k
    return r_k


def _worst_of(check: Check) -> tuple[float, str, Check]:
    """Largest ratio of a check under load over the deck, its combination, and the check itself."""
    calculation = check.calculation
    if check.combination != PERSON or calculation is None or calculation.shape[-1] != len(NAMES):
        return (0.0 if check.combination == PERSON else check.ratio), check.combination, check
    row = check.index[0]
    columns = [column for column, name in enumerate(NAMES) if name != PERSON]
    ratios = [_ratio(calculation, (row, column)) for column in columns]
    most = int(np.argmax(ratios))
    return ratios[most], NAMES[columns[most]], check


def _ratio(calculation: Calculation, index: tuple[int, int]) -> float:
    steps = calculation.at(index)
    return next(s.result for s in reversed(steps) if s.formula.name == "demand_capacity_ratio")


def board_lever_checks(path: LoadPath, checks: Iterable[Check]) -> list[Check]:
    """For each member that boards run out past: its worst check under load over the deck, with their lever."""
    made = list(checks)
    found = []
    for member in path.layout.flush:
        panels = [panel for panel in path.panels if panel.member == member.mark]
        A_l = sum(panel.lever.share * panel.area for panel in panels if panel.lever)
        A_t = sum(panel.area for panel in panels)
        own = [c for c in made if c.part == member.mark and c.ratio > 0 and c.topic in TOPICS]
        if not own or A_l <= LITTLE * A_t:
            continue
        r, combination, worst = max((_worst_of(check) for check in own), key=lambda item: item[0])
        calculation = Calculation((1, 1))
        run = calculation.run
        r_k = run(raised_ratio, r=r, k=run(lever_factor, A_l=A_l, A_t=A_t))
        run(demand_capacity_ratio, demand=r_k, capacity=1.0)
        found += judge(
            calculation,
            [member.mark],
            [combination],
            topic=Topic.JOISTS if member.kind is Kind.JOIST else Topic.CARRIERS,
            limit_state=LIMIT_STATE,
            demand=r_k,
            capacity=1.0,
            unit=NONE,
            clause="Statics",
            says=f"{worst.limit_state} with the lever of the boards past it",
            where=lambda row, column, worst=worst: f"the worst of its checks: {worst.limit_state}",  # type: ignore[misc]
            notes=(NOTE,),
        )
    return found
