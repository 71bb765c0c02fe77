"""Tree bolt in green wood: yield limits, steel, pressure on the wood, rated load."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import AfterValidator

from bolewright.part_sheets.drawn import bolt_figure, value
from bolewright.part_sheets.inputs import Inputs, Load, PartError, Small, asked
from bolewright.part_sheets.kind import Example, Given, Kind, Limit, Published, Step, Symbol
from bolewright.part_sheets.timber_values import DURATIONS, duration_words, governing_duration
from bolewright.platform.project.fields import Measure, Strength
from bolewright.rendering.blocks import Figure
from bolewright.timber.material import nearest_first
from bolewright.tree import (
    characteristic_length,
    foundation_modulus,
    largest_moment_depth,
    reduction,
    trunk_species,
    trunk_wood,
)
from bolewright.tree.embedment import PLAUSIBLE_KAPPA, STEEL_MODULUS, largest_shear_depth
from bolewright.tree.species import Advice
from bolewright.tree.working import Property
from bolewright.units import DEGREE, INCH, NONE, POUND, POUND_INCH, PSI, shown

ACROSS = {"steel bracket": 0.0, "timber": 90.0}
Lever = Annotated[float, Measure(INCH, positive=True, most=24)]
Diameter = Annotated[float, Measure(INCH, least=0.5, most=3)]
PIN = "The bracket is taken as a pin: it passes no moment to the bolt (AWC TR12 with M_s = 0)."


def _species(text: str) -> str:
    found = next((s for s in trunk_species() if s.lower() == text.strip().lower()), None)
    if found is None:
        near = ", ".join(nearest_first(text, list(trunk_species()))[:4])
        raise ValueError(f"{shown(text)} is no species of the Wood Handbook's table; the nearest are {near}")
    return found


class TreeBoltInputs(Inputs):
    """What the tree bolt sheet asks for."""

    tree: Annotated[str, AfterValidator(_species)] = asked("Tree", "white oak")
    """Of the tree, as the Wood Handbook names it: white oak, coast Douglas-fir."""
    diameter: Diameter = asked("Bolt diameter", "1 1/4 in")
    """Solid round bar, its least diameter in the wood and outside."""
    embedment: Small = asked("Embedment", "7 in")
    """In sound wood: without bark, dead sapwood, countersink and tip."""
    lever: Lever = asked("Lever arm", "3 in")
    """Sound wood face to the center of bearing, the bracket at its worst place."""
    seat: Literal["steel bracket", "timber"] = asked("On the bolt", "steel bracket")
    """What bears on it; timber bears across its grain."""
    dead: Load = asked("Dead load", "300 lb")
    """On the bolt, straight down."""
    live: Load = asked("Live load", "600 lb")
    """Live or snow load."""
    duration: Literal["floor live", "snow", "construction", "wind"] = asked("Duration", "floor live")
    """What the live load is, for the load duration factor."""
    yield_strength: Strength = asked("F_y", "92000 psi")
    """Yield strength of the steel."""
    tensile_strength: Strength = asked("F_u", "120000 psi")
    """Tensile strength of the steel."""
    rated: Load = asked("Rated load", "0 lb")
    """What the bolt's own papers state for a tree like this one; 0 lb where there is none."""


