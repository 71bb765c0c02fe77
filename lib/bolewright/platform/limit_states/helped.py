"""What helps a limit state that fails, as data: each key under the one way of helping it that the program tries.

What the ways are made of stands in :mod:`bolewright.changes.ways`. A key that is under none is helped by no size in the
file: its sentence says what to do.
"""

from __future__ import annotations

from enum import StrEnum


class Help(StrEnum):
    """Ways of helping a limit state, by what is changed."""

    BOARDS = "boards"
    JOIST = "joist"
    JOIST_UPLIFT = "rating of a joist's end against uplift"
    JOIST_BEARING = "bearing of a joist"
    EDGES = "rating of a connection for its edges"
    EDGES_TOGETHER = "ratings of a connection that act together"
    DECK_END = "rating of an end for the lateral force from the deck"
    BLOCK = "block"
    BLOCK_EDGES = "rating of a block for its edges"
    BLOCK_FASTENING = "fasteners of a block"
    BLOCK_UPLIFT = "rating of a block's hanger against uplift"
    HANGER = "hanger"
    BEAM = "beam"
    BEAM_IN_SWAY = "beam, or the knees that bend it"
    BEAM_UPLIFT = "rating of a beam's end against uplift"
    BEAM_BEARING = "bearing of a beam"
    PLY_FASTENING = "fasteners of plies"
    LOADED_PLY = "ply that carries more than its share"
    BEAM_AT_BOLTS = "beam at the bolts through it"
    BOLT = "tree bolt"
    BOLT_HOLE = "thinner tree bolt"
    BOLT_TIP = "shorter tree bolt"
    BOLT_UPLIFT = "rating of a tie on a tree bolt"
    BOLT_TOGETHER = "ratings of a bolt that act together"
    BOLT_RATED = "rating of a tree bolt"
    BOLT_RATED_IN_SWAY = "rating of a tree bolt, or what takes the sway"
    BRACKET = "rating of a bracket, or what takes the lateral load"
    BRACKET_FASTENING = "bolts of a beam in its bracket, or its rating"
    POST = "post"
    POST_IN_SWAY = "post, or what takes the sway"
    POST_AT_BOLTS = "post at the bolts through it"
    POST_FOOT_UPLIFT = "bolts or tie of a post's foot"
    POST_UPLIFT = "rating of a tie on a post"
    POST_BEARING = "cap of a post"
    CAP_TOGETHER = "ratings of a cap that act together"
    CAP_LATERAL = "rating of a cap, or what takes the lateral load"
    CAP_ROTATION = "ties or gussets of a cap"
    FOOTING = "footing"
    FROST = "depth of a footing"
    CONCRETE = "concrete of a footing"
    EMBEDMENT = "footing in the ground"
    BRACE = "brace"
    BRACE_DISTANCES = "fewer bolts of a brace"
    BRACE_ENDS = "bolts of a brace"
    RODS = "crossed rods"
    SLOT = "slot"
    CLEARANCE = "clearance at a trunk"
    YEARS = "time of service"
    RESTRAINT = "trunks that are tied"
    STAGE_ROTATION = "ties of a beam while it is built"
    STAGE_UPLIFT = "tie of a seat while a beam is built"
    ROTATION = "ties of a beam"
    BEAM_FASTENING = "fastening of a beam"
    IN_PLANE = "straps in plan"
    DRIFT = "what holds the floor laterally"
    LATERAL = "what holds the platform laterally"


def _keys(kind: str, names: str) -> tuple[str, ...]:
    return tuple(f"{kind}.{name}" for name in names.split())


