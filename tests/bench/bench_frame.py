"""Equal platform frames in our solver and in PyNiteFEA, and how the time grows with the size.

Run it by itself: ``python tests/bench/bench_frame.py``. Processor times, the best of several; nothing gates on them.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np
from Pynite import FEModel3D

from bolewright.mechanics.beam import Beam, SpreadLoad, respond
from bolewright.mechanics.frame import (
    ALL,
    HINGE,
    Dof,
    Frame,
    FrameResult,
    Member,
    MemberSpread,
    Node,
    Profile,
    Support,
    analyse,
)

JOIST = Profile(E=1.4e6, G=8.75e4, A=13.875, I_z=98.9, I_y=2.6, J=8.6)
BEAM = Profile(E=1.4e6, G=8.75e4, A=33.75, I_z=356.0, I_y=25.3, J=72.0)
POST = Profile(E=1.3e6, G=8.1e4, A=30.25, I_z=76.3, I_y=76.3, J=129.0)


def platform(joists: int, beams: int = 2) -> tuple[Frame, list[MemberSpread]]:
    """Joists at 16 in hung between beams, which stand on posts every 96 in, with loads on all joists."""
    nodes: list[Node] = []
    members: list[Member] = []
    supports: list[Support] = []
    loads: list[MemberSpread] = []
    for c in range(beams):
        for j in range(joists):
            nodes.append(Node(f"C{c}.{j}", 16.0 * j, 120.0 * c, 96.0))
            if j:
                members.append(Member(f"C{c}.{j}", f"C{c}.{j - 1}", f"C{c}.{j}", BEAM))
        for j in sorted({*range(0, joists, 6), joists - 1}):
            nodes.append(Node(f"P{c}.{j}", 16.0 * j, 120.0 * c, 0.0))
            members.append(Member(f"P{c}.{j}", f"P{c}.{j}", f"C{c}.{j}", POST, depth=(1.0, 0.0, 0.0)))
            supports.append(Support(f"P{c}.{j}", ALL))
    for c in range(beams - 1):
        for j in range(joists):
            name = f"J{c}.{j}"
            members.append(Member(name, f"C{c}.{j}", f"C{c + 1}.{j}", JOIST, HINGE, HINGE))
            loads.append(MemberSpread(name, 0.0, 120.0, (0.0, 0.0, -5.6)))
    return Frame(tuple(nodes), tuple(members), tuple(supports)), loads


def pynite_model(frame: Frame, loads: list[MemberSpread]) -> FEModel3D:
    """The same frame, with y up as that library has it: its y is our z, its z our -y."""
    model = FEModel3D()
    model.add_material("wood", 1.4e6, 8.75e4, 0.3, 0.0)
    model.add_material("post", 1.3e6, 8.1e4, 0.3, 0.0)
    for name, p in (("joist", JOIST), ("beam", BEAM), ("post", POST)):
        model.add_section(name, p.A, p.I_y, p.I_z, p.J)
    names = {"J": ("wood", "joist"), "C": ("wood", "beam"), "P": ("post", "post")}
    for node in frame.nodes:
        model.add_node(node.name, node.x, node.z, -node.y)
    for m in frame.members:
        model.add_member(m.name, m.start, m.end, *names[m.name[0]])
        if m.start_releases:
            model.def_releases(m.name, Ryi=True, Rzi=True, Ryj=True, Rzj=True)
    for support in frame.supports:
        model.def_support(support.node, *[True] * 6)
    for load in loads:
        model.add_member_dist_load(load.member, "FY", load.q[2], load.q[2])
    return model


def asked(result: FrameResult) -> FrameResult:
    """The result with displacements and reactions worked out, which is what PyNiteFEA's analysis gives."""
    assert result.displacements.shape[2] == result.reactions.shape[2]
    return result


def best(work: Callable[[], object], repeats: int) -> float:
    """Shortest time of several runs (ms)."""
    times = []
    for _ in range(repeats):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return 1000 * min(times)


def their_displacements(model: FEModel3D, frame: Frame) -> np.ndarray:
    at = [model.nodes[node.name] for node in frame.nodes]
    return np.array([[n.DX["Combo 1"], -n.DZ["Combo 1"], n.DY["Combo 1"]] for n in at])


def compare(joists: int, beams: int) -> tuple[list[float], float]:
    """Times (ms) of ours and theirs, and the largest relative difference of displacement.

    First to displacements and reactions, theirs without its test of stability (ours always tests); then, equal
    in all: stability tested, and the end forces of all members. Building the models is left out.
    """
    frame, loads = platform(joists, beams)
    theirs = pynite_model(frame, loads)

    def ours() -> FrameResult:
        fresh = Frame(frame.nodes, frame.members, frame.supports)  # nothing kept from the run before
        return asked(analyse(fresh, [loads]))

    def all_of_theirs() -> None:
        theirs.analyze_linear()
        for member in theirs.members.values():
            member.f("Combo 1")

    small = len(frame.members) < 200
    times = [
        best(ours, 30 if small else 6),
        best(lambda: theirs.analyze_linear(check_stability=False), 5 if small else 1),
        best(lambda: ours().end_forces, 30 if small else 6),
        best(all_of_theirs, 5 if small else 1),
    ]
    mine = ours().displacements[:, : Dof.RX, 0]
    other = their_displacements(theirs, frame)
    return times, float(np.abs(mine - other).max() / np.abs(other).max())


def main() -> None:
    print("                        displacements, reactions     with stability and all end forces")
    print("joists beams members   ours  PyNiteFEA  ratio       ours  PyNiteFEA  ratio   difference")
    for joists, beams in ((17, 2), (33, 2), (68, 2), (68, 3), (136, 3)):
        times, apart = compare(joists, beams)
        members = len(platform(joists, beams)[0].members)
        row = f"{joists:6} {beams:8} {members:7}"
        for ours, theirs in (times[:2], times[2:]):
            row += f"{ours:7.2f} {theirs:7.1f} ms {theirs / ours:6.1f}    "
        print(f"{row} {apart:.1e}")

    print("\ngrowth, ours, one case and one unit load a joist")
    for times in (1, 2, 4, 8, 16):
        frame, loads = platform(17 * times)
        unit = [[load] for load in loads]
        one = best(lambda: asked(analyse(Frame(frame.nodes, frame.members, frame.supports), [loads])), 4)  # noqa: B023
        many = best(lambda: asked(analyse(Frame(frame.nodes, frame.members, frame.supports), unit)), 2)  # noqa: B023
        print(
            f"{times:3}x  {len(frame.members):5} members  {one:8.2f} ms  {len(unit):4} cases {many:9.2f} ms"
        )

    spans = [Beam(160.0, (10.0, 80.0 + i, 150.0), 1e6) for i in range(30)]
    strips = [SpreadLoad(10.0 * i, 10.0 * i + 10.0) for i in range(15)]
    stations = np.linspace(0.0, 160.0, 60)
    live = best(lambda: [respond(beam, strips, stations) for beam in spans], 20)
    print(f"\n30 beams, 15 loads, 60 stations each: {live:.1f} ms")


if __name__ == "__main__":
    main()
