"""T-frames in the second opinion: post and knees as bars of the frame, and what comes into them by both routes."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.tee import tee_knee_couple, tee_knee_prop, tee_knee_pull, tee_knee_push
from bolewright.calculation import Calculation
from bolewright.mechanics.frame import FrameResult
from bolewright.mechanics.frame_model import HINGE, Dof, Member, Node, Profile
from bolewright.mechanics.loads import Array
from bolewright.platform.compared import Compared
from bolewright.platform.layout import Member as Timber
from bolewright.platform.load_path import LoadPath
from bolewright.platform.tees import FIXITY, Tee, knee_stiffness, post_bending


def node_at(member: Timber, places: list[float], at: float) -> str:
    """Name of the node of a member nearest to a place along it."""
    index = int(np.argmin(np.abs(np.array(places) - at)))
    return f"{member.mark}@{index}"


def head_row(path: LoadPath, tee: Tee) -> Array:
    """Influence of the sources on the moment into the head of a T-frame's post."""
    head = path.effects[tee.carrier.mark].head
    assert head is not None
    return head[0]


def of_tee(
    path: LoadPath,
    tee: Tee,
    result: FrameResult,
    name: str,
    load: Array,
    case: int,
    moments: dict[str, list[tuple[float, float]]],
) -> list[Compared]:
    """Moment into the post, and by their bounds the moment of the carrier and the greatest push of the knees."""
    ends, index = result.end_forces[:, :, case], result.frame.member_index
    M = float(head_row(path, tee) @ load)
    R = float(path.reactions[tee.mark] @ load)
    found = [
        Compared(
            tee.mark,
            "moment into its head",
            name,
            abs(M),
            round(abs(float(ends[index[f"{tee.mark} low"], 6 + Dof.RZ])), 3),
            "lb·in",
            largest=abs(R) * max(tee.runs),
        )
    ]
    by_hand, by_frame = moments[tee.carrier.mark][case]
    found.append(
        Compared(
            tee.carrier.mark,
            "largest moment, hand route on the safe side",
            name,
            by_hand,
            by_frame,
            "lb·in",
            bound=True,
        )
    )
    for brace, side in zip(tee.knees, (-1, 1), strict=True):
        r, r_o = tee.runs[::-side]
        V_c = tee_knee_couple(M_s=side * M, r=r, r_o=r_o)
        V_n = tee_knee_prop(R=R, M_s=side * M, r=r, r_o=r_o)
        bounds = [float(f(V_c=V_c, V_n=V_n, a=tee.a, r=r)) for f in (tee_knee_push, tee_knee_pull)]
        found.append(
            Compared(
                brace.mark,
                "force along the knee, hand route on the safe side",
                name,
                max(map(abs, bounds)),
                abs(float(ends[index[brace.mark], 0])),
                "lb",
                why="knees and carrier pry on the cap, which the hand route takes as not holding down",
                bound=True,
            )
        )
    return found


def tee_parts(tee: Tee, places: list[float], level: float) -> tuple[tuple[list[Node], list[Member]], str]:
    """Post and knees of a T-frame under the node of its carrier, held where the post is; the name of its foot."""
    run = Calculation().run
    E, I = post_bending(run, tee)
    post = Profile(E=E, A=1e3, I_z=I, I_y=I, J=I, G=E / 16)
    x, y = tee.carrier.line.at(tee.own)
    foot, knee, u = f"{tee.mark} foot", f"{tee.mark} knee", (*tee.carrier.line.u, 0.0)
    nodes = [Node(foot, x, y, level - tee.h - FIXITY), Node(knee, x, y, level - tee.a)]
    pieces = [
        Member(f"{tee.mark} low", foot, knee, post, depth=u),
        Member(f"{tee.mark} high", knee, node_at(tee.carrier, places, tee.own), post, (), (Dof.RZ,), u),
    ]
    for brace, at in zip(tee.knees, tee.places, strict=True):
        length = float(np.hypot(brace.rise, brace.run))
        bar = Profile(E=E, A=knee_stiffness(run, brace) * length / E, I_z=1.0, I_y=1.0, J=1.0, G=E / 16)
        end = node_at(tee.carrier, places, at)
        pieces.append(Member(brace.mark, knee, end, bar, HINGE, HINGE))
    return (nodes, pieces), foot
