"""The equations of a frame: which movement is which unknown, and their solution with a test of stability."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bolewright.mechanics.block_solve import LEAST_BLOCK, BlockMatrix, level_order
from bolewright.mechanics.frame_model import Dof, Frame
from bolewright.mechanics.loads import Array, Integers, gather
from bolewright.mechanics.stability import UnstableError

_SUSPECT = 1e8  # how much the probe may grow before the softest movement is looked at
_SINGULAR = 1e-13  # stiffness of that movement, the stiffest being 1, below which it counts as none


def turn_nodes(axes: Array, values: Array) -> Array:
    """Node values (nodes, 6, cases) in the axes given for each node."""
    pairs = values.reshape(len(axes), 2, 3, -1)
    return np.asarray(axes[:, None] @ pairs).reshape(values.shape)


def at_nodes(frame: Frame, values: Array) -> Array:
    """Sum of member end values (members, 12, cases) at the nodes, (nodes, 6, cases)."""
    cases = values.shape[2]
    places = frame.freedoms[:, :, None] * cases + np.arange(cases)
    return gather(places, values, (len(frame.nodes), 6, cases))


@dataclass(frozen=True)
class Equations:
    """Numbering of the free movements, in blocks, and the factor that makes every diagonal term one.

    ``movement`` is the flat place (node, dof) of each equation; ``number`` the equation of each place, or -1.
    """

    movement: Integers
    number: Integers
    starts: Integers
    factor: Array

    def matrix(self, frame: Frame, parts: Array, own: Array) -> BlockMatrix:
        """Scaled sum of member matrices ``parts`` (members, 12, 12) and node terms ``own`` (nodes, 6)."""
        at_ends = self.factor[frame.freedoms]
        scaled = parts * at_ends[:, :, None] * at_ends[:, None, :]
        matrix = BlockMatrix.assemble(self.starts, self.number[frame.freedoms], scaled)
        added = (own.ravel() * self.factor**2)[self.movement]
        if added.any():
            for a, b, block in zip(self.starts, self.starts[1:], matrix.diagonal, strict=False):
                block[np.diag_indices(b - a)] += added[a:b]
        return matrix


def number(frame: Frame, diagonal: Array, free: Array, least: int = LEAST_BLOCK) -> Equations:
    """Equations of the movements marked ``free`` (nodes, 6), with at least ``least`` of them in a block."""
    weight = free.sum(axis=1).tolist()
    groups = level_order(weight, frame.ends.tolist(), least)
    order = np.array([node for group in groups for node in group])
    movement = (order[:, None] * 6 + np.arange(6)).ravel()
    movement = movement[free.ravel()[movement]]
    row = np.full(free.size, -1)
    row[movement] = np.arange(movement.size)
    starts = np.cumsum([0] + [sum(weight[node] for node in group) for group in groups])
    return Equations(movement, row, starts, 1 / np.sqrt(np.where(free, diagonal, 1.0)).ravel())


def resisted(frame: Frame, parts: Array, pushed: Array) -> tuple[Array, Array]:
    """Diagonal stiffness of every movement, and which are free, (nodes, 6).

    A rotation that no member end takes up is left out: it is no movement of the structure.

    Raises
    ------
    UnstableError : nothing at all resists a node's shift, or a rotation that is loaded
    """
    held, springs, _ = frame.holds
    diagonal = springs + gather(frame.freedoms, np.einsum("mii->mi", parts), held.shape)
    slack = (held == 0) & (diagonal <= 0)
    slipping = slack & ((np.arange(6) < 3) | (np.abs(pushed) > 0).any(axis=2))
    if slipping.any():
        node, dof = (int(at[0]) for at in np.nonzero(slipping))
        raise _unstable(frame, node, dof)
    return diagonal, (held == 0) & ~slack


def solve_stable(frame: Frame, parts: Array, pushed: Array) -> Array:
    """Movements of the nodes under ``pushed`` (nodes, 6, cases), both in the nodes' own axes.

    A probe column finds out whether some movement meets no resistance.

    Raises
    ------
    UnstableError : it does; the message names node and direction
    """
    diagonal, free = resisted(frame, parts, pushed)
    cases = pushed.shape[2]
    moved = np.zeros((free.size, cases))
    if not free.any():
        return moved.reshape(-1, 6, cases)
    equations = number(frame, diagonal, free)
    matrix = equations.matrix(frame, parts, frame.holds[1])
    factor = equations.factor[equations.movement][:, None]
    right = pushed.reshape(-1, cases)[equations.movement] * factor
    probe = np.sin(np.arange(1.0, len(right) + 1) ** 2)[:, None]
    try:
        solved = matrix.solve(np.hstack((right, probe)))
        growth = np.abs(solved[:, -1]).max()
    except np.linalg.LinAlgError:
        solved, growth = right, np.inf
    if not growth < _SUSPECT:
        _refuse_mechanism(frame, matrix, equations, probe)
    moved[equations.movement] = factor * solved[:, :cases]
    return moved.reshape(-1, 6, cases)


def _refuse_mechanism(frame: Frame, matrix: BlockMatrix, equations: Equations, probe: Array) -> None:
    """UnstableError when the softest movement, found by inverse iteration, has no stiffness."""
    shape = probe / np.linalg.norm(probe)
    for _ in range(4):
        shape = matrix.stiffened(1e-12).solve(shape)
        shape /= np.linalg.norm(shape)
    if abs((shape * matrix.times(shape)).sum()) > _SINGULAR:
        return
    motion = np.zeros(len(frame.nodes) * 6)
    motion[equations.movement] = shape[:, 0] * equations.factor[equations.movement]
    motion = turn_nodes(np.swapaxes(frame.holds[2], 1, 2), motion.reshape(-1, 6, 1))[:, :, 0]
    motion[:, 3:] *= frame.lengths.mean()
    node, dof = divmod(int(np.abs(motion).argmax()), 6)
    raise _unstable(frame, node, dof)


def _unstable(frame: Frame, node: int, dof: int) -> UnstableError:
    name = frame.nodes[node].name
    way = f"move along {'xyz'[dof]}" if dof < 3 else f"turn about {'xyz'[dof - 3]}"
    return UnstableError(
        f"the frame is unstable: node {name} can {way}, and nothing resists it",
        where=f"node {name}",
        direction=Dof(dof).name,
    )
