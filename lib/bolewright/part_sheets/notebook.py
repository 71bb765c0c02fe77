"""The door of a part's notebook: inputs as texts, blocks to display, the form, and print."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from IPython.core.error import UsageError
from IPython.core.getipython import get_ipython
from IPython.display import display

from bolewright.documents.content import PackageError
from bolewright.part_sheets.document import write
from bolewright.part_sheets.functions import assigned
from bolewright.part_sheets.inputs import PartError, asked_of
from bolewright.part_sheets.kind import Kind
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.sheet import (
    PartSheet,
    example_block,
    given_block,
    input_block,
    judge,
    limit_block,
    not_checked_block,
    notes_block,
    part_sheet,
    verdict_block,
)
from bolewright.rendering.blocks import Block, Statement, StatementKind
from bolewright.worked.magic import register

_STALE = "The inputs are not those that the cells above were run with: run all cells again."


class Shown(tuple[Block, ...]):
    """Blocks that one cell displays, in order."""

    __slots__ = ()

    def _ipython_display_(self) -> None:
        for block in self:
            display(block)  # type: ignore[no-untyped-call]


class Part:
    """One part of a notebook: what was typed, and what it gives."""

    def __init__(self, kind: Kind, texts: Mapping[str, str]) -> None:
        self.kind = kind
        self._begun: PartSheet | None = None
        self.sheet: PartSheet = part_sheet(kind, texts)

    def change(self, texts: Mapping[str, str]) -> None:
        """Take other inputs; :class:`PartError` for some that can't be used, and then nothing changes."""
        self.sheet = part_sheet(self.kind, texts)

    @property
    def symbols(self) -> dict[str, Any]:
        """The values that the calculation begins with, by symbol."""
        return {s.name: s.sized for s in self.sheet.given.symbols}

    def inputs(self) -> Shown:
        """What was typed."""
        return Shown((input_block(self.sheet),))

    def figures(self) -> Shown:
        """Free-body diagram and what goes with it."""
        sheet = self.sheet
        return Shown(self.kind.figures(sheet.inputs, sheet.given, sheet.values, False))

    def given(self) -> Shown:
        """The values that the calculation begins with, and where they come from."""
        return Shown((given_block(self.sheet), *notes_block(self.sheet)))

    def statics(self) -> Shown:
        """Reactions, and the moment at the section that governs."""
        return Shown(self.sheet.given.before)

    def begin(self, names: dict[str, Any]) -> None:
        """Put the symbols among a notebook's names, and take away what an earlier run worked out."""
        for name in self.worked_out & set(names):
            del names[name]
        names.update(self.symbols)
        self._begun = self.sheet

    @property
    def worked_out(self) -> set[str]:
        """Every symbol that a step of this kind works out."""
        return {name for step in self.kind.steps for name in assigned(step.text)}

    def result(self, names: Mapping[str, Any] | None = None) -> Shown:
        """Ratios and verdict: of the names of the notebook, so that an edited cell counts, or of the inputs."""
        if names is not None and self._begun is not self.sheet:
            return Shown((Statement(StatementKind.OPEN, (_STALE,)),))
        limits = self.sheet.limits if names is None else judge(self.kind, names)
        return Shown((limit_block(limits), verdict_block(limits), *example_block(self.sheet)))

    def not_checked(self) -> Shown:
        """What the sheet does not check."""
        return Shown((not_checked_block(self.kind),))

    def print_to(self, out: str | Path, *, blank: bool = False) -> Path:
        """Write the sheet of the inputs as PDF or HTML, by the name's end; ``blank`` is the form for teaching."""
        try:
            return write(self.sheet, Path(out), blank=blank)
        except PackageError as error:
            raise UsageError(f"{error}.") from None

    def form(self) -> Any:
        """The result, and fields for the inputs."""
        from bolewright.part_sheets.form import form_of

        return form_of(self)


def open_part(kind: str, *, example: bool = False, **texts: str) -> Part:
    """A part of a kind (``beam``, ``post`` ...) from its inputs as a builder writes them.

    ``example`` puts the published example's inputs in their place. In a notebook a fault is one sentence, and the
    cell magic ``%%worked`` is there afterwards. Raises :class:`PartError` elsewhere.
    """
    shell = get_ipython()
    try:
        if kind not in KINDS:
            raise PartError({"": f"There is no kind of part {kind!r}; the kinds are {', '.join(KINDS)}."})
        found = KINDS[kind]
        defaults = {a.name: a.default for a in asked_of(found.model)}
        part = Part(found, {**defaults, **found.example.inputs} if example else texts)
    except PartError as error:
        if shell is None:
            raise
        raise UsageError(str(error)) from None
    if shell is not None:
        register(shell)
    return part