STEPS = (
    Step(
        "Bearing in green wood",
        """\
F_epar = trunk_bearing_parallel(G_b, F_cg)
q = bearing_per_length(F_epar, D)
F_edry = dowel_bearing_parallel(G_b)  # the NDS table, before C_M
K_theta = angle_factor(theta)""",
    ),
    Step(
        "Yield limits",
        """\
P_I = bearing_yield(q, l)
Z_I = bearing_reference_load(P_I, K_theta)
P_II = rotation_yield(q, l, e)
Z_II = rotation_reference_load(P_II, K_theta)
F_yb = dowel_yield_strength(F_y, F_u)
M_y = dowel_yield_moment(F_yb, D)
P_IV = hinge_yield(q, e, M_y)
Z_IV = hinge_reference_load(P_IV, K_theta)
Z_p = tree_bolt_adjusted_load(Z_I, Z_II, Z_IV, C_D)
ratio_Z = P_w / Z_p""",
    ),
    Step(
        "Bending of the bolt",
        """\
k_s = foundation_modulus(E_g, D, kappa_s)  # the softest wood bends it most
l_s = characteristic_length(k_s, D, D, E_s)
M = bolt_moment_at(P, e, l, l_s, x_M)
M_a = bolt_moment_first_yield(F_y, D)
ratio_M = M / M_a""",
    ),
    Step(
        "Shear of the bolt",
        """\
k_0 = foundation_modulus(E_g, D, kappa)  # the stiffest wood is pressed most
l_c = characteristic_length(k_0, D, D, E_s)
V_x = bolt_shear_at(P, e, l, l_c, x_V)
V = abs(V_x)
V_a = bolt_shear_strength(F_y, D)
ratio_V = V / V_a""",
    ),
    Step(
        "Pressure on the wood",
        """\
p_0 = bolt_pressure(P, e, l, D, l_c, x_0)
X_05 = exclusion_value(F_cg, V_c)
F_w = working_value(X_05, K, R_s)
ratio_p = p_0 / F_w""",
    ),
    Step("Rated load", "ratio_r = P / Z_r", when="Z_r"),
)
_MORE = "a deeper embedment, a shorter lever arm, a thicker bolt, or another bolt beside it"
_STEEL = "a thicker bolt or a shorter lever arm"
LIMITS = (
    Limit("ratio_Z", "Yield limit in green wood", "P_w", "Z_p", "NDS 2018, 12.3; AWC TR12", _MORE),
    Limit("ratio_M", "Bending of the bolt", "M", "M_a", "AISC 360-16, F11", _STEEL),
    Limit("ratio_V", "Shear of the bolt", "V", "V_a", "AISC 360-16, G1", _STEEL),
    Limit("ratio_p", "Pressure on the wood", "p_0", "F_w", "ASTM D245", _MORE),
    Limit("ratio_r", "Rated load", "P", "Z_r", "Rated load, as typed", _MORE, "Z_r"),
)


def given(inputs: TreeBoltInputs) -> Given:
    """Wood, steel and loads."""
    total = inputs.dead + inputs.live
    if not total:
        raise PartError({"live": "No load is typed: give a dead or a live load above zero."})
    if inputs.tensile_strength < inputs.yield_strength:
        raise PartError({"tensile_strength": "The tensile strength is less than the yield strength."})
    if inputs.embedment < 2 * inputs.diameter:
        raise PartError(
            {"embedment": f"{inputs.embedment:g} in. is less than two diameters: it holds nothing."}
        )
    wood = trunk_wood(inputs.tree)
    P_w, C_D = governing_duration(inputs.dead, inputs.live, DURATIONS[inputs.duration])
    D, length, e = inputs.diameter, inputs.embedment, inputs.lever
    stiffest, softest = (
        float(
            characteristic_length(
                k_0=foundation_modulus(E_g=wood.MOE, D=D, kappa=kappa), D=D, D_r=D, E_s=STEEL_MODULUS
            )
        )
        for kappa in PLAUSIBLE_KAPPA
    )
    x_M = float(largest_moment_depth(1.0, e, length, D, softest))
    x_V = float(largest_shear_depth(1.0, e, length, D, stiffest))
    cut = reduction(wood, Property.CRUSHING)
    book = f"{wood.name}, green, Wood Handbook Table 5-3b"
    symbols = (
        Symbol("P", total, POUND, "dead and live load on the bolt", found=_is_sum(inputs)),
        Symbol("P_w", P_w, POUND, "load that governs in the wood", found=True),
        Symbol("C_D", C_D, NONE, duration_words(C_D, inputs.duration)),
        Symbol("G_b", wood.G_green, NONE, f"specific gravity, {book}"),
        Symbol("F_cg", wood.C_par, PSI, f"crushing strength along the grain, {book}"),
        Symbol("E_g", wood.MOE, PSI, f"modulus, {book}"),
        Symbol("D", D, INCH, "diameter of the bolt"),
        Symbol("l", length, INCH, "embedment in sound wood"),
        Symbol("e", e, INCH, "lever arm, sound wood face to center of bearing"),
        Symbol("theta", ACROSS[inputs.seat], DEGREE, f"load to the grain of what bears on it: {inputs.seat}"),
        Symbol("F_y", inputs.yield_strength, PSI, "yield strength of the steel, as typed"),
        Symbol("F_u", inputs.tensile_strength, PSI, "tensile strength of the steel, as typed"),
        Symbol("E_s", STEEL_MODULUS, PSI, "modulus of steel, AISC 360-16"),
        Symbol(
            "kappa", PLAUSIBLE_KAPPA[0], NONE, "E over the foundation modulus, the least; judgement, 5 to 20"
        ),
        Symbol("kappa_s", PLAUSIBLE_KAPPA[1], NONE, "the same, the most; judgement"),
        Symbol("x_M", x_M, INCH, "depth of the largest moment", found=True),
        Symbol("x_V", x_V, INCH, "depth of the largest shear", found=True),
        Symbol("x_0", 0.0, INCH, "at the face of the sound wood"),
        Symbol("V_c", cut.variation, NONE, f"coefficient of variation, {cut.source}"),
        Symbol("K", cut.divisor, NONE, "divisor for duration and safety, ASTM D245"),
        Symbol("R_s", 1.0, NONE, "strength ratio: clear wood at the bolt"),
        Symbol("Z_r", inputs.rated, POUND, "rated load, as typed" if inputs.rated else ""),
    )
    warned = () if wood.advice is Advice.USUAL else (f"{wood.name}: {wood.advice.value}.",)
    screened = (f"{wood.name}: {wood.screening_note}.",) if wood.screening_note else ()
    return Given(symbols, (), (PIN, *warned, *screened))


