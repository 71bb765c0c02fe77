"""Level loads: wind on guards, walls, framing and posts, and a share of the live load, as cases in every direction.

Wind comes along x and y, both ways, with the eccentricity of ASCE 7-16 Figure 27.3-8 at full force, and
diagonally with three quarters along each axis. Occupant sway comes in eight directions from the whole deck and
from each half of it, and belongs to the live load: where a combination has 0.75 L it has 0.75 of the sway. A stem
moves in the wind cases, along the wind or across it, either way, by its whole sway; two stems do not keep time, so
each also moves opposite to the others.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.bracing.wind import (
    DIAGONAL,
    ECCENTRICITY,
    occupant_sway,
)
from bolewright.platform.combine import Array
from bolewright.platform.level_wind import Wind
from bolewright.platform.load_path import LoadPath
from bolewright.timber.basis import Combination, LoadType, asd_basis

COMPASS = {0: "+x", 45: "+x +y", 90: "+y", 135: "-x +y", 180: "-x", 225: "-x -y", 270: "-y", 315: "+x -y"}


@dataclass(frozen=True)
class LevelCases:
    """All cases as arrays over the cases.

    ``load`` F_x, F_y (lb) and the moment about the origin (lb·in); ``over`` sums of force times height, along x
    and y (lb·in); ``stem`` direction in which the stems move, zero where they stand still; ``against`` the mark of
    the one tree that moves the opposite way, empty when all move alike.
    """

    names: tuple[str, ...]
    words: tuple[str, ...]
    C_D: Array
    D: Array
    L: Array
    S: Array
    load: Array
    over: Array
    stem: Array
    against: tuple[str, ...]

    @property
    def count(self) -> int:
        """How many cases there are."""
        return len(self.names)


@dataclass(frozen=True)
class _Push:
    """One level push: words, force along x and y, moment about the origin, force times height along x and y."""

    words: str
    force: tuple[float, float]
    moment: float
    over: tuple[float, float]

    def plus(self, other: _Push, share: float, other_share: float) -> _Push:
        """Sum of shares of both."""

        def mix(a: float, b: float) -> float:
            return share * a + other_share * b

        return _Push(
            self.words,
            (mix(self.force[0], other.force[0]), mix(self.force[1], other.force[1])),
            mix(self.moment, other.moment),
            (mix(self.over[0], other.over[0]), mix(self.over[1], other.over[1])),
        )


NOTHING = _Push("", (0.0, 0.0), 0.0, (0.0, 0.0))


@dataclass(frozen=True)
class _Stem:
    """How the stems move in a case: words, unit direction, and the mark of one that moves the other way."""

    words: str = ""
    way: tuple[float, float] = (0.0, 0.0)
    against: str = ""


STILL = _Stem()


def _wind_pushes(winds: tuple[Wind, Wind]) -> list[tuple[int, _Push]]:
    pushes = []
    for degrees, words in COMPASS.items():
        signs = (round(math.cos(math.radians(degrees))), round(math.sin(math.radians(degrees))))
        if signs[0] and signs[1]:
            pushes.append(
                (degrees, _wind_push(winds, (signs[0] * DIAGONAL, signs[1] * DIAGONAL), 0.0, words))
            )
        else:
            pushes += [(degrees, _wind_push(winds, signs, e, words)) for e in (-ECCENTRICITY, ECCENTRICITY)]
    return pushes


def _wind_push(winds: tuple[Wind, Wind], shares: tuple[float, float], e: float, words: str) -> _Push:
    x, y = winds
    F_x, F_y = shares[0] * x.force, shares[1] * y.force
    moment = F_y * (y.across + e * y.width) - F_x * (x.across + e * x.width)
    side = "" if e == 0 else f", {ECCENTRICITY:.0%} of the width off centre"
    return _Push(f"wind towards {words}{side}", (F_x, F_y), moment, (F_x * x.height, F_y * y.height))


def sway_patterns(path: LoadPath) -> dict[str, tuple[float, float, float]]:
    """Live load (lb) and its centre (in) on the whole deck and on each half of it."""
    area = np.array([p.area for p in path.panels]) / 144
    at = np.array([p.centroid for p in path.panels])
    centre = area @ at / area.sum()
    parts = {
        "the whole deck": np.ones(len(area), dtype=bool),
        "the -x half": at[:, 0] < centre[0],
        "the +x half": at[:, 0] >= centre[0],
        "the -y half": at[:, 1] < centre[1],
        "the +y half": at[:, 1] >= centre[1],
    }
    live = path.layout.project.loads.live
    found = {}
    for name, on in parts.items():
        if on.any():
            x, y = area[on] @ at[on] / area[on].sum()
            found[name] = (float(area[on].sum() * live), float(x), float(y))
    return found


def _sway_pushes(path: LoadPath) -> dict[int, list[_Push]]:
    loads, floor = path.layout.project.loads, path.layout.project.platform.floor_height
    pushes: dict[int, list[_Push]] = {}
    for degrees, words in COMPASS.items():
        c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        pushes[degrees] = []
        for name, (live, x, y) in sway_patterns(path).items():
            H = float(occupant_sway(s_L=loads.sway_share, L=live))
            pushes[degrees].append(
                _Push(
                    f"people on {name} sway towards {words}",
                    (H * c, H * s),
                    H * s * x - H * c * y,
                    (H * c * floor, H * s * floor),
                )
            )
    return pushes


def find_level_cases(
    path: LoadPath, winds: tuple[Wind, Wind], stems: Sequence[str], *, still: bool = False
) -> LevelCases:
    """Every combination with wind or sway in every direction; ``stems`` are the marks of the trees that move.

    ``still``: also every combination of weight alone.
    """
    rows: list[tuple[Combination, _Push, str, _Stem]] = []
    wind, sway = _wind_pushes(winds), _sway_pushes(path)
    for combination in asd_basis().combinations:
        if combination.factor(LoadType.ROOF_LIVE):
            continue
        L, W = combination.factor(LoadType.LIVE), combination.factor(LoadType.WIND)
        if still and not W:
            rows.append((combination, NOTHING, "nothing level", STILL))
        if W:
            for degrees, push in wind:
                with_people = push.plus(sway[degrees][0], W, L)
                rows += [
                    (combination, with_people, push.words + stem.words, stem)
                    for stem in _stem_ways(degrees, stems)
                ]
        elif L:
            rows += [
                (combination, push.plus(NOTHING, L, 0.0), push.words, STILL)
                for p in sway.values()
                for push in p
            ]
    combinations = [row[0] for row in rows]
    return LevelCases(
        names=tuple(c.name for c in combinations),
        words=tuple(row[2] for row in rows),
        C_D=np.array([c.C_D for c in combinations]),
        D=np.array([c.factor(LoadType.DEAD) for c in combinations]),
        L=np.array([c.factor(LoadType.LIVE) for c in combinations]),
        S=np.array([c.factor(LoadType.SNOW) for c in combinations]),
        load=np.array([(*row[1].force, row[1].moment) for row in rows]).T,
        over=np.array([row[1].over for row in rows]).T,
        stem=np.array([row[3].way for row in rows]).T,
        against=tuple(row[3].against for row in rows),
    )


def _stem_ways(degrees: int, stems: Sequence[str]) -> list[_Stem]:
    """Ways in which stems move in wind: all alike along, against or across it, or one opposite to the others."""
    if not stems:
        return [STILL]
    ways = {0: "along", 180: "against", 90: "across", 270: "across"}
    apart = {1: ("",), 2: ("", stems[-1])}.get(len(stems), ("", *stems))
    found = []
    for mark in apart:
        for turn, word in ways.items():
            angle = math.radians(degrees + turn)
            words = f", the stem{'s move' if len(stems) > 1 else ' moves'} {word} it"
            words += f", {mark} the other way" if mark else ""
            found.append(_Stem(words, (math.cos(angle), math.sin(angle)), mark))
    return found
