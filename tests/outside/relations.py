"""Relations: ways to draw or write a platform otherwise that must leave its answers as they are.

Each takes a project and gives the project to start from (the same, or one the relation has a meaning for) and the
other one, or None where the relation says nothing of that platform. What each field of the file holds of the drawing is
in ``places``.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable
from typing import Any

import numpy as np
from shapely import Polygon
from shapely.affinity import scale

from bolewright.platform.layout.joists import joist_positions
from bolewright.platform.layout.layout import Layout, find_layout
from bolewright.platform.layout.outlines import trunk_outline
from bolewright.platform.project import Blocking, JoistField, Ladder, LoadArea, Project, Stairs
from bolewright.platform.project.hatch import HEADERS, TRIMMERS
from outside.places import (
    ACROSS,
    DIRECTION,
    EDGE,
    EDGE_OF,
    FROM_CORNER,
    FROM_START,
    HAND,
    KIND,
    KIND_OF,
    KINDS,
    LETTERS,
    MARK,
    MEMBER,
    NORTH,
    OPENING,
    OWN,
    OWN_LETTERS,
    PATHS,
    POINT,
    RING,
    RINGS,
    STRETCH,
    WHICH_END,
    WHICH_POST,
    Change,
    carried,
)

Pair = tuple[Project, Project] | None
Relation = Callable[[Project], Pair]
FAR = 1080.0  # in: 90 ft
OTHER_HAND = {"diagonal left": "diagonal right", "diagonal right": "diagonal left"}
OTHER_END = {"start": "end", "end": "start"}
# Lists of the project whose parts have marks of their own.
PLACED = (
    *(
        "trees",
        "supports",
        "beams",
        "braces",
        "diagonals",
        "crossed_rods",
        "walls",
        "load_areas",
        "point_loads",
        "ground",
        "gates",
    ),
    *("trunk_openings", "limbs", "crossed_rods"),
)


def _copy(thing: Any, **changes: Any) -> Any:
    return thing.model_copy(update=changes)


def _nested(change: Callable[[Any], Any]) -> Change:
    """The change of a point for points, rings and rings of rings."""

    def points(value: Any, part: Any = None) -> Any:
        return change(value) if value and isinstance(value[0], float) else tuple(points(v) for v in value)

    return points


# ---------------------------------------------------------------------------------------------------------
# Drawn elsewhere


def moved(project: Project, matrix: np.ndarray, by: tuple[float, float] = (0.0, 0.0)) -> Project:
    """Every place and direction of the plan turned or mirrored by ``matrix``, then moved.

    Mirrored joists run the other way, so that they still count to the left of the way they run: their start and end
    change places.
    """
    mirrored = bool(np.linalg.det(matrix) < 0)
    project = _with_points(project)

    def point(p: Any) -> Any:
        return tuple(float(v) for v in matrix @ np.array(p) + np.array(by))

    def direction(degrees: float, part: Any) -> float:
        a = math.radians(degrees)
        u = matrix @ np.array([math.cos(a), math.sin(a)])
        way = math.degrees(math.atan2(u[1], u[0]))
        return _back(way) if mirrored and isinstance(part, JoistField) else way

    def north(degrees: float, part: Any) -> float:
        a = math.radians(degrees)
        u = matrix @ np.array([math.sin(a), math.cos(a)])
        return math.degrees(math.atan2(u[0], u[1]))

    def across(off: float, part: Any) -> float:
        a = math.radians(direction(part.direction, part))
        return off + float(np.array([-math.sin(a), math.cos(a)]) @ np.array(by))

    points = _nested(point)
    places = dict.fromkeys((POINT, RING, RINGS), points) | {
        DIRECTION: direction,
        NORTH: north,
        ACROSS: across,
        HAND: lambda way, part: OTHER_HAND.get(way, way) if mirrored else way,
    }
    return _with_joists(project, carried(project, places), point)


def _back(degrees: float) -> float:
    return (degrees + 360) % 360 - 180


def _with_points(project: Project) -> Project:
    """Trunks measured in widths across, by the points that these are: stations do not turn with a plan."""
    trees = {tree.mark: tree for tree in project.trees}
    outlines = tuple(
        _copy(o, widths=(), points=tuple(trunk_outline(project, trees[o.tree]).exterior.coords)[:-1])
        if o.widths
        else o
        for o in project.outlines
    )
    return _copy(project, outlines=outlines)


def _with_joists(base: Project, other: Project, point: Callable[[Any], Any]) -> Project:
    """Marks of joists, and what lies along a joist or at an end of one, as the other drawing numbers and runs them."""
    names = {m.mark for m in _bare_layout(base).joists} if _names_joists(base) else set()
    found = _joists_there(base, other, point) if names else {}
    back = {f.mark for f, g in zip(base.joists, other.joists, strict=True) if _runs_back(f, g, point)}

    def mark(name: str, part: Any) -> str:
        return found[name][0] if name in names else name

    def along(at: float, part: Any) -> float:
        first = part.between[0] if isinstance(part, Blocking) else part.member
        length = found[first][1] if first in names else None
        return at if length is None else length - at

    def end(which: str, part: Any) -> str:
        turned = isinstance(part, Blocking) and (part.joists or base.joists[0].mark) in back
        return OTHER_END[which] if turned else which

    # ``along`` reads the mark that the part still has.
    return carried(other, {FROM_START: along, MEMBER: mark, WHICH_END: end})


def _names_joists(project: Project) -> bool:
    letters = {f.mark for f in project.joists}
    names = [name for b in project.blocking for name in b.between]
    names += [p.member for p in project.point_loads if p.member is not None]
    names += [b.mark for b in project.as_built]
    return any(name.rstrip("0123456789") in letters for name in names)


def _bare_layout(project: Project) -> Layout:
    """Layout of the joists and beams alone."""
    bare: dict[str, Any] = dict.fromkeys(
        (
            *("blocking", "braces", "crossed_rods", "diagonals", "walls"),
            *("point_loads", "guards", "as_built", "load_areas"),
        ),
        (),
    )
    return find_layout(_copy(project, **bare, stairs=Stairs(), ladder=Ladder()))


def _joists_there(
    base: Project, other: Project, point: Callable[[Any], Any]
) -> dict[str, tuple[str, float | None]]:
    """Joist -> its mark in the other drawing, and its length if it runs the other way there."""
    there = _bare_layout(other).joists
    found: dict[str, tuple[str, float | None]] = {}
    for joist in _bare_layout(base).joists:
        ends = [np.array(point(p)) for p in (joist.line.start, joist.line.end)]
        for twin in there:
            for back, pair in ((False, ends), (True, ends[::-1])):
                own = (twin.line.start, twin.line.end)
                if max(math.dist(p, q) for p, q in zip(pair, own, strict=True)) < 0.01:
                    found[joist.mark] = (twin.mark, joist.line.length if back else None)
        assert joist.mark in found, f"{joist.mark} is not in the other drawing"
    return found


def _runs_back(field: JoistField, twin: JoistField, point: Callable[[Any], Any]) -> bool:
    """Whether a field's joists run the other way in the other drawing."""
    a, b = (math.radians(f.direction) for f in (field, twin))
    here, zero = np.array(point((math.cos(a), math.sin(a)))), np.array(point((0.0, 0.0)))
    return float((here - zero) @ np.array([math.cos(b), math.sin(b)])) < 0


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


