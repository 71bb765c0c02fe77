"""Ratings that act together on one bracket, cap or angle: down or up, sideways, and the pull that keeps a beam upright.

A hanger has a rating down and one up; an end is pushed down or lifted in a case, never both, so these do not meet.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.bracing.plan import seat_level_force
from bolewright.bracing.standing import resultant_level_force
from bolewright.bracing.together import ratings_together, three_ratings_together
from bolewright.calculation import Calculation
from bolewright.platform.check import Check, not_checked
from bolewright.platform.checks.caps import run_cap_resultant
from bolewright.platform.checks.carrier_roll import (
    FEW,
    Roll,
    forces_on_bolt,
    joists_that_hold,
    least_on_seat,
    run_seat_pattern,
)
from bolewright.platform.checks.carrier_seats import force_across, groups_on
from bolewright.platform.checks.level import judge_level, run_level_force, run_load, start, unprinted, worse
from bolewright.platform.checks.rotation import bearing_of, patterns, run_tie_pull
from bolewright.platform.checks.seats import LIFTS
from bolewright.platform.combine import Array
from bolewright.platform.level_supports import BoltFrame, PostFrame
from bolewright.platform.parts import Bearing, Member, Seat
from bolewright.platform.project import Carrier
from bolewright.platform.sideways import Sideways, State
from bolewright.units import NONE

NOTE = (
    "The shares of the ratings add up, case by case; where the maker allows each in full beside the others, or where "
    "each is of a piece of its own, say so with rated_alone = true."
)
Pull = tuple[Calculation, Array]
"""A calculation, and what its formulas left of the pull asked of a beam's tie in every case."""


def together_checks(sideways: Sideways) -> list[Check]:
    """The unity equation of every bracket on a tree bolt, every post cap, and of the angles of beams on beams."""
    if sideways.loose:
        return []
    checks = [
        check
        for i, frame in enumerate(sideways.frames)
        for check in (
            _bracket(sideways, i, frame) if isinstance(frame, BoltFrame) else _cap(sideways, i, frame)
        )
    ]
    for member in sideways.path.layout.carriers:
        for row, seat in enumerate(member.seats):
            if seat.bearing is Bearing.RESTS and seat.below not in sideways.path.reactions:
                checks += _angles(sideways, member, row, seat)
    return checks


def _judge(
    calculation: Calculation, sideways: Sideways, state: State, mark: str, key: str, r_t: Array, at: str = ""
) -> Check:
    return judge_level(
        calculation,
        sideways,
        state,
        mark,
        key=key,
        at=at,
        demand=r_t,
        capacity=1.0,
        unit=NONE,
        says="the sum of the shares of its ratings, which act together,",
        notes=(NOTE,),
    )


def _open(mark: str, key: str, missing: str, at: str = "") -> Check:
    where = f" at {at}" if at else ""
    reason = f"{mark}: its ratings{where} act together, and {missing} is not given."
    return not_checked(mark, key, reason, at=at)


def _bracket(sideways: Sideways, i: int, frame: BoltFrame) -> Iterator[Check]:
    bolt, key, mark = frame.placed.bolt, "tree_bolt.together", frame.support.mark
    if bolt.rated_alone:
        return
    if bolt.rated_load is None or bolt.rated_side is None:
        yield _open(mark, key, "rated_load" if bolt.rated_load is None else "rated_side")
        return
    member, seat = sideways.path.layout.on_support(mark)[0]
    roll_tie = getattr(member.timber, "roll_tie", None)
    checks = []
    for n, state in enumerate(sideways.states):
        pulls = _pulls_on_bolt(sideways, n, member, seat)
        if roll_tie is None and any(_asked(pull) for pull in pulls):
            yield _open(mark, key, f"roll_tie of {member.mark}")
            return
        for most in (True, False):
            weight = sideways.most[i] if most else sideways.least[i]
            for calculation, T in pulls or [(start(sideways), np.zeros((1, 1)))]:
                run = (calculation := calculation.branch()).run
                R = run_load(run, state, i, weight, foot=False)
                if not most and float(R.min()) >= 0:
                    continue
                tie = frame.support.uplift_tie
                if float(R.min()) < 0 and tie is None:
                    reason = f"{mark} is lifted while it is pushed, and uplift_tie is not given."
                    yield not_checked(mark, key, reason)
                    return
                V = [run_level_force(run, sideways, state, i, which) for which in (0, 1)]
                ratings = {
                    "V": np.abs(R),
                    "Z_V": np.where(R >= 0, bolt.rated_load, tie or 1.0),
                    "H": run(resultant_level_force, V_1=V[0], V_2=V[1]),
                    "Z_H": bolt.rated_side,
                }
                if roll_tie is not None and _asked((calculation, T)):
                    r_t = run(three_ratings_together, **ratings, T=T, Z_T=roll_tie)
                else:
                    r_t = run(ratings_together, **ratings)
                checks.append(_judge(calculation, sideways, state, mark, key, r_t))
    yield from worse(checks)


