"""What wind and sway add to a beam: overturning on the deck, brace reactions of knees, force along and across it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from bolewright.bracing.tee import tee_beam_axial_force
from bolewright.mechanics.beam import Beam, respond
from bolewright.mechanics.loads import PointLoad
from bolewright.platform.analysis.knee_force import knee_reaction
from bolewright.platform.analysis.knee_weight import KneeInfluence, Way
from bolewright.platform.analysis.knees import Knee, beam_modulus
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.checks.brace_ends import run_brace_forces
from bolewright.platform.checks.lateral import unprinted
from bolewright.platform.layout.influence import Influence, Integers
from bolewright.platform.layout.lines import apart
from bolewright.platform.layout.parts import Member
from bolewright.platform.layout.tees import stands_alone
from bolewright.platform.loads.combine import Array

Effect = Literal["moment", "shear_left", "shear_right"]
APART = 1.0  # in: places nearer than this hold a beam laterally as one


@dataclass(frozen=True)
class Terms:
    """An effect in every case as a sum of terms: what one unit of each does (rows), and how much of it a case has.

    Kept apart because stations times cases are many numbers: a sum with the weight's terms is one product.
    """

    unit: Array
    amount: Array

    @property
    def total(self) -> Array:
        """The effect in every case (columns)."""
        return np.asarray(self.unit @ self.amount)

    def at(self, rows: Integers) -> Terms:
        """Some of the effects."""
        return Terms(self.unit[rows], self.amount)

    def less(self, taken: Array) -> Terms:
        """The same with what knees take of overturning, the first two terms (rows, 2)."""
        unit = self.unit.copy()
        unit[:, :2] -= taken
        return Terms(unit, self.amount)


@dataclass(frozen=True)
class Added:
    """What lateral load adds to one beam in every case: moment and shears, lateral moment, axial force.

    ``moment`` just before each station; ``past`` just past those at ``steps``, where a couple that comes in over a post
    makes it step.
    """

    moment: Terms
    steps: Integers
    past: Terms
    shear_left: Terms
    shear_right: Terms
    lateral: Terms
    axial: Array


def lifted_by_knees(influence: KneeInfluence, knees: tuple[Knee, ...]) -> Array:
    """Upward force of every knee (rows) on its beam from a pound on every source."""
    return np.array(
        [
            influence.force[influence.knees.index(k)] * k.brace.rise / np.hypot(k.brace.rise, k.brace.run)
            for k in knees
        ]
    )


def less(influence: Influence, taken: Array) -> Influence:
    """An influence less what is taken over all sources."""
    whole = np.zeros((len(influence), influence.count))
    whole[:, influence.columns] = influence.values
    return Influence.of(whole - taken)


def from_overturning(lateral: LateralAnalysis, state: State, effect: Influence) -> Array:
    """What overturning adds to an effect (rows) in every case."""
    return np.asarray(effect @ lateral.tilt @ state.turn)


def seats_from_overturning(lateral: LateralAnalysis, state: State, member: Member) -> Array:
    """What overturning adds to the load of every seat of a joist or beam in every case."""
    added = from_overturning(lateral, state, lateral.path.effects[member.mark].reactions)
    tipped = lateral.tipped.get(member.mark)
    if tipped is not None:
        added = added + tipped.seats @ tipped.couples(lateral.frames, state.force)
    return added


def added_effect(
    lateral: LateralAnalysis,
    state: State,
    beam: Member,
    effect: Effect,
    rows: Integers | None = None,
    *,
    past: bool = False,
) -> Terms:
    """What overturning, knees and tipping add to an effect at the stations of a beam, or some ``rows`` of them.

    ``past``: the moment just past the stations.
    """
    of_path: Influence = getattr(lateral.path.effects[beam.mark], effect)
    unit = [np.asarray((of_path if rows is None else of_path[rows]) @ lateral.tilt)]
    amount = [state.turn]
    picked = slice(None) if rows is None else rows
    brace_reactions = lateral.brace_reactions.get(beam.mark)
    if brace_reactions is not None:
        unit.append(getattr(brace_reactions, effect)[picked])
        amount.append(
            np.array([knee_reaction(lateral.frames, state.Q, k, state.foot) for k in brace_reactions.knees])
        )
    tipped = lateral.tipped.get(beam.mark)
    if tipped is not None:
        unit.append((tipped.past if past else getattr(tipped, effect))[picked])
        amount.append(tipped.couples(lateral.frames, state.force))
    return Terms(np.hstack(unit), np.vstack(amount))


def added_to(lateral: LateralAnalysis, state: State, beam: Member, bent: Array, sheared: Integers) -> Added:
    """All that lateral load adds to a beam; ``bent`` is :func:`lateral_moment` of it.

    Shear only in the rows ``sheared``.
    """
    tipped = lateral.tipped.get(beam.mark)
    steps: Integers = np.zeros(0, dtype=int)
    if tipped is not None:
        steps = np.flatnonzero((tipped.past != tipped.moment).any(axis=1))
    axial, across = _level(lateral, state, beam)
    return Added(
        added_effect(lateral, state, beam, "moment"),
        steps,
        added_effect(lateral, state, beam, "moment", steps, past=True),
        added_effect(lateral, state, beam, "shear_left", sheared),
        added_effect(lateral, state, beam, "shear_right", sheared),
        Terms(bent, across),
        axial,
    )


def _level(lateral: LateralAnalysis, state: State, beam: Member) -> tuple[Array, Array]:
    """Lateral force along a beam, all of it added without sign, and across it at its seats on supports."""
    u = np.array(beam.line.u)
    axial = np.zeros(lateral.cases.count)
    across = np.zeros((len(beam.seats), lateral.cases.count))
    knees = lateral.brace_reactions[beam.mark].knees if beam.mark in lateral.brace_reactions else ()
    pushed = lateral.with_push(state)
    for row, seat in enumerate(beam.seats):
        if seat.below not in lateral.path.reactions:
            continue
        i = lateral.row(seat.below)
        force = state.springs[i].axes.T @ pushed[i]
        along = np.abs(u @ force)
        if seat.below in lateral.thrusts:
            along = along + brace_tension(lateral, state, beam, seat.below)
        across[row] = u[0] * force[1] - u[1] * force[0]
        for which, thrust in (
            (w, t) for (m, w), t in lateral.weight(state).thrust.items() if m == seat.below
        ):
            if any(k.brace.support == seat.below for k in knees):
                along = np.maximum(
                    along, np.abs(state.Q[i, which]) * _most_of_knees(lateral, state, i, which)
                )
                along = along + thrust
        if stands_alone(beam):
            along = along + _tee_thrust(lateral, state, beam)
        axial = axial + along
    return axial, across


def _most_of_knees(lateral: LateralAnalysis, state: State, i: int, which: int) -> float:
    """Greatest part of the lateral force of a post's knees that the beam draws on between: more than all of it where
    one knee works against the other.
    """
    frame = lateral.frames[i]
    assert isinstance(frame, PostFrame)
    return max(1.0, *(abs(moved.share) for moved in frame.axes[which].when_moved(state.foot)))


def brace_tension(lateral: LateralAnalysis, state: State, beam: Member, tie: str) -> Array:
    """Greatest lateral force of the knee braces from a trunk that a beam draws on at a tie, without sign (lb)."""
    found = np.zeros(lateral.cases.count)
    for brace in lateral.thrusts[tie].braces:
        if brace.beam.mark == beam.mark:
            i = lateral.row(brace.mark)
            R = np.maximum(lateral.most[i], 0.0) + state.over[i] + state.cap[i]
            found = np.maximum(found, np.abs(R) * brace.slope)
    return found


def _tee_thrust(lateral: LateralAnalysis, state: State, beam: Member) -> Array:
    """Greatest lateral force of a T-frame's knees along its beam."""
    run = unprinted()
    thrusts = [
        run(
            tee_beam_axial_force,
            F_w=run_brace_forces(run, lateral, state, knee, Way.EITHER)[1],
            a=knee.brace.rise,
            r=knee.brace.run,
        )[0]
        for knee in lateral.knees
        if knee.beam.mark == beam.mark
    ]
    return np.asarray(np.max(thrusts, axis=0), dtype=float)


def lateral_moment(lateral: LateralAnalysis, beam: Member) -> Array:
    """Lateral moment at the stations from a pound across at each seat: seats pull, what sits on it holds."""
    stations = lateral.path.effects[beam.mark].stations
    layout = lateral.path.layout
    framing = (
        *layout.joists,
        *layout.beams,
    )  # blocking and spacers hold two beams apart, neither to the deck
    on_it = (s.below_at for m in framing for s in m.seats if s.below == beam.mark)
    others = (s.at for s in beam.seats if s.below not in lateral.path.reactions)
    held = apart([*on_it, *others], APART)
    pulls = [seat.at for seat in beam.seats]
    if len(held) < 2:
        return np.zeros((stations.size, len(pulls)))
    span = Beam(beam.line.length, tuple(held), beam_modulus(beam) * beam.section.I_flat)
    return respond(span, [PointLoad(at) for at in pulls], stations).moment
