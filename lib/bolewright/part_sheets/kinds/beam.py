"""Beam: bending, shear, bearing and deflection under any loads on one to three supports."""

from __future__ import annotations

from typing import Literal

from bolewright.mechanics import Beam
from bolewright.part_sheets.beam_deflection import Deflected, deflections
from bolewright.part_sheets.beam_figures import figures
from bolewright.part_sheets.beam_patterns import Patterns
from bolewright.part_sheets.beam_print import Effect, before
from bolewright.part_sheets.beam_statics import Bay, BeamStatics, Worst
from bolewright.part_sheets.beam_steps import LIMITS, STEPS
from bolewright.part_sheets.inputs import (
    Divisor,
    LineLoad,
    Long,
    PartError,
    Reach,
    Small,
    TimberInputs,
    YesNo,
    asked,
)
from bolewright.part_sheets.kind import Example, Given, Kind, Published, Symbol
from bolewright.part_sheets.loads import BeamLoad, Loads, spread
from bolewright.part_sheets.timber_values import (
    DURATIONS,
    duration_words,
    notes_of,
    section_symbols,
    timber_of,
    timber_symbols,
)
from bolewright.timber import BendingCase, effective_length_coefficients
from bolewright.timber.deflection import creep_factor
from bolewright.units import INCH, NONE, PLF, POUND, POUND_INCH

_CLOSE = 1.0  # lb or lb·in: less is the noise of statics
_LIFTED = {  # by what the live load is: the combination in which 0.6 of the dead load stands against it
    "floor live": "0.6D + L, common practice",
    "snow": "0.6D + S, common practice",
    "construction": "0.6D + L, common practice",
    "wind": "0.6D + 0.6W, the wind as typed taken for 0.6W (ASCE 7-16, 2.4.1)",
}


class BeamInputs(TimberInputs):
    """What the beam sheet asks for."""

    supports: Literal["1", "2", "3"] = asked("Supports", "2")
    """1: a cantilever held fast at its left end; 2 or 3: it rests on that many."""
    span: Long = asked("Span", "12 ft")
    """Between the first two supports, center to center; the length of a cantilever."""
    second_span: Reach = asked("Second span", "0 ft")
    """Between the second and the third support; 0 ft without a third."""
    left_overhang: Reach = asked("Left overhang", "0 ft")
    """Past the first support."""
    right_overhang: Reach = asked("Right overhang", "0 ft")
    """Past the last support."""
    dead: LineLoad = asked("Dead load", "13.33 plf")
    """Even dead load over the whole length, the beam's own weight included."""
    live: LineLoad = asked("Live load", "53.33 plf")
    """Even live or snow load, placed on every bay or not, whichever is worse."""
    loads: Loads = asked("Other loads", "")
    """Such as: live 300 lb at 4 ft; dead 0 plf to 50 plf from 0 ft to 6 ft; live 500 lb ft at 4 ft. From the left end;
    a minus sign is a force upward or a moment counterclockwise."""
    duration: Literal["floor live", "snow", "construction", "wind"] = asked("Duration", "floor live")
    """What the live load is, for the load duration factor. It holds for all live load typed: floor and wind on two
    sheets."""
    repetitive: YesNo = asked("Repetitive", "no")
    """Yes for three or more joined by decking, at most 24 in. on center (NDS 4.3.9)."""
    unbraced: Small = asked("Unbraced length", "16 in")
    """Between points that hold the top edge against moving laterally, such as joists or boards."""
    plies_as_one: YesNo = asked("Plies as one", "no")
    """Yes where the plies are fastened as IRC R507.5 asks, so that they count as one breadth against buckling."""
    bearing: Small = asked("Bearing length", "1 1/2 in")
    """Length of bearing along the beam at each support."""
    live_limit: Divisor = asked("Live limit L/", "360")
    """Divisor of the span for deflection under live load."""
    total_limit: Divisor = asked("Total limit L/", "240")
    """Divisor of the span for deflection under all loads, creep included."""


