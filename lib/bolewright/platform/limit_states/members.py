"""Limit states of deck boards, joists, beams and hangers."""

from __future__ import annotations

from bolewright.platform.limit_states.state import (
    LIMIT,
    MAKER,
    RATED,
    WIND_UPLIFT,
    LimitState,
    PartKind,
    Topic,
    incising,
    place,
)

_BOARDS = "Closer joists, or boards of a thicker size or better grade."
_SECTION = "A deeper or wider section, a better grade, a shorter span or less load on it."
_LONGER = "A longer or wider bearing, or a species that is harder across the grain."
_HANGER = "A hanger with a higher rating for the load it gets, or less load on it."
_TIE = "A tie whose rated uplift is entered, or less overhang."
_STAGE = "Planks over the beams for whoever works there, temporary bracing of its edge, or a stiffer section."
_UPRIGHT = "Ties with a rated load on both sides, blocking, or a beam less tall for its width."


def _both(
    name: str, label: str, clause: str, change: str, topics: tuple[Topic, Topic] | None = None, when: str = ""
) -> tuple[LimitState, LimitState]:
    """The same limit state of a joist and of a beam."""
    joist, beam = topics or (Topic.JOISTS, Topic.BEAMS)
    return (
        LimitState(f"joist.{name}", PartKind.JOIST, joist, label, clause, change, when=when),
        LimitState(f"beam.{name}", PartKind.BEAM, beam, label, clause, change, when=when),
    )


def _beam(
    name: str, label: str, clause: str, change: str, topic: Topic = Topic.BEAMS, when: str = ""
) -> LimitState:
    return LimitState(f"beam.{name}", PartKind.BEAM, topic, label, clause, change, lateral=True, when=when)


def _deck(name: str, label: str, clause: str, when: str = "") -> LimitState:
    return LimitState(f"decking.{name}", PartKind.DECKING, Topic.DECKING, label, clause, _BOARDS, when=when)


_SAWN = "where the boards are timber that is calculated"
_BY_LIMIT = "where the boards are held to their maker's limits"
_WORST = "for the joist of a field that is worst"
_ON_BEAM = "where it rests on another beam"

DECK = (
    incising("decking", PartKind.DECKING, Topic.DECKING),
    _deck("bending", "bending", "NDS 2018, 3.3", _SAWN),
    _deck("end_bending", "bending of the end past the last joist", "NDS 2018, 3.3", _SAWN),
    _deck("live_deflection", "live deflection", "Common practice (L/180)", _SAWN),
    _deck("span_limit", "span of the boards", LIMIT, _BY_LIMIT),
    _deck("load_limit", "load on the boards", LIMIT, _BY_LIMIT),
    _deck(
        "end_limit",
        "end of the boards past the last joist",
        LIMIT,
        f"{_BY_LIMIT} and run out past the last joist",
    ),
)

