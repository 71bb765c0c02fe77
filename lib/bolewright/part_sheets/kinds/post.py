"""Post: solid or built up, under axial load, off center or not, with a side load at mid-height."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from bolewright.part_sheets.drawn import column_figure, value
from bolewright.part_sheets.inputs import Load, Long, Off, PartError, SectionText, TimberInputs, asked
from bolewright.part_sheets.kind import TREE, Example, Given, Kind, Limit, Published, Step, Symbol
from bolewright.part_sheets.timber_values import (
    DURATIONS,
    duration_words,
    governing_duration,
    notes_of,
    own_stress,
    section_symbols,
    timber_symbols,
)
from bolewright.rendering.blocks import Figure
from bolewright.timber import BendingCase, PlyFastening, effective_length_coefficients
from bolewright.timber.built_up_columns import built_up_coefficient, lamination_faults
from bolewright.timber.columns import COLUMN_C
from bolewright.units import INCH, NONE, POUND, PSI


class PostInputs(TimberInputs):
    """What the post sheet asks for."""

    section: SectionText = asked("Section", "6x6")
    """Nominal size, plies in front: 6x6, 4x6, 3-2x6."""
    fastening: Literal["nailed", "bolted"] = asked("Plies joined", "nailed")
    """How the plies of a built-up post are joined, by NDS 15.3.3 or 15.3.4."""
    height: Long = asked("Height", "8 ft")
    """Free height, for buckling in the plane of the section's depth."""
    braced_height: Long = asked("Height, weak way", "8 ft")
    """Free height for buckling the other way; the same where nothing holds it."""
    dead: Load = asked("Dead load", "600 lb")
    """Dead load on the post, its own weight included."""
    live: Load = asked("Live load", "2400 lb")
    """Live or snow load on it."""
    duration: Literal["floor live", "snow", "construction", "wind"] = asked("Duration", "floor live")
    """What the live load is, for the load duration factor."""
    off_center: Off = asked("Load off center", "1/2 in")
    """How far the load stands off the axis, in the plane of the depth; one sixth of the depth is a usual allowance."""
    side_load: Load = asked("Side load", "0 lb")
    """Lateral load at mid-height in the plane of the depth; it always acts, and counts with the duration above."""
    own_F_c: str = asked("Own F_c", "")
    """A compression value of your own, such as 1650 psi, size factor included; the NDS table where left empty."""
    own_E_min: str = asked("Own E_min", "")
    """A minimum modulus of your own, such as 550000 psi; the NDS table where left empty."""


