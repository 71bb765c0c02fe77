"""Beam solver against AWC Design Aid 6 (2007), Beam Formulas with Shear and Moment Diagrams: every row kept.

Coefficients carry three or four figures in print: 0.1 %, or half the last printed digit where that is more.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from bolewright.mechanics.beam import Beam, PointLoad, SpreadLoad, TriangleLoad
from bolewright.mechanics.diagrams import Diagrams, solve
from bolewright.reference import load

L, EI = 100.0, 1e6
W = L  # total of w = 1 lb/in over one span
A = L / 4
CLAMPED = (None, 0.0)

SIMPLE = Beam(L, (0.0, L), EI)
CANTILEVER = Beam(L, (0.0,), EI, clamps=CLAMPED)
PROPPED = Beam(L, (0.0, L), EI, clamps=CLAMPED)
FIXED = Beam(L, (0.0, L), EI, clamps=(None, None))
OVERHANG = Beam(L + A, (0.0, L), EI)
SPANS = {n: Beam(n * L, tuple(i * L for i in range(n + 1)), EI) for n in (2, 3, 4)}


def even(first: float, last: float) -> tuple[SpreadLoad, float]:
    """1 lb/in from one place to another."""
    return SpreadLoad(first, last), last - first


POINT = {"centre": (PointLoad(L / 2), 1.0), "quarter": (PointLoad(L / 4), 1.0)}
CASES: dict[str, Diagrams] = {
    "simple, uniform": solve(SIMPLE, [even(0, L)]),
    "simple, point at centre": solve(SIMPLE, [POINT["centre"]]),
    "simple, point at a=L/4": solve(SIMPLE, [POINT["quarter"]]),
    "simple, two equal at thirds": solve(SIMPLE, [(PointLoad(L / 3), 1.0), (PointLoad(2 * L / 3), 1.0)]),
    "simple, triangular 0 to w at right": solve(SIMPLE, [(TriangleLoad(0, L), L / 2)]),
    "simple, triangular peak at centre": solve(
        SIMPLE, [(TriangleLoad(0, L / 2), L / 4), (TriangleLoad(L, L / 2), L / 4)]
    ),
    "simple, uniform on left half": solve(SIMPLE, [even(0, L / 2)]),
    "cantilever, uniform": solve(CANTILEVER, [even(0, L)]),
    "cantilever, point at tip": solve(CANTILEVER, [(PointLoad(L), 1.0)]),
    "propped cantilever, uniform": solve(PROPPED, [even(0, L)]),
    "fixed-fixed, uniform": solve(FIXED, [even(0, L)]),
    "overhang a=L/4, uniform over all": solve(OVERHANG, [even(0, L + A)]),
    "overhang a=L/4, uniform on overhang only": solve(OVERHANG, [even(L, L + A)]),
    "overhang a=L/4, point at tip": solve(OVERHANG, [(PointLoad(L + A), 1.0)]),
    "two equal spans, uniform both": solve(SPANS[2], [even(0, 2 * L)]),
    "two equal spans, uniform one": solve(SPANS[2], [even(0, L)]),
    "two equal spans, point centre of one": solve(SPANS[2], [POINT["centre"]]),
    "three equal spans, uniform all": solve(SPANS[3], [even(0, 3 * L)]),
    "three equal spans, outer two loaded": solve(SPANS[3], [even(0, L), even(2 * L, 3 * L)]),
    "three equal spans, two adjacent loaded": solve(SPANS[3], [even(0, 2 * L)]),
    "four equal spans, uniform all": solve(SPANS[4], [even(0, 4 * L)]),
}


def moment_at(x: float) -> Callable[[Diagrams], float]:
    return lambda d: float(d.moment[abs(d.stations - x).argmin()])


def deflection_at(x: float) -> Callable[[Diagrams], float]:
    return lambda d: float(d.deflection[abs(d.stations - x).argmin()])


def reaction(row: int) -> Callable[[Diagrams], float]:
    return lambda d: float(d.reactions[row])


def sagging(d: Diagrams) -> float:
    return d.sagging.value


def downward(d: Diagrams) -> float:
    return d.downward.value


def upward(d: Diagrams) -> float:
    return -d.upward.value


def hogging(d: Diagrams) -> float:
    return -d.hogging.value


QUANTITIES: dict[tuple[str, str], Callable[[Diagrams], float]] = {
    ("simple, uniform", "R"): reaction(0),
    ("cantilever, uniform", "Mmax"): hogging,
    ("simple, point at a=L/4", "delta under load=Pa2b2/3EIL"): deflection_at(L / 4),
    ("overhang a=L/4, uniform on overhang only", "tip = wa3(4L+3a)/24EI"): deflection_at(L + A),
    ("three equal spans, uniform all", "R int"): reaction(1),
    ("three equal spans, outer two loaded", "R int"): reaction(1),
    ("three equal spans, two adjacent loaded", "R B"): reaction(1),
    ("four equal spans, uniform all", "R"): reaction(0),
}
BY_QUANTITY: dict[str, Callable[[Diagrams], float]] = {
    "Mmax": sagging,
    "M span": sagging,
    "M end span": sagging,
    "M span=w(L+a)2(L-a)2/8L2": sagging,
    "M fixed": moment_at(0.0),
    "M int support": moment_at(L),
    "delta_max": downward,
    "delta_tip": deflection_at(L),
    "R1": reaction(0),
    "R2": reaction(1),
    "R2=w(L+a)2/2L": reaction(1),
    "R3": reaction(2),
    "max upward span = 0.03208 wa2L2/EI": upward,
    "max upward = 0.06415 PaL2/EI": upward,
}
UNITS = {"wL": W, "P": 1.0, "wL^2": W * L, "wL^4/EI": L**4 / EI, "PL^3/EI": L**3 / EI}
HOGGING_IN_SIZE = {"M fixed", "M int support"}  # the source prints the size of a hogging moment


def coefficient(text: object) -> tuple[float, float]:
    """Value and allowed difference: 0.1 %, or half the last printed digit of a decimal."""
    if isinstance(text, float):
        digits = len(f"{text:.4f}".rstrip("0").split(".")[1])
        return text, max(abs(text) * 1e-3, 0.5 * 10**-digits)
    value = float(eval(str(text), {"__builtins__": {}}))  # arithmetic of our own table
    return value, abs(value) * 1e-3


ROWS = list(load("check_awc_da6_beam_coefficients"))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['case']}: {row['quantity']}")
def test_every_kept_coefficient_of_da6(row: dict) -> None:
    case, quantity = row["case"], row["quantity"]
    look = QUANTITIES.get((case, quantity)) or BY_QUANTITY[quantity.replace("M span = ", "M span=")]
    found = look(CASES[case]) / UNITS[row["multiplier"]]
    if quantity in HOGGING_IN_SIZE:
        found = -found
    value, allowed = coefficient(row["coefficient"])
    assert found == pytest.approx(value, abs=allowed)


def test_every_kept_case_is_solved_in_balance() -> None:
    assert {row["case"] for row in ROWS} == set(CASES)
    for diagrams in CASES.values():
        assert max(map(abs, diagrams.imbalance)) < 1e-9
        assert math.isfinite(diagrams.downward.value)
