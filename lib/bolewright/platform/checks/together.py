"""Ratings that act together on one bracket or cap: down or up with the lateral load of the same case.

A hanger has a rating down and one up; an end is pushed down or lifted in a case, never both, so these do not meet.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.bracing.standing import resultant_level_force
from bolewright.bracing.together import ratings_together
from bolewright.platform.check import Check, not_checked
from bolewright.platform.checks.caps import run_cap_resultant
from bolewright.platform.checks.level import Run, judge_level, run_level_force, run_load, start, worse
from bolewright.platform.combine import Array
from bolewright.platform.level_supports import BoltFrame, PostFrame
from bolewright.platform.sideways import Sideways, State
from bolewright.units import NONE

NOTE = (
    "The shares of both ratings add up, case by case; where the maker allows each in full beside the other, say so "
    "with rated_alone = true."
)


def together_checks(sideways: Sideways) -> list[Check]:
    """The unity equation of every bracket on a tree bolt and of every post cap."""
    if sideways.loose:
        return []
    return [
        check
        for i, frame in enumerate(sideways.frames)
        for check in (
            _bracket(sideways, i, frame) if isinstance(frame, BoltFrame) else _cap(sideways, i, frame)
        )
    ]


def _bracket(sideways: Sideways, i: int, frame: BoltFrame) -> Iterator[Check]:
    bolt, key, mark = frame.placed.bolt, "tree_bolt.together", frame.support.mark
    if bolt.rated_alone:
        return

    def lateral(run: Run, state: State) -> Array:
        V = [run_level_force(run, sideways, state, i, which) for which in (0, 1)]
        return np.asarray(run(resultant_level_force, V_1=V[0], V_2=V[1]), dtype=float)

    if bolt.rated_load is None or bolt.rated_side is None:
        missing = "rated_load" if bolt.rated_load is None else "rated_side"
        yield not_checked(mark, key, f"{mark}: its ratings act together, and {missing} is not given.")
        return
    checks = []
    for state in sideways.states:
        for most in (True, False):
            calculation = start(sideways)
            weight = sideways.most[i] if most else sideways.least[i]
            R = run_load(calculation.run, state, i, weight, foot=False)
            if not most and float(R.min()) >= 0:
                continue
            tie = frame.support.uplift_tie
            if float(R.min()) < 0 and tie is None:
                yield not_checked(
                    mark, key, f"{mark} is lifted while it is pushed, and uplift_tie is not given."
                )
                return
            Z_V = np.where(R >= 0, bolt.rated_load, tie or 1.0)
            H = lateral(calculation.run, state)
            r_t = calculation.run(ratings_together, V=np.abs(R), Z_V=Z_V, H=H, Z_H=bolt.rated_side)
            checks.append(
                judge_level(
                    calculation,
                    sideways,
                    state,
                    mark,
                    key=key,
                    demand=r_t,
                    capacity=1.0,
                    unit=NONE,
                    says="the sum of the shares of its ratings, down or up and sideways,",
                    notes=(NOTE,),
                )
            )
    yield from worse(checks)


def _cap(sideways: Sideways, i: int, frame: PostFrame) -> Iterator[Check]:
    """Uplift with the lateral load of the same case; where nothing lifts, the lateral rating stands alone."""
    post, key, mark = frame.post, "post.cap_together", frame.support.mark
    if post.rated_alone:
        return
    checks = []
    for state in sideways.states:
        calculation = start(sideways)
        R = run_load(calculation.run, state, i, sideways.cap_least[i], foot=False)
        lift = np.maximum(-R, 0.0)
        if not lift.any():
            continue
        tie = frame.support.uplift_tie
        if post.cap_side is None or tie is None:
            missing = "cap_side" if post.cap_side is None else "uplift_tie"
            yield not_checked(mark, key, f"{mark}: its ratings act together, and {missing} is not given.")
            return
        H = run_cap_resultant(calculation.run, sideways, state, i, frame)
        r_t = calculation.run(ratings_together, V=lift, Z_V=tie, H=H, Z_H=post.cap_side)
        checks.append(
            judge_level(
                calculation,
                sideways,
                state,
                mark,
                key=key,
                demand=r_t,
                capacity=1.0,
                unit=NONE,
                says="the sum of the shares of its ratings, up and sideways,",
                notes=(NOTE,),
            )
        )
    yield from worse(checks)
