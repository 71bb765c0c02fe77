"""Plain concrete of the pad under a post's foot, under factored loads: of weight, and with wind and sway."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from bolewright.bracing.standing import load_with_sway
from bolewright.calculation import Calculation
from bolewright.ground.factored_load import factored_load, factored_load_lateral
from bolewright.ground.footing import (
    effective_thickness,
    equal_area_square,
    factored_soil_pressure,
    footing_moment,
    footing_moment_strength,
    footing_shear_one_way,
    footing_shear_strength_one_way,
    footing_shear_strength_two_way,
    footing_shear_two_way,
    pad_limit_states,
    square_in_round,
)
from bolewright.ground.pier import concrete_bearing_strength
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.analysis.post_values import post_timber, post_weight
from bolewright.platform.checks.lateral import worse
from bolewright.platform.limit_states.check import Check, judge, nothing_asked
from bolewright.platform.loads.combine import Array, Envelope, envelope, support_envelope
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Footing, Support
from bolewright.units import POUND, POUND_INCH, Unit

KEY = "footing.concrete_lateral"
SPREAD = 2.0  # across to 1 down: how load spreads to the area A_2 (ACI 318-19, 14.5.6.1)
BEARING_NOTE = (
    "The post's end grain stands on the concrete over its whole section; A_2 is as large as load spreads 2 to 1 in the "
    "pad, of a round one in the square inside it (ACI 318-19, 14.5.6.1)."
)
LATERAL_NOTE = (
    "1.0W beside 1.0L and 0.5S (ACI 318-19, 5.3.1d): what the case of allowable stress adds, with 0.6W or 0.45W in it, "
    "is divided by that share, the sway of people in it too (on the safe side); sway without wind counts 1.6 as live "
    "load does (5.3.1b)."
)


@dataclass(frozen=True)
class _Pad:
    """Pad of a post: side of the square that it counts as, side and area of the post, spread area (in, in²)."""

    footing: Footing
    B: float
    c: float
    A_1: float
    A_2: float


@dataclass(frozen=True)
class _State:
    """A limit state of the concrete: name in its key, its words, its formulas and unit."""

    name: str
    says: str
    demand: Callable[..., Any] | None
    capacity: Callable[..., Any]
    unit: Unit


_BENDING = _State(
    "concrete_bending", "bending of the concrete", footing_moment, footing_moment_strength, POUND_INCH
)
_SHEAR = _State(
    "concrete_shear",
    "one-way shear of the concrete",
    footing_shear_one_way,
    footing_shear_strength_one_way,
    POUND,
)
_PUNCHING = _State(
    "concrete_punching",
    "punching of the concrete",
    footing_shear_two_way,
    footing_shear_strength_two_way,
    POUND,
)
_BEARING = _State(
    "concrete_bearing", "bearing on the concrete under the post", None, concrete_bearing_strength, POUND
)


def concrete_checks(path: LoadPath, support: Support, footing: Footing) -> list[Check]:
    """Plain concrete of a post's pad under its factored weight."""
    env = support_envelope(path, support.mark)
    pad = _pad(path, support, footing)
    checks = []
    for state, note in _applying(pad):
        calculation = Calculation((1, 1))
        P_u = calculation.run(
            factored_load,
            D=float(env.D[0]) + post_weight(path, support),
            L=_live(env),
            S=float(env.S_most[0]),
        )
        key = f"footing.{state.name}"
        if P_u <= 0:
            sentence = (
                f"{support.mark} is lifted by its factored load, so that nothing presses on its concrete."
            )
            checks.append(nothing_asked(support.mark, key, sentence, case="factored"))
            continue
        checks.append(_judge(calculation, support.mark, key, state, pad, P_u, ("factored",), (note,)))
    return checks


def concrete_lateral_checks(lateral: LateralAnalysis) -> list[Check]:
    """Plain concrete of every post's pad under its factored load with wind and sway: the governing limit state."""
    if lateral.loose:
        return []
    cases = lateral.cases
    factors = factors_of(cases.L, cases.S, cases.W)
    names = tuple(_name(L, S, W) for L, S, W in zip(cases.L, cases.S, cases.W, strict=True))
    return [
        check
        for i, frame in enumerate(lateral.frames)
        if isinstance(frame, PostFrame)
        for check in worse(
            one
            for on in lateral.tight
            for env in [envelope(lateral.path, on.feet[i][None, :])]
            for state in lateral.states
            if on is lateral.knees_in(state)
            for one in _lateral(lateral, state, i, frame, env, factors, names)
        )
    ]


