"""Limit states of the ways up: stairs, ladder and ship's ladder."""

from __future__ import annotations

from bolewright.platform.limit_states.state import (
    LIMIT,
    PRACTICE,
    RATED,
    LimitState,
    PartKind,
    Topic,
    incising,
    place,
)

PLACED = "where their place on an edge is given"
CUT, CLOSED = "with cut stringers", "with closed stringers"
_STRINGER = "Closed stringers, more of them, a deeper or wider timber, a better grade, or fewer risers."
_TREAD = "Stringers closer together, or thicker boards."
_STEPS = "Another number of risers, or another run of the treads."
_SOIL = "A wider or longer pad."


def _stairs(name: str, label: str, clause: str, change: str, when: str = PLACED) -> LimitState:
    return LimitState(f"stairs.{name}", PartKind.STAIRS, Topic.ACCESS, label, clause, change, when=when)


STAIRS = (
    place("stairs", PartKind.STAIRS, Topic.ACCESS, "clash"),
    _stairs(
        "place", "their head", "Statics", "Say on which edge they hang, with a joist, beam or rim there.", ""
    ),
    incising("stairs", PartKind.STAIRS, Topic.ACCESS),
    _stairs("stringer_bending", "bending of a stringer at its throat", "NDS 2018, 3.3", _STRINGER),
    _stairs(
        "stringer_person",
        "bending of one stringer under one person",
        "Common practice; NDS 2018, 3.3",
        _STRINGER,
    ),
    _stairs("stringer_shear", "shear of a stringer", "NDS 2018, 3.4", _STRINGER),
    _stairs("live_deflection", "live deflection of a stringer", "IRC 2021, Table R301.7", _STRINGER),
    _stairs(
        "total_deflection",
        "total deflection of a stringer",
        "IBC 2021, Table 1604.3; NDS 2018, 3.5.2",
        _STRINGER,
    ),
    _stairs("head", "hanger at the head of a stringer", RATED, "A hanger rated for more, or more stringers."),
    _stairs(
        "head_rotation",
        "rotation of the framing at the head",
        RATED,
        "A hanger or blocking with a higher rated edge load, or more stringers.",
        when="where the head hangs on a rim, joist or beam",
    ),
    _stairs(
        "head_face",
        "framing's face at the head of a stringer",
        "Geometry; common practice",
        "A deeper rim or joist there, the top tread flush with the floor, or a board under the framing (face).",
    ),
    _stairs(
        "face_tie",
        "ties of the board under the framing",
        RATED,
        "Ties rated for more.",
        "where their head hangs on a board under the framing",
    ),
    _stairs(
        "foot_bearing",
        "bearing of a stringer's foot",
        "NDS 2018, 3.10.3",
        "A longer level cut or pad, or more stringers.",
    ),
    _stairs("foot_shear", "shear at the level cut of the foot", "NDS 2018, 3.4.3.2(a)", _STRINGER),
    _stairs("soil", "pressure of their pad on the soil", "IBC 2021, 1806.2", _SOIL),
    _stairs(
        "frost",
        "depth of their pad",
        "IRC 2021, R403.1.4.1",
        "A deeper pad, or one on ground that does not heave.",
    ),
    _stairs("pad", "thickness of their pad", "IRC 2018, R403.1.1", "A thicker pad."),
    _stairs(
        "tread_bending", "bending of one board of a tread", "IRC 2021, Table R301.5; NDS 2018, 3.3", _TREAD
    ),
    _stairs("tread_shear", "shear of one board of a tread", "NDS 2018, 3.4", _TREAD),
    _stairs(
        "tread_span", "span of the treads", LIMIT, _TREAD, "where the treads are held to their maker's limit"
    ),
    _stairs(
        "tread_bracket",
        "bracket or cleat under a tread",
        RATED,
        "A bracket rated for more.",
        CLOSED,
    ),
    _stairs("riser", "height of the risers", "IRC 2021, R311.7.5.1", _STEPS),
    _stairs("least_riser", "least height of the risers", "IBC 2021, 1011.5.2", _STEPS, "by the IBC"),
    _stairs("tread_depth", "depth of the treads", "IRC 2021, R311.7.5.2", "A longer run of the treads."),
    _stairs("width", "width of the stairs", "IRC 2021, R311.7.1", "Wider stairs."),
    _stairs("flight", "rise of one flight", "IRC 2021, R311.7.3", "A landing between two flights."),
    _stairs(
        "opening",
        "opening between the treads",
        "IRC 2021, R311.7.5.1",
        "Closed risers, or a strip under each tread (riser_strip).",
        "where the risers are open and the stairs rise more than 30 in.",
    ),
    _stairs(
        "nosing",
        "nosing of the treads",
        "IRC 2021, R311.7.5.3",
        "A nosing of 3/4 in. at least, or treads of 11 in.",
        "with closed risers",
    ),
    _stairs("head_room", "head room", "IRC 2021, R311.7.2", "Cut the limb back, or move the stairs."),
    _stairs("landing", "landing at their foot", "IRC 2021, R311.7.6", "A landing 36 in. deep at their foot."),
    _stairs(
        "handrail",
        "handrail",
        "IRC 2021, R311.7.8",
        "A handrail on the sides that the code asks for.",
        "from four risers on",
    ),
    _stairs(
        "handrail_height",
        "height of the handrail",
        "IRC 2021, R311.7.8.1",
        "A handrail 34 to 38 in. over the noses.",
        "where there is a handrail",
    ),
    _stairs(
        "guard_height",
        "height of the guard on the stairs",
        "IRC 2021, R312.1.2",
        "A guard of 34 in. over the noses.",
        "where they rise more than 30 in.",
    ),
    _stairs(
        "guard_opening",
        "openings of the guard on the stairs",
        "IRC 2021, R312.1.3",
        "Infill that lets no 4 3/8 in. sphere pass.",
        "where they rise more than 30 in.",
    ),
    _stairs(
        "rail_load",
        "tie of a rail's post",
        "IRC 2021, Table R301.5",
        "Ties rated for more, or closed stringers.",
        "where there is a handrail or a guard",
    ),
    _stairs(
        "rail_post",
        "bending of a rail's post",
        "IRC 2021, Table R301.5; NDS 2018, 3.3",
        "Thicker posts.",
        "where there is a handrail or a guard",
    ),
    _stairs(
        "rail_stringer",
        "stringer beside a rail's post",
        "Statics; NDS 2018, 3.3",
        _STRINGER,
        "where the posts of a rail are given",
    ),
    _stairs(
        "rail_head",
        "hanger at the head beside a rail's post",
        RATED,
        "A hanger rated for more, or stringers further apart.",
        "where the posts of a rail are given",
    ),
    _stairs(
        "rail_head_up",
        "uplift at the head beside a rail's post",
        RATED,
        "A hanger rated for more uplift, or stringers further apart.",
        "where the posts of a rail are given",
    ),
)


