"""Limit states of posts, footings, knee braces and crossed rods."""

from __future__ import annotations

from bolewright.platform.limit_states.state import (
    MAKER,
    WIND_UPLIFT,
    LimitState,
    PartKind,
    Topic,
    incising,
    place,
)

_POST = "A thicker or shorter post, one held at its top, or knee braces."
_END = "A thicker post, a metal plate between and an engineer's word on it, or less load on it."
_CAP = "A cap or tie with a higher rating for this direction, or less load on it."
_FOOTING = "A wider or deeper footing, better soil shown by a report, or less load on it."
_CONCRETE = "Thicker or stronger concrete, or a smaller footing under the same load."
_BRACE = "A thicker or shorter brace, two plies, or less lateral load on it."
_BOLTS = "More or thicker bolts, farther from the ends and edges, or a thicker piece."
_TEE = "of a post whose beam stands on it alone"


def _post(
    name: str, label: str, clause: str, change: str = _POST, *, lateral: bool = False, when: str = ""
) -> LimitState:
    return LimitState(f"post.{name}", PartKind.POST, Topic.POSTS, label, clause, change, lateral, when)


def _footing(
    name: str, label: str, clause: str, change: str = _FOOTING, *, lateral: bool = False, when: str = ""
) -> LimitState:
    return LimitState(
        f"footing.{name}", PartKind.FOOTING, Topic.FOOTINGS, label, clause, change, lateral, when
    )


def _brace(name: str, label: str, clause: str, change: str, *, when: str = "") -> LimitState:
    return LimitState(f"brace.{name}", PartKind.BRACE, Topic.BRACES, label, clause, change, True, when)


_BRACED = "of a post with knee braces"
_HELD = "of a post whose embedment is counted"
_BOLTED = "of a brace with bolts"

POSTS = (
    incising("post", PartKind.POST, Topic.POSTS),
    place("post", PartKind.POST, Topic.POSTS),
    _post(
        "stage_alone",
        "alone before it is braced",
        "IBC 2021, 1807.3; ASCE 37-14, 4.4.1",
        "Temporary braces to stakes in two directions, or a deeper hole.",
        when=_HELD,
    ),
    _post("buckling", "{at}buckling", "NDS 2018, 3.7"),
    _post("slenderness", "{at}slenderness", "NDS 2018, 3.7.1.4"),
    _post("end_bearing", "bearing of its ends", "NDS 2018, 3.10.1", _END),
    _post(
        "end_bearing_lateral",
        "bearing of its ends with wind and sway",
        "NDS 2018, 3.10.1",
        _END,
        lateral=True,
    ),
    _post("one_arm", "unbalanced load", "NDS 2018, 15.4.1", when=_TEE),
    _post(
        "uplift",
        "uplift",
        "Statics, worst pattern; 0.6D + L and 0.6D + S as common practice",
        "A tie with a higher rated uplift, or less overhang.",
    ),
    _post(
        "lateral",
        "sway",
        "NDS 2018, 3.9.2",
        "Something that holds the platform laterally: knee braces, embedded posts or a tie to the tree.",
        lateral=True,
        when="where nothing holds the platform laterally",
    ),
    _post(
        "at_knee",
        "combined axial load and bending at the knee",
        "NDS 2018, 15.4.1",
        lateral=True,
        when=_BRACED,
    ),
    _post(
        "at_rods",
        "combined axial load and bending at the crossed rods",
        "NDS 2018, 15.4.1",
        "A thicker post, or the rods' upper ends nearer to the beam.",
        lateral=True,
        when="of a post with crossed rods",
    ),
    _post(
        "net_section",
        "compression on the net section at the knee",
        "NDS 2018, 3.6.3",
        lateral=True,
        when=f"{_BRACED} that are bolted",
    ),
    _post(
        "net_tension",
        "tension on the net section at the knee",
        "NDS 2018, 3.8",
        lateral=True,
        when=f"{_BRACED} that are bolted",
    ),
    _post(
        "foot_uplift",
        "uplift of its foot out of the concrete",
        "NDS 2018, 12.3, Table 12E",
        "Bolts through its foot into the concrete, a rated anchor, or less overhang and lateral load.",
        lateral=True,
    ),
    *(
        _post(
            name,
            label,
            clause,
            "More or thicker bolts farther above its end, a thicker post, or a rated anchor in their place.",
            lateral=True,
            when="of a post that bolts through its foot hold down",
        )
        for name, label, clause in (
            ("foot_tear_out", "row tear-out at the bolts of its foot", "NDS 2018, Appendix E"),
            ("foot_net_tension", "tension on the net section of its foot", "NDS 2018, 3.8"),
        )
    ),
    _post(
        "in_ground",
        "combined axial load and bending in the ground",
        "NDS 2018, 15.4.1",
        lateral=True,
        when=_HELD,
    ),
    _post("shear", "shear{at}", "NDS 2018, 3.4", lateral=True),
    _post("shear_below", "shear below grade", "NDS 2018, 3.4", lateral=True),
    _post("cap_lateral", "lateral load on the post cap", MAKER, _CAP, lateral=True),
    _post(
        "cap_bearing_lateral",
        "bearing of {at} with wind and sway",
        "NDS 2018, 3.10.2",
        "A wider post or longer cap, or a species that is harder across the grain.",
        lateral=True,
    ),
    _post(
        "cap_rotation",
        "rotation of {at} on the cap",
        "Statics",
        "Straps, angles or gussets on both sides, or a beam less tall for its width.",
        lateral=True,
    ),
    _post(
        "cap_together",
        "ratings acting together",
        "Common practice (unity equation)",
        _CAP,
        lateral=True,
        when="where it is lifted or turned, unless its maker allows each rating in full beside the others",
    ),
    _post("uplift_lateral", "uplift with wind and sway", WIND_UPLIFT, _CAP, lateral=True),
)

