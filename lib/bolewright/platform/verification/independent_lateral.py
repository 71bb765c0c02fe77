"""The independent check under wind and sway: the space frame of the whole platform beside the springs of its supports.

The frame is solved once for a pound of each kind of load: on the plate of the deck, of the overturning above it, of the
couples that tip beams on their posts, of trunks that move under their bolts. Every case is a sum of these. What weight
does is taken as by hand, so that what the two models give is compared on the whole effect, as the checks judge it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from bolewright.bracing.beam import seat_force_along
from bolewright.bracing.plan import seat_lateral_force
from bolewright.calculation import Calculation
from bolewright.mechanics.frame_model import Dof
from bolewright.platform.analysis.knees import Knee
from bolewright.platform.analysis.lateral import LateralAnalysis, State, answer
from bolewright.platform.analysis.lateral_supports import (
    Bed,
    BoltFrame,
    BraceFrame,
    PostFrame,
    axes_of,
    is_foot,
)
from bolewright.platform.checks.beam_seats import SeatGroup, group_on
from bolewright.platform.checks.together import shares_of_angles
from bolewright.platform.layout.parts import Bearing, Member, Seat
from bolewright.platform.loads.combine import Array
from bolewright.platform.project import Beam
from bolewright.platform.verification.compared import Compared
from bolewright.platform.verification.independent import row
from bolewright.platform.verification.independent_ends import at_ends, compared_end
from bolewright.platform.verification.independent_knees import (
    BRACE,
    IN_BEAM,
    IN_POST,
    KNEE,
    along_knees,
    at_bolts,
)
from bolewright.platform.verification.lateral_solution import Solved, drag, solve

Found = dict[tuple[str, str, str], tuple[float, float]]  # part, quantity, unit: by hand, by the frame model
AT = " / "  # between a quantity and the beam that a seat is on, or the knee whose bolts are meant
DRIFT = "drift of the floor"
FORCE = "greatest lateral force"
LOAD = "greatest load with wind and sway"
LIFT = "uplift with wind and sway"
CAP = "greatest load at its cap with wind and sway"
CAP_LIFT = "uplift at its cap with wind and sway"
BOTH = "greatest load, vertical and lateral"
FASTENED = "greatest lateral force on its seat"
ACROSS = "greatest lateral force across it on its seat"
ANGLES = "shares of the ratings of its angles together"
TOGETHER = "shares of the ratings of its bracket together"
RESTS: dict[str, tuple[str, ...]] = {
    DRIFT: ("platform.drift",),
    FORCE: (
        "post.in_ground",
        "post.shear",
        "post.shear_below",
        "post.cap_lateral",
        "post.cap_rotation",
        "post.cap_together",
        "footing.embedment",
        "tree_bolt.withdrawal",
        "tree_bolt.bracket_lateral",
        "tree_bolt.fastening",
    ),
    LOAD: (
        "footing.soil_lateral",
        "footing.concrete_lateral",
        "post.end_bearing_lateral",
        "post.cap_bearing_lateral",
        "post.net_section",
        "tree_bolt.rated_lateral",
        "trunk_brace.buckling",
        "trunk_brace.with_wind",
        "trunk_brace.foot_rated",
    ),
    LIFT: (
        "post.uplift_lateral",
        "footing.uplift_lateral",
        "tree_bolt.uplift_lateral",
        "trunk_brace.uplift_lateral",
    ),
    CAP: ("post.end_bearing_lateral", "post.cap_bearing_lateral", "post.net_section"),
    CAP_LIFT: ("post.uplift_lateral",),
    BOTH: ("tree_bolt.steel_biaxial", "tree_bolt.wood_yield_lateral"),
    BRACE: (
        "brace.buckling",
        "brace.with_wind",
        "brace.net_compression",
        "brace.tension",
        "brace.ends",
        "brace.end_on_post",
        "brace.end_on_beam",
        "brace.row_tear_out",
        "brace.group_tear_out",
    ),
    KNEE: ("post.at_knee",),
    TOGETHER: ("tree_bolt.together",),
}
ON_BEAM = ("beam.bending_lateral", "beam.shear_lateral", "beam.bending_at_bolts")
ON_SEATS = {FASTENED: "beam.fastening_lateral", ACROSS: "beam.rotation", ANGLES: "beam.together"}
AT_BOLTS = {IN_POST: "post.shear_at_bolts", IN_BEAM: "beam.shear_at_bolts"}


def compare_lateral(lateral: LateralAnalysis) -> Iterator[Compared]:
    """Every lateral effect by both models, the greatest in all cases.

    With tree bolts at their stiffest and at their softest, each with the stiffest and the softest bases and joints:
    the bolts draw most in stiff wood beside soft posts, the posts in soft wood.
    """
    found: Found = {}
    placed: Found = {}
    ends: Found = {}
    for state in _corners(lateral.states):
        still, hand_state, solved = _both(lateral, state)
        forces = _forces(lateral, state, hand_state, solved, still=still)
        for into, some in (
            (found, _of_state(lateral, state, hand_state, solved, forces)),
            (placed, _on_seats(lateral, state, forces)),
            (placed, _at_bolts(lateral, state, hand_state, solved)),
            (ends, at_ends(lateral, state, forces)),
        ):
            for key, (hand, frame) in some:
                before = into.get(key, (0.0, 0.0))
                into[key] = max(before[0], hand), max(before[1], frame)
    for (part, where, unit), (hand, frame) in placed.items():
        force, at = where.split(AT)
        rests = {**ON_SEATS, **AT_BOLTS}[force]
        words = f"{force} {'on' if force in ON_SEATS else 'of'} {at}"
        # of the patterns of weight that load a knee one way the shear is bounded from above
        bound = force == IN_BEAM
        yield Compared(part, words, hand, frame, unit, (row(part, rests, at),), bound)
    for (part, where, unit), (hand, frame) in ends.items():
        yield compared_end(part, where, unit, hand, frame)
    torn = {knee.brace.mark: _torn_by(knee) for knee in lateral.knees}
    for (part, quantity, unit), (hand, frame) in found.items():
        rows = tuple((part, key, "") for key in RESTS[quantity])
        rows += torn[part] if quantity == BRACE else ()
        yield Compared(
            part, quantity, hand, frame, unit, rows, beside=max(found.get((part, LOAD, unit), (0.0, 0.0)))
        )


def _torn_by(knee: Knee) -> tuple[tuple[str, str, str], ...]:
    """Rows of post and beam that rest on the force along a knee; of the beam's bending and shear it is a part."""
    mark, beam = knee.brace.mark, knee.beam.mark
    rows = row(knee.brace.support, "post.row_tear_out", mark), row(beam, "beam.row_tear_out", mark)
    return *rows, *((beam, key, "") for key in ON_BEAM)


