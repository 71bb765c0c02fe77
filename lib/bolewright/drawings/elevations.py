"""Elevations: the whole platform as seen level from one side, with its levels and what stands below grade."""

from __future__ import annotations

import math
from collections.abc import Iterator

import shapely
from shapely import Polygon, box

from bolewright.drawings.as_built import built_in_elevation, built_words
from bolewright.drawings.bodies import Solid, View
from bolewright.drawings.chains import chain, levels_chain
from bolewright.drawings.covering import Patch, clipped, painted
from bolewright.drawings.guards import infill_solids
from bolewright.drawings.measures import Measures
from bolewright.drawings.solids import solids_of, wall_run
from bolewright.drawings.words import listed, titled
from bolewright.mechanics.convex import Vec
from bolewright.platform.layout.blocking import entry_of
from bolewright.platform.layout.layout import Bearing, Kind, Layout, Vector
from bolewright.platform.layout.rod_ends import rod_ends
from bolewright.platform.layout.trunk_braces import TrunkBrace, trunk_brace, trunk_braces
from bolewright.platform.project import Brace
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.platform.solids.bodies import brace_profile
from bolewright.rendering import drawing
from bolewright.rendering.drawing import Drawing, Fill, Item, Layer, Leader, Line, Mark, Pen

VIEWS: tuple[tuple[str, Vector], ...] = (("A", (0.0, -1.0)), ("B", (-1.0, 0.0)))
FIRST, ROW, LEVELS = 7.0, 8.0, 19.0  # mm: to the first chain, between chains, past one with level words
_ACROSS = 0.5  # cosine of the angle between a rim and the view from which its length is seen
_ABOVE = 18.0  # in: how far a trunk is drawn above floor and guard
_GROUND = 14.0  # in: how far the ground runs beyond everything
_COMPASS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")


def elevation(results: Results, letter: str, look: Vector, measures: Measures = Measures.IMPERIAL) -> Drawing:
    """Elevation of a platform as seen in the plan direction ``look``."""
    layout = results.path.layout
    view = View(look)
    solids = (*solids_of(results), *infill_solids(layout, look))
    patches = list(_patches(layout, solids, view))
    left, right = _reach(layout, solids, view)
    strip = ((left - _GROUND, -2.5), (right + _GROUND, -2.5), (right + _GROUND, 0.0), (left - _GROUND, 0.0))
    items: list[Item] = [drawing.Polygon(strip, Layer.GROUND, Fill.SOIL, Pen.NONE)]
    items += painted(patches)
    items.append(Line((left - _GROUND, 0.0), (right + _GROUND, 0.0), Layer.GROUND))
    items += _marks(layout, solids, view)
    items += _levels(layout, measures, left, right)
    items += _below(layout, measures, view, left)
    items += _braces(layout, measures, view)
    items += _supports(layout, measures, view, left, right)
    items += built_in_elevation(layout, view)
    title = f"Elevation {letter}, looking {_way(look, layout.project.platform.north)}"
    alt = f"{title}: floor {measures.words(layout.project.platform.floor_height)} above grade."
    notes = [
        "Broken lines: a guard that is no part of the file, walls, mesh, and what lies below grade. Levels are in "
        "timber as bought, before it dries. Infill is drawn of the guards that face the viewer.",
        *built_words(layout, measures),
    ]
    return titled(results, title, items, alt, notes)


def _way(look: Vector, north: float | None) -> str:
    """Direction of a view in words: by compass where north is given, else by the plan's axes."""
    if north is None:
        axis, sign = ("x", look[0]) if abs(look[0]) > abs(look[1]) else ("y", look[1])
        return f"against the {axis} axis" if sign < 0 else f"along the {axis} axis"
    bearing = (math.degrees(math.atan2(look[0], look[1])) - north) % 360
    return _COMPASS[round(bearing / 45) % 8]


def _reach(layout: Layout, solids: tuple[Solid, ...], view: View) -> tuple[float, float]:
    xs = [view.flat(p)[0] for solid in solids for p in solid.points]
    return min(xs), max(xs)


