"""Forty arrangements from a fixed seed: project files as data, each a sensible way to frame a small platform.

Families: joists resting on two or three beams, on two beams over three supports, hung between flush beams, and
stringers on lower beams with joists hung or resting. Trees stand at the ends of beams, one to four of them. Spacing,
skew of beams and edges, overhangs, guards and load areas are drawn at random.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, field
from typing import Any

from bolewright.platform.file.reading import find_faults
from bolewright.platform.project import Project
from outside.generate_common import common

SEED = 20261128
COUNT = 40
WOODS = (("Southern Pine", "No.2"), ("Douglas Fir-Larch", "No.2"), ("Hem-Fir", "No.2"))
FAMILIES = ("two beams", "three beams", "hung", "stringers", "continuous beams")


@dataclass
class Arrangement:
    """A project file's data and what it is an example of."""

    name: str
    raw: dict[str, Any]
    trees: int
    traits: set[str] = field(default_factory=set)

    @property
    def project(self) -> Project:
        project, faults = find_faults(self.raw)
        assert project is not None, (self.name, faults)
        return project


def inches(x: float) -> str:
    return f"{round(x, 4)} in"


def point(x: float, y: float) -> list[str]:
    return [inches(x), inches(y)]


class Draw:
    """One arrangement as it is drawn."""

    def __init__(self, number: int) -> None:
        self.rng = random.Random(SEED + 1009 * number)
        self.family = FAMILIES[number % 5]
        self.trees = 1 + number % 4
        self.skewed = ((number // 5) % 2 == 1 and self.family != "stringers") or number % 10 == 3
        self.traits: set[str] = set()
        self.wood = self.rng.choice(WOODS)
        self.raw: dict[str, Any] = common(number, self.rng, self.wood)

    def sixteenths(self, low: float, high: float) -> float:
        return round(self.rng.uniform(low, high) * 16) / 16

    # ---------------------------------------------------------------------------------------------

    def post(self, x: float, y: float) -> None:
        mark = f"P{len(self.raw['support']) + 1}"
        self.raw["support"].append(
            {
                "mark": mark,
                "kind": "post",
                "post": "P",
                "footing": "F",
                "at": point(x, y),
                "uplift_tie": "900 lb",
            }
        )

    def tree(self, x: float, y: float, away: tuple[float, float], radius: float) -> None:
        """A tree whose bolt bears at (x, y); its trunk stands off in the direction ``away``."""
        number = len(self.raw["tree"]) + 1
        far = radius + 4.0
        self.raw["tree"].append(
            {
                "mark": f"TREE{number}",
                "species": "white oak",
                "at": point(x + far * away[0], y + far * away[1]),
                "diameter": inches(2 * radius),
                "bark": "3/4 in",
                "height": "60 ft",
                "sway_seen": "1/4 in",
                "sway_seen_at": "7 ft",
            }
        )
        self.raw["support"].append(
            {
                "mark": f"T{number}",
                "kind": "tree bolt",
                "tree": f"TREE{number}",
                "bolt": "main",
                "at": point(x, y),
                "lateral": "tied",
                "uplift_tie": "900 lb",
            }
        )

    def beam(
        self, mark: str, a: tuple[float, float], b: tuple[float, float], layer: int, **more: Any
    ) -> None:
        self.raw["beam"].append(
            {
                "mark": mark,
                "layer": layer,
                "plies": 2 if layer == 1 and self.family == "stringers" else self.rng.choice((2, 3)),
                "section": "2x12",
                "species": self.wood[0],
                "grade": self.wood[1],
                "lateral_tie": "1000 lb",
                "rotation_tie": "1500 lb",
                "from": point(*a),
                "to": point(*b),
                **more,
            }
        )

    def beam_on_supports(
        self, mark: str, width: float, ys: tuple[float, float], layer: int, side: int, middle: bool
    ) -> None:
        """A beam along x over the whole width, ``ys`` at x = 0 and at the width, on trees or posts."""
        slope = (ys[1] - ys[0]) / width
        length = math.hypot(1.0, slope)
        away = (-slope / length * side, side / length)

        def y(x: float) -> float:
            return ys[0] + slope * x

        ends = []
        for sign, edge in ((-1, 0.0), (1, width)):
            if side and len(self.raw["tree"]) < self.trees:
                radius = self.rng.choice((9.0, 10.0, 11.0))
                x = edge + sign * (radius + 2.0 + abs(slope) * radius)
                self.tree(x, y(x), away, radius)
                ends.append(x + sign * 4.0)
            else:
                self.post(edge - sign * (over := self.sixteenths(8, 26)), y(edge - sign * over))
                ends.append(edge)
                self.traits.add("beam past its post")
        if middle:
            x = self.sixteenths(0.42 * width, 0.58 * width)
            self.post(x, y(x))
            self.traits.add("continuous beams")
        self.beam(mark, (ends[0], y(ends[0])), (ends[1], y(ends[1])), layer)

    def joists(self, direction: int, first: float, last: float, spacing: float, bearing: str) -> None:
        self.raw["joists"].append(
            {
                "mark": "J",
                "section": self.rng.choice(("2x8", "2x10")),
                "species": self.wood[0],
                "grade": self.wood[1],
                "direction": f"{direction} deg",
                "first": inches(first),
                "last": inches(last),
                "spacing": inches(spacing),
                "bearing": bearing,
                "hanger": "H",
            }
        )

    # ---------------------------------------------------------------------------------------------

    def resting(self) -> None:
        """Joists along y on two or three beams along x, past the outer ones at both ends."""
        rng = self.rng
        width = self.sixteenths(108, 168)
        three = self.family == "three beams"
        gaps = [self.sixteenths(62, 86) for _ in range(2 if three else 1)]
        if not three:
            gaps = [self.sixteenths(72, 104)]
        y, lines = 0.0, []
        for gap in [0.0, *gaps]:
            y += gap
            tilt = self.sixteenths(-14, 14) if self.skewed else 0.0
            lines.append((y - tilt / 2, y + tilt / 2))
        if self.skewed:
            self.traits.add("skewed beams")
        for k, ys in enumerate(lines):
            outer = -1 if k == 0 else 1 if k == len(lines) - 1 else 0
            self.beam_on_supports(f"B{k + 1}", width, ys, 1, outer, self.family == "continuous beams")
        if three:
            self.traits.add("continuous joists")
        self.traits.add("overhangs at both ends")
        low, high = (self.sixteenths(14, 24) for _ in range(2))
        cut = [self.sixteenths(-6, 6) if rng.random() < 0.5 else 0.0 for _ in range(2)]
        askew = [self.sixteenths(1, 4.5) if rng.random() < 0.5 else 0.0 for _ in range(2)]
        bottom = (min(lines[0]) - low, min(lines[0]) - low - cut[0])
        top = (max(lines[-1]) + high + cut[1], max(lines[-1]) + high)
        corners = [(0.0, bottom[0]), (width, bottom[1]), (width - askew[1], top[1]), (askew[0], top[0])]
        if any(cut) or any(askew):
            self.traits.add("edges askew")
        self.raw["platform"]["outline"] = [point(*p) for p in corners]
        inset = [a + self.sixteenths(0.75, 1.5 if a else 6) for a in askew]
        self.joists(90, -(width - inset[1]), -inset[0], rng.choice((12, 14.5, 16, 18, 19.25)), "resting")

    def hung(self) -> None:
        """Joists along y hung between two flush beams along x."""
        width, gap = self.sixteenths(96, 144), self.sixteenths(72, 110)
        tilt = self.sixteenths(6, 16) * self.rng.choice((-1, 1)) if self.skewed else 0.0
        if self.skewed:
            self.traits.add("skewed beams")
        middle = self.rng.random() < 0.5
        lines = [(0.0, 0.0), (gap - tilt / 2, gap + tilt / 2)]
        self.beam_on_supports("B1", width, lines[0], 1, -1, middle)
        self.beam_on_supports("B2", width, lines[1], 1, 1, False)
        half = [1.5 * c["plies"] / 2 for c in self.raw["beam"]]
        corners = [
            (0.0, -half[0]),
            (width, -half[0]),
            (width, lines[1][1] + half[1]),
            (0.0, lines[1][0] + half[1]),
        ]
        self.raw["platform"]["outline"] = [point(*p) for p in corners]
        inset = [self.sixteenths(0.75, 8) for _ in range(2)]
        self.joists(90, -(width - inset[1]), -inset[0], self.rng.choice((12, 16, 20)), "hung")

    def stringers(self) -> None:
        """Stringers along y on two lower beams along x; joists along x hung between them or resting on them."""
        width = self.sixteenths(96, 132)
        gap = self.sixteenths(66, 96)
        three = self.rng.random() < 0.6
        ends = [self.sixteenths(4, 12), width - self.sixteenths(4, 12)]
        places = [ends[0], self.sixteenths(0.45 * width, 0.55 * width), ends[1]] if three else ends
        tilt = self.sixteenths(6, 14) if self.skewed else 0.0
        if self.skewed:
            self.traits.add("skewed beams")
        middle = self.rng.random() < 0.6
        self.beam_on_supports("C1", width, (0.0, 0.0), 2, -1, middle)
        self.beam_on_supports("C2", width, (gap + tilt / 2, gap - tilt / 2), 2, 1, middle)
        low, high = self.sixteenths(10, 26), self.sixteenths(10, 26)
        bottom, top = -low, gap + tilt / 2 + high
        for k, x in enumerate(places):
            self.beam(f"S{k + 1}", (x, bottom), (x, top), 1)
        self.traits.add("overhangs at both ends")
        bearing = self.rng.choice(("hung", "resting"))
        if bearing == "hung":
            left, right = places[0] - 1.5, places[-1] + 1.5
        else:
            left, right = 0.0, width
            if three:
                self.traits.add("continuous joists")
        self.raw["platform"]["outline"] = [
            point(left, bottom),
            point(right, bottom),
            point(right, top),
            point(left, top),
        ]
        inset = [self.sixteenths(0.75, 7) for _ in range(2)]
        self.joists(0, bottom + inset[0], top - inset[1], self.rng.choice((12, 16, 18.5)), bearing)

    def furnish(self) -> None:
        """Guards on some edges, and load areas on some decks."""
        rng = self.rng
        self.raw["loads"]["guard_edges"] = sorted(rng.sample((1, 2, 3, 4), rng.randint(1, 4)))
        corners = [tuple(float(v.removesuffix(" in")) for v in p) for p in self.raw["platform"]["outline"]]
        xs, ys = ([c[i] for c in corners] for i in (0, 1))
        areas = []
        for k in range(rng.choice((0, 0, 1, 2))):
            x, y = rng.uniform(min(xs), max(xs) - 40), rng.uniform(min(ys), max(ys) - 30)
            a, b = rng.uniform(20, 40), rng.uniform(18, 30)
            turn = rng.choice((0.0, 0.3))
            areas.append(
                {
                    "mark": f"A{k + 1}",
                    "kind": rng.choice(("dead", "live", "snow")),
                    "load": f"{rng.choice((15, 30, 60))} psf",
                    "corners": [
                        point(x, y),
                        point(x + a, y + turn * a),
                        point(x + a - turn * b, y + turn * a + b),
                        point(x - turn * b, y + b),
                    ],
                }
            )
        if areas:
            self.raw["load_area"] = areas
            self.traits.add("load areas")


def arrangement(number: int) -> Arrangement:
    draw = Draw(number)
    {"hung": draw.hung, "stringers": draw.stringers}.get(draw.family, draw.resting)()
    draw.furnish()
    return Arrangement(f"g{number:02d}_{draw.family.replace(' ', '_')}", draw.raw, draw.trees, draw.traits)


def arrangements() -> list[Arrangement]:
    return [arrangement(number) for number in range(COUNT)]
