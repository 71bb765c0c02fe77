"""Verdict, ratings, what is not calculated, and the annex of limit states, as blocks of a sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bolewright.platform.file.demonstration import unconfirmed
from bolewright.platform.file.ratings import ratings_of
from bolewright.platform.limit_states import PartKind, Topic
from bolewright.platform.limit_states.check import Check, worst
from bolewright.platform.project import Project
from bolewright.platform.results.coverage import Cover, coverage
from bolewright.platform.results.not_calculated import not_calculated
from bolewright.platform.results.results import Results
from bolewright.platform.results.verdict import beside_verdict, verdict_lines
from bolewright.rendering.blocks import Cell, Statement, StatementKind, Table
from bolewright.sheets.opening import Blocks
from bolewright.sheets.places import derivation_place
from bolewright.sheets.rated_alone import rated_alone_sentences
from bolewright.status import Status

_STATUS = {Cover.CHECKED: Status.PASSES, Cover.FAILS: Status.FAILS, Cover.OPEN: Status.NOT_CHECKED}


# Number and name of the sheet that a topic stands on, as the contents list it.
SHEETS = {
    topic: f"{number} ({topic.value})"
    for topic, number in {
        Topic.DECKING: 3,
        Topic.JOISTS: 4,
        Topic.BEAMS: 5,
        Topic.HANGERS: 6,
        Topic.TREE_BOLTS: 7,
        Topic.POSTS: 8,
        Topic.FOOTINGS: 9,
        Topic.BRACES: 10,
        Topic.CLEARANCE: 11,
        Topic.STABILITY: 12,
        Topic.GUARDS: 14,
        Topic.ACCESS: 15,
    }.items()
}


def verdict_blocks(results: Results) -> Blocks:
    """The verdict at length, what must be said beside it, and a sentence for everything that fails or is open."""
    code = results.project.code.words or "not named in the file: ask the building department"
    alone = rated_alone_sentences(results, SHEETS)
    lines = verdict_lines(results)
    said = (f"Building code: {code}.", *lines[:-1], *alone, lines[-1])
    blocks = [Statement(StatementKind.READING, said)]
    beside = beside_verdict(results)
    if beside:
        blocks.append(Statement(StatementKind.CAUTION, beside))
    return Blocks((*blocks, *left_over(results.governing)))


def left_over(checks: Sequence[Check]) -> Iterator[Statement]:
    """The sentences of what fails, then of what is open, each under its own heading."""
    for status, kind in ((Status.FAILS, StatementKind.FAILURE), (Status.NOT_CHECKED, StatementKind.OPEN)):
        sentences = tuple(check.sentence for check in checks if check.status is status)
        if sentences:
            yield Statement(kind, sentences)


def ratings_table(results: Results) -> Table | Statement:
    """Ratings that were typed into the file, each with its source."""
    rows = tuple((r.words, r.source or "no source given") for r in ratings_of(results.project))
    if not rows:
        return Statement(StatementKind.NOTE, ("The file gives no rating.",))
    caption = "Ratings typed into the file: nobody here has seen them printed"
    return Table(("rating", "source"), rows, caption, "ll")


def unconfirmed_tables(project: Project) -> Iterator[Table]:
    """All values that equal the demonstration's and are not confirmed, where there are any."""
    rows = tuple((same.path, same.shown) for same in unconfirmed(project))
    if rows:
        caption = "Values equal to those that the demonstration invented: put your own, or confirm each"
        yield Table(("value of the file", "as the demonstration has it"), rows, caption, "ll")


def not_calculated_table(project: Project) -> Table:
    """What is not calculated, with who decides."""
    rows = tuple((n.what, n.who, n.why) for n in not_calculated(project))
    return Table(("matter", "who decides", "why"), rows, "Not calculated in these sheets", "lll")


def limit_state_table(results: Results) -> Table:
    """Every limit state of every kind of part, in the order of the load path."""
    order = {kind: i for i, kind in enumerate(PartKind)}
    rows = []
    for row in sorted(coverage(results.lateral, results.checks), key=lambda r: order[r.state.kind]):
        outcome = Cell(row.cover.value, _STATUS[row.cover]) if row.cover in _STATUS else row.cover.value
        if row.cover is Cover.NOT_APPLICABLE:
            said, page = row.why, Cell("")
        else:
            parts = "1 part" if row.parts == 1 else f"{row.parts} parts"
            said = f"{parts}, sheet {SHEETS[row.state.topic]}" + (f"; {row.why}" if row.why else "")
            of = [check for check in results.checks if check.key == row.state.key]
            worked = worst([check for check in of if check.calculation is not None])
            page = Cell("", to=derivation_place(worked[0]) if worked else "")
            unasked = [check for check in of if check.asks_nothing]
            if unasked and len(unasked) == len(of):
                outcome, said = "nothing asked", f"{said}; without a calculation: {unasked[0].sentence}"
            elif unasked:
                said += f"; nothing asked in {len(unasked)} of {len(of)} rows"
        rows.append((row.state.kind.value, row.state.plain, row.state.clause, outcome, said, page))
    left = not_calculated(results.project)
    rows += [("platform", n.what, "", "not calculated", f"decided by: {n.who}", Cell("")) for n in left]
    columns = ("part", "limit state", "clause", "outcome", "where, or why not", "page")
    return Table(columns, tuple(rows), "Limit states by kind of part", "llllll")