_STRENGTH = "incising place bending negative_bending shear slenderness live_deflection total_deflection"
HELPED: dict[Help, tuple[str, ...]] = {
    Help.BOARDS: (
        *_keys("decking", "incising bending end_bending live_deflection span_limit load_limit end_limit"),
        "point_load.boards",
        "platform.board_ends",
    ),
    Help.JOIST: _keys("joist", f"{_STRENGTH} bending_lateral shear_lateral stage_bending stage_slenderness"),
    Help.JOIST_UPLIFT: ("joist.uplift",),
    Help.JOIST_BEARING: _keys("joist", "bearing bearing_lateral least_bearing"),
    Help.EDGES: ("joist.edge_load", *_keys("beam", "edge_load torsion rotation_hanger")),
    Help.EDGES_TOGETHER: tuple(f"{kind}.edge_together" for kind in ("joist", "beam", "blocking")),
    Help.DECK_END: ("joist.lateral", "beam.lateral"),
    Help.BLOCK: _keys(
        "blocking",
        f"{_STRENGTH} bending_lateral shear_lateral bending_through bending_through_lateral bearing bearing_lateral "
        "edge_load",
    ),
    Help.BLOCK_EDGES: ("blocking.bracing_edges",),
    Help.BLOCK_FASTENING: _keys("blocking", "fastening fastening_lateral bracing"),
    Help.BLOCK_UPLIFT: ("blocking.uplift",),
    Help.HANGER: ("hanger.rated", "hanger.rated_lateral", "point_load.fastening"),
    Help.BEAM: (
        *_keys("beam", f"{_STRENGTH} stage_bending stage_slenderness bending_at_bolts"),
        *_keys("point_load", "across compression"),
    ),
    Help.BEAM_IN_SWAY: ("beam.bending_lateral", "beam.shear_lateral"),
    Help.BEAM_UPLIFT: ("beam.uplift",),
    Help.BEAM_BEARING: _keys(
        "beam", "bearing least_bearing bearing_under bearing_lateral bearing_under_lateral"
    ),
    Help.PLY_FASTENING: ("beam.plies",),
    Help.LOADED_PLY: ("beam.bending_of_ply",),
    Help.BEAM_AT_BOLTS: ("beam.row_tear_out", "beam.shear_at_bolts", "beam.bolts_below_middle"),
    Help.BOLT: _keys(
        "tree_bolt",
        "place steel_bending steel_shear wood_yield wood_pressure hole_line hole_edge hole_spacing held_lateral "
        "steel_biaxial wood_yield_lateral wood_pressure_lateral thread washer withdrawal",
    ),
    Help.BOLT_HOLE: ("tree_bolt.hole", *_keys("tree", "trunk trunk_wind trunk_torsion")),
    Help.BOLT_TIP: ("tree_bolt.tips",),
    Help.BOLT_UPLIFT: ("tree_bolt.uplift", "tree_bolt.uplift_lateral"),
    Help.BOLT_TOGETHER: ("tree_bolt.together",),
    Help.BOLT_RATED: ("tree_bolt.rated",),
    Help.BOLT_RATED_IN_SWAY: ("tree_bolt.rated_lateral",),
    Help.BRACKET: ("tree_bolt.bracket_lateral",),
    Help.BRACKET_FASTENING: ("tree_bolt.fastening",),
    Help.POST: _keys(
        "post",
        "incising place stage_alone buckling slenderness one_arm net_section net_tension foot_net_tension shear "
        "shear_below",
    ),
    Help.POST_IN_SWAY: _keys("post", "lateral at_knee at_rods in_ground"),
    Help.POST_AT_BOLTS: _keys("post", "row_tear_out shear_at_bolts foot_tear_out"),
    Help.POST_FOOT_UPLIFT: ("post.foot_uplift",),
    Help.POST_UPLIFT: ("post.uplift", "post.uplift_lateral"),
    Help.POST_BEARING: _keys("post", "end_bearing end_bearing_lateral cap_bearing_lateral"),
    Help.CAP_TOGETHER: ("post.cap_together",),
    Help.CAP_LATERAL: ("post.cap_lateral",),
    Help.CAP_ROTATION: ("post.cap_rotation",),
    Help.FOOTING: _keys("footing", "place soil soil_lateral"),
    Help.FROST: ("footing.frost",),
    Help.CONCRETE: _keys(
        "footing",
        "thickness projection concrete_bending concrete_shear concrete_punching concrete_bearing concrete_lateral",
    ),
    Help.EMBEDMENT: _keys("footing", "embedment embedment_one_arm uplift_lateral"),
    Help.BRACE: _keys(
        "brace",
        "incising place above_beam lateral buckling with_wind net_compression tension row_tear_out group_tear_out ends",
    ),
    Help.BRACE_DISTANCES: ("brace.distances",),
    Help.BRACE_ENDS: ("brace.end_on_post", "brace.end_on_beam"),
    Help.RODS: ("crossed_rods.tension", "crossed_rods.ends"),
    Help.SLOT: ("tree_bolt.slot",),
    Help.CLEARANCE: ("tree.clearance", "tree.clearance_years", "limb.clearance", "limb.way_up"),
    Help.YEARS: ("tree_bolt.contact_years", "tree_bolt.overgrown_years"),
    Help.RESTRAINT: ("tree.restraint", "platform.restrained_trunks"),
    Help.STAGE_ROTATION: ("beam.stage_rotation",),
    Help.STAGE_UPLIFT: ("beam.stage_uplift", "joist.stage_uplift"),
    Help.ROTATION: ("beam.rotation", "beam.rotation_joists"),
    Help.BEAM_FASTENING: ("beam.fastening_lateral",),
    Help.IN_PLANE: ("platform.in_plane",),
    Help.DRIFT: ("platform.drift", "platform.p_delta"),
    Help.LATERAL: (
        *("joist.uplift_lateral", "beam.uplift_lateral", "beam.together", "wall.weight"),
        *("crossed_rods.place", "crossed_rods.lateral"),
        *_keys("platform", "lateral place comparison as_built"),
        *_keys(
            "trunk_brace",
            "incising place buckling with_wind net_compression head_bearing head_bolts_beam head_bolts_brace "
            "row_tear_out foot_bolts foot_rated beam_tension tie uplift uplift_lateral clearance",
        ),
    ),
}
_BY_KEY = {key: help_ for help_, keys in HELPED.items() for key in keys}
if len(_BY_KEY) < sum(map(len, HELPED.values())):
    raise AssertionError("a limit state is helped in two ways")


def help_of(key: str) -> Help | None:
    """How a limit state is helped; None where no size in the file settles it."""
    return _BY_KEY.get(key)