# ---------------------------------------------------------------------------------------------------------
# Written otherwise


def beam_ends_swapped(project: Project) -> Pair:
    """Start and end of every beam, strap and limb."""
    beams = {c.mark: math.dist(c.start, c.end) for c in project.beams}

    def along(at: float, part: Any) -> float:
        first = part.between[0] if isinstance(part, Blocking) else part.member
        return beams[first] - at if first in beams else at

    def end(which: str, part: Any) -> str:
        return which if isinstance(part, Blocking) else OTHER_END[which]

    def swapped(parts: Any, *pairs: str) -> Any:
        return tuple(
            _copy(
                p,
                **{
                    name.format(here): getattr(p, name.format(OTHER_END[here]))
                    for name in pairs
                    for here in OTHER_END
                },
            )
            for p in parts
        )

    return project, _copy(
        carried(project, {FROM_START: along, WHICH_END: end}),
        beams=swapped(project.beams, "{}"),
        diagonals=swapped(project.diagonals, "{}"),
        limbs=swapped(project.limbs, "{}", "{}_level", "{}_diameter"),
    )


def joists_from_the_other_side(project: Project) -> Pair:
    """Joists at even spacing, so that they lie at the same places from both sides."""
    even = []
    for f in project.joists:
        count = max(1, len(joist_positions(f)) - 1)
        even.append(_copy(f, spacing=(f.last - f.first) / count))
    base = _copy(project, joists=tuple(even))
    back = tuple(_copy(f, direction=_back(f.direction), first=-f.last, last=-f.first) for f in even)
    return base, _with_joists(base, _copy(base, joists=back), lambda point: point)


