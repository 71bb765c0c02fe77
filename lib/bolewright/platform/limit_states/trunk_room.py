"""Limit states of openings at trunks, and of limbs and leaning trunks beside the platform."""

from __future__ import annotations

from bolewright.platform.limit_states.state import PRACTICE, RATED, LimitState, PartKind, Topic


def _opening(name: str, label: str, clause: str, change: str) -> LimitState:
    return LimitState(f"trunk_opening.{name}", PartKind.TRUNK_OPENING, Topic.CLEARANCE, label, clause, change)


TRUNK_ROOM = (
    _opening(
        "sphere",
        "4 in. sphere at rest",
        "IRC 2021, R312.1.3, by analogy",
        "A collar or mesh nearer to the bark.",
    ),
    _opening(
        "growth",
        "growth against its cover",
        "Geometry",
        "A wider inner edge, or a shorter time between services.",
    ),
    _opening(
        "travel",
        "travel of its cover",
        PRACTICE,
        "A collar that lies farther on the deck, or a slacker mesh.",
    ),
    _opening("load", "load on its cover", RATED, "A cover with a higher rating."),
    LimitState(
        "limb.clearance",
        PartKind.LIMB,
        Topic.CLEARANCE,
        "clearance to {at}",
        PRACTICE,
        "A platform or guard farther from it, or a shorter time between services.",
    ),
    LimitState(
        "limb.way_up",
        PartKind.LIMB,
        Topic.CLEARANCE,
        "clearance or head room at {at}",
        PRACTICE,
        "A way up farther from it, or the limb cut back by an arborist.",
        when="where the file has stairs or a ladder",
    ),
)
