"""Guard post: a cantilever on two bolts through the rim, pushed outward at its top."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from bolewright.part_sheets.drawn import value
from bolewright.part_sheets.drawn_joints import guard_figure
from bolewright.part_sheets.inputs import Load, Off, PartError, SectionText, Small, TimberInputs, asked
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
from bolewright.part_sheets.timber_values import notes_of, timber_symbols
from bolewright.platform.project.fields import Measure, Strength
from bolewright.rendering.blocks import Figure
from bolewright.timber.adjustment import LoadDuration, load_duration_factor
from bolewright.units import CUBIC_INCH, INCH, NONE, POUND, POUND_INCH, PSI

Diameter = Annotated[float, Measure(INCH, least=0.25, most=1)]
Push = Annotated[float, Measure(POUND, least=200, most=2000)]
_DURATIONS = {
    "ten minutes": load_duration_factor(LoadDuration.TEN_MINUTES),
    "normal": load_duration_factor(LoadDuration.TEN_YEARS),
}


class GuardInputs(TimberInputs):
    """What the guard post sheet asks for."""

    section: SectionText = asked("Section", "4x4")
    """Of the post; the bolts run along its depth."""
    push: Push = asked("Push", "200 lb")
    """Concentrated load on the top, any direction: 200 lb at least (IRC Table R301.5)."""
    height: Small = asked("Height of the push", "36 in")
    """Above the deck."""
    upper: Off = asked("Upper bolt below deck", "2 in")
    """From the deck's surface to the upper bolt."""
    apart: Small = asked("Bolts apart", "5 in")
    """From the upper to the lower bolt."""
    diameter: Diameter = asked("Bolt diameter", "1/2 in")
    """Of both bolts."""
    washer: Small = asked("Washer", "3 in")
    """Diameter of the round washers on the post, or the side of square ones."""
    bolt_strength: Strength = asked("Bolt F_u", "60000 psi")
    """Tensile strength of the bolts."""
    tie: Load = asked("Tie at the upper bolt", "1800 lb")
    """Rated tension of the hardware that ties the upper bolt into the framing; 0 lb where there is none."""
    duration: Literal["ten minutes", "normal"] = asked("Duration", "ten minutes")
    """Ten minutes: C_D 1.6, usual for the load on a guard; normal: 1.0, as some officials ask."""


STEPS = (
    Step(
        "Forces",
        """\
M = guard_moment(P, h, a)  # at the upper bolt
T_2 = lower_bolt_force(M, s)  # moments about the upper bolt
T_1 = upper_bolt_force(T_2, P)  # upper bolt: the lateral forces add up to nothing""",
    ),
    Step(
        "Bending of the post at the bolt",
        """\
S = section_modulus(b, d)
S_n = net_modulus_along_holes(b, d, n, D_h)
f_b = bending_stress(M, S_n)
F_b_p = adjusted_bending(F_b, C_D, C_M_b, C_t, C_L, C_F_b, C_fu, C_i_b, C_r)
ratio_b = f_b / F_b_p""",
    ),
    Step(
        "Shear of the post",
        """\
f_v = shear_stress(T_2, b, d)
F_v_p = adjusted_shear(F_v, C_D, C_M_v, C_t, C_i_v)
ratio_v = f_v / F_v_p""",
    ),
    Step(
        "Washer and bolt",
        """\
f_c_perp = washer_bearing(T_1, D_w, D_h)
F_c_perp_p = adjusted_bearing(F_c_perp, C_M_perp, C_t, C_i_perp, C_b)
ratio_w = f_c_perp / F_c_perp_p
T_a = bolt_tension_strength(F_u, D_r)
ratio_t = T_1 / T_a""",
    ),
    Step("Tie of the upper bolt", "ratio_h = T_1 / Z_t", when="Z_t"),
)
LIMITS = (
    Limit(
        "ratio_b", "Bending of the post", "f_b", "F_b_p", "NDS 2018, 3.3", "a larger post, of a better grade"
    ),
    Limit("ratio_v", "Shear of the post", "f_v", "F_v_p", "NDS 2018, 3.4", "bolts farther apart"),
    Limit(
        "ratio_w", "Bearing under the washer", "f_c_perp", "F_c_perp_p", "NDS 2018, 3.10.2", "larger washers"
    ),
    Limit("ratio_t", "Tension of the bolt", "T_1", "T_a", "AISC 360-16, J3.6", "a thicker bolt"),
    Limit(
        "ratio_h",
        "Tie of the upper bolt",
        "T_1",
        "Z_t",
        "Rated load, as typed",
        "rated hardware that takes this pull",
    ),
)


