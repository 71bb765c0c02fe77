"""Guards in the lists: their sticks, and the hardware of posts, rails and balusters."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from bolewright.platform.layout.gates import find_gates, leaf_balusters, leaf_brace, leaf_height
from bolewright.platform.layout.guard_joints import in_framing
from bolewright.platform.layout.guard_sizes import baluster_count, pieces_of_run
from bolewright.platform.layout.guards import GuardRun, edge_name
from bolewright.platform.layout.layout import Layout
from bolewright.take_off.access import Length
from bolewright.take_off.items import BOLTS, CONNECTORS, NAILS, Item, inch, material_of
from bolewright.timber.sections import parse_section
from bolewright.units import feet_inches

_LETTER = {"guard cap": "C", "guard rail": "R", "baluster": "I"}
SQUARE = ("square", "square")
IN_PLACE = ("mitred or butted at the corner", "mitred or butted at the corner")


def guard_lengths(layout: Layout) -> Iterator[Length]:
    """Posts, caps, rails and balusters of all guards that are parts, each with a mark of its own."""
    counted: Counter[str] = Counter()
    for run in layout.guards:
        for piece in pieces_of_run(layout, run):
            timber = run.guard.model_copy(update={"section": piece.section})
            ends = SQUARE if piece.what in ("guard post", "baluster") else IN_PLACE
            for mark in piece.marks if piece.what == "guard post" else [""] * piece.count:
                kind = run.guard.mark + _LETTER.get(piece.what, "")
                counted[kind] += 1
                yield Length(mark or f"{kind}{counted[kind]}", piece.what, timber, piece.length, 1, ends)


def gate_lengths(layout: Layout) -> Iterator[Length]:
    """Frame, brace and balusters of each gate's leaf."""
    for at in find_gates(layout):
        gate, h = at.gate, leaf_height(layout, at.gate)
        frame = gate.model_copy(update={"section": gate.section})
        mitred = ("cut to the corner", "cut to the corner")
        pieces = [("gate rail", at.leaf, 2, SQUARE), ("gate stile", h, 2, SQUARE)]
        pieces.append(("gate brace", leaf_brace(layout, at), 1, mitred))
        number = 0
        for what, length, count, ends in pieces:
            for _ in range(count):
                number += 1
                yield Length(f"{gate.mark}.{number}", what, frame, length, 1, ends)
        if at.guard is not None:
            baluster = at.guard.model_copy(update={"section": at.guard.baluster})
            for _ in range(leaf_balusters(at)):
                number += 1
                yield Length(f"{gate.mark}.{number}", "baluster", baluster, h, 1, SQUARE)


def gate_items(layout: Layout) -> Iterator[Item]:
    """Hinges, latch, wheel, and what fastens the brace of each gate."""
    for at in find_gates(layout):
        gate = at.gate

        def said(rated: float | None) -> str:
            return "to be chosen" if rated is None else f"rated {rated:,.0f} lb"

        closes = "closes the gate by itself" if gate.self_closing else "does not close the gate by itself"
        yield Item(f"hinge, {gate.mark}", said(gate.hinge), 2, material_of(CONNECTORS), gate.mark, closes)
        where = at.closes_to.mark if at.closes_to is not None else gate.mark
        yield Item(
            f"latch, {gate.mark}", said(gate.latch), 1, material_of(CONNECTORS), where, "pushed outward"
        )
        if gate.wheeled:
            yield Item(
                f"wheel, {gate.mark}",
                said(gate.wheel),
                1,
                material_of(CONNECTORS),
                gate.mark,
                "under the free edge",
            )
        else:
            yield Item(
                f"fastening of the brace, {gate.mark}",
                said(gate.brace_fastening),
                2,
                material_of(CONNECTORS),
                gate.mark,
                "one at each end",
            )
        why = "two at each corner of the leaf; the brace keeps it square"
        yield Item(f"frame screw, {gate.mark}", "deck screw, 3 in.", 8, material_of(NAILS), gate.mark, why)
        if count := 4 * leaf_balusters(at):
            size = "deck screw, 2 1/2 in., as rated for 25 lb lateral"
            why = "two at each end of a baluster"
            yield Item(f"baluster screw, {gate.mark}", size, count, material_of(NAILS), gate.mark, why)


def guard_items(layout: Layout) -> Iterator[Item]:
    """Bolts, plates, hold-downs of the posts; fastenings of rails and infill."""
    for run in layout.guards:
        held = [post.mark for post in run.posts if post.receiver is not None]
        if held:
            yield from _joints(layout, run, held)
        yield from _rails(run)


def _joints(layout: Layout, run: GuardRun, marks: list[str]) -> Iterator[Item]:
    guard, where = run.guard, ", ".join(marks)
    grip = parse_section(guard.section).d
    size = f"{inch(guard.bolt_diameter)}, through {inch(grip)} of post and the rim into its hold-down, "
    size += f"tensile strength F_u {guard.bolt_strength:,.0f} psi at least"
    yield Item(
        f"bolt of guard posts, {edge_name(run)}",
        size,
        2 * len(marks),
        material_of(BOLTS),
        where,
        "two for each post",
    )
    plate = f"{inch(guard.plate)} square, hole {inch(guard.bolt_diameter + 1 / 16)}"
    yield Item(
        f"plate washer, {edge_name(run)}",
        plate,
        2 * len(marks),
        material_of(BOLTS),
        where,
        "one under each head",
    )
    for name, rated in (("hold-down, upper bolt", guard.hold_down), ("tie, lower bolt", guard.lower_tie)):
        said = "to be chosen" if rated is None else f"rated {rated:,.0f} lb"
        yield Item(
            f"{name}, {edge_name(run)}", said, len(marks), material_of(CONNECTORS), where, "one for each post"
        )
    skewed = [post.mark for post in run.posts if post.receiver is not None and post.skewed]
    if skewed:
        said = "to be chosen" if guard.skew_tie is None else f"rated {guard.skew_tie:,.0f} lb along the edge"
        yield Item(
            f"angle at a skew joist, {edge_name(run)}",
            said,
            2 * len(skewed),
            material_of(CONNECTORS),
            ", ".join(skewed),
            "one at each bolt, from the joist to the member along the edge",
        )

    bare = [post.mark for post in run.posts if post.receiver is not None and in_framing(layout, post) is None]
    if bare:
        said = "to be chosen" if guard.down_tie is None else f"rated {guard.down_tie:,.0f} lb down"
        yield Item(
            f"hold at a joist's end, {edge_name(run)}",
            said,
            len(bare),
            material_of(CONNECTORS),
            ", ".join(bare),
            "one for each post",
        )


def _rails(run: GuardRun) -> Iterator[Item]:
    guard, name = run.guard, edge_name(run)
    said = "to be chosen" if guard.rail_fastening is None else f"rated {guard.rail_fastening:,.0f} lb"
    ends = 2 * 3 * max(len(run.posts) - 1, 0)
    if ends:
        yield Item(
            f"rail fastening, {name}",
            said,
            ends,
            material_of(CONNECTORS),
            name,
            "one at each end of cap and two rails between posts",
        )
    if guard.infill == "balusters":
        count = 4 * baluster_count(guard, run)
        size = "deck screw, 2 1/2 in., as rated for 25 lb lateral"
        yield Item(
            f"baluster screw, {name}", size, count, material_of(NAILS), name, "two at each end of a baluster"
        )
    else:
        length = feet_inches(run.line.length)
        yield Item(
            f"{guard.infill}, {name}",
            f"{length} of it, by its maker",
            None,
            "by its maker",
            name,
            "maker's sheet",
        )
