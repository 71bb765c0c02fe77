"""The platform from above and one side, parts shaded by ratio, as a drawing and as data for the view that turns."""

from __future__ import annotations

import json
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from bolewright.drawings.bodies import Solid
from bolewright.drawings.order import centre, dot, painting_order, plane_of
from bolewright.drawings.solids import DECKING, solids_of
from bolewright.drawings.words import listed
from bolewright.mechanics.convex import Vec
from bolewright.platform.layout.guards import edge_name
from bolewright.platform.layout.layout import Layout
from bolewright.platform.limit_states.check import Check, Topic, worst
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import Anchor, Drawing, Fill, Item, Layer, Mark, Pen, Polygon, Text
from bolewright.rendering.laying import PAGE_WIDTH_MM, Scale
from bolewright.rendering.shades import FAILING, OPEN, SHADES, shade_of
from bolewright.rendering.svg import to_svg
from bolewright.status import Status

YAWS, PITCH = (-35.0, -25.0, -45.0, 35.0, 25.0, 45.0), 28.0  # degrees: turned from the front, tilted down
_WIDE, _HIGH = 172.0, 152.0  # mm: with heading, key and caption a page of letter paper
_MILLIMETRES = (Scale(1 / 25.4, ""),)
TREE, GATE = "tree", "gate"
_TRUNK = "#e3ddd2"
_PLAIN = "#ffffff"
_TRUNK_OVER = 18.0  # in over the guard: as far as a trunk is shown
_DUG = 12.0  # in below grade: as far down as a footing is shown
_EACH = 12  # joists up to which each has its label
_GUARDS = 7  # rows of posts, edges and gates up to which each has its label
_ROUND = 12  # faces of a body beyond which it stands for a round one


@dataclass(frozen=True)
class Seen:
    """A part of the view: its name, what it is, its checks, the worst first."""

    name: str
    what: str
    checks: tuple[Check, ...]

    @property
    def colour(self) -> str:
        """Shade of its worst check."""
        if self.checks:
            return shade_of(self.checks[0].status, self.checks[0].ratio).fill
        return _TRUNK if self.what == TREE else _PLAIN

    @property
    def ratio(self) -> str:
        """Worst ratio as written, or that a check is open."""
        if not self.checks:
            return ""
        return self.checks[0].shown_ratio


_MANY = (Layer.JOISTS, Layer.BLOCKING, Layer.GUARD)


def part_of(solid: Solid) -> str:
    """Name of the part a solid belongs to: its mark, with the footing told from the post on it."""
    return f"footing {solid.mark}" if solid.layer is Layer.FOOTINGS else solid.mark


def shown_solids(results: Results) -> list[Solid]:
    """Solids of the view: a post in concrete from grade on, a trunk up to the guard, the head of a footing.

    Guards and walls that are no parts, only weights on an edge, are left out.
    """
    solids = [solid for solid in solids_of(results) if solid.fill is not Fill.NONE]
    filled = {s.mark for s in solids if s.layer is Layer.FOOTINGS and max(z for _, _, z in s.points) >= 0}
    platform = results.project.platform
    top = platform.floor_height + results.project.loads.guard_height + _TRUNK_OVER

    def part(solid: Solid) -> Solid:
        if solid.layer is Layer.POSTS and solid.mark in filled:
            return _between(solid, 0.0, math.inf)
        if solid.layer is Layer.TRUNK:
            return _between(solid, 0.0, top)
        return _between(solid, -_DUG, math.inf) if solid.layer is Layer.FOOTINGS else solid

    return [part(solid) for solid in solids]


def _between(solid: Solid, low: float, high: float) -> Solid:
    """An upright body cut off below and above a level."""
    return replace(
        solid,
        faces=tuple(tuple((x, y, min(max(z, low), high)) for x, y, z in face) for face in solid.faces),
    )


def seen_parts(results: Results, solids: Iterable[Solid]) -> dict[str, Seen]:
    """Every part of the view with its checks."""
    layout = results.path.layout
    parts: dict[str, Seen] = {}
    for solid in solids:
        name = part_of(solid)
        if name not in parts:
            footing = solid.layer is Layer.FOOTINGS
            checks = [
                c for c in results.checks if c.part == solid.mark and (c.topic is Topic.FOOTINGS) == footing
            ]
            parts[name] = Seen(name, _what(layout, solid), tuple(worst(checks)))
    return parts


def _what(layout: Layout, solid: Solid) -> str:
    project = layout.project
    support = next((s for s in layout.supports if s.mark == solid.mark), None)
    brace = next((b for b in project.braces if b.mark == solid.mark), None)
    if solid.layer in (Layer.JOISTS, Layer.BLOCKING, Layer.BEAMS):
        member = layout.member(solid.mark)
        return f"{member.kind.value} {member.section.name}"
    if solid.layer is Layer.FOOTINGS:
        return "footing"
    if support is not None and support.kind == SupportKind.KNEE_BRACE:
        return f"knee brace {project.struts[support.strut or ''].section} from the trunk"
    if support is not None:
        return (
            "tree bolt"
            if support.kind == SupportKind.TREE_BOLT
            else f"post {project.posts[support.post or ''].section}"
        )
    if solid.layer is Layer.GUARD:
        return _what_of_guard(layout, solid.mark)
    if any(rods.mark == solid.mark for rods in project.crossed_rods):
        return "crossed rods between posts"
    if brace is not None:
        return f"knee brace {brace.section}"
    return (
        project.decking.section if solid.mark == DECKING else "strap" if solid.layer is Layer.BRACES else TREE
    )