def permuted_and_renamed(project: Project) -> Pair:
    """Every mark, letter and name of a kind another, and every list in another order."""
    base = _explicit(project)
    rng = random.Random(7)

    def shuffled(things: Any) -> Any:
        found = list(things)
        return tuple(rng.sample(found, len(found)))

    # A hatch's beams have their names from the program.
    kept = {*HEADERS, *TRIMMERS} if base.hatch.given else set()
    placed = [p.mark for name in PLACED for p in getattr(base, name) if p.mark not in kept]
    marks = {name: f"Q{chr(90 - k % 26)}{k}" for k, name in enumerate(placed)}
    letters = {p.mark for p in (*base.joists, *base.blocking, *base.guards)}
    series = {name: f"Q{chr(97 + k)}" for k, name in enumerate(sorted(letters, reverse=True))}
    tables = set(KIND_OF.values())
    kinds = {
        table: {name: f"Q{9 - k}k" for k, name in enumerate(sorted(getattr(base, table)))} for table in tables
    }

    def mark(name: str, part: Any) -> str:
        return marks.get(name, name)

    def member(name: str, part: Any) -> str:
        trunk = name.rstrip("0123456789")
        return marks[name] if name in marks else series.get(trunk, trunk) + name[len(trunk) :]

    def path(paths: Any, part: Any) -> Any:
        words = [p.split(".") for p in paths]
        return tuple(
            ".".join([table, kinds.get(f"{table}s", {}).get(name) or member(name, part), *rest])
            if rest
            else f"{table}.{name}"
            for table, name, *rest in words
        )

    holes = shuffled(range(len(base.platform.openings)))
    renamed = carried(
        base,
        {
            OWN: mark,
            MARK: mark,
            MEMBER: member,
            OWN_LETTERS: lambda name, part: series[name],
            LETTERS: lambda name, part: series[name],
            KINDS: lambda found, table: {kinds[table][k]: found[k] for k in shuffled(found)},
            KIND: lambda name, table: kinds[table][name],
            PATHS: path,
            OPENING: lambda number, part: holes.index(number - 1) + 1,
            RINGS: lambda rings, part: tuple(rings[k] for k in holes),
        },
    )
    lists = [name for name, field in Project.model_fields.items() if isinstance(getattr(base, name), tuple)]
    return base, _copy(
        renamed,
        **{name: shuffled(getattr(renamed, name)) for name in lists},
        loads=_copy(renamed.loads, guard_edges=shuffled(renamed.loads.guard_edges)),
    )


def _explicit(project: Project) -> Project:
    """What goes without saying said: the first field of joists, the rest of an edge."""
    first = project.joists[0].mark
    outline = project.platform.outline

    def whole(part: Any) -> Any:
        if not part.start or part.length is not None:
            return part
        edge = part.edge if hasattr(part, "edge") else part.edges[0]
        return _copy(part, length=_edge_length(outline, edge) - part.start)

    return _copy(
        project,
        blocking=tuple(
            _copy(b, joists=first) if b.kind == "rim" and b.joists is None else b for b in project.blocking
        ),
        hatch=_copy(project.hatch, joists=project.hatch.joists or first)
        if project.hatch.given
        else project.hatch,
        walls=tuple(whole(w) for w in project.walls),
        guards=tuple(whole(g) for g in project.guards),
    )


def _edge_length(ring: Any, edge: int) -> float:
    return math.dist(ring[edge - 1], ring[edge % len(ring)])


def outline_from_the_next_corner(project: Project) -> Pair:
    """Every ring of the file, the outline, openings, regions, areas and trunks."""

    def from_next(ring: Any, part: Any = None) -> Any:
        return (*ring[1:], *ring[:1])

    def edge(number: int, part: Any) -> int:
        return (number - 2) % len(_ring_of(project, part)) + 1

    return project, carried(
        project,
        {RING: from_next, RINGS: lambda rings, part: tuple(map(from_next, rings)), EDGE: edge, EDGE_OF: edge},
    )


def outline_reversed(project: Project) -> Pair:
    """Every ring the other way round, its first corner kept: edge k runs from the corner that ended it."""
    base = _explicit(project)

    def back(ring: Any, part: Any = None) -> Any:
        return (*ring[:1], *ring[:0:-1])

    def edge(number: int, part: Any) -> int:
        return len(_ring_of(base, part)) + 1 - number

    def from_corner(at: float, part: Any) -> float:
        number = part.edge if hasattr(part, "edge") else part.edges[0]
        return _edge_length(_ring_of(base, part), number) - at

    def stretch(at: float, part: Any) -> float:
        return at if part.length is None else from_corner(at, part) - part.length

    return base, carried(
        base,
        {
            RING: back,
            RINGS: lambda rings, part: tuple(map(back, rings)),
            EDGE: edge,
            EDGE_OF: edge,
            FROM_CORNER: from_corner,
            WHICH_POST: lambda which, part: OTHER_END[which],
            STRETCH: stretch,
        },
    )


def _ring_of(project: Project, part: Any) -> Any:
    """The ring whose edges a part counts."""
    opening = getattr(part, "opening", None)
    return project.platform.outline if opening is None else project.platform.openings[opening - 1]


def load_area_in_halves(project: Project) -> Pair:
    """Every load area cut in two across; a platform that has none gets one in its middle."""
    base = project
    if not base.load_areas:
        deck = Polygon(base.platform.outline, base.platform.openings)
        sizes = (scale(deck.convex_hull, f, f, origin="centroid") for f in (0.4, 0.7))
        middle = next(s for s in sizes if s.intersection(deck).area > 144)
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
