"""What wind and sway add to a carrier: overturning on the deck, kicks of knees, force along and across it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from bolewright.bracing.tee import tee_carrier_thrust
from bolewright.mechanics.beam import Beam, respond
from bolewright.mechanics.loads import PointLoad
from bolewright.platform.checks.brace_ends import run_brace_forces
from bolewright.platform.checks.level import unprinted
from bolewright.platform.combine import Array
from bolewright.platform.influence import Influence, Integers
from bolewright.platform.knee_force import knee_kick
from bolewright.platform.knee_weight import Way
from bolewright.platform.knees import Knee, carrier_modulus
from bolewright.platform.parts import Member
from bolewright.platform.sideways import Sideways, State
from bolewright.platform.tees import stands_alone

Effect = Literal["moment", "shear_left", "shear_right"]
APART = 1.0  # in: places nearer than this hold a carrier sideways as one


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
    """What level load adds to one carrier in every case: moment and shears, sideways moment, axial force.

    ``moment`` just before each station; ``past`` just past those at ``steps``, where a couple that comes in over a post
    makes it step.
    """

    moment: Terms
    steps: Integers
    past: Terms
    shear_left: Terms
    shear_right: Terms
    sideways: Terms
    axial: Array


def lifted_by_knees(sideways: Sideways, knees: tuple[Knee, ...]) -> Array:
    """Upward force of every knee (rows) on its beam from a pound on every source."""
    influence = sideways.knee_influence
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


def from_overturning(sideways: Sideways, state: State, effect: Influence) -> Array:
    """What overturning adds to an effect (rows) in every case."""
    return np.asarray(effect @ sideways.tilt @ state.turn)


def seats_from_overturning(sideways: Sideways, state: State, member: Member) -> Array:
    """What overturning adds to the load of every seat of a joist or carrier in every case."""
    added = from_overturning(sideways, state, sideways.path.effects[member.mark].reactions)
    tipped = sideways.tipped.get(member.mark)
    if tipped is not None:
        added = added + tipped.seats @ tipped.couples(sideways.frames, state.force)
    return added


def added_effect(
    sideways: Sideways,
    state: State,
    carrier: Member,
    effect: Effect,
    rows: Integers | None = None,
    *,
    past: bool = False,
) -> Terms:
    """What overturning, knees and tipping add to an effect at the stations of a carrier, or some ``rows`` of them.

    ``past``: the moment just past the stations.
    """
    of_path: Influence = getattr(sideways.path.effects[carrier.mark], effect)
    unit = [np.asarray((of_path if rows is None else of_path[rows]) @ sideways.tilt)]
    amount = [state.turn]
    picked = slice(None) if rows is None else rows
    kicks = sideways.kicks.get(carrier.mark)
    if kicks is not None:
        unit.append(getattr(kicks, effect)[picked])
        amount.append(np.array([knee_kick(sideways.frames, state.Q, knee) for knee in kicks.knees]))
    tipped = sideways.tipped.get(carrier.mark)
    if tipped is not None:
        unit.append((tipped.past if past else getattr(tipped, effect))[picked])
        amount.append(tipped.couples(sideways.frames, state.force))
    return Terms(np.hstack(unit), np.vstack(amount))


def added_to(sideways: Sideways, state: State, carrier: Member, bent: Array, sheared: Integers) -> Added:
    """All that level load adds to a carrier; ``bent`` is :func:`sideways_moment` of it.

    Shear only in the rows ``sheared``.
    """
    tipped = sideways.tipped.get(carrier.mark)
    steps: Integers = np.zeros(0, dtype=int)
    if tipped is not None:
        steps = np.flatnonzero((tipped.past != tipped.moment).any(axis=1))
    axial, across = _level(sideways, state, carrier)
    return Added(
        added_effect(sideways, state, carrier, "moment"),
        steps,
        added_effect(sideways, state, carrier, "moment", steps, past=True),
        added_effect(sideways, state, carrier, "shear_left", sheared),
        added_effect(sideways, state, carrier, "shear_right", sheared),
        Terms(bent, across),
        axial,
    )


def _level(sideways: Sideways, state: State, carrier: Member) -> tuple[Array, Array]:
    """Level force along a carrier, all of it added without sign, and across it at its seats on supports."""
    u = np.array(carrier.line.u)
    axial = np.zeros(sideways.cases.count)
    across = np.zeros((len(carrier.seats), sideways.cases.count))
    knees = sideways.kicks[carrier.mark].knees if carrier.mark in sideways.kicks else ()
    for row, seat in enumerate(carrier.seats):
        if seat.below not in sideways.path.reactions:
            continue
        i = sideways.row(seat.below)
        force = state.springs[i].axes.T @ state.force[i]
        along = np.abs(u @ force)
        across[row] = u[0] * force[1] - u[1] * force[0]
        for which, thrust in (
            (w, t) for (m, w), t in sideways.weight(state).thrust.items() if m == seat.below
        ):
            if any(k.brace.support == seat.below for k in knees):
                along = np.maximum(along, np.abs(state.Q[i, which])) + thrust
        if stands_alone(carrier):
            along = along + _tee_thrust(sideways, state, carrier)
        axial = axial + along
    return axial, across


def _tee_thrust(sideways: Sideways, state: State, carrier: Member) -> Array:
    """Greatest level force of a T-frame's knees along its carrier."""
    run = unprinted()
    thrusts = [
        run(
            tee_carrier_thrust,
            F_w=run_brace_forces(run, sideways, state, knee, Way.EITHER)[1],
            a=knee.brace.rise,
            r=knee.brace.run,
        )[0]
        for knee in sideways.knees
        if knee.carrier.mark == carrier.mark
    ]
    return np.asarray(np.max(thrusts, axis=0), dtype=float)


def sideways_moment(sideways: Sideways, carrier: Member) -> Array:
    """Sideways moment at the stations from a pound across at each seat: seats pull, what sits on it holds."""
    stations = sideways.path.effects[carrier.mark].stations
    held: list[float] = []
    layout = sideways.path.layout
    framing = (
        *layout.joists,
        *layout.carriers,
    )  # blocking and spacers hold two beams apart, neither to the deck
    on_it = (s.below_at for m in framing for s in m.seats if s.below == carrier.mark)
    others = (s.at for s in carrier.seats if s.below not in sideways.path.reactions)
    for place in sorted([*on_it, *others]):
        if not held or place - held[-1] > APART:
            held.append(place)
    pulls = [seat.at for seat in carrier.seats]
    if len(held) < 2:
        return np.zeros((stations.size, len(pulls)))
    beam = Beam(carrier.line.length, tuple(held), carrier_modulus(carrier) * carrier.section.I_flat)
    return respond(beam, [PointLoad(at) for at in pulls], stations).moment
