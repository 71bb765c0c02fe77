"""Post holes on the ground: two tapes from the base line, strings square to it, diagonals that must be equal.

The base line runs between the plumb points of two bearings. Where a trunk stands in it, the tapes and strings start
from a working line beside it, clear of the bark, with pegs A and B opposite the bearings. All lengths are level.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from numpy import sqrt

from bolewright.calculation import Calculation, Step
from bolewright.formulas import formula
from bolewright.platform.layout.layout import Layout, Line, Vector
from bolewright.platform.project import Tree
from bolewright.platform.project.bearing import SupportKind
from bolewright.setting_out.foot_bolts import foot_bolts
from bolewright.setting_out.holes import holes
from bolewright.setting_out.plan import BaseLine, base_line, facing, posts_of
from bolewright.setting_out.squaring import STEP, Spot, rectangle_diagonal, squaring, tape_is_clear
from bolewright.setting_out.tolerance import Allowed, Closing
from bolewright.setting_out.trunk import girth_of
from bolewright.units import Length

CLEAR = 12.0  # in: working line clear of the bark, for the root flare (common practice)
SETBACK = 24.0  # in: batter boards beyond the edge of the hole (common practice)
NARROW = 24.0  # in: strings nearer than this to each other make no good rectangle


@formula("Geometry (right triangle)")
def taped_distance(s: Length, o: Length) -> Length:
    """Distance taped from a point on the base line to a peg, by its distance along the line and its offset.

    Parameters: s distance along the base line from that point (in); o offset square to it (in). Returns: d (in).
    Source: Pythagoras.

    >>> float(taped_distance(36.0, 48.0))
    60.0
    """
    d: Length = sqrt(s**2 + o**2)
    return d


@dataclass(frozen=True)
class Peg:
    """A peg on the ground; lengths in inches.

    ``along`` the base line from A and ``offset`` square off it; ``from_a`` and ``from_b`` are taped from the plan's two
    tape points; ``clear_a`` and ``clear_b`` are whether each of these tapes passes every trunk.
    """

    name: str
    point: Vector
    along: float
    offset: float
    from_a: float
    from_b: float
    clear_a: bool
    clear_b: bool


@dataclass(frozen=True)
class Leg345:
    """A right angle by a 3-4-5 triangle: legs and slope in inches."""

    short: float
    long: float
    slope: float


@dataclass(frozen=True)
class StringLine:
    """A string over two batter boards: where it passes, its length between the boards, marks from its first corner."""

    name: str
    corners: tuple[str, str]
    length: float
    marks: tuple[tuple[str, float], ...]


@dataclass(frozen=True)
class GroundPlan:
    """All that is set out on the ground; lengths in inches.

    ``working`` is the offset of the working line from the base line, ``tapes`` the two points from which all pegs are
    taped. ``corners`` 1 to 4 go round the rectangle of strings, from A's end of the side nearest to the base line.
    ``squaring`` are the tapes across it that prove it square: both diagonals, or shorter ones, equal in pairs, where a
    trunk stands in these.
    """

    base: BaseLine
    working: float
    tapes: tuple[str, str]
    width: float
    height: float
    diagonal: float
    corners: tuple[Peg, Peg, Peg, Peg]
    posts: tuple[Peg, ...]
    leg: Leg345
    squaring: tuple[Closing, ...]
    setback: float
    strings: tuple[StringLine, ...]
    closings: tuple[Closing, ...]
    steps: tuple[Step, ...]


def ground_plan(layout: Layout) -> GroundPlan | None:
    """Setting out of the posts from the base line; None for a platform without posts."""
    posts = posts_of(layout)
    if not posts:
        return None
    base = base_line(layout)
    places = {post.mark: base.offsets(post.at) for post in posts}
    along = [s for s, _ in places.values()]
    if max(along) - min(along) < NARROW:
        along += [0.0, base.line.length]
    low, high, far = min(along), max(along), max(o for _, o in places.values())
    near = min(o for _, o in places.values())
    working = working_offset(layout, base, near)
    foot = min(near, working)
    foot = foot if far - foot >= NARROW else far - (high - low)
    calculation = Calculation()
    width, height = high - low, far - foot
    across = float(calculation.run(rectangle_diagonal, w=width, h=height))
    spots = ((low, foot), (high, foot), (high, far), (low, far))
    corners = tuple(peg_at(layout, base, working, f"corner {i}", at) for i, at in enumerate(spots, start=1))
    pegs = tuple(peg_at(layout, base, working, mark, at, calculation) for mark, at in places.items())
    tapes = ("peg A", "peg B") if working else (base.a, base.b)
    widest = max(layout.project.footings[p.footing or ""].width for p in posts)
    setback = _up(widest / 2 + SETBACK)
    tapes_across, marks = squaring(layout, [corner.point for corner in corners], width, height)
    return GroundPlan(
        base=base,
        working=working,
        tapes=tapes,
        width=width,
        height=height,
        diagonal=across,
        corners=(corners[0], corners[1], corners[2], corners[3]),
        posts=pegs,
        leg=leg_345(width, height),
        squaring=tapes_across,
        setback=setback,
        strings=_strings(corners, (*((p.name, p.point) for p in pegs), *marks), width, height, setback),
        closings=_closings(layout, base, working, pegs, tapes_across),
        steps=calculation.at(()),
    )


def _up(length: float) -> float:
    return math.ceil(length / STEP - 1e-9) * STEP


def working_offset(layout: Layout, base: BaseLine, near: float) -> float:
    """Offset of the working line: 0 where the base line passes clear of every trunk, or posts stand on both sides."""
    needed = 0.0
    for tree in layout.project.trees:
        _, o = base.offsets(tree.at)
        reach = girth_of(tree) / (2 * math.pi) + CLEAR
        if -reach < o < reach:
            needed = max(needed, o + reach)
    working = _up(needed)
    return working if working <= near - NARROW else 0.0


def peg_at(
    layout: Layout,
    base: BaseLine,
    working: float,
    name: str,
    at: tuple[float, float],
    calculation: Calculation | None = None,
) -> Peg:
    """A place along the base line and square off it, with its tapes from both ends of the working line."""
    run = (calculation or Calculation()).run
    s, o = at
    point = base.point(s, o)
    ends = base.point(0.0, working), base.point(base.line.length, working)
    return Peg(
        name=name,
        point=point,
        along=s,
        offset=o,
        from_a=float(run(taped_distance, s=s, o=o - working)),
        from_b=float(run(taped_distance, s=s - base.line.length, o=o - working)),
        clear_a=tape_is_clear(layout, ends[0], point),
        clear_b=tape_is_clear(layout, ends[1], point),
    )


def leg_345(width: float, height: float) -> Leg345:
    """Largest 3-4-5 triangle in half feet that fits two sides; the long leg lies along the longer.

    >>> leg_345(84.0, 112.0)
    Leg345(short=72.0, long=96.0, slope=120.0)
    """
    short, long = sorted((width, height))
    unit = max(6.0, math.floor(min(short / 3, long / 4) / 6.0 + 1e-9) * 6.0)
    return Leg345(3 * unit, 4 * unit, 5 * unit)


def _strings(
    corners: tuple[Peg, ...], spots: tuple[Spot, ...], width: float, height: float, setback: float
) -> tuple[StringLine, ...]:
    lines = []
    for i, side in enumerate((width, height, width, height)):
        first, second = corners[i], corners[(i + 1) % 4]
        line = Line.between(first.point, second.point)
        on = [(name, line.along(point)) for name, point in spots if line.off(point) < 1 / 16]
        marks = [(first.name, 0.0), *sorted(on, key=lambda item: item[1]), (second.name, side)]
        name = f"{first.name} to {second.name.split()[-1]}"
        lines.append(StringLine(name, (first.name, second.name), side + 2 * setback, tuple(marks)))
    return tuple(lines)


def _closings(
    layout: Layout, base: BaseLine, working: float, pegs: tuple[Peg, ...], across: tuple[Closing, ...]
) -> tuple[Closing, ...]:
    ends = (
        f"{base.a} to {base.b}, between the plumb points"
        if _on_bolts(layout, base)
        else f"{base.a} to {base.b}"
    )
    found = []
    if tape_is_clear(layout, base.line.start, base.line.end) or _on_bolts(layout, base):
        near = (
            Allowed.BOLT if _on_bolts(layout, base) else Allowed.MARK
        )  # as the trunk's sheet takes the bolts
        found.append(Closing(ends, base.line.length, near.value))
    if working:
        found.append(Closing("Peg A to peg B", base.line.length, Allowed.MARK.value))
        for name, mark, s in (("peg A", base.a, 0.0), ("peg B", base.b, base.line.length)):
            tree = _tree_of(layout, mark)
            if tree is not None:
                reach = math.dist(front_mark(layout, tree), base.point(s, working))
                found.append(
                    Closing(
                        f"Front mark on {tree.mark} (plumbed down) to {name}", reach, Allowed.DIAGONAL.value
                    )
                )
    found += across
    for one, other in combinations(pegs, 2):
        between = math.dist(one.point, other.point)
        if {one.name, other.name} != {base.a, base.b} and tape_is_clear(layout, one.point, other.point):
            what = f"{one.name} to {other.name}, centres"
            found.append(Closing(what, between, Allowed.DIAGONAL.value, (one.point, other.point)))
    return (*found, *_off_the_bark(layout, base, pegs), *_depths(layout))


def _depths(layout: Layout) -> Iterator[Closing]:
    """Bottom of every hole, and the concrete that the post's foot stands on, below grade."""
    for hole in holes(layout):
        yield Closing(
            f"{hole.post}: bottom of the hole below grade", hole.dig, Allowed.HOLE.value, least=True
        )
        what = f"{hole.post}: top of the concrete under the post below grade"
        yield Closing(what, hole.foot, Allowed.HOLE.value)
    for bolts in foot_bolts(layout):
        for number, height in enumerate(bolts.heights, start=1):
            which = f"bolt {number} through its foot" if bolts.each > 1 else "bolt through its foot"
            for mark in bolts.marks:
                above = f"{mark}: {which}, middle above the post's end"
                yield Closing(above, height, Allowed.MARK.value, least=True)
        for mark in bolts.marks:
            what = f"{mark}: bolt through its foot, out of the post into the concrete on both sides"
            yield Closing(what, bolts.out, Allowed.MARK.value, least=True)


