"""Knees of posts while the deck moves along their beam: the share of each of two at one post, and how the beam gives.

The stiff deck moves all posts of a beam alike at their tops. One knee of a post is then pressed, the other pulled, and
the beam goes up over the one and down over the other, bent by those of its other posts at the same time. All knees are
solved together with the give of beams, posts and braces, as under weight (:mod:`.knee_weight`): there the beam comes
down on them, here the post moves under it.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from bolewright.bracing.knee import (
    cap_force_from_weight,
    cap_force_from_weight_held,
    post_side_stiffness,
    post_side_stiffness_held,
)
from bolewright.calculation import Calculation
from bolewright.platform.analysis.knees import BraceReactions, Knee
from bolewright.platform.analysis.lateral_stiffness import (
    Run,
    run_knee_share,
    run_knee_stiffness,
    run_post_modulus,
)
from bolewright.platform.analysis.lateral_supports import (
    Foot,
    KneeMoved,
    LateralFrame,
    PostAxis,
    PostFrame,
)
from bolewright.platform.layout.tees import FIXITY
from bolewright.platform.loads.combine import Array

_NOTHING = 1e-12  # of the greatest: a force, or a deflection (in/lb), that is none


def with_knees_moved(
    frames: tuple[LateralFrame, ...], brace_reactions: dict[str, BraceReactions]
) -> tuple[LateralFrame, ...]:
    """The supports, with what moving the deck does to the knees of the posts."""
    knees = tuple(knee for found in brace_reactions.values() for knee in found.knees)
    if not knees:
        return frames
    hinged = _moved(frames, knees, brace_reactions, held=False)
    held = hinged
    if any(isinstance(f, PostFrame) and f.post.base == "fixed" for f in frames):
        held = _moved(frames, knees, brace_reactions, held=True)

    def filled(axis: PostAxis) -> PostAxis:
        own = [knees.index(knee) for knee in axis.knees]
        axis = replace(axis, moved=(tuple(hinged[i] for i in own), tuple(held[i] for i in own)))
        shares = [
            [run_knee_share(Calculation().run, axis, k, foot) for k in axis.knees]
            for foot in (Foot.GIVES, Foot.HELD)
        ]
        with_share = [
            tuple(replace(m, share=q) for m, q in zip(m, s, strict=True))
            for m, s in zip(axis.moved, shares, strict=True)
        ]
        return replace(axis, moved=(with_share[0], with_share[1]))

    return tuple(
        replace(f, axes=(filled(f.axes[0]), filled(f.axes[1]))) if isinstance(f, PostFrame) else f
        for f in frames
    )


def _moved(
    frames: tuple[LateralFrame, ...],
    knees: tuple[Knee, ...],
    brace_reactions: dict[str, BraceReactions],
    *,
    held: bool,
) -> list[KneeMoved]:
    """Every knee as the deck moves an inch towards the end of its beam; shares are left for later."""
    places = places_of(frames, knees)
    c_v, c_p = cosines(knees)
    k_b = np.array([run_knee_stiffness(Calculation().run, knee) for knee in knees])
    beam = beams_at_knees(knees, brace_reactions)
    post = posts_at_knees(frames, knees, places, held=held) * np.outer(c_p, c_p)
    # of an inch at its top a post has at its knee what the cap takes of a pound there: the beam goes past it by
    moved = [1 - cap_share(_post(frames, i), which, held=held) for i, which in places]
    side = np.array([knee.side for knee in knees])
    whole = np.diag(1 / k_b) + beam * np.outer(c_v, c_v) + post
    force = np.linalg.solve(whole, side * c_p * np.array(moved))
    force = _apart_from_none(force, _NOTHING * np.abs(force).max())
    give = _apart_from_none(beam @ (c_v * force) / (c_v * force), _NOTHING)
    return [KneeMoved(float(s * F), float(g), 1.0) for s, F, g in zip(side, force, give, strict=True)]


def _apart_from_none(values: Array, least: float) -> Array:
    return np.asarray(np.where(np.abs(values) < least, least, values))


def _post(frames: tuple[LateralFrame, ...], i: int) -> PostFrame:
    frame = frames[i]
    assert isinstance(frame, PostFrame)
    return frame


def cosines(knees: tuple[Knee, ...]) -> tuple[Array, Array]:
    """Upright and level part of a pound along every knee."""
    rise, run = (np.array([getattr(k.brace, name) for k in knees]) for name in ("rise", "run"))
    length = np.hypot(rise, run)
    return rise / length, run / length


def places_of(frames: tuple[LateralFrame, ...], knees: tuple[Knee, ...]) -> list[tuple[int, int]]:
    """Row of the post and direction of every knee."""
    found = []
    for knee in knees:
        i = next(i for i, f in enumerate(frames) if f.support.mark == knee.brace.support)
        found.append((i, next(w for w, axis in enumerate(_post(frames, i).axes) if knee in axis.knees)))
    return found


def beams_at_knees(knees: tuple[Knee, ...], brace_reactions: dict[str, BraceReactions]) -> Array:
    """Deflection of the beams at every knee (row) from a pound down at every knee (column)."""
    whole = np.zeros((len(knees), len(knees)))
    for brace_reaction in brace_reactions.values():
        own = [knees.index(knee) for knee in brace_reaction.knees]
        whole[np.ix_(own, own)] = brace_reaction.deflection
    return whole


def posts_at_knees(
    frames: tuple[LateralFrame, ...], knees: tuple[Knee, ...], places: list[tuple[int, int]], *, held: bool
) -> Array:
    """Give of a post at one knee, towards it, from a pound of lateral force at another: as a beam hinged at both
    ends, or held at its base.
    """
    whole = np.zeros((len(knees), len(knees)))
    run = Calculation().run
    for m, (one, place) in enumerate(zip(knees, places, strict=True)):
        k_p = run_side_stiffness(run, _post(frames, place[0]), one.brace.rise, held=held)
        for n, (other, there) in enumerate(zip(knees, places, strict=True)):
            if there == place:
                whole[m, n] = one.side * other.side / k_p
    return whole


def run_side_stiffness(run: Run, frame: PostFrame, a: float, *, held: bool) -> float:
    """Stiffness of a post against a push at its knee, its top hinged; its base held, or hinged at grade."""
    E = run_post_modulus(run, frame)
    if held and frame.post.base == "fixed":
        return float(run(post_side_stiffness_held, E=E, I=frame.I, l=frame.h + FIXITY, a=a))
    return float(run(post_side_stiffness, E=E, I=frame.I, h=frame.h, a=a))


def cap_share(frame: PostFrame, which: int, *, held: bool) -> float:
    """What the cap takes of a pound of lateral force at the knees."""
    axis, run = frame.axes[which], Calculation().run
    F_w = float(np.hypot(axis.a, axis.r) / axis.r)
    if held and frame.post.base == "fixed":
        return float(run(cap_force_from_weight_held, F_w=F_w, l=frame.h + FIXITY, a=axis.a, r=axis.r))
    return float(run(cap_force_from_weight, F_w=F_w, h=frame.h, a=axis.a, r=axis.r))
