"""Ratings that act together on one bracket, cap or angle: down or up, laterally, and the pull that keeps a beam
upright.

A hanger has a rating down and one up, which do not meet: an end is pushed down or lifted in a case, never both. Its
rating at the edges (``edge_load``) meets either: :mod:`bolewright.platform.checks.edge_together`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

import numpy as np

from bolewright.bracing.plan import seat_lateral_force
from bolewright.bracing.standing import resultant_lateral_force
from bolewright.bracing.together import ratings_together, three_ratings_together
from bolewright.calculation import Calculation
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import BoltFrame, BraceFrame, PostFrame
from bolewright.platform.checks.beam_rotation import (
    RotationCase,
    forces_on_bolt,
    least_on_seat,
    run_seat_pattern,
)
from bolewright.platform.checks.beam_seats import SeatGroup, force_across, groups_on
from bolewright.platform.checks.caps import cap_patterns, run_cap_resultant
from bolewright.platform.checks.lateral import (
    SLACK_NOTE,
    judge_lateral,
    run_lateral_force,
    run_load,
    start,
    unprinted,
    weight_on,
    worse,
)
from bolewright.platform.checks.rotation import bearing_of, patterns, run_tie_pull
from bolewright.platform.checks.seats import LIFTS
from bolewright.platform.checks.upright import FEW, joists_that_hold
from bolewright.platform.layout.parts import Bearing, Member, Seat
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.platform.project import Beam
from bolewright.units import NONE

NOTE = (
    "The shares of the ratings add up, case by case; where the maker allows each in full beside the others, or where "
    "each is of a piece of its own, say so with rated_alone = true."
)
Pull = tuple[Calculation, Array]
"""A calculation, and what its formulas left of the pull asked of a beam's tie in every case."""


def together_checks(lateral: LateralAnalysis) -> list[Check]:
    """The unity equation of every bracket on a tree bolt, every post cap, and of the angles of beams on beams."""
    if lateral.loose:
        return []
    checks = [
        check
        for i, frame in enumerate(lateral.frames)
        if not isinstance(frame, BraceFrame)
        for check in (
            _bracket(lateral, i, frame) if isinstance(frame, BoltFrame) else _cap(lateral, i, frame)
        )
    ]
    for member in lateral.path.layout.beams:
        for row, seat in enumerate(member.seats):
            if seat.bearing is Bearing.RESTS and seat.below not in lateral.path.reactions:
                checks += _angles(lateral, member, row, seat)
    return checks


def _judge(
    calculation: Calculation,
    lateral: LateralAnalysis,
    state: State,
    mark: str,
    key: str,
    r_t: Array,
    at: str = "",
    *,
    slack: bool = False,
) -> Check:
    return judge_lateral(
        calculation,
        lateral,
        state,
        mark,
        key=key,
        at=at,
        demand=r_t,
        capacity=1.0,
        unit=NONE,
        says="the sum of the shares of its ratings, which act together,",
        notes=(NOTE, SLACK_NOTE) if slack else (NOTE,),
        slack=slack,
    )


def _open(mark: str, key: str, missing: str, at: str = "") -> Check:
    where = f" at {at}" if at else ""
    reason = f"{mark}: its ratings{where} act together, and {missing} is not given."
    return not_checked(mark, key, reason, at=at)


