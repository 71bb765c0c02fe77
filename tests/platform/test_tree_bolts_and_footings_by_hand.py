"""What the rows of tree bolts and footings say, held to statics by hand: uplift, ratings together, pressure."""

from __future__ import annotations

from functools import lru_cache
from math import cos, cosh, pi, sin, sinh

import pytest

from bolewright.paths import shipped
from bolewright.platform.file.reading import read_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results


@lru_cache
def results() -> Results:
    return find_results(read_project(shipped("calcsheets") / "lookout.toml"))


def row(key: str, part: str) -> Check:
    return next(c for c in results().checks if c.key == key and c.part == part)


def arguments(check: Check, name: str, n: int = -1) -> dict[str, float]:
    return [{k: float(v) for k, v in s.arguments.items()} for s in check.steps if s.formula.name == name][n]


@pytest.mark.parametrize("mark", ["P1", "P2"])
def test_a_footing_is_as_heavy_as_its_concrete_without_the_post(mark: str) -> None:
    """24 in. round, 60 deep, a 5 1/2 in. square post in it down to the 10 in. pad; 144 pcf; 0.6 D (ASCE 7, 2.4.1)."""
    volume = pi * 1.0**2 * 5.0 - (5.5 / 12) ** 2 * 50 / 12
    assert row("footing.uplift_lateral", mark).capacity == pytest.approx(0.6 * 144 * volume, rel=1e-6)


@pytest.mark.parametrize("mark", ["T1", "T2"])
def test_the_least_load_on_a_tree_bolt_is_that_of_all_cases(mark: str) -> None:
    """Sway can only take more off than there is without it; the clip's 200 lb stand beside what it takes."""
    check = row("tree_bolt.uplift_lateral", mark)
    load = arguments(check, "load_with_sway")
    asked = arguments(check, "hold_down_force")
    lifted = -(load["R"] + load["R_o"] + load["R_k"])
    assert -asked["R"] == pytest.approx(lifted)
    assert lifted > row("tree_bolt.uplift", mark).demand
    assert check.demand == pytest.approx(max(lifted, 200.0))


@pytest.mark.parametrize("mark", ["T1", "T2"])
def test_ratings_together_count_what_the_frame_model_finds(mark: str) -> None:
    """Each share by the worse model where both are at their greatest is a bound; what is judged lies under it, and over
    the hand calculation's sum."""
    check = row("tree_bolt.together", mark)
    last = arguments(check, "ratings_together")
    by_hand = last["V"] / last["Z_V"] + last["H"] / last["Z_H"]
    across = row("tree_bolt.bracket_lateral", mark)
    more = arguments(across, "demand_by_frame")["f_m"]
    assert more > 1.005
    assert by_hand * 1.003 < check.ratio <= by_hand * more * 1.002


@pytest.mark.parametrize("mark", ["T1", "T2"])
def test_pressure_across_the_grain_is_held_to_its_own_value(mark: str) -> None:
    """Bur oak across the grain, green, 680 psi at the proportional limit over 1.67 (ASTM D245); no load duration.

    Hankinson's formula alone lets the part across past this at small angles: at 22 degrees by 9 %.
    """
    check = row("tree_bolt.wood_pressure_lateral", mark)
    V = arguments(check, "bolt_pressure")["P"]
    assert check.demand == pytest.approx(
        pressure(V, 50.0), rel=3e-3
    )  # across the grain the bed is ten times softer; the worse end of 5 to 20
    assert check.capacity == pytest.approx(680 / 1.67, rel=2e-3)


def pressure(P: float, kappa: float) -> float:
    """Pressure at the face of a bar 7 in. long on an elastic bed, load P 6.004 in. off the wood (Hetenyi; psi)."""
    D, L, e, E_g = 1.625, 7.0, 6.004, 880_000.0
    k = E_g / (kappa * D) * D
    length = (4 * 29e6 * pi * D**4 / 64 / k) ** 0.25
    b = L / length
    N = sinh(b) ** 2 - sin(b) ** 2
    force = 2 * (sinh(b) * cosh(b) - sin(b) * cos(b)) / N
    moment = 2 * (sinh(b) ** 2 + sin(b) ** 2) / N
    return P / length * (force + moment * e / length) / D


@pytest.mark.parametrize("mark", ["T1", "T2"])
def test_pressure_in_service_holds_over_the_whole_range_of_kappa(mark: str) -> None:
    """kappa is judgement, plausible from 5 to 20: judged at the stiff end, where the pressure is greatest."""
    check = row("tree_bolt.wood_pressure", mark)
    P = arguments(check, "bolt_pressure")["P"]
    assert check.demand == pytest.approx(pressure(P, 5.0), rel=2e-3)
    assert pressure(P, 20.0) < pressure(P, 10.0) < pressure(P, 5.0) <= check.capacity
    assert any("worse end" in text and "stiffest" in text for text in check.remarks)


@pytest.mark.parametrize("key", ["tree_bolt.steel_bending", "tree_bolt.steel_biaxial"])
def test_the_steel_is_bent_most_in_the_softest_wood(key: str) -> None:
    """The pressure turns deeper in: T1's moment is that of a bar whose bed has kappa 20 (largest of Hetenyi's M(x))."""
    check = row(key, "T1")
    step = arguments(check, "bolt_moment_at", 0)
    k = 880_000.0 / 20.0
    length = (4 * 29e6 * pi * 1.625**4 / 64 / k) ** 0.25
    assert step["l_c"] == pytest.approx(length, rel=1e-3)
    assert any("softest" in text for text in check.remarks)
