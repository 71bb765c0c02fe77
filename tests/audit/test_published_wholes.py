"""Published examples carried from a project file to its ratios: a deck's joists, and a chain from beam to footing.

1. AWC DCA 6 (2012), Table 2: Southern Pine No.2, wet, 2x8 at 16 in., 40 + 10 psf: 11 ft 10 in., reproduced by
   w = 66.67 plf, F_b' = 1063.75 psi, allowed M = 13978 lb in., l = 141.9 in.
2. IRC 2021, Table R507.4 (4x4 Southern Pine post, 60 sq ft of a deck of 40 psf: 11 ft 0 in. high, reproduced within
   1 in. by its own basis: No.2, wet, K = 1, c = 0.8, 50 psf x area) and IRC 2018, Table R507.3.1 (60 sq ft, 1500 psf:
   17 in. square), one post of a deck of four.
3. Village of Howard, deck guideline: 5 x 10 ft of deck on a footing, 50 psf, soil of 3000 psf: 2500 lb, 0.83 sq ft,
   11 in. square.
"""

from __future__ import annotations

from functools import cache
from math import sqrt

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.results.results import Results, find_results

SPAN = 141.9  # in, middle to middle of the beams
WET = 62.4 * 0.55 / (1 + 0.55 * 0.009 * 28) * 1.28  # pcf, NDS Supplement 2018, 3.1.3: G 0.55, 28 %
JOIST_PLF = WET * 1.5 * 7.25 / 144
BEAM_PLF = WET * 3 * 1.5 * 11.25 / 144


def deck(area: float, boards: float, *, height: float = 40.0, soil: float = 1500.0, pad: float = 17.0) -> str:
    """A deck on two beams and four posts, each with ``area`` (sq ft) of it; ``boards`` psf, ``height`` of the posts."""
    length = round(4 * area * 144 / SPAN, 4)
    floor = height + 11.25 + 7.25 + 1.0
    timber = 'species = "Southern Pine"\ngrade = "No.2"\nwet = true\nincised = false\n'
    posts = "".join(
        f'[[support]]\nmark = "P{k}"\nkind = "post"\npost = "P"\nfooting = "F"\nat = ["{x} in", "{y} in"]\n'
        for k, (x, y) in enumerate(((0.0, 0.0), (length, 0.0), (0.0, SPAN), (length, SPAN)), 1)
    )
    beams = "".join(
        f'[[beam]]\nmark = "C{k}"\nplies = 3\nsection = "2x12"\n{timber}from = ["0 in", "{y} in"]\n'
        f'to = ["{length} in", "{y} in"]\n'
        for k, y in enumerate((0.0, SPAN), 1)
    )
    return f"""format = 2
[title]
project = "Published deck"
date = 2026-11-28
[site]
frost_depth = "12 in"
soil = "class 4"
soil_bearing = "{soil} psf"
ground_snow = "0 psf"
wind_speed = "107 mph"
exposure = "B"
[loads]
live = "40 psf"
hardware = "0 psf"
person = "0 lb"
[platform]
outline = [["0 in", "0 in"], ["{length} in", "0 in"], ["{length} in", "{SPAN} in"], ["0 in", "{SPAN} in"]]
floor_height = "{floor} in"
[decking]
section = "5/4x6"
span_limit = "16 in"
span_load = "100 psf"
span_note = "so that the boards do not count"
weight = "{boards:.6f} psf"
[post.P]
section = "4x4"
K_e = 1.0
eccentricity = "0 in"
{timber}
[footing.F]
shape = "square"
width = "{pad} in"
depth = "20 in"
pad = "8 in"
{posts}{beams}
[[joists]]
mark = "J"
section = "2x8"
direction = "90 deg"
first = "{-length + 1:.4f} in"
last = "-1 in"
spacing = "16 in"
bearing = "resting"
{timber}"""


@cache
def results(area: float, boards: float, **sizes: float) -> Results:
    return find_results(parse_project(deck(area, boards, **sizes)))


def check(found: Results, key: str, part: str):
    return next(c for c in found.checks if (c.key, c.part) == (key, part))


def argument(found, name: str, step: str) -> float:
    return next(s.arguments[name] for s in found.steps if s.formula.name == step)


