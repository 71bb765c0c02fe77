"""Shear of beam and post at the bolts of a knee brace, which press across their grain (NDS 2018, 3.4.3.3).

No load is left out near a support here, as 3.4.3.3 says. The knee is looked at as it takes up weight, and as if it had
slack and took none: each leaves the greater shear on one side of it. Brace in compression and in tension have
each its own depth d_e and its own shear: the greatest of the patterns of weight under which the brace is in
compression, or in tension.
"""

from __future__ import annotations

from hashlib import blake2b

import numpy as np

from bolewright.bracing.joint import depth_from_loaded_edge, force_across_grain
from bolewright.bracing.knee import brace_compression, brace_tension
from bolewright.calculation import Calculation
from bolewright.platform.analysis.knee_force import knee_reaction
from bolewright.platform.analysis.knee_weight import Way
from bolewright.platform.analysis.knees import Knee
from bolewright.platform.analysis.lateral import LateralAnalysis, State, range_over
from bolewright.platform.checks.beam_added import added_effect, lifted_by_knees
from bolewright.platform.checks.brace_ends import place_of, run_brace_forces
from bolewright.platform.checks.lateral import (
    Run,
    judge_lateral,
    open_while_loose,
    run_lateral_force,
    start,
    unprinted,
    worse,
)
from bolewright.platform.checks.post_forces import run_cap_force, run_foot_force
from bolewright.platform.layout.brace_bolts import BraceBolts
from bolewright.platform.layout.influence import Influence
from bolewright.platform.layout.tees import stands_alone
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import Array, envelope
from bolewright.platform.loads.lateral_loads import LateralCases
from bolewright.platform.loads.load_path import LoadPath
from bolewright.timber.adjusted_values import adjusted_shear
from bolewright.timber.adjustment import Factors, Service, factors
from bolewright.timber.material import DesignValues
from bolewright.timber.shear import (
    connection_near_end,
    connection_shear_away_from_end,
    connection_shear_near_end,
)
from bolewright.units import POUND

NEAR_NOTE = (
    "Its bolts are less than five times the depth from the end of the timber, so (d_e/d)² counts (NDS 2018, "
    "3.4.3.3(a)); farther from the end, or in a deeper timber, it would not."
)
AWAY_NOTE = "Its bolts are at least five times the depth from the end of the timber (NDS 2018, 3.4.3.3(b))."
WEIGHT_NOTE = (
    "The knee is taken as it takes up weight, and as if it had slack and took none; the worse shear counts."
)
PATTERN_NOTE = "Only patterns of weight under which the brace {does} count."
WORDS = {Way.PUSH: "brace in compression", Way.PULL: "brace in tension"}
_SAME_PLACE = 1e-6  # in
_FORCE_LEFT = 1.0  # lb: a brace that pulls, or pushes, less than this does not do so
# Pounds of shear that a pound of brace force is traded for: each of these bounds the shear from above.
TRADED = np.array([0.0, 0.125, 0.25, 0.5, 0.75, 1.0, 1.5])[:, None]


def joint_shear_checks(lateral: LateralAnalysis) -> list[Check]:
    """Shear at the bolts of every lapped knee, in its beam and in its post."""
    if lateral.loose:
        return [
            open_while_loose(lateral, part, f"{kind}.shear_at_bolts", knee.brace.mark)
            for knee in lateral.knees
            if knee.bolts is not None
            for part, kind in ((knee.beam.mark, "beam"), (knee.brace.support, "post"))
        ]
    checks: list[Check] = []
    for knee in lateral.knees:
        if knee.bolts is not None:
            found = [
                check
                for state in lateral.states
                for check in (
                    *_beam(lateral, state, knee, knee.bolts),
                    *_post(lateral, state, knee, knee.bolts),
                )
            ]
            checks += worse(found)
    return checks


def _beam(lateral: LateralAnalysis, state: State, knee: Knee, bolts: BraceBolts) -> list[Check]:
    """Shear of the beam beside the bolts: brace in compression, pressed to the top edge, and in tension."""
    beam = knee.beam
    effects = lateral.path.effects[beam.mark]
    timber = beam.timber
    group = factors(effects.values, Service(wet=timber.wet, incised=timber.counts_incised))
    holes = [hole.z for hole in bolts.holes_on(beam.mark)]
    at, *places = bolt_places(knee, bolts)
    end = min(min(places), beam.line.length - max(places))
    unloaded = {Way.PUSH: min(holes), Way.PULL: beam.section.d - max(holes)}
    return [
        _judge(
            lateral, state, knee, beam.mark, "beam", way, start(lateral),
            shear_in_beam(lateral, state, knee, [at, *places], way), effects.values, group,
            beam.width, beam.section.d, unloaded[way], end,
        )
        for way in ways_of(lateral, state, knee)
    ]  # fmt: skip


