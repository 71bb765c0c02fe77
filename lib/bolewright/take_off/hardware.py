"""The hardware list: hangers, ties, bolts and fasteners by number, from the tree up."""

from __future__ import annotations

from bolewright.platform.results.results import Results
from bolewright.take_off.access import hatch_items, ladder_items, stair_items
from bolewright.take_off.at_supports import post_items, tree_bolt_items
from bolewright.take_off.guards import gate_items, guard_items
from bolewright.take_off.in_frame import frame_items
from bolewright.take_off.items import Item
from bolewright.take_off.trunk_covers import trunk_cover_items


def hardware_list(results: Results) -> tuple[Item, ...]:
    """All hardware of a platform, from the tree up."""
    layout = results.path.layout
    return (
        *tree_bolt_items(layout),
        *post_items(layout),
        *frame_items(results),
        *trunk_cover_items(layout),
        *stair_items(layout),
        *ladder_items(layout),
        *hatch_items(layout),
        *guard_items(layout),
        *gate_items(layout),
    )
