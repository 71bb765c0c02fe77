"""Footing: soil, plain concrete, uplift, and a post embedded in the ground."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Annotated, Any, Literal

from bolewright.ground import equal_area_square, pad_limit_states, turning_depth
from bolewright.ground.footing import effective_thickness, square_in_round
from bolewright.part_sheets.drawn import embedded_post_figure, footing_figure, value
from bolewright.part_sheets.inputs import Inputs, Load, PartError, Reach, Small, asked
from bolewright.part_sheets.kind import Example, Given, Kind, Limit, Published, Step, Symbol
from bolewright.platform.project.fields import Measure
from bolewright.rendering.blocks import Figure
from bolewright.units import FOOT, INCH, NONE, PCF, POUND, PSF, PSF_PER_FOOT, PSI, SQUARE_FOOT, SQUARE_INCH

CONCRETE = 145.0  # pcf, plain concrete
LEAST_PAD = 8.0  # in, ACI 318-19, 14.3.2.1
Bearing = Annotated[float, Measure(PSF, positive=True, most=30_000)]
Lateral = Annotated[float, Measure(PSF_PER_FOOT, least=0, most=2000)]
Strength = Annotated[float, Measure(PSI, least=2500, most=8000)]
Density = Annotated[float, Measure(PCF, least=60, most=140)]


class FootingInputs(Inputs):
    """What the footing sheet asks for."""

    shape: Literal["square", "round"] = asked("Shape", "square")
    """In plan."""
    width: Small = asked("Width", "20 in")
    """Side of a square footing, diameter of a round one."""
    thickness: Small = asked("Thickness", "8 in")
    """Of plain concrete, cast on soil."""
    post_width: Small = asked("Post width", "5 1/2 in")
    """Side of the square post or plate on it."""
    dead: Load = asked("Dead load", "600 lb")
    """Service dead load on the footing, its own weight left out."""
    live: Load = asked("Live load", "2400 lb")
    """Service live load."""
    snow: Load = asked("Snow load", "0 lb")
    """Service snow load."""
    soil: Bearing = asked("Soil", "1500 psf")
    """Allowable bearing pressure: presumptive values in IBC Table 1806.2."""
    concrete: Strength = asked("Concrete", "2500 psi")
    """Compressive strength."""
    uplift: Load = asked("Uplift", "0 lb")
    """Net uplift at the footing, 0.6 of the dead load above it taken off."""
    cover: Reach = asked("Soil above", "16 in")
    """Height of compacted soil on the footing round the post: it presses on the ground and helps against uplift."""
    soil_weight: Density = asked("Weight of soil", "100 pcf")
    """Of the soil above."""
    lateral: Load = asked("Lateral force", "0 lb")
    """On a post embedded in the ground, nothing holding it at grade; 0 lb leaves the embedment out."""
    lateral_height: Reach = asked("Height of the force", "8 ft")
    """Above grade."""
    embedded_width: Small = asked("Embedded width", "12 in")
    """Diameter of the concrete round the embedded post, or the diagonal of a square one."""
    embedment: Reach = asked("Embedment", "4 ft")
    """Depth of the embedded post below grade."""
    lateral_soil: Lateral = asked("Lateral bearing", "150 psf/ft")
    """Allowable lateral bearing per foot of depth, IBC Table 1806.2."""
    doubled: Literal["1", "2"] = asked("Lateral factor", "1")
    """2 where half an inch of motion at grade does no harm (IBC 1806.3.4), else 1."""


STEPS = (
    Step(
        "Soil",
        """\
P = service_load(D, L, S)
A_req = footing_area_required(P, q_a)""",
    ),
    Step(
        "Area of a square footing",
        "A = square_footing_area(B)\nV_c = concrete_volume_square(B, H)",
        when="square",
    ),
    Step(
        "Area of a round footing",
        "A = round_footing_area(B)\nV_c = concrete_volume_round(B, H, A_o)",
        when="round_one",
    ),
    Step(
        "Weight on the soil",
        """\
W_c = weight_of_volume(V_c, gamma_c)
V_s = soil_volume_on_footing(A, A_p, H_s)
W_s = weight_of_volume(V_s, gamma_s)
W_f = W_c + W_s""",
    ),
    Step(
        "Soil pressure",
        """\
q = soil_pressure_gross(P, W_f, A)
ratio_q = q / q_a""",
    ),
    Step(
        "Plain concrete",
        """\
P_u = factored_load(D, L, S)
q_u = factored_soil_pressure(P_u, B_s)
h_e = effective_thickness(H)
ratio_h = h_min / H  # ACI 318-19, 14.3.2.1
h_p = minimum_footing_thickness(B, c)
ratio_p = h_p / H
phi_B = concrete_bearing_strength(f_c, A_1, A_2)
ratio_B = P_u / phi_B""",
    ),
    Step(
        "Bending of the concrete",
        """\
M_u = footing_moment(q_u, B_s, c)
phi_M = footing_moment_strength(f_c, lam, B_s, h_e)
ratio_M = M_u / phi_M""",
        when="bends",
    ),
    Step(
        "One-way shear",
        """\
