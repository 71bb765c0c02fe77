"""Knee braces and stiffness by hand statics, and against the frame solver (itself held against PyNiteFEA)."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bolewright.bracing.knee import (
    brace_axial_force,
    brace_force_from_weight,
    brace_reaction,
    cap_force_from_weight_held,
    cap_lateral_force,
    foot_force_from_weight_held,
    grade_moment_from_weight,
    knee_lateral_force,
    knee_lateral_force_held,
    post_moment_at_grade,
    post_moment_at_knee,
    post_moment_at_knee_held,
    post_moment_from_weight,
    post_moment_from_weight_held,
    post_side_stiffness,
    post_side_stiffness_held,
)
from bolewright.bracing.plan import (
    PlanSpring,
    loose_direction,
    plan_movement,
    seat_lateral_force,
)
from bolewright.bracing.standing import height_of_force, overturning_moment, pair_axial_force
from bolewright.bracing.stiffness import (
    brace_stiffness,
    cantilever_stiffness,
    knee_braced_stiffness,
    knee_braced_stiffness_held,
    knee_force_ratio,
    knee_spring,
    knee_stiffness_with_beam,
    tied_bolt_stiffness,
    trunk_share,
)
from bolewright.bracing.tie import friction_force
from bolewright.mechanics.frame import analyse
from bolewright.mechanics.frame_model import ALL, Dof, Frame, Member, Node, NodeLoad, Profile, Support

lengths = st.floats(40, 120)
rises = st.floats(12, 36)


def test_portal_by_hand():
    """Two posts 84 in apart, 60 in high, hinged feet, one knee each inward, 30 in x 30 in; 600 lb lateral in all.

    Each foot takes 300 lb. Moments about a post's top: Q x 30 = 300 x 60, Q = 600 lb. Brace: 600 x sqrt(2)
    = 848.5 lb. Brace reaction: 600 lb up or down. Post at the knee: 300 x (60 - 30) = 9000 lb·in. Cap: 600 - 300 = 300
    lb. Moments about a foot: 600 x 60 = N x 84, N = 428.6 lb.
    """
    Q = knee_lateral_force(300.0, 60.0, 30.0)
    assert Q == 600.0
    assert brace_axial_force(Q, 1.0, 30.0, 30.0) == pytest.approx(848.53, abs=0.005)
    assert brace_reaction(Q, 1.0, 30.0, 30.0) == 600.0
    assert post_moment_at_knee(300.0, 60.0, 30.0) == 9000.0
    assert cap_lateral_force(300.0, Q) == 300.0
    assert pair_axial_force(600.0, 60.0, 84.0) == pytest.approx(428.57, abs=0.005)


def test_brace_reaction_makes_the_couple_of_the_portal():
    """The same portal through the beam: brace reactions of 600 lb down at 30 in and up at 54 in of a span of 84 in.

    Reaction of the beam at the first post: 600 (84 - 30)/84 - 600 (84 - 54)/84 = 171.4 lb; the post also gets
    the brace's 600 lb upward: 171.4 - 600 = -428.6 lb, the couple of the portal.
    """
    reaction = 600 * (84 - 30) / 84 - 600 * (84 - 54) / 84
    assert reaction - brace_reaction(600.0, 1.0, 30.0, 30.0) == pytest.approx(
        -pair_axial_force(600.0, 60.0, 84.0)
    )


@given(V=st.floats(1, 1000), h=lengths, a=rises, rho=st.floats(-0.9, 5))
def test_held_post_is_in_balance(V, h, a, rho):
    """Forces on the post: T at its top and Q at its knee make V and the moment at grade."""
    Q = knee_lateral_force_held(V, rho)
    T = rho * Q
    assert pytest.approx(V) == T + Q
    assert post_moment_at_grade(V, rho, h, a) == pytest.approx(abs(T * h + Q * (h - a)), rel=1e-9, abs=1e-6)
    assert post_moment_at_knee_held(V, rho, a) == pytest.approx(abs(T * a), abs=1e-6)


def _post(h, a, foot, kappa, fixity):
    """A post whose top and knee hang on a beam that moves level: the beam as a stiff bar on rollers."""
    bar = Profile(E=1.2e6, A=3e7, I_z=76.26)
    stiff = Profile(E=29e6, A=1e6, I_z=1e7)
    spring = Profile(E=1.0, A=kappa * 10.0, I_z=1e-9)
    nodes = (
        Node("foot", 0.0, -fixity),
        Node("knee", 0.0, h - a),
        Node("top", 0.0, h),
        Node("hang", 10.0, h - a),
    )
    members = (
        Member("low", "foot", "knee", bar),
        Member("high", "knee", "top", bar, end_releases=(Dof.RZ,)),
        Member("arm", "top", "hang", stiff),
        Member("spring", "knee", "hang", spring, (Dof.RZ,), (Dof.RZ,)),
    )
    supports = (
        Support("foot", foot),
        Support("top", (Dof.DY, Dof.RZ)),
    )
    frame = Frame(nodes, members, supports, plane=True)
    return analyse(frame, [[NodeLoad("top", (1000.0, 0.0, 0.0))]])


@settings(max_examples=25, deadline=None)
@given(h=lengths, a=rises, kappa=st.floats(500, 50_000))
def test_hinged_stiffness_against_the_frame(h, a, kappa):
    found = _post(h, a, (Dof.DX, Dof.DY), kappa, 0.0)
    k = knee_braced_stiffness(1.2e6, 76.26, h, a, kappa)
    assert 1000 / found.displacement("top")[Dof.DX, 0] == pytest.approx(k, rel=1e-3)


@settings(max_examples=25, deadline=None)
@given(h=lengths, a=rises, kappa=st.floats(500, 50_000))
def test_held_stiffness_and_share_against_the_frame(h, a, kappa):
    found = _post(h, a, ALL, kappa, 12.0)
    rho = knee_force_ratio(1.2e6, 76.26, h + 12, a, kappa)
    k = knee_braced_stiffness_held(1.2e6, 76.26, h + 12, a, rho)
    assert 1000 / found.displacement("top")[Dof.DX, 0] == pytest.approx(k, rel=1e-3)
    knee = abs(found.end_forces[found.frame.member_index["spring"], 0, 0])
    assert knee == pytest.approx(abs(knee_lateral_force_held(1000.0, rho)), rel=1e-3)


@given(l=lengths, d=st.floats(1, 16))
def test_a_beam_upright_on_a_post_against_the_frame(l, d):
    """Pushed at the beam's top: post of length l, a stiff head of depth d on it."""
    bar = Profile(E=1.2e6, A=3e7, I_z=76.26)
    stiff = Profile(E=1.2e6, A=3e7, I_z=7.6e5)
    frame = Frame(
        (Node("foot", 0.0, 0.0), Node("cap", 0.0, l), Node("top", 0.0, l + d)),
        (Member("post", "foot", "cap", bar), Member("head", "cap", "top", stiff)),
        (Support("foot", ALL),),
        plane=True,
    )
    moved = analyse(frame, [[NodeLoad("top", (1000.0, 0.0, 0.0))]]).displacement("top")[Dof.DX, 0]
    assert cantilever_stiffness(1.2e6, 76.26, l, d) == pytest.approx(1000 / moved, rel=1e-3)


