"""Which lateral case and state govern a check, and under which number the sheet of lateral stability lists them."""

from __future__ import annotations

from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.limit_states.check import Check, Topic
from bolewright.platform.results.results import Results
from bolewright.sheets.governing import governing_of
from bolewright.sheets.unit_pushes import BY_ONE_PLACE

Place = tuple[int, int]  # numbers of the case, and of the state
# Checks of a lateral case that name no combination, or that of factored loads.
NAMED_OTHERWISE = ("tree.clearance", "footing.concrete_lateral")


def governing_pushes(results: Results) -> list[Place]:
    """Number of case and of state of every lateral case that governs a kind of part in a limit state, in order."""
    return sorted(
        {
            place
            for topic in Topic
            for check in governing_of(results.of(topic))
            if (place := lateral_place(results.lateral, check)) is not None
        }
    )


def push_name(results: Results, check: Check) -> str:
    """Number under which the push that governs a check stands in the tables; empty without one."""
    place = lateral_place(results.lateral, check)
    found = governing_pushes(results)
    return str(found.index(place) + 1) if place in found else ""


def lateral_place(lateral: LateralAnalysis, check: Check) -> Place | None:
    """The lateral case that governs a check, and how bases, joints and bolts are taken; None for another check."""
    if not check.index or not check.steps or check.key in BY_ONE_PLACE:
        return None
    case = check.index[-1]
    if case >= lateral.cases.count or lateral.cases.words[case] not in check.where:
        return None
    if check.combination != lateral.cases.names[case] and check.key not in NAMED_OTHERWISE:
        return None
    return case, next((i for i, s in enumerate(lateral.every) if s.words in check.where), 0)
