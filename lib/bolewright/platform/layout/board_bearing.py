"""How the boards of one stretch of deck are borne: the idealisation applied at a place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from bolewright.platform.layout.board_lines import Slope
from bolewright.platform.layout.board_rule import LEVER, hold_downs

_NOTHING = 1e-9  # lb per lb
_TOUCH = 1e-9  # in: members nearer than this along a board meet there


class Part(NamedTuple):
    """What a member gets of one pound: along the board, or square to it from ``square`` along the board."""

    member: str
    pounds: float
    square: float | None = None


@dataclass(frozen=True)
class Way:
    """How boards are borne: between two members, or past the last one by it and those inward of it.

    ``members`` the nearest first; none where no member is under the boards. ``lies_on`` the member that the boards lie
    along, on its wood.
    """

    members: tuple[Slope, ...]
    past: bool
    lies_on: str = ""

    @cached_property
    def key(self) -> tuple[str, ...]:
        """What stays the same along a cell."""
        return (str(self.past), *(m.name for m in self.members), *([self.lies_on] if self.lies_on else []))

    def parts(self, s: float, t: float) -> Iterator[Part]:
        """What the members get of one pound at a place; nothing where no member lies under the board."""
        if self.lies_on:
            yield Part(self.lies_on, 1.0, t)
        if not self.members:
            return
        last, *inward = self.members
        at = last.at(s)
        if not self.past:
            gap = inward[0].at(s) - at
            part = (t - at) / gap if abs(gap) > _TOUCH else 0.5
            yield Part(last.name, 1.0 - part, at if last.at_end else None)
            yield Part(inward[0].name, part, inward[0].at(s) if inward[0].at_end else None)
            return
        if not inward:
            yield Part(last.name, 1.0, t)
            return
        pulls = hold_downs(abs(t - at) * last.sine, [abs(m.at(s) - at) * last.sine for m in inward])
        yield Part(last.name, 1.0 + sum(pulls), at if last.at_end else None)
        for member, pull in zip(inward, pulls, strict=True):
            if pull > _NOTHING:
                yield Part(member.name, -pull, member.at(s) if member.at_end else None)


def way_at(row: Sequence[Slope], i: int, slab: tuple[float, float]) -> Way:
    """How the boards before the ``i``-th of the members under them are borne.

    ``slab`` where the stretch begins and ends.
    """
    if 0 < i < len(row):
        return Way((row[i - 1], row[i]), past=False)
    return Way(_inward(row if i == 0 else row[::-1], slab), past=True)


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
