"""Plane and space frames by direct stiffness: many load cases, or unit loads, in one solution.

The frame is described in :mod:`bolewright.mechanics.frame_model`. Slender members: shear deformation and
second-order effects are left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

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
from bolewright.mechanics.loads import Array, Integers, gather
from bolewright.mechanics.member_stiffness import MemberMatrices, member_matrices
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
    """Effects of every load case (last axis), worked out as they are asked for.

    ``own_movements`` are the movements of the nodes in the axes of their supports, (nodes, 6, cases);
    ``clamped`` the member, case and end forces of each member load with the ends held.
    """

    frame: Frame
    loads: FrameLoads
    matrices: MemberMatrices
    clamped: tuple[Integers, Integers, Array]
    own_movements: Array

    @cached_property
    def displacements(self) -> Array:
        """Movements of the nodes (in, radians), (nodes, 6, cases), global axes."""
        return turn_nodes(np.swapaxes(self.frame.holds[2], 1, 2), self.own_movements)

    @cached_property
    def reactions(self) -> Array:
        """Forces and moments of the supports on the frame (lb, lb·in), (nodes, 6, cases), global axes."""
        supported = self._supported
        rows = np.flatnonzero(supported.sum(axis=1)[self.frame.ends].sum(axis=1))
        own = self._unbalanced(rows) * supported[:, :, None]
        return turn_nodes(np.swapaxes(self.frame.holds[2], 1, 2), own)

    @cached_property
    def end_forces(self) -> Array:
        """Forces of the nodes on the member ends, (members, 12, cases), local axes."""
        return self._end_forces(np.arange(len(self.frame.members)))

    @cached_property
    def end_movements(self) -> Array:
        """Movements of the member ends, past their releases, (members, 12, cases), local axes."""
        m = self.matrices
        joined = (m.turn @ self._node_movements[self.frame.freedoms]) * (1 - m.released)
        forces = np.ascontiguousarray(m.whole @ joined)
        member, case, clamped = self.clamped
        _add(forces, member, case, clamped)
        return np.asarray(joined - m.S @ forces)

    @cached_property
    def imbalance(self) -> Array:
        """What is left of equilibrium, at any node and of the whole, as a part of the load, (cases).

        The whole is taken from the loads as given and the reactions alone, apart from the solution.
        """
        frame = self.frame
        reach = max(float(np.abs(frame.points).max()), 1.0)
        total, size = self.loads.resultants(frame)
        total[:3] += self.reactions[:, :3].sum(axis=0)
        arms = np.cross(frame.points[:, :, None], self.reactions[:, :3], axisa=1, axisb=1, axisc=1)
        total[3:] += (self.reactions[:, 3:] + arms).sum(axis=0)
        if frame.plane:
            total[[2, 3, 4]] = 0.0
        every = np.arange(len(frame.members))
        nodal = np.abs(self._unbalanced(every) * ~self._supported[:, :, None]).max(axis=0)
        nodal[3:] /= reach
        total[3:] /= reach
        worst = np.maximum(np.abs(total).max(axis=0), nodal.max(axis=0))
        return np.asarray(worst / np.where(size > 0, size, 1.0))

    def displacement(self, node: str) -> Array:
        """Movements of one node, (6, cases)."""
        return np.asarray(self.displacements[self.frame.node_index[node]])

    def reaction(self, node: str) -> Array:
        """Reaction at one node, (6, cases)."""
        return np.asarray(self.reactions[self.frame.node_index[node]])

    @property
    def _supported(self) -> npt.NDArray[np.bool_]:
        held, springs, _ = self.frame.holds
        return (held + springs) > 0

    @property
    def _node_movements(self) -> Array:
        return self.own_movements.reshape(-1, self.loads.cases)

    def _end_forces(self, rows: Integers) -> Array:
        m = self.matrices
        joined = m.turn[rows] @ self._node_movements[self.frame.freedoms[rows]]
        forces = np.ascontiguousarray(m.reduced[rows] @ joined)
        member, case, clamped = self.clamped
        place = np.full(len(self.frame.members), -1)
        place[rows] = np.arange(rows.size)
        wanted = place[member] >= 0
        given = m.loosened(member[wanted], clamped[wanted])
        _add(forces, place[member[wanted]], case[wanted], given)
        return np.asarray(forces)

    def _unbalanced(self, rows: Integers) -> Array:
        """End forces of these members less the loads on the nodes, (nodes, 6, cases), the nodes' axes."""
        forces = np.swapaxes(self.matrices.turn[rows], 1, 2) @ self._end_forces(rows)
        applied = turn_nodes(self.frame.holds[2], self.loads.on_nodes(self.frame))
        return at_nodes(self.frame, forces, rows) - applied


def _add(forces: Array, member: Integers, case: Integers, given: Array) -> None:
    """Adds rows (loads, 12) to ``forces`` (members, 12, cases) in place."""
    places = (member[:, None] * 12 + np.arange(12)) * forces.shape[2] + case[:, None]
    np.add.at(forces.reshape(-1), places.ravel(), given.ravel())


def analyse(frame: Frame, cases: Sequence[Sequence[FrameLoad]]) -> FrameResult:
    """Displacements, reactions and member end forces of a frame under each load case.

    The influence of unit loads is the same call with one unit load per case.

    Raises UnstableError: the frame can move; the message names the node and the direction; FrameError: a load that does
    not fit the frame.

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
    matrices = member_matrices(frame)
    member, case, clamped = loads.clamped(frame)
    outward = np.swapaxes(matrices.turn[member], 1, 2) @ matrices.loosened(member, clamped)[:, :, None]
    pushed = turn_nodes(frame.holds[2], loads.on_nodes(frame))
    places = frame.freedoms[member] * loads.cases + case[:, None]
    pushed -= gather(places, outward, pushed.shape)
    moved = solve_stable(frame, matrices.at_nodes, pushed)
    return FrameResult(frame, loads, matrices, (member, case, clamped), moved)
