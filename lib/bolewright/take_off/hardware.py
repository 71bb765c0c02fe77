"""The hardware list: hangers, ties, bolts and fasteners by number, from the tree up."""

from __future__ import annotations

from bolewright.platform.results import Results
from bolewright.take_off.at_supports import post_items, tree_bolt_items
from bolewright.take_off.in_frame import frame_items
from bolewright.take_off.items import Item


def hardware_list(results: Results) -> tuple[Item, ...]:
    """All hardware of a platform, from the tree up."""
    layout = results.path.layout
    return (*tree_bolt_items(layout), *post_items(layout), *frame_items(results))
