"""The hand route held against the frame: a difference over 5 % leaves the platform not checked.

A small value may differ by 3 % of the largest of its kind."""

from __future__ import annotations

from bolewright.calculation import Calculation
from bolewright.mechanics.stability import UnstableError
from bolewright.mechanics.ties import most_of
from bolewright.platform.check import Check, judge, not_checked
from bolewright.platform.load_path import LoadPath
from bolewright.platform.second_opinion import FLAG, SLIGHT, Compared, second_opinion
from bolewright.platform.sideways import Sideways
from bolewright.platform.sideways_model import sideways_model
from bolewright.units import PERCENT

DIGITS = 1e-4  # a smaller difference is in the digits that solving the frame loses, another on each machine
SLIGHT_NOTE = (
    "A difference counts against the value itself; against a small value so that 5 % is "
    f"{100 * SLIGHT:.0f} % of the largest of its kind."
)


def compare(path: LoadPath, sideways: Sideways) -> tuple[list[Compared], str]:
    """What both routes give, and why the frame model could not be solved; empty when it was."""
    compared: list[Compared] = []
    try:
        compared += second_opinion(path)
        compared += sideways_model(sideways)
    except UnstableError as error:
        return compared, str(error)
    return compared, ""


def second_opinion_checks(compared: list[Compared], unsolved: str = "") -> list[Check]:
    """One check: the largest difference between the two routes, against 5 %."""
    if unsolved:
        reason = f"The frame model of the whole platform cannot be solved ({unsolved}): an engineer must look at it."
        return [not_checked("platform", "platform.comparison", reason)]
    worst = most_of(compared, lambda c: abs(c.difference))
    if worst.flagged:
        count = sum(c.flagged for c in compared)
        return [
            not_checked(
                "platform",
                "platform.comparison",
                f"The hand route and the frame differ in {count} of {len(compared)} values, most in the "
                f"{worst.quantity} of {worst.part} under {worst.load} ({worst.by_hand:,.4g} against "
                f"{worst.by_frame:,.4g} {worst.unit}), likely because {worst.why}: an engineer must look at it, or "
                "give each member two supports only.",
            )
        ]
    calculation = Calculation((1, 1))
    difference = abs(worst.difference)
    difference = difference if difference >= DIGITS else 0.0
    return judge(
        calculation,
        ["platform"],
        ["D, L, 0.6W"],
        key="platform.comparison",
        demand=100 * difference,
        capacity=100 * FLAG,
        unit=PERCENT,
        says="the difference between hand route and frame",
        notes=(SLIGHT_NOTE,),
    )
