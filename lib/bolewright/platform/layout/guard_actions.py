"""What guards hand on to the framing: pushes on their posts, and the weight of one round an opening."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

from bolewright.bracing.gate import gate_moment
from bolewright.platform.layout.actions import Action, ActionKind, gives_actions, moment_of_push
from bolewright.platform.layout.gates import GateAt, find_gates, leaf_weight
from bolewright.platform.layout.guard_joints import pieces_behind, shared_moment
from bolewright.platform.layout.guard_sizes import weight_of_run
from bolewright.platform.layout.guards import (
    PUSH,
    GuardPost,
    along_asked,
    below_deck,
    find_guards,
    height_of,
    push_on,
)
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout, Member

_NOTHING = 1e-9  # lb


@gives_actions
def guard_actions(layout: Layout) -> Iterator[Action]:
    """Pushes on every post that something takes: outward, inward, downward, and along the rail where that is asked."""
    for run in find_guards(layout) if layout.project.guards else ():
        for k, post in enumerate(run.posts):
            if post.receiver is not None:
                yield from _of(
                    layout, post, post.receiver, run.posts[k - 1 if k else min(1, len(run.posts) - 1)]
                )
    if layout.project.guards:
        yield from _weights(layout)
        yield from _gates(layout)


def _of(layout: Layout, post: GuardPost, receiver: Member, beside: GuardPost) -> Iterator[Action]:
    """A push at a rail's free end: more than itself on the last post, the rest backwards on the one ``beside`` it."""
    P, whole = push_on(layout, post), push_on(layout, post, lever=False)
    back = whole - P
    ways = (("outward", 1.0), ("inward", -1.0))
    levered = beside.receiver is not None and back < -_NOTHING
    others = _edges(layout, beside) if levered else (None,)
    for edge, other, (way, sign) in product(_edges(layout, post), others, ways):
        what = f"push {way} on the guard"
        first, *rest = _turned(layout, post, receiver, edge, what, sign * P)
        if beside.receiver is not None and back < -_NOTHING:
            rest += _turned(layout, beside, beside.receiver, other, what, sign * back)
        height = receiver.top - receiver.section.d / 2
        rest += _level(post, beside.at, what, sign * back, height)
        level = (sign * P * post.out[0], sign * P * post.out[1])
        yield replace(first, level=level, height=height, also=tuple(rest))
    yield from _at_tips(post, receiver)
    down = "load down on the guard"
    also = _lifted(beside, down, back)
    yield Action(post.mark, down, ActionKind.PUSH, post.end, receiver.mark, down=P, also=also)
    if along_asked(layout.project, post.guard)[0]:
        yield from _pushed_along(layout, post, receiver, whole)


def _edges(layout: Layout, post: GuardPost) -> tuple[Member | None, ...]:
    """What along the edge may take a part of a post's moment; None where its receiver takes all of it."""
    return (pieces_behind(layout, post) if post.skewed else ()) or (None,)


def _turned(
    layout: Layout, post: GuardPost, receiver: Member, edge: Member | None, what: str, push: float
) -> list[Action]:
    """Moment of a push outward at a post's top about the middle of what takes it.

    Where that lies off the square of the edge, a member along the ``edge`` takes the part that would twist it.
    """
    arm = height_of(layout.project) + below_deck(layout, post) + receiver.section.d / 2
    moment = moment_of_push((push * post.out[0], push * post.out[1]), arm)
    if edge is None:
        return [Action(post.mark, what, ActionKind.PUSH, post.end, receiver.mark, moment=moment)]
    bent, rest = shared_moment(receiver, edge, moment)
    at = edge.line.at(edge.line.nearest(post.at))
    return [
        Action(post.mark, what, ActionKind.PUSH, post.end, receiver.mark, moment=bent),
        Action(post.mark, what, ActionKind.PUSH, at, edge.mark, moment=rest),
    ]


def _level(post: GuardPost, at: Vector, what: str, push: float, height: float) -> tuple[Action, ...]:
    """A lateral force out of the rail's line that the same push brings to another place of the edge."""
    if abs(push) < _NOTHING:
        return ()
    level = (push * post.out[0], push * post.out[1])
    return (Action(post.mark, what, ActionKind.PUSH, at, level=level, height=height),)


def _at_tips(post: GuardPost, receiver: Member) -> Iterator[Action]:
    """A rail on one post alone, pushed at either end: the push there and none at the post, which it twists."""
    for tip in post.tips:
        for way, sign in (("outward", 1.0), ("inward", -1.0)):
            what, height = f"push {way} at an end of the rail", receiver.top - receiver.section.d / 2
            yield from _level(post, tip, what, sign * PUSH, height)


def _lifted(post: GuardPost, what: str, back: float) -> tuple[Action, ...]:
    """What a rail's lever brings to the post before its last one; nothing where the rail ends at its last post."""
    if post.receiver is None or back > -_NOTHING:
        return ()
    return (Action(post.mark, what, ActionKind.PUSH, post.end, post.receiver.mark, down=back),)


def _pushed_along(layout: Layout, post: GuardPost, receiver: Member, P: float) -> Iterator[Action]:
    """A push along the rail bends the rim or edge joist behind the post in its own plane."""
    lever = height_of(layout.project) + below_deck(layout, post) + receiver.section.d / 2
    for rim, sign in product(pieces_behind(layout, post) or (receiver,), (1.0, -1.0)):
        push = (-sign * P * post.out[1], sign * P * post.out[0])
        shared = tuple(part / post.sharing for part in push)
        yield Action(
            post.mark,
            "push along the guard",
            ActionKind.PUSH,
            rim.line.at(rim.line.nearest(post.at)) if rim is not receiver else post.end,
            rim.mark,
            level=push,
            height=layout.project.platform.floor_height,
            moment=(0.0, 0.0) if rim is receiver else moment_of_push((shared[0], shared[1]), lever),
        )


def _gates(layout: Layout) -> Iterator[Action]:
    """A leaf that hangs on its hinges alone turns its post along the guard, and so the rim behind it."""
    for at in find_gates(layout) if layout.project.gates else ():
        post = at.hung_on
        if at.gate.wheeled or post is None or at.hung_run is None:
            continue
        M = gate_moment(P=PUSH, W=leaf_weight(layout, at), w=at.leaf, b=at.arm)
        M /= post.sharing
        way = 1.0 if at.gate.hung == "start" else -1.0
        u = layout_edge(layout, at)
        push = (way * float(M) * u[0], way * float(M) * u[1])
        for rim in pieces_behind(layout, post):
            yield Action(
                at.gate.mark,
                "200 lb at the free edge of the gate",
                ActionKind.PUSH,
                rim.line.at(rim.line.nearest(post.at)),
                rim.mark,
                down=PUSH,
                moment=moment_of_push(push, 1.0),
            )


def layout_edge(layout: Layout, at: GateAt) -> Vector:
    """Direction of a gate's edge, from its first corner to its second."""
    assert at.hung_run is not None
    return at.hung_run.line.u


def _weights(layout: Layout) -> Iterator[Action]:
    """The weight of a guard round an opening, at its posts: the line load of the edges does not hold it."""
    for run in find_guards(layout):
        held = [post for post in run.posts if post.receiver is not None]
        if run.guard.opening is None or not held:
            continue
        W = weight_of_run(layout, run) / len(held)
        for post in held:
            assert post.receiver is not None
            yield Action(
                post.mark, "weight of the guard", ActionKind.DEAD, post.end, post.receiver.mark, down=W
            )