@given(h=lengths, a=rises, kappa=st.floats(500, 50_000))
def test_a_held_foot_and_a_knee_both_stiffen(h, a, kappa):
    held = knee_braced_stiffness_held(1.2e6, 76.26, h, a, knee_force_ratio(1.2e6, 76.26, h, a, kappa))
    assert held >= knee_braced_stiffness(1.2e6, 76.26, h, a, kappa)
    assert held >= cantilever_stiffness(1.2e6, 76.26, h, 0.0) * (1 - 1e-9)


@settings(max_examples=25, deadline=None)
@given(h=lengths, a=rises, fixity=st.floats(1, 24))
def test_weight_on_the_knee_of_a_held_post_against_the_frame(h, a, fixity):
    """A post fixed under grade, its top held by the beam, pushed by 1,000 lb level at the knee (1,414 at 45 deg.)."""
    bar, l, F_w = Profile(E=1.2e6, A=3e9, I_z=76.26), h + fixity, 1000 * np.sqrt(2)
    frame = Frame(
        (
            Node("foot", 0.0, -fixity),
            Node("grade", 0.0, 0.0),
            Node("knee", 0.0, h - a),
            Node("top", 0.0, h),
        ),
        (
            Member("below", "foot", "grade", bar),
            Member("low", "grade", "knee", bar),
            Member("high", "knee", "top", bar),
        ),
        (Support("foot", ALL), Support("top", (Dof.DX,))),
        plane=True,
    )
    found = analyse(frame, [[NodeLoad("knee", (1000.0, 0.0, 0.0))]])

    def ends(member: str) -> np.ndarray:
        return np.abs(found.end_forces[found.frame.member_index[member], :, 0])

    assert post_side_stiffness_held(1.2e6, 76.26, l, a) == pytest.approx(
        1000 / found.displacement("knee")[Dof.DX, 0], rel=1e-3
    )
    top, foot = (abs(found.reaction(node)[Dof.DX, 0]) for node in ("top", "foot"))
    assert cap_force_from_weight_held(F_w, l, a, a) == pytest.approx(top, rel=1e-3)
    assert foot_force_from_weight_held(F_w, l, a, a) == pytest.approx(foot, rel=1e-3)
    assert post_moment_from_weight_held(F_w, l, a, a) == pytest.approx(ends("high")[Dof.RZ], rel=1e-3)
    assert grade_moment_from_weight(F_w, h, l, a, a) == pytest.approx(ends("low")[Dof.RZ], rel=1e-3, abs=2.0)


