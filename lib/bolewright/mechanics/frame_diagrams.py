"""Diagrams along a member of a solved frame, and their true extrema between the nodes.

Axial force is positive in tension. A shear is the slope of its moment. ``moment_z`` is positive where it
compresses the +y face (a joist that deflects under its weight), ``moment_y`` where it compresses the +z face.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from bolewright.mechanics.frame import FrameResult
from bolewright.mechanics.frame_model import Dof
from bolewright.mechanics.loads import Array, LoadArrays
from bolewright.mechanics.turning import Extreme, greatest, least, turning_points

_CLOSE = 1e-9


@dataclass(frozen=True)
class MemberDiagram:
    """Effects at stations (rows) for each case (columns), local axes.

    ``left`` and ``right`` hold axial force and shears y and z (stations, 3, cases) just left and right of
    each station; ``moved`` the shifts along local x, y and z (in), ``slope`` dv/dx and dw/dx.
    """

    stations: Array
    left: Array
    right: Array
    torsion: Array
    moment_z: Array
    moment_y: Array
    moved: Array
    slope: Array


def along(result: FrameResult, member: str, stations: npt.ArrayLike) -> MemberDiagram:
    """Diagrams of one member at stations (in from its start), for all load cases; shapes as :class:`MemberDiagram`."""
    row = result.frame.member_index[member]
    length = float(result.frame.lengths[row])
    x = np.atleast_1d(np.asarray(stations, dtype=float))
    unit, share = _member_loads(result, row)
    zero = np.zeros(x.size, dtype=np.int64)
    none = np.zeros(0, dtype=np.int64)
    Q1, Q2, Q3 = unit.integrals(x, np.zeros(x.size), zero, np.zeros(unit.point.size, dtype=np.int64), none)
    before, after = unit.before(x, _CLOSE * length)

    def summed(columns: Array) -> Array:
        return np.asarray(np.einsum("kl,lac->kac", columns, share), dtype=np.float64)

    start, shift = result.end_forces[row], result.end_movements[row]
    push = start[[Dof.DX, Dof.DY, Dof.DZ]]
    sign = np.array([-1.0, 1.0, 1.0])[:, None]
    first, second, third = summed(Q1), summed(Q2), summed(Q3)
    t = x[:, None]
    turn_z, turn_y = -start[Dof.RZ], start[Dof.RY]
    bend = np.stack((turn_z + t * push[1] + first[:, 1], turn_y + t * push[2] + first[:, 2]), axis=1)
    profile = result.frame.members[row].profile
    EI = np.array([profile.E * profile.I_z, profile.E * profile.I_y])
    soft = np.divide(1.0, EI, out=np.zeros(2), where=EI > 0)[:, None]  # a plane frame has no I_y
    turn = np.stack((turn_z, turn_y))
    at, lean = shift[[Dof.DY, Dof.DZ]], np.stack((shift[Dof.RZ], -shift[Dof.RY]))
    T = x[:, None, None]
    slope = lean + soft * (turn * T + push[1:] * T**2 / 2 + second[:, 1:])
    bent = at + lean * T + soft * (turn * T**2 / 2 + push[1:] * T**3 / 6 + third[:, 1:])
    stretched = shift[Dof.DX] - (push[0] * t + first[:, 0]) / (profile.E * profile.A)
    return MemberDiagram(
        stations=x,
        left=sign * (np.where(_CLOSE * length < T, push, 0.0) + summed(before)),
        right=sign * (np.where(length * (1 - _CLOSE) > T, push + summed(after), 0.0)),
        torsion=np.broadcast_to(-start[Dof.RX], (x.size, result.loads.cases)),
        moment_z=bend[:, 0],
        moment_y=bend[:, 1],
        moved=np.concatenate((stretched[:, None], bent), axis=1),
        slope=slope,
    )


def _member_loads(result: FrameResult, row: int) -> tuple[LoadArrays, Array]:
    """Loads of a member as points, even spreads and ramps, with the local force of each (loads, 3, cases)."""
    loads = result.loads
    points = np.nonzero(loads.point_member == row)[0]
    spreads = np.nonzero(loads.spread_member == row)[0]
    count, width = points.size, spreads.size
    share = np.zeros((count + 2 * width, 3, loads.cases))
    share[np.arange(count), :, loads.point_case[points]] = loads.point_force[points]
    start, end = loads.spread_x[spreads].T
    q = loads.spread_q[spreads]
    ramp = (q[:, 1] - q[:, 0]) / (end - start)[:, None]
    columns = count + np.arange(width)
    share[columns, :, loads.spread_case[spreads]] = q[:, 0]
    share[columns + width, :, loads.spread_case[spreads]] = ramp
    ones, zeros = np.ones(width), np.zeros(width)
    unit = LoadArrays(
        count=count + 2 * width,
        point_column=np.arange(count),
        point=loads.point_x[points],
        spread_column=np.concatenate((columns, columns + width)),
        start=np.concatenate((start, start)),
        end=np.concatenate((end, end)),
        q=np.concatenate((ones, zeros)),
        m=np.concatenate((zeros, ones)),
        couple_column=np.zeros(0, dtype=np.int64),
        couple=np.zeros(0),
    )
    return unit, share


@dataclass(frozen=True)
class MemberExtrema:
    """Least and greatest of each effect along a member in one case, with their places (in from its start)."""

    axial: tuple[Extreme, Extreme]
    shear_y: tuple[Extreme, Extreme]
    shear_z: tuple[Extreme, Extreme]
    moment_z: tuple[Extreme, Extreme]
    moment_y: tuple[Extreme, Extreme]
    moved_y: tuple[Extreme, Extreme]
    moved_z: tuple[Extreme, Extreme]


def extrema(result: FrameResult, member: str, case: int = 0) -> MemberExtrema:
    """True extrema of the diagrams of one member in one load case."""
    x = _extreme_places(result, member, case)
    found = along(result, member, x)
    sides = np.concatenate((found.left[1:, :, case], found.right[:-1, :, case]))
    places = np.concatenate((x[1:], x[:-1]))

    def both(values: Array, at: Array = x) -> tuple[Extreme, Extreme]:
        return least(at, values), greatest(at, values)

    return MemberExtrema(
        axial=both(sides[:, 0], places),
        shear_y=both(sides[:, 1], places),
        shear_z=both(sides[:, 2], places),
        moment_z=both(found.moment_z[:, case]),
        moment_y=both(found.moment_y[:, case]),
        moved_y=both(found.moved[:, 1, case]),
        moved_z=both(found.moved[:, 2, case]),
    )


def _extreme_places(result: FrameResult, member: str, case: int) -> Array:
    frame, loads = result.frame, result.loads
    row = frame.member_index[member]
    length = float(frame.lengths[row])
    points = (loads.point_member == row) & (loads.point_case == case)
    spreads = (loads.spread_member == row) & (loads.spread_case == case)
    span, q = loads.spread_x[spreads], loads.spread_q[spreads]
    edges = np.unique(
        np.clip(np.concatenate(([0.0, length], loads.point_x[points], span.ravel())), 0.0, length)
    )
    found = along(result, member, edges)
    profile = frame.members[row].profile
    places = edges.tolist()
    for piece, (a, b) in enumerate(pairwise(edges)):
        covers = (span[:, 0] < (a + b) / 2) & (span[:, 1] > (a + b) / 2)
        ramp = (q[covers, 1] - q[covers, 0]) / (span[covers, 1] - span[covers, 0])[:, None]
        here = (q[covers, 0] + ramp * (a - span[covers, 0])[:, None]).sum(axis=0)
        steeper = ramp.sum(axis=0)
        for plane, moment, I in ((1, found.moment_z, profile.I_z), (2, found.moment_y, profile.I_y)):
            turning = turning_points(
                width=float(b - a),
                shear=float(found.right[piece, plane, case]),
                moment=float(moment[piece, case]),
                slope=-float(found.slope[piece, plane - 1, case]),
                q=-float(here[plane]),
                m=-float(steeper[plane]),
                EI=profile.E * I,
            )
            places += [float(a) + t for t in turning.places]
        if steeper[0]:
            places.append(float(min(max(a - here[0] / steeper[0], a), b)))
    return np.unique(np.array(places))
