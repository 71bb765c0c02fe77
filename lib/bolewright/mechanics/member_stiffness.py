"""Stiffness of straight members, all at once: local matrices, end releases, equivalent end forces.

The twelve end movements of a member are those of :class:`~bolewright.mechanics.frame_model.Dof` at its start,
then at its end, in its local axes.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from bolewright.mechanics.frame_model import Frame, Member
from bolewright.mechanics.loads import Array, Integers
from bolewright.mechanics.stability import UnstableError

_WORDS = ("along x", "along y", "along z", "about x", "about y", "about z")


def _symmetric(entries: dict[tuple[int, int], float]) -> Array:
    matrix = np.zeros((12, 12))
    for (row, column), value in entries.items():
        matrix[row, column] = matrix[column, row] = value
    return matrix


def _pull(a: int, b: int) -> list[Array]:
    return [_symmetric({(a, a): 1.0, (b, b): 1.0, (a, b): -1.0})]


def _bend(v1: int, r1: int, v2: int, r2: int, sign: float) -> list[Array]:
    """Patterns of the terms of a bent member: force by shift, force by turn, moment by turn near and far."""
    return [
        _symmetric({(v1, v1): 1.0, (v2, v2): 1.0, (v1, v2): -1.0}),
        _symmetric({(v1, r1): sign, (v1, r2): sign, (v2, r1): -sign, (v2, r2): -sign}),
        _symmetric({(r1, r1): 1.0, (r2, r2): 1.0}),
        _symmetric({(r1, r2): 1.0}),
    ]


_BENT = _bend(1, 5, 7, 11, 1.0) + _bend(2, 4, 8, 10, -1.0)
_ELASTIC = np.array(_pull(0, 6) + _pull(3, 9) + _BENT).reshape(10, 144)
_GEOMETRIC = np.array(_BENT).reshape(8, 144)


def elastic(E: Array, G: Array, A: Array, I_y: Array, I_z: Array, J: Array, L: Array) -> Array:
    """Elastic stiffness without shear deformation, (members, 12, 12)."""
    z, y = E * I_z / L, E * I_y / L
    terms = (
        E * A / L,
        G * J / L,
        *(12 * z / L**2, 6 * z / L, 4 * z, 2 * z),
        *(12 * y / L**2, 6 * y / L, 4 * y, 2 * y),
    )
    return np.asarray(np.stack(terms, axis=1) @ _ELASTIC).reshape(-1, 12, 12)


def geometric(N: Array, L: Array) -> Array:
    """Stiffness that a tension ``N`` adds against sideways movement, (members, 12, 12)."""
    terms = (1.2 * N / L, N / 10, 2 * N * L / 15, -N * L / 30)
    return np.asarray(np.stack(terms + terms, axis=1) @ _GEOMETRIC).reshape(-1, 12, 12)


def elastic_of(frame: Frame) -> Array:
    """Elastic stiffness of each member of a frame before releases, (members, 12, 12)."""
    table = np.array(
        [(p.E, p.G, p.A, p.I_y, p.I_z, p.J) for p in (member.profile for member in frame.members)],
        dtype=float,
    ).reshape(-1, 6)
    return elastic(*np.vstack((table.T, frame.lengths)))


def release(frame: Frame, k: Array) -> tuple[Array, Array, list[int]]:
    """Stiffness with the released end movements taken out, the flexibility S that did it, and which members.

    With S: k' = k - k S k, end forces f' = f - k S f, and the released movements are -S (k d + f).

    Raises
    ------
    UnstableError : a member that can move by itself between its releases
    """
    rows = [row for row, m in enumerate(frame.members) if m.start_releases or m.end_releases]
    S = np.zeros((len(rows), 12, 12))
    if not rows:
        return k, S, rows
    patterns: dict[tuple[int, ...], list[int]] = {}
    for place, row in enumerate(rows):
        patterns.setdefault(_released(frame.members[row], frame.plane), []).append(place)
    chosen = np.array(rows)
    for freed, places in patterns.items():
        if not freed:
            continue
        inner = np.ix_(np.array(places), np.array(freed), np.array(freed))
        part = k[chosen[inner[0]], inner[1], inner[2]]
        size = 1 / np.sqrt(np.einsum("mii->mi", part))
        scaled = part * size[:, :, None] * size[:, None, :]
        determinant = np.linalg.det(scaled)
        if not (np.abs(determinant) > 1e-10).all():
            worst = int(np.argmin(np.abs(determinant)))
            loose = frame.members[int(chosen[places[worst]])]
            way = _WORDS[freed[int(np.abs(np.linalg.svd(scaled[worst])[2][-1]).argmax())] % 6]
            raise UnstableError(
                f"member {loose.name} can move by itself {way}: too many releases at its ends",
                where=f"member {loose.name}",
                direction=way,
            )
        S[inner] = np.linalg.inv(scaled) * size[:, :, None] * size[:, None, :]
    whole = k[chosen]
    reduced = whole - whole @ S @ whole
    diagonal = np.sqrt(np.einsum("mii->mi", whole))
    noise = 1e-12 * diagonal[:, :, None] * diagonal[:, None, :]
    reduced[np.abs(reduced) < noise] = 0.0
    released = k.copy()
    released[chosen] = reduced
    return released, S, rows


def _released(member: Member, plane: bool) -> tuple[int, ...]:
    kept = (0, 1, 5) if plane else range(6)
    start = sorted({int(dof) for dof in member.start_releases if dof in kept})
    end = sorted({int(dof) + 6 for dof in member.end_releases if dof in kept})
    return (*start, *end)


def end_forces(t: Array, L: Array, force: Array) -> Array:
    """Forces that clamped ends put on a member under a point force at ``t`` (0 to 1), (loads, 12), local."""
    near, far = (1 - t) ** 2 * (1 + 2 * t), t**2 * (3 - 2 * t)
    turn_near, turn_far = L * t * (1 - t) ** 2, L * t**2 * (1 - t)
    x, y, z = force.T
    columns: list[Any] = [(1 - t) * x, near * y, near * z, 0 * t, -turn_near * z, turn_near * y]
    columns += [t * x, far * y, far * z, 0 * t, turn_far * z, -turn_far * y]
    return -np.stack(columns, axis=1)


def rotations(axes: Array, node_axes: Array, ends: Integers) -> Array:
    """From the axes of the end nodes to those of the member, (members, 12, 12)."""
    turned = axes[:, None] @ np.swapaxes(node_axes[ends], 2, 3)
    full = np.zeros((len(axes), 12, 12))
    for corner in range(4):
        block = slice(3 * corner, 3 * corner + 3)
        full[:, block, block] = turned[:, corner // 2]
    return full