def _pulls_on_bolt(sideways: Sideways, n: int, member: Member, seat: Seat) -> list[Pull]:
    """What keeps a beam upright on a bracket: nothing of its own where joists do, or its angles are another piece."""
    if len(joists_that_hold(sideways, member)) >= FEW or _alone(member):
        return []
    return _pulls(sideways, member, member.seats.index(seat), seat, forces_on_bolt(sideways, member, seat)[n])


def _pulls(sideways: Sideways, member: Member, row: int, seat: Seat, roll: Roll) -> list[Pull]:
    """Pull asked of the tie of a carrier on a seat in each pattern of weight that turns it."""
    at = bearing_of(sideways.path, member, seat)
    state, calculation, V = roll
    found = []
    for pattern in patterns(sideways, state, at, sideways.path.effects[member.mark].reactions[row]):
        turned = calculation.branch()
        R = run_seat_pattern(turned.run, sideways, state, member, row, pattern)
        found.append((turned, run_tie_pull(turned, sideways.path, at, V, pattern, R)))
    return found


def _asked(pull: Pull) -> bool:
    return float(pull[1].max()) > LIFTS


def _alone(member: Member) -> bool:
    return isinstance(member.timber, Carrier) and member.timber.rated_alone


def _cap(sideways: Sideways, i: int, frame: PostFrame) -> Iterator[Check]:
    """Uplift, roll and lateral load of the same case; nothing where a cap is neither lifted nor turned."""
    post, key, mark = frame.post, "post.cap_together", frame.support.mark
    if post.rated_alone:
        return
    carrier, seat = sideways.path.layout.on_support(mark)[0]
    at = bearing_of(sideways.path, carrier, seat)
    checks = []
    for state in sideways.states:
        calculation = start(sideways)
        R = run_load(calculation.run, state, i, sideways.cap_least[i], foot=False)
        lift = np.maximum(-R, 0.0)
        lifted = bool(lift.max() > LIFTS)
        H = run_cap_resultant(calculation.run, sideways, state, i, frame)
        V = np.abs(run_level_force(calculation.run, sideways, state, i, 1))
        for pattern in patterns(sideways, state, at, sideways.knee_influence.caps[i]):
            turned = calculation.branch()
            R = np.maximum(run_load(turned.run, state, i, pattern.R, foot=False), 0.0)
            T = run_tie_pull(turned, sideways.path, at, V, pattern, R)
            rolls = post.gusset is None and _asked(
                (turned, T)
            )  # a gusset is nailed by itself, and calculated
            given = {
                "cap_side": (True, post.cap_side),
                "uplift_tie": (lifted, frame.support.uplift_tie),
                "roll_tie": (rolls, post.roll_tie),
            }
            if not (lifted or rolls):
                continue
            missing = next((name for name, (asked, rated) in given.items() if asked and rated is None), None)
            if missing is not None:
                yield _open(mark, key, missing)
                return
            summed = turned if rolls else calculation.branch()
            r_t = _run_sum(
                summed,
                (H, post.cap_side),
                (lift, frame.support.uplift_tie) if lifted else None,
                (T, post.roll_tie) if rolls else None,
            )
            checks.append(_judge(summed, sideways, state, mark, key, r_t))
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


def _angles(sideways: Sideways, member: Member, row: int, seat: Seat) -> Iterator[Check]:
    """Side load, roll and uplift on the angles of a beam on a beam."""
    key, mark, below = "beam.together", member.mark, seat.below
    timber = member.timber
    if not isinstance(timber, Carrier) or timber.rated_alone:
        return
    checks = []
    for group in groups_on(sideways, sideways.path.layout.member(below)):
        state = group.state
        lift = np.maximum(-least_on_seat(unprinted(), sideways, state, member, row), 0.0)
        lifted = bool(lift.max() > LIFTS)
        for calculation, T in _pulls(
            sideways, member, row, seat, force_across(sideways, group, member, seat)
        ):
            rolls = _asked((calculation, T))
            if not (lifted or rolls):
                continue
            asked = {"side_tie": True, "uplift_tie": lifted, "roll_tie": rolls}
            missing = next((n for n, needed in asked.items() if needed and getattr(timber, n) is None), None)
            if missing is not None:
                yield _open(mark, key, missing, below)
                return
            if lifted:
                lift = np.maximum(-least_on_seat(calculation.run, sideways, state, member, row), 0.0)
            H = calculation.run(seat_level_force, **group.arguments(seat))
            r_t = _run_sum(
                calculation,
                (H, timber.side_tie),
                (lift, timber.uplift_tie) if lifted else None,
                (T, timber.roll_tie) if rolls else None,
            )
            checks.append(_judge(calculation, sideways, state, mark, key, r_t, below))
    yield from worse(checks)
