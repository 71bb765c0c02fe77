"""Relations: ways to draw or write a platform otherwise that must leave its answers as they are.

Each takes a project and gives the project to start from (the same, or one the relation has a meaning for) and the
other one, or None where the relation says nothing of that platform.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable
from typing import Any

import numpy as np
from shapely import Polygon
from shapely.affinity import scale

from bolewright.platform.project import JoistField, LoadArea, Project

Pair = tuple[Project, Project] | None
Relation = Callable[[Project], Pair]
FAR = 1080.0  # in: 90 ft


def _copy(thing: Any, **changes: Any) -> Any:
    return thing.model_copy(update=changes)


def moved(project: Project, matrix: np.ndarray, by: tuple[float, float] = (0.0, 0.0)) -> Project:
    """Every place of the plan turned or mirrored by ``matrix``, then moved."""
    mirrored = bool(np.linalg.det(matrix) < 0)

    def point(p: Any) -> Any:
        return tuple(float(v) for v in matrix @ np.array(p) + np.array(by))

    def ring(points: Any) -> Any:
        return tuple(point(p) for p in points)

    def direction(degrees: float) -> float:
        a = math.radians(degrees)
        u = matrix @ np.array([math.cos(a), math.sin(a)])
        return math.degrees(math.atan2(u[1], u[0]))

    def joists(f: JoistField) -> JoistField:
        # Mirrored joists run the other way, so that they still count to the left of the way they run.
        way = direction(f.direction)
        way = (way + 360) % 360 - 180 if mirrored else way
        n = np.array([-math.sin(math.radians(way)), math.cos(math.radians(way))])
        off = float(n @ np.array(by))
        region = None if f.region is None else ring(f.region)
        return _copy(f, direction=way, first=f.first + off, last=f.last + off, region=region)

    p = project.platform
    north = p.north
    if north is not None:  # clockwise from y
        a = math.radians(north)
        u = matrix @ np.array([math.sin(a), math.cos(a)])
        north = math.degrees(math.atan2(u[0], u[1]))
    platform = _copy(
        p, outline=ring(p.outline), openings=tuple(ring(hole) for hole in p.openings), north=north
    )
    return _copy(
        project,
        platform=platform,
        trees=tuple(_copy(t, at=point(t.at)) for t in project.trees),
        supports=tuple(
            _copy(s, at=point(s.at), direction=None if s.direction is None else direction(s.direction))
            for s in project.supports
        ),
        carriers=tuple(_copy(c, start=point(c.start), end=point(c.end)) for c in project.carriers),
        diagonals=tuple(_copy(d, start=point(d.start), end=point(d.end)) for d in project.diagonals),
        load_areas=tuple(_copy(a, corners=ring(a.corners)) for a in project.load_areas),
        joists=tuple(joists(f) for f in project.joists),
    )


def turn(degrees: float) -> np.ndarray:
    a = math.radians(degrees)
    c, s = (round(v, 15) for v in (math.cos(a), math.sin(a)))
    return np.array([[c, -s], [s, c]])


def mirror_image(project: Project) -> Pair:
    return project, moved(project, np.diag([-1.0, 1.0]))


def quarter_turn(project: Project) -> Pair:
    return project, moved(project, turn(90))


def shift_by_90_ft(project: Project) -> Pair:
    return project, moved(project, np.eye(2), (FAR, -FAR))


def turned_22_5(project: Project) -> Pair:
    return project, moved(project, turn(22.5))


def turned_61(project: Project) -> Pair:
    return project, moved(project, turn(61))


def beam_ends_swapped(project: Project) -> Pair:
    other = {"start": "end", "end": "start"}
    return project, _copy(
        project,
        carriers=tuple(_copy(c, start=c.end, end=c.start) for c in project.carriers),
        braces=tuple(_copy(b, towards=other[b.towards]) for b in project.braces),
    )


def joists_from_the_other_side(project: Project) -> Pair:
    """Joists at even spacing, so that they lie at the same places from both sides."""
    even = []
    for f in project.joists:
        count = max(1, round((f.last - f.first) / f.spacing))
        even.append(_copy(f, spacing=(f.last - f.first) / count))
    base = _copy(project, joists=tuple(even))
    back = tuple(
        _copy(f, direction=(f.direction + 360) % 360 - 180, first=-f.last, last=-f.first) for f in even
    )
    other = {"start": "end", "end": "start"}
    return base, _copy(base, joists=back, blocking=tuple(_copy(b, end=other[b.end]) for b in base.blocking))


def permuted_and_renamed(project: Project) -> Pair:
    rng = random.Random(7)

    def shuffled(things: Any) -> Any:
        found = list(things)
        return tuple(rng.sample(found, len(found)))

    names = [t.mark for t in project.trees] + [s.mark for s in project.supports]
    names += [c.mark for c in project.carriers]
    new = {name: f"Q{chr(90 - k % 26)}{k}" for k, name in enumerate(names)}

    def to(name: str | None) -> str | None:
        return None if name is None else new[name]

    return project, _copy(
        project,
        trees=shuffled(_copy(t, mark=to(t.mark)) for t in project.trees),
        supports=shuffled(_copy(s, mark=to(s.mark), tree=to(s.tree)) for s in project.supports),
        carriers=shuffled(_copy(c, mark=to(c.mark)) for c in project.carriers),
        joists=shuffled(_copy(f, carriers=tuple(new[m] for m in f.carriers)) for f in project.joists),
        braces=shuffled(_copy(b, support=to(b.support), carrier=to(b.carrier)) for b in project.braces),
        blocking=shuffled(
            _copy(b, over=to(b.over), between=tuple(new.get(m, m) for m in b.between))
            for b in project.blocking
        ),
        diagonals=shuffled(project.diagonals),
        load_areas=shuffled(project.load_areas),
        readings=tuple(_copy(r, mark=new.get(r.mark, r.mark)) for r in project.readings),
        outlines=tuple(_copy(o, tree=to(o.tree)) for o in project.outlines),
        as_built=tuple(_copy(b, mark=new.get(b.mark, b.mark)) for b in project.as_built),
    )


def outline_from_the_next_corner(project: Project) -> Pair:
    outline = project.platform.outline
    count = len(outline)

    def edge(number: int) -> int:
        return (number - 2) % count + 1

    return project, _copy(
        project,
        platform=_copy(project.platform, outline=(*outline[1:], outline[0])),
        loads=_copy(project.loads, guard_edges=tuple(edge(e) for e in project.loads.guard_edges)),
        walls=tuple(_copy(w, edge=edge(w.edge)) for w in project.walls),
    )


def outline_reversed(project: Project) -> Pair:
    """First corner kept: edge k runs from the corner that ended it."""
    outline = project.platform.outline
    count = len(outline)

    def edge(number: int) -> int:
        return count + 1 - number

    def wall(w: Any) -> Any:
        a, b = outline[w.edge - 1], outline[w.edge % count]
        whole = math.dist(a, b)
        length = whole - w.start if w.length is None else w.length
        return _copy(w, edge=edge(w.edge), start=whole - w.start - length, length=length)

    return project, _copy(
        project,
        platform=_copy(project.platform, outline=(outline[0], *outline[:0:-1])),
        loads=_copy(project.loads, guard_edges=tuple(edge(e) for e in project.loads.guard_edges)),
        walls=tuple(wall(w) for w in project.walls),
    )


def load_area_in_halves(project: Project) -> Pair:
    """Every load area cut in two across; a platform that has none gets one in its middle."""
    base = project
    if not base.load_areas:
        deck = Polygon(base.platform.outline, base.platform.openings)
        middle = scale(deck.convex_hull, 0.4, 0.4, origin="centroid")
        corners = tuple(middle.exterior.coords)[:-1]
        area = LoadArea.model_construct(mark="AREA", corners=corners, load=30.0, kind="live", note="")
        base = _copy(base, load_areas=(area,))
    halves = []
    for area in base.load_areas:
        cx = Polygon(area.corners).centroid.x
        for k, side in enumerate(((-1e4, cx), (cx, 1e4))):
            box = Polygon([(side[0], -1e4), (side[1], -1e4), (side[1], 1e4), (side[0], 1e4)])
            part = Polygon(area.corners).intersection(box)
            halves.append(_copy(area, mark=f"{area.mark}h{k}", corners=tuple(part.exterior.coords)[:-1]))
    return base, _copy(base, load_areas=tuple(halves))


EXACT: dict[str, Relation] = {
    relation.__name__: relation
    for relation in (
        mirror_image,
        quarter_turn,
        shift_by_90_ft,
        beam_ends_swapped,
        joists_from_the_other_side,
        permuted_and_renamed,
        outline_from_the_next_corner,
        outline_reversed,
        load_area_in_halves,
    )
}
TURNED: dict[str, Relation] = {relation.__name__: relation for relation in (turned_22_5, turned_61)}
