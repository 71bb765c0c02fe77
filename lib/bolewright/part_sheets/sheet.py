"""A part sheet worked out: inputs read, steps run, limits judged."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import pint

from bolewright import units
from bolewright.fasteners import FastenerError
from bolewright.part_sheets.functions import functions_of
from bolewright.part_sheets.inputs import Inputs, PartError, asked_of, read
from bolewright.part_sheets.kind import Given, Kind, Limit, Step
from bolewright.rendering.blocks import Block, Cell, KeyValues, Statement, StatementKind, Table
from bolewright.rendering.numbers import excess, fmt, ratio, used
from bolewright.rendering.wording import plain
from bolewright.status import Status
from bolewright.units import NONE
from bolewright.worked import WorkedError, work
from bolewright.worked.units import unit_for

UNDER = "This part under the loads typed"
LEFT_BLANK = "______"
NOT_CHECKED = "What this sheet does not check"
REVIEW = (
    "For review, not an approval: local code, frost depth and permits rule; a licensed engineer, and for a tree a "
    "qualified arborist, decides."
)


@dataclass(frozen=True)
class Judged:
    """A limit of the sheet with its ratio; no number where it was not worked out."""

    limit: Limit
    ratio: float
    demand: Any = None
    capacity: Any = None
    says: str = ""

    @property
    def status(self) -> Status:
        """Within, over, or open."""
        if self.says:
            return Status.NOT_CHECKED
        return Status.PASSES if self.ratio <= 1 else Status.FAILS


@dataclass(frozen=True)
class PartSheet:
    """One part worked out; ``changed`` says what is not the kind's own in its steps."""

    kind: Kind
    texts: Mapping[str, str]
    inputs: Inputs
    given: Given
    values: Mapping[str, Any]
    steps: tuple[tuple[str, tuple[Block, ...]], ...]
    limits: tuple[Judged, ...]
    changed: str = ""

    @property
    def governing(self) -> Judged:
        """The limit that is open, else the one with the largest ratio."""
        return max(self.limits, key=lambda j: (bool(j.says), j.ratio if j.ratio == j.ratio else math.inf))

    @property
    def status(self) -> Status:
        """The worst of its limits; open before over, since an open one may be worse."""
        states = {j.status for j in self.limits}
        return next(s for s in (Status.FAILS, Status.NOT_CHECKED, Status.PASSES) if s in states)

    @property
    def verdict(self) -> str:
        """The result in a sentence, never more than it is."""
        return verdict_of(self.limits)


def part_sheet(
    kind: Kind,
    texts: Mapping[str, str],
    steps: Sequence[Step] | None = None,
    names: Mapping[str, Any] | None = None,
) -> PartSheet:
    """A part worked out from texts as a builder writes them; :class:`PartError` for inputs that can't be used.

    ``steps`` stand in place of the kind's own where a notebook's cells were changed; ``names`` are what else those
    know: a user's own formulas.
    """
    inputs = read(kind.model, texts)
    try:
        given = kind.given(inputs)
    except FastenerError as error:
        raise PartError({"": f"{str(error).rstrip('.')}."}) from None
    symbols = {s.name: s.sized for s in given.symbols}
    namespace: dict[str, Any] = {**functions_of(kind), **(names or {}), **symbols}
    values: dict[str, Any] = {}
    worked: list[tuple[str, tuple[Block, ...]]] = []
    for step in kind.steps if steps is None else steps:
        if step.when and not namespace.get(step.when):
            continue
        try:
            done = work(step.text, {**namespace, **values}, step.title)
        except WorkedError as error:
            said = f"{step.title} can't be worked out: {error}"
            worked.append((step.title, (Statement(StatementKind.OPEN, (said,)),)))
            continue
        values.update(done.values)
        worked.append((step.title, done.blocks))
    shown = {a.name: str(texts.get(a.name, a.default)) for a in asked_of(kind.model)}
    judged = judge(kind, {**namespace, **values})
    changed = "" if steps is None else _changed(kind, namespace, steps)
    return PartSheet(kind, shown, inputs, given, values, tuple(worked), judged, changed)


def _changed(kind: Kind, names: Mapping[str, Any], steps: Sequence[Step]) -> str:
    """What is not the kind's own in these steps, in a sentence; empty where all of it is."""
    own, steps = ([s for s in one if not s.when or names.get(s.when)] for one in (kind.steps, steps))
    texts = {s.title: s.text.strip() for s in own}
    ran = [s.title for s in steps]
    parts = [
        ("changed", [s.title for s in steps if s.title in texts and s.text.strip() != texts[s.title]]),
        ("added", [title for title in ran if title not in texts]),
        ("left out", [s.title for s in own if s.title not in ran]),
    ]
    said = "; ".join(f"{word} {', '.join(titles)}" for word, titles in parts if titles)
    moved = "" if said or ran == list(texts) else "its cells in another order"
    return f"The calculation is not this sheet's own: {said or moved}." if said or moved else ""


def judge(kind: Kind, names: Mapping[str, Any]) -> tuple[Judged, ...]:
    """Every limit of the kind, from the values under their symbols; one without a value is open."""
    return tuple(_judged(limit, names) for limit in kind.limits if not limit.when or names.get(limit.when))