def _what_of_guard(layout: Layout, mark: str) -> str:
    for run in layout.guards:
        if mark == edge_name(run):
            return f"guard: cap {run.guard.cap}, rails {run.guard.top_rail} and {run.guard.bottom_rail}"
        if any(post.mark == mark for post in run.posts):
            return f"guard post {run.guard.section}"
    return GATE


def eye(yaw: float, pitch: float) -> tuple[Vec, Vec, Vec]:
    """Directions on paper to the right and up, and towards the viewer."""
    a, b = math.radians(yaw), math.radians(pitch)
    right = (math.cos(a), math.sin(a), 0.0)
    toward = (math.sin(a) * math.cos(b), -math.cos(a) * math.cos(b), math.sin(b))
    up = (-math.sin(a) * math.sin(b), math.cos(a) * math.sin(b), math.cos(b))
    return right, up, toward


def view_from_above(results: Results) -> Drawing:
    """The framing from above and one side, without decking, shaded by ratio, with marks and ratios."""
    layout = results.path.layout
    solids = [s for s in shown_solids(results) if s.layer is not Layer.DECKING]
    parts = seen_parts(results, solids)
    look = _start(layout, solids)
    right, up, toward = eye(*look)
    left, low, wide, high = _frame(solids, look)
    size = min(_WIDE / wide, _HIGH / high)
    aside = (_WIDE - wide * size) / 2

    def put(p: Vec) -> tuple[float, float]:
        return (aside + (dot(right, p) - left) * size, (dot(up, p) - low) * size)

    items: list[Item] = []
    for number in painting_order(solids, toward):
        solid = solids[number]
        colour = parts[part_of(solid)].colour
        inside = centre(solid.points)
        for face in solid.faces:
            n = plane_of(face, inside).n
            if dot(n, toward) > 1e-6:
                highlighted = _shaded(colour, n)
                pen = Pen.NONE if len(solid.faces) > _ROUND and len(face) == 4 else Pen.SOLID
                items.append(Polygon(tuple(put(p) for p in face), Layer.NOTES, Fill.NONE, pen, highlighted))
    items += _labels(solids, parts, put)
    items += _key()
    worst_part = next(c for c in results.governing)
    alt = (
        f"View of the framing from above, parts shaded by ratio. Worst: {worst_part.part}, {worst_part.limit_state}. "
        f"Parts: {listed(name for name in parts)}."
    )
    return Drawing("View, shaded by ratio", tuple(items), alt, scale_bar=False)


def _frame(solids: Sequence[Solid], look: tuple[float, float]) -> tuple[float, float, float, float]:
    """Left and lower border of the view from a side, its width and its height (in)."""
    right, up, _ = eye(*look)
    corners = np.array([p for solid in solids for p in solid.points])
    flat = corners @ np.array([right, up]).T
    (left, low), (wide, high) = flat.min(axis=0), np.ptp(flat, axis=0)
    return float(left), float(low), float(wide), float(high)


def _start(layout: Layout, solids: Sequence[Solid]) -> tuple[float, float]:
    """Yaw and pitch at the start: the posts in front, the trunk behind; of such, where all is seen largest."""
    posts = [s.at for s in layout.supports if s.kind == SupportKind.POST]
    behind = bool(posts) and sum(y for _, y in posts) / len(posts) > layout.deck.centroid.y
    from_front = 180.0 if behind else 0.0

    def size(yaw: float) -> float:
        _, _, wide, high = _frame(solids, (yaw + from_front, PITCH))
        return round(min(_WIDE / wide, _HIGH / high), 9)

    return (max(YAWS, key=size) + from_front, PITCH)


def _shaded(colour: str, normal: Vec) -> str:
    """A colour a little darker on faces turned away from the light."""
    light = 0.86 + 0.14 * max(0.0, 0.3 * normal[0] - 0.2 * normal[1] + 0.9 * normal[2])
    channels = [round(int(colour[i : i + 2], 16) * light) for i in (1, 3, 5)]
    return "#" + "".join(f"{channel:02x}" for channel in channels)


