"""Reference design values of sawn lumber (NDS Supplement 2018 Tables 4A, 4B, 4D), or a user's own."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from bolewright.formulas import formula
from bolewright.timber.sections import Section
from bolewright.units import Density, Ratio


class MemberClass(Enum):
    """Size classification that decides which table and which factors apply."""

    DIMENSION = "dimension lumber"
    BEAM_STRINGER = "beams and stringers"
    POST_TIMBER = "posts and timbers"


class MaterialError(ValueError):
    """A species, grade or size for which there are no values; one sentence that names what is allowed."""


@dataclass(frozen=True)
class DesignValues:
    """Reference design values (psi) of one species and grade in one size, with their provenance.

    ``G`` specific gravity (oven dry); ``table`` NDS table or "own"; ``confidence`` a code of
    :data:`bolewright.reference.CONFIDENCE`; ``wet_values`` values already hold in wet service (no C_M).
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


def reference_values(species: str, grade: str, section: Section | str) -> DesignValues:
    """Reference design values of a species and grade in a size.

    Picks Table 4B (Southern Pine) or 4A for dimension lumber, 4D for 5x5 and larger (beams and stringers when
    the width is more than 2 in. over the thickness, else posts and timbers). Names as written in the tables,
    or the short codes. Raises :class:`MaterialError`.

    >>> reference_values("Southern Pine", "No.2", "2x8").F_b
    925.0
    """
    raise NotImplementedError


def own_values(
    species: str,
    grade: str,
    section: Section | str,
    *,
    F_b: float,
    F_t: float,
    F_v: float,
    F_c_perp: float,
    F_c: float,
    E: float,
    E_min: float | None = None,
    G: float,
    source: str,
    wet_values: bool = False,
) -> DesignValues:
    """A user's own design values (psi), for the section as it is: no size factor is applied to them.

    E_min is 1.03 E (1 - 1.645 x 0.25) / 1.66 when not given. Raises :class:`MaterialError` for a value that is
    not positive.
    """
    raise NotImplementedError


def species_names() -> tuple[str, ...]:
    """Species with reference values."""
    raise NotImplementedError


def grades(species: str, section: Section | str | None = None) -> tuple[str, ...]:
    """Grades of a species, best first; only those of the section's size class when one is given."""
    raise NotImplementedError


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
