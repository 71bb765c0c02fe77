"""Which limit state is audited by what, and what each takes as given.

==================  ==========================================================================================
demand from         what that means
==================  ==========================================================================================
file                demand and capacity from the project file alone
load path           reactions, moments, shears and deflections of each load by the load path (held to statics by
                    :mod:`outside`, from the drawing alone); sums, factors, stresses and capacity are the auditor's
printed forces      forces that the lateral model puts on the part are read off the sheet's steps (weight with
                    sway, lateral forces, moments of a post, forces of braces); the rest is the auditor's
==================  ==========================================================================================

Given everywhere: areas of contact and lengths that want the drawing in three dimensions (``bearing_stress``,
``overhang_moment``), and the factor by which the second model's force is greater (``demand_by_frame``).
"""

from __future__ import annotations

from audit import (
    blocking,
    boards,
    bolts,
    braces,
    edges,
    footings,
    gates,
    guards,
    hangers,
    ladders,
    lateral,
    limbs,
    members,
    on_deck,
    places,
    posts,
    rods,
    stairs,
    swayed,
    through_ends,
    ties,
    trees,
    trunk_braces,
    whole,
)

ROOMS = (
    *(boards, members, hangers, edges, bolts, posts, footings, braces, ties, lateral, through_ends, trees),
    *(trunk_braces, blocking, guards, gates, stairs, ladders, limbs, on_deck, places, rods, whole, swayed),
)
AUDIT = {key: audit for room in ROOMS for key, audit in room.AUDIT.items()}
FILE, PATH, PRINTED = "file", "load path", "printed forces"
_FROM_FILE = {
    "tree_bolt.hole",
    "tree_bolt.tips",
    "tree_bolt.contact_years",
    "tree_bolt.overgrown_years",
    "post.slenderness",
    "post.stage_alone",
    "footing.frost",
    "footing.thickness",
    "footing.projection",
    "joist.slenderness",
    "beam.slenderness",
    "joist.least_bearing",
    "beam.least_bearing",
}


def demand_from(key: str) -> str:
    """What the demand of a limit state is made from."""
    if key.startswith("guard.framing_") and key.endswith("_lateral"):
        return PRINTED
    if (
        key in _FROM_FILE
        or key.startswith(
            ("decking.", "guard.", "gate.", "stairs.", "ladder.", "hatch.", "trunk_opening.", "limb.")
        )
        or key.endswith((".place", ".above_beam"))
    ):
        return FILE
    lateral = (
        "lateral", "biaxial", "withdrawal", "thread", "together", "at_knee", "in_ground", "net_", "post.shear",
        "cap_", "foot_", "footing.embedment", "brace.", "at_bolts", "tear_out", "rotation", "trunk", "drift",
        "p_delta", "in_plane", "restraint", "trunk_brace.", "one_arm", "bending_through", "seismic", "rods",
    )  # fmt: skip
    return PRINTED if any(word in key for word in lateral) else PATH
