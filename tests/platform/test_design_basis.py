"""Joists by load and resistance factor design, and the rest of a platform by allowable stress beside them.

Published: NDS 2018 Tables N1 (K_F), N2 (phi), N3 (lambda) and ASCE 7-16 2.3.1, all from memory. What one method permits
over the other follows from them by hand, for a load that is a dead part and three parts of live load or snow:
LRFD permits phi K_F lambda / (0.25 x 1.2 + 0.75 x 1.6), ASD permits C_D.
"""

from __future__ import annotations

import math
from functools import lru_cache
from pathlib import Path

import numpy as np
import pytest

from bolewright.formulas import formula_of
from bolewright.platform.analysis.pattern import case_of, pattern_of
from bolewright.platform.checks.members import bearing_checks, bending_checks, look_of, shear_checks
from bolewright.platform.file.reading import find_faults, parse_project, parse_toml
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import member_envelope
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.loads.strength import strength
from bolewright.platform.results.results import Results, find_results
from bolewright.platform.results.verdict import beside_verdict
from bolewright.rendering.handcalc import render_step
from bolewright.sheets.brief.basis import basis_blocks
from bolewright.sheets.combinations import combination_rows
from bolewright.timber.basis import LoadType, Method, lrfd_basis
from bolewright.timber.sections import parse_section
from bolewright.timber.spans import Stock, joist_spans

LOOKOUT = (Path(__file__).parents[1] / "projects" / "lookout_gravity.toml").read_text(encoding="utf-8")
BY_FACTORS = {"joist.bending", "joist.negative_bending", "joist.shear", "joist.bearing"}
LRFD = '\n[code]\ndesign = "LRFD"\n'


@lru_cache(maxsize=2)
def found(design: str) -> Results:
    return find_results(parse_project(LOOKOUT + (LRFD if design == "LRFD" else "")))


def by_name(results: Results) -> dict[tuple[str, str, str], Check]:
    return {(c.part, c.key, c.limit_state): c for c in results.checks}


# Published factors ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("symbol", "K_F", "phi"),
    [("F_b", 2.54, 0.85), ("F_v", 2.88, 0.75), ("F_c_perp", 1.67, 0.90), ("E_min", 1.76, 0.85)],
)
def test_factors_of_tables_N1_and_N2(symbol: str, K_F: float, phi: float) -> None:
    factors = lrfd_basis().resistance[symbol]
    assert (factors.K_F, factors.phi) == (K_F, phi)


@pytest.mark.parametrize(
    ("name", "factors", "lam"),
    [  # ASCE 7-16 2.3.1 (D, L, Lr, S, W); NDS 2018 Table N3
        ("1.4D", (1.4, 0, 0, 0, 0), 0.6),
        ("1.2D + 1.6L + 0.5S", (1.2, 1.6, 0, 0.5, 0), 0.8),
        ("1.2D + 1.6S + L", (1.2, 1, 0, 1.6, 0), 0.8),
        ("1.2D + W + L + 0.5S", (1.2, 1, 0, 0.5, 1), 1.0),
        ("0.9D + W", (0.9, 0, 0, 0, 1), 1.0),
    ],
)
def test_combinations_of_2_3_1(name: str, factors: tuple[float, ...], lam: float) -> None:
    combination = next(c for c in lrfd_basis().combinations if c.name == name)
    assert tuple(combination.factor(kind) for kind in LoadType) == factors
    assert combination.time_effect == lam
    assert math.isnan(combination.C_D)


def permitted(method: Method, symbol: str, **load: float) -> float:
    """Greatest multiple of a load of one psi in all that a value of 1 psi permits, every other factor 1."""
    basis, loads = strength(method), np.array([load.get(kind, 0.0) for kind in "DLS"])
    value = getattr(basis.values, symbol)
    others = dict.fromkeys(set(formula_of(value.formula).parameters) - set(value.given), 1.0)
    strengths = np.broadcast_to(value.formula(**value.given, **others), len(basis.cases))
    factored = np.array([(case.D, case.L, case.S) for case in basis.cases]) @ loads
    return float((strengths / factored).min())


@pytest.mark.parametrize(
    ("value", "kind", "wanted"),
    [
        ("F_b", "L", 1.151),  # 2.54 x 0.85 x 0.8 = 1.7272 over 1.5
        ("F_v", "L", 1.152),  # 2.88 x 0.75 x 0.8 = 1.728 over 1.5
        ("F_b", "S", 1.001),  # 1.7272 over 1.5 and over C_D 1.15
        ("F_c_perp", "L", 1.002),  # 1.67 x 0.90 = 1.503 over 1.5
        ("F_c_perp", "S", 1.002),
    ],
)
def test_load_that_lrfd_permits_over_what_asd_permits(value: str, kind: str, wanted: float) -> None:
    lrfd, asd = (permitted(method, value, **{"D": 0.25, kind: 0.75}) for method in (Method.LRFD, Method.ASD))
    assert lrfd / asd == pytest.approx(wanted, abs=5e-4)


# End to end ----------------------------------------------------------------------------------------------


BARE = LOOKOUT.replace('"30 psf"', '"0 psf"').replace('"300 lb"', '"0 lb"')
BARE = BARE.replace("guard_edges = [2, 3, 4]", "guard_edges = []")


