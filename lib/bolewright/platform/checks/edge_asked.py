"""What is asked at once of a connection that is rated at its edges: there, and down or up, in the same load state.

Loads that turn a beam in its own hanger are placed where both shares together are greatest. Of blocking the greatest
moment of what it holds and the greatest load of its end are taken at once, which is no less than the truth.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from bolewright.bracing.standing import load_with_sway
from bolewright.calculation import Calculation
from bolewright.fasteners.rated import hanger_capacity
from bolewright.mechanics.ties import first_most
from bolewright.platform.analysis.braced import by_edges_alone
from bolewright.platform.analysis.eccentric import edge_load, off_centre, restrains, seat_torques
from bolewright.platform.analysis.lateral import LateralAnalysis, State, range_over
from bolewright.platform.checks.beam_added import added_effect, seats_from_overturning
from bolewright.platform.checks.blocking import by_fasteners, on_fasteners
from bolewright.platform.checks.lateral import start
from bolewright.platform.checks.members import BENT, CASES
from bolewright.platform.checks.seats import (
    LIFTS,
    bending_of,
    braced_by,
    held_by_fasteners,
    tie_of,
    wet_factor,
)
from bolewright.platform.checks.upright import (
    FEW,
    Holding,
    Turned,
    bolts_under,
    joists_that_hold,
    run_torque,
    turned_on_bolts,
)
from bolewright.platform.layout.parts import Bearing, Kind, Member, Seat
from bolewright.platform.loads.combine import (
    Array,
    dead_for,
    envelope,
    member_envelope,
    raising_loads,
    raising_push,
    snow_for,
    uplift_cases,
)
from bolewright.platform.loads.load_path import LoadPath

Run = Callable[..., Any]
LEAST_TORQUE = 1.0  # lb·in: less is rounding


class MissingRatingError(Exception):
    """A rating that is asked and not given; in words."""


@dataclass(frozen=True)
class End:
    """An end of a member whose connection is asked at its edges, on another member.

    ``e`` of its own load off the other's middle line, where its connection takes that moment (in); ``held`` the member
    that it alone keeps from turning; ``torque`` influence of the sources on what turns the member itself in its
    hanger, from loads ``arm`` off its middle line (in); ``rotations`` lateral force across the beam that it keeps
    upright on tree bolts, with ``joists``, it among them.
    """

    member: Member
    row: int
    e: float = 0.0
    held: Member | None = None
    torque: Array | None = None
    arm: float = 0.0
    rotations: tuple[Turned, ...] = ()
    joists: tuple[Holding, ...] = ()

    @property
    def seat(self) -> Seat:
        """Where it bears."""
        return self.member.seats[self.row]

    @property
    def rated(self) -> float | None:
        """Rated load of its connection at the upper and lower edge (lb)."""
        return edge_load(self.member)

    @property
    def alone(self) -> bool:
        """Whether its edges are rated by themselves, so that no load down or up takes a share of that rating."""
        return bool(getattr(self.member.timber, "rated_alone", False))

    @property
    def nailed(self) -> bool:
        """Whether nails or screws hold it, down and up alike."""
        return held_by_fasteners(self.member)

    @property
    def ways(self) -> tuple[bool, ...]:
        """Down and up (True); what rests is pressed on wood, which no rating holds, but its edges are asked there."""
        return (False, True) if self.alone or self.seat.bearing is Bearing.HANGS else (True,)


@dataclass(frozen=True)
class Asked:
    """What is asked of an end in every case, down or ``up`` (rows of one part): lb, lb·in.

    ``R`` its load, ``T`` what turns it in its hanger, ``M_j`` torque of the beam that it keeps upright,
    ``M_r`` moment of the member that it alone holds, ``M`` of all that it braces, ``Z`` rating down or up
    (endless where the edges are rated by themselves: the load takes no share).
    """

    up: bool
    cases: Sequence[str]
    words: Callable[[int], str]
    calculation: Calculation
    R: Array
    Z: Array | float
    T: Array | None = None
    M_j: Array | float = 0.0
    M_r: Array | None = None
    M: tuple[Array, ...] = ()


def ends_of(lateral: LateralAnalysis) -> Iterator[End]:
    """Ends whose connections are asked at their edges."""
    path = lateral.path
    layout = path.layout
    apart = {
        (load.member.mark, load.row): abs(load.e)
        for mark in dict.fromkeys(s.below for m in layout.members if restrains(m) for s in m.seats)
        if mark not in path.reactions
        for load in off_centre(layout, layout.member(mark))
    }
    upright = _upright(lateral)
    for member in layout.members:
        alone = by_edges_alone(layout, member) if member.kind is Kind.BLOCKING else ()
        turned = _torques(path, member)
        for row, seat in enumerate(member.seats):
            if seat.below in path.reactions:
                continue
            below, e = layout.member(seat.below), apart.get((member.mark, row), 0.0)
            held = below if row in alone and float(bending_of(path, below, CASES).max()) > BENT else None
            if not restrains(member) or (below.kind is not Kind.BEAM and held is None):
                e = 0.0
            torque, arm = turned.get(row, (None, 0.0))
            rotations, joists = upright.get((member.mark, row), ((), ()))
            if e or held is not None or torque is not None or rotations:
                yield End(member, row, e, held, torque, arm, rotations, joists)


def _torques(path: LoadPath, member: Member) -> dict[int, tuple[Array, float]]:
    """What turns a beam in its own hangers, by row of the seat, and how far off its middle line that bears (in)."""
    hung = [row for row, seat in enumerate(member.seats) if seat.bearing is Bearing.HANGS]
    if member.kind is not Kind.BEAM or not hung:
        return {}
    torques = seat_torques(path, member)
    found = envelope(path, torques)
    most = np.maximum(found.most(CASES), -found.least(CASES)).max(axis=0)
    arm = max((abs(load.e) for load in off_centre(path.layout, member)), default=0.0)
    return {row: (torques[row], arm) for row in hung if most[row] >= LEAST_TORQUE}


def _upright(
    lateral: LateralAnalysis,
) -> dict[tuple[str, int], tuple[tuple[Turned, ...], tuple[Holding, ...]]]:
    """Ends of joists that keep a beam upright on tree bolts, with the lateral force there and all that do."""
    found: dict[tuple[str, int], tuple[tuple[Turned, ...], tuple[Holding, ...]]] = {}
    if lateral.loose:
        return found
    for beam in lateral.path.layout.beams:
        joists, bolts = tuple(joists_that_hold(lateral, beam)), bolts_under(lateral, beam)
        if len(joists) >= FEW and bolts:
            turned = tuple(turned_on_bolts(lateral, beam, bolts))
            found |= {(joist.mark, row): (turned, joists) for joist, row in joists}
    return found


def rating_of(path: LoadPath, end: End, calculation: Calculation, C_D: Array, *, up: bool) -> Array | float:
    """Rating down or up of an end's connection in every case (a row), as its own check takes it (lb).

    Endless where the edges are rated by themselves.
    """
    if end.alone:
        return np.inf
    run = calculation.run
    if end.nailed:
        held = by_fasteners(path, end.member, end.row, C_D, calculation)
        if held.open:
            raise MissingRatingError("what its nails or screws hold")
        return held.capacity
    if up:
        tie, entered, C_M = tie_of(path.layout, end.member, end.seat)
        if tie is None:
            raise MissingRatingError(entered)
        return tie if C_M == 1 else np.asarray(run(hanger_capacity, Z_rated=tie, C_D=1.0, C_M=C_M))
    hanger = path.layout.project.connections.get(end.seat.connection or "")
    if hanger is None or hanger.rated_load is None:
        raise MissingRatingError("rated_load of its hanger")
    least, C_M = np.minimum(C_D, 1.0)[None, :], wet_factor(end.member, hanger)
    return np.asarray(run(hanger_capacity, Z_rated=hanger.rated_load, C_D=least, C_M=C_M))


def _reaction(path: LoadPath, end: End) -> Array:
    """Influence of the sources on the load of an end's connection."""
    some = on_fasteners(path, end.member, end.row) if end.nailed else [(end.member, end.row)]
    return np.asarray(sum(path.effects[piece.mark].reactions[row] for piece, row in some), dtype=float)


