"""Limit states of guards: where one has to stand, its posts, their joints, its rails and infill."""

from __future__ import annotations

from bolewright.platform.limit_states.state import (
    GEOMETRY,
    PRACTICE,
    RATED,
    LimitState,
    PartKind,
    Topic,
    place,
)

_POST = "A larger post, of a species or grade that is stronger, or a lower guard where the code lets it be."
_JOINT = "Posts at the ends of joists or of blocks, deeper framing under them, or posts closer together."


def _state(name: str, label: str, clause: str, change: str, when: str = "") -> LimitState:
    return LimitState(f"guard.{name}", PartKind.GUARD, Topic.GUARDS, label, clause, change, when=when)


def _edge(name: str, label: str, clause: str, change: str, when: str = "") -> LimitState:
    return LimitState(f"guard.{name}", PartKind.GUARD_EDGE, Topic.GUARDS, label, clause, change, when=when)


def _gate(name: str, label: str, clause: str, change: str, when: str = "") -> LimitState:
    return LimitState(f"gate.{name}", PartKind.GATE, Topic.GUARDS, label, clause, change, when=when)


_CABLES = "where its infill is cable or rope"
_BEHIND = "where a rim, header or joist runs along the edge behind it"
_THINNER = "Thinner bolts, or a deeper or wider timber behind the post."
_NEARER = "Bolts nearer to the upper edge, farther from the timber's end, or a deeper timber behind the post."
_HANGS = "where posts stand beside it"
_GATES = (
    _gate("way", "width of the way", GEOMETRY, "A wider gate."),
    _gate("swing", "way it opens", PRACTICE, "Hang it so that it opens over the deck."),
    _gate("closing", "closing by itself", PRACTICE, "Springs or sloped hinges."),
    _gate("opening", "gaps", "IRC 2021, R312.1.3", "A leaf nearer to posts and deck."),
    _gate("rail", "rail pushed outward", "NDS 2018, 3.3", "A thicker frame, or a narrower gate."),
    _gate("hinge", "hinge", RATED, "Hinges further apart, stronger ones, or a wheel under the free edge."),
    _gate("latch", "latch", RATED, "A stronger latch."),
    _gate("wheel", "wheel", RATED, "A stronger wheel.", "where it has one"),
    _gate("brace_fastening", "ends of its brace", RATED, "Stronger fastenings, or a wheel."),
    _gate("posts", "posts beside it", GEOMETRY, "Posts at joists or blocks right beside the gate."),
    _gate(
        "post", "post bent along the guard", "NDS 2018, 3.3 and 3.1.2", "A larger post, or a wheel.", _HANGS
    ),
    _gate(
        "joint",
        "bolts of the post along the guard",
        "NDS 2018, 12.3 and 12.5.1",
        "A wheel under the free edge, a rail that ties more posts, or deeper framing.",
        _HANGS,
    ),
)
GUARDS = (
    place("guard", PartKind.GUARD, Topic.GUARDS, "clash"),
    _state("receiver", "what takes its moment", "NDS 2018, 12.5.2 (end grain in withdrawal: 0)", _JOINT),
    _state(
        "twist",
        "force along the edge at a skew joist",
        RATED,
        "A joint rated for more along the edge, or a joist nearer to the square of the edge.",
        "where the joist is not square to the edge",
    ),
    _state("bending", "bending at the deck", "NDS 2018, 3.3", _POST, "where something takes its moment"),
    _state(
        "bending_at_bolts",
        "bending at the upper bolt",
        "NDS 2018, 3.3 and 3.1.2",
        _POST,
        "where something takes its moment",
    ),
    _state("shear", "shear between the bolts", "NDS 2018, 3.4", _POST, "where something takes its moment"),
    _state("hold_down", "hold-down of the upper bolt", RATED, _JOINT, "where something takes its moment"),
    _state("lower_tie", "tie of the lower bolt", RATED, _JOINT, "where something takes its moment"),
    _state(
        "bolt",
        "tension of the bolt",
        "AISC 360-16, J3.6",
        "A thicker bolt.",
        "where something takes its moment",
    ),
    _state(
        "plate",
        "bearing under the plate",
        "NDS 2018, 3.10.2",
        "A larger plate washer.",
        "where something takes its moment",
    ),
    _state(
        "along",
        "push along the rail",
        "IRC 2021, Table R301.5; NDS 2018, 12.3",
        "A rail that runs on over more posts, with joints that pass the push.",
        "where something takes its moment",
    ),
    _state(
        "load_down",
        "load down on its bolts",
        "NDS 2018, 12.3 and 12.5.1",
        "A rim, header or edge joist behind the post, thicker bolts, or bolts farther from the lower edge.",
        "where something takes its moment",
    ),
    _state(
        "framing_bending",
        "bending of {at} at its bolts",
        "NDS 2018, 3.3 and 3.1.2",
        _THINNER,
        _BEHIND,
    ),
    _state(
        "framing_shear",
        "shear of {at} at its bolts",
        "NDS 2018, 3.4.3.3",
        _NEARER,
        _BEHIND,
    ),
    *(
        LimitState(
            f"guard.{name}_lateral",
            PartKind.GUARD,
            Topic.GUARDS,
            f"{label} of {{at}} at its bolts with wind and sway",
            clause,
            change,
            lateral=True,
            when="for the post of a guard that weakens the joist or rim behind it most",
        )
        for name, label, clause, change in (
            ("framing_bending", "bending", "NDS 2018, 3.3 and 3.1.2", _THINNER),
            ("framing_shear", "shear", "NDS 2018, 3.4.3.3", _NEARER),
        )
    ),
    _state(
        "framing_tear_out",
        "{at} torn out along its grain at its bolts",
        "NDS 2018, Appendix E",
        "Posts farther from the end of what they stand against, or a rail that runs on over more posts.",
        _BEHIND,
    ),
    _edge("rail_outward", "rail pushed outward", "NDS 2018, 3.3", "A wider cap, or posts closer together."),
    _edge(
        "rail_down", "rail loaded downward", "NDS 2018, 3.3", "A deeper top rail, or posts closer together."
    ),
    _edge("rail_fastening", "rail's fastening", RATED, "A fastening with a rated load of the maker's."),
    _edge(
        "infill", "infill", "NDS 2018, 3.3; IRC 2021, Table R301.5, note f", "Stronger or shorter balusters."
    ),
    _edge(
        "infill_fastening", "infill's fastening", RATED, "Infill or fastening with a rated load for 50 lb."
    ),
    _edge("height", "height", "IRC 2021, R312.1.2; IBC 2021, 1015.3", "A higher guard (guard_height)."),
    _edge("opening", "opening", "IRC 2021, R312.1.3", "Balusters or rails closer together."),
    _edge(
        "spacing", "spacing of posts", PRACTICE, "Posts closer together, or joists and blocks to take them."
    ),
    _edge("weight", "weight counted on the edge", GEOMETRY, "Enter the greater weight as guard in loads."),
    _edge(
        "gap",
        "gap at stairs or ladder",
        "IRC 2021, R312.1.3",
        "Bring the guard's end to the stairs, or put a gate before the ladder.",
        "where stairs or a ladder stand at it",
    ),
    _edge(
        "cable_post",
        "end post bent by cables",
        "NDS 2018, 3.3 and 3.1.2",
        "A larger end post, or cables with less pull.",
        _CABLES,
    ),
    _edge(
        "cable_rail",
        "rail pressed by cables",
        "NDS 2018, 3.7",
        "Posts closer together, a larger cap.",
        _CABLES,
    ),
    _edge(
        "cable_rail_end", "end of the rail pressed by cables", RATED, "A fastening rated for more.", _CABLES
    ),
    _edge(
        "cable_joint",
        "joint of end post {at} along the guard",
        "NDS 2018, 12.3 and 12.5.1",
        "Cables with less pull, or a frame of steel that holds them by itself.",
        _CABLES,
    ),
    *_GATES,
    LimitState(
        "guard.missing",
        PartKind.GUARD_EDGE,
        Topic.GUARDS,
        "edge without a guard",
        "IRC 2021, R312.1.1",
        "A guard along this edge.",
        when="where no guard stands on it",
    ),
)
