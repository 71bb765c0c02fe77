"""What can be bought, and for how much: the file's own prices, else common lumber at invented unit prices."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bolewright.platform.project import Project
from bolewright.take_off.cost import CONCRETE
from bolewright.timber.sections import SectionError, parse_section

INVENTED = "Prices are invented unit prices, fit to compare sizes by and for nothing else"

# Common lumber of North American yards (common practice); 2x4 for braces alone.
SIZES = (
    *("2x4", "2x6", "2x8", "2x10", "2x12"),
    *("4x4", "4x6", "4x8", "4x10", "4x12"),
    *("6x6", "6x8", "6x10", "6x12"),
    *("8x8", "10x10", "12x12"),
)
BOARDS = ("5/4x6", "2x6")
SPACINGS = (24.0, 19.2, 16.0, 12.0, 9.6, 8.0)  # in on centre (common practice: parts of 8 ft)

# Invented prices of one board foot (nominal) by nominal thickness and width: wide and thick pieces cost more.
_BOARD_FOOT = {
    "5/4x6": 1.5,
    "2x4": 1.1,
    "2x6": 1.1,
    "2x8": 1.2,
    "2x10": 1.35,
    "2x12": 1.6,
    "4x4": 1.6,
    "6x6": 2.0,
    "8x8": 2.6,
    "10x10": 3.2,
    "12x12": 3.8,
}
_THICK = {1: 1.5, 2: 1.6, 4: 1.8, 6: 2.2, 8: 2.8, 10: 3.3, 12: 3.9}  # the same, of other sizes
_CONCRETE = 9.0  # invented, one cubic foot from bags
_DIGGING = 3.0  # invented, one cubic foot dug by hand and carried off
_STEEL = 4.0  # invented, one pound of a tree bolt
_BOLT = 1.5  # invented, one through bolt with nut and washers, and
_BOLT_INCH = 0.9  # for each cubic inch of its steel
_HANGER = 3.0  # invented, one joist hanger


@dataclass(frozen=True)
class Stock:
    """Sizes that can be bought or dug (in), and what a foot of each costs where the file has a price.

    ``invented`` says whether any price is one of ours.
    """

    sections: tuple[str, ...] = SIZES
    boards: tuple[str, ...] = BOARDS
    spacings: tuple[float, ...] = SPACINGS
    hole_widths: tuple[float, ...] = tuple(float(w) for w in range(10, 73, 2))
    hole_depths: tuple[float, ...] = tuple(float(d) for d in range(12, 121, 6))
    legs: tuple[float, ...] = tuple(float(leg) for leg in range(18, 67, 6))
    per_foot: tuple[tuple[str, float], ...] = ()
    concrete: float = _CONCRETE
    digging: float = _DIGGING
    steel: float = _STEEL
    bolt: float = _BOLT
    bolt_inch: float = _BOLT_INCH
    hanger: float = _HANGER
    invented: bool = True

    def foot(self, section: str) -> float:
        """Price of one foot of a size."""
        priced = dict(self.per_foot)
        if section in priced:
            return priced[section]
        found = parse_section(section)
        feet = found.nominal_thickness * found.nominal_width / 12
        each = _BOARD_FOOT.get(section) or _THICK.get(int(found.nominal_thickness), 4.0)
        return feet * each

    def like(self, section: str) -> tuple[str, ...]:
        """Sizes of the same thickness, the shallowest first."""
        wanted = _parsed(section)
        if wanted is None:
            return ()
        same = [s for s in self.sections if (p := _parsed(s)) and abs(p[0] - wanted[0]) < 1e-6]
        return tuple(sorted(same, key=lambda s: (_parsed(s) or (0, 0))[1]))

    def square(self) -> tuple[str, ...]:
        """Square sizes for posts, the thinnest first."""
        found = [s for s in self.sections if (p := _parsed(s)) and abs(p[0] - p[1]) < 1e-6]
        return tuple(sorted(found, key=lambda s: (_parsed(s) or (0, 0))[0]))


def _parsed(section: str) -> tuple[float, float] | None:
    try:
        found = parse_section(section)
    except SectionError:
        return None
    return (found.ply_thickness, found.d)


class StockError(ValueError):
    """What can be bought was said in a way that is not understood; one sentence."""


def stock_of(project: Project | None, only: Sequence[str] = (), base: Stock | None = None) -> Stock:
    """What can be bought for a project: sizes as ``base`` has them, the file's prices, ``only`` in their thickness.

    ``only`` leaves of each thickness that is in it just the sizes that are in it. Raises :class:`StockError`.
    """
    stock = base or Stock()
    sections = stock.sections
    for size in only:
        if _parsed(size) is None:
            raise StockError(f"--only: {size!r} is no size of lumber: write it as 2x8 or 6x6.")
    thick = {(_parsed(size) or (0, 0))[0] for size in only}
    if only:
        sections = (*(s for s in sections if (_parsed(s) or (0, 0))[0] not in thick), *dict.fromkeys(only))
    per_foot = dict(stock.per_foot)
    concrete = stock.concrete
    if project is not None:
        for price in project.prices:
            if price.length is not None and _parsed(price.item) is not None:
                name = parse_section(price.item).name
                each = price.each / (price.length / 12)
                per_foot[name] = min(each, per_foot.get(name, each))
            elif " ".join(price.item.lower().split()) == CONCRETE:
                concrete = price.each / project.stock.bag_yield
    return replace(stock, sections=sections, per_foot=tuple(sorted(per_foot.items())), concrete=concrete)