MEMBERS = (
    incising("joist", PartKind.JOIST, Topic.JOISTS),
    incising("beam", PartKind.BEAM, Topic.BEAMS),
    place("joist", PartKind.JOIST, Topic.JOISTS),
    place("beam", PartKind.BEAM, Topic.BEAMS),
    LimitState(
        "joist.stage_bending",
        PartKind.JOIST,
        Topic.JOISTS,
        "bending before the decking is on",
        "NDS 2018, 3.3; 2.3.2",
        _STAGE,
    ),
    LimitState(
        "beam.stage_bending",
        PartKind.BEAM,
        Topic.BEAMS,
        "bending before the joists are on",
        "NDS 2018, 3.3; 2.3.2",
        _STAGE,
    ),
    LimitState(
        "joist.stage_slenderness",
        PartKind.JOIST,
        Topic.JOISTS,
        "slenderness before the decking is on",
        "NDS 2018, 3.3.3.7",
        _STAGE,
    ),
    LimitState(
        "beam.stage_slenderness",
        PartKind.BEAM,
        Topic.BEAMS,
        "slenderness before the joists are on",
        "NDS 2018, 3.3.3.7",
        _STAGE,
    ),
    LimitState(
        "beam.stage_rotation",
        PartKind.BEAM,
        Topic.STABILITY,
        "rotation on {at} before the joists are on",
        "Statics; ASCE 37-14, 4.4.1",
        _UPRIGHT,
        when="where it rests on a beam, a post or a tree bolt and no other beam meets it",
    ),
    LimitState(
        "beam.stage_uplift",
        PartKind.BEAM,
        Topic.STABILITY,
        "uplift at {at} before the joists are on",
        "Statics; common practice (0.6D + one worker)",
        "A tie with a higher rated uplift, fastened before anyone stands on the beam, or less overhang.",
        when="where a worker past its last seat tips it",
    ),
    LimitState(
        "joist.stage_uplift",
        PartKind.JOIST,
        Topic.STABILITY,
        "uplift at {at} before the decking is on",
        "Statics; common practice (0.6D + one worker)",
        "A tie with a higher rated uplift, fastened before anyone stands on the joists, or less overhang.",
        when="where a worker past its last seat tips it",
    ),
    *_both("bending", "bending", "NDS 2018, 3.3", _SECTION),
    *_both("negative_bending", "negative bending", "NDS 2018, 3.3", _SECTION, when="where it bends upwards"),
    *_both("shear", "shear", "NDS 2018, 3.4", _SECTION),
    *_both("bearing", "bearing on {at}", "NDS 2018, 3.10.2", _LONGER),
    *_both(
        "least_bearing",
        "length of bearing on {at}",
        "IRC 2021, R507.5.1, R507.6.1",
        _LONGER,
        when="where it rests on a beam, a cap or a bracket; a hanger is rated with its own seat",
    ),
    *_both(
        "slenderness",
        "slenderness on edge",
        "NDS 2018, 3.3.3.7",
        "Bracing of its compression edge, fastened plies, or a section less tall for its breadth.",
    ),
    *_both(
        "edge_load",
        "edges of its connection to {at}",
        RATED,
        "A connection with a higher rated load at its edges, or less load off the beam's middle line.",
        when="where it bears on a beam off its middle line and is to keep it from turning (restrains_beam)",
    ),
    *_both(
        "edge_together",
        "edges of its connection to {at}, with wind and sway, together with down or up unless rated alone",
        "Common practice (unity equation)",
        "A connection with higher ratings, or a piece of its own for what pulls at the edges (rated_alone).",
        when="where its connection is asked at its edges; the force there alone where rated by itself (rated_alone)",
    ),
    *_both("live_deflection", "live deflection", "IRC 2021, Table R301.7", _SECTION),
    *_both("total_deflection", "total deflection", "IBC 2021, Table 1604.3; NDS 2018, 3.5.2", _SECTION),
    *_both(
        "uplift",
        "uplift at {at}",
        "Statics, worst pattern; 0.6D + L and 0.6D + S as common practice",
        _TIE,
        when="at each end on a beam",
    ),
    *(
        LimitState(
            f"{kind}.uplift_lateral",
            part,
            Topic.STABILITY,
            label,
            WIND_UPLIFT,
            _TIE,
            lateral=True,
            when=when,
        )
        for kind, part, label, when in (
            (
                "joist",
                PartKind.JOIST,
                "uplift with wind and sway ({at})",
                "for the joist of a field that is lifted most",
            ),
            ("beam", PartKind.BEAM, "uplift at {at} with wind and sway", "at each end on a beam"),
        )
    ),
    *(
        LimitState(
            f"joist.{name}", PartKind.JOIST, Topic.JOISTS, label, clause, change, lateral=True, when=_WORST
        )
        for name, label, clause, change in (
            ("bending_lateral", "bending with wind and sway", "NDS 2018, 3.3", _SECTION),
            ("shear_lateral", "shear with wind and sway", "NDS 2018, 3.4", _SECTION),
            ("bearing_lateral", "bearing on {at} with wind and sway", "NDS 2018, 3.10.2", _LONGER),
        )
    ),
    *(
        LimitState(
            f"{kind}.lateral",
            part,
            Topic.STABILITY,
            label,
            RATED,
            "A connection with a higher rated lateral load, steel angles, or another joist nearer to the support.",
            lateral=True,
            when=when,
        )
        for kind, part, label, when in (
            (
                "joist",
                PartKind.JOIST,
                "lateral force from the deck ({at})",
                "for the end of a field's joists through which most comes into a beam",
            ),
            (
                "beam",
                PartKind.BEAM,
                "lateral force from the deck at {at}",
                "at each end hung on a beam that boards do not hold as they hold a joist",
            ),
        )
    ),
    LimitState(
        "beam.bearing_under",
        PartKind.BEAM,
        Topic.BEAMS,
        "bearing under {at}",
        "NDS 2018, 3.10.2",
        _LONGER,
        when="where a member rests on it",
    ),
    _beam(
        "bearing_under_lateral",
        "bearing under {at} with wind and sway",
        "NDS 2018, 3.10.2",
        _LONGER,
        when="under the joist of a field that is worst",
    ),
    LimitState(
        "beam.plies",
        PartKind.BEAM,
        Topic.BEAMS,
        "ply-to-ply transfer",
        "NDS 2018, 12.3; IRC 2021, R507.5",
        "More rows of nails between the plies, closer nails, or members that rest on top of all plies.",
        when="where a member hangs on one face of two plies or more",
    ),
    LimitState(
        "beam.bending_of_ply",
        PartKind.BEAM,
        Topic.BEAMS,
        "bending of the loaded ply",
        "Statics; NDS 2018, 3.3, 11.3.6.1",
        "More rows of nails between the plies, closer nails, more plies, or members that rest on top of all plies.",
        when="where a member hangs on one face of two plies or more",
    ),
    LimitState(
        "beam.torsion",
        PartKind.BEAM,
        Topic.BEAMS,
        "shear with torsion",
        "Statics; NDS 2018, 3.4",
        "Connections that keep the beam from turning (restrains_beam), members on both faces or on top, a wider beam.",
        when="where loads off its middle line twist it",
    ),
    LimitState(
        "beam.rotation_hanger",
        PartKind.BEAM,
        Topic.BEAMS,
        "rotation in its hanger at {at}",
        RATED,
        "A hanger with a higher rated load at its edges, or connections with edge_load on what hangs on it.",
        when="where it hangs and loads off its middle line turn it",
    ),
    _beam("bending_lateral", "bending with wind and sway", "NDS 2018, 3.9", _SECTION),
    _beam("shear_lateral", "shear with wind and sway", "NDS 2018, 3.4", _SECTION),
    _beam(
        "bending_at_bolts",
        "bending at the bolts of {at}",
        "NDS 2018, 3.1.2, 3.3",
        "Fewer or smaller holes, or a deeper beam.",
        when="where a knee brace, or its bracket on a tree bolt, is bolted to it",
    ),
    _beam(
        "bolts_below_middle",
        "height of the bolts of {at} in it",
        "NDS 2018, Table 12.5.1C, 3.8.2",
        "Bolts in the middle of the beam's depth or above, through taller side plates.",
        when="where its bracket on a tree bolt is bolted to it",
    ),
    _beam(
        "bearing_lateral", "bearing on {at} with wind and sway", "NDS 2018, 3.10.2", _LONGER, when=_ON_BEAM
    ),
    _beam(
        "fastening_lateral",
        "lateral load on the fastening at {at}",
        RATED,
        "Fastenings with a higher rated side load, or more of them.",
        Topic.STABILITY,
        when=_ON_BEAM,
    ),
    _beam(
        "together",
        "ratings acting together at {at}",
        "Common practice (unity equation)",
        "Angles or straps with higher ratings, or one piece for each of the loads.",
        Topic.STABILITY,
        when=f"{_ON_BEAM} and is lifted or turned, unless its maker allows each rating in full beside the others",
    ),
    _beam(
        "rotation",
        "rotation on {at}",
        "Statics",
        _UPRIGHT,
        Topic.STABILITY,
        when="where it rests on a beam, or on a tree bolt without joists that hold it upright",
    ),
    _beam(
        "rotation_joists",
        "rotation on {at}, held by joists",
        "Statics; judgement",
        _UPRIGHT,
        Topic.STABILITY,
        when="where it rests on a tree bolt and joists hold it upright",
    ),
)

BOLTED = tuple(
    LimitState(
        f"{kind}.{name}",
        part,
        topic,
        label,
        clause,
        "Bolts farther from ends and edges, fewer of them, or a thicker or deeper piece.",
        lateral=True,
        when=when,
    )
    for kind, part, topic, when in (
        (
            "beam",
            PartKind.BEAM,
            Topic.BEAMS,
            "where a knee brace, or its bracket on a tree bolt, is bolted to it",
        ),
        ("post", PartKind.POST, Topic.POSTS, "where a knee brace is bolted to it"),
    )
    for name, label, clause in (
        ("row_tear_out", "row tear-out at {at}", "NDS 2018, Appendix E"),
        ("shear_at_bolts", "shear at the bolts of {at}", "NDS 2018, 3.4.3.3"),
    )
)

HANGERS = (
    LimitState("hanger.rated", PartKind.HANGER, Topic.HANGERS, "hanger at {at}", MAKER, _HANGER),
    LimitState(
        "hanger.rated_lateral",
        PartKind.HANGER,
        Topic.HANGERS,
        "hanger {at} with wind and sway",
        RATED,
        _HANGER,
        lateral=True,
        when="of the hung end of each kind of hanger that wind and sway load most",
    ),
)
