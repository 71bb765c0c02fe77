"""Limit states of the platform as a whole, and of walls on it."""

from __future__ import annotations

from bolewright.platform.limit_states.state import GEOMETRY, PRACTICE, LimitState, PartKind, Topic


def _whole(
    name: str,
    label: str,
    clause: str,
    change: str,
    *,
    lateral: bool = False,
    when: str = "",
    topic: Topic = Topic.STABILITY,
) -> LimitState:
    return LimitState(f"platform.{name}", PartKind.PLATFORM, topic, label, clause, change, lateral, when)


PLATFORM = (
    _whole(
        "lateral",
        "lateral stability",
        "ASCE 7-16, 2.4.1 (wind, occupant sway)",
        "Knee braces, embedded posts, or a tie to the tree.",
        when="where nothing holds the platform laterally",
    ),
    _whole(
        "place", "pieces in one place", GEOMETRY, "Move, shorten or cut one of the two, or leave one out."
    ),
    _whole("drift", "drift", PRACTICE, "Stiffer bracing, thicker or shorter posts.", lateral=True),
    _whole(
        "p_delta",
        "P-delta amplification",
        "Common practice (10 %)",
        "Stiffer bracing, thicker or shorter posts.",
        lateral=True,
    ),
    _whole(
        "in_plane",
        "in-plane bracing",
        "Statics; rated load entered by the user",
        "Crossed diagonals with a higher rated load across every stretch of deck.",
        lateral=True,
    ),
    _whole(
        "seismic",
        "earthquake {at}",
        "ASCE 7-16, 12.8 and 2.4.5",
        "Enter the site's S_DS under [site], as the building department gives it; where it governs, an engineer's "
        "lateral design.",
        lateral=True,
    ),
    _whole(
        "board_ends",
        "ends of boards at {at}",
        PRACTICE,
        "Blocking or a rim under their ends, boards that run over another member, or shorter boards.",
        topic=Topic.DECKING,
        when="where boards end past a member and no other holds them down",
    ),
    _whole(
        "guard",
        "guard's load on the framing",
        "IRC 2021, Table R301.5",
        "An engineer's design, or the tested drawing of the guard.",
        when="where an edge has a guard",
    ),
    _whole(
        "restrained_trunks",
        "restrained trunks",
        PRACTICE,
        "Bearings that slide on all trees but one.",
        topic=Topic.CLEARANCE,
        when="where it is on two trees or more",
    ),
    _whole(
        "comparison",
        "independent check",
        "Two independent models of statics",
        "An engineer must look at it.",
        when="where the frame model cannot be solved",
    ),
    _whole(
        "as_built",
        "{at}",
        "What was measured on site",
        "Build it as drawn, or change the project file to what was built.",
        when="where what was built cannot be checked",
    ),
)

WALLS = (
    LimitState(
        "wall.weight",
        PartKind.WALL,
        Topic.STABILITY,
        "weight of the wall",
        "ASCE 7-16, 3.1.1",
        "Count its weight in the guard's on that edge, and say so.",
        when="whose weight is not counted",
    ),
)