def _corners(states: Sequence[State]) -> list[State]:
    """The stiffest and the softest of the states with the tree bolts at each end."""
    found: dict[Bed, list[State]] = {}
    for state in states:
        found.setdefault(state.bed, []).append(state)
    return [state for some in found.values() for state in (some[0], some[-1])]


def _both(lateral: LateralAnalysis, state: State) -> tuple[bool, State, Solved]:
    """Whether the trunks are taken at rest, the state that the frame model is compared with, and the frame model."""
    still = any(isinstance(f, PostFrame) and f.tee for f in lateral.frames)
    # The weight on a T-frame's arms leans its post: there the two models are compared under the pushes alone.
    hand = answer(lateral, state, lateral.cases.load, lateral.cases.over) if still else state
    return still, hand, solve(lateral, hand, moving=not still)


def _of_state(
    lateral: LateralAnalysis, state: State, hand: State, solved: Solved, forces: Array
) -> Iterator[tuple[tuple[str, str, str], tuple[float, float]]]:
    drift = _drift(lateral, state, state.movement)
    yield (
        ("platform", DRIFT, "in"),
        (drift, _drift(lateral, state, state.movement + solved.deck - hand.movement)),
    )
    for i, frame in enumerate(lateral.frames):
        if is_foot(frame):
            continue
        yield from _support(lateral, state, hand, solved, i, forces[i])
    yield from along_knees(lateral, state, hand, solved)


def _forces(lateral: LateralAnalysis, state: State, hand: State, solved: Solved, *, still: bool) -> Array:
    """Force of the platform on every support in its two directions, by the frame model."""
    forces = lateral.with_push(state).copy()
    for i, frame in enumerate(lateral.frames):
        if is_foot(frame):
            continue
        V = axes_of(frame) @ -solved.reaction(f"{frame.support.mark} foot")[[Dof.DX, Dof.DY]]
        if (
            isinstance(frame, BoltFrame) and not still
        ):  # the springs hold a pound less where the trunk goes along
            V = V - drag(lateral, state, i)
        # a post's foot gets less than its head, by what its knees push the deck with
        forces[i] += V + hand.push[i] - hand.force[i]
    return forces


def _at_bolts(
    lateral: LateralAnalysis, state: State, hand: State, solved: Solved
) -> Iterator[tuple[tuple[str, str, str], tuple[float, float]]]:
    for (part, quantity, knee, unit), both in at_bolts(lateral, state, hand, solved):
        yield (part, f"{quantity}{AT}{knee}", unit), both