def of_a_joist(key: str, live: float, design: str) -> tuple[Check, float]:
    """A check of one joist without snow or person, and L/D where it governs."""
    text = BARE.replace('live = "60 psf"', f'live = "{live:.9f} psf"') + design
    path = find_load_path(find_layout(parse_project(text)))
    look = look_of(path, path.layout.member("J4"))
    made = {"joist.bending": bending_checks, "joist.shear": shear_checks, "joist.bearing": bearing_checks}[
        key
    ]
    check = made([look], sagging=True)[0] if made is bending_checks else made([look])[0]
    assert check.effect is not None
    quantity = {"reaction": "reactions"}.get(check.effect.quantity, check.effect.quantity.replace(" ", "_"))
    env, row = member_envelope(path, "J4", quantity), check.effect.row
    L = (env.L_most if check.effect.sign > 0 else env.L_least)[row]
    return check, float(L / env.D[row])


@pytest.mark.parametrize(
    ("key", "wanted"), [("joist.bending", 1.151), ("joist.shear", 1.152), ("joist.bearing", 1.002)]
)
def test_ratio_of_a_joist_whose_live_load_is_three_times_its_dead_load(key: str, wanted: float) -> None:
    """From the file to the ratio: no snow, no person, L/D = 3 at the place that governs."""
    live = 60.0 * 3.0 / of_a_joist(key, 60.0, "")[1]
    (asd, three), (lrfd, also) = (of_a_joist(key, live, design) for design in ("", LRFD))
    assert (three, also) == (pytest.approx(3.0, rel=1e-6), pytest.approx(3.0, rel=1e-6))
    assert (asd.combination, lrfd.combination) == ("D + L", "LRFD 1.2D + 1.6L")
    assert asd.ratio / lrfd.ratio == pytest.approx(wanted, abs=5e-4)


def test_only_strength_of_joists_changes() -> None:
    """Deflection, hangers, ties, beams, supports: to the last digit as by allowable stress."""
    asd, lrfd = (by_name(found(design)) for design in ("ASD", "LRFD"))
    assert {row[1] for row in asd.keys() ^ lrfd.keys()} <= {
        "joist.negative_bending"
    }  # a joist that 0.9D lets rise
    for row, check in asd.items():
        other = lrfd[row]
        if check.key in BY_FACTORS and not check.asks_nothing:
            assert other.combination.startswith("LRFD ")
            assert other.clause == f"{check.clause}; Appendix N (LRFD)"
        else:
            assert not other.combination.startswith("LRFD ")
            assert (other.ratio, other.combination) == (
                pytest.approx(check.ratio, nan_ok=True),
                check.combination,
            )
    assert any(check.key == "joist.total_deflection" for check in asd.values())


def test_printed_steps_name_the_factors() -> None:
    checks = {c.key: c for c in found("LRFD").checks if c.part == "J3"}
    wanted = {
        "joist.bending": {"K_F": 2.54, "phi_b": 0.85, "lam": 0.8},
        "joist.shear": {"K_F": 2.88, "phi_v": 0.75, "lam": 0.8},
        "joist.bearing": {"K_F": 1.67, "phi_c": 0.9},
    }
    for key, factors in wanted.items():
        step = next(s for s in checks[key].steps if "K_F" in s.arguments)
        assert {name: step.arguments[name] for name in factors} == factors
        assert "C_D" not in step.arguments
        printed = render_step(step).latex
        for sign in (r"\phi", "K_{F}", *([r"\lambda"] if "lam" in factors else [])):
            assert sign in printed


def test_every_lrfd_row_is_traced_to_its_case() -> None:
    results = found("LRFD")
    for check in results.checks:
        if check.combination.startswith("LRFD "):
            case = case_of(check)
            assert case is not None
            assert math.isnan(case.C_D)
            assert pattern_of(results.path, check) is not None


def test_two_methods_are_said_beside_the_verdict_and_in_the_brief() -> None:
    asd, lrfd = found("ASD"), found("LRFD")
    (more,) = set(beside_verdict(lrfd)) - set(beside_verdict(asd))
    assert more.startswith("Two methods stand side by side")
    assert "All other rows" in more
    (block,) = basis_blocks(lrfd)
    pairs = dict(block.pairs)
    assert "joists alone by load and resistance factors" in pairs["Method"]
    rows = {row.name: row for row in combination_rows(lrfd)}
    assert rows["LRFD 1.2D + 1.6L + 0.5S"].C_D == "λ 0.8"
    assert not [row for row in combination_rows(asd) if row.name.startswith("LRFD")]


def test_a_method_that_is_none_is_refused_in_words() -> None:
    _, faults = find_faults(parse_toml(LOOKOUT + LRFD.replace("LRFD", "limit states"), "file"))
    (fault,) = faults
    assert fault.where == ("code", "design")
    assert "ASD" in fault.message
    assert "LRFD" in fault.message


def test_load_duration_of_a_method_without_one_is_refused() -> None:
    with pytest.raises(ValueError, match="no load duration factor"):
        _ = lrfd_basis().C_D
    with pytest.raises(ValueError, match="no load duration factor"):
        joist_spans([Stock("Southern Pine", "No.2")], [parse_section("2x8")], [16], basis=lrfd_basis())
