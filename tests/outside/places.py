"""What every field of a project file holds of the drawing: a place, a direction, an edge's number, a mark, a length
along an edge or a member, or nothing of it. The relations carry fields by this table; a field that is in neither half
of it fails a test.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from inspect import get_annotations
from typing import Any, get_args

from bolewright.platform.project.fields import Strict

# What a field holds.
POINT = "point in plan"
RING = "corners in order"
RINGS = "rings"
WIDTHS = "widths round a trunk"
DIRECTION = "direction in plan"
NORTH = "north, clockwise from y"
ACROSS = "distance across a field of joists"
EDGE = "number of an edge of the outline"
EDGE_OF = "number of an edge of the outline or of an opening"
OPENING = "number of an opening"
FROM_CORNER = "distance from an edge's first corner"
STRETCH = "start of a stretch of an edge"
FROM_START = "distance from a member's start"
WHICH_END = "start or end of a member"
WHICH_POST = "post nearer to the start or the end of an edge"
OWN = "mark of its own"
MARK = "mark of a part"
MEMBER = "mark of a joist or beam"
HAND = "left or right of the way the joists run"
LETTERS = "letters of a field of joists"
OWN_LETTERS = "letters of its own"
KINDS = "kinds by name"
KIND = "name of a kind"
PATHS = "paths into the file"
PARTS = "parts of the project"

# Class that has the field -> field -> what it holds.
PLACES: dict[str, dict[str, str]] = {
    "Project": {
        "confirmed": PATHS,
        **dict.fromkeys(("materials", "bolts", "posts", "footings", "struts", "connections"), KINDS),
        **dict.fromkeys(
            (
                *(
                    "title",
                    "code",
                    "site",
                    "loads",
                    "limits",
                    "platform",
                    "decking",
                    "stairs",
                    "ladder",
                    "hatch",
                ),
                *("trees", "supports", "beams", "joists", "blocking", "braces", "diagonals", "walls"),
                "crossed_rods",
                *(
                    "load_areas",
                    "point_loads",
                    "guards",
                    "gates",
                    "ground",
                    "as_built",
                    "readings",
                    "trunk_openings",
                ),
                *("limbs", "outlines", "stock", "prices", "crossed_rods"),
            ),
            PARTS,
        ),
    },
    "Loads": {"guard_edges": EDGE},
    "Platform": {"outline": RING, "openings": RINGS, "north": NORTH},
    "Timber": {"material": KIND},
    "Decking": {"direction": HAND},
    "Tree": {"mark": OWN, "at": POINT},
    "Support": {
        "mark": OWN,
        "at": POINT,
        "tree": MARK,
        "foot": MARK,
        "direction": DIRECTION,
        "bolt": KIND,
        "post": KIND,
        "footing": KIND,
        "strut": KIND,
    },
    "Beam": {"mark": OWN, "start": POINT, "end": POINT, "hanger": KIND},
    "JoistField": {
        "mark": OWN_LETTERS,
        "direction": DIRECTION,
        "first": ACROSS,
        "last": ACROSS,
        "beams": MARK,
        "region": RING,
        "hanger": KIND,
    },
    "Blocking": {
        "mark": OWN_LETTERS,
        "joists": LETTERS,
        "end": WHICH_END,
        "between": MEMBER,
        "over": MARK,
        "along": FROM_START,
        "hanger": KIND,
    },
    "Brace": {"mark": OWN, "support": MARK, "beam": MARK, "towards": WHICH_END},
    "Diagonal": {"mark": OWN, "start": POINT, "end": POINT},
    "CrossedRods": {"mark": OWN, "from_post": MARK, "to_post": MARK},
    "Wall": {"mark": OWN, "edge": EDGE, "start": STRETCH},
    "LoadArea": {"mark": OWN, "corners": RING},
    "PointLoad": {
        "mark": OWN,
        "at": POINT,
        "member": MEMBER,
        "along": FROM_START,
        "other_end": FROM_START,
        "direction": DIRECTION,
    },
    "Guard": {
        "mark": OWN_LETTERS,
        "edges": EDGE_OF,
        "opening": OPENING,
        "start": STRETCH,
        "places": FROM_CORNER,
    },
    "Gate": {"mark": OWN, "edge": EDGE, "along": FROM_CORNER, "hung": WHICH_POST},
    "GroundLevel": {"mark": OWN, "at": POINT},
    "AsBuilt": {"mark": MEMBER, "at": POINT},
    "Reading": {"mark": MARK},
    "TrunkOpening": {"mark": OWN, "around": MARK},
    "Limb": {"mark": OWN, "tree": MARK, "start": POINT, "end": POINT},
    "TrunkOutline": {"tree": MARK, "points": RING, "widths": WIDTHS},
    "Stairs": {"edge": EDGE, "along": FROM_CORNER, "hanger": KIND},
    "Ladder": {"edge": EDGE_OF, "opening": OPENING, "along": FROM_CORNER},
    "Hatch": {"at": POINT, "joists": LETTERS, "hanger": KIND},
}
# Fields that say nothing of where: sizes, levels, loads, ratings, words. The length of a STRETCH counts as
# carried by it, and a limb's levels and diameters go with its two places.
WITHOUT: dict[str, str] = {
    "Project": "format demonstration",
    "Title": "project site client prepared_by checked_by date revision note",
    "Code": "basis edition amendments design",
    "Site": """frost_depth soil soil_bearing soil_bearing_note ground_snow wind_speed exposure S_DS settlement K_zt
        elevation""",
    "Loads": "live live_note hardware guard guard_height guard_solidity person sway_share",
    "Limits": "live total deck_live drift",
    "Platform": "floor_height",
    "Timber": "section species grade wet incised",
    "Decking": "gap span_limit span_measured span_load end_limit weight span_note",
    "Material": "F_b F_t F_v F_c_perp F_c E E_min G note wet_factor size_factor repetitive_factor shrinkage",
    "Tree": """species girth diameter bark height condition sway_seen sway_seen_at crown_area crown_center crown_drag
        cavity growth service margin""",
    "GivenWood": "rated_wood rated_G rated_size rated_C_D",
    "GivenTogether": "rated_direction rated_alone",
    "GivenFor": "rated_bolt",
    "Bolt": """diameter embedment F_y F_u seat_length seat_across seat seat_rise tail_diameter washer slide rated_load
        rated_note rated_lateral rated_lateral_note rated_with_fastening beam_bolts beam_bolt_diameter
        beam_bolt_height bracket_plate""",
    "Post": """K_e eccentricity cap_length cap_seat base constrained doubled cap_lateral rotation_tie cap_note
    foot_bolts
        foot_bolt_diameter foot_tie gusset gusset_thickness gusset_nail gusset_nails""",
    "Footing": "shape width depth pad f_c fill gravel",
    "Strut": "head_bolts foot_bolts bolt_diameter plate rated_foot note",
    "Connection": "rated_load rated_uplift rated_lateral rated_skew seat_length load_duration wet_included note",
    "Support": "kind rise uplift_tie uplift_note lateral slot friction",
    "Beam": """plies layer lateral_tie rotation_tie uplift_tie tie_note restrains_beam edge_load plies_fastened ply_rows
        ply_spacing top drop""",
    "JoistField": "spacing bearing uplift_tie lateral_tie tie_note restrains_beam edge_load rated_alone",
    "Blocking": """section kind past drop fasteners fastener fastener_length restrains_beam edge_load rated_alone
        tie_note""",
    "Brace": "kind rise run plies bolts bolt_diameter rated_load note",
    "Diagonal": "rated_load note",
    "CrossedRods": "below_beam above_grade diameter F_y F_u rated_load note",
    "Wall": "height length solidity weight_in_guard",
    "LoadArea": "load kind note",
    "PointLoad": """form kind weight up lateral reverses height angle impact impact_note patch fastener_load
        fastener_note note""",
    "Guard": """section length spacing lever notched bolt_diameter bolt_edge bolt_strength plate hold_down
        lower_tie down_tie skew_tie hold_down_note cap top_rail bottom_rail rail_fastening rail_note rail_posts
        handrail infill baluster gap cable_pull cable_hole bottom_gap baluster_strength infill_load infill_note
        climbable note""",
    "Gate": """section width swing self_closing hinge_spacing hinge latch wheel on_wheel brace_fastening hardware_note
        side_gap bottom_gap note""",
    "GroundLevel": "level",
    "AsBuilt": "projection level embedment hole depth width note",
    "Reading": "below_line",
    "TrunkOpening": "cover gap overlap rated_load note",
    "Limb": "start_level end_level start_diameter end_diameter sway growth",
    "Stairs": """section width foot highest_riser tread_run top stringers cut stringer_depth tread_section tread
        tread_span_limit tread_bracket tread_note nosing risers riser_strip live dead rail face face_tie face_note
        pad_length pad_width pad_thickness pad_depth landing handrail handrail_height guard_height guard_opening
        rail_post rail_spacing rail_blocks rail_tie rail_note head_room head_edge""",
    "Ladder": """kind section foot clear pitch spacing step rung_diameter rung_rating step_fixing rails_over rails_tied
        grip grip_rating head_fixing fixing_note foot_fixed pad closed_by handrail_height""",
    "Hatch": """length width trimmer_plies header_plies ply_rows ply_spacing lateral_tie rotation_tie uplift_tie
    edge_load rated_alone
        tie_note cover_weight held_open held_note open_guard""",
    "Stock": "lengths longest kerf end_trim post_spare bag_yield bag_weight overbreak currency",
    "Price": "item length grade each",
}
KIND_OF = {
    "material": "materials",
    "bolt": "bolts",
    "post": "posts",
    "footing": "footings",
    "strut": "struts",
    "hanger": "connections",
}
# How each of them is changed: by the value, and the part that holds it.
Change = Callable[[Any, Any], Any]
_WHOLE = (POINT, RING, RINGS, WIDTHS, KINDS, PATHS, PARTS)  # a tuple there is one value, not several


def fields_of(model: type) -> Iterator[tuple[str, str]]:
    """Fields of a part with the class that each is from."""
    for cls in reversed(model.__mro__):
        if isinstance(cls, type) and issubclass(cls, Strict):
            yield from ((cls.__name__, name) for name in get_annotations(cls) if name in cls.model_fields)


def models(kind: Any) -> Iterator[type]:
    """Every part that an annotation leads to."""
    if isinstance(kind, type) and issubclass(kind, Strict):
        yield kind
        for field in kind.model_fields.values():
            yield from models(field.annotation)
        return
    for inner in get_args(kind):
        yield from models(inner)


def held(model: type) -> dict[str, str]:
    """What the fields of a part hold, of those that hold a place."""
    return {
        name: what for cls, name in fields_of(model) if (what := PLACES.get(cls, {}).get(name)) is not None
    }


def carried(part: Any, changes: Mapping[str, Change]) -> Any:
    """The part, and all parts in it, with every field of these kinds changed; what is not given stays so."""
    new: dict[str, Any] = {}
    for name, what in held(type(part)).items():
        value = getattr(part, name)
        if value is None:
            continue
        if what == PARTS:
            new[name] = _parts(value, changes)
        elif what == KINDS:
            kinds = {key: carried(kind, changes) for key, kind in value.items()}
            new[name] = changes[KINDS](kinds, name) if KINDS in changes else kinds
        elif what == KIND and KIND in changes:
            new[name] = changes[KIND](value, KIND_OF[name])
        elif what in changes:
            several = isinstance(value, tuple) and what not in _WHOLE
            change = changes[what]
            new[name] = tuple(change(v, part) for v in value) if several else change(value, part)
    return part.model_copy(update=new)


def _parts(value: Any, changes: Mapping[str, Change]) -> Any:
    if isinstance(value, tuple):
        return tuple(carried(part, changes) for part in value)
    return carried(value, changes)
