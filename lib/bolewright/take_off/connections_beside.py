"""Joints of what stands on the frame: guards, gates, stairs, ladder, hatch, covers at trunks, decking, things hung."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.platform.layout.gates import find_gates, leaf_balusters
from bolewright.platform.layout.guard_joints import behind_post
from bolewright.platform.layout.guards import GuardPost, edge_name
from bolewright.platform.layout.layout import Layout
from bolewright.platform.results.results import Results
from bolewright.take_off.items import BOLTS, CONNECTORS, NAILS, inch
from bolewright.take_off.joint import Row
from bolewright.timber.sections import parse_section

_HEAD = ("head", "rail_head", "rail_head_up", "head_rotation", "face_tie")


def joints_beside(results: Results) -> Iterator[Row]:
    """All of them."""
    layout = results.path.layout
    yield from _guards(layout)
    yield from _gates(layout)
    yield from _stairs(layout)
    yield from _ladder(layout)
    yield from _hatch(layout)
    yield from _others(layout)


def _rated(rated: float | None) -> str:
    return "to be chosen" if rated is None else f"rated {rated:,.0f} lb"


def _guards(layout: Layout) -> Iterator[Row]:
    for run in layout.guards:
        guard, name = run.guard, edge_name(run)
        for post in run.posts:
            if post.receiver is not None:
                yield _post(layout, post, name)
        for_ends = "cap and two rails at each post" if run.posts else "no post"
        yield Row(
            "rail to guard post",
            name,
            f"rail fastening {_rated(guard.rail_fastening)}",
            "1 at each end",
            for_ends,
            CONNECTORS,
            tuple((name, f"guard.{key}", "") for key in ("rail_fastening", "cable_rail_end")),
        )
        balusters = guard.infill == "balusters"
        yield Row(
            "infill to rails",
            name,
            "deck screw, 2 1/2 in." if balusters else f"{guard.infill}, {_rated(guard.infill_load)}",
            "2 at each end" if balusters else "by its maker",
            "on the middle line of each rail" if balusters else "by its maker",
            NAILS if balusters else "by its maker",
            ((name, "guard.infill_fastening", ""),),
        )


def _post(layout: Layout, post: GuardPost, name: str) -> Row:
    guard, receiver = post.guard, post.receiver
    assert receiver is not None
    section = parse_section(guard.section)
    behind = behind_post(layout, post)
    grip = section.d + (0.0 if behind is None else behind.width)
    apart = receiver.section.d - 2 * guard.bolt_edge
    pattern = (
        f"{inch(guard.bolt_edge)} from both edges, {inch(apart)} apart, {inch(section.b / 2)} to the post's sides; "
        f"plates {inch(guard.plate)}; tied to the receiver: upper {_rated(guard.hold_down)}, "
        f"lower {_rated(guard.lower_tie)}"
    )
    if post.skewed:
        pattern += f"; along the edge, at each bolt, {_rated(guard.skew_tie)}"
    keys = (
        *("receiver", "hold_down", "lower_tie", "bolt", "plate", "along", "twist"),
        *("load_down", "framing_bending", "framing_shear", "framing_tear_out"),
        *("framing_bending_lateral", "framing_shear_lateral"),
    )
    return Row(
        "guard post to joist or block",
        f"{post.mark} at {receiver.mark}",
        f"bolt {inch(guard.bolt_diameter)}, {inch(grip)} of wood and what its hold-down takes",
        "2",
        pattern,
        BOLTS,
        (
            *((post.mark, f"guard.{key}", "") for key in keys),
            *((name, f"guard.{key}", post.mark) for key in ("cable_joint",)),
        ),
    )


def _gates(layout: Layout) -> Iterator[Row]:
    for at in find_gates(layout):
        gate, metal = at.gate, CONNECTORS
        for kind, each, pattern, rated, keys in (
            ("hinge of a gate", "2", f"{inch(gate.hinge_spacing)} apart", gate.hinge, ("hinge", "joint")),
            ("latch of a gate", "1", "at the free edge", gate.latch, ("latch",)),
            (
                "brace of a gate",
                "1 at each end",
                "corner to corner",
                gate.brace_fastening,
                ("brace_fastening",),
            ),
        ):
            asked = tuple((gate.mark, f"gate.{key}", "") for key in keys)
            yield Row(kind, gate.mark, _rated(rated), each, pattern, metal, asked)
        yield Row(
            "rail to stile of a gate",
            gate.mark,
            "deck screw, 3 in.",
            "2 at each of 4 corners",
            "the brace, not these, keeps it square",
            NAILS,
            (),
        )
        if count := leaf_balusters(at):
            yield Row(
                "baluster to the leaf of a gate",
                f"{gate.mark}, {count} balusters",
                "deck screw, 2 1/2 in.",
                "2 at each end",
                "on the middle line of each rail",
                NAILS,
                (),
            )
        if gate.wheeled:
            asked = ((gate.mark, "gate.wheel", ""),)
            yield Row(
                "wheel of a gate", gate.mark, _rated(gate.wheel), "1", "under the free edge", metal, asked
            )


def _stairs(layout: Layout) -> Iterator[Row]:
    plan = layout.stairs
    if plan is None:
        return
    stairs, metal = plan.stairs, CONNECTORS
    member = plan.heads[0].member or "the framing"
    yield Row(
        "head of a stringer",
        f"{stairs.stringers} stringers at {member}",
        f"hanger {stairs.hanger or 'to be chosen'}, sloped {plan.theta:.1f}°",
        "1",
        "its maker's nails, every hole filled",
        metal,
        tuple(("stair", f"stairs.{key}", "") for key in _HEAD),
    )
    yield Row(
        "foot of a stringer",
        f"{stairs.stringers} stringers on their pad",
        "bolt or kicker, to be chosen",
        "1",
        "keeps the foot in its place",
        BOLTS,
        (("stair", "stairs.foot_bearing", ""),),
    )
    closed = stairs.cut == "closed"
    yield Row(
        "tread to stringer",
        f"{plan.treads} treads",
        f"bracket {_rated(stairs.tread_bracket)}"
        if closed
        else f"deck screw, {inch(2 * plan.tread)} or longer",
        "1 at each end" if closed else "2 in each board",
        "under each end" if closed else "at each stringer",
        metal if closed else NAILS,
        (("stair", "stairs.tread_bracket", ""),) if closed else (),
    )
    if stairs.rail_post is not None:
        yield Row(
            "rail post to outer stringer",
            f"posts {stairs.rail_post} of the stairs",
            "bolt 1/2 in.",
            "2",
            f"2 in. from both edges of what is left; tie into the block {_rated(stairs.rail_tie)}",
            BOLTS,
            (("stair", "stairs.rail_load", ""),),
        )


def _ladder(layout: Layout) -> Iterator[Row]:
    plan = layout.ladder
    if plan is None:
        return
    ladder, metal = plan.ladder, CONNECTORS
    step = "rung" if ladder.steep else "tread"
    asked = (("ladder", "ladder.step_fixing", ""),)
    steps = f"{plan.count - 1} {step}s"
    yield Row(
        f"{step} to rail", steps, _rated(ladder.step_fixing), "1 at each end", "in the rail", metal, asked
    )
    head = (("ladder", "ladder.head", ""),)
    where = f"2 rails at {plan.member or 'nothing'}"
    yield Row(
        "head of a ladder", where, _rated(ladder.head_fixing), "1 at each rail", "by its maker", metal, head
    )
    if ladder.grip:
        grip = (("ladder", "ladder.grip", ""),)
        yield Row(
            "grab bar of a ladder",
            "beside its head",
            _rated(ladder.grip_rating),
            "2",
            "by its maker",
            metal,
            grip,
        )
    foot = (("ladder", "ladder.foot", ""),)
    how = "fixed" if ladder.foot_fixed else "slides away from the edge, is held along it (by the engineer)"
    yield Row("foot of a ladder", "2 rails on the pad", "none", "0", how, "none", foot)


def _hatch(layout: Layout) -> Iterator[Row]:
    hatch = layout.project.hatch
    if hatch.at is None:
        return
    metal = CONNECTORS
    yield Row("hinge of the hatch", "cover", "for the cover's weight", "2", "away from the ladder", metal, ())
    yield Row(
        "board of the hatch's cover to battens",
        "cover",
        "deck screw, as the hardware list",
        "2 at each batten",
        "3/4 in. from the board's edges",
        NAILS,
        (),
    )
    asked = (("hatch", "hatch.held", ""),)
    yield Row("latch of the hatch", "cover", _rated(hatch.held_open), "1", "holds it open", metal, asked)


def _others(layout: Layout) -> Iterator[Row]:
    project, metal = layout.project, CONNECTORS
    for opening in project.trunk_openings:
        asked = ((opening.mark, "trunk_opening.load", ""),)
        what = f"{opening.cover}, {_rated(opening.rated_load)}"
        around = f"{opening.mark}, round {opening.around}"
        yield Row("cover at a trunk", around, what, "1", "to the deck, never to the bark", metal, asked)
    for load in project.point_loads:
        asked = ((load.mark, "point_load.fastening", ""),)
        on = load.member or "the deck"
        yield Row(
            "thing to its member",
            f"{load.mark} on {on}",
            _rated(load.fastener_load),
            "1 at each end" if load.other_end is not None else "1",
            "by its maker, bolted through" if load.member else "stands on the boards",
            metal,
            asked,
        )
    yield Row(
        "deck board to joist",
        "every board",
        "deck screw, as the hardware list",
        "2 at each member",
        "3/4 in. from the board's edges",
        NAILS,
        (),
    )
