"""Stairs on the deck's sheet: risers, marks of the stringer, what must come out."""

from __future__ import annotations

import math

from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.stair_rails import stair_rail
from bolewright.rendering.blocks import Statement, StatementKind, Table
from bolewright.setting_out.stairs import LEAST_THROAT, RISER_SPREAD, stair_layout
from bolewright.setting_out.tolerance import Closing
from bolewright.sheets.lengths import Lengths
from bolewright.sheets.opening import Blocks
from bolewright.sheets.setting_out.opening import caution, hand, note


def stair_blocks(layout: Layout, length: Lengths) -> Blocks:
    """Stairs as they are set out, or how to have them set out."""
    found = stair_layout(layout)
    if found is None:
        return Blocks(
            (
                note(
                    "The file describes no stairs: give the level of their foot under [stairs] to have them set out."
                ),
            )
        )
    rise = found.count * found.riser
    facts = (
        ("risers", f"{found.count} of {length(found.riser)}"),
        ("treads, with one level with the floor if any", f"{len(found.treads)} of {length(found.run)} run"),
        ("framing square", f"{length(found.run)} on the blade, {length(found.riser)} on the tongue"),
        ("first riser as cut", length(found.foot_cut)),
        ("along the noses", length(found.slope)),
        ("timber for a stringer, at least", length(found.stock)),
        ("wood left under a notch", length(found.throat)),
    )
    steps = tuple((str(i), length(up), length(out)) for i, (up, out) in enumerate(found.treads, 1))
    checks = [
        Closing("floor down to the landing, plumb", rise, 0.25),
        Closing("first riser to the face of the framing, level", found.going, 0.25),
        Closing("first nosing's foot to the floor's edge, straight", math.hypot(rise, found.going), 0.25),
        Closing("any riser against any other", 0.0, RISER_SPREAD),
    ]
    blocks = [
        Table(("stairs", "measure"), facts, "Stairs", "lr"),
        Table(
            ("tread", "its top above the landing", "its nosing past the first"),
            steps,
            "From the landing up",
            "lrr",
        ),
        length.closings(checks, "Stairs that must come out"),
        *hand(found.steps).items,
    ]
    blocks += _rail(layout, length)
    if found.throat < LEAST_THROAT:
        said = f"{length(found.throat)} is left under a notch, less than {length(LEAST_THROAT)} (DCA 6, from memory)."
        blocks.append(Statement(StatementKind.FAILURE, (said,)))
    blocks.append(
        caution(
            "Strength, rails and openings of stairs that have a place on an edge are on the sheet of stairs and "
            "ladder; without a place ([stairs] edge) they are set out only, and nothing of them is calculated.",
            "The floor moves a little: hang the head on the framing, let the foot stand on its landing and slide.",
        )
    )
    return Blocks(tuple(blocks))


def _rail(layout: Layout, length: Lengths) -> list[Table]:
    """Posts of the rail, one by one, along the noses from the lowest one."""
    rail, plan = stair_rail(layout), layout.stairs
    if rail is None or plan is None:
        return []
    rows = tuple(
        (str(n), length(place), length(rail.height), length(rail.post))
        for n, place in enumerate(rail.places, 1)
    )
    sides = "both sides alike" if rail.sides == 2 else "one side"
    caption = (
        f"Posts of the stairs' rail, {rail.section}, {sides}: middles along the noses from the lowest one; the rail "
        "goes on to the guard's post at the floor"
    )
    columns = ("post", "along the noses", "rail over the noses, plumb", "stick, to the stringer's lower edge")
    return [Table(columns, rows, caption, "lrrr")]
