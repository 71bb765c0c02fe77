"""Which adjustment factor applies, and its value (NDS 2018 ch. 2 to 4 and Supplement).

:func:`factors` gathers them for one member. Those that depend on the load or the member's length, C_D, C_L,
C_P and C_b, stay with the caller.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache
from typing import Any

from numpy import minimum

from bolewright.formulas import formula
from bolewright.reference import load, memory_notes
from bolewright.timber.material import OWN, SOUTHERN_PINE, DesignValues, Factor, MemberClass, species_named
from bolewright.units import Length, Ratio


class Temperature(Enum):
    """Sustained temperature of the wood in service; the value is the row of NDS Table 2.3.3."""

    UP_TO_100F = "T <= 100 F"
    UP_TO_125F = "100 F < T <= 125 F"
    UP_TO_150F = "125 F < T <= 150 F"


class LoadDuration(Enum):
    """Load durations of NDS Table 2.3.2; the value is the row of the table."""

    PERMANENT = "permanent"
    TEN_YEARS = "ten years"
    TWO_MONTHS = "two months"
    SEVEN_DAYS = "seven days"
    TEN_MINUTES = "ten minutes"
    IMPACT = "impact"


@dataclass(frozen=True)
class Service:
    """Conditions a member lives in: wet (over 19 % moisture for long), temperature, incised for treatment.

    Wet is the default: out of doors.
    """

    wet: bool = True
    temperature: Temperature = Temperature.UP_TO_100F
    incised: bool = False


@dataclass(frozen=True)
class Factors:
    """Factors of one member: a mapping per property, keyed by the arguments of the adjusted value's formula.

    ``adjusted_bending(F_b=v.F_b, C_D=1.0, C_L=1.0, **factors.bending)``; ``bending_star`` fits
    ``bending_before_stability``, ``compression`` both compression formulas, ``modulus`` both moduli. ``notes``
    are the sentences a sheet owes to factors that rest on memory.
    """

    bending: Mapping[str, float]
    bending_star: Mapping[str, float]
    tension: Mapping[str, float]
    shear: Mapping[str, float]
    bearing: Mapping[str, float]
    compression: Mapping[str, float]
    modulus: Mapping[str, float]
    notes: tuple[str, ...] = ()


@lru_cache(maxsize=512)
def factors(
    values: DesignValues, service: Service, *, repetitive: bool = False, flat: bool = False
) -> Factors:
    """Factors of a member in service.

    ``repetitive`` comes from :func:`repetitive_use` and counts for dimension lumber in bending only;
    ``flat`` means loaded on the wide face.

    >>> from bolewright.timber.material import reference_values
    >>> factors(reference_values("Douglas Fir-Larch", "No.2", "2x8"), Service(incised=True)).bending["C_F"]
    1.2
    """
    size = size_factors(values, flat=flat)
    wet = wet_service_factors(values, service, size)
    heat = temperature_factors(service)
    incising = incising_factors(values, service)
    flat_bending, flat_modulus = flat_use_factors(values, flat=flat)

    def common(symbol: str, *names: str) -> dict[str, float]:
        by_name = {"C_M": wet, "C_t": heat, "C_F": size, "C_i": incising}
        return {name: by_name[name][symbol] for name in names}

    bending_star = common("F_b", "C_M", "C_t", "C_F", "C_i") | {
        "C_r": repetitive_factor(values, repetitive=repetitive)
    }
    return Factors(
        bending=bending_star | {"C_fu": flat_bending},
        bending_star=bending_star,
        tension=common("F_t", "C_M", "C_t", "C_F", "C_i"),
        shear=common("F_v", "C_M", "C_t", "C_i"),
        bearing=common("F_c_perp", "C_M", "C_t", "C_i"),
        compression=common("F_c", "C_M", "C_t", "C_F", "C_i"),
        modulus=common("E", "C_M", "C_t", "C_i") | {"C_fu": flat_modulus},
        notes=_notes(values, service, flat=flat),
    )


def _notes(values: DesignValues, service: Service, *, flat: bool) -> tuple[str, ...]:
    """Sentences on the tables of factors that were written from memory and that this member takes."""
    said: tuple[str, ...] = ()
    own, lumber = values.table == OWN, values.member_class is MemberClass.DIMENSION
    southern = values.species == SOUTHERN_PINE and not own
    if service.wet and not values.wet_values:
        said += memory_notes("nds_wet_service", "Wet service factor C_M", table=_wet_row(values))
    if service.temperature is not Temperature.UP_TO_100F:
        said += memory_notes("nds_table_2_3_3", "Temperature factor C_t")
    if lumber and not southern and values.size is Factor.APPLIED:
        said += memory_notes("nds_size_factor_4A", "Size factor C_F")
    if flat and not own and (lumber or (values.member_class is MemberClass.BEAM_STRINGER and not southern)):
        said += memory_notes("nds_flat_use_4A" if lumber else "nds_flat_use_4D", "Flat use factor C_fu")
    return said


def load_duration_factor(duration: LoadDuration) -> float:
    """C_D (NDS 2018, Table 2.3.2). Not for E, E_min and F_c,perp; impact not for connections or treated wood.

    >>> load_duration_factor(LoadDuration.TWO_MONTHS)
    1.15
    """
    return float(load("nds_table_2_3_2").row(duration=duration.value)["C_D"])


def wet_service_factors(
    values: DesignValues, service: Service, size: Mapping[str, float]
) -> Mapping[str, float]:
    """C_M by property (Supplement, beside Tables 4A, 4B, 4D).

    Dimension lumber: C_M of F_b is 1.0 where F_b C_F <= 1150 psi, that of F_c where F_c C_F <= 750 psi.
    Timbers have their own; Southern Pine timbers are tabulated for wet or dry use, so 1.0. A user's own
    values take those of their size class unless they hold wet already.
    """
    table = load("nds_wet_service")
    if not service.wet or values.wet_values:
        return dict.fromkeys(_SYMBOLS, 1.0)
    row = table.row(table=_wet_row(values))
    C_M = {symbol: float(row[symbol]) for symbol in _SYMBOLS}
    if values.F_b * size["F_b"] <= row["F_b_dry_up_to"]:
        C_M["F_b"] = 1.0
    if values.F_c * size["F_c"] <= row["F_c_dry_up_to"]:
        C_M["F_c"] = 1.0
    return C_M


def _wet_row(values: DesignValues) -> str:
    southern = values.species == SOUTHERN_PINE and values.table != OWN
    if values.member_class is MemberClass.DIMENSION:
        return "4B" if southern else "4A"
    return "4D Southern Pine" if southern else "4D"


def temperature_factors(service: Service) -> Mapping[str, float]:
    """C_t by property (NDS 2018, Table 2.3.3), dry or wet."""
    row = load("nds_table_2_3_3").row(
        temperature=service.temperature.value, moisture="wet" if service.wet else "dry"
    )
    return {symbol: float(row["E_F_t" if symbol in ("E", "F_t") else "other"]) for symbol in _SYMBOLS}


def incising_factors(values: DesignValues, service: Service) -> Mapping[str, float]:
    """C_i by property for incised dimension lumber (NDS 2018, Table 4.3.8); 1.0 for all other wood."""
    if not service.incised or values.member_class is not MemberClass.DIMENSION:
        return dict.fromkeys(_SYMBOLS, 1.0)
    row = load("nds_table_4_3_8").rows[0]
    return {symbol: float(row[symbol]) for symbol in _SYMBOLS}


def size_factors(values: DesignValues, *, flat: bool = False) -> Mapping[str, float]:
    """C_F of F_b, F_t and F_c (Supplement beside Tables 4A, 4B, 4D); 1.0 for a user's own values that hold it.

    Table 4A by width and thickness; Table 4B holds its size factors, but for 4 in. thick, 8 in. and wider
    (F_b x 1.1) and wider than 12 in. (x 0.9); timbers deeper than 12 in. loaded on the narrow face
    (12/d)^(1/9), F_b only.
    """
    section = values.section
    C_F = dict.fromkeys(_SYMBOLS, 1.0)
    if values.size is not Factor.APPLIED:
        return C_F
    if values.member_class is not MemberClass.DIMENSION:
        if not flat:
            C_F["F_b"] = float(timber_size_factor(d=section.d))
        return C_F
    four_thick = section.nominal_thickness >= 4
    if values.species == SOUTHERN_PINE and values.table != OWN:
        wide = 0.9 if section.nominal_width > 12 else 1.0
        thick = 1.1 if four_thick and section.nominal_width >= 8 else 1.0
        return C_F | {"F_b": thick * wide, "F_t": wide, "F_c": wide}
    group = _SIZE_FACTOR_GROUPS.get(values.grade, "graded")
    row = _by_width("nds_size_factor_4A", section.nominal_width, grades=group)
    return C_F | {
        "F_b": row["F_b_4_thick" if four_thick else "F_b_2_3_thick"],
        "F_t": row["F_t"],
        "F_c": row["F_c"],
    }


@formula("NDS 2018, 4.3.6.2", homogeneous=False)
def timber_size_factor(d: Length) -> Ratio:
    """Size factor C_F of F_b for a timber 5 in. and thicker, loaded on the narrow face.

    Parameters: d depth (in). Returns: C_F, 1.0 up to 12 in. Source: NDS 2018, 4.3.6.2, Supplement Table 4D.

    >>> float(timber_size_factor(11.5)), round(float(timber_size_factor(15.5)), 3)
    (1.0, 0.972)
    """
    C_F: Ratio = minimum((12 / d) ** (1 / 9), 1.0)
    return C_F


def flat_use_factors(values: DesignValues, *, flat: bool) -> tuple[float, float]:
    """C_fu of F_b and of E, E_min for a member loaded on its wide face; (1.0, 1.0) otherwise.

    Dimension lumber by width and thickness (beside Tables 4A, 4B), beams and stringers by grade (beside Table
    4D); Southern Pine timbers, posts and timbers and a user's own values 1.0.
    """
    section = values.section
    if not flat or values.table == OWN:
        return 1.0, 1.0
    if values.member_class is MemberClass.DIMENSION:
        row = _by_width("nds_flat_use_4A", section.nominal_width)
        return float(row["thickness_4" if section.nominal_thickness >= 4 else "thickness_2_3"]), 1.0
    if values.member_class is MemberClass.BEAM_STRINGER and values.species != SOUTHERN_PINE:
        grade = values.grade.removeprefix("Dense ")
        row = load("nds_flat_use_4D").row(grade=grade)
        return float(row["F_b"]), float(row["E_and_E_min"])
    return 1.0, 1.0


def repetitive_factor(values: DesignValues, *, repetitive: bool) -> float:
    """C_r: 1.15 for repetitive bending members of dimension lumber, else 1.0 (NDS 2018, 4.3.9).

    A user's own values that hold it lose it, 1/1.15, in a piece that is not repetitive; with none it is 1.0.
    """
    if values.repetitive is Factor.NONE:
        return 1.0
    counts = repetitive and values.member_class is MemberClass.DIMENSION
    if values.repetitive is Factor.INCLUDED:
        return 1.0 if counts else 1 / 1.15
    return 1.15 if counts else 1.0


def repetitive_use(
    *, members: int = 1, spacing: float | None = None, plies: int = 1, load_distributing: bool = True
) -> bool:
    """Whether bending members count as repetitive (NDS 2018, 4.3.9).

    Three or more in contact (``plies`` of a built-up member), or ``members`` at most 24 in. on centres
    (``spacing`` in inches; 24 in. read from millimetres is 24 in.), joined by decking or other load-distributing
    elements. Two plies do not count.

    >>> repetitive_use(members=8, spacing=16), repetitive_use(plies=2), repetitive_use(plies=3)
    (True, False, True)
    >>> repetitive_use(members=8, spacing=609.6 / 25.4)  # 24.000000000000004
    True
    """
    spaced = members >= 3 and spacing is not None and spacing <= 24 * (1 + _ROUNDING)
    return load_distributing and (plies >= 3 or spaced)


def normally_incised(species: str, *, treated: bool) -> bool:
    """Whether a species is commonly incised when pressure treated (common practice; Southern Pine is not).

    >>> normally_incised("Hem-Fir", treated=True), normally_incised("Southern Pine", treated=True)
    (True, False)
    """
    row = load("species").row(name=species_named(species))
    return treated and row["incised_when_treated"] == "yes"


def asks_incising(values: DesignValues, *, treated: bool) -> bool:
    """Whether it has to be said if a piece was incised: dimension lumber of a species that treaters commonly incise.

    Not for timbers 5 in. and thicker (NDS 2018, 4.3.8 is for dimension lumber), nor for durable heartwood, Southern
    Pine, untreated wood or a user's own values.

    >>> from bolewright.timber.material import reference_values
    >>> asks_incising(reference_values("Hem-Fir", "No.2", "2x8"), treated=True)
    True
    >>> asks_incising(reference_values("Hem-Fir", "No.2", "6x6"), treated=True)
    False
    """
    if values.table == OWN or values.member_class is not MemberClass.DIMENSION:
        return False
    return normally_incised(values.species, treated=treated)


def incising_words() -> str:
    """The factor of incised dimension lumber in words, from its table (NDS 2018, 4.3.8)."""
    row = load("nds_table_4_3_8").rows[0]
    return f"C_i = {row['F_b']:.2f} on bending, tension, shear and compression along the grain, {row['E']:.2f} on E"


_ROUNDING = 1e-9  # of a length that was given in other units
_SYMBOLS = ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E")
_SIZE_FACTOR_GROUPS = {
    "Stud": "Stud",
    "Construction": "Construction and Standard",
    "Standard": "Construction and Standard",
    "Utility": "Utility",
}


def _by_width(table: str, width: float, **keys: str) -> dict[str, Any]:
    """Row of a table by nominal width: that width or the next wider in the table; the last for wider."""
    rows = [row for row in load(table) if all(row[key] == value for key, value in keys.items())]
    fits = [row for row in rows if row["nominal_width"] >= width]
    return fits[0] if fits else rows[-1]
