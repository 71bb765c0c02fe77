"""Order in which convex bodies are painted, so that what is nearer covers what is farther."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bolewright.drawings.bodies import Solid
from bolewright.mechanics.convex import Face, Vec

_CLOSE = 0.02  # in: bodies that touch count as apart


@dataclass(frozen=True)
class Plane:
    """Plane of a face: a point's distance outside it is ``n . p - d``."""

    n: Vec
    d: float

    def outside(self, points: Sequence[Vec]) -> bool:
        """Whether all points lie outside."""
        return all(dot(self.n, p) - self.d > -_CLOSE for p in points)


def dot(a: Vec, b: Vec) -> float:
    """Scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def centre(points: Sequence[Vec]) -> Vec:
    """Mean of points."""
    count = len(points)
    return (
        sum(p[0] for p in points) / count,
        sum(p[1] for p in points) / count,
        sum(p[2] for p in points) / count,
    )


def plane_of(face: Face, inside: Vec) -> Plane:
    """Plane of a face, its normal of length one pointing away from a point inside the body."""
    x = y = z = 0.0
    for (x0, y0, z0), (x1, y1, z1) in zip(face, (*face[1:], face[0]), strict=True):
        x += (y0 - y1) * (z0 + z1)
        y += (z0 - z1) * (x0 + x1)
        z += (x0 - x1) * (y0 + y1)
    size = (x * x + y * y + z * z) ** 0.5 or 1.0
    n = (x / size, y / size, z / size)
    d = dot(n, face[0])
    return Plane((-n[0], -n[1], -n[2]), -d) if dot(n, inside) > d else Plane(n, d)


def painting_order(solids: Sequence[Solid], toward: Vec) -> list[int]:
    """Numbers of the solids, the farthest first; ``toward`` points from the bodies to the viewer."""
    points = [tuple(dict.fromkeys(solid.points)) for solid in solids]
    planes = [
        [plane_of(face, centre(own)) for face in solid.faces]
        for solid, own in zip(solids, points, strict=True)
    ]

    def before(a: int, b: int) -> bool:
        """Whether body a lies behind body b."""
        return any(dot(p.n, toward) > 1e-9 and p.outside(points[b]) for p in planes[a]) or any(
            dot(p.n, toward) < -1e-9 and p.outside(points[a]) for p in planes[b]
        )

    depth = [dot(centre(own), toward) for own in points]
    waiting = sorted(range(len(solids)), key=lambda i: depth[i])
    behind = {i: [j for j in waiting if j != i and before(j, i) and not before(i, j)] for i in waiting}
    done: list[int] = []
    state = dict.fromkeys(waiting, 0)

    def visit(i: int) -> None:
        state[i] = 1
        for j in behind[i]:
            if state[j] == 0:
                visit(j)
        state[i] = 2
        done.append(i)

    for i in waiting:
        if state[i] == 0:
            visit(i)
    return done
