"""How far trunk and platform move apart at the floor: a plate on springs against the trunk as it was seen to sway.

The trunk sways by what was seen: below that height in proportion to the height, above it by its square (judgement of
the program, taken as given); at the bolts' level that moves the bolts, at the floor's it closes the gap. The trunk
also bends under the bolt, a cantilever loaded lower down (AISC Manual, Table 3-23: P a2 (3 l - a)/6 E I). The bed in
the wood is at its stiffest or softest, bases are fixed or in ground that leaves half.
"""

from __future__ import annotations

from functools import cache
from math import pi

import numpy as np
import pytest
from plate_on_springs import Spring, cantilever, shared, tree_bolt

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results

OAK = 1.25e6  # psi, white oak, green (Wood Handbook, FPL-GTR-282, Table 5-3b)
POST = 1.2e6  # psi, Southern Pine No.2, 5x5 and larger (NDS 2018 Supplement, Table 4D)
FLOOR, LEVEL = 60.0, 60 - 1.5 - 7.25 - 11.25  # in., of boards and of the beams' undersides
RADIUS = 12 - 0.75
BOLT, CENTRE = (40.0, 17.0), (40.0, 0.0)
POSTS = ((0.0, 113.0), (120.0, 113.0))
SWAY, GROWTH, YEARS, MARGIN = 0.5, 0.15, 6.0, 1.0
GAP = 17 - 2.25 - 12  # in., from the bark to C1's face, as drawn

TEXT = """
format = 2
[title]
project = "Gap at a swaying trunk"
date = 2026-12-01
note = "Invented for a test"
[site]
frost_depth = "36 in"
soil = "class 4"
ground_snow = "25 psf"
wind_speed = "107 mph"
exposure = "B"
[loads]
live = "40 psf"
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
sway_seen = "1/2 in"
sway_seen_at = "{seen}"
growth = "0.15 in/yr"
service = "6 years"
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
depth = "48 in"
pad = "10 in"
[[support]]
mark = "T"
kind = "tree bolt"
tree = "OAK"
bolt = "main"
lateral = "{lateral}"
slot = "12 in"
friction = 0.1
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
mark = "H"
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
HIGH = {"60 in": 60.0, "3 ft": 36.0, "9 ft": 108.0}  # where it was seen to sway
WAYS = [("tied", seen) for seen in HIGH] + [("floats", seen) for seen in HIGH]


@cache
def results(lateral: str, seen: str) -> Results:
    text = TEXT.format(lateral=lateral, seen=seen)
    if lateral == "tied":
        text = text.replace('slot = "12 in"\nfriction = 0.1\n', "")
    return find_results(parse_project(text))


def row(lateral: str, seen: str, key: str, part: str = "OAK") -> Check:
    return next(c for c in results(lateral, seen).checks if (c.part, c.key) == (part, key))


def sway(seen: str, z: float) -> float:
    share = z / HIGH[seen]
    return SWAY * (share if share <= 1 else share**2)


def springs(lateral: str, kappa: float, foot: float) -> list[Spring]:
    k = [foot * cantilever(POST, 5.5**4 / 12, LEVEL + 12, d) for d in (0.0, 11.25)]
    found = [Spring(at, (1.0, 0.0), (k[0], k[1])) for at in (*POSTS, (120.0, 17.0))]
    if lateral == "tied":
        found.append(tree_bolt(BOLT, CENTRE, r=RADIUS, E=OAK, D=1.5, L=7.0, level=LEVEL, kappa=kappa))
    return found


def apart(lateral: str, seen: str, *, at_floor: float = FLOOR, at: tuple[float, float] = CENTRE) -> float:
    """Greatest movement of the plate at a place, less the trunk's at a height, over all cases and states (in)."""
    cases = results(lateral, seen).lateral.cases
    most = 0.0
    for kappa in (5.0, 20.0):
        for foot in (1.0, 0.5):
            own = springs(lateral, kappa, foot)
            under = np.zeros((len(own), 2, cases.load.shape[1]))
            pushed = np.zeros_like(cases.trunk)
            if lateral == "tied":
                under[-1] = own[-1].axes() @ (sway(seen, LEVEL) * cases.trunk)
            force, (u, v, turn) = shared(own, cases.load, under)
            if lateral == "tied":
                pushed = own[-1].axes().T @ force[-1]
            bent = pushed * LEVEL**2 * (3 * at_floor - LEVEL) / (6 * OAK * pi * (2 * RADIUS) ** 4 / 64)
            trunk = sway(seen, at_floor) * cases.trunk + bent
            deck = np.array([u - turn * at[1], v + turn * at[0]])
            most = max(most, float(np.hypot(*(deck - trunk)).max()))
    return most


def printed(lateral: str, seen: str) -> float:
    """Movement apart of the row, whose whole demand is that, growth over the service and the margin."""
    check = row(lateral, seen, "tree.clearance")
    s = float(next(x.arguments["s"] for x in check.steps if x.formula.name == "gap_needed"))
    assert check.demand == pytest.approx(s + GROWTH * YEARS + MARGIN, rel=1e-9)
    assert check.capacity == pytest.approx(GAP, rel=1e-9)
    return s


@pytest.mark.parametrize(("lateral", "seen"), WAYS)
def test_the_floors_sway_is_what_closes_the_gap(lateral: str, seen: str) -> None:
    """Else the level of the bolts would pass for that of the floor: the movement is a third less there."""
    assert apart(lateral, seen, at_floor=LEVEL) < 0.95 * apart(lateral, seen)


@pytest.mark.parametrize("seen", HIGH)
def test_a_platform_tied_to_the_trunk(seen: str) -> None:
    """Dragged along, it moves apart by what the bolt's wood gives, the wind, and the trunk's lean over the bolts.

    Seen to sway low down, the trunk moves more than it and the floor part: all its sway counts. Joints that slip: 1 %.
    """
    wanted = max(apart("tied", seen), sway(seen, FLOOR))
    assert 0.999 * wanted < printed("tied", seen) < 1.01 * wanted


@pytest.mark.parametrize("seen", HIGH)
def test_a_trunk_that_goes_its_own_way(seen: str) -> None:
    """On its posts alone, the trunk against it; friction is a help that a slippery pad need not give."""
    wanted = apart("floats", seen)
    assert wanted > sway(seen, FLOOR) + 0.7
    assert 0.999 * wanted < printed("floats", seen) < 1.02 * wanted


@pytest.mark.parametrize("seen", HIGH)
def test_a_slot_lets_the_trunk_go_its_own_way(seen: str) -> None:
    """Both ways from the middle: movement at the bolts' level, growth, margin; and the bolt of 1 1/2 in. itself."""
    each = apart("floats", seen, at_floor=LEVEL, at=BOLT) + GROWTH * YEARS + MARGIN
    check = row("floats", seen, "tree_bolt.slot", "T")
    assert check.demand > 0.9995 * (2 * each + 1.5)


@pytest.mark.parametrize(("lateral", "seen"), WAYS)
def test_years_to_contact_have_the_same_movement(lateral: str, seen: str) -> None:
    check = row(lateral, seen, "tree.clearance_years")
    left = max(GAP - printed(lateral, seen), 0.0) / GROWTH
    assert (check.demand, float(check.capacity)) == pytest.approx((YEARS, left), rel=1e-9)