def _lateral(
    lateral: LateralAnalysis,
    state: State,
    i: int,
    frame: PostFrame,
    env: Envelope,
    factors: tuple[Array, Array, Array],
    names: tuple[str, ...],
) -> Iterator[Check]:
    """The limit states in one state of the bases; ``env`` is the envelope of the weight on the post's foot."""
    path, support, cases = lateral.path, frame.support, lateral.cases
    pad = _pad(path, support, path.layout.project.footings[support.footing or ""])
    for one, note in _applying(pad):
        calculation = Calculation((1, cases.count))
        R_h = calculation.run(
            load_with_sway, R=0.0, R_o=state.over[i][None, :], R_k=state.brace_reaction[i][None, :]
        )
        P_u = calculation.run(
            factored_load_lateral,
            D=float(env.D[0]) + post_weight(path, support),
            L=_live(env),
            S=float(env.S_most[0]),
            R_h=R_h,
            gamma_L=factors[0],
            gamma_S=factors[1],
            gamma_h=factors[2],
        )
        pressed = np.maximum(P_u, 0.0)
        yield _judge(
            calculation, support.mark, KEY, one, pad, pressed, names, (note, LATERAL_NOTE),
            lambda row, column: f"{cases.words[column]}; {state.words}",
        )  # fmt: skip


def factors_of(L: Array, S: Array, W: Array) -> tuple[Array, Array, Array]:
    """Strength factors on live load, snow and what wind and sway add, for cases with these factors of allowable stress.

    >>> tuple(float(g[0]) for g in factors_of(np.array([0.75]), np.array([0.0]), np.array([0.5])))
    (1.0, 0.5, 2.0)
    >>> tuple(float(g[0]) for g in factors_of(np.array([1.0]), np.array([0.0]), np.array([0.0])))
    (1.6, 0.5, 1.6)
    """
    windy, snowy = W > 0, (W == 0) & (S > 0)
    gamma_L = np.where(windy | snowy, 1.0, 1.6)
    gamma_S = np.where(snowy, 1.6, 0.5)
    gamma_h = np.where(windy, 1 / np.where(windy, W, 1.0), 1.6 / np.where(L > 0, L, 1.0))
    return gamma_L, gamma_S, gamma_h


def _name(L: float, S: float, W: float) -> str:
    if W > 0:
        return "1.2D + 1.0W + 1.0L + 0.5S"
    return "1.2D + 1.6S + 1.0L, with sway" if S > 0 else "1.2D + 1.6L + 0.5S, with sway"


def _live(env: Envelope) -> float:
    """Greatest live load: in patterns with a push on a guard, or one person (lb)."""
    return max(float(env.L_most[0] + env.guard_most[0]), float(env.person_most[0]), 0.0)


def _pad(path: LoadPath, support: Support, footing: Footing) -> _Pad:
    section, _ = post_timber(path, support)
    c = min(section.b, section.d)
    B = float(equal_area_square(d_c=footing.width)) if footing.shape == "round" else footing.width
    spread = (
        2 * SPREAD * footing.pad
    )  # the like figure grows on all sides, as far as the nearer side of the pad
    inside = float(square_in_round(d_c=footing.width)) if footing.shape == "round" else B
    grows = max(0.0, min(spread, inside - max(section.b, section.d)))
    return _Pad(footing, B, c, section.A, (section.b + grows) * (section.d + grows))


def _applying(pad: _Pad) -> Iterator[tuple[_State, str]]:
    """Limit states that the concrete under a post has, and what is to be said of each."""
    states = pad_limit_states(pad.B, pad.c, float(effective_thickness(h=pad.footing.pad)))
    says = f"Limit states of this base: {states.says}."
    for applies, state in (
        (states.flexure, _BENDING),
        (states.one_way_shear, _SHEAR),
        (states.two_way_shear, _PUNCHING),
    ):
        if applies:
            yield state, says
    yield _BEARING, BEARING_NOTE


def _judge(
    calculation: Calculation,
    part: str,
    key: str,
    state: _State,
    pad: _Pad,
    P_u: Any,
    names: tuple[str, ...],
    notes: tuple[str, ...],
    where: Callable[[int, int], str] = lambda row, column: "",
) -> Check:
    run, footing = calculation.run, pad.footing
    known: dict[str, Any] = {
        "B": pad.B,
        "c": pad.c,
        "f_c": footing.f_c,
        "lam": 1.0,
        "beta": 1.0,
        "A_1": pad.A_1,
        "A_2": pad.A_2,
    }
    demand = P_u
    if state.demand is not None:
        if footing.shape == "round":
            run(equal_area_square, d_c=footing.width)
        known["h_e"] = run(effective_thickness, h=footing.pad)
        known["q_u"] = run(factored_soil_pressure, P_u=P_u, B=pad.B)
        demand = run(state.demand, **_taken(state.demand, known))
    capacity = run(state.capacity, **_taken(state.capacity, known))
    return judge(
        calculation,
        [part],
        names,
        key=key,
        demand=demand,
        capacity=capacity,
        unit=state.unit,
        says=state.says,
        notes=notes,
        where=where,
    )[0]


def _taken(function: Callable[..., Any], known: dict[str, Any]) -> dict[str, Any]:
    return {name: known[name] for name in function.formula.parameters}  # type: ignore[attr-defined]
