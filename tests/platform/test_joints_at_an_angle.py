"""Three bolts of a steep knee, by hand: NDS 2018, Appendix E, 3.4.3.3, 12.3 with Hankinson's angle, 3.1.2.

C_D is that of the shortest load in the row's combination (NDS 2018, Table 2.3.2), never read from a printed step.
Knees of two 2x8, 36 in. of rise on 24 of run, three 5/8 in. bolts 2 11/16 in. apart along the grain of the 6x6 post
and of the (2) 2x12 beam. All Southern Pine No.2, wet (NDS Supplement 2018, Tables 4B, 4D): F_v 175 x 0.97 and 165 psi,
F_t 550 psi of a 2x8, G 0.55.
"""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest
from durations import load_duration

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results

TEXT = (
    (Path(__file__).parents[1] / "projects" / "lookout_revision_a.toml")
    .read_text(encoding="utf-8")
    .replace('rise = "30 in"\nrun = "30 in"', 'rise = "36 in"\nrun = "24 in"')
    .replace(
        'section = "2x6"\nspecies = "Southern Pine"\ngrade = "No.2"\nbolts = 2',
        'section = "2x8"\nspecies = "Southern Pine"\ngrade = "No.2"\nbolts = 3',
    )
)
RISE, RUN, SPACING, END, HOLE = 36.0, 24.0, 2.6875, 4.5, 0.6875
LONG = math.hypot(RISE, RUN)
F_V, F_T = 175 * 0.97, 550.0


@cache
def checks() -> dict[tuple[str, str], Check]:
    return {(c.part, c.limit_state): c for c in find_results(parse_project(TEXT)).checks}


def found(part: str, limit_state: str) -> Check:
    return checks()[part, limit_state]


def argument(check: Check, formula: str, name: str) -> float:
    return next(float(s.arguments[name]) for s in check.steps if s.formula.name == formula)


def duration(check: Check) -> float:
    return load_duration(check.combination)


@pytest.mark.parametrize(("at", "across"), [("P1", SPACING * RUN / LONG), ("C1", SPACING * RISE / LONG)])
def test_three_rows_across_the_brace(at: str, across: float) -> None:
    """A row along the post lies aslant in the brace: 1.49 in. apart across it, 2.24 in. at the beam, a row each.

    Rows (E.3): 3 x 1 x F'_v x 3 x 4.5; the group (E.4): half of both outer rows, F'_t x 3 in. between their
    centres less two holes.
    """
    rows, group = found("K1", f"row tear-out at {at}"), found("K1", f"group tear-out at {at}")
    one = F_V * duration(rows) * 3 * END
    assert rows.capacity == pytest.approx(3 * one)
    net = 3 * (2 * across - 2 * HOLE)
    assert group.capacity == pytest.approx(one + F_T * duration(group) * net)


@pytest.mark.parametrize(
    ("part", "F_v", "t", "along"), [("C1", F_V, 3.0, RUN / LONG), ("P1", 165.0, 5.5, RISE / LONG)]
)
def test_part_along_the_grain_tears_the_row(part: str, F_v: float, t: float, along: float) -> None:
    """Of the brace's force the part along each grain: 24/43.27 in the beam, 36/43.27 in the post (statics)."""
    torn, whole = found(part, "row tear-out at K1"), found("K1", f"row tear-out at {part}")
    assert (torn.combination, torn.where) == (whole.combination, whole.where)
    assert torn.demand == pytest.approx(whole.demand * along, rel=1e-6)
    assert torn.capacity == pytest.approx(3 * F_v * duration(torn) * t * SPACING)


@pytest.mark.parametrize("force", ["compression", "tension"])
def test_shear_beside_bolts_at_mid_depth_less_than_five_depths_from_the_end(force: str) -> None:
    """Nearest bolt 18 11/16 + 24 + 5.625 x 24/36 - 2 11/16 = 43.75 in. from the end, under 5 x 11.25: (d_e/d)² of 1/4.

    Mid-depth: d_e is half of it, whichever edge is loaded.
    """
    shear = found("C1", f"shear at the bolts of K1, brace in {force}")
    assert 18.6875 + RUN + 5.625 * RUN / RISE - SPACING < 5 * 11.25
    assert shear.clause == "NDS 2018, 3.4.3.3(a)"
    assert shear.capacity == pytest.approx(2 / 3 * F_V * duration(shear) * 3 * 5.625 * 0.25)


