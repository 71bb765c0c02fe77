"""A calc sheet of one kind of part: where it sits, inputs, hand calculation, table, reading, clauses, cautions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from bolewright.platform.limit_states.check import Check, Topic, worst
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import (
    Block,
    Cell,
    Figure,
    Heading,
    KeyValues,
    Statement,
    StatementKind,
    Table,
)
from bolewright.sheets.asked import asked
from bolewright.sheets.bounce import bounce_blocks
from bolewright.sheets.clauses import clause_lines
from bolewright.sheets.equations import EquationsError, Given, Written, chain_of, choose, code_of
from bolewright.sheets.figures import load_path_figure, plan_figure
from bolewright.sheets.governing import governing_of
from bolewright.sheets.guards import detail_blocks, edges_table, posts_table
from bolewright.sheets.inputs import inputs_of
from bolewright.sheets.lateral_cases import push_name, push_names
from bolewright.sheets.lateral_path import lateral_blocks
from bolewright.sheets.lateral_statics import lateral_statics
from bolewright.sheets.least import outcome, sizes
from bolewright.sheets.opening import Blocks, Shown, results_of
from bolewright.sheets.places import derivation_place, row_place
from bolewright.sheets.printing import Page, printed
from bolewright.sheets.statics import statics_blocks
from bolewright.sheets.verdict import left_over
from bolewright.sheets.words import CAUTIONS
from bolewright.status import Status

ANY = "any"  # combination of a check that no load enters


def open_sheet(project: str | Path, topic: str) -> Sheet:
    """Sheet of a topic (``joists``, ``tree bolts`` ...) for a project file."""
    return Sheet(results_of(project), Topic(topic))


@dataclass(frozen=True)
class Sheet:
    """One topic of one project's results; every method gives a block to display."""

    results: Results
    topic: Topic

    @property
    def checks(self) -> list[Check]:
        """Checks of the topic, worst first."""
        return worst(self.results.of(self.topic))

    def where(self) -> Blocks:
        """Plan with the parts highlighted, and where they sit on the path of the weight."""
        return Blocks((self.plan(), load_path_figure(self.results, self.topic)))

    def plan(self) -> Figure:
        """Plan with the parts of this sheet highlighted."""
        layout = self.results.path.layout
        drawn = {m.mark for m in layout.members} | {s.mark for s in layout.supports}
        return plan_figure(self.results, {check.part for check in self.checks} & drawn)

    def inputs(self) -> KeyValues:
        """The inputs that matter."""
        return KeyValues(inputs_of(self.results.path, self.topic), "Inputs")

    def lateral_path(self) -> Blocks:
        """Pushes that govern, how the deck moves, and what that brings to every support."""
        return Blocks(lateral_blocks(self.results))

    def calculation(self, part: str | None = None) -> Blocks:
        """Hand calculation of the governing part in every limit state, or of the part named."""
        blocks: list[Shown] = []
        page = Page()
        for check in self.governing(part):
            blocks += _hand_calculation(self.results, check, page)
        if not blocks:
            blocks.append(Statement(StatementKind.NOTE, ("There is nothing to calculate on this sheet.",)))
        return Blocks(tuple(blocks))

    def governing(self, part: str | None = None) -> list[Check]:
        """The worst check of each limit state, in the order in which they were made."""
        every = self.results.of(self.topic)
        made = [c for c in every if part is None or c.part == part]
        if part is not None and not made:
            parts = ", ".join(dict.fromkeys(c.part for c in every)) or "none"
            raise EquationsError(f"There is no part {part!r} on this sheet; there is {parts}.")
        return governing_of(made)

    def given(self, part: str = "", limit: str = "") -> Given:
        """Inputs of the check that governs, or of a part and limit state named, by symbol."""
        return Given(chain_of(choose(self.checks, part, limit)))

    def equations(self, part: str = "", limit: str = "") -> Written:
        """The equations of that check as lines of code: in a notebook they come into a new cell below."""
        check = choose(self.checks, part, limit)
        opening = f'given = sheet.given("{check.part}", "{check.limit_state}")'
        return Written(f"{opening}\n{code_of(chain_of(check))}")

    def table(self) -> Table:
        """Every check of the sheet: demand, capacity, ratio, governing combination."""
        made, names = self.results.of(self.topic), push_names(self.results)
        caption = "Every check of this sheet"
        if any(id(check) in names for check in made):
            caption += "; its lateral case by the number on the sheet Lateral stability"
        return check_table(made, caption, rows_here=True, cases=names)

    def reading(self) -> Blocks:
        """What it says in plain words: the worst check of each limit state."""
        blocks: list[Block] = list(left_over(self.checks))
        holding = tuple(c.sentence for c in self.governing() if c.status is Status.PASSES)
        if holding:
            blocks.append(Statement(StatementKind.READING, holding))
        notes = tuple(dict.fromkeys(note for check in self.governing() for note in check.notes))
        if notes:
            blocks.append(Statement(StatementKind.NOTE, notes))
        return Blocks(tuple(blocks))

    def bounce(self) -> Blocks:
        """How lively the floor is: first frequencies of the joists."""
        return bounce_blocks(self.results)

    def edges(self) -> Table:
        """Every edge of the outline: how high the floor is over the ground, and the guard there."""
        return edges_table(self.results)

    def posts(self) -> Table | Statement:
        """Setting out of a guard's posts."""
        return posts_table(self.results)

    def details(self) -> Blocks:
        """The joint of a guard's post."""
        return Blocks(detail_blocks(self.results))

    def clauses(self) -> Statement:
        """Clauses used on this sheet."""
        used = [c.clause for c in self.checks if c.clause]
        used += [step.formula.clause for check in self.governing() for step in check.steps]
        return Statement(StatementKind.CLAUSES, clause_lines(used))

    def cautions(self) -> Statement:
        """Cautions of this sheet."""
        return Statement(StatementKind.CAUTION, CAUTIONS[self.topic])


