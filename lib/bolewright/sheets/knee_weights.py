"""Weight on the knee braces in the cases that govern: load on the beam, its deflection, the force in every knee."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from bolewright.calculation import Step
from bolewright.platform.analysis.knee_weight import Way, loads_for
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.limit_states.check import Check, Topic
from bolewright.platform.loads.balance import BalanceError
from bolewright.platform.loads.combine import Array
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Block, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits
from bolewright.sheets.governing import governing_of
from bolewright.sheets.lateral_statics import governing_loads
from bolewright.sheets.statics import acting_on
from bolewright.units import feet_inches

FORMULA = "brace_force_from_weight"
_SAME = 1e-9
Place = tuple[int, int, int, Way]  # case, state, knee, and which way its force is greatest
NOTE = (
    "δ_v is the deflection of the beam at a knee under these loads with no knees there, below 0 where it lifts. The "
    "knees hold it back together: c_v δ_v of each knee is 1/k_b times its own F_w, with c_v² times its row of the "
    "beam's deflections and c_p² over k_p of its post, times the F_w of each knee in it. So k_v of a knee is F_w over "
    "the sum of its row times the F_w of all knees of the beam, and k_p that of its post alone where it has one knee: "
    "with a fixed base held 12 in. under grade, else hinged at grade."
)


def knee_weight_blocks(results: Results) -> list[Block]:
    """The loads, deflections and forces behind every force in a knee from weight that governs; none without knees.

    Raises BalanceError where they are not those of the check; a fault of the program.
    """
    rows = [_row(results.lateral, place) for place in _places(results)]
    rows += dict.fromkeys(_of_beams(results))
    if not rows:
        return []
    columns = (
        "knee",
        "lateral load",
        "combination",
        "loads on its beam from its start (lb)",
        "δ_v (in)",
        "F_w (lb)",
    )
    table = Table(columns, tuple(rows), "Weight on the knee braces, in every case that governs", "llllll")
    return [table, Statement(StatementKind.NOTE, (NOTE,))]


def _places(results: Results) -> list[Place]:
    found: set[Place] = set()
    for topic in Topic:
        for check in governing_of(results.of(topic)):
            for step in check.steps:
                if step.formula.name == FORMULA and (place := _place(results.lateral, check, step)):
                    found.add(place)
    return sorted(found, key=lambda place: (*place[:3], place[3].value))


def _place(lateral: LateralAnalysis, check: Check, step: Step) -> Place | None:
    """Which case, state and knee a step was run for: those that have its numbers."""
    case = check.index[-1]
    wanted = [step.arguments[name] for name in ("delta_v", "k_v", "k_p")]
    for number, state in enumerate(lateral.states):
        borne = lateral.weight(state).borne
        for i, knee in enumerate(lateral.knee_influence.knees):
            for way in (Way.PUSH, Way.PULL):
                one = borne[knee.brace.mark, way]
                has = [float(a[case]) for a in (one.delta_v, one.k_v, one.k_p)]
                if state.words in check.where and np.allclose(has, wanted, rtol=_SAME, atol=0.0):
                    return case, number, i, way
    return None


def _row(lateral: LateralAnalysis, place: Place) -> tuple[str, ...]:
    case, number, i, way = place
    state = lateral.states[number]
    on = lateral.knees_in(state)
    knee = on.knees[i]
    loads = loads_for(lateral.path, on, lateral.cases, (i, way, case), (lateral.tilt, state.turn))
    deflected = on.rise @ loads
    checked = float(lateral.weight(state).borne[knee.brace.mark, way].delta_v[case])
    if not math.isclose(float(deflected[i]), checked, rel_tol=1e-6, abs_tol=1e-9):
        raise BalanceError(f"{knee.brace.mark}: deflection {deflected[i]} by its loads, {checked} checked")
    return _printed(lateral, knee.brace.mark, knee.beam.mark, (case, state), loads)


def _printed(
    lateral: LateralAnalysis, name: str, beam: str, where: tuple[int, State], loads: Array
) -> tuple[str, ...]:
    """A row of the table: the loads on a beam in one case and state, and what they do to its knees."""
    case, state = where
    on = lateral.knees_in(state)
    deflected, forces = on.rise @ loads, on.force @ loads
    own = [j for j, other in enumerate(on.knees) if other.beam.mark == beam]
    lying = [
        f"{x.label} {digits(x.pounds)} at {feet_inches(x.at)}"
        for x in acting_on(lateral.path.effects[beam], loads)
        if abs(x.pounds) > _SAME
    ]
    return (
        name,
        f"{_capital(lateral.cases.words[case])}; {state.words}",
        lateral.cases.names[case],
        "; ".join(lying),
        "; ".join(_each(lateral, own, deflected)),
        "; ".join(_each(lateral, own, forces)),
    )


def _each(lateral: LateralAnalysis, own: list[int], values: object) -> Iterator[str]:
    for j in own:
        yield f"{lateral.knee_influence.knees[j].brace.mark} {digits(float(np.asarray(values)[j]))}"


def _of_beams(results: Results) -> Iterator[tuple[str, ...]]:
    """The knees in the patterns by which shear and moment of a beam govern, as its statics take them."""
    lateral = results.lateral
    for topic in Topic:
        for check in governing_of(results.of(topic)):
            found = governing_loads(results, check)
            if found is None or found.slack or check.part not in lateral.brace_reactions:
                continue
            case, number = found.place
            state = lateral.every[number]
            yield _printed(
                lateral, "all", check.part, (case, state), found.loads + lateral.tilt @ state.turn[:, case]
            )


def _capital(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"
