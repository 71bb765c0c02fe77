"""Notch at the end of a beam: limits of its size, and the shear left."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from bolewright.part_sheets.drawn import value
from bolewright.part_sheets.drawn_joints import notch_figure
from bolewright.part_sheets.inputs import Load, Off, PartError, Small, TimberInputs, asked
from bolewright.part_sheets.kind import (
    LATERAL_SYSTEM,
    TREE,
    Example,
    Given,
    Kind,
    Limit,
    Published,
    Step,
    Symbol,
)
from bolewright.part_sheets.timber_values import DURATIONS, notes_of, section_symbols, timber_symbols
from bolewright.rendering.blocks import Figure
from bolewright.timber.shear import notch_faults
from bolewright.units import INCH, NONE, POUND, PSI


class NotchInputs(TimberInputs):
    """What the notch sheet asks for."""

    edge: Literal["tension", "compression"] = asked("Edge", "tension")
    """Tension: the lower edge at the end of a simple beam; compression: its upper edge."""
    depth: Small = asked("Depth of notch", "1 in")
    """How much of the depth is cut away, at the end of the beam."""
    reach: Off = asked("Reach", "0 in")
    """From the inner edge of the support to the end of a notch in the compression edge; 0 over the support."""
    shear: Load = asked("Shear", "500 lb")
    """At the notch: the reaction, nothing left out."""
    duration: Literal["permanent", "floor live", "snow", "construction", "wind"] = asked(
        "Duration", "floor live"
    )
    """What the load is, for the load duration factor."""


STEPS = (
    Step("Depth left", "d_n = d - h\nF_v_p = adjusted_shear(F_v, C_D, C_M_v, C_t, C_i_v)"),
    Step("Notch in the tension edge", "V_r = notched_shear_tension(F_v_p, b, d, d_n)", when="tension"),
    Step(
        "Notch in the compression edge",
        "V_r = notched_shear_compression(F_v_p, b, d, d_n, e)",
        when="compression",
    ),
    Step("Shear and size", "ratio_V = V / V_r\nh_max = end_notch_limit(d)  # 4.4.3.1\nratio_h = h / h_max"),
)
_LESS = "a shallower notch, or a deeper section"
LIMITS = (
    Limit("ratio_V", "Shear at the notch", "V", "V_r", "NDS 2018, 3.4.3.2", _LESS),
    Limit("ratio_h", "Depth of the notch", "h", "h_max", "NDS 2018, 4.4.3", _LESS),
)


def given(inputs: NotchInputs) -> Given:
    """Section, notch and load."""
    section = inputs.section
    if not inputs.shear:
        raise PartError({"shear": "No shear is typed: give one above zero."})
    if inputs.depth >= section.d:
        raise PartError({"depth": f"A notch {inputs.depth:g} in. deep leaves nothing of {section.d:g} in."})
    tension = inputs.edge == "tension"
    d_n = section.d - inputs.depth
    if not tension and inputs.reach > d_n:
        raise PartError(
            {"reach": f"The notch reaches past the depth left, {d_n:g} in.: NDS 3.4.3.2(e) has no value."}
        )
    faults = notch_faults(
        depth_of_notch=inputs.depth, d=section.d, b=section.ply_thickness, at_end=True, tension_side=tension
    )
    symbols = (
        *section_symbols(section)[:2],
        *timber_symbols(inputs, "v"),
        Symbol("C_D", DURATIONS[inputs.duration], NONE, "load duration factor (NDS 2018, Table 2.3.2)"),
        Symbol("h", inputs.depth, INCH, "depth of the notch"),
        Symbol("e", inputs.reach, INCH, "" if tension else "reach of the notch past the support"),
        Symbol("V", inputs.shear, POUND, "shear at the notch"),
        Symbol("tension", float(tension), NONE),
        Symbol("compression", float(not tension), NONE),
    )
    return Given(symbols, (), (*notes_of(inputs), *faults))


def figures(inputs: NotchInputs, given: Given, values: Mapping[str, Any], blank: bool) -> tuple[Figure, ...]:
    """The end of the beam with its reaction."""
    return (
        notch_figure(
            depth=inputs.section.d,
            notch=inputs.depth,
            lower=inputs.edge == "tension",
            reaction=value(inputs.shear, POUND),
        ),
    )


NOTCH = Kind(
    name="notch",
    title="Notch at the end of a beam",
    about=(
        "A notch cut into the lower or upper edge at the end of a rectangular beam of sawn timber: how deep it may be, "
        "and the shear that is left. A notch in the tension edge splits a beam; avoid it."
    ),
    model=NotchInputs,
    given=given,
    steps=STEPS,
    limits=LIMITS,
    figures=figures,
    example=Example(
        source=("NDS Supplement 2018, Table 4B: Southern Pine, shear value F_v 175 psi, dry, C_D 1"),
        inputs={"service": "dry"},
        values=(
            Published("F_v_p", 175.0, 0.5, PSI, "F'_v"),
            Published(
                "V_r",
                1148.0,
                0.5,
                POUND,
                "V_r of a 2x10 with 1 in. cut off its lower edge (NDS 2018, 3.4.3.2(a))",
                "2 / 3 x 175 x 1.5 x 8.25 x (8.25 / 9.25)²",
            ),
            Published("h_max", 2.312, 0.0006, INCH, "The deepest notch (NDS 2018, 4.4.3)", "9.25 / 4"),
        ),
        lone=(
            "No public worked example of a notch was found, so the first value is held against a published one, and "
            "the others are worked by hand."
        ),
    ),
    not_checked=(
        "notches in the span: none in the middle third, at most d/6 elsewhere (NDS 4.4.3)",
        "bending and deflection of the beam, bearing on the support",
        "round members, and a tapered notch, which is better",
        "where the load comes from and goes to (the load path)",
        "the joint at the support, and what holds the beam there",
        LATERAL_SYSTEM,
        TREE,
    ),
)
