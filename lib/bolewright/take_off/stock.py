"""What the yard has: lengths of a size of lumber, with prices where the user's table has them."""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.platform.project import Project
from bolewright.timber.sections import SectionError, parse_section

USUAL_LENGTHS = tuple(12.0 * feet for feet in range(8, 21, 2))  # in, common practice


@dataclass(frozen=True)
class Offer:
    """A stick that can be bought: its length (in), its price if known, whether it is longer than the car carries."""

    length: float
    price: float | None = None
    delivered: bool = False


def offers(project: Project, section: str, grade: str) -> tuple[Offer, ...]:
    """Sticks of a size and grade, the shortest first: those with a price, or else the usual or given lengths."""
    priced: dict[float, float] = {}
    for price in project.prices:
        same = price.length is not None and _is_section(price.item, section)
        if same and price.length is not None and not price.grade.strip():
            priced.setdefault(price.length, price.each)
    for price in project.prices:
        same = price.length is not None and _is_section(price.item, section)
        if same and price.length is not None and _same(price.grade, grade):
            priced[price.length] = price.each
    longest = project.stock.longest
    lengths = sorted(priced) or sorted(set(project.stock.lengths)) or list(USUAL_LENGTHS)
    return tuple(
        Offer(length, priced.get(length), delivered=longest is not None and length > longest)
        for length in lengths
    )


def useful_offers(found: tuple[Offer, ...], needed: tuple[float, ...]) -> tuple[Offer, ...]:
    """What the car carries, and of longer sticks the shortest that each longer need asks for.

    ``needed`` are the lengths of stick that single pieces ask for, end trim included (in).
    """
    carried = [offer for offer in found if not offer.delivered]
    most = max((offer.length for offer in carried), default=0.0)
    delivered = set()
    for length in needed:
        if length > most:
            fitting = [offer for offer in found if offer.delivered and offer.length >= length]
            delivered.update(fitting[:1])
    return tuple(sorted({*carried, *delivered}, key=lambda offer: offer.length))


def usable_length(project: Project, section: str, grade: str) -> float:
    """Longest piece a stick gives that the car carries, or any stick where the car carries none (in)."""
    found = offers(project, section, grade)
    carried = [offer for offer in found if not offer.delivered] or list(found)
    return carried[-1].length - 2 * project.stock.end_trim


def _is_section(item: str, section: str) -> bool:
    try:
        return parse_section(item).name == section
    except SectionError:
        return False


def _same(grade: str, other: str) -> bool:
    plain = [text.lower().replace(" ", "").replace(".", "") for text in (grade, other)]
    return bool(plain[0]) and plain[0] == plain[1]
