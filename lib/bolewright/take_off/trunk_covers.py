"""Covers of openings at trunks in the hardware list."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.platform.layout.layout import Layout
from bolewright.take_off.items import CONNECTORS, Item, inch, material_of


def trunk_cover_items(layout: Layout) -> Iterator[Item]:
    """A collar or mesh for each opening that has one."""
    for opening in layout.project.trunk_openings:
        if opening.cover == "boards":
            continue
        gap = f"{inch(opening.gap)} off the bark" if opening.gap is not None else "gap to be given"
        rated = f"rated {opening.rated_load:,.0f} lb" if opening.rated_load else "rating to be given"
        where = f"{opening.mark}, round {opening.around}"
        yield Item(
            f"{opening.cover} at a trunk",
            f"{gap}, {rated}",
            1,
            material_of(CONNECTORS),
            where,
            "one for each opening; never fixed to the bark",
        )
