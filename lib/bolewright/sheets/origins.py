"""Where a value comes from that a sheet uses but does not work out: another sheet, the inputs, the load path."""

from __future__ import annotations

MOVED = "sheet Lateral stability, movement of the deck"
SPRINGS = "sheet Lateral stability, stiffness of the supports"
ADDED = "sheet Lateral stability, what lateral force adds"
LOAD_PATH = "from the load path, sheet Load path and reactions"
INPUTS = "inputs of this sheet"
HELD = "the post stands fixed 12 in. below grade, by judgement"
KNEES = "sheet Lateral stability, weight on the knee braces"

_VALUES = ("F_b", "F_v", "F_c", "F_c_perp", "F_t", "E", "E_min")
_BY_SYMBOL: dict[str, str] = {
    "u_x": MOVED,
    "u_y": MOVED,
    "theta": "",
    "R_o": ADDED,
    "R_k": ADDED,
    "l_u": "widest gap between what holds that edge, from the plan",
}
_BY_FORMULA: dict[tuple[str, str], str] = {
    ("line_load", "q"): "weight on the deck in this combination, sheet Basis of design",
    ("support_movement", "theta"): MOVED,
    ("support_movement", "x"): SPRINGS,
    ("support_movement", "y"): SPRINGS,
    ("support_movement", "c"): SPRINGS,
    ("support_movement", "s"): SPRINGS,
    ("seat_movement", "y"): ADDED,
    ("support_lateral_force", "k"): SPRINGS,
    ("load_with_sway", "R"): "sheet Lateral stability, weight on supports and seats",
    ("bearing_stress", "R"): LOAD_PATH,
    ("shear_stress", "V"): LOAD_PATH,
    ("compression_stress", "P"): LOAD_PATH,
    ("soil_pressure_gross", "P"): LOAD_PATH,
    ("bolt_moment_at", "P"): LOAD_PATH,
    ("eccentric_moment", "R"): LOAD_PATH,
    ("rotation_resistance", "R"): LOAD_PATH,
    ("joist_edge_force", "R"): LOAD_PATH,
    ("ply_point_transfer", "P"): LOAD_PATH,
    ("second_order_ratio", "P"): LOAD_PATH,
    ("knee_lateral_force_held", "rho"): SPRINGS,
    ("post_moment_at_grade", "rho"): SPRINGS,
    ("post_moment_at_knee_held", "rho"): SPRINGS,
    ("cantilever_stiffness", "l"): HELD,
    ("knee_force_ratio", "l"): HELD,
    ("rod_share", "l"): HELD,
    ("spring_of", "delta"): f"{SPRINGS}, deflection at the knees",
    ("eccentric_compression", "e_1"): INPUTS,
    ("velocity_pressure", "K_zt"): INPUTS,
    ("deflection_in_service", "delta_E"): LOAD_PATH,
    ("factored_load", "D"): LOAD_PATH,
    ("factored_load", "L"): LOAD_PATH,
    ("factored_load", "S"): LOAD_PATH,
    ("factored_load_lateral", "D"): LOAD_PATH,
    ("factored_load_lateral", "L"): LOAD_PATH,
    ("factored_load_lateral", "S"): LOAD_PATH,
    ("end_bearing_stress", "P"): LOAD_PATH,
    ("brace_force_from_weight", "delta_v"): KNEES,
    ("brace_force_from_weight", "k_v"): KNEES,
    ("brace_force_from_weight", "k_p"): KNEES,
    ("brace_force_from_weight", "k_b"): KNEES,
    ("seat_lateral_force", "H_x"): MOVED,
    ("seat_force_along", "H_x"): MOVED,
    ("force_across_deck", "F_x"): MOVED,
    ("force_across_deck", "F_y"): MOVED,
    ("moment_about_middle", "M_z"): MOVED,
    ("force_across_beam", "V_1"): ADDED,
    ("force_across_beam", "V_2"): ADDED,
    ("force_at_end", "V"): ADDED,
    ("force_at_end_with_push", "T"): ADDED,
    ("share_along_beam", "H"): ADDED,
    ("support_force_before_cut", "V_1"): ADDED,
    ("support_force_before_cut", "V_2"): ADDED,
}


def origin(formula: str, symbol: str) -> str:
    """Where the value of a formula's symbol comes from; empty where its meaning says enough.

    >>> origin("support_movement", "u_x")
    'sheet Lateral stability, movement of the deck'
    """
    if (formula, symbol) in _BY_FORMULA:
        return _BY_FORMULA[formula, symbol]
    if symbol in _VALUES and (formula.startswith(("adjusted_", "deflection_in")) or "stability" in formula):
        return INPUTS
    return _BY_SYMBOL.get(symbol, "")
