"""Adjusted values by load and resistance factor design, by hand from NDS 2018 Table 4.3.1 and Tables N1 to N3.

The factors are from memory of the printed tables: K_F 2.54, 2.88, 1.67, 1.76; phi 0.85, 0.75, 0.90, 0.85; lambda 0.8 of
occupancy, 0.6 for dead load alone. Reference values: Supplement Table 4A, Douglas Fir-Larch No.2: F_b 900, F_v 180,
F_c_perp 625, E_min 580,000 psi; C_F 1.2 for a 2x8, C_r 1.15, C_M 0.85, 0.97, 0.67, 0.9.
"""

from __future__ import annotations

import pytest

from bolewright.timber.lrfd_values import (
    adjusted_bearing_lrfd,
    adjusted_bending_lrfd,
    adjusted_minimum_modulus_lrfd,
    adjusted_shear_lrfd,
    bending_before_stability_lrfd,
)


def test_bending() -> None:
    """900 x 2.54 = 2,286; x 0.85 = 1,943.1; x 0.8 = 1,554.48; x 1.2 x 1.15 = 2,145.18; wet x 0.85 = 1,823.41."""
    dry = bending_before_stability_lrfd(900, 2.54, 0.85, 0.8, 1.0, 1.0, 1.2, 1.0, 1.15)
    assert dry == pytest.approx(2145.18, abs=0.005)
    assert adjusted_bending_lrfd(900, 2.54, 0.85, 0.8, 0.85, 1.0, 1.0, 1.2, 1.0, 1.0, 1.15) == pytest.approx(
        1823.41, abs=0.005
    )


def test_bending_under_dead_load_alone() -> None:
    """Lambda 0.6: 900 x 2.54 x 0.85 x 0.6 = 1,165.86."""
    found = adjusted_bending_lrfd(900, 2.54, 0.85, 0.6, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0)
    assert found == pytest.approx(1165.86, abs=0.005)


def test_shear() -> None:
    """180 x 2.88 = 518.4; x 0.75 = 388.8; x 0.8 = 311.04; wet x 0.97 = 301.709."""
    assert adjusted_shear_lrfd(180, 2.88, 0.75, 0.8, 0.97, 1.0, 1.0) == pytest.approx(301.709, abs=5e-4)


def test_bearing_takes_no_time_effect() -> None:
    """625 x 1.67 = 1,043.75; x 0.9 = 939.375; wet x 0.67 = 629.381."""
    assert adjusted_bearing_lrfd(625, 1.67, 0.9, 0.67, 1.0, 1.0, 1.0) == pytest.approx(629.381, abs=5e-4)


def test_minimum_modulus() -> None:
    """580,000 x 1.76 = 1,020,800; x 0.85 = 867,680; wet x 0.9 = 780,912."""
    found = adjusted_minimum_modulus_lrfd(580_000, 1.76, 0.85, 0.9, 1.0, 1.0, 1.0)
    assert found == pytest.approx(780_912.0, abs=0.5)
