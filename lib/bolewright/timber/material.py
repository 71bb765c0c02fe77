"""Reference design values of sawn lumber (NDS Supplement 2018 Tables 4A, 4B, 4D), or a user's own."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from difflib import SequenceMatcher
from enum import Enum
from functools import lru_cache

from bolewright.formulas import formula, unit_aware
from bolewright.reference import load
from bolewright.timber.adjusted_values import minimum_modulus
from bolewright.timber.sections import Section, parse_section
from bolewright.units import Density, Ratio, Stress, shown

SOUTHERN_PINE = "Southern Pine"
OWN = "own"


class MemberClass(Enum):
    """Size classification that decides which table and which factors apply."""

    DIMENSION = "dimension lumber"
    BEAM_STRINGER = "beams and stringers"
    POST_TIMBER = "posts and timbers"


class Factor(Enum):
    """What a user's own values say of a factor."""

    APPLIED = "to be applied"
    INCLUDED = "included"
    NONE = "none"


class MaterialError(ValueError):
    """A species, grade or size for which there are no values; one sentence that names what is allowed."""


@dataclass(frozen=True)
class DesignValues:
    """Reference design values (psi) of one species and grade in one size, with their provenance.

    ``G`` specific gravity (oven dry); ``table`` NDS table or "own"; ``confidence`` a code of
    :data:`bolewright.reference.CONFIDENCE`; ``wet_values`` values already hold in wet service (no C_M); ``size``
    and ``repetitive`` say of a user's own values whether C_F and C_r are in them.
    """

    species: str
    grade: str
    section: Section
    member_class: MemberClass
    F_b: float
    F_t: float
    F_v: float
    F_c_perp: float
    F_c: float
    E: float
    E_min: float
    G: float
    table: str
    confidence: str
    source: str
    wet_values: bool = False
    size: Factor = Factor.APPLIED
    repetitive: Factor = Factor.APPLIED


_PROPERTIES = ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min", "G")
_TIMBER_TABLE = "nds_table_4D"
_WIDTH_SLACK = 0.02  # in
_UTILITY_GRADES = ("Construction", "Standard", "Utility")


def member_class(section: Section) -> MemberClass:
    """Size classification of a section: dimension lumber, beams and stringers, posts and timbers.

    Timbers are 5 in. nominal and thicker; beams and stringers are those more than 2 in. wider than thick
    (NDS 2018, 4.1.3). Raises :class:`MaterialError` under 2 in. nominal, for which NDS has no table here.
    """
    if section.nominal_thickness < 2:
        raise MaterialError(
            f"section {section.name} is under 2 in. nominal: NDS Tables 4A, 4B and 4D start at 2 in.; "
            "give your own values, or use the span limits of its maker or of IRC R507.7 for decking"
        )
    if not section.is_timber:
        return MemberClass.DIMENSION
    # by what it measures: a metric timber's nominal width is that of the next dressed size up
    wide = section.d - section.ply_thickness > 2 + _WIDTH_SLACK
    return MemberClass.BEAM_STRINGER if wide else MemberClass.POST_TIMBER


@lru_cache(maxsize=512)
def reference_values(species: str, grade: str, section: Section | str) -> DesignValues:
    """Reference design values of a species and grade in a size.

    Picks Table 4B (Southern Pine) or 4A for dimension lumber, 4D for 5x5 and larger (beams and stringers when
    the width is more than 2 in. over the thickness, else posts and timbers). Names as written in the tables,
    or the short codes. Raises :class:`MaterialError` that names what is allowed.

    >>> reference_values("Southern Pine", "No.2", "2x8").F_b
    925.0
    >>> reference_values("DFL", "No.1", "6x12").table
    'Table 4D, beams and stringers'
    """
    if isinstance(section, str):
        section = parse_section(section)
    kind = member_class(section)
    name = species_named(species)
    table, size_class = _place(name, section, kind)
    rows = [row for row in load(table) if row["species"] == name and row["size_class"] == size_class]
    wanted = _grade_named(grade, name, [row["grade"] for row in rows], section)
    if wanted == "Stud" and section.nominal_width >= 8:
        wanted = "No.3"  # note beside Table 4A: Stud 8 in. and wider takes the values of No.3
    if wanted in _UTILITY_GRADES and section.nominal_width > 4:
        raise MaterialError(f"grade {wanted} of {name} is for widths up to 4 in. nominal, not {section.name}")
    row = next(row for row in rows if row["grade"] == wanted)
    short = load(table).provenance["table"].split(",")[0]
    return DesignValues(
        species=name,
        grade=wanted,
        section=section,
        member_class=kind,
        **{symbol: row[symbol] for symbol in _PROPERTIES},
        table=f"{short}, {size_class}" if table == _TIMBER_TABLE else short,
        confidence=load(table).confidence(row),
        source=load(table).source,
    )


def _place(species: str, section: Section, kind: MemberClass) -> tuple[str, str]:
    """Reference table and size class in it for a species and size."""
    southern = species == SOUTHERN_PINE
    if kind is not MemberClass.DIMENSION:
        return _TIMBER_TABLE, "5 x 5 and larger" if southern else kind.value
    if not southern:
        return "nds_table_4A", "2 in. and wider"
    width = section.nominal_width
    for largest, name in (
        (4, "2 to 4 in. wide"),
        (6, "5 to 6 in. wide"),
        (8, "8 in. wide"),
        (10, "10 in. wide"),
    ):
        if width <= largest:
            return "nds_table_4B", name
    return "nds_table_4B", "12 in. and wider"


