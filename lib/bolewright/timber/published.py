"""Published span tables beside ours, and the proved reason where the two differ.

A reason is an assumption of the table's authors. It counts as proved where our own calculation, with that assumption
in place of ours, gives the published number; a cell that none of them explains is said to be unexplained.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from itertools import combinations
from typing import Any

import numpy as np

from bolewright.reference import load
from bolewright.timber.adjustment import Service, size_factors
from bolewright.timber.material import reference_values, species_named
from bolewright.timber.post_heights import post_heights
from bolewright.timber.sections import Section, parse_section
from bolewright.timber.spans import OwnValues, SpanLimits, Stock, beam_spans, joist_spans


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
    whole_feet: bool = False
    less: float = 0.0

    def answer(self) -> float:
        """Our number (in), rounded as the table rounds; ``less`` (in) is taken off a span."""
        if self.asked is Asked.POST_HEIGHT:
            post = post_heights(
                self.stock[0],
                [self.section],
                [self.width],
                eccentricity=self.eccentricity,
                service=self.service,
                longest=self.limits.longest,
            )[0]
            return float(np.floor(post.height / 12) * 12) if self.whole_feet else post.height
        spans: Callable[..., Any] = beam_spans if self.asked is Asked.BEAM_SPAN else joist_spans
        row = spans(
            self.stock, [self.section], [self.width], service=self.service, limits=self.limits, C_r=self.C_r
        )[0]
        return float(row.overhang if self.asked is Asked.JOIST_OVERHANG else row.span - self.less)


@dataclass(frozen=True)
class Reason:
    """An assumption of a published table that is not ours: a letter, a sentence, and how it changes a question."""

    letter: str
    says: str
    of: frozenset[Asked]
    bases: frozenset[Basis]
    change: Callable[[Question], Question]


@dataclass(frozen=True)
class Compared:
    """A cell beside our number; ``reasons`` proved, none where both agree; ``explained`` False where none proves it."""

    cell: Cell
    ours: float
    reasons: tuple[Reason, ...]
    explained: bool


_SOUTHERN = (Stock("Southern Pine", "No.2"),)
_FIRS = tuple(Stock(name, "No.2") for name in ("Douglas Fir-Larch", "Hem-Fir", "Spruce-Pine-Fir"))
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
        return _SOUTHERN, Service()
    return (_FIRS, Service(incised=True)) if first == "dou" else (_SOFTER, Service())


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
        replace(prescriptive_limits(cell.basis), longest=14 * 12.0 if post else 18 * 12.0),
        whole_feet=post and cell.basis is Basis.DCA6,
    )


def compare(cell: Cell, asked: Question | None = None) -> Compared:
    """A cell beside our number, with the fewest reasons that prove the difference.

    ``asked`` is the user's own question where it is not the table's.
    """
    mine = asked or question(cell)
    ours = mine.answer()
    if ours == cell.published:
        return Compared(cell, ours, (), True)
    fitting = [r for r in REASONS if cell.asked in r.of and cell.basis in r.bases and r.change(mine) != mine]
    if asked is not None and question(cell) != asked:
        fitting = [_group_reason(cell), *fitting]
    for count in range(1, len(fitting) + 1):
        for some in combinations(fitting, count):
            switched = mine
            for reason in some:
                switched = reason.change(switched)
            if switched.answer() == cell.published:
                return Compared(cell, ours, some, True)
    return Compared(cell, ours, (), False)


def _group_reason(cell: Cell) -> Reason:
    table = question(cell)

    def change(q: Question) -> Question:
        return replace(q, stock=table.stock, service=table.service)

    every = frozenset(Asked)
    return Reason(
        "G",
        f"the published row is for the weakest of a group ({cell.group}), in the table's condition.",
        every,
        frozenset(Basis),
        change,
    )


def _nearest(q: Question) -> Question:
    return replace(q, limits=replace(q.limits, share_down=False))


def _tip(q: Question) -> Question:
    return replace(q, limits=replace(q.limits, tip_allowance=3.0))


def _two_plies(q: Question) -> Question:
    return replace(q, C_r=1.10) if q.section.plies == 2 else q


def _half_dead(q: Question) -> Question:
    return replace(q, limits=replace(q.limits, total=None, live_dead_share=0.5))


def _own(q: Question, species: str, F_b: float) -> OwnValues:
    v = reference_values(species, "No.2", q.section)
    return OwnValues(F_b=F_b, F_v=v.F_v, F_c_perp=v.F_c_perp, E=v.E, source="a published table's assumption")


_SECOND_GROUP = Stock("second group of IRC R507.5", "No.2")


def _second_group(q: Question) -> Question:
    """The one F_b, before C_F and C_r, that all bending cells of the second group of beams share."""
    if q.stock != _FIRS:
        return q
    # 625 psi after C_i = 0.8; F_v and E of Spruce-Pine-Fir and Northern Species
    own = OwnValues(
        F_b=625 / 0.8 * _C_F(q.section),
        F_v=135.0,
        F_c_perp=335.0,
        E=1_100_000.0,
        source="a published table's assumption",
    )
    return replace(q, stock=(replace(_SECOND_GROUP, own=own),))


def _C_F(section: Section) -> float:
    return size_factors(reference_values("Hem-Fir", "No.2", section))["F_b"]


_C_F_OF_4X = {"4x10": 1.1, "4x12": 1.0}


def _size_factor(q: Question) -> Question:
    C_F = _C_F_OF_4X.get(q.section.name)
    if C_F is None:
        return q
    share = C_F / _C_F(q.section)
    return replace(q, stock=tuple(replace(s, own=_less_bending(q, s, share)) for s in q.stock))


def _less_bending(q: Question, stock: Stock, share: float) -> OwnValues:
    if stock.own is not None:
        return replace(stock.own, F_b=share * stock.own.F_b)
    return _own(
        q, stock.species, share * _C_F(q.section) * reference_values(stock.species, "No.2", q.section).F_b
    )


def _thinner(q: Question) -> Question:
    """A row for 3x or two 2x is that of the 3x, 2 1/2 in. thick."""
    if q.section.plies != 2 or q.stock == _SOUTHERN:
        return q
    return replace(q, section=parse_section("3" + q.section.name.split()[-1][1:]))


def _no_wet_factor(q: Question) -> Question:
    """C_M = 1.0 on the bending of Douglas Fir-Larch 2x6, as its F_b C_F C_i would have it."""
    if q.section.name != "2x6" or _FIRS[0] not in q.stock:
        return q
    v = reference_values("Douglas Fir-Larch", "No.2", q.section)
    C_F = 1.3
    # the wet values of the other properties are written out, so that only bending loses its C_M
    own = replace(
        _own(q, "Douglas Fir-Larch", v.F_b * C_F),
        F_v=v.F_v * 0.97,
        F_c_perp=v.F_c_perp * 0.67,
        E=v.E * 0.9,
        wet_values=True,
    )
    return replace(q, stock=(replace(_FIRS[0], own=own), *_FIRS[1:]))


def _no_northern(q: Question) -> Question:
    return replace(q, stock=tuple(s for s in q.stock if s.species != "Northern Species"))


def _off_axis(q: Question) -> Question:
    return replace(q, eccentricity=1 / 6)


def _less_3_in(q: Question) -> Question:
    return replace(q, less=3.0)


def _reason(
    letter: str,
    says: str,
    of: Sequence[Asked],
    bases: Sequence[Basis],
    change: Callable[[Question], Question],
) -> Reason:
    return Reason(letter, says, frozenset(of), frozenset(bases), change)


_JOIST, _TIP, _BEAM, _POST = Asked.JOIST_SPAN, Asked.JOIST_OVERHANG, Asked.BEAM_SPAN, Asked.POST_HEIGHT
REASONS = (
    _reason(
        "A",
        "the table takes 3 in. off the overhang that the tip deflection allows.",
        [_TIP],
        [Basis.DCA6],
        _tip,
    ),
    _reason(
        "B",
        "the table rounds a quarter of the span to the nearest inch; the rule says at most a quarter, so ours is "
        "rounded down.",
        [_TIP],
        [Basis.IRC, Basis.DCA6],
        _nearest,
    ),
    _reason(
        "C",
        "the table takes 1.10 on F_b of two plies; NDS 2018 4.3.9 gives C_r to three or more, so ours is 1.0.",
        [_BEAM],
        [Basis.IRC, Basis.DCA6],
        _two_plies,
    ),
    _reason(
        "D",
        "the table holds L/360 under L + 0.5D; ours holds it under L alone and L/240 under the total with creep.",
        [_BEAM],
        [Basis.IRC, Basis.DCA6],
        _half_dead,
    ),
    _reason(
        "E",
        "every bending cell of the table's second group of beams implies F_b C_i = 625 psi before C_F and C_r, whose "
        "source is not known; ours is that of the weakest species, Hem-Fir No.2 incised, 680 psi.",
        [_BEAM],
        [Basis.IRC, Basis.DCA6],
        _second_group,
    ),
    _reason(
        "F",
        "the table takes C_F = 1.1 for 4x10 and 1.0 for 4x12, those of 2 in. and 3 in. thickness; NDS Supplement Table "
        "4A gives 1.2 and 1.1 to 4 in.",
        [_BEAM],
        [Basis.IRC, Basis.DCA6],
        _size_factor,
    ),
    _reason(
        "H",
        "the row is for a 3x or two 2x: the 3x, 2 1/2 in. thick, decides it; ours is of two 2x, 3 in.",
        [_BEAM],
        [Basis.IRC, Basis.DCA6],
        _thinner,
    ),
    _reason(
        "I",
        "the table takes C_M = 1.0 on F_b of Douglas Fir-Larch 2x6, though F_b C_F = 1170 psi is over 1150 psi, which "
        "asks for 0.85.",
        [_JOIST, _TIP],
        [Basis.IRC],
        _no_wet_factor,
    ),
    _reason(
        "J",
        "the number is that of redwood and cedar; Northern Species, which stands for the two pines, is not in it.",
        [_JOIST, _TIP],
        [Basis.IRC],
        _no_northern,
    ),
    _reason(
        "K",
        "the table's posts carry their load a sixth of the width off the axis (NDS 2018 15.4.1); ours on the axis.",
        [_POST],
        [Basis.DCA6],
        _off_axis,
    ),
    _reason(
        "L",
        "the table's spans are 3 in. less than those of IRC R507.5, which are counted as ours are; the guide does not "
        "say why.",
        [_BEAM],
        [Basis.DCA6],
        _less_3_in,
    ),
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
