"""Wind on an open platform from any direction: what faces it, and its force by ASCE 7-16.

The basic wind speed comes from any horizontal direction (26.5.1). Its force runs along the wind, on the area projected
on a plane square to it (29.4 and Figure 29.4-2, notes): each guard and wall by the width that it shows to that
direction, the framing by the width of the platform across it. So no direction of the paper is marked out. The
coefficient of a face that is met aslant is that of a face met square, on the safe side.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np

from bolewright.bracing.wind import (
    DIRECTIONALITY,
    GUST,
    area_facing,
    ground_elevation_factor,
    open_force_coefficient,
    solid_force_coefficient,
    terrain,
    velocity_exposure_coefficient,
    velocity_pressure,
    wind_force,
    wind_pressure,
)
from bolewright.calculation import Calculation
from bolewright.platform.layout.guards import edge_name
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import LayoutError
from bolewright.platform.loads.access_wind import shown_by_access
from bolewright.platform.loads.brace_wind import shown_by_braces
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.sections import parse_section
from bolewright.units import feet_inches

POST_C_F = 2.0  # square sections, wind on a face: the largest of ASCE 7-16 Figure 29.4-1
POST_DIAGONAL_C_F = 1.5  # the same, wind along the diagonal, on the diagonal's width
SHOWN = 1.0  # in: a face that shows less width than this to the wind is not listed


@dataclass(frozen=True)
class Face:
    """What faces the wind in one direction: force (lb), place across the wind and height (in).

    ``size`` height and width (in) and solidity; ``top`` height of the platform's top, at which the wind is taken.
    """

    name: str
    force: float
    across: float
    height: float
    size: tuple[float, float, float]
    C_f: float
    top: float


@dataclass(frozen=True)
class Wind:
    """Wind in one direction: total force, its place across and height, width of the platform across (in).

    ``across`` is measured to the right of the wind, so that force times it is the moment about the plan's origin.
    """

    faces: tuple[Face, ...]
    force: float
    across: float
    height: float
    width: float


@dataclass(frozen=True)
class Upright:
    """A guard or wall along an edge of the deck: name, its ends in plan, height (in) and solidity."""

    name: str
    start: Vector
    end: Vector
    height: float
    solidity: float


def edge_uprights(path: LoadPath) -> list[Upright]:
    """Guards and walls that catch wind. Raises LayoutError for a wall on an edge that is not there or too short.

    A guard is left out where a wall as tall stands on the whole of its edge.
    """
    project = path.layout.project
    outline, loads = project.platform.outline, project.loads
    found, walled = [], set()
    for wall in project.walls:
        if wall.edge > len(outline):
            raise LayoutError(
                f"Wall {wall.mark} stands on edge {wall.edge}, but the outline has {len(outline)} edges."
            )
        a, b = outline[wall.edge - 1], outline[wall.edge % len(outline)]
        whole = math.dist(a, b)
        end = whole if wall.length is None else wall.start + wall.length
        if not wall.start < end <= whole + 1.0:
            raise LayoutError(
                f"Wall {wall.mark} does not fit on edge {wall.edge}, which is {feet_inches(whole)} long."
            )
        if wall.start < 1 and end > whole - 1 and wall.height >= loads.guard_height:
            walled.add(wall.edge)
        one, other = (
            (a[0] + (b[0] - a[0]) * s / whole, a[1] + (b[1] - a[1]) * s / whole)
            for s in (wall.start, min(end, whole))
        )
        found.append(Upright(f"wall {wall.mark}", one, other, wall.height, wall.solidity))
    for edge in loads.guard_edges:
        if edge not in walled:
            start, end_ = outline[edge - 1], outline[edge % len(outline)]
            name = f"guard on edge {edge}"
            found.append(Upright(name, start, end_, loads.guard_height, loads.guard_solidity))
    for run in path.layout.guards:
        if run.guard.opening is not None:
            start, end_ = run.line.start, run.line.end
            found.append(Upright(edge_name(run), start, end_, loads.guard_height, loads.guard_solidity))
    return found


@dataclass(frozen=True)
class Winds:
    """Wind from any direction on what can face it.

    ``faces`` at one inch of width each: first those on edges, ``ends`` in plan (faces, 2, 2), then the framing, then
    posts, then stairs, ladder, knee braces and rods. ``rim`` the corners of the platform (points, 2), ``posts``
    the place of each post; a post shows its width ``across`` (in) to every wind. ``hung`` the places of the last,
    ``hung_along`` the directions of their edges or beams, ``hung_widths`` what they show to wind along those and across
    them (in).
    """

    faces: tuple[Face, ...]
    ends: Array
    rim: Array
    posts: Array
    across: Array
    hung: Array
    hung_along: Array
    hung_widths: Array

    @cached_property
    def _per_inch(self) -> Array:
        return np.array([f.force for f in self.faces])

    def shown(self, d: Array) -> tuple[Array, Array, Array, Array]:
        """What is shown to winds in unit directions (directions, 2).

        Returns force of each face (directions, faces), its place to the right of the wind, the platform's width across
        each wind, and the middle of that width.
        """
        right = np.stack([d[:, 1], -d[:, 0]], axis=1)
        at = self.ends @ right.T
        spread = self.rim @ right.T
        low, high = spread.min(axis=0), spread.max(axis=0)
        own = len(self.ends)
        width = np.empty((len(d), len(self.faces)))
        place = np.empty_like(width)
        width[:, :own], place[:, :own] = np.abs(at[:, 1] - at[:, 0]).T, at.mean(axis=1).T
        width[:, own], place[:, own] = high - low, (high + low) / 2
        last = own + 1 + len(self.posts)
        width[:, own + 1 : last], place[:, own + 1 : last] = self.across, (self.posts @ right.T).T
        width[:, last:] = np.abs(d @ self.hung_along.T) * self.hung_widths[:, 0]
        width[:, last:] += np.abs(right @ self.hung_along.T) * self.hung_widths[:, 1]
        place[:, last:] = (self.hung @ right.T).T
        return self._per_inch * width, place, high - low, width

    def sums(self, d: Array) -> tuple[Array, Array, Array, Array]:
        """Force (lb), its place to the right of the wind and its height, and the platform's width across (in)."""
        force, place, broad, _ = self.shown(d)
        total = force.sum(axis=1)
        heights = np.array([f.height for f in self.faces])
        return total, (force * place).sum(axis=1) / total, force @ heights / total, broad

    def towards(self, d: Vector) -> Wind:
        """Wind in one direction, with each face that it meets."""
        one = np.array([d])
        force, place, _, width = self.shown(one)
        total, across, height, broad = (float(v[0]) for v in self.sums(one))
        faces = tuple(
            replace(f, force=float(F), across=float(a), size=(f.size[0], float(w), f.size[2]))
            for f, F, a, w in zip(self.faces, force[0], place[0], width[0], strict=True)
            if w >= SHOWN
        )
        return Wind(faces, total, across, height, broad)

    @property
    def reach(self) -> float:
        """Half the greatest distance between two corners of the platform (in)."""
        apart = self.rim[:, None, :] - self.rim
        return float(np.hypot(apart[..., 0], apart[..., 1]).max() / 2)


