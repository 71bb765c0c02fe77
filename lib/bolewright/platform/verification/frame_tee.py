"""T-frames in the frame model: a beam on one post, with its two knees and the post as bars, solved for itself.

A pound on every node of the beam, and a couple where a part brings one, give its moments, its deflection with the lean
of the post, and the moment into the post.
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
from bolewright.timber.section_properties import E_OVER_G

STIFF = 1e3  # in²: sections that do not give along themselves


@dataclass(frozen=True)
class TeeInfluence:
    """What a pound down on every node of the beam, then its couples (columns), do: at its nodes, and into the post.

    ``deflection`` down from where it was (in); moments sagging positive (lb·in), at a couple's node just past it and
    those just before each couple last; ``head``, into the post, towards the beam's end.
    """

    deflection: Array
    moment: Array
    shear_left: Array
    shear_right: Array
    head: Array


def solve_tee(tee: Tee, x: Array, turned: tuple[int, ...] = ()) -> TeeInfluence:
    """A T-frame with its beam cut at ``x``, the post's place and the knees' among them; couples at nodes ``turned``.

    These as :class:`~bolewright.mechanics.loads.CoupleLoad` counts them: what would deflect the beam before it turns
    its end up, against the clock as x runs to the right.
    """
    run, beam = Calculation().run, tee.beam
    E, I = post_bending(run, tee)
    post = Profile(E=E, A=STIFF, I_z=I, I_y=I, J=I, G=E / E_OVER_G)
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
    loads = [[NodeLoad(name, (0.0, -1.0, 0.0))] for name in names]
    loads += [[NodeLoad(names[node], moment=(0.0, 0.0, 1.0))] for node in turned]
    result = analyse(frame, loads)
    n = len(x)
    ends = result.end_forces[: n - 1]
    # A force up on a piece's start is a shear that makes the moment grow; a turn about z there is the moment taken off.
    slope, first, last = ends[:, Dof.DY], -ends[:, Dof.RZ], ends[:, 6 + Dof.RZ]
    none = np.zeros((1, len(loads)))
    low = result.end_forces[frame.member_index["low"]]
    return TeeInfluence(
        deflection=-result.displacements[:n, Dof.DY],
        moment=np.vstack([first, last[-1:], last[[node - 1 for node in turned if node > 0]]]),
        shear_left=np.vstack([none, slope]),
        shear_right=np.vstack([slope, none]),
        head=-low[6 + Dof.RZ],
    )


def _profile(beam: Timber) -> Profile:
    return Profile(E=member_values(beam).E, A=STIFF, I_z=beam.section.I)
