"""A lone knee under weight pushes its beam along itself, and with it the tree bolt: a plane frame, a plate on springs.

C1 lies on a tree bolt and on a post with one knee. Weight bends C1 and presses the knee, which pushes C1 from the post
and the post the other way, and the cap holds back what it can. What is left is the push on the post's base: a platform
that did not move would have to hold it. It moves, and all that stand laterally share that push as they share wind.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from plane_frame import Bar, PlaneFrame, Solved
from plate_on_springs import Spring, cantilever, shared, tree_bolt

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results

TEXT = """
format = 2
[title]
project = "A lone knee"
date = 2026-12-01
note = "Invented for a test"
[site]
frost_depth = "36 in"
soil = "class 4"
ground_snow = "0 psf"
wind_speed = "{wind}"
exposure = "B"
[loads]
live = "100 psf"
sway_share = "{sway}"
hardware = "1 psf"
guard = "8 plf"
guard_solidity = {solid}
guard_edges = [1, 2, 3, 4]
[platform]
outline = [["-6 in", "20 in"], ["126 in", "20 in"], ["126 in", "119 in"], ["-6 in", "119 in"]]
floor_height = "80 in"
[decking]
section = "2x6"
species = "Southern Pine"
grade = "No.2"
[[tree]]
mark = "OAK"
species = "white oak"
at = ["0 in", "0 in"]
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
depth = "60 in"
pad = "10 in"
fill = "concrete"
f_c = "2500 psi"
[[support]]
mark = "T"
kind = "tree bolt"
tree = "OAK"
bolt = "main"
lateral = "tied"
at = ["0 in", "17 in"]
[[support]]
mark = "P"
kind = "post"
post = "P"
footing = "F"
at = ["120 in", "17 in"]
[[support]]
mark = "Q1"
kind = "post"
post = "P"
footing = "F"
at = ["0 in", "113 in"]
[[support]]
mark = "Q2"
kind = "post"
post = "P"
footing = "F"
at = ["120 in", "113 in"]
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
[[brace]]
mark = "K"
support = "P"
beam = "C1"
towards = "start"
rise = "25 in"
run = "28 in"
plies = 2
section = "2x6"
species = "Southern Pine"
grade = "No.2"
bolts = 2
bolt_diameter = "5/8 in"
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
STILL, WINDY = ("60 mph", "0 %", "0.1"), ("107 mph", "10 %", "0.5")
HIGH, BELOW, RISE, RUN = 80 - 1.5 - 7.25 - 11.25, 12.0, 25.0, 28.0
AT, TOP = 120.0, 92.0
JOISTS = np.arange(-6.0, 127.0, 6.0)
WET = 62.4 * 0.55 / (1 + 0.009 * 0.55 * 28) * 1.28 / 1728  # lb/in3 at 28 % (NDS 2018 Supplement, 3.1.3)
BEAM = 1.4e6 * 0.9 * 4.5 * 11.25**3 / 12  # Southern Pine No.2 2x12, wet (Supplement, Table 4B)
POST = 1.2e6  # 6x6 No.2 (Table 4D, C_M 1.0)
INERTIA, STRETCH = 5.5**4 / 12, 1e12
OAK = 1.25e6  # white oak, green (FPL-GTR-282, Table 5-3b)


@cache
def results(way: tuple[str, str, str]) -> Results:
    wind, sway, solid = way
    return find_results(parse_project(TEXT.format(wind=wind, sway=sway, solid=solid)))


def row(way: tuple[str, str, str], part: str, key: str) -> Check:
    return next(c for c in results(way).checks if (c.part, c.key) == (part, key))


PLACES = sorted({-8.0, 128.0, *JOISTS, 0.0, AT, TOP})


@cache
def solve(held: bool, pushed: bool = False) -> Solved:
    """C1, its post and its knee, by a pound down at each place, or ``pushed`` along C1 that is free to move.

    The base is fixed 12 in. below grade or hinged at it.
    """
    nodes = {f"{x:g}": (x, HIGH) for x in PLACES}
    bars = {
        f"{a:g}": Bar(f"{a:g}", f"{b:g}", BEAM, STRETCH) for a, b in zip(PLACES, PLACES[1:], strict=False)
    }
    nodes |= {"foot": (AT, -BELOW if held else 0.0), "at knee": (AT, HIGH - RISE)}
    bars["low"] = Bar("foot", "at knee", POST * INERTIA, STRETCH)
    bars["high"] = Bar("at knee", f"{AT:g}", POST * INERTIA, STRETCH, (f"{AT:g}",))
    slope = float(np.hypot(RISE, RUN))
    ends = 4 * 180_000 * 0.625**1.5  # two bolts through two plies: 180,000 D^1.5 a plane (NDS 2018, 11.3.6)
    bars["knee"] = Bar("at knee", f"{TOP:g}", 0.0, slope / (slope / (1.4e6 * 0.9 * 16.5) + 2 / ends))
    fixed = [("foot", 0), ("foot", 1), ("0", 1)]
    fixed += [("foot", 2)] if held else []
    fixed += [] if pushed else [("0", 0)]
    loads = [{("0", 0): 1.0}] if pushed else [{(f"{x:g}", 1): -1.0} for x in PLACES]
    return PlaneFrame(nodes, bars, fixed).solve(loads)


