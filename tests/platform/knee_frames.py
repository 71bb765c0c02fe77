"""Every knee-braced carrier with its posts as an elastic plane frame, beside the formulas.

A level force on the carrier is shared by its posts. The formulas take each post by itself, on a carrier that all
its knees kick alike; the frame takes them together. Compared are the drift and the force in every knee.
"""

from __future__ import annotations

import numpy as np

from bolewright.bracing.knee import brace_axial_force
from bolewright.calculation import Calculation
from bolewright.mechanics.frame import FrameResult, analyse
from bolewright.mechanics.frame_model import ALL, Dof, Frame, Member, Node, NodeLoad, Profile, Support
from bolewright.platform.checks.posts import FIXITY
from bolewright.platform.compared import Compared
from bolewright.platform.knees import Kicks, Knee, carrier_modulus
from bolewright.platform.level_stiffness import (
    run_knee_ratio,
    run_knee_stiffness,
    run_post_modulus,
    run_post_stiffness,
)
from bolewright.platform.level_supports import Foot, PostFrame
from bolewright.platform.sideways import Sideways

PUSH = 1000.0  # lb, level force on the carrier
STIFF = 1e4  # times the section of the carrier along itself: its own stretch is not in the formulas


def sideways_opinion(sideways: Sideways) -> list[Compared]:
    """Drift and forces in the knees of every braced carrier under a level force, by both routes."""
    if sideways.loose:
        return []
    return [
        compared
        for kicks in sideways.kicks.values()
        for state in sideways.states
        for compared in _carrier(sideways, kicks, state.foot)
    ]


def _carrier(sideways: Sideways, kicks: Kicks, foot: Foot) -> list[Compared]:
    posts = [
        f
        for f in sideways.frames
        if isinstance(f, PostFrame) and any(s.below == f.support.mark for s in kicks.carrier.seats)
    ]
    which = {f.support.mark: _which(f, kicks) for f in posts}
    run = Calculation().run
    k = {f.support.mark: run_post_stiffness(run, f, which[f.support.mark], foot) for f in posts}
    total = sum(k.values())
    result = _frame(kicks, posts, which, foot)
    drift = float(result.displacement("c0")[Dof.DX, 0])
    found = [Compared(kicks.carrier.mark, "drift", PUSH / total, drift, "in")]
    for knee in kicks.knees:
        post = next(f for f in posts if f.support.mark == knee.brace.support)
        V = PUSH * k[post.support.mark] / total
        axial = abs(float(result.end_forces[result.frame.member_index[knee.brace.mark], 0, 0]))
        by_hand = _knee_force(post, which[post.support.mark], foot, V)
        found.append(Compared(knee.brace.mark, "force along the brace", by_hand, axial, "lb"))
    return found


def _which(frame: PostFrame, kicks: Kicks) -> int:
    """Direction of a post that lies along a carrier."""
    u = kicks.carrier.line.u
    return 0 if abs(u[0] * frame.u[0] + u[1] * frame.u[1]) > 0.7 else 1


def _knee_force(frame: PostFrame, which: int, foot: Foot, V: float) -> float:
    axis = frame.axes[which]
    run = Calculation().run
    if frame.post.foot == "held" and foot is Foot.HELD:
        Q = V / (1 + run_knee_ratio(run, frame, axis, run_post_modulus(run, frame)))
    else:
        Q = V * frame.h / axis.a
    return float(brace_axial_force(Q=Q, n=axis.n, a=axis.a, r=axis.r))


def _frame(kicks: Kicks, posts: list[PostFrame], which: dict[str, int], foot: Foot) -> FrameResult:
    """Carrier, posts and knees in one plane: x along the carrier, y up from grade."""
    carrier = kicks.carrier
    places = sorted({0.0, carrier.line.length, *(s.at for s in carrier.seats), *(k.at for k in kicks.knees)})
    name = {at: f"c{i}" for i, at in enumerate(places)}
    level = carrier.bottom
    nodes = [Node(name[at], at, level) for at in places]
    beam = Profile(E=carrier_modulus(carrier), A=carrier.section.A * STIFF, I_z=carrier.section.I)
    members = [
        Member(f"{carrier.mark}{i}", name[a], name[b], beam)
        for i, (a, b) in enumerate(zip(places, places[1:], strict=False))
    ]
    supports = []
    for post in posts:
        mark, held = post.support.mark, post.post.foot == "held"
        seat = next(s for s in carrier.seats if s.below == mark)
        axis = post.axes[which[mark]]
        firm = held and (foot is Foot.HELD or not axis.n)
        if not axis.n and not firm:  # a prop without a part sideways
            supports.append(Support(name[seat.at], (Dof.DY,)))
            continue
        bar = Profile(E=run_post_modulus(Calculation().run, post), A=post.section.A * STIFF, I_z=post.I)
        nodes.append(Node(f"{mark} foot", seat.at, -FIXITY if firm else 0.0))
        supports.append(Support(f"{mark} foot", ALL if firm else (Dof.DX, Dof.DY)))
        below = f"{mark} foot"
        if axis.n:
            nodes.append(Node(f"{mark} knee", seat.at, level - axis.a))
            members.append(Member(f"{mark} low", below, f"{mark} knee", bar))
            below = f"{mark} knee"
        members.append(Member(f"{mark} high", below, name[seat.at], bar, end_releases=(Dof.RZ,)))
        for knee in axis.knees:
            if knee.carrier.mark == carrier.mark:
                members.append(_brace(knee, f"{mark} knee", name[knee.at]))
    under = {post.support.mark for post in posts}
    supports += [Support(name[s.at], (Dof.DY,)) for s in carrier.seats if s.below not in under]
    frame = Frame(tuple(nodes), tuple(members), tuple(supports), plane=True)
    return analyse(frame, [[NodeLoad("c0", (PUSH, 0.0, 0.0))]])


def _brace(knee: Knee, start: str, end: str) -> Member:
    """A knee as a bar hinged at both ends, with the slip of its ends in its stiffness."""
    length = float(np.hypot(knee.brace.rise, knee.brace.run))
    E = knee.values.E
    area = run_knee_stiffness(Calculation().run, knee) * length / E
    bar = Profile(E=E, A=area, I_z=knee.section.I)
    return Member(knee.brace.mark, start, end, bar, (Dof.RZ,), (Dof.RZ,))