def species_names() -> tuple[str, ...]:
    """Species combinations with reference values.

    >>> species_names()[0]
    'Douglas Fir-Larch'
    """
    return tuple(row["name"] for row in load("species"))


@lru_cache(maxsize=512)  # asked for with every look at a piece of timber
def species_named(text: str) -> str:
    """Full name of a species combination from its name or short code, in any case.

    >>> species_named("sp"), species_named("douglas fir larch")
    ('Southern Pine', 'Douglas Fir-Larch')
    """
    for row in load("species"):
        if _plain(text) in (_plain(row["name"]), _plain(row["code"])):
            return str(row["name"])
    codes = {str(row["name"]): row["code"] for row in load("species")}
    allowed = ", ".join(f"{name} ({codes[name]})" for name in nearest_first(text, list(codes)))
    raise MaterialError(f"species {shown(text)} has no values here; use one of: {allowed}")


def grades(species: str, section: Section | str | None = None) -> tuple[str, ...]:
    """Grades of a species, as the tables list them; only those of the section's size class when one is given.

    >>> grades("Southern Pine", "6x6")[:2]
    ('Dense Select Structural', 'Select Structural')
    """
    name = species_named(species)
    if section is not None:
        section = parse_section(section) if isinstance(section, str) else section
        table, size_class = _place(name, section, member_class(section))
        found = [r["grade"] for r in load(table) if r["species"] == name and r["size_class"] == size_class]
    else:
        tables = ("nds_table_4A", "nds_table_4B", _TIMBER_TABLE)
        found = [row["grade"] for table in tables for row in load(table) if row["species"] == name]
    return tuple(dict.fromkeys(found))


def nearest_first(text: str, names: list[str]) -> list[str]:
    """Names in order of how near they are to what a user wrote; as they stood where they are as near.

    >>> nearest_first("southern yellow pine", ["Hem-Fir", "Southern Pine"])
    ['Southern Pine', 'Hem-Fir']
    """
    plain = _plain(text)
    return sorted(names, key=lambda name: -SequenceMatcher(None, _plain(name), plain).ratio())


@lru_cache(maxsize=512)
def _plain(text: str) -> str:
    return re.sub(r"[^a-z0-9&]", "", text.lower())


_ALIASES = {
    "ss": ("selectstructural",),
    "1": ("no1", "no1no2"),
    "2": ("no2", "no1no2"),
    "3": ("no3", "no3andstud"),
    "no1": ("no1", "no1no2"),
    "no2": ("no2", "no1no2"),
    "no3": ("no3", "no3andstud"),
    "stud": ("stud", "no3andstud"),
    "no1&better": ("no1&btr",),
    "no1btr": ("no1&btr",),
}


def _grade_named(text: str, species: str, allowed: list[str], section: Section) -> str:
    plain = _plain(text)
    for candidate in _ALIASES.get(plain, (plain,)):
        for grade in allowed:
            if _plain(grade) == candidate:
                return grade
    if not allowed:
        raise MaterialError(f"{species} has no reference values for {section.name}; give your own values")
    raise MaterialError(
        f"grade {shown(text)} of {species} has no values for {section.name}; use one of: "
        f"{', '.join(nearest_first(text, allowed))}"
    )


@unit_aware()
def own_values(
    species: str,
    grade: str,
    section: Section | str,
    *,
    F_b: Stress,
    F_t: Stress,
    F_v: Stress,
    F_c_perp: Stress,
    F_c: Stress,
    E: Stress,
    G: Ratio,
    source: str,
    E_min: Stress | None = None,
    wet_values: bool = False,
    size: Factor = Factor.INCLUDED,
    repetitive: Factor = Factor.APPLIED,
) -> DesignValues:
    """A user's own reference design values (psi); unless said otherwise for the section as it is, without C_F.

    ``wet_values`` says that they hold in wet service already, ``size`` and ``repetitive`` the same of C_F and C_r.
    E_min is 1.03 E (1 - 1.645 x 0.25) / 1.66 when not given (NDS Appendix D.4, visually graded). Raises
    :class:`MaterialError` for a value not above zero.
    """
    if isinstance(section, str):
        section = parse_section(section)
    if E_min is None:
        E_min = float(minimum_modulus(E=E, COV_E=0.25))
    typed = {
        "F_b": F_b,
        "F_t": F_t,
        "F_v": F_v,
        "F_c_perp": F_c_perp,
        "F_c": F_c,
        "E": E,
        "E_min": E_min,
        "G": G,
    }
    given = {symbol: float(value) for symbol, value in typed.items()}
    for symbol, value in given.items():
        if not (math.isfinite(value) and value > 0):
            raise MaterialError(f"{symbol} of {species} {grade} is {value:g}, but it must be above zero")
    kind = member_class(section) if section.nominal_thickness >= 2 else MemberClass.DIMENSION
    return DesignValues(
        species=species,
        grade=grade,
        section=section,
        member_class=kind,
        **given,
        table=OWN,
        confidence="J",
        source=source,
        wet_values=wet_values,
        size=size,
        repetitive=repetitive,
    )


@formula("NDS Supplement 2018, 3.1.3", homogeneous=False)
def density(G: Ratio, m_c: Ratio) -> Density:
    """Density of wood from its specific gravity and moisture content.

    Parameters: G specific gravity, oven-dry weight and volume; m_c moisture content (per cent).
    Returns: density (pcf). Source: NDS Supplement 2018, 3.1.3.

    >>> round(density(0.55, 28), 1)
    38.6
    """
    rho: Density = 62.4 * (G / (1 + G * 0.009 * m_c)) * (1 + m_c / 100)
    return rho
