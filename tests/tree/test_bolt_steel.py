"""Steel of the tree bolt by AISC 360 (from memory), worked by hand here."""

import pytest

from bolewright.tree.steel import (
    bolt_bending_and_shear,
    bolt_moment_first_yield,
    bolt_moment_in_yielding_wood,
    bolt_moment_plastic,
    bolt_shear_strength,
)


def test_first_yield_of_a_one_and_a_half_inch_bar():
    # S = pi 1.5^3 / 32 = 0.33134 in3; 36 x 0.33134 / 1.67 = 7.143 kip in
    assert bolt_moment_first_yield(36000.0, 1.5) == pytest.approx(7142.6, abs=0.5)


def test_f11_holds_a_round_bar_to_1_6_times_first_yield():
    # Z = 0.5625 in3 = 1.698 S, so 1.6 F_y S governs (AISC 360-16 F11.1)
    assert bolt_moment_plastic(36000.0, 1.5) / bolt_moment_first_yield(36000.0, 1.5) == pytest.approx(1.6)
    assert pytest.approx(1.698, abs=0.001) == 1.5**3 / 6 / 0.33134


def test_shear_on_the_root_area():
    # A = 1.7671 in2; 0.6 x 36 x 1.7671 / 1.67 = 22.86 kip
    assert bolt_shear_strength(36000.0, 1.5) == pytest.approx(22857.0, abs=1.0)


def test_moment_in_yielding_wood_by_hand():
    # P 1000 lb, q 4935 lb/in, e 6: depth 0.2026 in, M = 6000 + 1000^2 / (2 x 4935) = 6101
    assert bolt_moment_in_yielding_wood(1000.0, 6.0, 4935.0) == pytest.approx(6101.3, abs=0.05)


def test_bending_and_shear_together():
    assert bolt_bending_and_shear(3.0, 5.0, 4.0, 5.0) == pytest.approx(1.0)
