"""Every public formula is reached from a project file, ``spans`` or a sheet, or stands here with the reason."""

from __future__ import annotations

import importlib
import pkgutil

import bolewright
from bolewright.formulas import REGISTRY
from bolewright.rendering.reach import Reach

# Reason: the formulas of a module that no check, sheet or command runs. A formula that gets one leaves the list.
SINGLE = "for a single part or a question that no sheet of a part asks yet"
OWN = "for a calculation of one's own: the file does not hold what it asks for"
GUIDE = (
    "screening of a hollow trunk is the arborist's: the sheets name it, and the formulas stand for a notebook"
)
SENSITIVITY = "a sensitivity or a companion of a value that the sheets print; the governing one is run"
PROPERTIES = "section properties for a calculation of one's own; members take theirs from the size"
PARTS = "the single lines of a formula that is run as a whole"

LISTED: dict[str, dict[str, str]] = {
    "bracing.standing": {
        OWN: "overturning_moment pair_axial_force",
    },
    "fasteners.combined": {
        SINGLE: "combined_screw_value combined_nail_value combined_nail_ratio",
    },
    "fasteners.connectors": {
        OWN: "bending_yield_strength",
    },
    "fasteners.geometry": {
        SINGLE: "geometry_factor_shear_area",
    },
    "fasteners.plies": {
        SINGLE: "load_per_inch ply_plane_transfer ply_fastener_spacing",
    },
    "ground.factored_load": {
        PARTS: "factored_load_dead factored_load_live factored_load_snow",
    },
    "ground.pier": {
        SINGLE: "pier_axial_strength pier_axial_and_bending pier_tension_ratio pedestal_height_limit",
    },
    "ground.soil": {
        SINGLE: "square_footing_side round_footing_diameter",
        OWN: "soil_pressure_net soil_pressure_eccentric soil_pressure_partial "
        "sliding_resistance_friction sliding_resistance_cohesion",
    },
    "ground.uplift": {
        OWN: "soil_on_base uplift_resistance_cone shaft_friction uplift_resistance_friction "
        "frost_heave_force",
    },
    "mechanics.section": {
        PROPERTIES: "multi_ply_breadth rectangle_area rectangle_section_modulus rectangle_second_moment "
        "rectangle_plastic_modulus rectangle_radius_of_gyration circle_area "
        "circle_section_modulus circle_second_moment circle_plastic_modulus "
        "hollow_circle_area hollow_circle_second_moment hollow_circle_section_modulus",
    },
    "timber.adjusted_values": {
        OWN: "bearing_at_small_deformation",
    },
    "timber.columns": {
        SINGLE: "equivalent_square",
    },
    "timber.combined": {
        SINGLE: "bending_less_tension flatwise_stability bracket_side_load",
    },
    "timber.shear": {
        SINGLE: "load_near_support notched_shear_circular",
    },
    "tree.bolt": {
        PARTS: "tree_bolt_governing_load",
    },
    "tree.collar": {
        SINGLE: "collar_bearing_stress bracket_bearing_strength",
    },
    "tree.green_wood": {
        SENSITIVITY: "oven_dry_specific_gravity oven_dry_specific_gravity_estimated bearing_size_sensitivity",
    },
    "tree.growth": {
        OWN: "radial_growth lever_arm_after_growth",
    },
    "tree.seating": {
        OWN: "post_hole_distance edge_distance",
    },
    "tree.steel": {
        SENSITIVITY: "bolt_moment_plastic bolt_bending_and_shear bolt_moment_in_yielding_wood",
    },
    "tree.trunk": {
        GUIDE: "hollow_strength_ratio shell_ratio shell_thickness_wanted strength_loss_wagener "
        "strength_loss_coder strength_loss_open_cavity",
    },
    "tree.sway": {
        OWN: "slide_between_trees",
    },
}


def _public() -> set[tuple[str, str]]:
    for module in pkgutil.walk_packages(bolewright.__path__, "bolewright."):
        importlib.import_module(module.name)
    found = {(formula.body.__module__, formula.name) for formula in REGISTRY.values()}
    # A reader's own formula, of a notebook that another test runs, is registered beside ours.
    return {(module, name) for module, name in found if module.split(".")[0] == "bolewright"}


def test_every_formula_is_reached_or_listed_with_the_reason() -> None:
    reach = Reach()
    unreached = {
        (module.removeprefix("bolewright."), name)
        for module, name in _public()
        if not reach.doors(module, name)
    }
    listed = {
        (module, name)
        for module, reasons in LISTED.items()
        for names in reasons.values()
        for name in names.split()
    }
    assert unreached - listed == set(), "wire these, delete them, or list them with the reason"
    assert listed - unreached == set(), "these are reached now: take them off the list"
