"""Published span tables, cell by cell, and our own question of each."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from typing import Any

import numpy as np

from bolewright.reference import load
from bolewright.timber.adjustment import Service
from bolewright.timber.material import species_named
from bolewright.timber.post_heights import post_heights
from bolewright.timber.sections import Section, parse_section
from bolewright.timber.spans import Rounding, SpanLimits, SpanLoads, Stock, beam_spans, joist_spans


class Basis(Enum):
    """Whose table is meant."""

    NDS = "nds"
    IRC = "irc"
    DCA6 = "dca6"


class Asked(Enum):
    """What a published cell is of."""

    JOIST_SPAN = "joist span"
    JOIST_OVERHANG = "joist overhang"
    BEAM_SPAN = "beam span"
    POST_HEIGHT = "post height"


@dataclass(frozen=True)
class Cell:
    """One number of a published table, in inches, with what it is of.

    ``width`` is a joist's spacing or the span of a beam's joists (in), or a post's floor area (ft2).
    """

    asked: Asked
    basis: Basis
    group: str
    section: Section
    width: float
    published: float
    confidence: str
    source: str


@dataclass(frozen=True)
class Question:
    """What is calculated for a cell: what the published tables and we agree on, until a reason changes it."""

    asked: Asked
    stock: tuple[Stock, ...]
    section: Section
    width: float
    service: Service
    limits: SpanLimits
    C_r: float | None = None
    eccentricity: float = 0.0
    K_e: float = 1.0
    dead: float = 10.0
    whole_feet: bool = False
    less: float = 0.0
    joist_overhang: float = 0.25
    loaded_on_top: bool = False

    def answer(self) -> float:
        """Our number (in), rounded as the table rounds; ``less`` (in) is taken off a span, ``dead`` (psf) a post's."""
        if self.asked is Asked.POST_HEIGHT:
            post = post_heights(
                self.stock[0],
                [self.section],
                [self.width],
                K_e=self.K_e,
                eccentricity=self.eccentricity,
                loads=SpanLoads(dead=self.dead),
                service=self.service,
                longest=self.limits.longest,
                rounding=self.limits.rounding,
            )[0]
            return float(np.floor(post.height / 12) * 12) if self.whole_feet else post.height
        size, width = [self.section], [self.width]
        if self.asked is Asked.BEAM_SPAN:
            row = beam_spans(
                self.stock,
                size,
                width,
                joist_overhang_share=self.joist_overhang,
                loaded_on_top=self.loaded_on_top,
                service=self.service,
                limits=self.limits,
                C_r=self.C_r,
            )[0]
        else:
            row = joist_spans(
                self.stock, size, width, service=self.service, limits=self.limits, C_r=self.C_r
            )[0]
        return float(row.overhang if self.asked is Asked.JOIST_OVERHANG else row.span - self.less)


SOUTHERN = (Stock("Southern Pine", "No.2"),)
FIRS = tuple(Stock(name, "No.2") for name in ("Douglas Fir-Larch", "Hem-Fir", "Spruce-Pine-Fir"))
# ponderosa and red pine stand in Northern Species (DCA 6 Table 2 note 5); redwood by its weaker, open grain
_SOFTER = (
    Stock("Redwood", "No.2 open grain"),
    Stock("Western Cedars", "No.2"),
    Stock("Northern Species", "No.1/No.2"),
)


def group_stock(group: str) -> tuple[tuple[Stock, ...], Service]:
    """Stocks and service of a published species group: wet, the firs and spruces incised."""
    first = group.lower()[:3]
    if first == "sou":
        return SOUTHERN, Service()
    return (FIRS, Service(incised=True)) if first == "dou" else (_SOFTER, Service())


def cells(basis: Basis, asked: Asked | None = None) -> tuple[Cell, ...]:
    """Every cell of the published tables of a basis; none for NDS, which has no span table."""
    found: list[Cell] = []
    tables = {
        Basis.NDS: (),
        Basis.IRC: (
            ("irc2018_table_R507_6", Asked.JOIST_SPAN),
            ("irc2018_table_R507_6_overhang", Asked.JOIST_OVERHANG),
            ("irc2018_table_R507_5", Asked.BEAM_SPAN),
            ("irc2018_table_R507_5_firs", Asked.BEAM_SPAN),
            ("irc_table_R507_4", Asked.POST_HEIGHT),
        ),
        Basis.DCA6: (
            ("dca6_table_2", Asked.JOIST_SPAN),
            ("dca6_table_2_overhang", Asked.JOIST_OVERHANG),
            ("dca6_table_3a", Asked.BEAM_SPAN),
            ("dca6_table_4", Asked.POST_HEIGHT),
        ),
    }[basis]
    for name, of in tables:
        if asked in (None, of):
            table = load(name)
            for row in table:
                if not _left_out(row):
                    found.append(_cell(row, of, basis, table.confidence(row), table.source))
    return tuple(found)


def _left_out(row: dict[str, Any]) -> bool:
    """Posts by area are in the 2021 edition only; its Douglas fir column is from memory and uncertain."""
    return "tributary_ft2" in row and (row["edition"] != 2021 or row["species"] != "Southern pine")


def _cell(row: dict[str, Any], of: Asked, basis: Basis, confidence: str, source: str) -> Cell:
    group = str(row.get("species_group", "Southern Pine"))
    if of is Asked.POST_HEIGHT:
        if "post" in row:
            feet, inches = map(int, str(row["height"]).split("-"))
            section, width, published = parse_section(row["post"]), row["tributary_ft2"], 12.0 * feet + inches
        else:
            # the floor that a post under a run of beams carries, with both overhangs: see the table's note
            width = 0.75 * row["joist_span_ft"] * row["beam_span_ft"]
            section, published = parse_section("6x6"), 12.0 * row["post_height_ft"]
        return Cell(of, basis, group, section, width, published, confidence, source)
    section = parse_section(row["size"])
    if of is Asked.BEAM_SPAN:
        section = section.of_plies(int(row["plies"]))
        return Cell(of, basis, group, section, 12 * row["joist_span_ft"], row["span_in"], confidence, source)
    published = row["overhang_in" if of is Asked.JOIST_OVERHANG else "span_in"]
    return Cell(of, basis, group, section, row["spacing_in"], published, confidence, source)


def prescriptive_limits(basis: Basis, limits: SpanLimits | None = None) -> SpanLimits:
    """Limits with the basis's own rules: a prescriptive quarter of the span is rounded down, never up."""
    return replace(limits or SpanLimits(), share_down=basis is not Basis.NDS)


def question(cell: Cell) -> Question:
    """Our calculation of a cell under the conditions that the table names."""
    stock, service = group_stock(cell.group)
    post = cell.asked is Asked.POST_HEIGHT
    return Question(
        cell.asked,
        stock,
        cell.section,
        cell.width,
        service,
        replace(
            prescriptive_limits(cell.basis),
            longest=14 * 12.0 if post else 18 * 12.0,
            rounding=Rounding.DOWN if post else Rounding.NEAREST,
        ),
        whole_feet=post and cell.basis is Basis.DCA6,
    )


def find(basis: Basis, asked: Asked, species: str, section: Section, width: float) -> Cell | None:
    """The published cell of a species in a size, or None where the basis prints none."""
    full = species_named(species).lower()
    pines = full == "northern species"
    for cell in cells(basis, asked):
        named = cell.group.lower()
        inside = full in named or (pines and "ponderosa" in named and "douglas" not in named)
        if inside and cell.section.name == section.name and abs(cell.width - width) < 1e-6:
            return cell
    return None
