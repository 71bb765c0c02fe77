"""Every knee-braced beam with its posts as an elastic plane frame, beside the formulas.

A lateral force on the beam is shared by its posts. The formulas take each post by itself, on a beam that all
its knees react alike; the frame takes them together. Compared are the drift and the force in every knee.
"""

from __future__ import annotations

import numpy as np

from bolewright.bracing.knee import brace_axial_force
from bolewright.calculation import Calculation
from bolewright.mechanics.frame import FrameResult, analyse
from bolewright.mechanics.frame_model import ALL, Dof, Frame, Member, Node, NodeLoad, Profile, Support
from bolewright.platform.analysis.knees import BraceReactions, Knee, beam_modulus
from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.analysis.lateral_stiffness import (
    run_knee_ratio,
    run_knee_share,
    run_knee_stiffness,
    run_post_modulus,
    run_post_stiffness,
)
from bolewright.platform.analysis.lateral_supports import Foot, PostFrame
from bolewright.platform.layout.tees import FIXITY
from bolewright.platform.verification.compared import Compared

PUSH = 1000.0  # lb, lateral force on the beam
STIFF = 1e4  # times the section of the beam along itself: its own stretch is not in the formulas


def lateral_opinion(lateral: LateralAnalysis) -> list[Compared]:
    """Drift and forces in the knees of every braced beam under a lateral force, by both calculations."""
    if lateral.loose:
        return []
    return [
        compared
        for brace_reactions in lateral.brace_reactions.values()
        for state in lateral.states
        for compared in _beam(lateral, brace_reactions, state.foot)
    ]


def _beam(lateral: LateralAnalysis, brace_reactions: BraceReactions, foot: Foot) -> list[Compared]:
    posts = [
        f
        for f in lateral.frames
        if isinstance(f, PostFrame) and any(s.below == f.support.mark for s in brace_reactions.beam.seats)
    ]
    which = {f.support.mark: _which(f, brace_reactions) for f in posts}
    run = Calculation().run
    k = {f.support.mark: run_post_stiffness(run, f, which[f.support.mark], foot) for f in posts}
    total = sum(k.values())
    result = _frame(brace_reactions, posts, which, foot)
    drift = float(result.displacement("c0")[Dof.DX, 0])
    found = [Compared(brace_reactions.beam.mark, "drift", PUSH / total, drift, "in")]
    for knee in brace_reactions.knees:
        post = next(f for f in posts if f.support.mark == knee.brace.support)
        V = PUSH * k[post.support.mark] / total
        axial = abs(float(result.end_forces[result.frame.member_index[knee.brace.mark], 0, 0]))
        by_hand = _knee_force(knee, post, which[post.support.mark], foot, V)
        found.append(Compared(knee.brace.mark, "force along the brace", by_hand, axial, "lb"))
    return found


def _which(frame: PostFrame, brace_reactions: BraceReactions) -> int:
    """Direction of a post that lies along a beam."""
    u = brace_reactions.beam.line.u
    return 0 if abs(u[0] * frame.u[0] + u[1] * frame.u[1]) > 0.7 else 1


def _knee_force(knee: Knee, frame: PostFrame, which: int, foot: Foot, V: float) -> float:
    axis = frame.axes[which]
    run = Calculation().run
    if frame.post.base == "fixed" and foot is Foot.HELD:
        Q = V / (1 + run_knee_ratio(run, frame, axis, run_post_modulus(run, frame)))
    else:
        Q = V * frame.h / axis.a
    q = run_knee_share(run, axis, knee, foot)
    return float(brace_axial_force(Q=Q, q=q, a=axis.a, r=axis.r))


def _frame(
    brace_reactions: BraceReactions, posts: list[PostFrame], which: dict[str, int], foot: Foot
) -> FrameResult:
    """Beam, posts and knees in one plane: x along the beam, y up from grade."""
    beam = brace_reactions.beam
    places = sorted(
        {0.0, beam.line.length, *(s.at for s in beam.seats), *(k.at for k in brace_reactions.knees)}
    )
    name = {at: f"c{i}" for i, at in enumerate(places)}
    level = beam.bottom
    nodes = [Node(name[at], at, level) for at in places]
    bar_of_beam = Profile(E=beam_modulus(beam), A=beam.section.A * STIFF, I_z=beam.section.I)
    members = [
        Member(f"{beam.mark}{i}", name[a], name[b], bar_of_beam)
        for i, (a, b) in enumerate(zip(places, places[1:], strict=False))
    ]
    supports = []
    for post in posts:
        mark, held = post.support.mark, post.post.base == "fixed"
        seat = next(s for s in beam.seats if s.below == mark)
        axis = post.axes[which[mark]]
        firm = held and (foot is Foot.HELD or not axis.n)
        if not axis.n and not firm:  # a prop without a part laterally
            supports.append(Support(name[seat.at], (Dof.DY,)))
            continue
        gives = (
            0.5 if firm and foot is not Foot.HELD else 1.0
        )  # a cantilever in soft ground: half, by judgement
        bar = Profile(
            E=run_post_modulus(Calculation().run, post), A=post.section.A * STIFF, I_z=post.I * gives
        )
        nodes.append(Node(f"{mark} foot", seat.at, -FIXITY if firm else 0.0))
        supports.append(Support(f"{mark} foot", ALL if firm else (Dof.DX, Dof.DY)))
        below = f"{mark} foot"
        if axis.n:
            nodes.append(Node(f"{mark} knee", seat.at, level - axis.a))
            members.append(Member(f"{mark} low", below, f"{mark} knee", bar))
            below = f"{mark} knee"
        members.append(Member(f"{mark} high", below, name[seat.at], bar, end_releases=(Dof.RZ,)))
        for knee in axis.knees:
            if knee.beam.mark == beam.mark:
                members.append(_brace(knee, f"{mark} knee", name[knee.at]))
    under = {post.support.mark for post in posts}
    supports += [Support(name[s.at], (Dof.DY,)) for s in beam.seats if s.below not in under]
    frame = Frame(tuple(nodes), tuple(members), tuple(supports), plane=True)
    return analyse(frame, [[NodeLoad("c0", (PUSH, 0.0, 0.0))]])


def _brace(knee: Knee, start: str, end: str) -> Member:
    """A knee as a bar hinged at both ends, with the slip of its ends in its stiffness."""
    length = float(np.hypot(knee.brace.rise, knee.brace.run))
    E = knee.values.E
    area = run_knee_stiffness(Calculation().run, knee) * length / E
    bar = Profile(E=E, A=area, I_z=knee.section.I)
    return Member(knee.brace.mark, start, end, bar, (Dof.RZ,), (Dof.RZ,))