def statics_of(inputs: BeamInputs) -> BeamStatics:
    """The beam with its bays and loads; :class:`PartError` at the input that does not go with the others."""
    left, span, second, right = (
        inputs.left_overhang,
        inputs.span,
        inputs.second_span,
        inputs.right_overhang,
    )
    count = int(inputs.supports)
    if count == 3 and second == 0:
        raise PartError(
            {"second_span": "A beam on 3 supports has a second span: give its length, or 2 supports."}
        )
    if count < 3 and second > 0:
        raise PartError({"second_span": f"A second span wants 3 supports, not {count}: set it to 0 ft."})
    if count == 1 and (left or right):
        field = "left_overhang" if left else "right_overhang"
        raise PartError({field: "A cantilever has no overhang: its length is the span."})
    supports: tuple[float, ...] = (left, left + span, left + span + second)[:count]
    length = left + span + second + right
    places = sorted({0.0, *supports, length})
    bays = tuple(
        Bay(a, b, count == 1 or a < supports[0] or b > supports[-1], _bay_name(a, b, supports))
        for a, b in zip(places, places[1:], strict=False)
    )
    loads: list[BeamLoad] = []
    if inputs.dead:
        loads.append(spread(inputs.dead, 0.0, length, dead=True, words="dead"))
    if inputs.live:
        loads += [spread(inputs.live, bay.start, bay.end, dead=False, words="live") for bay in bays]
    beyond = next((load for load in inputs.loads if load.end > length + 1e-6), None)
    if beyond is not None:
        raise PartError(
            {
                "loads": f"The load {beyond.words} reaches to {beyond.end:g} in.; the beam is {length:g} in. long."
            }
        )
    loads += inputs.loads
    if not loads:
        raise PartError({"live": "No load is typed: give a dead, a live or another load."})
    EI = timber_of(inputs).E * inputs.section.I
    clamps = (None, 0.0) if count == 1 else (0.0, 0.0)
    return BeamStatics(Beam(length, supports, EI, clamps=clamps), tuple(loads), bays)


def _bay_name(a: float, b: float, supports: tuple[float, ...]) -> str:
    if len(supports) == 1:
        return "cantilever"
    if a < supports[0]:
        return "left overhang"
    if b > supports[-1]:
        return "right overhang"
    return f"span {supports.index(a) + 1}"


def given(inputs: BeamInputs) -> Given:
    """Effects of the worst patterns, and the values they are held against."""
    statics = statics_of(inputs)
    section, C_D = inputs.section, DURATIONS[inputs.duration]
    moment, C_D_b = _governing(statics, "moment", 1, C_D)
    negative, C_D_n = _governing(statics, "moment", -1, C_D)
    shear, shear_dead = statics.shear(), statics.shear(live=False)
    C_D_v = 0.9 if shear_dead.value / 0.9 > shear.value / C_D else C_D
    if C_D_v == 0.9:
        shear = shear_dead
    reaction, lift = statics.worst("reaction", 1), statics.uplift()
    lifted = _LIFTED[inputs.duration]
    effects_by_hand = (
        Effect("M", "greatest moment", moment),
        Effect("M_n", "greatest negative moment", negative, -1),
        Effect("V", "greatest shear", shear, shear.sign),
        Effect("R", "greatest reaction", reaction),
        Effect("R_up", "uplift", lift, -1),
    )
    k_l, k_d = effective_length_coefficients(BendingCase.OTHER, inputs.unbraced, section.d)
    longest = max(bay.end - bay.start for bay in statics.bays)
    k_ln, k_dn = effective_length_coefficients(BendingCase.OTHER, longest, section.d)
    live, total = _deflections(statics, inputs)
    dead_deflection = max(total.dead.value, 0.0)
    repetitive = inputs.repetitive == "yes"
    plain = len(statics.bays) == 1 and inputs.supports == "2" and not inputs.loads
    effects = (
        ("M", _clean(moment.value), POUND_INCH, f"greatest moment, {_place(moment)}"),
        ("M_n", _clean(negative.value), POUND_INCH, f"greatest negative moment, {_place(negative)}"),
        ("V", shear.value, POUND, f"greatest shear, {_place(shear)}; none left out near supports"),
        ("R", reaction.value, POUND, f"greatest reaction, {_place(reaction)}"),
        ("R_up", _clean(lift.value), POUND, _uplift(lift, lifted)),
        ("delta_LE", live.live.value, INCH, f"deflection under live load with E, {live.bay.name}"),
        ("delta_DE", dead_deflection, INCH, f"deflection under dead load with E, {total.bay.name}"),
        ("delta_SE", total.live.value, INCH, f"deflection under live load with E, {total.bay.name}"),
    )
    breadth = section.b if inputs.plies_as_one == "yes" else section.ply_thickness
    ratios = (("k_l", k_l), ("k_d", k_d), ("k_ln", k_ln), ("k_dn", k_dn))
    even = inputs.dead + inputs.live if plain and moment.value > _CLOSE else 0.0
    symbols = (
        *section_symbols(section),
        *timber_symbols(inputs, "b v perp E", repetitive=repetitive),
        *(Symbol(name, size, unit, words, found=True) for name, size, unit, words in effects),
        Symbol("C_D", C_D_b, NONE, duration_words(C_D_b, inputs.duration)),
        Symbol("C_Dn", C_D_n, NONE, f"for negative bending: {duration_words(C_D_n, inputs.duration)}"),
        Symbol("C_Dv", C_D_v, NONE, f"for shear: {duration_words(C_D_v, inputs.duration)}"),
        Symbol("l_u", inputs.unbraced, INCH, "unbraced length of the top edge"),
        Symbol("l_un", longest, INCH, "unbraced length of the bottom edge: the longest bay"),
        *(Symbol(n, v, NONE, "coefficient of NDS 2018, Table 3.3.3, footnote 1") for n, v in ratios),
        Symbol("b_s", breadth, INCH, "breadth that counts against lateral buckling"),
        Symbol("l_b", inputs.bearing, INCH, "length of bearing"),
        Symbol("C_b", 1.0, NONE, "bearing area factor, none taken (NDS 2018, 3.10.4)"),
        Symbol("l_L", live.bay.length_for_limit, INCH, _limit_length(live.bay)),
        Symbol("n_L", inputs.live_limit, NONE, "divisor for live load"),
        Symbol("K_cr", creep_factor(wet=inputs.service == "wet"), NONE, "creep factor (NDS 2018, 3.5.2)"),
        Symbol("l_T", total.bay.length_for_limit, INCH, _limit_length(total.bay)),
        Symbol("n_T", inputs.total_limit, NONE, "divisor for all loads"),
        Symbol("w", even, PLF, "dead and live load together" if even else ""),
    )
    drawn = (statics, moment if moment.value >= negative.value else negative)
    patterns = Patterns(statics, timber_of(inputs).E, section.I)
    worked = (*before(patterns, effects_by_hand, lifted), *deflections(patterns, live, total))
    return Given(symbols, worked, notes_of(inputs, repetitive=repetitive), drawn)


