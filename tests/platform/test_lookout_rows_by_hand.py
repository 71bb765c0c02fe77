"""Rows of the lookout that no other test works by hand: rails, board ends, concrete, the post in the ground, the trunk.

Numbers from the project file and the clause; what wind and sway bring is as printed.
"""

from __future__ import annotations

import tomllib
from functools import cache
from math import hypot, pi, sqrt

import pytest
from durations import load_duration

from audit.quantities import read
from bolewright.paths import shipped
from bolewright.platform.file.reading import read_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results

WET = (
    62.4 * 0.55 / (1 + 0.009 * 0.55 * 28) * 1.28 / 1728
)  # lb/in3: Southern Pine (NDS Supplement 2018, 3.1.3)


@cache
def checks() -> tuple[Check, ...]:
    return find_results(read_project(shipped("calcsheets") / "lookout.toml")).checks


def row(part: str, key: str) -> Check:
    (found,) = [c for c in checks() if (c.part, c.key) == (part, key)]
    return found


@pytest.mark.parametrize(
    ("part", "span"),
    [
        ("GB on edge 2", 52.25 - 3.0),
        ("GC on edge 4", 34.625 - 3.0),
        ("GC on edge 4, part 2", 115.5 - 68.0),  # past the gate
    ],
)
def test_rails_of_a_guard_take_200_lb_at_mid_span(part: str, span: float) -> None:
    """IRC 2021, Table R301.5: 200 lb in any direction; P l/4 between the posts of the file's places, C_D 1.6.

    Outward the 2x6 cap lying flat, F_b 1000 psi; down the 2x4 on edge, F_b 1100 psi (NDS Supplement 2018, Table 4B).
    """
    M = 200 * span / 4
    for key, S, F_b in (("rail_outward", 1.5 * 5.5**2 / 6, 1000), ("rail_down", 1.5 * 3.5**2 / 6, 1100)):
        assert row(part, f"guard.{key}").ratio == pytest.approx(M / S / (F_b * 1.6), rel=1e-6)


def test_one_person_on_the_end_of_a_board() -> None:
    """At the corner by the trunk the deck ends 1.6 in. square past S1's axis: 300 lb there, and the board's own weight.

    2x6 flat, S 2.0625 in3, C_fu 1.15, F_b 1000 psi; S1 runs 41 1/16 in. across in 139 along; corner at -24 3/8, 19 1/4.
    """
    slope = (56.3125 - 15.25) / 139
    past = (24.375 - (15.25 + slope * (19.25 + 6))) / hypot(1, slope)
    w = (1.5 * WET + 1 / 144) * 5.5
    check = row("decking", "decking.end_bending")
    assert check.combination == "D + one person"
    stress = (300 * past + w * past**2 / 2) / (5.5 * 1.5**2 / 6)
    assert check.ratio == pytest.approx(stress / (1000 * 1.15), rel=1e-5)


@pytest.mark.parametrize("mark", ["P1", "P2"])
def test_plain_concrete_under_the_post(mark: str) -> None:
    """ACI 318-19, 14.5: pad 10 in., 8 in. of it counted on soil (14.5.1.7); f'c 2500 psi, phi 0.6; post 5 1/2 in.

    A 24 in. circle as a square of the same area, B 21.27 in. Moment at the post's face 5 sqrt(f'c) B h²/6; punching
    half an h off the face, 8/3 sqrt(f'c) b_o h (14.5.5.1). Both by one pressure: that of the bending's demand.
    """
    B, c, h, root = sqrt(pi) * 12, 5.5, 8.0, sqrt(2500)
    bending, punching = row(mark, "footing.concrete_bending"), row(mark, "footing.concrete_punching")
    assert bending.capacity == pytest.approx(0.6 * 5 * root * B * h**2 / 6, rel=1e-6)
    assert punching.capacity == pytest.approx(0.6 * 8 / 3 * root * 4 * (c + h) * h, rel=1e-6)
    q = bending.demand / (B * ((B - c) / 2) ** 2 / 2)
    assert punching.demand == pytest.approx(q * (B**2 - (c + h) ** 2), rel=1e-6)
    # 1.6 of what the soil gets as D + L, less than 1.6 of it, since D counts 1.2 (5.3.1b), and some snow
    on_soil = row(mark, "footing.soil").demand * pi - 144 * 62 / 12 * pi
    assert 1.2 * on_soil < q * B**2 < 1.75 * on_soil


def pole(P: float, h: float, d: float) -> float:
    """Greatest shear in a stiff pole pushed by P at h over ground that resists as its depth and as it moves (lb).

    Pressure a x - b x² to depth d: forces a d²/2 - b d³/3 = P, moments about grade a d³/3 - b d^4/4 = -P h; the
    shear below is P less the pressure down to where it changes sign (IBC 1807.3 has its formula from the same).
    """
    b = (P * d / 1.5 + P * h) / (d**4 / 4 - 2 / 9 * d**4)
    a = (P + b * d**3 / 3) / (d**2 / 2)
    x = a / b
    return max(P, abs(P - (a * x**2 / 2 - b * x**3 / 3)))


def test_the_pole_by_numbers() -> None:
    """166.56 lb at 5.94 ft over 5 ft of ground: 460 lb below, 2.76 times the push."""
    assert pole(166.56, 5.9375, 5.0) == pytest.approx(459.9, abs=0.2)


