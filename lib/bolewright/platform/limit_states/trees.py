"""Limit states of tree bolts and of the trees they are in."""

from __future__ import annotations

from bolewright.platform.limit_states.state import (
    PRACTICE,
    RATED,
    WIND_UPLIFT,
    LimitState,
    PartKind,
    Topic,
    place,
)

_BOLT = "A thicker bolt, a bearing nearer to the trunk, more bolts or less load on them."
_WOOD = "A thicker bolt, more embedment in sound wood, or less load on it."
_RATING = "A bolt or bracket with a higher rating, or less load on it."
_TIE = "A hold-down clip or tie with a higher rated uplift, or less overhang."
_PLACE = "Another place or direction of the hole, a thinner or shorter bolt, or a thicker tree."
_ROOM = "More clearance, a shorter time between services, or a bearing farther from the bark."
_TRUNK = "Less load or lateral load on this tree: more posts, more trees, lower bolts."
_LET_GO = (
    "A bearing that slides, so that the trunk is not restrained, or an arborist's consent and higher ratings."
)


def _bolt(
    name: str,
    label: str,
    clause: str,
    change: str,
    *,
    lateral: bool = False,
    when: str = "",
    topic: Topic = Topic.TREE_BOLTS,
) -> LimitState:
    return LimitState(f"tree_bolt.{name}", PartKind.TREE_BOLT, topic, label, clause, change, lateral, when)


def _tree(
    name: str, label: str, clause: str, change: str, *, lateral: bool = False, when: str = ""
) -> LimitState:
    topic = Topic.TREE_BOLTS if name.startswith("trunk") else Topic.CLEARANCE
    return LimitState(f"tree.{name}", PartKind.TREE, topic, label, clause, change, lateral, when)


_BESIDE = "where the bolt's line passes beside the trunk's axis"
_PAIR = "where bolts in one trunk are at about one height"
_SLIDES = "where the bearing slides or floats"

BOLTS = (
    place("tree_bolt", PartKind.TREE_BOLT, Topic.TREE_BOLTS),
    _bolt("steel_bending", "steel bending", "AISC 360-16, F11", _BOLT),
    _bolt("steel_shear", "steel shear", "AISC 360-16, G1", _BOLT),
    _bolt(
        "wood_yield",
        "yield limit in green wood",
        "Statics; AWC TR12; NDS 2018, Table 12.3.1B",
        _WOOD,
    ),
    _bolt("wood_pressure", "pressure on the wood in service", "Hetényi; ASTM D2555, D245", _WOOD),
    _bolt("rated", "rated load", RATED, _RATING),
    _bolt("uplift", "uplift", "Statics, worst pattern; 0.6D + L and 0.6D + S as common practice", _TIE),
    _bolt(
        "together",
        "ratings acting together",
        "Common practice (unity equation)",
        _RATING,
        lateral=True,
        when="unless its maker allows each rating in full beside the others",
    ),
    _bolt("hole", "hole in the trunk", PRACTICE, _PLACE),
    _bolt("hole_line", "wood on the bolt's line", PRACTICE, _PLACE, when=_BESIDE),
    _bolt("hole_edge", "wood beside the bolt", "NDS 2018, Table 12.5.1C", _PLACE, when=_BESIDE),
    _bolt("tips", "wood left to the tip of {at}", PRACTICE, _PLACE, when=_PAIR),
    _bolt("hole_spacing", "distance to the hole of {at}", PRACTICE, _PLACE, when=_PAIR),
    _bolt(
        "held_lateral",
        "lateral restraint",
        "Statics",
        "Say how the bearing meets a lateral force: tied, slides or floats.",
        lateral=True,
        when="where the file does not say how the bearing meets a lateral force",
    ),
    _bolt("steel_biaxial", "biaxial bending of the bolt", "AISC 360-16, F11", _BOLT, lateral=True),
    _bolt(
        "wood_yield_lateral",
        "yield limit at an angle to the grain",
        "Statics; AWC TR12; NDS 2018, 12.3.4",
        _WOOD,
        lateral=True,
    ),
    _bolt(
        "wood_pressure_lateral",
        "pressure on the wood in service, down and across",
        "Hetényi; ASTM D2555, D245; NDS 2018, 12.3.4",
        _WOOD,
        lateral=True,
    ),
    _bolt(
        "thread",
        "tension in the thread of its nut",
        "AISC 360-16, J3.6",
        "A thicker thread, or less lateral load along the bolt.",
        lateral=True,
        when="where it is tied",
    ),
    _bolt(
        "washer",
        "washer on the timber",
        "NDS 2018, 3.10.2",
        "A larger washer.",
        lateral=True,
        when="where it is tied and timber bears on it",
    ),
    _bolt("withdrawal", "withdrawal", "NDS 2018, 12.2.1", _WOOD, lateral=True),
    _bolt("rated_lateral", "rated load with wind and sway", RATED, _RATING, lateral=True),
    _bolt("bracket_lateral", "lateral load on the bracket", RATED, _RATING, lateral=True),
    _bolt(
        "fastening",
        "fastening of the beam to the bracket",
        RATED,
        "A bracket whose rating holds with the fastening of the beam, or more or thicker bolts through both.",
        lateral=True,
        when="where a beam rests on a steel bracket",
    ),
    _bolt("uplift_lateral", "uplift with wind and sway", WIND_UPLIFT, _TIE, lateral=True),
    _bolt(
        "contact_years",
        "years until the bark meets the bracket",
        "Geometry",
        _ROOM,
        topic=Topic.CLEARANCE,
    ),
    _bolt(
        "overgrown_years",
        "years until the bark grows over the bearing",
        "Geometry",
        _ROOM,
        topic=Topic.CLEARANCE,
    ),
    _bolt("slot", "slot", PRACTICE, "A longer slot.", topic=Topic.CLEARANCE, when=_SLIDES),
)

TREES = (
    place("tree", PartKind.TREE, Topic.CLEARANCE),
    _tree(
        "condition",
        "condition of the tree",
        "ANSI A300 Part 9",
        "An arborist's word that it may carry a platform.",
        when="of which the file names a fault",
    ),
    _tree(
        "trunk",
        "trunk stress from the platform",
        "Statics; ASTM D2555, D245",
        _TRUNK,
        lateral=True,
        when="of a tree that bears the platform",
    ),
    _tree(
        "trunk_wind",
        "trunk stress in wind",
        "Statics; ASTM D2555, D245",
        _TRUNK,
        lateral=True,
        when="of a tree that bears the platform",
    ),
    _tree(
        "trunk_torsion",
        "torsion of the trunk",
        "Statics; ASTM D2555, D245",
        "Bolts on both sides of the trunk, or less lateral load on it.",
        lateral=True,
        when="of a tree that bears the platform",
    ),
    _tree(
        "sway",
        "sway",
        PRACTICE,
        "Observe the tree in wind and enter what was seen, or measure its crown.",
        when="of a tree near the platform whose sway is not known",
    ),
    _tree("clearance", "clearance at the trunk", PRACTICE, _ROOM, when="of a tree near the platform"),
    _tree(
        "clearance_years",
        "years to zero clearance in storm sway",
        "Geometry",
        _ROOM,
        when="of a tree near the platform",
    ),
    _tree(
        "restraint",
        "restraint force",
        "Statics",
        _LET_GO,
        lateral=True,
        when="of a tree that is tied to the platform",
    ),
)
