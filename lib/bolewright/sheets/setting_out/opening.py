"""What all setting-out sheets share: the results they read, the tape in hand, and the printed formulas."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cached_property

from bolewright.calculation import Step
from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.pieces import Piece, cut_pieces
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Statement, StatementKind, Table
from bolewright.sheets.lengths import Lengths, Tape
from bolewright.sheets.opening import Blocks
from bolewright.sheets.printing import printed

ROUNDING = (
    "All lengths are printed to the nearest sixteenth of an inch. Measure every mark from the one end named, do "
    "not add "
    "spacings up. Tolerances are common practice."
)
ROUNDING_METRIC = (
    "All lengths are printed to the nearest millimetre. Measure every mark from the one end named, do not add "
    "spacings "
    "up. Tolerances are common practice."
)


@dataclass(frozen=True)
class SettingOutSheet:
    """A setting-out sheet of one project's results; every method of it gives a block to display."""

    results: Results
    length: Lengths = field(default_factory=lambda: Lengths(Tape.FEET))

    @property
    def layout(self) -> Layout:
        """Arrangement that is set out."""
        return self.results.path.layout

    @cached_property
    def pieces(self) -> dict[str, Piece]:
        """Joists and beams as they are cut."""
        return {piece.mark: piece for piece in cut_pieces(self.layout)}

    def rounding(self) -> Statement:
        """How to read the lengths."""
        words = ROUNDING if self.length.tape is Tape.FEET else ROUNDING_METRIC
        return Statement(StatementKind.NOTE, (words,))


def filled(table: Table) -> Table:
    """The table without the columns that no row has anything in."""
    keep = [i for i, column in enumerate(zip(*table.rows, strict=True)) if any(column)] if table.rows else []
    if len(keep) in (0, len(table.columns)):
        return table
    return Table(
        tuple(table.columns[i] for i in keep),
        tuple(tuple(row[i] for i in keep) for row in table.rows),
        table.caption,
        "".join(table.align[i] for i in keep),
        tuple(table.widths[i] for i in keep) if table.widths else (),
    )


def note(*items: str) -> Statement:
    """A note."""
    return Statement(StatementKind.NOTE, tuple(items))


def caution(*items: str) -> Statement:
    """A caution."""
    return Statement(StatementKind.CAUTION, tuple(items))


def hand(steps: Iterable[Step]) -> Blocks:
    """The formulas of one part, printed with their numbers."""
    return Blocks(tuple(printed(steps)))
