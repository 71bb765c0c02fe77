"""The door of a part's notebook: inputs as texts, blocks to display, the form, and print."""

from __future__ import annotations

import math
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pint
from IPython.core.error import UsageError
from IPython.core.getipython import get_ipython
from IPython.display import display

from bolewright.documents.content import PackageError
from bolewright.part_sheets.document import write
from bolewright.part_sheets.functions import assigned
from bolewright.part_sheets.inputs import PartError, asked_of
from bolewright.part_sheets.kind import Kind, Step
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.sheet import (
    Judged,
    PartSheet,
    example_block,
    given_block,
    input_block,
    judge,
    limit_block,
    not_checked_block,
    notes_block,
    part_sheet,
    size,
    verdict_block,
)
from bolewright.rendering.blocks import Block, Statement, StatementKind
from bolewright.rendering.wording import plain
from bolewright.units import shown
from bolewright.worked.magic import register
from bolewright.worked.values import sized

_STALE = (
    "Other inputs were typed into the form since the cells below it ran: run all cells again (Run, Run All Cells); "
    "what was typed is kept."
)
_APART = (
    "Not printed: {symbol} is {here} in this notebook, but {found} by its inputs and %%worked cells in order. Run all "
    "cells again; a change prints where it stands in a %%worked cell."
)
_FAULTY = "The form holds an input that can't be used: mend it there first."


class Shown(tuple[Block, ...]):
    """Blocks that one cell displays, in order."""

    __slots__ = ()

    def _ipython_display_(self) -> None:
        for block in self:
            display(block)  # type: ignore[no-untyped-call]


class _Followed(Shown):
    """Blocks of a cell below the form that say so when the form holds other inputs than they were made of."""

    part: Part
    name: str
    texts: Mapping[str, str]
    said: str = ""
    handles: tuple[Any, ...] = ()

    def _ipython_display_(self) -> None:
        self.handles = tuple(display(block, display_id=True) for block in self)  # type: ignore[no-untyped-call]
        if None not in self.handles:
            self.part.below[self.name] = self

    def tell(self, said: str) -> None:
        """Say it over the blocks, or take it back; a result is not shown under it."""
        if said == self.said:
            return
        self.said = said
        for place, (block, handle) in enumerate(zip(self, self.handles, strict=True)):
            kept = None if self.name == "result" else block
            handle.update(_Outdated("" if place else said, kept) if said else block)


@dataclass(frozen=True)
class _Outdated:
    """What stands in a block's place while the form holds other inputs: a sentence, the block under it or none."""

    said: str
    block: Block | None

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> dict[str, str]:
        parts: list[Block] = [Statement(StatementKind.OPEN, (self.said,))] if self.said else []
        bundles = [b._repr_mimebundle_() for b in (*parts, self.block) if b is not None]
        return {
            "text/html": "".join(b["text/html"] for b in bundles),
            "text/plain": "\n".join(b["text/plain"] for b in bundles),
        }


