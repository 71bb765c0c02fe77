"""Clearance for the trunk in the deck: the trunk's measured outline, the gap it needs, and the line to cut along."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely import LineString, MultiPolygon, Polygon
from shapely import Point as PlanPoint
from shapely.geometry.base import BaseGeometry

from bolewright.calculation import Calculation, Step
from bolewright.platform.analysis.trunk_sway import run_sway
from bolewright.platform.layout.layout import Vector
from bolewright.platform.layout.outlines import CORNERS, measured_outline, trunk_outline
from bolewright.platform.project import Tree
from bolewright.platform.results.results import Results
from bolewright.tree.growth import gap_needed

_FAR = 2000.0  # in, past any deck
_GRAZE = 1e-6  # in


@dataclass(frozen=True)
class TreeGap:
    """Gap that a trunk needs at the floor (in), with the sway that it counts (None: not known).

    ``apart`` is how far trunk and platform move apart at most, no less than the sway.
    """

    tree: str
    sway: float | None
    apart: float
    how: str
    needed: float
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class CutOut:
    """Room for one trunk in the deck. Points in plan (in), counter-clockwise.

    ``outline`` is the bark, ``line`` the line to cut along at the gap needed, ``cut`` the parts of the deck that go
    (none where the deck keeps clear), ``clearance`` from bark to the nearest deck as drawn.
    """

    tree: str
    measured: bool
    gap: TreeGap
    outline: tuple[Vector, ...]
    line: tuple[Vector, ...]
    cut: tuple[tuple[Vector, ...], ...]
    clearance: float


def tree_gap(results: Results, tree: Tree) -> TreeGap:
    """Gap that the checks ask for at the floor, the platform's own movement in it; without that check sway, growth
    until it is cut back, and a margin.
    """
    path = results.path
    calculation = Calculation()
    run = calculation.run
    sway = run_sway(run, path, tree, path.layout.project.platform.floor_height)
    how = (
        "not known"
        if sway is None
        else "seen in strong wind"
        if tree.sway_seen
        else "estimated from the crown"
    )
    for check in results.checks:
        if (check.part, check.key) == (tree.mark, "tree.clearance") and math.isfinite(check.demand):
            counted = (s.arguments["s"] for s in check.steps if s.formula.name == "gap_needed")
            return TreeGap(tree.mark, sway, float(next(counted, sway or 0.0)), how, check.demand, check.steps)
    needed = float(run(gap_needed, s=sway or 0.0, g=tree.growth, t=tree.service, m=tree.margin))
    return TreeGap(tree.mark, sway, sway or 0.0, how, needed, calculation.at(()))


def cut_outs(results: Results) -> tuple[CutOut, ...]:
    """Room for every trunk in the deck."""
    return tuple(_cut_out(results, tree) for tree in results.project.trees)


def _cut_out(results: Results, tree: Tree) -> CutOut:
    layout = results.path.layout
    gap = tree_gap(results, tree)
    bark = trunk_outline(layout.project, tree)
    wanted = bark.buffer(gap.needed, quad_segs=CORNERS)
    gone = layout.deck.intersection(wanted)
    parts = gone.geoms if isinstance(gone, MultiPolygon) else [gone]
    return CutOut(
        tree=tree.mark,
        measured=measured_outline(layout.project, tree) is not None,
        gap=gap,
        outline=_points(bark),
        line=_points(wanted),
        cut=tuple(_points(part) for part in parts if isinstance(part, Polygon) and part.area > 1e-6),
        clearance=float(bark.distance(layout.deck)),
    )


def _points(shape: Polygon) -> tuple[Vector, ...]:
    return tuple((x, y) for x, y in shape.exterior.normalize().coords[:-1])


def room_needed(found: tuple[CutOut, ...]) -> Polygon | None:
    """All that is cut out of the deck, as one shape; None where nothing is."""
    shapes = [Polygon(cut.line) for cut in found if cut.cut]
    if not shapes:
        return None
    room = shapes[0]
    for shape in shapes[1:]:
        room = room.union(shape)
    return room


@dataclass(frozen=True)
class BoardCut:
    """Where the cut-out meets the edges of a row of boards: places along that edge from the deck's edge (in).

    ``starts`` are where the deck begins on the near and on the far edge, along the board from the row's origin.
    """

    row: int
    near_edge: tuple[float, ...]
    far_edge: tuple[float, ...]
    starts: tuple[float, float]


def board_cuts(
    found: tuple[CutOut, ...],
    origin: Vector,
    along: Vector,
    across: Vector,
    rows: list[tuple[int, float, float]],
    deck: Polygon,
) -> tuple[BoardCut, ...]:
    """Places to mark on both edges of each row (number, near, far) where a cut-out crosses it, on ``deck``."""
    cuts = []
    rings = [LineString([*cut.line, cut.line[0]]).intersection(deck) for cut in found if cut.cut]
    for number, near, far in rows:
        edges = [_edge(origin, along, across, offset) for offset in (near, far)]
        starts = [_start(edge, deck) for edge in edges]
        places = [_crossings(rings, edge, start) for edge, start in zip(edges, starts, strict=True)]
        if any(places):
            cuts.append(BoardCut(number, places[0], places[1], (starts[0], starts[1])))
    return tuple(cuts)


def _edge(origin: Vector, along: Vector, across: Vector, offset: float) -> LineString:
    """Line of a board's edge, from far before the row's origin to far behind it."""
    x, y = origin[0] + offset * across[0], origin[1] + offset * across[1]
    ends = [(x + s * along[0], y + s * along[1]) for s in (-_FAR, _FAR)]
    return LineString(ends)


def _start(edge: LineString, deck: Polygon) -> float:
    """Where the deck begins on a board's edge, from the row's origin; an edge that only grazes it counts."""
    on = edge.intersection(deck.buffer(_GRAZE))
    if on.is_empty:
        return 0.0
    points = [point for part in getattr(on, "geoms", [on]) for point in part.coords]
    return float(min(edge.project(PlanPoint(point)) for point in points)) - _FAR


def _crossings(rings: list[BaseGeometry], edge: LineString, start: float) -> tuple[float, ...]:
    places = []
    for ring in rings:
        for point in getattr(ring.intersection(edge), "geoms", [ring.intersection(edge)]):
            if point.geom_type == "Point":
                places.append(edge.project(point) - _FAR - start)
    return tuple(sorted(places))
