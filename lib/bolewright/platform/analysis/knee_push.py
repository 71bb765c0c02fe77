"""What the deck is pushed with by knees of posts under weight and overturning, and what that brings to the supports.

The lateral part of a knee's force presses its post and its beam apart. The post hands a part of it back to the beam at
its cap; what its foot takes is missing there, so that the beam pushes the deck with just that, and the deck the springs
of all supports, as an external force at that post would. Of knees that lean apart only the difference is left.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bolewright.calculation import Calculation
from bolewright.platform.analysis.knee_shares import cap_share
from bolewright.platform.analysis.knee_weight import KneeInfluence, post_push
from bolewright.platform.analysis.lateral_stiffness import run_knee_ratio, run_post_modulus
from bolewright.platform.analysis.lateral_supports import Foot, LateralFrame, PostFrame, axes_of
from bolewright.platform.loads.combine import Array

_NO_PART = 1e-9  # of a pound: a lateral force that does nothing to what is looked at


@dataclass(frozen=True)
class KneePush:
    """Push on the deck at every post with knees, in each of the directions in which they stand (pushes).

    ``places`` row of the post and direction; ``load`` a pound of each on the deck, towards the end of the knees' beam:
    along x and y, and its moment about the origin (3, pushes); ``over`` that times its height (2, pushes); ``own`` its
    parts along the two directions of its post (supports, 2, pushes); ``rows`` influence of the sources on each.
    """

    places: tuple[tuple[int, int], ...]
    load: Array
    over: Array
    own: Array
    rows: Array


@dataclass(frozen=True)
class _Bent:
    """What is looked at in a post with knees: from a pound that its knees push it away with, the deck at rest, and from
    a pound of lateral force at its top.
    """

    by_knees: float
    by_deck: float


def find_knee_push(frames: tuple[LateralFrame, ...], influence: KneeInfluence, *, held: bool) -> KneePush:
    """The pushes with fixed bases held (``held``) or hinged at grade."""
    places = tuple(dict.fromkeys(influence.places))
    load, over = np.zeros((3, len(places))), np.zeros((2, len(places)))
    own = np.zeros((len(frames), 2, len(places)))
    rows = np.zeros((len(places), influence.force.shape[1]))
    for n, (i, which) in enumerate(places):
        frame = frames[i]
        assert isinstance(frame, PostFrame)
        u, (x, y) = frame.axes[which].knees[0].beam.line.u, frame.support.at
        load[:, n], over[:, n] = (u[0], u[1], x * u[1] - y * u[0]), frame.h * np.array(u)
        own[i, :, n] = axes_of(frame) @ np.array(u)
        on_post = post_push(influence, frame.support.mark, which) @ influence.force
        rows[n] = -(1 - cap_share(frame, which, held=held)) * on_post
    return KneePush(places, load, over, own, rows)


def _bent(frame: PostFrame, which: int, *, held: bool) -> list[_Bent]:
    """Foot, cap (and with it the moment at the knee), moment at grade."""
    axis, h, c = frame.axes[which], frame.h, cap_share(frame, which, held=held)
    if held and frame.post.base == "fixed":
        run = Calculation().run
        rho = run_knee_ratio(run, frame, axis, run_post_modulus(run, frame))
        at_knee, at_cap = 1 / (1 + rho), rho / (1 + rho)
    else:
        at_knee, at_cap = h / axis.a, 1 - h / axis.a
    grade = _Bent(c * h - (h - axis.a), at_knee * (h - axis.a) + at_cap * h)
    return [_Bent(1 - c, -1.0), _Bent(c, at_cap), *([grade] if held else [])]


@dataclass(frozen=True)
class Looked:
    """Influence rows of what knees under weight do in one post: ``still`` with the deck at rest, ``moved`` as it moves.

    ``by_deck`` of each is what a pound of lateral force at the post's top does (1,); ``either`` whether its size counts
    or what is above 0.
    """

    still: Array
    moved: Array
    by_deck: Array
    either: Array


def looked_at(
    frames: tuple[LateralFrame, ...],
    influence: KneeInfluence,
    push: KneePush,
    per_push: Array,
    n: int,
    *,
    held: bool,
) -> Looked:
    """What is looked at in the post of one push; ``per_push`` as in a State."""
    i, which = push.places[n]
    frame = frames[i]
    assert isinstance(frame, PostFrame)
    on_top = push.own[i, which, n] * (per_push[i, which] @ push.rows)
    p = push.rows[n] / (1 - cap_share(frame, which, held=held))
    found = [(b.by_knees * p, b.by_deck, True) for b in _bent(frame, which, held=held)]
    at_knee = 1.0 - _bent(frame, which, held=held)[1].by_deck
    axis, foot = frame.axes[which], Foot.HELD if held else Foot.GIVES
    for knee, force in zip(influence.knees, influence.force, strict=True):
        if knee in axis.knees:
            level = force * knee.brace.run / np.hypot(knee.brace.rise, knee.brace.run)
            by_deck = -knee.side * at_knee * axis.when_moved(foot)[axis.knees.index(knee)].share
            found += [(level, by_deck, False), (-level, -by_deck, False)]
    still, parts = np.array([row for row, *_ in found]), np.array([s for _, s, _ in found])
    some = np.abs(parts) > _NO_PART
    moved = still + parts[:, None] * on_top
    return Looked(still[some], moved[some], parts[some], np.array([e for *_, e in found])[some])


def more_on_post(looked: Looked, still: tuple[Array, Array], moved: tuple[Array, Array]) -> Array:
    """Lateral force at the top of a post that covers what it gets more as the deck moves, in every case (lb).

    Parameters: greatest and least of the rows of ``looked`` in every case.
    """

    def size(most: Array, least: Array) -> Array:
        both = np.where(looked.either[:, None], np.maximum(most, -least), most)
        return np.maximum(both, 0.0)

    more = (size(*moved) - size(*still)) / np.abs(looked.by_deck)[:, None]
    return np.asarray(np.maximum(more, 0.0).max(axis=0))