def bolt_places(knee: Knee, bolts: BraceBolts) -> list[float]:
    """Where a knee meets its beam, and where its bolts are, along the beam (in)."""
    return [knee.at, *(knee.own + knee.side * hole.x for hole in bolts.holes_on(knee.beam.mark))]


def ways_of(lateral: LateralAnalysis, state: State, knee: Knee) -> list[Way]:
    """Whether the brace is in compression, in tension, or both; in compression where it does neither."""
    ways = []
    for way, formula in ((Way.PUSH, brace_compression), (Way.PULL, brace_tension)):
        run = unprinted()
        F_b, F_w = run_brace_forces(run, lateral, state, knee, way)
        if float(np.max(run(formula, F_b=F_b, F_w=F_w))) > _FORCE_LEFT:
            ways.append(way)
    return ways or [Way.PUSH]


def shear_in_beam(
    lateral: LateralAnalysis,
    state: State,
    knee: Knee,
    places: list[float],
    way: Way,
    besides: tuple[Array, Array] | None = None,
) -> Array:
    """Greatest shear from the last station before some places to the first beyond them, in every case (lb).

    In one of the states of the analysis; found once.

    Of the patterns of weight those count under which the brace is in compression, or in tension, as ``way`` says.
    ``besides``: what another model adds to the shear before the knee, and past it.
    """
    beam = knee.beam
    key = ("shear at bolts", state.words, knee.brace.mark, way, *places)
    if besides is None and key in lateral.found:  # the independent check asks for it, too
        return lateral.found[key]
    effects = lateral.path.effects[beam.mark]
    stations = effects.stations
    low = max(int(np.searchsorted(stations, min(places), side="left")) - 1, 0)
    high = min(int(np.searchsorted(stations, max(places), side="right")), stations.size - 1)
    rows = np.arange(low, high + 1)
    brace_reactions = lateral.brace_reactions.get(beam.mark)
    greatest = np.zeros(lateral.cases.count)
    for name in ("shear_left", "shear_right"):
        picked = whole(getattr(effects, name)[rows])
        level = added_effect(lateral, state, beam, name, rows).total
        if besides is not None:
            past = stations[rows] > knee.at - (_SAME_PLACE if name == "shear_right" else -_SAME_PLACE)
            level = level + np.where(past[:, None], besides[1], besides[0])
        if brace_reactions is None:
            most, least = range_over(lateral.path, picked, lateral.cases)
            greatest = np.maximum(greatest, np.maximum(most + level, -(least + level)).max(axis=0))
            continue
        taken = np.asarray(
            getattr(brace_reactions, name)[rows]
            @ lifted_by_knees(lateral.knees_in(state), brace_reactions.knees)
        )
        with_weight = picked - taken, level - taken @ lateral.tilt @ state.turn
        for (weight, more), slack in ((with_weight, False), ((picked, level), True)):
            V = _under_force(lateral, state, knee, way, weight, more, slack=slack)
            greatest = np.maximum(greatest, V)
    if stands_alone(beam):  # between the post and a knee that takes all of an arm's weight
        run = unprinted()
        F_b, F_w = run_brace_forces(run, lateral, state, knee, way)
        theta = float(np.degrees(np.arctan2(knee.brace.rise, knee.brace.run)))
        F = run(brace_compression if way is Way.PUSH else brace_tension, F_b=F_b, F_w=F_w)
        greatest = np.maximum(greatest, run(force_across_grain, F=F, theta=theta)[0])
    if besides is None:
        lateral.found[key] = greatest[None, :]
    return greatest[None, :]


def _under_force(
    lateral: LateralAnalysis,
    state: State,
    knee: Knee,
    way: Way,
    weight: Array,
    level: Array,
    *,
    slack: bool,
) -> Array:
    """Greatest size of some shears under the patterns of weight that put a knee in compression, or in tension, in every
    case (lb).

    ``weight`` is their influence, ``level`` what lateral force adds. The greatest V of the patterns x with F(x) >= 0 is
    no more than the greatest of V(x) + t F(x) over all patterns, for any t >= 0: the least of several t is taken. A
    knee with slack that lateral force already loads that way takes any pattern.
    """
    sign, path, cases = float(way.value), lateral.path, lateral.cases
    on = lateral.knees_in(state)
    f = sign * on.force[on.knees.index(knee)]
    up = knee.brace.rise / np.hypot(knee.brace.rise, knee.brace.run)
    pushed = -sign * knee_reaction(lateral.frames, state.Q, knee, state.foot) / up
    F = pushed + f @ lateral.tilt @ state.turn
    bounds = traded_sizes(path, weight, f, cases, level) + TRADED * F
    held = bounds.min(axis=0)
    if slack:
        held = np.where(pushed > _FORCE_LEFT, bounds[0], held)
    can = range_over(path, f[None, :], cases)[0][0] + F > _FORCE_LEFT
    return np.asarray(np.where(can | (slack & (pushed > _FORCE_LEFT)), np.maximum(held, 0.0), 0.0))