def _on_bolts(layout: Layout, base: BaseLine) -> bool:
    """Whether the base line runs between bearings in the air, and not between pegs."""
    kinds = {s.kind for s in layout.supports if s.mark in (base.a, base.b)}
    return SupportKind.TREE_BOLT in kinds


def _off_the_bark(layout: Layout, base: BaseLine, pegs: tuple[Peg, ...]) -> Iterator[Closing]:
    """Shortest distance from the bark of every trunk that bears nothing to each peg: it places the platform."""
    bearing = {s.tree for s in layout.supports}
    for tree in layout.project.trees:
        if tree.mark not in bearing:
            R = girth_of(tree) / (2 * math.pi)
            for peg in pegs:
                d = math.dist(peg.point, tree.at)
                bark = tuple(t + R / d * (p - t) for t, p in zip(tree.at, peg.point, strict=True))
                what = f"Bark of {tree.mark} to {peg.name}, the shortest there is"
                yield Closing(what, d - R, Allowed.TAPED.value, ((bark[0], bark[1]), peg.point))


def front_mark(layout: Layout, tree: Tree) -> Vector:
    """Point of a trunk's bark that faces the posts."""
    x, y = facing(layout, tree)
    R = girth_of(tree) / (2 * math.pi)
    return (tree.at[0] + R * x, tree.at[1] + R * y)


def _tree_of(layout: Layout, mark: str) -> Tree | None:
    support = next(s for s in layout.supports if s.mark == mark)
    return next((t for t in layout.project.trees if t.mark == support.tree), None)
