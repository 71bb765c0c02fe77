"""Decks on four posts for the tests of sizing: a generator with a fixed seed, published before what it judges.

Two beams, joists on top, a crossed pair of straps, knees where it is asked for. Ratings are high enough that none
binds: they are no size. ``cases(n)`` gives the same n requirements on every machine.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

SEED = 20261128


@dataclass(frozen=True)
class Deck:
    """Requirements of a rectangular deck (in, psf, mph)."""

    name: str
    width: int
    depth: int
    height: int
    snow: int
    wind: int
    soil: int
    knees: bool
    inset: int = 0
    """From the joists' ends to the beams; 0 for 0.17 of the depth."""


def cases(count: int = 20) -> list[Deck]:
    """The first ``count`` of the cases that the cost is judged on."""
    rng = random.Random(SEED)
    found = []
    for n in range(count):
        height = rng.choice((48, 60, 72, 84))
        found.append(
            Deck(
                name=f"case {n + 1}",
                width=rng.choice((96, 108, 120, 144)),
                depth=rng.choice((84, 96, 108, 120)),
                height=height,
                snow=rng.choice((0, 20, 30, 50)),
                wind=rng.choice((95, 107, 115)),
                soil=rng.choice((3, 4)),
                knees=rng.random() < 0.5 and height >= 60,
            )
        )
    return found


def text_of(deck: Deck) -> str:
    """The project file of a deck, with sizes to start from."""
    inset_x, inset_y = round(0.15 * deck.width), deck.inset or round(0.17 * deck.depth)
    rows = (inset_y, deck.depth - inset_y)
    places = (inset_x, deck.width - inset_x)
    parts = [_HEAD.format(**vars(deck), last=f"-{0.75} in", first=f"-{deck.width - 0.75} in")]
    for row, y in enumerate(rows):
        for side, x in enumerate(places):
            parts.append(_POST.format(mark=f"P{2 * row + side + 1}", x=x, y=y))
    for row, y in enumerate(rows):
        parts.append(_BEAM.format(mark=f"C{row + 1}", y=y, width=deck.width))
    if deck.knees:
        for n in range(4):
            towards = "end" if n % 2 == 0 else "start"
            parts.append(
                _KNEE.format(mark=f"K{n + 1}", post=f"P{n + 1}", beam=f"C{n // 2 + 1}", towards=towards)
            )
    x0, x1, y0, y1 = 2, deck.width - 2, rows[0], rows[1]
    for mark, (ax, ay), (bx, by) in (("X1", (x0, y0), (x1, y1)), ("X2", (x1, y0), (x0, y1))):
        parts.append(_STRAP.format(mark=mark, ax=ax, ay=ay, bx=bx, by=by))
    return "\n".join(parts)


_HEAD = """# A deck on four posts, for the tests of sizing: all of it is invented.
format = 2

[title]
project = "Deck of {name}"
date = 2026-11-28
note = "For the tests of sizing: all of it is invented"

[site]
frost_depth = "24 in"
soil = "class {soil}"
ground_snow = "{snow} psf"
wind_speed = "{wind} mph"
exposure = "B"
S_DS = 0.15

[loads]
live = "40 psf"

[platform]
outline = [["0 in", "0 in"], ["{width} in", "0 in"], ["{width} in", "{depth} in"], ["0 in", "{depth} in"]]
floor_height = "{height} in"

[decking]
section = "2x6"
species = "Southern Pine"
grade = "No.2"

[post.P]
section = "8x8"  # the size of all four
species = "Southern Pine"
grade = "No.2"
base = "fixed"
foot_bolts = 1
foot_bolt_diameter = "5/8 in"
cap_lateral = "5000 lb"
rotation_tie = "5000 lb"
cap_note = "Invented"

[footing.F]
shape = "round"
width = "28 in"
depth = "60 in"
pad = "8 in"

[[joists]]
mark = "J"
section = "2x8"  # on top of both beams
species = "Southern Pine"
grade = "No.2"
direction = "90 deg"
first = "{first}"
last = "{last}"
spacing = "16 in"
bearing = "resting"
uplift_tie = "1000 lb"
lateral_tie = "1500 lb"
tie_note = "Invented"
restrains_beam = true
edge_load = "1500 lb"
"""
_POST = """[[support]]
mark = "{mark}"
kind = "post"
post = "P"
footing = "F"
uplift_tie = "4000 lb"
uplift_note = "Invented"
at = ["{x} in", "{y} in"]
"""
_BEAM = """[[beam]]
mark = "{mark}"
layer = 1
plies = 2
section = "2x10"
species = "Southern Pine"
grade = "No.2"
from = ["0 in", "{y} in"]
to = ["{width} in", "{y} in"]
"""
_KNEE = """[[brace]]
mark = "{mark}"
support = "{post}"
beam = "{beam}"
towards = "{towards}"
rise = "24 in"
run = "24 in"
plies = 2
section = "2x6"
species = "Southern Pine"
grade = "No.2"
bolts = 2
bolt_diameter = "1/2 in"
"""
_STRAP = """[[diagonal]]
mark = "{mark}"
from = ["{ax} in", "{ay} in"]
to = ["{bx} in", "{by} in"]
rated_load = "4000 lb"
note = "Invented"
"""
