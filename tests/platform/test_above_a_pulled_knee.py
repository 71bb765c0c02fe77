"""Above a pulled knee a post bears what its cap does, more than at its foot: a beam on two posts, hinges and springs.

Lookout without guards' posts and ladder: C1, three 2x12 on posts 84 in. apart, loaded by S1 and S2 past them; knees of
45 degrees, 30 in. in from either post, are pulled as C1 hogs. They press C1 on the caps and lift the posts below.
"""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
from lookout_by_lever import LOOKOUT, WET, stringer

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results

# No sway and the least wind that a file may have: weight governs.
STILL = LOOKOUT.replace('sway_share = "10 %"', 'sway_share = "0 %"').replace("107 mph", "60 mph")
SPAN, KNEES, HIGH = 84.0, (30.0, 54.0), 60.0  # in
EI = 1.4e6 * 0.9 * 4.5 * 11.25**3 / 12  # Southern Pine No.2, wet (NDS 2018 Supplement, Table 4B)
POST_EI = 1.6e6 * 5.5**4 / 12  # 6x6 No.1 Dense (Table 4D)
LONG = math.hypot(30, 30)
PAST = {"S1": -36 - stringer("S1", 114), "S2": stringer("S2", 114) - 48}  # of the posts (in)
C1 = 4.5 * 11.25 * WET  # lb/in


@cache
def checks() -> dict[tuple[str, str], Check]:
    assert STILL.count("60 mph") == STILL.count('"0 %"') == 1
    return {(c.part, c.key): c for c in find_results(parse_project(STILL)).checks}


def sag(x: float, at: float) -> float:
    """Deflection of a simple beam at x from a pound at another place (in)."""
    near, far = min(x, at), SPAN - max(x, at)
    return near * far * (SPAN**2 - near**2 - far**2) / (6 * EI * SPAN)


def pulls(left: float, right: float, w: float = 0.0) -> np.ndarray:
    """Pull in both knees (lb): C1 hogs by moments at its posts (lb.in) and sags by w (lb/in) between them.

    Each knee gives along itself: two 2x6, 16 1/2 in2, two 5/8 in. bolts through both at either end, 180,000 D^1.5 a
    plane (NDS 2018, 11.3.6); its post is hinged at the cap and fixed 12 in. under grade, so that it gives least and the
    knees pull most: a cantilever of 72 in. pushed 42 in. up, less what the cap holds back; C1 gives under both at once.
    """
    ends = 4 * 180_000 * 0.625**1.5
    knee = LONG / (1.4e6 * 0.9 * 16.5) + 2 / ends
    tall, low = HIGH + 12, HIGH + 12 - 30
    tip = low**2 * (3 * tall - low) / 6  # of a free cantilever per pound at the knee, times EI
    post = (low**3 / 3 - tip**2 * 3 / tall**3) / POST_EI
    rises = [
        x * (SPAN - x) * (left * (2 * SPAN - x) + right * (SPAN + x)) / (6 * EI * SPAN)
        - w * x * (SPAN**3 - 2 * SPAN * x**2 + x**3) / (24 * EI)
        for x in KNEES
    ]
    gives = np.array([[sag(x, at) / 2 for at in KNEES] for x in KNEES]) + np.eye(2) * (post / 2 + knee)
    return np.linalg.solve(gives, np.array(rises) / math.sqrt(2))


def pressed(mark: str, F: np.ndarray) -> float:
    """What both knees pull C1 down on a cap."""
    shares = [1 - x / SPAN if mark == "P1" else x / SPAN for x in KNEES]
    return float(F @ shares) / math.sqrt(2)


def on_cap(mark: str, upper: str, tight: bool) -> float:
    """Load on a post's cap from a pound of S1 or S2 on C1: the lever rule, and the pull of the knees."""
    near = (mark == "P1") == (upper == "S1")
    bare = 1 + PAST[upper] / SPAN if near else -PAST[upper] / SPAN
    return bare + tight * pressed(mark, pulls(*((PAST["S1"], 0.0) if upper == "S1" else (0.0, PAST["S2"]))))


