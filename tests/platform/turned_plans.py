"""Plans turned and mirrored: the same platform drawn another way on the paper."""

from __future__ import annotations

import math

import numpy as np

from bolewright.platform.project import Project


def rotation(degrees: float) -> np.ndarray:
    a = math.radians(degrees)
    return np.array([[math.cos(a), -math.sin(a)], [math.sin(a), math.cos(a)]])


def transformed(project: Project, turn: np.ndarray, mirrored: bool) -> Project:
    """The same platform with every plan point turned; the joists' directions with it."""

    def point(p):
        return tuple(float(v) for v in turn @ np.array(p))

    def ring(points):
        return tuple(point(p) for p in points)

    def direction(angle: float) -> float:
        # A mirrored field counts its joists the same way when it runs backwards along its mirrored direction.
        u = turn @ np.array([math.cos(math.radians(angle)), math.sin(math.radians(angle))])
        return math.degrees(math.atan2(*(-u if mirrored else u)[::-1]))

    def bored(angle: float | None) -> float | None:
        if angle is None:
            return None
        u = turn @ np.array([math.cos(math.radians(angle)), math.sin(math.radians(angle))])
        return math.degrees(math.atan2(u[1], u[0]))

    platform = project.platform
    return project.model_copy(
        update={
            "platform": platform.model_copy(
                update={
                    "outline": ring(platform.outline),
                    "openings": tuple(ring(opening) for opening in platform.openings),
                }
            ),
            "trees": tuple(tree.model_copy(update={"at": point(tree.at)}) for tree in project.trees),
            "hatch": project.hatch.model_copy(
                update={"at": None if project.hatch.at is None else point(project.hatch.at)}
            ),
            "supports": tuple(
                s.model_copy(update={"at": point(s.at), "direction": bored(s.direction)})
                for s in project.supports
            ),
            "beams": tuple(
                c.model_copy(update={"start": point(c.start), "end": point(c.end)}) for c in project.beams
            ),
            "diagonals": tuple(
                d.model_copy(update={"start": point(d.start), "end": point(d.end)}) for d in project.diagonals
            ),
            "joists": tuple(
                f.model_copy(
                    update={
                        "direction": direction(f.direction),
                        "region": ring(f.region) if f.region is not None else None,
                    }
                )
                for f in project.joists
            ),
        }
    )


def shifted(project: Project, dx: float, dy: float) -> Project:
    """The same platform somewhere else on the paper."""

    def point(p):
        return p[0] + dx, p[1] + dy

    def ring(points):
        return tuple(point(p) for p in points)

    def moved(field):
        a = math.radians(field.direction)
        off = dy * math.cos(a) - dx * math.sin(a)
        region = ring(field.region) if field.region is not None else None
        return field.model_copy(
            update={"first": field.first + off, "last": field.last + off, "region": region}
        )

    platform = project.platform
    return project.model_copy(
        update={
            "platform": platform.model_copy(
                update={
                    "outline": ring(platform.outline),
                    "openings": tuple(ring(opening) for opening in platform.openings),
                }
            ),
            "trees": tuple(t.model_copy(update={"at": point(t.at)}) for t in project.trees),
            "hatch": project.hatch.model_copy(
                update={"at": None if project.hatch.at is None else point(project.hatch.at)}
            ),
            "supports": tuple(s.model_copy(update={"at": point(s.at)}) for s in project.supports),
            "beams": tuple(
                c.model_copy(update={"start": point(c.start), "end": point(c.end)}) for c in project.beams
            ),
            "diagonals": tuple(
                d.model_copy(update={"start": point(d.start), "end": point(d.end)}) for d in project.diagonals
            ),
            "joists": tuple(moved(f) for f in project.joists),
        }
    )


def swapped_ends(project: Project) -> Project:
    """The same platform with every beam drawn from its other end."""
    other = {"start": "end", "end": "start"}
    return project.model_copy(
        update={
            "beams": tuple(c.model_copy(update={"start": c.end, "end": c.start}) for c in project.beams),
            "braces": tuple(b.model_copy(update={"towards": other[b.towards]}) for b in project.braces),
        }
    )