def test_dca6_joist() -> None:
    """Boards so heavy that a joist's strip weighs 10 psf with it; a joist in the middle of the deck, all of L on it."""
    found = results(60.0, 10 - JOIST_PLF / (16 / 12))
    bent = check(found, "joist.bending", "J6")
    assert bent.combination == "D + L"
    M, S = argument(bent, "M", "bending_stress"), argument(bent, "S", "bending_stress")
    assert pytest.approx(66.67, abs=0.005) == 8 * M / SPAN**2 * 12
    assert bent.capacity == pytest.approx(1063.75, abs=0.005)
    assert bent.capacity * S == pytest.approx(13978, abs=0.5)  # the printed moment is the greatest allowed
    assert SPAN * sqrt(bent.capacity * S / M) == pytest.approx(141.9, abs=0.05)
    assert bent.ratio == pytest.approx(1.000, abs=2 * 0.05 / SPAN)
    # 142 in. in the table is 141.9 rounded: bending governs there, not the deflection of l / 360
    assert check(found, "joist.live_deflection", "J6").ratio < 1


def own_share(area: float) -> float:
    """Psf of deck that joists and beams weigh: the published 10 psf hold all of them."""
    length = 4 * area * 144 / SPAN / 12
    count = 1 + -(-(length * 12 - 2) // 16)
    return (count * JOIST_PLF * SPAN / 12 + 2 * BEAM_PLF * length) / (4 * area)


def mean_load(found: Results) -> float:
    """D + L of a post, mean of four alike but for the joists' places."""
    balance = found.path.balance()
    return sum(balance[kind][1] for kind in ("D", "L")) / 4


def test_irc_post_and_footing() -> None:
    """3000 lb on a post: its greatest height and its footing, each less its own weight, which the tables leave out."""
    boards = 10 - own_share(60.0)
    load = mean_load(results(60.0, boards))
    assert load == pytest.approx(3000, abs=0.5)
    for height, stands in (
        (132 - 12.0, True),
        (132 + 3.0 - 12, False),
    ):  # the program adds 12 in. below grade
        found = results(60.0, boards, height=height)
        buckles = check(found, "post.buckling", "P1")
        own = WET * 3.5**2 / 144 * height / 12
        part = argument(buckles, "P", "compression_stress") - own
        assert part == pytest.approx(3000, rel=0.005)  # joists stand a little nearer to one end
        assert buckles.capacity == pytest.approx(fc_allowed(height + 12), rel=1e-6)
        assert (part / 3.5**2 <= buckles.capacity) == stands
    # 3000 / 1500 = 2.0 sq ft: 16.97 in., in the table 17; weight of concrete and post beside it
    found = results(60.0, boards, soil=1500.0, pad=17.0)
    pressed = check(found, "footing.soil", "P1")
    P, W, A = (argument(pressed, name, "soil_pressure_gross") for name in ("P", "W_f", "A"))
    assert pytest.approx(17, abs=0.5) == 12 * sqrt(3000 / 1500)
    assert pytest.approx(17**2 / 144) == A
    assert pytest.approx((P + W) / A) == pressed.demand
    own = WET * 3.5**2 / 144 * 40 / 12
    assert (P - own) / A == pytest.approx(3000 / A, rel=0.005)
    assert (P - own) / A <= pressed.capacity == 1500


def fc_allowed(length: float) -> float:
    """F_c' of a 4x4 No.2, wet, by NDS 2018, 3.7.1: F_c 1450 x 0.8, E_min 510000 x 0.9, K = 1, C_D = 1."""
    star = 1450 * 0.8
    a = 0.822 * 510000 * 0.9 / (length / 3.5) ** 2 / star
    return star * ((1 + a) / 1.6 - sqrt(((1 + a) / 1.6) ** 2 - a / 0.8))


def test_village_guideline_footing() -> None:
    """50 sq ft x 50 psf = 2500 lb; / 3000 psf = 0.83 sq ft: 10.95 in., 11 in. square."""
    boards = 10 - own_share(50.0)
    found = results(50.0, boards, soil=3000.0, pad=11.0)
    assert mean_load(found) == pytest.approx(2500, abs=0.5)
    pressed = check(found, "footing.soil", "P1")
    A = argument(pressed, "A", "soil_pressure_gross")
    assert mean_load(found) / 3000 == pytest.approx(0.83, abs=0.005)
    assert mean_load(found) / 3000 <= A == pytest.approx(121 / 144)
    # The guideline leaves the footing's own weight out; the program counts it and asks for more than 11 in.
    assert pressed.ratio > mean_load(found) / A / 3000
