"""Which lateral case and state govern a check, and under which number the sheet of lateral stability lists them."""

from __future__ import annotations

from collections.abc import Sequence

from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.limit_states.check import Check, Topic
from bolewright.platform.results.results import Results
from bolewright.sheets.governing import governing_of
from bolewright.sheets.unit_pushes import BY_ONE_PLACE

Place = tuple[int, int]  # numbers of the case, and of the state
# Checks of a lateral case that name no combination, or that of factored loads.
NAMED_OTHERWISE = ("tree.clearance", "footing.concrete_lateral", "tree_bolt.slot")


def governing_pushes(results: Results) -> list[Place]:
    """Number of case and of state of every lateral case that governs a row of the sheets, in order."""
    return sorted(set(places_of(results.lateral, results.checks).values()))


def worked_out(results: Results) -> set[Place]:
    """Those of them that govern a kind of part in a limit state, which is worked out line by line."""
    governing = [check for topic in Topic for check in governing_of(results.of(topic))]
    return set(places_of(results.lateral, governing).values())


def places_of(lateral: LateralAnalysis, checks: Sequence[Check]) -> dict[int, Place]:
    """The lateral case that governs a check, by its id; without those that none governs."""
    words = [state.words for state in lateral.every]
    found = ((id(check), _place(lateral, check, words)) for check in checks)
    return {check: place for check, place in found if place is not None}


def push_names(results: Results) -> dict[int, str]:
    """Number under which the push that governs a check stands in the tables, by the id of the check."""
    places = places_of(results.lateral, results.checks)
    number = {place: f"{i}" for i, place in enumerate(sorted(set(places.values())), start=1)}
    return {check: number[place] for check, place in places.items()}


def push_name(results: Results, check: Check) -> str:
    """Number under which the push that governs a check stands in the tables; empty without one."""
    place = lateral_place(results.lateral, check)
    found = governing_pushes(results)
    return str(found.index(place) + 1) if place in found else ""


def lateral_place(lateral: LateralAnalysis, check: Check) -> Place | None:
    """The lateral case that governs a check, and how bases, joints and bolts are taken; None for another check."""
    return _place(lateral, check, [state.words for state in lateral.every])


def _place(lateral: LateralAnalysis, check: Check, words: Sequence[str]) -> Place | None:
    if not check.index or not check.steps or check.key in BY_ONE_PLACE:
        return None
    case = check.index[-1]
    if case >= lateral.cases.count or lateral.cases.words[case] not in check.where:
        return None
    if check.combination != lateral.cases.names[case] and check.key not in NAMED_OTHERWISE:
        return None
    return case, next((i for i, said in enumerate(words) if said in check.where), 0)
