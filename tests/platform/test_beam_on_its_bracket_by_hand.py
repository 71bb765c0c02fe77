"""A beam held in a tree bolt's bracket by bolts through it, by hand: what their holes leave, how high they may stand.

C1, three 2x12, hangs 48 in. past its bracket; joists every 6 in. rest on it, so weight bends it over the bracket by
statics alone. NDS 2018: 3.1.2 net section, 3.9.1 bending with tension, 12.1.3.2 holes, Table 12.5.1C and 3.8.2 load
hung below the middle of a beam.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from plate_on_springs import Spring, cantilever, shared, tree_bolt

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results
from bolewright.status import Status

TEXT = """
format = 2
[title]
project = "Bolts in a bracket by hand"
date = 2026-12-01
note = "Invented for a test"
[site]
frost_depth = "36 in"
soil = "class 4"
ground_snow = "0 psf"
wind_speed = "{wind}"
exposure = "B"
[loads]
live = "60 psf"
sway_share = "{sway}"
hardware = "1 psf"
guard = "8 plf"
guard_edges = [1, 2, 3, 4]
[platform]
outline = [["-6 in", "20 in"], ["126 in", "20 in"], ["126 in", "119 in"], ["-6 in", "119 in"]]
floor_height = "60 in"
[decking]
section = "2x6"
species = "Southern Pine"
grade = "No.2"
[[tree]]
mark = "OAK"
species = "white oak"
at = ["40 in", "0 in"]
diameter = "24 in"
bark = "3/4 in"
height = "60 ft"
sway_seen = "0 in"
sway_seen_at = "5 ft"
[bolt.main]
diameter = "1 1/2 in"
embedment = "7 in"
F_y = "36 ksi"
F_u = "58 ksi"
seat_length = "3 in"
rated_load = "4000 lb"
rated_lateral = "9000 lb"
rated_note = "Invented"
beam_bolts = 2
beam_bolt_diameter = "1/2 in"
beam_bolt_height = "{up}"
[post.P]
section = "6x6"
species = "Southern Pine"
grade = "No.2"
incised = false
base = "fixed"
cap_lateral = "3000 lb"
[footing.F]
shape = "round"
width = "24 in"
depth = "48 in"
pad = "10 in"
[[support]]
mark = "T"
kind = "tree bolt"
tree = "OAK"
bolt = "main"
lateral = "tied"
at = ["40 in", "17 in"]
[[support]]
mark = "P1"
kind = "post"
post = "P"
footing = "F"
at = ["0 in", "113 in"]
[[support]]
mark = "P2"
kind = "post"
post = "P"
footing = "F"
at = ["120 in", "113 in"]
[[support]]
mark = "P3"
kind = "post"
post = "P"
footing = "F"
at = ["120 in", "17 in"]
[[beam]]
mark = "C1"
plies = 3
section = "2x12"
species = "Southern Pine"
grade = "No.2"
from = ["-8 in", "17 in"]
to = ["128 in", "17 in"]
[[beam]]
mark = "C2"
plies = 3
section = "2x12"
species = "Southern Pine"
grade = "No.2"
from = ["-8 in", "113 in"]
to = ["128 in", "113 in"]
[[joists]]
mark = "J"
section = "2x8"
species = "Southern Pine"
grade = "No.2"
direction = "90 deg"
first = "-126 in"
last = "6 in"
spacing = "6 in"
bearing = "resting"
"""
STILL, WINDY = ("60 mph", "0 %"), ("107 mph", "10 %")
WET = 62.4 * 0.55 / (1 + 0.009 * 0.55 * 28) * 1.28 / 1728  # lb/in3 at 28 % (NDS 2018 Supplement, 3.1.3)
JOISTS = np.arange(-6.0, 127.0, 6.0)
SEAT, LEVEL, FLOOR = 40.0, 60 - 1.5 - 7.25 - 11.25, 60.0
B, D_BEAM, HOLE = 4.5, 11.25, 1 / 2 + 1 / 16
F_B, F_T = 750.0, 450.0  # psi: Southern Pine No.2 2x12 (NDS 2018 Supplement, Table 4B); wet 1.0: F_b is low
OAK, POST = 1.25e6, 1.2e6  # psi: white oak, green (FPL-GTR-282, Table 5-3b); 6x6 No.2 (Table 4D)


@cache
def results(wind: str, sway: str, up: str) -> Results:
    return find_results(parse_project(TEXT.format(wind=wind, sway=sway, up=up)))


def row(way: tuple[str, str], up: str, key: str) -> Check:
    found = [c for c in results(*way, up).checks if (c.part, c.key) == ("C1", key)]
    assert len(found) == 1
    return found[0]


def net_modulus(up: float) -> float:
    """What one hole so high leaves of 4 1/2 x 11 1/4: two pieces about their common axis (in3)."""
    pieces = [(0.0, up - HOLE / 2), (up + HOLE / 2, D_BEAM)]
    sizes = np.array([b - a for a, b in pieces])
    middles = np.array([(a + b) / 2 for a, b in pieces])
    axis = float(sizes @ middles / sizes.sum())
    I = B * float((sizes**3 / 12 + sizes * (middles - axis) ** 2).sum())
    return I / max(axis, D_BEAM - axis)


def moments() -> tuple[float, float]:
    """Of dead load and of people on all that hangs past the bracket (lb in): C2 bears the rest of each joist."""
    left = JOISTS[JOISTS < SEAT]
    wide = np.where(left == left[0], 3.0, 6.0)
    lever, less = 93**2 / 2 / 96, 6**2 / 2 / 96  # from 20 in. to C2; what is past C2 lifts C1
    dead = wide * (1.5 * WET + 1 / 144) * (lever - less) + 1.5 * 7.25 * WET * (lever - less)
    dead += wide * 8 / 12 * (93 - 6) / 96
    dead[0] += 8 / 12 * (lever - less)
    own = B * D_BEAM * WET * 48**2 / 2
    return float(dead @ (SEAT - left) + own), float(wide @ (SEAT - left) * 60 / 144 * lever)


@pytest.mark.parametrize("up", [5.625, 6.0, 8.0, 9.5])
def test_people_past_the_bracket_bend_what_the_hole_leaves(up: float) -> None:
    """By weight alone: the moment over the bracket; C_r is not counted there, so 750 psi."""
    check = row(STILL, f"{up:g} in", "beam.bending_at_bolts")
    assert check.combination == "D + L"
    wanted = sum(moments()) / net_modulus(up) / F_B
    assert 0.999 * wanted < check.ratio < 1.01 * wanted


def test_a_hole_high_up_costs_more_than_one_at_the_middle() -> None:
    """A row by the hole at mid-depth would pass the test above at 5 5/8 and 6 in., but not higher up."""
    assert net_modulus(9.5) < 0.9 * net_modulus(5.625)
    assert net_modulus(5.625) == pytest.approx(B * (D_BEAM**3 - HOLE**3) / 12 / (D_BEAM / 2))


def on_the_bolt(load: np.ndarray) -> np.ndarray:
    """Greatest lateral force on T in every case (lb), over both ends of the wood's bed and both kinds of base."""
    most = np.zeros(load.shape[1])
    for kappa in (5.0, 20.0):
        for foot in (1.0, 0.5):
            k = [foot * cantilever(POST, 5.5**4 / 12, LEVEL + 12, d) for d in (0.0, 11.25)]
            places = ((0.0, 113.0), (120.0, 113.0), (120.0, 17.0))
            own = [Spring(at, (1.0, 0.0), (k[0], k[1])) for at in places]
            T = {"r": 11.25, "E": OAK, "D": 1.5, "L": 7.0, "level": LEVEL, "kappa": kappa}
            own.append(tree_bolt((SEAT, 17.0), (SEAT, 0.0), **T))
            force, _ = shared(own, load)
            most = np.maximum(most, np.hypot(*force[-1]))
    return most