def _patches(layout: Layout, solids: tuple[Solid, ...], view: View) -> Iterator[Patch]:
    """Parts from the farthest to the nearest; what lies below grade dashed, over the rest."""
    walls = (wall.height for wall in layout.project.walls)
    top = layout.project.platform.floor_height + max(layout.project.loads.guard_height, *walls, 0.0) + _ABOVE
    above, below = box(-1e5, 0, 1e5, top), box(-1e5, -1e5, 1e5, 0)
    boards = [s for s in solids if s.layer is Layer.DECKING]
    bodies = [s for s in solids if s.layer is not Layer.DECKING]
    seen = [
        (_nearest(solid, view), Patch(outline, solid.layer, solid.fill, covers=solid.fill is not Fill.NONE))
        for solid in bodies
        if (outline := solid.seen(view)) is not None
    ]
    rows = [outline for s in boards if (outline := s.seen(view)) is not None]
    floor = shapely.union_all([row.buffer(0.1, join_style="mitre") for row in rows]).buffer(
        -0.1, join_style="mitre"
    )
    for part in shapely.get_parts(floor):
        if isinstance(part, Polygon):
            seen.append((max(_nearest(s, view) for s in boards), Patch(part, Layer.DECKING)))
    ordered = [patch for _, patch in sorted(seen, key=lambda item: item[0])]
    yield from clipped((p for p in ordered if p.fill is not Fill.NONE), above)
    for patch in clipped(ordered, below):
        if patch.layer is not Layer.TRUNK:
            yield Patch(patch.outline, patch.layer, Fill.NONE, Pen.DASHED, covers=False)
    for patch in ordered:
        if patch.fill is Fill.NONE:
            yield Patch(patch.outline, patch.layer, Fill.NONE, Pen.DASHED, covers=False)


def _nearest(solid: Solid, view: View) -> tuple[float, float]:
    depths = [view.depth(p) for p in solid.points]
    return (round(max(depths), 3), sum(depths) / len(depths))


def _marks(layout: Layout, solids: tuple[Solid, ...], view: View) -> Iterator[Item]:
    """Marks of beams, braces and supports; one note for all joists."""
    for member in layout.beams:
        places = [
            _seen_at(member.line.at(f * member.line.length), member.top - member.section.d / 2, view)
            for f in (0.35, 0.25, 0.45, 0.65, 0.15, 0.75, 0.85, 0.05, 0.95)
        ]
        yield Mark(places[0], member.mark, along=tuple(places[1:]))
    for support in layout.supports:
        seat = layout.seat_level(support.mark)
        if support.kind == SupportKind.POST:
            places = [_seen_at(support.at, f * seat, view) for f in (0.4, 0.3, 0.5, 0.2, 0.6, 0.1)]
            yield Mark(places[0], support.mark, along=tuple(places[1:]))
        elif support.kind == SupportKind.KNEE_BRACE:
            yield _on_brace(trunk_brace(layout, support), view)
        else:
            yield Mark(_seen_at(support.at, seat, view), support.mark, shift=(6.0, -7.0))
    for tree in layout.project.trees:
        places = [
            _seen_at(tree.at, layout.project.platform.floor_height + h, view) for h in (32.0, 16.0, 48.0)
        ]
        yield Mark(places[0], tree.mark, along=tuple(places[1:]))
    for brace in layout.project.braces:
        low, high = _brace_ends(layout, brace)
        places = [
            _seen_at(
                (low[0] + f * (high[0] - low[0]), low[1] + f * (high[1] - low[1])),
                low[2] + f * (high[2] - low[2]),
                view,
            )
            for f in (0.5, 0.15, 0.85, 0.3, 0.7, 0.95, 0.05)
        ]
        yield Mark(places[0], brace.mark, along=tuple(places[1:]))
    for rods in layout.project.crossed_rods:
        rod, _ = rod_ends(layout, rods)
        places = [
            _seen_at(
                (rod.foot[0] + f * rod.away[0], rod.foot[1] + f * rod.away[1]),
                rod.low + f * (rod.high - rod.low),
                view,
            )
            for f in (0.25, 0.35, 0.65, 0.75, 0.15)
        ]
        yield Mark(places[0], rods.mark, along=tuple(places[1:]))
    for wall in layout.project.walls:
        a, b = wall_run(layout, wall)
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        yield Mark(_seen_at(middle, layout.project.platform.floor_height + wall.height / 2, view), wall.mark)
    joists = [s for s in solids if s.layer is Layer.JOISTS]
    nearest = max(joists, key=lambda s: _nearest(s, view))
    xs = [view.flat(p)[0] for p in nearest.points]
    left, right = min(xs), max(xs)
    names = listed(m.mark for m in layout.members if m.kind is Kind.JOIST)
    yield Leader(((left + right) / 2, layout.under_deck - 2.0), f"joists {names}", (16.0, 14.0))
    yield from _rims(layout, view)


