"""The ten checks nearest to their limits, and what is open, each leading to its derivation."""

from __future__ import annotations

from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Cell, Statement, StatementKind, Table
from bolewright.sheets.least import sizes
from bolewright.sheets.places import derivation_place
from bolewright.sheets.sheet import ANY
from bolewright.sheets.verdict import left_over
from bolewright.status import Status

TEN = 10


def governing_checks(results: Results, count: int = TEN) -> list[Check]:
    """The worst check of each limit state, the failing first, as many as asked for; none that is open.

    A size that passes and that no load enters (a code's least width) comes after all that bears a load: at its limit
    it is as it should be.
    """
    found: dict[str, Check] = {}
    for check in results.governing:
        if check.status is not Status.NOT_CHECKED:
            found.setdefault(check.key, check)
    ordered = sorted(found.values(), key=lambda c: c.status is Status.PASSES and c.combination in ("", ANY))
    return ordered[:count]


def nearest(results: Results) -> Cell | None:
    """The check nearest to its limit, or past it, leading to its derivation; None where none has been made."""
    found = governing_checks(results, 1)
    if not found:
        return None
    words = f"{found[0].part}: {found[0].limit_state}, ratio {found[0].shown_ratio}"
    return Cell(words, to=derivation_place(found[0]))


def governing_table(results: Results) -> Table:
    """The ten governing checks."""
    rows = tuple(
        (
            check.part,
            Cell(check.limit_state, to=derivation_place(check)),
            *sizes(check),
            Cell(check.shown_ratio, check.status),
            check.combination,
            Cell("", to=derivation_place(check)),
        )
        for check in governing_checks(results)
    )
    columns = ("part", "limit state", "demand", "allowed", "ratio", "combination", "derivation")
    caption = (
        "The governing check of each of ten limit states; a ratio over 1.0 fails. Sizes that no load enters come last. "
        "Pages are those of package.pdf"
    )
    return Table(columns, rows, caption, "llrrrll")


def open_blocks(results: Results) -> tuple[Statement, ...]:
    """What fails and what is open, in sentences."""
    found = tuple(left_over(results.governing))
    return found or (Statement(StatementKind.NOTE, ("No check fails and none is open.",)),)