FOOTINGS = (
    place("footing", PartKind.FOOTING, Topic.FOOTINGS),
    _footing("soil", "soil pressure", "IBC 2021, Table 1806.2"),
    _footing("frost", "frost depth", "IRC 2021, R403.1.4", "A deeper footing."),
    _footing("thickness", "minimum footing thickness", "ACI 318-19, 14.3.2.1", "Thicker plain concrete."),
    _footing(
        "projection",
        "footing thickness for its projection",
        "IRC 2018, R403.1.1",
        "Thicker or narrower plain concrete.",
        when="where soil fills the hole over a pad; concrete up to grade does not project",
    ),
    _footing(
        "concrete_bending",
        "bending of the concrete",
        "ACI 318-19, 14.5",
        _CONCRETE,
        when="where the concrete runs out past the post",
    ),
    _footing(
        "concrete_shear",
        "one-way shear of the concrete",
        "ACI 318-19, 14.5",
        _CONCRETE,
        when="where its section lies within the footing",
    ),
    _footing(
        "concrete_punching",
        "punching of the concrete",
        "ACI 318-19, 14.5",
        _CONCRETE,
        when="where its section lies within the footing",
    ),
    _footing("concrete_bearing", "bearing of the concrete under the post", "ACI 318-19, 14.5.6.1", _CONCRETE),
    _footing(
        "concrete_lateral", "concrete with wind and sway", "ACI 318-19, 14.5, 5.3.1", _CONCRETE, lateral=True
    ),
    _footing("embedment_one_arm", "embedment, unbalanced load", "IBC 2021, 1807.3", when=_TEE),
    _footing("embedment", "lateral embedment", "IBC 2021, 1807.3", lateral=True),
    _footing("soil_lateral", "soil pressure with wind and sway", "IBC 2021, Table 1806.2", lateral=True),
    _footing(
        "uplift_lateral",
        "uplift of the footing",
        WIND_UPLIFT,
        "More concrete, or less lateral load.",
        lateral=True,
    ),
)

BRACES = (
    incising("brace", PartKind.BRACE, Topic.BRACES),
    place("brace", PartKind.BRACE, Topic.BRACES),
    LimitState(
        "brace.above_beam",
        PartKind.BRACE,
        Topic.BRACES,
        "upper end above {at}",
        "Geometry; common practice (1/2 in.)",
        "More run for its rise, a narrower brace, or a deeper beam.",
        when=_BOLTED,
    ),
    _brace(
        "lateral",
        "sway",
        "Statics",
        "Something that holds the platform laterally.",
        when="where nothing holds the platform laterally",
    ),
    _brace("distances", "edge and end distances", "NDS 2018, 12.5.1", _BOLTS, when=_BOLTED),
    _brace("buckling", "buckling", "NDS 2018, 3.7", _BRACE),
    _brace("with_wind", "axial load and bending by wind", "NDS 2018, 3.9", _BRACE),
    _brace("net_compression", "compression at the bolts", "NDS 2018, 3.6.3", _BRACE, when=_BOLTED),
    _brace("tension", "tension", "NDS 2018, 3.8", _BRACE),
    _brace("row_tear_out", "row tear-out at {at}", "NDS 2018, Appendix E", _BOLTS, when=_BOLTED),
    _brace(
        "group_tear_out",
        "group tear-out at {at}",
        "NDS 2018, Appendix E",
        _BOLTS,
        when="of a brace with more than one row of bolts",
    ),
    _brace("ends", "ends", MAKER, _BOLTS, when="of a brace with a rated load, or without a connection"),
    _brace("end_on_post", "brace connection at the post", "NDS 2018, 12.3", _BOLTS, when=_BOLTED),
    _brace("end_on_beam", "brace connection at the beam", "NDS 2018, 12.3", _BOLTS, when=_BOLTED),
)

_RODS = "Thicker rods, posts farther apart, or less lateral load on them."


def _rods(name: str, label: str, clause: str, change: str, *, when: str = "") -> LimitState:
    return LimitState(
        f"crossed_rods.{name}", PartKind.CROSSED_RODS, Topic.BRACES, label, clause, change, True, when
    )


CROSSED_RODS = (
    place("crossed_rods", PartKind.CROSSED_RODS, Topic.BRACES),
    _rods(
        "lateral",
        "sway",
        "Statics",
        "Something that holds the platform laterally.",
        when="where nothing holds the platform laterally",
    ),
    _rods("tension", "tension", "AISC 360-16, D2 and J3.6", _RODS),
    _rods("ends", "ends", MAKER, "Ends with a higher rating, or less lateral load on the rods."),
)
