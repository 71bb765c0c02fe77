"""Random plane and space frames, the same in our solver and in PyNiteFEA, a general-purpose library."""

from __future__ import annotations

import numpy as np
import pytest
from Pynite import FEModel3D

from bolewright.mechanics.frame import (
    ALL,
    PINNED,
    Dof,
    Frame,
    Member,
    MemberPoint,
    MemberSpread,
    Node,
    NodeLoad,
    Profile,
    Support,
    UnstableError,
    analyse,
)
from bolewright.mechanics.frame_diagrams import along

SPACE_FRAMES = 240
PLANE_FRAMES = 120
TOLERANCE = 1e-6  # relative to the largest value of its kind in the frame


def random_frame(rng: np.random.Generator, plane: bool) -> tuple[Frame, tuple]:
    count = int(rng.integers(3, 9))
    places = rng.uniform(-200, 200, (count, 3)).round(2)
    if plane:
        places[:, 2] = 0.0
    if rng.random() < 0.5:  # an upright member, whose axes are a case of their own
        places[1] = places[0] + (0.0, 90.0, 0.0)
    nodes = tuple(Node(f"N{i}", *map(float, p)) for i, p in enumerate(places))
    pairs = [(int(rng.integers(0, i)), i) for i in range(1, count)]
    extra = int(rng.integers(0, count))
    pairs += [tuple(sorted(rng.choice(count, 2, replace=False).tolist())) for _ in range(extra)]
    pairs = sorted(set(pairs))
    members = []
    joined: set[int] = set()
    for k, (a, b) in enumerate(pairs):
        bar = Profile(
            E=float(rng.uniform(1e6, 2e6)),
            G=float(rng.uniform(5e4, 1e5)),
            A=float(rng.uniform(8, 30)),
            I_z=float(rng.uniform(40, 300)),
            I_y=float(rng.uniform(10, 60)),
            J=float(rng.uniform(10, 60)),
        )
        along = places[b] - places[a]
        upright = abs(along[0]) < 1e-9 and abs(along[2]) < 1e-9
        depth = (-np.sign(along[1]), 0.0, 0.0) if upright else (0.0, 1.0, 0.0)
        start, end = (_random_releases(rng, plane) if node in joined else () for node in (a, b))
        joined |= {a, b}  # the first member at a node is rigidly joined: no node is left to spin
        members.append(Member(f"M{k}", f"N{a}", f"N{b}", bar, start, end, depth))
    supports = [Support("N0", ALL)]
    if count > 3:
        supports.append(Support(f"N{count - 1}", PINNED if rng.random() < 0.5 else (Dof.DY,)))
    if rng.random() < 0.5:
        springs = ((Dof.DX, 2000.0), (Dof.RZ, 5e5)) if plane else ((Dof.DX, 2000.0), (Dof.RY, 5e5))
        supports.append(Support("N2", springs=springs))
    frame = Frame(nodes, tuple(members), tuple(supports), plane=plane)
    return frame, random_loads(rng, frame)


def _random_releases(rng: np.random.Generator, plane: bool) -> tuple[Dof, ...]:
    kinds = [(), (Dof.RZ,), (Dof.RY, Dof.RZ), (Dof.RX,), (Dof.DX,)]
    if plane:
        kinds[2:4] = [(Dof.RZ,), ()]
    return kinds[int(rng.choice(5, p=[0.4, 0.2, 0.2, 0.1, 0.1]))]


def random_loads(rng: np.random.Generator, frame: Frame) -> tuple:
    keep = np.array([1.0, 1.0, 0.0 if frame.plane else 1.0])
    turn = np.array([0.0, 0.0, 1.0]) if frame.plane else np.ones(3)
    loads: list = []
    for node in frame.nodes[1:3]:
        force, moment = rng.uniform(-500, 500, 3) * keep, rng.uniform(-5000, 5000, 3) * turn
        loads.append(NodeLoad(node.name, tuple(force), tuple(moment)))
    for member, length in zip(frame.members, frame.lengths, strict=True):
        kind = rng.random()
        local = bool(rng.random() < 0.5)
        if kind < 0.35:
            loads.append(
                MemberPoint(
                    member.name, float(rng.uniform(0, length)), tuple(rng.uniform(-300, 300, 3) * keep), local
                )
            )
        elif kind < 0.8:
            a, b = sorted(rng.uniform(0, length, 2))
            q, q_end = rng.uniform(-5, 5, 3) * keep, rng.uniform(-5, 5, 3) * keep
            loads.append(MemberSpread(member.name, float(a), float(b), tuple(q), tuple(q_end), local))
    return tuple(loads)