def _place(worst: Worst) -> str:
    return f"{worst.x:.4g} in. from the left end"


def _uplift(lift: Worst, lifted: str) -> str:
    """What the value of the uplift is; empty where nothing lifts."""
    if lift.value <= _CLOSE:
        return ""
    return f"uplift, {_place(lift)}" + (f"; {lifted}" if lift.dead_share < 1 else "")


def _limit_length(bay: Bay) -> str:
    return f"length of the {bay.name}{', twice' if bay.overhang else ''}"


def _clean(value: float) -> float:
    return value if value > _CLOSE else 0.0


def _governing(statics: BeamStatics, effect: str, sign: int, C_D: float) -> tuple[Worst, float]:
    """The worst of dead load alone and of all loads, each over its load duration factor."""
    both, dead = statics.worst(effect, sign), statics.worst(effect, sign, live=False)
    return (dead, 0.9) if dead.value / 0.9 > both.value / C_D else (both, C_D)


def _deflections(statics: BeamStatics, inputs: BeamInputs) -> tuple[Deflected, Deflected]:
    """Where deflection under live load governs, and where that under all loads does."""
    creep = creep_factor(wet=inputs.service == "wet")
    live, total = [], []
    for bay in statics.bays:
        rows = statics.rows_of(bay)
        for sign in (1, -1):
            most = statics.worst("deflection", sign, rows, dead=False)
            live.append(Deflected(bay, sign, statics.worst("deflection", sign, rows, live=False), most))
            for row in rows:
                dead = statics.worst("deflection", sign, [row], live=False)
                part = statics.worst("deflection", sign, [row], dead=False)
                total.append(Deflected(bay, sign, dead, part))
    return (
        max(live, key=lambda f: f.live.value / f.bay.length_for_limit),
        max(total, key=lambda f: (creep * max(f.dead.value, 0.0) + f.live.value) / f.bay.length_for_limit),
    )


BEAM = Kind(
    name="beam",
    title="Beam",
    about=(
        "A joist or beam of sawn timber on one to three supports: bending, shear, bearing and deflection under the "
        "loads typed, forces either way, moments and loads that grow along it. Live load stands on each bay or not, "
        "whichever is worse; dead load stands on all of them, and counts with 0.6 against live load that lifts the "
        "beam or a far support."
    ),
    model=BeamInputs,
    given=given,
    steps=STEPS,
    limits=LIMITS,
    figures=figures,
    example=Example(
        source=(
            "AWC DCA 6 (2015), Table 2: Southern Pine No.2 2x10 joists 16 in. on center, 40 psf live and 10 psf dead "
            "load, wet; at the table's span bending is used to the full"
        ),
        inputs={
            "section": "2x10",
            "dead": "13.33 plf",
            "live": "53.33 plf",
            "span": "14 ft",
            "unbraced": "1 in",
            "repetitive": "yes",
        },
        values=(Published("L_b", 168.0, 0.5, INCH, "The longest span (14-0)"),),
    ),
    not_checked=(
        "where the loads come from and where the reactions go (the load path)",
        "lateral loads, and the beam turning over on its bearing",
        "the joint at either end, hangers, and what holds the beam down",
        "notches, holes and splices",
        "the fasteners between plies, and what more than its even share a ply bends that something hangs on",
        "what stands under it: posts, footings, the tree",
    ),
)
