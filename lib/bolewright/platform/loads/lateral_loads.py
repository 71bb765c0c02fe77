"""Lateral loads: wind on guards, walls, framing and posts, and a share of the live load, from every direction.

Wind comes from any horizontal direction (ASCE 7-16, 26.5.1), with the eccentricity of Figure 27.3-8 at full force, by
analogy (the figure is written for buildings; its three quarters along two axes at once are less than the wind between
them on the areas projected there). Occupant sway comes in any direction from the whole deck and from each half of it,
split along the sway through the deck's centre, where its moment is greatest; it belongs to the live load: where a
combination has 0.75 L it has 0.75 of the sway. A trunk moves in the wind cases, along the wind or across it, either
way, by its whole sway; two trunks do not keep time, so each also moves opposite to the others.

The directions are so many that none between them gives 0.5 % more: an effect of sway goes with the cosine of its angle,
one of wind with that of twice its angle, as the area shown changes too. They are counted from the platform's own main
direction, so that nothing changes as the drawing is turned.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from shapely import Polygon
from shapely.geometry.polygon import orient

from bolewright.bracing.wind import (
    ECCENTRICITY,
    occupant_sway,
)
from bolewright.platform.layout.actions import Action, ActionKind
from bolewright.platform.layout.influence import Integers
from bolewright.platform.layout.parts import Layout
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.lateral_wind import Winds
from bolewright.platform.loads.load_path import LoadPath
from bolewright.timber.basis import Combination, LoadType, asd_basis

WIND_DIRECTIONS = 64  # 1 - cos(360°/64) = 0.48 %
SWAY_DIRECTIONS = 32  # 1 - cos(180°/32) = 0.48 %
COMPASS = {
    0.0: "+x",
    45.0: "+x +y",
    90.0: "+y",
    135.0: "-x +y",
    180.0: "-x",
    225.0: "-x -y",
    270.0: "-y",
    315.0: "+x -y",
}
PUSH_C_D = 1.6  # of the push on a guard (common practice)
WHOLE = "the whole deck"
HALVES = ("the half to the right", "the half to the left")
NO_MAIN = 1e-6  # of all lengths: a platform with less in common has no main direction


@dataclass(frozen=True)
class LateralCases:
    """All cases as arrays over the cases.

    ``D``, ``L``, ``S``, ``W`` and ``G`` factors of the loads (``W`` 0.6 of the strength-level wind, or 0.45; ``G`` 1 in
    cases with the push on a guard); ``load`` F_x,
    F_y (lb) and the moment about the origin (lb·in); ``over`` sums of force times height, along x and y (lb·in);
    ``trunk`` direction in which the trunks move, zero where they stand still; ``against`` the mark of
    the one tree that moves the opposite way, empty when all move alike. ``wind`` and ``people`` are the shares of
    ``load`` that these bring, what is left comes from forces of parts.
    """

    names: tuple[str, ...]
    words: tuple[str, ...]
    C_D: Array
    D: Array
    L: Array
    S: Array
    W: Array
    load: Array
    wind: Array
    people: Array
    over: Array
    trunk: Array
    against: tuple[str, ...]
    G: Array

    @property
    def count(self) -> int:
        """How many cases there are."""
        return len(self.names)

    @cached_property
    def of_weight(self) -> Array:
        """Factors of D, snow, live load and the push on a guard (rows) in every case: asked for with every effect."""
        return np.stack([self.D, self.S, self.L, self.G])


@dataclass(frozen=True)
class _Pushes:
    """Lateral loads in their directions (n): words, unit directions (n, 2), F_x, F_y and moment about the origin.

    ``load`` is (3, n); ``over`` force times height (2, n).
    """

    words: tuple[str, ...]
    ways: Array
    load: Array
    over: Array


def directions(count: int, first: float = 0.0) -> Array:
    """Unit directions all round, a row each, from ``first`` degrees on towards +y."""
    angle = np.radians(first) + 2 * np.pi * np.arange(count) / count
    found: Array = np.stack([np.cos(angle), np.sin(angle)], axis=1)
    return found


def main_direction(layout: Layout) -> float:
    """Direction (degrees) from which the others are counted: that of the edges and members, quarter turns alike.

    So the same platform is looked at from the same directions however it lies on the paper.
    """
    ring = layout.project.platform.outline
    edges = [np.subtract(b, a) for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)]
    lines = np.array([*edges, *(np.subtract(m.line.end, m.line.start) for m in layout.members)])
    size, angle = np.hypot(*lines.T), np.arctan2(lines[:, 1], lines[:, 0])
    total = (size * np.exp(4j * angle)).sum()
    if abs(total) < NO_MAIN * size.sum():
        return 0.0
    return float(np.round(np.degrees(np.angle(total)) / 4, 9)) + 0.0


def compass(degrees: float) -> str:
    """Words for a direction.

    >>> compass(90.0), compass(397.5), compass(-1e-12)
    ('+y', '37.5° from +x to +y', '+x')
    """
    degrees = round(degrees, 1) % 360  # a hair below 0 is 0, not 360
    return COMPASS.get(degrees) or f"{degrees:g}° from +x to +y"


def a_few(cases: LateralCases) -> slice:
    """A part of the cases that still has every way in which trunks move, from about every third direction."""
    ways = 4 * len(set(cases.against))
    return slice(None, None, next(step for step in (3, 5, 7) if ways % step))


def _pushes(words: Sequence[str], d: Array, force: Array, right: Array, height: Array) -> _Pushes:
    """Forces along their directions, each so far to the right of the origin and so high."""
    F = d.T * force
    return _Pushes(tuple(words), d, np.vstack([F, force * right]), F * height)


def _wind(winds: Winds, first: float) -> _Pushes:
    """Wind from every direction, off centre to either side."""
    d = directions(WIND_DIRECTIONS, first)
    force, across, height, width = winds.sums(d)
    words = [
        f"wind towards {compass(first + 360 * n / WIND_DIRECTIONS)}, {ECCENTRICITY:.0%} of the width off centre"
        for n in range(WIND_DIRECTIONS)
    ]
    one, other = (across + side * ECCENTRICITY * width for side in (-1, 1))
    twice = [np.concatenate([v, v]) for v in (d, force, height)]
    return _pushes(words * 2, twice[0], twice[1], np.concatenate([one, other]), twice[2])


def sway_patterns(path: LoadPath, d: Array) -> dict[str, tuple[Array, Array]]:
    """Live load (lb) and its place to the right of the origin (in) for sway in each unit direction (rows).

    On the whole deck, and on each half of it, split through its centre along the direction.
    """
    deck, live = path.layout.deck, path.layout.project.loads.live / 144
    centre = np.array(deck.centroid.coords[0])
    right = np.stack([d[:, 1], -d[:, 0]], axis=1)
    area, moment = _right_halves(deck, centre, right)
    off = right @ centre
    return {
        WHOLE: (np.full(len(d), deck.area * live), off),
        HALVES[0]: (area * live, off + moment / area),
        HALVES[1]: ((deck.area - area) * live, off - moment / (deck.area - area)),
    }


def _right_halves(deck: Polygon, centre: Array, right: Array) -> tuple[Array, Array]:
    """Area of the deck to the right of lines through its centre, and its moment about each (directions).

    Sums over the edges, from the centre: what closes a half runs along the line through it and adds nothing.
    """
    area, moment = np.zeros(len(right)), np.zeros(len(right))
    for ring in (orient(deck).exterior, *orient(deck).interiors):
        points = np.asarray(ring.coords) - centre
        p, along = points[:-1], np.diff(points, axis=0)
        at = points @ right.T
        one, other = at[:-1], at[1:]
        cut = np.clip(-one / np.where(one == other, 1.0, other - one), 0.0, 1.0)
        t = (
            np.where(one < 0, np.where(other < 0, 1.0, cut), 0.0),
            np.where(other < 0, np.where(one < 0, 1.0, cut), 1.0),
        )
        # From p + t0 along to p + t1 along: twice the triangle's area is (t1 - t0) times that of the whole edge.
        twice = (t[1] - t[0]) * (p[:, 0] * along[:, 1] - p[:, 1] * along[:, 0])[:, None]
        area += twice.sum(axis=0) / 2
        moment += (twice * (2 * one + (t[0] + t[1]) * (other - one))).sum(axis=0) / 6
    return area, moment


def _sway(path: LoadPath, d: Array, first: float, only: Sequence[str]) -> _Pushes:
    """Sway of people on the named parts of the deck, in each direction."""
    project = path.layout.project
    patterns = sway_patterns(path, d)
    words = [
        f"people on {name} sway towards {compass(first + 360 * n / len(d))}"
        for name in only
        for n in range(len(d))
    ]
    live, right = (np.concatenate([patterns[name][k] for name in only]) for k in (0, 1))
    H = np.asarray(occupant_sway(s_L=project.loads.sway_share, L=live))
    return _pushes(
        words, np.tile(d, (len(only), 1)), H, right, np.full(len(H), project.platform.floor_height)
    )


@dataclass(frozen=True)
class _Trunks:
    """How trunks move under a push: words, the turn from its direction, and the one that moves the other way."""

    words: tuple[str, ...]
    turns: Array
    against: tuple[str, ...]


def _trunk_ways(trunks: Sequence[str]) -> _Trunks:
    """Ways in which trunks move in wind: all alike along, against or across it, or one opposite to the others."""
    if not trunks:
        return _Trunks(("",), np.zeros((1, 2, 2)), ("",))
    ways = {"along": (1, 0), "against": (-1, 0), "across": (0, 1), "across ": (0, -1)}
    apart = {1: ("",), 2: ("", trunks[-1])}.get(len(trunks), ("", *trunks))
    words, turns, against = [], [], []
    for mark in apart:
        for word, (c, s) in ways.items():
            moves = f", the trunk{'s move' if len(trunks) > 1 else ' moves'} {word.strip()} it"
            words.append(moves + (f", {mark} the other way" if mark else ""))
            turns.append([[c, -s], [s, c]])
            against.append(mark)
    return _Trunks(tuple(words), np.array(turns, dtype=float), tuple(against))


@dataclass(frozen=True)
class _Block:
    """The cases of one combination."""

    words: tuple[str, ...]
    load: Array
    wind: Array
    people: Array
    over: Array
    trunk: Array
    against: tuple[str, ...]

    def only(self, some: Integers) -> _Block:
        """Some of the cases."""
        return _Block(
            tuple(self.words[i] for i in some),
            self.load[:, some],
            self.wind[:, some],
            self.people[:, some],
            self.over[:, some],
            self.trunk[:, some],
            tuple(self.against[i] for i in some),
        )


def _still(pushes: _Pushes, L: float) -> _Block:
    """Pushes at a share, the trunks at rest."""
    n = len(pushes.words)
    people = L * pushes.load
    return _Block(
        pushes.words, people, np.zeros((3, n)), people, L * pushes.over, np.zeros((2, n)), ("",) * n
    )


def _windy(wind: _Pushes, people: _Pushes, trunks: _Trunks, W: float, L: float) -> _Block:
    """Wind with people on the whole deck who sway along with it, and every way in which the trunks move."""
    ways = len(trunks.words)
    load, over = W * wind.load + L * people.load, W * wind.over + L * people.over
    return _Block(
        tuple(push + trunk for push in wind.words for trunk in trunks.words),
        np.repeat(load, ways, axis=1),
        np.repeat(W * wind.load, ways, axis=1),
        np.repeat(L * people.load, ways, axis=1),
        np.repeat(over, ways, axis=1),
        np.einsum("wab,nb->anw", trunks.turns, wind.ways).reshape(2, -1),
        trunks.against * len(wind.words),
    )


def stays_level(path: LoadPath) -> bool:
    """Whether a part pushes laterally without wind or people: always, or with the snow."""
    return any(
        action.kind in (ActionKind.DEAD, ActionKind.SNOW) and any(action.lateral)
        for action in path.layout.actions
    )


_WITH = {
    ActionKind.DEAD: LoadType.DEAD,
    ActionKind.LIVE: LoadType.LIVE,
    ActionKind.SNOW: LoadType.SNOW,
    ActionKind.WIND: LoadType.WIND,
    ActionKind.PUSH: LoadType.LIVE,
}


_ALIKE = 1e-5  # lb: pushes that add alike
_SQUARE = 1e-9  # cosine: a force is square to another
_AND_GUARD = " + guard"


def pushed(combination: Combination) -> Combination:
    """A combination with the push on a guard beside the sway, C_D 1.6 (common practice)."""
    return replace(combination, name=combination.name + _AND_GUARD, C_D=PUSH_C_D)


def _is_pushed(combination: Combination) -> bool:
    return combination.name.endswith(_AND_GUARD)


def _twist(path: LoadPath, block: _Block) -> tuple[Array, float]:
    """Moment of each case's lateral load about the deck's centre, and how much of it is rounding (lb·in)."""
    x, y = path.layout.deck.centroid.coords[0]
    twist = block.load[2] - (x * block.load[1] - y * block.load[0])
    return twist, _ALIKE * (float(np.hypot(*block.load[:2]).max(initial=0.0)) + 1.0)


def _either_way(path: LoadPath, block: _Block) -> list[tuple[_Block, Array]]:
    """Cases to push a guard in, with the way round that the push is to turn them: those without a twist both ways."""
    twist, small = _twist(path, block)
    none = np.flatnonzero(np.abs(twist) <= small)
    return [(block, np.where(twist < -small, -1.0, 1.0)), (block.only(none), -np.ones(len(none)))]


def _acting(path: LoadPath, combination: Combination) -> list[tuple[Action, Array]]:
    """Parts' lateral forces that are in a combination, with their size there."""
    kinds = [kind for kind in ActionKind if kind is not ActionKind.PUSH or _is_pushed(combination)]
    return [
        (action, np.array(action.lateral[:2]) * combination.factor(_WITH[action.kind]))
        for action in path.layout.actions
        if any(action.lateral) and action.kind in kinds and combination.factor(_WITH[action.kind])
    ]