def traded_sizes(path: LoadPath, weight: Array, f: Array, cases: LateralCases, level: Array) -> Array:
    """Greatest size of some effects, V + t F or V - t F for each t (rows) in every case; ``level`` is added to V.

    ``weight`` and ``f`` are the influence on V (rows) and on F. Their envelope is the same in every state with the
    bases taken alike: it is found once.
    """
    digest = blake2b(weight.tobytes(), digest_size=16)
    digest.update(f.tobytes())
    key = (f"{len(weight)} traded", digest.hexdigest())
    if key not in path.envelopes:
        traded = TRADED[:, None] * f
        rows = np.concatenate([weight + traded, weight - traded]).reshape(-1, f.size)
        path.envelopes[key] = envelope(path, rows)
    found, half, each = path.envelopes[key], len(TRADED) * len(weight), (len(TRADED), len(weight), -1)
    up, down = found.greatest[:half].reshape(each), found.smallest[half:].reshape(each)
    return np.array(  # one t at a time: what stands between is no more than the processor keeps at hand
        [
            np.maximum(
                (most @ cases.of_weight + level).max(axis=0), -(least @ cases.of_weight + level).min(axis=0)
            )
            for most, least in zip(up, down, strict=True)
        ]
    )


def whole(influence: Influence) -> Array:
    """An influence over all sources."""
    whole = np.zeros((len(influence), influence.count))
    whole[:, influence.columns] = influence.values
    return whole


def _post(lateral: LateralAnalysis, state: State, knee: Knee, bolts: BraceBolts) -> list[Check]:
    """Shear of the post beside the bolts, above and below them; they stand on its middle line."""
    _, frame, _ = place_of(lateral, knee)
    b, d = sorted((frame.section.b, frame.section.d))
    calculation = start(lateral)
    T, V_f = shear_in_post(calculation.run, lateral, state, knee)
    end = min(abs(hole.z) for hole in bolts.holes_on(frame.support.mark))
    way = ways_of(lateral, state, knee)[0]
    return [
        _judge(
            lateral, state, knee, frame.support.mark, "post", way, calculation, np.maximum(T, V_f),
            frame.values, frame.factors, d, b, b / 2, end, deep=d,
        )
    ]  # fmt: skip


def shear_in_post(run: Run, lateral: LateralAnalysis, state: State, knee: Knee) -> tuple[Array, Array]:
    """Shear of a post above a knee and below it, in every case (lb)."""
    i, frame, which = place_of(lateral, knee)
    T = run_cap_force(run, lateral, state, i, frame, which)
    V = run_lateral_force(unprinted(), lateral, state, i, which)
    return T, run_foot_force(run, lateral, state, frame, which, V)


def _judge(
    lateral: LateralAnalysis,
    state: State,
    knee: Knee,
    part: str,
    kind: str,
    way: Way,
    calculation: Calculation,
    V: Array,
    values: DesignValues,
    group: Factors,
    b: float,
    d: float,
    unloaded: float,
    end: float,
    deep: float = 0.0,
) -> Check:
    """``deep``: the post's greater side, where it is not known which one lies along the brace."""
    run = calculation.run
    F_v_p = run(adjusted_shear, F_v=values.F_v, C_D=lateral.cases.C_D, **group.shear)
    d_e = run(depth_from_loaded_edge, d=d, u=unloaded)
    near = bool(connection_near_end(end, max(d, deep)))
    if near:
        V_r_p = run(connection_shear_near_end, F_v_p=F_v_p, b=b, d=d, d_e=d_e)
    else:
        V_r_p = run(connection_shear_away_from_end, F_v_p=F_v_p, b=b, d_e=d_e)
    force = "" if kind == "post" else f", {WORDS[way]}"
    pattern = PATTERN_NOTE.format(does="pushes" if way is Way.PUSH else "pulls")
    return judge_lateral(
        calculation,
        lateral,
        state,
        part,
        key=f"{kind}.shear_at_bolts",
        at=f"{knee.brace.mark}{force}",
        demand=V,
        capacity=V_r_p,
        unit=POUND,
        clause="NDS 2018, 3.4.3.3(a)" if near else "NDS 2018, 3.4.3.3(b)",
        says=f"shear at the bolts of {knee.brace.mark}",
        notes=(NEAR_NOTE if near else AWAY_NOTE, *((WEIGHT_NOTE, pattern) if kind == "beam" else ())),
    )