def by_weight(e: np.ndarray) -> tuple[float, float, float]:
    """Effect of dead load, and the most and the least that people add, of an influence at every place on C1."""
    at = e[[PLACES.index(x) for x in JOISTS]]
    up, down = 93**2 / 2 / 96, 6**2 / 2 / 96  # from 20 in. to C2; what is past C2 lifts C1
    wide = np.full(len(JOISTS), 6.0)
    wide[[0, -1]] = 3.0
    dead = wide * (1.5 * WET + 1 / 144) * (up - down) + 1.5 * 7.25 * WET * (up - down)
    dead += wide * 8 / 12 * (93 - 6) / 96
    dead[[0, -1]] += 8 / 12 * (up - down)
    own = np.zeros(len(PLACES))
    own[:-1] += np.diff(PLACES) / 2
    own[1:] += np.diff(PLACES) / 2
    fine = np.arange(-5.95, 126, 0.1)
    people = np.interp(fine, JOISTS, at) * 0.1 * 100 / 144
    more, less = float(np.maximum(people, 0).sum()), float(np.minimum(people, 0).sum())
    return float(at @ dead + e @ own * 4.5 * 11.25 * WET), more * up - less * down, less * up - more * down


def push(held: bool) -> tuple[float, float, float]:
    """On a platform that does not move, along x (lb): of dead load, the most and the least that people add."""
    return by_weight(-solve(held).back["0", 0])


@cache
def knee_post(held: bool) -> float:
    """Pounds an inch of the post with its knee against a push along C1."""
    return float(1 / solve(held, pushed=True).moved["0", 0][0])


def springs(kappa: float, held: bool) -> list[Spring]:
    foot = 1.0 if held else 0.5  # ground that leaves half of a post without knees: the program's judgement
    k = [foot * cantilever(POST, INERTIA, HIGH + BELOW, d) for d in (0.0, 11.25)]
    T = {"r": 11.25, "E": OAK, "D": 1.5, "L": 7.0, "level": HIGH, "kappa": kappa}
    return [
        tree_bolt((0.0, 17.0), (0.0, 0.0), **T),
        Spring((AT, 17.0), (1.0, 0.0), (knee_post(held), k[1])),
        *(Spring((x, 113.0), (1.0, 0.0), (k[0], k[1])) for x in (0.0, AT)),
    ]


def on_supports(way: tuple[str, str, str], share: float = 1.0) -> np.ndarray:
    """Greatest force on each support in every case (supports, cases), with a share of the push, most and least."""
    cases = results(way).lateral.cases
    most = np.zeros((4, cases.load.shape[1]))
    for kappa in (5.0, 20.0):
        for held in (True, False):
            D, *of_people = push(held)
            for people in of_people:
                H = share * (cases.D * D + cases.L * people)
                force, _ = shared(springs(kappa, held), cases.load + np.stack([H, 0 * H, -17.0 * H]))
                most = np.maximum(most, np.hypot(force[:, 0], force[:, 1]))
    return most


def test_the_push_is_that_of_the_base() -> None:
    """C1 and its post in balance: knee and cap push C1 by as much as the ground pushes the base."""
    for held in (True, False):
        solved = solve(held)
        np.testing.assert_allclose(-solved.back["0", 0], solved.back["foot", 0], atol=1e-6)
        along = -solved.tension("knee") * RUN / np.hypot(RISE, RUN) - solved.ends["high"][4]
        np.testing.assert_allclose(along, -solved.back["foot", 0], atol=1e-6)
    assert push(True)[2] < 1.3 * push(False)[2] < -400


@pytest.mark.parametrize("way", [STILL, WINDY])
def test_the_tree_bolt_holds_its_part_of_the_push(way: tuple[str, str, str]) -> None:
    """With wind and people as the cases have them: a third more than without it in still air, a tenth in wind."""
    without, wanted = (float(on_supports(way, share)[0].max()) for share in (0.0, 1.0))
    assert wanted > (1.3 if way is STILL else 1.1) * without
    assert 0.995 * wanted < row(way, "T", "tree_bolt.bracket_lateral").demand < 1.02 * wanted


@pytest.mark.parametrize("way", [STILL, WINDY])
@pytest.mark.parametrize(("mark", "i"), [("Q1", 2), ("Q2", 3)])
def test_so_do_the_other_posts(way: tuple[str, str, str], mark: str, i: int) -> None:
    without, wanted = (float(on_supports(way, share)[i].max()) for share in (0.0, 1.0))
    assert wanted > 1.01 * without
    assert 0.99 * wanted < row(way, mark, "post.cap_lateral").demand < 1.03 * wanted


@pytest.mark.parametrize("way", [STILL, WINDY])
def test_the_cap_above_the_knee_is_not_relieved(way: tuple[str, str, str]) -> None:
    """It holds the post back under weight, and its part of wind. That the platform gives way eases it: not counted."""
    cases = results(way).lateral.cases
    wanted = 0.0
    for held in (True, False):
        weight = by_weight(solve(held).ends["high"][4])
        more = float(solve(held, pushed=True).ends["high"][4][0])
        for kappa in (5.0, 20.0):
            force, _ = shared(springs(kappa, held), cases.load)
            for people in weight[1:]:
                along = cases.D * weight[0] + cases.L * people + more * force[1, 0]
                wanted = max(wanted, float(np.hypot(along, force[1, 1]).max()))
    assert 0.995 * wanted < row(way, "P", "post.cap_lateral").demand < 1.05 * wanted
