"""Members over three seats or more that give way: the seats' forces by the stiffness of the members together.

A joist over three beams does not rest on rigid supports: the beam that deflects most carries less, and the joist
bends the more. So where a member has more than two seats and any of them is on another member, all members are put
together as a grillage of beams that pass vertical forces, and how far these seats go down is solved for every
source at once. Members on two seats need nothing of this: statics alone gives theirs.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from bolewright.mechanics.beam import Beam, respond
from bolewright.mechanics.loads import UnitLoad
from bolewright.platform.layout.influence import Array, Influence, Integers, gather
from bolewright.platform.layout.parts import Layout, Member

_AT_ONCE = 8000  # sources solved for at a time
_ONE_PLACE = 0.05  # in: nodes of a member nearer than this are one


@dataclass(frozen=True)
class Delivery:
    """A load on a member: where it acts, what it is, and how much of which sources arrives as it."""

    load: UnitLoad
    label: str
    sources: Integers
    amounts: Array


@dataclass(frozen=True)
class _Nodes:
    """Where a member meets others or supports: places along it, and the joint of each (below 0 on a support)."""

    places: tuple[float, ...]
    joints: Integers

    def at(self, x: float) -> int:
        """Node nearest to a place."""
        return int(np.argmin(np.abs(np.asarray(self.places) - x)))


def gives_way(layout: Layout) -> bool:
    """Whether any member with more than two seats has one of them on another member."""
    supports = {s.mark for s in layout.supports}
    return any(len(m.seats) > 2 and any(s.below not in supports for s in m.seats) for m in layout.members)


def seat_drops(
    layout: Layout, EI: Mapping[str, float], arriving: Mapping[str, Sequence[Delivery]], count: int
) -> dict[str, Influence]:
    """How far the seats (rows) of every member with more than two go down under every source (in), if any gives way.

    With them a member's seat forces follow from what comes onto it: see :func:`seat_forces`.

    Parameters: layout; ``EI`` of every member (lb·in²); ``arriving`` what comes straight onto each member;
    ``count`` of all sources.
    """
    if not gives_way(layout):
        return {}
    nodes = _find_nodes(layout)
    size = 1 + max(int(n.joints.max()) for n in nodes.values())
    whole = np.zeros((size, size))
    laid: list[tuple[Integers, Influence]] = []
    for member in layout.members:
        here = nodes[member.mark]
        stiffness = beam_stiffness(here.places, EI[member.mark])
        held = _held(member, here, arriving[member.mark], EI[member.mark], count)
        free = np.nonzero(here.joints >= 0)[0]
        joints = here.joints[free]
        whole[np.ix_(joints, joints)] += stiffness[np.ix_(free, free)]
        laid.append((joints, held[free]))
    wanted = {
        m.mark: nodes[m.mark].joints[[nodes[m.mark].at(seat.at) for seat in m.seats]]
        for m in layout.members
        if len(m.seats) > 2
    }
    drops = {mark: np.zeros((joints.size, count)) for mark, joints in wanted.items()}
    for low in range(
        0, count, _AT_ONCE
    ):  # never a whole matrix of joints by sources beside those that are kept
        stretch = slice(low, min(low + _AT_ONCE, count))
        moved = np.linalg.solve(whole, _block(laid, size, stretch))
        for mark, joints in wanted.items():
            off_supports = np.flatnonzero(joints >= 0)  # a seat on a support stays
            drops[mark][off_supports, stretch] = moved[joints[off_supports]]
    return {mark: _reached(values) for mark, values in drops.items()}


def _reached(values: Array) -> Influence:
    """Influence of rows over all sources, less the sources that reach none of them."""
    columns = np.flatnonzero((values != 0.0).any(axis=0))
    return Influence(
        values if columns.size == values.shape[1] else values[:, columns], columns, values.shape[1]
    )


def _block(laid: Sequence[tuple[Integers, Influence]], size: int, here: slice) -> Array:
    """Loads on the joints (rows) from the sources of a stretch (columns)."""
    block = np.zeros((size, here.stop - here.start))
    for joints, held in laid:
        first, last = np.searchsorted(held.columns, (here.start, here.stop))
        block[np.ix_(joints, held.columns[first:last] - here.start)] += held.values[:, first:last]
    return block


def seat_forces(member: Member, EI: float, arriving: Sequence[Delivery], drops: Influence) -> Influence:
    """Forces at the seats (rows) of a member from all that comes onto it, from above too, and from its seats' drops.

    What arrives between seats that stay, and the forces of the drops themselves, which are in balance: so the forces
    hold up all that arrives, whatever the drops are.
    """
    places = tuple(seat.at for seat in member.seats)
    delivered = gather([(a.sources, a.amounts) for a in arriving], drops.count)
    rigid = respond(Beam(member.line.length, places, EI), [a.load for a in arriving], [0.0]).reactions
    bent = -beam_stiffness(places, EI) @ drops.values
    columns = np.union1d(delivered.columns, drops.columns)
    values = np.zeros((len(places), columns.size))
    values[:, np.searchsorted(columns, delivered.columns)] += rigid @ delivered.values
    values[:, np.searchsorted(columns, drops.columns)] += bent
    return Influence(values, columns, drops.count)


@dataclass(frozen=True)
class Settled:
    """What happens when one support goes down by 1 in, a column for each support of the layout.

    ``supports`` the change of the load on every support (lb, more load positive); ``moment`` by member the change of
    its greatest moment at a node, without sign (lb·in).
    """

    supports: Array
    moment: dict[str, Array]


def settle(layout: Layout, EI: Mapping[str, float]) -> Settled:
    """All members as a grillage whose supports go down one after another; nothing changes where statics alone rules."""
    nodes = _find_nodes(layout)
    order = [s.mark for s in layout.supports]
    free = 1 + max((int(n.joints.max()) for n in nodes.values()), default=-1)
    size = free + len(order)
    whole = np.zeros((size, size))
    joints, stiffness = {}, {}
    for member in layout.members:
        here = nodes[member.mark]
        own = np.where(here.joints < 0, size + here.joints, here.joints)
        K = beam_stiffness(here.places, EI[member.mark])
        whole[np.ix_(own, own)] += K
        joints[member.mark], stiffness[member.mark] = own, K
    down = np.eye(size)[:, free:]
    if free:
        # a joint that nothing but two-seat members meet moves along without force: its equations may be empty
        down[:free] = -np.linalg.lstsq(whole[:free, :free], whole[:free, free:], rcond=None)[0]
    moment = {}
    for member in layout.members:
        places = np.array(nodes[member.mark].places)
        push = stiffness[member.mark] @ down[joints[member.mark]]
        lever = np.maximum(places[:, None] - places, 0.0)
        moment[member.mark] = np.abs(lever @ push).max(axis=0)
    return Settled(-(whole @ down)[free:], moment)


def _find_nodes(layout: Layout) -> dict[str, _Nodes]:
    """Nodes of every member. A seat and the place it is on are one joint, and so are all seats in one place.

    The joints of the supports count back from -1, the last of them, so that all in one place over a support share it.
    """
    supports = {s.mark: i - len(layout.supports) for i, s in enumerate(layout.supports)}
    places: dict[str, list[float]] = {m.mark: [] for m in layout.members}
    for member in layout.members:
        for seat in member.seats:
            places[member.mark].append(seat.at)
            if seat.below not in supports:
                places[seat.below].append(seat.below_at)
    kept = {mark: _apart(sorted(found)) for mark, found in places.items()}
    joint: dict[tuple[str, int], int] = {}
    number = 0
    for member in reversed(layout.members):  # from the supports up, so that what is below has its joints
        seats = {_nearest(kept[member.mark], seat.at): seat for seat in member.seats}
        for node in range(len(kept[member.mark])):
            here = seats.get(node)
            if here is not None and here.below in supports:
                joint[member.mark, node] = supports[here.below]
            elif here is not None:
                joint[member.mark, node] = joint[here.below, _nearest(kept[here.below], here.below_at)]
            else:
                joint[member.mark, node] = number
                number += 1
    return {
        mark: _Nodes(found, np.array([joint[mark, i] for i in range(len(found))], dtype=np.int64))
        for mark, found in kept.items()
    }


def _apart(places: Sequence[float]) -> tuple[float, ...]:
    kept = [places[0]]
    for x in places[1:]:
        if x - kept[-1] > _ONE_PLACE:
            kept.append(x)
    return tuple(kept)


def _nearest(places: Sequence[float], x: float) -> int:
    return int(np.argmin(np.abs(np.asarray(places) - x)))


def _held(member: Member, nodes: _Nodes, arriving: Sequence[Delivery], EI: float, count: int) -> Influence:
    """Reactions at a member's nodes, all held still, from every source that comes straight onto it."""
    delivered = gather([(a.sources, a.amounts) for a in arriving], count)
    beam = Beam(member.line.length, nodes.places, EI)
    reactions = respond(beam, [a.load for a in arriving], [0.0]).reactions
    return Influence(reactions @ delivered.values, delivered.columns, count)


def beam_stiffness(places: Sequence[float], EI: float) -> Array:
    """Stiffness of a beam against moving up or down at its nodes, free to turn at them (lb/in).

    >>> beam_stiffness((0.0, 60.0, 120.0), 1e6).round(3)[1]  # 48 EI / l^3 = 27.778
    array([-13.889,  27.778, -13.889])
    """
    whole = np.zeros((2 * len(places), 2 * len(places)))
    for i, (a, b) in enumerate(pairwise(places)):
        L = b - a
        one = [
            [12, 6 * L, -12, 6 * L],
            [6 * L, 4 * L**2, -6 * L, 2 * L**2],
            [-12, -6 * L, 12, -6 * L],
            [6 * L, 2 * L**2, -6 * L, 4 * L**2],
        ]
        whole[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += EI / L**3 * np.array(one)
    vv, vr, rr = whole[0::2, 0::2], whole[0::2, 1::2], whole[1::2, 1::2]
    return np.asarray(vv - vr @ np.linalg.solve(rr, vr.T), dtype=float)
