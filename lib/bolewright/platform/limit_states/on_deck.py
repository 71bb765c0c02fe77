"""Limit states of what stands on the deck or hangs from it at one place."""

from __future__ import annotations

from bolewright.platform.limit_states.state import LimitState, PartKind, Topic

POINT_LOADS = (
    LimitState(
        "point_load.boards",
        PartKind.POINT_LOAD,
        Topic.DECKING,
        "boards under it",
        "Statics (lever of the boards)",
        "Set it on a member, or spread it with a plank over two.",
        when="where it stands on the boards",
    ),
    LimitState(
        "point_load.fastening",
        PartKind.POINT_LOAD,
        Topic.HANGERS,
        "its fastening",
        "Rated load, entered by the user",
        "A fastening with a rated load of the maker's for that pull, bolted through.",
        when="where it hangs, lifts or pushes laterally",
    ),
    LimitState(
        "point_load.across",
        PartKind.POINT_LOAD,
        Topic.BEAMS,
        "lateral force across {at}",
        "NDS 2018, 3.9.2",
        "Turn it along the member, or block the member to the next on both sides and have an engineer size it.",
        when="where it pushes laterally across the member that it is fastened to",
    ),
    LimitState(
        "point_load.compression",
        PartKind.POINT_LOAD,
        Topic.BEAMS,
        "compression and bending of {at}",
        "NDS 2018, 3.9.2",
        "Hang it with steeper ropes, on a deeper member, or its ends nearer to the supports.",
        when="where a hammock hangs on one member by both its ends",
    ),
)