def by_weight(path: LoadPath, end: End) -> Iterator[Asked]:
    """What weight and a push on a guard ask of an end, down and, where it is lifted, up."""
    at_end = _reaction(path, end)
    found = envelope(path, at_end[None, :])
    for up in end.ways:
        cases = uplift_cases() if up else CASES
        R = np.maximum(-found.least(cases)[:, 0] if up else found.most(cases)[:, 0], 0.0)
        if up and float(R.max()) <= LIFTS:
            continue
        calculation = Calculation((1, len(cases)))
        Z = rating_of(path, end, calculation, np.array([case.C_D for case in cases]), up=up)
        T = None
        if end.torque is not None:
            factors = np.array([(c.D, c.L, c.S, c.person, c.guard) for c in cases]).T
            T, R = _turned(path, end, np.broadcast_to(Z, (1, len(cases)))[0], factors, up=up)
        yield Asked(
            up,
            [case.name for case in cases],
            lambda column: "",
            calculation,
            R[None, :],
            Z,
            None if T is None else T[None, :],
            M_r=None if end.held is None else bending_of(path, end.held, cases)[None, :],
            M=tuple(bending_of(path, member, cases)[None, :] for member in braced_by(path, end.member)),
        )


def with_sway(lateral: LateralAnalysis, end: End) -> Iterator[Asked]:
    """What wind and sway ask of an end beside weight, in every state of the ground and the joints."""
    if lateral.loose:
        return
    path, cases = lateral.path, lateral.cases
    weight = range_over(path, _reaction(path, end)[None, :], cases)
    below = path.layout.member(end.seat.below)
    rotations = end.rotations or tuple(Turned(state, start(lateral), ()) for state in lateral.states)
    for turned in rotations:
        state, before = turned.state, turned.calculation.branch()
        M_j = run_torque(before.run, below, end.joists, (end.member, end.row), turned)
        R_o = _from_overturning(lateral, state, end)
        for up in end.ways:
            calculation = before.branch()
            least = weight[1 if up else 0]
            R = calculation.run(load_with_sway, R=least, R_o=R_o[None, :], R_k=0.0)
            R = np.maximum(-R if up else R, 0.0)
            if up and float(R.max()) <= LIFTS:
                continue
            Z = rating_of(path, end, calculation, cases.C_D, up=up)
            T = None
            if end.torque is not None:
                factors = np.stack([cases.D, cases.L, cases.S, np.zeros(cases.count), cases.G])
                added = np.stack([end.torque @ lateral.tilt @ state.turn, R_o])
                ratings = np.broadcast_to(Z, (1, cases.count))[0]
                T, found = _turned(path, end, ratings, factors, up=up, added=added)
                T, R = T[None, :], found[None, :]
            yield Asked(
                up,
                cases.names,
                _words(lateral, state),
                calculation,
                R,
                Z,
                T,
                M_j,
                M_r=None if end.held is None else _bending_in(lateral, state, end.held),
                M=tuple(_bending_in(lateral, state, member) for member in braced_by(path, end.member)),
            )


