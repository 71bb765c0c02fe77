"""A line of the hardware list, and the material that goes with treated lumber."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from bolewright.reference import load
from bolewright.units import feet_inches

PROTECTION = "fastener_protection"
NAILS, BOLTS, CONNECTORS, TREE_BOLTS = (
    "nails and screws",
    "bolts, nuts and washers",
    "connectors",
    "tree bolts",
)


@dataclass(frozen=True)
class Item:
    """A line of the hardware list. ``count`` None: as many as the maker of something else says.

    ``name`` is what the price table calls it; ``where`` the parts it belongs to; ``material`` what goes with treated
    lumber; ``source`` what the number rests on.
    """

    name: str
    size: str
    count: int | None
    material: str
    where: str
    source: str


def material_of(kind: str) -> str:
    """Material that goes with treated lumber outdoors."""
    return str(load(PROTECTION).row(kind=kind)["material"])


def nails_for(what: str, marks: list[str]) -> Iterator[Item]:
    """Nails that a connector's maker names, without a number."""
    if marks:
        size = f"as the {what}'s maker names them, every hole filled; screws only where the maker says so"
        yield Item(f"{what} nails", size, None, material_of(NAILS), f"every {what}", "maker's sheet")


def inch(length: float) -> str:
    """Inches as a builder says a size: ``1 1/2 in.``."""
    return feet_inches(length).replace('"', " in.") if length < 12 else feet_inches(length)
