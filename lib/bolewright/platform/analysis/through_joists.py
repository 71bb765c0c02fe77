"""Lateral force that comes from the deck into its beams through the ends of joists, and of beams that hang on beams.

Boards pass wind and sway to the joists, and their ends pass it to the beam that a tree bolt or a cap holds: along the
joist, and sideways. What the supports of a beam pull across it comes to the ends on it as to the supports of a
continuous beam, as its lateral moment is found; what they pull along it, evenly to all. A beam that rests or hangs on
another passes that one's pull on to what is on itself.
"""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass

import numpy as np

from bolewright.bracing.tie import friction_force
from bolewright.mechanics.beam import Beam, respond
from bolewright.mechanics.loads import PointLoad
from bolewright.platform.analysis.knees import beam_modulus
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import BoltFrame, axes_of
from bolewright.platform.layout.boards_on import boards_on
from bolewright.platform.layout.lines import apart
from bolewright.platform.layout.parts import Bearing, Kind, Layout, Member
from bolewright.platform.loads.combine import Array
from bolewright.platform.project.timber import BOARD_TURN

NEAR = (
    3.9  # in: ends nearer than this hold a beam as one, as no joint is stiff enough to clamp it between two
)
ACROSS = (
    math.sin(math.radians(45)) - 1e-6
)  # boards that cross a beam at 45 deg or more lie on it as on a joist


@dataclass(frozen=True)
class Pull:
    """What a seat of a beam pulls it with: place along it, and x and y of a pound on each support (2, supports, 2)."""

    at: float
    force: Array


@dataclass(frozen=True)
class DeckEnd:
    """An end of a joist or a hung beam on a beam, and what comes to it.

    ``across`` the force across the beam at each of its seats (seats, supports, 2) and ``shares`` what part of it comes
    to this end; ``along`` that along the beam, of all its seats (supports, 2), shared by ``count`` ends.
    """

    member: Member
    row: int
    beam: Member
    across: Array
    shares: Array
    along: Array
    count: int

    @property
    def kind(self) -> tuple[str, ...]:
        """What has one rating: a field's joists in one hanger, or resting; a beam's own end."""
        seat = self.member.seats[self.row]
        if self.member.kind is Kind.JOIST:
            return self.member.field, seat.connection or ""
        return self.member.mark, str(self.row)

    @property
    def parts(self) -> Array:
        """Force at this end across the beam and along it, from a pound on each support (2, supports, 2)."""
        return np.stack([np.tensordot(self.shares, self.across, axes=1), self.along / self.count])


def find_deck_ends(lateral: LateralAnalysis) -> list[DeckEnd]:
    """Ends of joists, and of beams that hang on beams, through which lateral force comes into a beam."""
    layout = lateral.path.layout
    handed: dict[tuple[str, int], Array] = {}
    found: list[DeckEnd] = []
    for beam in reversed(layout.beams):
        pulls = _pulls(lateral, beam, handed)
        on_it = [(m, row) for m, row in layout.seats_on(beam.mark) if m.kind is not Kind.BLOCKING]
        if not pulls or not on_it or held_by_boards(layout, beam):
            continue
        handed |= _resting(beam, pulls, on_it)
        u = np.array(beam.line.u)
        n = np.array([-u[1], u[0]])
        across = np.stack([np.tensordot(n, pull.force, axes=1) for pull in pulls])
        along = sum(np.tensordot(u, pull.force, axes=1) for pull in pulls)
        shares = end_shares(beam, [pull.at for pull in pulls], [m.seats[r].below_at for m, r in on_it])
        for (member, row), share in zip(on_it, shares, strict=True):
            end = DeckEnd(member, row, beam, across, share, np.asarray(along), len(on_it))
            hung = member.seats[row].bearing is Bearing.HANGS
            if member.kind is Kind.JOIST or hung:
                found.append(end)
            if member.kind is Kind.BEAM and hung:
                handed[member.mark, row] = np.tensordot(np.stack([n, u], axis=1), end.parts, axes=1)
    return found


def held_by_boards(layout: Layout, beam: Member) -> bool:
    """Whether the boards lie on a beam as on a joist, across it and on half of it at least: they hold it themselves."""
    on_it = sum(end - start for start, end in boards_on(layout, beam))
    u_x, u_y = beam.line.u
    turn = BOARD_TURN[layout.project.decking.direction]
    boards = [math.radians(field.direction + 90 + turn) for field in layout.project.joists]
    return on_it >= beam.line.length / 2 and all(
        abs(u_x * math.sin(a) - u_y * math.cos(a)) >= ACROSS for a in boards
    )