def _hand_calculation(results: Results, check: Check, page: Page) -> list[Shown]:
    head: list[Shown] = [
        Heading(f"{check.part}: {check.limit_state}", 3, derivation_place(check), row_place(check))
    ]
    if words := asked(check.key):
        head.append(Statement(StatementKind.ASIDE, (words,)))
    if check.status is Status.NOT_CHECKED:
        return [*head, Statement(StatementKind.OPEN, (check.sentence,))]
    if not check.steps:
        return [*head, Statement(StatementKind.READING, (check.sentence,))]
    place = f"{check.where[0].upper()}{check.where[1:]}. " if check.where else ""
    push = push_name(results, check)
    governs = f"Governing combination: {check.combination}."
    if check.combination == ANY:
        governs = "" if push else "It does not depend on the combination."
    named = f" Lateral case {push} on the sheet Lateral stability." if push else ""
    case = Statement(StatementKind.ASIDE, (f"{outcome(check)}{place}{governs}{named}",))
    statics = (*statics_blocks(results, check, page), *lateral_statics(results, check, page))
    return [*head, case, *statics, *printed(check.steps, page)]


def check_table(
    checks: list[Check],
    caption: str,
    *,
    rows_here: bool = False,
    cases: Mapping[int, str] = MappingProxyType({}),
) -> Table:
    """Table of checks: part, limit state, demand, capacity, ratio, combination, status; each leads to its derivation.

    ``rows_here`` where the derivations lead back to this table; ``cases`` number of the lateral case that governs a
    check, by its id: a column of its own where there is one.
    """
    columns = ("part", "limit state", "demand", "allowed", "ratio", "combination", "status")
    rows = tuple(_row(check, rows_here) for check in checks)
    if not any(id(check) in cases for check in checks):
        return Table(columns, rows, caption, "llrrrll")
    rows = tuple(
        (*row[:-1], cases.get(id(check), ""), row[-1]) for check, row in zip(checks, rows, strict=True)
    )
    return Table((*columns[:-1], "case", columns[-1]), rows, caption, "llrrrlrl")


def _row(check: Check, rows_here: bool) -> tuple[str | Cell, ...]:
    status = Cell(check.status.value, check.status)
    part = Cell(check.part, anchor=row_place(check)) if rows_here else check.part
    limit_state = Cell(check.limit_state, to=derivation_place(check))
    if check.status is Status.NOT_CHECKED:
        return (part, limit_state, "", "", "", "", status)
    demand, allowed = sizes(check)
    if check.asks_nothing:  # what is left is no strength, and no ratio of one
        least = f"least {allowed}" if check.capacity else "–"
        return part, limit_state, "none", least, "–", "–", "nothing asked"
    return (
        part,
        limit_state,
        demand,
        allowed,
        Cell(check.shown_ratio, check.status),
        "–" if check.combination == ANY else check.combination,
        status,
    )
