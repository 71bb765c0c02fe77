"""How the boards of one stretch of deck are borne: the idealisation applied at a place.

A member whose centre line lies past the edge of the deck bears boards as long as its near face is under them: its part
in bearing them falls evenly from all, with the centre line on the edge, to none, with the face on it, and the boards
are borne by the others as if it were not there for the rest.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import NamedTuple

from bolewright.platform.board_lines import Slope
from bolewright.platform.board_rule import LEVER, hold_downs

_NOTHING = 1e-9  # lb per lb
_TOUCH = 1e-9  # in: members nearer than this along a board meet there
Edge = tuple[Slope, Slope]  # an edge of the deck and a member partly past it


class Part(NamedTuple):
    """What a member gets of one pound: ``square`` to it where nothing else holds the board, else along the board."""

    member: str
    pounds: float
    square: bool = False


@dataclass(frozen=True)
class Way:
    """One way in which boards are borne: between two members, or past the last one by those inward of it.

    ``members`` the nearest first; ``when`` for each choice of the members that lie partly past the edge: that edge and
    member, and whether it counts. Nothing in it: always.
    """

    members: tuple[Slope, ...]
    past: bool
    when: tuple[tuple[tuple[Slope, Slope, bool], ...], ...] = ()

    @property
    def key(self) -> tuple[str, ...]:
        """What stays the same along a cell."""
        choices = (f"{member.name} {counts}" for choice in self.when for _, member, counts in choice)
        return (str(self.past), *(m.name for m in self.members), *choices)

    def weight(self, s: float) -> float:
        """Share of the load at ``s`` that goes this way."""
        if not self.when:
            return 1.0
        return sum(
            math.prod(_bears(edge, member, s, counts) for edge, member, counts in choice)
            for choice in self.when
        )

    def parts(self, s: float, t: float) -> Iterator[Part]:
        """What the members get of one pound at a place; nothing where no member lies under the board."""
        if not self.members:
            return
        last, *inward = self.members
        at = last.at(s)
        if not self.past:
            gap = inward[0].at(s) - at
            part = (t - at) / gap if abs(gap) > _TOUCH else 0.5
            yield Part(last.name, 1.0 - part)
            yield Part(inward[0].name, part)
            return
        if not inward:
            yield Part(last.name, 1.0, square=True)
            return
        pulls = hold_downs(abs(t - at) * last.sine, [abs(m.at(s) - at) * last.sine for m in inward])
        yield Part(last.name, 1.0 + sum(pulls))
        for member, pull in zip(inward, pulls, strict=True):
            if pull > _NOTHING:
                yield Part(member.name, -pull)


def ways_between(
    i: int,
    inside: Sequence[Slope],
    before: Edge | Sequence[Slope],
    after: Edge | Sequence[Slope],
    slab: tuple[float, float],
) -> tuple[Way, ...]:
    """Ways in which the boards before the ``i``-th of the members inside a stretch of deck are borne.

    ``before`` and ``after``: edge and member partly past it, or nothing; ``slab`` where the stretch begins and ends.
    """
    ends = [(edge[0], edge[1]) for edge in (before, after) if len(edge) == 2]
    found: dict[tuple[bool, tuple[Slope, ...]], list[tuple[tuple[Slope, Slope, bool], ...]]] = {}
    for counts in product((True, False), repeat=len(ends)):
        chosen = dict(zip(ends, counts, strict=True))
        low = [m for (edge, m), on in chosen.items() if on and before and m is before[1]]
        high = [m for (edge, m), on in chosen.items() if on and after and m is after[1]]
        row = [*low, *inside, *high]
        at = i + len(low)
        way: tuple[bool, tuple[Slope, ...]]
        if 0 < at < len(row):
            way = (False, (row[at - 1], row[at]))
        else:
            way = (True, _inward(row if at == 0 else row[::-1], slab))
        found.setdefault(way, []).append(tuple((edge, m, on) for (edge, m), on in chosen.items()))
    if len(found) == 1:
        ((past, members),) = found
        return (Way(members, past),)
    return tuple(Way(members, past, tuple(when)) for (past, members), when in found.items())


def _inward(row: Sequence[Slope], slab: tuple[float, float]) -> tuple[Slope, ...]:
    """The last member under a board and those inward of it, to the first that holds all that is left.

    The last alone where the next one hangs from it: that ends there.
    """
    kept = list(row[:1])
    for member in row[1:]:
        if len(kept) == 1 and row[0].name in member.hangs_from:
            break
        kept.append(member)
        if min(abs(member.at(s) - row[0].at(s)) for s in slab) * row[0].sine >= LEVER - 1e-9:
            break
    return tuple(kept)


def _bears(edge: Slope, member: Slope, s: float, counts: bool) -> float:
    off = abs(member.at(s) - edge.at(s))
    part = min(max(1.0 - off / member.reach, 0.0), 1.0)
    return part if counts else 1.0 - part