def pynite_model(frame: Frame, loads: tuple) -> FEModel3D:
    model = FEModel3D()
    for node in frame.nodes:
        model.add_node(node.name, node.x, node.y, node.z)
    for m in frame.members:
        p = m.profile
        model.add_material(m.name, p.E, p.G, 0.3, 0.0)
        model.add_section(m.name, p.A, p.I_y, p.I_z, p.J)
        model.add_member(m.name, m.start, m.end, m.name, m.name)
        freed = [d in m.start_releases for d in Dof] + [d in m.end_releases for d in Dof]
        if any(freed):
            model.def_releases(m.name, *freed)
    held = {node.name: [False, False, frame.plane, frame.plane, frame.plane, False] for node in frame.nodes}
    for support in frame.supports:
        for dof in support.held:
            held[support.node][dof] = True
        for dof, k in support.springs:
            model.def_support_spring(support.node, dof.name, k)
    for name, flags in held.items():
        model.def_support(name, *flags)
    for load in loads:
        if isinstance(load, NodeLoad):
            for axis, value in zip(
                ("FX", "FY", "FZ", "MX", "MY", "MZ"), load.force + load.moment, strict=True
            ):
                model.add_node_load(load.node, axis, value)
        elif isinstance(load, MemberPoint):
            for axis, value in zip("xyz" if load.local else "XYZ", load.force, strict=True):
                model.add_member_pt_load(load.member, "F" + axis, value, load.x)
        else:
            for axis, a, b in zip("xyz" if load.local else "XYZ", load.q, load.q_end or load.q, strict=True):
                model.add_member_dist_load(load.member, "F" + axis, a, b, load.start, load.end)
    model.analyze_linear(check_stability=False, sparse=False)
    return model


def solved_frames(plane: bool, wanted: int, seed: int):
    rng = np.random.default_rng(seed)
    solved = 0
    while solved < wanted:
        frame, loads = random_frame(rng, plane)
        try:
            ours = analyse(frame, [loads])
        except UnstableError:
            continue  # chance put too many releases in it
        solved += 1
        yield frame, loads, ours


def differences(frame: Frame, loads: tuple, ours) -> dict[str, float]:
    combo = "Combo 1"
    theirs = pynite_model(frame, loads)
    moved = np.array([[getattr(theirs.nodes[n.name], d.name)[combo] for d in Dof] for n in frame.nodes])
    forces = np.array([theirs.members[m.name].f(combo).ravel() for m in frame.members])

    def apart(mine: np.ndarray, other: np.ndarray) -> float:
        return float(np.abs(mine - other).max() / max(np.abs(other).max(), 1e-12))

    return {
        "translations": apart(ours.displacements[:, :3, 0], moved[:, :3]),
        "rotations": apart(ours.displacements[:, 3:, 0], moved[:, 3:]),
        "forces": apart(ours.end_forces[:, [0, 1, 2, 6, 7, 8], 0], forces[:, [0, 1, 2, 6, 7, 8]]),
        "moments": apart(ours.end_forces[:, [3, 4, 5, 9, 10, 11], 0], forces[:, [3, 4, 5, 9, 10, 11]]),
    }


@pytest.mark.parametrize(("plane", "wanted"), [(False, SPACE_FRAMES), (True, PLANE_FRAMES)])
def test_random_frames_agree_with_pynite(plane: bool, wanted: int) -> None:
    worst = {"translations": 0.0, "rotations": 0.0, "forces": 0.0, "moments": 0.0}
    for frame, loads, ours in solved_frames(plane, wanted, seed=20 + plane):
        for kind, apart in differences(frame, loads, ours).items():
            worst[kind] = max(worst[kind], apart)
        assert ours.imbalance[0] < 1e-8  # chance frames move up to 1e6 in
    assert max(worst.values()) < TOLERANCE


def test_diagrams_between_nodes_agree_with_pynite() -> None:
    # PyNiteFEA counts both moments, and the axial force, with the opposite sign.
    combo = "Combo 1"
    for frame, loads, ours in solved_frames(plane=False, wanted=25, seed=7):
        theirs = pynite_model(frame, loads)
        apart: list[np.ndarray] = []
        sizes: list[np.ndarray] = []
        for member, length in zip(frame.members, frame.lengths, strict=True):
            x = np.linspace(0.0, length, 13)[1:-1]
            other = theirs.members[member.name]
            mine = along(ours, member.name, x)
            here = np.stack(
                (
                    mine.left[:, 0, 0],
                    mine.left[:, 1, 0],
                    mine.left[:, 2, 0],
                    mine.moment_z[:, 0],
                    mine.moment_y[:, 0],
                    mine.moved[:, 1, 0],
                    mine.moved[:, 2, 0],
                )
            )
            there = np.array(
                [
                    [-other.axial(s, combo) for s in x],
                    [other.shear("Fy", s, combo) for s in x],
                    [other.shear("Fz", s, combo) for s in x],
                    [-other.moment("Mz", s, combo) for s in x],
                    [-other.moment("My", s, combo) for s in x],
                    [other.deflection("dy", s, combo) for s in x],
                    [other.deflection("dz", s, combo) for s in x],
                ]
            )
            apart.append(np.abs(here - there).max(axis=1))
            sizes.append(np.abs(there).max(axis=1))
        assert (np.max(apart, axis=0) < TOLERANCE * np.max(sizes, axis=0)).all()
