"""Wood of a standing trunk: green strength values by species, friendly names, screening notes."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from enum import Enum
from functools import cache

from bolewright.reference import CONFIDENCE, TableError, load
from bolewright.units import shown

SHRINKAGE_ESTIMATE = (
    0.265  # x G on green volume, where Table 4-3 has no row (Wood Handbook ch. 4, from memory)
)


class SpeciesError(ValueError):
    """A species that is not in the handbook's table; the sentence names near ones."""


class Advice(Enum):
    """How a species fares as a bearer of bolts: a screening note, from memory, never a verdict."""

    USUAL = "usual"
    FLAG = "flag"
    AVOID = "avoid"


@dataclass(frozen=True)
class TrunkWood:
    """Green clear-wood means of one species [psi], with where they come from.

    ``S_vol`` is a ratio; ``*_cov`` is a measured coefficient of variation or None. ``confidence`` is the
    weakest code of the strength values.
    """

    species: str
    name: str
    kind: str
    G_green: float
    MOR: float
    MOE: float
    C_par: float
    C_perp: float
    shear: float
    S_vol: float
    S_vol_estimated: bool
    MOR_cov: float | None
    C_par_cov: float | None
    shear_cov: float | None
    confidence: str
    sources: tuple[str, ...]
    advice: Advice
    screening_note: str

    @property
    def notes(self) -> list[str]:
        """Sentences a sheet must print with these values."""
        said = [f"Screening note, from memory: {self.name}: {self.screening_note}. An arborist looks first."]
        if self.confidence not in ("V", "M1"):
            said.append(f"Green strength of {self.name}: {CONFIDENCE[self.confidence]}.")
        if self.S_vol_estimated:
            said.append(f"Shrinkage of {self.name} is estimated from its specific gravity.")
        return said


@cache
def _names() -> dict[str, str]:
    """Handbook species by every accepted spelling, lower case."""
    names: dict[str, str] = {}
    for row in load("trunk_species"):
        for spelling in (row["species"], row["common_name"]):
            names[_key(spelling)] = row["species"]
    return names


def _key(name: str) -> str:
    return " ".join(name.lower().replace("-", " ").split())


def trunk_species() -> tuple[str, ...]:
    """Common names of all species, hardwoods first as in the handbook.

    >>> "bur oak" in trunk_species()
    True
    """
    return tuple(str(row["common_name"]) for row in load("trunk_species"))


def _near_names(species: str) -> str:
    """Names to choose from: those with a word in common, else those spelled alike, else the usual bearers."""
    words = {word for word in _key(species).split() if len(word) > 2}
    same = [name for name in trunk_species() if words & set(_key(name).split())]
    alike = difflib.get_close_matches(
        _key(species), [_key(name) for name in trunk_species()], n=6, cutoff=0.6
    )
    named = {_key(name): name for name in trunk_species()}
    near = list(dict.fromkeys([*(named[name] for name in alike), *same]))
    if near:
        return f"near names are {', '.join(near[:25])}"
    usual = [str(row["common_name"]) for row in load("trunk_species") if row["advice"] == Advice.USUAL.value]
    return f"names are such as {', '.join(usual[:15])}"


@cache
def trunk_wood(species: str) -> TrunkWood:
    """Green wood of a species by common name ("bur oak") or handbook name ("Oak, white - bur").

    Raises :class:`SpeciesError` for a name the handbook's table does not have.

    >>> trunk_wood("bur oak").C_par
    3290.0
    """
    names = _names()
    if _key(species) not in names:
        raise SpeciesError(
            f"species {shown(species)} is not in Wood Handbook Table 5-3b; {_near_names(species)}"
        )
    handbook = names[_key(species)]
    strength = load("wood_handbook_5_3b")
    row = strength.row(species=handbook, condition="green")
    label = load("trunk_species").row(species=handbook)
    S_vol, estimated, shrinkage_source = _shrinkage(handbook, row["SG"])
    variation = _variation(handbook)
    sources = [f"{strength.source}, green", shrinkage_source]
    if variation:
        sources.append(load("astm_d2555_green").source)
    return TrunkWood(
        species=handbook,
        name=str(label["common_name"]),
        kind=str(row["kind"]),
        G_green=row["SG"],
        MOR=row["MOR_psi"],
        MOE=row["MOE_1e6psi"] * 1e6,
        C_par=row["C_par_psi"],
        C_perp=row["C_perp_psi"],
        shear=row["shear_psi"],
        S_vol=S_vol,
        S_vol_estimated=estimated,
        MOR_cov=variation.get("MOR"),
        C_par_cov=variation.get("C_par"),
        shear_cov=variation.get("shear"),
        confidence=strength.confidence(row),
        sources=tuple(sources),
        advice=Advice(label["advice"]),
        screening_note=str(label["note"]),
    )


def _shrinkage(handbook: str, G_green: float) -> tuple[float, bool, str]:
    table = load("wood_handbook_4_3_shrinkage")
    try:
        return table.row(species=handbook)["volumetric_pct"] / 100, False, table.source
    except TableError:
        return SHRINKAGE_ESTIMATE * G_green, True, "shrinkage estimated as 26.5 % x G (Wood Handbook ch. 4)"


def _variation(handbook: str) -> dict[str, float]:
    found = [row for row in load("astm_d2555_green") if row["handbook_species"] == handbook]
    return {p: row[f"{p}_sd"] / row[f"{p}_psi"] for row in found for p in ("MOR", "C_par", "shear")}
