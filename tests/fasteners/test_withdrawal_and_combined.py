"""Withdrawal, head pull-through, and both with lateral load: NDS 2018, 12.2 and 12.4."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bolewright.calculation import Calculation
from bolewright.fasteners.combined import combined_nail_ratio, combined_nail_value, combined_screw_value
from bolewright.fasteners.connectors import Shank, bolt, lag_screw, nail, plain_nail, wood_screw
from bolewright.fasteners.errors import FastenerError, PenetrationError
from bolewright.fasteners.members import Steel, Wood
from bolewright.fasteners.pulling import (
    combined_design_value,
    reference_withdrawal,
    withdrawal_design_value,
)
from bolewright.fasteners.service import DRY
from bolewright.fasteners.withdrawal import (
    lag_screw_withdrawal,
    pull_through_thick_side,
    pull_through_thin_side,
    ring_nail_withdrawal,
    smooth_nail_withdrawal,
    stainless_nail_withdrawal,
    thread_penetration,
    wood_screw_withdrawal,
)

SIDE, MAIN = Wood(1.5, 0.55), Wood(9.25, 0.50)
EVERY = [
    lag_screw_withdrawal,
    wood_screw_withdrawal,
    smooth_nail_withdrawal,
    stainless_nail_withdrawal,
    ring_nail_withdrawal,
]


# NDS 2018 Tables 12.2D and 12.2E print these equations; the numbers are the equations by hand.
@pytest.mark.parametrize(
    ("shank", "W"),
    [
        (Shank.SMOOTH, 1380 * 0.5**2.5 * 0.131),
        (Shank.SMOOTH_STAINLESS, 465 * 0.5**1.5 * 0.131),
        (Shank.RING, 1800 * 0.25 * 0.131),
    ],
)
def test_nail_by_its_shank(shank, W):
    assert reference_withdrawal(nail("8d", shank=shank), 0.50) == pytest.approx(W)


@pytest.mark.parametrize("function", EVERY, ids=lambda function: function.__name__)
@settings(max_examples=50, deadline=None)
@given(st.floats(0.31, 0.73), st.floats(0.09, 1.25), st.floats(0.0, 0.3))
def test_never_falls_with_density_or_diameter(function, G, D, more):
    assert function(G + more, D) >= function(G, D)
    assert function(G, D + more) >= function(G, D)


def test_lag_screw_counts_thread_without_tip():  # 1/2 x 6: T 3-1/2 in., tip 5/16 in. (NDS Table L2)
    screw = lag_screw(0.5, 6.0)
    result = withdrawal_design_value(screw, SIDE, MAIN, service=DRY)
    assert result.p_t == pytest.approx(3.5 - 0.3125)
    assert result.capacity == pytest.approx(1800 * 0.5**1.5 * 0.5**0.75 * (3.5 - 0.3125))
    assert result.pull_through is None
    assert any("tensile strength of the lag screw" in note for note in result.notes)
    assert any("uncertain" in note for note in result.notes)  # thread lengths are from memory


@pytest.mark.parametrize(
    ("L", "T", "E_tip", "l_s", "t_m", "p_t"),
    [
        (6.0, 3.5, 0.3125, 1.5, 9.0, 3.1875),  # all of the thread is in the main member
        (6.0, 3.5, 0.3125, 3.5, 9.0, 2.1875),  # the thread starts in the side member
        (6.0, 3.5, 0.3125, 1.5, 3.5, 2.5),  # the tip has come out at the back
        (3.0, 2.0, 0.0, 1.5, 9.0, 1.5),  # wood screw, tip counts
        (3.0, 2.0, 0.3, 2.9, 9.0, 0.0),
    ],
)
def test_thread_penetration(L, T, E_tip, l_s, t_m, p_t):
    assert thread_penetration(L, T, E_tip, l_s, t_m) == pytest.approx(p_t)


def test_smooth_nail_counts_all_of_its_length_and_wet_to_dry_takes_a_quarter():
    dry = withdrawal_design_value(nail("16d"), Wood(1.5, 0.55), MAIN, service=DRY)
    assert dry.p_t == pytest.approx(2.0)
    assert dry.withdrawal == pytest.approx(2 * 1380 * 0.5**2.5 * 0.162)


def test_head_pull_through_governs_a_thin_soft_side():  # NDS 2018, 12.2.5
    thin = Wood(0.5, 0.35)
    screw = wood_screw(10, 3.0)
    result = withdrawal_design_value(screw, thin, Wood(9.25, 0.67), service=DRY, C_D=1.6)
    assert result.pull_through == pytest.approx(1.6 * 690 * np.pi * 0.363 * 0.35**2 * 0.5)
    assert result.capacity == result.pull_through < result.withdrawal
    thick = withdrawal_design_value(screw, Wood(1.0, 0.35), Wood(9.25, 0.67), service=DRY)
    assert thick.pull_through == pytest.approx(1725 * np.pi * 0.363**2 * 0.35**2)


def test_pull_through_meets_at_two_and_a_half_head_diameters():
    assert pull_through_thin_side(0.5, 0.3, 0.75) == pytest.approx(pull_through_thick_side(0.5, 0.3))


def test_steel_side_has_no_pull_through_and_an_unknown_head_is_said():
    assert (
        withdrawal_design_value(nail("16d"), Steel(0.06, F_u=45000), MAIN, service=DRY).pull_through is None
    )
    unknown = withdrawal_design_value(plain_nail(0.162, 3.5), SIDE, MAIN, service=DRY)
    assert "head pull-through is not checked" in unknown.notes[-1]


def test_end_grain():  # NDS 2018, 12.5.2.1, 12.2.2.2, 12.2.3.2
    along = Wood(9.25, 0.50, end_grain=True)
    assert withdrawal_design_value(lag_screw(0.5, 6.0), SIDE, along, service=DRY).factors["C_eg"] == 0.75
    for connector in (nail("16d"), wood_screw(10, 3.0)):
        with pytest.raises(FastenerError, match="withdrawal from end grain"):
            withdrawal_design_value(connector, SIDE, along, service=DRY)


def test_toe_nail():  # NDS 2018, 12.5.4.1
    result = withdrawal_design_value(nail("16d"), SIDE, MAIN, toe_nailed=True)
    assert result.factors["C_tn"] == 0.67
    assert result.factors["C_M"] == 1.0
    assert result.p_t == pytest.approx(3.5 - 3.5 / 3 / np.cos(np.pi / 6))


def test_a_bolt_and_a_short_nail_are_refused():
    with pytest.raises(FastenerError, match="is a bolt: it is not loaded in withdrawal"):
        withdrawal_design_value(bolt(0.5, 8.0), SIDE, MAIN)
    with pytest.raises(PenetrationError, match="wants 6 D"):
        withdrawal_design_value(nail("8d"), Wood(2.0, 0.5), MAIN)


values, angles = st.floats(20.0, 2000.0), st.floats(0.0, 90.0)


@pytest.mark.parametrize("function", [combined_screw_value, combined_nail_value])
@settings(max_examples=100, deadline=None)
@given(values, values, angles)
def test_combined_value_meets_both_ends(function, Z, W, alpha):
    assert function(Z, W, 0.0) == pytest.approx(Z)
    assert function(Z, W, 90.0) == pytest.approx(W)
    assert function(Z, W, alpha) <= max(Z, W) * (1 + 1e-12)


@settings(max_examples=100, deadline=None)
@given(values, values, angles)
def test_nail_value_uses_up_the_linear_interaction(Z, W, alpha):
    R = combined_nail_value(Z, W, alpha)
    lateral, pulling = R * np.cos(np.radians(alpha)), R * np.sin(np.radians(alpha))
    assert combined_nail_ratio(lateral, pulling, Z, W) == pytest.approx(1.0)


def test_combined_screw_value_is_hankinson():
    assert combined_screw_value(300.0, 600.0, 45.0) == pytest.approx(2 * 300 * 600 / 900)


def test_the_equation_is_that_of_the_kind():
    run = Calculation()
    assert combined_design_value(nail("16d"), 100.0, 50.0, 45.0, run) == combined_nail_value(
        100.0, 50.0, 45.0
    )
    assert combined_design_value(lag_screw(0.5, 6.0), 100.0, 50.0, 45.0, run) == combined_screw_value(
        100.0, 50.0, 45.0
    )
    with pytest.raises(FastenerError, match="is a bolt"):
        combined_design_value(bolt(0.5, 6.0), 100.0, 50.0, 45.0, run)


def test_arrays_of_load_duration():
    C_D = np.array([0.9, 1.15, 1.6])
    together = withdrawal_design_value(wood_screw(10, 3.0), SIDE, MAIN, C_D=C_D)
    for i, value in enumerate(C_D):
        apart = withdrawal_design_value(wood_screw(10, 3.0), SIDE, MAIN, C_D=float(value))
        assert together.capacity[i] == pytest.approx(apart.capacity, rel=1e-12)
        assert together.steps((i,))[-1].result == pytest.approx(apart.steps()[-1].result, rel=1e-12)