STEPS = (
    Step(
        "Buckling",
        """\
f_c = compression_stress(P, A)
F_c_star = compression_before_stability(F_c, C_D, C_M_c, C_t, C_F_c, C_i_c)
E_min_p = adjusted_minimum_modulus(E_min, C_M_E, C_t, C_i_E, C_fu_E)
l_e1 = effective_column_length(K_e, l_1)
l_e2 = effective_column_length(K_e, l_2)
lam_1 = column_slenderness(l_e1, d_1)
lam_2 = column_slenderness(l_e2, d_2)
ratio_s = max(lam_1, lam_2) / 50  # 3.7.1.4
F_cE1 = critical_buckling_compression(E_min_p, l_e1, d_1)
F_cE2 = critical_buckling_compression(E_min_p, l_e2, d_2)""",
    ),
    Step(
        "Column stability, solid post",
        """\
F_cE = min(F_cE1, F_cE2)
C_P = column_stability_factor(F_cE, F_c_star, c)""",
        when="solid",
    ),
    Step(
        "Column stability, built-up post",
        """\
C_P1 = built_up_stability_factor(F_cE1, F_c_star, c, K_f1)
C_P2 = built_up_stability_factor(F_cE2, F_c_star, c, K_f2)
C_P = min(C_P1, C_P2)""",
        when="built_up",
    ),
    Step(
        "Compression",
        """\
F_c_p = adjusted_compression(F_c, C_D, C_M_c, C_t, C_F_c, C_i_c, C_P)
ratio_c = f_c / F_c_p
ratio_g = f_c / F_c_star""",
    ),
    Step(
        "Bending value",
        """\
l_e = effective_length(l_1, d_1, k_l, k_d)
R_B = slenderness_ratio(l_e, d_1, b_1)
F_bE = critical_buckling_bending(E_min_p, R_B)
F_b_star = bending_before_stability(F_b, C_D, C_M_b, C_t, C_F_b, C_i_b, C_r)
C_L = beam_stability_factor(F_bE, F_b_star)
F_b_p = adjusted_bending(F_b, C_D, C_M_b, C_t, C_L, C_F_b, C_fu, C_i_b, C_r)""",
    ),
    Step(
        "Side load",
        """\
M = point_load_moment(P_s, l_1)
f_b1 = bending_stress(M, S)
V = point_load_shear(P_s)
f_v = shear_stress(V, b, d_1)
F_v_p = adjusted_shear(F_v, C_D, C_M_v, C_t, C_i_v)
ratio_v = f_v / F_v_p""",
        when="P_s",
    ),
    Step(
        "Axial load with bending",
        """\
ratio_e = eccentric_compression(f_c, F_c_p, F_cE1, F_cE2, f_b1, F_b_p, f_b2, F_b_p, F_bE, e_1, d_1, e_2, d_2)
ratio_f = eccentric_flatwise_stability(f_c, F_cE2, f_b1, F_bE, e_1, d_1)""",
    ),
)
_STOUTER = "a larger section, more plies, or a brace that shortens the free height"
LIMITS = (
    Limit("ratio_c", "Buckling", "f_c", "F_c_p", "NDS 2018, 3.7", _STOUTER),
    Limit("ratio_g", "Bearing of the end grain", "f_c", "F_c_star", "NDS 2018, 3.10.1", "a larger section"),
    Limit("ratio_s", "Slenderness", "", "", "NDS 2018, 3.7.1.4", _STOUTER),
    Limit("ratio_e", "Axial load with bending", "", "", "NDS 2018, 15.4.1", _STOUTER),
    Limit("ratio_f", "Flatwise buckling with bending", "", "", "NDS 2018, 15.4.1", _STOUTER),
    Limit("ratio_v", "Shear", "f_v", "F_v_p", "NDS 2018, 3.4", _STOUTER, "P_s"),
)


def given(inputs: PostInputs) -> Given:
    """The load that governs, and the values it is held against."""
    section = inputs.section
    if not inputs.dead + inputs.live:
        raise PartError({"live": "No load is typed: give a dead or a live load above zero."})
    built_up = section.plies > 1
    if built_up and (faults := lamination_faults(plies=section.plies, thickness=section.ply_thickness)):
        raise PartError({"section": " ".join(fault[:1].upper() + fault[1:] for fault in faults)})
    if inputs.off_center > section.d / 2:
        raise PartError(
            {"off_center": f"{inputs.off_center:g} in. is outside the section, {section.d:g} in. deep."}
        )
    P, C_D = governing_duration(inputs.dead, inputs.live, DURATIONS[inputs.duration], side=inputs.side_load)
    k_l, k_d = effective_length_coefficients(BendingCase.OTHER, inputs.height, section.d)
    fastening = PlyFastening(inputs.fastening)
    symbols = (
        *(s for s in section_symbols(section) if s.name != "d"),
        *_own(inputs),
        Symbol("P", P, POUND, "axial load"),
        Symbol("C_D", C_D, NONE, duration_words(C_D, inputs.duration)),
        Symbol("c", COLUMN_C["sawn"], NONE, "sawn timber (NDS 2018, 3.7.1.5)"),
        Symbol("K_e", 1.0, NONE, "buckling length coefficient, both ends pinned (NDS 2018, Table G1)"),
        Symbol("l_1", inputs.height, INCH, "free height in the plane of the depth"),
        Symbol("l_2", inputs.braced_height, INCH, "free height the other way"),
        Symbol("d_1", section.d, INCH, "depth, dimension in the plane of bending"),
        Symbol("d_2", section.b, INCH, "dimension the other way, all plies"),
        Symbol("k_l", k_l, NONE, "coefficient of NDS 2018, Table 3.3.3, footnote 1"),
        Symbol("k_d", k_d, NONE, "coefficient of NDS 2018, Table 3.3.3, footnote 1"),
        Symbol("e_1", inputs.off_center, INCH, "load off center, in the plane of the depth"),
        Symbol("e_2", 0.0, INCH, "load off center the other way"),
        Symbol("P_s", inputs.side_load, POUND, "side load at mid-height"),
        *(() if inputs.side_load else (Symbol("f_b1", 0.0, PSI, "no side load"),)),
        Symbol("f_b2", 0.0, PSI, "no bending the other way"),
        Symbol("solid", float(not built_up), NONE),
        Symbol("built_up", float(built_up), NONE),
        *(
            (
                Symbol("K_f1", 1.0, NONE, "in the plane of the plies' depth (NDS 2018, 15.3.2.2)"),
                Symbol(
                    "K_f2",
                    built_up_coefficient(fastening, across_plies=True),
                    NONE,
                    f"across the plies, {inputs.fastening}",
                ),
            )
            if built_up
            else ()
        ),
    )
    return Given(symbols, (), notes_of(inputs))


