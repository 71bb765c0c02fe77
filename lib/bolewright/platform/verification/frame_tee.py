"""T-frames in the frame model: a beam on one post, with its two knees and the post as bars, solved for itself.

A pound on every node of the beam gives its moments, its deflection with the lean of the post, and the moment into the
post.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bolewright.calculation import Calculation
from bolewright.mechanics.frame import analyse
from bolewright.mechanics.frame_model import ALL, HINGE, Dof, Frame, Member, Node, NodeLoad, Profile, Support
from bolewright.platform.layout.influence import Array
from bolewright.platform.layout.parts import Member as Timber
from bolewright.platform.layout.tees import FIXITY, Tee, knee_stiffness, post_bending
from bolewright.platform.loads.load_path import member_values

SHEAR = 16.0  # E over G of sawn timber
STIFF = 1e3  # in²: sections that do not give along themselves


@dataclass(frozen=True)
class TeeInfluence:
    """What a pound down on every node of the beam (columns) does: at its nodes (rows), and into the post's head.

    ``deflection`` down from where it was (in); moments sagging positive (lb·in); ``head`` towards the beam's end.
    """

    deflection: Array
    moment: Array
    shear_left: Array
    shear_right: Array
    head: Array


def solve_tee(tee: Tee, x: Array) -> TeeInfluence:
    """A T-frame with its beam cut at ``x``, the post's place and the knees' among them."""
    run, beam = Calculation().run, tee.beam
    E, I = post_bending(run, tee)
    post = Profile(E=E, A=STIFF, I_z=I, I_y=I, J=I, G=E / SHEAR)
    own = int(np.argmin(np.abs(x - tee.own)))
    names = [f"b{i}" for i in range(len(x))]
    nodes = [Node(name, float(at - tee.own), 0.0) for name, at in zip(names, x, strict=True)]
    nodes += [Node("knee", 0.0, -tee.a), Node("foot", 0.0, -tee.h - FIXITY)]
    bars = [
        Member(f"p{i}", a, b, _profile(beam)) for i, (a, b) in enumerate(zip(names, names[1:], strict=False))
    ]
    bars += [Member("low", "foot", "knee", post), Member("high", "knee", names[own], post, (), (Dof.RZ,))]
    for k, (brace, at) in enumerate(zip(tee.knees, tee.places, strict=True)):
        length = float(np.hypot(brace.rise, brace.run))
        bar = Profile(E=E, A=knee_stiffness(run, brace) * length / E, I_z=1.0)
        end = names[int(np.argmin(np.abs(x - at)))]
        bars.append(Member(f"k{k}", "knee", end, bar, HINGE, HINGE))
    frame = Frame(tuple(nodes), tuple(bars), (Support("foot", ALL),), plane=True)
    result = analyse(frame, [[NodeLoad(name, (0.0, -1.0, 0.0))] for name in names])
    n = len(x)
    ends = result.end_forces[: n - 1]
    # A force up on a piece's start is a shear that makes the moment grow; a turn about z there is the moment taken off.
    slope, first, last = ends[:, Dof.DY], -ends[:, Dof.RZ], ends[:, 6 + Dof.RZ]
    none = np.zeros((1, n))
    low = result.end_forces[frame.member_index["low"]]
    return TeeInfluence(
        deflection=-result.displacements[:n, Dof.DY],
        moment=np.vstack([first, last[-1:]]),
        shear_left=np.vstack([none, slope]),
        shear_right=np.vstack([slope, none]),
        head=-low[6 + Dof.RZ],
    )


def _profile(beam: Timber) -> Profile:
    return Profile(E=member_values(beam).E, A=STIFF, I_z=beam.section.I)
