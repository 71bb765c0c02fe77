"""Span question: how far a joist or beam of one span may reach."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from bolewright.part_sheets.drawn import value
from bolewright.part_sheets.drawn_joints import board_figure
from bolewright.part_sheets.inputs import (
    AreaLoad,
    Divisor,
    Long,
    PartError,
    SectionText,
    Small,
    TimberInputs,
    YesNo,
    asked,
)
from bolewright.part_sheets.kind import TREE, Example, Given, Kind, Limit, Published, Step, Symbol
from bolewright.part_sheets.timber_values import (
    DURATIONS,
    duration_words,
    governing_duration,
    notes_of,
    section_symbols,
    timber_symbols,
)
from bolewright.rendering.blocks import Figure
from bolewright.timber.adjustment import repetitive_use
from bolewright.timber.deflection import creep_factor
from bolewright.units import INCH, NONE, PLF, POUND, PSF


class SpanInputs(TimberInputs):
    """What the span sheet asks for."""

    section: SectionText = asked("Section", "2x8")
    """Nominal size, plies in front."""
    span: Long = asked("Span asked for", "11 ft")
    """Center to center of the supports."""
    spacing: Small = asked("Spacing", "16 in")
    """Of joists, or the width of deck that the beam carries."""
    dead: AreaLoad = asked("Dead load", "10 psf")
    """Of the deck."""
    live: AreaLoad = asked("Live load", "40 psf")
    """Live or snow load."""
    duration: Literal["floor live", "snow", "construction"] = asked("Duration", "floor live")
    """What the live load is, for the load duration factor."""
    repetitive: YesNo = asked("Repetitive", "yes")
    """Yes for three or more joined by decking, at most 24 in. on center (NDS 4.3.9)."""
    live_limit: Divisor = asked("Live limit L/", "360")
    """Divisor of the span for deflection under live load."""
    total_limit: Divisor = asked("Total limit L/", "240")
    """Divisor of the span for deflection under all loads, creep included."""
    bearing: Small = asked("Bearing length", "1 1/2 in")
    """At each end."""


STEPS = (
    Step(
        "Load",
        "w = line_load(q, s)\nw_L = line_load(q_L, s)\nw_D = line_load(q_D, s)\nw_b = line_load(q_b, s)",
    ),
    Step(
        "Bending",
        """\
F_b_p = adjusted_bending(F_b, C_D, C_M_b, C_t, C_L, C_F_b, C_fu, C_i_b, C_r)
L_b = span_by_bending(F_b_p, S, w_b)""",
    ),
    Step(
        "Shear",
        """\
F_v_p = adjusted_shear(F_v, C_D, C_M_v, C_t, C_i_v)
L_v = span_by_shear(F_v_p, b, d, w_b)""",
    ),
    Step(
        "Bearing",
        """\
F_c_perp_p = adjusted_bearing(F_c_perp, C_M_perp, C_t, C_i_perp, C_b)
L_c = span_by_bearing(F_c_perp_p, b, l_b, w)""",
    ),
    Step(
        "Deflection, all loads",
        """\
E_p = adjusted_modulus(E, C_M_E, C_t, C_i_E, C_fu_E)
w_T = load_with_creep(K_cr, w_D, w_L)
L_T = span_by_deflection(E_p, I, w_T, n_T)""",
    ),
    Step("Deflection, live load", "L_L = span_by_deflection(E_p, I, w_L, n_L)", when="q_L"),
    Step("No live load", "L_L = L_T", when="no_live"),
    Step(
        "Longest span",
        """\
