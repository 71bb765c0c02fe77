"""Room for the tree in the deck: the stem's measured outline, the gap it needs, and the line to cut along."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely import LineString, MultiPolygon, Polygon
from shapely import Point as PlanPoint

from bolewright.calculation import Calculation, Step
from bolewright.platform.layout import Layout, Vector
from bolewright.platform.project import StemOutline, Tree
from bolewright.setting_out.stem import girth_of
from bolewright.tree.growth import gap_needed
from bolewright.tree.seating import sound_radius
from bolewright.tree.species import stem_wood
from bolewright.tree.sway import crown_wind_force, scaled_sway, stem_second_moment, sway_from_crown_wind

ESTIMATE = 2.0  # times the static estimate, for gusts and the tilting root plate (judgement)
CORNERS = 16  # corners to a quarter circle of an offset outline: within 1/16 in. up to a stem of 4 ft


@dataclass(frozen=True)
class TreeGap:
    """Gap that a stem needs at the floor (in), with the sway that it counts (None: not known)."""

    tree: str
    sway: float | None
    how: str
    needed: float
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class CutOut:
    """Room for one stem in the deck. Points in plan (in), counter-clockwise.

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


def sway_at(layout: Layout, tree: Tree, level: float) -> tuple[float | None, str, tuple[Step, ...]]:
    """Sway of a stem to one side at a level (in), how it was found, and the formulas; None when nothing is known."""
    if tree.sway_seen is not None:
        seen_at = tree.sway_seen_at or level
        return float(scaled_sway(tree.sway_seen, level, seen_at)), "seen in strong wind", ()
    if tree.crown_area is None or tree.crown_center is None or tree.crown_center <= level:
        return None, "neither seen nor estimated", ()
    calculation = Calculation()
    run = calculation.run
    wood = stem_wood(tree.species)
    r = run(sound_radius, C=girth_of(tree), t_b=tree.bark, t_d=0.0)
    F = run(crown_wind_force, V=layout.project.site.wind_speed, C_w=tree.crown_drag, A_c=tree.crown_area)
    I = run(stem_second_moment, d=2 * r)
    s = run(sway_from_crown_wind, F_c=F, z_c=tree.crown_center, z=level, E_g=wood.MOE, I=I)
    return ESTIMATE * float(s), "estimated from the crown, times two", calculation.at(())


def tree_gap(layout: Layout, tree: Tree) -> TreeGap:
    """Gap that a stem needs at the floor: sway, growth until it is cut back, and a margin."""
    sway, how, steps = sway_at(layout, tree, layout.project.platform.floor_height)
    calculation = Calculation()
    needed = float(calculation.run(gap_needed, s=sway or 0.0, g=tree.growth, t=tree.service, m=tree.margin))
    return TreeGap(tree.mark, sway, how, needed, (*steps, *calculation.at(())))


def stem_outline(tree: Tree, measured: StemOutline | None) -> Polygon:
    """The stem's bark in plan: through measured points, from widths across stations, or a circle of its girth."""
    if measured is None:
        return PlanPoint(tree.at).buffer(girth_of(tree) / (2 * math.pi), quad_segs=4 * CORNERS)
    if measured.points:
        return Polygon(measured.points)
    radii = [width / 2 for width in (*measured.widths, *measured.widths)]
    turn = 2 * math.pi / len(radii)
    x, y = tree.at
    return Polygon([(x + r * math.cos(i * turn), y + r * math.sin(i * turn)) for i, r in enumerate(radii)])


def cut_outs(layout: Layout) -> tuple[CutOut, ...]:
    """Room for every stem in the deck."""
    measured = {outline.tree: outline for outline in layout.project.outlines}
    return tuple(_cut_out(layout, tree, measured.get(tree.mark)) for tree in layout.project.trees)


def _cut_out(layout: Layout, tree: Tree, measured: StemOutline | None) -> CutOut:
    gap = tree_gap(layout, tree)
    bark = stem_outline(tree, measured)
    wanted = bark.buffer(gap.needed, quad_segs=CORNERS)
    gone = layout.deck.intersection(wanted)
    parts = gone.geoms if isinstance(gone, MultiPolygon) else [gone]
    return CutOut(
        tree=tree.mark,
        measured=measured is not None,
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
    """Where the cut-out meets the edges of a row of boards: places along the board from the row's origin (in)."""

    row: int
    near_edge: tuple[float, ...]
    far_edge: tuple[float, ...]


def board_cuts(
    found: tuple[CutOut, ...],
    origin: Vector,
    along: Vector,
    across: Vector,
    rows: list[tuple[int, float, float]],
) -> tuple[BoardCut, ...]:
    """Places to mark on both edges of each row (number, near, far) where a cut-out crosses it."""
    cuts = []
    rings = [LineString([*cut.line, cut.line[0]]) for cut in found if cut.cut]
    for number, near, far in rows:
        places = [_crossings(rings, origin, along, across, offset) for offset in (near, far)]
        if any(places):
            cuts.append(BoardCut(number, places[0], places[1]))
    return tuple(cuts)


def _crossings(
    rings: list[LineString], origin: Vector, along: Vector, across: Vector, offset: float
) -> tuple[float, ...]:
    x, y = origin[0] + offset * across[0], origin[1] + offset * across[1]
    edge = LineString(
        [(x - 2000 * along[0], y - 2000 * along[1]), (x + 2000 * along[0], y + 2000 * along[1])]
    )
    places = []
    for ring in rings:
        for point in getattr(ring.intersection(edge), "geoms", [ring.intersection(edge)]):
            if point.geom_type == "Point":
                places.append((point.x - x) * along[0] + (point.y - y) * along[1])
    return tuple(sorted(places))