V_u = footing_shear_one_way(q_u, B_s, c, h_e)
phi_V = footing_shear_strength_one_way(f_c, lam, B_s, h_e)
ratio_V = V_u / phi_V""",
        when="one_way",
    ),
    Step(
        "Two-way shear",
        """\
V_u2 = footing_shear_two_way(q_u, B_s, c, h_e)
phi_V2 = footing_shear_strength_two_way(f_c, lam, beta, c, h_e)
ratio_V2 = V_u2 / phi_V2""",
        when="two_way",
    ),
    Step(
        "Uplift",
        """\
R_w = uplift_resistance_weight(W_f)
ratio_U = U / R_w""",
        when="U",
    ),
    Step(
        "Embedded post",
        """\
S_1 = lateral_pressure_third_depth(S_l, d_b, m)
A_b = embedment_parameter(P_l, S_1, b)
d_req = embedment_nonconstrained(A_b, h)
ratio_d = d_req / d_b
# The soil's forces on a stiff post of the depth typed, as drawn.
a_t = turning_depth(h, d_b)
R_u = soil_force_above_turn(P_l, d_b, a_t)
R_l = soil_force_below_turn(R_u, P_l)""",
        when="P_l",
    ),
)
_WIDER = "a wider footing"
LIMITS = (
    Limit("ratio_q", "Soil pressure", "q", "q_a", "IBC 2021, 1806.2", _WIDER),
    Limit("ratio_h", "Minimum thickness", "h_min", "H", "ACI 318-19, 14.3.2.1", "a thicker footing"),
    Limit(
        "ratio_p",
        "Thickness for its projection",
        "h_p",
        "H",
        "IRC 2018, R403.1.1",
        "a thicker or a narrower footing",
    ),
    Limit("ratio_B", "Bearing on the concrete", "P_u", "phi_B", "ACI 318-19, 14.5.6.1", "a larger plate"),
    Limit(
        "ratio_M",
        "Bending of the concrete",
        "M_u",
        "phi_M",
        "ACI 318-19, 14.5.2.1",
        "a thicker footing",
        "bends",
    ),
    Limit(
        "ratio_V", "One-way shear", "V_u", "phi_V", "ACI 318-19, 14.5.5.1a", "a thicker footing", "one_way"
    ),
    Limit(
        "ratio_V2", "Two-way shear", "V_u2", "phi_V2", "ACI 318-19, 14.5.5.1b", "a thicker footing", "two_way"
    ),
    Limit("ratio_U", "Uplift", "U", "R_w", "ASCE 7-16, 2.4.1", "a heavier or deeper footing", "U"),
    Limit(
        "ratio_d", "Embedment", "d_req", "d_b", "IBC 2021, 1807.3.2.1", "a deeper or wider embedment", "P_l"
    ),
)


def given(inputs: FootingInputs) -> Given:
    """Loads and sizes."""
    if not inputs.dead + inputs.live + inputs.snow:
        raise PartError({"live": "No load is typed: give a dead, a live or a snow load above zero."})
    if inputs.post_width > inputs.width:
        raise PartError(
            {
                "post_width": f"The post, {inputs.post_width:g} in., is wider than the footing, {inputs.width:g} in."
            }
        )
    if inputs.shape == "round" and inputs.post_width * math.sqrt(2) > inputs.width:
        raise PartError(
            {
                "post_width": f"The corners of the post, {inputs.post_width:g} in., reach past the round footing, "
                f"{inputs.width:g} in.: its diameter is to be {inputs.post_width * math.sqrt(2):.1f} in. or more."
            }
        )
    if inputs.lateral and not inputs.embedment:
        raise PartError(
            {"embedment": "A lateral force is typed, but no embedment that takes it: give its depth."}
        )
    if inputs.lateral and not inputs.lateral_soil:
        raise PartError(
            {"lateral_soil": "A lateral force is typed, but the soil takes none: give its lateral bearing."}
        )
    if inputs.thickness <= 2:
        raise PartError(
            {"thickness": "Of concrete cast on soil 2 in. do not count (ACI 318-19, 14.5.1.7): give more."}
        )
    square = inputs.shape == "square"
    side = inputs.width if square else float(equal_area_square(d_c=inputs.width))
    here = pad_limit_states(
        side, min(inputs.post_width, side), float(effective_thickness(h=inputs.thickness))
    )
    A_1 = inputs.post_width**2
    inside = inputs.width if square else float(square_in_round(d_c=inputs.width))
    A_2 = min(inside, inputs.post_width + 4 * inputs.thickness) ** 2
    symbols = (
        Symbol("D", inputs.dead, POUND, "dead load"),
        Symbol("L", inputs.live, POUND, "live load"),
        Symbol("S", inputs.snow, POUND, "snow load"),
        Symbol("q_a", inputs.soil, PSF, "allowable bearing pressure, as typed"),
        Symbol("B", inputs.width, INCH, "width of the footing"),
        Symbol("H", inputs.thickness, INCH, "its thickness"),
        Symbol("gamma_c", CONCRETE, PCF, "weight of plain concrete, common practice"),
        Symbol(
            "B_s",
            side,
            INCH,
            "its side" if square else "side of the square of equal area (ACI 318-19, 13.2.7.3)",
        ),
        Symbol("c", min(inputs.post_width, side), INCH, "side of the post or plate"),
        Symbol("h_min", LEAST_PAD, INCH, "minimum thickness of plain concrete"),
        Symbol("f_c", inputs.concrete, PSI, "strength of the concrete"),
        Symbol("lam", 1.0, NONE, "normal weight concrete (ACI 318-19, 19.2.4)"),
        Symbol("beta", 1.0, NONE, "square post"),
        Symbol("A_1", A_1, SQUARE_INCH, "loaded area"),
        Symbol(
            "A_2", A_2, SQUARE_INCH, "base of the pyramid of 1 in 2 in the footing (ACI 318-19, 14.5.6.1)"
        ),
        Symbol("bends", float(here.flexure), NONE),
        Symbol("one_way", float(here.one_way_shear), NONE),
        Symbol("two_way", float(here.two_way_shear), NONE),
        Symbol("square", float(square), NONE),
        Symbol("round_one", float(not square), NONE),
        Symbol("A_o", 0.0, SQUARE_FOOT, "" if square else "section of a post inside the concrete: none"),
        Symbol("U", inputs.uplift, POUND, "net uplift" if inputs.uplift else ""),
        Symbol("A_p", (inputs.post_width / 12) ** 2, SQUARE_FOOT, "area of the post"),
        Symbol("H_s", inputs.cover, INCH, "height of soil on it"),
        Symbol("gamma_s", inputs.soil_weight, PCF, "weight of the soil on it"),
        *_embedded(inputs),
    )
    return Given(symbols, (), (f"The base: {here.says}.",))


def _embedded(inputs: FootingInputs) -> tuple[Symbol, ...]:
    if not inputs.lateral:
        return (Symbol("P_l", 0.0, POUND),)
    return (
        Symbol("P_l", inputs.lateral, POUND, "lateral force on the embedded post"),
        Symbol("h", inputs.lateral_height / 12, FOOT, "its height above grade"),
        Symbol("b", inputs.embedded_width / 12, FOOT, "width that bears on the soil"),
        Symbol("d_b", inputs.embedment / 12, FOOT, "depth of embedment"),
        Symbol("S_l", inputs.lateral_soil, PSF_PER_FOOT, "lateral bearing per foot of depth, as typed"),
        Symbol("m", float(inputs.doubled), NONE, "factor of IBC 2021, 1806.3.4"),
    )


def figures(
    inputs: FootingInputs, given: Given, values: Mapping[str, Any], blank: bool
) -> tuple[Figure, ...]:
    """Section through the footing, and the embedded post, with their forces."""
    P = inputs.dead + inputs.live + inputs.snow
    q = values.get("q")
    pad = (
        footing_figure(
            width=inputs.width,
            thickness=inputs.thickness,
            post=inputs.post_width,
            load=value(P, POUND, blank),
            pressure=value(float(q.m_as("psf")) if q is not None else math.nan, PSF, blank),
            uplift=value(inputs.uplift, POUND) if inputs.uplift else "",
        ),
    )
    if not inputs.lateral:
        return pad
    above, below = (_pounds(values, name, blank) for name in ("R_u", "R_l"))
    turn = turning_depth(h=inputs.lateral_height / 12, d=inputs.embedment / 12)
    return (
        *pad,
        embedded_post_figure(
            height=inputs.lateral_height,
            depth=inputs.embedment,
            turn=12 * float(turn),
            lateral=value(inputs.lateral, POUND),
            above=f"R_u = {above}",
            below=f"R_l = {below}",
        ),
    )


def _pounds(values: Mapping[str, Any], name: str, blank: bool) -> str:
    found = values.get(name)
    return value(float(found.m_as("lbf")) if found is not None else math.nan, POUND, blank)


FOOTING = Kind(
    name="footing",
    title="Footing",
    about=(
        "A square or round footing of plain concrete: pressure on the soil, bending, shear and bearing of the "
        "concrete, weight against uplift, and where a lateral force is typed the embedment of a post in the ground."
    ),
    model=FootingInputs,
    given=given,
    steps=STEPS,
    limits=LIMITS,
    figures=figures,
    example=Example(
        source="Village of Howard deck guideline, footing area: 5 ft by 10 ft of deck at 50 psf on soil of 3,000 psf",
        inputs={
            "dead": "500 lb",
            "live": "2000 lb",
            "soil": "3000 psf",
            "width": "12 in",
            "post_width": "5 1/2 in",
        },
        values=(Published("A_req", 0.83, 0.005, SQUARE_FOOT, "The area"),),
    ),
    not_checked=(
        "what stands on it: the post, its base and anchor (the load path)",
        "frost depth, groundwater, fill, slopes, and settlement",
        "a load off the middle of the footing, and a moment in the post's foot",
        "lateral loads but on an embedded post; sliding and overturning of the footing",
        "the post itself, above and below grade, and its decay",
        "roots of a tree near by",
    ),
)
