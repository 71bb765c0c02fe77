"""Reference values and factors of a part of sawn timber, as the symbols that its steps begin with."""

from __future__ import annotations

from bolewright.part_sheets.inputs import PartError, TimberInputs
from bolewright.part_sheets.kind import Symbol
from bolewright.timber import DesignValues, Section, Service, factors, reference_values
from bolewright.timber.adjustment import Factors, LoadDuration, load_duration_factor
from bolewright.timber.material import MaterialError
from bolewright.units import CUBIC_INCH, INCH, INCH_FOURTH, NONE, PSI, SQUARE_INCH, ReadError, read

DURATIONS = {
    "permanent": load_duration_factor(LoadDuration.PERMANENT),
    "floor live": load_duration_factor(LoadDuration.TEN_YEARS),
    "snow": load_duration_factor(LoadDuration.TWO_MONTHS),
    "construction": load_duration_factor(LoadDuration.SEVEN_DAYS),
    "wind": load_duration_factor(LoadDuration.TEN_MINUTES),
}
_GROUPS = {"b": "bending", "v": "shear", "c": "compression", "perp": "bearing", "E": "modulus"}
_VALUES = {"b": "F_b", "v": "F_v", "c": "F_c", "perp": "F_c_perp", "E": "E"}


def timber_of(inputs: TimberInputs) -> DesignValues:
    """Reference values of species, grade and section; :class:`PartError` at the field that has none."""
    try:
        return reference_values(inputs.species, inputs.grade, inputs.section)
    except MaterialError as error:
        raise PartError({"grade": f"{error}."}) from None


def factors_of(inputs: TimberInputs, *, repetitive: bool = False, flat: bool = False) -> Factors:
    """Adjustment factors of the part in its service."""
    service = Service(wet=inputs.service == "wet", incised=inputs.incised == "yes")
    return factors(timber_of(inputs), service, repetitive=repetitive, flat=flat)


def timber_symbols(
    inputs: TimberInputs, groups: str, *, repetitive: bool = False, flat: bool = False
) -> tuple[Symbol, ...]:
    """Reference values and factors of some groups (``b v perp E c``), each once, with the table they are from."""
    values, found = timber_of(inputs), factors_of(inputs, repetitive=repetitive, flat=flat)
    source = f"{values.species} {values.grade}, NDS Supplement {values.table}"
    symbols: list[Symbol] = []
    for group in groups.split():
        name = _VALUES[group]
        symbols.append(Symbol(name, getattr(values, name), PSI, source))
        if group == "E":
            symbols.append(Symbol("E_min", values.E_min, PSI, source))
        for factor, value in getattr(found, _GROUPS[group]).items():
            own = factor in ("C_t", "C_r") or (factor == "C_fu" and group == "b")
            symbols.append(Symbol(factor if own else f"{factor}_{group}", value, NONE, _FACTORS[factor]))
    return tuple(dict.fromkeys(symbols))


_FACTORS = {
    "C_M": "wet service factor (NDS Supplement, adjustment factors)",
    "C_t": "temperature factor, up to 100 °F (NDS 2018, Table 2.3.3)",
    "C_F": "size factor (NDS Supplement, adjustment factors)",
    "C_i": "incising factor (NDS 2018, Table 4.3.8)",
    "C_r": "repetitive member factor (NDS 2018, 4.3.9)",
    "C_fu": "flat use factor (NDS Supplement, adjustment factors)",
}


def section_symbols(section: Section) -> tuple[Symbol, ...]:
    """Breadth, depth and properties of a section."""
    words = f"{section.name}, dressed size as the NDS Supplement, Table 1A gives it"
    return (
        Symbol("b", section.b, INCH, f"breadth of {words}"),
        Symbol("d", section.d, INCH, "its depth"),
        Symbol("b_1", section.ply_thickness, INCH, "thickness of one ply"),
        Symbol("A", section.A, SQUARE_INCH, "area, b d"),
        Symbol("S", section.S, CUBIC_INCH, "section modulus, b d²/6"),
        Symbol("I", section.I, INCH_FOURTH, "second moment of area, b d³/12"),
    )


def own_stress(field: str, text: str) -> float:
    """A stress or modulus of the user's own (psi); :class:`PartError` at its field for what is none."""
    try:
        number = read(text, PSI)
    except ReadError as error:
        raise PartError({field: f"{error}."}) from None
    if not 0 < number < 5e6:
        raise PartError({field: f"{text} is not between 0 and 5,000,000 psi."})
    return number


def own_bending(F_b: float, E: float) -> tuple[Symbol, ...]:
    """The user's own bending value and modulus, with every factor but load duration in them."""
    factors = ("C_M_b", "C_t", "C_F_b", "C_i_b", "C_r", "C_fu", "C_M_E", "C_i_E", "C_fu_E")
    words = "the user's own value, every factor but C_D in it"
    ones = (Symbol(name, 1.0, NONE, "in the user's own values") for name in factors)
    return (Symbol("F_b", F_b, PSI, words), Symbol("E", E, PSI, words), *ones)


def notes_of(inputs: TimberInputs, *, repetitive: bool = False, flat: bool = False) -> tuple[str, ...]:
    """What must be said of the values: tables from memory."""
    return tuple(factors_of(inputs, repetitive=repetitive, flat=flat).notes)


def governing_duration(dead: float, live: float, C_D: float, *, side: float = 0.0) -> tuple[float, float]:
    """The load and C_D of the combination that governs: all loads, or dead load alone over its 0.9.

    A side load always acts, so that with one all loads govern together.
    """
    both = dead + live
    long = DURATIONS["permanent"]
    return (dead, long) if not side and dead / long > both / C_D else (both, C_D)


def duration_words(C_D: float, name: str) -> str:
    """Where a load duration factor comes from."""
    which = "dead load alone governs" if DURATIONS["permanent"] == C_D else f"{name} load"
    return f"load duration factor, {which} (NDS 2018, Table 2.3.2)"