def _is_sum(inputs: TreeBoltInputs) -> bool:
    """Whether the load is worked out, a sum of two that were typed."""
    return bool(inputs.dead and inputs.live)


def figures(
    inputs: TreeBoltInputs, given: Given, values: Mapping[str, Any], blank: bool
) -> tuple[Figure, ...]:
    """The bolt in the trunk with its forces."""
    total = inputs.dead + inputs.live
    return (
        bolt_figure(
            embedment=inputs.embedment,
            lever=inputs.lever,
            diameter=inputs.diameter,
            load=value(total, POUND, blank and _is_sum(inputs)),
        ),
    )


TREE_BOLT = Kind(
    name="tree-bolt",
    title="Tree bolt in green wood",
    about=(
        "A round bar in the trunk of a living tree, loaded straight down outside the wood: the yield limits in green "
        "wood, bending and shear of the steel, the pressure at the wood's face, and the rated load where there is one."
    ),
    model=TreeBoltInputs,
    given=given,
    steps=STEPS,
    limits=LIMITS,
    figures=figures,
    example=Example(
        source=(
            "NDS 2018, Table 12.3.3: dowel bearing strength along the grain for G 0.60, white oak green (value "
            "from memory)"
        ),
        inputs={"tree": "white oak"},
        values=(
            Published("F_edry", 6700.0, 25.0, PSI, "F_e along the grain, dry"),
            Published(
                "Z_II",
                2181.5,
                0.05,
                POUND,
                "Z of the bolt turning as a whole (AWC TR12, wood pressed to its limit both ways; 3.6 of NDS 12.3.1)",
                "1.25 x 3560 x (((2 x 3 + 7)² + 7²)^0.5 - (2 x 3 + 7)) / 3.6",
            ),
            Published(
                "M_a",
                10563.0,
                0.5,
                POUND_INCH,
                "M_a of the steel at first yield (AISC 360-16: 1.67)",
                "92000 x 3.14159 x 1.25³ / 32 / 1.67",
            ),
        ),
        lone=(
            "No public worked example of a bolt in a living tree was found, so the first value is held against a "
            "published one, the others are worked by hand, and what a beam on an elastic foundation gives is held in "
            "the program's tests."
        ),
    ),
    not_checked=(
        "the tree: its health, decay, the trunk in storm, what the hole takes from it; a qualified arborist looks",
        "lateral loads, and the tree's sway against what is tied to it",
        "edge and end distances, other holes, and growth over the bolt",
        "the bracket, and the timber on it (the joint at either end)",
        "where the load comes from (the load path)",
        "fatigue and corrosion of the steel",
    ),
)
