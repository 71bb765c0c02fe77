"""Kinds of limit state that nobody has audited yet. Lines only come out: what is audited or not met must go."""

from __future__ import annotations

NOT_YET: frozenset[str] = frozenset(
    {
        "beam.bearing_lateral",
        "beam.bending_lateral",
        "beam.fastening_lateral",
        "beam.plies",
        "beam.rotation",
        "beam.rotation_hanger",
        "beam.rotation_joists",
        "beam.shear_lateral",
        "beam.stage_bending",
        "beam.stage_rotation",
        "beam.torsion",
        "blocking.bending",
        "blocking.fastening",
        "blocking.fastening_lateral",
        "blocking.live_deflection",
        "blocking.negative_bending",
        "blocking.shear",
        "blocking.slenderness",
        "blocking.total_deflection",
        "brace.above_beam",
        "brace.distances",
        "brace.place",
        "footing.embedment_one_arm",
        "joist.edge_load",
        "joist.stage_bending",
        "platform.drift",
        "platform.in_plane",
        "platform.p_delta",
        "platform.place",
        "platform.restrained_trunks",
        "platform.seismic",
        "post.one_arm",
        "tree.clearance",
        "tree.clearance_years",
        "tree.restraint",
        "tree.trunk",
        "tree.trunk_torsion",
        "tree.trunk_wind",
        "tree_bolt.hole_edge",
        "tree_bolt.hole_line",
        "tree_bolt.hole_spacing",
        "tree_bolt.slot",
    }
)
# Answered in words, without a demand and a capacity to audit: what is asked of the user.
IN_WORDS: frozenset[str] = frozenset(
    {
        "platform.guard",
        "platform.lateral",
        "post.lateral",
        "tree.condition",
        "tree.sway",
    }
)
