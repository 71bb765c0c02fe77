"""The published value beside each row of ``bolewright spans --basis``, and why it differs."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from bolewright.timber.adjustment import Service
from bolewright.timber.basis import LoadType
from bolewright.timber.material import species_named
from bolewright.timber.post_heights import PostRow
from bolewright.timber.published import (
    Asked,
    Basis,
    Cell,
    Question,
    find,
    prescriptive_limits,
    question,
)
from bolewright.timber.published_reasons import Compared, Reason, compare
from bolewright.timber.sections import Section
from bolewright.timber.span_arguments import BEAMS, JOISTS, POSTS
from bolewright.timber.spans import Rounding, SpanLimits, SpanLoads, SpanRow, Stock

_NAMES = {
    (Basis.IRC, JOISTS): "IRC 2018 Table R507.6",
    (Basis.IRC, BEAMS): "IRC 2018 Table R507.5",
    (Basis.IRC, POSTS): "IRC 2021 Table R507.4",
    (Basis.DCA6, JOISTS): "AWC DCA 6 Table 2",
    (Basis.DCA6, BEAMS): "AWC DCA 6 (2015) Table 3A",
    (Basis.DCA6, POSTS): "AWC DCA 6 Table 4, which prints whole feet",
}
_UNEXPLAINED = "not explained"


@dataclass
class Beside:
    """What a basis prints beside a row; gathers the reasons that its notes then explain."""

    basis: Basis
    what: str
    stock: tuple[Stock, ...]
    service: Service
    comparable: bool
    said: dict[str, Reason] = field(default_factory=dict)
    confidence: dict[str, None] = field(default_factory=dict)
    compared: int = 0
    unexplained: int = 0
    joist_overhang: float = 0.25
    loaded_on_top: bool = False

    @classmethod
    def asked(
        cls, args: argparse.Namespace, stock: Sequence[Stock], loads: SpanLoads, service: Service
    ) -> Beside:
        """From the command's arguments: the tables are for 40 + 10 psf, No.2 and wet service."""
        table = SpanLoads()
        same = (loads.live, loads.dead, loads.overhang_point) == (
            table.live,
            table.dead,
            table.overhang_point,
        )
        grades = all(
            s.own is None and s.grade.replace(" ", "").lower().startswith(("no.2", "no.1/no.2"))
            for s in stock
        )
        wet = service.wet and all(s.service is None or s.service.wet for s in stock)
        comparable = same and grades and wet and loads.live_kind is LoadType.LIVE
        return cls(
            Basis(args.basis),
            args.of,
            tuple(stock),
            service,
            comparable,
            joist_overhang=args.joist_overhang,
            loaded_on_top=args.loaded_on_top,
        )

    @property
    def default_eccentricity(self) -> str:
        """Of posts, where none is given."""
        return "1/6" if self.basis is Basis.DCA6 else "0"

    def own_rules(self, limits: SpanLimits) -> SpanLimits:
        """The basis's own rules on top of the user's limits."""
        return prescriptive_limits(self.basis, limits)

    def header(self) -> list[str]:
        """Its columns."""
        if self.basis is Basis.NDS:
            return []
        pair = ["published", "why"]
        return [*pair, "published_overhang", "why_overhang"] if self.what == JOISTS else pair

    def span_cells(self, row: SpanRow, limits: SpanLimits, C_r: float | None) -> list[str]:
        """Its cells of a joist's or beam's row."""
        if self.basis is Basis.NDS:
            return []
        wanted = (
            [(Asked.JOIST_SPAN, row.span), (Asked.JOIST_OVERHANG, row.overhang)]
            if self.what == JOISTS
            else [(Asked.BEAM_SPAN, row.span)]
        )
        cells = []
        for asked, _ in wanted:
            mine = Question(asked, self.stock, row.section, row.width, self.service, limits, C_r)
            if asked is Asked.BEAM_SPAN:
                mine = replace(mine, joist_overhang=self.joist_overhang, loaded_on_top=self.loaded_on_top)
            cells += self._pair(asked, row.section, row.width, mine)
        return cells

    def post_cells(self, row: PostRow, eccentricity: float, longest: float, rounding: Rounding) -> list[str]:
        """Its cells of a post's row."""
        if self.basis is Basis.NDS:
            return []
        limits = replace(prescriptive_limits(self.basis), longest=longest, rounding=rounding)
        mine = Question(
            Asked.POST_HEIGHT,
            self.stock,
            row.section,
            row.area,
            self.service,
            limits,
            eccentricity=eccentricity,
            whole_feet=self.basis is Basis.DCA6,
        )
        return self._pair(Asked.POST_HEIGHT, row.section, row.area, mine)

    def _pair(self, asked: Asked, section: Section, width: float, mine: Question) -> list[str]:
        cell = self._cell(asked, section, width) if self.comparable else None
        if cell is None:
            return ["-", ""]
        self.compared += 1
        self.confidence[cell.confidence] = None
        table = question(cell)
        same = {(s.species, s.grade) for s in mine.stock} == {(s.species, s.grade) for s in table.stock}
        if same and all((s.service or mine.service) == table.service for s in mine.stock):
            mine = replace(mine, stock=table.stock, service=table.service)
        return [f"{int(cell.published // 12)}-{cell.published % 12:g}", self._why(compare(cell, mine))]

    def _cell(self, asked: Asked, section: Section, width: float) -> Cell | None:
        """The published cell of all the species asked for; None where there is none or they stand in several."""
        found = [find(self.basis, asked, species_named(one.species), section, width) for one in self.stock]
        return found[0] if all(cell == found[0] for cell in found) else None

    def _why(self, found: Compared) -> str:
        if not found.explained:
            self.unexplained += 1
            apart = found.ours - found.cell.published
            return f"{_UNEXPLAINED}: ours {abs(apart):g} in. {'more' if apart > 0 else 'less'}"
        self.said |= {reason.letter: reason for reason in found.reasons}
        return " ".join(reason.letter for reason in found.reasons) or "same"

    def notes(self) -> list[str]:
        """What the letters say, and what a published column is of."""
        if self.basis is Basis.NDS:
            return []
        if not self.comparable:
            return [
                "Published values are for 40 psf live and 10 psf dead, No.2 and wet service: none is beside these rows."
            ]
        codes = f" (confidence {', '.join(self.confidence)})" if self.confidence else ""
        notes = [
            f"Published: {_NAMES[self.basis, self.what]}{codes}. A reason is named only where our own calculation with "
            "that assumption gives the published number; ours stands.",
            *(f"{letter}: {reason.says}" for letter, reason in sorted(self.said.items())),
        ]
        if self.unexplained:
            notes.append(
                f"{self.unexplained} of the {self.compared} published values "
                f"{'is' if self.unexplained == 1 else 'are'} not explained "
                "by any assumption tried: take the smaller."
            )
        return notes
