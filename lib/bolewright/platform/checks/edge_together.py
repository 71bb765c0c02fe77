"""A connection's rating at its edges together with that down, or with that up: one load asks for both.

What hangs beside a beam's middle line presses its hanger down and turns it with the same load; a push on a guard does
so most. The shares are of the same combination, push and state of the ground. Where the edges are rated by themselves
(``rated_alone``) the force there stands alone, by weight and with wind and sway.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from bolewright.bracing.blocking import blocking_moment, blocking_shear, brace_edge_force, end_force
from bolewright.bracing.rotation import eccentric_moment, joist_edge_force
from bolewright.bracing.together import ratings_together, three_ratings_together
from bolewright.mechanics.ties import most_of
from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.checks.edge_asked import (
    Asked,
    End,
    MissingRatingError,
    by_weight,
    ends_of,
    with_sway,
)
from bolewright.platform.checks.members import prefix
from bolewright.platform.limit_states.check import Check, judge, not_checked, nothing_asked
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.load_path import LoadPath
from bolewright.units import NONE, POUND

NOTE = (
    "The shares of both ratings add up, of one combination and push; where the maker allows each in full beside the "
    "other, or a piece of its own takes the edges, say so with rated_alone = true."
)
ALONE_NOTE = (
    "The edges are rated by themselves (rated_alone): pieces of their own take them, or the maker allows that rating "
    "in full beside the load down or up. So no share of that load is added; it stands in rows of its own."
)
BOUND_NOTE = (
    "The greatest moment of what it keeps from turning and the greatest load of its end are taken at once, though they "
    "may not meet: no less than the truth."
)


def edge_together_checks(lateral: LateralAnalysis) -> list[Check]:
    """Of every connection that is asked at its edges the unity equation, or the force there where that is rated alone.

    By weight and with wind and sway.
    """
    return [_check(lateral, end) for end in ends_of(lateral)]


def _check(lateral: LateralAnalysis, end: End) -> Check:
    """The worst of all that is asked of an end; open where a rating is missing, in words where nothing is asked."""
    mark, below = end.member.mark, end.seat.below
    key = f"{prefix(end.member)}.edge_together"
    try:
        if end.rated is None:
            raise MissingRatingError("edge_load")
        found = [
            (asked, _run_demand(lateral.path, end, asked, end.rated))
            for asked in (*by_weight(lateral.path, end), *with_sway(lateral, end))
        ]
    except MissingRatingError as missing:
        reason = f"{mark}: its ratings at {below} act together, and {missing} is not given."
        return not_checked(mark, key, reason, at=below)
    if not found:
        said = f"{mark} presses on {below} and is not lifted there: nothing asks for its edges and its tie at once."
        return nothing_asked(mark, key, said, at=below)
    asked, demand = most_of(found, lambda one: float(one[1].max()))
    way, in_pounds = "up" if asked.up else "down", end.alone and not _twice(end)
    says = f"the sum of the shares of its ratings at the edges and {way} at {below}"
    if end.alone:
        asks = "force" if in_pounds else "sum of the shares"
        says = f"the {asks} at the edges of its connection at {below}, which are rated by themselves,"
    note = ALONE_NOTE if end.alone else NOTE
    (check,) = judge(
        asked.calculation,
        [mark],
        asked.cases,
        key=key,
        at=below,
        demand=demand,
        capacity=end.rated if in_pounds else 1.0,
        unit=POUND if in_pounds else NONE,
        says=says,
        where=lambda row, column: asked.words(column),
        notes=(note, BOUND_NOTE) if end.held is not None else (note,),
    )
    return check


def _twice(end: End) -> bool:
    """Whether an end is asked at its edges by what it keeps upright and by what turns it itself."""
    return end.torque is not None and bool(end.held is not None or end.e or end.rotations)


def _run_demand(path: LoadPath, end: End, asked: Asked, rated: float) -> Array:
    """Sum of the shares of an end's ratings in every case (a row); of one rated by itself the force there (lb)."""
    run, d, R = asked.calculation.run, end.member.section.d, asked.R
    own: Any = None
    if end.held is not None:
        M_br = run(blocking_moment, M_r=asked.M_r)
        own = run(brace_edge_force, M_br=M_br, R=R, e=end.e, d=d)
    elif end.e or end.rotations:
        own = run(joist_edge_force, M_j=asked.M_j, R=R, e=end.e, d_j=d)
    if asked.M and not end.alone:
        ends = [run(blocking_moment, M_r=M) for M in asked.M]
        other = ends[1] if len(ends) > 1 else 0.0
        V_br = run(blocking_shear, M_1=ends[0], M_2=other, s=end.member.line.length)
        R = run(end_force, R=R, V_br=V_br)
    if asked.T is None:
        if end.alone:
            return np.asarray(own)
        return np.asarray(run(ratings_together, V=R, Z_V=asked.Z, H=own, Z_H=rated))
    R_e = asked.T / end.arm
    run(eccentric_moment, R=R_e, e=end.arm)
    turned = run(joist_edge_force, M_j=0.0, R=R_e, e=end.arm, d_j=d)
    if end.alone:
        return np.asarray(
            turned if own is None else run(ratings_together, V=own, Z_V=rated, H=turned, Z_H=rated)
        )
    if own is None:
        return np.asarray(run(ratings_together, V=R, Z_V=asked.Z, H=turned, Z_H=rated))
    return np.asarray(run(three_ratings_together, V=R, Z_V=asked.Z, H=own, Z_H=rated, T=turned, Z_T=rated))
