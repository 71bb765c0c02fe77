"""Loads at a place, and limbs beside the deck, as they are taped from it."""

from __future__ import annotations

from bolewright.platform.layout.layout import Layout
from bolewright.rendering.blocks import Table
from bolewright.setting_out.things import FromEdge, limbs, things
from bolewright.sheets.lengths import Lengths
from bolewright.sheets.opening import Shown


def thing_blocks(layout: Layout, length: Lengths) -> list[Shown]:
    """What hangs or stands at a place; nothing where the file has no such load."""
    rows = tuple(
        (
            thing.mark,
            thing.what,
            thing.member or "the deck",
            "" if thing.along is None else length(thing.along),
            "" if thing.other_end is None else length(thing.other_end),
            *_taped(thing.place, length),
            length.signed(thing.level, "above grade", "below grade"),
        )
        for thing in things(layout)
    )
    if not rows:
        return []
    columns = ("mark", "what", "on", "from its start", "other end", "along edge 1", "in from edge 1", "level")
    caption = (
        "Loads at a place: on a joist or beam from its start, as the plan of framing shows it; in plan from the first "
        "corner of edge 1; the level where it is fastened or stands"
    )
    return [Table(columns, rows, caption, "lllrrrrr")]


def limb_blocks(layout: Layout, length: Lengths) -> list[Shown]:
    """Limbs where they pass the floor and the guard; nothing where the file has none."""
    rows = tuple(
        (
            limb.mark,
            limb.where,
            length.signed(limb.level, "above grade", "below grade"),
            *_taped(limb.place, length),
            length(limb.diameter),
        )
        for limb in limbs(layout)
    )
    if not rows:
        return []
    columns = ("limb", "at the", "level", "axis along edge 1", "axis in from edge 1", "over the bark")
    caption = "Limbs beside the deck: tape them again before the first cut; what differs goes into the file"
    return [Table(columns, rows, caption, "llrrrr")]


def _taped(place: FromEdge, length: Lengths) -> tuple[str, str]:
    return length.signed(place.along, "", "before its corner").strip(), length.signed(
        place.inside, "", "outside it"
    ).strip()