def _bracket(lateral: LateralAnalysis, i: int, frame: BoltFrame) -> Iterator[Check]:
    bolt, key, mark = frame.placed.bolt, "tree_bolt.together", frame.support.mark
    if bolt.rated_alone:
        return
    if bolt.rated_load is None or bolt.rated_lateral is None:
        yield _open(mark, key, "rated_load" if bolt.rated_load is None else "rated_lateral")
        return
    on_it = lateral.path.layout.on_support(mark)  # none on a bolt under knee braces
    rotation_tie = getattr(on_it[0][0].timber, "rotation_tie", None) if on_it else None
    checks = []
    none: list[list[Pull]] = [[] for _ in lateral.states]
    for state, pulls in zip(
        lateral.states, _pulls_on_bolt(lateral, *on_it[0]) if on_it else none, strict=True
    ):
        if rotation_tie is None and any(_asked(pull) for pull in pulls):
            yield _open(mark, key, f"rotation_tie of {on_it[0][0].mark}")
            return
        for most, (weight, slack) in (
            (way, load) for way in (True, False) for load in weight_on(lateral, i, most=way, foot=True)
        ):
            for calculation, T in pulls or [(start(lateral), np.zeros((1, 1)))]:
                run = (calculation := calculation.branch()).run
                R = run_load(run, state, i, weight, foot=False, slack=slack)
                if not most and float(R.min()) >= 0:
                    continue
                tie = frame.support.uplift_tie
                if float(R.min()) < 0 and tie is None:
                    reason = f"{mark} is lifted while it is pushed, and uplift_tie is not given."
                    yield not_checked(mark, key, reason)
                    return
                V = [run_lateral_force(run, lateral, state, i, which) for which in (0, 1)]
                ratings = {
                    "V": np.abs(R),
                    "Z_V": np.where(R >= 0, bolt.rated_load, tie or 1.0),
                    "H": run(resultant_lateral_force, V_1=V[0], V_2=V[1]),
                    "Z_H": bolt.rated_lateral,
                }
                if rotation_tie is not None and _asked((calculation, T)):
                    r_t = run(three_ratings_together, **ratings, T=T, Z_T=rotation_tie)
                else:
                    r_t = run(ratings_together, **ratings)
                checks.append(_judge(calculation, lateral, state, mark, key, r_t, slack=slack))
    yield from worse(checks)


def _pulls_on_bolt(lateral: LateralAnalysis, member: Member, seat: Seat) -> list[list[Pull]]:
    """What keeps a beam upright on a bracket in each state: nothing of its own where joists do, or its angles are
    another piece.
    """
    if len(joists_that_hold(lateral, member)) >= FEW or _alone(member):
        return [[] for _ in lateral.states]
    return _pulls(lateral, member, seat, forces_on_bolt(lateral, member, seat))


def _pulls(
    lateral: LateralAnalysis, member: Member, seat: Seat, rotations: Sequence[RotationCase]
) -> list[list[Pull]]:
    """Pull asked of the tie of a beam on a seat in each state, and in each pattern of weight that turns it."""
    at = bearing_of(lateral.path, member, seat)
    turning = patterns(lateral, at, lateral.path.effects[member.mark].reactions[at.row])
    pulls = []
    for state, calculation, V in rotations:
        found = []
        for pattern in (one.under(state) for one in turning):
            turned = calculation.branch()
            R = run_seat_pattern(turned.run, lateral, state, member, at.row, pattern)
            found.append((turned, run_tie_pull(turned, lateral.path, at, V, pattern, R)))
        pulls.append(found)
    return pulls


def _asked(pull: Pull) -> bool:
    return float(pull[1].max()) > LIFTS


def _alone(member: Member) -> bool:
    return isinstance(member.timber, Beam) and member.timber.rated_alone