class Part:
    """One part of a notebook: what its first cell says, what was typed into the form, and what that gives."""

    def __init__(self, kind: Kind, texts: Mapping[str, str], *, example: bool = False) -> None:
        self.kind = kind
        self.example = example
        self.sheet: PartSheet = part_sheet(kind, texts)
        self.cell: Mapping[str, str] = self.sheet.texts
        self.typed: dict[str, str] = dict(self.cell)
        self.below: dict[str, _Followed] = {}
        self._faulty = False
        self._begun: PartSheet | None = None
        self._names: Mapping[str, Any] = {}
        self._ran: dict[object, Step] = {}

    def change(self, texts: Mapping[str, str]) -> None:
        """Take other inputs; :class:`PartError` for some that can't be used, and then the sheet stays."""
        self.typed = {**self.cell, **texts}
        self._faulty = True
        try:
            self.sheet = part_sheet(self.kind, texts)
            self._faulty = False
        finally:
            self._tell()

    def keep(self, before: object) -> None:
        """Take over what was typed into the form of ``before``, but where the first cell was changed since."""
        if not isinstance(before, Part) or (before.kind.name, before.example) != (
            self.kind.name,
            self.example,
        ):
            return
        kept = {n: t for n, t in before.over.items() if self.cell[n] == before.cell[n]}
        if kept:
            with suppress(PartError):  # the form shows it beside its field
                self.change({**self.cell, **kept})

    @property
    def over(self) -> dict[str, str]:
        """What the form holds in place of what the first cell says."""
        return {name: text for name, text in self.typed.items() if text != self.cell[name]}

    def outdated(self, texts: Mapping[str, str]) -> str:
        """Why what was made of these inputs is not of what the form holds; empty where it is."""
        if self._faulty:
            return _FAULTY
        return "" if texts == self.sheet.texts else _STALE

    def _tell(self) -> None:
        for cell in self.below.values():
            cell.tell(self.outdated(cell.texts))

    def _followed(self, name: str, texts: Mapping[str, str], *blocks: Block) -> Shown:
        shown = _Followed(blocks)
        shown.part, shown.name, shown.texts = self, name, texts
        return shown

    @property
    def symbols(self) -> dict[str, Any]:
        """The values that the calculation begins with, by symbol."""
        return {s.name: s.sized for s in self.sheet.given.symbols}

    def inputs(self) -> Shown:
        """What was typed."""
        return self._followed("inputs", self.sheet.texts, input_block(self.sheet))

    def figures(self) -> Shown:
        """Free-body diagram and what goes with it."""
        sheet = self.sheet
        return Shown(self.kind.figures(sheet.inputs, sheet.given, sheet.values, False))

    def given(self) -> Shown:
        """The values that the calculation begins with, and where they come from."""
        return self._followed("given", self.sheet.texts, given_block(self.sheet), *notes_block(self.sheet))

    def statics(self) -> Shown:
        """What comes before the steps: statics, or of a joint penetration, group action and geometry."""
        return Shown(self.sheet.given.before)

    def begin(self, names: dict[str, Any]) -> None:
        """Put the symbols among a notebook's names, and take away what an earlier run worked out."""
        for name in self.worked_out & set(names):
            del names[name]
        names.update(self.symbols)
        self._begun, self._names, self._ran = self.sheet, names, {}

    def ran(self, cell: str, title: str, text: str, when: str = "") -> None:
        """Take note of a ``%%worked`` cell that ran: its calculation is what a print holds.

        ``cell`` is its id, so that a cell run again stands in its former place; without one, title and first symbol.
        """
        self._ran[cell or (title, *assigned(text)[:1])] = Step(title, text, when)

    @property
    def worked_out(self) -> set[str]:
        """Every symbol that a step of this kind works out."""
        return {name for step in self.kind.steps for name in assigned(step.text)}

    def result(self, names: Mapping[str, Any] | None = None) -> Shown:
        """Ratios and verdict: of the names of the notebook, so that an edited cell counts, or of the inputs."""
        if names is None:
            return Shown(self._result(self.sheet.limits))
        said = _STALE if self._begun is None else self.outdated(self._begun.texts)
        if self._begun is None or said:
            return Shown((Statement(StatementKind.OPEN, (said,)),))
        return self._followed("result", self._begun.texts, *self._result(judge(self.kind, names)))

    def _result(self, limits: tuple[Judged, ...]) -> tuple[Block, ...]:
        return (limit_block(limits), verdict_block(limits), *example_block(self.sheet))

    def not_checked(self) -> Shown:
        """What the sheet does not check."""
        return Shown((not_checked_block(self.kind),))

    def print_to(self, out: str | Path, *, blank: bool = False) -> Path:
        """Write the sheet as PDF or HTML, by the name's end; ``blank`` is the form for teaching.

        It is worked out from the inputs by the ``%%worked`` cells as they ran, changed, added or left out, and says
        so. Refused where the notebook's names hold other values than those come to.
        """
        try:
            return write(self._as_run(), Path(out), blank=blank)
        except PackageError as error:
            raise UsageError(f"{error}.") from None

    def _as_run(self) -> PartSheet:
        """The sheet by the cells that ran since :meth:`begin`; of the inputs alone where none did."""
        sheet = self.sheet
        if self._ran:
            steps = list(self._ran.values())
            made = self.worked_out | set(self.symbols) | {n for step in steps for n in assigned(step.text)}
            others = {name: value for name, value in self._names.items() if name not in made}
            sheet = part_sheet(self.kind, sheet.texts, steps, others)
        if self._begun is not None and self._begun.texts == sheet.texts:
            for name, found in {**self.symbols, **sheet.values}.items():
                here = self._names.get(name, found)
                if not _same(here, found):
                    raise UsageError(_APART.format(symbol=plain(name), here=_said(here), found=_said(found)))
        return sheet

    def form(self) -> Any:
        """The result, and fields for the inputs."""
        from bolewright.part_sheets.form import form_of

        return form_of(self)


def open_part(kind: str, *, example: bool = False, kept: object = None, **given: object) -> Part:
    """A part of a kind (``beam``, ``post`` ...) from its inputs as a builder writes them, or as quantities and numbers.

    ``example`` puts the published example's inputs in their place. ``kept`` is the part of an earlier run of the cell:
    what was typed into its form stays, but where the texts given here are others than they were then. In a notebook a
    fault is one sentence, and the cell magic ``%%worked`` is there afterwards. Raises :class:`PartError` elsewhere.
    """
    shell = get_ipython()
    texts = {name: str(value) for name, value in given.items()}  # Q("12 ft") is written "12.0 ft", 3 as "3"
    try:
        if kind not in KINDS:
            raise PartError({"": f"There is no kind of part {kind!r}; the kinds are {', '.join(KINDS)}."})
        found = KINDS[kind]
        defaults = {a.name: a.default for a in asked_of(found.model)}
        part = Part(found, {**defaults, **found.example.inputs} if example else texts, example=example)
        part.keep(kept)
    except PartError as error:
        if shell is None:
            raise
        raise UsageError(str(error)) from None
    if shell is not None:
        register(shell, part.ran)
    return part


def _same(one: Any, other: Any) -> bool:
    """Whether two values are the same but for rounding."""
    try:
        here, found = sized(one), sized(other)
        return math.isclose(
            float(here.m_as(found.units)), float(found.magnitude), rel_tol=1e-9, abs_tol=1e-12
        )
    except (TypeError, ValueError):
        return False


def _said(value: Any) -> str:
    return size(value) if isinstance(value, pint.Quantity | int | float) else shown(value)