L = min(L_b, L_v, L_c, L_L, L_T)
ratio_b = l / L_b
ratio_v = l / L_v
ratio_c = l / L_c
ratio_L = l / L_L
ratio_T = l / L_T""",
    ),
)
_SHORTER = "a shorter span, a deeper section or a closer spacing"
LIMITS = (
    Limit("ratio_b", "Span by bending", "l", "L_b", "NDS 2018, 3.3", _SHORTER),
    Limit("ratio_v", "Span by shear", "l", "L_v", "NDS 2018, 3.4", _SHORTER),
    Limit("ratio_c", "Span by bearing", "l", "L_c", "NDS 2018, 3.10", "a longer bearing"),
    Limit("ratio_L", "Span by deflection, live load", "l", "L_L", "IRC 2021, Table R301.7", _SHORTER, "q_L"),
    Limit("ratio_T", "Span by deflection, all loads", "l", "L_T", "IRC 2021, Table R301.7", _SHORTER),
)


def given(inputs: SpanInputs) -> Given:
    """Section and loads."""
    if not inputs.dead + inputs.live:
        raise PartError({"live": "No load is typed: give a dead or a live load above zero."})
    section, repetitive = inputs.section, inputs.repetitive == "yes"
    if repetitive and not repetitive_use(members=3, spacing=inputs.spacing, plies=section.plies):
        wide = f"{inputs.spacing:g} in. apart: only members at most 24 in. apart, or three plies"
        raise PartError({"repetitive": f"{wide}, count as repetitive (NDS 4.3.9). Set it to no."})
    q_b, C_D = governing_duration(inputs.dead, inputs.live, DURATIONS[inputs.duration])
    symbols = (
        *section_symbols(section),
        *timber_symbols(inputs, "b v perp E", repetitive=repetitive),
        Symbol("C_D", C_D, NONE, duration_words(C_D, inputs.duration)),
        Symbol("C_L", 1.0, NONE, "top edge held by decking throughout (NDS 2018, 3.3.3.3)"),
        Symbol("C_b", 1.0, NONE, "bearing area factor, none taken"),
        Symbol("K_cr", creep_factor(wet=inputs.service == "wet"), NONE, "creep factor (NDS 2018, 3.5.2)"),
        Symbol("l", inputs.span, INCH, "span asked for"),
        Symbol("l_b", inputs.bearing, INCH, "length of bearing"),
        Symbol("s", inputs.spacing, INCH, "spacing"),
        Symbol("q", inputs.dead + inputs.live, PSF, "dead and live load"),
        Symbol("q_b", q_b, PSF, "load that governs with its C_D"),
        Symbol("q_D", inputs.dead, PSF, "dead load"),
        Symbol("q_L", inputs.live, PSF, "live load"),
        Symbol("no_live", float(not inputs.live), NONE),
        Symbol("n_L", inputs.live_limit, NONE, "divisor for live load"),
        Symbol("n_T", inputs.total_limit, NONE, "divisor for all loads"),
    )
    return Given(symbols, (), notes_of(inputs, repetitive=repetitive))


def figures(inputs: SpanInputs, given: Given, values: Mapping[str, Any], blank: bool) -> tuple[Figure, ...]:
    """The joist with its load."""
    per = (inputs.dead + inputs.live) * inputs.spacing / 12
    return (
        board_figure(
            span=inputs.span,
            spread=value(per, PLF, blank),
            point="",
            reaction=value(per * inputs.span / 24, POUND, blank),
        ),
    )


SPAN = Kind(
    name="span",
    title="Span question",
    about=(
        "How far a joist or beam may span between two supports under an even load, its top edge held by decking: the "
        "spans by bending, shear, bearing and deflection, and which is the shortest."
    ),
    model=SpanInputs,
    given=given,
    steps=STEPS,
    limits=LIMITS,
    figures=figures,
    example=Example(
        source=(
            "AWC DCA 6 (2015), Table 2: Southern Pine No.2 2x8 joists 16 in. on center, 40 psf live and 10 psf dead "
            "load, wet"
        ),
        inputs={"section": "2x8", "spacing": "16 in"},
        values=(Published("L", 142.0, 0.5, INCH, "The longest span (11-10)"),),
    ),
    not_checked=(
        "overhangs, point loads, more than one span (see the beam sheet)",
        "the top edge where no decking holds it, and the depth of 2x12 and more without blocking",
        "joints, hangers and supports at either end (the load path)",
        "lateral loads, bounce, notches and holes",
        TREE,
    ),
)