def _judged(limit: Limit, names: Mapping[str, Any]) -> Judged:
    found, demand, capacity = (names.get(n) for n in (limit.symbol, limit.demand, limit.capacity))
    if found is None:
        return Judged(limit, math.nan, says=f"{limit.words} was not worked out")
    value = float(found.m_as("")) if isinstance(found, pint.Quantity) else float(found)
    if capacity is not None and number(capacity) <= 0 and number(demand) > 0:
        value = math.inf
    return Judged(limit, value, demand, capacity)


def number(value: Any) -> float:
    """The bare number of a value."""
    return float(value.magnitude) if isinstance(value, pint.Quantity) else float(value)


def verdict_of(limits: tuple[Judged, ...]) -> str:
    """What the ratios say of this part, and no more."""
    over = [j for j in limits if j.status is Status.FAILS]
    left = [j for j in limits if j.status is Status.NOT_CHECKED]
    also = [f"{j.limit.words} is open" for j in left]
    if over:
        said = [f"{j.limit.words} is {_excess(j.ratio)}" for j in over]
        change = dict.fromkeys(j.limit.change for j in over)
        return f"{UNDER}: {'; '.join([*said, *also])}. To change: {'; '.join(change)}."
    if left:
        change = dict.fromkeys(j.limit.change for j in left)
        return f"{UNDER}: {'; '.join(also)}. What it wants: {'; '.join(change)}."
    most = max(limits, key=lambda j: j.ratio)
    governs = f"{most.limit.words} governs with {used(most.ratio)} of allowable"
    return f"{UNDER}: {governs}; no limit on this sheet is exceeded."


def _excess(value: float) -> str:
    return excess(value) if math.isfinite(value) else "not borne at all"


def size(value: Any) -> str:
    """A value as the sheet prints it."""
    if value is None:
        return ""
    if not isinstance(value, pint.Quantity):
        return fmt(float(value))
    unit = unit_for(value)
    return fmt(float(value.m_as(unit.pint if unit is not NONE else "")), unit)


def input_block(sheet: PartSheet) -> KeyValues:
    """The inputs as they were typed."""
    own = [a for a in asked_of(sheet.kind.model) if a.name not in Inputs.model_fields]
    return KeyValues(tuple((a.title, sheet.texts[a.name] or "none") for a in own), "Inputs")


def given_block(sheet: PartSheet, *, blank: bool = False) -> Table:
    """The values that the steps begin with, and where they come from."""
    rows = tuple(
        (plain(s.name), LEFT_BLANK if blank and s.found else fmt(float(s.value), s.unit), s.words)
        for s in sheet.given.symbols
        if s.words
    )
    return Table(
        ("symbol", "value", "what it is"), rows, "Values that the calculation begins with", "lrl", (0, 0, 1)
    )


def limit_block(limits: tuple[Judged, ...]) -> Table:
    """The table of ratios."""
    rows = tuple(
        (
            j.limit.words,
            size(j.demand),
            size(j.capacity),
            Cell("open" if j.says else (ratio(j.ratio) if math.isfinite(j.ratio) else "none left"), j.status),
            j.limit.clause,
        )
        for j in limits
    )
    return Table(
        ("limit state", "demand", "allowed", "ratio", "clause"),
        rows,
        "Ratios, rounded up; a ratio over 1.0 fails",
        "lrrrl",
    )


def verdict_block(limits: tuple[Judged, ...]) -> Statement:
    """The verdict."""
    states = {j.status for j in limits}
    kind = StatementKind.READING
    if Status.FAILS in states:
        kind = StatementKind.FAILURE
    elif Status.NOT_CHECKED in states:
        kind = StatementKind.OPEN
    return Statement(kind, (verdict_of(limits),))


def notes_block(sheet: PartSheet) -> tuple[Block, ...]:
    """What must be said of the values."""
    return (Statement(StatementKind.NOTE, sheet.given.notes),) if sheet.given.notes else ()


def changed_block(sheet: PartSheet) -> tuple[Block, ...]:
    """What was changed by hand in the calculation, if anything was."""
    return (Statement(StatementKind.CAUTION, (sheet.changed,)),) if sheet.changed else ()


def not_checked_block(kind: Kind) -> Statement:
    """What the sheet does not check."""
    return Statement(StatementKind.CAUTION, (f"{NOT_CHECKED}: {'; '.join(kind.not_checked)}.", REVIEW))


def example_block(sheet: PartSheet) -> tuple[Block, ...]:
    """Where the inputs are those of the published example: what it says and what came out."""
    example = sheet.kind.example
    wanted = {**{a.name: a.default for a in asked_of(sheet.kind.model)}, **example.inputs}
    own = [n for n in wanted if n not in Inputs.model_fields]
    if any(sheet.texts[n] != wanted[n] for n in own):
        return ()
    told, within = [], True
    for one in example.values:
        found = sheet.values[one.symbol]
        out = one.comes_out(found)
        within = within and out
        source = f"by hand is {one.by} =" if one.by else "is published as"
        told.append(
            f"{one.says or one.symbol} {source} {fmt(one.value, one.unit)}; this sheet has "
            f"{fmt(float(units.magnitude(found, one.unit)), one.unit)}. "
            + ("It comes out." if out else "It does NOT come out: report it.")
        )
    said = " ".join((f"{example.name}: {example.source}.", *told, example.but, example.lone)).strip()
    return (Statement(StatementKind.NOTE if within else StatementKind.FAILURE, (said,)),)
