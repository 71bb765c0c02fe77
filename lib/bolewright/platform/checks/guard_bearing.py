"""A guard's post against the framing: its push and lever, the wood that is pressed, and the pulls that this asks."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from bolewright.bracing.guard import (
    guard_load_at_post,
    guard_moment,
    lower_tie,
    post_bearing,
    push_at_end_post,
    tie_by_bolts,
    tie_with_bearing,
)
from bolewright.calculation import Calculation
from bolewright.platform.layout.guard_joints import contact_width, pieces_behind
from bolewright.platform.layout.guards import PUSH, GuardPost, below_deck, height_of, line_load
from bolewright.platform.layout.parts import Layout, Member
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.load_path import member_values
from bolewright.timber.adjusted_values import adjusted_bearing
from bolewright.timber.adjustment import Factors, Service, factors
from bolewright.timber.material import DesignValues
from bolewright.units import feet_inches


def _column(values: Sequence[float]) -> Array:
    return np.array(values, dtype=float)[:, None]


class At:
    """Inputs of posts as columns, and their load: out of the rail's line, with its lever past an end post, or along."""

    def __init__(
        self, layout: Layout, posts: Sequence[GuardPost], calculation: Calculation, along: bool = False
    ) -> None:
        self.guard = posts[0].guard
        self.section = posts[0].section
        self.H = height_of(layout.project)
        self.t = _column([below_deck(layout, post) for post in posts])
        self.d = _column([post.depth for post in posts])
        self.b_c = _column([contact_width(layout, post) for post in posts])
        self.e = self.guard.bolt_edge
        self.hole = self.guard.bolt_diameter + 1 / 16
        self.marks = [post.mark for post in posts]
        self.theta = _column([math.degrees(math.asin(min(post.twist, 1.0))) for post in posts])
        self.skewed = any(post.skewed for post in posts)
        holds = _column([post.holds for post in posts])
        bay, past = _column([post.bay for post in posts]), _column([post.past for post in posts])
        P_1 = PUSH if along else calculation.run(push_at_end_post, P_1=PUSH, l=bay, a=past)
        self.P = calculation.run(guard_load_at_post, P_1=P_1, w=line_load(layout.project), l=holds)


def bolt_pulls(at: At, run: Callable[..., Any], F_c_perp_p: Any) -> tuple[Any, Any, Any]:
    """Tension of the upper bolt, of the lower one, and shear between them."""
    if at.guard.lever == "bolts only":
        T = run(tie_by_bolts, P=at.P, H=at.H, t=at.t, d=at.d, e=at.e)
        return T, T, T
    k = {"d": at.d, "e": at.e, "b": at.b_c, "F_c_perp_p": F_c_perp_p}
    C = run(post_bearing, M=run(guard_moment, P=at.P, H=at.H, a=at.t + at.e), **k)
    T = run(tie_with_bearing, C=C, P=at.P)
    C_2 = run(post_bearing, M=run(guard_moment, P=at.P, H=at.H, a=at.t + at.d - at.e), **k)
    T_2 = run(lower_tie, C_2=C_2, P=at.P)
    return T, T_2, np.maximum(C, T_2)


def pressed_wood(
    layout: Layout, posts: Sequence[GuardPost], values: DesignValues, own: Factors, run: Callable[..., Any]
) -> Any:
    """Bearing strength across the grain (psi) where each post presses: of the softer of post and what is behind it."""
    softer = [_softer(layout, post, values, own) for post in posts]
    return run(
        adjusted_bearing,
        F_c_perp=_column([F for F, _ in softer]),
        C_b=1.0,
        **{name: _column([of[name] for _, of in softer]) for name in own.bearing},
    )


def _softer(
    layout: Layout, post: GuardPost, values: DesignValues, own: Factors
) -> tuple[float, dict[str, float]]:
    """Reference value across the grain and its factors; a joist's end behind a post is pressed along its grain."""
    pairs = [(values.F_c_perp, dict(own.bearing))]
    for piece in pieces_behind(layout, post):
        pairs.append((member_values(piece).F_c_perp, dict(_factors(piece).bearing)))
    return min(pairs, key=lambda pair: pair[0] * math.prod(pair[1].values()))


def _factors(piece: Member) -> Factors:
    timber = piece.timber
    return factors(member_values(piece), Service(wet=timber.wet, incised=timber.counts_incised))


def too_shallow(at: At, F_c: Any) -> Any:
    """Whether the framing is too shallow for the couple: no length of pressed wood holds it."""
    k = at.b_c * F_c
    need = 2 * np.asarray(at.P) * (at.H + at.t + at.d - at.e)
    return (k * (at.d - at.e) ** 2 <= need)[:, 0] | (at.d - 2 * at.e <= 0)[:, 0]


def no_lever(layout: Layout, post: GuardPost) -> Check:
    """That no length of pressed wood holds a post."""
    width = contact_width(layout, post)
    mark = post.receiver.mark if post.receiver is not None else "the framing"
    return not_checked(
        post.mark,
        "guard.hold_down",
        f"{post.mark}: {mark} is {feet_inches(post.depth)} deep, too shallow for the couple of the push: no length of "
        f"pressed wood holds it, {feet_inches(width)} of which lies behind the post. Deeper framing there, a rim along "
        "the edge, or a post that runs down to framing below.",
    )
