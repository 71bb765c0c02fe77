"""Beams solved by sympy's beam module (symbolic, exact), and ours beside them."""

from __future__ import annotations

import numpy as np
import pytest
from sympy import Rational, Symbol, symbols
from sympy.physics.continuum_mechanics.beam import Beam as SymbolicBeam

from bolewright.mechanics.beam import Beam, PointLoad, SpreadLoad, TriangleLoad, respond

EI = 1_000_000
# length, supports, loads: ("point", x, lb), ("even", start, end, lb/in), ("ramp", start, end, lb/in at its end)
BEAMS = {
    "simple, point and patch": (120, (0, 120), [("point", 30, 100), ("even", 40, 100, 5)]),
    "overhang both ends": (180, (30, 140), [("even", 0, 180, 3), ("point", 180, 50)]),
    "two spans, unequal": (200, (0, 80, 200), [("even", 20, 150, 4), ("point", 170, 90)]),
    "three spans, ramp": (300, (0, 90, 210, 300), [("ramp", 0, 300, 6), ("point", 45, 200)]),
    "four supports and overhang": (260, (20, 90, 160, 230), [("even", 0, 260, 2), ("point", 260, 75)]),
}


def symbolic(length: int, supports: tuple[int, ...], loads: list) -> tuple[dict, SymbolicBeam, list[Symbol]]:
    # sympy counts loads and deflections upward (a downward load is negative there), moments hogging.
    beam = SymbolicBeam(length, EI, 1)
    names = list(symbols(f"R0:{len(supports)}"))
    for name, x in zip(names, supports, strict=True):
        beam.apply_load(name, x, -1)
        beam.bc_deflection.append((x, 0))
    for kind, start, *rest in loads:
        if kind == "point":
            beam.apply_load(-rest[0], start, -1)
        elif kind == "even":
            beam.apply_load(-rest[1], start, 0, end=rest[0])
        else:
            beam.apply_load(-Rational(rest[1], rest[0] - start), start, 1, end=rest[0])
    beam.solve_for_reaction_loads(*names)
    return beam.reaction_loads, beam, names


@pytest.mark.parametrize("name", BEAMS)
def test_beam_agrees_with_sympy(name: str) -> None:
    length, supports, loads = BEAMS[name]
    reactions, beam, names = symbolic(length, supports, loads)
    unit, total = [], []
    for kind, start, *rest in loads:
        if kind == "point":
            unit.append(PointLoad(float(start)))
            total.append(float(rest[0]))
        elif kind == "even":
            unit.append(SpreadLoad(float(start), float(rest[0])))
            total.append(float(rest[1] * (rest[0] - start)))
        else:
            unit.append(TriangleLoad(float(start), float(rest[0])))
            total.append(rest[1] * (rest[0] - start) / 2)
    stations = np.array([0.13, 0.31, 0.47, 0.62, 0.77, 0.91]) * length
    ours = respond(Beam(float(length), tuple(map(float, supports)), float(EI)), unit, stations)
    assert ours.reactions @ np.array(total) == pytest.approx(
        [float(reactions[symbol]) for symbol in names], rel=1e-9, abs=1e-9
    )
    x = Symbol("x")
    moment, deflection = beam.bending_moment(), beam.deflection()
    sizes = np.abs(ours.moment @ np.array(total)).max(), np.abs(ours.deflection @ np.array(total)).max()
    exact_moment = [float(-moment.subs(x, station)) for station in stations]
    exact_line = [float(-deflection.subs(x, station)) for station in stations]
    assert ours.moment @ np.array(total) == pytest.approx(exact_moment, abs=1e-9 * sizes[0])
    assert ours.deflection @ np.array(total) == pytest.approx(exact_line, abs=1e-8 * sizes[1])
