"""Loads of several cases on a frame, as arrays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.mechanics.frame_model import Frame, FrameError, FrameLoad, MemberPoint, NodeLoad
from bolewright.mechanics.loads import Array, Integers, gather
from bolewright.mechanics.member_stiffness import end_forces

_GAUSS_PLACE, _GAUSS_WEIGHT = np.polynomial.legendre.leggauss(3)


@dataclass(frozen=True)
class FrameLoads:
    """Loads on nodes (global axes) and along members (local axes), each row with its case.

    A spread row holds start and end (in) and the load per inch at each; a point row the place and the force.
    """

    cases: int
    node: Integers
    node_case: Integers
    node_load: Array
    point_member: Integers
    point_case: Integers
    point_x: Array
    point_force: Array
    spread_member: Integers
    spread_case: Integers
    spread_x: Array
    spread_q: Array

    def equivalent_points(self, frame: Frame) -> tuple[Integers, Integers, Array, Array]:
        """Member, case, place and local force of points that stand for all member loads, exactly.

        Three Gauss points replace a linear load: exact for a cubic shape times a linear load.
        """
        half = (self.spread_x[:, 1] - self.spread_x[:, 0])[:, None] / 2
        x = self.spread_x.mean(axis=1)[:, None] + half * _GAUSS_PLACE
        share = ((1 + _GAUSS_PLACE) / 2)[None, :, None]
        q = self.spread_q[:, None, 0] * (1 - share) + self.spread_q[:, None, 1] * share
        force = q * (half * _GAUSS_WEIGHT)[:, :, None]
        return (
            np.concatenate((self.point_member, np.repeat(self.spread_member, 3))),
            np.concatenate((self.point_case, np.repeat(self.spread_case, 3))),
            np.concatenate((self.point_x, x.ravel())),
            np.concatenate((self.point_force, force.reshape(-1, 3))),
        )

    def clamped(self, frame: Frame) -> tuple[Integers, Integers, Array]:
        """Member, case and end forces with the ends held (rows, 12), local axes, a row for each load."""
        member, _, x, force = self.equivalent_points(frame)
        length = frame.lengths[member]
        forces = end_forces(x / length, length, force)
        points = self.point_member.size
        spread = forces[points:].reshape(-1, 3, 12).sum(axis=1)
        return (
            np.concatenate((self.point_member, self.spread_member)),
            np.concatenate((self.point_case, self.spread_case)),
            np.concatenate((forces[:points], spread)),
        )

    def on_nodes(self, frame: Frame) -> Array:
        """Forces and moments applied to nodes, (nodes, 6, cases), global axes."""
        flat = (self.node[:, None] * 6 + np.arange(6)) * self.cases + self.node_case[:, None]
        return gather(flat, self.node_load, (len(frame.nodes), 6, self.cases))

    def resultants(self, frame: Frame) -> tuple[Array, Array]:
        """Applied force and moment about the origin, (6, cases), and the sum of sizes of force (cases)."""
        member, case, x, local = self.equivalent_points(frame)
        axes = frame.axes[member]
        force = np.einsum("pa,pai->pi", local, axes)
        place = frame.points[frame.ends[member, 0]] + x[:, None] * axes[:, 0]
        force = np.concatenate((force, self.node_load[:, :3]))
        place = np.concatenate((place, frame.points[self.node]))
        case = np.concatenate((case, self.node_case))
        turning = np.cross(place, force)
        turning[len(member) :] += self.node_load[:, 3:]
        total, size = np.zeros((6, self.cases)), np.zeros(self.cases)
        for row in range(3):
            total[row] = np.bincount(case, weights=force[:, row], minlength=self.cases)
            total[3 + row] = np.bincount(case, weights=turning[:, row], minlength=self.cases)
        reach = max(float(np.abs(frame.points).max(initial=0.0)), 1.0)
        sizes = np.abs(force).sum(axis=1)
        sizes[len(member) :] += np.abs(self.node_load[:, 3:]).sum(axis=1) / reach
        size += np.bincount(case, weights=sizes, minlength=self.cases)
        return total, size


def collect(frame: Frame, cases: Sequence[Sequence[FrameLoad]]) -> FrameLoads:
    """Loads of all cases as arrays; :class:`FrameError` names one that does not fit the frame."""
    nodes: list[tuple[int, int, tuple[float, ...]]] = []
    points: list[tuple[int, int, float, tuple[float, ...], bool]] = []
    spreads: list[tuple[int, int, tuple[float, float], tuple[float, ...], bool]] = []
    lengths = frame.lengths.tolist()
    node_index, member_index = frame.node_index, frame.member_index
    for case, loads in enumerate(cases):
        for load in loads:
            if isinstance(load, NodeLoad):
                if load.node not in node_index:
                    raise FrameError(f"a load is on node {load.node}, which is not there")
                nodes.append((node_index[load.node], case, (*load.force, *load.moment)))
                continue
            row = member_index.get(load.member)
            if row is None:
                raise FrameError(f"a load is on member {load.member}, which is not there")
            length = lengths[row]
            slack = 1e-9 * length
            if isinstance(load, MemberPoint):
                if not -slack <= load.x <= length + slack:
                    raise FrameError(f"{load} is not on the member, which is {length:g} in long")
                points.append((row, case, load.x, load.force, load.local))
            else:
                if not -slack <= load.start < load.end <= length + slack:
                    raise FrameError(f"{load} is not on the member, which is {length:g} in long")
                q_end = load.q if load.q_end is None else load.q_end
                spreads.append((row, case, (load.start, load.end), (*load.q, *q_end), load.local))
    found = FrameLoads(
        cases=len(cases),
        node=_column(nodes, 0),
        node_case=_column(nodes, 1),
        node_load=_rows(nodes, 2, 6),
        point_member=_column(points, 0),
        point_case=_column(points, 1),
        point_x=_rows(points, 2, 1).ravel(),
        point_force=_local(frame, points, 3, 1)[:, 0],
        spread_member=_column(spreads, 0),
        spread_case=_column(spreads, 1),
        spread_x=_rows(spreads, 2, 2),
        spread_q=_local(frame, spreads, 3, 2),
    )
    if frame.plane:
        lost = [found.node_load[:, 2:5], found.point_force[:, 2], found.spread_q[:, :, 2]]
        if any(np.abs(part).any() for part in lost):
            raise FrameError("a load acts out of the plane of a plane frame")
    return found


def _column(rows: Sequence[tuple[object, ...]], at: int) -> Integers:
    return np.array([row[at] for row in rows], dtype=np.int64)


def _rows(rows: Sequence[tuple[object, ...]], at: int, width: int) -> Array:
    return np.array([row[at] for row in rows], dtype=np.float64).reshape(-1, width)


def _local(frame: Frame, rows: Sequence[tuple[object, ...]], at: int, vectors: int) -> Array:
    """Vectors of the loads in the axes of their members, (loads, vectors, 3)."""
    given = _rows(rows, at, 3 * vectors).reshape(-1, vectors, 3)
    if not rows:
        return given
    is_local = np.array([bool(row[4]) for row in rows])
    turned = np.einsum("lvi,lai->lva", given, frame.axes[_column(rows, 0)])
    return np.where(is_local[:, None, None], given, turned)
