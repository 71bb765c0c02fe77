"""A plane or space frame as it is described: nodes, members, supports and loads.

Inches, pounds, psi; quantities are brought to them, so that ``Node("tip", Q("8 ft"), 0)`` is the node at 96 in.
Global axes x, y, z right-handed; in a space frame z is up, in a plane frame the frame
lies in x-y. A member's local x runs from its start to its end; local y is the direction of its depth: upward
in a space frame (global x for an upright member), a left turn from local x in a plane frame, or as ``depth``
says. Local z completes the right hand. So a joist under its weight bends about its local z, with ``I_z``.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import IntEnum
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from bolewright.formulas import bare, make_bare
from bolewright.mechanics.loads import Array, Integers
from bolewright.units import INCH, INCH_FOURTH, PLI, POUND, POUND_INCH, PSI, SQUARE_INCH, Value

Vector = tuple[float, float, float]
GivenVector = Sequence[Value] | Value
NO_VECTOR: Vector = (0.0, 0.0, 0.0)
_SQUARE = 1e-9
_NODE = {"x": INCH, "y": INCH, "z": INCH}
_PROFILE = {"E": PSI, "A": SQUARE_INCH, "I_z": INCH_FOURTH, "I_y": INCH_FOURTH, "J": INCH_FOURTH, "G": PSI}
_NODE_LOAD = {"force": POUND, "moment": POUND_INCH}
_POINT = {"x": INCH, "force": POUND}
_SPREAD = {"start": INCH, "end": INCH, "q": PLI, "q_end": PLI}


class Dof(IntEnum):
    """A way a node can move: along, or turning about, an axis."""

    DX = 0
    DY = 1
    DZ = 2
    RX = 3
    RY = 4
    RZ = 5


ALL = tuple(Dof)
PINNED = (Dof.DX, Dof.DY, Dof.DZ)
HINGE = (Dof.RY, Dof.RZ)
OUT_OF_PLANE = (Dof.DZ, Dof.RX, Dof.RY)


class FrameError(ValueError):
    """A frame or a load that makes no sense; one sentence that names the part and the value."""


@dataclass(frozen=True)
class Node:
    """A named point (in)."""

    name: str
    x: float
    y: float
    z: float = 0.0

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(self, name: str, x: Value, y: Value, z: Value = 0.0) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _NODE)


@dataclass(frozen=True)
class Profile:
    """Stiffness of a member: E and G (psi), area A (in²), second moments I_z, I_y and torsion J (in⁴).

    A plane frame needs only E, A and I_z.
    """

    E: float
    A: float
    I_z: float
    I_y: float = 0.0
    J: float = 0.0
    G: float = 0.0

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(
            self, E: Value, A: Value, I_z: Value, I_y: Value = 0.0, J: Value = 0.0, G: Value = 0.0
        ) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _PROFILE)


@dataclass(frozen=True)
class Member:
    """A straight member between two nodes.

    ``start_releases`` and ``end_releases`` are the local movements not passed on to the node (``HINGE`` for
    a pin); ``depth`` a global direction that local y leans towards.
    """

    name: str
    start: str
    end: str
    profile: Profile
    start_releases: tuple[Dof, ...] = ()
    end_releases: tuple[Dof, ...] = ()
    depth: Vector | None = None


@dataclass(frozen=True)
class Support:
    """Movements of a node that are held, and springs (lb/in, lb·in per radian) on others.

    ``axes`` are the three unit vectors of an inclined support, in which ``held`` and ``springs`` then count;
    global axes if left out.
    """

    node: str
    held: tuple[Dof, ...] = ()
    springs: tuple[tuple[Dof, float], ...] = ()
    axes: tuple[Vector, Vector, Vector] | None = None

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(
            self,
            node: str,
            held: Sequence[Dof] = (),
            springs: Sequence[tuple[Dof, Value]] = (),
            axes: tuple[Vector, Vector, Vector] | None = None,
        ) -> None: ...

    def __post_init__(self) -> None:
        for place, (dof, k) in enumerate(self.springs):
            plain = bare("Support", "springs", POUND_INCH if dof >= Dof.RX else PLI, k)
            if plain is not k:
                springs = (*self.springs[:place], (dof, plain), *self.springs[place + 1 :])
                object.__setattr__(self, "springs", springs)


@dataclass(frozen=True)
class NodeLoad:
    """Force (lb) and moment (lb·in) on a node, in global axes."""

    node: str
    force: Vector = NO_VECTOR
    moment: Vector = NO_VECTOR

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(
            self, node: str, force: GivenVector = NO_VECTOR, moment: GivenVector = NO_VECTOR
        ) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _NODE_LOAD)


@dataclass(frozen=True)
class MemberPoint:
    """Force (lb) on a member ``x`` inches from its start, in global axes or the member's own."""

    member: str
    x: float
    force: Vector
    local: bool = False

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(self, member: str, x: Value, force: GivenVector, local: bool = False) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _POINT)


@dataclass(frozen=True)
class MemberSpread:
    """Load (lb per inch of member) from ``start`` to ``end`` (in), changing evenly from ``q`` to ``q_end``.

    ``q_end`` is ``q`` if left out; in global axes or the member's own.
    """

    member: str
    start: float
    end: float
    q: Vector
    q_end: Vector | None = None
    local: bool = False

    if TYPE_CHECKING:  # what may be given: quantities, too

        def __init__(
            self,
            member: str,
            start: Value,
            end: Value,
            q: GivenVector,
            q_end: GivenVector | None = None,
            local: bool = False,
        ) -> None: ...

    def __post_init__(self) -> None:
        make_bare(self, _SPREAD)


FrameLoad = NodeLoad | MemberPoint | MemberSpread


