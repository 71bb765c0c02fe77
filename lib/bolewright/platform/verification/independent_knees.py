"""Knees of posts in the independent check: force along them, moment of their post, and shear at their bolts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from bolewright.bracing.knee import brace_length
from bolewright.calculation import Calculation
from bolewright.mechanics.frame_model import Dof
from bolewright.platform.analysis.knee_force import knee_reaction
from bolewright.platform.analysis.knee_weight import Way, post_push
from bolewright.platform.analysis.knees import Knee
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.checks.beam_added import Effect, added_effect, lifted_by_knees
from bolewright.platform.checks.brace_ends import place_of, run_brace_forces
from bolewright.platform.checks.joint_shear import WORDS, bolt_places, shear_in_beam, shear_in_post, ways_of
from bolewright.platform.checks.lateral import run_lateral_force, unprinted
from bolewright.platform.checks.post_forces import is_held, run_moment_at_knee
from bolewright.platform.layout.tees import FIXITY, stands_alone
from bolewright.platform.loads.combine import Array
from bolewright.platform.verification.lateral_frame import HAIR
from bolewright.platform.verification.lateral_solution import Solved

BRACE = "greatest force along the brace"
KNEE = "greatest moment at the knee"
IN_POST = "greatest shear at the bolts"
IN_BEAM = "greatest shear of the beam at the bolts"
APART = 1.0  # in: knees nearer to each other than this meet the beam at one place
Found = Iterator[tuple[tuple[str, str, str], tuple[float, float]]]  # as in the comparison


def along_knees(lateral: LateralAnalysis, state: State, hand: State, solved: Solved) -> Found:
    """Force along every knee, and moment of its post there, by both models."""
    run = Calculation().run
    on = lateral.knees_in(state)
    lying = on.force @ lateral.tilt @ hand.turn
    for knee, weight in zip(on.knees, lying, strict=True):
        i, frame, which = place_of(lateral, knee)
        axis = frame.axes[which]
        brace_reaction = knee_reaction(lateral.frames, hand.Q, knee, hand.foot)
        own = np.abs(weight - brace_reaction * float(brace_length(a=axis.a, r=axis.r)) / axis.a)
        F_b, F_w = run_brace_forces(run, lateral, state, knee, Way.EITHER)
        whole = (np.abs(F_b) + np.abs(F_w))[0]
        more = np.abs(solved.end(knee.brace.mark, 0)) - own
        yield (knee.brace.mark, BRACE, "lb"), (float(whole.max()), float((whole + more).max()))
        if which == 0:
            M, _ = _in_post(lateral, state, hand, knee, lying)
            top = run_lateral_force(run, lateral, state, i, which)
            whole = run_moment_at_knee(run, lateral, state, frame, which, top)[0]
            more = np.abs(solved.end(f"{knee.brace.support} low", 6 + Dof.RZ)) - M
            found = float(whole.max()), float((whole + more).max())
            yield (knee.brace.support, KNEE, "lb·in"), found


def _in_post(
    lateral: LateralAnalysis, state: State, hand: State, knee: Knee, lying: Array
) -> tuple[Array, Array]:
    """By hand, what lateral load and overturning do to a post: moment at a knee, shear below it.

    ``lying``: what overturning brings to the knees.
    """
    i, frame, which = place_of(lateral, knee)
    by_weight = post_push(lateral.knees_in(state), knee.brace.support, which) @ lying
    h, a, V, Q = frame.h, frame.axes[which].a, hand.force[i, which], hand.Q[i, which]
    top_share = (h - a) / h
    if is_held(frame, state):  # a propped cantilever, not a simple beam
        l, b = h + FIXITY, h + FIXITY - a
        top_share = b**2 * (3 * l - b) / (2 * l**3)
    return np.abs((Q - V) * a + by_weight * a * top_share), np.abs(V + by_weight * (1 - top_share))


def at_bolts(
    lateral: LateralAnalysis, state: State, hand: State, solved: Solved
) -> Iterator[tuple[tuple[str, str, str, str], tuple[float, float]]]:
    """Shear of posts and beams at the bolts of every lapped knee, by both models: part, quantity, knee, unit."""
    on = lateral.knees_in(state)
    lying = on.force @ lateral.tilt @ hand.turn
    for knee in on.knees:
        if knee.bolts is None:
            continue
        mark = knee.brace.mark
        if place_of(lateral, knee)[2] == 0:
            M, low = _in_post(lateral, state, hand, knee, lying)
            T, V_f = (rows[0] for rows in shear_in_post(unprinted(), lateral, state, knee))
            more = [
                np.abs(solved.end(f"{knee.brace.support} {piece}", Dof.DY)) - own
                for piece, own in (("high", M / knee.brace.rise), ("low", low))
            ]
            found = np.maximum(T, V_f), np.maximum(T + more[0], V_f + more[1])
            yield (knee.brace.support, IN_POST, mark, "lb"), (float(found[0].max()), float(found[1].max()))
        if stands_alone(knee.beam) or _met(on.knees, knee):
            continue
        both = tuple(
            by_frame - by_hand
            for by_frame, by_hand in zip(solved.beside(mark), _beside(lateral, hand, knee), strict=True)
        )
        places = bolt_places(knee, knee.bolts)
        for way in ways_of(lateral, state, knee):
            V, V_m = (
                float(shear_in_beam(lateral, state, knee, places, way, besides=more).max())
                for more in (None, (both[0], both[1]))
            )
            yield (knee.beam.mark, IN_BEAM, f"{mark}, {WORDS[way]}", "lb"), (V, V_m)


def _met(knees: Sequence[Knee], knee: Knee) -> bool:
    """Whether another knee meets the beam at the same place: what the frame has beside it is of both there."""
    return any(k is not knee and k.beam.mark == knee.beam.mark and abs(k.at - knee.at) < APART for k in knees)


def _beside(lateral: LateralAnalysis, hand: State, knee: Knee) -> tuple[Array, Array]:
    """By hand, what lateral load and overturning add to the shear of a beam before a knee, and past it."""
    stations = lateral.path.effects[knee.beam.mark].stations
    on, brace_reactions = lateral.knees_in(hand), lateral.brace_reactions[knee.beam.mark]
    up = lifted_by_knees(on, brace_reactions.knees) @ lateral.tilt @ hand.turn

    def shear(name: Effect, row: int) -> Array:
        rows = np.array([row])
        level = added_effect(lateral, hand, knee.beam, name, rows).total
        return np.asarray((level - getattr(brace_reactions, name)[rows] @ up)[0])

    # before the knee: from a station at it, or from just past the last one before
    at = int(np.searchsorted(stations, knee.at - HAIR))
    before = shear("shear_left", at) if stations[at] < knee.at + HAIR else shear("shear_right", at - 1)
    # past it, as in the frame, by the knee alone: not by a joist that sits there, too
    lifted = up[brace_reactions.knees.index(knee)] - knee_reaction(lateral.frames, hand.Q, knee, hand.foot)
    return before, before + lifted