def test_weight_on_a_brace_by_hand():
    """30 x 30 brace; beam gives 1/40000 in per lb, post stiff, brace 50000 lb/in; deflection 0.05 in.

    Along the brace: 0.05 x 0.7071 = 0.03536 in; give: 0.5/40000 + 1/50000 = 3.25e-5; F = 1087.9 lb.
    """
    F = brace_force_from_weight(0.05, 30.0, 30.0, 40_000.0, 1e15, 50_000.0)
    assert pytest.approx(1087.9, abs=0.1) == F


def test_brace_reaction_of_weight_in_the_post():
    """707.1 lb at 45 degrees: 500 lb lateral at the middle of 60 in: 500 x 60 / 4 = 7500 lb·in; 48 E I / l^3."""
    assert post_moment_from_weight(500 * np.sqrt(2), 60.0, 30.0, 30.0) == pytest.approx(7500.0)
    assert post_side_stiffness(1e6, 100.0, 60.0, 30.0) == pytest.approx(48 * 1e6 * 100 / 60**3)


def test_springs_in_series():
    assert brace_stiffness(1e6, 10.0, 100.0, 200_000.0) == pytest.approx(1 / (1 / 1e5 + 1 / 1e5))
    assert knee_spring(40_000.0, 40_000.0, 30.0, 30.0) == pytest.approx(40_000.0)  # 2 k cos^2 45
    # 45 degrees: half a pound's way upright for a pound along: 0.5/20,000 + 1/40,000
    assert knee_stiffness_with_beam(40_000.0, 20_000.0, 30.0, 30.0) == pytest.approx(20_000.0)
    assert tied_bolt_stiffness(1000.0, 4000.0, 2.0) == pytest.approx(1 / (1 / 1000 + 1 / 2000))
    # along itself the bolt neither bends nor slips: a spring without give before the trunk's share
    assert trunk_share(4000.0, 2.0) == pytest.approx(tied_bolt_stiffness(1e15, 4000.0, 2.0)) == 2000.0


