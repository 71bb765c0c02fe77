"""Guards and gates on the deck's sheet: rails between posts, balusters, the leaf of each gate."""

from __future__ import annotations

from bolewright.platform.layout.layout import Layout
from bolewright.rendering.blocks import Table
from bolewright.setting_out.guards import GateCut, gate_cuts, rail_bays
from bolewright.setting_out.tolerance import Allowed, Closing
from bolewright.sheets.lengths import Lengths
from bolewright.sheets.opening import Blocks, Shown
from bolewright.sheets.setting_out.opening import filled, note


def guard_blocks(layout: Layout, length: Lengths) -> Blocks:
    """Guards and gates as they are set out, or that there are none."""
    bays = rail_bays(layout)
    if not bays and not layout.project.gates:
        return Blocks((note("The file has no guard as a part ([[guard]]): there is nothing to set out."),))
    blocks: list[Shown] = []
    if bays:
        blocks.append(
            note(
                "Posts stand where the sheet of guards says, on centre along each edge; set the outer ones plumb, "
                "string their tops, then the others. Measure each clear length between posts before its rail is cut."
            )
        )
        rows = tuple(
            (
                bay.guard,
                f"{bay.between[0]} to {bay.between[1]}",
                length(bay.low),
                length(bay.high),
                length(bay.length),
                str(bay.balusters) if bay.gap is not None else "",
                length(bay.gap) if bay.gap is not None else "",
            )
            for bay in bays
        )
        columns = ("guard", "from post to post", "from", "to", "clear", "balusters", "gaps, all alike")
        caption = "Rails and infill: faces of the posts from the edge's first corner, clear length, balusters evenly"
        blocks.append(filled(Table(columns, rows, caption, "llrrrrr")))
    for cut in gate_cuts(layout):
        blocks += _gate(cut, length)
    return Blocks(tuple(blocks))


def _post(mark: str, beside: float | None, length: Lengths) -> str:
    """The post, and how far from its face the leaf is: as thick are the packs under hinges or latch."""
    return f"{mark}, {length(beside)} from its face to the leaf" if beside is not None else "a post to come"


def _gate(cut: GateCut, length: Lengths) -> list[Shown]:
    facts = [
        ("on", f"edge {cut.edge}"),
        (
            "way between the guard's ends, from the edge's first corner",
            f"{length(cut.low)} to {length(cut.high)}",
        ),
        ("hung on", _post(cut.hung_on, cut.beside[0], length)),
        ("closes to", _post(cut.closes_to, cut.beside[1], length)),
        ("leaf, width by height", f"{length(cut.leaf)} by {length(cut.height)}"),
        ("gap to the guard's end on each side", length(cut.side_gap)),
        ("leaf over the deck, lower and upper edge", f"{length(cut.foot)} and {length(cut.top)}"),
        ("hinges over the deck, middles", f"{length(cut.hinges[0])} and {length(cut.hinges[1])}"),
        ("latch over the deck", length(cut.latch)),
        ("brace, corner to corner", length(cut.brace)),
    ]
    if cut.gap is not None:
        said = f"{cut.balusters}, {length(cut.gap)} clear between them and the stiles"
        facts.append(("balusters in the leaf", said))
    checks = [
        Closing(
            f"{cut.mark}: clear way between the ends of the guard, at deck and top",
            cut.high - cut.low,
            Allowed.MARK.value,
        ),
        Closing(f"{cut.mark}: both diagonals of the leaf", cut.diagonal, Allowed.MARK.value),
    ]
    return [
        Table((f"gate {cut.mark}", "measure"), tuple(facts), f"Gate {cut.mark}", "lr"),
        length.closings(checks, f"Gate {cut.mark}: must come out"),
    ]
