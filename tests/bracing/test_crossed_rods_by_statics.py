"""Crossed rods by hand statics, and against the frame solver (itself held against PyNiteFEA)."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bolewright.bracing.crossed import (
    foot_force_rods,
    footing_stiffness,
    in_series,
    post_foot_stiffness,
    post_moment_at_grade_rods,
    post_moment_at_rod,
    rod_area,
    rod_braced_stiffness,
    rod_braced_stiffness_hinged,
    rod_lateral_force,
    rod_length,
    rod_share,
    rod_share_hinged,
    rod_spring,
    rod_tension,
    rod_tension_strength,
    rod_vertical_force,
)
from bolewright.bracing.stiffness import brace_stiffness, cantilever_stiffness
from bolewright.mechanics.frame import analyse
from bolewright.mechanics.frame_model import ALL, Dof, Frame, Member, Node, NodeLoad, Profile, Support

STEEL = 29e6
E, I = 1.2e6, 263.7  # an 8x8


def test_panel_by_hand():
    """Two posts 96 in apart, rods rising 72 in between hinged posts 72 in high: 800 lb at the top.

    Rod: T = 800 / cos = 800 x 120 / 96 = 1000 lb; its vertical part 1000 x 72 / 120 = 600 lb, the couple of the panel,
    H h / L = 800 x 72 / 96.
    """
    H_r = rod_lateral_force(800.0, rod_share_hinged(72.0, 0.0, 72.0))
    L_r = rod_length(96.0, 72.0)
    assert H_r == 800.0
    assert rod_tension(H_r, 96.0, L_r) == pytest.approx(1000.0)
    assert rod_vertical_force(H_r, 96.0, 72.0) == pytest.approx(800 * 72 / 96)


def test_drift_of_the_panel_by_hand():
    """The rod of that panel, 5/8 in: it stretches by T L / (E A) and its ends slip, 1/16 in at 4000 lb each.

    A = 0.3068 in²: 1000 x 120 / (29e6 x 0.3068) = 0.01349 in; two ends at 64,000 lb/in: 0.03125 in. Along the level:
    (0.01349 + 0.03125) / cos = 0.04474 x 120 / 96 = 0.05592 in under 800 lb.
    """
    k_r = brace_stiffness(STEEL, rod_area(0.625), 120.0, 4000 / 0.0625)
    k_x = rod_spring(k_r, 96.0, 120.0, 1e12)
    assert 800 / k_x == pytest.approx(0.05592, abs=0.00001)
    k = rod_braced_stiffness_hinged(E, 1e9, 72.0, 0.0, 72.0, 1.0, k_x)
    assert 800 / k == pytest.approx(0.05592, abs=0.00001)


def test_propped_cantilever():
    """A rod that gives nothing, at 3/4 of the height: R = P (3 l - c) / (2 c), the moment at the base P (l - c) / 2.

    Source: propped cantilever with an overhang (beam tables; AISC Manual, Table 3-23, case 26 with the ends turned
    round, from memory).
    """
    l, c, V = 120.0, 90.0, 1000.0
    q = rod_share(E, I, l, 0.0, c, 1e15)
    assert q == pytest.approx((3 * l - c) / (2 * c))
    at_base = post_moment_at_grade_rods(V, l, V * q, c, 0.0, 0.0)
    assert at_base == pytest.approx(V * (l - c) / 2)
    assert post_moment_at_rod(V, l - c) == V * (l - c)


def test_slack_rod_leaves_the_cantilever():
    assert rod_share(E, I, 120.0, 11.25, 90.0, 0.0) == 0
    assert rod_braced_stiffness(E, I, 120.0, 11.25, 90.0, 0.0) == pytest.approx(
        cantilever_stiffness(E, I, 120.0, 11.25)
    )


def test_the_other_foot_by_hand():
    """The foot that a rod pulls sideways, 400 lb of its own and 800 lb of the rod 8 in above grade."""
    assert foot_force_rods(400.0, 0.0, 800.0) == 1200
    assert post_moment_at_grade_rods(400.0, 100.0, 0.0, 80.0, 800.0, 8.0) == 400 * 100 + 800 * 8
    assert foot_force_rods(1000.0, 1200.0, 0.0) == 200


@given(d=st.floats(30, 84), z=st.floats(0, 24))
def test_pole_in_stiffening_ground_is_in_balance(d, z):
    """A stiff pole turning about a place: pressures n x (y0 - t x) give back the force and its moment about grade.

    y0 at grade is 1 / k for a pound; t follows from the sum of the forces: n (y0 d²/2 - t d³/3) = 1. The moments about
    grade: z = n (t d⁴/4 - y0 d³/3).
    """
    n = 40.0
    y0 = 1 / footing_stiffness(n, d, z)
    t = (y0 * d**2 / 2 - 1 / n) * 3 / d**3
    assert n * (t * d**4 / 4 - y0 * d**3 / 3) == pytest.approx(z, rel=1e-6, abs=1e-6)


def test_rod_strength():
    """5/8 in of A36: rupture 0.75 x 58 x 0.3068 / 2 = 6.67 kips (AISC 360-16, Table J3.2 and J3.6), yield 36 x 0.3068 /
    1.67 = 6.61 kips (D2) is less; of a steel with F_y = 50 ksi the rupture governs.
    """
    assert rod_tension_strength(36e3, 58e3, rod_area(0.625)) == pytest.approx(6613, abs=1)
    assert rod_tension_strength(50e3, 58e3, rod_area(0.625)) == pytest.approx(6670, abs=10)


def _panel(h, d, above, below, L, fixity, k_e):
    """One rod from the head of the right post to the foot of the left, a pound on the beam of the right one.

    Returns stiffness with which the right post holds its beam, and tension of the rod.
    """
    held = fixity > 0
    bar = Profile(E=E, A=3e4, I_z=I)
    stiff = Profile(E=29e6, A=1e4, I_z=1e5)
    L_r = math.hypot(L, above - below)
    k_r = brace_stiffness(STEEL, rod_area(0.625), L_r, k_e)
    rod = Profile(E=1.0, A=float(k_r) * L_r, I_z=1e-3)
    nodes = (
        Node("left", 0.0, -fixity),
        Node("low", 0.0, below),
        Node("right", L, -fixity),
        Node("head", L, above),
        Node("top", L, h),
        Node("load", L, h + d),
    )
    members = (
        Member("foot", "left", "low", bar),
        Member("post", "right", "head", bar),
        Member("stub", "head", "top", bar),
        Member("beam", "top", "load", stiff),
        Member("rod", "low", "head", rod, (Dof.RZ,), (Dof.RZ,)),
    )
    foot = ALL if held else (Dof.DX, Dof.DY)
    supports = (Support("left", ALL), Support("right", foot))
    result = analyse(Frame(nodes, members, supports, plane=True), [[NodeLoad("load", (1.0, 0.0, 0.0))]])
    return 1 / result.displacement("load")[Dof.DX, 0], -result.end_forces[
        result.frame.member_index["rod"], 0, 0
    ]


@settings(max_examples=40, deadline=None)
@given(
    h=st.floats(60, 140),
    d=st.floats(0.5, 12),
    drop=st.floats(3, 24),
    below=st.floats(4, 20),
    L=st.floats(60, 140),
    k_e=st.floats(8e3, 2e5),
)
def test_held_panel_against_the_frame(h, d, drop, below, L, k_e):
    k_frame, T_frame = _panel(h, d, h - drop, below, L, 12.0, k_e)
    L_r = rod_length(L, h - drop - below)
    k_r = brace_stiffness(STEEL, rod_area(0.625), L_r, k_e)
    k_x = rod_spring(k_r, L, L_r, post_foot_stiffness(E, I, below + 12))
    held = (E, I, h + 12, d, h - drop + 12)
    q = rod_share(*held, k_x)
    assert rod_tension(rod_lateral_force(1.0, q), L, L_r) == pytest.approx(T_frame, rel=0.01)
    assert rod_braced_stiffness(*held, q) == pytest.approx(k_frame, rel=0.01)


@settings(max_examples=40, deadline=None)
@given(h=st.floats(60, 140), d=st.floats(0.5, 12), drop=st.floats(3, 24), L=st.floats(60, 140))
def test_hinged_panel_against_the_frame(h, d, drop, L):
    """The post at the head hinged; the other one, where the rod pulls, is held as in the formula."""
    k_frame, T_frame = _panel(h, d, h - drop, 8.0, L, 0.0, 64e3)
    L_r = rod_length(L, h - drop - 8)
    k_r = brace_stiffness(STEEL, rod_area(0.625), L_r, 64e3)
    k_x = rod_spring(k_r, L, L_r, post_foot_stiffness(E, I, 8.0))
    q = rod_share_hinged(h, d, h - drop)
    assert rod_tension(q, L, L_r) == pytest.approx(T_frame, rel=0.01)
    assert rod_braced_stiffness_hinged(E, I, h, d, h - drop, q, k_x) == pytest.approx(k_frame, rel=0.01)


def test_springs_in_series():
    assert in_series(2000.0, 2000.0) == 1000.0