def test_bending_and_the_pull_of_the_bracket_together() -> None:
    """NDS 2018, 3.9-1: f_t/F_t' + f_b/F_b*, the lateral force on the net area, each case with its own C_D.

    No less than with the moment of weight alone; no more than with what wind and people 20 in. above the bracket add to
    it where their overturning is spread over the deck as over a stiff plate.
    """
    cases = results(*WINDY, "6 in").lateral.cases
    dead, live = moments()
    M = cases.D * dead + cases.L * live
    X, Y = np.meshgrid(np.arange(-5.5, 126), np.arange(20.5, 119))
    hung = np.where(X < SEAT, SEAT - X, 0.0) * (113 - Y) / 96
    over = cases.load[:2] * (FLOOR - LEVEL)
    added = abs(over[0] * (hung * (X - 60)).sum() / ((X - 60) ** 2).sum())
    added += abs(over[1] * (hung * (Y - 69.5)).sum() / ((Y - 69.5) ** 2).sum())
    pulled = on_the_bolt(cases.load) / (B * (D_BEAM - HOLE)) / (F_T * cases.C_D)
    least, most = (float((m / net_modulus(6.0) / (F_B * cases.C_D) + pulled).max()) for m in (M, M + added))
    check = row(WINDY, "6 in", "beam.bending_at_bolts")
    assert least > 1.05 * (dead + live) / net_modulus(6.0) / F_B
    assert least < check.ratio < 1.01 * most


def test_the_pull_in_the_row_is_the_brackets_of_its_case() -> None:
    check = row(WINDY, "6 in", "beam.bending_at_bolts")
    T = next(float(s.arguments["T"]) for s in check.steps if s.formula.name == "tension_stress")
    cases = results(*WINDY, "6 in").lateral.cases
    assert pytest.approx(on_the_bolt(cases.load)[check.index[1]], rel=0.01) == T


@pytest.mark.parametrize(
    ("up", "passes"), [("4 in", False), ("5 1/2 in", False), ("5 5/8 in", True), ("8 in", True)]
)
def test_bolts_below_the_middle(up: str, passes: bool) -> None:
    """Half of 11 1/4 in.: what holds a beam down from below its middle splits it across the grain."""
    check = row(STILL, up, "beam.bolts_below_middle")
    assert check.demand == pytest.approx(5.625)
    assert check.status is (Status.PASSES if passes else Status.FAILS)


@pytest.mark.parametrize("up", [2.5, 4.0, 6.0])
def test_shear_of_the_wood_under_lifted_bolts(up: float) -> None:
    """NDS 2018, 3.4.3.3(a): 2/3 F_v' b d_e (d_e/d)2, bolts near the end; 200 lb at least, C_D 0.9 with D alone.

    T stands 48 in. from C1's end, less than five depths of 11 1/4; F_v 175 psi, wet 0.97 (Table 4B).
    """
    check = row(STILL, f"{up:g} in", "beam.shear_at_bolts")
    assert check.demand >= 200
    assert check.combination == "D"
    assert check.capacity == pytest.approx(2 / 3 * 175 * 0.97 * 0.9 * B * up * (up / D_BEAM) ** 2, rel=1e-6)
