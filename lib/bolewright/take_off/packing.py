"""A cutting problem in whole units, and its plain answer: the longest piece first, into the first stick it fits.

All lengths are whole numbers of one small unit, so that a plan that is said to fit does fit. A piece counts with
one saw cut; a stick's room counts with one cut more, since the last piece needs none after it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass


class CuttingError(ValueError):
    """A cutting problem that can't be solved; one sentence."""


@dataclass(frozen=True)
class Cutting:
    """Pieces wanted and sticks to be had.

    ``sizes`` the length of each kind of piece with its saw cut, falling; ``wanted`` how many of each; ``rooms`` the
    usable length of each kind of stick with one saw cut, rising; ``costs`` what each costs.
    """

    sizes: tuple[int, ...]
    wanted: tuple[int, ...]
    rooms: tuple[int, ...]
    costs: tuple[int, ...]

    def __post_init__(self) -> None:
        if list(self.sizes) != sorted(set(self.sizes), reverse=True) or min(self.sizes, default=1) < 1:
            raise CuttingError("the pieces must be of different lengths above zero, the longest first")
        if list(self.rooms) != sorted(set(self.rooms)):
            raise CuttingError("the sticks must be of different lengths, the shortest first")
        if min(self.wanted, default=1) < 1 or min(self.costs, default=1) < 1:
            raise CuttingError("counts and costs are whole numbers of 1 and more")
        if self.sizes and (not self.rooms or self.sizes[0] > self.rooms[-1]):
            raise CuttingError("the longest piece is longer than any stick")


@dataclass(frozen=True, order=True)
class Pattern:
    """How one stick is cut: which kind of stick, and how many of each kind of piece."""

    stick: int
    counts: tuple[int, ...]

    def used(self, cutting: Cutting) -> int:
        """Length it takes, saw cuts included."""
        return sum(count * size for count, size in zip(self.counts, cutting.sizes, strict=True))


Plan = dict[Pattern, int]


def cost_of(cutting: Cutting, plan: Plan) -> int:
    """Cost of all sticks of a plan."""
    return sum(cutting.costs[pattern.stick] * times for pattern, times in plan.items())


def first_fit_decreasing(cutting: Cutting, stick: int | None = None) -> Plan:
    """The longest piece first, each into the first stick with room, a new stick of one kind when none has.

    Each stick is then swapped for the cheapest that still holds its pieces. ``stick`` is the longest when not
    given.
    """
    room = cutting.rooms[-1 if stick is None else stick]
    left: list[int] = []
    held: list[Counter[int]] = []
    for kind, (size, count) in enumerate(zip(cutting.sizes, cutting.wanted, strict=True)):
        for _ in range(count):
            place = next((i for i, free in enumerate(left) if free >= size), None)
            if place is None:
                if size > room:
                    raise CuttingError("a piece is longer than the stick")
                left.append(room)
                held.append(Counter())
                place = len(left) - 1
            left[place] -= size
            held[place][kind] += 1
    return plan_of(cutting, held)


def plan_of(cutting: Cutting, held: Iterable[Counter[int]]) -> Plan:
    """Plan of sticks that hold these pieces, each the cheapest that does."""
    plan: Plan = {}
    for pieces in held:
        counts = tuple(pieces[kind] for kind in range(len(cutting.sizes)))
        used = sum(count * size for count, size in zip(counts, cutting.sizes, strict=True))
        pattern = Pattern(cheapest_stick(cutting, used), counts)
        plan[pattern] = plan.get(pattern, 0) + 1
    return plan


def cheapest_stick(cutting: Cutting, used: int) -> int:
    """The cheapest kind of stick with room for ``used``; the shortest of these."""
    fitting = [i for i, room in enumerate(cutting.rooms) if room >= used]
    return min(fitting, key=lambda i: (cutting.costs[i], cutting.rooms[i]))


def best_first_fit(cutting: Cutting) -> Plan:
    """The cheapest of first-fit-decreasing over every kind of stick that holds the longest piece."""
    sticks = [i for i, room in enumerate(cutting.rooms) if room >= cutting.sizes[0]]
    plans = [first_fit_decreasing(cutting, stick) for stick in sticks]
    return min(plans, key=lambda plan: (cost_of(cutting, plan), sum(plan.values())))


def exact_plan(cutting: Cutting, columns: Sequence[Pattern], times: Sequence[int]) -> Plan:
    """Plan in which every piece is cut once: what a covering of the wanted pieces has too many is left uncut."""
    over = [-want for want in cutting.wanted]
    for pattern, count in zip(columns, times, strict=True):
        for kind, each in enumerate(pattern.counts):
            over[kind] += each * count
    if min(over) < 0:
        raise CuttingError("the plan lacks a piece")
    held: list[Counter[int]] = []
    for pattern, count in zip(columns, times, strict=True):
        for _ in range(count):
            pieces: Counter[int] = Counter()
            for kind, each in enumerate(pattern.counts):
                dropped = min(each, over[kind])
                over[kind] -= dropped
                if each > dropped:
                    pieces[kind] = each - dropped
            if pieces:
                held.append(pieces)
    return plan_of(cutting, held)
