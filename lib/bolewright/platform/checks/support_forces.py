"""What a support has to hold with wind, sway and the forces of its braces: at its cap or seat, and at a post's foot."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from bolewright.bracing.standing import resultant_lateral_force
from bolewright.mechanics.ties import exceeds, first_least, first_most
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.analysis.post_values import post_weight
from bolewright.platform.checks.caps import run_cap_resultant
from bolewright.platform.checks.lateral import run_lateral_force, run_load, unprinted, weight_on
from bolewright.platform.checks.post_forces import run_foot_force
from bolewright.platform.loads.combine import Array

Force = tuple[float, str]


@dataclass(frozen=True)
class SupportForces:
    """Greatest and least load down and greatest lateral force at one place of a support (lb), with combinations.

    ``at`` is "cap" or "foot" of a post, else "seat". The greatest load at a post's foot has the post's own weight in
    it, the least has not, as the checks of its footing take them. The least at a cap is with braces that have slack or
    without, the lesser. ``lateral`` is None where a part holds nothing laterally.
    """

    mark: str
    at: str
    most: Force
    least: Force
    lateral: Force | None


def support_forces(lateral: LateralAnalysis) -> tuple[SupportForces, ...]:
    """All of them, in the order of the file; none where nothing holds the platform laterally."""
    if lateral.loose or not lateral.states:
        return ()
    return tuple(one for i in range(len(lateral.frames)) for one in _of(lateral, i))


def _of(lateral: LateralAnalysis, i: int) -> Iterator[SupportForces]:
    frame, run = lateral.frames[i], unprinted()
    mark = frame.support.mark

    def found(at: str, force: Callable[[State, bool], Array], dead: Array | float = 0.0) -> SupportForces:
        foot = at == "foot"
        heavy = weight_on(lateral, i, most=True, foot=foot)
        light = weight_on(lateral, i, most=False, foot=foot)
        down = [
            run_load(run, state, i, np.maximum(weight, 0.0) + dead, foot=foot, slack=slack)
            for state in lateral.states
            for weight, slack in heavy
        ]
        up = [
            run_load(run, state, i, weight, foot=foot, slack=slack)
            for state in lateral.states
            for weight, slack in light
        ]
        loose = {slack for _, slack in (*heavy, *light)}
        across = _most(lateral, [force(state, slack) for state in lateral.states for slack in sorted(loose)])
        return SupportForces(
            mark, at, _most(lateral, down), _least(lateral, up), across if across[0] > 0 else None
        )

    if not isinstance(frame, PostFrame):
        yield found("seat", lambda state, slack: _across(lateral, state, i))
        return
    yield found("cap", lambda state, slack: run_cap_resultant(run, lateral, state, i, frame, slack=slack))
    weight = post_weight(lateral.path, frame.support) * lateral.cases.D
    yield found("foot", lambda state, slack: _at_foot(lateral, state, i, frame), weight)


def _across(lateral: LateralAnalysis, state: State, i: int) -> Array:
    V = [run_lateral_force(unprinted(), lateral, state, i, which) for which in (0, 1)]
    return np.asarray(unprinted()(resultant_lateral_force, V_1=V[0], V_2=V[1]), dtype=float)


def _at_foot(lateral: LateralAnalysis, state: State, i: int, frame: PostFrame) -> Array:
    run = unprinted()
    V = [
        run_foot_force(run, lateral, state, frame, which, run_lateral_force(run, lateral, state, i, which))
        for which in (0, 1)
    ]
    return np.asarray(run(resultant_lateral_force, V_1=V[0], V_2=V[1]), dtype=float)


def _most(lateral: LateralAnalysis, states: list[Array]) -> Force:
    best: Force | None = None
    for values in states:
        case = first_most(values[0])
        value = float(values[0, case])
        if best is None or exceeds(value, best[0]):
            best = value, lateral.cases.names[case]
    assert best is not None
    return best


def _least(lateral: LateralAnalysis, states: list[Array]) -> Force:
    best: Force | None = None
    for values in states:
        case = first_least(values[0])
        value = float(values[0, case])
        if best is None or exceeds(best[0], value):
            best = value, lateral.cases.names[case]
    assert best is not None
    return best
