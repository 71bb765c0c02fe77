"""What all take-off sheets share: the results, the take-off found once, and the tape in hand."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Statement, StatementKind
from bolewright.sheets.lengths import Lengths, Tape
from bolewright.take_off.take_off import TakeOff, find_take_off

FROM_MEMORY = "from memory, confirm against the printed document"


@dataclass(frozen=True)
class TakeOffSheet:
    """A take-off sheet of one project's results; every method of it gives a block to display."""

    results: Results
    length: Lengths = field(default_factory=lambda: Lengths(Tape.FEET))

    @cached_property
    def take_off(self) -> TakeOff:
        """The take-off, found once."""
        return find_take_off(self.results)

    def not_counted(self) -> Statement:
        """What none of the lists counts, loud."""
        said = []
        for item in self.take_off.uncounted:
            marks = f" ({item.marks})" if item.marks else ""
            number = f", {item.number}" if item.number is not None else ""
            long = f", {self.length(item.length)} in all" if item.length is not None else ""
            said.append(f"Not counted: {item.what}{marks}{number}{long}: {item.why}.")
        return Statement(StatementKind.CAUTION, tuple(said))