def end_shares(beam: Member, pulls: list[float], ends: list[float]) -> Array:
    """What comes to each end (rows) of a pound that each seat pulls a beam across with (columns).

    The beam lies on the ends as on rigid supports, as for its lateral moment. Of ends at one place each takes all that
    comes there: of two on its two faces one is pulled where the other may press or stand off.
    """
    held = apart(ends, NEAR)
    if len(held) < 2:
        return np.ones((len(ends), len(pulls)))
    span = Beam(beam.line.length, tuple(held), beam_modulus(beam) * beam.section.I_flat)
    reactions = respond(span, [PointLoad(at) for at in pulls], [0.0]).reactions
    return np.stack([reactions[int(np.argmin([abs(at - place) for place in held]))] for at in ends])


def _pulls(lateral: LateralAnalysis, beam: Member, handed: dict[tuple[str, int], Array]) -> list[Pull]:
    found = []
    for row, seat in enumerate(beam.seats):
        if seat.below in lateral.path.reactions:
            i = lateral.row(seat.below)
            force = np.zeros((2, len(lateral.frames), 2))
            force[:, i] = axes_of(lateral.frames[i]).T
            found.append(Pull(seat.at, force))
        elif (beam.mark, row) in handed:
            found.append(Pull(seat.at, handed[beam.mark, row]))
    return found


def _resting(
    beam: Member, pulls: list[Pull], on_it: list[tuple[Member, int]]
) -> dict[tuple[str, int], Array]:
    """What the seats of beams that rest on a beam get of its pulls, they alone: as their fastening is checked."""
    seats = [(m, r) for m, r in on_it if m.kind is Kind.BEAM and m.seats[r].bearing is Bearing.RESTS]
    if not seats:
        return {}
    points = np.array([m.seats[r].point for m, r in seats])
    centre = points.mean(axis=0)
    J = max(float(np.sum((points - centre) ** 2)), 1.0)
    H = sum(pull.force for pull in pulls)
    turns = 0.0
    for pull in pulls:
        x, y = np.array(beam.line.at(pull.at)) - centre
        turns = turns + x * pull.force[1] - y * pull.force[0]
    found = {}
    for (member, row), point in zip(seats, points, strict=True):
        x, y = point - centre
        found[member.mark, row] = H / len(seats) + np.stack([-turns * y / J, turns * x / J])
    return found


def friction_on(lateral: LateralAnalysis) -> Array:
    """Friction that a bearing which slides passes on, in each of its free directions (supports, 2, cases)."""
    found = np.zeros((len(lateral.frames), 2, lateral.cases.count))
    for i, frame in enumerate(lateral.frames):
        if isinstance(frame, BoltFrame) and not frame.braces and lateral.tie[i].any():
            R = np.maximum(np.maximum(lateral.most[i], lateral.slack_most[i]), 0.0)
            free = lateral.states[0].springs[i].k == 0.0
            found[i, free] = friction_force(mu=frame.support.friction, R=R, H_t=lateral.tie[i])
    return found


def through_ends(lateral: LateralAnalysis, state: State, parts: Array, rubs: Array) -> Array:
    """Force through ends in every case, with its sign (ends and ways, cases): with what knees push, and friction.

    Parameters: ``parts`` from a pound on each support (ends and ways, supports, 2); ``rubs`` of :func:`friction_on`.
    """
    whole = lateral.passed_down(state, parts)
    if rubs.any():
        more = np.tensordot(np.abs(parts), rubs, axes=2)
        whole = whole + np.where(whole < 0, -more, more)
    return whole


def worst_ends(lateral: LateralAnalysis) -> list[tuple[DeckEnd, State]]:
    """Of each kind of end the one that the most force comes to, and in which state; found once."""
    ends = find_deck_ends(lateral)
    if not ends or lateral.loose:
        return []
    if ("deck ends",) not in lateral.found:
        rubs, parts = friction_on(lateral), np.concatenate([end.parts for end in ends])
        most = np.zeros((len(lateral.states), len(ends)))
        for n, state in enumerate(lateral.states):
            whole = through_ends(lateral, state, parts, rubs)
            most[n] = np.hypot(whole[0::2], whole[1::2]).max(axis=1)
        lateral.found["deck ends",] = np.round(most, 6)
    most = lateral.found["deck ends",]
    kinds: defaultdict[tuple[str, ...], list[int]] = defaultdict(list)
    for n, end in enumerate(ends):
        kinds[end.kind].append(n)
    found = []
    for some in kinds.values():
        row, column = divmod(int(np.argmax(most[:, some])), len(some))
        found.append((ends[some[column]], lateral.states[row]))
    return found
