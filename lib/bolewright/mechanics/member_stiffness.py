"""Stiffness of straight members, all at once: local matrices, end releases, equivalent end forces.

The twelve end movements of a member are those of :class:`~bolewright.mechanics.frame_model.Dof` at its start,
then at its end, in its local axes.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from bolewright.mechanics.frame_model import Dof, Frame
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
    """Stiffness that a tension ``N`` adds against lateral movement, (members, 12, 12)."""
    terms = (1.2 * N / L, N / 10, 2 * N * L / 15, -N * L / 30)
    return np.asarray(np.stack(terms + terms, axis=1) @ _GEOMETRIC).reshape(-1, 12, 12)


def elastic_of(frame: Frame) -> Array:
    """Elastic stiffness of each member of a frame before releases, (members, 12, 12)."""
    table = np.array(
        [(p.E, p.G, p.A, p.I_y, p.I_z, p.J) for p in (member.profile for member in frame.members)],
        dtype=float,
    ).reshape(-1, 6)
    return elastic(*np.vstack((table.T, frame.lengths)))


@dataclass(frozen=True)
class MemberMatrices:
    """Matrices of every member of a frame, (members, 12, 12).

    ``whole`` is the stiffness before releases and S the flexibility of the released end movements. With it
    the stiffness after releases is ``reduced`` = k - k S k, clamped end forces become f - k S f, and the
    released movements are -S (k d + f). ``turn`` leads from the axes of the nodes to those of the member.
    """

    whole: Array
    S: Array
    reduced: Array
    turn: Array

    @property
    def released(self) -> Array:
        """1 where an end movement is released, else 0, (members, 12, 1)."""
        return np.asarray(np.einsum("mii->mi", self.S) > 0, dtype=np.float64)[:, :, None]

    @property
    def at_nodes(self) -> Array:
        """Stiffness after releases in the axes of the nodes."""
        return np.asarray(np.swapaxes(self.turn, 1, 2) @ self.reduced @ self.turn)

    def loosened(self, member: Integers, clamped: Array) -> Array:
        """Clamped end forces (rows, 12) of the ``member`` rows once the released movements give way."""
        S = self.S[member]
        given = self.whole[member] @ (S @ clamped[:, :, None])
        return np.where(np.einsum("mii->mi", S) > 0, 0.0, clamped - given[:, :, 0])


def member_matrices(frame: Frame) -> MemberMatrices:
    """Matrices of every member of a frame.

    Raises UnstableError: a member that can move by itself between its releases.
    """
    whole = elastic_of(frame)
    S = _release(frame, whole)
    rows = [row for row, member in enumerate(frame.members) if member.start_releases or member.end_releases]
    if not rows:
        return MemberMatrices(whole, S, whole, _rotations(frame))
    full = whole[rows]
    left = full - full @ S[rows] @ full
    firm = np.sqrt(np.einsum("mii->mi", full))
    left[np.abs(left) < 1e-12 * firm[:, :, None] * firm[:, None, :]] = 0.0
    reduced = whole.copy()
    reduced[rows] = left
    return MemberMatrices(whole, S, reduced, _rotations(frame))


def _release(frame: Frame, k: Array) -> Array:
    """Flexibility of the released end movements, (members, 12, 12), zero elsewhere."""
    S = np.zeros_like(k)
    patterns: dict[tuple[int, ...], list[int]] = {}
    for row, member in enumerate(frame.members):
        if member.start_releases or member.end_releases:
            pattern = _released(member.start_releases, member.end_releases, frame.plane)
            patterns.setdefault(pattern, []).append(row)
    for freed, rows in patterns.items():
        if not freed:
            continue
        inner = np.ix_(np.array(rows), np.array(freed), np.array(freed))
        part = k[inner]
        size = 1 / np.sqrt(np.einsum("mii->mi", part))
        scaled = part * size[:, :, None] * size[:, None, :]
        try:
            flexible = np.linalg.inv(scaled)
        except np.linalg.LinAlgError:
            flexible = np.full_like(scaled, np.inf)
        if not np.abs(flexible).max() < 1e10:
            worst = int(np.argmin(np.abs(np.linalg.det(scaled))))
            name = frame.members[rows[worst]].name
            way = _WORDS[freed[int(np.abs(np.linalg.svd(scaled[worst])[2][-1]).argmax())] % 6]
            raise UnstableError(
                f"member {name} can move by itself {way}, in its own axes: too many releases at its ends",
                where=f"member {name}",
                direction=way,
            )
        S[inner] = flexible * size[:, :, None] * size[:, None, :]
    return S


@cache
def _released(start: tuple[Dof, ...], end: tuple[Dof, ...], plane: bool) -> tuple[int, ...]:
    """Places among the twelve end movements; those out of a plane frame's plane do not count."""
    kept = (0, 1, 5) if plane else range(6)
    near = sorted({int(dof) for dof in start if dof in kept})
    far = sorted({int(dof) + 6 for dof in end if dof in kept})
    return (*near, *far)


def end_forces(t: Array, L: Array, force: Array) -> Array:
    """Forces that clamped ends put on a member under a point force at ``t`` (0 to 1), (loads, 12), local."""
    near, far = (1 - t) ** 2 * (1 + 2 * t), t**2 * (3 - 2 * t)
    turn_near, turn_far = L * t * (1 - t) ** 2, L * t**2 * (1 - t)
    x, y, z = force.T
    columns: list[Any] = [(1 - t) * x, near * y, near * z, 0 * t, -turn_near * z, turn_near * y]
    columns += [t * x, far * y, far * z, 0 * t, turn_far * z, -turn_far * y]
    return -np.stack(columns, axis=1)


def _rotations(frame: Frame) -> Array:
    turned = frame.axes[:, None] @ np.swapaxes(frame.holds[2][frame.ends], 2, 3)
    full = np.zeros((len(turned), 12, 12))
    for corner in range(4):
        block = slice(3 * corner, 3 * corner + 3)
        full[:, block, block] = turned[:, corner // 2]
    return full