def _ladder(name: str, label: str, clause: str, change: str, when: str = "") -> LimitState:
    return LimitState(f"ladder.{name}", PartKind.LADDER, Topic.ACCESS, label, clause, change, when=when)


_RAIL = "Deeper rails, a better grade, or a ladder less long or steeper."
_LEVELLER = "Another number of rungs or treads."
_SHIP = "of a ship's ladder"

LADDERS = (
    place("ladder", PartKind.LADDER, Topic.ACCESS, "clash"),
    _ladder("place", "its head", "Statics", "A rim, joist, beam or header along that edge."),
    incising("ladder", PartKind.LADDER, Topic.ACCESS),
    _ladder(
        "step_bending", "bending of a rung or tread", "ASCE 7-16, 4.5.4; NDS 2018, 3.3", "A thicker one."
    ),
    _ladder("step_fixing", "ends of a rung or tread", RATED, "Fixings that are rated for more."),
    _ladder("rail", "bending and compression of a rail", "ASCE 7-16, 4.5.4; NDS 2018, 3.9.2", _RAIL),
    _ladder("rail_slenderness", "slenderness of a rail", "NDS 2018, 3.7.1.4", _RAIL),
    _ladder(
        "rail_over",
        "bending of a rail over the floor",
        "ASCE 7-16, 4.5.4; NDS 2018, 3.3",
        "Tie the rails to the guard, or thicker ones.",
        "unless a grip takes their place",
    ),
    _ladder(
        "grip",
        "grab bar at its head",
        RATED,
        "A grab bar that is rated for more.",
        "where the file gives a grip",
    ),
    _ladder("head", "fixing of a rail's head", RATED, "A fixing that is rated for more."),
    _ladder(
        "stairs_load",
        "live load of stairs on its treads",
        "ASCE 7-16, 4.5.4",
        "A steeper or narrower one, or stairs.",
        _SHIP,
    ),
    _ladder("foot", "its foot as the platform moves", PRACTICE, "A foot that slides, or a head that hinges."),
    _ladder("soil", "pressure of its pad on the soil", "IBC 2021, 1806.2", "A larger pad."),
    _ladder("use", "what it may serve", "IRC 2021, R311.7.12", "Stairs."),
    _ladder("spacing", "rise from step to step", "OSHA 1910.23(b); IRC 2021, R311.7.12.1", _LEVELLER),
    _ladder("clear", "clear width", "OSHA 1910.23(b); IRC 2021, R311.7.12", "Rails further apart."),
    _ladder(
        "pitch", "slope", "OSHA 1910.23", "A steeper ladder, or a ship's ladder.", "of a ladder with rungs"
    ),
    _ladder("tread_run", "projected depth of a tread", "IRC 2021, R311.7.12.1", "A flatter slope.", _SHIP),
    _ladder(
        "tread_depth", "depth of a tread with its nosing", "IRC 2021, R311.7.12.1", "Deeper treads.", _SHIP
    ),
    _ladder(
        "handrail", "handrails", "IRC 2021, R311.7.12.2", "Handrails on both sides, 30 to 34 in. high.", _SHIP
    ),
    _ladder(
        "height", "height without fall protection", "OSHA 1910.28(b)(9)", "Stairs, or a landing between."
    ),
    _ladder("closed", "what closes its head", PRACTICE, "A gate that shuts by itself, or a hatch."),
    _ladder(
        "over",
        "rails over the floor",
        PRACTICE,
        "Rails of 36 to 42 in. over the floor, or grab bars.",
        "where the file gives them or a grip",
    ),
)


def _hatch(name: str, label: str, clause: str, change: str) -> LimitState:
    return LimitState(f"hatch.{name}", PartKind.HATCH, Topic.ACCESS, label, clause, change)


HATCHES = (
    _hatch(
        "cover", "bending of a board of the cover", "NDS 2018, 3.3", "A hole less wide, or thicker boards."
    ),
    _hatch("weight", "weight of the cover", PRACTICE, "A smaller or lighter cover, or a counterweight."),
    _hatch(
        "held",
        "what holds the cover open",
        "ASCE 7-16, 29.3; 2.4.1 (0.6W)",
        "A latch that is rated for more.",
    ),
    _hatch(
        "fall",
        "fall through the open hatch",
        "IRC 2021, R312.1.1",
        "A guard on three sides, or a cover kept shut.",
    ),
)
