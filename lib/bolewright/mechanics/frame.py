"""Plane and space frames by direct stiffness: many load cases, or unit loads, in one solution.

The frame is described in :mod:`bolewright.mechanics.frame_model`. Slender members: shear deformation and
second-order effects are left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.mechanics.block_solve import BlockMatrix, level_order
from bolewright.mechanics.frame_loads import FrameLoads, collect
from bolewright.mechanics.frame_model import (
    ALL,
    HINGE,
    PINNED,
    Dof,
    Frame,
    FrameError,
    FrameLoad,
    Member,
    MemberPoint,
    MemberSpread,
    Node,
    NodeLoad,
    Profile,
    Support,
    inclined,
)
from bolewright.mechanics.loads import Array, Integers, gather
from bolewright.mechanics.member_stiffness import elastic_of, release, rotations
from bolewright.mechanics.stability import UnstableError

__all__ = [
    "ALL",
    "HINGE",
    "PINNED",
    "Dof",
    "Frame",
    "FrameError",
    "FrameLoad",
    "FrameResult",
    "Member",
    "MemberPoint",
    "MemberSpread",
    "Node",
    "NodeLoad",
    "Profile",
    "Support",
    "UnstableError",
    "analyse",
    "inclined",
]

_SUSPECT = 1e8  # how much the probe may grow before the softest movement is looked at
_SINGULAR = 1e-13  # stiffness of that movement, the stiffest being 1, below which it counts as none


@dataclass(frozen=True)
class FrameResult:
    """Effects of every load case (last axis).

    Attributes
    ----------
    displacements : movements of nodes (in, radians), (nodes, 6, cases), global axes
    reactions : forces and moments of the supports on the frame (lb, lb·in), (nodes, 6, cases), global axes
    end_forces : forces of the nodes on the member ends, (members, 12, cases), local axes
    end_movements : movements of the member ends, past the releases, (members, 12, cases), local axes
    imbalance : what is left of equilibrium at any node and of the whole, as a part of the load, (cases)
    """

    frame: Frame
    loads: FrameLoads
    displacements: Array
    reactions: Array
    end_forces: Array
    end_movements: Array
    imbalance: Array

    def displacement(self, node: str) -> Array:
        """Movements of one node, (6, cases)."""
        return np.asarray(self.displacements[self.frame.node_index[node]])

    def reaction(self, node: str) -> Array:
        """Reaction at one node, (6, cases)."""
        return np.asarray(self.reactions[self.frame.node_index[node]])


def analyse(frame: Frame, cases: Sequence[Sequence[FrameLoad]]) -> FrameResult:
    """Displacements, reactions and member end forces of a frame under each load case.

    The influence of unit loads is the same call with one unit load per case.

    Raises
    ------
    UnstableError : the frame can move; the message names the node and the direction
    FrameError : a load that does not fit the frame

    Example
    -------
    A cantilever of 100 in under 10 lb at its tip: P L^3 / 3 EI.

    >>> bar = Profile(E=1e6, A=10.0, I_z=10.0)
    >>> frame = Frame(
    ...     nodes=(Node("wall", 0.0, 0.0), Node("tip", 100.0, 0.0)),
    ...     members=(Member("arm", "wall", "tip", bar),),
    ...     supports=(Support("wall", ALL),),
    ...     plane=True,
    ... )
    >>> found = analyse(frame, [[NodeLoad("tip", (0.0, -10.0, 0.0))]])
    >>> print(f"{found.displacement('tip')[Dof.DY, 0]:.6f} {found.reaction('wall')[Dof.RZ, 0]:.1f}")
    -0.333333 1000.0
    """
    loads = collect(frame, cases)
    held, springs, node_axes = frame.holds
    stiffness, S, released = release(frame, elastic_of(frame))
    turn = rotations(frame.axes, node_axes, frame.ends)
    back = np.swapaxes(turn, 1, 2)
    clamped = loads.clamped(frame)
    if released:
        whole = elastic_of(frame)[released]
        loose = clamped[released]
        clamped[released] = loose - whole @ (S @ loose)
    applied = _turn_nodes(node_axes, loads.on_nodes(frame))
    freedoms = (frame.ends[:, :, None] * 6 + np.arange(6)).reshape(-1, 12)
    pushed = applied - _gather(frame, freedoms, back @ clamped)
    moved = _solve(frame, freedoms, back @ stiffness @ turn, pushed, held, springs)

    movements = turn @ moved.reshape(-1, loads.cases)[freedoms]
    forces = stiffness @ movements + clamped
    resisting = _gather(frame, freedoms, back @ forces) - applied
    supported = ((held + springs) > 0)[:, :, None]
    reactions = _turn_nodes(np.swapaxes(node_axes, 1, 2), np.where(supported, resisting, 0.0))
    if released:
        moving = movements[released] - S @ (whole @ movements[released] + loose)
        movements[released] = np.where(np.einsum("mii->mi", S)[:, :, None] > 0, moving, movements[released])
    return FrameResult(
        frame=frame,
        loads=loads,
        displacements=_turn_nodes(np.swapaxes(node_axes, 1, 2), moved),
        reactions=reactions,
        end_forces=forces,
        end_movements=movements,
        imbalance=_imbalance(frame, loads, np.where(supported, 0.0, resisting), reactions),
    )


def _turn_nodes(axes: Array, values: Array) -> Array:
    pairs = values.reshape(len(axes), 2, 3, -1)
    return np.asarray(axes[:, None] @ pairs).reshape(values.shape)


def _gather(frame: Frame, freedoms: Integers, values: Array) -> Array:
    """Sum of member end values at the nodes, (nodes, 6, cases)."""
    cases = values.shape[2]
    return gather(freedoms[:, :, None] * cases + np.arange(cases), values, (len(frame.nodes), 6, cases))


def _solve(
    frame: Frame, freedoms: Integers, parts: Array, pushed: Array, held: Array, springs: Array
) -> Array:
    """Movements of the nodes in their own axes, (nodes, 6, cases)."""
    diagonal = springs + gather(freedoms, np.einsum("mii->mi", parts), held.shape)
    slack = (held == 0) & (diagonal <= 0)
    if slack.any():
        # A rotation that no member end takes up is no movement of the structure, unless something turns it.
        slipping = slack & ((np.arange(6) < 3) | (np.abs(pushed) > 0).any(axis=2))
        if slipping.any():
            node, dof = (int(at[0]) for at in np.nonzero(slipping))
            raise _unstable(frame, node, dof)
    free = (held == 0) & (diagonal > 0)
    cases = pushed.shape[2]
    moved = np.zeros((held.size, cases))
    weight = free.sum(axis=1).tolist()
    if not any(weight):
        return moved.reshape(-1, 6, cases)
    groups = level_order(weight, frame.ends.tolist())
    order = [node for group in groups for node in group]
    equations = (np.array(order)[:, None] * 6 + np.arange(6)).ravel()
    equations = equations[free.ravel()[equations]]
    row = np.full(held.size, -1)
    row[equations] = np.arange(equations.size)
    starts = np.cumsum([0] + [sum(weight[node] for node in group) for group in groups])
    size = 1 / np.sqrt(np.where(free, diagonal, 1.0)).ravel()
    at_ends = size[freedoms]
    scaled = parts * at_ends[:, :, None] * at_ends[:, None, :]
    own = (springs.ravel() * size**2)[equations]
    matrix = BlockMatrix.assemble(starts, row[freedoms], scaled)
    if own.any():
        for a, b, block in zip(starts, starts[1:], matrix.diagonal, strict=False):
            block[np.diag_indices(b - a)] += own[a:b]
    size_of = size[equations][:, None]
    right = pushed.reshape(-1, cases)[equations] * size_of
    moved[equations] = size_of * _solve_stable(frame, matrix, right, equations, size_of)
    return moved.reshape(-1, 6, cases)


def _solve_stable(frame: Frame, matrix: BlockMatrix, right: Array, equations: Integers, size: Array) -> Array:
    """Solution, with a probe column that finds out whether some movement meets no resistance."""
    probe = np.sin(np.arange(1.0, len(right) + 1) ** 2)[:, None]
    try:
        solved = matrix.solve(np.hstack((right, probe)))
        growth = np.abs(solved[:, -1]).max()
    except np.linalg.LinAlgError:
        solved, growth = right, np.inf
    if not growth < _SUSPECT:
        shape = probe / np.linalg.norm(probe)
        for _ in range(4):
            shape = matrix.stiffened(1e-12).solve(shape)
            shape /= np.linalg.norm(shape)
        if not abs((shape * matrix.times(shape)).sum()) > _SINGULAR:
            motion = np.zeros(len(frame.nodes) * 6)
            motion[equations] = (shape * size)[:, 0]
            motion = _turn_nodes(np.swapaxes(frame.holds[2], 1, 2), motion.reshape(-1, 6, 1))[:, :, 0]
            motion[:, 3:] *= frame.lengths.mean()
            node, dof = divmod(int(np.abs(motion).argmax()), 6)
            raise _unstable(frame, node, dof)
    return solved[:, :-1]


def _unstable(frame: Frame, node: int, dof: int) -> UnstableError:
    name = frame.nodes[node].name
    way = f"move along {'xyz'[dof]}" if dof < 3 else f"turn about {'xyz'[dof - 3]}"
    return UnstableError(
        f"the frame is unstable: node {name} can {way}, and nothing resists it",
        where=f"node {name}",
        direction=Dof(dof).name,
    )


def _imbalance(frame: Frame, loads: FrameLoads, left_over: Array, reactions: Array) -> Array:
    total, size = loads.resultants(frame)
    reach = max(float(np.abs(frame.points).max()), 1.0)
    force = total[:3] + reactions[:, :3].sum(axis=0)
    arms = np.cross(frame.points[:, :, None], reactions[:, :3], axisa=1, axisb=1, axisc=1)
    turning = total[3:] + (reactions[:, 3:] + arms).sum(axis=0)
    if frame.plane:
        turning[:2] = 0.0
    local = left_over.copy()
    local[:, 3:] /= reach
    worst = np.maximum(np.abs(force).max(axis=0), np.abs(turning).max(axis=0) / reach)
    worst = np.maximum(worst, np.abs(local).max(axis=(0, 1)))
    return np.asarray(worst / np.where(size > 0, size, 1.0))
