"""Plane frames, the same in our solver and in anaStruct 1.7, a general-purpose library.

Without hinges: anaStruct's (an end spring of zero) differ by 1-20 % from ours and from PyNiteFEA's, which agree
to 1e-13. Its own answers carry about 1e-6.
"""

from __future__ import annotations

import numpy as np
from anastruct import SystemElements

from bolewright.mechanics.frame import (
    ALL,
    Dof,
    Frame,
    Member,
    MemberSpread,
    Node,
    NodeLoad,
    Profile,
    Support,
    analyse,
)
from bolewright.mechanics.frame_diagrams import along

FRAMES = 60
TOLERANCE = 1e-5
E = 1.5e6


def random_portal(rng: np.random.Generator) -> tuple[Frame, list[NodeLoad | MemberSpread]]:
    """Two or three bays with feet fixed, pinned or on a spring."""
    bays = int(rng.integers(2, 4))
    x = np.cumsum(rng.uniform(60, 140, bays + 1)).round(1)
    top = rng.uniform(80, 120, bays + 1).round(1)
    nodes = [Node(f"t{i}", float(x[i]), float(top[i])) for i in range(bays + 1)]
    nodes += [Node(f"f{i}", float(x[i]), 0.0) for i in range(bays + 1)]
    bar = Profile(E=E, A=float(rng.uniform(10, 30)), I_z=float(rng.uniform(50, 300)))
    members = [Member(f"post{i}", f"f{i}", f"t{i}", bar) for i in range(bays + 1)]
    for i in range(bays):
        members.append(Member(f"beam{i}", f"t{i}", f"t{i + 1}", bar))
    supports = [Support("f0", ALL), Support("f1", (Dof.DX, Dof.DY))]
    supports += [Support("f2", (Dof.DY,), springs=((Dof.DX, 900.0),))]
    supports += [Support("f3", ALL)] if bays == 3 else []
    loads: list[NodeLoad | MemberSpread] = [
        NodeLoad("t0", (float(rng.uniform(-400, 400)), float(rng.uniform(-400, 400)), 0.0)),
    ]
    for member, length in zip(
        members, Frame(tuple(nodes), tuple(members), (), plane=True).lengths, strict=True
    ):
        q = float(rng.uniform(-6, 6))
        loads.append(MemberSpread(member.name, 0.0, float(length), (0.0, q, 0.0), local=True))
    return Frame(tuple(nodes), tuple(members), tuple(supports), plane=True), loads


def anastruct_model(frame: Frame, loads: list) -> tuple[SystemElements, dict[str, int]]:
    model = SystemElements(mesh=20)
    points = {node.name: [node.x, node.y] for node in frame.nodes}
    for member in frame.members:
        p = member.profile
        model.add_element([points[member.start], points[member.end]], EA=p.E * p.A, EI=p.E * p.I_z)
    number = {name: model.find_node_id(point) for name, point in points.items()}
    for support in frame.supports:
        node = number[support.node]
        if set(support.held) == set(ALL):
            model.add_support_fixed(node)
        elif Dof.DX in support.held:
            model.add_support_hinged(node)
        else:
            model.add_support_roll(node, direction="x")
            model.add_support_spring(node, translation=1, k=support.springs[0][1])
    for load in loads:
        if isinstance(load, NodeLoad):
            model.point_load(number[load.node], Fx=load.force[0], Fy=load.force[1])
        else:
            row = frame.member_index[load.member] + 1
            model.q_load(q=load.q[1], element_id=row, direction="element")
    model.solve()
    return model, number


def test_portals_agree_with_anastruct() -> None:
    rng = np.random.default_rng(3)
    for _ in range(FRAMES):
        frame, loads = random_portal(rng)
        ours = analyse(frame, [loads])
        model, number = anastruct_model(frame, loads)
        theirs = np.array(
            [[model.get_node_displacements(number[n.name])[k] for k in ("ux", "uy")] for n in frame.nodes]
        )
        assert np.abs(ours.displacements[:, :2, 0] - theirs).max() < TOLERANCE * np.abs(theirs).max()
        mine, other = [], []
        for row, (member, length) in enumerate(zip(frame.members, frame.lengths, strict=True), start=1):
            mine.append(along(ours, member.name, [0.0, length]).moment_z[:, 0])
            other.append(
                -model.get_element_results(row, verbose=True)["M"][[0, -1]]
            )  # hogging positive there
        assert np.abs(np.array(mine) - np.array(other)).max() < TOLERANCE * np.abs(other).max()