def _cap(lateral: LateralAnalysis, i: int, frame: PostFrame) -> Iterator[Check]:
    """Uplift, rotation and lateral load of the same case; nothing where a cap is neither lifted nor turned."""
    post, key, mark = frame.post, "post.cap_together", frame.support.mark
    if post.rated_alone:
        return
    beam, seat = lateral.path.layout.on_support(mark)[0]
    at = bearing_of(lateral.path, beam, seat)
    turning = cap_patterns(lateral, i, at)
    checks = []
    for state, (weight, slack) in product(lateral.states, weight_on(lateral, i, most=False, foot=False)):
        calculation = start(lateral)
        R = run_load(calculation.run, state, i, weight, foot=False, slack=slack)
        lift = np.maximum(-R, 0.0)
        lifted = bool(lift.max() > LIFTS)
        H = run_cap_resultant(calculation.run, lateral, state, i, frame, slack=slack)
        V = np.abs(run_lateral_force(calculation.run, lateral, state, i, 1))
        for pattern in (one.under(state) for one, loose in turning if loose == slack):
            turned = calculation.branch()
            R = np.maximum(run_load(turned.run, state, i, pattern.R, foot=False, slack=slack), 0.0)
            T = run_tie_pull(turned, lateral.path, at, V, pattern, R)
            rotations = post.gusset is None and _asked(
                (turned, T)
            )  # a gusset is nailed by itself, and calculated
            given = {
                "cap_lateral": (True, post.cap_lateral),
                "uplift_tie": (lifted, frame.support.uplift_tie),
                "rotation_tie": (rotations, post.rotation_tie),
            }
            if not (lifted or rotations):
                continue
            missing = next((name for name, (asked, rated) in given.items() if asked and rated is None), None)
            if missing is not None:
                yield _open(mark, key, missing)
                return
            summed = turned if rotations else calculation.branch()
            r_t = _run_sum(
                summed,
                (H, post.cap_lateral),
                (lift, frame.support.uplift_tie) if lifted else None,
                (T, post.rotation_tie) if rotations else None,
            )
            checks.append(_judge(summed, lateral, state, mark, key, r_t, slack=slack))
    yield from worse(checks)


def _run_sum(
    calculation: Calculation,
    side: tuple[Array, float | None],
    up: tuple[Array, float | None] | None,
    tie: tuple[Array, float | None] | None,
) -> Array:
    """Shares of a side rating and of what else acts with it."""
    (H, Z_H), other = side, up or tie
    assert other is not None
    if up and tie:
        values = {"V": up[0], "Z_V": up[1], "H": H, "Z_H": Z_H, "T": tie[0], "Z_T": tie[1]}
        return np.asarray(calculation.run(three_ratings_together, **values))
    return np.asarray(calculation.run(ratings_together, V=other[0], Z_V=other[1], H=H, Z_H=Z_H))


def _angles(lateral: LateralAnalysis, member: Member, row: int, seat: Seat) -> Iterator[Check]:
    """Side load, rotation and uplift on the angles of a beam on a beam."""
    key, mark, below = "beam.together", member.mark, seat.below
    if not isinstance(member.timber, Beam) or member.timber.rated_alone:
        return
    checks = []
    for group in groups_on(lateral, lateral.path.layout.member(below)):
        for calculation, r_t in shares_of_angles(lateral, member, row, seat, group):
            if isinstance(r_t, str):
                yield _open(mark, key, r_t, below)
                return
            checks.append(_judge(calculation, lateral, group.state, mark, key, r_t, below))
    yield from worse(checks)


def shares_of_angles(
    lateral: LateralAnalysis, member: Member, row: int, seat: Seat, group: SeatGroup
) -> Iterator[tuple[Calculation, Array | str]]:
    """Sum of the shares of a beam's angles in every pattern that asks something of them, or the rating that lacks."""
    timber, state = member.timber, group.state
    assert isinstance(timber, Beam)
    (pulls,) = _pulls(lateral, member, seat, [force_across(lateral, group, member, seat)])
    lift = np.maximum(-least_on_seat(unprinted(), lateral, state, member, row), 0.0)
    lifted = bool(lift.max() > LIFTS)
    for calculation, T in pulls:
        rotations = _asked((calculation, T))
        if not (lifted or rotations):
            continue
        asked = {"lateral_tie": True, "uplift_tie": lifted, "rotation_tie": rotations}
        missing = next((n for n, needed in asked.items() if needed and getattr(timber, n) is None), None)
        if missing is not None:
            yield calculation, missing
            return
        if lifted:
            lift = np.maximum(-least_on_seat(calculation.run, lateral, state, member, row), 0.0)
        H = calculation.run(seat_lateral_force, **group.arguments(seat))
        r_t = _run_sum(
            calculation,
            (H, timber.lateral_tie),
            (lift, timber.uplift_tie) if lifted else None,
            (T, timber.rotation_tie) if rotations else None,
        )
        yield calculation, r_t
