"""The design basis: ASCE 7-16 2.4.1 combinations and C_D by the shortest load."""

import numpy as np
import pytest

from bolewright.timber.basis import LoadType, asd_basis

D, L, Lr, S, W = LoadType


@pytest.mark.parametrize(
    ("name", "factors", "C_D"),
    [  # ASCE 7-16 2.4.1; NDS 2018 Table 2.3.2 and Appendix B
        ("D", {D: 1}, 0.9),
        ("D + L", {D: 1, L: 1}, 1.0),
        ("D + Lr", {D: 1, Lr: 1}, 1.25),
        ("D + S", {D: 1, S: 1}, 1.15),
        ("D + 0.75L + 0.75Lr", {D: 1, L: 0.75, Lr: 0.75}, 1.25),
        ("D + 0.75L + 0.75S", {D: 1, L: 0.75, S: 0.75}, 1.15),
        ("D + 0.6W", {D: 1, W: 0.6}, 1.6),
        ("D + 0.75L + 0.75(0.6W)", {D: 1, L: 0.75, W: 0.45}, 1.6),
        ("D + 0.75L + 0.75(0.6W) + 0.75S", {D: 1, L: 0.75, S: 0.75, W: 0.45}, 1.6),
        ("0.6D + 0.6W", {D: 0.6, W: 0.6}, 1.6),
        ("0.6D + L", {D: 0.6, L: 1}, 1.0),  # common practice, uplift
        ("0.6D + S", {D: 0.6, S: 1}, 1.15),  # the same
    ],
)
def test_combination(name, factors, C_D):
    combination = next(c for c in asd_basis().combinations if c.name == name)
    assert combination.factors == factors
    assert combination.C_D == C_D
    assert combination.source


def test_factor_matrix_has_a_row_per_combination_and_a_column_per_load():
    basis = asd_basis().with_loads([D, L, S])
    names = [c.name for c in basis.combinations]
    assert names == ["D", "D + L", "D + S", "D + 0.75L + 0.75S", "0.6D + L", "0.6D + S"]
    assert basis.factor_matrix()[names.index("D + 0.75L + 0.75S")].tolist() == [1, 0.75, 0, 0.75, 0]
    assert basis.C_D.tolist() == [0.9, 1.0, 1.15, 1.15, 1.0, 1.15]


def test_snow_governs_over_live_when_it_is_heavy_enough():
    """Demo numbers by hand: D 10, L 60, S 30 psf; D + L over 1.0 against D + 0.75L + 0.75S over 1.15."""
    basis = asd_basis().with_loads([D, L, S])
    w = basis.factor_matrix() @ np.array([10.0, 60, 0, 30, 0])
    governing = basis.combinations[int(np.argmax(w / basis.C_D))].name
    assert governing == "D + L"
    assert basis.combinations[int(np.argmax(w))].name == "D + 0.75L + 0.75S"  # steel and soil: without C_D
