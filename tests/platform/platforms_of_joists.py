"""Project files of our own for joists and the beams that they bear on: trees, posts and beams laid out in numbers."""

from __future__ import annotations

from collections.abc import Sequence

TOP = 84.0  # in, of the floor

HEAD = """
format = 2
[title]
project = "Joists by statics"
date = 2026-12-01
note = "For the tests: sizes, trees and ground are invented"
[site]
frost_depth = "36 in"
soil = "class 4"
ground_snow = "{snow} psf"
wind_speed = "{wind} mph"
exposure = "B"
[loads]
live = "{live} psf"
hardware = "1 psf"
guard = "{guard} plf"
guard_edges = [1, 2, 3, 4]
guard_height = "36 in"
guard_solidity = {solid}
sway_share = "{sway} %"
[platform]
outline = [["{x0} in", "{y0} in"], ["{x1} in", "{y0} in"], ["{x1} in", "{y1} in"], ["{x0} in", "{y1} in"]]
floor_height = "84 in"
[decking]
section = "2x6"
species = "Southern Pine"
grade = "No.2"
[bolt.main]
diameter = "1 1/2 in"
embedment = "7 in"
F_y = "50 ksi"
F_u = "65 ksi"
seat_length = "3 in"
rated_load = "6000 lb"
rated_lateral = "9000 lb"
rated_note = "Invented"
[post.FIXED]
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
[connection.H]
rated_load = "1500 lb"
rated_uplift = "600 lb"
wet_included = true
seat_length = "2 in"
note = "Invented"
"""
JOISTS = """
[[joists]]
mark = "J"
section = "{section}"
species = "Southern Pine"
grade = "No.2"
incised = false
direction = "90 deg"
first = "{first} in"
last = "{last} in"
spacing = "{spacing} in"
bearing = "{bearing}"
{more}
"""
TREE = """
[[tree]]
mark = "A{n}"
species = "white oak"
at = ["{tx} in", "{ty} in"]
diameter = "24 in"
bark = "3/4 in"
height = "60 ft"
sway_seen = "{sway} in"
sway_seen_at = "7 ft"
[[support]]
mark = "T{n}"
kind = "tree bolt"
tree = "A{n}"
bolt = "main"
lateral = "tied"
at = ["{x} in", "{y} in"]
"""
POST = """
[[support]]
mark = "P{n}"
kind = "post"
post = "FIXED"
footing = "F"
at = ["{x} in", "{y} in"]
"""
BEAM = """
[[beam]]
mark = "{mark}"
plies = {plies}
section = "2x12"
species = "Southern Pine"
grade = "No.2"
incised = false
from = ["{a} in", "{y} in"]
to = ["{b} in", "{y} in"]
"""


def head(x: Sequence[float], y: Sequence[float], **said: float) -> str:
    """Everything but joists, beams and supports; the deck from x[0], y[0] to x[1], y[1]."""
    usual = {"snow": 25, "wind": 107, "live": 60, "guard": 0, "solid": 0.33, "sway": 10}
    return HEAD.format(x0=x[0], x1=x[1], y0=y[0], y1=y[1], **(usual | said))


def joists(section: str, lines: Sequence[float], spacing: float, bearing: str, more: str = "") -> str:
    """Joists along y from the first to the last of the lines (x)."""
    return JOISTS.format(
        section=section, first=-lines[-1], last=-lines[0], spacing=spacing, bearing=bearing, more=more
    )


def beam(mark: str, x: Sequence[float], y: float, plies: int = 3) -> str:
    """A beam along x."""
    return BEAM.format(mark=mark, a=x[0], b=x[1], y=y, plies=plies)


def tree(n: int, trunk: Sequence[float], at: Sequence[float], sway: float) -> str:
    """A tree with one bolt that is held both ways."""
    return TREE.format(n=n, tx=trunk[0], ty=trunk[1], x=at[0], y=at[1], sway=sway)


def post(n: int, at: Sequence[float]) -> str:
    """A post fixed in concrete."""
    return POST.format(n=n, x=at[0], y=at[1])
