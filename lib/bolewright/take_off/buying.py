"""Buying list: which sticks to buy and what is cut from each, at least cost or least length bought."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bolewright.platform.project import Project, Stock
from bolewright.take_off.cut_list import Cut, Lumber
from bolewright.take_off.cutting import Solved, solve
from bolewright.take_off.packing import Cutting
from bolewright.take_off.stock import Offer, offers, useful_offers

UNIT = 1 / 32  # in: pieces are cut to a sixteenth, saw cuts and trims are rounded up to this


@dataclass(frozen=True)
class Stick:
    """One stick as it is cut: its number, what is bought, the cuts in order, and what is left of it (in)."""

    number: int
    offer: Offer
    cuts: tuple[Cut, ...]
    left: float


@dataclass(frozen=True)
class Purchase:
    """All sticks of one kind of lumber. ``too_long`` are pieces that no stick gives.

    ``bound`` is the cost, or without prices the length (in), below which no list can be; ``reached`` what this one
    takes.
    """

    lumber: Lumber
    sticks: tuple[Stick, ...]
    too_long: tuple[Cut, ...]
    priced: bool
    reached: float
    bound: float

    @property
    def proven(self) -> bool:
        """Whether no other list takes less."""
        return self.reached <= self.bound + 1e-9

    @property
    def gap(self) -> float:
        """Share of cost or length that might at most be saved."""
        return max(0.0, self.reached - self.bound) / self.reached if self.reached else 0.0

    @property
    def bought(self) -> float:
        """Length bought (in)."""
        return sum(stick.offer.length for stick in self.sticks)

    @property
    def used(self) -> float:
        """Length that ends up in the platform, long point to long point (in)."""
        return sum(cut.long for stick in self.sticks for cut in stick.cuts)

    @property
    def waste(self) -> float:
        """Share of the length bought that is saw cuts, trims and offcuts."""
        return 1 - self.used / self.bought if self.bought else 0.0

    @property
    def cost(self) -> float | None:
        """Price of all sticks; None where no price is known."""
        prices = [stick.offer.price for stick in self.sticks]
        return sum(price for price in prices if price is not None) if self.priced else None

    @property
    def counts(self) -> tuple[tuple[Offer, int], ...]:
        """How many of each length to buy, the shortest first."""
        found: dict[Offer, int] = {}
        for stick in sorted(self.sticks, key=lambda s: s.offer.length):
            found[stick.offer] = found.get(stick.offer, 0) + 1
        return tuple(found.items())


@dataclass(frozen=True)
class NearMiss:
    """Pieces that a little less length would cut from a shorter stick: by how much (in), and of which length."""

    cuts: tuple[Cut, ...]
    over: float
    stick: float


def near_misses(project: Project, purchase: Purchase) -> tuple[NearMiss, ...]:
    """Pieces that are at most 2 in. too long, end trims included, for a length of stick."""
    stock = project.stock
    lengths = [
        o.length for o in offers(project, purchase.lumber.section, purchase.lumber.grade) if not o.delivered
    ]
    found: dict[tuple[float, float], list[Cut]] = {}
    for cut in sorted((c for s in purchase.sticks for c in s.cuts), key=lambda c: natural(c.label)):
        needed = stick_needed(cut, stock)
        for length in lengths:
            if 0 < needed - length <= _NEAR:
                found.setdefault((needed - length, length), []).append(cut)
    return tuple(NearMiss(tuple(cuts), over, length) for (over, length), cuts in found.items())


def buying_list(project: Project, cuts: Iterable[Cut], seconds: float = 30.0) -> tuple[Purchase, ...]:
    """What to buy for all cuts, one purchase for each kind of lumber."""
    kinds: dict[Lumber, list[Cut]] = {}
    for cut in cuts:
        kinds.setdefault(cut.lumber, []).append(cut)
    return tuple(_purchase(project, lumber, kinds[lumber], seconds) for lumber in sorted(kinds))


def stick_needed(cut: Cut, stock: Stock) -> float:
    """Shortest stick that gives a piece (in)."""
    return cut.buy + 2 * stock.end_trim


def _purchase(project: Project, lumber: Lumber, cuts: Sequence[Cut], seconds: float) -> Purchase:
    stock = project.stock
    found = offers(project, lumber.section, lumber.grade)
    longest = max(offer.length for offer in found)
    too_long = tuple(cut for cut in cuts if stick_needed(cut, stock) > longest + 1e-9)
    fitting = [cut for cut in cuts if stick_needed(cut, stock) <= longest + 1e-9]
    chosen = useful_offers(found, tuple(stick_needed(cut, stock) - 1e-9 for cut in fitting))
    priced = all(offer.price is not None for offer in chosen)
    if not fitting:
        return Purchase(lumber, (), too_long, priced, 0.0, 0.0)
    chosen = tuple(offer for offer in chosen if _room(offer, stock) > 0)
    cutting = cutting_problem(stock, chosen, fitting, priced=priced)
    solved = solve(cutting, seconds)
    one = _CENT if priced else UNIT
    sticks = _sticks(cutting, solved, chosen, fitting, stock)
    return Purchase(lumber, sticks, too_long, priced, solved.cost * one, solved.bound * one)


_NEAR = 2.0  # in
_CENT = 1e-4  # of the currency: prices are compared to this


def _room(offer: Offer, stock: Stock) -> int:
    """Units of a stick that pieces with their saw cuts may take; the last piece needs no saw cut after it."""
    free = math.floor((offer.length - 2 * stock.end_trim) / UNIT + 1e-6)
    return free + _kerf(stock) if free > 0 else 0


def _kerf(stock: Stock) -> int:
    return math.ceil(stock.kerf / UNIT - 1e-6)


def _size(cut: Cut, stock: Stock) -> int:
    return math.ceil(cut.buy / UNIT - 1e-6) + _kerf(stock)


def cutting_problem(stock: Stock, chosen: Sequence[Offer], cuts: Sequence[Cut], *, priced: bool) -> Cutting:
    """Problem in whole units for cuts and offers; cost is the price, or without prices the length."""
    wanted: dict[int, int] = {}
    for cut in cuts:
        wanted[_size(cut, stock)] = wanted.get(_size(cut, stock), 0) + 1
    sizes = tuple(sorted(wanted, reverse=True))
    costs = tuple(
        max(1, round((offer.price or 0.0) / _CENT)) if priced else round(offer.length / UNIT)
        for offer in chosen
    )
    rooms = tuple(_room(offer, stock) for offer in chosen)
    return Cutting(sizes, tuple(wanted[size] for size in sizes), rooms, costs)


def _sticks(
    cutting: Cutting, solved: Solved, chosen: Sequence[Offer], cuts: Sequence[Cut], stock: Stock
) -> tuple[Stick, ...]:
    """Marks given out: like pieces in the order of their marks, the longest sticks first."""
    waiting: dict[int, list[Cut]] = {}
    for cut in sorted(cuts, key=lambda c: natural(c.label), reverse=True):
        waiting.setdefault(_size(cut, stock), []).append(cut)
    order = sorted(solved.plan, key=lambda p: (-chosen[p.stick].length, tuple(-count for count in p.counts)))
    sticks: list[Stick] = []
    for pattern in order:
        for _ in range(solved.plan[pattern]):
            taken = tuple(
                waiting[size].pop()
                for size, count in zip(cutting.sizes, pattern.counts, strict=True)
                for _ in range(count)
            )
            offer = chosen[pattern.stick]
            free = offer.length - 2 * stock.end_trim - sum(cut.buy + stock.kerf for cut in taken)
            sticks.append(Stick(len(sticks) + 1, offer, taken, max(0.0, free)))
    return tuple(sticks)


def natural(text: str) -> tuple[tuple[int, str], ...]:
    """Key that sorts J2 before J10.

    >>> sorted(["J10", "J2", "C1"], key=natural)
    ['C1', 'J2', 'J10']
    """
    return tuple(
        (int(piece), "") if piece.isdigit() else (-1, piece) for piece in re.findall(r"\d+|\D+", text)
    )
