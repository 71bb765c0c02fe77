"""What it costs, as far as the user's price table goes; what has no price is named."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from bolewright.platform.project import Project
from bolewright.take_off.buying import Purchase
from bolewright.take_off.concrete import Concrete
from bolewright.take_off.items import Item
from bolewright.timber.sections import SectionError, parse_section

CONCRETE = "concrete, bag"
GRAVEL = "gravel, cu ft"


@dataclass(frozen=True)
class CostLine:
    """An item with its number, price of one and of all."""

    item: str
    count: float
    each: float
    total: float


@dataclass(frozen=True)
class Cost:
    """Lines with a price, items without one, and lines of the price table that nothing asked for."""

    currency: str
    lines: tuple[CostLine, ...]
    unpriced: tuple[str, ...]
    unused: tuple[str, ...]

    @property
    def total(self) -> float:
        """Sum of what has a price."""
        return sum(line.total for line in self.lines)


def find_cost(
    project: Project, purchases: Iterable[Purchase], hardware: Iterable[Item], concrete: Concrete
) -> Cost | None:
    """Cost of everything with a price; None when the price table is empty."""
    if not project.prices:
        return None
    others = {_plain(p.item): p.each for p in project.prices if p.length is None}
    lines: list[CostLine] = []
    unpriced: list[str] = []
    sections, asked = set(), set()
    for purchase in purchases:
        sections.add(purchase.lumber.section)
        for offer, count in purchase.counts:
            if offer.price is None:
                unpriced.append(f"{purchase.lumber.name}, {offer.length / 12:g} ft")
            else:
                name = f"{purchase.lumber.name}, {offer.length / 12:g} ft"
                lines.append(CostLine(name, count, offer.price, count * offer.price))
    counts: list[tuple[str, str, float | None]] = [(item.name, item.size, item.count) for item in hardware]
    if concrete.bags:
        counts.append((CONCRETE, "", concrete.bags))
    if concrete.gravel:
        counts.append((GRAVEL, "", round(concrete.gravel_ordered, 1)))
    for name, size, number in counts:
        each = others.get(_plain(name))
        asked.add(_plain(name))
        if each is None or number is None:
            unpriced.append(name)
        else:
            lines.append(CostLine(f"{name}, {size}" if size else name, number, each, number * each))
    unused = [
        p.item
        for p in project.prices
        if (p.length is None and _plain(p.item) not in asked)
        or (p.length is not None and _section_name(p.item) not in sections)
    ]
    return Cost(
        project.stock.currency, tuple(lines), tuple(dict.fromkeys(unpriced)), tuple(dict.fromkeys(unused))
    )


def _plain(name: str) -> str:
    return " ".join(name.lower().split())


def _section_name(item: str) -> str:
    try:
        return parse_section(item).name
    except SectionError:
        return item
