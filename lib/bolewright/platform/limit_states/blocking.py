"""Limit states of rims, blocking and spacers."""

from __future__ import annotations

from bolewright.platform.limit_states.state import RATED, LimitState, PartKind, Topic, incising, place

_SECTION = "A deeper or wider section, a better grade, or closer joists."
_FASTENERS = "More nails or screws at each end, thicker ones, or hangers with a rated load."

_RIM = "A deeper rim, closer or stiffer joists, or a shorter overhang of the joists."
_SEAT = "A hanger with a longer seat, or a species that is harder across the grain."
_WORST = "of each row and rim the piece that is worst"


def _state(
    name: str, label: str, clause: str, change: str, when: str = "", topic: Topic = Topic.JOISTS
) -> LimitState:
    return LimitState(f"blocking.{name}", PartKind.BLOCKING, topic, label, clause, change, when=when)


BLOCKING = (
    incising("blocking", PartKind.BLOCKING, Topic.JOISTS),
    place("blocking", PartKind.BLOCKING, Topic.JOISTS),
    _state("bending", "bending", "NDS 2018, 3.3", _SECTION),
    _state(
        "negative_bending",
        "negative bending over its joists",
        "NDS 2018, 3.3",
        _SECTION,
        "where it bends upwards",
    ),
    _state(
        "bending_through",
        "bending as one timber over joists that give",
        "Statics; NDS 2018, 3.3",
        _RIM,
        "where a rim runs on over three joists or more",
    ),
    _state("shear", "shear", "NDS 2018, 3.4", _SECTION),
    _state(
        "bearing",
        "bearing on {at}",
        "NDS 2018, 3.10.2",
        _SEAT,
        "where it hangs in hangers",
    ),
    *(
        LimitState(
            f"blocking.{name}",
            PartKind.BLOCKING,
            Topic.JOISTS,
            label,
            clause,
            change,
            lateral=True,
            when=when,
        )
        for name, label, clause, change, when in (
            ("bending_lateral", "bending with wind and sway", "NDS 2018, 3.3", _SECTION, _WORST),
            ("shear_lateral", "shear with wind and sway", "NDS 2018, 3.4", _SECTION, _WORST),
            (
                "bearing_lateral",
                "bearing on {at} with wind and sway",
                "NDS 2018, 3.10.2",
                _SEAT,
                f"{_WORST}, where it hangs in hangers",
            ),
            (
                "bending_through_lateral",
                "bending as one timber over joists that give, with wind and sway",
                "Statics; NDS 2018, 3.3",
                _RIM,
                "where a rim runs on over three joists or more",
            ),
        )
    ),
    _state(
        "slenderness",
        "slenderness on edge",
        "NDS 2018, 3.3.3.7",
        "A section less tall for its breadth, or closer joists.",
    ),
    _state("live_deflection", "live deflection", "IRC 2021, Table R301.7", _SECTION),
    _state("total_deflection", "total deflection", "IBC 2021, Table 1604.3; NDS 2018, 3.5.2", _SECTION),
    _state(
        "fastening",
        "fasteners in end grain",
        "NDS 2018, 12.3; 12.5.2",
        _FASTENERS,
        "where no hanger holds it",
    ),
    LimitState(
        "blocking.fastening_lateral",
        PartKind.BLOCKING,
        Topic.JOISTS,
        "fasteners in end grain with wind and sway",
        "NDS 2018, 12.3; 12.5.2",
        _FASTENERS,
        lateral=True,
        when="of each row and rim the end that wind and sway load most, where no hanger holds it",
    ),
    _state(
        "bracing",
        "keeping joists or beams from turning",
        "NDS 2018, 3.3.3; AISC 360-16, Appendix 6.3.2, by analogy",
        _FASTENERS,
        "where a bending member counts on it",
    ),
    _state(
        "bracing_edges",
        "edges of its connection to {at}, which it keeps from turning",
        "AISC 360-16, Appendix 6.3.2, by analogy",
        "Connections with a higher rated load at their edges, or blocking on both sides of what it holds.",
        "where a bending member counts on it and nothing stands on the other side",
    ),
    _state(
        "uplift",
        "uplift at {at}",
        "Statics, worst pattern; 0.6D + L and 0.6D + S as common practice",
        "A hanger whose rated uplift is entered, or less of the deck past its joists.",
        "where it hangs in hangers",
    ),
    _state(
        "edge_load",
        "edges of its connection to {at}",
        RATED,
        "A connection with a higher rated load at its edges, or less load off the beam's middle line.",
        "where it is to keep a beam from turning (restrains_beam)",
    ),
    _state(
        "edge_together",
        "edges of its connection to {at}, with wind and sway, together with down or up unless rated alone",
        "Common practice (unity equation)",
        "A connection with higher ratings, or a piece of its own for what pulls at the edges (rated_alone).",
        "where its connection is asked at its edges; the force there alone where rated by itself (rated_alone)",
    ),
)
