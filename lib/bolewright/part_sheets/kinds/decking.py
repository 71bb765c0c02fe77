"""Decking: one board between joists, evenly loaded, and one person on it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from bolewright.part_sheets.drawn import value
from bolewright.part_sheets.drawn_joints import board_figure
from bolewright.part_sheets.inputs import (
    AreaLoad,
    Divisor,
    Load,
    PartError,
    SectionText,
    Small,
    TimberInputs,
    asked,
)
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
from bolewright.part_sheets.timber_values import (
    DURATIONS,
    notes_of,
    own_bending,
    own_stress,
    timber_symbols,
)
from bolewright.rendering.blocks import Figure
from bolewright.units import INCH, INCH_FOURTH, NONE, PLF, POUND, PSF, PSI


class DeckingInputs(TimberInputs):
    """What the decking sheet asks for."""

    section: SectionText = asked("Board", "2x6")
    """Laid flat: 5/4x6, 2x6."""
    spacing: Small = asked("Joist spacing", "16 in")
    """Center to center along the board; a diagonal board spans farther."""
    dead: AreaLoad = asked("Dead load", "5 psf")
    """The boards themselves, and what lies on them."""
    live: AreaLoad = asked("Live load", "40 psf")
    """Live or snow load."""
    person: Load = asked("One person", "300 lb")
    """On one board at the middle of its span."""
    duration: Literal["floor live", "snow", "construction"] = asked("Duration", "floor live")
    """What the live load is, for the load duration factor."""
    limit: Divisor = asked("Limit L/", "360")
    """Divisor of the span for deflection under live load."""
    own_F_b: str = asked("Own F_b", "")
    """A bending value of your own, such as 1300 psi, every factor but C_D in it: boards under 2 in. want one."""
    own_E: str = asked("Own E", "")
    """A modulus of your own with it, such as 1200000 psi."""


STEPS = (
    Step("Section, laid flat", "S = section_modulus(d, t)\nI = section_second_moment(d, t)"),
    Step(
        "Bending under the even load",
        """\
w = line_load(q, d)
M_w = simple_span_moment(w, l)
f_w = bending_stress(M_w, S)
F_w = adjusted_bending(F_b, C_D, C_M_b, C_t, C_L, C_F_b, C_fu, C_i_b, C_r)
ratio_w = f_w / F_w""",
    ),
    Step(
        "One person on one board",
        """\
w_D = line_load(q_D, d)
M_D = simple_span_moment(w_D, l)
M_P = point_load_moment(P, l)
M = moment_of_both(M_D, M_P)
f_P = bending_stress(M, S)
F_P = adjusted_bending(F_b, C_DP, C_M_b, C_t, C_L, C_F_b, C_fu, C_i_b, C_r)
ratio_P = f_P / F_P""",
        when="P",
    ),
    Step(
        "Deflection under live load",
        """\