def _spring(x, y, k_x, k_y):
    return PlanSpring(x, y, np.eye(2), np.array([k_x, k_y]))


def test_stiff_plate_against_the_textbook_shares():
    """Four supports; H = 1000 lb along x at y = 84. Centre of stiffness, direct and torsion shares by hand.

    k_x: posts 2 x 2500 at y = 114, trunk 2 x 2000 at y = 0. y_r = 5000 x 114 / 9000 = 63.333.
    T = -1000 (84 - 63.333) = -20667 lb·in. J = 5000 (50.667)^2 + 4000 (63.333)^2 + k_y x^2 ...
    """
    springs = [
        _spring(-42.0, 114.0, 2500.0, 700.0),
        _spring(42.0, 114.0, 2500.0, 700.0),
        _spring(-17.0, 0.0, 2000.0, 2300.0),
        _spring(17.0, 0.0, 2000.0, 2300.0),
    ]
    H, y_F = 1000.0, 84.0
    y_r = 5000 * 114 / 9000
    J = 5000 * (114 - y_r) ** 2 + 4000 * y_r**2 + 2 * 700 * 42**2 + 2 * 2300 * 17**2
    T = -H * (y_F - y_r)
    moved = plan_movement(springs, np.array([[H], [0.0], [-H * y_F]]), np.zeros((4, 2, 1)))
    for spring in springs:
        V = spring.k * (spring.rows @ moved)[:, 0]
        assert V[0] == pytest.approx(H * spring.k[0] / 9000 - T * spring.k[0] * (spring.y - y_r) / J)
        assert V[1] == pytest.approx(T * spring.k[1] * spring.x / J)


@given(
    st.lists(
        st.tuples(*[st.floats(-150, 150)] * 2, *[st.floats(100, 9000)] * 2, st.floats(0, np.pi)),
        min_size=2,
        max_size=6,
    ),
    st.tuples(*[st.floats(-2000, 2000)] * 2, st.floats(-1e5, 1e5)),
    st.floats(-1, 1),
)
def test_plate_is_in_balance(supports, load, moved):
    springs = []
    for x, y, k_1, k_2, turn in supports:
        c, s = np.cos(turn), np.sin(turn)
        springs.append(PlanSpring(x, y, np.array([(c, s), (-s, c)]), np.array([k_1, k_2])))
    if loose_direction(springs, 100.0):
        return
    ground = np.zeros((len(springs), 2, 1))
    ground[0, 0, 0] = moved
    u = plan_movement(springs, np.array(load)[:, None], ground)
    total = sum(
        s.rows.T @ (s.k * ((s.rows @ u)[:, 0] - g[:, 0])) for s, g in zip(springs, ground, strict=True)
    )
    assert total == pytest.approx(np.array(load), rel=1e-6, abs=1e-3)


@pytest.mark.parametrize(
    ("springs", "words"),
    [
        ([_spring(0, 0, 1000, 0), _spring(50, 0, 1000, 0)], "along y"),
        ([_spring(0, 0, 0, 1000), _spring(50, 0, 0, 1000)], "along x"),
        ([_spring(0, 0, 1000, 1000)], "turning in plan"),
        ([_spring(0, 0, 1000, 1000), _spring(50, 0, 0, 1000)], ""),
    ],
)
def test_what_can_move_is_named(springs, words):
    assert loose_direction(springs, 60.0) == words


def test_small_statics():
    assert overturning_moment(1000.0, 96.0, 1000.0, 60.0) == 36_000.0
    assert height_of_force(3000.0, 4000.0, 100.0) == 50.0
    assert friction_force(0.4, 1000.0, 150.0) == 150.0
    # Two seats 100 in apart, 600 lb across and 10 000 lb·in of turning: 300 + 10000 x 50 / 5000 = 400 lb
    assert seat_lateral_force(0.0, 600.0, 2.0, 10_000.0, 50.0, 0.0, 5000.0) == pytest.approx(400.0)