def _on_brace(brace: TrunkBrace, view: View) -> Mark:
    """Mark of a knee brace from a trunk, along it."""
    (x0, y0), (x1, y1) = brace.foot.at, brace.support.at
    places = [
        _seen_at((x0 + f * (x1 - x0), y0 + f * (y1 - y0)), brace.foot_level + f * brace.a, view)
        for f in (0.5, 0.65, 0.35, 0.8)
    ]
    return Mark(places[0], brace.mark, along=tuple(places[1:]))


def _rims(layout: Layout, view: View) -> Iterator[Item]:
    """One note for each rim that is seen along its length; those one behind the other in one."""
    notes: dict[tuple[float, float], tuple[list[str], list[Vector]]] = {}
    for entry in layout.project.blocking:
        own = [m for m in layout.blocking if entry_of(m).mark == entry.mark]
        seen = [m for m in own if abs(m.line.u[0] * view.look[0] + m.line.u[1] * view.look[1]) < _ACROSS]
        if entry.kind == "rim" and seen:
            first = len(seen) // 4
            places = [
                _seen_at(m.line.at(m.line.length / 2), m.top - 2.0, view)
                for m in (*seen[first:], *seen[:first])
            ]
            x, z = places[0]
            names, _ = notes.setdefault((round(x, 1), round(z, 1)), ([], places))
            names.append(listed(m.mark for m in own))
    for names, places in notes.values():
        words = "rim" if len(names) == 1 else "rims"
        yield Leader(places[0], f"{words} {', '.join(names)}", (-14.0, 26.0), along=tuple(places[1:]))