w_L = line_load(q_L, d)
E_p = adjusted_modulus(E, C_M_E, C_t, C_i_E, C_fu_E)
delta = simple_span_deflection(w_L, l, E_p, I)
delta_max = deflection_limit(l, n_L)
ratio_d = delta / delta_max""",
    ),
    Step("Joist spacing of the code's table", "ratio_s = l / l_R", when="l_R"),
)
_CLOSER = "joists closer together, or thicker boards"
LIMITS = (
    Limit("ratio_w", "Bending, even load", "f_w", "F_w", "NDS 2018, 3.3", _CLOSER),
    Limit("ratio_P", "Bending, one person", "f_P", "F_P", "NDS 2018, 3.3", _CLOSER, "P"),
    Limit("ratio_d", "Deflection, live load", "delta", "delta_max", "IRC 2021, Table R301.7", _CLOSER),
    Limit("ratio_s", "Joist spacing", "l", "l_R", "IRC 2018, Table R507.7", _CLOSER, "l_R"),
)


def given(inputs: DeckingInputs) -> Given:
    """Board and loads."""
    section = inputs.section
    if section.plies > 1:
        raise PartError({"section": f"{section.name} is no board: give one ply."})
    if not inputs.live + inputs.dead + inputs.person:
        raise PartError({"live": "No load is typed: give one above zero."})
    nominal = section.nominal_thickness
    table = 24.0 if nominal >= 2 else 16.0 if nominal >= 1.25 else 0.0
    symbols = (
        Symbol("d", section.d, INCH, f"width of the board {section.name}"),
        Symbol("t", section.b, INCH, "its thickness"),
        *_values(inputs),
        Symbol("l", inputs.spacing, INCH, "span, joist to joist, taken as simple"),
        Symbol("q", inputs.dead + inputs.live, PSF, "dead and live load"),
        Symbol("q_D", inputs.dead, PSF, "dead load"),
        Symbol("q_L", inputs.live, PSF, "live load"),
        Symbol("P", inputs.person, POUND, "one person on one board" if inputs.person else ""),
        Symbol(
            "C_D",
            DURATIONS[inputs.duration],
            NONE,
            f"load duration factor, {inputs.duration} (NDS 2018, Table 2.3.2)",
        ),
        Symbol("C_DP", 1.0, NONE, "for one person"),
        Symbol("C_L", 1.0, NONE, "laid flat (NDS 2018, 3.3.3.1)"),
        Symbol("n_L", inputs.limit, NONE, "divisor for live load"),
        Symbol(
            "l_R",
            table,
            INCH,
            "joist spacing, boards square to the joists (IRC 2018, Table R507.7)" if table else "",
        ),
    )
    return Given(symbols, (), () if inputs.own_F_b.strip() else notes_of(inputs, flat=True))


def _values(inputs: DeckingInputs) -> tuple[Symbol, ...]:
    """Values of the NDS table for the board laid flat, or the user's own."""
    F_b, E = inputs.own_F_b.strip(), inputs.own_E.strip()
    if bool(F_b) != bool(E):
        raise PartError({"own_E" if F_b else "own_F_b": "Give F_b and E of your own together, or neither."})
    if F_b:
        return own_bending(own_stress("own_F_b", F_b), own_stress("own_E", E))
    return timber_symbols(inputs, "b E", flat=True)


def figures(
    inputs: DeckingInputs, given: Given, values: Mapping[str, Any], blank: bool
) -> tuple[Figure, ...]:
    """The board with its loads: the even load, and one person with the dead load."""
    width, span = inputs.section.d / 12, inputs.spacing
    drawn = []
    for load, person, of in (
        (inputs.dead + inputs.live, 0.0, "even load"),
        (inputs.dead, inputs.person, "one person on the board"),
    ):
        per = load * width
        if not person and of != "even load":
            continue
        reaction = value(per * span / 24 + person / 2, POUND, blank)
        spread = value(per, PLF, blank) if per else ""
        point = value(person, POUND) if person else ""
        drawn.append(board_figure(span=span, spread=spread, point=point, reaction=reaction, of=of))
    return tuple(drawn)


DECKING = Kind(
    name="decking",
    title="Decking",
    about=(
        "One board laid flat between joists, taken as a simple span although most run over several: bending under the "
        "even load and under one person, deflection, and the joist spacing of the code's table."
    ),
    model=DeckingInputs,
    given=given,
    steps=STEPS,
    limits=LIMITS,
    figures=figures,
    example=Example(
        source="NDS Supplement 2018, Table 1B: second moment of area of a 2x6 about its weak axis, 1.547 in⁴",
        inputs={"section": "2x6"},
        values=(
            Published("I", 1.547, 0.0005, INCH_FOURTH, "I"),
            Published(
                "f_P",
                584.8,
                0.05,
                PSI,
                "f_P of one person at mid-span with the dead load",
                "(300 x 16 / 4 + 5 x 5.5 / 144 x 16² / 8) / (5.5 x 1.5² / 6)",
            ),
            Published(
                "F_P",
                1150.0,
                0.5,
                PSI,
                "F_P of No.2 laid flat (NDS Supplement 2018, Table 4B)",
                "1000 x 1.15",
            ),
        ),
        lone=(
            "No public worked example of a deck board was found, so the first value is held against a published one, "
            "and the others are worked by hand."
        ),
    ),
    not_checked=(
        "board ends beyond a joist, and boards with a joint between joists",
        "composite and plastic boards, which go by the limits that come with them",
        "screws, slip, gaps, and the deck as in-plane bracing",
        "the joists under it (the load path)",
        LATERAL_SYSTEM,
        TREE,
    ),
)
