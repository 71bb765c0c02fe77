"""Where does my weight go? One burden anywhere on the deck, followed to the soil and into the trunk.

The boards are taken as simple beams on two members across the joists, as the deck's panels are: a person between
two joists comes down on both by the lever, one past the last member loads it with more than the person and lifts the
next one in. From there each member is solved once, from the top down, and hands its reactions to what carries it.
The sheets' own influence (:mod:`bolewright.platform.loads.load_path`) is not used here, so that each can test
the other.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from bolewright.bracing.tee import tee_knee_couple
from bolewright.mechanics.beam import Beam, respond
from bolewright.mechanics.loads import PointLoad
from bolewright.mechanics.ties import first_most
from bolewright.platform.layout.coupling import Delivery, seat_drops, seat_forces
from bolewright.platform.layout.influence import Array, Influence
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout, Member
from bolewright.platform.layout.tees import Tee, find_tees
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.tracing.tracing_boards import Arriving, landing
from bolewright.platform.tracing.tracing_burden import Burden, Crowd, Drift, Person, Pieces, TracingError, lay

__all__ = [
    "Arriving",
    "Burden",
    "Carried",
    "Crowd",
    "Diagram",
    "Drift",
    "Person",
    "Pieces",
    "Trace",
    "Tracer",
    "TracingError",
]

_AGREES = 1e-6


_NO_DROPS = Influence(np.zeros((1, 0)), np.empty(0, dtype=np.int64), 1)


def _delivered(loads: Sequence[Arriving]) -> list[Delivery]:
    """Loads on a member as deliveries of one source, the burden; nothing at its start where there is none."""
    places = [(float(a), float(p)) for load in loads for a, p in zip(load.at, load.pounds, strict=True)]
    return [
        Delivery(PointLoad(at), "burden", np.array([0]), np.array([pounds]))
        for at, pounds in places or [(0.0, 0.0)]
    ]


class ImbalanceError(AssertionError):
    """Reactions that do not hold the burden up; a fault of the program, never released."""


@dataclass(frozen=True)
class Carried:
    """A member under its share of the burden, and the force on each of its seats (lb, up positive).

    ``knees`` of a beam on one post: the mark, place and upward push (lb) of each, as a couple.
    """

    member: Member
    arriving: tuple[Arriving, ...]
    seats: tuple[float, ...]
    knees: tuple[tuple[str, float, float], ...] = ()

    @property
    def total(self) -> float:
        """Share of the burden that comes onto the member (lb)."""
        return sum(load.total for load in self.arriving)

    def moments_about(self, x: float) -> float:
        """Sum of each load times its distance past ``x`` along the member (lb·in)."""
        return float(sum(load.pounds @ (load.at - x) for load in self.arriving))


@dataclass(frozen=True)
class Trace:
    """A burden and where it goes.

    ``carried`` holds the members under load, top first; ``reactions`` the force on every support (lb, down on it
    positive; negative lifts); ``aside`` how far the burden's centre moved on its way down to the members (in),
    because boards on one member alone, and what lies past a joist's end, are taken as resting on it.
    """

    burden: Burden
    pieces: Pieces
    carried: dict[str, Carried]
    reactions: dict[str, float]
    aside: float

    @property
    def total(self) -> float:
        """Weight of the burden (lb)."""
        return self.pieces.total

    def share(self, mark: str) -> float:
        """Share of the burden that passes through a part, a support or a member (1 is all of it)."""
        if mark in self.reactions:
            return self.reactions[mark] / self.total
        return self.carried[mark].total / self.total if mark in self.carried else 0.0


@dataclass(frozen=True)
class Diagram:
    """Moment (lb·in, sagging positive) along a member under the burden; ``x`` in inches from its start."""

    x: Array
    moment: Array

    @property
    def largest(self) -> tuple[float, float]:
        """Place and value of the largest moment by size."""
        i = first_most(np.abs(self.moment))
        return float(self.x[i]), float(self.moment[i])


@dataclass(frozen=True)
class Tracer:
    """Follows burdens over one platform."""

    path: LoadPath

    @property
    def layout(self) -> Layout:
        """Layout of the platform."""
        return self.path.layout

    @cached_property
    def _tees(self) -> dict[str, Tee]:
        """T-frames by the beam: their knees hold it, under the push of the post up."""
        return {tee.beam.mark: tee for tee in find_tees(self.layout)}

    @cached_property
    def _beams(self) -> dict[str, Beam]:
        return {
            m.mark: Beam(
                m.line.length,
                self._tees[m.mark].places if m.mark in self._tees else tuple(seat.at for seat in m.seats),
                self.path.effects[m.mark].values.E * m.section.I,
            )
            for m in self.layout.members
        }

    def trace(self, burden: Burden) -> Trace:
        """Follow a burden to the supports.

        Raises TracingError for one that is not on the deck.
        """
        pieces = lay(self.layout, burden)
        arriving = landing(self.layout, pieces)
        landed = self._centre(arriving)
        drops = self._drops(arriving)
        carried: dict[str, Carried] = {}
        reactions = {support.mark: 0.0 for support in self.layout.supports}
        for member in self.layout.members:
            loads = arriving.get(member.mark, [])
            if not loads and not np.any(drops.get(member.mark, _NO_DROPS).values):
                continue
            seats = self._seat_forces(member, loads, drops.get(member.mark))
            carried[member.mark] = self._with_knees(Carried(member, tuple(loads), seats))
            for seat, force in zip(member.seats, seats, strict=True):
                if seat.below in reactions:
                    reactions[seat.below] += force
                elif abs(force) > 1e-9 * pieces.total:
                    at, pounds = np.array([seat.below_at]), np.array([force])
                    arriving.setdefault(seat.below, []).append(Arriving(member.mark, at, pounds))
        trace = Trace(burden, pieces, carried, reactions, math.dist(landed, pieces.centre))
        self._assert_balance(trace, landed)
        return trace

    def diagram(self, trace: Trace, mark: str, parts: int = 120) -> Diagram:
        """Moment along a member under the burden; nothing when none of it comes that way."""
        member = self.layout.member(mark)
        x = np.linspace(0.0, member.line.length, parts + 1)
        carried = trace.carried.get(mark)
        if carried is None:
            return Diagram(x, np.zeros_like(x))
        at = np.concatenate([np.empty(0), *(load.at for load in carried.arriving)])
        pounds = np.concatenate([np.empty(0), *(load.pounds for load in carried.arriving)])
        if mark in self._tees:
            at, pounds = np.append(at, self._tees[mark].own), np.append(pounds, -carried.total)
            x = np.append(x, self._tees[mark].own)
        beam = self._beams[mark]
        if len(beam.supports) > 2:  # on its outer seats, pushed up at the inner ones
            at, pounds = np.append(at, beam.supports[1:-1]), np.append(pounds, -np.array(carried.seats[1:-1]))
            beam = replace(beam, supports=(beam.supports[0], beam.supports[-1]))
        x = np.unique(np.concatenate([x, at[:400], beam.supports]))
        response = respond(beam, [PointLoad(float(a)) for a in at], x)
        return Diagram(x, response.moment @ pounds)

    def _with_knees(self, carried: Carried) -> Carried:
        tee = self._tees.get(carried.member.mark)
        if tee is None:
            return carried
        r_1, r_2 = tee.runs
        V = float(tee_knee_couple(M_s=carried.moments_about(tee.own), r=r_2, r_o=r_1))
        knees = ((tee.knees[0].mark, tee.places[0], -V), (tee.knees[1].mark, tee.places[1], V))
        return replace(carried, knees=knees)

    def _drops(self, arriving: dict[str, list[Arriving]]) -> dict[str, Influence]:
        """How far the seats of members over three and more go down, where what they sit on gives way."""
        EI = {mark: beam.EI for mark, beam in self._beams.items()}
        return seat_drops(
            self.layout, EI, {m.mark: _delivered(arriving.get(m.mark, [])) for m in self.layout.members}, 1
        )

    def _seat_forces(
        self, member: Member, loads: Sequence[Arriving], drops: Influence | None
    ) -> tuple[float, ...]:
        if drops is not None:
            found = seat_forces(member, self._beams[member.mark].EI, _delivered(loads), drops)
            return tuple(float(force) for force in found @ np.ones(1))
        at = np.concatenate([load.at for load in loads])
        pounds = np.concatenate([load.pounds for load in loads])
        if member.mark in self._tees:
            return (float(pounds.sum()),)
        places, which = np.unique(at, return_inverse=True)
        response = respond(self._beams[member.mark], [PointLoad(float(a)) for a in places], [0.0])
        forces = response.reactions @ np.bincount(which, weights=pounds, minlength=len(places))
        return tuple(float(force) for force in forces)

    def _centre(self, arriving: dict[str, list[Arriving]]) -> Vector:
        """Centre of what has come down onto the members."""
        moment, total = np.zeros(2), 0.0
        for mark, loads in arriving.items():
            line = self.layout.member(mark).line
            for load in loads:
                moment += load.total * np.array(line.start) + (load.pounds @ load.at) * np.array(line.u)
                total += load.total
        return (float(moment[0] / total), float(moment[1] / total))

    def _assert_balance(self, trace: Trace, landed: Vector) -> None:
        """Forces and moments about both axes of the plan; a seat off a centre line counts with its offset."""
        held, moment = 0.0, np.zeros(2)
        for carried in trace.carried.values():
            for seat, force in zip(carried.member.seats, carried.seats, strict=True):
                here = np.array(carried.member.line.at(seat.at))
                if seat.below in trace.reactions:
                    held += force
                    moment += force * here
                    for _, at, pounds in carried.knees:  # their couple goes into the post's head
                        moment += pounds * (np.array(carried.member.line.at(at)) - here)
                else:
                    moment += force * (here - np.array(self.layout.member(seat.below).line.at(seat.below_at)))
        size = trace.total * max(1.0, *map(abs, self.layout.deck.bounds))
        off = max(
            abs(held - trace.total) / trace.total, *np.abs(moment - trace.total * np.array(landed)) / size
        )
        if off > _AGREES:
            raise ImbalanceError(
                f"{trace.total:.3f} lb applied, {held:.3f} lb carried; moments off by {off:.2e}"
            )