def _labels(solids: list[Solid], parts: dict[str, Seen], put: Any) -> list[Item]:
    """Mark and ratio of every part; the worst of each row of blocking, of a guard's posts and edges.

    Of joists too where there are many, of all guards where there are many. The list beside the view that turns has
    every one.
    """
    rows: dict[str, list[str]] = {}
    many = len({s.mark for s in solids if s.layer is Layer.JOISTS}) > _EACH
    guards = {_row(s.mark) for s in solids if s.layer is Layer.GUARD}
    for solid in solids:
        if solid.layer is Layer.GUARD and len(guards) > _GUARDS and parts[solid.mark].what != GATE:
            rows.setdefault("all edges" if "on edge" in solid.mark else "all posts", []).append(solid.mark)
        elif solid.layer in (Layer.BLOCKING, Layer.GUARD) or (many and solid.layer is Layer.JOISTS):
            rows.setdefault(_row(solid.mark), []).append(solid.mark)
    shown = {max(marks, key=lambda m: _rank(parts[m])) for marks in rows.values()}
    shown |= set() if many else {s.mark for s in solids if s.layer is Layer.JOISTS}
    items: list[Item] = []
    done: set[str] = set()
    for solid in solids:
        name = part_of(solid)
        if name in done or (solid.layer in _MANY and name not in shown):
            continue
        done.add(name)
        seen = parts[name]
        status = (
            f" {seen.checks[0].status.mark}"
            if seen.checks and seen.checks[0].status is not Status.PASSES
            else ""
        )
        words = f"{name} {seen.ratio}{status}".strip()
        items.append(Mark(put(centre(solid.points)), words, radius=2.0, shift=(0.0, 0.0)))
    return items


def _row(mark: str) -> str:
    """What the parts of a row have in common: ``BA`` of ``BA2``, ``G on edge`` of ``G on edge 3``."""
    of, edge, _ = mark.partition(" on edge ")
    return of.rstrip("0123456789") + edge


def _rank(seen: Seen) -> float:
    if not seen.checks:
        return -1.0
    return {Status.FAILS: 100.0, Status.NOT_CHECKED: 50.0, Status.PASSES: 0.0}[seen.checks[0].status] + (
        min(seen.checks[0].severity, 1000.0)
    )


def _key() -> list[Item]:
    """What the shades mean."""
    items: list[Item] = []
    x = 0.0
    for shade in (*SHADES, FAILING, OPEN):
        box = ((x, -11.0), (x + 4.0, -11.0), (x + 4.0, -7.5), (x, -7.5))
        items.append(Polygon(box, Layer.NOTES, Fill.NONE, colour=shade.fill))
        items.append(Text((x + 5.0, -9.3), shade.words, 2.1, Anchor.START))
        x += 9.0 + 1.75 * len(shade.words)
    return items


def scene_of(results: Results) -> str:
    """The view as data for the page: corners, faces, parts with their checks, colours."""
    layout = results.path.layout
    solids = shown_solids(results)
    parts = seen_parts(results, solids)
    names = list(parts)
    yaw, pitch = _start(layout, [s for s in solids if s.layer is not Layer.DECKING])
    data = {
        "yaw": yaw,
        "pitch": pitch,
        "key": [[shade.fill, shade.words] for shade in (*SHADES, FAILING, OPEN)],
        "parts": [_part_data(parts[name]) for name in names],
        "solids": [_solid_data(solid, names.index(part_of(solid))) for solid in solids],
    }
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


def _part_data(seen: Seen) -> dict[str, Any]:
    return {
        "name": seen.name,
        "what": seen.what,
        "ratio": seen.ratio,
        "status": seen.checks[0].status.value if seen.checks else "",
        "mark": seen.checks[0].status.mark if seen.checks else "",
        "fill": seen.colour,
        "checks": [
            [
                check.limit_state,
                "" if check.status is Status.NOT_CHECKED else check.shown_ratio,
                f"{check.status.mark} {check.status.value}",
            ]
            for check in seen.checks
        ],
    }


def _solid_data(solid: Solid, part: int) -> dict[str, Any]:
    points = list(dict.fromkeys((round(x, 2), round(y, 2), round(z, 2)) for x, y, z in solid.points))
    place = {point: number for number, point in enumerate(points)}
    faces = [[place[(round(x, 2), round(y, 2), round(z, 2))] for x, y, z in face] for face in solid.faces]
    marked = solid.layer not in (Layer.DECKING, *_MANY, Layer.FOOTINGS, Layer.HARDWARE)
    x, y, z = centre(solid.points)
    if solid.layer is Layer.TRUNK:  # above the floor, clear of the bolts' marks
        z = max(level for _, _, level in solid.points) - 12.0
    return {
        "p": part,
        "deck": int(solid.layer is Layer.DECKING),
        "m": int(marked),
        "l": (round(x, 2), round(y, 2), round(z, 2)),
        "v": points,
        "f": faces,
    }


def turning_view(results: Results) -> Figure:
    """The view as a figure: it turns where there is a script, and stands still in print."""
    drawing = view_from_above(results)
    caption = (
        "The framing shaded by ratio; footings are shown down to 1 ft below grade. On screen: drag or use the arrow "
        "keys to turn it, point at a part or choose it from the list for its checks."
    )
    return Figure(
        to_svg(drawing, PAGE_WIDTH_MM, 178.0, _MILLIMETRES), caption, drawing.alt, scene_of(results)
    )
