"""The tests' own grillage against beams that are printed in handbooks.

Coefficients: American Wood Council, Design Aid No. 6, Beam Design Formulas with Shear and Moment Diagrams (2007).
"""

from __future__ import annotations

import numpy as np
import pytest

from outside.drawing import Beam
from outside.grillage import Grillage, Loads

# Stations are a twentieth of a span apart: greatest moments between them are 0.4 % more at most.
L, EI, W = 100.0, 2.0e8, 3.0  # in, lb·in², lb/in
THIRD = 5e-4  # half of the last digit of a coefficient with three


def beam(spans: int, over: float = 0.0) -> Grillage:
    seats = tuple((k * L, f"R{k + 1}", 0.0) for k in range(spans + 1))
    return Grillage(
        (Beam("B", np.zeros(2), np.array([1.0, 0.0]), spans * L + over, EI, 1.0, 0.0, True, False, seats),)
    )


def uniform(grillage: Grillage, *loaded: tuple[float, float]) -> Loads:
    """All stretches loaded with W, as one load of many pieces."""
    pieces = []
    for a, b in loaded:
        edges = np.linspace(a, b, 4001)
        pieces += [(0, float(x), W * (edges[1] - edges[0])) for x in (edges[1:] + edges[:-1]) / 2]
    return Loads(grillage, [pieces])


def test_three_equal_spans_all_loaded() -> None:
    loads = uniform(beam(3), (0, 3 * L))
    assert loads.on_support("R1")[0] == pytest.approx(0.400 * W * L, rel=1e-4)
    assert loads.on_support("R2")[0] == pytest.approx(1.100 * W * L, rel=1e-4)
    moment = loads.moment_and_shear(0)[0]
    assert moment.min() == pytest.approx(-0.100 * W * L**2, rel=1e-4)


def test_three_equal_spans_outer_two_loaded() -> None:
    loads = uniform(beam(3), (0, L), (2 * L, 3 * L))
    assert loads.on_support("R2")[0] == pytest.approx(0.550 * W * L, rel=1e-4)
    assert loads.moment_and_shear(0)[0].max() == pytest.approx(0.1013 * W * L**2, abs=THIRD * W * L**2)


def test_three_equal_spans_two_beside_each_other_loaded() -> None:
    loads = uniform(beam(3), (0, 2 * L))
    assert loads.on_support("R2")[0] == pytest.approx(1.200 * W * L, abs=THIRD * W * L)


def test_two_equal_spans() -> None:
    loads = uniform(beam(2), (0, 2 * L))
    assert loads.on_support("R2")[0] == pytest.approx(10 / 8 * W * L, rel=1e-4)
    assert loads.moment_and_shear(0)[0].max() == pytest.approx(9 / 128 * W * L**2, rel=5e-3)
    one = uniform(beam(2), (0, L))
    assert one.on_support("R1")[0] == pytest.approx(7 / 16 * W * L, rel=1e-4)
    assert one.on_support("R3")[0] == pytest.approx(-1 / 16 * W * L, rel=1e-4)
    # Printed as 0.0092; the exact value is 0.00914.
    assert one.deflection(0).max() == pytest.approx(0.0092 * W * L**4 / EI, abs=1e-4 * W * L**4 / EI)


def test_point_load_in_the_middle_of_one_of_two_spans() -> None:
    loads = Loads(beam(2), [[(0, L / 2, 1.0)]])
    assert loads.on_support("R2")[0] == pytest.approx(11 / 16, rel=1e-6)
    assert loads.deflection(0).max() == pytest.approx(0.015 * L**3 / EI, abs=5e-4 * L**3 / EI)


def test_overhang_of_a_quarter_span() -> None:
    a = L / 4
    all_over = uniform(beam(1, a), (0, L + a))
    assert all_over.on_support("R2")[0] == pytest.approx(W * (L + a) ** 2 / (2 * L), rel=1e-6)
    most = all_over.moment_and_shear(0)[0].max()
    assert most == pytest.approx(W * (L + a) ** 2 * (L - a) ** 2 / (8 * L**2), rel=5e-3)
    tip = uniform(beam(1, a), (L, L + a)).deflection(0)
    assert tip.max() == pytest.approx(W * a**3 * (4 * L + 3 * a) / (24 * EI), rel=1e-4)
    assert tip.min() == pytest.approx(-0.03208 * W * a**2 * L**2 / EI, rel=5e-3)


def test_a_beam_in_the_middle_of_another_shares_by_stiffness() -> None:
    """Two equal beams crossing at mid-span under a load there: each takes half (one deflection, equal stiffness)."""
    up = ((0.0, "A", 0.0), (L / 2, "Q", L / 2), (L, "B", 0.0))
    across = Beam("P", np.array([-L / 2, 0.0]), np.array([1.0, 0.0]), L, EI, 1.0, 0.0, True, False, up)
    down = ((0.0, "C", 0.0), (L, "D", 0.0))
    below = Beam("Q", np.array([0.0, -L / 2]), np.array([0.0, 1.0]), L, EI, 1.0, 0.0, False, False, down)
    loads = Loads(Grillage((across, below)), [[(0, L / 2, 1.0)]])
    for mark in "ABCD":
        assert loads.on_support(mark)[0] == pytest.approx(0.25, rel=1e-9)
    assert loads.moment_and_shear(1)[0].max() == pytest.approx(0.5 * L / 4, rel=1e-9)
