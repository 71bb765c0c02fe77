"""Where stairs and ladder stand, a ladder's marks, and a hatch, on the deck's sheet."""

from __future__ import annotations

import math

from bolewright.platform.layout.layout import Layout
from bolewright.rendering.blocks import Table
from bolewright.setting_out.access import HatchCut, LadderCut, hatch_cut, ladder_cut, stands
from bolewright.setting_out.tolerance import Allowed, Closing
from bolewright.sheets.lengths import Lengths
from bolewright.sheets.opening import Blocks, Shown
from bolewright.sheets.setting_out.opening import note
from bolewright.sheets.setting_out.stairs import stair_blocks
from bolewright.sheets.setting_out.things import thing_blocks


def access_blocks(layout: Layout, length: Lengths) -> Blocks:
    """All ways up as they are set out, their places first; last what hangs or stands at a place."""
    project = layout.project
    blocks: list[Shown] = [*_places(layout, length)]
    ladder, hatch = ladder_cut(layout), hatch_cut(layout)
    if project.stairs.given or (ladder is None and hatch is None):
        blocks += stair_blocks(layout, length).items
    if ladder is not None:
        blocks += _ladder(layout, ladder, length)
    if hatch is not None:
        blocks += _hatch(hatch, length)
    blocks += thing_blocks(layout, length)
    return Blocks(tuple(blocks))


def _places(layout: Layout, length: Lengths) -> list[Shown]:
    rows = tuple(
        (
            stand.what,
            f"{stand.edge}" if stand.opening is None else f"{stand.edge} of opening {stand.opening}",
            ", ".join(length(s) for s in stand.middles),
            length(stand.inset),
            length(stand.out),
            length.signed(stand.foot, "above grade", "below grade"),
            "not given" if stand.pad is None else " by ".join(length(side) for side in stand.pad),
        )
        for stand in stands(layout)
    )
    if not rows:
        return []
    columns = ("way up", "edge", "stringers or rails", "edge to framing", "out to the foot", "foot", "pad")
    caption = (
        "Where they stand: middles of stringers or rails from the edge's first corner; from the edge in to the "
        "framing's face; from that face level out to the foot; the pad along and across the way up"
    )
    return [Table(columns, rows, caption, "llrrrrr")]


def _ladder(layout: Layout, cut: LadderCut, length: Lengths) -> list[Shown]:
    ladder = layout.project.ladder
    step = "rung" if ladder.steep else "tread"
    facts = (
        ("rail, stick from long point to top", length(cut.rail)),
        ("from the level cut to the floor, along a rail", length(cut.to_floor)),
        ("from the floor to the top, along a rail", length(cut.over) if cut.over else "ends at the floor"),
        ("slope from level", f"{cut.pitch:g}°"),
        ("level cut at the foot, from square", f"{cut.foot_bevel:g}°"),
        ("clear between the rails", length(cut.clear)),
        (f"rise from {step} to {step}", length(cut.rise)),
    )
    marks = tuple((str(k), length(at)) for k, at in enumerate(cut.steps, 1))
    out = cut.to_floor * math.cos(math.radians(cut.pitch))
    checks = [
        Closing("foot's level cut to the framing's face, level", out, Allowed.TAPED.value),
        Closing(f"any rise from {step} to {step} against any other", 0.0, 0.25),
    ]
    return [
        Table((ladder.kind, "measure"), facts, "Ladder", "lr"),
        Table((step, "its top, along the rail"), marks, "From the level cut at the foot up", "lr"),
        length.closings(checks, "Ladder: must come out"),
        note(
            "The head is fixed to the framing, never to the trunk; the foot stands on its pad and may slide."
        ),
    ]


def _hatch(cut: HatchCut, length: Lengths) -> list[Shown]:
    facts = (
        ("clear hole, along by across the joists", f"{length(cut.length)} by {length(cut.width)}"),
        ("boards of the cover", f"{cut.boards} of {length(cut.board)}, {length(cut.gap)} apart"),
    )
    check = Closing("both diagonals of the hole, trimmer to header", cut.diagonal, Allowed.DIAGONAL.value)
    return [
        Table(
            ("hatch", "measure"), facts, "Hatch; its headers and trimmers stand in the frame's sheet", "lr"
        ),
        length.closings([check], "Hatch: must come out before its cover is made"),
    ]
