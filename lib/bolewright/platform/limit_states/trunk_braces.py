"""Limit states of knee braces that stand on a tree bolt and bear a beam."""

from __future__ import annotations

from bolewright.platform.limit_states.state import (
    PRACTICE,
    RATED,
    WIND_UPLIFT,
    LimitState,
    PartKind,
    Topic,
    incising,
    place,
)

_TIMBER = "A thicker brace, a steeper one, or less load on it."
_BOLTS = "More or thicker bolts, a thicker brace, or a beam that runs on farther past its head."


def _state(
    name: str, label: str, clause: str, change: str, *, lateral: bool = True, when: str = ""
) -> LimitState:
    return LimitState(
        f"trunk_brace.{name}", PartKind.TRUNK_BRACE, Topic.BRACES, label, clause, change, lateral, when
    )


TRUNK_BRACES = (
    incising("trunk_brace", PartKind.TRUNK_BRACE, Topic.BRACES),
    place("trunk_brace", PartKind.TRUNK_BRACE, Topic.BRACES),
    _state("buckling", "buckling", "NDS 2018, 3.7", _TIMBER),
    _state("with_wind", "axial load and bending by wind", "NDS 2018, 3.9", _TIMBER),
    _state("net_compression", "compression at the bolts", "NDS 2018, 3.6.3 and 3.10.1", _TIMBER),
    _state("head_bearing", "bearing of its head under the beam", "NDS 2018, 3.10.3", _TIMBER),
    _state("head_bolts_beam", "bolts of its head in the beam", "NDS 2018, 12.3", _BOLTS),
    _state("head_bolts_brace", "bolts of its head in the brace", "NDS 2018, 12.3", _BOLTS),
    _state(
        "row_tear_out",
        "row tear-out of {at} at its head",
        "NDS 2018, Appendix E",
        _BOLTS,
        when="where bolts of its head are given",
    ),
    _state("foot_bolts", "bolts of its foot", "NDS 2018, 12.3", _BOLTS),
    _state("foot_rated", "shoe on the tree bolt", RATED, "A shoe with a higher rating, or less load on it."),
    _state(
        "beam_tension",
        "tension and bending of {at}",
        "NDS 2018, 3.9.1",
        "A deeper beam, a steeper brace, or less load on it.",
        lateral=False,
    ),
    _state(
        "tie",
        "tie of its lateral force",
        "Statics",
        "A bracket on the upper tree bolt that holds along the beam.",
    ),
    _state(
        "uplift",
        "uplift",
        "Statics, worst pattern; 0.6D + L and 0.6D + S as common practice",
        "Ties at head and foot with a higher rated uplift, or less overhang on the other side.",
        lateral=False,
    ),
    _state(
        "uplift_lateral",
        "uplift with wind and sway",
        WIND_UPLIFT,
        "Ties at head and foot with a higher rated uplift.",
    ),
    _state(
        "clearance",
        "clearance of its foot to the trunk",
        PRACTICE,
        "A bearing farther from the bark, or a shorter time between services.",
        lateral=False,
    ),
)
