"""Wind on an open platform: what faces it along x and along y, and its force by ASCE 7-16."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

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
from bolewright.platform.lines import Vector
from bolewright.platform.load_path import LoadPath
from bolewright.platform.parts import LayoutError
from bolewright.timber.sections import parse_section
from bolewright.units import feet_inches

POST_C_F = 2.0  # square sections, the largest of ASCE 7-16 Figure 29.4-1


@dataclass(frozen=True)
class Face:
    """What faces the wind along one axis: force (lb), place across the wind and height (in).

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
    """Wind along one axis: total force, its place across and height, width of the platform across (in)."""

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
    return found


def find_wind(path: LoadPath, axis: int) -> Wind:
    """Wind along x (axis 0) or y (axis 1): guards and walls, the framing as one solid face, and half of each post."""
    layout = path.layout
    project = layout.project
    outline = project.platform.outline
    cross = 1 - axis
    points = [*outline, *(p for c in layout.carriers for p in (c.line.start, c.line.end))]
    low, high = min(p[cross] for p in points), max(p[cross] for p in points)
    floor = project.platform.floor_height
    uprights = edge_uprights(path)
    top = floor + max((u.height for u in uprights), default=0.0)
    faces = []
    for u in uprights:
        width = abs(u.end[cross] - u.start[cross])
        if width > 1:
            face = (u.height, width, u.solidity)
            middle = (u.start[cross] + u.end[cross]) / 2
            faces.append(_face(path, u.name, face, middle, floor + u.height / 2, top))
    bottom = min(c.bottom for c in layout.carriers)
    faces.append(
        _face(path, "framing", (floor - bottom, high - low, 1.0), (low + high) / 2, (floor + bottom) / 2, top)
    )
    for support in layout.supports:
        if support.kind == "post":
            section = parse_section(project.posts[support.post or ""].section)
            level = layout.seat_level(support.mark)
            size = (level / 2, max(section.b, section.d), 1.0)  # the other half goes into the ground
            faces.append(_face(path, support.mark, size, support.at[cross], level, top, POST_C_F))
    force = sum(f.force for f in faces)
    return Wind(
        faces=tuple(faces),
        force=force,
        across=sum(f.force * f.across for f in faces) / force,
        height=sum(f.force * f.height for f in faces) / force,
        width=high - low,
    )


def _face(
    path: LoadPath,
    name: str,
    size: tuple[float, float, float],
    across: float,
    height: float,
    top: float,
    C_f: float | None = None,
) -> Face:
    epsilon = size[2]
    if C_f is None:
        C_f = solid_force_coefficient() if epsilon >= 1 else open_force_coefficient(epsilon)
    face = Face(name, 0.0, across, height, size, C_f, top)
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
