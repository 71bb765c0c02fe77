"""The equations of a frame: which movement is which unknown, and their solution with a test of stability."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

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


def at_nodes(frame: Frame, values: Array, rows: Integers) -> Array:
    """Sum of end values (rows, 12, cases) of these members at the nodes, (nodes, 6, cases)."""
    ends = frame.ends[rows].ravel()
    order = np.argsort(ends, kind="stable")
    first = np.flatnonzero(np.diff(ends[order], prepend=-1))
    summed = np.zeros((len(frame.nodes), 6, values.shape[2]))
    if first.size:
        by_end = values.reshape(-1, 6, values.shape[2])[order]
        summed[ends[order][first]] = np.add.reduceat(by_end, first, axis=0)
    return summed


@dataclass(frozen=True)
class Equations:
    """Numbering of the free movements, in blocks.

    ``movement`` is the flat place (node, dof) of each equation; ``number`` the equation of each place, or -1.
    """

    movement: Integers
    number: Integers
    starts: Integers

    def matrix(self, frame: Frame, parts: Array, own: Array) -> BlockMatrix:
        """Sum of member matrices ``parts`` (members, 12, 12) and node terms ``own`` (nodes, 6)."""
        matrix = BlockMatrix.assemble(self.starts, self.number[frame.freedoms], parts)
        added = own.ravel()[self.movement]
        if added.any():
            for (a, b), block in zip(pairwise(self.starts), matrix.diagonal, strict=True):
                block[np.diag_indices(b - a)] += added[a:b]
        return matrix


def number(frame: Frame, free: Array, least: int = LEAST_BLOCK) -> Equations:
    """Equations of the movements marked ``free`` (nodes, 6), with at least ``least`` of them in a block."""
    weight = free.sum(axis=1).tolist()
    groups = level_order(weight, frame.ends.tolist(), least)
    order = np.array([node for group in groups for node in group])
    movement = (order[:, None] * 6 + np.arange(6)).ravel()
    movement = movement[free.ravel()[movement]]
    row = np.full(free.size, -1)
    row[movement] = np.arange(movement.size)
    starts = np.cumsum([0] + [sum(weight[node] for node in group) for group in groups])
    return Equations(movement, row, starts)


def resisted(frame: Frame, parts: Array, pushed: Array) -> tuple[Array, Array]:
    """Diagonal stiffness of every movement, and which are free, (nodes, 6).

    A rotation that no member end takes up is left out: it is no movement of the structure.

    Raises UnstableError: nothing at all resists a node's shift, or a rotation that is loaded.
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

    A probe column finds out whether some movement meets no resistance, every movement counted in the measure
    of its own diagonal stiffness.

    Raises UnstableError: it does; the message names node and direction.
    """
    diagonal, free = resisted(frame, parts, pushed)
    cases = pushed.shape[2]
    moved = np.zeros((free.size, cases))
    if not free.any():
        return moved.reshape(-1, 6, cases)
    equations = number(frame, free)
    matrix = equations.matrix(frame, parts, frame.holds[1])
    firm = np.sqrt(diagonal.ravel()[equations.movement])[:, None]
    right = pushed.reshape(-1, cases)[equations.movement]
    probe = np.sin(np.arange(1.0, len(right) + 1) ** 2)[:, None]
    try:
        solved = matrix.solve(np.hstack((right, firm * probe)))
        growth = np.abs(firm[:, 0] * solved[:, -1]).max()
    except np.linalg.LinAlgError:
        solved, growth = right, np.inf
    if not growth < _SUSPECT:
        _refuse_mechanism(frame, matrix.scaled(1 / firm), equations, probe, 1 / firm)
    moved[equations.movement] = solved[:, :cases]
    return moved.reshape(-1, 6, cases)


def _refuse_mechanism(
    frame: Frame, matrix: BlockMatrix, equations: Equations, probe: Array, factor: Array
) -> None:
    """UnstableError when the softest movement, found by inverse iteration, has no stiffness."""
    shape = probe / np.linalg.norm(probe)
    for _ in range(4):
        shape = matrix.stiffened(1e-12).solve(shape)
        shape /= np.linalg.norm(shape)
    if abs((shape * matrix.times(shape)).sum()) > _SINGULAR:
        return
    motion = np.zeros(len(frame.nodes) * 6)
    motion[equations.movement] = (shape * factor)[:, 0]
    motion = turn_nodes(np.swapaxes(frame.holds[2], 1, 2), motion.reshape(-1, 6, 1))[:, :, 0]
    shift, turn = np.abs(motion[:, :3]), np.abs(motion[:, 3:]) * frame.lengths.mean()
    if shift.max() > 1e-6 * turn.max():  # a shift says more than the turning that goes with it
        node, dof = divmod(int(shift.argmax()), 3)
        raise _unstable(frame, node, dof)
    node, dof = divmod(int(turn.argmax()), 3)
    raise _unstable(frame, node, dof + 3)


def _unstable(frame: Frame, node: int, dof: int) -> UnstableError:
    name = frame.nodes[node].name
    way = f"move along {'xyz'[dof]}" if dof < 3 else f"turn about {'xyz'[dof - 3]}"
    return UnstableError(
        f"the frame is unstable: node {name} can {way}, and nothing resists it",
        where=f"node {name}",
        direction=Dof(dof).name,
    )