def _own(inputs: PostInputs) -> tuple[Symbol, ...]:
    """Values of the table, or the user's own in their place."""
    symbols = {s.name: s for s in timber_symbols(inputs, "b v c E")}
    for name, text in (("F_c", inputs.own_F_c), ("E_min", inputs.own_E_min)):
        if text.strip():
            symbols[name] = Symbol(name, own_stress(f"own_{name}", text), PSI, "the user's own value")
            if name == "F_c":
                symbols["C_F_c"] = Symbol("C_F_c", 1.0, NONE, "size factor, in the user's own value")
    return tuple(symbols.values())


def figures(inputs: PostInputs, given: Given, values: Mapping[str, Any], blank: bool) -> tuple[Figure, ...]:
    """The post with its forces."""
    return (
        column_figure(
            height=inputs.height,
            load=value(given["P"], POUND),
            off=value(inputs.off_center, INCH) if inputs.off_center else "",
            side=value(inputs.side_load, POUND) if inputs.side_load else "",
        ),
    )


POST = Kind(
    name="post",
    title="Post",
    about=(
        "A post of one piece or of plies joined side by side, pinned at both ends: buckling both ways, the end grain, "
        "and axial load together with bending by a load off center or a side load."
    ),
    model=PostInputs,
    given=given,
    steps=STEPS,
    limits=LIMITS,
    figures=figures,
    example=Example(
        source=(
            "Mechanics of Materials, 7th edition (a textbook), Problem 11.9-31: wood column 3.5 in. by 7.25 in., 8 ft, "
            "F_c 1,000 psi, E 1,300,000 psi with K_cE 0.3 (here E_min 474,453 psi: 0.822 E_min is K_cE E); it may "
            "carry 11.3 kips, which are typed here"
        ),
        inputs={
            "section": "4x8",
            "species": "Douglas Fir-Larch",
            "service": "dry",
            "height": "8 ft",
            "braced_height": "8 ft",
            "dead": "1300 lb",
            "live": "10000 lb",
            "off_center": "0 in",
            "own_F_c": "1000 psi",
            "own_E_min": "474453 psi",
        },
        values=(Published("C_P", 0.4464, 0.00005, says="C_P"),),
    ),
    not_checked=(
        "where the load comes from, and the footing or bolt that takes it on (the load path)",
        "lateral loads on the structure, and that both ends are held against moving laterally",
        "the cap and the base, and uplift",
        "notches, holes, and the fasteners between plies",
        "a load off center across the plies or the weak way",
        TREE,
    ),
)
