"""Plane and space frames by direct stiffness: many load cases, or unit loads, in one solution.

The frame is described in :mod:`bolewright.mechanics.frame_model`. Slender members: shear deformation and
second-order effects are left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.mechanics.frame_equations import at_nodes, solve_stable, turn_nodes
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
from bolewright.mechanics.loads import Array
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
    whole = elastic_of(frame)
    stiffness, S, released = release(frame, whole)
    turn = rotations(frame.axes, node_axes, frame.ends)
    back = np.swapaxes(turn, 1, 2)
    clamped = loads.clamped(frame)
    fixed = clamped[released]
    whole = whole[released]
    loose = np.einsum("mii->mi", S)[:, :, None] > 0
    clamped[released] = np.where(loose, 0.0, fixed - whole @ (S @ fixed))

    applied = turn_nodes(node_axes, loads.on_nodes(frame))
    pushed = applied - at_nodes(frame, back @ clamped)
    moved = solve_stable(frame, back @ stiffness @ turn, pushed)

    movements = turn @ moved.reshape(-1, loads.cases)[frame.freedoms]
    forces = stiffness @ movements + clamped
    movements[released] -= np.where(loose, movements[released], 0.0)
    movements[released] -= S @ (whole @ movements[released] + fixed)

    resisting = at_nodes(frame, back @ forces) - applied
    supported = ((held + springs) > 0)[:, :, None]
    outward = np.swapaxes(node_axes, 1, 2)
    reactions = turn_nodes(outward, np.where(supported, resisting, 0.0))
    return FrameResult(
        frame=frame,
        loads=loads,
        displacements=turn_nodes(outward, moved),
        reactions=reactions,
        end_forces=forces,
        end_movements=movements,
        imbalance=_imbalance(frame, loads, np.where(supported, 0.0, resisting), reactions),
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