def test_post_five_depths_below_its_top() -> None:
    """The highest bolt 36 - 2 11/16 = 33.3 in. below the top, over 5 x 5.5: 2/3 F'_v b d_e without the square."""
    shear = found("P1", "shear at the bolts of K1")
    assert shear.capacity == pytest.approx(2 / 3 * 165 * duration(shear) * 5.5 * 2.75)


def test_bolts_in_the_post_at_33_7_degrees() -> None:
    """NDS 2018, 12.3.1, 12.3.4, double shear, mode III_s: F_em by Hankinson, K_theta 1 + 0.25 x 33.7/90, wet 0.7."""
    D, l_m, l_s, F_yb = 0.625, 5.5, 1.5, 45_000.0
    theta = math.atan2(RUN, RISE)
    par, perp = 11_200 * 0.55, 6100 * 0.55**1.45 / math.sqrt(D)
    F_em = par * perp / (par * math.sin(theta) ** 2 + perp * math.cos(theta) ** 2)
    K = 1 + 0.25 * math.degrees(theta) / 90
    R_e = F_em / par
    k_3 = -1 + math.sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D**2 / (3 * F_em * l_s**2))
    modes = (
        D * l_m * F_em / (4 * K),
        2 * D * l_s * par / (4 * K),
        2 * k_3 * D * l_s * F_em / ((2 + R_e) * 3.2 * K),
        2 * D**2 / (3.2 * K) * math.sqrt(2 * F_em * F_yb / (3 * (1 + R_e))),
    )
    joint = found("K1", "brace connection at the post")
    C_g = group_action(3, 180_000 * D**1.5, SPACING, 1.2e6 * 5.5 * 5.5, 1.4e6 * 2 * 1.5 * 7.25)
    assert 0.98 < C_g < 1  # (NDS 2018, Table 11.3.6A: 0.97 to 1.00)
    assert joint.capacity == pytest.approx(3 * min(modes) * 0.7 * duration(joint) * C_g, rel=1e-6)


def group_action(n: int, gamma: float, s: float, EA_m: float, EA_s: float) -> float:
    """NDS 2018, 11.3.6: n bolts in a row, s apart; E A of the main member and of both side members together."""
    u = 1 + gamma * s / 2 * (1 / EA_m + 1 / EA_s)
    m = u - math.sqrt(u**2 - 1)
    R_EA = min(EA_s / EA_m, EA_m / EA_s)
    over = n * ((1 + R_EA * m**n) * (1 + m) - 1 + m ** (2 * n))
    return m * (1 - m ** (2 * n)) / over * (1 + R_EA) / (1 - m)


def test_two_of_three_holes_count_in_one_section_of_the_brace() -> None:
    """NDS 2018, 3.1.2.3: holes nearer than 4 x 5/8 = 2 1/2 in. along the brace; the first and the third are not."""
    tension = found("K1", "tension")
    assert SPACING * RISE / LONG < 2.5 < 2 * SPACING * RUN / LONG
    F_b, F_w = (argument(tension, "brace_tension", name) for name in ("F_b", "F_w"))
    more = next(
        (float(s.arguments["f_m"]) for s in tension.steps if s.formula.name == "demand_by_frame"), 1.0
    )
    assert tension.demand == pytest.approx(more * (F_b - F_w) / (3 * (7.25 - 2 * HOLE)))


def test_square_upper_end_above_the_beam() -> None:
    """Corner: (2 11/16 x 24/43.27 + 4.5) along and 3 5/8 in. across the brace from a bolt at mid-depth of 11 1/4 in."""
    along, half = SPACING * RUN / LONG + END, 3.625
    over = along * RISE / LONG + half * RUN / LONG - 5.625
    assert over == pytest.approx(1.370, abs=5e-4)
    assert found("K1", "upper end above C1").demand == pytest.approx(over)
