"""Frames by hand statics and textbook formulas, the laws every frame keeps, and what is refused."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bolewright.mechanics.buckling import buckling_factor
from bolewright.mechanics.frame import (
    ALL,
    HINGE,
    PINNED,
    Dof,
    Frame,
    FrameError,
    Member,
    MemberPoint,
    MemberSpread,
    Node,
    NodeLoad,
    Profile,
    Support,
    UnstableError,
    analyse,
    inclined,
)
from bolewright.mechanics.frame_diagrams import along, extrema

BAR = Profile(E=1.4e6, G=8.75e4, A=20.0, I_z=120.0, I_y=40.0, J=30.0)
FLAT = (Dof.DX, Dof.DY)


def plane(nodes: dict[str, tuple[float, float]], members: list[Member], supports: list[Support]) -> Frame:
    made = tuple(Node(name, *place) for name, place in nodes.items())
    return Frame(made, tuple(members), tuple(supports), plane=True)


def space(
    nodes: dict[str, tuple[float, float, float]], members: list[Member], supports: list[Support]
) -> Frame:
    made = tuple(Node(name, *place) for name, place in nodes.items())
    return Frame(made, tuple(members), tuple(supports))


def simple_beam(length: float) -> Frame:
    supports = [Support("A", FLAT), Support("B", (Dof.DY,))]
    return plane({"A": (0, 0), "B": (length, 0)}, [Member("b", "A", "B", BAR)], supports)


# ---------------------------------------------------------------------------------------------------------
# By hand


def test_simple_beam_under_uniform_load() -> None:
    # AWC DA6 (from memory): R = wL/2, M = wL²/8, 5 wL⁴/384 EI, at mid span between the nodes
    w, L = 4.0, 120.0
    frame = plane(
        {"A": (0, 0), "B": (L, 0)},
        [Member("b", "A", "B", BAR)],
        [Support("A", FLAT), Support("B", (Dof.DY,))],
    )
    found = analyse(frame, [[MemberSpread("b", 0, L, (0, -w, 0))]])
    most = extrema(found, "b")
    assert found.reaction("A")[Dof.DY, 0] == pytest.approx(w * L / 2, rel=1e-12)
    assert most.moment_z[1].value == pytest.approx(w * L**2 / 8, rel=1e-12)
    assert most.moment_z[1].x == pytest.approx(L / 2, rel=1e-9)
    assert most.moved_y[0].value == pytest.approx(-5 * w * L**4 / (384 * BAR.E * BAR.I_z), rel=1e-12)
    assert most.shear_y[1].value == pytest.approx(w * L / 2, rel=1e-12)


def test_true_extrema_under_partial_and_point_load() -> None:
    # R_A = (8*30*(120-45) + 200*20)/120 = 183.33; shear is zero 30 + ... by statics: x0 = 30 + 183.33/8
    L, w, P = 120.0, 8.0, 200.0
    frame = plane(
        {"A": (0, 0), "B": (L, 0)},
        [Member("b", "A", "B", BAR)],
        [Support("A", FLAT), Support("B", (Dof.DY,))],
    )
    found = analyse(frame, [[MemberSpread("b", 30, 60, (0, -w, 0)), MemberPoint("b", 100, (0, -P, 0))]])
    R_A = (w * 30 * (L - 45) + P * (L - 100)) / L
    x0 = 30 + R_A / w
    most = extrema(found, "b").moment_z[1]
    assert most.x == pytest.approx(x0, rel=1e-9)
    assert most.value == pytest.approx(R_A * x0 - w * (x0 - 30) ** 2 / 2, rel=1e-12)


def test_three_hinged_frame_by_statics() -> None:
    # Pins at both feet and at the crown: H = w L² / (8 h), statics alone (joints give M = 0 at the crown).
    L, h, w = 240.0, 100.0, 2.0
    frame = plane(
        {"A": (0, 0), "B": (0, h), "C": (L / 2, h), "D": (L, h), "E": (L, 0)},
        [
            Member("post", "A", "B", BAR),
            Member("left", "B", "C", BAR),
            Member("right", "C", "D", BAR, start_releases=HINGE),
            Member("post2", "D", "E", BAR),
        ],
        [Support("A", FLAT), Support("E", FLAT)],
    )
    loads = [MemberSpread("left", 0, L / 2, (0, -w, 0)), MemberSpread("right", 0, L / 2, (0, -w, 0))]
    found = analyse(frame, [loads])
    assert found.reaction("A")[[0, 1], 0] == pytest.approx([w * L**2 / (8 * h), w * L / 2], rel=1e-9)
    assert found.reaction("E")[[0, 1], 0] == pytest.approx([-w * L**2 / (8 * h), w * L / 2], rel=1e-9)
    knee = along(found, "left", [0.0, L / 2]).moment_z[:, 0]
    assert knee == pytest.approx([-w * L**2 / 8, 0.0], abs=1e-6)


def test_knee_brace_force_by_statics() -> None:
    # Post pinned at its foot, held by a 45° brace: H at the top, moments about the foot of the post.
    # Brace horizontal force x height of its foot = H x height, so N = H h / (a cos 45°).
    h, a, H = 96.0, 60.0, 100.0
    frame = plane(
        {"foot": (0, 0), "knee": (0, a), "top": (0, h), "anchor": (a, 0)},
        [
            Member("low", "foot", "knee", BAR),
            Member("high", "knee", "top", BAR),
            Member("brace", "anchor", "knee", BAR, HINGE, HINGE),
        ],
        [Support("foot", FLAT), Support("anchor", FLAT)],
    )
    found = analyse(frame, [[NodeLoad("top", (H, 0, 0))]])
    axial = along(found, "brace", [10.0]).left[0, 0, 0]
    assert axial == pytest.approx(-H * h / (a * math.cos(math.pi / 4)), rel=1e-9)


def test_truss_of_hinged_members_needs_no_held_rotations() -> None:
    # Two bars at 45° and a tie under P: bars -P/sqrt(2), tie P/2 by joints.
    P = 1000.0
    frame = plane(
        {"A": (0, 0), "B": (200, 0), "C": (100, 100)},
        [
            Member(n, a, b, BAR, HINGE, HINGE)
            for n, a, b in (("ac", "A", "C"), ("bc", "B", "C"), ("ab", "A", "B"))
        ],
        [Support("A", FLAT), Support("B", (Dof.DY,))],
    )
    found = analyse(frame, [[NodeLoad("C", (0, -P, 0))]])
    forces = [along(found, name, [1.0]).left[0, 0, 0] for name in ("ac", "bc", "ab")]
    assert forces == pytest.approx([-P / math.sqrt(2), -P / math.sqrt(2), P / 2], rel=1e-9)


@pytest.mark.parametrize("degrees", [0.0, 20.0, 30.0, 45.0, 60.0])
def test_inclined_roller_by_statics(degrees: float) -> None:
    # A beam with a roller on a slope: the reaction stands square to the slope, R cos(slope) = P/2.
    P, L = 300.0, 160.0
    frame = plane(
        {"A": (0, 0), "B": (L, 0)},
        [Member("b", "A", "B", BAR)],
        [Support("A", FLAT), Support("B", (Dof.DY,), axes=inclined(degrees))],
    )
    found = analyse(frame, [[MemberPoint("b", L / 2, (0, -P, 0))]])
    slope = math.radians(degrees)
    assert found.reaction("B")[[0, 1], 0] == pytest.approx([-P / 2 * math.tan(slope), P / 2], abs=1e-8)
    moved = found.displacement("B")[[0, 1], 0]
    assert moved @ np.array([-math.sin(slope), math.cos(slope)]) == pytest.approx(0.0, abs=1e-12)


def test_spring_support_carries_its_stiffness_times_its_movement() -> None:
    k = 1500.0
    frame = plane(
        {"A": (0, 0), "B": (100, 0)},
        [Member("b", "A", "B", BAR)],
        [Support("A", FLAT), Support("B", springs=((Dof.DY, k),))],
    )
    found = analyse(frame, [[MemberPoint("b", 50, (0, -400.0, 0))]])
    assert found.reaction("B")[Dof.DY, 0] == pytest.approx(200.0, rel=1e-9)
    assert found.displacement("B")[Dof.DY, 0] == pytest.approx(-200.0 / k, rel=1e-9)


def test_upright_and_flat_bending_of_a_space_member() -> None:
    # A joist along y under a load down and a load laterally: I_z for the first, I_y for the second.
    L, P = 100.0, 50.0
    frame = space(
        {"wall": (0, 0, 0), "tip": (0, L, 0)}, [Member("b", "wall", "tip", BAR)], [Support("wall", ALL)]
    )
    found = analyse(frame, [[NodeLoad("tip", (0, 0, -P))], [NodeLoad("tip", (P, 0, 0))]])
    moved = found.displacement("tip")
    assert moved[Dof.DZ, 0] == pytest.approx(-P * L**3 / (3 * BAR.E * BAR.I_z), rel=1e-12)
    assert moved[Dof.DX, 1] == pytest.approx(P * L**3 / (3 * BAR.E * BAR.I_y), rel=1e-12)


def test_bent_cantilever_twists_its_leg() -> None:
    # An L in plan, load down at its end: deflection = P a³/3EI + P b³/3EI + (P b) a/GJ * b
    a, b, P = 90.0, 40.0, 25.0
    frame = space(
        {"wall": (0, 0, 0), "corner": (a, 0, 0), "tip": (a, b, 0)},
        [Member("leg", "wall", "corner", BAR), Member("arm", "corner", "tip", BAR)],
        [Support("wall", ALL)],
    )
    found = analyse(frame, [[NodeLoad("tip", (0, 0, -P))]])
    bent = P * (a**3 + b**3) / (3 * BAR.E * BAR.I_z)
    twisted = P * b * a / (BAR.G * BAR.J) * b
    assert found.displacement("tip")[Dof.DZ, 0] == pytest.approx(-(bent + twisted), rel=1e-10)
    assert abs(along(found, "leg", [10.0]).torsion[0, 0]) == pytest.approx(P * b, rel=1e-10)


def test_opposed_ramps_have_their_largest_shear_where_the_load_is_zero() -> None:
    # q from -6 to +6 over a cantilever: V is largest at mid length, by integration 6 L / 4.
    L = 100.0
    frame = plane({"A": (0, 0), "B": (L, 0)}, [Member("b", "A", "B", BAR)], [Support("A", ALL)])
    found = analyse(frame, [[MemberSpread("b", 0, L, (0, -6.0, 0), (0, 6.0, 0))]])
    least, most = extrema(found, "b").shear_y
    assert least.value == pytest.approx(-6.0 * L / 4, rel=1e-12)
    assert least.x == pytest.approx(L / 2, rel=1e-9)
    assert most.value == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    ("start", "end", "K"),
    [
        # Euler: pi² EI / (K L)²; 0.6992 for the propped column (first root of tan u = u)
        ((Dof.DX, Dof.DY), (Dof.DX,), 1.0),
        (ALL, (), 2.0),
        (ALL, (Dof.DX,), math.pi / 4.4934094579),
        (ALL, (Dof.DX, Dof.RZ), 0.5),
    ],
)
def test_euler_columns(start: tuple[Dof, ...], end: tuple[Dof, ...], K: float) -> None:
    L = 110.0
    frame = plane(
        {"A": (0, 0), "B": (0, L)}, [Member("post", "A", "B", BAR)], [Support("A", start), Support("B", end)]
    )
    found = analyse(frame, [[NodeLoad("B", (0, -1.0, 0))]])
    P = math.pi**2 * BAR.E * BAR.I_z / (K * L) ** 2
    assert buckling_factor(found, parts=8) == pytest.approx(P, rel=1e-3)


def test_a_hinged_post_buckles_about_its_weak_axis() -> None:
    L = 100.0
    frame = space(
        {"A": (0, 0, 0), "B": (0, 0, L), "C": (60, 0, L), "D": (0, 60, L)},
        [
            Member("post", "A", "B", BAR, HINGE, HINGE),
            Member("x", "B", "C", BAR),
            Member("y", "B", "D", BAR),
        ],
        [Support("A", ALL), Support("C", PINNED), Support("D", PINNED)],
    )
    found = analyse(frame, [[NodeLoad("B", (0, 0, -1.0))]])
    share = -along(found, "post", [50.0]).left[0, 0, 0]
    assert buckling_factor(found) == pytest.approx(math.pi**2 * BAR.E * BAR.I_y / L**2 / share, rel=1e-3)


def test_a_frame_in_tension_does_not_buckle() -> None:
    frame = plane({"A": (0, 0), "B": (0, 90)}, [Member("rod", "A", "B", BAR)], [Support("A", ALL)])
    assert buckling_factor(analyse(frame, [[NodeLoad("B", (0, 10.0, 0))]])) == math.inf


# ---------------------------------------------------------------------------------------------------------
# Laws

PLATFORM = space(
    {
        **{f"c{i}{j}": (60.0 * i, 100.0 * j, 96.0) for i in range(4) for j in range(2)},
        **{f"p{i}{j}": (60.0 * i, 100.0 * j, 0.0) for i in (0, 3) for j in range(2)},
    },
    [
        *[Member(f"beam{i}{j}", f"c{i}{j}", f"c{i + 1}{j}", BAR) for i in range(3) for j in range(2)],
        *[Member(f"joist{i}", f"c{i}0", f"c{i}1", BAR, HINGE, HINGE) for i in range(4)],
        *[Member(f"post{i}{j}", f"p{i}{j}", f"c{i}{j}", BAR) for i in (0, 3) for j in range(2)],
    ],
    [Support(f"p{i}{j}", ALL) for i in (0, 3) for j in range(2)],
)
vectors = st.tuples(*[st.floats(-300, 300)] * 3)
names = st.sampled_from([member.name for member in PLATFORM.members])


@st.composite
def loads(draw: st.DrawFn) -> NodeLoad | MemberPoint | MemberSpread:
    kind = draw(st.integers(0, 2))
    if kind == 0:
        return NodeLoad(draw(st.sampled_from([n.name for n in PLATFORM.nodes])), draw(vectors), draw(vectors))
    member, local = draw(names), draw(st.booleans())
    a = draw(st.floats(0.0, 55.0))
    if kind == 1:
        return MemberPoint(member, a, draw(vectors), local)
    return MemberSpread(member, a, a + draw(st.floats(0.1, 60.0 - a)), draw(vectors), draw(vectors), local)


load_lists = st.lists(loads(), min_size=1, max_size=4)


@settings(deadline=None, max_examples=60)
@given(load_lists)
def test_every_node_and_the_whole_are_in_balance(case: list) -> None:
    assert analyse(PLATFORM, [case]).imbalance[0] < 1e-9


@settings(deadline=None, max_examples=25)
@given(load_lists, load_lists, st.floats(-3, 3))
def test_cases_add_up(one: list, two: list, times: float) -> None:
    def scaled(load):
        if isinstance(load, NodeLoad):
            return replace(
                load, force=tuple(times * f for f in load.force), moment=tuple(times * f for f in load.moment)
            )
        if isinstance(load, MemberPoint):
            return replace(load, force=tuple(times * f for f in load.force))
        return replace(load, q=tuple(times * f for f in load.q), q_end=tuple(times * f for f in load.q_end))

    found = analyse(PLATFORM, [one, two, one + [scaled(load) for load in two]])
    for values in (found.displacements, found.reactions, found.end_forces):
        expected = values[..., 0] + times * values[..., 1]
        assert np.allclose(values[..., 2], expected, atol=1e-9 * np.abs(values).max() + 1e-12)


@settings(deadline=None, max_examples=25)
@given(load_lists)
def test_mirror_image_in_plan(case: list) -> None:
    def flip(v: tuple[float, float, float]) -> tuple[float, float, float]:
        return (-v[0], v[1], v[2])

    image = replace(PLATFORM, nodes=tuple(replace(n, x=-n.x) for n in PLATFORM.nodes))
    turned = []
    for load in case:
        if isinstance(load, NodeLoad):
            mx, my, mz = load.moment  # a moment is an axial vector
            turned.append(NodeLoad(load.node, flip(load.force), (mx, -my, -mz)))
        elif isinstance(load, MemberPoint):
            turned.append(replace(load, force=flip(load.force), local=False))
        else:
            turned.append(replace(load, q=flip(load.q), q_end=flip(load.q_end), local=False))
    plain = [load if isinstance(load, NodeLoad) else replace(load, local=False) for load in case]
    one, other = analyse(PLATFORM, [plain]), analyse(image, [turned])
    sign = np.array([-1, 1, 1, 1, -1, -1])[None, :, None]
    size = np.abs(one.displacements).max()
    assert np.allclose(one.displacements, sign * other.displacements, atol=1e-9 * size)


@settings(deadline=None, max_examples=25)
@given(load_lists, st.floats(-180, 180))
def test_a_turned_plan_gives_the_turned_answer(case: list, degrees: float) -> None:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    turn = np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]])

    def turned(v: tuple[float, float, float]) -> tuple[float, float, float]:
        x, y, z = (turn @ np.array(v)).tolist()
        return x, y, z

    moved = []
    for load in case:
        if isinstance(load, NodeLoad):
            moved.append(NodeLoad(load.node, turned(load.force), turned(load.moment)))
        elif load.local:
            moved.append(load)
        elif isinstance(load, MemberPoint):
            moved.append(replace(load, force=turned(load.force)))
        else:
            moved.append(replace(load, q=turned(load.q), q_end=turned(load.q_end)))
    nodes = tuple(Node(n.name, *turned((n.x, n.y, n.z))) for n in PLATFORM.nodes)
    upright = [abs(v) > 0.99 for v in PLATFORM.axes[:, 0, 2]]
    members = tuple(
        replace(m, depth=turned((1.0, 0.0, 0.0))) if up else m
        for m, up in zip(PLATFORM.members, upright, strict=True)
    )
    one = analyse(PLATFORM, [case])
    other = analyse(replace(PLATFORM, nodes=nodes, members=members), [moved])
    size = np.abs(one.end_forces).max()
    assert np.allclose(one.end_forces, other.end_forces, atol=1e-8 * size)
    expected = np.einsum("ij,nj->ni", turn, one.reactions[:, :3, 0])
    assert np.allclose(expected, other.reactions[:, :3, 0], atol=1e-8 * np.abs(expected).max() + 1e-9)


def test_metric_and_imperial_agree() -> None:
    mm, newton = 25.4, 4.4482216152605
    stiff = Profile(
        E=BAR.E * newton / mm**2,
        G=BAR.G * newton / mm**2,
        A=BAR.A * mm**2,
        I_z=BAR.I_z * mm**4,
        I_y=BAR.I_y * mm**4,
        J=BAR.J * mm**4,
    )
    other = Frame(
        tuple(Node(n.name, n.x * mm, n.y * mm, n.z * mm) for n in PLATFORM.nodes),
        tuple(replace(m, profile=stiff) for m in PLATFORM.members),
        PLATFORM.supports,
    )
    q = (1.0, -2.0, -5.0)
    one = analyse(PLATFORM, [[MemberSpread("joist1", 10, 90, q), NodeLoad("c10", (30.0, 0, 0))]])
    metric = tuple(v * newton / mm for v in q)
    two = analyse(
        other, [[MemberSpread("joist1", 10 * mm, 90 * mm, metric), NodeLoad("c10", (30.0 * newton, 0, 0))]]
    )
    assert np.allclose(one.displacements[:, :3] * mm, two.displacements[:, :3], rtol=1e-8, atol=1e-9)
    assert np.allclose(one.reactions[:, 3:] * newton * mm, two.reactions[:, 3:], rtol=1e-8, atol=1e-4)


def test_influence_of_unit_loads_makes_any_case() -> None:
    unit = [[MemberPoint(f"joist{i}", x, (0, 0, -1.0))] for i in range(4) for x in (20.0, 50.0, 80.0)]
    weights = np.linspace(10.0, 120.0, len(unit))
    case = [replace(load[0], force=(0, 0, -w)) for load, w in zip(unit, weights.tolist(), strict=True)]
    influence, whole = analyse(PLATFORM, unit), analyse(PLATFORM, [case])
    assert np.allclose(influence.reactions @ weights, whole.reactions[..., 0], rtol=1e-9, atol=1e-9)
    assert np.allclose(influence.end_forces @ weights, whole.end_forces[..., 0], rtol=1e-9, atol=1e-7)


def test_many_blocks_give_the_same_as_one() -> None:
    # A long grid is solved in blocks of equations; cut into short members, nothing at its nodes changes.
    count = 40
    nodes = {f"n{i}": (20.0 * i, 0.0, 0.0) for i in range(count + 1)}
    members = [Member(f"m{i}", f"n{i}", f"n{i + 1}", BAR) for i in range(count)]
    supports = [Support("n0", ALL), Support(f"n{count}", PINNED), Support("n20", PINNED)]
    long = analyse(space(nodes, members, supports), [[NodeLoad("n7", (3.0, 10.0, -80.0))]])
    short = analyse(
        space(
            {k: nodes[k] for k in ("n0", "n7", "n20", "n40")},
            [Member("a", "n0", "n7", BAR), Member("b", "n7", "n20", BAR), Member("c", "n20", "n40", BAR)],
            supports,
        ),
        [[NodeLoad("n7", (3.0, 10.0, -80.0))]],
    )
    for node in ("n0", "n7", "n20", "n40"):
        assert np.allclose(long.displacement(node), short.displacement(node), rtol=1e-7, atol=1e-10)
        assert np.allclose(long.reaction(node), short.reaction(node), rtol=1e-6, atol=1e-6)


# ---------------------------------------------------------------------------------------------------------
# What can move

RECT = {"A": (0.0, 0.0), "B": (0.0, 80.0), "C": (120.0, 80.0), "D": (120.0, 0.0)}
SIDES = [("AB", "A", "B"), ("BC", "B", "C"), ("CD", "C", "D")]
HINGED_RECTANGLE = plane(
    RECT,
    [Member(name, a, b, BAR, HINGE, HINGE) for name, a, b in SIDES],
    [Support("A", FLAT), Support("D", FLAT)],
)
ROD = [Member("b", "A", "B", BAR)]


@pytest.mark.parametrize(
    ("frame", "node", "says"),
    [
        (
            HINGED_RECTANGLE,
            ("B", "C"),
            "move along x",
        ),
        (
            plane({"A": (0, 0), "B": (90, 0)}, ROD, [Support("A", (Dof.DY,)), Support("B", (Dof.DY,))]),
            ("A", "B"),
            "move along x",
        ),
        (
            plane({"A": (0, 0), "B": (90, 0)}, [Member("b", "A", "B", BAR)], [Support("A", FLAT)]),
            ("B",),
            "move along y",
        ),
        (
            plane({"A": (0, 0), "B": (90, 0), "C": (0, 50)}, [Member("b", "A", "B", BAR)], [Support("A", ALL)]),
            ("C",),
            "move along x",
        ),
        (
            plane({"A": (0, 0), "B": (60, 0), "C": (120, 0)},
                  [Member("l", "A", "B", BAR), Member("r", "B", "C", BAR, start_releases=HINGE)],
                  [Support("A", FLAT), Support("C", FLAT)]),
            ("B",),
            "move along y",
        ),
        (
            space({"A": (0, 0, 0), "B": (90, 0, 0)}, ROD, [Support("A", PINNED), Support("B", PINNED)]),
            ("A", "B"),
            "turn about x",
        ),
        (
            space({"A": (0, 0, 0), "B": (0, 90, 0)}, [Member("b", "A", "B", BAR)],
                  [Support("A", PINNED), Support("B", (Dof.DX, Dof.DZ, Dof.RX))]),
            ("A", "B"),
            "turn about y",
        ),
        (
            space(
                {**{f"c{k}": (x, y, 96.0) for k, (x, y) in enumerate(((0, 0), (90, 0), (90, 90), (0, 90)))},
                 **{f"p{k}": (x, y, 0.0) for k, (x, y) in enumerate(((0, 0), (90, 0), (90, 90), (0, 90)))}},
                [*[Member(f"e{k}", f"c{k}", f"c{(k + 1) % 4}", BAR) for k in range(4)],
                 *[Member(f"post{k}", f"p{k}", f"c{k}", BAR, HINGE, HINGE) for k in range(4)]],
                [Support(f"p{k}", ALL) for k in range(4)],
            ),
            ("c0", "c1", "c2", "c3"),
            "move along [xy]",
        ),
    ],
    ids=[
        "rectangle of hinges", "beam on two rollers", "beam on one pin", "loose node",
        "three hinges in a line", "beam that can spin", "beam along y that can spin", "platform on hinged posts",
    ],
)  # fmt: skip
def test_a_frame_that_moves_names_node_and_direction(frame: Frame, node: tuple[str, ...], says: str) -> None:
    with pytest.raises(UnstableError, match=f"node ({'|'.join(node)}) can {says}"):
        analyse(frame, [[NodeLoad(frame.nodes[-1].name, (1.0, 1.0, 0.0))]])


def test_a_mechanism_is_found_under_a_load_that_does_not_move_it() -> None:
    frame = plane(
        RECT,
        [Member(n, a, b, BAR, HINGE, HINGE) for n, a, b in SIDES],
        [Support("A", FLAT), Support("D", FLAT)],
    )
    with pytest.raises(UnstableError, match="move along x"):
        analyse(frame, [[NodeLoad("B", (0.0, -10.0, 0.0)), NodeLoad("C", (0.0, -10.0, 0.0))]])


def test_a_mechanism_in_a_large_frame_is_found() -> None:
    nodes = {f"n{i}{j}": (40.0 * i, 60.0 * j, 0.0) for i in range(30) for j in range(2)}
    members = [Member(f"a{i}{j}", f"n{i}{j}", f"n{i + 1}{j}", BAR) for i in range(29) for j in range(2)]
    members += [Member(f"j{i}", f"n{i}0", f"n{i}1", BAR, HINGE, HINGE) for i in range(30)]
    supports = [Support(f"n{i}{j}", (Dof.DY, Dof.DZ, Dof.RX)) for i in (0, 14, 29) for j in range(2)]
    with pytest.raises(UnstableError, match="move along x"):
        analyse(space(nodes, members, supports), [[NodeLoad("n90", (0, 0, -5.0))]])


def test_a_soft_frame_is_not_called_unstable() -> None:
    # 100 members in a row from one wall: soft, but held.
    nodes = {f"n{i}": (30.0 * i, 0.0) for i in range(101)}
    members = [Member(f"m{i}", f"n{i}", f"n{i + 1}", BAR) for i in range(100)]
    found = analyse(plane(nodes, members, [Support("n0", ALL)]), [[NodeLoad("n100", (0, -1.0, 0))]])
    assert found.displacement("n100")[Dof.DY, 0] == pytest.approx(
        -(3000.0**3) / (3 * BAR.E * BAR.I_z), rel=1e-5
    )


def test_a_member_with_too_many_releases_is_named() -> None:
    member = Member("rod", "A", "B", BAR, (Dof.RX, *HINGE), (Dof.RX, *HINGE))
    frame = space({"A": (0, 0, 0), "B": (90, 0, 0)}, [member], [Support("A", ALL), Support("B", ALL)])
    with pytest.raises(UnstableError, match="member rod can move by itself about x"):
        analyse(frame, [[]])


def test_a_moment_on_a_node_that_nothing_turns_is_refused() -> None:
    frame = plane(
        {"A": (0, 0), "B": (90, 0)},
        [Member("b", "A", "B", BAR, end_releases=HINGE)],
        [Support("A", ALL), Support("B", (Dof.DY,))],
    )
    analyse(frame, [[NodeLoad("B", (5.0, 0, 0))]])
    with pytest.raises(UnstableError, match="node B can turn about z"):
        analyse(frame, [[NodeLoad("B", moment=(0, 0, 5.0))]])


# ---------------------------------------------------------------------------------------------------------
# What makes no sense

SKEW = ((2.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
ONE = plane({"A": (0, 0), "B": (90, 0)}, [Member("b", "A", "B", BAR)], [Support("A", ALL)])


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: plane({"A": (0, 0)}, [Member("b", "A", "Z", BAR)], []), "member b ends at node Z"),
        (lambda: replace(ONE, supports=(Support("Q"),)), "support stands at node Q"),
        (lambda: replace(ONE, nodes=(*ONE.nodes, Node("A", 5, 5))), "two nodes are named A"),
        (lambda: replace(ONE, members=ONE.members * 2), "two members are named b"),
        (lambda: replace(ONE, plane=False, members=(replace(ONE.members[0], profile=Profile(1, 1, 1)),)), "I_y"),
        (lambda: analyse(replace(ONE, nodes=(Node("A", 0, 0), Node("B", 0, 0))), [[]]), "member b has no length"),
        (lambda: analyse(ONE, [[NodeLoad("Q")]]), "node Q"),
        (lambda: analyse(ONE, [[MemberPoint("q", 0, (0, 1, 0))]]), "member q"),
        (lambda: analyse(ONE, [[MemberPoint("b", 95, (0, 1, 0))]]), "90 in long"),
        (lambda: analyse(ONE, [[MemberSpread("b", 50, 20, (0, 1, 0))]]), "90 in long"),
        (lambda: analyse(ONE, [[NodeLoad("B", (0, 0, 1.0))]]), "out of the plane"),
        (lambda: replace(ONE, supports=(Support("A", springs=((Dof.DX, -1.0),)),)), "spring DX at node A is -1"),
        (lambda: analyse(replace(ONE, members=(replace(ONE.members[0], depth=(1.0, 0, 0)),)), [[]]), "turn it"),
        (lambda: analyse(replace(ONE, supports=(Support("A", ALL, axes=SKEW),)), [[]]), "not square"),
    ],
)  # fmt: skip
def test_what_makes_no_sense_is_refused(make, says: str) -> None:
    with pytest.raises(FrameError, match=says):
        make()
