"""Requirements of 200 platforms, drawn with a fixed seed. Written before the search that is measured by them.

None to four trees, 36 to 250 sq ft, 3 to 14 ft up, snow 0 to 70 psf, wind 95 to 140 mph, every class of soil, places
where no post may stand, outlines with more or fewer than four corners. Values are rounded as a tape gives them. Trees
may stand where they are of no use, or in the way: so do real ones.
"""

from __future__ import annotations

import math
import random
from typing import Any

SEED = 20261128
COUNT = 200
_SPECIES = (
    "white oak",
    "northern red oak",
    "bur oak",
    "sugar maple",
    "red maple",
    "American beech",
    "shagbark hickory",
    "white ash",
    "coast Douglas-fir",
    "ponderosa pine",
    "yellow-poplar",
)
Data = dict[str, Any]


def requirements(count: int = COUNT, seed: int = SEED) -> list[Data]:
    """The requirements, as data of a file; each is drawn by itself, so any of them can be asked for alone."""
    return [one(i, seed) for i in range(count)]


def one(number: int, seed: int = SEED) -> Data:
    """Requirements number ``number`` (from 0)."""
    dice = random.Random(seed * 1000 + number)
    area = math.exp(dice.uniform(math.log(36), math.log(250))) * 144
    shape = dice.uniform(1.0, 1.7)
    width = _round(math.sqrt(area * shape), 6)
    depth = _round(area / width, 6)
    data: Data = {"format": 2, "project": f"Requirements {number}"}
    data["live"] = dice.choice(("40 psf", "40 psf", "40 psf", "60 psf"))
    height = _round(dice.uniform(36, 168), 6)
    data["floor"] = _floor(dice, width, depth) | {"height": _in(height)}
    data["place"] = _place(dice)
    data["tree"] = _trees(dice, width, depth, height)
    data["no_post"] = _no_posts(dice, width, depth)
    data["timber"] = {
        "largest_post": dice.choice(("8x8", "10x10", "12x12", "12x12")),
        "largest_board": dice.choice(("2x10", "2x12", "2x12")),
    }
    data["rules"] = {
        "may_tie": dice.random() < 0.6,
        "root_zone": dice.choice((2, 3, 3)),
        "visits": f"{dice.choice((5, 8, 8, 10))} years",
    }
    data["access"] = {"kind": dice.choice(("stairs", "ladder", "ladder"))}
    if dice.random() < 0.15:
        data["property_line"] = [
            {
                "from": ["-20 ft", _in(-12)],
                "to": ["40 ft", _in(-12)],
                "setback": _in(dice.choice((0, 12, 24))),
            }
        ]
    return {key: value for key, value in data.items() if value != []}


def _floor(dice: random.Random, width: float, depth: float) -> Data:
    kind = dice.random()
    if kind < 0.6:
        return {"width": _in(width), "depth": _in(depth)}
    cut = _round(min(width, depth) * dice.uniform(0.2, 0.4), 6)
    if kind < 0.75:  # a corner cut off
        ring = [(0, 0), (width, 0), (width, depth - cut), (width - cut, depth), (0, depth)]
    elif kind < 0.9:  # narrower along one side
        ring = [(cut, 0), (width - cut, 0), (width, depth), (0, depth)]
    else:  # an L
        ring = [(0, 0), (width, 0), (width, depth - cut), (width - cut, depth - cut), (width - cut, depth)]
        ring.append((0, depth))
    return {"outline": [[_in(x), _in(y)] for x, y in ring]}


def _place(dice: random.Random) -> Data:
    place: Data = {
        "ground_snow": f"{_round(dice.choice((0.0, dice.uniform(0, 70))), 5):g} psf",
        "wind_speed": f"{_round(dice.uniform(95, 140), 5):g} mph",
        "exposure": dice.choice("BBC"),
        "S_DS": round(dice.uniform(0.1, 1.0), 2),
        "frost_depth": _in(_round(dice.uniform(0, 60), 6)),
        "soil": f"class {dice.randint(1, 5)}",
    }
    for key in ("exposure", "S_DS", "frost_depth", "soil"):
        if dice.random() < 0.1:
            del place[key]
    return place


def _trees(dice: random.Random, width: float, depth: float, height: float) -> list[Data]:
    count = dice.choice((0, 1, 1, 1, 2, 2, 3, 4))
    if not count:
        return []
    around = dice.random() < 0.35  # the first in the middle of the floor, else by an edge
    found: list[Data] = []
    slots = [(width / 2, -1), (width, -1), (0.0, -1), (width / 2, 1)]
    if count > 1:
        slots = [(width * 0.15, -1), (width * 0.85, -1), (width * 0.15, 1), (width * 0.85, 1)]
    for i in range(count):
        girth = _round(dice.uniform(40, 110), 1)
        radius = girth / (2 * math.pi)
        if around and i == 0:
            at = (width * dice.uniform(0.4, 0.6), depth * dice.uniform(0.4, 0.6))
        else:
            x, side = slots[i]
            off = radius + dice.uniform(5, 9)
            at = (x + dice.uniform(-4, 4), -off if side < 0 else depth + off)
        tall = _round(dice.uniform(40, 80), 1)
        tree: Data = {
            "mark": "ABCD"[i],
            "species": dice.choice(_SPECIES),
            "at": [_in(_round(at[0], 1)), _in(_round(at[1], 1))],
            "girth": _in(girth),
            "bark": f"{dice.choice((0.25, 0.5, 0.75, 1.0))} in",
            "height": f"{tall:g} ft",
            "sway_seen": f"{dice.choice((0.125, 0.25, 0.375)) * max(height / 72, 1):.3g} in",
            "sway_seen_at": _in(height),
            "crown_area": f"{_round(dice.uniform(200, 500), 10):g} ft2",
            "crown_center": f"{_round(tall * 0.6, 1):g} ft",
            "growth": f"{dice.choice((0.06, 0.1, 0.15))} in/yr",
            "condition": "Sound to the mallet, full crown",
        }
        if dice.random() < 0.15:
            tree["fault"] = "old wound above the bolts"
        for key in ("bark", "crown_area", "growth"):
            if dice.random() < 0.1:
                del tree[key]
        found.append(tree)
    return found


def _no_posts(dice: random.Random, width: float, depth: float) -> list[Data]:
    if dice.random() < 0.6:
        return []
    wide = _round(dice.uniform(24, 48), 6)
    if dice.random() < 0.7:  # a path under the floor
        x = _round(dice.uniform(0, width - wide), 6)
        ring = [(x, -60), (x + wide, -60), (x + wide, depth + 60), (x, depth + 60)]
        return [{"corners": [[_in(a), _in(b)] for a, b in ring], "why": "path"}]
    ring = [(width - wide, -12), (width + 24, -12), (width + 24, wide), (width - wide, wide)]
    return [{"corners": [[_in(a), _in(b)] for a, b in ring], "why": "bed"}]


def _round(value: float, step: float) -> float:
    return round(value / step) * step


def _in(value: float) -> str:
    return f"{round(value, 2):g} in"
