"""What the rows of tree bolts and footings say, held to statics by hand: uplift, ratings together, pressure."""

from __future__ import annotations

from functools import lru_cache
from math import cos, cosh, hypot, pi, sin, sinh

import pytest
from bars_in_wood import bar_in_wood

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


def by_frame(check: Check) -> float:
    """What the frame model has more of the force, where the row says so."""
    return next((float(s.arguments["f_m"]) for s in check.steps if s.formula.name == "demand_by_frame"), 1.0)


@pytest.mark.parametrize("mark", ["P1", "P2"])
def test_a_footing_is_as_heavy_as_its_concrete_without_the_post(mark: str) -> None:
    """24 in. round, 62 deep, a 5 1/2 in. square post in it down to the 10 in. pad; 144 pcf; 0.6 D (ASCE 7, 2.4.1)."""
    volume = pi * 1.0**2 * 62 / 12 - (5.5 / 12) ** 2 * 52 / 12
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
    more = by_frame(across)
    assert by_hand * (1 - 1e-9) <= check.ratio <= by_hand * max(more, 1.01) * 1.002


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
    D, L, e, E_g = 1.875, 7.0, 6.004, 880_000.0
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


LEVER = 17 - (
    75.375 / (2 * pi) - 1
)  # the load 17 in. from the axis of a trunk of 75 3/8 in. girth, bark 1 in.


def oak_bar(kappa: float) -> tuple[float, float, float]:
    """Moment, shear and pressure of a pound: bur oak, green, 0.88e6 psi (Wood Handbook, Table 5-3b)."""
    return bar_in_wood(1.875, 7.0, LEVER, 880_000.0 / kappa)


def test_the_bar_of_elements_has_the_pressure_of_the_closed_form() -> None:
    for kappa in (5.0, 20.0, 50.0):
        assert oak_bar(kappa)[2] == pytest.approx(pressure(1.0, kappa), rel=1e-4)


FIRST_YIELD = 50_000.0 * pi * 1.875**3 / 32 / 1.67  # AISC 360-16, F11 at F_y S, ASD


@pytest.mark.parametrize("mark", ["T1", "T2"])
def test_the_steel_is_bent_and_sheared_most_in_the_softest_wood(mark: str) -> None:
    """The pressure turns deeper in: P, which its rating has too, bends the bar most where kappa is 20, the softest.

    6.403 in. x P there, 6.371 in. in the stiffest.
    Shear inside the wood is more than P (AISC 360-16, G: 0.6 F_y A/1.67).
    """
    rated, bent, sheared = (
        row(f"tree_bolt.{key}", mark) for key in ("rated", "steel_bending", "steel_shear")
    )
    assert rated.combination == bent.combination == sheared.combination == "D + L + guard"
    M, V, _ = oak_bar(20.0)
    assert oak_bar(5.0)[0] < oak_bar(10.0)[0] < M
    assert pytest.approx(6.403, abs=2e-3) == M
    assert bent.ratio == pytest.approx(rated.demand * M / FIRST_YIELD, rel=2e-4)
    assert oak_bar(5.0)[1] < V
    assert sheared.ratio == pytest.approx(
        rated.demand * V / (0.6 * 50_000 * pi * 1.875**2 / 4 / 1.67), rel=1e-2
    )
    assert any("softest" in text for text in bent.remarks)


@pytest.mark.parametrize("mark", ["T1", "T2"])
def test_bent_both_ways_the_steel_has_the_softest_wood_both_ways(mark: str) -> None:
    """Down with kappa 20, across ten times softer; the force along the bolt stands half a diameter above its axis.

    Forces as printed; both moments at right angles (a round bar: AISC 360-16, H1 with the resultant).
    """
    check = row("tree_bolt.steel_biaxial", mark)
    R = sum(arguments(check, "load_with_sway").values())
    found: list[float] = []  # of each direction, with what knees push there
    for before, step in zip((None, *check.steps), check.steps, strict=False):
        if step.formula.name == "support_lateral_force":
            found.append(float(step.result))
        elif before is not None and before.formula.name == "push_by_knees":
            assert step.result == pytest.approx(found[-1] + before.result)
            found[-1] = float(step.result)
    across, along = found[:2]
    down = R * oak_bar(20.0)[0] + abs(along) * 1.875 / 2
    M = hypot(down, across * oak_bar(200.0)[0])
    frame = by_frame(check)
    assert 1.0 <= frame < 1.05
    assert check.ratio == pytest.approx(frame * M / FIRST_YIELD, rel=3e-4)