@pytest.mark.parametrize("mark", ["P1", "P2"])
def test_shear_of_the_post_in_the_ground(mark: str) -> None:
    """6x6 (Table 4D: F_v 165 psi): 1.5 V/A, V of both directions by the pole above; pushes and heights as printed."""
    check = row(mark, "post.shear_below")
    both = [
        pole(*(float(s.arguments[name]) for name in ("P", "h", "d")))
        for s in check.steps
        if s.formula.name == "post_shear_below_grade"
    ]
    assert len(both) == 2
    frame = next((float(s.arguments["f_m"]) for s in check.steps if s.formula.name == "demand_by_frame"), 1.0)
    assert 1 <= frame < 1.02
    allowed = 165 * load_duration(check.combination)
    assert check.ratio == pytest.approx(frame * 1.5 * hypot(*both) / 5.5**2 / allowed, rel=1e-4)


@pytest.mark.parametrize("mark", ["P1", "P2"])
def test_a_lifted_post_is_drawn_at_its_bolts_by_what_its_foot_is(mark: str) -> None:
    """One hole of 11/16 in. through 5 1/2; F_t 1050 psi (6x6 No.1 Dense, Table 4D)."""
    drawn, foot = row(mark, "post.net_tension"), row(mark, "post.foot_uplift")
    assert (drawn.combination, drawn.where) == (foot.combination, foot.where)
    assert drawn.demand * (5.5**2 - 5.5 * 0.6875) == pytest.approx(foot.demand, rel=1e-6)
    assert drawn.capacity == pytest.approx(1050 * load_duration(drawn.combination), rel=1e-6)


def test_wood_between_the_tips_of_two_bolts() -> None:
    """Bolts from both sides of the trunk, 7 in. in: 2 x (r - 7) between their tips, r under 1 in. of bark of 75 3/8."""
    r = 75.375 / (2 * pi) - 1
    text = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
    D = read(tomllib.loads(text)["bolt"]["main"]["diameter"])
    assert row("T1", "tree_bolt.tips").ratio == pytest.approx(2 * D / (2 * (r - 7)), rel=1e-6)


def test_the_trunk_in_the_wind_of_its_own_crown() -> None:
    """320 ft2 of crown, its centre at 36 ft, C 0.3; 0.6 W: 107 mph times sqrt(0.6). A trunk of 22 in. under its bark.

    Green bur oak (Wood Handbook, Table 5-3b): 7200 psi in bending, 5 % exclusion with V 0.16 (ASTM D2555), over 2.3
    (ASTM D245, hardwood), (2/d)^(1/9) for depth, C_D 1.6. The crown makes nine tenths of the stress.
    """
    d = 2 * (75.375 / (2 * pi) - 1)
    crown = 0.00256 * 0.6 * 107**2 * 0.3 * 320 * 36 * 12
    check = row("OAK", "tree.trunk_wind")
    assert check.combination == "D + 0.6W"
    allowed = 7200 * (1 - 1.645 * 0.16) / 2.3 * (2 / d) ** (1 / 9) * 1.6
    assert check.capacity == pytest.approx(allowed, rel=1e-5)
    S, A = pi * d**3 / 32, pi * d**2 / 4
    printed = next(s.arguments for s in check.steps if s.formula.name == "platform_trunk_moment")
    P, a, H, z = (float(printed[name]) for name in ("P", "a", "H", "z"))
    assert z == pytest.approx(84 - 1.5 - 11.25)  # the bolts' bearing under decking and beam
    stress = (crown + P * a + H * z) / S + P / A
    assert check.demand == pytest.approx(stress, rel=0.004)  # by the frame model up to that much more
    assert crown / S > 0.9 * check.demand


@pytest.mark.parametrize("mark", ["P1", "P2"])
def test_a_post_in_62_inches_of_concrete_holds_in_the_soil(mark: str) -> None:
    """IBC 2021, 1807.3.2.1: d = A/2 (1 + sqrt(1 + 4.36 h/A)), A = 2.34 P/(S_1 b); for P: d² S_1 b/2.34/(d + 1.09 h).

    Class 4: 150 psf per foot (Table 1806.2), S_1 at a third of 62 in.; concrete 2 ft wide. Forces at the head as
    printed, with what all knees push there: what pushes along the knees, with the part of a pulled knee that comes to a
    base fixed 12 in. under grade (propped cantilever of 72 in. pushed 37 in. over its base, AISC Manual, Table 3-23),
    and across on 71 1/4 in.
    """
    check = row(mark, "footing.embedment")
    steps = {s.formula.name: s for s in check.steps}
    F_w = abs(float(steps["brace_force_from_weight"].result))
    along, across = (
        abs(float(s.result))
        for s in check.steps
        if s.formula.name in ("with_more_by_knees", "with_brace_compression")
    )
    p = F_w * 30 / hypot(30, 35)
    top = p * 37**2 * (3 * 72 - 37) / (2 * 72**3)
    along += p - top
    M_along = float(steps["post_moment_at_grade"].result) + abs(p * 25 - top * 60)
    M, d = hypot(M_along, across * 71.25) / 12, 62 / 12
    P, S_1, b = hypot(along, across), 150 * d / 3, 2.0
    frame = float(steps["demand_by_frame"].arguments["f_m"]) if "demand_by_frame" in steps else 1.0
    assert 1 <= frame < 1.05
    assert check.demand == pytest.approx(P * frame, rel=1e-6)
    allowed = d**2 * S_1 * b / 2.34 / (d + 1.09 * M / P)
    A = 2.34 * allowed / (S_1 * b)
    assert A / 2 * (1 + sqrt(1 + 4.36 * M / P / A)) == pytest.approx(d)  # the clause's own equation
    assert check.capacity == pytest.approx(allowed, rel=1e-6)