def _along(F: Array, block: _Block) -> Array:
    """How far a force goes along each case's own lateral load: none where it is square to it, but for rounding."""
    along = F @ block.load[:2]
    return np.where(np.abs(along) > _SQUARE * np.hypot(*F) * np.hypot(*block.load[:2]), along, 0.0)


def _comes_and_goes(action: Action) -> bool:
    """Whether a force of a part is there at times, so that a case may be without it, or with it the other way."""
    return action.kind not in (ActionKind.DEAD, ActionKind.SNOW)


def in_every_way(
    path: LoadPath, combination: Combination, block: _Block, way: Array | float = 1.0
) -> list[_Block]:
    """The cases of a combination with the lateral forces of parts, see ``with_actions``.

    Cases that such a force is square to, so that it neither adds nor takes away, are there with it and without.
    """
    square = np.zeros(len(block.words), dtype=bool)
    for action, F in _acting(path, combination):
        if _comes_and_goes(action):
            square |= _along(F, block) == 0
    some = np.flatnonzero(square)
    of_some = np.broadcast_to(way, len(block.words))[some]
    return [
        with_actions(path, combination, block, way),
        with_actions(path, combination, block.only(some), of_some, square=-1.0),
    ]


def with_actions(
    path: LoadPath, combination: Combination, block: _Block, way: Array | float = 1.0, *, square: float = 1.0
) -> _Block:
    """The cases of a combination with the lateral forces of parts.

    One that stays is in all of them. One that comes and goes, or with the wind, is in those whose own lateral load it
    adds to, the other way round in the rest where it reverses; ``square`` says with which of them those count that it
    is square to (1 or -1). Of the pushes on guards there is one in each of their own cases, the one that adds most to
    the lateral load and, among such, to its moment about the deck's centre the ``way`` round that is given (1 left,
    -1 right).
    """
    acting = _acting(path, combination)
    if not acting:
        return block
    load, over = block.load.copy(), block.over.copy()
    centre = np.array(path.layout.deck.centroid.coords[0])
    _, small = _twist(path, block)
    size = np.hypot(*block.load[:2])
    best: list[Array] | None = None
    for action, F in acting:
        sign = np.ones(len(block.words))
        if _comes_and_goes(action):
            along = _along(F, block)
            adds_to = (along > 0) | ((along == 0) & (square > 0))
            sign = np.where(adds_to, 1.0, -1.0 if action.reverses else 0.0)
        whole = np.array(action.lateral) * combination.factor(_WITH[action.kind])
        one, tilted = whole[:3, None] * sign, whole[3:, None] * sign
        if action.kind is not ActionKind.PUSH:
            load, over = load + one, over + tilted
            continue
        about = one[2] - (centre[0] * one[1] - centre[1] * one[0])
        adds = (one[:2] * block.load[:2]).sum(axis=0) / np.maximum(size, 1e-9)
        found: list[Array] = [adds, about * way, one, tilted]
        if best is None:
            best = found
            continue
        alike = np.abs(adds - best[0]) <= _ALIKE
        more = np.where(alike, found[1] > best[1] + small, adds > best[0])
        best = [np.where(more, new, old) for new, old in zip(found, best, strict=True)]
    if best is not None:
        load, over = load + best[2], over + best[3]
    return replace(block, load=load, over=over)