def _words(lateral: LateralAnalysis, state: State) -> Callable[[int], str]:
    taken = f"; {state.words}" if len(lateral.states) > 1 else ""
    return lambda column: lateral.cases.words[column] + taken


def _from_overturning(lateral: LateralAnalysis, state: State, end: End) -> Array:
    """What overturning adds to the load of an end's connection in every case (lb)."""
    some = on_fasteners(lateral.path, end.member, end.row) if end.nailed else [(end.member, end.row)]
    return np.asarray(sum(seats_from_overturning(lateral, state, piece)[row] for piece, row in some))


def _bending_in(lateral: LateralAnalysis, state: State, member: Member) -> Array:
    """Greatest moment of a member in every case with wind and sway, either way (a row, lb·in); found once."""
    if ("bending", state.words, member.mark) not in lateral.found:
        weight = member_envelope(lateral.path, member.mark, "moment")
        for each in lateral.states:
            added = added_effect(lateral, each, member, "moment")
            amount = np.vstack([lateral.cases.of_weight, added.amount])  # of both at once: one product
            most = np.hstack([weight.greatest, added.unit]) @ amount
            least = np.hstack([weight.smallest, added.unit]) @ amount
            either = np.maximum(most.max(axis=0), -least.min(axis=0))
            lateral.found["bending", each.words, member.mark] = either[None, :]
    return lateral.found["bending", state.words, member.mark]


def _turned(
    path: LoadPath, end: End, Z: Array, factors: Array, *, up: bool, added: Array | None = None
) -> tuple[Array, Array]:
    """Moment that turns a beam in its hanger, and the load on that, in the pattern of weight worst for both.

    ``Z`` the rating down or up and ``factors`` of D, L, S, the person and a guard (rows) in every case; ``added`` what
    wind and sway add to the moment and to the load (rows).
    """
    assert end.torque is not None
    assert end.rated is not None
    a = 1 / (end.member.section.d * end.rated)  # share of the rating at the edges of a moment of 1 lb·in
    way = -1.0 if up else 1.0
    at_end = _reaction(path, end)
    extra = np.zeros((2, Z.size)) if added is None else added
    T, R, most = np.zeros(Z.size), np.zeros(Z.size), np.full(Z.size, -1.0)
    for value in np.unique(Z):
        for sign in (1.0, -1.0):
            row = sign * a * end.torque + way * (1 / value + end.e * a) * at_end
            torque, load = np.stack([end.torque, at_end]) @ _placed(path, row) @ factors
            turned = np.maximum(sign * (torque + extra[0]), 0.0)
            pressed = np.maximum(way * (load + extra[1]), 0.0)
            share = a * turned + (1 / value + end.e * a) * pressed
            worse = (value == Z) & (share > most)
            T, R, most = (
                np.where(worse, now, before) for now, before in ((turned, T), (pressed, R), (share, most))
            )
    return T, R


def _placed(path: LoadPath, row: Array) -> Array:
    """D, L, S, a person and the push on a guard (columns) on every source, placed where an effect is greatest."""
    person = np.zeros_like(path.live)
    if path.spots:
        spot = path.first_spot + int(first_most(row[path.first_spot :]))
        person[spot] = path.layout.project.loads.person * (row[spot] > 0)
    return np.column_stack(
        [
            dead_for(path, row),
            raising_loads(path, row, "live"),
            snow_for(path, row),
            person,
            raising_push(path, row),
        ]
    )