def _on_seats(
    lateral: LateralAnalysis, state: State, forces: Array
) -> Iterator[tuple[tuple[str, str, str], tuple[float, float]]]:
    """Lateral force on the seats of beams on beams, and the shares of the ratings of their angles, by both models."""
    run = Calculation().run
    for member in lateral.path.layout.beams:
        for i, seat in enumerate(member.seats):
            if seat.bearing is not Bearing.RESTS or seat.below in lateral.path.reactions:
                continue
            below = lateral.path.layout.member(seat.below)
            if not any(s.below in lateral.path.reactions for s in below.seats):
                continue
            more = forces - lateral.with_push(state)
            groups = [group_on(lateral, below, state, force) for force in (np.zeros_like(more), more)]
            c, s = -member.line.u[1], member.line.u[0]
            whole = [float(run(seat_lateral_force, **g.arguments(seat)).max()) for g in groups]
            across = [
                float(np.abs(run(seat_force_along, **g.arguments(seat), c=c, s=s)).max()) for g in groups
            ]
            yield (member.mark, f"{FASTENED}{AT}{seat.below}", "lb"), (whole[0], whole[1])
            yield (member.mark, f"{ACROSS}{AT}{seat.below}", "lb"), (across[0], across[1])
            if isinstance(member.timber, Beam) and not member.timber.rated_alone:
                shares = [_most_shared(lateral, member, i, seat, g) for g in groups]
                yield (member.mark, f"{ANGLES}{AT}{seat.below}", ""), (shares[0], shares[1])


def _most_shared(lateral: LateralAnalysis, member: Member, i: int, seat: Seat, group: SeatGroup) -> float:
    """Greatest sum of the shares of the ratings of a beam's angles; 0 where one is not given."""
    found = [r_t for _, r_t in shares_of_angles(lateral, member, i, seat, group)]
    return max((float(r_t.max()) for r_t in found if not isinstance(r_t, str)), default=0.0)


def _drift(lateral: LateralAnalysis, state: State, movement: Array) -> float:
    corners = np.array(lateral.path.layout.project.platform.outline)
    x = movement[0] - np.outer(corners[:, 1], movement[2])
    y = movement[1] + np.outer(corners[:, 0], movement[2])
    return float(np.hypot(x, y).max())


def _support(
    lateral: LateralAnalysis, state: State, hand: State, solved: Solved, i: int, force: Array
) -> Iterator[tuple[tuple[str, str, str], tuple[float, float]]]:
    frame, mark = lateral.frames[i], lateral.frames[i].support.mark
    more = (
        solved.reaction(f"{mark} foot")[Dof.DZ] - hand.over[i] - (hand.brace_reaction[i] - hand.rod_loads[i])
    )  # rods: as by hand
    added = state.over[i] + state.brace_reaction[i]
    down = [np.maximum(lateral.most[i] + added + extra, 0.0) for extra in (0.0, more)]
    up = [np.maximum(-(lateral.least[i] + added + extra), 0.0) for extra in (0.0, more)]
    across = [np.hypot(*lateral.with_push(state)[i]), np.hypot(*force)]
    for quantity, (one, other) in (
        (FORCE, across),
        (LOAD, down),
        (LIFT, up),
        (BOTH, [np.hypot(d, a) for d, a in zip(down, across, strict=True)]),
    ):
        if quantity in (LOAD, LIFT) or not isinstance(frame, BraceFrame):
            yield (mark, quantity, "lb"), (float(one.max()), float(other.max()))
    if isinstance(frame, PostFrame) and frame.axes[0].n and not frame.has_rods:
        # between its cap and its foot stand the knees, which the beam presses as it tips on its seats
        more = solved.end(f"{mark} high", 0) - hand.over[i] - hand.cap[i]
        at_cap = state.over[i] + state.cap[i]
        most, least = lateral.cap_most[i] + at_cap, lateral.cap_least[i] + at_cap
        for quantity, force_of in ((CAP, most), (CAP_LIFT, -least)):
            extra = more if quantity == CAP else -more
            one, other = (float(np.maximum(force_of + e, 0.0).max()) for e in (0.0, extra))
            yield (mark, quantity, "lb"), (one, other)
    if isinstance(frame, BoltFrame) and not frame.placed.bolt.rated_alone:
        shares = [
            _shares(frame, [weight[i] + added + extra for weight in (lateral.most, lateral.least)], side)
            for extra, side in zip((0.0, more), across, strict=True)
        ]
        yield (mark, TOGETHER, ""), (shares[0], shares[1])


def _shares(frame: BoltFrame, loads: list[Array], across: Array) -> float:
    """Greatest sum of the shares of a bracket's ratings, down or up and lateral; 0 where one is not given."""
    bolt, tie = frame.placed.bolt, frame.support.uplift_tie
    if bolt.rated_load is None or bolt.rated_lateral is None:
        return 0.0
    up = [-R / tie if tie else 0.0 * R for R in loads]
    return max(
        float((np.maximum(R / bolt.rated_load, u) + across / bolt.rated_lateral).max())
        for R, u in zip(loads, up, strict=True)
    )