def find_lateral_cases(
    path: LoadPath, winds: Winds, trunks: Sequence[str], *, still: bool = False
) -> LateralCases:
    """Every combination with wind or sway in every direction; ``trunks`` are the marks of the trees that move.

    ``still``: also every combination of weight alone.
    """
    first = main_direction(path.layout)
    wind, ways = _wind(winds, first), _trunk_ways(trunks)
    sway = _sway(path, directions(SWAY_DIRECTIONS, first), first, (WHOLE, *HALVES))
    with_wind = _sway(path, wind.ways, first, (WHOLE,))
    nothing = _Pushes(("nothing lateral",), np.zeros((1, 2)), np.zeros((3, 1)), np.zeros((2, 1)))
    blocks: list[tuple[Combination, _Block]] = []
    for combination in asd_basis().combinations:
        if combination.factor(LoadType.ROOF_LIVE):
            continue
        L, W = combination.factor(LoadType.LIVE), combination.factor(LoadType.WIND)
        if (still or stays_level(path)) and not W:
            blocks.append((combination, _still(nothing, 0.0)))
        if W:
            blocks.append((combination, _windy(wind, with_wind, ways, W, L)))
        elif L:
            blocks.append((combination, _still(sway, L)))
    acting = [(c, found) for c, block in blocks for found in in_every_way(path, c, block)]
    if path.first_push < path.first_spot:
        acting += [
            (pushed(c), found)
            for c, block in blocks
            if c.factor(LoadType.LIVE) == 1 and c.name != "L"
            for some, way in _either_way(path, block)
            for found in in_every_way(path, pushed(c), some, way)
        ]
    blocks = acting
    counts = [len(block.words) for _, block in blocks]

    def factor(load: LoadType) -> Array:
        return np.repeat([c.factor(load) for c, _ in blocks], counts)

    return LateralCases(
        names=tuple(c.name for (c, _), n in zip(blocks, counts, strict=True) for _ in range(n)),
        words=tuple(word for _, block in blocks for word in block.words),
        C_D=np.repeat([c.C_D for c, _ in blocks], counts),
        D=factor(LoadType.DEAD),
        L=factor(LoadType.LIVE),
        S=factor(LoadType.SNOW),
        W=factor(LoadType.WIND),
        load=np.concatenate([block.load for _, block in blocks], axis=1),
        wind=np.concatenate([block.wind for _, block in blocks], axis=1),
        people=np.concatenate([block.people for _, block in blocks], axis=1),
        over=np.concatenate([block.over for _, block in blocks], axis=1),
        trunk=np.concatenate([block.trunk for _, block in blocks], axis=1),
        against=tuple(mark for _, block in blocks for mark in block.against),
        G=np.repeat([float(_is_pushed(c)) for c, _ in blocks], counts),
    )