def find_winds(path: LoadPath) -> Winds:
    """Wind on guards and walls, on the framing as one solid face, half of posts, on access, knee braces and rods."""
    layout = path.layout
    project = layout.project
    points = [*project.platform.outline, *(p for c in layout.beams for p in (c.line.start, c.line.end))]
    floor = project.platform.floor_height
    uprights = edge_uprights(path)
    top = floor + max((u.height for u in uprights), default=0.0)
    faces = [_face(path, u.name, (u.height, 1.0, u.solidity), floor + u.height / 2, top) for u in uprights]
    bottom = min(c.bottom for c in layout.beams)
    faces.append(_face(path, "framing", (floor - bottom, 1.0, 1.0), (floor + bottom) / 2, top))
    posts, across = [], []
    for support in layout.supports:
        if support.kind == SupportKind.POST:
            section = parse_section(project.posts[support.post or ""].section)
            level = layout.seat_level(support.mark)
            flat = (max(section.b, section.d), POST_C_F)
            aslant = (math.hypot(section.b, section.d), POST_DIAGONAL_C_F)
            width, C_f = max(flat, aslant, key=lambda way: way[0] * way[1])
            half = (level / 2, 1.0, 1.0)  # the other half goes into the ground
            faces.append(_face(path, support.mark, half, level, top, C_f))
            posts.append(support.at)
            across.append(width)
    hung = [*shown_by_access(layout), *shown_by_braces(layout)]
    faces += [_face(path, one.name, (one.high, 1.0, 1.0), one.height, top, one.C_f) for one in hung]
    return Winds(
        faces=tuple(faces),
        ends=np.array([(u.start, u.end) for u in uprights]).reshape(-1, 2, 2),
        rim=np.array(points),
        posts=np.array(posts).reshape(-1, 2),
        across=np.array(across),
        hung=np.array([one.at for one in hung]).reshape(-1, 2),
        hung_along=np.array([one.along for one in hung]).reshape(-1, 2),
        hung_widths=np.array([(one.side / one.high, one.front / one.high) for one in hung]).reshape(-1, 2),
    )


def _face(
    path: LoadPath,
    name: str,
    size: tuple[float, float, float],
    height: float,
    top: float,
    C_f: float | None = None,
) -> Face:
    epsilon = size[2]
    if C_f is None:
        C_f = solid_force_coefficient() if epsilon >= 1 else open_force_coefficient(epsilon)
    face = Face(name, 0.0, 0.0, height, size, C_f, top)
    return replace(face, force=run_face(Calculation().run, path, face))


def run_face(run: Callable[..., Any], path: LoadPath, face: Face) -> float:
    """Wind force on a face, from the wind speed on."""
    site = path.layout.project.site
    ground = terrain(site.exposure)
    K_z = run(velocity_exposure_coefficient, z=face.top / 12, z_g=ground.z_g, alpha=ground.alpha)
    K_e = run(ground_elevation_factor, z_e=site.elevation)
    q_z = run(velocity_pressure, K_z=K_z, K_zt=site.K_zt, K_d=DIRECTIONALITY, K_e=K_e, V=site.wind_speed)
    p = run(wind_pressure, q_z=q_z, G=GUST, C_f=face.C_f)
    h, w, epsilon = face.size
    A_f = run(area_facing, h=h / 12, w=w / 12, epsilon=epsilon)
    return float(run(wind_force, p=p, A_f=A_f))
