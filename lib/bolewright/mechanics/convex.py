"""Convex bodies with plane faces, and how far two of them lie in each other. Inches: x, y in plan, z up."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cached_property

import numpy as np
import numpy.typing as npt

Vec = tuple[float, float, float]
Face = tuple[Vec, ...]
Array = npt.NDArray[np.float64]

SIDES = 24  # of a many-sided plan that stands for a circle
_SAME = 1e-6  # directions closer than this are one


class Convex:
    """A convex body by its faces: the corners, the directions square to its faces, and those of its edges."""

    def __init__(self, faces: Sequence[Face]) -> None:
        self._faces = faces
        self.points: Array = np.array([point for face in faces for point in face], dtype=float)
        self.low: Array = self.points.min(axis=0)
        self.high: Array = self.points.max(axis=0)

    @cached_property
    def normals(self) -> Array:
        """Directions square to the faces."""
        return _directions(np.array([_normal(face) for face in self._faces]))

    @cached_property
    def edges(self) -> Array:
        """Directions of the edges."""
        corners = [np.array(face, dtype=float) for face in self._faces]
        return _directions(np.vstack([np.roll(face, -1, axis=0) - face for face in corners]))


def _normal(face: Face) -> Vec:
    """Direction square to a plane face, by Newell's sum: also where its first corners lie on one line."""
    pairs = list(zip(face, (*face[1:], face[0]), strict=True))
    return (
        sum(a[1] * b[2] - a[2] * b[1] for a, b in pairs),
        sum(a[2] * b[0] - a[0] * b[2] for a, b in pairs),
        sum(a[0] * b[1] - a[1] * b[0] for a, b in pairs),
    )


def _directions(vectors: Array) -> Array:
    """Unit vectors of those that have a length, each direction once, whichever way it points."""
    lengths = np.linalg.norm(vectors, axis=1)
    units = vectors[lengths > _SAME] / lengths[lengths > _SAME, None]
    for axis in range(3):  # the first component that is not zero points the positive way
        sign = np.where(np.abs(units[:, axis]) > _SAME, np.sign(units[:, axis]), 0.0)
        settled = (
            np.zeros(len(units), dtype=bool) if axis == 0 else np.abs(units[:, :axis]).max(axis=1) > _SAME
        )
        units = np.where(((sign < 0) & ~settled)[:, None], -units, units)
    kept: Array = np.unique(np.round(units, 9), axis=0)
    return kept


def depth_of_overlap(one: Convex, other: Convex) -> float:
    """How far one convex body would have to move to lie clear of another (in); 0 where they touch or lie apart.

    By the separating axes: the least overlap of their shadows along the directions square to their faces and to pairs
    of their edges (C. Ericson, Real-Time Collision Detection, 2005, 5.2.1 and 4.4.1, for polyhedra).
    """
    if np.any(np.minimum(one.high, other.high) - np.maximum(one.low, other.low) <= 0):
        return 0.0
    pairs = np.cross(one.edges[:, None, :], other.edges[None, :, :]).reshape(-1, 3)
    lengths = np.linalg.norm(pairs, axis=1)
    across = pairs[lengths > _SAME] / lengths[lengths > _SAME, None]
    axes = np.vstack([one.normals, other.normals, across])
    here, there = one.points @ axes.T, other.points @ axes.T
    past = np.minimum(here.max(axis=0) - there.min(axis=0), there.max(axis=0) - here.min(axis=0))
    return max(0.0, float(past.min()))


def faces_of(profile: Face, along: Vec) -> tuple[Face, ...]:
    """Faces of a body with a plane profile drawn along a direction."""
    far = tuple((x + along[0], y + along[1], z + along[2]) for x, y, z in profile)
    pairs = list(zip(profile, far, strict=True))
    sides = tuple((a, b, d, c) for (a, c), (b, d) in zip(pairs, [*pairs[1:], pairs[0]], strict=True))
    return (profile, far, *sides)


def upright(plan: Sequence[tuple[float, float]], low: float, high: float) -> tuple[Face, ...]:
    """Faces of an upright body over a plan outline."""
    return faces_of(tuple((x, y, low) for x, y in plan), (0.0, 0.0, high - low))


def round_plan(at: tuple[float, float], radius: float, sides: int = SIDES) -> list[tuple[float, float]]:
    """Corners of a many-sided plan that stands for a circle."""
    turns = [2 * math.pi * k / sides for k in range(sides)]
    return [(at[0] + radius * math.cos(turn), at[1] + radius * math.sin(turn)) for turn in turns]


def turned_square(
    at: tuple[float, float], b: float, d: float, u: tuple[float, float]
) -> list[tuple[float, float]]:
    """Corners of a rectangle ``b`` along ``u`` and ``d`` across it."""
    return [
        (at[0] + i * b / 2 * u[0] - j * d / 2 * u[1], at[1] + i * b / 2 * u[1] + j * d / 2 * u[0])
        for i, j in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    ]
