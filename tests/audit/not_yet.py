"""Kinds of limit state that nobody has audited yet. Lines only come out: what is audited or not met must go."""

from __future__ import annotations

NOT_YET: frozenset[str] = frozenset(
    {
        "beam.stage_slenderness",
        "blocking.bending",
        "blocking.bending_through",
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
        "joist.stage_slenderness",
        "platform.drift",
        "platform.in_plane",
        "platform.p_delta",
        "platform.place",
        "platform.restrained_trunks",
        "platform.seismic",
        "post.one_arm",
        "tree_bolt.hole_edge",
    }
)
# Answered in words, without a demand and a capacity to audit: what is asked of the user.
IN_WORDS: frozenset[str] = frozenset(
    {
        "platform.board_ends",
        "platform.guard",
        "platform.lateral",
        "post.lateral",
        "tree.condition",
        "tree.sway",
    }
)