def given(inputs: GuardInputs) -> Given:
    """Section, bolts and push."""
    section = inputs.section
    if section.plies > 1:
        raise PartError({"section": f"{section.name} is built up of plies: a guard post is one piece."})
    if inputs.washer <= inputs.diameter:
        raise PartError({"washer": f"A washer of {inputs.washer:g} in. does not cover the bolt's hole."})
    hole = inputs.diameter + 1 / 16
    symbols = (
        Symbol("P", inputs.push, POUND, "push at the top"),
        Symbol("h", inputs.height, INCH, "its height above the deck"),
        Symbol("a", inputs.upper, INCH, "upper bolt below the deck"),
        Symbol("s", inputs.apart, INCH, "between the bolts"),
        Symbol("b", section.b, INCH, f"breadth of {section.name}"),
        Symbol("d", section.d, INCH, "its depth, in the direction of the push"),
        Symbol("n", 1.0, NONE, "bolt holes in the section"),
        Symbol("D_h", hole, INCH, "bolt hole, 1/16 in. larger than the bolt (NDS 2018, 12.1.3.2)"),
        Symbol("D_w", inputs.washer, INCH, "washer"),
        Symbol("F_u", inputs.bolt_strength, PSI, "tensile strength of the bolt, as typed"),
        Symbol(
            "D_r",
            inputs.diameter,
            INCH,
            "its diameter; 0.75 of the area counts at the thread (AISC 360-16, J3.6)",
        ),
        *timber_symbols(inputs, "b v perp"),
        Symbol(
            "C_D",
            _DURATIONS[inputs.duration],
            NONE,
            f"load duration factor, {inputs.duration} (NDS 2018, Table 2.3.2)",
        ),
        Symbol("C_L", 1.0, NONE, "depth no more than breadth (NDS 2018, 3.3.3.1)"),
        Symbol("C_b", 1.0, NONE, "bearing area factor, none taken"),
        Symbol("Z_t", inputs.tie, POUND, "rated tension of the tie, as typed" if inputs.tie else ""),
    )
    notes = ["The load duration factor of a guard is the official's to say; codes name none."]
    if inputs.height < 36:
        notes.append(
            "A guard is at least 36 in. high in a dwelling, 42 in. elsewhere (IRC R312.1, IBC 1015.3)."
        )
    return Given(symbols, (), (*notes_of(inputs), *notes))


def figures(inputs: GuardInputs, given: Given, values: Mapping[str, Any], blank: bool) -> tuple[Figure, ...]:
    """The post with its forces."""
    T_1 = inputs.push * (inputs.height + inputs.upper + inputs.apart) / inputs.apart
    return (
        guard_figure(
            height=inputs.height,
            upper=inputs.upper,
            apart=inputs.apart,
            push=value(inputs.push, POUND),
            upper_force=value(T_1, POUND, blank),
            lower_force=value(T_1 - inputs.push, POUND, blank),
        ),
    )


GUARD = Kind(
    name="guard-post",
    title="Guard post",
    about=(
        "A post of a guard that two bolts hold to the rim, pushed at its top: bending where the bolt's hole is, shear, "
        "the washer, the bolt, and the pull that has to be tied into the framing."
    ),
    model=GuardInputs,
    given=given,
    steps=STEPS,
    limits=LIMITS,
    figures=figures,
    example=Example(
        source=(
            "Structural calculations of a residential deck in a city's public permit archive (Everett, Washington, 5 "
            "December 2019), guard: 200 lb 36 in. above the deck, a 4x4 of cedar, two 3/8 in. bolts 5.75 in. "
            "apart"
        ),
        inputs={
            "species": "Western Cedars",
            "upper": "0 in",
            "apart": "5 3/4 in",
            "diameter": "3/8 in",
        },
        values=(
            Published("M", 7200.0, 0.5, POUND_INCH, "The moment of the post"),
            Published("T_2", 1252.0, 0.5, POUND, "The moment over the distance of the bolts"),
            Published("S", 7.146, 0.0005, CUBIC_INCH, "The section modulus"),
        ),
        but=(
            "The publication takes the moment at the deck's surface (0 in. to the upper bolt here) and this one force "
            "for both bolts; by moments about the lower bolt the upper one also takes the push: T_1 here. Grade, "
            "washers and tie are ours."
        ),
    ),
    not_checked=(
        "the rim and the joists that the pull goes into, and the rim turning over (the load path)",
        "the rail and its joint to the post, the infill (50 lb on a square foot), and posts at a corner",
        "a test of the whole connection, which officials often ask for",
        "end and edge distances, and decay at the deck",
        LATERAL_SYSTEM,
        TREE,
    ),
)