def _brace_ends(layout: Layout, brace: Brace) -> tuple[Vec, Vec]:
    """Middle of either end of a knee brace."""
    support = next(s for s in layout.supports if s.mark == brace.support)
    u = layout.member(brace.beam).line.u
    sense = 1.0 if brace.towards == "end" else -1.0
    foot_a, head_a, head_b, foot_b = brace_profile(layout, brace)
    ends = []
    for a, b in ((foot_a, foot_b), (head_a, head_b)):
        x, z = sense * (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
        ends.append((support.at[0] + x * u[0], support.at[1] + x * u[1], z))
    return ends[0], ends[1]


def _seen_at(at: Vector, level: float, view: View) -> Vector:
    return (view.across(at), level)


def _levels(layout: Layout, measures: Measures, left: float, right: float) -> list[Item]:
    """Levels from grade through the stack to floor and guard, at the right."""
    floor = layout.project.platform.floor_height
    stack = {0.0, layout.under_deck, floor}
    stack |= {level for m in layout.beams for level in (m.top, m.bottom)}
    stack |= {m.bottom for m in layout.joists if any(s.bearing is Bearing.RESTS for s in m.seats)}
    levels = sorted({round(level, 4) for level in stack})
    items = levels_chain(right, levels, measures, -FIRST)
    far = FIRST + LEVELS
    items += chain([(right, 0.0), (right, floor)], measures, -far)
    if layout.project.loads.guard_edges:
        items += chain([(right, floor), (right, floor + layout.project.loads.guard_height)], measures, -far)
    for number, height in enumerate(sorted({wall.height for wall in layout.project.walls}), start=1):
        items += chain([(right, floor), (right, floor + height)], measures, -(far + ROW * number))
    return items


def _below(layout: Layout, measures: Measures, view: View, left: float) -> list[Item]:
    """Depths below grade at the left: foot of the post, underside of the footing, gravel."""
    kinds = [layout.project.footings[s.footing] for s in layout.supports if s.footing]
    if not kinds:
        return []
    deepest = max(kinds, key=lambda f: f.depth + f.gravel)
    levels = [0.0, deepest.pad - deepest.depth, -deepest.depth]
    if deepest.gravel:
        levels.append(-deepest.depth - deepest.gravel)
    return levels_chain(left, levels, measures, FIRST)


def _braces(layout: Layout, measures: Measures, view: View) -> list[Item]:
    """Rise and run of every knee brace that is seen at its true length."""
    items: list[Item] = []
    shown: set[tuple[float, ...]] = set()
    for brace in layout.project.braces:
        beam = layout.member(brace.beam)
        if abs(beam.line.u[0] * view.look[0] + beam.line.u[1] * view.look[1]) > 0.02:
            continue
        support = next(s for s in layout.supports if s.mark == brace.support)
        x, z = view.across(support.at), layout.seat_level(brace.support)
        sense = 1.0 if brace.towards == "end" else -1.0
        end = view.across(
            (
                support.at[0] + sense * brace.run * beam.line.u[0],
                support.at[1] + sense * brace.run * beam.line.u[1],
            )
        )
        like = tuple(round(number, 2) for number in (x, z, end, brace.rise))
        if like in shown:  # one behind the other
            continue
        shown.add(like)
        items += chain([(x, z - brace.rise), (x, z)], measures, 6.0 if end > x else -6.0)
        points = sorted([(x, z - brace.rise), (end, z - brace.rise)])
        items += chain(points, measures, -4.0)
    for knee in trunk_braces(layout):
        u = knee.beam.line.u
        x, end, low = view.across(knee.foot.at), view.across(knee.support.at), knee.foot_level
        like = (round(x, 2), round(end, 2), round(low, 2))
        if abs(u[0] * view.look[0] + u[1] * view.look[1]) > 0.02 or like in shown:
            continue
        shown.add(like)
        items += chain([(end, low), (end, low + knee.a)], measures, 6.0 if end < x else -6.0)
        items += chain(sorted([(x, low), (end, low)]), measures, -6.0)
    return items + _rods(layout, measures, view)


def _rods(layout: Layout, measures: Measures, view: View) -> list[Item]:
    """How high the ends of crossed rods are that are seen at their true length."""
    items: list[Item] = []
    shown: set[tuple[float, ...]] = set()
    for rods in layout.project.crossed_rods:
        for rod in rod_ends(layout, rods):
            if abs(rod.away[0] * view.look[0] + rod.away[1] * view.look[1]) > 0.02 * rod.run:
                continue
            x = view.across(rod.head)
            like = tuple(round(number, 2) for number in (x, rod.low, rod.high))
            if like in shown:  # one behind the other
                continue
            shown.add(like)
            side = 6.0 if view.across(rod.foot) > x else -6.0
            items += chain(
                [(x, rod.low), (x, rod.high), (x, layout.seat_level(rod.head_post))], measures, side
            )
    return items


def _supports(layout: Layout, measures: Measures, view: View, left: float, right: float) -> list[Item]:
    """Supports across the view, under everything."""
    kinds = [layout.project.footings[s.footing] for s in layout.supports if s.footing]
    low = min((-f.depth - f.gravel for f in kinds), default=0.0)
    xs = sorted({round(view.across(s.at), 3) for s in layout.supports})
    items = chain([(x, low) for x in xs], measures, -FIRST)
    corners = [view.across(p) for p in layout.project.platform.outline]
    return items + chain([(min(corners), low), (max(corners), low)], measures, -(FIRST + ROW))