@cache
def cap_load(mark: str, tight: bool) -> float:
    """D + 0.75L + 0.75S on a cap (lb): 40 psf wherever it presses on it, 30 psf of snow on all."""
    on = {upper: on_cap(mark, upper, tight) for upper in PAST}
    middle = -54.6875 + 123.1875 / 2
    past = (-36 + 54.6875, 68.5 - 48)
    total = C1 * 123.1875 * ((48 - middle) if mark == "P1" else (middle + 36)) / SPAN
    if tight:
        total += pressed(mark, pulls(C1 * past[0] ** 2 / 2, C1 * past[1] ** 2 / 2, C1))

    def at(pounds: float, x: float, y: float) -> float:
        left, right = stringer("S1", y), stringer("S2", y)
        u = min(max((right - x) / (right - left), 0.0), 1.0)
        return pounds * (u * on["S1"] + (1 - u) * on["S2"]) * y / 114

    for y in 18 + 116 * (np.arange(200) + 0.5) / 200:
        left, wide = -24 - 34.25 * (y - 18) / 116, 50 + 82.75 * (y - 18) / 116
        strip = wide * 116 / 200
        total += at((1.5 * WET + (1 + 0.75 * 30) / 144) * strip, left + wide / 2, y)
        for k in range(50):
            total += max(at(0.75 * 40 / 144 * strip / 50, left + wide * (k + 0.5) / 50, y), 0.0)
    for y in range(20, 133, 16):  # 2x8, from axis to axis
        left, right = stringer("S1", y), stringer("S2", y)
        total += at(1.5 * 7.25 * WET * (right - left), (left + right) / 2, y)
    total += at(8 / 12 * 132.75, (74.5 - 58.25) / 2, 134)
    for upper, run in (("S1", 34.25), ("S2", 48.5)):
        length = math.hypot(stringer(upper, 133) - stringer(upper, -6), 139)
        total += on[upper] * (8 / 12 * math.hypot(run, 116) * 76 + 3 * 11.25 * WET * length * 63.5) / 114
    return total


@pytest.mark.parametrize("mark", ["P1", "P2"])
def test_pulled_knees_press_the_beam_on_the_cap(mark: str) -> None:
    """Bearing under C1, 4 1/2 x 5 1/2 in., by weight: on P1 1895 lb without its knees, 2310 lb with them."""
    without, tight = (checks()[mark, key] for key in ("post.end_bearing", "post.end_bearing_lateral"))
    assert without.combination == tight.combination == "D + 0.75L + 0.75S"
    assert without.demand * 24.75 == pytest.approx(cap_load(mark, False), rel=0.01)
    assert tight.demand * 24.75 == pytest.approx(cap_load(mark, True), rel=0.005)
    assert cap_load(mark, True) > 1.18 * cap_load(mark, False)


@pytest.mark.parametrize("mark", ["P1", "P2"])
def test_the_section_at_the_knee_bears_what_the_cap_does(mark: str) -> None:
    """One hole of 11/16 in. (NDS 2018, 3.1.2, 12.1.3.2); all of the post's weight counts with it, on the safe side."""
    section = checks()[mark, "post.net_section"]
    assert section.combination == "D + 0.75L + 0.75S"
    own = 5.5**2 * WET * (HIGH + 4 + 50)  # at most: 50 in. of it in the concrete, and the cut at its cap
    pounds = section.demand * (5.5**2 - 5.5 * 0.6875)
    assert 0.994 * cap_load(mark, True) < pounds < 1.006 * cap_load(mark, True) + own


@pytest.mark.parametrize("mark", ["P1", "P2"])
def test_thrust_and_bending_above_the_knee_by_15_4_1(mark: str) -> None:
    """NDS 2018, 15.4-1: moments at the knee, and what wind adds to the thrust, as printed; weight by the beam above.

    6x6 Southern Pine No.1 Dense, wet (Table 4D): F_c 975, F_b 1550, E_min 580,000 psi; C_D 1.6; K_e 2.1 on 72 in.; load
    1/2 in. off the axis; net moduli at one hole of 11/16 in. at mid-depth.
    """
    check = checks()[mark, "post.at_knee"]
    assert check.combination == "D + 0.75L + 0.75(0.6W) + 0.75S"
    steps = {s.formula.name: s for s in check.steps}
    load = steps["load_with_sway"].arguments
    own = 5.5**2 * WET * HIGH
    # above the knee or below it, where the post bears what it would without one: what wind adds decides
    weight = min((cap_load(mark, True), cap_load(mark, False)), key=lambda P: abs(P + own - float(load["R"])))
    assert weight + own == pytest.approx(float(load["R"]), rel=0.01)
    f_c = (weight + own + float(load["R_o"]) + float(load["R_k"])) / 5.5**2
    M_2, M_1 = (float(s.arguments["M"]) for s in check.steps if s.formula.name == "bending_stress")
    hole = 0.6875
    S_2 = (
        (5.5**3 - hole**3) * 5.5 / 12 / 2.75
    )  # the bolts' axis is that of the moment: the hole is at mid-depth
    S_1 = (5.5 - hole) * 5.5**2 / 6
    F_c, F_b, F_cE = 975 * 1.6, 1550 * 1.6, 0.822 * 580_000 / (2.1 * 72 / 5.5) ** 2
    half = (1 + F_cE / F_c) / 1.6
    C_P = half - math.sqrt(half**2 - F_cE / F_c / 0.8)
    off = f_c * 6 * 0.5 / 5.5
    edgewise = (M_1 / S_1 + off * (1 + 0.234 * f_c / F_cE)) / (F_b * (1 - f_c / F_cE))
    ratio = (f_c / (F_c * C_P)) ** 2 + edgewise + M_2 / S_2 / (F_b * (1 - f_c / F_cE))
    frame = float(steps["demand_by_frame"].arguments["f_m"]) if "demand_by_frame" in steps else 1.0
    assert 1 <= frame < 1.01
    assert check.ratio == pytest.approx(frame * ratio, rel=4e-3)