def inclined(degrees: float) -> tuple[Vector, Vector, Vector]:
    """Axes of a plane support turned counter-clockwise, for :class:`Support`.

    >>> [tuple(round(c, 3) + 0.0 for c in axis) for axis in inclined(90.0)]
    [(0.0, 1.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, 1.0)]
    """
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return (c, s, 0.0), (-s, c, 0.0), (0.0, 0.0, 1.0)


@dataclass(frozen=True)
class Frame:
    """Nodes, members and supports of one structure; ``plane`` keeps it in the x-y plane.

    Raises FrameError: two parts of one name, a member without a node, without length or without stiffness.
    """

    nodes: tuple[Node, ...]
    members: tuple[Member, ...]
    supports: tuple[Support, ...]
    plane: bool = False

    def __post_init__(self) -> None:
        _unique("node", self.node_index, (node.name for node in self.nodes))
        _unique("member", self.member_index, (member.name for member in self.members))
        for member in self.members:
            for node in (member.start, member.end):
                if node not in self.node_index:
                    raise FrameError(f"member {member.name} ends at node {node}, which is not there")
            p = member.profile
            if not (p.E > 0 and p.A > 0 and p.I_z > 0 and (self.plane or min(p.I_y, p.J, p.G) > 0)):
                needed = "E, A and I_z" if self.plane else "E, A, I_z, I_y, J and G"
                raise FrameError(f"member {member.name} lacks stiffness: {needed} must be above zero")
        for support in self.supports:
            if support.node not in self.node_index:
                raise FrameError(f"a support stands at node {support.node}, which is not there")
            for dof, k in support.springs:
                if not 0 <= k < math.inf:
                    raise FrameError(f"spring {dof.name} at node {support.node} is {k:g}: give zero or above")

    @cached_property
    def node_index(self) -> dict[str, int]:
        """Row of each node by name."""
        return {node.name: row for row, node in enumerate(self.nodes)}

    @cached_property
    def member_index(self) -> dict[str, int]:
        """Row of each member by name."""
        return {member.name: row for row, member in enumerate(self.members)}

    @cached_property
    def points(self) -> Array:
        """Node coordinates, (nodes, 3)."""
        return np.array([(node.x, node.y, node.z) for node in self.nodes], dtype=float).reshape(-1, 3)

    @cached_property
    def ends(self) -> Integers:
        """Start and end node row of each member, (members, 2)."""
        at = self.node_index
        return np.array([(at[m.start], at[m.end]) for m in self.members], dtype=np.int64).reshape(-1, 2)

    @cached_property
    def freedoms(self) -> Integers:
        """Flat place (node, dof) of the twelve end movements of each member, (members, 12)."""
        return (self.ends[:, :, None] * 6 + np.arange(6)).reshape(-1, 12)

    @cached_property
    def lengths(self) -> Array:
        """Member lengths (in)."""
        span = self.points[self.ends[:, 1]] - self.points[self.ends[:, 0]]
        lengths = np.asarray(np.sqrt((span * span).sum(axis=1)))
        if not lengths.all():
            name = self.members[int(np.argmin(lengths))].name
            raise FrameError(f"member {name} has no length: its two nodes are at one place")
        return lengths

    @cached_property
    def axes(self) -> Array:
        """Local axes of each member as rows, (members, 3, 3)."""
        x = (self.points[self.ends[:, 1]] - self.points[self.ends[:, 0]]) / self.lengths[:, None]
        if self.plane:
            lean = np.stack((-x[:, 1], x[:, 0], np.zeros(len(x))), axis=1)
        else:
            lean = np.zeros_like(x)
            upright = np.abs(x[:, 2]) > 1 - 1e-9
            lean[~upright, 2] = 1.0
            lean[upright, 0] = 1.0
        for row, member in enumerate(self.members):
            if member.depth is not None:
                lean[row] = member.depth
        y = lean - (lean * x).sum(axis=1)[:, None] * x
        size = np.sqrt((y * y).sum(axis=1))
        if size.size and not (size > 1e-6).all():
            name = self.members[int(np.argmin(size))].name
            raise FrameError(f"member {name} has its depth along its own length: turn it")
        y /= size[:, None]
        z = np.stack(
            (
                x[:, 1] * y[:, 2] - x[:, 2] * y[:, 1],
                x[:, 2] * y[:, 0] - x[:, 0] * y[:, 2],
                x[:, 0] * y[:, 1] - x[:, 1] * y[:, 0],
            ),
            axis=1,
        )
        return np.stack((x, y, z), axis=1)

    @cached_property
    def holds(self) -> tuple[Array, Array, Array]:
        """By node: held (nodes, 6) as 0 or 1, springs (nodes, 6), axes of the supports (nodes, 3, 3)."""
        count = len(self.nodes)
        held, springs = np.zeros((count, 6)), np.zeros((count, 6))
        axes = np.broadcast_to(np.eye(3), (count, 3, 3)).copy()
        if self.plane:
            held[:, OUT_OF_PLANE] = 1.0
        for support in self.supports:
            row = self.node_index[support.node]
            if support.held:
                held[row, support.held] = 1.0
            for dof, k in support.springs:
                springs[row, dof] += k
            if support.axes is not None:
                axes[row] = support.axes
        askew = np.abs(axes @ np.swapaxes(axes, 1, 2) - np.eye(3)).max(axis=(1, 2), initial=0.0) > _SQUARE
        if askew.any():
            node = self.nodes[int(np.argmax(askew))].name
            raise FrameError(f"the axes of the support at node {node} are not square")
        return held, springs, axes


def _unique(word: str, index: dict[str, int], names: Iterable[str]) -> None:
    listed = list(names)
    if len(index) != len(listed):
        twice = next(name for name in listed if listed.count(name) > 1)
        raise FrameError(f"two {word}s are named {twice}")
